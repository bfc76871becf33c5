/** Traps of the field that no single rule owns, each with the answer that a quick hand gets wrong. */
import { expect, test } from "vitest";
import { brand, si } from "../../src/core/quantity/index.js";
import {
  colebrook,
  dryAirVolume,
  frictionLoss,
  geopotentialHeight,
  moistAirDensity,
  moistAirEnthalpy,
  pressureAtAltitude,
  saturationPressure,
  scaledFan,
  standardPressure,
} from "../../src/physics/index.js";
import { ductAirflow, ductLength, elbowLoss } from "../../src/venting/index.js";

const number = (value: unknown) => (value as { si: number }).si;

test("the transition duct is outside the code's length and inside the air's: leaving it out of both, or in both, is wrong", () => {
  const run = { straight: "25 ft", elbows: [] };
  expect(ductLength({ fuel: "electric", ...run }).measured!.text).toBe("25 ft");
  const without = ductAirflow({ diameter: "4 in", ...run }).values;
  const withIt = ductAirflow({ diameter: "4 in", transition: "8 ft", ...run }).values;
  expect(number(withIt.flow)).toBeLessThan(0.95 * number(without.flow));
});

test("Darcy's factor is four times Fanning's: a loss with Fanning's in Darcy's formula is a quarter", () => {
  const flow = {
    velocity: si(8.7321, "m/s"),
    diameter: si(0.1016, "m"),
    roughness: si(0.09, "mm"),
    density: si(1.2041, "kg/m3"),
    viscosity: si(1.813e-5, "Pa*s"),
  };
  // P25 of the duct table: f 0.023172, 10.4695 Pa/m
  expect(frictionLoss(flow, si(1, "m"))).toBeCloseTo(10.4695, 2);
  expect(colebrook(58920, 0.09 / 101.6)).toBeCloseTo(0.023172, 6);
});

test("fan power goes with the fifth power of the size, not the third: twice the wheel takes 32 times, not 8", () => {
  const state = { flow: si(1, "m3/s"), pressure: si(100, "Pa"), power: si(100, "W") };
  expect(scaledFan(state, { size: 2 }).power).toBeCloseTo(3200, 9);
});

test("the handbook takes height as geopotential, the atmosphere's table as on the map: 61640 Pa and 61660 Pa at 4000 m", () => {
  expect(pressureAtAltitude(si(4000, "m"))).toBeCloseTo(61640, -0.5);
  expect(pressureAtAltitude(geopotentialHeight(si(4000, "m")))).toBeCloseTo(61660, -0.5);
});

test("one over the volume is the dry air in a cubic metre; the moist air weighs (1 + W) times that", () => {
  const state = [si(50, "degC"), 0.0403622, standardPressure] as const;
  expect(moistAirDensity(...state)).toBeCloseTo(1.067196, 5);
  expect(1 / dryAirVolume(...state)).toBeCloseTo(1.067196 / 1.0403622, 5);
});

test("ice and water meet at 0.01 °C, not at 0 °C: there is no step between them", () => {
  const below = saturationPressure(si(0.01 - 1e-9, "degC"));
  const above = saturationPressure(si(0.01 + 1e-9, "degC"));
  expect(Math.abs(above / below - 1)).toBeLessThan(1e-4);
});

test("enthalpies in inch-pound units count from 0 °F: 28.1066 Btu/lb converted is 65.4 kJ/kg, the SI value is 47.5", () => {
  const si47 = moistAirEnthalpy(si(75, "degF"), 0.0092358) / 1000;
  expect(si47).toBeCloseTo(47.5414, 2);
  expect((28.1066 * 1.05505585262) / 0.45359237 - si47).toBeGreaterThan(17);
});

test("bend formulas that fit wide bends explode at tight ones: 13.2 at r/D 0.5 by one of them, this one stays near 1.1", () => {
  const k = elbowLoss("smooth", si(90, "deg"), brand<"ratio">(0.5), 5e4, 0.023704);
  expect(k).toBeCloseTo(1.09826, 4);
  expect(k).toBeLessThan(1.3);
});
