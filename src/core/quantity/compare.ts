/** Comparing a measured or computed value with a limit. */

/**
 * Relative slack of every comparison with a limit. A limit given in inches and a measurement given in inches can differ
 * in the last bits once both are in metres; the slack is far below anything that can be measured. It is taken from the
 * smaller of the two, and must not be reached, so that an infinite value passes no limit but its own.
 */
const SLACK = 1e-9;

const slackFor = (a: number, b: number): number => SLACK * Math.min(Math.abs(a), Math.abs(b));

/**
 * Whether `value` is no more than `limit`, with a relative slack of 1e-9 so that a value exactly on its limit passes.
 *
 * @example atMost(0.1 + 0.2, 0.3) // true
 */
export function atMost(value: number, limit: number): boolean {
  return value <= limit || value - limit < slackFor(value, limit);
}

/**
 * Whether `value` is no less than `limit`, with a relative slack of 1e-9 so that a value exactly on its limit passes.
 *
 * @example atLeast(si(7, "in"), 0.1778) // true
 */
export function atLeast(value: number, limit: number): boolean {
  return value >= limit || limit - value < slackFor(value, limit);
}

/**
 * Whether two values agree within the slack.
 *
 * @example same(si(12, "in"), si(1, "ft")) // true
 */
export function same(a: number, b: number): boolean {
  return a === b || Math.abs(a - b) < slackFor(a, b);
}

/** Which way a limit binds. */
export type Sense = "atMost" | "atLeast";

/**
 * How a tolerance is weighed. `guarded`: the whole interval must be inside to pass and outside to fail (the decision
 * rule of JCGM 106:2012, clause 8.3, with guard bands as wide as the tolerance on both sides). `simple`: the measured
 * value alone decides (clause 8.2).
 */
export type DecisionRule = "guarded" | "simple";

/** The outcome of one comparison: `unsure` where the tolerance straddles the limit. */
export type Comparison = "inside" | "outside" | "unsure";

/**
 * Compares a value and its tolerance with a limit.
 *
 * @param value - measured or computed value, SI
 * @param plusMinus - half-width of its tolerance in the same unit, 0 or more
 * @param sense - which way the limit binds
 * @param limit - the limit in the same unit
 * @param decision - how the tolerance is weighed; guarded unless the caller says otherwise
 * @throws RangeError where a number is missing (NaN) or the tolerance is negative, which is a fault of the calling code
 * @example compare(1, 0.0625, "atLeast", 1, "guarded") // "unsure"
 */
export function compare(
  value: number,
  plusMinus: number,
  sense: Sense,
  limit: number,
  decision: DecisionRule = "guarded",
): Comparison {
  if (Number.isNaN(value) || Number.isNaN(limit) || !(plusMinus >= 0)) {
    throw new RangeError(`cannot compare ${value} ± ${plusMinus} with ${limit}`);
  }
  const within = sense === "atMost" ? atMost : atLeast;
  if (decision === "simple") return within(value, limit) ? "inside" : "outside";
  const lowest = within(value - plusMinus, limit);
  const highest = within(value + plusMinus, limit);
  if (lowest && highest) return "inside";
  return lowest || highest ? "unsure" : "outside";
}
