import * as z from "zod";
import { brand, type Length, si } from "../core/quantity/index.js";
import { defineRule, type Proposal, quantity } from "../core/rule/index.js";
import { stockLengths } from "./basis.js";
import { stockHoses_ft } from "./tables/supply.js";
import { takesWater, waterFacts, waterQuestion } from "./water.js";

export const hoseReachInput = z.strictObject({
  ...waterFacts,
  legs: z
    .array(quantity("length", { min: [0.5, "in"], max: [50, "ft"] }))
    .max(12)
    .optional()
    .describe(
      "Straight legs of the hose's way in order, from the end of the valve to the machine's inlet, corner to corner",
    ),
  hose: quantity("length", { min: [0.5, "ft"], max: [100, "ft"] })
    .optional()
    .describe("Length of the fitted hose from coupling to coupling, one hose in one piece"),
  pullOut: quantity("length", { max: [10, "ft"] })
    .optional()
    .describe(
      "How far the machine must come forward with the hose on it, so that a hand reaches the valves; 0 in where they are reached from in front",
    ),
  bendRadius: quantity("length", { min: [0.25, "in"], max: [2, "ft"] })
    .optional()
    .describe("Least bend radius of the hose, from its tag or sheet"),
});

/**
 * Hose length needed to follow a route of straight legs and still let the machine be drawn out [m].
 *
 * need = Σ legs + pull. The legs meet at corners; a hose rounds each right-angled corner and takes (2 − π/2)·r less than
 * the legs, which is left as slack.
 *
 * @param legs - straight legs in order [m]
 * @param pullOut - how far the machine comes forward with the hose on [m]
 * @example hoseNeeded([si(2, "ft"), si(3, "ft")], si(18, "in")) // 1.9812
 */
export function hoseNeeded(legs: readonly Length[], pullOut: Length): Length {
  return brand<"length">(legs.reduce<number>((sum, leg) => sum + leg, pullOut));
}

/** The leg that leaves its bends the least room, with how many bends it shares. */
export interface TightLeg {
  readonly leg: Length;
  readonly bends: 1 | 2;
  /** Largest bend radius that fits [m]. */
  readonly room: Length;
}

/**
 * The tightest leg of a route whose legs meet at right angles: a bend of radius r takes r of the leg on either side of
 * its corner, so an end leg must hold one radius and a leg between two corners must hold two.
 *
 * @param legs - two legs or more [m]
 * @example tightestLeg([si(6, "in"), si(6, "in"), si(3, "ft")]).bends // 2
 */
export function tightestLeg(legs: readonly Length[]): TightLeg {
  const candidates = legs.map((leg, i): TightLeg => {
    const bends = i === 0 || i === legs.length - 1 ? 1 : 2;
    return { leg, bends, room: brand<"length">(leg / bends) };
  });
  return candidates.reduce((least, one) => (one.room < least.room ? one : least));
}

const remedies = { longer: "Fit a hose of {hose:length} in one piece; do not join two." } as const;

/**
 * The inlet hose reaches with slack to draw the machine out, and no bend is too tight.
 *
 * A rule; its page is `docs/rules/plumbing/hose-reach.md`.
 */
export const hoseReach = defineRule({
  id: "plumbing/hose-reach",
  title: "The inlet hose reaches with slack to draw the machine out, and no bend is too tight",
  since: "0.1.0",
  input: hoseReachInput,
  basis: [stockLengths],
  limits: [],
  messages: {
    pass: {
      reaches: "The {hose:length} hose covers the {need:length} its way takes.",
      roomToBend: "The tightest corner has room for a bend of {room:inches}; the hose needs {radius:inches}.",
    },
    fail: {
      tooShort: "The {hose:length} hose is {lack:length} short of the {need:length} needed.",
      kinks:
        "The tightest corner has room for a bend of only {room:inches}; the hose needs {radius:inches} and will kink there.",
    },
    review: {
      waterUnknown: "Say whether the machine takes water.",
      routeUnknown: "The hose's way was not measured.",
      hoseUnknown: "The hose was not measured.",
      pullUnknown: "How far the machine must come forward with the hose on was not measured.",
      radiusUnknown: "The hose turns corners, and its least bend radius is not known.",
    },
    notApplicable: { noWater: "This machine takes no water." },
  },
  remedies,
  cautions: ["water", "scald", "movingConnected", "deferral"],
  examples: [
    {
      title: "Two feet down and a foot and a half across",
      input: { kind: "washer", legs: ["2 ft", "18 in"], hose: "5 ft", pullOut: "18 in", bendRadius: "3 in" },
      gives: "reaches",
    },
    {
      title: "A steam dryer beyond the washer on a 5 ft hose",
      input: {
        kind: "dryer",
        steam: true,
        legs: ["14 in", "2 ft 8 in", "10 in"],
        hose: "5 ft",
        pullOut: "2 ft",
        bendRadius: "3 in",
      },
      gives: "tooShort",
    },
    {
      title: "A machine pushed close to the wall",
      input: { kind: "washer", legs: ["2 in", "3 ft"], hose: "6 ft", pullOut: "1 ft", bendRadius: "3 in" },
      gives: "kinks",
    },
    { title: "A dryer of which nobody said whether it steams", input: { kind: "dryer" }, gives: "waterUnknown" },
    { title: "Route not measured", input: { kind: "washer", hose: "5 ft" }, gives: "routeUnknown" },
    { title: "Hose not measured", input: { kind: "washer", legs: ["3 ft"] }, gives: "hoseUnknown" },
    {
      title: "Room to draw out not measured",
      input: { kind: "washer", legs: ["3 ft"], hose: "5 ft" },
      gives: "pullUnknown",
    },
    {
      title: "Bend radius not known",
      input: { kind: "washer", legs: ["1 ft", "2 ft"], hose: "5 ft", pullOut: "1 ft" },
      gives: "radiusUnknown",
    },
    { title: "A dry dryer", input: { kind: "dryer", steam: false }, gives: "noWater" },
  ],
  check({ kind, steam, supply, legs, hose, pullOut, bendRadius }, { all, formula, judge, missing, say }) {
    const wet = takesWater({ kind, steam, supply });
    if (wet === false) return say("noWater");
    if (wet === undefined) return missing(["waterUnknown"], [waterQuestion(kind)]);

    const reach = () => {
      const hasRoute = legs !== undefined && legs.length > 0;
      if (!hasRoute || hose === undefined || pullOut === undefined) {
        return all(
          hasRoute ? undefined : missing(["routeUnknown"], ["legs"]),
          hose === undefined ? missing(["hoseUnknown"], ["hose"]) : undefined,
          pullOut === undefined ? missing(["pullUnknown"], ["pullOut"]) : undefined,
        );
      }
      const need = hoseNeeded(legs, pullOut);
      const route = hoseNeeded(legs, brand<"length">(0));
      formula("{need:length} = {route:length} + {pullOut:length}", { need, route, pullOut });
      return judge({
        kind: "length",
        measured: hose,
        limit: need,
        sense: "atLeast",
        pass: ["reaches", { hose, need }],
        fail: ["tooShort", { hose, need, lack: brand<"length">(need - hose) }],
      });
    };

    const bend = () => {
      if (legs === undefined || legs.length < 2) return undefined;
      if (bendRadius === undefined) return missing(["radiusUnknown"], ["bendRadius"]);
      const { leg, bends, room } = tightestLeg(legs);
      formula("{room:inches} = {leg:inches} / {bends:count}", { room, leg, bends });
      return judge({
        kind: "inches",
        measured: room,
        limit: bendRadius,
        sense: "atLeast",
        pass: ["roomToBend", { room, radius: bendRadius }],
        fail: ["kinks", { room, radius: bendRadius }],
      });
    };
    return all(reach(), bend());
  },
  mend({ legs = [], pullOut }) {
    if (pullOut === undefined) return [];
    const need = hoseNeeded(legs, pullOut);
    const proposals: Proposal<typeof remedies>[] = [];
    for (const feet of stockHoses_ft) {
      const hose = si(feet, "ft");
      if (hose >= need && proposals.length === 0) {
        proposals.push({ change: [{ path: ["hose"], value: hose, unit: "ft" }], say: ["longer", { hose }] });
      }
    }
    return proposals;
  },
});
