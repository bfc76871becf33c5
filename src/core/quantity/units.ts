/**
 * The closed table of units. Each factor is exact by definition unless its source says otherwise; derived factors are
 * written as products of exact ones on the line, so that a reader can follow them.
 */
import type { Dimension } from "./dimension.js";

/** Where a factor comes from. */
export const unitSources = {
  si: "BIPM, The International System of Units, 9th edition (2019), sections 2.3 and 4: exact by definition",
  yardPound: "International yard and pound agreement (1959), in NIST SP 811 (2008), appendix B.6: exact by definition",
  usVolume: "NIST Handbook 44, appendix C: the US gallon is 231 in³, exact by definition",
  ukVolume: "UK Units of Measurement Regulations 1995, schedule: the imperial gallon is 4.54609 L, exact by definition",
  gravity: "CGPM 1901, standard acceleration of gravity 9.80665 m/s²: exact by convention",
  btuIt: "5th International Conference on the Properties of Steam (1956): Btu(IT) 1055.05585262 J, exact by convention",
  horsepower: "550 ft·lbf/s, NIST SP 811 (2008), appendix B.8: derived from exact factors",
  waterColumn: "conventional water, 1000 kg/m³ at standard gravity, NIST SP 811 (2008), appendix B.8",
  mercuryColumn: "conventional mercury, 13 595.1 kg/m³ at standard gravity, NIST SP 811 (2008), appendix B.8",
  time: "BIPM, The International System of Units, 9th edition (2019), table 8; the year is the Julian year of 365.25 d",
} as const;

interface UnitSpec {
  readonly dimension: Dimension;
  /** SI value of one unit. */
  readonly factor: number;
  /** SI value of zero on this scale; only temperatures have one. */
  readonly zero?: number;
  /** Spellings read, after folding; the first one is shown. */
  readonly spellings: readonly [string, ...string[]];
  readonly source: keyof typeof unitSources;
}

const INCH = 0.0254;
const FOOT = 0.3048;
const POUND = 0.45359237;
const GRAVITY = 9.80665;
const POUND_FORCE = POUND * GRAVITY;
const US_GALLON = 231 * INCH ** 3;
const UK_GALLON = 4.54609e-3;
const BTU = 1055.05585262;
const HOUR = 3600;
const RANKINE = 5 / 9;
const DEGREE = Math.PI / 180;
const ICE_POINT = 273.15;

/** Every unit that can be read or shown, by its id: dimension, SI factor, spellings, source of the factor. */
export const units = {
  m: { dimension: "length", factor: 1, spellings: ["m", "metre", "metres", "meter", "meters"], source: "si" },
  mm: { dimension: "length", factor: 1e-3, spellings: ["mm"], source: "si" },
  cm: { dimension: "length", factor: 1e-2, spellings: ["cm"], source: "si" },
  km: { dimension: "length", factor: 1e3, spellings: ["km"], source: "si" },
  um: { dimension: "length", factor: 1e-6, spellings: ["µm", "um"], source: "si" },
  in: { dimension: "length", factor: INCH, spellings: ["in", "in.", "inch", "inches", '"'], source: "yardPound" },
  ft: { dimension: "length", factor: FOOT, spellings: ["ft", "ft.", "foot", "feet", "'"], source: "yardPound" },
  yd: { dimension: "length", factor: 3 * FOOT, spellings: ["yd", "yard", "yards"], source: "yardPound" },
  mil: { dimension: "length", factor: INCH / 1000, spellings: ["mil", "mils"], source: "yardPound" },

  m2: { dimension: "area", factor: 1, spellings: ["m2", "sq m"], source: "si" },
  cm2: { dimension: "area", factor: 1e-4, spellings: ["cm2", "sq cm"], source: "si" },
  mm2: { dimension: "area", factor: 1e-6, spellings: ["mm2", "sq mm"], source: "si" },
  in2: {
    dimension: "area",
    factor: INCH ** 2,
    spellings: ["in2", "sq in", "sq in.", "sq. in.", "square inches"],
    source: "yardPound",
  },
  ft2: {
    dimension: "area",
    factor: FOOT ** 2,
    spellings: ["ft2", "sq ft", "sq. ft.", "square feet"],
    source: "yardPound",
  },

  m3: { dimension: "volume", factor: 1, spellings: ["m3", "cu m"], source: "si" },
  L: { dimension: "volume", factor: 1e-3, spellings: ["L", "l", "litre", "litres", "liter", "liters"], source: "si" },
  mL: { dimension: "volume", factor: 1e-6, spellings: ["mL", "ml"], source: "si" },
  in3: {
    dimension: "volume",
    factor: INCH ** 3,
    spellings: ["in3", "cu in", "cu. in.", "cubic inches"],
    source: "yardPound",
  },
  ft3: {
    dimension: "volume",
    factor: FOOT ** 3,
    spellings: ["ft3", "cu ft", "cu. ft.", "cubic feet"],
    source: "yardPound",
  },
  galUS: { dimension: "volume", factor: US_GALLON, spellings: ["US gal", "gal (US)", "gal US"], source: "usVolume" },
  galUK: { dimension: "volume", factor: UK_GALLON, spellings: ["imp gal", "gal (imp)", "UK gal"], source: "ukVolume" },

  rad: { dimension: "angle", factor: 1, spellings: ["rad"], source: "si" },
  deg: { dimension: "angle", factor: DEGREE, spellings: ["°", "deg", "degree", "degrees"], source: "si" },
  arcmin: { dimension: "angle", factor: DEGREE / 60, spellings: ["arcmin"], source: "si" },
  turn: { dimension: "angle", factor: 2 * Math.PI, spellings: ["turn", "turns"], source: "si" },

  "m/m": { dimension: "slope", factor: 1, spellings: ["m/m", "m per m", "in/in", "ft/ft"], source: "si" },
  "mm/m": { dimension: "slope", factor: 1e-3, spellings: ["mm/m", "mm per m"], source: "si" },
  "in/ft": {
    dimension: "slope",
    factor: 1 / 12,
    spellings: [
      "in/ft",
      "in per ft",
      "in per foot",
      "in./ft",
      "in. per ft",
      "in. per foot",
      "inch per foot",
      "inches per foot",
      '"/ft',
      '" per ft',
      '" per foot',
      `"/'`,
    ],
    source: "yardPound",
  },
  percentSlope: { dimension: "slope", factor: 0.01, spellings: ["%", "percent"], source: "si" },

  kg: { dimension: "mass", factor: 1, spellings: ["kg"], source: "si" },
  g: { dimension: "mass", factor: 1e-3, spellings: ["g"], source: "si" },
  lb: {
    dimension: "mass",
    factor: POUND,
    spellings: ["lb", "lbs", "lb.", "pound", "pounds", "lbm"],
    source: "yardPound",
  },
  oz: { dimension: "mass", factor: POUND / 16, spellings: ["oz"], source: "yardPound" },

  N: { dimension: "force", factor: 1, spellings: ["N", "newton", "newtons"], source: "si" },
  kN: { dimension: "force", factor: 1e3, spellings: ["kN"], source: "si" },
  lbf: { dimension: "force", factor: POUND_FORCE, spellings: ["lbf", "lb-force", "pounds-force"], source: "gravity" },
  kgf: { dimension: "force", factor: GRAVITY, spellings: ["kgf"], source: "gravity" },

  "N*m": { dimension: "torque", factor: 1, spellings: ["N·m", "N m", "Nm", "N*m", "N-m"], source: "si" },
  inlbf: {
    dimension: "torque",
    factor: INCH * POUND_FORCE,
    spellings: [
      "in-lb",
      "in·lb",
      "in lb",
      "lb-in",
      "in-lbs",
      "in-lbf",
      "in·lbf",
      "in lbf",
      "lbf·in",
      "lbf in",
      "lbf-in",
    ],
    source: "gravity",
  },
  ftlbf: {
    dimension: "torque",
    factor: FOOT * POUND_FORCE,
    spellings: [
      "ft-lb",
      "ft·lb",
      "ft lb",
      "lb-ft",
      "ft-lbs",
      "ft-lbf",
      "ft·lbf",
      "ft lbf",
      "lbf·ft",
      "lbf ft",
      "lbf-ft",
    ],
    source: "gravity",
  },

  Pa: { dimension: "pressure", factor: 1, spellings: ["Pa", "pascal", "N/m2"], source: "si" },
  kPa: { dimension: "pressure", factor: 1e3, spellings: ["kPa", "kN/m2"], source: "si" },
  MPa: { dimension: "pressure", factor: 1e6, spellings: ["MPa", "N/mm2"], source: "si" },
  bar: { dimension: "pressure", factor: 1e5, spellings: ["bar"], source: "si" },
  mbar: { dimension: "pressure", factor: 100, spellings: ["mbar"], source: "si" },
  psi: { dimension: "pressure", factor: POUND_FORCE / INCH ** 2, spellings: ["psi", "lbf/in2"], source: "gravity" },
  psf: {
    dimension: "pressure",
    factor: POUND_FORCE / FOOT ** 2,
    spellings: ["psf", "lbf/ft2", "lb/ft2"],
    source: "gravity",
  },
  inH2O: {
    dimension: "pressure",
    factor: 1000 * GRAVITY * INCH,
    spellings: [
      "inH2O",
      "in H2O",
      "in. H2O",
      "in w.c.",
      "in. w.c.",
      "in wc",
      "in. wc",
      "in WC",
      "in. WC",
      "in W.C.",
      "in. W.C.",
      '" w.c.',
      '" W.C.',
      '" wc',
      '" WC',
      "in w.g.",
      "in. w.g.",
      "in wg",
      "in. wg",
      "inwc",
    ],
    source: "waterColumn",
  },
  mmH2O: { dimension: "pressure", factor: GRAVITY, spellings: ["mmH2O", "mm H2O"], source: "waterColumn" },
  ftH2O: {
    dimension: "pressure",
    factor: 1000 * GRAVITY * FOOT,
    spellings: ["ftH2O", "ft H2O"],
    source: "waterColumn",
  },
  inHg: {
    dimension: "pressure",
    factor: 13595.1 * GRAVITY * INCH,
    spellings: ["inHg", "in Hg"],
    source: "mercuryColumn",
  },
  mmHg: { dimension: "pressure", factor: 13.5951 * GRAVITY, spellings: ["mmHg", "mm Hg"], source: "mercuryColumn" },
  atm: { dimension: "pressure", factor: 101325, spellings: ["atm"], source: "si" },

  "Pa/m": { dimension: "pressureGradient", factor: 1, spellings: ["Pa/m"], source: "si" },
  "inH2O/100ft": {
    dimension: "pressureGradient",
    factor: (1000 * GRAVITY * INCH) / (100 * FOOT),
    spellings: ["inH2O/100 ft", "inH2O per 100 ft", "in w.c. per 100 ft", "in w.c./100 ft"],
    source: "waterColumn",
  },
  "psi/100ft": {
    dimension: "pressureGradient",
    factor: POUND_FORCE / INCH ** 2 / (100 * FOOT),
    spellings: ["psi/100 ft", "psi per 100 ft"],
    source: "gravity",
  },

  K: { dimension: "temperature", factor: 1, spellings: ["K", "kelvin"], source: "si" },
  degC: {
    dimension: "temperature",
    factor: 1,
    zero: ICE_POINT,
    spellings: ["°C", "° C", "C", "degC", "deg C"],
    source: "si",
  },
  degF: {
    dimension: "temperature",
    factor: RANKINE,
    zero: ICE_POINT - 32 * RANKINE,
    spellings: ["°F", "° F", "F", "degF", "deg F"],
    source: "si",
  },
  deltaK: { dimension: "temperatureDifference", factor: 1, spellings: ["K", "kelvin"], source: "si" },
  deltaC: {
    dimension: "temperatureDifference",
    factor: 1,
    spellings: ["°C", "° C", "C", "degC", "deg C"],
    source: "si",
  },
  deltaF: {
    dimension: "temperatureDifference",
    factor: RANKINE,
    spellings: ["°F", "° F", "F", "degF", "deg F"],
    source: "si",
  },

  W: { dimension: "power", factor: 1, spellings: ["W", "watt", "watts"], source: "si" },
  kW: { dimension: "power", factor: 1e3, spellings: ["kW"], source: "si" },
  VA: { dimension: "power", factor: 1, spellings: ["VA"], source: "si" },
  kVA: { dimension: "power", factor: 1e3, spellings: ["kVA"], source: "si" },
  hp: { dimension: "power", factor: 550 * FOOT * POUND_FORCE, spellings: ["hp", "HP"], source: "horsepower" },
  "Btu/h": {
    dimension: "power",
    factor: BTU / HOUR,
    spellings: ["Btu/h", "Btu/hr", "BTU/h", "BTU/hr", "BTUH", "Btuh", "btu/h", "btu/hr"],
    source: "btuIt",
  },
  MBH: { dimension: "power", factor: (1000 * BTU) / HOUR, spellings: ["MBH", "kBtu/h", "kBTU/h"], source: "btuIt" },

  J: { dimension: "energy", factor: 1, spellings: ["J"], source: "si" },
  kJ: { dimension: "energy", factor: 1e3, spellings: ["kJ"], source: "si" },
  MJ: { dimension: "energy", factor: 1e6, spellings: ["MJ"], source: "si" },
  Wh: { dimension: "energy", factor: HOUR, spellings: ["Wh"], source: "si" },
  kWh: { dimension: "energy", factor: 1e3 * HOUR, spellings: ["kWh"], source: "si" },
  Btu: { dimension: "energy", factor: BTU, spellings: ["Btu", "BTU", "btu"], source: "btuIt" },

  V: { dimension: "voltage", factor: 1, spellings: ["V", "volt", "volts", "VAC", "Vac"], source: "si" },
  mV: { dimension: "voltage", factor: 1e-3, spellings: ["mV"], source: "si" },
  kV: { dimension: "voltage", factor: 1e3, spellings: ["kV"], source: "si" },
  A: { dimension: "current", factor: 1, spellings: ["A", "amp", "amps", "ampere", "amperes"], source: "si" },
  mA: { dimension: "current", factor: 1e-3, spellings: ["mA"], source: "si" },
  ohm: { dimension: "resistance", factor: 1, spellings: ["Ω", "ohm", "ohms"], source: "si" },
  mohm: { dimension: "resistance", factor: 1e-3, spellings: ["mΩ", "mohm"], source: "si" },
  kohm: { dimension: "resistance", factor: 1e3, spellings: ["kΩ", "kohm"], source: "si" },
  "ohm/m": { dimension: "resistancePerLength", factor: 1, spellings: ["Ω/m", "ohm/m"], source: "si" },
  "ohm/km": { dimension: "resistancePerLength", factor: 1e-3, spellings: ["Ω/km", "ohm/km"], source: "si" },
  "ohm/kft": {
    dimension: "resistancePerLength",
    factor: 1 / (1000 * FOOT),
    spellings: ["Ω/kft", "ohm/kft", "ohm/1000 ft", "Ω/1000 ft"],
    source: "yardPound",
  },

  "m3/s": { dimension: "volumeFlow", factor: 1, spellings: ["m3/s"], source: "si" },
  "m3/h": { dimension: "volumeFlow", factor: 1 / HOUR, spellings: ["m3/h"], source: "si" },
  "L/s": { dimension: "volumeFlow", factor: 1e-3, spellings: ["L/s", "l/s"], source: "si" },
  "L/min": { dimension: "volumeFlow", factor: 1e-3 / 60, spellings: ["L/min", "l/min"], source: "si" },
  cfm: { dimension: "volumeFlow", factor: FOOT ** 3 / 60, spellings: ["cfm", "CFM", "ft3/min"], source: "yardPound" },
  cfh: { dimension: "volumeFlow", factor: FOOT ** 3 / HOUR, spellings: ["cfh", "CFH", "ft3/h"], source: "yardPound" },
  gpm: {
    dimension: "volumeFlow",
    factor: US_GALLON / 60,
    spellings: ["gpm", "GPM", "US gpm", "US gal/min"],
    source: "usVolume",
  },

  "kg/s": { dimension: "massFlow", factor: 1, spellings: ["kg/s"], source: "si" },
  "kg/h": { dimension: "massFlow", factor: 1 / HOUR, spellings: ["kg/h"], source: "si" },
  "g/min": { dimension: "massFlow", factor: 1e-3 / 60, spellings: ["g/min"], source: "si" },
  "lb/h": { dimension: "massFlow", factor: POUND / HOUR, spellings: ["lb/h", "lb/hr"], source: "yardPound" },

  "m/s": { dimension: "speed", factor: 1, spellings: ["m/s"], source: "si" },
  fpm: { dimension: "speed", factor: FOOT / 60, spellings: ["fpm", "ft/min"], source: "yardPound" },
  "ft/s": { dimension: "speed", factor: FOOT, spellings: ["ft/s", "fps"], source: "yardPound" },
  mph: { dimension: "speed", factor: (5280 * FOOT) / HOUR, spellings: ["mph"], source: "yardPound" },
  "km/h": { dimension: "speed", factor: 1 / 3.6, spellings: ["km/h"], source: "si" },

  s: { dimension: "time", factor: 1, spellings: ["s", "sec", "second", "seconds"], source: "si" },
  ms: { dimension: "time", factor: 1e-3, spellings: ["ms"], source: "si" },
  min: { dimension: "time", factor: 60, spellings: ["min", "minute", "minutes"], source: "time" },
  h: { dimension: "time", factor: HOUR, spellings: ["h", "hr", "hour", "hours"], source: "time" },
  d: { dimension: "time", factor: 24 * HOUR, spellings: ["d", "day", "days"], source: "time" },
  yr: { dimension: "time", factor: 365.25 * 24 * HOUR, spellings: ["yr", "year", "years"], source: "time" },

  Hz: { dimension: "frequency", factor: 1, spellings: ["Hz"], source: "si" },
  rpm: { dimension: "frequency", factor: 1 / 60, spellings: ["rpm", "r/min"], source: "si" },

  "kg/m3": { dimension: "density", factor: 1, spellings: ["kg/m3"], source: "si" },
  "lb/ft3": { dimension: "density", factor: POUND / FOOT ** 3, spellings: ["lb/ft3", "lb/cu ft"], source: "yardPound" },
  "Pa*s": { dimension: "viscosity", factor: 1, spellings: ["Pa·s", "Pa s", "Pa*s"], source: "si" },
  "mPa*s": { dimension: "viscosity", factor: 1e-3, spellings: ["mPa·s", "mPa s", "cP"], source: "si" },
  "J/m3": { dimension: "heatContent", factor: 1, spellings: ["J/m3"], source: "si" },
  "MJ/m3": { dimension: "heatContent", factor: 1e6, spellings: ["MJ/m3"], source: "si" },
  "Btu/ft3": {
    dimension: "heatContent",
    factor: BTU / FOOT ** 3,
    spellings: ["Btu/ft3", "BTU/ft3", "Btu/cu ft"],
    source: "btuIt",
  },
  "m2*K/W": { dimension: "thermalResistance", factor: 1, spellings: ["m2·K/W", "m2 K/W", "m2*K/W"], source: "si" },
  "h*ft2*F/Btu": {
    dimension: "thermalResistance",
    factor: (HOUR * FOOT ** 2 * RANKINE) / BTU,
    spellings: ["h·ft2·°F/Btu", "h ft2 F/Btu", "h*ft2*F/Btu", "ft2·°F·h/Btu"],
    source: "btuIt",
  },
  "N/m": { dimension: "stiffness", factor: 1, spellings: ["N/m"], source: "si" },
  "N/mm": { dimension: "stiffness", factor: 1e3, spellings: ["N/mm"], source: "si" },
  "lbf/in": { dimension: "stiffness", factor: POUND_FORCE / INCH, spellings: ["lbf/in", "lb/in"], source: "gravity" },

  percent: { dimension: "ratio", factor: 0.01, spellings: ["%", "percent"], source: "si" },
  "1": { dimension: "ratio", factor: 1, spellings: ["of 1"], source: "si" },
} as const satisfies Record<string, UnitSpec>;

/** The id of a unit in the table, for example `"in"` or `"Btu/h"`. */
export type Unit = keyof typeof units;
/** The dimension a unit measures. */
export type DimensionOf<U extends Unit> = (typeof units)[U]["dimension"];
/** The units of one dimension. */
export type UnitsOf<D extends Dimension> = { [U in Unit]: DimensionOf<U> extends D ? U : never }[Unit];

/** The facts of a unit, with the widened types that generic code wants. */
export function unitFacts(unit: Unit): UnitSpec {
  return units[unit];
}
