/**
 * Moist air as a mixture of ideal gases. W is the humidity ratio, kg of water vapour per kg of dry air.
 *
 * Source of formulas and constants: ASHRAE Handbook Fundamentals 2017, SI edition, chapter 1, read in the source of
 * psychrolib 1.1.1. Real moist air holds up to 0.5 % more water near 25 °C, 1 % more at 50 °C.
 */
import { atMost } from "../core/quantity/compare.js";
import type { Density, Pressure, Ratio, Temperature } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { requireNotNegative, requirePositive, requireWithin } from "./domain.js";
import { gasConstantOfAir } from "./dry-air.js";
import { brent } from "./roots.js";

const ICE_POINT = 273.15;

/** Where the branches over ice and over water meet: the triple point, so that the dew point has one answer [K]. */
const TRIPLE_POINT = 273.16;

/** Range of the Hyland–Wexler formulas [K]. */
const COLDEST = 173.15;
const HOTTEST = 473.15;
/** Coldest air with a wet bulb: dry air of −60 °C has its bulb well inside the formulas' range [K]. */
const COLDEST_AIR = 213.15;

/** ln p over ice = C₁/T + C₂ + C₃·T + C₄·T² + C₅·T³ + C₆·T⁴ + C₇·ln T [Pa, K], equation 5. */
const ICE = [-5.6745359e3, 6.3925247, -9.677843e-3, 6.2215701e-7, 2.0747825e-9, -9.484024e-13, 4.1635019] as const;

/** ln p over water = C₈/T + C₉ + C₁₀·T + C₁₁·T² + C₁₂·T³ + C₁₃·ln T [Pa, K], equation 6. */
const WATER = [-5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 6.5459673] as const;

/** Molar mass of water over that of dry air, equation 20. */
const MASS_RATIO = 0.621945;
/** Its inverse as the handbook prints it, equation 26. */
const VOLUME_RATIO = 1.607858;
/** Specific heat of dry air, equation 30 [J/(kg·K)]. */
export const heatOfDryAir = 1006;
/** Specific heat of water vapour, equation 30 [J/(kg·K)]. */
export const heatOfVapour = 1860;
/** Enthalpy of saturated vapour at 0 °C, equation 30 [J/kg]. */
const VAPOUR_ENTHALPY = 2.501e6;

/** Wet-bulb relation over water and over ice, equations 33 and 35 [J/kg, J/(kg·K)]. */
const OVER_WATER = { latent: 2.501e6, slope: 2326, bulb: 4186 } as const;
const OVER_ICE = { latent: 2.83e6, slope: 240, bulb: 2100 } as const;

/**
 * Pressure of water vapour in balance with ice (below 0.01 °C) or water [Pa].
 *
 * Hyland and Wexler's formulas, see the constants; −100 to 200 °C; within 0.3 % of the handbook's table.
 *
 * @param temperature - T, 173.15 to 473.15 K [K]
 * @throws RangeError outside that range
 * @see ASHRAE Handbook Fundamentals 2017, chapter 1, equations 5 and 6
 * @example saturationPressure(298.15) // 3169.216
 */
export function saturationPressure(temperature: Temperature): Pressure {
  requireWithin("temperature", temperature, COLDEST, HOTTEST);
  return brand<"pressure">(Math.exp(logSaturation(temperature)));
}

function logSaturation(t: number): number {
  return t < TRIPLE_POINT
    ? ICE[0] / t + ICE[1] + t * (ICE[2] + t * (ICE[3] + t * (ICE[4] + t * ICE[5]))) + ICE[6] * Math.log(t)
    : WATER[0] / t + WATER[1] + t * (WATER[2] + t * (WATER[3] + t * WATER[4])) + WATER[5] * Math.log(t);
}

/**
 * Dew point (frost point below 0.01 °C) of a vapour pressure [K]: the temperature at which it is the saturation pressure.
 *
 * @param vapourPressure - p_w, 0.0014 Pa to 1.55 MPa, the range of {@link saturationPressure} [Pa]
 * @throws RangeError outside that range
 * @example dewPoint(1584.61) // 287.014
 */
export function dewPoint(vapourPressure: Pressure): Temperature {
  requirePositive("vapour pressure", vapourPressure);
  // The logarithm of the pressure is nearly straight in 1/T: a handful of steps will do.
  const target = Math.log(vapourPressure);
  const error = (inverse: number) => logSaturation(1 / inverse) - target;
  if (error(1 / COLDEST) > 0 || error(1 / HOTTEST) < 0) {
    throw new RangeError(`vapour pressure has no dew point from ${COLDEST} to ${HOTTEST} K (got ${vapourPressure})`);
  }
  return brand<"temperature">(1 / brent(error, 1 / HOTTEST, 1 / COLDEST, 1e-16));
}

/**
 * Humidity ratio W of a vapour pressure, kg of vapour per kg of dry air.
 *
 * W = 0.621945·p_w/(p − p_w)
 *
 * @param vapourPressure - p_w, 0 or more, below the total [Pa]
 * @param pressure - p, total, absolute [Pa]
 * @throws RangeError outside that range
 * @see ASHRAE Handbook Fundamentals 2017, chapter 1, equation 20
 * @example humidityRatio(1584.61, 101325) // 0.0098811
 */
export function humidityRatio(vapourPressure: Pressure, pressure: Pressure): number {
  requireNotNegative("vapour pressure", vapourPressure);
  requirePositive("pressure", pressure);
  if (vapourPressure >= pressure) {
    throw new RangeError(`vapour pressure must be below the total of ${pressure} Pa (got ${vapourPressure})`);
  }
  return (MASS_RATIO * vapourPressure) / (pressure - vapourPressure);
}

/**
 * Vapour pressure of a humidity ratio [Pa]: p_w = p·W/(0.621945 + W).
 *
 * @param ratio - W, 0 or more [kg/kg dry air]
 * @param pressure - p, total, absolute [Pa]
 * @throws RangeError when a value is out of its range
 * @example vapourPressure(0.04, 101325) // 6122.87
 */
export function vapourPressure(ratio: number, pressure: Pressure): Pressure {
  requireNotNegative("humidity ratio", ratio);
  requirePositive("pressure", pressure);
  return brand<"pressure">((pressure * ratio) / (MASS_RATIO + ratio));
}

/**
 * Density of moist air, dry air and vapour together [kg/m³].
 *
 * ρ = (1 + W)/v, v = 287.042·T·(1 + 1.607858·W)/p. Divided by 1 + W it is the dry air in a cubic metre.
 *
 * @param temperature - T [K]
 * @param ratio - W, 0 or more [kg/kg dry air]
 * @param pressure - p, total, absolute [Pa]
 * @throws RangeError when a value is out of its range
 * @see ASHRAE Handbook Fundamentals 2017, chapter 1, equations 26 and 11
 * @example moistAirDensity(323.15, 0.0403622, 101325) // 1.067196
 */
export function moistAirDensity(temperature: Temperature, ratio: number, pressure: Pressure): Density {
  return brand<"density">((1 + ratio) / dryAirVolume(temperature, ratio, pressure));
}

/**
 * Volume of moist air that holds one kilogram of dry air [m³/kg dry air].
 *
 * v = 287.042·T·(1 + 1.607858·W)/p
 *
 * @param temperature - T [K]
 * @param ratio - W, 0 or more [kg/kg dry air]
 * @param pressure - p, total, absolute [Pa]
 * @throws RangeError when a value is out of its range
 * @see ASHRAE Handbook Fundamentals 2017, chapter 1, equation 26
 * @example dryAirVolume(298.15, 0.009881, 101325) // 0.858043
 */
export function dryAirVolume(temperature: Temperature, ratio: number, pressure: Pressure): number {
  requirePositive("temperature", temperature);
  requireNotNegative("humidity ratio", ratio);
  requirePositive("pressure", pressure);
  return (gasConstantOfAir * temperature * (1 + VOLUME_RATIO * ratio)) / pressure;
}

/**
 * Enthalpy of moist air, from dry air and liquid water at 0 °C [J/kg dry air].
 *
 * h = 1006·t + W·(2 501 000 + 1860·t), t in °C. Tables in inch-pound units count from 0 °F and are no conversion of it.
 *
 * @param temperature - T [K]
 * @param ratio - W, 0 or more [kg/kg dry air]
 * @throws RangeError when a value is out of its range
 * @see ASHRAE Handbook Fundamentals 2017, chapter 1, equation 30
 * @example moistAirEnthalpy(298.15, 0) // 25150
 */
export function moistAirEnthalpy(temperature: Temperature, ratio: number): number {
  requirePositive("temperature", temperature);
  requireNotNegative("humidity ratio", ratio);
  const t = temperature - ICE_POINT;
  return heatOfDryAir * t + ratio * (VAPOUR_ENTHALPY + heatOfVapour * t);
}

/**
 * Latent heat of vaporisation of water [J/kg]: r = 2 501 000 − 2326·t, t in °C.
 *
 * @param temperature - T, of the water, 0 to 100 °C [K]
 * @throws RangeError outside that range
 * @see ASHRAE Handbook Fundamentals 2017, chapter 1, equation 33, at equal temperatures of bulb and air
 * @example latentHeat(313.15) // 2407960
 */
export function latentHeat(temperature: Temperature): number {
  requireWithin("temperature", temperature, ICE_POINT, ICE_POINT + 100);
  return OVER_WATER.latent - OVER_WATER.slope * (temperature - ICE_POINT);
}

/**
 * Humidity ratio from dry-bulb and thermodynamic wet-bulb temperature, kg of vapour per kg of dry air.
 *
 * Over water (t* from 0 °C): W = ((2501 − 2.326·t*)·W_s* − 1.006·(t − t*))/(2501 + 1.86·t − 4.186·t*), over ice:
 * ((2830 − 0.24·t*)·W_s* − 1.006·(t − t*))/(2830 + 1.86·t − 2.1·t*), in kJ and °C.
 *
 * @param temperature - t, dry bulb [K]
 * @param wetBulb - t*, at most the dry bulb [K]
 * @param pressure - p, total, absolute [Pa]
 * @throws RangeError when the wet bulb is above the dry bulb, or so far below it that no vapour would be left
 * @see ASHRAE Handbook Fundamentals 2017, chapter 1, equations 33 and 35
 * @example humidityRatioFromWetBulb(313.15, 293.15, 101325) // 0.0064008
 */
export function humidityRatioFromWetBulb(temperature: Temperature, wetBulb: Temperature, pressure: Pressure): number {
  if (!(wetBulb <= temperature)) {
    throw new RangeError(`wet bulb must not be above the dry bulb of ${temperature} K (got ${wetBulb})`);
  }
  const ratio = wetBulbRatio(temperature, wetBulb, pressure);
  requireNotNegative("humidity ratio at that wet bulb", ratio);
  return ratio;
}

function wetBulbRatio(temperature: Temperature, wetBulb: Temperature, pressure: Pressure): number {
  const t = temperature - ICE_POINT;
  const bulb = wetBulb - ICE_POINT;
  const saturated = humidityRatio(saturationPressure(wetBulb), pressure);
  const law = bulb >= 0 ? OVER_WATER : OVER_ICE;
  return (
    ((law.latent - law.slope * bulb) * saturated - heatOfDryAir * (t - bulb)) /
    (law.latent + heatOfVapour * t - law.bulb * bulb)
  );
}

/**
 * Thermodynamic wet-bulb temperature [K]: {@link humidityRatioFromWetBulb} inverted.
 *
 * Just below 0 °C an iced bulb and a wet one both have an answer, some tenths of a degree apart; it gives the wet one.
 *
 * @param temperature - T, dry bulb, −60 to 200 °C [K]
 * @param ratio - W, from 0 to saturation [kg/kg dry air]
 * @param pressure - p, total, absolute [Pa]
 * @throws RangeError when the air would be over-saturated
 * @example wetBulb(298.15, 0.009881, 101325) // 291.0393
 */
export function wetBulb(temperature: Temperature, ratio: number, pressure: Pressure): Temperature {
  requireWithin("air temperature", temperature, COLDEST_AIR, HOTTEST);
  requireNotNegative("humidity ratio", ratio);
  requirePositive("pressure", pressure);
  const error = (t: number) => wetBulbRatio(temperature, brand<"temperature">(t), pressure) - ratio;
  const isIced = temperature < ICE_POINT || error(ICE_POINT) > 0;
  const lowest = isIced ? COLDEST : ICE_POINT;
  const saturation = saturationPressure(temperature);
  if (saturation < pressure) {
    const saturated = humidityRatio(saturation, pressure);
    if (!atMost(ratio, saturated)) {
      throw new RangeError(`humidity ratio ${ratio} is above saturation, ${saturated} at ${temperature} K`);
    }
    // The largest number below 0 °C is still over ice.
    const highest = isIced ? Math.min(temperature, ICE_POINT - 1e-10) : temperature;
    if (error(highest) <= 0) return brand<"temperature">(highest);
    return brand<"temperature">(brent(error, lowest, highest, 1e-10));
  }
  // Hotter than boiling: the bulb stays below the boiling point, where the vapour alone would make up the pressure.
  const highest = dewPoint(brand<"pressure">(pressure * (1 - 1e-9)));
  return brand<"temperature">(brent(error, lowest, highest, 1e-10));
}

/** One state of moist air; every value belongs to the same temperature, moisture and pressure. */
export interface MoistAir {
  /** Dry-bulb temperature [K]. */
  readonly temperature: Temperature;
  /** Total pressure, absolute [Pa]. */
  readonly pressure: Pressure;
  /** Vapour pressure over saturation pressure at this temperature. */
  readonly relativeHumidity: Ratio;
  /** Partial pressure of the water vapour [Pa]. */
  readonly vapourPressure: Pressure;
  /** W, water vapour per dry air [kg/kg]. */
  readonly humidityRatio: number;
  /** Dew or frost point; undefined in air too dry to have one from −100 °C up [K]. */
  readonly dewPoint: Temperature | undefined;
  /** Thermodynamic wet-bulb temperature [K]. */
  readonly wetBulb: Temperature;
  /** From dry air and liquid water at 0 °C [J/kg dry air]. */
  readonly enthalpy: number;
  /** Air and vapour together [kg/m³]. */
  readonly density: Density;
  /** Volume that holds one kilogram of dry air [m³/kg]. */
  readonly dryAirVolume: number;
}

/**
 * The state of moist air at a temperature, relative humidity and pressure.
 *
 * @param temperature - −60 to 200 °C [K]
 * @param relativeHumidity - φ, 0 to 1; not the degree of saturation W/W_s
 * @param pressure - total, absolute [Pa]
 * @throws RangeError when a value is out of its range, or the vapour pressure would reach the total
 * @example moistAir(298.15, 0.5, 101325).humidityRatio // 0.009881
 */
export function moistAir(temperature: Temperature, relativeHumidity: Ratio, pressure: Pressure): MoistAir {
  requireWithin("air temperature", temperature, COLDEST_AIR, HOTTEST);
  requireWithin("relative humidity", relativeHumidity, 0, 1);
  const vapour = brand<"pressure">(relativeHumidity * saturationPressure(temperature));
  const ratio = humidityRatio(vapour, pressure);
  return {
    temperature,
    pressure,
    relativeHumidity,
    vapourPressure: vapour,
    humidityRatio: ratio,
    dewPoint: vapour > saturationPressure(brand<"temperature">(COLDEST)) ? dewPoint(vapour) : undefined,
    wetBulb: wetBulb(temperature, ratio, pressure),
    enthalpy: moistAirEnthalpy(temperature, ratio),
    density: moistAirDensity(temperature, ratio, pressure),
    dryAirVolume: dryAirVolume(temperature, ratio, pressure),
  };
}
