/** Stacks of shims, in whole numbers of a unit that the caller chooses (32nds of an inch, tenths of a millimetre). */

/** A stack: how many pieces of each size, in the order of the sizes given. */
export interface ShimStack {
  /** Height of the stack, in units. */
  readonly height: number;
  /** How many of each size. */
  readonly counts: readonly number[];
  /** How many in all. */
  readonly pieces: number;
}

/** Heights beyond this many units are refused, so a slip in the unit cannot ask for a huge table. */
const MOST_UNITS = 1_000_000;

function requireSizes(sizes: readonly number[], most: number): void {
  if (sizes.length === 0 || !sizes.every((size) => Number.isSafeInteger(size) && size > 0)) {
    throw new RangeError(`shim sizes must be whole numbers of units above 0, got ${sizes}`);
  }
  if (!(Number.isSafeInteger(most) && most >= 0))
    throw new RangeError(`the most pieces must be a whole number, got ${most}`);
  if (Math.max(...sizes) * most > MOST_UNITS) throw new RangeError(`stacks above ${MOST_UNITS} units are not counted`);
}

/** For each height up to `top`: the size that tops a stack of fewest pieces (−1: none), and that fewest count. */
function fewest(sizes: readonly number[], top: number): { readonly last: Int32Array; readonly count: Int32Array } {
  const last = new Int32Array(top + 1).fill(-1);
  const count = new Int32Array(top + 1).fill(MOST_UNITS + 1);
  count[0] = 0;
  // Larger sizes first, so that of equal counts the stack with the thickest pieces is found.
  const order = sizes.map((_, i) => i).sort((a, b) => sizes[b]! - sizes[a]!);
  for (let height = 1; height <= top; height++) {
    for (const i of order) {
      const below = height - sizes[i]!;
      if (below >= 0 && count[below]! + 1 < count[height]!) {
        count[height] = count[below]! + 1;
        last[height] = i;
      }
    }
  }
  return { last, count };
}

/**
 * The stack of exactly a height with the fewest pieces; undefined when no stack of at most so many pieces has it.
 *
 * Dynamic programming over whole units, so exact for any set of sizes; taking the thickest that fits each time is not
 * (sizes 1, 3, 4 and height 6: two 3s, where greed takes 4, 1, 1).
 *
 * @param height - wanted, a whole number of units, at least 0
 * @param sizes - thicknesses at hand, whole numbers of units above 0; any number of each
 * @param most - most pieces in the stack, a whole number
 * @example shimStack(6, [1, 3, 4], 3).counts // [0,2,0]
 */
export function shimStack(height: number, sizes: readonly number[], most: number): ShimStack | undefined {
  requireSizes(sizes, most);
  if (!(Number.isSafeInteger(height) && height >= 0)) throw new RangeError(`a height of ${height} units is not whole`);
  if (height > Math.max(...sizes) * most) return undefined;
  const { last, count } = fewest(sizes, height);
  if (count[height]! > most) return undefined;
  const counts = sizes.map(() => 0);
  for (let rest = height; rest > 0; ) {
    const i = last[rest]!;
    counts[i] = counts[i]! + 1;
    rest -= sizes[i]!;
  }
  return { height, counts, pieces: count[height]! };
}

/**
 * All heights that stacks of at most so many pieces can have, from 0 up, in units.
 *
 * @param sizes - thicknesses at hand, whole numbers of units above 0
 * @param most - most pieces in a stack
 * @example shimHeights([1, 2, 4, 8], 2) // [0,1,2,3,4,5,6,8,9,10,12,16]
 */
export function shimHeights(sizes: readonly number[], most: number): number[] {
  requireSizes(sizes, most);
  const { count } = fewest(sizes, Math.max(...sizes) * most);
  return [...count.keys()].filter((height) => count[height]! <= most);
}

/**
 * The stack that comes nearest to a gap; of two equally near the lower, then the one with fewest pieces.
 *
 * @param gap - wanted height in units, at least 0, need not be whole
 * @param sizes - thicknesses at hand, whole numbers of units above 0
 * @param most - most pieces in the stack
 * @example nearestShimStack(6.8, [1, 2, 4, 8], 2).height // 6
 */
export function nearestShimStack(gap: number, sizes: readonly number[], most: number): ShimStack {
  if (!(gap >= 0 && gap < Infinity)) throw new RangeError(`a gap of ${gap} units is none`);
  const height = shimHeights(sizes, most).reduce((best, h) => (Math.abs(h - gap) < Math.abs(best - gap) ? h : best), 0);
  return shimStack(height, sizes, most)!;
}
