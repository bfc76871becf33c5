import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { si } from "../../src/core/quantity/index.js";
import { applianceLoad, elementPower, lineCurrent } from "../../src/electrical/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("electrical/appliance-load.csv");
const value = (calculation: ReturnType<typeof applianceLoad>, name: string) =>
  (calculation.values[name] as { si: number } | null)?.si ?? null;

describe("electrical/appliance-load", () => {
  test.each(rows)("an element for $rated_V V gives the printed share at $there_V V", (row) => {
    const calculation = applianceLoad({
      kind: "oven",
      plate: { voltage: `${row.rated_V} V`, power: "5 kW" },
      found: `${row.there_V} V`,
    });
    expect(Math.abs(value(calculation, "share")! - Number(row.power_factor))).toBeLessThanOrEqual(tolerance);
    const current = value(calculation, "currentThere")! / value(calculation, "current")!;
    expect(Math.abs(current - Number(row.current_factor))).toBeLessThanOrEqual(tolerance);
  });

  test("does not divide 240 V kilowatts by 208 V: the current falls, it does not rise to 26 A", () => {
    const calculation = applianceLoad({
      kind: "oven",
      plate: { voltage: "240 V", power: "5.4 kW" },
      system: "208Y/120 V",
    });
    expect(value(calculation, "current")).toBeCloseTo(22.5, 6);
    expect(value(calculation, "currentThere")).toBeCloseTo(19.5, 6);
    expect(value(calculation, "longer")).toBeCloseTo(0.3314, 4);
  });

  test("shows every step", () => {
    const { workings, message } = applianceLoad({
      kind: "dryer",
      plate: { voltage: "240 V", power: "5500 W", element: "5200 W" },
      found: "225 V",
    });
    expect(workings.map(({ text }) => text)).toEqual([
      "current = power / voltage: 5.5 kW / 240 V = 22.9 A",
      "elementThere = element * (voltage / rated)^2: 5.2 kW * (225 V / 240 V)^2 = 4.57 kW",
      "share = (voltage / rated)^2: (225 V / 240 V)^2 = 87.9 %",
    ]);
    expect(message).toMatch(/^Rated current: 22.9 A/);
  });

  test("leaves out what cannot be told, and refuses a plate that contradicts itself", () => {
    const washer = applianceLoad({ kind: "washer", plate: { voltage: "120 V", current: "10 A" }, found: "118 V" });
    expect(value(washer, "elementThere")).toBeNull();
    expect(applianceLoad({ plate: { voltage: "120 V", current: "10 A", power: "1261 W" } }).status).toBe("impossible");
    expect(applianceLoad({ plate: { voltage: "120 V", current: "10 A", power: "1260 W" } }).status).toBe("computed");
    expect(applianceLoad({}).missing).toMatchObject([{ path: ["plate", "voltage"] }]);
    expect(applianceLoad.try({ plate: { voltage: 240 } }).fault?.issues[0]).toMatchObject({
      path: ["plate", "voltage"],
    });
  });

  test("carries the plate's tolerance to the current", () => {
    const { values } = applianceLoad({ plate: { voltage: "240 V", power: "4800 W ± 240 W" } });
    expect((values["current"] as { tolerance: { si: number } }).tolerance.si).toBeCloseTo(1, 9);
  });

  test("a lower supply never raises an element's power, three phases never the line current", () => {
    const volts = fc.double({ min: 1, max: 480, noNaN: true });
    fc.assert(
      fc.property(volts, volts, fc.double({ min: 1, max: 5e4, noNaN: true }), (a, b, watts) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)].map((v) => si(v, "V"));
        expect(elementPower(si(watts, "W"), low!, si(240, "V"))).toBeLessThanOrEqual(
          elementPower(si(watts, "W"), high!, si(240, "V")),
        );
        expect(lineCurrent(si(watts, "W"), high!, "three")).toBeLessThan(lineCurrent(si(watts, "W"), high!, "one"));
      }),
    );
  });
});
