/** The revised NIOSH lifting equation. */

import type { Angle, Frequency, Length, Mass, Ratio, Time } from "../core/quantity/dimension.js";
import { brand, inUnit, si } from "../core/quantity/si.js";
import {
  liftingAsymmetry,
  liftingDurations,
  liftingFrequencyRows,
  liftingGrips,
  liftingSystems,
} from "./lifting-tables.js";

/** The unit system whose constants are used; results differ by about 2 %, so one is chosen and kept. */
export type LiftingSystem = keyof typeof liftingSystems;

/** How well the hands hold the load. */
export type Grip = keyof typeof liftingGrips;

/** How long lifting goes on: up to 1 h, 2 h or 8 h, each with its recovery. */
export type LiftingDuration = keyof typeof liftingDurations;

/** One two-handed lift, at its origin or where it ends under control. */
export interface Lift {
  /** From midway between the ankles to midway between the hands [m]. */
  readonly horizontal: Length;
  /** Of the hands above the floor at the point assessed [m]. */
  readonly vertical: Length;
  /** Of the hands above the floor at the origin, when the point assessed is the destination [m]. */
  readonly verticalAtOrigin?: Length;
  /** Vertical travel of the hands, whichever way [m]. */
  readonly travel: Length;
  /** How far the load lies off to the side [rad]. */
  readonly asymmetry: Angle;
  /** Lifts a second [Hz]; see {@link liftingFrequency}. */
  readonly frequency: Frequency;
  readonly duration: LiftingDuration;
  readonly grip: Grip;
}

/** The factors of the equation and its result. */
export interface LiftingLimit {
  readonly horizontal: Ratio;
  readonly vertical: Ratio;
  readonly travel: Ratio;
  readonly asymmetry: Ratio;
  readonly frequency: Ratio;
  readonly grip: Ratio;
  /** Load constant [kg]. */
  readonly constant: Mass;
  /** Recommended weight limit [kg]; 0 where a factor is out of its range. */
  readonly limit: Mass;
}

/** Converted values are compared with this relative slack, so that a height of exactly 30 in is not below it. */
const SLACK = 1e-9;

const above = (value: number, limit: number) => value > limit * (1 + SLACK);
const below = (value: number, limit: number) => value < limit * (1 - SLACK);

function requireAtLeast0(value: number, what: string): void {
  if (!(value >= 0 && value < Infinity))
    throw new RangeError(`${what} of ${value} is not a finite number of at least 0`);
}

/**
 * Recommended weight limit of a two-handed lift, and each factor.
 *
 * RWL = LC·HM·VM·DM·AM·FM·CM. US: 51 lb, 10/H, 1 − 0.0075·|V − 30|, 0.82 + 1.8/D with H, V, D in inches; metric: 23 kg,
 * 25/H, 1 − 0.003·|V − 75|, 0.82 + 4.5/D in centimetres; AM = 1 − 0.0032·A in degrees; FM by V at the origin, CM by V at the
 * point assessed. Not for one hand, sitting or kneeling, unstable loads, carrying, pushing or pulling, wheeled loads, two
 * people, slippery floors, or outside 19–26 °C. Where a load is set down with care, assess both ends and take the lower.
 *
 * @param lift - the lift
 * @param system - whose constants to use
 * @see DHHS (NIOSH) 94-110, revised 2021, sections 1.1 and 1.3; Waters and others, Ergonomics 36 (1993), 749–776
 * @example liftingLimit({ horizontal: 0.508, vertical: 1.4986, verticalAtOrigin: 0.5588, travel: 0.9398, asymmetry: 0, frequency: 0.05, duration: "short", grip: "fair" }, "us").limit // 6.9186
 */
export function liftingLimit(lift: Lift, system: LiftingSystem): LiftingLimit {
  const set = liftingSystems[system];
  const own = (value: Length, what: string) => {
    requireAtLeast0(value, what);
    return inUnit(value, set.length);
  };
  const h = own(lift.horizontal, "a horizontal distance");
  const v = own(lift.vertical, "a hand height");
  const v0 = lift.verticalAtOrigin === undefined ? v : own(lift.verticalAtOrigin, "a hand height at the origin");
  const d = own(lift.travel, "a travel");
  requireAtLeast0(lift.asymmetry, "an asymmetry");
  const a = inUnit(lift.asymmetry, "deg");

  const horizontal = above(h, set.horizontalMost) ? 0 : set.horizontal / Math.max(h, set.horizontal);
  const vertical = above(v, set.verticalMost) ? 0 : 1 - set.perHeight * Math.abs(v - set.knuckle);
  const travel = above(d, set.travelMost) ? 0 : Math.min(1, set.travelBase + set.travel / Math.max(d, set.travelLeast));
  const turned = above(a, liftingAsymmetry.most) ? 0 : 1 - liftingAsymmetry.perDegree * a;
  const frequency = frequencyMultiplier(lift.frequency, lift.duration, below(v0, set.knuckle));
  const grip = liftingGrips[lift.grip][below(v, set.knuckle) ? 0 : 1];
  const constant = si(set.load, set.mass);
  return {
    horizontal: brand<"ratio">(horizontal),
    vertical: brand<"ratio">(vertical),
    travel: brand<"ratio">(travel),
    asymmetry: brand<"ratio">(turned),
    frequency,
    grip: brand<"ratio">(grip),
    constant,
    limit: brand<"mass">(constant * horizontal * vertical * travel * turned * frequency * grip),
  };
}

/**
 * Frequency multiplier, straight between the rows of the table; 0 beyond its last row.
 *
 * @param frequency - lifts a second, at least 0 [Hz]
 * @param duration - how long lifting goes on
 * @param low - whether the hands are below 30 in (75 cm) at the origin
 * @see DHHS (NIOSH) 94-110, table 5
 * @example frequencyMultiplier(2.4 / 60, "short", true) // 0.898
 */
export function frequencyMultiplier(frequency: Frequency, duration: LiftingDuration, low: boolean): Ratio {
  requireAtLeast0(frequency, "a frequency");
  const perMinute = frequency * 60;
  const value = (i: number) => liftingFrequencyRows[i]![duration][low ? 0 : 1];
  const next = liftingFrequencyRows.findIndex((row) => !above(perMinute, row.perMinute));
  if (next < 0) return brand<"ratio">(0);
  if (next === 0) return brand<"ratio">(value(0));
  const [from, to] = [liftingFrequencyRows[next - 1]!.perMinute, liftingFrequencyRows[next]!.perMinute];
  const share = Math.min(1, (perMinute - from) / (to - from));
  return brand<"ratio">(value(next - 1) + share * (value(next) - value(next - 1)));
}

/** The interval over which lifting that comes and goes is spread [min]. DHHS (NIOSH) 94-110, section 1.3.5.5. */
const SAMPLE_MINUTES = 15;

/**
 * Lifting frequency of work that comes and goes within every 15 minutes [Hz]: rate · minutes worked / 15.
 *
 * @param rate - lifts a second while working, at least 0 [Hz]
 * @param worked - time worked in every 15 minutes, up to 15 min [s]
 * @see DHHS (NIOSH) 94-110, section 1.3.5.5
 * @example liftingFrequency(10 / 60, 8 * 60) * 60 // 5.3333
 */
export function liftingFrequency(rate: Frequency, worked: Time): Frequency {
  requireAtLeast0(rate, "a rate");
  const minutes = inUnit(worked, "min");
  if (!(minutes >= 0 && minutes <= SAMPLE_MINUTES * (1 + SLACK))) {
    throw new RangeError(`${minutes} min worked is not within the 15 min sample`);
  }
  return brand<"frequency">((rate * minutes) / SAMPLE_MINUTES);
}

/** A spell of lifting and the light work or rest after it [s]. */
export interface LiftingSpell {
  readonly work: Time;
  readonly recovery: Time;
}

/**
 * The duration class of spells of lifting; undefined beyond 8 h.
 *
 * Spells add up as long as the recovery between them is too short: as long as the work for up to 1 h, 0.3 times as long for
 * up to 2 h. The recovery after the last spell is taken as enough.
 *
 * @param spells - in order
 * @see DHHS (NIOSH) 94-110, revised 2021, section 1.3.5.2
 * @example liftingDuration([{ work: 1800, recovery: 600 }, { work: 2700, recovery: 0 }]) // "moderate"
 */
export function liftingDuration(spells: readonly LiftingSpell[]): LiftingDuration | undefined {
  const classOf = (seconds: number): LiftingDuration | undefined => {
    const hours = inUnit(brand<"time">(seconds), "h");
    return (["short", "moderate", "long"] as const).find((name) => !above(hours, liftingDurations[name].hours));
  };
  let worked = 0;
  let longest = 0;
  for (const { work, recovery } of spells) {
    requireAtLeast0(work, "work");
    requireAtLeast0(recovery, "recovery");
    worked += work;
    longest = Math.max(longest, worked);
    const now = classOf(worked);
    if ((now === "short" || now === "moderate") && !below(recovery, liftingDurations[now].recovery * worked))
      worked = 0;
  }
  return classOf(longest);
}

/**
 * Horizontal distance of the hands where it was not measured [m]: 8 in + W/2 (20 cm + W/2) with the hands at 10 in (25 cm)
 * or higher, 10 in + W/2 (25 cm + W/2) below.
 *
 * @param width - W of the load in the sagittal plane, at least 0 [m]
 * @param vertical - height of the hands above the floor, at least 0 [m]
 * @param system - whose constants to use
 * @see DHHS (NIOSH) 94-110, section 1.3.1
 * @example horizontalEstimate(0.4, 0.5, "metric") // 0.4
 */
export function horizontalEstimate(width: Length, vertical: Length, system: LiftingSystem): Length {
  requireAtLeast0(width, "a width");
  requireAtLeast0(vertical, "a hand height");
  const set = liftingSystems[system];
  const reach = below(inUnit(vertical, set.length), set.reachFrom) ? set.reachLow : set.reachHigh;
  return brand<"length">(si(reach, set.length) + width / 2);
}
