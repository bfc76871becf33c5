import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brand, inUnit, si } from "../../src/core/quantity/index.js";
import { standardPressure } from "../../src/physics/index.js";
import { type Drying, dryingAir, dryingRate } from "../../src/venting/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("venting/drying-air.csv");
/** Room air of 20 °C at 50 %, as psychrolib 1.1.1 has it. */
const room = { enthalpy: 38551.7, ratio: 0.0072617 };
const base = {
  dryAir: brand<"massFlow">(0.05),
  roomTemperature: si(20, "degC"),
  roomRatio: room.ratio,
  hottest: si(85, "degC"),
  hottestInlet: si(250, "degC"),
  pressure: standardPressure,
};

describe("dryingRate", () => {
  test.each(rows)("reaches $exhaust_C °C and $exhaust_RH with the heat between the printed states", (row) => {
    const heat = base.dryAir * (Number(row.enthalpy_J) - room.enthalpy);
    const rate = dryingRate({ ...base, heat, wetness: Number(row.exhaust_RH) })!;
    expect(rate.setBy).toBe("heater");
    expect(Math.abs(inUnit(rate.exhaust, "degC") - Number(row.exhaust_C))).toBeLessThanOrEqual(tolerance);
    expect(rate.water / base.dryAir).toBeCloseTo(Number(row.ratio) - room.ratio, 5);
  });

  const drying = fc.record({
    heat: fc.double({ min: 1500, max: 8000, noNaN: true }),
    dryAir: fc.double({ min: 0.01, max: 0.12, noNaN: true }).map((kg) => brand<"massFlow">(kg)),
    wetness: fc.double({ min: 0.3, max: 0.95, noNaN: true }),
  });

  test("never evaporates more than its heat can, nor more for less heat", () => {
    fc.assert(
      fc.property(drying, (some) => {
        const whole: Drying = { ...base, ...some };
        const rate = dryingRate(whole);
        const half = dryingRate({ ...whole, heat: whole.heat / 2 });
        // evaporation takes at least 2.3 MJ/kg; room air may cool by some 10 K and give its share
        if (rate) expect(rate.water).toBeLessThan((whole.heat + whole.dryAir * 1040 * 12) / 2.3e6);
        if (rate && half) expect(half.water).toBeLessThanOrEqual(rate.water * (1 + 1e-9));
      }),
    );
  });

  test("is set by the high limit where air is short, and then goes with the air", () => {
    const short = { ...base, heat: 6000, wetness: 0.6, hottestInlet: si(120, "degC") };
    const at = (kg: number) => dryingRate({ ...short, dryAir: brand<"massFlow">(kg) })!;
    expect(at(0.03).setBy).toBe("high limit");
    expect(at(0.02).water / at(0.03).water).toBeCloseTo(2 / 3, 9);
    expect(at(0.1).setBy).toBe("heater");
    expect(dryingRate({ ...short, hottest: si(35, "degC") })!.setBy).toBe("thermostat");
  });
});

describe("venting/drying-air", () => {
  const number = (value: unknown) => (value as { si: number }).si;

  test("the federal test load holds 2.0506 kg of water between 57.5 % and 4 %", () => {
    const { workings } = dryingAir({ heatInput: "22000 Btu/h", flow: "150 cfm" });
    expect(workings[0]!.values.water!.si).toBeCloseTo(2.0506, 3);
  });

  test("less air never dries faster once the limits hold the heater back", () => {
    const time = (cfm: number) => number(dryingAir({ heatInput: "22000 Btu/h", flow: `${cfm} cfm` }).values.time);
    const cfm = fc.integer({ min: 20, max: 100 });
    fc.assert(
      fc.property(cfm, cfm, (a, b) => {
        expect(time(Math.min(a, b))).toBeGreaterThanOrEqual(time(Math.max(a, b)) * (1 - 1e-6));
      }),
      { numRuns: 25 },
    );
  });

  test("shows its steps and says what it assumed", () => {
    const sum = dryingAir({ heatInput: "22000 Btu/h", flow: "40 cfm", freeFlow: "180 cfm" });
    expect(sum.workings.map(({ formula }) => formula)).toEqual(["time = water / rate", "longer = time / freeTime"]);
    expect(number(sum.values.longer)).toBeGreaterThan(2);
    expect(sum.assumptions.join()).toMatch(/Energy balance of a steady drum/);
    expect((sum.values.reading as { text: string }).text).toMatch(/high limit/);
  });

  test("asks for what is missing; points at what cannot be read", () => {
    expect(dryingAir({ flow: "90 cfm" }).missing).toMatchObject([{ path: ["heatInput"] }]);
    expect(dryingAir.try({ flow: "90" }).fault?.issues[0]).toMatchObject({ path: ["flow"] });
  });
});
