/** Loss coefficients of changes of section, entries, exits and obstructions. */
import type { Ratio } from "../core/quantity/dimension.js";
import { requirePositive, requireWithin } from "./domain.js";
import { interpolated, type Points } from "./tabulated.js";

function requireAreaRatio(ratio: number): void {
  requirePositive("area ratio", ratio);
  requireWithin("area ratio", ratio, 0, 1);
}

/**
 * Loss coefficient of a sudden widening, on the speed in the smaller section, a number without a unit.
 *
 * K = (1 − A₁/A₂)² (Borda and Carnot). On the speed in the greater section multiply by (A₂/A₁)².
 *
 * @param areaRatio - A₁/A₂, smaller over greater area, above 0 to 1
 * @throws RangeError outside that range
 * @example suddenExpansion((0.1016 / 0.1524) ** 2) // 0.308642
 */
export function suddenExpansion(areaRatio: Ratio): number {
  requireAreaRatio(areaRatio);
  return (1 - areaRatio) ** 2;
}

/**
 * Which formula a sudden narrowing takes. `jet`: K from the contraction of the jet, the newest of the three; `linear`:
 * ½·(1 − A₂/A₁), of Technical Paper 410; `idelchik`: ½·(1 − A₂/A₁)^¾.
 */
export type ContractionFormula = "jet" | "linear" | "idelchik";

/**
 * Loss coefficient of a sudden sharp narrowing, on the speed in the smaller section, a number without a unit.
 *
 * jet: K = 0.0696·(1 − β⁵)·λ² + (λ − 1)², λ = 1 + 0.622·(1 − 0.215·β² − 0.785·β⁵), β² = A₂/A₁.
 * linear: K = ½·(1 − A₂/A₁). idelchik: K = ½·(1 − A₂/A₁)^0.75. They differ by up to 0.12.
 *
 * @param areaRatio - A₂/A₁, smaller over greater area, above 0 to 1
 * @param formula - which formula
 * @throws RangeError outside that range
 * @see jet: Rennels and Hudson, Pipe Flow, 2012, chapter 10, as in fluids 1.0.22; linear: Technical Paper 410, page A-26;
 * idelchik: Handbook of Hydraulic Resistance, diagram 4-9 (from memory)
 * @example suddenContraction((0.1016 / 0.1524) ** 2) // 0.383932
 */
export function suddenContraction(areaRatio: Ratio, formula: ContractionFormula = "jet"): number {
  requireAreaRatio(areaRatio);
  if (formula === "linear") return 0.5 * (1 - areaRatio);
  if (formula === "idelchik") return 0.5 * (1 - areaRatio) ** 0.75;
  const fifth = areaRatio ** 2.5;
  const jet = 1 + 0.622 * (1 - 0.215 * areaRatio - 0.785 * fifth);
  return 0.0696 * (1 - fifth) * jet * jet + (jet - 1) ** 2;
}

// biome-ignore lint/suspicious/noApproximativeNumericConstant: the source prints 0.707, not the root of one half.
const EDGE = 0.707;

/**
 * Loss coefficient of a thin sharp-edged obstruction with a hole, on the speed in the full duct, a number without a unit.
 *
 * K = (1 + 0.707·√(1 − n) − n)² / n², n the open share of the area. Stands for a screen half shut with lint, a stuck
 * flap, a crushed end; it holds for one hole, thin against its width.
 *
 * @param openRatio - n, open area over duct area, above 0 to 1
 * @throws RangeError outside that range
 * @see I. E. Idelchik, Handbook of Hydraulic Resistance, diagram 4-15 (from memory)
 * @example sharpOrifice(0.5) // 3.9994
 */
export function sharpOrifice(openRatio: Ratio): number {
  requireAreaRatio(openRatio);
  return ((1 + EDGE * Math.sqrt(1 - openRatio) - openRatio) / openRatio) ** 2;
}

/** Loss coefficient of a free discharge into a large space: the whole velocity pressure is lost. */
export const freeExit = 1;

/** Bellmouth without a wall: K by radius of the mouth over diameter. */
const BELLMOUTH: Points = [
  [0, 1],
  [0.01, 0.87],
  [0.02, 0.74],
  [0.03, 0.61],
  [0.04, 0.51],
  [0.05, 0.4],
  [0.06, 0.32],
  [0.08, 0.2],
  [0.1, 0.15],
  [0.12, 0.1],
  [0.16, 0.06],
  [0.2, 0.03],
];

/** From this radius on the printed value stands for every larger one. */
const BELLMOUTH_SETTLED = 0.2;

/**
 * Loss coefficient of a rounded entry that stands free, a number without a unit: 1.0 for a plain end to 0.03 from
 * r/D 0.2; straight lines between the printed points.
 *
 * @param mouthRatio - radius of the rounding over the duct's diameter, 0 or more
 * @throws RangeError when negative or not finite
 * @see I. E. Idelchik, Handbook of Hydraulic Resistance, diagram 3-3 (from memory), agreeing with a reprint seen
 * @example bellmouthEntry(0.07) // 0.26
 */
export function bellmouthEntry(mouthRatio: Ratio): number {
  requireWithin("mouth radius over diameter", mouthRatio, 0, Number.MAX_VALUE);
  return interpolated("mouth radius over diameter", BELLMOUTH, Math.min(mouthRatio, BELLMOUTH_SETTLED));
}

/** Thin-walled end standing out of a wall: K by the length that stands out over the diameter. */
const PROUD: Points = [
  [0, 0.5],
  [0.002, 0.57],
  [0.01, 0.68],
  [0.05, 0.8],
  [0.2, 0.92],
  [0.5, 1],
];

/** From this length on the wall no longer matters. */
const PROUD_SETTLED = 0.5;

/**
 * Loss coefficient of a thin sharp-edged entry flush with a wall or standing out of it, a number without a unit: 0.5
 * flush to 1.0 from half a diameter; straight lines between the printed points.
 *
 * @param proudRatio - length that stands out of the wall over the duct's diameter, 0 (flush) or more
 * @throws RangeError when negative or not finite
 * @see I. E. Idelchik, Handbook of Hydraulic Resistance, diagram 3-1 (from memory), agreeing with a reprint seen
 * @example proudEntry(0) // 0.5
 */
export function proudEntry(proudRatio: Ratio): number {
  requireWithin("length out of the wall over diameter", proudRatio, 0, Number.MAX_VALUE);
  return interpolated("length out of the wall over diameter", PROUD, Math.min(proudRatio, PROUD_SETTLED));
}
