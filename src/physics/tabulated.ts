/** Reading between the points of a published table. Internal to the physics folder. */
import { requireWithin } from "./domain.js";

/** Points of a table, by rising x. */
export type Points = readonly (readonly [x: number, y: number])[];

/**
 * y at x on straight lines between the points; at a point, that point's y. Throws a RangeError beyond the ends:
 * a table says nothing there.
 */
export function interpolated(what: string, points: Points, x: number): number {
  const [first, last] = [points[0]!, points.at(-1)!];
  requireWithin(what, x, first[0], last[0]);
  const right = points.findIndex(([px]) => px >= x);
  if (right <= 0) return right === 0 ? first[1] : last[1];
  const [x1, y1] = points[right]!;
  if (x === x1) return y1;
  const [x0, y0] = points[right - 1]!;
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
}
