/** A box tilted in its upright plane: under a ceiling, through a header, on a stair. */

import type { Angle, Length } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { TOUCH } from "./plane.js";

function requireSides(height: Length, depth: Length): void {
  if (!(height > 0 && depth > 0 && Number.isFinite(height + depth)))
    throw new RangeError(`a box of ${height} m by ${depth} m is none`);
}

function requirePitch(pitch: Angle): void {
  if (!(pitch >= 0 && pitch < Math.PI / 2))
    throw new RangeError(`a pitch of ${pitch} rad is not from 0 to below a right angle`);
}

/**
 * Height of a tilted box [m]: h·cos a + d·sin a. Greatest, the diagonal, at a = atan(d/h).
 *
 * @param height - h of the upright box, above 0 [m]
 * @param depth - d of the upright box in the plane of the tilt, above 0 [m]
 * @param tilt - a from upright, 0 to a right angle [rad]
 * @example tiltedHeight(38, 30, Math.atan(30 / 38)) // 48.4149
 */
export function tiltedHeight(height: Length, depth: Length, tilt: Angle): Length {
  requireSides(height, depth);
  if (!(tilt >= 0 && tilt <= Math.PI / 2)) throw new RangeError(`a tilt of ${tilt} rad is not from 0 to a right angle`);
  return brand<"length">(height * Math.cos(tilt) + depth * Math.sin(tilt));
}

/** A range of tilts [rad]. */
export interface TiltRange {
  readonly from: Angle;
  readonly to: Angle;
}

/**
 * The tilts from upright at which a box is too tall for a header [rad]; undefined when it clears at every tilt.
 *
 * With R = √(h² + d²) and p = atan(d/h): between p − acos(H/R) and p + acos(H/R), cut to 0 and a right angle. A machine
 * that clears upright can be too tall while leaned on a hand truck.
 *
 * @param height - h of the upright box, above 0 [m]
 * @param depth - d in the plane of the tilt, above 0 [m]
 * @param headroom - H, above 0 [m]
 * @example tooTallBetween(77, 27, 80) // {"from":0.139108,"to":0.535398}
 */
export function tooTallBetween(height: Length, depth: Length, headroom: Length): TiltRange | undefined {
  requireSides(height, depth);
  if (!(headroom > 0)) throw new RangeError(`a headroom of ${headroom} m is none`);
  const diagonal = Math.hypot(height, depth);
  if (headroom >= diagonal - TOUCH) return undefined;
  const peak = Math.atan2(depth, height);
  const half = Math.acos(headroom / diagonal);
  return { from: brand<"angle">(Math.max(0, peak - half)), to: brand<"angle">(Math.min(Math.PI / 2, peak + half)) };
}

/** A box as carried with one end up. */
export interface TiltedCarry {
  /** Tilt of the long side from level [rad]. */
  readonly tilt: Angle;
  /** Length in plan at that tilt [m]. */
  readonly plan: Length;
}

/**
 * The tilt that makes a box shortest in plan under a headroom; undefined when it fits under at no tilt.
 *
 * Plan ℓ·cos φ + h·sin φ, height ℓ·sin φ + h·cos φ ≤ H. Both are concave in φ, so the shortest is at an end of a range of
 * possible tilts. (The stick formula √(ℓ² + H²) holds for thin things only.)
 *
 * @param length - ℓ of the box as it lies, above 0 [m]
 * @param thickness - h, its height as it lies, above 0 [m]
 * @param headroom - H, above 0 [m]
 * @example shortestCarry(1.8, 0.7, 2.4).plan // 0.7
 */
export function shortestCarry(length: Length, thickness: Length, headroom: Length): TiltedCarry | undefined {
  const closed = tooTallBetween(thickness, length, headroom);
  const at = (tilt: number): TiltedCarry => ({
    tilt: brand<"angle">(tilt),
    plan: brand<"length">(tilt === Math.PI / 2 ? thickness : length * Math.cos(tilt) + thickness * Math.sin(tilt)),
  });
  const ends: TiltedCarry[] = [];
  if (thickness <= headroom + TOUCH) ends.push(at(0));
  if (length <= headroom + TOUCH) ends.push(at(Math.PI / 2));
  if (closed !== undefined && closed.from > 0) ends.push(at(closed.from));
  if (closed !== undefined && closed.to < Math.PI / 2) ends.push(at(closed.to));
  return ends.reduce<TiltedCarry | undefined>(
    (best, end) => (best === undefined || end.plan < best.plan ? end : best),
    undefined,
  );
}

/**
 * Headroom that a box takes on a stair when carried along the pitch, upright from the line of nosings [m]: d/cos φ. Add
 * what the hands lift it.
 *
 * @param thickness - d across the pitch, above 0 [m]
 * @param pitch - φ of the stair, from 0 [rad]
 * @example stairNeedAlong(27, Math.atan(7.75 / 10)) // 34.1593
 */
export function stairNeedAlong(thickness: Length, pitch: Angle): Length {
  requirePitch(pitch);
  requireSides(thickness, thickness);
  return brand<"length">(thickness / Math.cos(pitch));
}

/**
 * Headroom that a box takes on a stair when kept upright, from the line of nosings [m]: h + d·tan φ.
 *
 * @param height - h, above 0 [m]
 * @param depth - d along the travel, above 0 [m]
 * @param pitch - φ of the stair, from 0 [rad]
 * @example stairNeedUpright(38, 27, Math.atan(7.75 / 10)) // 58.925
 */
export function stairNeedUpright(height: Length, depth: Length, pitch: Angle): Length {
  requirePitch(pitch);
  requireSides(height, depth);
  return brand<"length">(height + depth * Math.tan(pitch));
}
