/** Reading, showing and comparing quantities: spellings, refusals and their words, round trips, laws. */
import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as quantity from "../../src/core/quantity/index.js";
import {
  atLeast,
  atMost,
  awgSizes,
  brand,
  type ConductorSize,
  compare,
  compareConductors,
  conductorArea,
  conductorSizes,
  type Dimension,
  dimensions,
  exactly,
  inUnit,
  isReadingProblem,
  kcmilSizes,
  kindDimension,
  kinds,
  metricSizes,
  type QuantityKind,
  quantityExample,
  quantityHelp,
  type Reading,
  type ReadingProblem,
  type ReadOptions,
  readQuantity,
  same,
  show,
  showNumber,
  si,
  siUnit,
  spell,
  spellingsFor,
  type Unit,
  type UnitSystem,
  unitFacts,
  unitNamed,
  units,
} from "../../src/core/quantity/index.js";

const INCH = 0.0254;
const allDimensions = Object.keys(dimensions) as Dimension[];
const allUnits = Object.keys(units) as Unit[];
const allKinds = Object.keys(kinds) as QuantityKind[];

function read<D extends Dimension>(input: unknown, dimension: D, options?: ReadOptions): Reading<D> {
  const result = readQuantity(input, dimension, options);
  if (isReadingProblem(result)) throw new Error(`${JSON.stringify(input)}: ${result.message}`);
  return result;
}

function refused(input: unknown, dimension: Dimension, options?: ReadOptions): ReadingProblem {
  const result = readQuantity(input, dimension, options);
  if (!isReadingProblem(result)) throw new Error(`${JSON.stringify(input)} was read as ${result.value} ${result.unit}`);
  return result;
}

describe("reading trade spellings", () => {
  const spellings: [text: string, dimension: Dimension, value: number, unit: Unit][] = [
    ["5 in", "length", 5 * INCH, "in"],
    ['5"', "length", 5 * INCH, "in"],
    ["5in", "length", 5 * INCH, "in"],
    ["5/16 in", "length", (5 / 16) * INCH, "in"],
    ["2 1/2 in", "length", 2.5 * INCH, "in"],
    ['2-1/2"', "length", 2.5 * INCH, "in"],
    ["½ in", "length", 0.5 * INCH, "in"],
    ["-½ in", "length", -0.5 * INCH, "in"],
    ["2½ in", "length", 2.5 * INCH, "in"],
    ["2 ½ in", "length", 2.5 * INCH, "in"],
    ["2-½ in", "length", 2.5 * INCH, "in"],
    ["2 1⁄2 in", "length", 2.5 * INCH, "in"],
    ["6-1/2 in", "length", 6.5 * INCH, "in"],
    ["6 1/2 in", "length", 6.5 * INCH, "in"],
    ["35 ft 6 1/2 in", "length", 426.5 * INCH, "ft"],
    ["35' 6-1/2\"", "length", 426.5 * INCH, "ft"],
    ["35'-6 1/2\"", "length", 426.5 * INCH, "ft"],
    ["35' - 6 1/2\"", "length", 426.5 * INCH, "ft"],
    ["35′ 6½″", "length", 426.5 * INCH, "ft"],
    ["35’ 6½”", "length", 426.5 * INCH, "ft"],
    ["35 ft., 6 in.", "length", 426 * INCH, "ft"],
    ["35ft6in", "length", 426 * INCH, "ft"],
    ["-35 ft 6 in", "length", -426 * INCH, "ft"],
    ["0 ft 6 in", "length", 6 * INCH, "ft"],
    ["1,000 ft 6 in", "length", 12_006 * INCH, "ft"],
    ["18.5'", "length", 18.5 * 0.3048, "ft"],
    ["3.5 mm", "length", 0.0035, "mm"],
    ["1e3 m", "length", 1000, "m"],
    ["1.5E-3 m", "length", 0.0015, "m"],
    [".5 m", "length", 0.5, "m"],
    ["5. m", "length", 5, "m"],
    ["+5 m", "length", 5, "m"],
    ["10 μm", "length", 10e-6, "um"],
    [" 5 \t\u00a0 m \n", "length", 5, "m"],
    ["240 V", "voltage", 240, "V"],
    ["5.4 kW", "power", 5400, "kW"],
    ["22,000 Btu/h", "power", (22_000 * 1055.05585262) / 3600, "Btu/h"],
    ["1,234,567.5 W", "power", 1_234_567.5, "W"],
    ["150 cfm", "volumeFlow", (150 * 0.028316846592) / 60, "cfm"],
    ["0.6 inH2O", "pressure", 0.6 * 249.08891, "inH2O"],
    ["0.6 inH₂O", "pressure", 0.6 * 249.08891, "inH2O"],
    ["0.6 in w.c.", "pressure", 0.6 * 249.08891, "inH2O"],
    ["0.6 in. W.C.", "pressure", 0.6 * 249.08891, "inH2O"],
    ['7" wc', "pressure", 7 * 249.08891, "inH2O"],
    ["60 psi", "pressure", 60 * 6894.757293168361, "psi"],
    ["68 °F", "temperature", 293.15, "degF"],
    ["68° F", "temperature", 293.15, "degF"],
    ["68 F", "temperature", 293.15, "degF"],
    ["-5 F", "temperature", (-5 + 459.67) / 1.8, "degF"],
    ["−5 °F", "temperature", (-5 + 459.67) / 1.8, "degF"],
    ["- 5 F", "temperature", (-5 + 459.67) / 1.8, "degF"],
    ["20 ˚C", "temperature", 293.15, "degC"],
    ["0 K", "temperature", 0, "K"],
    ["-459.67 °F", "temperature", 0, "degF"],
    ["-273.15 °C", "temperature", 0, "degC"],
    ["10 °F", "temperatureDifference", 10 / 1.8, "deltaF"],
    ["-10 °C", "temperatureDifference", -10, "deltaC"],
    ["1/4 in per ft", "slope", 1 / 48, "in/ft"],
    ['1/4"/ft', "slope", 1 / 48, "in/ft"],
    ["1/4 in. per foot", "slope", 1 / 48, "in/ft"],
    ["0.5°", "angle", Math.PI / 360, "deg"],
    ["0.5°", "slope", Math.tan(Math.PI / 360), "percentSlope"],
    ["-45 deg", "slope", -1, "percentSlope"],
    ["2 %", "slope", 0.02, "percentSlope"],
    ["2%", "ratio", 0.02, "percent"],
    ["0.5 of 1", "ratio", 0.5, "1"],
    ["100 in²", "area", 0.064516, "in2"],
    ["10 sq. ft.", "area", 0.9290304, "ft2"],
    ["20 in-lb", "torque", 20 * INCH * 4.4482216152605, "inlbf"],
    ["4.4 US gal", "volume", 4.4 * 0.003785411784, "galUS"],
  ];

  // a temperature loses a few last bits to its zero
  const near = (value: number, truth: number, dimension: Dimension) =>
    expect(Math.abs(value - truth)).toBeLessThanOrEqual(dimension === "temperature" ? 1e-12 : 4e-16 * Math.abs(truth));

  test.each(spellings)("%j as %s", (text, dimension, value, unit) => {
    const reading = read(text, dimension);
    near(reading.value, value, dimension);
    expect(reading).toMatchObject({ plusMinus: 0, unit });
    expect(unitFacts(reading.unit).dimension).toBe(dimension);
  });

  test.each(spellings)("%j as %s with a tolerance", (text, dimension, value, unit) => {
    const [shown, half] =
      dimension === "temperature"
        ? ["2 °F", 2 / 1.8]
        : [`1/16 ${unitFacts(unit).spellings[0]}`, unitFacts(unit).factor / 16];
    for (const mark of [" ± ", "±", " +/- ", "+/-", " +- "]) {
      const reading = read(`${text}${mark}${shown}`, dimension);
      near(reading.value, value, dimension);
      expect(reading.plusMinus).toBeCloseTo(half, 12);
      expect(reading.unit).toBe(unit);
    }
  });

  test("a tolerance may come in another unit of the dimension", () => {
    expect(read("5 in ± 1 mm", "length")).toEqual({ value: 5 * INCH, plusMinus: 0.001, unit: "in" });
    expect(read("5 in +/- 1/16 in", "length").plusMinus).toBe(INCH / 16);
    expect(read("20 °C ± 2 K", "temperature").plusMinus).toBe(2);
    expect(read("35 ft 6 in ± 1 ft 2 in", "length").plusMinus).toBe(14 * INCH);
    expect(read("5 in ± 0 in", "length").plusMinus).toBe(0);
  });

  test("the tolerance of a slope given as an angle holds both ends", () => {
    for (const text of ["0.5° ± 0.1°", "-20° ± 3°", "5 % ± 2°", "30° ± 0.5 %"]) {
      const { value, plusMinus } = read(text, "slope");
      const degrees = (Number.parseFloat(text.split("±")[1]!) * Math.PI) / 180;
      if (!text.endsWith("°")) expect(plusMinus).toBe(0.005);
      else {
        const angle = Math.atan(value);
        const sides = [Math.tan(angle + degrees) - value, value - Math.tan(angle - degrees)];
        expect(plusMinus).toBeCloseTo(Math.max(...sides), 14);
      }
    }
  });

  test("feet and inches are whole inches to the last bit", () => {
    expect(read("35 ft 6 1/2 in", "length").value).toBe(read("426.5 in", "length").value);
    expect(same(read("12 in", "length").value, read("1 ft", "length").value)).toBe(true);
  });

  test("a caller may say that the comma is the decimal mark", () => {
    const comma: ReadOptions = { decimal: "," };
    expect(read("1,5 m", "length", comma).value).toBe(1.5);
    expect(read("1.500 m", "length", comma).value).toBe(1500);
    expect(read("1.234.567,5 W", "power", comma).value).toBe(1_234_567.5);
    expect(read(",5 m ± 0,1 m", "length", comma)).toMatchObject({ value: 0.5, plusMinus: 0.1 });
    expect(read("1,5e3 m", "length", comma).value).toBe(1500);
    expect(refused("1.5 m", "length", comma).message).toBe(
      '"1.5" can be read two ways: write "1,5 m" or "15 m", or say that "." is the decimal mark',
    );
    expect(refused("0.5 m", "length", comma).message).toBe(
      '"0.5" has a point before its decimals: write "0,5 m", or say that "." is the decimal mark',
    );
  });

  test("every spelling of every unit is read as that unit, or as a twin of the same size", () => {
    for (const unit of allUnits) {
      const { dimension, spellings, factor, zero = 0 } = unitFacts(unit);
      for (const spelling of [...spellings, ...(unit === "1" ? [] : [unit])]) {
        const reading = read(`300 ${spelling}`, dimension);
        expect([unit, spelling, reading.value]).toEqual([unit, spelling, 300 * factor + zero]);
        expect(unitNamed(spelling, dimension)).toBe(unit);
      }
    }
  });

  test("one spelling never means two units of one dimension", () => {
    for (const dimension of allDimensions) {
      const spoken = allUnits
        .filter((u) => unitFacts(u).dimension === dimension)
        .flatMap((u) => unitFacts(u).spellings);
      expect(new Set(spoken).size).toBe(spoken.length);
    }
  });

  test("a number and its unit, spelled out", () => {
    expect(read({ value: 22, unit: "in", plusMinus: 0.25 }, "length")).toEqual({
      value: 22 * INCH,
      plusMinus: 0.25 * INCH,
      unit: "in",
    });
    expect(read({ value: 68, unit: "°F", plusMinus: 2 }, "temperature").plusMinus).toBeCloseTo(2 / 1.8, 14);
    expect(read({ value: 22, unit: "in", plusMinus: 0 }, "length").plusMinus).toBe(0);
    expect(read({ value: 0.5, unit: "1" }, "ratio").value).toBe(0.5);
    expect(read({ value: 1, unit: " in² ", plusMinus: undefined }, "area")).toMatchObject({
      unit: "in2",
      plusMinus: 0,
    });
    expect(read({ value: 45, unit: "°" }, "slope").value).toBeCloseTo(1, 14);
  });

  test("the example and the help of every dimension can be followed", () => {
    for (const dimension of allDimensions) {
      const example = quantityExample(dimension);
      expect(read(example, dimension).value).toBeGreaterThan(0);
      expect(quantityHelp(dimension)).toContain(`with its unit, for example "${example}"`);
      for (const shown of spellingsFor(dimension).split(", ")) {
        expect(unitNamed(shown, dimension)).toBeDefined();
      }
    }
    expect(quantityHelp("angle")).toBe('an angle with its unit, for example "45°"');
    expect(quantityHelp("volumeFlow")).toBe('a volume flow with its unit, for example "150 cfm"');
  });
});

describe("reading the same text again", () => {
  const inches = (count: number): number => (readQuantity(`${count} in`, "length") as Reading<"length">).value;

  test("however many texts come between", () => {
    const counts = Array.from({ length: 5_000 }, (_, i) => i + 1);
    for (const _ of [1, 2]) for (const count of counts) expect(inches(count)).toBe(count * 0.0254);
  });

  test("a text means what its dimension and its decimal sign make of it", () => {
    for (const _ of [1, 2]) {
      expect(readQuantity("10 °C", "temperature")).toMatchObject({ value: 283.15 });
      expect(readQuantity("10 °C", "temperatureDifference")).toMatchObject({ value: 10 });
      expect(readQuantity("1,234.5 mm", "length")).toMatchObject({ value: 1.2345 });
      expect(readQuantity("1,234.5 mm", "length", { decimal: "," })).toMatchObject({ code: "malformedNumber" });
      expect(readQuantity("1,5 mm", "length", { decimal: "," })).toMatchObject({ value: 0.0015 });
      expect(readQuantity("1,5 mm", "length")).toHaveProperty("code");
    }
  });

  test("a text of 100 characters is read and one of 101 is not, nor a unit of so many", () => {
    const padded = (length: number): string => `7${" ".repeat(length - 3)}in`;
    expect(readQuantity(padded(100), "length")).toMatchObject({ unit: "in" });
    expect(readQuantity(padded(101), "length")).toMatchObject({ code: "tooLong" });
    const unit = (length: number) => ({ value: 7, unit: `in${" ".repeat(length - 2)}` });
    expect(readQuantity(unit(100), "length")).toMatchObject({ unit: "in" });
    expect(readQuantity(unit(101), "length")).toMatchObject({ code: "tooLong" });
  });

  test("a slope whose tolerance reaches the vertical is none", () => {
    expect(readQuantity("87° ± 2°", "slope")).not.toHaveProperty("code");
    expect(readQuantity("89° ± 2°", "slope")).toMatchObject({ code: "impossible" });
    expect(readQuantity("-89° ± 2°", "slope")).toMatchObject({ code: "impossible" });
  });

  test("what one caller does with a reading does not reach the next", () => {
    const read = readQuantity("7 in", "length") as { value: number };
    expect(() => {
      read.value = 1;
    }).toThrow(TypeError);
    expect(inches(7)).toBe(7 * 0.0254);
  });
});

describe("refusing", () => {
  const LENGTHS = "m, mm, cm, km, µm, in, ft, yd, mil";
  const refusals: [input: unknown, dimension: Dimension, code: ReadingProblem["code"], message: string][] = [
    ["", "length", "noValue", 'write a number and then its unit, for example "18 ft"'],
    ["in", "length", "noValue", 'write a number and then its unit, for example "18 ft"'],
    ["about 5 in", "length", "noValue", 'write a number and then its unit, for example "18 ft"'],
    ["Infinity m", "length", "noValue", 'write a number and then its unit, for example "18 ft"'],
    ["NaN m", "length", "noValue", 'write a number and then its unit, for example "18 ft"'],
    ["constructor", "length", "noValue", 'write a number and then its unit, for example "18 ft"'],
    ["５ in", "length", "noValue", 'write a number and then its unit, for example "18 ft"'],
    ["--5 in", "length", "noValue", 'write a number and then its unit, for example "18 ft"'],
    ["5", "length", "noUnit", 'say the unit, for example "5 ft"'],
    ["-5", "temperature", "noUnit", 'say the unit, for example "-5 °F"'],
    ["6-1/2", "length", "noUnit", 'say the unit, for example "6-1/2 ft"'],
    ["1,500", "length", "noUnit", 'say the unit, for example "1,500 ft"'],
    ["0.5", "ratio", "noUnit", 'say the unit, "0.5 %" or "0.5 of 1"'],
    [18, "length", "noUnit", 'say the unit, for example "18 ft"'],
    [{ value: 5, unit: " " }, "length", "noUnit", 'say the unit, for example "5 ft"'],
    ["5 constructor", "length", "unknownUnit", `"constructor" is not a known unit; write one of ${LENGTHS}`],
    ["5 __proto__", "length", "unknownUnit", `"__proto__" is not a known unit; write one of ${LENGTHS}`],
    ["5 MM", "length", "unknownUnit", `"MM" is not a known unit; write one of ${LENGTHS}`],
    ["5-ft", "length", "unknownUnit", `"-ft" is not a known unit; write one of ${LENGTHS}`],
    ["5''", "length", "unknownUnit", `"''" is not a known unit; write one of ${LENGTHS}`],
    ["5 💥", "length", "unknownUnit", `"💥" is not a known unit; write one of ${LENGTHS}`],
    [
      "5 \u202em\u0000\ud800",
      "length",
      "unknownUnit",
      `"\ufffdm\ufffd\ufffd" is not a known unit; write one of ${LENGTHS}`,
    ],
    [
      `5 ${"é".repeat(90)}`,
      "angle",
      "unknownUnit",
      `"${"é".repeat(30)}…" is not a known unit; write one of rad, °, arcmin, turn`,
    ],
    ["5 parsec", "slope", "unknownUnit", '"parsec" is not a known unit; write one of m/m, mm/m, in/ft, %, °'],
    [
      { value: 5, unit: "__proto__" },
      "angle",
      "unknownUnit",
      '"__proto__" is not a known unit; write one of rad, °, arcmin, turn',
    ],
    ["1 gallon", "volume", "ambiguousUnit", '"gallon" means more than one unit; write "US gal" or "imp gal"'],
    [
      { value: 1, unit: "gal" },
      "volume",
      "ambiguousUnit",
      '"gal" means more than one unit; write "US gal" or "imp gal"',
    ],
    [
      "2 Tons",
      "power",
      "ambiguousUnit",
      '"Tons" means more than one unit; write a mass in "lb" or "kg", or a cooling rate in "Btu/h" or "kW"',
    ],
    [
      "100 MBtu/h",
      "power",
      "ambiguousUnit",
      '"MBtu/h" means more than one unit; write "kBtu/h" for thousands, or the whole number in "Btu/h"',
    ],
    ["5 V", "length", "wrongDimension", '"V" is a unit of voltage; write a length, for example "18 ft"'],
    ["5 in", "pressure", "wrongDimension", '"in" is a unit of length; write a pressure, for example "60 psi"'],
    ["30 lb", "force", "wrongDimension", '"lb" is a unit of mass; write a force, for example "40 lbf"'],
    ["3 lbf/in", "energy", "wrongDimension", '"lbf/in" is a unit of stiffness; write an energy, for example "1.5 kWh"'],
    ["5 in mm", "length", "twoUnits", '"in mm" names two units; write one, for example "18 ft"'],
    [
      "5 in 6 in",
      "length",
      "twoUnits",
      'there is more than one amount; write one, for example "18 ft" or "35 ft 6 1/2 in"',
    ],
    [
      "35 ft -6 in",
      "length",
      "twoUnits",
      'there is more than one amount; write one, for example "18 ft" or "35 ft 6 1/2 in"',
    ],
    ["5 lb 4 oz", "mass", "twoUnits", 'there is more than one amount; write one, for example "150 lb"'],
    ["35 ft 6", "length", "twoUnits", 'after feet only inches may follow, for example "35 ft 6 1/2 in"'],
    ["35 ft 6 mm", "length", "twoUnits", 'after feet only inches may follow, for example "35 ft 6 1/2 in"'],
    [
      "35 ft 14 in",
      "length",
      "malformedNumber",
      'feet and inches want whole feet and less than 12 inches, for example "35 ft 6 1/2 in"',
    ],
    [
      "35 ft 12 in",
      "length",
      "malformedNumber",
      'feet and inches want whole feet and less than 12 inches, for example "35 ft 6 1/2 in"',
    ],
    [
      "35.5 ft 6 in",
      "length",
      "malformedNumber",
      'feet and inches want whole feet and less than 12 inches, for example "35 ft 6 1/2 in"',
    ],
    ["35 ft 1/0 in", "length", "malformedNumber", '"1/0" is not a number that can be read; write for example "18 ft"'],
    ["1/0 in", "length", "malformedNumber", '"1/0" is not a number that can be read; write for example "18 ft"'],
    ["2 3/2 in", "length", "malformedNumber", '"2 3/2" is not a number that can be read; write for example "18 ft"'],
    [
      "2 - 1/2 in",
      "length",
      "malformedNumber",
      '"2 - 1/2" is not a number that can be read; write for example "18 ft"',
    ],
    [
      "1 1/2/3 in",
      "length",
      "malformedNumber",
      '"1 1/2/3" is not a number that can be read; write for example "18 ft"',
    ],
    ["5-10 in", "length", "malformedNumber", '"5-10" is not a number that can be read; write for example "18 ft"'],
    ["1:48", "slope", "malformedNumber", '"1:48" is not a number that can be read; write for example "1/4 in per ft"'],
    ["1.2.3 m", "length", "malformedNumber", '"1.2.3" is not a number that can be read; write for example "18 ft"'],
    [
      "1,00,000 W",
      "power",
      "malformedNumber",
      '"1,00,000" is not a number that can be read; write for example "5.4 kW"',
    ],
    [
      "22 000 Btu/h",
      "power",
      "malformedNumber",
      '"22 000" is not a number that can be read; write for example "5.4 kW"',
    ],
    ["50 1", "ratio", "malformedNumber", '"50 1" is not a number that can be read; write for example "50 %"'],
    [". m", "length", "malformedNumber", '"." is not a number that can be read; write for example "18 ft"'],
    ["1e-400 m", "length", "malformedNumber", '"1" is not a number that can be read; write for example "18 ft"'],
    [
      "1,5 m",
      "length",
      "commaTwoWays",
      '"1,5" can be read two ways: write "1.5 m" or "15 m", or say that "," is the decimal mark',
    ],
    [
      "1,5",
      "length",
      "commaTwoWays",
      '"1,5" can be read two ways: write "1.5 ft" or "15 ft", or say that "," is the decimal mark',
    ],
    [
      "0,500 W",
      "power",
      "commaTwoWays",
      '"0,500" has a comma before its decimals: write "0.500 W", or say that "," is the decimal mark',
    ],
    ["1e400 m", "length", "notFinite", "the number is too large or too small to mean anything here"],
    ["1e308 km", "length", "notFinite", "the number is too large or too small to mean anything here"],
    ["1e-323 mm", "length", "notFinite", "the number is too large or too small to mean anything here"],
    ["5 m ± 1e400 m", "length", "notFinite", "the number is too large or too small to mean anything here"],
    ["5 m ± 1e-323 mm", "length", "notFinite", "the number is too large or too small to mean anything here"],
    [{ value: Number.NaN, unit: "m" }, "length", "notFinite", "the value must be a finite number"],
    [{ value: Number.POSITIVE_INFINITY, unit: "m" }, "length", "notFinite", "the value must be a finite number"],
    ["-300 °C", "temperature", "impossible", 'no temperature is below absolute zero, "-273.15 °C" or "-459.67 °F"'],
    ["90°", "slope", "impossible", "a slope given as an angle must stay between -90° and 90°"],
    ["-120°", "slope", "impossible", "a slope given as an angle must stay between -90° and 90°"],
    ["80° ± 10°", "slope", "impossible", "a slope given as an angle must stay between -90° and 90°"],
    ["5 in ±", "length", "malformedTolerance", 'after ±: write a number and then its unit, for example "18 ft"'],
    ["5 in ± 1/16", "length", "malformedTolerance", 'say the unit after ± too: "5 in ± 1/16 in"'],
    ["5 ± 1/16 in", "length", "noUnit", 'say the unit before ± too: "5 in ± 1/16 in"'],
    ["5 ± 1/16", "length", "noUnit", 'say the unit, for example "5 ft"'],
    ["x ± 1/16 in", "length", "noValue", 'write a number and then its unit, for example "18 ft"'],
    ["± 1/16 in", "length", "noValue", 'write a number and then its unit, for example "18 ft"'],
    [
      "68 °F ± 2 V",
      "temperature",
      "malformedTolerance",
      'after ±: "V" is a unit of voltage; write a temperature difference, for example "10 °F"',
    ],
    ["5 in ± -1 in", "length", "malformedTolerance", "the tolerance after ± must not be negative"],
    ["5 in ± 1 in ± 2 in", "length", "malformedTolerance", "write one tolerance after one ±"],
    [
      "100 W ± 5 %",
      "power",
      "malformedTolerance",
      'after ±: "%" is a unit of ratio; write a power, for example "5.4 kW"',
    ],
    [
      { value: 5, unit: "in", plusMinus: -1 },
      "length",
      "malformedTolerance",
      "plusMinus must be a finite number, 0 or more, in the same unit",
    ],
    [
      { value: 5, unit: "in", plusMinus: Number.NaN },
      "length",
      "malformedTolerance",
      "plusMinus must be a finite number, 0 or more, in the same unit",
    ],
    [
      { value: 5, unit: "in", plusMinus: "1" },
      "length",
      "malformedTolerance",
      "plusMinus must be a finite number, 0 or more, in the same unit",
    ],
    [
      { value: 5, unit: "in", tolerance: 1 },
      "length",
      "wrongType",
      '"tolerance" is no part of a quantity; write value, unit and plusMinus',
    ],
    [{ value: "5", unit: "in" }, "length", "wrongType", "write the value as a number and the unit as text"],
    [{ value: 5, unit: 3 }, "length", "wrongType", "write the value as a number and the unit as text"],
    ["9".repeat(101), "length", "tooLong", 'a quantity has at most 100 characters; write for example "18 ft"'],
    [
      { value: 5, unit: "m ".repeat(1e6) },
      "length",
      "tooLong",
      'a quantity has at most 100 characters; write for example "18 ft"',
    ],
  ];

  test.each(refusals)("%j as %s: %s", (input, dimension, code, message) => {
    expect(refused(input, dimension)).toEqual({ code, message, expected: quantityHelp(dimension) });
  });

  test.each([
    null,
    undefined,
    true,
    10n,
    Number.NaN,
    Number.NEGATIVE_INFINITY,
    [],
    ["5 in"],
    {},
    { value: 5 },
    new Date(0),
    () => "5 in",
  ])("what is no quantity at all (%o)", (input) => {
    expect(refused(input, "length").message).toBe('write a length with its unit, for example "18 ft"');
    expect(refused(input, "length").code).toBe("wrongType");
  });

  test("keys that objects inherit do nothing", () => {
    for (const text of ['{"__proto__":{"value":5,"unit":"in"}}', '{"constructor":{"value":5,"unit":"in"}}']) {
      expect(refused(JSON.parse(text), "length").code).toBe("wrongType");
    }
    expect(refused(Object.create({ value: 5, unit: "in" }), "length").code).toBe("wrongType");
    const polluted = JSON.parse('{"value":5,"unit":"in","__proto__":{"plusMinus":1}}');
    expect(refused(polluted, "length").message).toContain('"__proto__" is no part of a quantity');
    for (const word of ["constructor", "toString", "__proto__", "hasOwnProperty", "valueOf"]) {
      for (const dimension of allDimensions) expect(unitNamed(word, dimension)).toBeUndefined();
    }
    expect(({} as Record<string, unknown>)["plusMinus"]).toBeUndefined();
  });

  test("long texts are refused before they are looked at", () => {
    const long = ["9".repeat(1e5), `${" ".repeat(1e6)}5 m`, "1/".repeat(1e6), "± ".repeat(1e6), "½".repeat(1e6)];
    const start = performance.now();
    for (let round = 0; round < 1000; round++) {
      for (const text of long) expect(readQuantity(text, "length")).toHaveProperty("code", "tooLong");
    }
    // 5000 texts of a million characters: reading each of them once would take minutes
    expect(performance.now() - start).toBeLessThan(2000);
  });

  test("the longest texts of any make take no time to speak of", () => {
    const parts = ["9", "1,", "1.", "1/", " ", "±", "½", "5 ft ", "5' ", "-", "in ", "e", '"', "m", "\ud800", "+/-"];
    const start = performance.now();
    let count = 0;
    for (const first of parts) {
      for (const second of parts) {
        const text = (first + second.repeat(100)).slice(0, 100);
        for (const dimension of ["length", "ratio", "slope"] as const) {
          readQuantity(text, dimension);
          count++;
        }
      }
    }
    expect((performance.now() - start) / count).toBeLessThan(2);
  });

  test("any text gives a finite reading or a problem in words, never an exception", () => {
    const pieces = fc.constantFrom(
      ..."0123456789.,/-+±'\" eE°%½".split(""),
      "ft",
      "in",
      "m",
      "K",
      "gal",
      "\u0000",
      "𝟙",
    );
    const texts = fc.oneof(
      fc.string({ unit: "binary" }),
      fc.array(pieces, { maxLength: 14 }).map((list) => list.join("")),
    );
    fc.assert(
      fc.property(texts, fc.constantFrom(...allDimensions), fc.constantFrom(".", ","), (text, dimension, decimal) => {
        const result = readQuantity(text, dimension, { decimal: decimal as "." | "," });
        if (isReadingProblem(result)) {
          expect(result.message).not.toMatch(/\p{C}|undefined|NaN|Infinity/u);
          expect(result.message.length).toBeLessThan(260);
        } else {
          expect(Number.isFinite(result.value) && result.plusMinus >= 0 && Number.isFinite(result.plusMinus)).toBe(
            true,
          );
          expect(unitFacts(result.unit).dimension).toBe(dimension);
        }
      }),
      { numRuns: 1500 },
    );
  });

  test("any value at all gives a reading or a problem, never an exception", () => {
    fc.assert(
      fc.property(fc.anything({ withBigInt: true, withDate: true, withNullPrototype: true }), (input) => {
        expect(readQuantity(input, "length")).toBeTypeOf("object");
      }),
    );
  });
});

describe("round trips", () => {
  const anyUnit = fc.constantFrom(...allUnits);
  const someNumber = fc.oneof(
    fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e12, max: 1e12 }),
    fc.integer({ min: -100_000, max: 100_000 }).map((n) => n / 16),
    fc.integer({ min: -1_000_000, max: 1_000_000 }).map((n) => n / 1000),
  );

  test("spelling and reading again gives the same number to the last bit", () => {
    fc.assert(
      fc.property(anyUnit, someNumber, (unit, number) => {
        const { dimension } = unitFacts(unit);
        const value = dimension === "temperature" ? Math.abs(number) : number;
        for (const quantity of [si(value, unit), brand(value)]) {
          if (quantity !== 0 && Math.abs(quantity) < 1e-290) continue;
          expect(read(spell(quantity, unit), dimension).value).toBe(quantity + 0);
          expect(read(exactly(quantity, unit), dimension).value).toBe(quantity + 0);
        }
      }),
      { numRuns: 3000 },
    );
  });

  test("what was typed is spelled as it was typed", () => {
    expect(spell(si(22, "in"), "in")).toBe("22 in");
    expect(spell(si(35.5, "ft"), "ft")).toBe("35.5 ft");
    expect(spell(si(68, "degF"), "degF")).toBe("68 °F");
    expect(spell(si(-40, "degF"), "degF")).toBe("-40 °F");
    expect(spell(si(0.6, "inH2O"), "inH2O")).toBe("0.6 inH2O");
    for (const unit of ["degC", "degF"] as const) {
      expect(read(spell(brand<"temperature">(0), unit), "temperature").value).toBe(0);
    }
    const slope = read("0.5°", "slope");
    expect(read(spell(slope.value, slope.unit), "slope").value).toBe(slope.value);
  });

  test("every dimension has an SI unit of its own, in which its numbers stand", () => {
    for (const dimension of allDimensions) {
      expect(unitFacts(siUnit(dimension))).toMatchObject({ dimension, factor: 1 });
      expect(unitFacts(siUnit(dimension)).zero).toBeUndefined();
    }
  });

  test("a number that no double of the unit gives back is spelled in the SI unit", () => {
    expect(exactly(si(0.1 + 0.2, "in"), "in")).toEqual({ value: 0.1 + 0.2, unit: "in" });
    let fallen = 0;
    for (let i = 1; i <= 2000; i++) {
      const quantity = brand<"length">(i / 7);
      const { value, unit } = exactly(quantity, "in");
      expect(unitFacts(unit).factor * value).toBe(quantity);
      if (unit === "m") fallen++;
    }
    expect(fallen).toBeGreaterThan(0);
  });

  /** How far a shown number may lie from the true one: half a unit of the digits shown, or half a sixteenth. */
  const slack = (kind: QuantityKind, system: UnitSystem, value: number, digits: number | undefined): number => {
    const size = Math.abs(value);
    if (digits === undefined && kind === "turns") return Math.max(size * 0.00501, (0.01 / 4) * 2 * Math.PI * 1.001);
    if (digits === undefined && system === "us" && (kind === "length" || kind === "inches")) {
      return Math.min(INCH / 32, size < 2 * INCH ? size * 0.0101 : 1) * (1 + 1e-9);
    }
    return size * 0.5 * 10 ** (1 - (digits ?? 3)) * (1 + 1e-9) + size * 1e-14;
  };

  test.each(allKinds)("%s, shown and read again, agrees within the digits shown", (kind) => {
    const dimension = kindDimension(kind);
    const scale = unitFacts(allUnits.find((unit) => unitFacts(unit).dimension === dimension)!).factor;
    const sizes = fc.oneof(
      fc.double({ min: 1e-9, max: 1e9, noNaN: true }),
      fc.double({ min: 0.01, max: 1000, noNaN: true }),
      fc.integer({ min: 1, max: 40_000 }).map((n) => (n / 64) * INCH),
    );
    fc.assert(
      fc.property(
        sizes,
        fc.boolean(),
        fc.constantFrom<UnitSystem>("us", "si"),
        fc.constantFrom(undefined, 3, 5, 9),
        (size, negative, system, digits) => {
          // the digits shown of a temperature near 0 K could lie below it
          const kelvins = 100 + (size % 1000);
          const sized = dimension === "temperature" ? kelvins : (negative ? -1 : 1) * size * scale;
          const value = brand<never>(sized);
          const shown = show(value, kind, { units: system, ...(digits === undefined ? {} : { digits }) });
          const again = read(shown, dimension).value;
          if (dimension === "temperature") {
            const zero = system === "us" ? si(0, "degF") : si(0, "degC");
            const half = Math.abs(value - zero) * 0.5 * 10 ** (1 - (digits ?? 3)) * (1 + 1e-9) + 1e-9 + value * 1e-14;
            expect(Math.abs(again - value)).toBeLessThanOrEqual(half);
          } else {
            expect(Math.abs(again - value)).toBeLessThanOrEqual(slack(kind, system, value, digits));
            if (kind !== "turns") expect(Math.sign(again)).toBe(Math.sign(value));
          }
          expect(shown).not.toMatch(/e[+-]?\d|NaN|Infinity|(^|-)0 ft|ft 12 in|^-0 /);
        },
      ),
      { numRuns: 120 },
    );
  });

  test("every kind ends with a unit for the smallest values, and shows zero", () => {
    for (const kind of allKinds) {
      for (const system of ["us", "si"] as const) {
        expect(typeof kinds[kind][system].at(-1)).toBe("string");
        if (kind === "temperature") continue;
        expect(read(show(brand<never>(0), kind, { units: system }), kindDimension(kind)).value).toBe(0);
      }
    }
  });
});

describe("showing", () => {
  test.each([
    [11 + 31 / 32, "12 in"],
    [12, "12 in"],
    [35.99, "3 ft"],
    [36, "3 ft"],
    [35 * 12 + 11.99, "36 ft"],
    [35 * 12 + 11.9, "35 ft 11 7/8 in"],
    [426.5, "35 ft 6 1/2 in"],
    [-426.5, "-35 ft 6 1/2 in"],
    [420, "35 ft"],
    [12_006, "1,000 ft 6 in"],
    [5.5, "5 1/2 in"],
    [-5.5, "-5 1/2 in"],
    [0.5, "1/2 in"],
    [0.016, "0.016 in"],
    [1.99, "2 in"],
    [0, "0 in"],
    [-0, "0 in"],
    [0.001, "0.001 in"],
    [-0.001, "-0.001 in"],
  ])("%d in on a tape is %s", (inches, shown) => {
    expect(show(si(inches, "in"), "length")).toBe(shown);
  });

  test("no length of any size reads 0 ft, 12 in or more", () => {
    for (let n = -1300; n <= 1300; n++) {
      const shown = show(si(n / 32, "in"), "length");
      expect(shown).not.toMatch(/^-?0 ft|ft (1[2-9]|[2-9]\d)(?!\/)\b/);
      const inches = read(shown, "length").value / INCH;
      expect(Math.abs(inches - n / 32)).toBeLessThanOrEqual(1 / 32 + 1e-9);
    }
  });

  test("inches stay inches where the trade says inches", () => {
    expect(show(si(80, "in"), "inches")).toBe("80 in");
    expect(show(si(80.25, "in"), "inches", { units: "si" })).toBe("2,038 mm");
    expect(show(si(80.25, "in"), "inches", { units: "si", digits: 6 })).toBe("2,038.35 mm");
  });

  test("a margin can be shown with as many digits as it takes to see it", () => {
    const over = si(35.001, "ft");
    expect(show(over, "length")).toBe("35 ft");
    expect(show(over, "length", { digits: 5 })).toBe("35.001 ft");
    expect(show(over, "length", { units: "si", digits: 3 })).toBe("10.7 m");
    expect(show(over, "length", { units: "si", digits: 6 })).toBe("10.6683 m");
    expect(show(si(0.60004, "inH2O"), "airPressure", { digits: 5 })).toBe("0.60004 inH2O");
    expect(show(si(1.3, "turn"), "turns", { digits: 4 })).toBe("1.3 turns");
  });

  test.each([
    [0, "0 turns"],
    [0.25, "1/4 turn"],
    [-0.5, "-1/2 turn"],
    [1, "1 turn"],
    [1.25, "1 1/4 turns"],
    [-2, "-2 turns"],
    [0.33, "0.33 turns"],
    [0.27, "0.27 turns"],
    [-0.001, "0 turns"],
  ])("%d turns are shown as %s", (turns, shown) => {
    expect(show(si(turns, "turn"), "turns")).toBe(shown);
  });

  test("each unit has its range", () => {
    expect(show(si(22_000, "Btu/h"), "heatRate")).toBe("22,000 Btu/h");
    expect(show(si(22_000, "Btu/h"), "heatRate", { units: "si" })).toBe("6.45 kW");
    expect(show(si(1000, "W"), "power")).toBe("1 kW");
    expect(show(si(999, "W"), "power")).toBe("999 W");
    expect(show(si(5, "VA"), "apparentPower")).toBe("5 VA");
    expect(show(si(0.5, "deg"), "angle")).toBe("0.5°");
    expect(show(si(68, "degF"), "temperature")).toBe("68 °F");
    expect(show(si(68, "degF"), "temperature", { units: "si" })).toBe("20 °C");
    expect(show(si(10, "deltaF"), "temperatureDifference", { units: "si" })).toBe("5.56 °C");
    expect(show(si(90, "min"), "time")).toBe("90 min");
    expect(show(si(0.25, "in/ft"), "slope", { units: "si" })).toBe("20.8 mm/m");
  });

  test.each([
    [0, undefined, "0"],
    [-0, undefined, "0"],
    [1234.5, undefined, "1,235"],
    [1234.5, 5, "1,234.5"],
    [999.9996, undefined, "1,000"],
    [-1_234_567, undefined, "-1,234,567"],
    [9.996, undefined, "10"],
    [0.000123456, undefined, "0.000123"],
    [100, 5, "100"],
    [1e21, undefined, "1,000,000,000,000,000,000,000"],
    [1e-30, undefined, "0.000000000000000000000000000001"],
  ])("%d with %s digits is %s", (value, digits, shown) => {
    expect(showNumber(value, digits)).toBe(shown);
  });

  test("a number that is not finite is never shown", () => {
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      expect(() => showNumber(value)).toThrow(RangeError);
      for (const kind of allKinds) expect(() => show(brand<never>(value), kind)).toThrow(RangeError);
    }
  });
});

describe("comparing with a limit", () => {
  test("exactly on the limit passes in the unit of the source", () => {
    expect(si(7, "in")).toBeLessThan(0.1778);
    expect(atLeast(si(7, "in"), 0.1778)).toBe(true);
    for (const unit of allUnits) {
      const { dimension, spellings } = unitFacts(unit);
      for (let n = 1; n <= 40; n++) {
        const count = n <= 24 ? n : (n * 7) / 8;
        const limit: number = si(count, unit);
        // the same number by other ways: from the SI number as a book prints it, and from text
        for (const measured of [
          limit,
          Number(limit.toPrecision(15)),
          read(`${count} ${spellings[0]}`, dimension).value,
        ]) {
          const outcomes = [
            compare(measured, 0, "atLeast", limit),
            compare(measured, 0, "atMost", limit),
            compare(measured, 0, "atMost", limit, "simple"),
          ];
          if (!same(measured, limit) || outcomes.some((outcome) => outcome !== "inside")) {
            throw new Error(`${measured} is not on its limit ${limit} (${count} ${unit})`);
          }
        }
      }
    }
  });

  test("feet, inches and millimetres of one length are the same", () => {
    for (let n = 1; n <= 500; n++) {
      expect(same(si(n * 12, "in"), si(n, "ft")) && same(si(n, "in"), si(n * 25.4, "mm"))).toBe(true);
    }
  });

  test("a real difference is seen, however small on site", () => {
    expect(atMost(si(35.0001, "ft"), si(35, "ft"))).toBe(false);
    expect(atLeast(si(34.9999, "ft"), si(35, "ft"))).toBe(false);
    expect(atMost(0, -1e-12)).toBe(false);
    expect(atLeast(-1e-12, 0)).toBe(false);
  });

  test("an infinite value meets an infinite limit only", () => {
    const oo = Number.POSITIVE_INFINITY;
    expect([atMost(oo, 5), atLeast(-oo, 5), atMost(oo, -oo), atLeast(-oo, oo)]).toEqual(Array(4).fill(false));
    expect([same(oo, 5), same(oo, -oo)]).toEqual([false, false]);
    expect([atMost(oo, oo), atLeast(oo, oo), same(oo, oo), atLeast(oo, 5), atMost(5, oo)]).toEqual(Array(5).fill(true));
    expect([atMost(Number.NaN, 5), atLeast(Number.NaN, 5)]).toEqual([false, false]);
  });

  test("a missing number or a negative tolerance is a fault of the caller", () => {
    expect(() => compare(Number.NaN, 0, "atMost", 1)).toThrow("cannot compare NaN ± 0 with 1");
    expect(() => compare(1, 0, "atMost", Number.NaN)).toThrow(RangeError);
    expect(() => compare(1, Number.NaN, "atMost", 1)).toThrow(RangeError);
    expect(() => compare(1, -1, "atMost", 1)).toThrow(RangeError);
  });

  const number = fc.double({ min: -1e6, max: 1e6, noNaN: true });
  const width = fc.double({ min: 0, max: 1e3, noNaN: true });
  const sense = fc.constantFrom("atLeast", "atMost" as const);

  test("laws of comparison", () => {
    fc.assert(
      fc.property(number, width, sense, number, (value, half, way, limit) => {
        const guarded = compare(value, half, way, limit);
        const simple = compare(value, half, way, limit, "simple");
        // without a tolerance both rules agree, and simple acceptance never leaves it open
        expect(compare(value, 0, way, limit)).toBe(simple);
        expect(simple).not.toBe("unsure");
        // what is decided in spite of the tolerance is decided without it
        if (guarded !== "unsure") expect(simple).toBe(guarded);
        // more tolerance never decides what less left open
        if (guarded === "unsure") expect(compare(value, half * 2, way, limit)).toBe("unsure");
        // seen from the other side of zero everything is the same
        const mirrored = way === "atLeast" ? "atMost" : "atLeast";
        expect(compare(-value, half, mirrored, -limit)).toBe(guarded);
        // further on the good side never turns a pass
        const better = value + (way === "atLeast" ? 1 : -1);
        if (guarded === "inside") expect(compare(better, half, way, limit)).toBe("inside");
      }),
      { numRuns: 2000 },
    );
  });
});

describe("conductor sizes", () => {
  test("run small to large within each series", () => {
    for (const series of [[...awgSizes, ...kcmilSizes], [...metricSizes]] as ConductorSize[][]) {
      for (let i = 1; i < series.length; i++) {
        expect(compareConductors(series[i]!, series[i - 1]!)).toBeGreaterThan(0);
        expect(compareConductors(series[i - 1]!, series[i]!)).toBeLessThan(0);
        expect(compareConductors(series[i]!, series[i]!)).toBe(0);
        expect(conductorArea(series[i]!)).toBeGreaterThan(conductorArea(series[i - 1]!));
      }
    }
    expect(conductorSizes).toEqual([...awgSizes, ...kcmilSizes, ...metricSizes]);
  });

  test("two series are not compared", () => {
    for (const gauge of [...awgSizes, ...kcmilSizes]) {
      for (const metric of metricSizes) {
        expect(() => compareConductors(gauge, metric)).toThrow(`${gauge} and ${metric} are sizes of two series`);
        expect(() => compareConductors(metric, gauge)).toThrow(RangeError);
      }
    }
  });

  test.each(["13 AWG", "12", "constructor", "600 kcmil", "3 mm2"])("%s is no size", (name) => {
    expect(() => conductorArea(name as ConductorSize)).toThrow(`"${name}" is not a conductor size`);
    expect(() => compareConductors("12 AWG", name as ConductorSize)).toThrow(`"${name}" is not a conductor size`);
  });
});

describe("examples in the doc comments", () => {
  const folder = new URL("../../src/core/quantity/", import.meta.url);
  const examples = readdirSync(folder).flatMap((file) =>
    [...readFileSync(new URL(file, folder), "utf8").matchAll(/@example (.+?) \/\/ (.+)$/gm)].map(
      ([, code, result]) => [file, code!, result!] as const,
    ),
  );
  const names = Object.keys(quantity);
  const run = (code: string): unknown =>
    new Function(...names, `"use strict"; return (${code});`)(...Object.values(quantity));

  test("are there", () => expect(examples.length).toBeGreaterThanOrEqual(12));

  test.each(examples)("%s: %s // %s", (_file, code, result) => {
    const [got, said] = [run(code), run(result)];
    // a long number is printed with its first digits
    if (typeof said === "number") expect(Math.abs((got as number) / said - 1)).toBeLessThan(1e-7);
    else expect(got).toEqual(said);
  });
});

test("a value in a unit comes back from it", () => {
  fc.assert(
    fc.property(fc.constantFrom(...allUnits), fc.double({ min: -1e6, max: 1e6, noNaN: true }), (unit, value) => {
      const back = inUnit(si(value, unit) as never, unit as never) as number;
      const { zero = 0, factor } = unitFacts(unit);
      expect(Math.abs(back - value)).toBeLessThanOrEqual(4e-16 * (Math.abs(value) + zero / factor) + 1e-300);
    }),
  );
});
