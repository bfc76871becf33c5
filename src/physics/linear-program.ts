/** Small dense linear programs. */

/** One linear condition: Σ rowⱼ·xⱼ ≤ most. */
export interface LinearCondition {
  readonly row: readonly number[];
  readonly most: number;
}

/** Numbers this small beside the coefficients (which should be of the order of 1) count as zero. */
const ZERO = 1e-11;

/** Pivots after which the search must have ended; Bland's rule never cycles, so this only guards against rounding. */
const MOST_PIVOTS = 10_000;

/**
 * The x ≥ 0 that makes Σ costⱼ·xⱼ least under linear conditions; undefined when no x meets them all.
 *
 * Two-phase simplex on a dense tableau with Bland's rule, for some tens of rows. Scale the problem so that coefficients
 * and limits are of the order of 1: a condition counts as met within 1e-11.
 *
 * @param cost - one number for each variable
 * @param conditions - each row as long as `cost`
 * @throws RangeError when the cost has no least value, or a row has the wrong length
 * @see Cormen, Leiserson, Rivest and Stein, Introduction to Algorithms, 3rd edition, section 29.3 (from memory)
 * @example leastCost([-1, -2], [{ row: [1, 1], most: 4 }, { row: [0, 1], most: 3 }]) // [1,3]
 */
export function leastCost(cost: readonly number[], conditions: readonly LinearCondition[]): number[] | undefined {
  const n = cost.length;
  const m = conditions.length;
  if (conditions.some(({ row }) => row.length !== n)) throw new RangeError(`every condition needs ${n} coefficients`);

  // Columns: n variables, m slacks, one artificial variable, the right-hand side. Row m holds the reduced costs.
  const artificial = n + m;
  const right = n + m + 1;
  const tableau = conditions.map(({ row, most }, i) => {
    const line = new Array<number>(right + 1).fill(0);
    for (const [j, value] of row.entries()) line[j] = value;
    line[n + i] = 1;
    line[artificial] = -1;
    line[right] = most;
    return line;
  });
  const basis = conditions.map((_, i) => n + i);

  const pivot = (lines: number[][], r: number, c: number) => {
    const by = lines[r]![c]!;
    lines[r] = lines[r]!.map((value) => value / by);
    for (const [i, line] of lines.entries()) {
      const times = line[c]!;
      if (i === r || times === 0) continue;
      for (let j = 0; j <= right; j++) line[j] = line[j]! - times * lines[r]![j]!;
      line[c] = 0;
    }
    basis[r] = c;
  };

  const solve = (lines: number[][], columns: number): void => {
    for (let count = 0; count < MOST_PIVOTS; count++) {
      let enter = -1;
      for (let j = 0; j < columns && enter < 0; j++) if (lines[m]![j]! < -ZERO) enter = j;
      if (enter < 0) return;
      let leave = -1;
      let best = Infinity;
      for (let i = 0; i < m; i++) {
        const by = lines[i]![enter]!;
        if (by <= ZERO) continue;
        const ratio = lines[i]![right]! / by;
        if (ratio < best - ZERO || (ratio <= best + ZERO && basis[i]! < basis[leave]!)) {
          leave = i;
          best = Math.min(best, ratio);
        }
      }
      if (leave < 0) throw new RangeError("the cost has no least value under these conditions");
      pivot(lines, leave, enter);
    }
    throw new RangeError(`no optimum after ${MOST_PIVOTS} pivots`);
  };

  const reduced = (of: readonly number[]): number[] => {
    const line = new Array<number>(right + 1).fill(0);
    for (const [j, value] of of.entries()) line[j] = value;
    for (const [i, b] of basis.entries()) {
      const times = line[b]!;
      if (times !== 0) for (let j = 0; j <= right; j++) line[j] = line[j]! - times * tableau[i]![j]!;
    }
    return line;
  };

  const lowest = tableau.reduce((low, line, i) => (line[right]! < (tableau[low]?.[right] ?? Infinity) ? i : low), 0);
  if (m > 0 && tableau[lowest]![right]! < 0) {
    // Phase one: bring in the artificial variable where the breach is largest, then drive it out again.
    const first = new Array<number>(artificial + 1).fill(0);
    first[artificial] = 1;
    pivot(tableau, lowest, artificial);
    const lines = [...tableau, reduced(first)];
    solve(lines, artificial + 1);
    for (let i = 0; i < m; i++) tableau[i] = lines[i]!;
    const at = basis.indexOf(artificial);
    if (at >= 0) {
      if (tableau[at]![right]! > ZERO) return undefined;
      const out = tableau[at]!.findIndex((value, j) => j < artificial && Math.abs(value) > ZERO);
      if (out >= 0) pivot(tableau, at, out);
    }
  }
  const lines = [...tableau, reduced(cost)];
  solve(lines, artificial);

  const x = new Array<number>(n).fill(0);
  for (const [i, b] of basis.entries()) if (b < n) x[b] = Math.max(0, lines[i]![right]!);
  return x;
}
