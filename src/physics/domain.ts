/** Refusing arguments outside the range that a formula holds for. Internal to the physics folder. */
import { atLeast, atMost } from "../core/quantity/compare.js";

/** Throws unless `value` is finite and above 0. */
export function requirePositive(what: string, value: number): void {
  if (!(value > 0 && value < Infinity)) throw new RangeError(`${what} must be above 0 and finite (got ${value})`);
}

/** Throws unless `value` is finite and at least 0. */
export function requireNotNegative(what: string, value: number): void {
  if (!(value >= 0 && value < Infinity)) throw new RangeError(`${what} must be 0 or more and finite (got ${value})`);
}

/** Throws unless `value` lies from `from` to `to`, both included, with the relative slack of every comparison. */
export function requireWithin(what: string, value: number, from: number, to: number): void {
  if (!(atLeast(value, from) && atMost(value, to)))
    throw new RangeError(`${what} must lie from ${from} to ${to} (got ${value})`);
}
