import * as z from "zod";
import { brand, type Length, si } from "../core/quantity/index.js";
import { defineRule, machineFacts, type Proposal, quantity, type Read } from "../core/rule/index.js";
import { nextLargerElbow } from "./basis.js";
import { ductBaseLength, elbowAllowance, elbowsIncluded } from "./limits.js";
import { type ElbowRadius, elbowRadii } from "./tables/elbows.js";

export const elbowInput = z.strictObject({
  radius: z.enum(elbowRadii).describe("Centreline radius; an ordinary adjustable elbow is the mitred one"),
  angle: quantity("angle", { min: [1, "deg"], max: [90, "deg"] }).describe("Angle the elbow turns the duct through"),
  count: z.int().min(1).max(50).describe("How many of them"),
});

export const ductLengthInput = z.strictObject({
  fuel: machineFacts.fuel,
  exhaust: machineFacts.exhaust,
  straight: quantity("length", { max: [500, "ft"] })
    .optional()
    .describe("All straight duct added up along its centreline, from the transition duct to the outlet hood"),
  elbows: z.array(elbowInput).max(20).optional().describe("Elbows of the run by kind; an empty list where it has none"),
});

/** Deduction of one kind of elbow, and how many there are of it. */
export interface Deduction {
  readonly each: Length;
  readonly count: number;
}

/**
 * Developed length of a dryer exhaust duct [m]: straight duct and the code's deduction for every elbow.
 *
 * developed = straight + Σ count · each. A code's allowance, not a hydraulic equivalent length.
 *
 * @param straight - straight duct [m], 0 or more
 * @param deductions - each elbow's deduction [m] and count
 * @basis IRC 2021, M1502.4.6.1
 * @example developedLength(si(18, "ft"), [{ each: si(5, "ft"), count: 2 }]) // 8.5344
 */
export function developedLength(straight: Length, deductions: readonly Deduction[]): Length {
  return brand<"length">(deductions.reduce<number>((sum, { each, count }) => sum + each * count, straight));
}

/** The row of the fitting table that an angle falls under: itself or the next larger. */
const tableAngle = (angle: number): 45 | 90 => (angle <= si(45, "deg") * (1 + 1e-9) ? 45 : 90);

type Input = Read<z.output<typeof ductLengthInput>>;

/** Swaps every 90° elbow of a tighter radius for one of the given radius. */
function withRadius(elbows: NonNullable<Input["elbows"]>, radius: ElbowRadius): NonNullable<Input["elbows"]> {
  return elbows.map((elbow) => ({ ...elbow, radius }));
}

const remedies = {
  longRadius: "Use {radius:text} elbows in place of tighter ones.",
  fewerElbows: "Take out one 90° elbow.",
} as const;

export const ductLength = defineRule({
  id: "venting/duct-length",
  title: "The dryer's exhaust duct is no longer than allowed",
  since: "0.1.0",
  input: ductLengthInput,
  basis: [],
  limits: [ductBaseLength, elbowAllowance, elbowsIncluded],
  messages: {
    pass: { within: "The duct's developed length of {developed:length} is within the {allowed:length} allowed." },
    fail: {
      tooLong:
        "The duct's developed length of {developed:length} is {over:length} more than the {allowed:length} allowed.",
    },
    review: {
      straightUnknown: "The straight duct was not measured.",
      elbowsUnknown: "The elbows of the run were not listed.",
      noLimit:
        "No text adopted here gives a longest duct for this dryer; ask the local authority or use the maker's sheet.",
    },
    notApplicable: { noExhaust: "A ventless dryer has no exhaust duct." },
  },
  remedies,
  cautions: ["fire", "deferral"],
  examples: [
    {
      title: "A run of 18 ft with two ordinary elbows",
      input: { fuel: "electric", straight: "18 ft", elbows: [{ radius: "4 in mitred", angle: "90°", count: 2 }] },
      gives: "within",
    },
    {
      title: "A gas dryer with 28 ft and three elbows",
      input: { fuel: "naturalGas", straight: "28 ft", elbows: [{ radius: "4 in mitred", angle: "90°", count: 3 }] },
      gives: "tooLong",
    },
    { title: "Straight duct not measured", input: { fuel: "electric", elbows: [] }, gives: "straightUnknown" },
    { title: "Elbows not listed", input: { fuel: "electric", straight: "12 ft" }, gives: "elbowsUnknown" },
    {
      title: "A fuel-gas text from before the table",
      input: { fuel: "propane", straight: "12 ft", elbows: [] },
      at: { jurisdiction: { adopted: { ifgc: 2006, imc: 2006 }, building: "multifamily" } },
      gives: "noLimit",
    },
    { title: "A ventless dryer", input: { fuel: "electric", exhaust: "ventless" }, gives: "noExhaust" },
  ],
  check({ fuel, exhaust, straight, elbows }, { limit, rest, formula, judge, missing, say }) {
    if (exhaust === "ventless") return say("noExhaust");
    if (straight === undefined) return missing(["straightUnknown"], ["straight"]);
    if (elbows === undefined) return missing(["elbowsUnknown"], ["elbows"]);

    const base = limit(ductBaseLength, fuel);
    if (!base) return say("noLimit");
    let free = limit(elbowsIncluded, fuel)?.value ?? 0;
    const deductions: Deduction[] = [];
    for (const { radius, angle, count } of elbows) {
      const row = tableAngle(angle);
      const each = limit(elbowAllowance, fuel, { radius, angle: row });
      if (!each) return say("noLimit");
      if (Math.abs(angle - si(row, "deg")) > 1e-6) rest(nextLargerElbow);
      const taken = row === 90 ? Math.min(free, count) : 0;
      free -= taken;
      deductions.push({ each: brand<"length">(each.value), count: count - taken });
    }
    const fittings = brand<"length">(deductions.reduce((sum, { each, count }) => sum + each * count, 0));
    const developed = developedLength(straight, deductions);
    formula("{developed:length} = {straight:length} + {fittings:length}", { developed, straight, fittings });
    const allowed = brand<"length">(base.value);
    return judge({
      kind: "length",
      measured: developed,
      limit: base,
      pass: ["within", { developed, allowed }],
      fail: ["tooLong", { developed, allowed, over: brand<"length">(developed - allowed) }],
    });
  },
  mend({ elbows = [] }) {
    const proposals: Proposal<typeof remedies>[] = [];
    for (const radius of elbowRadii.slice(1)) {
      proposals.push({
        change: withRadius(elbows, radius).map((elbow, i) => ({ path: ["elbows", i, "radius"], value: elbow.radius })),
        say: ["longRadius", { radius }],
      });
    }
    const right = elbows.findIndex(({ angle, count }) => tableAngle(angle) === 90 && count > 1);
    if (right >= 0) {
      proposals.push({
        change: [{ path: ["elbows", right, "count"], value: elbows[right]!.count - 1 }],
        say: ["fewerElbows"],
      });
    }
    return proposals;
  },
});
