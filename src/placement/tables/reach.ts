/** Limits of the accessible-design documents for laundry machines and their controls. */

/** The documents that are known. */
export const accessStandards = ["ADA 2010", "A117.1-2009"] as const;
type AccessStandard = (typeof accessStandards)[number];

/** One figure with where it stands and how it was confirmed. */
export interface AccessFigure {
  /** As printed [in], a force [lbf]. */
  readonly printed: number;
  readonly section: string;
  readonly confirmed: "seen" | "secondary" | "memory";
  readonly note?: string;
}

/** The figures of one document. */
interface AccessFigures {
  readonly document: string;
  readonly publisher: string;
  readonly edition: string;
  /** Top loader: greatest height of its door. */
  readonly topLoader: AccessFigure;
  /** Front loader: least and greatest height of the bottom of its opening. */
  readonly frontLow: AccessFigure;
  readonly frontHigh: AccessFigure;
  /** Least and greatest height of controls. */
  readonly reachLow: AccessFigure;
  readonly reachHigh: AccessFigure;
  /** Greatest height of controls over an obstruction deeper than 10 in, reached from the side. */
  readonly reachOver: AccessFigure;
  /** Clear floor: its short and its long side. */
  readonly floorShort: AccessFigure;
  readonly floorLong: AccessFigure;
  /** Greatest force to work a control [lbf]. */
  readonly force: AccessFigure;
}

/** Depth of an obstruction up to which a side reach counts as free, and beyond which nothing is allowed [in]. 308.3. */
export const sideReach = { free: 10, most: 24 } as const;

const seen = (printed: number, section: string): AccessFigure => ({ printed, section, confirmed: "seen" });
const memory = (printed: number, section: string, note?: string): AccessFigure => ({
  printed,
  section,
  confirmed: "memory",
  ...(note === undefined ? {} : { note }),
});

/**
 * 2010 ADA Standards: 611.4, 308.3.1 and 309.4 seen in a published copy of the ADA or the ABA text, which are the same;
 * 305.3 and 308.3.2 from memory. ICC A117.1-2009: 308.2.1 seen as cited in a bath planning standard; the 34 in of 611.4
 * from memory, where another reader of the same edition says 36 in.
 */
export const accessFigures: Readonly<Record<AccessStandard, AccessFigures>> = {
  "ADA 2010": {
    document: "ADA Standards for Accessible Design",
    publisher: "US Department of Justice",
    edition: "2010",
    topLoader: seen(36, "611.4"),
    frontLow: seen(15, "611.4"),
    frontHigh: seen(36, "611.4"),
    reachLow: seen(15, "308.3.1"),
    reachHigh: seen(48, "308.3.1"),
    reachOver: memory(46, "308.3.2"),
    floorShort: memory(30, "305.3"),
    floorLong: memory(48, "305.3"),
    force: seen(5, "309.4"),
  },
  "A117.1-2009": {
    document: "ICC A117.1",
    publisher: "International Code Council",
    edition: "2009",
    topLoader: memory(36, "611.4"),
    frontLow: memory(15, "611.4"),
    frontHigh: memory(
      34,
      "611.4",
      "Sources disagree: 34 in from memory, 36 in as another reader has it; the stricter is taken.",
    ),
    reachLow: { printed: 15, section: "308.3.1", confirmed: "secondary" },
    reachHigh: { printed: 48, section: "308.3.1", confirmed: "secondary" },
    reachOver: memory(46, "308.3.2"),
    floorShort: { printed: 30, section: "305.3", confirmed: "secondary" },
    floorLong: { printed: 48, section: "305.3", confirmed: "secondary" },
    force: memory(5, "309.4"),
  },
};
