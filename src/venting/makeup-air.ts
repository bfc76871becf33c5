import * as z from "zod";
import { brand } from "../core/quantity/index.js";
import { defineRule, machineFacts, type Proposal } from "../core/rule/index.js";
import { dryerFacts, noDuctExamples, noDuctMessages, withoutDuct } from "./dryer.js";
import { makeupThreshold } from "./limits-air.js";
import { allGood } from "./lookup.js";

export const makeupAirInput = z.strictObject({
  ...dryerFacts,
  exhaustRate: machineFacts.exhaustRate,
  dryers: z.int().min(1).max(50).optional().describe("Dryers of this kind that can run at once; one where left out"),
  madeUp: z
    .boolean()
    .optional()
    .describe("Whether make-up air comes to the dryer: an opening to outdoors, a duct, or a fan that starts with it"),
});

const remedies = { bring: "Bring make-up air to the dryer, about as much as it exhausts." } as const;

/**
 * Make-up air comes to the dryer where its exhaust calls for it.
 *
 * A rule; its page is `docs/rules/venting/makeup-air.md`.
 */
export const makeupAir = defineRule({
  id: "venting/makeup-air",
  title: "Make-up air comes to the dryer where its exhaust calls for it",
  since: "0.1.0",
  input: makeupAirInput,
  basis: [],
  limits: [makeupThreshold],
  messages: {
    pass: {
      little: "The exhaust of {exhaust:volumeFlow} is not above {limit:volumeFlow}; no make-up air is called for.",
      broughtIn: "Make-up air comes to the dryer.",
    },
    fail: {
      starved: "The exhaust of {exhaust:volumeFlow} is above {limit:volumeFlow}: make-up air must come to the dryer.",
    },
    review: {
      rateUnknown: "The air that the dryer exhausts was not given; it stands on the maker's sheet.",
      makeupUnknown: "Make-up air is called for; nobody has looked for it yet.",
    },
    notApplicable: {
      ...noDuctMessages,
      notAsked: "The text adopted here names no exhaust rate for make-up air; the maker's instructions still do.",
    },
  },
  remedies,
  cautions: ["carbonMonoxide", "fire", "deferral"],
  examples: [
    {
      title: "A gas dryer that exhausts 180 cfm",
      input: { fuel: "naturalGas", exhaustRate: "180 cfm" },
      gives: "little",
    },
    {
      title: "A strong gas dryer with an opening to outdoors",
      input: { fuel: "naturalGas", exhaustRate: "225 cfm", madeUp: true },
      gives: "broughtIn",
    },
    {
      title: "Two gas dryers in one room without make-up air",
      input: { fuel: "naturalGas", exhaustRate: "150 cfm", dryers: 2, madeUp: false },
      gives: "starved",
    },
    { title: "Exhaust rate not given", input: { fuel: "naturalGas" }, gives: "rateUnknown" },
    {
      title: "Nobody looked for make-up air",
      input: { fuel: "naturalGas", exhaustRate: "225 cfm" },
      gives: "makeupUnknown",
    },
    {
      title: "An electric dryer under the residential code's general chapter",
      input: { fuel: "electric", exhaustRate: "225 cfm" },
      gives: "notAsked",
    },
    ...noDuctExamples,
  ],
  check({ kind, fuel, exhaust, exhaustRate, dryers = 1, madeUp }, { limit, formula, judge, missing, say, assume }) {
    const exempt = withoutDuct(kind, exhaust);
    if (exempt) return say(...exempt);
    const threshold = limit(makeupThreshold, fuel);
    if (!threshold) return say("notAsked");
    if (madeUp) return say("broughtIn");
    if (exhaustRate === undefined) return missing(["rateUnknown"], ["exhaustRate"]);
    const total = brand<"volumeFlow">(exhaustRate * dryers);
    if (dryers > 1) {
      formula("{total:volumeFlow} = {dryers:count} * {each:volumeFlow}", { total, dryers, each: exhaustRate });
    } else assume("One dryer exhausts from the room.");
    const slots = { exhaust: total, limit: brand<"volumeFlow">(threshold.value) };
    const judged = judge({
      kind: "volumeFlow",
      measured: total,
      limit: threshold,
      pass: ["little", slots],
      fail: ["starved", slots],
    });
    return allGood(judged) || madeUp === false ? judged : missing(["makeupUnknown"], ["madeUp"]);
  },
  mend() {
    const proposal: Proposal<typeof remedies> = { change: [{ path: ["madeUp"], value: true }], say: ["bring"] };
    return [proposal];
  },
});
