/** How the doubt in measured inputs carries over to a result, to first order. */

/**
 * How independent parts of a doubt are put together: `rootSumSquare` where each part may as well be of either sign,
 * `worstCase` where all parts are taken to fall the same way.
 */
export type Combining = "rootSumSquare" | "worstCase";

function requireSpreads(spreads: readonly number[]): void {
  for (const spread of spreads) {
    if (!(spread >= 0) || spread === Infinity)
      throw new RangeError(`spread ${spread} is not a finite number of at least 0`);
  }
}

/**
 * The change of a result when each input in turn moves by its own spread, in the unit of the result and signed.
 *
 * Zᵢ = ½·[f(…, xᵢ + uᵢ, …) − f(…, xᵢ − uᵢ, …)], which is cᵢ·uᵢ to first order (exact for a function that is at most
 * quadratic in each input). f must be defined one spread to either side.
 *
 * @param f - the result as a function of all inputs
 * @param values - the inputs
 * @param spreads - one spread for each input, of the same kind throughout (standard uncertainties, or limits), at least 0
 * @see JCGM 100:2008, 5.1.3 note 2 (from memory)
 * @example contributions(([w, d]) => w * d, [2, 3], [0.1, 0.2]) // [0.3,0.4]
 */
export function contributions(
  f: (inputs: readonly number[]) => number,
  values: readonly number[],
  spreads: readonly number[],
): number[] {
  if (values.length !== spreads.length) {
    throw new RangeError(`${values.length} values need as many spreads, not ${spreads.length}`);
  }
  requireSpreads(spreads);
  return values.map((value, i) => {
    const spread = spreads[i]!;
    if (spread === 0) return 0;
    const up = f(values.with(i, value + spread));
    const down = f(values.with(i, value - spread));
    const change = (up - down) / 2;
    if (!Number.isFinite(change))
      throw new RangeError(`the function is not finite at input ${i}, ${value} ± ${spread}`);
    return change;
  });
}

/**
 * One spread out of many parts, in their common unit.
 *
 * rootSumSquare: u = √Σuᵢ²; worstCase: U = Σ|uᵢ|. The parts must be independent for the first; the second holds
 * whatever their dependence.
 *
 * @param parts - signed or unsigned parts, all in the unit of the result
 * @param how - the way of combining
 * @see JCGM 100:2008, 5.1.2, equation (10)
 * @example combined([0.3, 0.4], "rootSumSquare") // 0.5
 */
export function combined(parts: readonly number[], how: Combining): number {
  requireSpreads(parts.map(Math.abs));
  return how === "rootSumSquare" ? Math.hypot(...parts) : parts.reduce((sum, part) => sum + Math.abs(part), 0);
}

/**
 * The spread of a computed result, in its unit: {@link contributions}, then {@link combined}.
 *
 * u² = Σ(∂f/∂xᵢ)²·uᵢ². First order: leave out inputs whose effect is flat at the measured value (a rest at a maximum)
 * only knowingly, for they come out as zero.
 *
 * @param f - the result as a function of all inputs
 * @param values - the inputs
 * @param spreads - one for each input, at least 0
 * @param how - `rootSumSquare` for independent inputs, `worstCase` for a bound
 * @see JCGM 100:2008, 5.1.2
 * @example propagated(([w, d]) => w * d, [2, 3], [0.1, 0.2], "rootSumSquare") // 0.5
 */
export function propagated(
  f: (inputs: readonly number[]) => number,
  values: readonly number[],
  spreads: readonly number[],
  how: Combining = "rootSumSquare",
): number {
  return combined(contributions(f, values, spreads), how);
}

/**
 * One standard uncertainty out of parts that may depend on each other, such as two readings of one tape.
 *
 * u² = ΣΣ rᵢⱼ·uᵢ·uⱼ, with signed parts uᵢ = cᵢ·u(xᵢ) and correlation coefficients rᵢⱼ.
 *
 * @param parts - signed parts in the unit of the result
 * @param correlation - symmetric, ones on the diagonal, each coefficient from −1 to 1
 * @throws RangeError when the coefficients are none (wrong shape, out of range, or giving a negative square)
 * @see JCGM 100:2008, 5.2.2, equation (16)
 * @example combinedCorrelated([0.7, -0.7], [[1, 1], [1, 1]]) // 0
 */
export function combinedCorrelated(parts: readonly number[], correlation: readonly (readonly number[])[]): number {
  if (correlation.length !== parts.length)
    throw new RangeError(`${parts.length} parts need as many rows of coefficients`);
  let square = 0;
  let scale = 0;
  for (const [i, row] of correlation.entries()) {
    if (row.length !== parts.length) throw new RangeError(`row ${i} of the coefficients is not ${parts.length} long`);
    for (const [j, r] of row.entries()) {
      if (!(Math.abs(r) <= 1) || r !== correlation[j]?.[i] || (i === j && r !== 1)) {
        throw new RangeError(`coefficient ${r} at ${i}, ${j}: needs −1 to 1, symmetric, 1 on the diagonal`);
      }
      square += r * parts[i]! * parts[j]!;
    }
    scale += parts[i]! ** 2;
  }
  if (!(square >= -1e-9 * scale))
    throw new RangeError("the coefficients fit no set of quantities: the square is negative");
  return Math.sqrt(Math.max(0, square));
}

/**
 * Degrees of freedom of a combined standard uncertainty, a number without a unit (Welch and Satterthwaite).
 *
 * ν = u⁴ / Σ(uᵢ⁴/νᵢ), u² = Σuᵢ².
 *
 * @param parts - independent standard uncertainties in the unit of the result, not all 0
 * @param freedom - degrees of freedom of each, above 0; Infinity where a part is known
 * @see JCGM 100:2008, G.4.1, equation (G.2b)
 * @example effectiveFreedom([25, 9.7, 2.9, 16.6], [18, 25.6, 50, 2]) // 16.76
 */
export function effectiveFreedom(parts: readonly number[], freedom: readonly number[]): number {
  if (parts.length !== freedom.length) throw new RangeError(`${parts.length} parts need as many degrees of freedom`);
  const total = combined(parts, "rootSumSquare");
  if (!(total > 0)) throw new RangeError("at least one part must be above 0");
  let sum = 0;
  for (const [i, part] of parts.entries()) {
    if (!(freedom[i]! > 0)) throw new RangeError(`degrees of freedom ${freedom[i]} are not above 0`);
    sum += (part / total) ** 4 / freedom[i]!;
  }
  return 1 / sum;
}

/** What is known between two limits: nothing more, or that the middle is likelier, the chance falling evenly to 0. */
export type LimitShape = "rectangular" | "triangular";

/**
 * Standard uncertainty of a value known only to lie within ± a half-width, in the unit of the half-width.
 *
 * rectangular: u = a/√3; triangular: u = a/√6.
 *
 * @param halfWidth - a, at least 0
 * @param shape - what is known between the limits
 * @see JCGM 100:2008, 4.3.7 and 4.3.9
 * @example standardOfLimits(0.7, "rectangular") // 0.4041
 */
export function standardOfLimits(halfWidth: number, shape: LimitShape = "rectangular"): number {
  requireSpreads([halfWidth]);
  return halfWidth / Math.sqrt(shape === "rectangular" ? 3 : 6);
}

/**
 * Standard uncertainty due to the step of a display or a scale, in the unit of the step: u = r/√12.
 *
 * @param step - r, the smallest step shown, at least 0
 * @see JCGM 100:2008, F.2.2.1
 * @example standardOfResolution(1) // 0.288675
 */
export function standardOfResolution(step: number): number {
  return standardOfLimits(step / 2, "rectangular");
}
