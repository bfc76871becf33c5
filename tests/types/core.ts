/**
 * What must and what must not compile. The type check of the tests is the test: a line marked as an error that
 * compiles is an error itself.
 */
import * as z from "zod";
import { defineLimit } from "../../src/core/basis/index.js";
import { atMost, brand, inUnit, type Length, type Quantity, si } from "../../src/core/quantity/index.js";
import { defineCalculator, defineRule, type Finding, quantity, type Read } from "../../src/core/rule/index.js";

// Quantities

const length: Length = si(22, "in");
// @ts-expect-error: a bare number is no length
const bare: Length = 22;
// @ts-expect-error: a pressure is no length
const pressure: Length = si(22, "psi");
// @ts-expect-error: a difference of temperatures is no temperature
const warm: Quantity<"temperature"> = si(10, "deltaF");
// @ts-expect-error: there is no such unit
si(22, "furlong");
// @ts-expect-error: a length is not shown in psi
inUnit(length, "psi");
// a branded number computes as a number
const sum: number = length + length;
// @ts-expect-error: and what was computed has to be branded again
const unbranded: Length = length + length;
atMost(length, brand<"length">(sum));

// Limits

const limit = defineLimit({
  id: "venting/types.limit",
  title: "A limit",
  subject: "mechanical",
  kind: "length",
  sense: "atMost",
  maker: "replaces",
  values: [
    { text: "irc", from: 2021, section: "1", value: [35, "ft"], confirmed: "seen" },
    // @ts-expect-error: there is no such text
    { text: "ircc", section: "1", value: [35, "ft"], confirmed: "seen" },
    // @ts-expect-error: there is no such confirmation
    { text: "irc", section: "1", value: [35, "ft"], confirmed: "certain" },
    // @ts-expect-error: a printed value has a known unit
    { text: "irc", section: "1", value: [35, "feet"], confirmed: "seen" },
  ],
});

// Rules

const input = z.strictObject({
  gap: quantity("length"),
  power: quantity("power").optional(),
  sides: z.array(z.strictObject({ name: z.string(), gap: quantity("length") })),
});

type Input = Read<z.output<typeof input>>;
const read = (given: Input): Length => given.sides[0]?.gap ?? given.gap;
// @ts-expect-error: what was read is a number, not a text
const text = (given: Input): string => given.gap;
// @ts-expect-error: what may be left out may be undefined
const power = (given: Input): Quantity<"power"> => given.power;

const facts = {
  id: "placement/types",
  title: "A rule",
  since: "0.1.0",
  input,
  basis: [],
  limits: [limit],
  cautions: [],
  examples: [],
} as const;
const messages = {
  pass: { wide: "The {gap:length} gap is wide." },
  fail: { narrow: "The gap is {lack:inches} short, {times:count} times." },
  review: { unknown: "The gap was not measured." },
} as const;

export const gap = defineRule({
  ...facts,
  messages,
  remedies: { move: "Move it by {by:inches}." },
  check: ({ gap: measured, power: load }, { say, judge, missing, limit: ask, formula }) => {
    // @ts-expect-error: there is no such message
    say("wider");
    // @ts-expect-error: a slot must be filled
    say("wide");
    // @ts-expect-error: with a value of its dimension
    say("wide", { gap: load });
    // @ts-expect-error: and not with a bare number
    say("wide", { gap: 5 });
    // @ts-expect-error: and with nothing beside
    say("wide", { gap: measured, more: 1 });
    // @ts-expect-error: only a review tells what is missing
    missing(["wide", { gap: measured }], ["gap"]);
    missing(["unknown"], ["gap"]);
    // @ts-expect-error: a formula's slots are typed too
    formula("{gap:length} = {load:power}", { gap: measured, load: measured });
    const governing = ask(limit);
    // @ts-expect-error: where no text speaks there is no limit
    governing.value;
    if (!governing) return say("unknown");
    judge({
      kind: "length",
      measured,
      limit: governing,
      // @ts-expect-error: a failing message cannot stand for a pass
      pass: ["narrow"],
      fail: ["narrow", { lack: measured, times: 1 }],
    });
    return judge({
      kind: "length",
      measured,
      limit: governing,
      pass: ["wide", { gap: measured }],
      fail: ["narrow", { lack: measured, times: 2 }],
    });
  },
  mend: ({ gap: measured }) => [
    { change: [{ path: ["gap"], value: measured, unit: "in" }], say: ["move", { by: measured }] },
  ],
});

// @ts-expect-error: a rule must say something
defineRule({ ...facts, messages, check: () => undefined });
defineRule({
  ...facts,
  messages,
  remedies: { move: "Move it by {by:inches}." },
  check: (_, { say }) => say("unknown"),
  // @ts-expect-error: there is no remedy of that name
  mend: () => [{ change: [], say: ["paint"] }],
});

const finding: Finding = gap({ gap: "5 in", sides: [] });
// @ts-expect-error: there is no "ok": a review must not read as a pass
finding.ok;
// @ts-expect-error: a finding is not changed
finding.verdict = "pass";
// a constant will do: nothing in it is changed
const constant = { gap: "5 in", sides: [{ name: "left", gap: "1 in" }] } as const;
gap(constant, { maker: [{ limit: "placement/types.limit", value: "1 in", citation: { document: "Sheet" } }] } as const);
// @ts-expect-error: a bare number has no unit
gap({ gap: 5, sides: [] });
// @ts-expect-error: what is needed cannot be left out
gap({ sides: [] });
// @ts-expect-error: there is no such field
gap({ gap: "5 in", sides: [], depth: "1 in" });
// @ts-expect-error: nor such an edition system
gap({ gap: "5 in", sides: [] }, { units: "imperial" });

const tried = gap.try({ anything: true });
// @ts-expect-error: a result has to be looked at before its finding is used
tried.finding.verdict;
if (tried.ok) tried.finding.verdict satisfies string;
else tried.fault.issues satisfies readonly object[];

// Calculators

export const flow = defineCalculator({
  id: "venting/types-flow",
  title: "Flow",
  since: "0.1.0",
  input,
  outputs: {
    flow: { kind: "volumeFlow", what: "Flow" },
    legs: { list: { at: { kind: "length", what: "At" } }, what: "Legs" },
  },
  basis: [],
  limits: [],
  messages: { missing: { noGap: "The gap was not measured." } },
  cautions: [],
  examples: [],
  compute: ({ gap: measured }, { missing }) => {
    // @ts-expect-error: there is no such message
    missing(["noFlow"], ["gap"]);
    if (measured > 1) return missing(["noGap"], ["gap"]);
    return { flow: si(1, "cfm"), legs: [{ at: measured }, { at: null }] };
  },
});
defineCalculator({
  ...facts,
  outputs: { flow: { kind: "volumeFlow", what: "Flow" } },
  messages: {},
  // @ts-expect-error: an output of another dimension
  compute: () => ({ flow: si(1, "ft") }),
});
defineCalculator({
  ...facts,
  outputs: { flow: { kind: "volumeFlow", what: "Flow" }, speed: { kind: "speed", what: "Speed" } },
  messages: {},
  // @ts-expect-error: every output is given, null where it does not exist
  compute: () => ({ flow: null }),
});

export const used = [bare, pressure, warm, sum, unbranded, read, text, power];
