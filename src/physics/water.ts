/** Properties of liquid water at about atmospheric pressure. */
import type { Density, Length, Pressure, Speed, Temperature, Viscosity } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { requirePositive, requireWithin } from "./domain.js";
import { standardGravity } from "./driving-pressure.js";

const ICE_POINT = 273.15;

/** Degrees Celsius of liquid water at atmospheric pressure; the range of all formulas here. */
function celsius(temperature: Temperature): number {
  requireWithin("water temperature", temperature, ICE_POINT, ICE_POINT + 100);
  return temperature - ICE_POINT;
}

/** a + b·t + c·t² + … */
const polynomial = (coefficients: readonly number[], t: number): number =>
  coefficients.reduceRight((sum, c) => sum * t + c, 0);

/** G. S. Kell, Journal of Chemical and Engineering Data 20 (1975), 97, equation 16 [kg/m³ by °C] (from memory; it reproduces IAPWS-95). */
const DENSITY = [999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12] as const;
const DENSITY_BELOW = 16.87985e-3;

/** IAPWS SR6-08(2011), supplementary release on liquid water at 0.1 MPa, equation for viscosity [µPa·s] (from memory; it reproduces IAPWS R12-08). */
const VISCOSITY = [
  [280.68, -1.9],
  [511.45, -7.7],
  [61.131, -19.6],
  [0.45903, -40],
] as const;
const VISCOSITY_TEMPERATURE = 300;

/** W. Marczak, Journal of the Acoustical Society of America 102 (1997), 2776 [m/s by °C] (from memory; it reproduces IAPWS-95). */
const SOUND = [1402.385, 5.038813, -5.799136e-2, 3.287156e-4, -1.398845e-6, 2.78786e-9] as const;

/**
 * Density of water at atmospheric pressure [kg/m³].
 *
 * Kell's formula; within 0.002 % of IAPWS-95 from 0 to 99 °C. Mains pressure adds 0.02 % at 5 bar.
 *
 * @param temperature - 0 to 100 °C [K]
 * @throws RangeError outside that range
 * @example waterDensity(288.15) // 999.1
 */
export function waterDensity(temperature: Temperature): Density {
  const t = celsius(temperature);
  return brand<"density">(polynomial(DENSITY, t) / (1 + DENSITY_BELOW * t));
}

/**
 * Dynamic viscosity of water [Pa·s].
 *
 * μ = 10⁻⁶·Σ aᵢ·(T/300)^bᵢ; within 0.005 % of the full IAPWS formulation from 0 to 99 °C. Textbook tables differ by up to 2 %.
 *
 * @param temperature - T, 0 to 100 °C [K]
 * @throws RangeError outside that range
 * @example waterViscosity(298.15) // 8.9e-4
 */
export function waterViscosity(temperature: Temperature): Viscosity {
  celsius(temperature);
  const t = temperature / VISCOSITY_TEMPERATURE;
  return brand<"viscosity">(1e-6 * VISCOSITY.reduce((sum, [a, b]) => sum + a * t ** b, 0));
}

/**
 * Speed of sound in water without bubbles [m/s].
 *
 * Marczak's polynomial; within 0.01 % of IAPWS-95 from 0 to 99 °C (IAPWS-97 runs 0.2 % higher at 50 °C).
 *
 * @param temperature - 0 to 100 °C [K]
 * @throws RangeError outside that range
 * @example soundSpeedInWater(293.15) // 1482.4
 */
export function soundSpeedInWater(temperature: Temperature): Speed {
  return brand<"speed">(polynomial(SOUND, celsius(temperature)));
}

/**
 * Bulk modulus of water without bubbles, isentropic, as for pressure waves [Pa]: K = ρ·c².
 *
 * @param temperature - 0 to 100 °C [K]
 * @throws RangeError outside that range
 * @example bulkModulusOfWater(293.15) / 1e9 // 2.1935
 */
export function bulkModulusOfWater(temperature: Temperature): Pressure {
  return brand<"pressure">(waterDensity(temperature) * soundSpeedInWater(temperature) ** 2);
}

/**
 * Pressure of a column of water, or of another liquid of that density [Pa]: p = ρ·g·h.
 *
 * @param height - h, of the surface above the point; negative below it [m]
 * @param density - ρ [kg/m³]
 * @throws RangeError when the density is not above 0 or the height not finite
 * @example columnPressure(10, 999.1) // 97978.2
 */
export function columnPressure(height: Length, density: Density): Pressure {
  requirePositive("density", density);
  if (!Number.isFinite(height)) throw new RangeError(`height must be finite (got ${height})`);
  return brand<"pressure">(density * standardGravity * height);
}
