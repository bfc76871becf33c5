import * as z from "zod";
import type { Limit } from "../core/basis/index.js";
import { brand } from "../core/quantity/index.js";
import { defineRule, type Proposal, quantity, type RuleExample } from "../core/rule/index.js";
import { dryerFacts, noDuctExamples, noDuctMessages, withoutDuct } from "./dryer.js";
import {
  transitionLength,
  transitionListed,
  transitionOpen,
  transitionPieces,
  transitionRound,
} from "./limits-construction.js";
import { allGood, Unseen, valueAt } from "./lookup.js";

export const transitionDuctInput = z.strictObject({
  ...dryerFacts,
  pieces: z
    .int()
    .min(0)
    .max(20)
    .optional()
    .describe("Lengths of flexible duct between machine and rigid duct; 0 where the rigid duct meets the machine"),
  length: quantity("length", { max: [100, "ft"] })
    .optional()
    .describe("Length of the transition duct, stretched as fitted"),
  listed: z.boolean().optional().describe("Whether it is listed and labelled for dryers, UL 2158A"),
  concealed: z.boolean().optional().describe("Whether any of it runs inside a wall, floor, ceiling or cabinet back"),
  crushed: z.boolean().optional().describe("Whether it is crushed or kinked with the machine in its place"),
});

const remedies = { replace: "Fit one listed length of at most {limit:length}, in the open, without a kink." } as const;

/**
 * The transition duct behind the machine is short, listed, in one piece, in the open and round.
 *
 * A rule; its page is `docs/rules/venting/transition-duct.md`.
 */
export const transitionDuct = defineRule({
  id: "venting/transition-duct",
  title: "The transition duct behind the machine is short, listed, in one piece, in the open and round",
  since: "0.1.0",
  input: transitionDuctInput,
  basis: [],
  limits: [transitionLength, transitionPieces, transitionListed, transitionOpen, transitionRound],
  messages: {
    pass: {
      sound: "The transition duct is in order.",
      shortEnough: "The {length:length} transition duct is at most {limit:length}.",
      onePiece: "The transition duct is one length.",
      isListed: "The transition duct is listed for dryers.",
      inTheOpen: "The transition duct is not concealed.",
      isRound: "The transition duct is neither crushed nor kinked.",
    },
    fail: {
      tooLong: "The {length:length} transition duct is {over:length} longer than the {limit:length} allowed.",
      joined: "{pieces:count} lengths are joined; the transition duct must be one length.",
      notListed: "The transition duct must be listed and labelled for dryers (UL 2158A).",
      hidden: "The transition duct must not be concealed; rigid duct runs inside walls.",
      crushedDuct: "The transition duct is crushed or kinked; lint gathers there and the machine runs hot.",
    },
    review: { unseen: "Not yet looked at: {what:text}." },
    notApplicable: { ...noDuctMessages, none: "The rigid duct meets the machine; there is no transition duct." },
  },
  remedies,
  cautions: ["fire", "deferral"],
  examples: ((): RuleExample<z.input<typeof transitionDuctInput>>[] => {
    const good = {
      fuel: "electric",
      pieces: 1,
      length: "5 ft",
      listed: true,
      concealed: false,
      crushed: false,
    } as const;
    return [
      { title: "A 5 ft listed transition duct", input: good, gives: "sound" },
      { title: "A 9 ft transition duct", input: { ...good, length: "9 ft" }, gives: "tooLong" },
      { title: "Two lengths joined", input: { ...good, pieces: 2 }, gives: "joined" },
      { title: "Vinyl hose", input: { ...good, listed: false }, gives: "notListed" },
      { title: "Flexible duct in a wall", input: { ...good, concealed: true }, gives: "hidden" },
      { title: "A duct flattened behind the machine", input: { ...good, crushed: true }, gives: "crushedDuct" },
      { title: "Nothing looked at yet", input: { fuel: "electric" }, gives: "unseen" },
      { title: "Rigid duct up to the machine", input: { fuel: "electric", pieces: 0 }, gives: "none" },
      ...noDuctExamples,
    ];
  })(),
  check({ kind, fuel, exhaust, pieces, length, listed, concealed, crushed }, { limit, judge, missing, say, all }) {
    const exempt = withoutDuct(kind, exhaust);
    if (exempt) return say(...exempt);
    if (pieces === 0) return say("none");
    const unseen = new Unseen();
    const needed = (requirement: Limit): boolean => limit(requirement, fuel)?.value === 1;
    const longest = limit(transitionLength, fuel);
    const most = limit(transitionPieces, fuel);
    const parts = all(
      longest &&
        (length === undefined
          ? unseen.note("length", "length")
          : judge({
              kind: "length",
              measured: length,
              limit: longest,
              pass: ["shortEnough", { length, limit: brand<"length">(longest.value) }],
              fail: [
                "tooLong",
                {
                  length,
                  limit: brand<"length">(longest.value),
                  over: brand<"length">(length - longest.value),
                },
              ],
            })),
      most &&
        (pieces === undefined
          ? unseen.note("how many pieces", "pieces")
          : judge({ kind: "count", measured: pieces, limit: most, pass: ["onePiece"], fail: ["joined", { pieces }] })),
      needed(transitionListed)
        ? listed === undefined
          ? unseen.note("listing", "listed")
          : listed
            ? say("isListed")
            : say("notListed")
        : undefined,
      needed(transitionOpen)
        ? concealed === undefined
          ? unseen.note("whether it is concealed", "concealed")
          : concealed
            ? say("hidden")
            : say("inTheOpen")
        : undefined,
      needed(transitionRound)
        ? crushed === undefined
          ? unseen.note("kinks and flat places", "crushed")
          : crushed
            ? say("crushedDuct")
            : say("isRound")
        : undefined,
    );
    const rest = unseen.names.length > 0 ? missing(["unseen", { what: unseen.names.join(", ") }], ...unseen.paths) : [];
    const whole = all(parts, rest);
    return allGood(whole) ? all(say("sound"), whole) : whole;
  },
  mend({ fuel, length }, at) {
    const limit = valueAt(at, transitionLength, fuel);
    if (limit === undefined) return [];
    const fixed =
      length !== undefined && length > limit ? [{ path: ["length"], value: limit, unit: "ft" as const }] : [];
    const proposal: Proposal<typeof remedies> = {
      change: [
        ...fixed,
        { path: ["pieces"], value: 1 },
        { path: ["listed"], value: true },
        { path: ["concealed"], value: false },
        { path: ["crushed"], value: false },
      ],
      say: ["replace", { limit: brand<"length">(limit) }],
    };
    return [proposal];
  },
});
