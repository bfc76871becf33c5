/** Convex polygons in the plane: overlap, distance, area. */

import type { Angle, Area, Length } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { type Box, type Point, point, type Segment, segmentDistance, TOUCH, turnOf } from "./plane.js";

/** The corners of a convex polygon in turn, counter-clockwise as seen from above; at least three. */
export type Polygon = readonly Point[];

/**
 * Corners as a checked convex polygon, counter-clockwise; corners given clockwise are turned round.
 *
 * @param corners - at least three, in turn, convex, of some area
 * @throws RangeError when the corners are too few, not finite, in one line, or not convex
 * @example convexPolygon([point(0, 0), point(0, 1), point(1, 0)])[1] // {"x":1,"y":0}
 */
export function convexPolygon(corners: readonly Point[]): Polygon {
  if (corners.length < 3) throw new RangeError(`a polygon needs three corners, not ${corners.length}`);
  if (!corners.every(({ x, y }) => Number.isFinite(x) && Number.isFinite(y)))
    throw new RangeError("a corner is not finite");
  const turns = corners.map((p, i) => turnOf(p, at(corners, i + 1), at(corners, i + 2)));
  const way = Math.sign(turns.reduce((sum, t) => sum + t, 0));
  if (way === 0 || turns.some((t) => t * way < 0)) throw new RangeError("the corners are in one line or not convex");
  // Going round more than once also keeps turning one way; the directions of the sides then add up to more than one turn.
  const around = corners.reduce((sum, p, i) => {
    const [q, r] = [at(corners, i + 1), at(corners, i + 2)];
    return sum + Math.atan2(turnOf(p, q, r), (q.x - p.x) * (r.x - q.x) + (q.y - p.y) * (r.y - q.y));
  }, 0);
  if (Math.abs(Math.abs(around) - 2 * Math.PI) > 1e-6) throw new RangeError("the corners go round more than once");
  return way > 0 ? corners : [corners[0]!, ...corners.slice(1).reverse()];
}

function at(corners: readonly Point[], i: number): Point {
  return corners[i % corners.length]!;
}

/**
 * The corners of a box, counter-clockwise from the front left.
 *
 * @param box - sides along x and y [m]
 * @example boxPolygon(box(0, 0, 2, 1)).length // 4
 */
export function boxPolygon({ left, right, front, back }: Box): Polygon {
  return [point(left, front), point(right, front), point(right, back), point(left, back)];
}

/**
 * A rectangle that may stand at an angle, by its middle, sides and heading.
 *
 * @param middle - its middle [m]
 * @param width - side along the heading, above 0 [m]
 * @param depth - the other side, above 0 [m]
 * @param heading - from +x towards +y [rad]
 * @example turnedRectangle(point(1, 1), 2, 1, 0)[0] // {"x":0,"y":0.5}
 */
export function turnedRectangle(middle: Point, width: Length, depth: Length, heading: Angle): Polygon {
  if (!(width > 0 && depth > 0)) throw new RangeError(`a rectangle of ${width} m by ${depth} m is none`);
  const [c, s] = [Math.cos(heading), Math.sin(heading)];
  const corner = (u: number, v: number) =>
    point(middle.x + (u * width * c - v * depth * s) / 2, middle.y + (u * width * s + v * depth * c) / 2);
  return [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
}

/**
 * The sides of a polygon in turn.
 *
 * @param polygon - the corners
 * @example polygonSides(boxPolygon(box(0, 0, 2, 1)))[0] // {"from":{"x":0,"y":0},"to":{"x":2,"y":0}}
 */
export function polygonSides(polygon: Polygon): Segment[] {
  return polygon.map((from, i) => ({ from, to: at(polygon, i + 1) }));
}

/**
 * Area of a polygon [m²]; positive for corners given counter-clockwise.
 *
 * @param polygon - the corners
 * @example polygonArea(boxPolygon(box(5, 5, 2, 1))) // 2
 */
export function polygonArea(polygon: Polygon): Area {
  const first = polygon[0];
  if (first === undefined) return brand<"area">(0);
  return brand<"area">(polygon.reduce((sum, p, i) => sum + turnOf(first, p, at(polygon, i + 1)), 0) / 2);
}

/**
 * Whether a point is in a convex polygon, its sides included.
 *
 * @param polygon - counter-clockwise
 * @param p - the point
 * @example polygonContains(boxPolygon(box(0, 0, 2, 1)), point(2, 0.5)) // true
 */
export function polygonContains(polygon: Polygon, p: Point): boolean {
  return polygon.every((corner, i) => turnOf(corner, at(polygon, i + 1), p) >= 0);
}

/**
 * How deep two convex polygons are in each other [m]: the shortest shift that parts them; 0 or less when they are apart,
 * then minus the widest gap seen square to a side (at most the distance).
 *
 * By separating axes: two convex polygons are apart exactly when they are so seen along a normal of one of their sides.
 *
 * @param a - one, counter-clockwise
 * @param b - the other, counter-clockwise
 * @example penetration(boxPolygon(box(0, 0, 2, 2)), boxPolygon(box(1.5, 1, 2, 2))) // 0.5
 */
export function penetration(a: Polygon, b: Polygon): Length {
  return brand<"length">(-Math.max(widestGap(a, b), widestGap(b, a)));
}

/** Over the sides of `a`: the widest gap between that side and all of `b`; negative when each side cuts `b`. */
function widestGap(a: Polygon, b: Polygon): number {
  let widest = -Infinity;
  for (const [i, from] of a.entries()) {
    const to = at(a, i + 1);
    const length = Math.hypot(to.x - from.x, to.y - from.y);
    if (length === 0) continue;
    // The outer normal of a counter-clockwise side points to its right.
    const nx = (to.y - from.y) / length;
    const ny = (from.x - to.x) / length;
    let gap = Infinity;
    for (const p of b) gap = Math.min(gap, (p.x - from.x) * nx + (p.y - from.y) * ny);
    widest = Math.max(widest, gap);
  }
  return widest;
}

/**
 * Whether two convex polygons overlap by more than a touch ({@link TOUCH}).
 *
 * @param a - one, counter-clockwise
 * @param b - the other, counter-clockwise
 * @example polygonsOverlap(boxPolygon(box(0, 0, 1, 1)), boxPolygon(box(1, 0, 1, 1))) // false
 */
export function polygonsOverlap(a: Polygon, b: Polygon): boolean {
  return penetration(a, b) > TOUCH;
}

/**
 * Distance of two convex polygons [m]; 0 when they touch or overlap.
 *
 * @param a - one, counter-clockwise
 * @param b - the other, counter-clockwise
 * @example polygonDistance(boxPolygon(box(0, 0, 1, 1)), boxPolygon(box(4, 5, 1, 1))) // 5
 */
export function polygonDistance(a: Polygon, b: Polygon): Length {
  if (penetration(a, b) >= 0) return brand<"length">(0);
  let least = Infinity;
  for (const s of polygonSides(a)) for (const t of polygonSides(b)) least = Math.min(least, segmentDistance(s, t));
  return brand<"length">(least);
}

/**
 * The part of a convex polygon to the left of a directed line; empty when there is none.
 *
 * @param polygon - counter-clockwise
 * @param line - through `from` and `to`, two different points
 * @example polygonArea(leftOf(boxPolygon(box(0, 0, 2, 2)), { from: point(1, 0), to: point(1, 1) })) // 2
 */
export function leftOf(polygon: Polygon, line: Segment): Polygon {
  const kept: Point[] = [];
  for (const [i, p] of polygon.entries()) {
    const q = at(polygon, i + 1);
    const here = turnOf(line.from, line.to, p);
    const next = turnOf(line.from, line.to, q);
    if (here >= 0) kept.push(p);
    if (here > 0 !== next > 0 && here !== 0 && next !== 0) {
      const share = here / (here - next);
      kept.push(point(p.x + share * (q.x - p.x), p.y + share * (q.y - p.y)));
    }
  }
  return kept.length < 3 ? [] : kept;
}

/**
 * Area that two convex polygons share [m²].
 *
 * @param a - one, counter-clockwise
 * @param b - the other, counter-clockwise
 * @example sharedArea(boxPolygon(box(0, 0, 2, 2)), boxPolygon(box(1, 1, 2, 2))) // 1
 */
export function sharedArea(a: Polygon, b: Polygon): Area {
  return polygonArea(polygonSides(b).reduce<Polygon>(leftOf, a));
}
