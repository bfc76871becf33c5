/** Density, viscosity and conductivity of dry air as an ideal gas. */
import type { Density, Pressure, Temperature, Viscosity } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { requirePositive, requireWithin } from "./domain.js";

/** Gas constant of dry air, ASHRAE Handbook Fundamentals 2017, chapter 1, equation 1 [J/(kg·K)]. */
export const gasConstantOfAir = 287.042;

/** Coefficients of the U.S. Standard Atmosphere, 1976, equations 51 and 53 (from memory; the first reproduces its table). */
const VISCOSITY_FACTOR = 1.458e-6;
const VISCOSITY_TEMPERATURE = 110.4;
const CONDUCTIVITY_FACTOR = 2.64638e-3;
const CONDUCTIVITY_TEMPERATURE = 245.4;
const CONDUCTIVITY_EXPONENT = 12;

/** Where the two formulas are used: from winter air to hot exhaust; both are published for 100 to 1900 K (from memory). */
const COLDEST = 100;
const HOTTEST = 1900;

/**
 * Density of dry air [kg/m³]: ρ = p/(R·T), R = 287.042 J/(kg·K). Within 0.1 % of real air near room conditions.
 *
 * @param temperature - T [K]
 * @param pressure - p, absolute [Pa]
 * @throws RangeError when a value is not above 0
 * @example dryAirDensity(293.15, 101325) // 1.20415
 */
export function dryAirDensity(temperature: Temperature, pressure: Pressure): Density {
  requirePositive("temperature", temperature);
  requirePositive("pressure", pressure);
  return brand<"density">(pressure / (gasConstantOfAir * temperature));
}

/**
 * Dynamic viscosity of air [Pa·s]; pressure does not matter here, and moisture lowers it by less than 2 % at 50 °C.
 *
 * μ = 1.458·10⁻⁶·T^1.5/(T + 110.4) (Sutherland)
 *
 * @param temperature - T, 100 to 1900 K [K]
 * @throws RangeError outside that range
 * @see U.S. Standard Atmosphere, 1976, equation 51
 * @example airViscosity(293.15) // 1.81341e-5
 */
export function airViscosity(temperature: Temperature): Viscosity {
  requireWithin("temperature", temperature, COLDEST, HOTTEST);
  return brand<"viscosity">((VISCOSITY_FACTOR * temperature ** 1.5) / (temperature + VISCOSITY_TEMPERATURE));
}

/**
 * Thermal conductivity of air [W/(m·K)].
 *
 * k = 2.64638·10⁻³·T^1.5/(T + 245.4·10^(−12/T))
 *
 * @param temperature - T, 100 to 1900 K [K]
 * @throws RangeError outside that range
 * @see U.S. Standard Atmosphere, 1976, equation 53 (from memory)
 * @example airConductivity(328.15) // 0.02841
 */
export function airConductivity(temperature: Temperature): number {
  requireWithin("temperature", temperature, COLDEST, HOTTEST);
  const floor = CONDUCTIVITY_TEMPERATURE * 10 ** (-CONDUCTIVITY_EXPONENT / temperature);
  return (CONDUCTIVITY_FACTOR * temperature ** 1.5) / (temperature + floor);
}
