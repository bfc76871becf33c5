/** Threads that a household hook-up meets, one row each. */
import type { Confirmed } from "../../core/basis/index.js";

/** What a thread belongs to. */
export type ThreadFamily =
  | "hose"
  | "fireHose"
  | "taperPipe60"
  | "taperPipe55"
  | "parallelPipe55"
  | "compression"
  | "flare45"
  | "flare37"
  | "gasFlare";

/** What makes the joint tight. */
export type Seal = "flatWasher" | "thread" | "washerOrRing" | "ferrule" | "cone45" | "cone37";

/** One thread. */
export interface ThreadRow {
  /** Name as the trade writes it. */
  readonly id: string;
  readonly family: ThreadFamily;
  /** Nominal size within its family; for tube fittings the outside diameter of the tube. */
  readonly size: string;
  readonly threadsPerInch: number;
  /** Outside diameter of the male thread, for a taper the outside diameter of the pipe [mm]. */
  readonly major_mm: number;
  /** Angle between the flanks [°]. */
  readonly flank_deg: 55 | 60;
  /** Whether the diameter grows 1 in 16 along the thread. */
  readonly tapered: boolean;
  readonly seal: Seal;
  readonly confirmed: Confirmed;
}

const inch = (inches: number): number => 25.4 * inches;
type Row = readonly [id: string, size: string, threadsPerInch: number, major_mm: number, confirmed: Confirmed];

const family = (
  name: ThreadFamily,
  shape: Pick<ThreadRow, "flank_deg" | "tapered" | "seal">,
  rows: readonly Row[],
): ThreadRow[] =>
  rows.map(([id, size, threadsPerInch, major_mm, confirmed]) => ({
    id,
    family: name,
    size,
    threadsPerInch,
    major_mm,
    confirmed,
    ...shape,
  }));

/**
 * The threads. Sources: hose thread ASME B1.20.7, 3/4-11.5 NH; fire-hose booster thread of the same nominal size,
 * NFPA 1963; NPT, ASME B1.20.1, basic dimensions; G and R series, ISO 228-1 and ISO 7-1, basic diameters (taper series
 * the same); tube fittings, SAE J512 (compression, 45° flare) and SAE J514 (37° flare). The 15/16-16 nut of gas
 * connectors for 5/8 in tube is no SAE size.
 */
export const threadRows: readonly ThreadRow[] = [
  ...family("hose", { flank_deg: 60, tapered: false, seal: "flatWasher" }, [
    ["3/4-11.5 NH", "3/4", 11.5, inch(1.0625), "seen"],
  ]),
  ...family("fireHose", { flank_deg: 60, tapered: false, seal: "flatWasher" }, [
    ["3/4-8 fire hose", "3/4", 8, inch(1.375), "seen"],
  ]),
  ...family("taperPipe60", { flank_deg: 60, tapered: true, seal: "thread" }, [
    ["1/4-18 NPT", "1/4", 18, inch(0.54), "secondary"],
    ["3/8-18 NPT", "3/8", 18, inch(0.675), "secondary"],
    ["1/2-14 NPT", "1/2", 14, inch(0.84), "secondary"],
    ["3/4-14 NPT", "3/4", 14, inch(1.05), "secondary"],
  ]),
  ...family("parallelPipe55", { flank_deg: 55, tapered: false, seal: "washerOrRing" }, [
    ["G 1/4", "1/4", 19, 13.157, "seen"],
    ["G 3/8", "3/8", 19, 16.662, "seen"],
    ["G 1/2", "1/2", 14, 20.955, "seen"],
    ["G 3/4", "3/4", 14, 26.441, "seen"],
  ]),
  ...family("taperPipe55", { flank_deg: 55, tapered: true, seal: "thread" }, [
    ["R 1/4", "1/4", 19, 13.157, "seen"],
    ["R 3/8", "3/8", 19, 16.662, "seen"],
    ["R 1/2", "1/2", 14, 20.955, "seen"],
    ["R 3/4", "3/4", 14, 26.441, "seen"],
  ]),
  ...family("compression", { flank_deg: 60, tapered: false, seal: "ferrule" }, [
    ["7/16-24 compression", "1/4", 24, inch(7 / 16), "memory"],
    ["9/16-24 compression", "3/8", 24, inch(9 / 16), "memory"],
    ["11/16-20 compression", "1/2", 20, inch(11 / 16), "memory"],
    ["13/16-18 compression", "5/8", 18, inch(13 / 16), "memory"],
  ]),
  ...family("flare45", { flank_deg: 60, tapered: false, seal: "cone45" }, [
    ["7/16-20 flare 45°", "1/4", 20, inch(7 / 16), "seen"],
    ["5/8-18 flare 45°", "3/8", 18, inch(5 / 8), "seen"],
    ["3/4-16 flare 45°", "1/2", 16, inch(3 / 4), "seen"],
    ["7/8-14 flare 45°", "5/8", 14, inch(7 / 8), "seen"],
  ]),
  ...family("flare37", { flank_deg: 60, tapered: false, seal: "cone37" }, [
    ["7/16-20 flare 37°", "1/4", 20, inch(7 / 16), "seen"],
    ["9/16-18 flare 37°", "3/8", 18, inch(9 / 16), "seen"],
    ["3/4-16 flare 37°", "1/2", 16, inch(3 / 4), "seen"],
    ["7/8-14 flare 37°", "5/8", 14, inch(7 / 8), "seen"],
  ]),
  ...family("gasFlare", { flank_deg: 60, tapered: false, seal: "cone45" }, [
    ["15/16-16 gas flare", "5/8", 16, inch(15 / 16), "memory"],
  ]),
];

/** Names of the threads, for schemas. */
export const threadIds = [
  "3/4-11.5 NH",
  "3/4-8 fire hose",
  "1/4-18 NPT",
  "3/8-18 NPT",
  "1/2-14 NPT",
  "3/4-14 NPT",
  "G 1/4",
  "G 3/8",
  "G 1/2",
  "G 3/4",
  "R 1/4",
  "R 3/8",
  "R 1/2",
  "R 3/4",
  "7/16-24 compression",
  "9/16-24 compression",
  "11/16-20 compression",
  "13/16-18 compression",
  "7/16-20 flare 45°",
  "5/8-18 flare 45°",
  "3/4-16 flare 45°",
  "7/8-14 flare 45°",
  "7/16-20 flare 37°",
  "9/16-18 flare 37°",
  "3/4-16 flare 37°",
  "7/8-14 flare 37°",
  "15/16-16 gas flare",
] as const;
export type ThreadId = (typeof threadIds)[number];

/** The row of a thread. */
export const threadOf = (id: ThreadId): ThreadRow => threadRows.find((row) => row.id === id)!;
