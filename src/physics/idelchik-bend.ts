/** Loss coefficients of smooth bends in round pipe after Idelchik's diagram 6-1, which has factors for low Reynolds numbers. */
import type { Angle, Ratio } from "../core/quantity/dimension.js";
import { requirePositive, requireWithin } from "./domain.js";
import { colebrook } from "./friction.js";
import { interpolated, type Points } from "./tabulated.js";

/*
 * Source of every table here: I. E. Idelchik, Handbook of Hydraulic Resistance, 4th edition, diagram 6-1; seen in four
 * transcriptions in public source code that agree, one of them giving edition and page (426 for the Reynolds factor).
 */

/** Angle factor A₁ by the angle in degrees. */
const ANGLE_FACTOR: Points = [
  [0, 0],
  [20, 0.31],
  [30, 0.45],
  [45, 0.6],
  [60, 0.78],
  [75, 0.9],
  [90, 1],
  [110, 1.13],
  [130, 1.2],
  [150, 1.28],
  [180, 1.4],
];

/** Radius factor B₁ by r/D. */
const RADIUS_FACTOR: Points = [
  [0.5, 1.18],
  [0.6, 0.77],
  [0.7, 0.51],
  [0.8, 0.37],
  [0.9, 0.28],
  [1, 0.21],
  [1.25, 0.19],
  [1.5, 0.17],
  [2, 0.15],
  [4, 0.11],
  [6, 0.09],
  [8, 0.07],
  [10, 0.07],
  [20, 0.05],
  [30, 0.04],
  [40, 0.03],
];

/** Reynolds factor for r/D from 0.50 to 0.55. */
const TIGHT: Points = [
  [1e4, 1.4],
  [1.4e4, 1.33],
  [2e4, 1.26],
  [3e4, 1.19],
  [4e4, 1.14],
  [6e4, 1.09],
  [8e4, 1.06],
  [1e5, 1.04],
  [1.4e5, 1],
  [2e5, 1],
  [3e5, 1],
  [4e5, 1],
];

/** Reynolds factor for r/D above 0.55 to 0.70. */
const MIDDLE: Points = [
  [1e4, 1.67],
  [1.4e4, 1.58],
  [2e4, 1.49],
  [3e4, 1.4],
  [4e4, 1.34],
  [6e4, 1.26],
  [8e4, 1.21],
  [1e5, 1.19],
  [1.4e5, 1.17],
  [2e5, 1.14],
  [3e5, 1.06],
  [4e5, 1],
];

/** Reynolds factor for r/D above 0.70. */
const WIDE: Points = [
  [1e4, 2],
  [1.4e4, 1.89],
  [2e4, 1.77],
  [3e4, 1.64],
  [4e4, 1.56],
  [6e4, 1.46],
  [8e4, 1.38],
  [1e5, 1.3],
  [1.4e5, 1.15],
  [2e5, 1.02],
  [3e5, 1],
  [4e5, 1],
];

/** Last column of the Reynolds factor, printed "and more". */
const SETTLED = 4e5;

/**
 * Factor on the loss of a bend for the Reynolds number, a number without a unit: 1 from 400 000, up to 2 at 10 000.
 *
 * Three columns, for r/D to 0.55, to 0.70 and above (mitres take the first); straight lines between the points.
 *
 * @param re - Reynolds number, at least 10 000
 * @param radiusRatio - r/D, 0.5 to 40
 * @throws RangeError outside that range
 * @see I. E. Idelchik, Handbook of Hydraulic Resistance, 4th edition, diagram 6-1
 * @example bendReynoldsFactor(5e4, 1.5) // 1.51
 */
export function bendReynoldsFactor(re: number, radiusRatio: Ratio): number {
  requireWithin("bend radius over diameter", radiusRatio, 0.5, 40);
  requireWithin("Reynolds number of a bend", re, 1e4, Number.MAX_VALUE);
  const column = radiusRatio <= 0.55 ? TIGHT : radiusRatio <= 0.7 ? MIDDLE : WIDE;
  return re >= SETTLED ? 1 : interpolated("Reynolds number of a bend", column, re);
}

/** Limits of the roughness factor's cells. */
const ROUGH_FROM_RE = 4e4;
const FULLY_ROUGH_RE = 2e5;
const ROUGH_WALL = 1e-3;

/**
 * Factor on the loss of a bend for the roughness of its wall, a number without a unit.
 *
 * 1 to Re 40 000 and for a smooth wall. Above, r/D to 0.55: 1 + 500·ε/D, 1.5 from ε/D 0.001. Wider bends: to Re 200 000
 * the friction factor over that of a smooth pipe, above it 1 + 1000·ε/D; 2 from ε/D 0.001. It steps at the limits of its
 * cells, as the printed table does.
 *
 * @param re - Reynolds number, at least 10 000
 * @param radiusRatio - r/D, 0.5 to 40
 * @param relativeRoughness - ε/D, 0 to 0.05
 * @throws RangeError outside that range
 * @see I. E. Idelchik, Handbook of Hydraulic Resistance, diagram 6-1; seen in one transcription, agreeing with memory
 * @example bendRoughnessFactor(5e4, 1.5, 0.0009) // 1.1365
 */
export function bendRoughnessFactor(re: number, radiusRatio: Ratio, relativeRoughness: number): number {
  requireWithin("bend radius over diameter", radiusRatio, 0.5, 40);
  requireWithin("Reynolds number of a bend", re, 1e4, Number.MAX_VALUE);
  requireWithin("relative roughness", relativeRoughness, 0, 0.05);
  if (re <= ROUGH_FROM_RE || relativeRoughness === 0) return 1;
  if (radiusRatio <= 0.55) return relativeRoughness > ROUGH_WALL ? 1.5 : 1 + 500 * relativeRoughness;
  if (relativeRoughness > ROUGH_WALL) return 2;
  if (re > FULLY_ROUGH_RE) return 1 + 1000 * relativeRoughness;
  return colebrook(re, relativeRoughness) / colebrook(re, 0);
}

/** A smooth bend in round pipe and the flow through it. */
export interface BendFlow {
  /** Change of direction, 0 to 180° [rad]. */
  readonly angle: Angle;
  /** Radius of the centre line over the inside diameter, 0.5 to 40. */
  readonly radiusRatio: Ratio;
  /** Reynolds number, at least 10 000. */
  readonly re: number;
  /** Mean height of the wall's roughness over the inside diameter, 0 to 0.05. */
  readonly relativeRoughness: number;
  /** Darcy friction factor of the pipe at this flow. */
  readonly factor: number;
}

/**
 * Loss coefficient of a smooth bend in round pipe, friction along it included, a number without a unit.
 *
 * K = k_Re·k_rough·A₁·B₁ + f·a·(r/D), with A₁ by the angle and B₁ by r/D from the tables (straight lines between the
 * points), k_Re from {@link bendReynoldsFactor} and k_rough from {@link bendRoughnessFactor}; a in radians.
 *
 * @param bend - the bend and its flow
 * @throws RangeError outside the range of the tables
 * @see I. E. Idelchik, Handbook of Hydraulic Resistance, 4th edition, diagram 6-1
 * @example idelchikBend({ angle: Math.PI / 2, radiusRatio: 1.5, re: 4e5, relativeRoughness: 0, factor: 0.0139 }) // 0.20275
 */
export function idelchikBend(bend: BendFlow): number {
  const { angle, radiusRatio, re, relativeRoughness, factor } = bend;
  requirePositive("friction factor", factor);
  requireWithin("bend angle [rad]", angle, 0, Math.PI);
  const degrees = Math.min((angle * 180) / Math.PI, 180);
  const local =
    interpolated("bend angle [deg]", ANGLE_FACTOR, degrees) *
    interpolated("bend radius over diameter", RADIUS_FACTOR, radiusRatio);
  return (
    bendReynoldsFactor(re, radiusRatio) * bendRoughnessFactor(re, radiusRatio, relativeRoughness) * local +
    factor * angle * radiusRatio
  );
}
