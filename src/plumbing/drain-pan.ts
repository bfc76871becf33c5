import * as z from "zod";
import { brand, si } from "../core/quantity/index.js";
import { defineRule, machineFacts, type Proposal, quantity } from "../core/rule/index.js";
import { panDepth, panOutlet, panRequired } from "./limits-drain.js";
import { stockPan } from "./tables/drain.js";

export const drainPanInput = z.strictObject({
  kind: machineFacts.kind,
  roomBelow: z
    .boolean()
    .optional()
    .describe("Whether a finished room, a ceiling or someone else's home lies under the machine"),
  pan: z.boolean().optional().describe("Whether a drain pan is under the machine"),
  depth: quantity("length", { max: [12, "in"] })
    .optional()
    .describe("Depth of the pan inside"),
  outlet: quantity("length", { max: [6, "in"] })
    .optional()
    .describe("Nominal size of the pan's outlet; 0 in where it has none"),
  ends: z
    .enum(["floorDrain", "outdoors", "standpipe", "nowhere", "directToDrain"])
    .optional()
    .describe(
      "Where the pan's outlet leads: to a floor drain, outdoors, into an approved standpipe box, nowhere, or straight into a drain",
    ),
});

const remedies = {
  pan: "Set the machine in a pan {depth:inches} deep with a {outlet:inches} outlet led to a floor drain or outdoors.",
} as const;

/** A leak from the washer is caught and led away. A rule; its page is `docs/rules/plumbing/drain-pan.md`. */
export const drainPan = defineRule({
  id: "plumbing/drain-pan",
  title: "A leak from the washer is caught and led away",
  since: "0.1.0",
  input: drainPanInput,
  basis: [],
  limits: [panRequired, panDepth, panOutlet],
  messages: {
    pass: {
      panFitted: "A drain pan is under the machine.",
      notCalledFor: "No room lies below, and no text adopted here asks for a pan.",
      deepEnough: "The pan is {depth:inches} deep; {least:inches} or more is usual.",
      outletEnough: "The pan's outlet is {outlet:inches}; {least:inches} or more is usual.",
      ledAway: "The outlet leads to where a leak is seen and does no harm.",
    },
    fail: {
      panCalledFor: "A leak would reach what lies below, and there is no drain pan.",
      tooShallow: "The pan is {depth:inches} deep; {least:inches} or more is usual.",
      outletNarrow: "The pan's outlet is {outlet:inches}; {least:inches} or more is usual.",
      endsNowhere: "The pan's outlet leads nowhere; the pan fills and runs over.",
      joinedToDrain:
        "The pan's outlet is joined straight to a drain; sewer gas and waste can come back through it. It should end in the open above a floor drain, or outdoors.",
    },
    review: {
      belowUnknown: "Say what lies under the machine.",
      panUnknown: "Nobody looked for a drain pan.",
      depthUnknown: "The depth of the pan was not measured.",
      outletUnknown: "The outlet of the pan was not measured.",
      endsUnknown: "Nobody looked where the pan's outlet leads.",
    },
    notApplicable: { noTub: "Pans are asked for under washers only." },
  },
  remedies,
  cautions: ["water", "lifting", "deferral"],
  examples: [
    {
      title: "An upstairs laundry with a pan",
      input: { kind: "washer", roomBelow: true, pan: true, depth: "2.5 in", outlet: "1 in", ends: "floorDrain" },
      gives: "panFitted",
    },
    {
      title: "An upstairs laundry without one",
      input: { kind: "washer", roomBelow: true, pan: false },
      gives: "panCalledFor",
    },
    { title: "A slab on grade", input: { kind: "washer", roomBelow: false, pan: false }, gives: "notCalledFor" },
    {
      title: "A water-heater pan under a washer",
      input: { kind: "washer", roomBelow: true, pan: true, depth: "1.5 in", outlet: "0.75 in", ends: "nowhere" },
      gives: "tooShallow",
    },
    {
      title: "A pan piped straight into a drain",
      input: { kind: "stack", roomBelow: true, pan: true, depth: "2.5 in", outlet: "1 in", ends: "directToDrain" },
      gives: "joinedToDrain",
    },
    { title: "Nobody looked", input: { kind: "washer", roomBelow: true }, gives: "panUnknown" },
    { title: "Nothing known", input: { kind: "washer" }, gives: "belowUnknown" },
    { title: "A pan not measured", input: { kind: "washer", roomBelow: true, pan: true }, gives: "depthUnknown" },
    { title: "A dryer", input: { kind: "dryer" }, gives: "noTub" },
  ],
  check({ kind, roomBelow, pan, depth, outlet, ends }, { all, judge, limit, missing, say }) {
    if (kind !== "washer" && kind !== "stack") return say("noTub");
    if (roomBelow === undefined) return missing(["belowUnknown"], ["roomBelow"]);
    if (pan === undefined) return missing(["panUnknown"], ["pan"]);
    const required = limit(panRequired, "none", { roomBelow })?.value === 1;
    if (!pan) return say(required ? "panCalledFor" : "notCalledFor");

    const deep = () => {
      if (depth === undefined) return missing(["depthUnknown"], ["depth"]);
      const least = limit(panDepth);
      return (
        least &&
        judge({
          kind: "inches",
          measured: depth,
          limit: least,
          pass: ["deepEnough", { depth, least: brand<"length">(least.value) }],
          fail: ["tooShallow", { depth, least: brand<"length">(least.value) }],
        })
      );
    };
    const wide = () => {
      if (outlet === undefined) return missing(["outletUnknown"], ["outlet"]);
      const least = limit(panOutlet);
      return (
        least &&
        judge({
          kind: "inches",
          measured: outlet,
          limit: least,
          pass: ["outletEnough", { outlet, least: brand<"length">(least.value) }],
          fail: ["outletNarrow", { outlet, least: brand<"length">(least.value) }],
        })
      );
    };
    const led = () => {
      if (ends === undefined) return missing(["endsUnknown"], ["ends"]);
      if (ends === "nowhere") return say("endsNowhere");
      return say(ends === "directToDrain" ? "joinedToDrain" : "ledAway");
    };
    return all(say("panFitted"), deep(), wide(), led());
  },
  mend() {
    const depth = si(stockPan.depth_in, "in");
    const outlet = si(stockPan.outlet_in, "in");
    const proposals: Proposal<typeof remedies>[] = [
      {
        change: [
          { path: ["pan"], value: true },
          { path: ["depth"], value: depth, unit: "in" },
          { path: ["outlet"], value: outlet, unit: "in" },
          { path: ["ends"], value: "floorDrain" },
        ],
        say: ["pan", { depth, outlet }],
      },
    ];
    return proposals;
  },
});
