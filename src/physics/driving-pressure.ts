/** Pressure that weight of air and wind put on a duct or an opening. */
import type { Density, Length, Pressure, Speed } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { requireNotNegative, requirePositive } from "./domain.js";

/** Standard acceleration of gravity, CGPM 1901, exact by convention [m/s²]. */
export const standardGravity = 9.80665;

/**
 * Stack pressure: the lift of a column of lighter air [Pa].
 *
 * Δp = (ρ_o − ρ_i)·g·h. Positive where it drives the flow upward: a warm rising exhaust is helped, a warm falling one
 * hindered by as much. Take moist densities for exhaust air.
 *
 * @param outside - ρ_o, density of the air around [kg/m³]
 * @param inside - ρ_i, density of the air in the duct [kg/m³]
 * @param height - h, from entry to exit; negative where the duct falls [m]
 * @throws RangeError when a density is not above 0 or the height not finite
 * @see ASHRAE Handbook Fundamentals 2009, chapter 21, thermal gravity effect
 * @example stackPressure(1.204, 1.45, 15) // -36.187
 */
export function stackPressure(outside: Density, inside: Density, height: Length): Pressure {
  requirePositive("density outside", outside);
  requirePositive("density inside", inside);
  if (!Number.isFinite(height)) throw new RangeError(`height must be finite (got ${height})`);
  return brand<"pressure">((outside - inside) * standardGravity * height);
}

/**
 * Wind pressure on a surface or an opening [Pa]: p = C_p·ρ·v²/2, against the still air far off.
 *
 * @param density - ρ, of the outdoor air [kg/m³]
 * @param speed - v, at the height of the opening, 0 or more [m/s]
 * @param coefficient - C_p, some +0.8 to windward and −0.3 to −0.7 elsewhere on a house (common practice, no source)
 * @throws RangeError when a value is out of its range
 * @example windPressure(1.2, 10, 0.8) // 48
 */
export function windPressure(density: Density, speed: Speed, coefficient: number): Pressure {
  requirePositive("density", density);
  requireNotNegative("wind speed", speed);
  if (!Number.isFinite(coefficient)) throw new RangeError(`pressure coefficient must be finite (got ${coefficient})`);
  return brand<"pressure">((coefficient * density * speed * speed) / 2);
}
