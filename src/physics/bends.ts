/** Loss coefficients of bends in round pipe, by formulas. They refer to the mean speed in the bend. */
import type { Angle, Ratio } from "../core/quantity/dimension.js";
import { requirePositive, requireWithin } from "./domain.js";

const DEGREE = Math.PI / 180;

/** Bends wound further than this are coils, which the formula does not describe. */
const WIDEST_BEND = 180 * DEGREE;

/** The book's mitre curve ends at 150° (from memory). */
const WIDEST_MITRE = 150 * DEGREE;

/**
 * Tightest bend taken: the ordinary mitred-looking elbow with no throat. The formula's data begin near r/D 1; below it
 * the formula leans to the safe side of tests on stamped elbows but is not proved.
 */
const TIGHTEST_BEND = 0.5;

/**
 * Loss coefficient of a smooth round bend, friction along it included, a number without a unit.
 *
 * K = f·a·(r/D) + (0.10 + 2.4·f)·sin(a/2) + 6.6·f·(√sin(a/2) + sin(a/2)) / (r/D)^(4a/π), a in radians.
 * Taken here for r/D from 0.5 and bends to 180°; published formulas differ from each other by some 25 % at r/D 1.
 *
 * @param factor - f, Darcy friction factor of the pipe at this flow
 * @param angle - a, change of direction, 0 to 180° [rad]
 * @param radiusRatio - r/D, radius of the centre line over the inside diameter, at least 0.5
 * @throws RangeError outside that range
 * @see D. C. Rennels and H. M. Hudson, Pipe Flow: A Practical and Comprehensive Guide, 2012, chapter 15; as in fluids 1.0.22
 * @example roundedBend(0.023704, Math.PI / 2, 1.5) // 0.27442
 */
export function roundedBend(factor: number, angle: Angle, radiusRatio: Ratio): number {
  requirePositive("friction factor", factor);
  requireWithin("bend angle [rad]", angle, 0, WIDEST_BEND);
  requireWithin("bend radius over diameter", radiusRatio, TIGHTEST_BEND, Number.MAX_VALUE);
  const half = Math.sin(angle / 2);
  return (
    factor * angle * radiusRatio +
    (0.1 + 2.4 * factor) * half +
    (6.6 * factor * (Math.sqrt(half) + half)) / radiusRatio ** ((4 * angle) / Math.PI)
  );
}

/**
 * Loss coefficient of a single mitre in round pipe, a number without a unit.
 *
 * K = 0.42·sin(a/2) + 2.56·sin³(a/2), for Reynolds numbers above some 10⁵; rather more below.
 *
 * @param angle - a, change of direction, 0 to 150° [rad]
 * @throws RangeError outside that range
 * @see D. C. Rennels and H. M. Hudson, Pipe Flow: A Practical and Comprehensive Guide, 2012, chapter 15; as in fluids 1.0.22
 * @example mitreBend(Math.PI / 2) // 1.20208
 */
export function mitreBend(angle: Angle): number {
  requireWithin("mitre angle [rad]", angle, 0, WIDEST_MITRE);
  const half = Math.sin(angle / 2);
  return 0.42 * half + 2.56 * half ** 3;
}
