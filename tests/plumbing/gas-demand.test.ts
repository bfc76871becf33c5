import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brand, inUnit, si } from "../../src/core/quantity/index.js";
import { altitudeShare, clockedInput, gasDemand, gasFlow } from "../../src/plumbing/index.js";
import { altitudeDerating, heatContent_Btu_ft3 } from "../../src/plumbing/tables/fuel-gas.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("plumbing/gas-demand.csv");

const computed: Record<string, (row: Readonly<Record<string, string>>) => number> = {
  flow_cfh: (row) =>
    inUnit(gasFlow(si(Number(row.input_Btu_h), "Btu/h"), si(Number(row.heat_Btu_ft3), "Btu/ft3")), "cfh"),
  share: (row) => altitudeShare(si(Number(row.altitude_ft), "ft")),
  clocked_Btu_h: (row) =>
    inUnit(
      clockedInput(
        si(Number(row.heat_Btu_ft3), "Btu/ft3"),
        si(Number(row.dial_ft3), "ft3"),
        si(Number(row.seconds), "s"),
      ),
      "Btu/h",
    ),
};

const value = (name: string, input: Parameters<typeof gasDemand>[0]) =>
  gasDemand(input).values[name] as { si: number; text: string };

describe("plumbing/gas-demand", () => {
  test.each(rows)("$what $input_Btu_h $altitude_ft $dial_ft3: $value", (row) => {
    const want = Number(row.value);
    expect(Math.abs(computed[row.what!]!(row) - want)).toBeLessThanOrEqual(tolerance * want);
  });

  test("its figures are the printed ones, transcribed a second time", () => {
    expect({ ...heatContent_Btu_ft3, ...altitudeDerating }).toEqual({
      naturalGas: 1e3,
      propane: 2.516e3,
      from_ft: 2e3,
      per1000ft: 4 / 100,
    });
  });

  test("a gas dryer at 5,300 ft, with every step", () => {
    const { message, workings } = gasDemand({ fuel: "naturalGas", heatInput: "22,000 Btu/h", altitude: "5300 ft" });
    expect(message).toBe(
      "gas flow at the plate's input: 22 cfh; share of the plate's input to be set at this altitude: 78.8 %; input to be set at this altitude: 17,336 Btu/h; gas flow at that input: 17.3 cfh",
    );
    expect(workings.map(({ text }) => text)).toEqual([
      "flow = input / heat: 22,000 Btu/h / 1,000 Btu/ft3 = 22 cfh",
      "share = 1 - rate * (altitude - from) / (1000 ft): 1 - 4 % * (5,300 ft - 0 in) / (1000 ft) = 78.8 %",
      "derated = input * share: 22,000 Btu/h * 78.8 % = 17,336 Btu/h",
    ]);
  });

  test("trap: the 4 % are counted from the sea, not from 2,000 ft", () => {
    const wrong = 1 - 0.04 * 3.3;
    const base = { fuel: "naturalGas", heatInput: "22,000 Btu/h", altitude: "5300 ft" } as const;
    expect(value("share", base).si).toBeCloseTo(0.788, 9);
    expect(value("share", base).si).not.toBeCloseTo(wrong, 2);
    // A maker who says so decides.
    expect(value("share", { ...base, makerDerates: "fromTwoThousand" }).si).toBeCloseTo(wrong, 9);
  });

  test("trap: thin gas needs more volume, but its input is not derated twice", () => {
    const base = { fuel: "naturalGas", heatInput: "22,000 Btu/h", altitude: "5300 ft" } as const;
    const denver = { ...base, heatContent: "830 Btu/ft3" } as const;
    expect(value("flow", denver).si).toBeGreaterThan(value("flow", base).si);
    expect(value("deratedInput", denver).si).toBeCloseTo(value("deratedInput", base).si, 9);
  });

  test("trap: propane carries two and a half times the heat per volume", () => {
    const at = (fuel: "naturalGas" | "propane") => value("flow", { fuel, heatInput: "35,000 Btu/h", altitude: "0 ft" });
    expect(at("naturalGas").si / at("propane").si).toBeCloseTo(2.516, 9);
  });

  test("exactly at 2,000 ft nothing is taken off", () => {
    expect(altitudeShare(si(2000, "ft"))).toBe(1);
    expect(altitudeShare(si(2001, "ft"))).toBeCloseTo(0.91996, 9);
  });

  test("asks for what is missing and points at what cannot be read", () => {
    expect(gasDemand({ fuel: "naturalGas", heatInput: "22,000 Btu/h" })).toMatchObject({
      status: "missing",
      missing: [{ path: ["altitude"] }],
    });
    expect(gasDemand.try({ fuel: "naturalGas", altitude: 5300 }).fault?.issues[0]).toMatchObject({
      path: ["altitude"],
      code: "noUnit",
    });
    expect(gasDemand({ fuel: "electric" }).messageId).toBe("noGas");
  });

  test("carries the tolerance of the timing", () => {
    const { values } = gasDemand({
      fuel: "naturalGas",
      heatInput: "22,000 Btu/h",
      altitude: "0 ft",
      dial: "1 ft3",
      dialTime: "160 s ± 2 s",
    });
    const clocked = values["clocked"] as { si: number; tolerance: { si: number } };
    expect(clocked.tolerance.si / clocked.si).toBeCloseTo(2 / 160, 4);
  });

  test("laws: more input never takes less gas; higher never leaves more input", () => {
    const feet = fc.double({ min: 0, max: 15_000, noNaN: true });
    const watts = fc.double({ min: 1, max: 1e5, noNaN: true });
    fc.assert(
      fc.property(feet, feet, watts, watts, (a, b, power, more) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)];
        expect(altitudeShare(si(high, "ft"))).toBeLessThanOrEqual(altitudeShare(si(low, "ft")));
        const heat = si(1000, "Btu/ft3");
        expect(gasFlow(brand<"power">(power + more), heat)).toBeGreaterThan(gasFlow(brand<"power">(power), heat));
      }),
    );
  });
});
