import * as z from "zod";
import { atLeast, atMost, type Length, si } from "../core/quantity/index.js";
import { defineRule, type Outcome, type Proposal, quantity } from "../core/rule/index.js";
import { strainHeld } from "./limits-strain.js";
import { knockoutBasis, knockouts, type TradeSize } from "./tables/knockouts.js";

const trades = Object.keys(knockouts) as [TradeSize, ...TradeSize[]];
const diameter = () => quantity("length", { min: [1, "mm"], max: [100, "mm"] }).optional();

export const strainReliefInput = z.strictObject({
  hardWired: z.boolean().optional().describe("Whether the machine is wired in without cord and plug"),
  fitted: z.boolean().optional().describe("Whether a clamp holds the cord where it enters the machine"),
  cordDiameter: diameter().describe("Outside diameter of the cord's jacket; of a flat cord the larger way across"),
  clampLeast: diameter().describe("Least cord that the clamp's packing or sheet names"),
  clampMost: diameter().describe("Largest cord that the clamp's packing or sheet names"),
  trade: z.enum(trades).optional().describe("Trade size of the clamp's connector"),
  knockout: diameter().describe("Diameter of the hole in the machine, by caliper"),
  holds: z
    .boolean()
    .optional()
    .describe("Whether the jacket stays put in the clamp under a firm pull, power off and plug out"),
});

/**
 * The trade size whose connector a hole is made for, or `undefined` where none is.
 *
 * @param hole - diameter of the hole [m]
 * @example tradeSizeOf(si(1.12, "in")) // "3/4 in"
 */
export function tradeSizeOf(hole: Length): TradeSize | undefined {
  return trades.find((trade) => {
    const { least_in, most_in } = knockouts[trade];
    return atLeast(hole, si(least_in, "in")) && atMost(hole, si(most_in, "in"));
  });
}

const remedies = {
  otherTrade: "Fit a clamp for the same cord with a connector of trade size {trade:text}.",
} as const;

/** A clamp with nothing wrong, for the examples. */
const good = {
  fitted: true,
  cordDiameter: "0.72 in",
  clampLeast: "0.6 in",
  clampMost: "0.85 in",
  trade: "3/4 in",
  knockout: "1.11 in",
  holds: true,
} as const;

/**
 * The cord is held where it enters the machine, by a clamp that fits cord and hole.
 *
 * A rule; its page is `docs/rules/electrical/strain-relief.md`.
 */
export const strainRelief = defineRule({
  id: "electrical/strain-relief",
  title: "The cord is held where it enters the machine, by a clamp that fits cord and hole",
  since: "0.1.0",
  input: strainReliefInput,
  basis: [],
  limits: [strainHeld],
  messages: {
    pass: {
      grips: "The cord's {cord:thickness} is within the {least:thickness} to {most:thickness} that the clamp is for.",
      fitsHole: "The hole of {hole:thickness} takes a connector of trade size {trade:text}.",
      held: "The jacket stays put under a firm pull.",
    },
    fail: {
      notFitted: "Nothing holds the cord where it enters the machine: a pull reaches the terminals.",
      tooThin:
        "The cord's {cord:thickness} is too thin for the clamp, which is for {least:thickness} and more: it slips.",
      tooThick:
        "The cord's {cord:thickness} is too thick for the clamp, which is for {most:thickness} at most: it is crushed.",
      holeSmall:
        "The hole of {hole:thickness} is too small for a connector of trade size {trade:text}, which wants {least:thickness} to {most:thickness}. Do not file it.",
      holeLarge:
        "The hole of {hole:thickness} is too large for a connector of trade size {trade:text}, which wants {least:thickness} to {most:thickness}: its locknut does not hold.",
      slips: "The jacket slips in the clamp under a firm pull; the clamp must hold the jacket, not the single wires.",
    },
    review: {
      fittedUnknown: "Whether a clamp holds the cord was not noted.",
      cordUnknown: "The cord's diameter was not measured.",
      rangeCrossed: "The least cord of the clamp is larger than its largest; read its packing again.",
      rangeUnknown: "The cords that the clamp is for were not noted.",
      tradeUnknown: "The trade size of the clamp's connector was not noted.",
      holeUnknown: "The hole in the machine was not measured; its trade size is not its diameter.",
      pullUnknown: "The cord was not pulled to see whether it holds.",
    },
    notApplicable: { wiredIn: "The machine is wired in; it has no cord to hold." },
  },
  remedies,
  cautions: ["mains", "deferral"],
  examples: [
    { title: "A dryer cord in a 3/4 in clamp", input: good, gives: "grips" },
    { title: "The same, its hole", input: good, gives: "fitsHole" },
    { title: "The same, pulled", input: good, gives: "held" },
    { title: "A cord that comes in through the bare hole", input: { fitted: false }, gives: "notFitted" },
    {
      title: "A three-wire cord in a clamp for a thicker one",
      input: { ...good, cordDiameter: "0.5 in" },
      gives: "tooThin",
    },
    { title: "A range cord in a dryer's clamp", input: { ...good, cordDiameter: "1.05 in" }, gives: "tooThick" },
    { title: "A 3/4 in clamp at a half-inch hole", input: { ...good, knockout: "0.88 in" }, gives: "holeSmall" },
    { title: "A 3/4 in clamp in a 1 in hole", input: { ...good, knockout: "1.38 in" }, gives: "holeLarge" },
    { title: "A clamp on the single wires", input: { ...good, holds: false }, gives: "slips" },
    { title: "A range read the wrong way round", input: { ...good, clampLeast: "0.9 in" }, gives: "rangeCrossed" },
    { title: "Clamp not looked at", input: { cordDiameter: "0.72 in" }, gives: "fittedUnknown" },
    { title: "Only that there is a clamp", input: { fitted: true }, gives: "cordUnknown" },
    { title: "The same, its range", input: { fitted: true }, gives: "rangeUnknown" },
    { title: "The same, its trade size", input: { fitted: true }, gives: "tradeUnknown" },
    { title: "The same, the hole", input: { fitted: true, trade: "3/4 in" }, gives: "holeUnknown" },
    { title: "The same, the pull", input: { fitted: true }, gives: "pullUnknown" },
    { title: "A machine wired in", input: { hardWired: true }, gives: "wiredIn" },
  ],
  check({ hardWired, fitted, cordDiameter, clampLeast, clampMost, trade, knockout, holds }, ask) {
    const { all, judge, limit, missing, rest, say } = ask;
    if (hardWired) return say("wiredIn");
    limit(strainHeld);
    if (fitted === undefined) return missing(["fittedUnknown"], ["fitted"]);
    if (!fitted) return say("notFitted");

    const grip = (): Outcome => {
      if (cordDiameter === undefined || clampLeast === undefined || clampMost === undefined) {
        return all(
          cordDiameter === undefined ? missing(["cordUnknown"], ["cordDiameter"]) : undefined,
          clampLeast === undefined || clampMost === undefined
            ? missing(["rangeUnknown"], ["clampLeast"], ["clampMost"])
            : undefined,
        );
      }
      if (!atMost(clampLeast, clampMost)) return missing(["rangeCrossed"], ["clampLeast"], ["clampMost"]);
      const slots = { cord: cordDiameter, least: clampLeast, most: clampMost };
      return both(
        judge({
          kind: "thickness",
          measured: cordDiameter,
          limit: clampLeast,
          sense: "atLeast",
          pass: ["grips", slots],
          fail: ["tooThin", slots],
        }),
        judge({
          kind: "thickness",
          measured: cordDiameter,
          limit: clampMost,
          sense: "atMost",
          pass: ["grips", slots],
          fail: ["tooThick", slots],
        }),
      );
    };

    const hole = (): Outcome => {
      if (trade === undefined || knockout === undefined) {
        return all(
          trade === undefined ? missing(["tradeUnknown"], ["trade"]) : undefined,
          knockout === undefined ? missing(["holeUnknown"], ["knockout"]) : undefined,
        );
      }
      rest(knockoutBasis);
      const least = si(knockouts[trade].least_in, "in");
      const most = si(knockouts[trade].most_in, "in");
      const slots = { hole: knockout, trade, least, most };
      return both(
        judge({
          kind: "thickness",
          measured: knockout,
          limit: least,
          sense: "atLeast",
          pass: ["fitsHole", { hole: knockout, trade }],
          fail: ["holeSmall", slots],
        }),
        judge({
          kind: "thickness",
          measured: knockout,
          limit: most,
          sense: "atMost",
          pass: ["fitsHole", { hole: knockout, trade }],
          fail: ["holeLarge", slots],
        }),
      );
    };

    const pull = (): Outcome => {
      if (holds === undefined) return missing(["pullUnknown"], ["holds"]);
      return holds ? say("held") : say("slips");
    };

    return all(grip(), hole(), pull());
  },
  mend({ trade, knockout }) {
    const fits = knockout === undefined ? undefined : tradeSizeOf(knockout);
    if (fits === undefined || fits === trade) return [];
    return [{ change: [{ path: ["trade"], value: fits }], say: ["otherTrade", { trade: fits }] }] satisfies Proposal<
      typeof remedies
    >[];
  },
});

/** One statement from the two ends of a range: the end that does not hold, else the first. */
const both = (low: Outcome, high: Outcome): Outcome => (low.every(({ verdict }) => verdict === "pass") ? high : low);
