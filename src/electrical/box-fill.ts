import * as z from "zod";
import { type AwgSize, awgSizes, brand, compareConductors, si, type Volume } from "../core/quantity/index.js";
import { defineRule, type Proposal, quantity, type Read } from "../core/rule/index.js";
import { lookUp } from "../core/table/index.js";
import { gaugeNumber } from "./gauge.js";
import { quarterGrounds } from "./limits-box.js";
import { allowances, barrierVolumes, conductorVolume, metalBoxes } from "./tables/box-fill.js";

const size = z.enum(awgSizes).describe("Size of the conductors");
const sized = z.strictObject({ size, count: z.int().min(1).max(100).describe("How many of this size") });
type MetalBox = keyof typeof metalBoxes;

export const boxFillInput = z.strictObject({
  box: z
    .strictObject({
      marked: quantity("volume", { min: [1, "in3"], max: [500, "in3"] })
        .optional()
        .describe("Volume marked in the box, with rings and covers that are marked too"),
      metal: z
        .enum(Object.keys(metalBoxes) as [MetalBox, ...MetalBox[]])
        .optional()
        .describe("Standard metal box without a marking: its size across and its depth"),
      barriers: z
        .array(z.enum(["metal", "nonmetallic"]))
        .max(10)
        .optional()
        .describe("Barriers in the box that are not marked with their volume"),
    })
    .optional()
    .describe("The box and what it is marked with"),
  conductors: z
    .array(sized)
    .max(20)
    .optional()
    .describe("Lines and neutrals that enter the box, spliced or passing through; pigtails inside do not count"),
  loops: z.array(sized).max(20).optional().describe("Of these, unbroken loops at least 12 in long, which count twice"),
  grounds: z
    .array(sized)
    .max(20)
    .optional()
    .describe("Grounding conductors that enter the box; an empty list where there are none"),
  isolatedGrounds: z.array(sized).max(20).optional().describe("Grounding conductors of isolated-ground receptacles"),
  devices: z
    .array(
      z.strictObject({
        size: size.describe("Largest conductor connected to this device"),
        gangs: z.int().min(1).max(6).optional().describe("Gangs it takes; one where left out"),
      }),
    )
    .max(20)
    .optional()
    .describe("Receptacles and switches in the box, one entry for each yoke; an empty list where there are none"),
  clamps: z.boolean().optional().describe("Whether cable clamps are inside the box"),
  supports: z.int().min(0).max(2).optional().describe("Kinds of support inside: stud, hickey; none where left out"),
});

type Input = Read<z.output<typeof boxFillInput>>;
/** Conductors by size and count. */
export type Sized = readonly { readonly size: AwgSize; readonly count: number }[];

/** What lies in a box. */
export interface BoxContents {
  readonly conductors: Sized;
  readonly loops: Sized;
  readonly grounds: Sized;
  readonly isolatedGrounds: Sized;
  readonly devices: readonly { readonly size: AwgSize; readonly gangs?: number | undefined }[];
  readonly clamps: boolean;
  readonly supports: number;
}

/** The volumes that make up the need [m³]. */
export interface BoxNeed {
  readonly conductors: Volume;
  readonly clamps: Volume;
  readonly supports: Volume;
  readonly devices: Volume;
  readonly grounds: Volume;
  readonly need: Volume;
}

/** Volume for one conductor [m³]; throws for a size that boxes are not counted for. */
function volumeOf(size: AwgSize): number {
  const volume = lookUp(conductorVolume, gaugeNumber(size));
  if (volume === undefined) throw new RangeError(`boxes are not counted by volume for ${size}`);
  return volume;
}

const largestOf = (sizes: readonly AwgSize[]): AwgSize | undefined => sizes.toSorted(compareConductors).at(-1);
const countOf = (all: Sized): number => all.reduce((sum, { count }) => sum + count, 0);
const sizesOf = (all: Sized): AwgSize[] => all.map(({ size }) => size);

/**
 * Allowances for grounding conductors, in volumes of the largest of them [-]: one for all; with the rule of 2020 one for
 * the first four and a quarter for each further one.
 *
 * @param count - grounding conductors that enter, 0 or more
 * @param quarters - whether the rule of 2020 holds
 * @basis NEC 2020, 314.16(B)(5)
 * @example groundAllowance(6, true) // 1.5
 */
export function groundAllowance(count: number, quarters: boolean): number {
  if (count === 0) return 0;
  const further = quarters ? Math.max(0, count - allowances.groundsInOne) : 0;
  return allowances.grounds + allowances.furtherGround * further;
}

/**
 * Volume that the contents of a box need [m³].
 *
 * need = Σ conductors + clamps + supports + Σ devices + grounds, each in volumes of the conductor it goes by: clamps and
 * supports by the largest in the box, a device by the largest connected to it, grounds by the largest ground.
 *
 * @param contents - sizes 18 to 6 AWG
 * @param quarters - whether grounding conductors from the fifth on count a quarter
 * @throws RangeError for larger conductors
 * @basis NEC 2020, 314.16(B)
 */
export function boxNeed(contents: BoxContents, quarters: boolean): BoxNeed {
  const { conductors, loops, grounds, isolatedGrounds, devices, clamps, supports } = contents;
  const sum = (all: Sized) => all.reduce((total, one) => total + one.count * volumeOf(one.size), 0);
  const largest = largestOf([
    ...sizesOf(conductors),
    ...sizesOf(grounds),
    ...sizesOf(isolatedGrounds),
    ...devices.map((one) => one.size),
  ]);
  const one = largest === undefined ? 0 : volumeOf(largest);
  const groundVolume = (all: Sized): number => {
    const thick = largestOf(sizesOf(all));
    return thick === undefined ? 0 : groundAllowance(countOf(all), quarters) * volumeOf(thick);
  };
  const part = {
    // a loop is among the conductors once already
    conductors: sum(conductors) + sum(loops),
    clamps: clamps ? allowances.clamps * one : 0,
    supports: supports * allowances.support * one,
    devices: devices.reduce((total, { size, gangs = 1 }) => total + allowances.device * gangs * volumeOf(size), 0),
    grounds: groundVolume(grounds) + groundVolume(isolatedGrounds),
  };
  const need = part.conductors + part.clamps + part.supports + part.devices + part.grounds;
  return { ...part, need } as { [K in keyof BoxNeed]: Volume };
}

/** Most standard boxes that are offered in place of one that is too small. */
const BOXES_OFFERED = 3;

/** Volume that unmarked barriers take [m³]. */
const barriersOf = (box: Input["box"]): number =>
  (box?.barriers ?? []).reduce((sum, kind) => sum + si(barrierVolumes[kind], "in3"), 0);

/** Volume that a box offers [m³]: what is marked, else the standard one, less its barriers. */
function volumeOffered(box: Input["box"]): Volume | undefined {
  const whole = box?.marked ?? (box?.metal === undefined ? undefined : si(metalBoxes[box.metal], "in3"));
  if (whole === undefined) return undefined;
  return brand<"volume">(Math.max(0, whole - barriersOf(box)));
}

const remedies = {
  largerBox: "Fit a {metal:text} box of {volume:volume}.",
  largerMarked: "Fit a box marked {volume:volume} or more.",
} as const;

/** The box has the volume for what is in it. A rule; its page is `docs/rules/electrical/box-fill.md`. */
export const boxFill = defineRule({
  id: "electrical/box-fill",
  title: "The box has the volume for what is in it",
  since: "0.1.0",
  input: boxFillInput,
  basis: [],
  limits: [quarterGrounds],
  messages: {
    pass: { fits: "The box's {box:volume} holds the {need:volume} that its contents need; {room:volume} is left." },
    fail: { tooSmall: "The box's {box:volume} is {lack:volume} short of the {need:volume} that its contents need." },
    review: {
      conductorsUnknown: "The conductors in the box were not counted.",
      groundsUnknown: "The grounding conductors in the box were not counted.",
      devicesUnknown: "The receptacles and switches in the box were not listed.",
      clampsUnknown: "Whether there are cable clamps inside the box was not noted.",
      boxUnknown: "The contents need {need:volume}; the volume of the box was not noted.",
      pullBox:
        "Conductors larger than 6 AWG are not counted by volume: the box is sized by its raceways (NEC 314.28), which is not done here.",
      noRule:
        "No text adopted here is known to set a volume for each conductor; leave room to fold them in without force, and ask the local authority.",
    },
    notApplicable: { noBox: "Nothing was noted of a box; none is opened or chosen in this job." },
  },
  remedies,
  cautions: ["mains", "deferral"],
  examples: [
    {
      title: "Two cables, a clamp and a receptacle at Alder Row",
      input: {
        box: { marked: "18 in3" },
        conductors: [{ size: "12 AWG", count: 3 }],
        grounds: [{ size: "12 AWG", count: 2 }],
        devices: [{ size: "12 AWG" }],
        clamps: true,
      },
      gives: "fits",
    },
    {
      title: "A dryer receptacle in a shallow box",
      input: {
        box: { metal: "4 x 1 1/4 in square" },
        conductors: [{ size: "10 AWG", count: 3 }],
        grounds: [{ size: "10 AWG", count: 1 }],
        devices: [{ size: "10 AWG", gangs: 2 }],
        clamps: true,
      },
      gives: "tooSmall",
    },
    {
      title: "A marked box that is too small",
      input: {
        box: { marked: "16 in3", barriers: ["nonmetallic"] },
        conductors: [{ size: "12 AWG", count: 6 }],
        grounds: [{ size: "12 AWG", count: 6 }],
        devices: [{ size: "12 AWG" }],
        clamps: false,
      },
      gives: "tooSmall",
    },
    { title: "No box in this job", input: {}, gives: "noBox" },
    { title: "Nothing counted", input: { box: { marked: "20 in3" } }, gives: "conductorsUnknown" },
    {
      title: "Grounds not counted",
      input: { conductors: [{ size: "12 AWG", count: 4 }], devices: [], clamps: false },
      gives: "groundsUnknown",
    },
    {
      title: "Devices not listed",
      input: { conductors: [{ size: "12 AWG", count: 4 }], grounds: [], clamps: false },
      gives: "devicesUnknown",
    },
    {
      title: "Clamps not noted",
      input: { conductors: [{ size: "12 AWG", count: 4 }], grounds: [], devices: [] },
      gives: "clampsUnknown",
    },
    {
      title: "Box not known",
      input: { conductors: [{ size: "12 AWG", count: 4 }], grounds: [], devices: [], clamps: false },
      gives: "boxUnknown",
    },
    {
      title: "A feeder in a junction box",
      input: { conductors: [{ size: "4 AWG", count: 3 }], grounds: [], devices: [], clamps: false },
      gives: "pullBox",
    },
    {
      title: "A site under another code",
      input: { conductors: [{ size: "12 AWG", count: 4 }], grounds: [], devices: [], clamps: false },
      at: { jurisdiction: { adopted: { iec60364: 2017 } } },
      gives: "noRule",
    },
  ],
  check(input, ask) {
    const { all, assume, formula, judge, limit, missing, say } = ask;
    const { conductors, grounds, devices, clamps, box } = input;
    if (Object.values(input).every((field) => field === undefined)) return say("noBox");
    const quarters = limit(quarterGrounds);
    if (!quarters) return say("noRule");
    if (conductors === undefined || grounds === undefined || devices === undefined || clamps === undefined) {
      return all(
        conductors === undefined ? missing(["conductorsUnknown"], ["conductors"]) : undefined,
        grounds === undefined ? missing(["groundsUnknown"], ["grounds"]) : undefined,
        devices === undefined ? missing(["devicesUnknown"], ["devices"]) : undefined,
        clamps === undefined ? missing(["clampsUnknown"], ["clamps"]) : undefined,
      );
    }
    const contents = contentsOf(input)!;
    if (sizesIn(contents).some((one) => compareConductors(one, "6 AWG") > 0)) return say("pullBox");
    if (input.supports === undefined) assume("No stud or hickey was named: none is counted.");

    for (const one of [...new Set(sizesIn(contents))].toSorted(compareConductors)) {
      ask.lookUp(conductorVolume, gaugeNumber(one), "number", "volume");
    }
    const total = boxNeed(contents, quarters.value === 1);
    const further = countOf(contents.grounds) - allowances.groundsInOne;
    const thick = largestOf(sizesOf(contents.grounds));
    if (quarters.value === 1 && further > 0 && thick !== undefined && contents.isolatedGrounds.length === 0) {
      const each = brand<"volume">(volumeOf(thick));
      formula("{grounds:volume} = {each:volume} * (1 + {further:count} / 4)", {
        grounds: total.grounds,
        each,
        further,
      });
    }
    const { need, supports, ...parts } = total;
    formula(
      "{need:volume} = {conductors:volume} + {clamps:volume} + {supports:volume} + {devices:volume} + {grounds:volume}",
      { need, supports, ...parts },
    );
    const offered = volumeOffered(box);
    if (offered === undefined) return missing(["boxUnknown", { need }], ["box", "marked"], ["box", "metal"]);
    return judge({
      kind: "volume",
      measured: need,
      limit: offered,
      sense: "atMost",
      pass: ["fits", { box: offered, need, room: brand<"volume">(offered - need) }],
      fail: ["tooSmall", { box: offered, need, lack: brand<"volume">(need - offered) }],
    });
  },
  mend(input, at) {
    const contents = contentsOf(input);
    const quarters = at.governing(quarterGrounds, "none", {});
    if (!contents || !quarters) return [];
    const { box } = input;
    const { need } = boxNeed(contents, quarters.value === 1);
    // barriers take their volume from any box
    const whole = need + barriersOf(box);
    if (box?.marked !== undefined) {
      const volume = si(Math.ceil((2 * whole) / si(1, "in3") - 1e-9) / 2, "in3");
      return [
        { change: [{ path: ["box", "marked"], value: volume, unit: "in3" }], say: ["largerMarked", { volume }] },
      ] satisfies Proposal<typeof remedies>[];
    }
    return Object.entries(metalBoxes)
      .filter(([, inches]) => si(inches, "in3") >= whole * (1 - 1e-9))
      .toSorted((a, b) => a[1] - b[1])
      .slice(0, BOXES_OFFERED)
      .map(([metal, inches]): Proposal<typeof remedies> => {
        const volume = si(inches, "in3");
        return { change: [{ path: ["box", "metal"], value: metal }], say: ["largerBox", { metal, volume }] };
      });
  },
});

/** The contents, where all that must be known is. */
function contentsOf(input: Input): BoxContents | undefined {
  const { conductors, grounds, devices, clamps } = input;
  if (conductors === undefined || grounds === undefined || devices === undefined || clamps === undefined) return;
  const { loops = [], isolatedGrounds = [], supports = 0 } = input;
  return { conductors, loops, grounds, isolatedGrounds, devices, clamps, supports };
}

const sizesIn = ({ conductors, loops, grounds, isolatedGrounds, devices }: BoxContents): AwgSize[] => [
  ...sizesOf(conductors),
  ...sizesOf(loops),
  ...sizesOf(grounds),
  ...sizesOf(isolatedGrounds),
  ...devices.map((one) => one.size),
];
