/** How a rigid machine's weight falls on four springy feet that can push but not pull. */

import type { Force, Length, Stiffness } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { type FeetBase, type FourFeet, twist } from "./level.js";
import type { Point } from "./plane.js";

/** The part of the weight by which a foot may seem to pull before it counts as lifted: rounding, no more. */
const ROUNDING = 1e-9;

const sides: FourFeet<readonly [-1 | 1, -1 | 1]> = [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
];

/**
 * Force on each foot, round the rectangle [N]; undefined when the weight acts outside the feet and the machine falls over.
 *
 * With all feet bearing R = W/4 ± W·ex/(2a) ± W·ey/(2b) ± kf·k/4, where k is the twist of the heights; where that would
 * make a foot pull, that foot lifts and the other three carry by statics alone. This is the least energy of one-sided
 * springs. (Sharing "by area", W·(½ ± ex/a)·(½ ± ey/b), balances too, but no elastic feet carry so.) Rigid feet on a flat
 * floor have no answer of their own: take equal springs.
 *
 * @param weight - above 0 [N]
 * @param centre - where the weight acts, from the middle of the feet: x to the right, y to the back [m]
 * @param base - distances between the feet [m]
 * @param stiffness - of each foot with its patch of floor, above 0 [N/m]
 * @param heights - to which floor and unloaded foot carry each corner [m]; a foot that is short stands lower
 * @see C. Garcia and others, Reactions on rigid legs of rectangular tables, Applied Mathematics 6 (2015), 599–616, on the
 * indeterminate rigid case
 * @example feetReactions(200, { x: 9, y: -8 }, { width: 24, depth: 22 }, 2000, [0, 0, 0, 0]) // [25,147.727,27.273,0]
 */
export function feetReactions(
  weight: Force,
  centre: Point,
  base: FeetBase,
  stiffness: Stiffness,
  heights: FourFeet<Length>,
): FourFeet<Force> | undefined {
  if (!(weight > 0 && weight < Infinity)) throw new RangeError(`a weight of ${weight} N is none`);
  if (!(stiffness > 0 && stiffness < Infinity)) throw new RangeError(`a stiffness of ${stiffness} N/m is none`);
  if (!(base.width > 0 && base.depth > 0))
    throw new RangeError(`feet ${base.width} m by ${base.depth} m apart span no rectangle`);
  const k = twist(heights);
  // The centre as a share of the half sides: −1 to 1 inside the feet.
  const u = (2 * centre.x) / base.width;
  const v = (2 * centre.y) / base.depth;
  if (!Number.isFinite(u) || !Number.isFinite(v)) throw new RangeError("the centre of weight is not finite");
  if (Math.abs(u) > 1 + ROUNDING || Math.abs(v) > 1 + ROUNDING) return undefined;

  const least = -ROUNDING * weight;
  const settle = (forces: readonly number[]) =>
    forces.map((force) => brand<"force">(Math.max(0, force))) as unknown as FourFeet<Force>;

  const four = sides.map(
    ([x, y], i) => (weight / 4) * (1 + x * u + y * v) + ((i % 2 === 0 ? 1 : -1) * stiffness * k) / 4,
  );
  if (four.every((force) => force >= least)) return settle(four);

  // Exactly one choice of the lifted foot pushes on all others and hangs; ties give the same forces.
  let best = -Infinity;
  let answer = four;
  for (const [free, [x, y]] of sides.entries()) {
    const forces = [0, 0, 0, 0];
    const opposite = (free + 2) % 4;
    for (const beside of [(free + 1) % 4, (free + 3) % 4]) {
      // Of the three that bear, this one alone stands on its side of the axis that parts it from the other two.
      const apart = sides[beside]![0] === x ? x * u : y * v;
      forces[beside] = (weight * (1 + apart)) / 2;
    }
    forces[opposite] = (-weight * (x * u + y * v)) / 2;
    const body = (i: number) => heights[i as 0 | 1 | 2 | 3] - forces[i]! / stiffness;
    const hang = body((free + 1) % 4) + body((free + 3) % 4) - body(opposite) - heights[free as 0 | 1 | 2 | 3];
    const slack = Math.min(...forces, hang * stiffness);
    if (slack > best) {
      best = slack;
      answer = forces;
    }
  }
  return settle(answer);
}
