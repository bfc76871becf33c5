import { describe, expect, test } from "vitest";
import { dryerDemand, dryerFactor, dryerFactor2026 } from "../../src/electrical/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("electrical/dryer-demand.csv");
const value = (calculation: ReturnType<typeof dryerDemand>, name: string) =>
  (calculation.values[name] as { si: number } | null)?.si ?? null;

describe("the dryer table", () => {
  test.each(rows)("$count dryers: $percent %", ({ count, percent }) => {
    expect(Math.abs(dryerFactor(Number(count)) * 100 - Number(percent))).toBeLessThanOrEqual(tolerance);
  });

  test("the factor never rises with the number, the demand never falls", () => {
    for (let n = 1; n < 100; n++) {
      expect(dryerFactor(n + 1)).toBeLessThanOrEqual(dryerFactor(n));
      if (n < 59) expect((n + 1) * dryerFactor(n + 1)).toBeGreaterThanOrEqual(n * dryerFactor(n) - 1e-9);
    }
  });

  test("the 2026 table is another one, and its unseen rows are not guessed", () => {
    expect([1, 2, 3, 5, 43].map(dryerFactor2026)).toEqual([1, 1, 0.8, 0.8, 0.25]);
    expect([6, 42].map(dryerFactor2026)).toEqual([undefined, undefined]);
  });
});

describe("electrical/dryer-demand", () => {
  test("a 4 kW dryer counts 5000 VA on the feeder", () => {
    const calculation = dryerDemand({ dryers: [{ rating: "4 kW", count: 1 }], system: "120/240 V" });
    expect(value(calculation, "demand")).toBe(5000);
    expect(calculation.workings[0]!.text).toBe("connected = counted * each: 1 * 5 kVA = 5 kVA");
    expect(calculation.assumptions[0]).toMatch(/not for its circuit/);
  });

  test("a 5.5 kW dryer counts 5500 VA, 3850 VA on the neutral", () => {
    const calculation = dryerDemand({ dryers: [{ rating: "5.5 kW", count: 1 }] });
    expect([value(calculation, "demand"), value(calculation, "neutral")]).toEqual([5500, 3850]);
  });

  test("20 dryers on three phases, 8 between two of them: 80 kVA before the factor, either way of reading it", () => {
    const input = { dryers: [{ rating: "5 kW", count: 20 }], phases: "three-phase, four wires", between: 8 } as const;
    const doubled = dryerDemand(input);
    const actual = dryerDemand({ ...input, factorBy: "actual" });
    expect(value(doubled, "connected")).toBe(80_000);
    expect(value(doubled, "factor")).toBeCloseTo(0.42, 9);
    expect(value(actual, "factor")).toBeCloseTo(0.38, 9);
    expect(value(actual, "demand")).toBeLessThan(value(doubled, "demand")!);
  });

  test("follows the edition, and says what is missing or unreadable", () => {
    const four = { dryers: [{ rating: "5 kW", count: 4 }] };
    const at = (nec: 2023 | 2026) => ({ jurisdiction: { adopted: { nec } } });
    expect(value(dryerDemand(four, at(2023)), "demand")).toBe(20_000);
    expect(value(dryerDemand(four, at(2026)), "demand")).toBe(16_000);
    expect(dryerDemand({ ...four, phases: "three-phase, four wires" }).missing).toMatchObject([{ path: ["between"] }]);
    expect(dryerDemand.try({ dryers: [{ rating: "5 kW", count: 0 }] }).fault?.issues[0]).toMatchObject({
      path: ["dryers", 0, "count"],
    });
  });
});
