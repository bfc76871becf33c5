import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { si } from "../../src/core/quantity/index.js";
import { conduitFill, fillCase, mostConductors } from "../../src/electrical/conduit-fill.js";
import { gaugeNumber } from "../../src/electrical/gauge.js";
import { conductorArea, emtBores } from "../../src/electrical/tables/conduit-fill.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("electrical/conduit-fill.csv");
const of = (kind: string) => rows.filter(({ row }) => row === kind);
const trades = { half: "1/2 in", three_quarters: "3/4 in", one: "1 in", one_and_a_quarter: "1 1/4 in" } as const;

const shares = { one: 0.53, two: 0.31, several: 0.4, nipple: 0.6 } as const;
const printedArea = (size: string) => conductorArea.rows.find(([key]) => key === gaugeNumber(size as "12 AWG"))![1];
const circle = (inches: number) => (Math.PI / 4) * inches ** 2;

describe("the printed tables", () => {
  test.each(of("area_in2"))("area of tubing, $of", (row) => {
    for (const [column, trade] of Object.entries(trades)) {
      const area = (Number.parseInt(row.of!, 10) / 100) * circle(emtBores[trade]);
      expect(Math.abs(area - Number(row[column]))).toBeLessThanOrEqual(tolerance);
    }
  });

  test.each(of("conductor_in2"))("area of a conductor, $of", (row) => {
    expect(printedArea(row.of!) / 0.0254 ** 2).toBeCloseTo(Number(row.half), 9);
    // and it is the circle of the printed diameter, to the last printed digit or one beside it
    expect(Math.abs(circle(Number(row.three_quarters)) - Number(row.half))).toBeLessThanOrEqual(tolerance / 10);
  });
});

describe("electrical/conduit-fill", () => {
  test.each(of("most"))("takes as many conductors as printed: $of", (row) => {
    for (const [column, emt] of Object.entries(trades)) {
      const most = Number(row[column]);
      const verdict = (count: number) =>
        conduitFill({ raceway: { emt }, wires: [{ size: row.of as "12 AWG", count }] }).verdict;
      expect([emt, verdict(most), verdict(most + 1)]).toEqual([emt, "pass", "fail"]);
    }
  });

  test("passes wires that fill exactly what may be filled", () => {
    // 3 of 3 mm and 1 of 4 mm take pi/4 (27 + 16) mm², 40 % of a bore of 10.368 mm
    const bore = { value: Math.sqrt(43 / 0.4), unit: "mm" };
    const wires = [
      { diameter: "3 mm", count: 3 },
      { diameter: "4 mm", count: 1 },
    ];
    expect(conduitFill({ raceway: { bore }, wires })).toMatchObject({ verdict: "pass", messageId: "within" });
    expect(conduitFill({ raceway: { bore: { ...bore, value: bore.value - 0.001 } }, wires }).verdict).toBe("fail");
  });

  test("says how many fit, shows the steps, and offers a size that does", () => {
    const finding = conduitFill({ raceway: { emt: "1/2 in" }, wires: [{ size: "10 AWG", count: 6 }] });
    expect(finding.message).toBe("6 conductors of 10 AWG are too many for the raceway; it takes 5.");
    expect(finding.workings.map(({ text }) => text)).toEqual([
      "Area of a THHN or THWN-2 conductor, by gauge, at 10: 0.0211 in2",
      "allowed = share * pi / 4 * bore^2: 40 % * pi / 4 * 0.622 in^2 = 0.122 in2",
      "fits = allowed / each: 0.122 in2 / 0.0211 in2 = 5.76",
      "6 at most 5: does not hold",
    ]);
    expect(finding.basis[0]).toMatchObject({ document: "NEC", section: "Chapter 9, Table 1" });
    expect(finding.remedies.map(({ message }) => message)).toEqual([
      "Use tubing of trade size 3/4 in.",
      "Use tubing of trade size 1 in.",
      "Use tubing of trade size 1 1/4 in.",
    ]);
  });

  test("asks for what was not measured and for a closer measurement", () => {
    expect(conduitFill({ raceway: { emt: "1/2 in" }, wires: [{ count: 2 }] })).toMatchObject({
      verdict: "review",
      missing: [{ path: ["wires", 0, "size"] }, { path: ["wires", 0, "diameter"] }],
    });
    const wires = [
      { diameter: "3 mm", count: 3 },
      { diameter: "4 mm", count: 1 },
    ];
    expect(conduitFill({ raceway: { bore: "10.4 mm ± 0.2 mm" }, wires })).toMatchObject({
      verdict: "review",
      messageId: "tooCloseToCall",
      missing: [{ path: ["raceway", "bore"] }],
    });
  });

  test("points at a diameter that cannot be read", () => {
    const read = conduitFill.try({ raceway: { bore: "16" }, wires: [{ diameter: "3 mm", count: 1 }] });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["raceway", "bore"], code: "noUnit" });
  });

  test("gives a nipple 60 %, and has no rule under another code", () => {
    const input = { raceway: { emt: "1/2 in" as const }, wires: [{ size: "10 AWG" as const, count: 8 }] };
    expect(conduitFill(input).verdict).toBe("fail");
    expect(conduitFill({ ...input, raceway: { ...input.raceway, nipple: true } }).verdict).toBe("pass");
    expect(conduitFill(input, { jurisdiction: { adopted: { iec60364: 2017 } } }).messageId).toBe("noRule");
  });

  test("a wider bore or a thinner wire never takes fewer", () => {
    const length = (least: number, most: number) =>
      fc.double({ min: least, max: most, noNaN: true }).map((value) => si(value, "mm"));
    fc.assert(
      fc.property(length(10, 60), length(2, 9), fc.double({ min: 1, max: 2, noNaN: true }), (bore, wire, more) => {
        const count = (inside: number, each: number) =>
          mostConductors(si(inside, "m"), si(circle(each), "m2"), (fill) => shares[fill]);
        expect(count(bore * more, wire)).toBeGreaterThanOrEqual(count(bore, wire));
        expect(count(bore, wire / more)).toBeGreaterThanOrEqual(count(bore, wire));
      }),
    );
  });

  test("knows the four shares", () => {
    expect([1, 2, 3, 40].map((count) => fillCase(count, false))).toEqual(["one", "two", "several", "several"]);
    expect(fillCase(2, true)).toBe("nipple");
  });
});

describe("traps", () => {
  test("rounded too early: the tube's 0.598 in² gives 11 of 6 AWG, the conductor's diameter 62 of 14 AWG; the table 12 and 61", () => {
    expect(Math.floor(0.598 / 0.0507 + 0.2)).toBe(11);
    expect(Math.floor((0.4 * circle(1.38)) / circle(0.111) + 0.2)).toBe(62);
    const verdict = (size: "6 AWG" | "14 AWG", count: number) =>
      conduitFill({ raceway: { emt: "1 1/4 in" }, wires: [{ size, count }] }).verdict;
    expect([verdict("6 AWG", 12), verdict("14 AWG", 61), verdict("14 AWG", 62)]).toEqual(["pass", "pass", "fail"]);
  });

  test("two conductors take 31 %, not 40 %: 1.86 counts as two, 2.4 would too", () => {
    const two = (size: "6 AWG" | "4 AWG") =>
      conduitFill({ raceway: { emt: "1/2 in" }, wires: [{ size, count: 2 }] }).verdict;
    expect([two("6 AWG"), two("4 AWG")]).toEqual(["pass", "fail"]);
  });

  test("a flat cable is a circle as wide as it is, one conductor for the share", () => {
    const cable = (count: number) =>
      conduitFill({ raceway: { emt: "3/4 in" }, wires: [{ diameter: "0.41 in", count }] }).limit!.text;
    expect([cable(1), cable(2)]).toEqual(["1", "1"]);
  });
});
