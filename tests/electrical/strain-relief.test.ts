import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { si } from "../../src/core/quantity/index.js";
import { strainRelief, tradeSizeOf } from "../../src/electrical/strain-relief.js";
import { knockouts, type TradeSize } from "../../src/electrical/tables/knockouts.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("electrical/strain-relief.csv");

const clamp = {
  fitted: true,
  cordDiameter: "0.72 in",
  clampLeast: "0.6 in",
  clampMost: "0.85 in",
  trade: "3/4 in",
  knockout: "1.11 in",
  holds: true,
} as const;

describe("electrical/strain-relief", () => {
  test.each(rows)("knows the knockout of trade size $trade", (row) => {
    const trade = row.trade as TradeSize;
    expect(knockouts[trade].nominal_in).toBeCloseTo(Number(row.nominal_in), 3);
    const verdict = (inches: number) =>
      strainRelief({ ...clamp, trade, knockout: { value: inches, unit: "in" } }).verdict;
    const [least, most] = [Number(row.least_in), Number(row.most_in)];
    expect([least, most].map(verdict)).toEqual(["pass", "pass"]);
    expect([least - tolerance, most + tolerance].map(verdict)).toEqual(["fail", "fail"]);
    if (row.hole_saw_in) expect(verdict(Number(row.hole_saw_in))).toBe("pass");
  });

  test("passes a cord exactly at both ends of the clamp's range", () => {
    for (const cordDiameter of ["0.6 in", "0.85 in"]) {
      expect(strainRelief({ ...clamp, cordDiameter }).parts[0]).toMatchObject({ messageId: "grips" });
    }
  });

  test("says what is wrong with hole and cord at once and offers the size that fits", () => {
    const finding = strainRelief({ ...clamp, knockout: "1.38 in" });
    expect(finding.message).toBe(
      "The hole of 1.38 in is too large for a connector of trade size 3/4 in, which wants 1.09 in to 1.14 in: its locknut does not hold.",
    );
    expect(finding.workings.map(({ text }) => text)).toEqual([
      "0.72 in at least 0.6 in: holds",
      "0.72 in at most 0.85 in: holds",
      "1.38 in at least 1.09 in: holds",
      "1.38 in at most 1.14 in: does not hold",
    ]);
    expect(finding.remedies.map(({ message }) => message)).toEqual([
      "Fit a clamp for the same cord with a connector of trade size 1 in.",
    ]);
    expect(finding.basis.map(({ section }) => section)).toContain("400.14");
  });

  test("cites the section of the edition, and habit where no code of the kind binds", () => {
    const basis = (adopted: object) => strainRelief(clamp, { jurisdiction: { adopted } }).basis;
    expect(basis({ nec: 2014 }).map(({ section }) => section)).toContain("400.10");
    expect(basis({ iec60364: 2017 }).map(({ force }) => force)).toContain("practice");
  });

  test("does not take what was not looked at for good", () => {
    expect(strainRelief({})).toMatchObject({ verdict: "review", missing: [{ path: ["fitted"] }] });
    expect(strainRelief({ ...clamp, holds: undefined as never })).toMatchObject({ verdict: "review" });
    expect(strainRelief({ fitted: true }).missing.map(({ path }) => path[0])).toEqual([
      "cordDiameter",
      "clampLeast",
      "clampMost",
      "trade",
      "knockout",
      "holds",
    ]);
  });

  test("asks for a closer measurement of a cord near the end of the range", () => {
    expect(strainRelief({ ...clamp, cordDiameter: "0.84 in ± 0.03 in" })).toMatchObject({
      verdict: "review",
      messageId: "tooCloseToCall",
      missing: [{ path: ["cordDiameter"] }],
    });
  });

  test("points at a diameter that cannot be read", () => {
    expect(strainRelief.try({ ...clamp, knockout: 1.11 }).fault?.issues[0]).toMatchObject({ path: ["knockout"] });
  });

  test("no hole is right for two trade sizes, and the remedy is one that is right", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 3, noNaN: true }), (inches) => {
        const right = Object.values(knockouts).filter(
          ({ least_in, most_in }) => inches >= least_in && inches <= most_in,
        );
        expect(right.length).toBeLessThanOrEqual(1);
        const trade = tradeSizeOf(si(inches, "in"));
        if (right.length === 1) expect(knockouts[trade!]).toBe(right[0]);
        const finding = strainRelief({ ...clamp, knockout: { value: inches, unit: "in" } });
        expect(finding.remedies.length).toBe(trade === undefined || trade === "3/4 in" ? 0 : 1);
      }),
    );
  });
});

describe("traps", () => {
  test("a trade size is not a diameter: a hole of 3/4 in takes no 3/4 in connector, one of 1 1/8 in does", () => {
    expect(strainRelief({ ...clamp, knockout: "3/4 in" }).messageId).toBe("holeSmall");
    expect(strainRelief({ ...clamp, knockout: "1 1/8 in" }).verdict).toBe("pass");
  });

  test("1.115 in, quoted elsewhere as the 3/4 in knockout, lies within this one", () => {
    expect(strainRelief({ ...clamp, knockout: "1.115 in" }).verdict).toBe("pass");
  });
});
