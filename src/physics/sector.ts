/** Sectors of a circle: the floor that a door sweeps. */

import type { Angle, Area, Length } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import {
  nearestOnSegment,
  type Point,
  point,
  pointDistance,
  pointSegmentDistance,
  type Segment,
  segmentDistance,
} from "./plane.js";
import { leftOf, type Polygon, polygonContains, polygonSides } from "./polygon.js";

/** A sector of a circle. */
export interface Sector {
  /** The tip: the hinge of a door. */
  readonly centre: Point;
  /** Above 0 [m]. */
  readonly radius: Length;
  /** Heading of the first edge, from +x towards +y [rad]. */
  readonly from: Angle;
  /** How far it goes round from there towards +y, above 0 and at most π [rad]. */
  readonly sweep: Angle;
}

function requireSector({ radius, sweep, from, centre }: Sector): void {
  if (!(radius > 0 && Number.isFinite(radius + from + centre.x + centre.y)))
    throw new RangeError(`a sector of radius ${radius} m is none`);
  if (!(sweep > 0 && sweep <= Math.PI)) throw new RangeError(`a sweep of ${sweep} rad is not above 0 and at most π`);
}

/** An angle brought to 0 up to 2π. */
function turned(angle: number): number {
  const rest = angle % (2 * Math.PI);
  return rest < 0 ? rest + 2 * Math.PI : rest;
}

function facing({ centre, from, sweep }: Sector, p: Point): boolean {
  const ahead = turned(Math.atan2(p.y - centre.y, p.x - centre.x) - from);
  return ahead <= sweep;
}

function arcPoint({ centre, radius }: Sector, heading: number): Point {
  return point(centre.x + radius * Math.cos(heading), centre.y + radius * Math.sin(heading));
}

function edges(sector: Sector): readonly [Segment, Segment] {
  const { centre, from, sweep } = sector;
  return [
    { from: centre, to: arcPoint(sector, from) },
    { from: centre, to: arcPoint(sector, from + sweep) },
  ];
}

/**
 * Area of a sector [m²]: θ·R²/2.
 *
 * @param sector - the sector
 * @example sectorArea({ centre: point(0, 0), radius: 30, from: 0, sweep: Math.PI / 2 }) // 706.8583
 */
export function sectorArea(sector: Sector): Area {
  requireSector(sector);
  return brand<"area">((sector.sweep * sector.radius ** 2) / 2);
}

/**
 * Distance of a point from a sector [m]; 0 inside.
 *
 * @param sector - the sector
 * @param p - the point
 * @example sectorPointDistance({ centre: point(0, 0), radius: 5, from: 0, sweep: Math.PI / 2 }, point(6, 8)) // 5
 */
export function sectorPointDistance(sector: Sector, p: Point): Length {
  requireSector(sector);
  const away = pointDistance(sector.centre, p);
  if (away === 0) return brand<"length">(0);
  if (facing(sector, p)) return brand<"length">(Math.max(0, away - sector.radius));
  const [one, two] = edges(sector);
  return brand<"length">(Math.min(pointSegmentDistance(p, one), pointSegmentDistance(p, two)));
}

/** Distance of a sector from a segment; 0 when they meet. */
function sectorSegmentDistance(sector: Sector, segment: Segment): number {
  const [one, two] = edges(sector);
  // The arc is nearest either to an end of the segment or to the point of it nearest to the centre.
  return Math.min(
    sectorPointDistance(sector, segment.from),
    sectorPointDistance(sector, segment.to),
    sectorPointDistance(sector, nearestOnSegment(sector.centre, segment)),
    segmentDistance(one, segment),
    segmentDistance(two, segment),
  );
}

/**
 * Distance of a sector from a convex polygon [m]; 0 when they touch or overlap.
 *
 * @param sector - the sector
 * @param polygon - counter-clockwise
 * @example sectorPolygonDistance({ centre: point(0, 0), radius: 28, from: 0, sweep: Math.PI / 2 }, boxPolygon(box(20, 24, 30, 26))) // 3.2410
 */
export function sectorPolygonDistance(sector: Sector, polygon: Polygon): Length {
  requireSector(sector);
  if (polygonContains(polygon, sector.centre)) return brand<"length">(0);
  return brand<"length">(Math.min(...polygonSides(polygon).map((side) => sectorSegmentDistance(sector, side))));
}

/**
 * Area that a sector shares with a convex polygon [m²].
 *
 * The polygon is cut to the wedge between the edges; each side of what is left then adds a triangle where it runs inside the
 * circle and a piece of the circle where it runs outside.
 *
 * @param sector - the sector
 * @param polygon - counter-clockwise
 * @example sectorSharedArea({ centre: point(0, 0), radius: 30, from: 0, sweep: Math.PI / 2 }, boxPolygon(box(25, 10, 30, 30))) // 11.921
 */
export function sectorSharedArea(sector: Sector, polygon: Polygon): Area {
  requireSector(sector);
  const [one, two] = edges(sector);
  const wedge = leftOf(leftOf(polygon, one), { from: two.to, to: two.from });
  const { centre, radius } = sector;
  let twice = 0;
  for (const { from, to } of polygonSides(wedge)) {
    twice += twiceInCircle(from.x - centre.x, from.y - centre.y, to.x - centre.x, to.y - centre.y, radius);
  }
  return brand<"area">(Math.max(0, twice / 2));
}

/** Twice the signed area that the triangle from the origin to a side shares with a circle round the origin. */
function twiceInCircle(ax: number, ay: number, bx: number, by: number, r: number): number {
  const [dx, dy] = [bx - ax, by - ay];
  const square = dx * dx + dy * dy;
  const pie = (px: number, py: number, qx: number, qy: number) =>
    r * r * Math.atan2(px * qy - py * qx, px * qx + py * qy);
  if (square === 0) return 0;
  // The side's line is within the circle for shares between middle − half and middle + half.
  const middle = -(ax * dx + ay * dy) / square;
  const under = middle * middle - (ax * ax + ay * ay - r * r) / square;
  const half = under > 0 ? Math.sqrt(under) : 0;
  const start = Math.max(0, middle - half);
  const end = Math.min(1, middle + half);
  if (under <= 0 || start >= end) return pie(ax, ay, bx, by);
  const [sx, sy] = start === 0 ? [ax, ay] : [ax + start * dx, ay + start * dy];
  const [ex, ey] = end === 1 ? [bx, by] : [ax + end * dx, ay + end * dy];
  return (start === 0 ? 0 : pie(ax, ay, sx, sy)) + (sx * ey - sy * ex) + (end === 1 ? 0 : pie(ex, ey, bx, by));
}

/**
 * Whether two sectors have a point in common, edges included: two doors with thin leaves that can strike each other.
 *
 * Radii that add up to the distance of the centres or more are needed for it, but not enough.
 *
 * @param a - one sector
 * @param b - the other
 * @example sectorsMeet({ centre: point(0, 0), radius: 1, from: 0, sweep: 1.57 }, { centre: point(3, 0), radius: 1.5, from: 1.57, sweep: 1.57 }) // false
 */
export function sectorsMeet(a: Sector, b: Sector): boolean {
  requireSector(a);
  requireSector(b);
  if (sectorPointDistance(a, b.centre) === 0 || sectorPointDistance(b, a.centre) === 0) return true;
  if (edges(a).some((edge) => sectorSegmentDistance(b, edge) === 0)) return true;
  if (edges(b).some((edge) => sectorSegmentDistance(a, edge) === 0)) return true;
  return arcsMeet(a, b);
}

/** Whether the arcs of two sectors cross or touch. */
function arcsMeet(a: Sector, b: Sector): boolean {
  const away = pointDistance(a.centre, b.centre);
  if (away === 0 || away > a.radius + b.radius || away < Math.abs(a.radius - b.radius)) return false;
  const along = (away * away + a.radius ** 2 - b.radius ** 2) / (2 * away);
  const side = Math.sqrt(Math.max(0, a.radius ** 2 - along * along));
  const [ux, uy] = [(b.centre.x - a.centre.x) / away, (b.centre.y - a.centre.y) / away];
  return [side, -side].some((s) => {
    const p = point(a.centre.x + along * ux - s * uy, a.centre.y + along * uy + s * ux);
    return facing(a, p) && facing(b, p);
  });
}
