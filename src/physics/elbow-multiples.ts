/** Loss coefficients of pipe fittings as multiples of the fully rough friction factor of the pipe. */
import type { Angle, Ratio } from "../core/quantity/dimension.js";
import { requirePositive } from "./domain.js";
import { interpolated, type Points } from "./tabulated.js";

/*
 * Source of the tables: Flow of Fluids Through Valves, Fittings and Pipe, Technical Paper 410, 2009 edition, appendix A;
 * seen as data in the source of fluids 1.0.22.
 */

/** Standard screwed elbows: multiple by the angle in degrees. */
const STANDARD: Points = [
  [45, 16],
  [90, 30],
];

/** Close return bend, 180°. */
const CLOSE_RETURN = 50;

/** Smooth 90° bends: multiple by r/D, friction along the bend included. */
const SMOOTH_90: Points = [
  [1, 20],
  [1.5, 14],
  [2, 12],
  [3, 12],
  [4, 14],
  [6, 17],
  [8, 24],
  [10, 30],
];

/**
 * Loss coefficient of a standard pipe elbow or a close return bend, a number without a unit: K = n·f_T, n = 16 for 45°,
 * 30 for 90°, 50 for 180°.
 *
 * @param angle - 45°, 90° or 180° [rad]; the source has no other
 * @param fullyRough - f_T, see {@link fullyRoughFactor}
 * @throws RangeError for another angle
 * @see Technical Paper 410, 2009 edition, page A-29
 * @example standardElbow(Math.PI / 2, 0.016232) // 0.48696
 */
export function standardElbow(angle: Angle, fullyRough: number): number {
  requirePositive("fully rough friction factor", fullyRough);
  const degrees = Math.round((angle * 180) / Math.PI);
  const multiple = degrees === 180 ? CLOSE_RETURN : STANDARD.find(([listed]) => listed === degrees)?.[1];
  if (multiple === undefined || Math.abs((angle * 180) / Math.PI - degrees) > 1e-6) {
    throw new RangeError(`a standard elbow turns 45, 90 or 180 degrees (got ${(angle * 180) / Math.PI})`);
  }
  return multiple * fullyRough;
}

/**
 * Loss coefficient of a smooth 90° pipe bend or welding elbow, a number without a unit: K = n·f_T, n by r/D on straight
 * lines between the eight printed points.
 *
 * @param radiusRatio - r/D, 1 to 10
 * @param fullyRough - f_T, see {@link fullyRoughFactor}
 * @throws RangeError outside that range
 * @see Technical Paper 410, 2009 edition, page A-29
 * @example smoothElbow(1.5, 0.016232) // 0.22725
 */
export function smoothElbow(radiusRatio: Ratio, fullyRough: number): number {
  requirePositive("fully rough friction factor", fullyRough);
  return interpolated("bend radius over diameter", SMOOTH_90, radiusRatio) * fullyRough;
}
