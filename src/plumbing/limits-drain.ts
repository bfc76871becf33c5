/** The numbers that the plumbing texts set for drains, dated, one reference per value. */
import { defineLimit } from "../core/basis/index.js";

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
