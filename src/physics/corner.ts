/** A box carried level round the corner of two corridors, in plan. */

import type { Angle, Length } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { brent, leastValue } from "./roots.js";

/** Two corridors that meet at a corner. */
export interface Corner {
  /** Clear width of the first corridor, above 0 [m]. */
  readonly first: Length;
  /** Clear width of the second corridor, above 0 [m]. */
  readonly second: Length;
  /** Angle between the outer walls, above 0 and below π [rad]; a right angle when left out, more for a gentler corner. */
  readonly angle?: Angle;
}

/** The outline of a box in plan [m]. */
export interface PlanSize {
  readonly length: Length;
  readonly width: Length;
}

/** The longest box that turns, and where it is tightest. */
export interface LongestTurning {
  /** Greatest length [m]. */
  readonly length: Length;
  /** Angle between the long side and the outer wall of the first corridor where it is tightest [rad]. */
  readonly angle: Angle;
}

const RIGHT = Math.PI / 2;

/** Steps in which a turn is sampled for its tightest place before that is refined. */
const SAMPLES = 180;

function requireCorner({ first, second, angle = brand<"angle">(RIGHT) }: Corner): void {
  if (!(first > 0 && second > 0 && Number.isFinite(first + second))) {
    throw new RangeError(`corridors of ${first} m and ${second} m are none`);
  }
  if (!(angle > 0 && angle < Math.PI)) throw new RangeError(`a corner of ${angle} rad is not between 0 and π`);
}

/**
 * The longest box of a width that can be turned round a corner [m]; undefined when it is too wide for a corridor.
 *
 * Right angle: least over θ of w₁/cos θ + w₂/sin θ − b/(sin θ·cos θ), so (w₁^⅔ + w₂^⅔)^1.5 for b = 0 and 2·(√2·w − b) for
 * w₁ = w₂ = w. From a right angle up: least over β of w₁/sin β + w₂/sin(α + β) − b·(cot β + cot γ), γ = π − α − β. Below a
 * right angle, where a rear corner can touch first: by the clearance of {@link cornerClearance} at every heading. A short
 * box may pass without turning: {@link cornerClearance} covers that too. Level, rigid, thin-walled: add what hands take.
 *
 * @param corner - the corridors [m] and their angle [rad]
 * @param width - b of the box, at least 0 [m]
 * @see C. Moretti, Moving a couch around a corner, College Mathematics Journal 33 (2002), 196–200, for the right angle
 * @example longestTurning({ first: 36, second: 42 }, 28)?.length // 53.967036
 */
export function longestTurning(corner: Corner, width: Length): LongestTurning | undefined {
  requireCorner(corner);
  if (!(width >= 0)) throw new RangeError(`a width of ${width} m is negative`);
  const { first, second, angle = brand<"angle">(RIGHT) } = corner;
  if (width > Math.min(first, second)) return undefined;
  const answer = (length: number, at: number) => ({ length: brand<"length">(length), angle: brand<"angle">(at) });

  if (Math.abs(angle - RIGHT) < 1e-12) {
    // Stationary where w₁·sin³θ − w₂·cos³θ + b·cos 2θ changes sign, which it does exactly once.
    const edge = 1e-6;
    const at = brent(
      (t) => (first * Math.sin(t) ** 3 - second * Math.cos(t) ** 3 + width * Math.cos(2 * t)) / Math.max(first, second),
      edge,
      RIGHT - edge,
    );
    const [sin, cos] = [Math.sin(at), Math.cos(at)];
    return answer((first * sin + second * cos - width) / (sin * cos), RIGHT - at);
  }
  if (angle > RIGHT) {
    const turn = Math.PI - angle;
    const length = (beta: number) => {
      const gamma = turn - beta;
      if (beta <= 0 || gamma <= 0) return Infinity;
      // Written over one denominator, for w/sin − b·cot cancels badly near the ends.
      return (first - width * Math.cos(beta)) / Math.sin(beta) + (second - width * Math.cos(gamma)) / Math.sin(gamma);
    };
    const { at, value } = leastValue(length, 0, turn, SAMPLES);
    return answer(value, at);
  }
  const tight = (length: number) =>
    leastValue((heading) => clearanceAt(corner, { length, width }, heading), angle, Math.PI, SAMPLES);
  let most = first + second;
  while (tight(most).value > 0) most *= 2;
  const length = brent((l) => tight(l).value, 0, most, 1e-12 * most);
  return answer(length, Math.PI - tight(length).at);
}

/** Clearance to the inner corner of a box pushed into the outer corner, at a heading from the first corridor's wall. */
function clearanceAt(
  corner: Corner,
  box: { readonly length: number; readonly width: number },
  heading: number,
): number {
  const { first, second, angle = RIGHT } = corner;
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  const [ex, ey] = [Math.cos(heading), Math.sin(heading)];
  // The first outer wall runs along (1, 0), the second along (cos, sin); (0, 1) and (sin, −cos) point into the corridors.
  const half = (nx: number, ny: number) =>
    (box.length * Math.abs(ex * nx + ey * ny) + box.width * Math.abs(ex * ny - ey * nx)) / 2;
  const halfFirst = half(0, 1);
  const halfSecond = half(sin, -cos);
  let room = Math.max(first - 2 * halfFirst, second - 2 * halfSecond);
  // From the middle of the box to the inner corner.
  const dy = first - halfFirst;
  const dx = (second - halfSecond + dy * cos) / sin;
  for (const [nx, ny, reach] of [
    [ex, ey, box.length],
    [-ex, -ey, box.length],
    [ey, -ex, box.width],
    [-ey, ex, box.width],
  ] as const) {
    // Only a side that faces away from both walls can part the box from the inner corner and all behind it.
    if (nx >= -1e-15 && nx * cos + ny * sin >= -1e-15) room = Math.max(room, nx * dx + ny * dy - reach / 2);
  }
  return room;
}

/**
 * Room to spare where a box is tightest on its best way round a corner [m]; it passes when this is not below 0.
 *
 * At any heading the box has most room when pushed against both outer walls, since the corridor's inner side is the outer
 * corner moved inward; so it passes exactly when, over some range of headings that begins where it fits along the first
 * corridor and ends where it fits along the second, that room never falls below 0. Turning and sliding sideways without
 * turning are both covered, at any angle of the corner.
 *
 * @param corner - the corridors [m] and their angle [rad]
 * @param box - the outline in plan [m]
 * @example cornerClearance({ first: 36, second: 36 }, { length: 35, width: 35 }) // 1
 */
export function cornerClearance(corner: Corner, box: PlanSize): Length {
  requireCorner(corner);
  const { length, width } = box;
  if (!(length > 0 && width >= 0 && Number.isFinite(length + width))) {
    throw new RangeError(`a box of ${length} m by ${width} m is none`);
  }
  const { first, second, angle = brand<"angle">(RIGHT) } = corner;
  // Headings repeat after half a turn. A box fits along a corridor at some heading only if it does square to it.
  const starts = [
    { heading: 0, room: first - width },
    { heading: RIGHT, room: first - length },
  ];
  const ends = [
    { heading: angle, room: second - width },
    { heading: angle + RIGHT, room: second - length },
  ];
  let best = -Infinity;
  for (const start of starts) {
    for (const end of ends) {
      const most = Math.min(start.room, end.room);
      if (most <= best) continue;
      const ahead = (((end.heading - start.heading) % Math.PI) + Math.PI) % Math.PI;
      const same = Math.min(ahead, Math.PI - ahead) < 1e-12;
      for (const swing of same ? [0] : [ahead, ahead - Math.PI]) {
        const from = Math.min(start.heading, start.heading + swing);
        const tight =
          swing === 0
            ? most
            : leastValue((heading) => clearanceAt(corner, box, heading), from, from + Math.abs(swing), SAMPLES).value;
        best = Math.max(best, Math.min(most, tight));
      }
    }
  }
  return brand<"length">(best);
}
