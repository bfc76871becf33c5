/**
 * The unit table, the conductor sizes and the decision rule against the outside: published tables, two libraries of
 * units, and a second copy of every factor in exact arithmetic.
 */
// @ts-expect-error js-quantities ships no types
import Qty from "js-quantities";
import { createUnit, evaluate, unit as mathUnit } from "mathjs";
import { describe, expect, test } from "vitest";
import {
  awgSizes,
  type ConductorSize,
  compare,
  conductorArea,
  type Dimension,
  dimensions,
  kcmilSizes,
  metricSizes,
  type Sense,
  si,
  type Unit,
  unitFacts,
  unitSources,
  units,
} from "../../src/core/quantity/index.js";
import { reference } from "../references.js";

const all = Object.keys(units) as Unit[];
const off = (value: number, truth: number): number => Math.abs(value / truth - 1);

describe("printed factors", () => {
  const { rows, tolerance } = reference("core/quantity-units.csv");

  test("cover the units that are not SI", () => {
    expect(rows.length).toBeGreaterThanOrEqual(50);
    expect(new Set(rows.map((row) => row["unit"])).size).toBe(rows.length);
  });

  test.each(rows.filter((row) => row["deviation"] === ""))("agree: $unit = $factor_si", (row) => {
    const { factor } = unitFacts(row["unit"] as Unit);
    expect(off(factor, Number(row["factor_si"]))).toBeLessThanOrEqual(row["exact"] === "yes" ? 1e-15 : tolerance);
  });

  test("a year is the Julian year, a quarter of a day longer than the printed one", () => {
    const deviating = rows.filter((row) => row["deviation"] !== "");
    expect(deviating.map((row) => row["unit"])).toEqual(["yr"]);
    expect(si(1, "yr") - Number(deviating[0]!["factor_si"])).toBe(86_400 / 4);
  });
});

/**
 * A second copy of the table: each factor as products of decimal numbers, worked out in whole numbers. `over` divides.
 * Definitions: inch 0.0254 m, pound 0.453 592 37 kg, standard gravity 9.806 65 m/s², US gallon 231 in³, UK gallon
 * 4.546 09 L, Btu(IT) 1055.055 852 62 J, conventional water 1000 kg/m³ and mercury 13 595.1 kg/m³.
 */
type Product = readonly [readonly string[], (readonly string[])?];
const IN = "0.0254";
const FT = "0.3048";
const LB = "0.45359237";
const G = "9.80665";
const BTU = "1055.05585262";
const GAL = ["231", IN, IN, IN];

const exact: Partial<Record<Unit, Product>> = {
  m: [["1"]],
  mm: [["0.001"]],
  cm: [["0.01"]],
  km: [["1000"]],
  um: [["0.000001"]],
  in: [[IN]],
  ft: [[FT]],
  yd: [["0.9144"]],
  mil: [["0.0000254"]],
  m2: [["1"]],
  cm2: [["0.0001"]],
  mm2: [["0.000001"]],
  in2: [["0.00064516"]],
  ft2: [["0.09290304"]],
  m3: [["1"]],
  L: [["0.001"]],
  mL: [["0.000001"]],
  in3: [["0.000016387064"]],
  ft3: [["0.028316846592"]],
  galUS: [["0.003785411784"]],
  galUK: [["0.00454609"]],
  rad: [["1"]],
  "m/m": [["1"]],
  "mm/m": [["0.001"]],
  "in/ft": [["1"], ["12"]],
  percentSlope: [["1"], ["100"]],
  kg: [["1"]],
  g: [["0.001"]],
  lb: [[LB]],
  oz: [[LB], ["16"]],
  N: [["1"]],
  kN: [["1000"]],
  lbf: [["4.4482216152605"]],
  kgf: [[G]],
  "N*m": [["1"]],
  inlbf: [[LB, G, IN]],
  ftlbf: [[LB, G, FT]],
  Pa: [["1"]],
  kPa: [["1000"]],
  MPa: [["1000000"]],
  bar: [["100000"]],
  mbar: [["100"]],
  psi: [
    [LB, G],
    [IN, IN],
  ],
  psf: [
    [LB, G],
    [FT, FT],
  ],
  inH2O: [["249.08891"]],
  mmH2O: [[G]],
  ftH2O: [["2989.06692"]],
  inHg: [["13595.1", G, IN]],
  mmHg: [["133.322387415"]],
  atm: [["101325"]],
  "Pa/m": [["1"]],
  "inH2O/100ft": [["249.08891"], ["30.48"]],
  "psi/100ft": [
    [LB, G],
    [IN, IN, "30.48"],
  ],
  K: [["1"]],
  degC: [["1"]],
  degF: [["5"], ["9"]],
  deltaK: [["1"]],
  deltaC: [["1"]],
  deltaF: [["5"], ["9"]],
  W: [["1"]],
  kW: [["1000"]],
  VA: [["1"]],
  kVA: [["1000"]],
  hp: [["550", FT, LB, G]],
  "Btu/h": [[BTU], ["3600"]],
  MBH: [["1000", BTU], ["3600"]],
  J: [["1"]],
  kJ: [["1000"]],
  MJ: [["1000000"]],
  Wh: [["3600"]],
  kWh: [["3600000"]],
  Btu: [[BTU]],
  V: [["1"]],
  mV: [["0.001"]],
  kV: [["1000"]],
  A: [["1"]],
  mA: [["0.001"]],
  ohm: [["1"]],
  mohm: [["0.001"]],
  kohm: [["1000"]],
  "ohm/m": [["1"]],
  "ohm/km": [["0.001"]],
  "ohm/kft": [["1"], ["304.8"]],
  "m3/s": [["1"]],
  "m3/h": [["1"], ["3600"]],
  "L/s": [["0.001"]],
  "L/min": [["1"], ["60000"]],
  cfm: [[FT, FT, FT], ["60"]],
  cfh: [[FT, FT, FT], ["3600"]],
  gpm: [GAL, ["60"]],
  "kg/s": [["1"]],
  "kg/h": [["1"], ["3600"]],
  "g/min": [["1"], ["60000"]],
  "lb/h": [[LB], ["3600"]],
  "m/s": [["1"]],
  fpm: [["0.00508"]],
  "ft/s": [[FT]],
  mph: [["0.44704"]],
  "km/h": [["1"], ["3.6"]],
  s: [["1"]],
  ms: [["0.001"]],
  min: [["60"]],
  h: [["3600"]],
  d: [["86400"]],
  yr: [["31557600"]],
  Hz: [["1"]],
  rpm: [["1"], ["60"]],
  "kg/m3": [["1"]],
  "lb/ft3": [[LB], [FT, FT, FT]],
  "Pa*s": [["1"]],
  "mPa*s": [["0.001"]],
  "J/m3": [["1"]],
  "MJ/m3": [["1000000"]],
  "Btu/ft3": [[BTU], [FT, FT, FT]],
  "m2*K/W": [["1"]],
  "h*ft2*F/Btu": [
    ["3600", FT, FT, "5"],
    ["9", BTU],
  ],
  "N/m": [["1"]],
  "N/mm": [["1000"]],
  "lbf/in": [[LB, G], [IN]],
  percent: [["1"], ["100"]],
  "1": [["1"]],
};

/** The double next to a quotient of products of decimals. */
function nearest([top, bottom = []]: Product): number {
  let above = 1n;
  let below = 1n;
  const times = (text: string): readonly [bigint, bigint] => {
    const [whole, decimals = ""] = text.split(".");
    return [BigInt(whole + decimals), 10n ** BigInt(decimals.length)];
  };
  for (const text of top) {
    const [digits, scale] = times(text);
    above *= digits;
    below *= scale;
  }
  for (const text of bottom) {
    const [digits, scale] = times(text);
    below *= digits;
    above *= scale;
  }
  return Number(`${(above * 10n ** 40n) / below}e-40`);
}

describe("exact factors", () => {
  test("the second copy has every unit but those that hold π", () => {
    expect(all.filter((unit) => exact[unit] === undefined)).toEqual(["deg", "arcmin", "turn"]);
    expect(Object.keys(exact).filter((unit) => !(unit in units))).toEqual([]);
    expect([units.deg.factor, units.arcmin.factor, units.turn.factor]).toEqual([
      Math.PI / 180,
      Math.PI / 10800,
      2 * Math.PI,
    ]);
  });

  test.each(Object.entries(exact) as [Unit, Product][])("%s is its definition, to two last bits", (unit, product) => {
    expect(off(unitFacts(unit).factor, nearest(product))).toBeLessThanOrEqual(2 * Number.EPSILON);
  });

  test("the scales of temperature start where they should", () => {
    expect(si(0, "degC")).toBe(273.15);
    expect(si(-273.15, "degC")).toBe(0);
    expect(off(si(0, "degF"), 459.67 / 1.8)).toBeLessThanOrEqual(Number.EPSILON);
    expect(off(si(212, "degF"), 373.15)).toBeLessThanOrEqual(Number.EPSILON);
    expect(si(-40, "degF")).toBeCloseTo(si(-40, "degC"), 10);
    expect(all.filter((unit) => unitFacts(unit).zero !== undefined)).toEqual(["degC", "degF"]);
  });
});

/** Each unit in mathjs: so many of an expression. A tolerance is given where mathjs has a rounded constant. */
const inMathjs: Partial<Record<Unit, readonly [number, string, number?]>> = {
  um: [1, "um"],
  in2: [1, "in^2"],
  ft2: [1, "sqft"],
  cm2: [1, "cm^2"],
  mm2: [1, "mm^2"],
  m2: [1, "m^2"],
  m3: [1, "m^3"],
  mL: [1, "ml"],
  in3: [1, "in^3"],
  ft3: [1, "cuft"],
  galUS: [1, "gallon"],
  galUK: [1, "dryfitGalUK"],
  turn: [1, "cycle"],
  percentSlope: [0.01, "m/m"],
  lbf: [1, "lbf"],
  kgf: [1, "dryfitKgf"],
  "N*m": [1, "N m"],
  inlbf: [1, "in lbf"],
  ftlbf: [1, "ft lbf"],
  psi: [1, "psi", 1e-10], // mathjs has 6894.757 292 764 59 Pa
  psf: [1, "lbf/ft^2"],
  inH2O: [2.54, "cmH2O"],
  ftH2O: [30.48, "cmH2O"],
  inHg: [25.4, "mmHg", 3e-6], // mathjs has 133.322 Pa
  mmHg: [1, "mmHg", 3e-6],
  "inH2O/100ft": [0.0254, "cmH2O/ft"],
  "psi/100ft": [0.01, "psi/ft", 1e-10],
  deltaK: [1, "K"],
  deltaC: [1, "K"],
  hp: [1, "hp", 1e-10], // mathjs has 745.699 871 538 6 W
  "Btu/h": [1, "BTU/hour"],
  MBH: [1000, "BTU/hour"],
  Btu: [1, "BTU"],
  mohm: [0.001, "ohm"],
  kohm: [1000, "ohm"],
  "ohm/kft": [0.001, "ohm/ft"],
  "ohm/km": [0.001, "ohm/m"],
  kVA: [1000, "VA"],
  "L/s": [1, "l/s"],
  "L/min": [1, "l/minute"],
  "m3/s": [1, "m^3/s"],
  "m3/h": [1, "m^3/hour"],
  cfm: [1, "cuft/minute"],
  cfh: [1, "cuft/hour"],
  gpm: [1, "gallon/minute"],
  "kg/h": [1, "kg/hour"],
  "g/min": [1, "g/minute"],
  "lb/h": [1, "lb/hour"],
  fpm: [1, "ft/minute"],
  mph: [1, "mi/hour"],
  "km/h": [1, "km/hour"],
  d: [1, "day"],
  yr: [1, "year"],
  min: [1, "minute"],
  h: [1, "hour"],
  rpm: [1, "1/minute"],
  "kg/m3": [1, "kg/m^3"],
  "lb/ft3": [1, "lb/cuft"],
  "Pa*s": [1, "Pa s"],
  "mPa*s": [0.001, "Pa s"],
  "J/m3": [1, "J/m^3"],
  "MJ/m3": [1, "MJ/m^3"],
  "Btu/ft3": [1, "BTU/cuft"],
  "m2*K/W": [1, "m^2 K/W"],
  "h*ft2*F/Btu": [5 / 9, "hour ft^2 K/BTU"],
};

describe("mathjs as the second opinion", () => {
  createUnit("dryfitGalUK", "4.54609 l");
  createUnit("dryfitKgf", "9.80665 N");
  // scales, and numbers without a unit, are compared below
  const apart: Unit[] = ["degC", "degF", "deltaF", "percent", "1"];

  test.each(all.filter((unit) => !apart.includes(unit)))("%s", (unit) => {
    const { factor, dimension } = unitFacts(unit);
    const [count, expression, tolerance = 1e-14] = inMathjs[unit] ?? [1, unit];
    const theirs = mathUnit(count, expression);
    expect(theirs.equalBase(mathUnit(1, dimensions[dimension].math))).toBe(true);
    expect(off(factor, (theirs as unknown as { value: number }).value)).toBeLessThanOrEqual(tolerance);
  });

  test.each([-40, 0, 32, 68, 75, 212])("%d on the scales of temperature", (degrees) => {
    expect(si(degrees, "degF")).toBeCloseTo(mathUnit(degrees, "degF").toNumber("K"), 10);
    expect(si(degrees, "degC")).toBeCloseTo(mathUnit(degrees, "degC").toNumber("K"), 10);
    const step = mathUnit(degrees + 1, "degF").toNumber("K") - mathUnit(degrees, "degF").toNumber("K");
    expect(si(1, "deltaF")).toBeCloseTo(step, 10);
  });

  test("per cent and one", () => {
    expect(si(1, "percent")).toBe(evaluate("1%"));
    expect(si(1, "1")).toBe(1);
  });

  test("every dimension has an SI unit of factor 1, and every source is used", () => {
    for (const dimension of Object.keys(dimensions) as Dimension[]) {
      expect(all.some((u) => unitFacts(u).dimension === dimension && unitFacts(u).factor === 1)).toBe(true);
    }
    expect(new Set(all.map((unit) => unitFacts(unit).source))).toEqual(new Set(Object.keys(unitSources)));
  });
});

describe("js-quantities as the third opinion", () => {
  // its constants hold six to nine digits: lbf 4.448 222, psi 6894.76, Btu 1055.056, mmHg 133.322 368; its inch of water
  // is that of water at 4 °C (999.972 kg/m³) and its year the tropical one, so those two are left out
  test.each([
    ["in", "in", 1e-15],
    ["ft", "ft", 1e-15],
    ["yd", "yd", 1e-15],
    ["mil", "mil", 1e-15],
    ["in2", "in^2", 1e-15],
    ["in3", "in^3", 1e-15],
    ["ft3", "ft^3", 1e-15],
    ["galUS", "gal", 1e-8],
    ["galUK", "galimp", 1e-15],
    ["deg", "deg", 1e-14],
    ["turn", "rotation", 1e-15],
    ["lb", "lb", 1e-15],
    ["oz", "oz", 1e-8],
    ["lbf", "lbf", 1e-7],
    ["inlbf", "in*lbf", 1e-7],
    ["ftlbf", "ft*lbf", 1e-7],
    ["psi", "psi", 5e-7],
    ["inHg", "inHg", 2e-7],
    ["mmHg", "mmHg", 2e-7],
    ["atm", "atm", 1e-15],
    ["bar", "bar", 1e-15],
    ["hp", "hp", 1e-8],
    ["Btu", "btu", 2e-7],
    ["Btu/h", "btu/h", 2e-7],
    ["cfm", "ft^3/min", 1e-15],
    ["gpm", "gal/min", 1e-8],
    ["mph", "mph", 1e-15],
    ["lb/ft3", "lb/ft^3", 1e-15],
    ["mPa*s", "cP", 1e-15],
    ["lb/h", "lb/h", 1e-15],
    ["Btu/ft3", "btu/ft^3", 2e-7],
    ["kWh", "kWh", 1e-15],
    ["lbf/in", "lbf/in", 1e-7],
  ] as const)("%s", (unit, theirs, tolerance) => {
    expect(off(unitFacts(unit).factor, Qty(`1 ${theirs}`).toBase().scalar)).toBeLessThanOrEqual(tolerance);
  });
});

describe("conductor sizes", () => {
  const { rows, tolerance } = reference("core/quantity-conductor.csv");
  const diameter = (size: ConductorSize): number => Math.sqrt((4 / Math.PI) * conductorArea(size));

  test("the printed table names every gauge in order", () => {
    expect(rows.map((row) => row["size"])).toEqual([...awgSizes]);
  });

  test.each(rows)("$size has its printed diameter and area", (row) => {
    const size = row["size"] as ConductorSize;
    expect(Math.abs(diameter(size) / 0.0254 - Number(row["diameter_in"]))).toBeLessThanOrEqual(0.00005);
    expect(Math.abs(diameter(size) * 1000 - Number(row["diameter_mm"]))).toBeLessThanOrEqual(0.0005);
    expect(off(conductorArea(size) * 1e6, Number(row["area_mm2"]))).toBeLessThanOrEqual(tolerance);
    expect(off((diameter(size) / 0.0000254) ** 2, Number(row["circular_mils"]))).toBeLessThanOrEqual(tolerance);
  });

  test("the ends of the gauge are exact: 0.46 in at 4/0, and 39 steps below it 0.005 in", () => {
    expect(off(diameter("4/0 AWG"), 0.46 * 0.0254)).toBeLessThan(1e-14);
    const step = diameter("1 AWG") / diameter("2 AWG");
    expect(off(step ** 39, 92)).toBeLessThan(1e-12);
  });

  // NIST SP 811 (2008), appendix B.8: a circular mil is 5.067 075 E-10 m² (seen)
  test.each(kcmilSizes)("%s is so many thousand circular mils", (size) => {
    expect(off(conductorArea(size), Number.parseInt(size, 10) * 1000 * 5.067075e-10)).toBeLessThan(5e-7);
  });

  test.each(metricSizes)("%s is its nominal area", (size) => {
    expect(conductorArea(size) * 1e6).toBeCloseTo(Number.parseFloat(size), 12);
  });
});

/** The standard normal distribution, by its series (Abramowitz and Stegun, 26.2.10). */
function normal(z: number): number {
  if (Math.abs(z) > 8) return z > 0 ? 1 : 0;
  let term = z;
  let sum = z;
  for (let n = 1; Math.abs(term) > 1e-17; n++) {
    term *= -(z * z) / (2 * n);
    sum += term / (2 * n + 1);
  }
  return 0.5 + sum / Math.sqrt(2 * Math.PI);
}

describe("the decision rule against conformance probabilities", () => {
  const { rows, tolerance } = reference("core/quantity-decision.csv");

  test.each(rows)("$note", (row) => {
    const [limit, measured, u, k] = ["limit", "measured", "standard_uncertainty", "k"].map((name) => Number(row[name]));
    const sense = row["sense"] as Sense;
    const z = ((sense === "atLeast" ? 1 : -1) * (measured! - limit!)) / u!;
    expect(Math.abs(normal(z) - Number(row["probability"]))).toBeLessThanOrEqual(tolerance);

    const outcome = compare(measured!, k! * u!, sense, limit!, "guarded");
    expect(outcome).toBe(row["outcome"]);
    // with guard bands of k·u a pass is wrong at most so often, and so is a fail
    const risk = 1 - normal(k!) + 1e-12;
    if (outcome === "inside") expect(1 - normal(z)).toBeLessThanOrEqual(risk);
    else if (outcome === "outside") expect(normal(z)).toBeLessThanOrEqual(risk);
    else expect(Math.min(normal(z), 1 - normal(z))).toBeGreaterThanOrEqual(risk - 2e-12);
    expect(compare(measured!, k! * u!, sense, limit!, "simple")).toBe(z >= 0 ? "inside" : "outside");
  });
});
