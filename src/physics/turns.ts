/** Screw feet turned by counted parts of a turn. */

import type { Length, Ratio, Slope } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import {
  type FeetBase,
  type FootNumber,
  type FootTravel,
  type FourFeet,
  footPlane,
  restStates,
  twist,
} from "./level.js";

/** Feet set by counted steps of the screw, and what that leaves. */
export interface CountedTurns {
  /** Steps for each foot; positive when the foot goes out and its corner comes up. */
  readonly steps: FourFeet<number>;
  /** The same in turns. */
  readonly turns: FourFeet<Ratio>;
  /** Gap left under one foot [m]; at most half a step. Close it by letting the light foot down until it takes load. */
  readonly rock: Length;
  /** The feet of which one hangs free; none when the rock is nil. */
  readonly light: readonly FootNumber[];
  /** Greatest slope left in the direction of steepest slope, whichever way the machine rests [m/m]. */
  readonly tilt: Slope;
}

/** Lengths closer than this are the same [m]. */
const SAME = 1e-9;

/** Steps tried to either side of the nearest one; wider searches find nothing better (shown by test). */
const REACH = 2;

/**
 * Counted steps for each foot that come nearest to the wanted changes, without rock before all else.
 *
 * Sets sᵢ + nᵢ·q with whole nᵢ, q = lead · step. First least rock (never more than q/2, whatever the floor), then least
 * tilt in the worse rest state, then least distance from the wanted changes. Rounding each foot on its own leaves up to
 * 2q of rock; this search never does. Undefined when no setting within two steps of the wanted one is inside the travel.
 *
 * @param carried - height to which floor and foot carry each corner now [m]
 * @param changes - wanted change of each foot [m]
 * @param base - distances between the feet [m]
 * @param lead - advance of the screw in one turn (its pitch, with a single start), above 0 [m]
 * @param step - the part of a turn that is counted, above 0
 * @param range - extensions now and travel, where they are known; without them the travel is not looked at
 * @example countedTurns([0, 0.001, 0.001, 0], [0.001, 0, 0, 0.001], { width: 0.6, depth: 0.5 }, 0.00125).turns // [0.75,0,0,0.75]
 */
export function countedTurns(
  carried: FourFeet<Length>,
  changes: FourFeet<Length>,
  base: FeetBase,
  lead: Length,
  step = 1 / 4,
  range?: { readonly extensions: FourFeet<Length>; readonly travel: FootTravel },
): CountedTurns | undefined {
  const q = lead * step;
  if (!(q > 0 && q < Infinity)) throw new RangeError(`a step of ${step} turn at ${lead} m a turn moves no foot`);
  const nearest = changes.map((change) => Math.round(change / q));

  const choices = nearest.map((n, i) => {
    const around = Array.from({ length: 2 * REACH + 1 }, (_, j) => n - REACH + j);
    if (range === undefined) return around;
    const { extensions, travel } = range;
    return around.filter((count) => {
      const extension = extensions[i]! + count * q;
      return extension >= travel.least - SAME && extension <= travel.most + SAME;
    });
  });

  const now = twist(carried);
  let best: Candidate | undefined;
  for (const a of choices[0]!)
    for (const b of choices[1]!)
      for (const c of choices[2]!)
        for (const d of choices[3]!) {
          const rock = Math.abs(now + (a - b + (c - d)) * q);
          if (best !== undefined && rock > best.rock + SAME) continue;
          const candidate = judge(carried, changes, base, q, rock, [a, b, c, d]);
          if (best === undefined || isBetter(candidate, best)) best = candidate;
        }
  if (best === undefined) return undefined;

  const { steps, rock } = best;
  const turn = (n: number) => brand<"ratio">(n * step);
  return {
    steps,
    turns: [turn(steps[0]), turn(steps[1]), turn(steps[2]), turn(steps[3])],
    rock: brand<"length">(rock),
    light: rock <= SAME ? [] : restStates(settled(carried, steps, q), base).map(({ free }) => free),
    tilt: brand<"slope">(best.tilt),
  };
}

interface Candidate {
  readonly steps: FourFeet<number>;
  readonly rock: number;
  readonly tilt: number;
  /** The tilt as a difference of heights over the larger side, to compare with {@link SAME}. */
  readonly rise: number;
  readonly furthest: number;
  readonly squares: number;
}

function settled(carried: FourFeet<Length>, steps: FourFeet<number>, q: number): FourFeet<Length> {
  const at = (i: 0 | 1 | 2 | 3) => brand<"length">(carried[i] + steps[i] * q);
  return [at(0), at(1), at(2), at(3)];
}

function judge(
  carried: FourFeet<Length>,
  changes: FourFeet<Length>,
  base: FeetBase,
  q: number,
  rock: number,
  steps: FourFeet<number>,
): Candidate {
  const set = settled(carried, steps, q);
  const plane = footPlane(set, base);
  const tilt = [plane, ...restStates(set, base)].reduce(
    (most, { across, back }) => Math.max(most, Math.hypot(across, back)),
    0,
  );
  const off = steps.map((n, i) => n * q - changes[i]!);
  return {
    steps,
    rock,
    tilt,
    rise: tilt * Math.max(base.width, base.depth),
    furthest: Math.max(...off.map(Math.abs)),
    squares: off.reduce((sum, value) => sum + value * value, 0) / q,
  };
}

function isBetter(a: Candidate, b: Candidate): boolean {
  for (const key of ["rock", "rise", "furthest", "squares"] as const) {
    if (Math.abs(a[key] - b[key]) > SAME) return a[key] < b[key];
  }
  return false;
}
