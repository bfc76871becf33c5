/** Moving one toleranced input to both ends of its tolerance. */
import type { Tolerance } from "./input.js";
import { setPath } from "./path.js";

/** An input with one value at the low end of its tolerance, and at the high end. */
export interface Ends<T> {
  readonly low: T;
  readonly high: T;
  /** Half-widths between the ends: 2, less where an end would leave the range of the field. */
  readonly reach: number;
}

/** Both ends of one tolerance; `undefined` where it is too small to move the number at all, so that it adds nothing. */
export function endsOf<T>(input: T, { path, plusMinus, min, max }: Tolerance): Ends<T> | undefined {
  const value = path.reduce<unknown>((inner, key) => (inner as Record<string | number, unknown>)[key], input) as number;
  const low = Math.max(min, value - plusMinus);
  const high = Math.min(max, value + plusMinus);
  if (!(high > low)) return undefined;
  return { low: setPath(input, path, low), high: setPath(input, path, high), reach: (high - low) / plusMinus };
}
