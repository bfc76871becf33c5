/** Points, segments and boxes in the plane. */

import type { Length } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";

/** A point in the plane; in a plan view x runs to the right and y to the back [m]. */
export interface Point {
  readonly x: Length;
  readonly y: Length;
}

/** A straight piece between two points. */
export interface Segment {
  readonly from: Point;
  readonly to: Point;
}

/** A rectangle whose sides run along x and y, from its low corner to its high corner [m]. */
export interface Box {
  readonly left: Length;
  readonly right: Length;
  readonly front: Length;
  readonly back: Length;
}

/**
 * Lengths closer than this count as touching, not as overlapping [m]: a nanometre is far below any tape and far above
 * the rounding of a unit conversion, so a machine exactly as wide as its gap fits.
 */
export const TOUCH = 1e-9;

/**
 * A point from plain coordinates [m].
 *
 * @param x - to the right [m]
 * @param y - to the back [m]
 * @example point(1, 2) // {"x":1,"y":2}
 */
export function point(x: number, y: number): Point {
  return { x: brand<"length">(x), y: brand<"length">(y) };
}

/**
 * A box from its low corner and its sides [m].
 *
 * @param left - x of the left side
 * @param front - y of the front side
 * @param width - along x, at least 0
 * @param depth - along y, at least 0
 * @example box(1, 2, 0.5, 0.25) // {"left":1,"right":1.5,"front":2,"back":2.25}
 */
export function box(left: number, front: number, width: number, depth: number): Box {
  if (!(width >= 0 && depth >= 0)) throw new RangeError(`a box of ${width} m by ${depth} m is none`);
  return {
    left: brand<"length">(left),
    right: brand<"length">(left + width),
    front: brand<"length">(front),
    back: brand<"length">(front + depth),
  };
}

/**
 * Distance of two points [m].
 *
 * @param a - one point
 * @param b - the other
 * @example pointDistance(point(0, 0), point(3, 4)) // 5
 */
export function pointDistance(a: Point, b: Point): Length {
  return brand<"length">(Math.hypot(b.x - a.x, b.y - a.y));
}

/**
 * The point of a segment that is nearest to a point.
 *
 * @param p - the point
 * @param segment - may have no length
 * @example nearestOnSegment(point(1, 1), { from: point(0, 0), to: point(4, 0) }) // {"x":1,"y":0}
 */
export function nearestOnSegment(p: Point, { from, to }: Segment): Point {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const square = dx * dx + dy * dy;
  if (square === 0) return from;
  const share = Math.min(1, Math.max(0, ((p.x - from.x) * dx + (p.y - from.y) * dy) / square));
  return share === 1 ? to : point(from.x + share * dx, from.y + share * dy);
}

/**
 * Distance of a point from a segment [m].
 *
 * @param p - the point
 * @param segment - may have no length
 * @example pointSegmentDistance(point(7, 4), { from: point(0, 0), to: point(4, 0) }) // 5
 */
export function pointSegmentDistance(p: Point, segment: Segment): Length {
  return pointDistance(p, nearestOnSegment(p, segment));
}

/**
 * Twice the signed area of a triangle [m²]: positive when a, b, c turn to the left.
 *
 * @param a - first corner
 * @param b - second corner
 * @param c - third corner
 * @example turnOf(point(0, 0), point(2, 0), point(0, 3)) // 6
 */
export function turnOf(a: Point, b: Point, c: Point): number {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/**
 * Whether two segments have a point in common, ends included.
 *
 * @param a - one segment
 * @param b - the other
 * @example segmentsMeet({ from: point(0, 0), to: point(2, 2) }, { from: point(0, 2), to: point(2, 0) }) // true
 */
export function segmentsMeet(a: Segment, b: Segment): boolean {
  const crosses = (s: Segment, t: Segment) => {
    const one = turnOf(s.from, s.to, t.from);
    const two = turnOf(s.from, s.to, t.to);
    return (one > 0 && two < 0) || (one < 0 && two > 0);
  };
  if (crosses(a, b) && crosses(b, a)) return true;
  return (
    pointSegmentDistance(a.from, b) === 0 ||
    pointSegmentDistance(a.to, b) === 0 ||
    pointSegmentDistance(b.from, a) === 0 ||
    pointSegmentDistance(b.to, a) === 0
  );
}

/**
 * Distance of two segments [m]; 0 when they meet.
 *
 * @param a - one segment
 * @param b - the other
 * @example segmentDistance({ from: point(0, 0), to: point(4, 0) }, { from: point(1, 2), to: point(1, 5) }) // 2
 */
export function segmentDistance(a: Segment, b: Segment): Length {
  if (segmentsMeet(a, b)) return brand<"length">(0);
  return brand<"length">(
    Math.min(
      pointSegmentDistance(a.from, b),
      pointSegmentDistance(a.to, b),
      pointSegmentDistance(b.from, a),
      pointSegmentDistance(b.to, a),
    ),
  );
}
