import * as z from "zod";
import { brand, si } from "../core/quantity/index.js";
import { defineRule, machineFacts, type Proposal, quantity } from "../core/rule/index.js";
import { airGapRequired, loopHeight, sharedTrap } from "./limits-drain.js";
import { underCounter_in } from "./tables/drain.js";

export const dishwasherDrainInput = z.strictObject({
  kind: machineFacts.kind,
  airGap: z
    .boolean()
    .optional()
    .describe("Whether the drain hose goes through a listed air-gap fitting with its flood mark above the sink's rim"),
  loop: quantity("length", { max: [6, "ft"] })
    .optional()
    .describe(
      "Highest point of the drain hose above the floor, under the counter; 0 in where it lies on the cabinet floor",
    ),
  fastened: z
    .boolean()
    .optional()
    .describe("Whether the hose is fastened at its highest point to the underside of the counter"),
  inlet: quantity("length", { max: [6, "ft"] })
    .optional()
    .describe("Height above the floor of the point where the hose joins the tailpiece or disposer"),
  trap: quantity("length", { min: [0.5, "in"], max: [4, "in"] })
    .optional()
    .describe("Nominal size of the trap that sink and dishwasher share"),
  joins: z
    .enum(["tailpieceWye", "disposer", "standpipe", "belowTrap"])
    .optional()
    .describe(
      "Where the hose joins: a wye on the tailpiece, the disposer's port, a standpipe, or the drain past the trap",
    ),
  plugOut: z.boolean().optional().describe("Whether the knock-out plug of the disposer's port has been taken out"),
});

const remedies = {
  loop: "Raise the hose to {loop:length} or more, right under the counter, and fasten it there.",
  airGap: "Fit a listed air-gap fitting beside the sink.",
  plug: "Knock the plug out of the disposer's port.",
} as const;

/** The dishwasher's drain cannot flow back into it. A rule; its page is `docs/rules/plumbing/dishwasher-drain.md`. */
export const dishwasherDrain = defineRule({
  id: "plumbing/dishwasher-drain",
  title: "The dishwasher's drain cannot flow back into it",
  since: "0.1.0",
  input: dishwasherDrainInput,
  basis: [],
  limits: [airGapRequired, loopHeight, sharedTrap],
  messages: {
    pass: {
      throughGap: "The drain goes through an air-gap fitting.",
      loopHigh: "The drain hose rises to {loop:length}, {least:length} or more.",
      loopAboveInlet: "The loop stands above the point where the hose joins the sink's drain.",
      loopFast: "The loop is fastened under the counter.",
      trapEnough: "Sink and dishwasher share a {trap:inches} trap.",
      joinsRight: "The hose joins before the sink's trap.",
      plugGone: "The disposer's port is open.",
    },
    fail: {
      gapCalledFor: "The code adopted here asks for a listed air-gap fitting; a raised loop alone is not accepted.",
      loopLow: "The drain hose rises to only {loop:length}; it should rise to {least:length} or more.",
      loopBelowInlet:
        "The loop's top, {loop:length}, is below the {inlet:length} where the hose joins: the sink drains into the machine.",
      loopLoose: "The loop is not fastened; it will sag.",
      trapNarrow: "Sink and dishwasher share a {trap:inches} trap; it must be {least:inches} or more.",
      pastTrap: "The hose joins the drain past the trap: sewer gas comes through the machine.",
      plugIn: "The plug is still in the disposer's port: the machine cannot drain.",
    },
    review: {
      gapUnknown: "Nobody looked for an air-gap fitting.",
      loopUnknown: "The height of the loop was not measured.",
      inletUnknown: "The height of the point where the hose joins was not measured.",
      fastenedUnknown: "Nobody looked whether the loop is fastened.",
      trapUnknown: "The size of the shared trap was not read.",
      joinsUnknown: "Nobody looked where the hose joins.",
      plugUnknown: "Nobody looked whether the disposer's plug was taken out.",
    },
    notApplicable: { noDishwasher: "Only a dishwasher drains this way." },
  },
  remedies,
  cautions: ["water", "scald", "deferral"],
  examples: [
    {
      title: "A high loop to a tailpiece wye",
      input: {
        kind: "dishwasher",
        airGap: false,
        loop: "32 in",
        inlet: "18 in",
        fastened: true,
        trap: "1.5 in",
        joins: "tailpieceWye",
      },
      gives: "loopHigh",
    },
    {
      title: "The same under a uniform code",
      input: {
        kind: "dishwasher",
        airGap: false,
        loop: "32 in",
        inlet: "18 in",
        fastened: true,
        trap: "1.5 in",
        joins: "tailpieceWye",
      },
      at: { jurisdiction: { adopted: { upc: 2021 } } },
      gives: "gapCalledFor",
    },
    {
      title: "An air gap, and the disposer's port open",
      input: { kind: "dishwasher", airGap: true, trap: "1.5 in", joins: "disposer", plugOut: true },
      at: { jurisdiction: { adopted: { upc: 2021 } } },
      gives: "throughGap",
    },
    {
      title: "A hose along the cabinet floor into a new disposer",
      input: {
        kind: "dishwasher",
        airGap: false,
        loop: "4 in",
        inlet: "17 in",
        fastened: false,
        trap: "1.25 in",
        joins: "disposer",
        plugOut: false,
      },
      gives: "loopLow",
    },
    {
      title: "A hose into the drain past the trap",
      input: { kind: "dishwasher", airGap: true, trap: "1.5 in", joins: "belowTrap" },
      gives: "pastTrap",
    },
    { title: "Nobody looked", input: { kind: "dishwasher" }, gives: "gapUnknown" },
    {
      title: "A loop not measured",
      input: { kind: "dishwasher", airGap: false, joins: "disposer" },
      gives: "loopUnknown",
    },
    {
      title: "A loop measured, the joint not",
      input: { kind: "dishwasher", airGap: false, loop: "32 in", joins: "disposer" },
      gives: "inletUnknown",
    },
    { title: "A washer", input: { kind: "washer" }, gives: "noDishwasher" },
  ],
  check({ kind, airGap, loop, fastened, inlet, trap, joins, plugOut }, { all, judge, limit, missing, say }) {
    if (kind !== "dishwasher") return say("noDishwasher");

    const rise = () => {
      if (airGap === undefined) return missing(["gapUnknown"], ["airGap"]);
      if (airGap) return say("throughGap");
      if (limit(airGapRequired)?.value === 1) return say("gapCalledFor");
      if (loop === undefined) return missing(["loopUnknown"], ["loop"]);
      const least = limit(loopHeight);
      return all(
        least &&
          judge({
            kind: "length",
            measured: loop,
            limit: least,
            pass: ["loopHigh", { loop, least: brand<"length">(least.value) }],
            fail: ["loopLow", { loop, least: brand<"length">(least.value) }],
          }),
        inlet === undefined
          ? missing(["inletUnknown"], ["inlet"])
          : judge({
              kind: "length",
              measured: loop,
              limit: inlet,
              sense: "atLeast",
              pass: ["loopAboveInlet"],
              fail: ["loopBelowInlet", { loop, inlet }],
            }),
        fastened === undefined ? missing(["fastenedUnknown"], ["fastened"]) : say(fastened ? "loopFast" : "loopLoose"),
      );
    };
    const bore = () => {
      const least = limit(sharedTrap);
      if (!least || joins === "standpipe") return undefined;
      if (trap === undefined) return missing(["trapUnknown"], ["trap"]);
      return judge({
        kind: "inches",
        measured: trap,
        limit: least,
        pass: ["trapEnough", { trap }],
        fail: ["trapNarrow", { trap, least: brand<"length">(least.value) }],
      });
    };
    const joint = () => {
      if (joins === undefined) return missing(["joinsUnknown"], ["joins"]);
      if (joins === "belowTrap") return say("pastTrap");
      if (joins !== "disposer") return say("joinsRight");
      if (plugOut === undefined) return missing(["plugUnknown"], ["plugOut"]);
      return all(say("joinsRight"), say(plugOut ? "plugGone" : "plugIn"));
    };
    return all(rise(), bore(), joint());
  },
  mend({ inlet }) {
    // Right under a 36 in counter; higher than the joint where that was measured.
    const loop = brand<"length">(Math.max(si(underCounter_in, "in"), inlet ?? 0));
    const raised = [
      { path: ["loop"], value: loop, unit: "in" as const },
      { path: ["fastened"], value: true },
    ];
    const plug = { path: ["plugOut"], value: true };
    const proposals: Proposal<typeof remedies>[] = [
      { change: [plug], say: ["plug"] },
      { change: raised, say: ["loop", { loop }] },
      { change: [{ path: ["airGap"], value: true }], say: ["airGap"] },
    ];
    return proposals;
  },
});
