import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inUnit, si } from "../../src/core/quantity/index.js";
import { makeupNeed, makeupOpening } from "../../src/venting/index.js";
import { draughtClasses, infiltrationFactors, openingRows } from "../../src/venting/tables/makeup-opening.js";
import { reference } from "../references.js";

const { rows } = reference("venting/makeup-opening.csv");
const none = "0 cfm";

describe("the tables", () => {
  test("are the printed ones, transcribed a second time as ranges that join", () => {
    const columns = ["sealed_cfm", "fan_cfm", "one_cfm", "several_cfm"];
    rows.forEach((row, i) => {
      const ranges = columns.map((column) => row[column]!.split("-").map(Number));
      expect(openingRows[i]).toEqual([Number(row.opening_in), ...ranges.map(([, most]) => most)]);
      if (i > 0) expect(ranges.map(([least]) => least! - 1)).toEqual(openingRows[i - 1]!.slice(1));
    });
    expect(rows).toHaveLength(openingRows.length);
    expect(infiltrationFactors).toEqual({
      sealed: 0.15,
      "fan-assisted": 0.09,
      "one natural": 0.06,
      "several natural": 0.03,
    });
  });
});

describe("venting/makeup-opening", () => {
  test("reproduces the published form: 9668 ft², credit 1450 cfm, exhaust 375 cfm, none needed", () => {
    // the hood stands on the form at 80 % already: 240 cfm of 300 cfm
    const { values } = makeupOpening({
      floorArea: "9668 ft2",
      draught: "sealed",
      continuous: none,
      exhaustRate: "135 cfm",
      largest: "300 cfm",
      next: none,
    });
    const cfm = (name: string) => (values[name] as { si: number }).si / si(1, "cfm");
    expect(cfm("credit")).toBeCloseTo(1450.2, 6);
    expect(cfm("exhausted")).toBeCloseTo(375, 6);
    expect(cfm("need")).toBeLessThan(0);
    expect(values.diameter).toBeNull();
  });

  test.each(rows)("gives a $opening_in in opening at both ends of its range in every column", (row) => {
    draughtClasses.forEach((draught, i) => {
      const [least, most] = Object.values(row)[i + 1]!.split("-").map(Number) as [number, number];
      for (const cfm of [least, most]) {
        // no floor area, all of it continuous exhaust: the need is that exhaust and a dryer of nothing
        const { values } = makeupOpening({
          floorArea: "0 ft2",
          draught,
          continuous: `${cfm} cfm`,
          exhaustRate: none,
          largest: none,
          next: none,
        });
        expect(inUnit((values.diameter as { si: number }).si as never, "in")).toBeCloseTo(Number(row.opening_in), 9);
      }
    });
  });

  test("counts the next largest fan, unless everything is sealed", () => {
    const house = {
      floorArea: si(1000, "ft2"),
      continuous: si(0, "cfm"),
      dryer: si(135, "cfm"),
      largest: si(300, "cfm"),
      next: si(100, "cfm"),
    };
    const cfm = (draught: "sealed" | "one natural") => inUnit(makeupNeed({ ...house, draught }), "cfm");
    expect(cfm("one natural")).toBeCloseTo(135 + 240 + 80 - 60, 9);
    expect(cfm("sealed")).toBeCloseTo(135 + 240 - 150, 9);
  });

  test("a weaker draught never needs less, a larger house never more", () => {
    const area = fc.integer({ min: 0, max: 9000 });
    fc.assert(
      fc.property(area, area, fc.integer({ min: 0, max: 2 }), (a, b, i) => {
        const need = (feet: number, draught: (typeof draughtClasses)[number]) =>
          makeupNeed({
            floorArea: si(feet, "ft2"),
            draught,
            continuous: si(20, "cfm"),
            dryer: si(135, "cfm"),
            largest: si(400, "cfm"),
            next: si(0, "cfm"),
          });
        expect(need(a, draughtClasses[i + 1]!)).toBeGreaterThanOrEqual(need(a, draughtClasses[i]!));
        expect(need(Math.max(a, b), draughtClasses[i]!)).toBeLessThanOrEqual(need(Math.min(a, b), draughtClasses[i]!));
      }),
    );
  });

  test("shows its steps, takes the dryer's default and says so", () => {
    const sum = makeupOpening({
      floorArea: "2000 ft2",
      draught: "one natural",
      continuous: none,
      largest: "300 cfm",
      next: "90 cfm",
      elbows: 1,
    });
    expect(sum.workings.map(({ text }) => text)).toEqual([
      "credit = factor * area * (1 ft / minute): 0.06 * 2,000 ft2 * (1 ft / minute) = 120 cfm",
      "exhausted = continuous + dryer + 0.8 * largest + 0.8 * second: 0 cfm + 135 cfm + 0.8 * 300 cfm + 0.8 * 90 cfm = 447 cfm",
      "need = exhausted - credit: 447 cfm - 120 cfm = 327 cfm",
    ]);
    expect(sum.values.device).toMatchObject({ text: "powered make-up air: more than any opening of the table gives" });
    expect(sum.assumptions.join()).toMatch(/135 cfm is assumed/);
  });

  test("carries a tolerance through; asks for what is missing; points at what cannot be read", () => {
    const input = {
      floorArea: "2000 ft2 ± 100 ft2",
      draught: "sealed" as const,
      continuous: none,
      largest: none,
      next: none,
    };
    expect(makeupOpening(input).values.credit).toMatchObject({ tolerance: { text: "15 cfm" } });
    expect(
      makeupOpening({ floorArea: "2000 ft2", draught: "sealed", next: none }).missing.map(({ path }) => path[0]),
    ).toEqual(["continuous", "largest"]);
    expect(makeupOpening.try({ floorArea: "2000" }).fault?.issues[0]).toMatchObject({ path: ["floorArea"] });
  });
});
