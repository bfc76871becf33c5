import { describe, expect, test } from "vitest";
import { si } from "../../src/core/quantity/index.js";
import {
  cookingDemand,
  cookingDemandC,
  cookingFactorA,
  cookingFactorB,
  excessKilowatts,
  raisedAverage,
  rangeDemand,
} from "../../src/electrical/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("electrical/range-demand.csv");
const groups = (text: string) =>
  text.split(";").map((part) => {
    const [rating, count] = part.split("x");
    return { rating: si(Number(rating), "kW"), count: Number(count) };
  });
const value = (calculation: ReturnType<typeof rangeDemand>, name: string) =>
  (calculation.values[name] as { si: number } | null)?.si ?? null;

describe("the cooking table", () => {
  test("is the printed one, transcribed a second time by column", () => {
    const upTo25 = (column: (n: number) => number) => Array.from({ length: 25 }, (_, i) => column(i + 1)).join(" ");
    const percent = (f: (n: number) => number) => (n: number) => Math.round(f(n) * 100);
    expect(upTo25(percent(cookingFactorA))).toBe(
      "80 75 70 66 62 59 56 53 51 49 47 45 43 41 40 39 38 37 36 35 34 33 32 31 30",
    );
    expect(upTo25(percent(cookingFactorB))).toBe(
      "80 65 55 50 45 43 40 36 35 34 32 32 32 32 32 28 28 28 28 28 26 26 26 26 26",
    );
    expect(upTo25((n) => cookingDemandC(n) / 1000)).toBe(
      "8 11 14 17 20 21 22 23 24 25 26 27 28 29 30 31 32 33 34 35 36 37 38 39 40",
    );
    expect([26, 30, 31, 40, 41, 50, 51, 60, 61, 99].map(percent(cookingFactorB))).toEqual([
      24, 24, 22, 22, 20, 20, 18, 18, 16, 16,
    ]);
    expect([26, 40, 41, 61].map((n) => cookingDemandC(n) / 1000)).toEqual([41, 55, 55.75, 70.75]);
    expect([26, 61].map(percent(cookingFactorA))).toEqual([30, 30]);
  });

  test("column C rises with every appliance; the total by column B does not, and that is no mistake", () => {
    for (let n = 1; n < 80; n++) expect(cookingDemandC(n + 1)).toBeGreaterThan(cookingDemandC(n));
    const falls = Array.from({ length: 70 }, (_, i) => i + 2).filter(
      (n) => n * cookingFactorB(n) < (n - 1) * cookingFactorB(n - 1),
    );
    expect(falls).toEqual([16, 21, 26, 31, 41, 51, 61]);
  });

  test("counts a major fraction from half a kilowatt on", () => {
    const over = (kilowatts: number) => excessKilowatts(si(12 + kilowatts, "kW"));
    expect([0.4, 0.5, 1.6, 2.05, 2.4, 2.5].map(over)).toEqual([0, 1, 2, 2, 2, 3]);
    expect(excessKilowatts(si(8, "kW"))).toBe(0);
  });

  test("lifts what is below 12 kW to 12 kW before averaging: 14 kW, not 12 kW, for 8 and 16", () => {
    expect(raisedAverage(groups("8x1;16x1"))).toBe(14_000);
  });

  test("reads columns A and B each with the number in that column: 7.2 kW, not the 6.45 kW of the total count", () => {
    expect(cookingDemand(groups("3x1;6x1")).demand).toBeCloseTo(7200, 6);
  });
});

describe("electrical/range-demand", () => {
  test.each(rows)("$ratings_kW comes to $demand_kW kW", ({ ratings_kW, demand_kW }) => {
    expect(Math.abs(cookingDemand(groups(ratings_kW!)).demand / 1000 - Number(demand_kW))).toBeLessThanOrEqual(
      tolerance,
    );
  });

  test("the raise multiplies the whole of column C, and is shown", () => {
    const calculation = rangeDemand({ ranges: [{ rating: "16 kW", count: 24 }], system: "120/240 V" });
    expect(value(calculation, "demand")).toBeCloseTo(46_800, 6);
    expect(calculation.workings[0]!.text).toBe(
      "byC = beforeRaise * (1 + raise * excess): 39 kW * (1 + 5 % * 4) = 46.8 kW",
    );
    expect(value(calculation, "neutral")).toBeCloseTo(32_760, 6);
    expect(value(calculation, "current")).toBeCloseTo(195, 6);
  });

  test("an 8 kW range on 208 V: 30.8 A", () => {
    const calculation = rangeDemand({ ranges: [{ rating: "8 kW", count: 1 }], system: "208Y/120 V" });
    expect(value(calculation, "current")).toBeCloseTo(30.77, 2);
  });

  test("on three phases takes half of the demand of twice the largest number, three times", () => {
    const calculation = rangeDemand({
      ranges: [{ rating: "12 kW", count: 30 }],
      phases: "three-phase, four wires",
      between: 10,
    });
    expect(value(calculation, "count")).toBe(20);
    expect(value(calculation, "demand")).toBeCloseTo((35_000 / 2) * 3, 6);
  });

  test("cites Article 120 from 2026 on, and says that its table was not seen", () => {
    const at = (nec: 2023 | 2026) => ({ jurisdiction: { adopted: { nec } } });
    const cited = (nec: 2023 | 2026) =>
      rangeDemand({ ranges: [{ rating: "12 kW", count: 2 }] }, at(nec)).basis.find(({ section }) =>
        section.includes("Table"),
      );
    expect(cited(2023)).toMatchObject({ section: "220.55, Table 220.55", confirmed: "secondary" });
    expect(cited(2026)).toMatchObject({ section: "120.55, Table 120.55", confirmed: "memory" });
  });

  test("refuses what the table does not hold, at its bounds, and names what cannot be read", () => {
    const status = (rating: string) => rangeDemand({ ranges: [{ rating, count: 1 }] }).messageId;
    expect([status("1.75 kW"), status("1.76 kW"), status("27 kW"), status("27.1 kW")]).toEqual([
      "tooSmall",
      null,
      null,
      "tooLarge",
    ]);
    expect(rangeDemand.try({ ranges: [{ rating: "12", count: 1 }] }).fault?.issues[0]).toMatchObject({
      path: ["ranges", 0, "rating"],
    });
    expect(rangeDemand({})).toMatchObject({ status: "missing", messageId: "rangesUnknown", missing: [] });
  });
});
