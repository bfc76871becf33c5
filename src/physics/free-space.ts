/** Where a thing can stand among others: free positions along a wall, and in a plan. */

import type { Length } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { type Box, TOUCH } from "./plane.js";

/** A range along a line, ends included [m]. */
export interface Span {
  readonly from: Length;
  readonly to: Length;
}

/** Brings values that are within a touch of each other to one value, so that an exact fit stays a fit. */
function snapping(values: readonly number[]): (value: number) => number {
  const sorted = [...values].sort((a, b) => a - b);
  const snapped = new Map<number, number>();
  let base = -Infinity;
  for (const value of sorted) {
    if (value - base > TOUCH) base = value;
    snapped.set(value, base);
  }
  return (value) => snapped.get(value)!;
}

/** The closed rest of [from, to] after open ranges are taken out, in order; single points included. */
function rest(from: number, to: number, taken: readonly (readonly [number, number])[]): [number, number][] {
  const free: [number, number][] = [];
  let start = from;
  for (const [a, b] of [...taken].sort((p, q) => p[0] - q[0])) {
    if (a >= b || b <= start) continue;
    if (a > to) break;
    if (a >= start) free.push([start, a]);
    start = b;
  }
  if (start <= to) free.push([start, to]);
  return free;
}

/**
 * Where a thing of some size fits between others along a line: ranges for its lower end [m], in order. A range of no length
 * is an exact fit.
 *
 * @param size - above 0 [m]; add clearances to it or to what is in the way
 * @param room - the whole line [m]
 * @param blocked - what is in the way, in any order, overlapping or not [m]
 * @example freeSpans(0.7, { from: 0, to: 3 }, [{ from: 1, to: 1.5 }]) // [{"from":0,"to":0.3},{"from":1.5,"to":2.3}]
 */
export function freeSpans(size: Length, room: Span, blocked: readonly Span[]): Span[] {
  if (!(size > 0 && size < Infinity)) throw new RangeError(`a size of ${size} m is none`);
  for (const { from, to } of [room, ...blocked])
    if (!(to >= from)) throw new RangeError(`a span from ${from} m to ${to} m is none`);
  const low = room.from;
  const high = room.to - size;
  const shifted = blocked.map(({ from, to }) => [from - size, to] as const);
  const snap = snapping([low, high, ...shifted.flat()]);
  return rest(
    snap(low),
    snap(high),
    shifted.map(([a, b]) => [snap(a), snap(b)]),
  ).map(([from, to]) => ({ from: brand<"length">(from), to: brand<"length">(to) }));
}

/**
 * Where a rectangle fits among others in a plan without being turned: the largest boxes of places for its left front corner
 * [m], by left side, then front. They overlap; together they are all free places. A box without width or depth is an exact
 * fit along that side.
 *
 * Each obstacle grows by the rectangle's size to the left and to the front; the rectangle then is a point outside all of
 * them. For a turned one, ask again with width and depth exchanged.
 *
 * @param width - along x, above 0 [m]
 * @param depth - along y, above 0 [m]
 * @param room - inside walls [m]
 * @param blocked - obstacles with their clearances [m]
 * @example freePlaces(1, 1, box(0, 0, 3, 1), [box(0, 0, 1, 1)]) // [{"left":1,"right":2,"front":0,"back":0}]
 */
export function freePlaces(width: Length, depth: Length, room: Box, blocked: readonly Box[]): Box[] {
  if (!(width > 0 && depth > 0 && Number.isFinite(width + depth)))
    throw new RangeError(`a size of ${width} m by ${depth} m is none`);
  for (const { left, right, front, back } of [room, ...blocked]) {
    if (!(right >= left && back >= front)) throw new RangeError("a box is inside out or not a number");
  }
  const grown = [
    { left: room.left, right: room.right - width, front: room.front, back: room.back - depth },
    ...blocked.map((b) => ({ left: b.left - width, right: b.right, front: b.front - depth, back: b.back })),
  ];
  const snapX = snapping(grown.flatMap((b) => [b.left, b.right]));
  const snapY = snapping(grown.flatMap((b) => [b.front, b.back]));
  const [inside, ...taken] = grown.map((b) => ({
    left: snapX(b.left),
    right: snapX(b.right),
    front: snapY(b.front),
    back: snapY(b.back),
  }));
  const { left: west, right: east, front: south, back: north } = inside!;
  if (west > east || south > north) return [];

  const inRange = (x: number) => x >= west && x <= east;
  const lefts = [...new Set([west, ...taken.map((o) => o.right)])].filter(inRange).sort((a, b) => a - b);
  const rights = [...new Set([east, ...taken.map((o) => o.left)])].filter(inRange).sort((a, b) => a - b);
  const places: Box[] = [];
  for (const left of lefts) {
    for (const right of rights) {
      if (right < left) continue;
      const across = taken.filter((o) => o.left < right && o.right > left && o.left < o.right);
      for (const [front, back] of rest(
        south,
        north,
        across.map((o) => [o.front, o.back]),
      )) {
        const meets = (o: (typeof taken)[number]) => o.front < back && o.back > front && o.front < o.back;
        const stopsLeft = left === west || taken.some((o) => o.right === left && o.left < o.right && meets(o));
        const stopsRight = right === east || taken.some((o) => o.left === right && o.left < o.right && meets(o));
        if (!stopsLeft || !stopsRight) continue;
        places.push({
          left: brand<"length">(left),
          right: brand<"length">(right),
          front: brand<"length">(front),
          back: brand<"length">(back),
        });
      }
    }
  }
  return places.sort((a, b) => a.left - b.left || a.front - b.front || a.right - b.right);
}
