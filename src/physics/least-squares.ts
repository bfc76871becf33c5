/** Small dense least squares, and planes through points. */

import type { Length, Slope } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";

/** A fitted linear model: y ≈ Σ coefficientⱼ · columnⱼ. */
export interface LinearFit {
  /** One for each column, in the unit of y over the unit of the column. */
  readonly coefficients: readonly number[];
  /** y minus the fitted value, one for each row, in the unit of y. */
  readonly residuals: readonly number[];
}

/** A column this much shorter after taking out the others than before is taken to depend on them. */
const DEPENDENT = 1e-13;

/**
 * The coefficients that make the sum of squared residuals least.
 *
 * Householder QR with scaled columns, so nothing is squared on the way: condition numbers up to about 10¹² are usable.
 *
 * @param rows - the design matrix; every row has the same length, and there are at least as many rows as columns
 * @param y - one value for each row
 * @throws RangeError when the shape is wrong, a number is not finite, or the columns depend on each other
 * @see Golub and Van Loan, Matrix Computations, 3rd edition, algorithm 5.3.2 (from memory)
 * @example leastSquares([[1, 0], [1, 1], [1, 2]], [1, 3, 5]).coefficients // [1,2]
 */
export function leastSquares(rows: readonly (readonly number[])[], y: readonly number[]): LinearFit {
  const m = rows.length;
  const n = rows[0]?.length ?? 0;
  if (n === 0 || m < n || y.length !== m || rows.some((row) => row.length !== n)) {
    throw new RangeError(
      `least squares needs at least as many even rows as columns: got ${m} rows, ${n} columns, ${y.length} values`,
    );
  }
  if (!rows.every((row) => row.every(Number.isFinite)) || !y.every(Number.isFinite)) {
    throw new RangeError("least squares needs finite numbers");
  }
  const scale = Array.from({ length: n }, (_, j) => Math.hypot(...rows.map((row) => row[j]!)));
  const a = rows.map((row) => row.map((value, j) => (scale[j] === 0 ? 0 : value / scale[j]!)));
  const right = [...y];
  for (let j = 0; j < n; j++) {
    const tail = Math.hypot(...a.slice(j).map((row) => row[j]!));
    if (!(tail > DEPENDENT)) throw new RangeError(`column ${j} depends on the columns before it`);
    const alpha = a[j]![j]! > 0 ? -tail : tail;
    // The reflection's vector is v = column − alpha·e; v·v = 2·tail·(tail + |first|).
    const v = a.slice(j).map((row) => row[j]!);
    v[0] = v[0]! - alpha;
    const square = 2 * tail * (tail + Math.abs(a[j]![j]!));
    for (let k = j; k < n; k++) {
      const dot = v.reduce((sum, vi, i) => sum + vi * a[j + i]![k]!, 0);
      for (const [i, vi] of v.entries()) a[j + i]![k] = a[j + i]![k]! - (2 * dot * vi) / square;
    }
    const dot = v.reduce((sum, vi, i) => sum + vi * right[j + i]!, 0);
    for (const [i, vi] of v.entries()) right[j + i] = right[j + i]! - (2 * dot * vi) / square;
  }
  const scaled = new Array<number>(n).fill(0);
  for (let j = n - 1; j >= 0; j--) {
    let rest = right[j]!;
    for (let k = j + 1; k < n; k++) rest -= a[j]![k]! * scaled[k]!;
    scaled[j] = rest / a[j]![j]!;
  }
  const coefficients = scaled.map((value, j) => value / scale[j]!);
  const residuals = rows.map((row, i) => y[i]! - row.reduce((sum, value, j) => sum + value * coefficients[j]!, 0));
  return { coefficients, residuals };
}

/** A point with a height above it: x across, y to the back, z up [m]. */
export interface SpotHeight {
  readonly x: Length;
  readonly y: Length;
  readonly z: Length;
}

/** A fitted plane z = height + across · x + back · y. */
export interface FittedPlane {
  /** Rise along +x [m/m]. */
  readonly across: Slope;
  /** Rise along +y [m/m]. */
  readonly back: Slope;
  /** Height at x = y = 0 [m]. */
  readonly height: Length;
  /** Measured height minus the plane, one for each point [m]. */
  readonly residuals: readonly Length[];
}

/**
 * The plane through measured heights that makes the sum of squared height residuals least.
 *
 * Heights are taken as the only doubtful values; x and y as exact. Needs three points that are not in one line.
 *
 * @param points - at least three spot heights [m]
 * @throws RangeError when the points do not fix a plane
 * @example fittedPlane([{ x: 0, y: 0, z: 1 }, { x: 2, y: 0, z: 1.01 }, { x: 0, y: 2, z: 1.02 }]).across // 0.005
 */
export function fittedPlane(points: readonly SpotHeight[]): FittedPlane {
  // Taking out the centre first keeps points far from the origin well conditioned.
  const mean = (pick: (point: SpotHeight) => number) => points.reduce((sum, p) => sum + pick(p), 0) / points.length;
  if (points.length < 3) throw new RangeError(`a plane needs three points, not ${points.length}`);
  const [x0, y0] = [mean((p) => p.x), mean((p) => p.y)];
  const { coefficients, residuals } = leastSquares(
    points.map((p) => [1, p.x - x0, p.y - y0]),
    points.map((p) => p.z),
  );
  const [middle, across, back] = coefficients as [number, number, number];
  return {
    across: brand<"slope">(across),
    back: brand<"slope">(back),
    height: brand<"length">(middle - across * x0 - back * y0),
    residuals: residuals.map((r) => brand<"length">(r)),
  };
}
