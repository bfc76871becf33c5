/** Reads a quantity from trade spelling or from `{ value, unit }`. One pass over the text; a closed table; no guessing. */
import type { Dimension, Quantity } from "./dimension.js";
import { type Unit, unitFacts, units } from "./units.js";

/** A quantity as people write it: text with its unit, or the parts spelled out. `plusMinus` is in the same unit. */
export type QuantityInput = string | { value: number; unit: string; plusMinus?: number | undefined };

/** A quantity that was read: SI numbers, and the unit it came in. */
export interface Reading<D extends Dimension> {
  readonly value: Quantity<D>;
  /** Half-width of the stated tolerance in the SI unit (of the difference, for a temperature); 0 where none was stated. */
  readonly plusMinus: number;
  /**
   * The unit the value was written in, always one of this dimension: feet for feet and inches, per cent for a slope
   * that was given as its angle.
   */
  readonly unit: Unit;
}

/** Why a text could not be read. */
export interface ReadingProblem {
  readonly code:
    | "noValue"
    | "noUnit"
    | "unknownUnit"
    | "ambiguousUnit"
    | "wrongDimension"
    | "twoUnits"
    | "malformedNumber"
    | "commaTwoWays"
    | "malformedTolerance"
    | "notFinite"
    | "impossible"
    | "tooLong"
    | "wrongType";
  /** What to write instead, in one sentence. */
  readonly message: string;
  readonly expected: string;
}

/** How a text is read. */
export interface ReadOptions {
  /** The decimal mark; the other of the pair groups thousands. Stated default: the point. */
  readonly decimal?: "." | ",";
}

const LONGEST_TEXT = 100;

/** An example a person can copy, per dimension. */
const examples: Record<Dimension, string> = {
  length: "18 ft",
  area: "100 in2",
  volume: "4.5 L",
  angle: "45°",
  slope: "1/4 in per ft",
  mass: "150 lb",
  force: "40 lbf",
  torque: "20 in-lb",
  pressure: "60 psi",
  pressureGradient: "0.6 inH2O/100 ft",
  temperature: "68 °F",
  temperatureDifference: "10 °F",
  power: "5.4 kW",
  energy: "1.5 kWh",
  voltage: "240 V",
  current: "24 A",
  resistance: "0.2 ohm",
  resistancePerLength: "1.2 ohm/kft",
  volumeFlow: "150 cfm",
  massFlow: "2 kg/h",
  speed: "1200 fpm",
  time: "15 min",
  frequency: "60 Hz",
  density: "1.2 kg/m3",
  viscosity: "0.018 mPa·s",
  heatContent: "1000 Btu/ft3",
  thermalResistance: "8 h·ft2·°F/Btu",
  stiffness: "2000 lbf/in",
  ratio: "50 %",
};

/** Words that mean more than one unit, with the spellings to choose from. */
const ambiguous: ReadonlyMap<string, string> = new Map<string, string>([
  ["gal", '"US gal" or "imp gal"'],
  ["gal.", '"US gal" or "imp gal"'],
  ["gallon", '"US gal" or "imp gal"'],
  ["gallons", '"US gal" or "imp gal"'],
  ["ton", 'a mass in "lb" or "kg", or a cooling rate in "Btu/h" or "kW"'],
  ["tons", 'a mass in "lb" or "kg", or a cooling rate in "Btu/h" or "kW"'],
  ["fl oz", '"mL"'],
  ["therm", 'an energy in "Btu" or "MJ"'],
  ["MBtu/h", '"kBtu/h" for thousands, or the whole number in "Btu/h"'],
  ["MBtu", 'an energy in "Btu" or "MJ"'],
] as const);

type Spellings = ReadonlyMap<string, Unit>;
let spellingsByDimension: Map<Dimension, Map<string, Unit>> | undefined;

function spellingsOf(dimension: Dimension): Spellings {
  if (!spellingsByDimension) {
    spellingsByDimension = new Map();
    for (const unit of Object.keys(units) as Unit[]) {
      const { dimension: of, spellings } = unitFacts(unit);
      let known = spellingsByDimension.get(of);
      if (!known) {
        known = new Map();
        spellingsByDimension.set(of, known);
      }
      known.set(unit, unit);
      for (const spelling of spellings) known.set(spelling, unit);
    }
  }
  return spellingsByDimension.get(dimension)!;
}

/** The unit meant by a spelling, within one dimension. A slope may also be given as its angle. */
export function unitNamed(spelling: string, dimension: Dimension): Unit | undefined {
  const unit = spellingsOf(dimension).get(spelling);
  if (unit !== undefined || dimension !== "slope") return unit;
  return spellingsOf("angle").get(spelling);
}

/** The first spelling of each unit of a dimension, as a list for people. */
export function spellingsFor(dimension: Dimension): string {
  const shown = [...new Set(spellingsOf(dimension).values())].map((unit) => unitFacts(unit).spellings[0]);
  if (dimension === "slope") shown.push("°");
  return shown.join(", ");
}

const FOLDS: Record<string, string> = {
  "′": "'",
  "’": "'",
  "‘": "'",
  "″": '"',
  "”": '"',
  "“": '"',
  "−": "-",
  "‐": "-",
  "‑": "-",
  "–": "-",
  "²": "2",
  "³": "3",
  "₂": "2",
  "⋅": "·",
  μ: "µ",
  º: "°",
  "˚": "°",
  "⁄": "/",
  "\u2126": "Ω",
  "½": "1/2",
  "¼": "1/4",
  "¾": "3/4",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
  "⅓": "1/3",
  "⅔": "2/3",
};
const FOLDED = /[′’‘″”“−‐‑–²³₂⋅μº˚⁄\u2126½¼¾⅛⅜⅝⅞⅓⅔]/g;
const FRACTION_AFTER_DIGIT = /(\d)(?=[½¼¾⅛⅜⅝⅞⅓⅔])/g;

/** One spelling for marks that look alike, and one space for any white space. */
const fold = (text: string): string =>
  text
    .replace(FRACTION_AFTER_DIGIT, "$1 ")
    .replace(FOLDED, (character) => FOLDS[character]!)
    .replace(/\s+/g, " ")
    .trim();

const MIXED = /(\d+)[ -](\d+)\/(\d+)(?![\d/.,])/y;
const FRACTION = /(\d+)\/(\d+)(?![\d/.,])/y;
const GROUPED = {
  ".": /[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?(?![\d.,])/y,
  ",": /[1-9]\d{0,2}(?:\.\d{3})+(?:,\d+)?(?![\d.,])/y,
};
const PLAIN = {
  ".": /(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d+)?(?![\d.,])/y,
  ",": /(?:\d+(?:,\d*)?|,\d+)(?:[eE][-+]?\d+)?(?![\d.,])/y,
};
/** What a person meant as one number, whether or not it is one. */
const ANY_NUMBER = /[\d.,][\d.,/:+ -]*(?<![ +-])/y;
/** No unit starts like this; a number that goes on so is not one number. */
const NOT_A_UNIT = /[\d.,]|[/:+-][\d.,/:+ -]/y;
const FEET_THEN_MORE = /(?:ft\.?|foot|feet|') ?(?:, ?|(?<! )-|(?<= )- )?(?=[\d.])/y;
const TOLERANCE_MARK = / ?(?:±|\+\/-|\+-) ?/;

interface Scanned {
  readonly value: number;
  readonly end: number;
}

function matchAt(pattern: RegExp, text: string, at: number): RegExpExecArray | null {
  pattern.lastIndex = at;
  return pattern.exec(text);
}

function scanNumber(text: string, at: number, decimal: "." | ","): Scanned | undefined {
  const mixed = matchAt(MIXED, text, at);
  if (mixed) {
    const [all, whole, top, bottom] = mixed;
    if (!(Number(top) < Number(bottom))) return undefined;
    return { value: Number(whole) + Number(top) / Number(bottom), end: at + all.length };
  }
  const fraction = matchAt(FRACTION, text, at);
  if (fraction) {
    const [all, top, bottom] = fraction;
    if (Number(bottom) === 0) return undefined;
    return { value: Number(top) / Number(bottom), end: at + all.length };
  }
  const plain = matchAt(GROUPED[decimal], text, at) ?? matchAt(PLAIN[decimal], text, at);
  if (!plain) return undefined;
  const digits = decimal === "." ? plain[0].replaceAll(",", "") : plain[0].replaceAll(".", "").replace(",", ".");
  const value = Number(digits);
  if (value === 0 && /[1-9]/.test(digits.replace(/e.*/i, ""))) return undefined;
  return { value, end: at + plain[0].length };
}

const problem = (code: ReadingProblem["code"], message: string, dimension: Dimension): ReadingProblem => ({
  code,
  message,
  expected: expectedFor(dimension),
});

const isProblem = (read: object): read is ReadingProblem => "code" in read;

const article = (word: string): string => (/^[aeiou]/.test(word) ? `an ${word}` : `a ${word}`);

const words = (dimension: Dimension): string =>
  dimension === "volumeFlow" ? "volume flow" : dimension.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

function expectedFor(dimension: Dimension): string {
  return `${article(words(dimension))} with its unit, for example "${examples[dimension]}"`;
}

/** The unit of the dimension's example: a unit to offer. */
const exampleUnit = (dimension: Dimension): string => examples[dimension].replace(/^[\d./]+\s*/, "");

/** Text of others inside a message: short, and without characters that steer a terminal or a page. */
const quoted = (text: string): string => {
  const characters = [...text.replace(/\p{C}/gu, "\ufffd")];
  return characters.length > 30 ? `"${characters.slice(0, 30).join("")}…"` : `"${characters.join("")}"`;
};

function badNumber(text: string, at: number, dimension: Dimension, decimal: "." | ","): ReadingProblem {
  const found = matchAt(ANY_NUMBER, text, at)?.[0] ?? "";
  if (found === "") {
    return problem("noValue", `write a number and then its unit, for example "${examples[dimension]}"`, dimension);
  }
  const other = decimal === "." ? "," : ".";
  if (/^\d+[.,]\d+$/.test(found) && found.includes(other)) {
    const unit = text.slice(at + found.length).trim() || exampleUnit(dimension);
    const asDecimal = quoted(`${found.replace(other, decimal)} ${unit}`);
    const asGroup = quoted(`${found.replace(other, "")} ${unit}`);
    const readings = found.startsWith("0")
      ? `"${found}" has ${other === "," ? "a comma" : "a point"} before its decimals: write ${asDecimal}`
      : `"${found}" can be read two ways: write ${asDecimal} or ${asGroup}`;
    return problem("commaTwoWays", `${readings}, or say that "${other}" is the decimal mark`, dimension);
  }
  return problem(
    "malformedNumber",
    `${quoted(found)} is not a number that can be read; write for example "${examples[dimension]}"`,
    dimension,
  );
}

function noUnit(number: string, dimension: Dimension): ReadingProblem {
  const example =
    dimension === "ratio" ? `"${number} %" or "${number} of 1"` : `for example "${number} ${exampleUnit(dimension)}"`;
  return problem("noUnit", `say the unit, ${example}`, dimension);
}

const isSpelling = (text: string): boolean =>
  Object.values(units).some((unit) => (unit.spellings as readonly string[]).includes(text));

function badUnit(unit: string, dimension: Dimension): ReadingProblem {
  const offer = ambiguous.get(unit) ?? ambiguous.get(unit.toLowerCase());
  if (offer !== undefined) {
    return problem("ambiguousUnit", `"${unit}" means more than one unit; write ${offer}`, dimension);
  }
  for (const other of new Set(Object.values(units).map((facts) => facts.dimension))) {
    if (other === dimension || unitNamed(unit, other) === undefined) continue;
    return problem(
      "wrongDimension",
      `"${unit}" is a unit of ${words(other)}; write ${article(words(dimension))}, for example "${examples[dimension]}"`,
      dimension,
    );
  }
  const another = / ?[-+.]?\d/.exec(unit);
  if (another && isSpelling(unit.slice(0, another.index))) {
    const example = dimension === "length" ? '"18 ft" or "35 ft 6 1/2 in"' : `"${examples[dimension]}"`;
    return problem("twoUnits", `there is more than one amount; write one, for example ${example}`, dimension);
  }
  if (unit.includes(" ") && unit.split(" ").every(isSpelling)) {
    return problem("twoUnits", `"${unit}" names two units; write one, for example "${examples[dimension]}"`, dimension);
  }
  return problem(
    "unknownUnit",
    `${quoted(unit)} is not a known unit; write one of ${spellingsFor(dimension)}`,
    dimension,
  );
}

interface Amount {
  readonly value: number;
  readonly unit: Unit;
  /** The unit to report where it is not the one the value is in: feet for feet and inches. */
  readonly reported?: Unit;
}

function readAmount(text: string, dimension: Dimension, decimal: "." | ","): Amount | ReadingProblem {
  let at = 0;
  let sign = 1;
  if (text[0] === "-" || text[0] === "+") {
    sign = text[0] === "-" ? -1 : 1;
    at = text[1] === " " ? 2 : 1;
  }
  const number = scanNumber(text, at, decimal);
  if (!number) return badNumber(text, at, dimension, decimal);
  const unitAt = text[number.end] === " " ? number.end + 1 : number.end;
  if (unitAt === text.length) return noUnit(text, dimension);
  if (matchAt(NOT_A_UNIT, text, unitAt)) return badNumber(text, at, dimension, decimal);
  const rest = text.slice(unitAt);
  const unit = unitNamed(rest, dimension);
  if (unit !== undefined) return { value: sign * number.value, unit };

  const feet = dimension === "length" ? matchAt(FEET_THEN_MORE, text, unitAt) : null;
  if (!feet) return badUnit(rest, dimension);
  const inchesAt = unitAt + feet[0].length;
  const inches = scanNumber(text, inchesAt, decimal);
  if (!inches) return badNumber(text, inchesAt, dimension, decimal);
  if (unitNamed(text.slice(inches.end).trim(), "length") !== "in") {
    return problem("twoUnits", 'after feet only inches may follow, for example "35 ft 6 1/2 in"', dimension);
  }
  if (inches.value >= 12 || !Number.isInteger(number.value)) {
    return problem(
      "malformedNumber",
      'feet and inches want whole feet and less than 12 inches, for example "35 ft 6 1/2 in"',
      dimension,
    );
  }
  // in inches, so that 35 ft 6 1/2 in is 426.5 in to the last bit
  return { value: sign * (number.value * 12 + inches.value), unit: "in", reported: "ft" };
}

/** The SI number of an amount; a slope given as an angle is its tangent. */
function toSi(value: number, unit: Unit, dimension: Dimension): number {
  const { factor, zero, dimension: of } = unitFacts(unit);
  const si = zero === undefined ? value * factor : value * factor + zero;
  return dimension === "slope" && of === "angle" ? Math.tan(si) : si;
}

/** Below this a temperature is a slip of the pen and not rounding [K]. */
const ABSOLUTE_ZERO = -1e-9;

function settle<D extends Dimension>(
  amount: Amount,
  spread: Amount | undefined,
  dimension: D,
): Reading<D> | ReadingProblem {
  const value = toSi(amount.value, amount.unit, dimension);
  const { factor, dimension: of } = unitFacts(amount.unit);
  const asAngle = dimension === "slope" && of === "angle";
  let plusMinus = spread ? spread.value * unitFacts(spread.unit).factor : 0;
  const known = [value, plusMinus].every(Number.isFinite);
  // 0 K is a value; a length that is written as more than nothing and comes out as nothing was lost on the way
  const lost = (amount.value !== 0 && value === 0 && dimension !== "temperature") || (spread?.value && plusMinus === 0);
  if (!known || lost) {
    return problem("notFinite", "the number is too large or too small to mean anything here", dimension);
  }
  if (dimension === "temperature" && value < ABSOLUTE_ZERO) {
    return problem("impossible", 'no temperature is below absolute zero, "-273.15 °C" or "-459.67 °F"', dimension);
  }
  const angle = asAngle ? amount.value * factor : Math.atan(value);
  const spreadAngle = dimension === "slope" && spread && unitFacts(spread.unit).dimension === "angle" ? plusMinus : 0;
  if ((asAngle || spreadAngle > 0) && Math.abs(angle) + spreadAngle >= Math.PI / 2) {
    return problem("impossible", "a slope given as an angle must stay between -90° and 90°", dimension);
  }
  // the wider of the two sides, so that the interval holds all that was stated
  if (spreadAngle > 0) plusMinus = Math.tan(Math.abs(angle) + spreadAngle) - Math.abs(value);
  const unit = amount.reported ?? (asAngle ? "percentSlope" : amount.unit);
  return { value: value as Quantity<D>, plusMinus, unit };
}

/**
 * What texts were read as. Each text is read at least twice, to check it and to use it, and sites repeat one another's:
 * without this a third of the time over many sites goes into reading.
 */
const readings = { ".": new Map<Dimension, Readings>(), ",": new Map<Dimension, Readings>() };
type Readings = Map<string, Reading<Dimension>>;

/** How many texts are remembered of one dimension before they are let go; most sites have fewer in all. */
const MOST_READINGS = 500;

/** What texts of a dimension were read as. */
function readingsOf(dimension: Dimension, decimal: "." | ","): Readings {
  let known = readings[decimal].get(dimension);
  if (!known) {
    known = new Map();
    readings[decimal].set(dimension, known);
  }
  return known;
}

/**
 * Reads one quantity of a given dimension.
 *
 * Accepts decimals, well-formed thousands, fractions and mixed numbers, feet and inches, and a tolerance after `±` or
 * `+/-`, or an object `{ value, unit, plusMinus }`. Refuses everything else with the spelling to use. Takes time linear
 * in the text, which may hold 100 characters.
 *
 * @param input - text such as `"35 ft 6 1/2 in ± 1/4 in"`, or `{ value: 22, unit: "in", plusMinus: 0.25 }`
 * @param dimension - what the quantity must measure
 * @returns the reading, or a problem that says what to write
 * @example readQuantity("2-1/2 in", "length") // { value: 0.0635, plusMinus: 0, unit: "in" }
 */
export function readQuantity<D extends Dimension>(
  input: unknown,
  dimension: D,
  { decimal = "." }: ReadOptions = {},
): Reading<D> | ReadingProblem {
  if (typeof input === "string") {
    const known = readingsOf(dimension, decimal);
    const remembered = known.get(input) as Reading<D> | undefined;
    if (remembered) return remembered;
    const read = readText(input, dimension, decimal);
    if (isProblem(read)) return read;
    if (known.size >= MOST_READINGS) known.clear();
    known.set(input, Object.freeze(read));
    return read;
  }
  if (typeof input === "object" && input !== null && Object.hasOwn(input, "value") && Object.hasOwn(input, "unit")) {
    return readParts(input as Parts, dimension);
  }
  if (typeof input === "number" && Number.isFinite(input)) return noUnit(String(input), dimension);
  return problem("wrongType", `write ${expectedFor(dimension)}`, dimension);
}

interface Parts {
  readonly value: unknown;
  readonly unit: unknown;
  readonly plusMinus?: unknown;
}

const PARTS = ["value", "unit", "plusMinus"];

function readParts<D extends Dimension>(parts: Parts, dimension: D): Reading<D> | ReadingProblem {
  const { value, unit, plusMinus } = parts;
  const stray = Object.keys(parts).find((key) => !PARTS.includes(key));
  if (stray !== undefined) {
    return problem(
      "wrongType",
      `${quoted(stray)} is no part of a quantity; write value, unit and plusMinus`,
      dimension,
    );
  }
  if (typeof value !== "number" || typeof unit !== "string") {
    return problem("wrongType", "write the value as a number and the unit as text", dimension);
  }
  if (!Number.isFinite(value)) return problem("notFinite", "the value must be a finite number", dimension);
  if (unit.length > LONGEST_TEXT) return tooLong(dimension);
  const spelling = fold(unit);
  if (spelling === "") return noUnit(String(value), dimension);
  const named = unitNamed(spelling, dimension);
  if (named === undefined) return badUnit(spelling, dimension);
  if (plusMinus === undefined) return settle({ value, unit: named }, undefined, dimension);
  if (typeof plusMinus !== "number" || !(plusMinus >= 0 && Number.isFinite(plusMinus))) {
    return problem("malformedTolerance", "plusMinus must be a finite number, 0 or more, in the same unit", dimension);
  }
  return settle({ value, unit: named }, { value: plusMinus, unit: named }, dimension);
}

function tooLong(dimension: Dimension): ReadingProblem {
  return problem(
    "tooLong",
    `a quantity has at most ${LONGEST_TEXT} characters; write for example "${examples[dimension]}"`,
    dimension,
  );
}

function readText<D extends Dimension>(input: string, dimension: D, decimal: "." | ","): Reading<D> | ReadingProblem {
  if (input.length > LONGEST_TEXT) return tooLong(dimension);
  const text = fold(input);
  const mark = TOLERANCE_MARK.exec(text);
  const amountText = mark ? text.slice(0, mark.index) : text;
  const amount = readAmount(amountText, dimension, decimal);
  if (!mark) return isProblem(amount) ? amount : settle(amount, undefined, dimension);

  const bad = (message: string) => problem("malformedTolerance", message, dimension);
  const spreadText = text.slice(mark.index + mark[0].length);
  if (TOLERANCE_MARK.test(spreadText)) return bad("write one tolerance after one ±");
  const of: Dimension = dimension === "temperature" ? "temperatureDifference" : dimension;
  const spread = readAmount(spreadText, of, decimal);
  if (isProblem(amount)) {
    if (amount.code !== "noUnit" || isProblem(spread)) return amount;
    const unit = unitFacts(spread.unit).spellings[0];
    return problem("noUnit", `say the unit before ± too: "${amountText} ${unit} ± ${spreadText}"`, dimension);
  }
  if (isProblem(spread)) {
    if (spread.code !== "noUnit") return bad(`after ±: ${spread.message}`);
    return bad(`say the unit after ± too: "${text} ${unitFacts(amount.unit).spellings[0]}"`);
  }
  if (spread.value < 0) return bad("the tolerance after ± must not be negative");
  return settle(amount, spread, dimension);
}

/** Tells a problem from a reading. */
export function isReadingProblem(read: Reading<Dimension> | ReadingProblem): read is ReadingProblem {
  return isProblem(read);
}

/** What to write for a dimension, for help texts and form lines. */
export function quantityHelp(dimension: Dimension): string {
  return expectedFor(dimension);
}

/** A well-formed example of the dimension, for help texts and form lines. */
export function quantityExample(dimension: Dimension): string {
  return examples[dimension];
}
