/** Deciding against a limit when the measured value is doubtful. */

import type { Ratio } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { brent } from "./roots.js";

/** From here out a continued fraction is used, which keeps the relative precision of a small tail. */
const TAIL = 2;
/** Terms of the continued fraction; 120 give full precision from 2 up. */
const TERMS = 120;

/**
 * Probability that a standard normal variable is at most z, a number from 0 to 1.
 *
 * Φ(z) = ½ + φ(z)·(z + z³/3 + z⁵/(3·5) + …); in the lower tail Φ(−x) = φ(x)/(x + 1/(x + 2/(x + 3/(x + …)))). Relative error
 * below 1e-13 for z from −37 to 8.
 *
 * @param z - any number
 * @see Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.11 and 26.2.14 (from memory)
 * @example normalProbability(-2) // 0.0227501319
 */
export function normalProbability(z: number): Ratio {
  if (Number.isNaN(z)) throw new RangeError("the probability of NaN is none");
  const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  if (z < -TAIL) {
    if (density === 0) return brand<"ratio">(0);
    let fraction = -z;
    for (let k = TERMS; k >= 1; k--) fraction = -z + k / fraction;
    return brand<"ratio">(density / fraction);
  }
  if (z > TAIL) return brand<"ratio">(1 - normalProbability(-z));
  let term = z;
  let sum = z;
  for (let odd = 3; Math.abs(term) > (Number.EPSILON * Math.abs(sum)) / 4; odd += 2) {
    term *= (z * z) / odd;
    sum += term;
  }
  return brand<"ratio">(1 / 2 + density * sum);
}

/**
 * The z below which a standard normal variable lies with a probability: the inverse of {@link normalProbability}.
 *
 * @param probability - above 0 and below 1; for one very near 1, ask for its complement and change the sign
 * @example normalQuantile(0.95) // 1.644854
 */
export function normalQuantile(probability: Ratio): number {
  if (!(probability > 0 && probability < 1))
    throw new RangeError(`a probability of ${probability} is not between 0 and 1`);
  if (probability > 1 / 2) return -lower(1 - probability);
  return lower(probability);
}

function lower(probability: number): number {
  // Compared as logarithms, which are nearly straight in z².
  const wanted = Math.log(probability);
  return brent((z) => Math.log(normalProbability(z)) - wanted, -38, 0);
}

/** The range a value has to be in; either end may be open. */
export interface ToleranceRange {
  readonly lower?: number;
  readonly upper?: number;
}

/**
 * Probability that the true value conforms to its limits, from 0 to 1.
 *
 * pc = Φ((TU − y)/u) − Φ((TL − y)/u), for a normal result and little knowledge beforehand.
 *
 * @param value - y, as measured
 * @param uncertainty - u, standard uncertainty, above 0, in the unit of y
 * @param range - TL and TU, in the unit of y; at least one
 * @see JCGM 106:2012, 7.2 to 7.4
 * @example conformanceProbability(6, 0.5, { lower: 5 }) // 0.97725
 */
export function conformanceProbability(
  value: number,
  uncertainty: number,
  { lower: low, upper: high }: ToleranceRange,
): Ratio {
  if (!(uncertainty > 0 && Number.isFinite(value) && Number.isFinite(uncertainty))) {
    throw new RangeError(`a result of ${value} with standard uncertainty ${uncertainty} gives no probability`);
  }
  if (low === undefined && high === undefined) throw new RangeError("a tolerance range has at least one limit");
  if (low !== undefined && high !== undefined && !(high >= low))
    throw new RangeError(`no value is from ${low} to ${high}`);
  const over = (limit: number) => (limit - value) / uncertainty;
  if (high === undefined) return normalProbability(-over(low!));
  if (low === undefined) return normalProbability(over(high));
  // The difference is taken in whichever tail is nearer, where it doesn't cancel.
  const [a, b] = [over(low), over(high)];
  return brand<"ratio">(
    a > 0 ? normalProbability(-a) - normalProbability(-b) : normalProbability(b) - normalProbability(a),
  );
}

/**
 * Chance that a value read exactly at the acceptance limit doesn't conform, from 0 to 1: Φ(−2r), for a guard band
 * w = r·U with U = 2u.
 *
 * @param share - r; 0 for simple acceptance, 1 for a full guard band, negative for guarded rejection
 * @see JCGM 106:2012, 8.3; ILAC-G8:09/2019
 * @example guardBandRisk(1) // 0.02275
 */
export function guardBandRisk(share: number): Ratio {
  return normalProbability(-2 * share);
}

/**
 * Guard band that leaves a chance of at most 1 − confidence at its edge, one-sided, in the unit of u: u·Φ⁻¹(confidence).
 *
 * @param uncertainty - u, standard uncertainty, at least 0
 * @param confidence - above 0 and below 1
 * @see JCGM 106:2012, 8.3.2
 * @example guardBand(0.5, 0.95) // 0.8224
 */
export function guardBand(uncertainty: number, confidence: Ratio): number {
  if (!(uncertainty >= 0)) throw new RangeError(`a standard uncertainty of ${uncertainty} is negative`);
  return uncertainty * normalQuantile(confidence);
}
