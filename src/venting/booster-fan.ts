import * as z from "zod";
import { defineRule, type Proposal } from "../core/rule/index.js";
import { dryerFacts, noDuctExamples, noDuctMessages, withoutDuct } from "./dryer.js";
import { ventilatorTaken } from "./limits.js";
import { boosterForbidden } from "./limits-duties.js";

export const boosterFanInput = z.strictObject({
  ...dryerFacts,
  fan: z
    .enum(["none", "power ventilator", "booster fan"])
    .optional()
    .describe("What fan is in the dryer's duct: a dryer exhaust duct power ventilator, any other fan, or none"),
  listed: z.boolean().optional().describe("Whether it is listed to UL 705 for dryer exhaust ducts"),
  asInstructed: z
    .boolean()
    .optional()
    .describe("Whether it stands as its instructions say: place, airflow switch, lint trap, access for cleaning"),
});

const remedies = {
  takeOut: "Take the fan out and bring the run within its length.",
  swap: "Put a listed dryer exhaust duct power ventilator in its place, as its instructions say.",
} as const;

/**
 * No fan is in the dryer's duct but a listed power ventilator.
 *
 * A rule; its page is `docs/rules/venting/booster-fan.md`.
 */
export const boosterFan = defineRule({
  id: "venting/booster-fan",
  title: "No fan is in the dryer's duct but a listed power ventilator",
  since: "0.1.0",
  input: boosterFanInput,
  basis: [],
  limits: [boosterForbidden, ventilatorTaken],
  messages: {
    pass: {
      noFan: "No fan is in the duct.",
      listedVentilator: "The fan is a listed dryer exhaust duct power ventilator, fitted as its instructions say.",
    },
    fail: {
      forbidden: "A booster fan must not be in a dryer's duct: lint stops it, and then it stops the air.",
      notListed: "The power ventilator is not listed for dryer exhaust ducts (UL 705); it must not stay.",
      wrongPlace: "The power ventilator must be fitted as its instructions say.",
    },
    review: {
      unknownFan: "Nobody has looked for a fan in the duct.",
      ventilatorUnknown: "The power ventilator's listing and fitting were not looked at.",
      notNamed: "The text adopted here does not name booster fans; the dryer's and the fan's instructions decide.",
      noRule: "The text adopted here has no rule for power ventilators; ask the local authority.",
    },
    notApplicable: noDuctMessages,
  },
  remedies,
  cautions: ["fire", "carbonMonoxide", "deferral"],
  examples: [
    { title: "A duct without a fan", input: { fuel: "electric", fan: "none" }, gives: "noFan" },
    {
      title: "A listed power ventilator",
      input: { fuel: "electric", fan: "power ventilator", listed: true, asInstructed: true },
      gives: "listedVentilator",
    },
    { title: "A booster fan", input: { fuel: "electric", fan: "booster fan" }, gives: "forbidden" },
    {
      title: "A ventilator that is not listed for dryers",
      input: { fuel: "electric", fan: "power ventilator", listed: false },
      gives: "notListed",
    },
    {
      title: "A ventilator without its airflow switch",
      input: { fuel: "electric", fan: "power ventilator", listed: true, asInstructed: false },
      gives: "wrongPlace",
    },
    { title: "Not looked for", input: { fuel: "electric" }, gives: "unknownFan" },
    {
      title: "A ventilator nobody has looked at",
      input: { fuel: "electric", fan: "power ventilator" },
      gives: "ventilatorUnknown",
    },
    {
      title: "A booster fan under a text that does not name it",
      input: { fuel: "electric", fan: "booster fan" },
      at: { jurisdiction: { adopted: { irc: 2015 } } },
      gives: "notNamed",
    },
    {
      title: "A power ventilator under a text from before there was a rule",
      input: { fuel: "electric", fan: "power ventilator", listed: true, asInstructed: true },
      at: { jurisdiction: { adopted: { irc: 2012 } } },
      gives: "noRule",
    },
    ...noDuctExamples,
  ],
  check({ kind, fuel, exhaust, fan, listed, asInstructed }, { limit, missing, say }) {
    const exempt = withoutDuct(kind, exhaust);
    if (exempt) return say(...exempt);
    if (fan === undefined) return missing(["unknownFan"], ["fan"]);
    const forbidden = limit(boosterForbidden, fuel)?.value === 1;
    if (fan === "none") return say("noFan");
    if (fan === "booster fan") return forbidden ? say("forbidden") : say("notNamed");
    if (listed === false) return say("notListed");
    if (asInstructed === false) return say("wrongPlace");
    if (listed === undefined) return missing(["ventilatorUnknown"], ["listed"]);
    if (asInstructed === undefined) return missing(["ventilatorUnknown"], ["asInstructed"]);
    return limit(ventilatorTaken, fuel)?.value === 1 ? say("listedVentilator") : say("noRule");
  },
  mend() {
    const proposals: Proposal<typeof remedies>[] = [
      { change: [{ path: ["fan"], value: "none" }], say: ["takeOut"] },
      {
        change: [
          { path: ["fan"], value: "power ventilator" },
          { path: ["listed"], value: true },
          { path: ["asInstructed"], value: true },
        ],
        say: ["swap"],
      },
    ];
    return proposals;
  },
});
