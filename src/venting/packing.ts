/** Cutting pieces from stock of one length with the fewest lengths of stock. Numerics only. */

/** One length of stock and the pieces cut from it, as indices. */
export interface Cutting {
  readonly pieces: readonly number[];
  /** What is left of it, in the unit of the pieces. */
  readonly left: number;
}

/** Cuttings, and whether no fewer lengths of stock can do. */
export interface Cuttings {
  readonly stock: readonly Cutting[];
  /** Whether the search has proved that this is the least; it gives up after a number of steps. */
  readonly isLeast: boolean;
}

/** Slack of a fit: a billionth of the stock. */
const SLACK = 1e-9;
/** Steps after which the search keeps the best it has. */
const MOST_STEPS = 200_000;

/** Least number of lengths by the bound of Martello and Toth (L2): whole lengths for great pieces, area for the rest. */
function lowerBound(sizes: readonly number[], stock: number): number {
  let best = Math.ceil(sizes.reduce((sum, size) => sum + size, 0) / stock - SLACK);
  for (const least of sizes) {
    if (least > stock / 2) continue;
    const great = sizes.filter((size) => size > stock - least + SLACK * stock);
    const middle = sizes.filter((size) => size > stock / 2 && size <= stock - least + SLACK * stock);
    const small = sizes.filter((size) => size <= stock / 2 && size >= least);
    const room = middle.reduce((sum, size) => sum + stock - size, 0);
    const rest = small.reduce((sum, size) => sum + size, 0) - room;
    best = Math.max(best, great.length + middle.length + Math.max(0, Math.ceil(rest / stock - SLACK)));
  }
  return best;
}

/**
 * Packs pieces into the fewest lengths of stock: best fit first, then a branch-and-bound search that proves the number or
 * betters it. Equal pieces and equal remainders are tried once.
 *
 * @param sizes - lengths of the pieces, each above 0 and at most the stock
 * @param stock - length of the stock, above 0
 * @throws RangeError where a piece is longer than the stock
 * @example cutStock([3, 3, 2, 2], 5).stock.length // 2
 */
export function cutStock(sizes: readonly number[], stock: number): Cuttings {
  if (sizes.some((size) => !(size > 0) || size > stock * (1 + SLACK)))
    throw new RangeError(`every piece must be above 0 and at most the stock of ${stock}`);
  const order = sizes.map((_, i) => i).sort((a, b) => sizes[b]! - sizes[a]!);
  const slack = SLACK * stock;

  const bestFit: { pieces: number[]; left: number }[] = [];
  for (const i of order) {
    const fits = bestFit.filter(({ left }) => left >= sizes[i]! - slack).sort((a, b) => a.left - b.left)[0];
    if (fits) {
      fits.pieces.push(i);
      fits.left -= sizes[i]!;
    } else bestFit.push({ pieces: [i], left: stock - sizes[i]! });
  }
  let best = bestFit.map(({ pieces, left }) => ({ pieces: [...pieces], left }));
  const bound = lowerBound(sizes, stock);
  if (best.length === bound) return { stock: best.map(clean), isLeast: true };

  let steps = 0;
  const open: { pieces: number[]; left: number }[] = [];
  const remaining: number[] = Array(order.length + 1).fill(0);
  for (let k = order.length - 1; k >= 0; k--) remaining[k] = remaining[k + 1]! + sizes[order[k]!]!;

  /** Places the k-th piece; true where the search may stop. */
  const place = (k: number, from: number): boolean => {
    if (++steps > MOST_STEPS) return true;
    if (k === order.length) {
      best = open.map(({ pieces, left }) => ({ pieces: [...pieces], left }));
      return best.length === bound;
    }
    // Whatever room the open lengths have, the rest needs at least so many more.
    const room = open.reduce((sum, { left }) => sum + left, 0);
    if (open.length + Math.max(0, Math.ceil((remaining[k]! - room) / stock - SLACK)) >= best.length) return false;
    const i = order[k]!;
    const size = sizes[i]!;
    const isTwin = k + 1 < order.length && sizes[order[k + 1]!] === size;
    const tried: number[] = [];
    for (let b = from; b < open.length; b++) {
      const bin = open[b]!;
      if (bin.left < size - slack || tried.some((left) => Math.abs(left - bin.left) <= slack)) continue;
      tried.push(bin.left);
      bin.pieces.push(i);
      bin.left -= size;
      // A twin need not look at lengths that its elder was not put into.
      const stop = place(k + 1, isTwin ? b : 0);
      bin.left += size;
      bin.pieces.pop();
      if (stop) return true;
    }
    if (open.length + 1 < best.length) {
      open.push({ pieces: [i], left: stock - size });
      const stop = place(k + 1, isTwin ? open.length - 1 : 0);
      open.pop();
      if (stop) return true;
    }
    return false;
  };
  place(0, 0);
  return { stock: best.map(clean), isLeast: steps <= MOST_STEPS };
}

const clean = ({ pieces, left }: { pieces: number[]; left: number }): Cutting => ({ pieces, left: Math.max(0, left) });
