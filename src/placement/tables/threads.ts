/** Threads of levelling feet. Single start, right-hand: the foot advances one pitch in a turn. */

/** Names of the threads, as printed on a foot or a gauge. */
export const threadNames = ["1/4-20", "5/16-18", "3/8-16", "1/2-13", "M8 x 1.25", "M10 x 1.5", "M12 x 1.75"] as const;
/** Name of a thread of a levelling foot, as it is called on the part. */
export type ThreadName = (typeof threadNames)[number];

/**
 * Pitch and nominal diameter of each thread, in the unit of its standard: unified coarse threads to ASME B1.1 (an inch
 * over the threads in an inch), metric coarse threads to ISO 261 [mm]. Seen in two public thread charts.
 */
export const threads: Readonly<
  Record<ThreadName, { readonly pitch: number; readonly diameter: number; readonly unit: "in" | "mm" }>
> = {
  "1/4-20": { pitch: 1 / 20, diameter: 1 / 4, unit: "in" },
  "5/16-18": { pitch: 1 / 18, diameter: 5 / 16, unit: "in" },
  "3/8-16": { pitch: 1 / 16, diameter: 3 / 8, unit: "in" },
  "1/2-13": { pitch: 1 / 13, diameter: 1 / 2, unit: "in" },
  "M8 x 1.25": { pitch: 1.25, diameter: 8, unit: "mm" },
  "M10 x 1.5": { pitch: 1.5, diameter: 10, unit: "mm" },
  "M12 x 1.75": { pitch: 1.75, diameter: 12, unit: "mm" },
};
