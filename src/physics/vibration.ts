/** Spinning drums and the floors that answer them. */

import type { Force, Frequency, Length, Mass } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";

/** Standard acceleration of free fall [m/s²], exact by convention (3rd CGPM, 1901). */
export const STANDARD_GRAVITY = 9.80665;

/** The factor of the rounded floor formula; exact for a uniform beam it is 0.1792 (AISC Design Guide 11; from memory). */
const FLOOR_FACTOR = 0.18;

function ratio(gravity: number, deflection: Length): number {
  if (!(deflection > 0 && deflection < Infinity))
    throw new RangeError(`a deflection of ${deflection} m must be above 0 and finite`);
  if (!(gravity > 0 && gravity < Infinity))
    throw new RangeError(`a gravity of ${gravity} m/s² must be above 0 and finite`);
  return gravity / deflection;
}

/**
 * Force of an unbalanced load in a spinning drum [N]: m·r·ω², ω = 2π·n.
 *
 * The force inside the drum. A suspension passes on only a part of it: more than this when running up through its
 * resonance, far less at full speed.
 *
 * @param mass - of the unbalance, at least 0 [kg]
 * @param radius - at which it turns, at least 0 [m]
 * @param speed - n, turns a second, at least 0 [Hz]
 * @example unbalanceForce(0.5, 0.25, 20) // 1973.921
 */
export function unbalanceForce(mass: Mass, radius: Length, speed: Frequency): Force {
  if (!(mass >= 0 && radius >= 0 && speed >= 0)) throw new RangeError("mass, radius and speed must be at least 0");
  return brand<"force">(mass * radius * (2 * Math.PI * speed) ** 2);
}

/**
 * Natural frequency of a single mass on a spring that sinks under its weight [Hz]: (1/2π)·√(g/Δ).
 *
 * @param deflection - Δ, under the weight alone, above 0 [m]
 * @param gravity - g [m/s²]; one value for a whole calculation
 * @example massFrequency(0.00254) // 9.8893
 */
export function massFrequency(deflection: Length, gravity: number = STANDARD_GRAVITY): Frequency {
  return brand<"frequency">(Math.sqrt(ratio(gravity, deflection)) / (2 * Math.PI));
}

/**
 * Natural frequency of a uniform, simply supported beam under its own load [Hz]: (π/2)·√(5/384)·√(g/Δ) = 0.1792·√(g/Δ).
 *
 * @param deflection - Δ at midspan under that load, above 0 [m]
 * @param gravity - g [m/s²]
 * @example beamFrequency(0.00254) // 11.1374
 */
export function beamFrequency(deflection: Length, gravity: number = STANDARD_GRAVITY): Frequency {
  return brand<"frequency">((Math.PI / 2) * Math.sqrt(5 / 384) * Math.sqrt(ratio(gravity, deflection)));
}

/**
 * Natural frequency of a floor of joists, on girders or not [Hz]: 0.18·√(g/(Δj + Δg)).
 *
 * @param joist - Δj, midspan deflection of the joists under the load present, above 0 [m]
 * @param girder - Δg, of the girder; 0 when the joists bear on walls [m]
 * @param gravity - g [m/s²]
 * @see AISC Design Guide 11 (from memory)
 * @example floorFrequency(0.00254, 0) // 11.1845
 */
export function floorFrequency(joist: Length, girder: Length, gravity: number = STANDARD_GRAVITY): Frequency {
  if (!(girder >= 0)) throw new RangeError(`a deflection of ${girder} m is negative`);
  return brand<"frequency">(FLOOR_FACTOR * Math.sqrt(ratio(gravity, brand<"length">(joist + girder))));
}

/**
 * Natural frequency of springy parts that carry one another [Hz], by Dunkerley: 1/f² = Σ 1/fᵢ². A lower bound.
 *
 * @param frequencies - of each part alone, above 0 [Hz]
 * @example dunkerleyFrequency([8, 10]) // 6.24695
 */
export function dunkerleyFrequency(frequencies: readonly Frequency[]): Frequency {
  if (frequencies.length === 0 || !frequencies.every((f) => f > 0)) throw new RangeError("frequencies must be above 0");
  return brand<"frequency">(1 / Math.hypot(...frequencies.map((f) => 1 / f)));
}
