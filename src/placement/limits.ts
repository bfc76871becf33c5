/** The numbers that the placement texts set, dated, one reference per value. */
import { type DatedValue, defineLimit } from "../core/basis/index.js";
import type { UnitsOf } from "../core/quantity/index.js";
import type { MachineKind } from "../core/rule/index.js";

const laundry = ["dryer", "washer", "stack"] as const satisfies readonly MachineKind[];
const dryers = ["dryer", "stack"] as const satisfies readonly MachineKind[];
const tops = ["range", "cooktop"] as const satisfies readonly MachineKind[];

/** A habit of the trade for several kinds of machine. */
const habit = (
  kinds: readonly MachineKind[],
  value: readonly [number, UnitsOf<"length">],
  note: string,
  when: Readonly<Record<string, string>> = {},
): DatedValue[] =>
  kinds.map((kind) => ({ text: "practice", value, confirmed: "practice", when: { kind, ...when }, note }));

/**
 * Clearance of a listed household dryer to combustible material where its listing gives no less. NFPA 54, dryer clause,
 * which the uniform mechanical code repeats; from memory, and no published copy of the figure was found.
 */
const uniformDryer: DatedValue[] = dryers.map((kind) => ({
  text: "umc",
  from: 2015,
  section: "905.0",
  value: [6, "in"],
  confirmed: "memory",
  when: { kind },
  note: "Clearance of a listed household dryer to combustible material, unless its listing allows less.",
}));

/** Free space beside the machine, on each side. */
export const sideClearance = defineLimit({
  id: "placement/clearances.side",
  title: "Free space on each side of the machine",
  subject: "mechanical",
  kind: "inches",
  sense: "atLeast",
  maker: "replaces",
  values: [...uniformDryer, ...habit(laundry, [1, "in"], "At least 1 in at the sides in a closet or cabinet.")],
});

/** The texts on combustible material above a cooking top; `overhead` says whether it is protected. */
const cookingTop = (overhead: "combustible" | "protected", values: readonly DatedValue[]): DatedValue[] =>
  values.flatMap((value) => tops.map((kind) => ({ ...value, when: { kind, overhead } })));

/** Free space above the machine. */
export const topClearance = defineLimit({
  id: "placement/clearances.top",
  title: "Free space above the machine",
  subject: "mechanical",
  kind: "inches",
  sense: "atLeast",
  maker: "replaces",
  values: [
    ...cookingTop("combustible", [
      { text: "irc", from: 2006, to: 2015, section: "M1901.1", value: [30, "in"], confirmed: "memory" },
      { text: "irc", from: 2018, to: 2018, section: "M1901.1", value: [30, "in"], confirmed: "seen" },
      { text: "irc", from: 2021, section: "M1901.1", value: [30, "in"], confirmed: "memory" },
      { text: "ircFuelGas", from: 2006, section: "G2447.5", value: [30, "in"], confirmed: "memory" },
      { text: "ifgc", from: 2006, section: "623.7", value: [30, "in"], confirmed: "memory" },
      { text: "umc", from: 2015, section: "920.3.2", value: [30, "in"], confirmed: "secondary" },
      { text: "practice", value: [30, "in"], confirmed: "practice" },
    ]),
    ...cookingTop("protected", [
      { text: "irc", from: 2006, to: 2015, section: "M1901.1", value: [30, "in"], confirmed: "memory" },
      { text: "irc", from: 2018, to: 2018, section: "M1901.1", value: [30, "in"], confirmed: "seen" },
      { text: "irc", from: 2021, section: "M1901.1", value: [30, "in"], confirmed: "memory" },
      { text: "ircFuelGas", from: 2006, section: "G2447.5", value: [24, "in"], confirmed: "memory" },
      { text: "ifgc", from: 2006, section: "623.7", value: [24, "in"], confirmed: "memory" },
      { text: "umc", from: 2015, section: "920.3.2", value: [24, "in"], confirmed: "secondary" },
      { text: "practice", value: [24, "in"], confirmed: "practice" },
    ]),
    ...uniformDryer,
    ...habit(laundry, [1, "in"], "At least 1 in on top in a closet or cabinet."),
  ],
});

/**
 * Free space from the machine's back to the wall. With the connections measured, what they take up counts, and the habit
 * of 5 in, which stands for an elbow, hoses and a cord, does not.
 */
export const behindClearance = defineLimit({
  id: "placement/clearances.behind",
  title: "Free space behind the machine",
  subject: "mechanical",
  kind: "inches",
  sense: "atLeast",
  maker: "replaces",
  values: [
    ...uniformDryer,
    ...habit(laundry, [5, "in"], "At least 5 in from machine to wall, for elbow, hoses and cord.", {
      connections: "assumed",
    }),
    ...habit(laundry, [1, "in"], "At least 1 in where nothing stands behind.", { connections: "measured" }),
  ],
});

/** Free space between the front of a machine and the closed door of its closet. */
export const closetFront = defineLimit({
  id: "placement/clearances.front",
  title: "Free space between the machine and a closed closet door",
  subject: "mechanical",
  kind: "inches",
  sense: "atLeast",
  maker: "replaces",
  values: habit(laundry, [1, "in"], "At least 1 in, beside the depth of knobs and door bulge."),
});

/** How a closet door lets air through: whether a plain one is ruled out. */
export const closetDoorOpen = defineLimit({
  id: "placement/clearances.closet-door",
  title: "A closet door lets air through, louvred or open at top and bottom",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "replaces",
  values: laundry.map((kind) => ({
    text: "practice",
    value: kind !== "washer",
    confirmed: "practice",
    when: { kind },
    note: "A closet door is louvred, or open at top and bottom. How large the openings must be is a matter of the air the machine needs.",
  })),
});

/** Level space in front of the controls for whoever services the machine: each of depth and width. */
export const workingSpace = defineLimit({
  id: "placement/clearances.working-space",
  title: "Level working space in front of the machine, deep and wide",
  subject: "mechanical",
  kind: "inches",
  sense: "atLeast",
  maker: "tightens",
  values: [
    { text: "irc", from: 2006, to: 2006, section: "M1305.1", value: [30, "in"], confirmed: "secondary" },
    { text: "irc", from: 2009, section: "M1305.1", value: [30, "in"], confirmed: "memory" },
    { text: "imc", from: 2006, section: "306.1", value: [30, "in"], confirmed: "memory" },
    { text: "practice", value: [30, "in"], confirmed: "practice" },
  ],
});

/** How far the door of a room must open. */
export const roomDoorOpening = defineLimit({
  id: "placement/door-swing.room-door",
  title: "How far the door of the room opens",
  subject: "mechanical",
  kind: "angle",
  sense: "atLeast",
  maker: "tightens",
  values: [
    {
      text: "practice",
      value: [90, "deg"],
      confirmed: "practice",
      note: "Square to its frame, where its clear width is measured.",
    },
  ],
});

/** Thread that stays engaged in the machine's base, as a multiple of the thread's diameter. */
export const threadEngagement = defineLimit({
  id: "placement/level-feet.engagement",
  title: "Thread of a foot that must stay engaged, in diameters",
  subject: "mechanical",
  kind: "ratio",
  sense: "atLeast",
  maker: "replaces",
  values: [
    {
      text: "practice",
      value: [1, "1"],
      confirmed: "practice",
      when: { base: "steel" },
      note: "One diameter in steel; full bolt strength in equal steel needs 0.69 to 0.73.",
    },
    {
      text: "practice",
      value: [1.5, "1"],
      confirmed: "practice",
      when: { base: "softer" },
      note: "One and a half diameters in cast iron, brass, aluminium or plastic.",
    },
  ],
});

/** How far from level a machine may stand. */
export const levelWithin = defineLimit({
  id: "placement/level-feet.level",
  title: "How far from level a machine may stand",
  subject: "mechanical",
  kind: "angle",
  sense: "atMost",
  maker: "replaces",
  values: [
    {
      text: "practice",
      value: [0.5, "deg"],
      confirmed: "practice",
      note: "Half a degree, or about 1/8 in across the cabinet.",
    },
  ],
});

const rooms = { sleeping: 30, other: 40, garage: 50 } as const;

/** Load that the floor of a room is designed for, beside its own weight. */
export const floorLoad = defineLimit({
  id: "placement/floor.load",
  title: "Live load the floor of a room is designed for",
  subject: "mechanical",
  kind: "floorLoad",
  sense: "atMost",
  maker: "tightens",
  values: Object.entries(rooms).flatMap(([room, psf]): DatedValue[] => [
    {
      text: "irc",
      from: 2006,
      to: 2018,
      section: "Table R301.5",
      value: [psf, "psf"],
      confirmed: "secondary",
      when: { room },
    },
    { text: "irc", from: 2021, section: "Table R301.5", value: [psf, "psf"], confirmed: "memory", when: { room } },
    {
      text: "practice",
      value: [psf, "psf"],
      confirmed: "practice",
      when: { room },
      note: "The load of the residential code, where no other text speaks.",
    },
  ]),
});

/** Tilt from upright at which a machine must still not fall over. */
export const stableTilt = defineLimit({
  id: "placement/stability.tilt",
  title: "Tilt at which a free-standing machine must still not fall over",
  subject: "mechanical",
  kind: "angle",
  sense: "atLeast",
  maker: "tightens",
  values: [
    {
      text: "practice",
      value: [10, "deg"],
      confirmed: "practice",
      note: "The slope of the stability test of IEC 60335-1, clause 20.1, taken as a measure for the place.",
    },
  ],
});

/** Fixings that hold a machine against tipping. */
export const tipFixing = defineLimit({
  id: "placement/stability.fixing",
  title: "A fixing against tipping: anti-tip device of a range, joining kit of a stacked pair",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "replaces",
  values: (["range", "stack"] as const).map((kind) => ({
    text: "practice",
    value: true,
    confirmed: "practice",
    when: { kind },
    note: "Makers supply the device with the machine and call for it in the instructions.",
  })),
});

/** One measure of the working space before a panel; up to 150 V to ground, which household supplies are. */
const panelSpace = (stem: string, title: string, value: readonly [number, UnitsOf<"length">], section: string) =>
  defineLimit({
    id: `placement/clearance-envelope.${stem}`,
    title,
    subject: "electrical",
    kind: "inches",
    sense: "atLeast",
    maker: "tightens",
    values: [
      { text: "nec", from: 2014, to: 2023, section, value, confirmed: "secondary" },
      { text: "nec", from: 2026, section, value, confirmed: "memory" },
      { text: "practice", value, confirmed: "practice" },
    ],
  });

/** Depth of the working space in front of a panel. */
export const panelDepth = panelSpace("panel-depth", "Clear depth in front of a panel", [36, "in"], "110.26(A)(1)");
/** Width of the working space in front of a panel, or the panel's own where that is more. */
export const panelWidth = panelSpace("panel-width", "Clear width in front of a panel", [30, "in"], "110.26(A)(2)");
/** Height of the working space in front of a panel. */
export const panelHeight = panelSpace("panel-height", "Clear height in front of a panel", [78, "in"], "110.26(A)(3)");
