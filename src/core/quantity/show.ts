/** Showing a quantity. Rounds once, here; what is shown can be read again. */
import type { Dimension, Quantity } from "./dimension.js";
import { inUnit } from "./si.js";
import { type Unit, unitFacts } from "./units.js";

/** The reader's units. */
export type UnitSystem = "us" | "si";

interface Kind {
  readonly dimension: Dimension;
  /** Units in order; the first whose value reaches `from` is used. `tape` is feet, inches and sixteenths. */
  readonly us: readonly Choice[];
  readonly si: readonly Choice[];
}
type Choice = Unit | "tape" | "inches" | "quarterTurns" | { readonly from: number; readonly unit: Unit };

const large = (from: number, unit: Unit): Choice => ({ from, unit });
// the dimension stays literal, so that the compiler tells a voltage from a current
const both = <D extends Dimension>(dimension: D, ...choices: Choice[]) => ({ dimension, us: choices, si: choices });

/**
 * The kinds of quantity that a message can show. Every dimension is a kind of its own; the others say which units the
 * trade uses for that thing: a duct's pressure in inches of water, a pipe's in psi.
 */
export const kinds = {
  length: { dimension: "length", us: ["tape"], si: [large(1, "m"), large(1e-3, "mm"), "um"] },
  inches: { dimension: "length", us: ["inches"], si: ["mm"] },
  thickness: { dimension: "length", us: ["in"], si: ["mm"] },
  area: { dimension: "area", us: [large(0.2787, "ft2"), "in2"], si: [large(0.1, "m2"), large(1e-4, "cm2"), "mm2"] },
  volume: { dimension: "volume", us: [large(0.0283, "ft3"), "in3"], si: [large(1, "m3"), large(1e-3, "L"), "mL"] },
  waterVolume: { dimension: "volume", us: ["galUS"], si: ["L"] },
  angle: both("angle", "deg"),
  turns: both("angle", "quarterTurns"),
  slope: { dimension: "slope", us: ["in/ft"], si: ["mm/m"] },
  mass: { dimension: "mass", us: ["lb"], si: [large(1, "kg"), "g"] },
  force: { dimension: "force", us: ["lbf"], si: [large(1000, "kN"), "N"] },
  torque: { dimension: "torque", us: [large(27, "ftlbf"), "inlbf"], si: ["N*m"] },
  pressure: { dimension: "pressure", us: ["psi"], si: [large(1e6, "MPa"), large(1e3, "kPa"), "Pa"] },
  airPressure: { dimension: "pressure", us: ["inH2O"], si: ["Pa"] },
  gasPressure: { dimension: "pressure", us: [large(6894, "psi"), "inH2O"], si: ["kPa"] },
  barometer: { dimension: "pressure", us: ["inHg"], si: ["kPa"] },
  floorLoad: { dimension: "pressure", us: ["psf"], si: ["kPa"] },
  pressureGradient: { dimension: "pressureGradient", us: ["inH2O/100ft"], si: ["Pa/m"] },
  temperature: { dimension: "temperature", us: ["degF"], si: ["degC"] },
  temperatureDifference: { dimension: "temperatureDifference", us: ["deltaF"], si: ["deltaC"] },
  power: both("power", large(1000, "kW"), "W"),
  apparentPower: both("power", large(1000, "kVA"), "VA"),
  heatRate: { dimension: "power", us: ["Btu/h"], si: [large(1000, "kW"), "W"] },
  energy: { dimension: "energy", us: ["Btu"], si: [large(1e6, "MJ"), large(1e3, "kJ"), "J"] },
  electricEnergy: both("energy", "kWh"),
  voltage: both("voltage", large(1, "V"), "mV"),
  current: both("current", large(1, "A"), "mA"),
  resistance: both("resistance", large(1, "ohm"), "mohm"),
  resistancePerLength: { dimension: "resistancePerLength", us: ["ohm/kft"], si: ["ohm/km"] },
  volumeFlow: { dimension: "volumeFlow", us: ["cfm"], si: ["L/s"] },
  waterFlow: { dimension: "volumeFlow", us: ["gpm"], si: ["L/min"] },
  gasFlow: { dimension: "volumeFlow", us: ["cfh"], si: ["m3/h"] },
  massFlow: { dimension: "massFlow", us: ["lb/h"], si: ["kg/h"] },
  speed: { dimension: "speed", us: ["fpm"], si: ["m/s"] },
  waterSpeed: { dimension: "speed", us: ["ft/s"], si: ["m/s"] },
  time: both(
    "time",
    large(31_557_600, "yr"),
    large(86_400, "d"),
    large(7200, "h"),
    large(120, "min"),
    large(1, "s"),
    "ms",
  ),
  frequency: both("frequency", "Hz"),
  spinSpeed: both("frequency", "rpm"),
  density: { dimension: "density", us: ["lb/ft3"], si: ["kg/m3"] },
  viscosity: both("viscosity", "mPa*s"),
  heatContent: { dimension: "heatContent", us: ["Btu/ft3"], si: ["MJ/m3"] },
  thermalResistance: { dimension: "thermalResistance", us: ["h*ft2*F/Btu"], si: ["m2*K/W"] },
  stiffness: { dimension: "stiffness", us: ["lbf/in"], si: ["N/mm"] },
  ratio: both("ratio", "percent"),
} as const satisfies Record<string, Kind> & Record<Dimension, Kind>;

/** The name of a kind of quantity, for example `"length"` or `"airPressure"`. */
export type QuantityKind = keyof typeof kinds;
/** The dimension a kind shows. */
export type DimensionOfKind<K extends QuantityKind> = (typeof kinds)[K]["dimension"];

/** The dimension behind a kind, for generic code. */
export function kindDimension(kind: QuantityKind): Dimension {
  return kinds[kind].dimension;
}

/** How a quantity is shown. */
export interface ShowOptions {
  /** The reader's units; the stated default is US. */
  readonly units?: UnitSystem;
  /** Significant digits; more are used where a caller must see a difference. Lengths then lose their sixteenths. */
  readonly digits?: number;
}

/** Digits shown unless more are asked for: three are what a site measurement holds. */
const DIGITS = 3;
const SIXTEENTHS = 16;

/** A number that is missing or beyond all bounds has no text; that it got here is a fault of the calling code. */
function needFinite(value: number): void {
  if (!Number.isFinite(value)) throw new RangeError(`${value} cannot be shown`);
}

/** Most decimals that `toFixed` gives. */
const MOST_DECIMALS = 100;

/**
 * A number with so many significant digits, thousands grouped, no exponent, no trailing zeros. Whole digits are never
 * lost.
 *
 * @throws RangeError where the number is not finite, which is a fault of the calling code
 * @example showNumber(21998.4) // "21,998"
 */
export function showNumber(value: number, digits = DIGITS): string {
  needFinite(value);
  if (value === 0) return "0";
  const magnitude = Math.floor(Math.log10(Math.abs(value)));
  const decimals = Math.min(MOST_DECIMALS, Math.max(0, digits - 1 - magnitude));
  // toFixed turns to exponents from 1e21 on, where every double is a whole number
  const text = magnitude < 21 ? value.toFixed(decimals) : BigInt(value).toString();
  const [whole = "", fraction = ""] = text.split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ",");
  const kept = fraction.replace(/0+$/, "");
  return kept === "" ? grouped : `${grouped}.${kept}`;
}

function fractionText(sixteenths: number): string {
  let top = sixteenths;
  let bottom = SIXTEENTHS;
  while (top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  return `${top}/${bottom}`;
}

/** A tape is read in inches alone up to here. */
const FEET_FROM_INCHES = 36;

/**
 * A length as a tape shows it: feet, inches and sixteenths, carried, never `0 ft 12 in`. Small lengths that no
 * sixteenth comes near are shown as decimal inches.
 */
function tape(metres: number, withFeet: boolean): string {
  const inches = metres / 0.0254;
  const size = Math.abs(inches);
  const total = Math.round(size * SIXTEENTHS);
  const off = Math.abs(size - total / SIXTEENTHS);
  if (size < 2 && off > 0.01 * size) return `${showNumber(inches)} in`;
  const sign = inches < 0 ? "-" : "";
  const feet = withFeet && total >= FEET_FROM_INCHES * SIXTEENTHS ? Math.floor(total / (12 * SIXTEENTHS)) : 0;
  const left = total - feet * 12 * SIXTEENTHS;
  const whole = Math.floor(left / SIXTEENTHS);
  const part = left % SIXTEENTHS;
  const inchText = [whole > 0 ? String(whole) : "", part > 0 ? fractionText(part) : ""].filter(Boolean).join(" ");
  if (feet === 0) return `${sign}${inchText || "0"} in`;
  return inchText === "" ? `${sign}${showNumber(feet, 9)} ft` : `${sign}${showNumber(feet, 9)} ft ${inchText} in`;
}

/** Turns to the quarter where they are on it, else decimal. */
function quarterTurns(radians: number): string {
  const turns = radians / (2 * Math.PI);
  const quarters = Math.round(Math.abs(turns) * 4);
  if (Math.abs(Math.abs(turns) * 4 - quarters) > 0.01) return `${showNumber(turns)} turns`;
  const whole = Math.floor(quarters / 4);
  const part = ["", "1/4", "1/2", "3/4"][quarters % 4]!;
  const number = [whole > 0 || part === "" ? String(whole) : "", part].filter(Boolean).join(" ");
  return `${turns < 0 && quarters > 0 ? "-" : ""}${number} ${quarters <= 4 && quarters > 0 ? "turn" : "turns"}`;
}

/** The first unit that the value reaches; every kind ends with one that has no lower end. */
function chosenUnit(value: number, choices: readonly Choice[]): Exclude<Choice, object> {
  const choice = choices.find((one) => typeof one === "string" || Math.abs(value) >= one.from * (1 - 1e-9))!;
  return typeof choice === "string" ? choice : choice.unit;
}

/**
 * A quantity as text with its unit, in the reader's units.
 *
 * @param quantity - SI number
 * @param kind - what is shown, see {@link kinds}
 * @throws RangeError where the number is not finite
 * @example show(si(5.5, "in"), "length") // "5 1/2 in"
 */
export function show<K extends QuantityKind>(
  quantity: Quantity<DimensionOfKind<K>>,
  kind: K,
  { units: system = "us", digits }: ShowOptions = {},
): string {
  needFinite(quantity);
  const choice = chosenUnit(quantity, kinds[kind][system]);
  if (choice === "quarterTurns") {
    return digits === undefined ? quarterTurns(quantity) : `${showNumber(quantity / (2 * Math.PI), digits)} turns`;
  }
  if (choice === "tape" || choice === "inches") {
    if (digits === undefined) return tape(quantity, choice === "tape");
    const unit = choice === "tape" && Math.abs(quantity) >= FEET_FROM_INCHES * 0.0254 ? "ft" : "in";
    return withUnit(inUnit(quantity as Quantity<"length">, unit), unit, digits);
  }
  // meters read mains to a tenth of a volt, and a supply is judged to less than one
  const mains = kind === "voltage" && quantity >= 100 ? DIGITS + 1 : undefined;
  return withUnit(inUnit(quantity as never, choice as never), choice, digits ?? mains);
}

function withUnit(value: number, unit: Unit, digits: number | undefined): string {
  const symbol = unitFacts(unit).spellings[0];
  return `${showNumber(value, digits)}${symbol === "°" ? "" : " "}${symbol}`;
}

/**
 * A quantity as text that reads back as exactly the same SI number: in `unit` where a decimal of it does, else in the
 * SI unit of its dimension.
 *
 * @example spell(si(22, "in"), "in") // "22 in"
 */
export function spell<D extends Dimension>(quantity: Quantity<D>, unit: Unit): string {
  const { value, unit: used } = exactly(quantity, unit);
  return `${value} ${unitFacts(used).spellings[0]}`;
}

/** The unit of each dimension whose factor is 1: every number can be spelled in it. */
const SI_UNITS: Record<Dimension, Unit> = {
  length: "m",
  area: "m2",
  volume: "m3",
  angle: "rad",
  slope: "m/m",
  mass: "kg",
  force: "N",
  torque: "N*m",
  pressure: "Pa",
  pressureGradient: "Pa/m",
  temperature: "K",
  temperatureDifference: "deltaK",
  power: "W",
  energy: "J",
  voltage: "V",
  current: "A",
  resistance: "ohm",
  resistancePerLength: "ohm/m",
  volumeFlow: "m3/s",
  massFlow: "kg/s",
  speed: "m/s",
  time: "s",
  frequency: "Hz",
  density: "kg/m3",
  viscosity: "Pa*s",
  heatContent: "J/m3",
  thermalResistance: "m2*K/W",
  stiffness: "N/m",
  ratio: "1",
};

/** The SI unit of a dimension, as an id of the unit table. */
export const siUnit = (dimension: Dimension): Unit => SI_UNITS[dimension];

/**
 * The value in `unit` whose SI number is exactly `quantity`, or the SI number itself with its SI unit where no
 * double in `unit` gives it back.
 *
 * @example exactly(si(22, "in"), "in") // { value: 22, unit: "in" }
 */
export function exactly<D extends Dimension>(quantity: Quantity<D>, unit: Unit): { value: number; unit: Unit } {
  const { factor, zero = 0, dimension } = unitFacts(unit);
  const near = (quantity - zero) / factor;
  for (const digits of [6, 12, 15, 16, 17]) {
    const value = Number(near.toPrecision(digits));
    if (value * factor + zero === quantity) return { value, unit };
  }
  return { value: quantity, unit: SI_UNITS[dimension] };
}
