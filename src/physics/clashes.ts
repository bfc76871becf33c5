/** Which of many things in a plan overlap. */

import type { Length } from "../core/quantity/dimension.js";
import { type Box, TOUCH } from "./plane.js";
import { type Polygon, penetration } from "./polygon.js";

/** Two things that overlap, by their places in the list, the earlier first. */
export interface Clash {
  readonly one: number;
  readonly other: number;
  /** How deep: the shortest shift that parts them [m]. */
  readonly depth: Length;
}

/**
 * The pairs of boxes that overlap by more than a touch, in order of the list.
 *
 * Sort and sweep along x: boxes are met by their left sides and compared only with those still open.
 *
 * @param boxes - sides along x and y [m]
 * @example overlappingBoxes([box(0, 0, 2, 2), box(3, 0, 1, 1), box(1, 1, 1, 1)]) // [[0,2]]
 */
export function overlappingBoxes(boxes: readonly Box[]): [number, number][] {
  for (const [i, { left, right, front, back }] of boxes.entries()) {
    if (!(right >= left && back >= front)) throw new RangeError(`box ${i} is inside out or not a number`);
  }
  const order = boxes.map((_, i) => i).sort((a, b) => boxes[a]!.left - boxes[b]!.left);
  const open: number[] = [];
  const pairs: [number, number][] = [];
  for (const i of order) {
    const { left, front, back } = boxes[i]!;
    let kept = 0;
    for (const j of open) {
      const before = boxes[j]!;
      if (before.right <= left + TOUCH) continue;
      open[kept++] = j;
      const deep = Math.min(before.back, back) - Math.max(before.front, front);
      const wide = Math.min(before.right, boxes[i]!.right) - left;
      if (deep > TOUCH && wide > TOUCH) pairs.push(i < j ? [i, j] : [j, i]);
    }
    open.length = kept;
    open.push(i);
  }
  return pairs.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
}

/**
 * The pairs of convex polygons that overlap by more than a touch, and how deep, in order of the list.
 *
 * @param polygons - each counter-clockwise
 * @example clashes([boxPolygon(box(0, 0, 2, 2)), boxPolygon(box(1.5, 1, 2, 2))]) // [{"one":0,"other":1,"depth":0.5}]
 */
export function clashes(polygons: readonly Polygon[]): Clash[] {
  const around = polygons.map((polygon): Box => {
    const [xs, ys] = [polygon.map(({ x }) => x), polygon.map(({ y }) => y)];
    return {
      left: Math.min(...xs) as Length,
      right: Math.max(...xs) as Length,
      front: Math.min(...ys) as Length,
      back: Math.max(...ys) as Length,
    };
  });
  return overlappingBoxes(around)
    .map(([one, other]) => ({ one, other, depth: penetration(polygons[one]!, polygons[other]!) }))
    .filter(({ depth }) => depth > TOUCH);
}
