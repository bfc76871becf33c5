/** How far past hand-tight the trade turns each kind of joint. */
import type { Confirmed } from "../../core/basis/index.js";

/** Kinds of joint. */
export const joints = [
  "hoseWasher",
  "brassFerrule",
  "twoFerrule",
  "flare45",
  "flare37",
  "taperThread",
  "pushFit",
] as const;
export type Joint = (typeof joints)[number];

/** One habit: turns past hand-tight, or past the point where the wrench first resists. */
export interface TurnHabit {
  readonly low: number;
  readonly high: number;
  readonly confirmed: Confirmed;
  readonly note: string;
}

/**
 * Turns by joint. Hose coupling, brass ferrule and pipe thread: common practice, no source. Two-ferrule: a rule of the
 * makers of such fittings, from memory. Flare: charts for 37° nuts disagree between one and two flats of the hexagon;
 * there is none for 45°, so theirs is used.
 */
export const turnHabits: Readonly<Record<Joint, TurnHabit>> = {
  hoseWasher: {
    low: 1 / 4,
    high: 2 / 3,
    confirmed: "practice",
    note: "A hose coupling is turned a quarter to two thirds of a turn past hand-tight.",
  },
  brassFerrule: {
    low: 1 / 2,
    high: 1,
    confirmed: "practice",
    note: "A brass ferrule is turned half a turn to one turn past finger-tight.",
  },
  twoFerrule: {
    low: 5 / 4,
    high: 5 / 4,
    confirmed: "memory",
    note: "A two-ferrule tube fitting of 1/4 in and more is turned one and a quarter turns past finger-tight.",
  },
  flare45: {
    low: 1 / 6,
    high: 1 / 3,
    confirmed: "secondary",
    note: "A flare nut is turned one to two flats past the first resistance of the wrench; charts for 37° nuts, which disagree.",
  },
  flare37: {
    low: 1 / 6,
    high: 1 / 3,
    confirmed: "secondary",
    note: "A flare nut is turned one to two flats past the first resistance of the wrench; the charts disagree.",
  },
  taperThread: {
    low: 2,
    high: 3,
    confirmed: "practice",
    note: "A taped pipe thread is turned two to three turns past hand-tight.",
  },
  pushFit: {
    low: 0,
    high: 0,
    confirmed: "practice",
    note: "A push-fit joint is not turned: the tube goes in to its mark and is pulled back to seat the grip.",
  },
};

/** Wrench make-up of a taper pipe thread past hand-tight [turns]. ASME B1.20.1 has 3 threads; down to 1.5 in handbooks. */
export const taperMakeUp = { least: 1.5, most: 3 } as const;

/**
 * Torque of steel 37° flare nuts by tube size [lbf·ft]: two agreeing charts of general machinery manuals, SAE J514
 * sizes, lubricated. And a workshop manual's table for flared fittings of both angles with its spread, which says to
 * take half for brass and other non-ferrous metal. The two charts differ; the range spans both.
 */
export const flareTorqueRows: readonly {
  readonly tube: string;
  readonly chart37: number;
  readonly manual37: number;
  readonly manual45: number;
  readonly spread: number;
}[] = [
  { tube: "1/4", chart37: 9, manual37: 12, manual45: 12, spread: 3 },
  { tube: "3/8", chart37: 18, manual37: 18, manual45: 26, spread: 5 },
  { tube: "1/2", chart37: 34, manual37: 37, manual45: 37, spread: 5 },
  { tube: "5/8", chart37: 46, manual37: 48, manual45: 48, spread: 5 },
];

/** Share of the steel torque that a brass nut or port takes; the same workshop manual. */
export const brassShare = 0.5;
