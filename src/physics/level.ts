/** Four screw feet under a rigid machine: rock, slope, and how far each foot has to go. */

import type { Angle, Length, Slope } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { leastCost } from "./linear-program.js";

const m = (value: number): Length => brand<"length">(value);

/**
 * One thing for each foot, numbered round the rectangle as seen from above: front left, front right, back right, back
 * left. Numbering row by row instead would pair the wrong feet in every formula here.
 */
export type FourFeet<T> = readonly [T, T, T, T];

/** A foot by its number: 1 front left, 2 front right, 3 back right, 4 back left. */
export type FootNumber = 1 | 2 | 3 | 4;

/** Distances between the feet, centre to centre [m]. */
export interface FeetBase {
  /** From left to right, above 0. */
  readonly width: Length;
  /** From front to back, above 0. */
  readonly depth: Length;
}

/** The slope of a machine's body. */
export interface BodySlope {
  /** Left to right [m/m]; positive when the right side is high. */
  readonly across: Slope;
  /** Front to back [m/m]; positive when the back is high. */
  readonly back: Slope;
}

/** How far a foot can be screwed, as extension below the body [m]. */
export interface FootTravel {
  /** Least extension: screwed fully in. */
  readonly least: Length;
  /** Greatest extension that leaves enough thread engaged. */
  readonly most: Length;
}

/** Lengths closer than this are the same [m]: far below any gauge, far above the rounding of a unit conversion. */
const SAME = 1e-9;

const signs: FourFeet<1 | -1> = [1, -1, 1, -1];

/** Where the feet stand from the middle: x to the right, y to the back [m]. */
function footPlaces({ width, depth }: FeetBase): FourFeet<readonly [number, number]> {
  if (!(width > 0 && depth > 0 && Number.isFinite(width + depth))) {
    throw new RangeError(`feet ${width} m by ${depth} m apart span no rectangle`);
  }
  return [
    [-width / 2, -depth / 2],
    [width / 2, -depth / 2],
    [width / 2, depth / 2],
    [-width / 2, depth / 2],
  ];
}

function requireFinite(values: FourFeet<number>, what: string): void {
  if (values.length !== 4 || !values.every(Number.isFinite))
    throw new RangeError(`${what}: needs four finite lengths, got ${values}`);
}

function requireTravel({ least, most }: FootTravel): void {
  if (!(least >= 0 && most >= least && most < Infinity))
    throw new RangeError(`foot travel from ${least} m to ${most} m is none`);
}

const each = <T>(make: (foot: 0 | 1 | 2 | 3) => T): FourFeet<T> => [make(0), make(1), make(2), make(3)];

/**
 * Twist of four heights [m]: how far they are from lying in one plane.
 *
 * k = (z₁ + z₃) − (z₂ + z₄). Zero when the four are coplanar. On equal legs the free foot hangs |k| above the floor, and
 * the pair with the larger sum carries.
 *
 * @param heights - of the floor under the feet, or of the feet, round the rectangle [m]
 * @example twist([0, 0.003, 0.001, 0.002]) // -0.004
 */
export function twist(heights: FourFeet<Length>): Length {
  requireFinite(heights, "twist");
  return m(heights[0] - heights[1] + (heights[2] - heights[3]));
}

/** The best plane through four heights at the corners of a rectangle. */
export interface FootPlane extends BodySlope {
  /** Height in the middle of the rectangle [m]. */
  readonly middle: Length;
  /** Height of each foot above the plane [m]: ± a quarter of the twist, alternating. */
  readonly residuals: FourFeet<Length>;
}

/**
 * The plane that fits the heights at four feet best, by least squares and by largest error alike.
 *
 * across = [(z₂ + z₃) − (z₁ + z₄)]/(2W), back = [(z₃ + z₄) − (z₁ + z₂)]/(2D), residuals ±k/4. Small residuals hide rock:
 * the gap under a free foot is all of k.
 *
 * @param heights - round the rectangle [m]
 * @param base - distances between the feet [m]
 * @example footPlane([0, 0.003, 0.001, 0.002], { width: 0.6, depth: 0.55 }).across // 0.0016667
 */
export function footPlane(heights: FourFeet<Length>, base: FeetBase): FootPlane {
  footPlaces(base);
  const quarter = twist(heights) / 4;
  const [z1, z2, z3, z4] = heights;
  return {
    across: brand<"slope">((z2 - z1 + (z3 - z4)) / (2 * base.width)),
    back: brand<"slope">((z4 - z1 + (z3 - z2)) / (2 * base.depth)),
    middle: m((z1 + z2 + z3 + z4) / 4),
    residuals: each((i) => m(signs[i] * quarter)),
  };
}

/** One of the ways a rigid machine can stand on three feet. */
export interface RestState extends BodySlope {
  /** The foot that hangs free. */
  readonly free: FootNumber;
  /** Its gap to the floor [m]. */
  readonly gap: Length;
}

/**
 * The two states in which a rigid machine can rest on four heights; none when they are coplanar and all feet bear.
 *
 * The diagonal pair with the larger sum carries; either of the other two feet bears and the last one hangs |k| free.
 * Which state it takes depends on where its weight is; exactly over the diagonal it rocks under any touch.
 *
 * @param heights - to which floor and foot carry each corner, round the rectangle [m]
 * @param base - distances between the feet [m]
 * @example restStates([0, 0.003, 0.001, 0.002], { width: 0.6, depth: 0.55 }).map((state) => state.free) // [1,3]
 */
export function restStates(heights: FourFeet<Length>, base: FeetBase): readonly RestState[] {
  const k = twist(heights);
  if (k === 0) return [];
  const places = footPlaces(base);
  const { across, back } = footPlane(heights, base);
  // The free corner is up: a plane through the other three differs from the best plane by |k|/(2W) and |k|/(2D).
  return (k > 0 ? ([2, 4] as const) : ([1, 3] as const)).map((free) => {
    const [x, y] = places[free - 1]!;
    const gap = Math.abs(k);
    return {
      free,
      gap: m(gap),
      across: brand<"slope">(across + (Math.sign(x) * gap) / (2 * base.width)),
      back: brand<"slope">(back + (Math.sign(y) * gap) / (2 * base.depth)),
    };
  });
}

/**
 * Angle through which a rigid machine rocks from one rest state to the other [rad].
 *
 * The angle between the two planes; for small slopes |k|/p, where p = W·D/√(W² + D²) is the distance of a free foot from
 * the carrying diagonal (dividing by the length of the diagonal is a common error).
 *
 * @param heights - round the rectangle [m]
 * @param base - distances between the feet [m]
 * @example rockAngle([0, 0.003, 0.001, 0.002], { width: 0.6, depth: 0.55 }) // 0.0098659
 */
export function rockAngle(heights: FourFeet<Length>, base: FeetBase): Angle {
  const [one, two] = restStates(heights, base);
  if (one === undefined || two === undefined) return brand<"angle">(0);
  // The normals are (−across, −back, 1); the sine of their angle from the cross product keeps small angles exact.
  const cross = Math.hypot(two.back - one.back, two.across - one.across, one.across * two.back - one.back * two.across);
  return brand<"angle">(Math.atan2(cross, one.across * two.across + one.back * two.back + 1));
}

/** A gap found under one foot while the slope was read. */
export interface FreeFoot {
  readonly foot: FootNumber;
  /** Gap between the foot and the floor, at least 0 [m]. */
  readonly gap: Length;
}

/**
 * Height to which floor and foot, as they are now, would carry each corner, from the middle of the body [m].
 *
 * sᵢ = across·xᵢ + back·yᵢ, less the gap under a foot that hangs free. A level shows the slope of the body only: rock has
 * to be found by hand and measured as the gap, in the same state in which the slope was read.
 *
 * @param base - distances between the feet [m]
 * @param slope - of the body, as read with a level [m/m]
 * @param free - the foot that does not bear, if any
 * @example carriedHeights({ width: 0.6, depth: 0.5 }, { across: 0.01, back: 0 }) // [-0.003,0.003,0.003,-0.003]
 */
export function carriedHeights(base: FeetBase, slope: BodySlope, free?: FreeFoot): FourFeet<Length> {
  const places = footPlaces(base);
  if (!Number.isFinite(slope.across) || !Number.isFinite(slope.back)) throw new RangeError("the slope is not finite");
  if (free !== undefined && !(free.gap >= 0 && free.gap < Infinity))
    throw new RangeError(`a gap of ${free.gap} m is none`);
  return each((i) => {
    const [x, y] = places[i];
    return m(slope.across * x + slope.back * y - (free?.foot === i + 1 ? free.gap : 0));
  });
}

/**
 * Height of the floor under each foot, from the same zero as the carried heights [m]: fᵢ = sᵢ − eᵢ.
 *
 * @param carried - height to which floor and foot carry each corner [m]
 * @param extensions - of the feet now [m]
 * @example floorHeights([0.01, 0.01, 0.012, 0.012], [0.01, 0.01, 0.01, 0.01]) // [0,0,0.002,0.002]
 */
export function floorHeights(carried: FourFeet<Length>, extensions: FourFeet<Length>): FourFeet<Length> {
  requireFinite(carried, "carried heights");
  requireFinite(extensions, "extensions");
  return each((i) => m(carried[i] - extensions[i]));
}

/** What decides the height at which a machine is set level. */
export type LevelAim = "lowest" | "leastTurn" | "fewestFeet";

/** A level body on four feet. */
export interface LevelStance {
  /** Height of the body, from the zero of the floor heights [m]. */
  readonly height: Length;
  /** How far each foot has to go [m]; positive when the foot goes out and its corner comes up. */
  readonly changes: FourFeet<Length>;
  /** Extension of each foot afterwards [m]. */
  readonly extensions: FourFeet<Length>;
  /** Largest of the changes, without sign [m]. */
  readonly largest: Length;
}

/**
 * How far each foot has to go to bring the body level; undefined when the travel is too short for this floor.
 *
 * Height Z, change δᵢ = Z − fᵢ − eᵢ. Possible when max f + least ≤ Z ≤ min f + most, so when the floor's range is within
 * the travel. `lowest`: Z = max f + least (the steadiest machine). `leastTurn`: Z halfway between the extremes of
 * f + e, brought inside the possible range. `fewestFeet`: Z where most feet already are, the lowest such one.
 *
 * @param floor - height of the floor under each foot, from any zero [m]
 * @param extensions - of the feet now [m]
 * @param travel - least and greatest extension [m]
 * @param aim - what decides the height
 * @example levelStance([0, 0.003, 0.008, 0.005], [0.01, 0.01, 0.01, 0.01], { least: 0, most: 0.025 }, "leastTurn").changes // [0.004,0.001,-0.004,-0.001]
 */
export function levelStance(
  floor: FourFeet<Length>,
  extensions: FourFeet<Length>,
  travel: FootTravel,
  aim: LevelAim,
): LevelStance | undefined {
  requireFinite(floor, "floor heights");
  requireFinite(extensions, "extensions");
  requireTravel(travel);
  const bottom = Math.max(...floor) + travel.least;
  const top = Math.min(...floor) + travel.most;
  if (bottom > top + SAME) return undefined;
  const carried = each((i) => floor[i] + extensions[i]);
  const inside = (z: number) => Math.max(bottom, Math.min(top, z));
  const height = ((): number => {
    if (aim === "lowest") return bottom;
    if (aim === "leastTurn") return inside((Math.min(...carried) + Math.max(...carried)) / 2);
    const kept = (z: number) => carried.filter((s) => Math.abs(s - z) <= SAME).length;
    const possible = carried.filter((s) => s >= bottom - SAME && s <= top + SAME).sort((a, b) => a - b);
    return (
      possible.reduce<number | undefined>(
        (best, z) => (best === undefined || kept(z) > kept(best) ? z : best),
        undefined,
      ) ?? bottom
    );
  })();
  const changes = each((i) => m(height - carried[i]));
  return {
    height: m(height),
    changes,
    extensions: each((i) => m(extensions[i] + changes[i])),
    largest: m(Math.max(...changes.map(Math.abs))),
  };
}

/** A body on four feet that is allowed a little slope. */
export interface SlopedStance extends LevelStance, BodySlope {}

/**
 * The least turning of feet that brings the body's slope within a limit on each axis; undefined when no setting does.
 *
 * Least largest |δᵢ| with δᵢ = Z + across·xᵢ + back·yᵢ − fᵢ − eᵢ, |across| and |back| ≤ limit, extensions within the
 * travel: a linear program in four unknowns. `height` is that of the middle of the body. The feet end up in one plane.
 *
 * @param floor - height of the floor under each foot, from any zero [m]
 * @param extensions - of the feet now [m]
 * @param travel - least and greatest extension [m]
 * @param base - distances between the feet [m]
 * @param limit - greatest slope allowed across, and greatest to the back, at least 0 [m/m]
 * @example slopedStance([0, 0.002, 0.002, 0], [0.01, 0.01, 0.01, 0.01], { least: 0, most: 0.02 }, { width: 0.5, depth: 0.5 }, { across: 0.002, back: 0.002 }).largest // 0.0005
 */
export function slopedStance(
  floor: FourFeet<Length>,
  extensions: FourFeet<Length>,
  travel: FootTravel,
  base: FeetBase,
  limit: BodySlope,
): SlopedStance | undefined {
  requireFinite(floor, "floor heights");
  requireFinite(extensions, "extensions");
  requireTravel(travel);
  const places = footPlaces(base);
  if (!(limit.across >= 0 && limit.back >= 0)) throw new RangeError("the slope limit must be at least 0");

  // Unknowns, all at least 0 and of the order of 1: rise across and to the back above the limits' lower ends, height
  // above a floor that no stance can be under, largest change; lengths are counted in the range of all lengths.
  const low = Math.min(...floor);
  const unit = Math.max(Math.max(...floor) - low, ...extensions.map(Math.abs), travel.most, SAME);
  const acrossMost = (limit.across * base.width) / 2 / unit;
  const backMost = (limit.back * base.depth) / 2 / unit;
  const zero = travel.least / unit - acrossMost - backMost;
  const conditions = [
    { row: [1, 0, 0, 0], most: 2 * acrossMost },
    { row: [0, 1, 0, 0], most: 2 * backMost },
  ];
  for (const [i, [x, y]] of places.entries()) {
    const [u, v] = [Math.sign(x), Math.sign(y)];
    const f = (floor[i]! - low) / unit;
    const e = extensions[i]! / unit;
    // Body height at the foot = u·(p − acrossMost) + v·(q − backMost) + r + zero.
    const fixed = zero - u * acrossMost - v * backMost;
    conditions.push(
      { row: [u, v, 1, -1], most: f + e - fixed },
      { row: [-u, -v, -1, -1], most: fixed - f - e },
      { row: [u, v, 1, 0], most: f + travel.most / unit - fixed },
      { row: [-u, -v, -1, 0], most: fixed - f - travel.least / unit },
    );
  }
  const found = leastCost([0, 0, 0, 1], conditions);
  if (found === undefined) return undefined;
  const [p, q, r, t] = found as [number, number, number, number];
  const across = ((p - acrossMost) * unit * 2) / base.width;
  const back = ((q - backMost) * unit * 2) / base.depth;
  const height = (r + zero) * unit + low;
  const changes = each((i) => m(height + across * places[i][0] + back * places[i][1] - floor[i] - extensions[i]));
  return {
    across: brand<"slope">(across),
    back: brand<"slope">(back),
    height: m(height),
    changes,
    extensions: each((i) => m(extensions[i] + changes[i])),
    largest: m(t * unit),
  };
}
