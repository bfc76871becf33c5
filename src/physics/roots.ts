/** Roots and minima of functions of one variable. */

/** Steps after which a bracketed search must have ended; bisection alone needs about 1100 on the whole double range. */
const MOST_STEPS = 2000;

/** A point where a function is evaluated; anything but a finite number there is a fault of the caller. */
function valueAt(f: (x: number) => number, x: number): number {
  const y = f(x);
  if (Number.isNaN(y)) throw new RangeError(`the function is not a number at ${x}`);
  return y;
}

/**
 * A root of a continuous function in a bracket, by Brent's method (inverse quadratic interpolation guarded by bisection).
 *
 * The bracket must hold a change of sign: f(lo)·f(hi) ≤ 0. The answer lies within `tolerance` + 4ε·|x| of a root, with
 * ε = 2⁻⁵². Infinite values of f are allowed at the ends (they only carry a sign).
 *
 * @param f - the function; must be a number everywhere in the bracket
 * @param lo - one end of the bracket, finite
 * @param hi - the other end, finite; may lie below `lo`
 * @param tolerance - absolute tolerance on x, at least 0
 * @throws RangeError when the ends are not finite, the root is not bracketed, or f is not a number
 * @see R. P. Brent, Algorithms for Minimization without Derivatives, 1973, chapter 4 (from memory)
 * @example brent((x) => x * x - 2, 0, 2) // 1.414213562373095
 */
export function brent(f: (x: number) => number, lo: number, hi: number, tolerance = 1e-15): number {
  if (!Number.isFinite(lo) || !Number.isFinite(hi))
    throw new RangeError(`brent: the bracket ${lo} to ${hi} is not finite`);
  if (!(tolerance >= 0)) throw new RangeError(`brent: the tolerance ${tolerance} is not at least 0`);
  let a = lo;
  let b = hi;
  let fa = valueAt(f, a);
  let fb = valueAt(f, b);
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (fa > 0 === fb > 0) throw new RangeError(`brent: no change of sign between ${lo} (${fa}) and ${hi} (${fb})`);

  // b is the best point so far, a the one before it, c the nearest point with the other sign.
  let c = a;
  let fc = fa;
  let step = b - a;
  let before = step;
  for (let count = 0; count < MOST_STEPS; count++) {
    if (fb > 0 === fc > 0) {
      c = a;
      fc = fa;
      step = b - a;
      before = step;
    }
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b;
      b = c;
      c = a;
      fa = fb;
      fb = fc;
      fc = fa;
    }
    const near = 2 * Number.EPSILON * Math.abs(b) + tolerance / 2;
    const half = c / 2 - b / 2;
    if (Math.abs(half) <= near || fb === 0) return b;

    if (Math.abs(before) >= near && Math.abs(fa) > Math.abs(fb) && Number.isFinite(fa) && Number.isFinite(fc)) {
      let p: number;
      let q: number;
      const s = fb / fa;
      if (a === c) {
        p = 2 * half * s;
        q = 1 - s;
      } else {
        const t = fa / fc;
        const r = fb / fc;
        p = s * (2 * half * t * (t - r) - (b - a) * (r - 1));
        q = (t - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      else p = -p;
      if (2 * p < Math.min(3 * half * q - Math.abs(near * q), Math.abs(before * q))) {
        before = step;
        step = p / q;
      } else {
        step = half;
        before = half;
      }
    } else {
      step = half;
      before = half;
    }
    a = b;
    fa = fb;
    b += Math.abs(step) > near ? step : Math.sign(half) * Math.max(near, Number.MIN_VALUE);
    fb = valueAt(f, b);
  }
  throw new RangeError(`brent: no root to ${tolerance} between ${lo} and ${hi} after ${MOST_STEPS} steps`);
}

/** A least value and where it is taken. */
export interface LeastValue {
  readonly at: number;
  readonly value: number;
}

/** The share of a bracket that golden-section search keeps: (√5 − 1)/2. */
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * The least value of a continuous function in a range: evenly spaced samples, then golden-section search in each dip.
 *
 * Kinks and several dips are allowed; a dip narrower than two samples can be missed. The value is as exact as f itself;
 * where a smooth f is least, its place is so only to about 1e-8 of the range.
 *
 * @param f - the function; must be a number everywhere in the range
 * @param lo - lower end, finite
 * @param hi - upper end, not below `lo`
 * @param samples - how many steps to sample at first, at least 2
 * @example leastValue((x) => (x - 1) ** 2 + 3, 0, 5).value // 3
 */
export function leastValue(f: (x: number) => number, lo: number, hi: number, samples = 64): LeastValue {
  if (!(hi >= lo && Number.isFinite(hi - lo))) throw new RangeError(`leastValue: the range ${lo} to ${hi} is none`);
  if (!(samples >= 2)) throw new RangeError(`leastValue: ${samples} samples are too few`);
  const place = (i: number) => (i <= 0 ? lo : i >= samples ? hi : lo + ((hi - lo) * i) / samples);
  const values = Array.from({ length: samples + 1 }, (_, i) => valueAt(f, place(i)));
  let best: LeastValue = { at: lo, value: values[0]! };
  for (let i = 0; i <= samples; i++) {
    const value = values[i]!;
    if (value < best.value) best = { at: place(i), value };
    if (value > (values[i - 1] ?? Infinity) || value > (values[i + 1] ?? Infinity)) continue;
    let [a, b] = [place(i - 1), place(i + 1)];
    let x = b - GOLDEN * (b - a);
    let y = a + GOLDEN * (b - a);
    let fx = valueAt(f, x);
    let fy = valueAt(f, y);
    while (a < x && x < y && y < b) {
      if (fx < best.value) best = { at: x, value: fx };
      if (fy < best.value) best = { at: y, value: fy };
      if (fx <= fy) {
        b = y;
        y = x;
        fy = fx;
        x = b - GOLDEN * (b - a);
        fx = valueAt(f, x);
      } else {
        a = x;
        x = y;
        fx = fy;
        y = a + GOLDEN * (b - a);
        fy = valueAt(f, y);
      }
    }
  }
  return best;
}
