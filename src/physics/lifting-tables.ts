/**
 * Tables of the revised NIOSH lifting equation: DHHS (NIOSH) publication 94-110, Applications Manual for the Revised NIOSH
 * Lifting Equation, 1994, revised September 2021; table 5 (frequency) and table 7 (grip). Seen in public transcriptions.
 */

/** One row of the frequency table: lifts a minute; per duration, the multiplier for hands low and not low at the origin. */
export interface FrequencyRow {
  readonly perMinute: number;
  readonly short: readonly [low: number, high: number];
  readonly moderate: readonly [low: number, high: number];
  readonly long: readonly [low: number, high: number];
}

/** Frequency multipliers, straight between the rows; the first row holds for rarer lifts, beyond the last it is 0. */
export const liftingFrequencyRows: readonly FrequencyRow[] = [
  { perMinute: 0.2, short: [1, 1], moderate: [0.95, 0.95], long: [0.85, 0.85] },
  { perMinute: 0.5, short: [0.97, 0.97], moderate: [0.92, 0.92], long: [0.81, 0.81] },
  { perMinute: 1, short: [0.94, 0.94], moderate: [0.88, 0.88], long: [0.75, 0.75] },
  { perMinute: 2, short: [0.91, 0.91], moderate: [0.84, 0.84], long: [0.65, 0.65] },
  { perMinute: 3, short: [0.88, 0.88], moderate: [0.79, 0.79], long: [0.55, 0.55] },
  { perMinute: 4, short: [0.84, 0.84], moderate: [0.72, 0.72], long: [0.45, 0.45] },
  { perMinute: 5, short: [0.8, 0.8], moderate: [0.6, 0.6], long: [0.35, 0.35] },
  { perMinute: 6, short: [0.75, 0.75], moderate: [0.5, 0.5], long: [0.27, 0.27] },
  { perMinute: 7, short: [0.7, 0.7], moderate: [0.42, 0.42], long: [0.22, 0.22] },
  { perMinute: 8, short: [0.6, 0.6], moderate: [0.35, 0.35], long: [0.18, 0.18] },
  { perMinute: 9, short: [0.52, 0.52], moderate: [0.3, 0.3], long: [0, 0.15] },
  { perMinute: 10, short: [0.45, 0.45], moderate: [0.26, 0.26], long: [0, 0.13] },
  { perMinute: 11, short: [0.41, 0.41], moderate: [0, 0.23], long: [0, 0] },
  { perMinute: 12, short: [0.37, 0.37], moderate: [0, 0.21], long: [0, 0] },
  { perMinute: 13, short: [0, 0.34], moderate: [0, 0], long: [0, 0] },
  { perMinute: 14, short: [0, 0.31], moderate: [0, 0], long: [0, 0] },
  { perMinute: 15, short: [0, 0.28], moderate: [0, 0], long: [0, 0] },
];

/** Grip multipliers, for hands low and not low at the point assessed. */
export const liftingGrips = {
  good: [1, 1],
  fair: [0.95, 1],
  poor: [0.9, 0.9],
} as const satisfies Record<string, readonly [low: number, high: number]>;

/**
 * Constants of the equation in each unit system: lengths in `length`, the load constant in `mass`. The two sets are not
 * exact conversions of each other.
 */
export const liftingSystems = {
  us: {
    length: "in",
    mass: "lb",
    load: 51,
    horizontal: 10,
    horizontalMost: 25,
    knuckle: 30,
    perHeight: 0.0075,
    verticalMost: 70,
    travelBase: 0.82,
    travel: 1.8,
    travelLeast: 10,
    travelMost: 70,
    reachHigh: 8,
    reachLow: 10,
    reachFrom: 10,
  },
  metric: {
    length: "cm",
    mass: "kg",
    load: 23,
    horizontal: 25,
    horizontalMost: 63,
    knuckle: 75,
    perHeight: 0.003,
    verticalMost: 175,
    travelBase: 0.82,
    travel: 4.5,
    travelLeast: 25,
    travelMost: 175,
    reachHigh: 20,
    reachLow: 25,
    reachFrom: 25,
  },
} as const;

/** Loss of capability for each degree that the load lies off to the side, and the greatest such angle [°]. */
export const liftingAsymmetry = { perDegree: 0.0032, most: 135 } as const;

/** Longest work in each duration class [h], and the recovery it needs as a share of the work; 1994 printing: 1.2 (memory). */
export const liftingDurations = {
  short: { hours: 1, recovery: 1.0 },
  moderate: { hours: 2, recovery: 0.3 },
  long: { hours: 8 },
} as const;
