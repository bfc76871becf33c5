import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brand, inUnit, si } from "../../src/core/quantity/index.js";
import { leakRate } from "../../src/physics/index.js";
import { leakTest, tightReading } from "../../src/plumbing/index.js";
import { reference } from "../references.js";
import { printedIn, valueIn } from "./governing.js";

const { rows, tolerance } = reference("plumbing/leak-test.csv");
const good = {
  fuel: "naturalGas",
  working: "0.5 psi",
  startPressure: "6 psi",
  endPressure: "6 psi",
  duration: "15 min",
  startTemperature: "68 °F",
  endTemperature: "68 °F",
  fullScale: "15 psi",
  step: "0.1 psi",
  volume: "0.4 ft3",
  disconnected: true,
  bubbles: false,
} as const;
const check = (change: object, at?: Parameters<typeof leakTest>[1]) => leakTest({ ...good, ...change }, at);
const atmosphere = si(14.7, "psi");

describe("tightReading", () => {
  test("20 psi at 70 °F cooled to 40 °F reads 18.0 psi: IFGC appendix A.6.5", () => {
    const start = { gauge: si(20, "psi"), temperature: si(70, "degF"), barometer: atmosphere };
    const read = inUnit(tightReading(start, si(40, "degF"), atmosphere), "psi");
    expect(Math.abs(read - 18.0)).toBeLessThan(0.05);
    // With 460 in place of 459.67, as the code's page has it, 34.7 × 500/530 − 14.7.
    expect(Math.abs(read - (34.7 * 499) / 529 + 14.7)).toBeLessThan(0.01);
  });

  test("a rising barometer lowers the gauge of a tight pipe by as much", () => {
    const start = { gauge: si(6, "psi"), temperature: si(68, "degF"), barometer: atmosphere };
    const read = tightReading(start, si(68, "degF"), si(14.9, "psi"));
    expect(inUnit(read, "psi")).toBeCloseTo(5.8, 9);
  });
});

describe("plumbing/leak-test", () => {
  test.each(rows)("$limit $document $edition: $value $unit", (row) => {
    const printed = printedIn(row);
    const value = valueIn(leakTest.limits, row);
    if (printed === undefined) expect(value).toBeUndefined();
    else expect(Math.abs(value! - printed)).toBeLessThanOrEqual(tolerance * printed);
  });

  test("exactly on the least pressure, factor, time and scale passes", () => {
    const edge = { startPressure: "3 psi", endPressure: "3 psi", working: "2 psi", duration: "10 min" };
    expect(check(edge).verdict).toBe("pass");
    expect(check({ ...edge, duration: "9.9 min" }).messageId).toBe("tooShort");
    expect(check({ ...edge, working: "2.1 psi" }).messageId).toBe("factorLow");
    expect(check({ ...edge, fullScale: "15.1 psi" }).messageId).toBe("gaugeCoarse");
    expect(check({ ...edge, startPressure: "2.9 psi", endPressure: "2.9 psi", working: "1 psi" }).messageId).toBe(
      "pressureLow",
    );
  });

  test("trap: a fall that cooling explains is no leak, and without its temperatures nothing can be said", () => {
    const overnight = {
      working: "2 psi",
      startPressure: "20 psi",
      endPressure: "18 psi",
      duration: "12 h",
      fullScale: "30 psi",
    };
    const cooled = { ...overnight, startTemperature: "70 °F", endTemperature: "40 °F", step: "0.1 psi" };
    expect(check(cooled).verdict).toBe("pass");
    const level = check({ ...cooled, endTemperature: "70 °F" });
    expect(level).toMatchObject({ verdict: "fail", messageId: "leaksAt" });
    expect(level.message).toBe(
      "The gauge fell 2 psi further than temperature and barometer explain: about 0.00444 cfh leaks out. Stop, keep the gas off and find it; nothing is lit before the test holds.",
    );
    expect(level.workings.slice(0, 2).map(({ text }) => text)).toEqual([
      "expected = (start + before) * warm / cold - after: (20 psi + 14.7 psi) * 70 °F / 70 °F - 14.7 psi = 20 psi",
      "fallen = expected - read: 20 psi - 18 psi = 2 psi",
    ]);
    expect(check({ ...overnight, startTemperature: undefined, endTemperature: undefined })).toMatchObject({
      verdict: "review",
      messageId: "temperatureUnknown",
    });
  });

  test("trap: warmth can hide a leak behind a steady needle", () => {
    const warmed = check({ startTemperature: "50 °F", endTemperature: "70 °F" });
    expect(warmed).toMatchObject({ verdict: "fail", messageId: "leaksAt" });
  });

  test("trap: gauge pressures in the gas law, or degrees in place of kelvin, give another answer", () => {
    const start = { gauge: si(20, "psi"), temperature: si(70, "degF"), barometer: atmosphere };
    const right = inUnit(tightReading(start, si(40, "degF"), atmosphere), "psi");
    expect(Math.abs(right - (20 * 499.67) / 529.67)).toBeGreaterThan(0.8);
    expect(Math.abs(right - (34.7 * 40) / 70 + 14.7)).toBeGreaterThan(10);
  });

  test("trap: a test that suits one code family is too weak and too short for the other", () => {
    const upc = { jurisdiction: { adopted: { upc: 2021 as const }, building: "commercial" as const } };
    const ten = { duration: "10 min" };
    expect(check(ten).verdict).toBe("pass");
    expect(check(ten, upc).parts.map(({ messageId }) => messageId)).toEqual(
      expect.arrayContaining(["pressureLow", "tooShort"]),
    );
  });

  test("a large building's system is held half an hour for each 500 cubic feet", () => {
    const at = { jurisdiction: { adopted: { ifgc: 2018 as const }, building: "commercial" as const } };
    expect(check({ volume: "600 ft3", duration: "59 min" }, at).messageId).toBe("tooShort");
    expect(check({ volume: "600 ft3", duration: "60 min" }, at).verdict).toBe("pass");
    expect(check({ volume: "9 ft3", duration: "10 min" }, at).verdict).toBe("pass");
    expect(check({ volume: undefined }, at)).toMatchObject({ verdict: "review", missing: [{ path: ["volume"] }] });
  });

  test("bubbles fail whatever the gauge says", () => {
    expect(check({ bubbles: true })).toMatchObject({ verdict: "fail", messageId: "bubbles" });
  });

  test("says what the gauge cannot see", () => {
    const { parts } = check({});
    const seen = parts.find(({ messageId }) => messageId === "smallestLeak")!.data["seen"]!;
    // 0.4 ft³ · 0.1 psi / 15 min at 68 °F, in the standard state: 0.4 · 4 · (0.1/14.734) · (519.67/527.67) ft³/h.
    expect(inUnit(brand<"volumeFlow">(seen.si!), "cfh")).toBeCloseTo(0.01069, 4);
  });

  test("asks for closer readings where the tolerance decides, and points at what cannot be read", () => {
    expect(check({ endPressure: "5.95 psi ± 0.1 psi" }).messageId).toBe("tooCloseToCall");
    expect(leakTest.try({ ...good, endPressure: 6 }).fault?.issues[0]).toMatchObject({
      path: ["endPressure"],
      code: "noUnit",
    });
    expect(leakTest({ fuel: "naturalGas" }).missing.map(({ path }) => path[0])).toEqual([
      "startPressure",
      "endPressure",
      "startTemperature",
      "endTemperature",
      "step",
      "bubbles",
      "working",
      "duration",
      "fullScale",
      "disconnected",
    ]);
  });

  test("laws: pressure fall and leak rate go together; a tight pipe leaks nothing at any temperature", () => {
    const psi = fc.double({ min: 0.1, max: 60, noNaN: true });
    const kelvin = fc.double({ min: 250, max: 320, noNaN: true });
    fc.assert(
      fc.property(psi, kelvin, kelvin, fc.double({ min: 0, max: 0.09, noNaN: true }), (p, t1, t2, fall) => {
        const start = { gauge: si(p, "psi"), temperature: si(t1, "K"), barometer: atmosphere };
        const tight = tightReading(start, si(t2, "K"), atmosphere);
        const state = (gauge: number, t: number) => ({
          pressure: brand<"pressure">(gauge + atmosphere),
          temperature: si(t, "K"),
        });
        const rate = (gauge: number) => leakRate(si(1, "ft3"), state(si(p, "psi"), t1), state(gauge, t2), si(600, "s"));
        expect(rate(tight)).toBeCloseTo(0, 12);
        expect(rate(tight - si(fall, "psi"))).toBeGreaterThanOrEqual(rate(tight));
      }),
    );
  });
});
