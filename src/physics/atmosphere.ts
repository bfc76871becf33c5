/** Pressure and temperature of the standard atmosphere. */
import type { Length, Pressure, Temperature } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { requireWithin } from "./domain.js";

/*
 * Source of the formulas: ASHRAE Handbook Fundamentals 2017, SI edition, chapter 1, equations 3 and 4, read in the source
 * of psychrolib. They restate the troposphere of the U.S. Standard Atmosphere, 1976, with the height as geopotential.
 */
const SEA_LEVEL_PRESSURE = 101325;
const SEA_LEVEL_TEMPERATURE = 288.15;
const LAPSE = 0.0065;
const PRESSURE_LAPSE = 2.25577e-5;
const PRESSURE_EXPONENT = 5.2559;

/** Range the handbook states for both formulas [m]. */
const LOWEST = -5000;
const HIGHEST = 11000;

/** Radius of the earth in the U.S. Standard Atmosphere, 1976 [m]. */
const EARTH_RADIUS = 6356766;

/** Pressure of the standard atmosphere at sea level [Pa]. */
export const standardPressure: Pressure = 101325 as Pressure;

/**
 * Pressure of the standard atmosphere at an altitude [Pa].
 *
 * p = 101325·(1 − 2.25577·10⁻⁵·Z)^5.2559. The formula takes its height as geopotential; with the height on a map it reads
 * up to 0.1 % low at 5000 m. Put {@link geopotentialHeight} first to meet the 1976 table by geometric height.
 *
 * @param altitude - Z, above sea level, −5000 to 11 000 m [m]
 * @throws RangeError outside that range
 * @see ASHRAE Handbook Fundamentals 2017, chapter 1, equation 3
 * @example pressureAtAltitude(1609.344) // 83427.5
 */
export function pressureAtAltitude(altitude: Length): Pressure {
  requireWithin("altitude", altitude, LOWEST, HIGHEST);
  return brand<"pressure">(SEA_LEVEL_PRESSURE * (1 - PRESSURE_LAPSE * altitude) ** PRESSURE_EXPONENT);
}

/**
 * Temperature of the standard atmosphere at an altitude [K]: T = 288.15 − 0.0065·Z.
 *
 * @param altitude - Z, above sea level, −5000 to 11 000 m [m]
 * @throws RangeError outside that range
 * @see ASHRAE Handbook Fundamentals 2017, chapter 1, equation 4
 * @example temperatureAtAltitude(1000) // 281.65
 */
export function temperatureAtAltitude(altitude: Length): Temperature {
  requireWithin("altitude", altitude, LOWEST, HIGHEST);
  return brand<"temperature">(SEA_LEVEL_TEMPERATURE - LAPSE * altitude);
}

/**
 * Geopotential height of a geometric height [m]: H = r·Z/(r + Z), r = 6 356 766 m.
 *
 * @param altitude - Z, geometric height above sea level, −5000 to 11 000 m [m]
 * @throws RangeError outside that range
 * @see U.S. Standard Atmosphere, 1976, equation 18 (from memory)
 * @example geopotentialHeight(4000) // 3997.485
 */
export function geopotentialHeight(altitude: Length): Length {
  requireWithin("altitude", altitude, LOWEST, HIGHEST);
  return brand<"length">((EARTH_RADIUS * altitude) / (EARTH_RADIUS + altitude));
}
