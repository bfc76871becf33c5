import * as z from "zod";
import { brand } from "../core/quantity/index.js";
import { defineRule, type Proposal, quantity } from "../core/rule/index.js";
import { developedLength, elbowInput, reckon } from "./developed.js";
import { dryerFacts, noDuctExamples, noDuctMessages, withoutDuct } from "./dryer.js";
import { ductLengthInput } from "./duct-length.js";
import { plainLength } from "./lengths.js";
import { elbowAllowance, elbowsIncluded } from "./limits.js";
import { labelFromLength, labelWhereConcealed, labelWithin } from "./limits-duties.js";
import { allGood, valueAt } from "./lookup.js";

export const lengthLabelInput = z.strictObject({
  ...dryerFacts,
  straight: ductLengthInput.shape.straight,
  elbows: z.array(elbowInput).max(20).optional().describe("Elbows of the run by kind; an empty list where it has none"),
  concealed: z.boolean().optional().describe("Whether any of the duct runs inside a wall, floor or ceiling"),
  fitted: z.boolean().optional().describe("Whether a permanent label or tag states the duct's equivalent length"),
  distance: quantity("length", { max: [500, "ft"] })
    .optional()
    .describe("Distance from the label to the place where the machine's duct joins"),
});

const remedies = {
  hang: "Fix a permanent label with the equivalent length within {limit:length} of the connection.",
} as const;

/**
 * A label tells the duct's equivalent length where one is called for.
 *
 * A rule; its page is `docs/rules/venting/length-label.md`.
 */
export const lengthLabel = defineRule({
  id: "venting/length-label",
  title: "A label tells the duct's equivalent length where one is called for",
  since: "0.1.0",
  input: lengthLabelInput,
  basis: [],
  limits: [labelWhereConcealed, labelFromLength, labelWithin, elbowAllowance, elbowsIncluded],
  messages: {
    pass: {
      inPlace: "The label is {distance:length} from the duct's connection, at most {limit:length}.",
      shortRun: "The equivalent length of {developed:length} is not above {limit:length}; no label is called for.",
    },
    fail: {
      noLabel: "The equivalent length of {developed:length} is above {limit:length}: a permanent label must tell it.",
      noLabelConcealed: "The duct is concealed: a permanent label must tell its equivalent length.",
      tooFar: "The label is {distance:length} from the duct's connection; it must be within {limit:length}.",
    },
    review: {
      concealedUnknown: "Whether the duct is concealed was not said.",
      runUnknown: "The run was not measured: the label hangs on its equivalent length.",
      labelUnknown: "A label is called for; nobody has looked for one yet.",
      noAllowance: "No text adopted here says what an elbow adds to the equivalent length; ask the local authority.",
      placeUnknown: "The place of the label was not measured.",
    },
    notApplicable: {
      ...noDuctMessages,
      inTheOpen: "The duct is not concealed; no label is called for.",
      notAsked: "The text adopted here asks for no length label.",
    },
  },
  remedies,
  cautions: ["fire", "deferral"],
  examples: [
    {
      title: "A long run on the maker's chart, with its label",
      input: {
        fuel: "electric",
        straight: "42 ft",
        elbows: [{ radius: "4 in mitred", angle: "90°", count: 2 }],
        fitted: true,
        distance: "2 ft",
      },
      gives: "inPlace",
    },
    { title: "A short run", input: { fuel: "electric", straight: "18 ft", elbows: [] }, gives: "shortRun" },
    {
      title: "A long run without a label",
      input: { fuel: "electric", straight: "42 ft", elbows: [], fitted: false },
      gives: "noLabel",
    },
    {
      title: "A short concealed run under the older text",
      input: { fuel: "electric", concealed: true, fitted: false },
      at: { jurisdiction: { adopted: { irc: 2012 } } },
      gives: "noLabelConcealed",
    },
    {
      title: "A label in the next room",
      input: { fuel: "electric", straight: "42 ft", elbows: [], fitted: true, distance: "9 ft" },
      gives: "tooFar",
    },
    {
      title: "Older text, concealment not said",
      input: { fuel: "electric" },
      at: { jurisdiction: { adopted: { irc: 2009 } } },
      gives: "concealedUnknown",
    },
    { title: "Run not measured", input: { fuel: "electric", straight: "42 ft" }, gives: "runUnknown" },
    {
      title: "Nobody looked for a label",
      input: { fuel: "electric", straight: "42 ft", elbows: [] },
      gives: "labelUnknown",
    },
    {
      title: "Label seen, its place not measured",
      input: { fuel: "electric", straight: "42 ft", elbows: [], fitted: true },
      gives: "placeUnknown",
    },
    {
      title: "A local label rule on a text without a table of elbows",
      input: { fuel: "electric", straight: "42 ft", elbows: [{ radius: "4 in mitred", angle: "90°", count: 1 }] },
      at: {
        jurisdiction: {
          adopted: { imc: 2006, ifgc: 2006 },
          building: "multifamily",
          local: [
            { limit: "venting/length-label.from-length", value: "35 ft", citation: { document: "City ordinance 12" } },
          ],
        },
      },
      gives: "noAllowance",
    },
    {
      title: "A duct in the open under the older text",
      input: { fuel: "electric", concealed: false },
      at: { jurisdiction: { adopted: { irc: 2012 } } },
      gives: "inTheOpen",
    },
    {
      title: "The uniform code",
      input: { fuel: "electric", straight: "42 ft", elbows: [] },
      at: { jurisdiction: { adopted: { umc: 2018 } } },
      gives: "notAsked",
    },
    ...noDuctExamples,
  ],
  check({ kind, fuel, exhaust, straight, elbows, concealed, fitted, distance }, ask) {
    const { limit, formula, judge, missing, say } = ask;
    const exempt = withoutDuct(kind, exhaust);
    if (exempt) return say(...exempt);
    const from = limit(labelFromLength, fuel);
    const byHiding = limit(labelWhereConcealed, fuel)?.value === 1;

    if (!from && !byHiding) return say("notAsked");
    if (!from) {
      if (concealed === undefined) return missing(["concealedUnknown"], ["concealed"]);
      if (!concealed) return say("inTheOpen");
      if (fitted === false) return say("noLabelConcealed");
    } else {
      if (straight === undefined) return missing(["runUnknown"], ["straight"]);
      if (elbows === undefined) return missing(["runUnknown"], ["elbows"]);
      const reckoned = reckon(elbows, fuel, ask);
      if (!reckoned) return say("noAllowance");
      const { deductions } = reckoned;
      const fittings = plainLength(developedLength(brand<"length">(0), deductions));
      const developed = plainLength(developedLength(straight, deductions));
      formula("{developed:length} = {straight:length} + {fittings:length}", { developed, straight, fittings });
      const slots = { developed, limit: brand<"length">(from.value) };
      const run = judge({
        kind: "length",
        measured: developed,
        limit: from,
        pass: ["shortRun", slots],
        fail: ["noLabel", slots],
      });
      if (allGood(run) || fitted === false) return run;
    }
    if (fitted === undefined) return missing(["labelUnknown"], ["fitted"]);
    if (distance === undefined) return missing(["placeUnknown"], ["distance"]);
    // A habit of the trade stands behind every text, so there always is a value.
    const within = limit(labelWithin, fuel)!;
    const slots = { distance, limit: brand<"length">(within.value) };
    return judge({
      kind: "length",
      measured: distance,
      limit: within,
      pass: ["inPlace", slots],
      fail: ["tooFar", slots],
    });
  },
  mend({ fuel }, at) {
    const limit = valueAt(at, labelWithin, fuel);
    if (limit === undefined) return [];
    const proposal: Proposal<typeof remedies> = {
      change: [
        { path: ["fitted"], value: true },
        { path: ["distance"], value: limit, unit: "ft" },
      ],
      say: ["hang", { limit: brand<"length">(limit) }],
    };
    return [proposal];
  },
});
