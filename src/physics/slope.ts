/** Slopes, angles and level vials. */

import type { Angle, Length, Slope } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";

/**
 * Angle of a slope from level [rad]: atan s.
 *
 * @param slope - rise over run [m/m]
 * @example slopeAngle(7.75 / 10) // 0.65931
 */
export function slopeAngle(slope: Slope): Angle {
  return brand<"angle">(Math.atan(slope));
}

/**
 * Slope at an angle from level [m/m]: tan φ.
 *
 * @param angle - between minus and plus a right angle [rad]
 * @example slopeAt(0.5 * Math.PI / 180) // 0.0087269
 */
export function slopeAt(angle: Angle): Slope {
  if (!(Math.abs(angle) < Math.PI / 2)) throw new RangeError(`an angle of ${angle} rad has no slope`);
  return brand<"slope">(Math.tan(angle));
}

/** The distance by which a vial's bubble moves under its stated tilt, unless another is named [m]: 2 mm, maker's custom. */
const DIVISION = brand<"length">(0.002);

/**
 * Radius to which a vial is ground [m]: division / tilt.
 *
 * @param tilt - that moves the bubble one division, above 0 [rad]
 * @param division - of the vial [m]
 * @example vialRadius(10 / 60 * Math.PI / 180) // 0.6875
 */
export function vialRadius(tilt: Angle, division: Length = DIVISION): Length {
  if (!(tilt > 0 && division > 0)) throw new RangeError("tilt and division must be above 0");
  return brand<"length">(division / tilt);
}

/**
 * Tilt that a bubble shows [rad]: offset / radius.
 *
 * @param offset - of the bubble from the middle, signed [m]
 * @param radius - of the vial, above 0 [m]
 * @example vialTilt(0.002, 0.2) // 0.01
 */
export function vialTilt(offset: Length, radius: Length): Angle {
  if (!(radius > 0)) throw new RangeError(`a vial of radius ${radius} m is none`);
  return brand<"angle">(offset / radius);
}

/** What two readings of a level say, the second with the level turned end for end in the same place. */
export interface ReversedReading {
  /** Slope of the surface [m/m]. */
  readonly slope: Slope;
  /** What the level itself adds to each reading [m/m]. */
  readonly error: Slope;
}

/**
 * Slope of a surface and error of the level from a reading and one turned end for end.
 *
 * With readings signed by the surface (positive: the same end of the surface high): slope = (r₁ + r₂)/2,
 * error = (r₁ − r₂)/2.
 *
 * @param first - reading [m/m]
 * @param turned - reading with the level turned end for end [m/m]
 * @example reversedReading(0.005, 0.003) // {"slope":0.004,"error":0.001}
 */
export function reversedReading(first: Slope, turned: Slope): ReversedReading {
  return { slope: brand<"slope">((first + turned) / 2), error: brand<"slope">((first - turned) / 2) };
}
