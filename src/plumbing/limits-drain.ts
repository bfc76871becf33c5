/** The numbers that the plumbing texts set for drains, dated, one reference per value. */
import { type Confirmed, type DatedValue, defineLimit, type Text } from "../core/basis/index.js";
import type { Unit } from "../core/quantity/index.js";

/** Least height of a washer's standpipe above the weir of its trap. */
export const standpipeLeast = defineLimit({
  id: "plumbing/standpipe.height-least",
  title: "Least height of the standpipe above the trap weir",
  subject: "plumbing",
  kind: "length",
  sense: "atLeast",
  maker: "tightens",
  values: [
    { text: "irc", from: 2006, to: 2009, section: "P2706.2", value: [18, "in"], confirmed: "secondary" },
    { text: "irc", from: 2012, to: 2021, section: "P2706.1.2", value: [18, "in"], confirmed: "secondary" },
    { text: "irc", from: 2024, section: "P2706.2", value: [18, "in"], confirmed: "secondary" },
    { text: "ipc", from: 2006, to: 2015, section: "802.4", value: [18, "in"], confirmed: "memory" },
    { text: "ipc", from: 2018, section: "802.4.3", value: [18, "in"], confirmed: "secondary" },
    {
      text: "upc",
      from: 2006,
      to: 2021,
      section: "804.1",
      value: [18, "in"],
      confirmed: "secondary",
      note: "Older texts measure above the trap, the 2024 text above the trap weir.",
    },
    { text: "upc", from: 2024, section: "804.1", value: [18, "in"], confirmed: "seen" },
  ],
});

/** Greatest height of a washer's standpipe above the weir of its trap: the code families differ by a foot. */
export const standpipeMost = defineLimit({
  id: "plumbing/standpipe.height-most",
  title: "Greatest height of the standpipe above the trap weir",
  subject: "plumbing",
  kind: "length",
  sense: "atMost",
  maker: "tightens",
  values: [
    { text: "irc", from: 2006, to: 2009, section: "P2706.2", value: [42, "in"], confirmed: "secondary" },
    { text: "irc", from: 2012, to: 2021, section: "P2706.1.2", value: [42, "in"], confirmed: "secondary" },
    { text: "irc", from: 2024, section: "P2706.2", value: [42, "in"], confirmed: "secondary" },
    { text: "ipc", from: 2006, to: 2015, section: "802.4", value: [42, "in"], confirmed: "memory" },
    { text: "ipc", from: 2018, section: "802.4.3", value: [42, "in"], confirmed: "secondary" },
    { text: "upc", from: 2006, to: 2021, section: "804.1", value: [30, "in"], confirmed: "secondary" },
    { text: "upc", from: 2024, section: "804.1", value: [30, "in"], confirmed: "seen" },
  ],
});

/** Least height of the washer's trap above the floor; the uniform code only. */
export const trapLeast = defineLimit({
  id: "plumbing/standpipe.trap-least",
  title: "Least height of the washer's trap above the floor",
  subject: "plumbing",
  kind: "length",
  sense: "atLeast",
  maker: "tightens",
  values: [
    { text: "upc", from: 2006, to: 2021, section: "804.1", value: [6, "in"], confirmed: "secondary" },
    { text: "upc", from: 2024, section: "804.1", value: [6, "in"], confirmed: "seen" },
  ],
});

/** Greatest height of the washer's trap above the floor; the uniform code only. */
export const trapMost = defineLimit({
  id: "plumbing/standpipe.trap-most",
  title: "Greatest height of the washer's trap above the floor",
  subject: "plumbing",
  kind: "length",
  sense: "atMost",
  maker: "tightens",
  values: [
    { text: "upc", from: 2006, to: 2021, section: "804.1", value: [18, "in"], confirmed: "secondary" },
    { text: "upc", from: 2024, section: "804.1", value: [18, "in"], confirmed: "seen" },
  ],
});

/** Least height of a standpipe that a laundry tray drains into; the residential code only. */
export const trayHeight = defineLimit({
  id: "plumbing/standpipe.tray-height",
  title: "Least height above the trap weir of a standpipe that a laundry tray drains into",
  subject: "plumbing",
  kind: "length",
  sense: "atLeast",
  maker: "tightens",
  values: [
    { text: "irc", from: 2006, to: 2009, section: "P2706.2.1", value: [30, "in"], confirmed: "secondary" },
    { text: "irc", from: 2012, to: 2021, section: "P2706.1.2.1", value: [30, "in"], confirmed: "secondary" },
    { text: "irc", from: 2024, section: "P2706.2.1", value: [30, "in"], confirmed: "memory" },
  ],
});

/** Greatest way from a laundry tray's outlet to the trap of the standpipe it drains into; the residential code only. */
export const trayDistance = defineLimit({
  id: "plumbing/standpipe.tray-distance",
  title: "Greatest level distance from the laundry tray's outlet to the standpipe's trap",
  subject: "plumbing",
  kind: "length",
  sense: "atMost",
  maker: "tightens",
  values: [
    { text: "irc", from: 2006, to: 2009, section: "P2706.2.1", value: [30, "in"], confirmed: "secondary" },
    { text: "irc", from: 2012, to: 2021, section: "P2706.1.2.1", value: [30, "in"], confirmed: "secondary" },
    { text: "irc", from: 2024, section: "P2706.2.1", value: [30, "in"], confirmed: "memory" },
  ],
});

/** Least nominal size of a washer's trap and standpipe. */
export const standpipeSize = defineLimit({
  id: "plumbing/standpipe.size",
  title: "Least nominal size of the washer's trap and standpipe",
  subject: "plumbing",
  kind: "inches",
  sense: "atLeast",
  maker: "tightens",
  values: [
    { text: "irc", from: 2006, to: 2018, section: "Table P3201.7", value: [2, "in"], confirmed: "memory" },
    { text: "irc", from: 2021, to: 2021, section: "Table P3201.7", value: [2, "in"], confirmed: "secondary" },
    { text: "irc", from: 2024, section: "Table P3201.7", value: [2, "in"], confirmed: "memory" },
    { text: "ipc", from: 2006, section: "Table 709.1", value: [2, "in"], confirmed: "memory" },
    { text: "upc", from: 2006, section: "Table 702.1", value: [2, "in"], confirmed: "secondary" },
  ],
});

/** How far the machine's hose may go down the standpipe: further, and it siphons or blocks the air break. */
export const hoseInsertion = defineLimit({
  id: "plumbing/standpipe.insertion",
  title: "How far the drain hose may go down the standpipe",
  subject: "plumbing",
  kind: "inches",
  sense: "atMost",
  maker: "replaces",
  values: [{ text: "practice", value: [6, "in"], confirmed: "practice" }],
});

/** Least height of the hose's crest above the floor: below it the tub drains itself by siphon while filling. */
export const crestLeast = defineLimit({
  id: "plumbing/standpipe.crest-least",
  title: "Least height of the drain hose's crest above the floor",
  subject: "plumbing",
  kind: "length",
  sense: "atLeast",
  maker: "replaces",
  values: [{ text: "practice", value: [30, "in"], confirmed: "practice" }],
});

/** Greatest height the machine's pump lifts to. */
export const crestMost = defineLimit({
  id: "plumbing/standpipe.crest-most",
  title: "Greatest height the machine's pump lifts its water to, above the floor",
  subject: "plumbing",
  kind: "length",
  sense: "atMost",
  maker: "replaces",
  values: [{ text: "practice", value: [96, "in"], confirmed: "practice" }],
});

/**
 * Whether a pan is called for under a washer. The model codes ask for none; local amendments and landlords do, and the
 * trade fits one where a leak would reach a room below.
 */
export const panRequired = defineLimit({
  id: "plumbing/drain-pan.required",
  title: "A drain pan under the washer",
  subject: "plumbing",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    {
      text: "practice",
      value: true,
      when: { roomBelow: true },
      confirmed: "practice",
      note: "No model code asks for a washer pan; many local amendments do.",
    },
    { text: "practice", value: false, when: { roomBelow: false }, confirmed: "practice" },
  ],
});

/** Least depth of a washer pan. Not the 1 1/2 in of the code's water-heater pan, which is another thing. */
export const panDepth = defineLimit({
  id: "plumbing/drain-pan.depth",
  title: "Least depth of the washer's drain pan",
  subject: "plumbing",
  kind: "inches",
  sense: "atLeast",
  maker: "replaces",
  values: [{ text: "practice", value: [2, "in"], confirmed: "practice" }],
});

/** Least outlet of a washer pan. Not the 3/4 in of the code's water-heater pan. */
export const panOutlet = defineLimit({
  id: "plumbing/drain-pan.outlet",
  title: "Least nominal size of the washer pan's outlet",
  subject: "plumbing",
  kind: "inches",
  sense: "atLeast",
  maker: "replaces",
  values: [{ text: "practice", value: [1, "in"], confirmed: "practice" }],
});

/** Whether a dishwasher must drain through a listed air-gap fitting, so that a raised loop alone will not do. */
export const airGapRequired = defineLimit({
  id: "plumbing/dishwasher-drain.air-gap",
  title: "A listed air-gap fitting on the dishwasher's drain",
  subject: "plumbing",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    { text: "irc", from: 2006, to: 2006, section: "P2717.2", value: false, confirmed: "secondary" },
    { text: "irc", from: 2009, to: 2009, section: "P2717.2", value: false, confirmed: "seen" },
    { text: "irc", from: 2012, to: 2012, section: "P2717.2", value: false, confirmed: "secondary" },
    { text: "irc", from: 2015, to: 2015, section: "P2717.2", value: false, confirmed: "seen" },
    { text: "irc", from: 2018, section: "P2717.2", value: false, confirmed: "memory" },
    { text: "ipc", from: 2006, to: 2018, section: "802.1.6", value: false, confirmed: "secondary" },
    { text: "ipc", from: 2021, section: "802.1.6", value: false, confirmed: "memory" },
    { text: "upc", from: 2006, to: 2009, section: "807.4", value: true, confirmed: "secondary" },
    { text: "upc", from: 2012, section: "807.3", value: true, confirmed: "memory" },
  ],
});

/** Height the dishwasher's drain hose rises to. The texts ask for the underside of the counter; the figure is the trade's. */
export const loopHeight = defineLimit({
  id: "plumbing/dishwasher-drain.loop",
  title: "Least height of the dishwasher's drain loop above the floor",
  subject: "plumbing",
  kind: "length",
  sense: "atLeast",
  maker: "replaces",
  values: [{ text: "practice", value: [20, "in"], confirmed: "practice" }],
});

/** Least trap that a sink and a dishwasher share. */
export const sharedTrap = defineLimit({
  id: "plumbing/dishwasher-drain.trap",
  title: "Least nominal trap that a sink and a dishwasher share",
  subject: "plumbing",
  kind: "inches",
  sense: "atLeast",
  maker: "tightens",
  values: [
    { text: "irc", from: 2006, to: 2006, section: "P2717.2", value: [1.5, "in"], confirmed: "secondary" },
    { text: "irc", from: 2009, to: 2009, section: "P2717.2", value: [1.5, "in"], confirmed: "seen" },
    { text: "irc", from: 2012, to: 2012, section: "P2717.2", value: [1.5, "in"], confirmed: "secondary" },
    { text: "irc", from: 2015, to: 2015, section: "P2717.2", value: [1.5, "in"], confirmed: "seen" },
    { text: "irc", from: 2018, section: "P2717.2", value: [1.5, "in"], confirmed: "memory" },
    { text: "ipc", from: 2006, section: "Table 709.1", value: [1.5, "in"], confirmed: "memory" },
    { text: "upc", from: 2006, section: "Table 702.1", value: [1.5, "in"], confirmed: "secondary" },
  ],
});

/** Sizes of drain pipe, nominal. */
export const drainSizes = ["1-1/4", "1-1/2", "2", "2-1/2", "3", "4"] as const;
export type DrainSize = (typeof drainSizes)[number];

const bySize = (
  text: Text,
  from: number,
  section: string,
  values: Readonly<Partial<Record<DrainSize, readonly [number, Unit] | number>>>,
  confirmed: Confirmed,
  to?: number,
): DatedValue[] =>
  Object.entries(values).map(([size, value]) => ({
    text,
    from,
    ...(to === undefined ? {} : { to }),
    section,
    value,
    when: { size },
    confirmed,
  }));

const quarter: readonly [number, Unit] = [0.25, "in/ft"];
const eighth: readonly [number, Unit] = [0.125, "in/ft"];

/** Least fall of a horizontal drain. */
export const drainSlope = defineLimit({
  id: "plumbing/drain-capacity.slope",
  title: "Least fall of a horizontal drain",
  subject: "plumbing",
  kind: "slope",
  sense: "atLeast",
  maker: "tightens",
  values: [
    ...(["irc", "ipc"] as const).flatMap((text) =>
      bySize(
        text,
        2006,
        text === "irc" ? "P3005.3" : "704.1",
        { "1-1/4": quarter, "1-1/2": quarter, "2": quarter, "2-1/2": quarter, "3": eighth, "4": eighth },
        "secondary",
      ),
    ),
    { text: "upc", from: 2006, section: "708.1", value: quarter, confirmed: "memory" },
  ],
});

/** Longest trap arm, from the weir to the vent. */
export const trapArm = defineLimit({
  id: "plumbing/drain-capacity.trap-arm",
  title: "Longest trap arm from the trap's weir to its vent",
  subject: "plumbing",
  kind: "length",
  sense: "atMost",
  maker: "tightens",
  values: [
    ...bySize(
      "irc",
      2006,
      "Table P3105.1",
      { "1-1/4": [5, "ft"], "1-1/2": [6, "ft"], "2": [8, "ft"], "3": [12, "ft"], "4": [16, "ft"] },
      "secondary",
    ),
    ...bySize(
      "ipc",
      2006,
      "Table 909.1",
      { "1-1/4": [5, "ft"], "1-1/2": [6, "ft"], "2": [8, "ft"], "3": [12, "ft"], "4": [16, "ft"] },
      "secondary",
    ),
    ...bySize(
      "upc",
      2006,
      "Table 1002.2",
      { "1-1/4": [2.5, "ft"], "1-1/2": [3.5, "ft"], "2": [5, "ft"], "3": [6, "ft"], "4": [10, "ft"] },
      "secondary",
    ),
  ],
});

/** Drainage fixture units that a horizontal branch carries. */
export const branchUnits = defineLimit({
  id: "plumbing/drain-capacity.branch",
  title: "Most drainage fixture units of a horizontal branch",
  subject: "plumbing",
  kind: "count",
  sense: "atMost",
  maker: "tightens",
  values: [
    ...bySize("irc", 2006, "Table P3005.4.1", { "1-1/2": 3, "2": 6, "3": 20, "4": 160 }, "secondary"),
    ...bySize("irc", 2006, "Table P3005.4.1", { "2-1/2": 12 }, "memory"),
    ...bySize("ipc", 2006, "Table 710.1(2)", { "2": 6, "3": 20 }, "secondary"),
    ...bySize("ipc", 2006, "Table 710.1(2)", { "1-1/2": 3, "2-1/2": 12, "4": 160 }, "memory"),
    ...bySize("upc", 2006, "Table 703.2", { "1-1/2": 1, "2": 8, "2-1/2": 14, "3": 35, "4": 216 }, "seen"),
  ],
});

/** Drainage fixture units of a household washer. */
export const washerUnits = defineLimit({
  id: "plumbing/drain-capacity.washer",
  title: "Drainage fixture units of a household washer",
  subject: "plumbing",
  kind: "count",
  sense: "atLeast",
  maker: "tightens",
  values: [
    { text: "irc", from: 2006, section: "Table P3004.1", value: 2, confirmed: "secondary" },
    { text: "ipc", from: 2006, section: "Table 709.1", value: 2, confirmed: "secondary" },
    { text: "upc", from: 2006, section: "Table 702.1", value: 3, confirmed: "seen" },
  ],
});
