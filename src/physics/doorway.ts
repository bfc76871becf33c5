/** A box through a doorway, in plan. */

import type { Angle, Length } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import type { PlanSize } from "./corner.js";
import { TOUCH } from "./plane.js";
import { leastValue } from "./roots.js";

/** A hinged door in its frame [m]. */
export interface DoorFrame {
  /** Width of the leaf, above 0. */
  readonly leaf: Length;
  /** Thickness of the leaf, at least 0. */
  readonly thickness: Length;
  /** Gap between leaf and frame at each side, at least 0. */
  readonly gap: Length;
  /** How far the stop stands out from the frame, at least 0. */
  readonly stop: Length;
}

/** Where the leaf is while the box goes through: at a right angle, folded back along the wall, or lifted off. */
export type LeafPlace = "square" | "foldedBack" | "off";

/**
 * Clear width of a doorway with butt hinges [m].
 *
 * Leaf open at a right angle: leaf + gap − thickness − stop, from the face of the leaf to the stop opposite; folded back or
 * lifted off: leaf + 2·gap − 2·stop. Knobs count in addition where they stand in the way.
 *
 * @param door - the sizes of leaf and frame [m]
 * @param place - where the leaf is
 * @see 2010 ADA Standards, 404.2.3, for where it is measured
 * @example doorClearWidth({ leaf: 32, thickness: 1.375, gap: 0.125, stop: 0.5 }, "square") // 30.25
 */
export function doorClearWidth({ leaf, thickness, gap, stop }: DoorFrame, place: LeafPlace): Length {
  if (!(leaf > 0 && thickness >= 0 && gap >= 0 && stop >= 0))
    throw new RangeError("a door has a leaf and no negative sizes");
  return brand<"length">(place === "square" ? leaf + gap - thickness - stop : leaf + 2 * gap - 2 * stop);
}

/**
 * The greatest slant, from square to the wall, at which a long box goes through a doorway [rad]; undefined when it is too
 * wide. b + t·sin φ = c·cos φ, so φ = acos(b/√(c² + t²)) − atan(t/c).
 *
 * @param clear - c, clear width of the doorway, above 0 [m]
 * @param wall - t, depth of the doorway, at least 0 [m]
 * @param width - b of the box, at least 0 [m]
 * @example doorwaySlant(30, 4.5, 27) // 0.324468
 */
export function doorwaySlant(clear: Length, wall: Length, width: Length): Angle | undefined {
  if (!(clear > 0 && wall >= 0 && width >= 0)) throw new RangeError("a doorway has a width and no negative sizes");
  if (width > clear + TOUCH) return undefined;
  return brand<"angle">(Math.max(0, Math.acos(Math.min(1, width / Math.hypot(clear, wall))) - Math.atan2(wall, clear)));
}

/** Between these widths lies the least corridor from which a box goes through a doorway in its side. */
export interface CorridorNeed {
  /** Least corridor if the wall had no thickness: in a narrower one it can't be done [m]. */
  readonly thinWall: Length;
  /** Least corridor if the doorway were a corridor itself: in this one it can be done [m]. */
  readonly thickWall: Length;
}

/**
 * How wide a corridor has to be to bring a box from it through a doorway in its side, the room beyond being open [m];
 * undefined when the box fits through neither way round.
 *
 * Thin wall: ℓ·b/c, for at asin(b/c) to the wall the doorway first takes the whole width, and that much of the box is still
 * in the corridor. Thick wall: greatest over θ of (b + ℓ·sin θ·cos θ − c·cos θ)/sin θ, as round a right-angled corner.
 * Neither is above ℓ, for then it stands across the corridor; a box with ℓ ≤ c slides through sideways from a corridor as
 * wide as itself. Real walls lie between the two: within 1.2 % of each other for ℓ ≥ 2·c and b ≥ 0.9·c, 5.5 % at b = 0.8·c,
 * far apart for a thin stick.
 *
 * @param clear - c, clear width of the doorway, above 0 [m]
 * @param box - outline in plan [m]
 * @example corridorForDoorway(32, { length: 72, width: 28 })?.thickWall // 63.0329
 */
export function corridorForDoorway(clear: Length, box: PlanSize): CorridorNeed | undefined {
  const b = Math.min(box.length, box.width);
  const l = Math.max(box.length, box.width);
  if (!(clear > 0 && b > 0 && Number.isFinite(l))) throw new RangeError("a doorway and a box have sizes above 0");
  if (b > clear + TOUCH) return undefined;
  if (l <= clear + TOUCH) return { thinWall: brand<"length">(b), thickWall: brand<"length">(b) };
  const c = Math.max(clear, b);
  const thin = (l * b) / c;
  const need = (t: number) => (b + l * Math.sin(t) * Math.cos(t) - c * Math.cos(t)) / Math.sin(t);
  const thick = -leastValue((t) => -need(t), 1e-9, Math.PI / 2).value;
  return {
    thinWall: brand<"length">(Math.min(thin, l)),
    thickWall: brand<"length">(Math.min(Math.max(thick, thin), l)),
  };
}
