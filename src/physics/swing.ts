/** A door leaf of real thickness swinging among obstacles, in plan (or, for a drop-down door, from the side). */

import type { Angle, Length } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { type Point, point, TOUCH } from "./plane.js";
import { type Polygon, penetration } from "./polygon.js";
import type { Sector } from "./sector.js";

/** A hinged leaf. Closed, it runs from the hinge along `closed`; it opens round the hinge. */
export interface Leaf {
  /** The pin of the hinge. */
  readonly hinge: Point;
  /** Heading of the closed leaf, from +x towards +y [rad]. */
  readonly closed: Angle;
  /** Which way it opens: 1 from +x towards +y (counter-clockwise from above), −1 the other way. */
  readonly way: 1 | -1;
  /** From the pin to the far edge, above 0 [m]. */
  readonly length: Length;
  /** Thickness on the side the leaf opens to, from the pin, at least 0 [m]. A bulge or knob counts here. */
  readonly ahead: Length;
  /** Thickness on the other side of the pin, at least 0 [m]. Butt hinges have it all here. */
  readonly behind: Length;
  /** How far it opens, above 0 and below 2π [rad]. */
  readonly opening: Angle;
}

function requireLeaf({ length, ahead, behind, opening, closed, hinge }: Leaf): void {
  if (
    !(length > 0 && ahead >= 0 && behind >= 0 && Number.isFinite(length + ahead + behind + closed + hinge.x + hinge.y))
  ) {
    throw new RangeError(`a leaf of ${length} m with ${ahead} m and ${behind} m of thickness is none`);
  }
  if (!(opening > 0 && opening < 2 * Math.PI))
    throw new RangeError(`an opening of ${opening} rad is not between 0 and 2π`);
}

/**
 * The outline of a leaf opened by an angle.
 *
 * @param leaf - the leaf
 * @param opened - 0 when closed [rad]
 * @example leafOutline({ hinge: point(0, 0), closed: 0, way: 1, length: 0.8, ahead: 0, behind: 0.04, opening: 1.57 }, 0)[1] // {"x":0.8,"y":-0.04}
 */
export function leafOutline(leaf: Leaf, opened: Angle): Polygon {
  requireLeaf(leaf);
  const heading = leaf.closed + leaf.way * opened;
  const [c, s] = [Math.cos(heading), Math.sin(heading)];
  const corner = (along: number, across: number) =>
    point(leaf.hinge.x + along * c - across * s, leaf.hinge.y + along * s + across * c);
  const [high, low] = leaf.way === 1 ? [leaf.ahead, -leaf.behind] : [leaf.behind, -leaf.ahead];
  return [corner(0, low), corner(leaf.length, low), corner(leaf.length, high), corner(0, high)];
}

/**
 * The sector that holds everything a leaf sweeps: radius to its farthest corner, R = √(r² + t²), and as far round as that
 * corner reaches on either side. For a thin leaf, exactly what it sweeps.
 *
 * @param leaf - one that with its corners sweeps at most half a turn
 * @example leafEnvelope({ hinge: point(0, 0), closed: 0, way: 1, length: 28, ahead: 1.375, behind: 0, opening: 1.5 }).radius // 28.03374
 */
export function leafEnvelope(leaf: Leaf): Sector {
  requireLeaf(leaf);
  const lead = Math.atan2(leaf.ahead, leaf.length);
  const lag = Math.atan2(leaf.behind, leaf.length);
  const sweep = leaf.opening + lead + lag;
  if (sweep > Math.PI) throw new RangeError(`a leaf that sweeps ${sweep} rad has no envelope of half a turn`);
  return {
    centre: leaf.hinge,
    radius: brand<"length">(Math.hypot(leaf.length, Math.max(leaf.ahead, leaf.behind))),
    from: brand<"angle">(leaf.way === 1 ? leaf.closed - lag : leaf.closed - leaf.opening - lead),
    sweep: brand<"angle">(sweep),
  };
}

/**
 * How far a leaf opens before it strikes something [rad]; its whole opening when nothing is in the way.
 *
 * Exact: contact can only begin where a corner of the leaf meets a side of an obstacle or a corner of an obstacle meets a
 * side of the leaf. All such angles are computed in closed form; between two neighbours the leaf overlaps either
 * throughout or never. Touching (within {@link TOUCH}) is not striking. 0 when the leaf overlaps an obstacle as it begins to open.
 *
 * @param leaf - the leaf
 * @param obstacles - convex polygons, counter-clockwise
 * @example freeOpening({ hinge: point(0, 0), closed: 0, way: 1, length: 28, ahead: 1.375, behind: 0, opening: 1.5 }, [boxPolygon(box(-50, 26, 100, 10))]) // 1.138477
 */
export function freeOpening(leaf: Leaf, obstacles: readonly Polygon[]): Angle {
  requireLeaf(leaf);
  let free: number = leaf.opening;
  for (const obstacle of obstacles) free = Math.min(free, firstStrike(leaf, obstacle, free));
  return brand<"angle">(free);
}

/**
 * Whether a leaf can open all the way without striking an obstacle; touching is not striking.
 *
 * @param leaf - the leaf
 * @param obstacles - convex polygons, counter-clockwise
 * @example swingsFree({ hinge: point(0, 0), closed: 0, way: 1, length: 0.6, ahead: 0, behind: 0.02, opening: 1.57 }, [boxPolygon(box(0.7, 0, 1, 1))]) // true
 */
export function swingsFree(leaf: Leaf, obstacles: readonly Polygon[]): boolean {
  return freeOpening(leaf, obstacles) === leaf.opening;
}

/** The opening at which a leaf begins to overlap an obstacle, or `until`. */
function firstStrike(leaf: Leaf, obstacle: Polygon, until: number): number {
  const farthest = Math.hypot(leaf.length, Math.max(leaf.ahead, leaf.behind));
  // The obstacle as the closed leaf sees it: hinge at the origin, leaf along +x, opening towards +y.
  const [c, s] = [Math.cos(leaf.closed), Math.sin(leaf.closed)];
  const seen = obstacle.map(({ x, y }) => {
    const [dx, dy] = [x - leaf.hinge.x, y - leaf.hinge.y];
    return [dx * c + dy * s, leaf.way * (dy * c - dx * s)] as const;
  });

  const angles = [0, until];
  const add = (angle: number) => {
    const turn = 2 * Math.PI;
    const opened = ((angle % turn) + turn) % turn;
    if (opened > 0 && opened < until) angles.push(opened);
  };
  const corners = [
    [0, leaf.ahead],
    [0, -leaf.behind],
    [leaf.length, leaf.ahead],
    [leaf.length, -leaf.behind],
  ] as const;
  for (const [i, [px, py]] of seen.entries()) {
    // A corner of the obstacle on a side of the leaf.
    const away = Math.hypot(px, py);
    const heading = Math.atan2(py, px);
    if (away <= farthest + TOUCH) {
      for (const height of [leaf.ahead, -leaf.behind]) {
        const angle = Math.asin(Math.max(-1, Math.min(1, height / away)));
        add(heading - angle);
        add(heading - (Math.PI - angle));
      }
      for (const along of [0, leaf.length]) {
        const angle = Math.acos(Math.max(-1, Math.min(1, along / away)));
        add(heading - angle);
        add(heading + angle);
      }
    }
    // A corner of the leaf on the line of a side of the obstacle.
    const [qx, qy] = seen[(i + 1) % seen.length]!;
    const length = Math.hypot(qx - px, qy - py);
    if (length === 0) continue;
    const [nx, ny] = [(qy - py) / length, (px - qx) / length];
    const off = px * nx + py * ny;
    const normal = Math.atan2(ny, nx);
    for (const [ux, uy] of corners) {
      const reach = Math.hypot(ux, uy);
      if (reach < Math.abs(off)) continue;
      const half = reach === 0 ? 0 : Math.acos(off / reach);
      const own = Math.atan2(uy, ux);
      add(normal + half - own);
      add(normal - half - own);
    }
  }
  angles.sort((a, b) => a - b);
  for (let i = 0; i + 1 < angles.length; i++) {
    const [from, to] = [angles[i]!, angles[i + 1]!];
    const between = leafOutline(leaf, brand<"angle">((from + to) / 2));
    if (penetration(between, obstacle) > TOUCH) return from;
  }
  return until;
}
