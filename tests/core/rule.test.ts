import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as z from "zod";
import { codeBasis, commonPractice, defineLimit } from "../../src/core/basis/index.js";
import { brand, type Length, si } from "../../src/core/quantity/index.js";
import { howClosely } from "../../src/core/rule/closeness.js";
import {
  type AtInput,
  cautions,
  defineCalculator,
  definePart,
  defineRule,
  entriesOf,
  InputFault,
  inputOf,
  limitsOf,
  prepareUses,
  quantity,
  readAt,
  setPath,
  severity,
  tradeOf,
  verdicts,
} from "../../src/core/rule/index.js";
import { defineTable } from "../../src/core/table/index.js";

/** Everything here is made up: no text sets these figures. */
const reach = defineLimit({
  id: "placement/bench.reach",
  title: "Longest reach on the bench",
  subject: "mechanical",
  kind: "length",
  sense: "atMost",
  maker: "tightens",
  values: [
    { text: "irc", section: "1.2", value: [10, "ft"], confirmed: "seen" },
    { text: "ircFuelGas", section: "3.4", value: [8, "ft"], confirmed: "memory" },
  ],
});
const asked = defineLimit({
  id: "placement/bench.asked",
  title: "Whether a strap is called for",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [{ text: "irc", section: "5.6", value: true, confirmed: "secondary" }],
});
const habit = { ...commonPractice, note: "First habit." };
const otherHabit = { ...commonPractice, note: "Second habit." };
const sizes = defineTable({
  id: "bench-sizes",
  title: "Bench sizes",
  basis: otherHabit,
  between: "next",
  below: "hold",
  above: "refuse",
  rows: [
    [1, 2],
    [3, 4],
  ],
});

const input = z.strictObject({
  fuel: z.enum(["electric", "propane"]).optional().describe("What heats it"),
  legs: z
    .array(quantity("length", { max: [100, "ft"] }).describe("One leg"))
    .max(5)
    .optional()
    .describe("Legs from tap to machine"),
  cord: quantity("length", { max: [30, "ft"] })
    .optional()
    .describe("Length of the cord"),
  size: z.number().min(0).max(9).optional(),
  strap: z.boolean().optional(),
});

const bench = defineRule({
  id: "placement/bench",
  title: "The legs reach",
  since: "0.1.0",
  input,
  basis: [habit],
  limits: [reach, asked],
  messages: {
    pass: {
      reaches: "The {route:length} route is within {limit:length}.",
      strapped: "It is strapped.",
      corded: "The cord reaches.",
    },
    fail: {
      tooFar: "The {route:length} route is more than {limit:length}.",
      loose: "A strap is called for.",
      short: "The {cord:length} cord is short.",
    },
    review: { noLegs: "The legs were not measured.", noSize: "No size is that large." },
    notApplicable: { nothing: "There is nothing to reach." },
  },
  remedies: {
    one: "Go straight, in one leg of {leg:length}.",
    useless: "Paint it.",
    unfit: "Take a size that is not made.",
    cut: "Take {leg:length} off the first leg.",
  },
  cautions: ["lifting", "deferral"],
  examples: [],
  check({ fuel = "electric", legs, cord, size, strap }, ask) {
    if (legs?.length === 0) return ask.say("nothing");
    if (legs === undefined) return ask.missing(["noLegs"], ["legs"]);
    ask.assume("The floor is flat.");
    ask.assume("The floor is flat.");
    const route = brand<"length">(legs.reduce<number>((sum, leg) => sum + leg, 0));
    if (legs.length === 2) {
      ask.formula("{route:length} = {a:length} + {b:length}", { route, a: legs[0]!, b: legs[1]! });
    }
    const bound = ask.limit(reach, fuel)!;
    const tooFar = ask.judge({
      kind: "length",
      measured: route,
      limit: bound,
      pass: ["reaches", { route, limit: brand<"length">(bound.value) }],
      fail: ["tooFar", { route, limit: brand<"length">(bound.value) }],
    });
    const corded =
      cord === undefined
        ? undefined
        : ask.judge({
            kind: "length",
            measured: cord,
            limit: route,
            sense: "atLeast",
            pass: ["corded"],
            fail: ["short", { cord }],
          });
    let sized: ReturnType<typeof ask.say> | undefined;
    if (size !== undefined && ask.lookUp(sizes, size, "number", "count") === undefined) sized = ask.say("noSize");
    const needs = ask.limit(asked, fuel);
    const strapped =
      strap === undefined
        ? undefined
        : ask.judge({ kind: "count", measured: strap ? 1 : 0, limit: needs!, pass: ["strapped"], fail: ["loose"] });
    return ask.all(tooFar, corded, sized, strapped);
  },
  mend({ legs = [] }) {
    const leg = si(6, "ft");
    return [
      { change: [{ path: ["size"], value: 1 }], say: ["useless"] },
      // both would pass, but the input would not take them
      {
        change: [
          { path: ["legs"], value: [leg] },
          { path: ["size"], value: -1 },
        ],
        say: ["unfit"],
      },
      {
        change: [
          { path: ["legs"], value: [leg] },
          { path: ["sise"], value: 1 },
        ],
        say: ["unfit"],
      },
      { change: [{ path: ["legs"], value: [leg] }], say: ["one", { leg }] },
      {
        change: [{ path: ["legs", 0], value: Math.max(0, legs[0]! - si(4, "ft")), unit: "ft" }],
        say: ["cut", { leg: si(4, "ft") }],
      },
    ];
  },
});

const irc = { jurisdiction: { adopted: { irc: 2021 }, building: "dwelling" } } as const satisfies AtInput;

describe("a finding", () => {
  test("has the same keys whatever the verdict", () => {
    const keys = (given: object) => Object.keys(bench.try(given).finding!);
    const all = [{ legs: ["3 ft"] }, { legs: ["30 ft"] }, {}, { legs: [] }].map(keys);
    for (const each of all) expect(each).toEqual(all[0]);
    expect(all[0]).toEqual([
      "rule",
      "title",
      "verdict",
      "messageId",
      "message",
      "parts",
      "measured",
      "tolerance",
      "limit",
      "margin",
      "basis",
      "setAside",
      "workings",
      "assumptions",
      "missing",
      "remedies",
      "cautions",
    ]);
  });

  test("of a pass: message, margin, the basis that governs first, what was set aside, steps, assumptions, cautions", () => {
    const finding = bench({ fuel: "propane", legs: ["3 ft", "4 ft"] }, irc);
    expect(finding).toMatchObject({
      rule: "placement/bench",
      title: "The legs reach",
      verdict: "pass",
      messageId: "reaches",
      message: "The 7 ft route is within 8 ft.",
      measured: { text: "7 ft", kind: "length" },
      limit: { text: "8 ft" },
      margin: { text: "12 in" },
      tolerance: null,
      missing: [],
      remedies: [],
      cautions: [cautions.lifting, cautions.deferral],
      assumptions: ["The floor is flat."],
    });
    expect(finding.basis.map(({ citation }) => citation)).toEqual([
      "IRC 2021, 3.4 (from memory, not yet seen in a published copy)",
      "IRC 2021, 5.6 (seen in a secondary source only)",
      "Common practice (no source)",
    ]);
    expect(finding.setAside).toMatchObject([
      { limit: reach.id, value: { text: "10 ft" }, reason: "it is less strict", basis: { citation: "IRC 2021, 1.2" } },
    ]);
    expect(finding.workings).toEqual([
      {
        kind: "formula",
        text: "route = a + b: 3 ft + 4 ft = 7 ft",
        formula: "route = a + b",
        table: null,
        values: {
          route: { si: expect.closeTo(2.1336, 9), kind: "length", text: "7 ft" },
          a: { si: expect.closeTo(0.9144, 9), kind: "length", text: "3 ft" },
          b: { si: expect.closeTo(1.2192, 9), kind: "length", text: "4 ft" },
        },
      },
      expect.objectContaining({ kind: "compare", text: "7 ft at most 8 ft: holds", formula: null, table: null }),
    ]);
  });

  test("names the defaults it leans on, once each, and only those", () => {
    expect(bench({ legs: ["3 ft"] }).assumptions).toEqual([
      "The floor is flat.",
      "No adopted edition was given: IRC 2021 is assumed.",
      "The kind of building was not given: dwelling is assumed.",
    ]);
    expect(bench({ legs: ["3 ft"] }, { jurisdiction: { adopted: { irc: 2018 } } }).assumptions).toEqual([
      "The floor is flat.",
      "The kind of building was not given: dwelling is assumed.",
    ]);
    expect(bench({}).assumptions).toEqual([]);
  });

  test("keeps two habits of the trade apart by their notes, though they are cited alike", () => {
    const notes = bench({ legs: ["3 ft"], size: 2 }, irc).basis.map(({ note }) => note);
    expect(notes).toContain("First habit.");
    expect(notes).toContain("Second habit.");
  });

  test("in the reader's units", () => {
    expect(bench({ legs: ["3 ft"] }, { ...irc, units: "si" }).message).toBe("The 914 mm route is within 3.05 m.");
  });

  test("is the same bytes for the same input, and plain JSON", () => {
    const once = bench({ fuel: "propane", legs: ["30 ft ± 1 in", "4 ft"], size: 2, strap: false, cord: "6 ft" });
    expect(JSON.parse(JSON.stringify(once))).toEqual(once);
    expect(
      JSON.stringify(bench({ fuel: "propane", legs: ["30 ft ± 1 in", "4 ft"], size: 2, strap: false, cord: "6 ft" })),
    ).toBe(JSON.stringify(once));
  });

  test("a look-up says what was found, or that there is no value", () => {
    const step = (size: number) => bench({ legs: ["3 ft"], size }).workings.find(({ kind }) => kind === "lookup");
    expect(step(2)).toMatchObject({
      text: "Bench sizes, at 2: 4",
      table: "bench-sizes",
      values: { key: { si: 2 }, value: { si: 4 } },
    });
    expect(step(9)).toMatchObject({ text: "Bench sizes, at 9: no value", values: { key: { si: 9 } } });
    expect(Object.keys(step(9)!.values)).toEqual(["key"]);
  });

  test("a requirement set aside reads as a yes or a no", () => {
    const local = [{ limit: asked.id, value: false, citation: { document: "Ordinance 7" } }];
    const finding = bench({ legs: ["3 ft"], strap: false }, { jurisdiction: { ...irc.jurisdiction, local } });
    expect(finding.verdict).toBe("pass");
    expect(finding.setAside[0]).toMatchObject({ value: { text: "required", si: 1 } });
  });
});

describe("the worst of several statements governs", () => {
  const verdict = (given: object) => bench.try(given, irc).finding!;

  test("a failing part makes the finding fail, and what is to be reviewed is said too", () => {
    const finding = verdict({ legs: ["3 ft"], size: 9, strap: false });
    expect(finding).toMatchObject({
      verdict: "fail",
      messageId: "loose",
      message: "A strap is called for. No size is that large.",
    });
    expect(finding.parts.map((part) => part.verdict)).toEqual(["pass", "review", "fail"]);
    expect(finding.basis[0]).toMatchObject({ section: "5.6" });
  });

  test("a review is never a pass", () => {
    expect(verdict({ legs: ["3 ft"], size: 9, strap: true })).toMatchObject({
      verdict: "review",
      message: "No size is that large.",
    });
    expect(verdict({})).toMatchObject({ verdict: "review", messageId: "noLegs" });
  });

  test("among equals the first, and every failure is told", () => {
    expect(verdict({ legs: ["30 ft"], strap: false, cord: "5 ft" })).toMatchObject({
      messageId: "tooFar",
      message: "The 30 ft route is more than 10 ft. The 5 ft cord is short. A strap is called for.",
    });
  });

  test("passes that need no telling stay silent", () => {
    expect(verdict({ legs: ["3 ft"], strap: true, cord: "5 ft" }).message).toBe("The 3 ft route is within 10 ft.");
  });

  test("the order of verdicts", () => {
    expect([...verdicts].sort((a, b) => severity(a) - severity(b))).toEqual([
      "fail",
      "review",
      "pass",
      "notApplicable",
    ]);
  });

  test("a rule that says nothing, or names a message twice, is a fault of the code", () => {
    const spec = {
      id: "a/b",
      title: "T",
      since: "0.1.0",
      input: z.strictObject({}),
      basis: [],
      limits: [],
      cautions: [],
      examples: [],
    } as const;
    const silent = defineRule({ ...spec, messages: { pass: { a: "A." } }, check: () => [] });
    expect(() => silent({})).toThrow(TypeError);
    const twice = defineRule({
      ...spec,
      messages: { pass: { a: "A." }, fail: { a: "B." } },
      check: (_, { say }) => say("a"),
    });
    expect(() => twice.try({})).toThrow(/message a is named twice/);
    const builtIn = defineRule({
      ...spec,
      messages: { review: { tooCloseToCall: "A." } },
      check: (_, { say }) => say("tooCloseToCall"),
    });
    expect(() => builtIn({})).toThrow(RangeError);
  });
});

describe("exactly on the limit, and a hair beyond", () => {
  test("passes on it, and the margin is nothing", () => {
    expect(bench({ legs: ["120 in"] }, irc)).toMatchObject({ verdict: "pass", margin: { si: 0, text: "0 in" } });
    expect(bench({ legs: ["3.048 m"] }, irc)).toMatchObject({ verdict: "pass", margin: { si: 0 } });
  });

  test("never says that 10 ft is more than 10 ft, not in the message, the values or the steps", () => {
    const finding = bench({ legs: ["3.04801 m"] }, irc);
    expect(finding.verdict).toBe("fail");
    expect(finding.message).toBe("The 10.00003 ft route is more than 10 ft.");
    expect(finding.measured!.text).toBe("10.00003 ft");
    expect(finding.limit!.text).toBe("10 ft");
    expect(finding.parts[0]!.data).toMatchObject({ route: { text: "10.00003 ft" }, limit: { text: "10 ft" } });
    expect(finding.workings.at(-1)!.text).toBe("10.00003 ft at most 10 ft: does not hold");
    expect(finding.margin!.si).toBeLessThan(0);
  });

  test("whatever the length, a failing message shows two different figures", () => {
    fc.assert(
      fc.property(fc.double({ min: 3.0480001, max: 3.06, noNaN: true }), (metres) => {
        const { message, verdict, margin } = bench({ legs: [{ value: metres, unit: "m" }] }, irc);
        expect(verdict).toBe("fail");
        expect(margin!.si).toBeLessThan(0);
        const [, route, limit] = /^The (.+) route is more than (.+)\.$/.exec(message)!;
        expect(route).not.toBe(limit);
      }),
    );
  });
});

describe("tolerances", () => {
  const verdict = (text: string, at: AtInput = irc) => bench({ legs: [text] }, at);

  test("wholly inside passes, wholly outside fails, across asks for a closer measurement", () => {
    expect(verdict("9 ft ± 6 in").verdict).toBe("pass");
    expect(verdict("11 ft ± 6 in").verdict).toBe("fail");
    const across = verdict("10 ft 3 in ± 6 in");
    expect(across).toMatchObject({
      verdict: "review",
      messageId: "tooCloseToCall",
      message: "10 ft 3 in ± 6 in lies across the limit of 10 ft; measure more closely.",
      tolerance: { text: "6 in" },
      remedies: [],
    });
    expect(across.missing).toEqual([
      { path: ["legs", 0], what: "One leg: measure again, to better than ± 3 in, with a tape pulled tight" },
    ]);
    expect(across.workings.at(-1)!.text).toBe("10 ft 3 in ± 6 in at most 10 ft: cannot be told");
  });

  test("exactly on the limit with any tolerance cannot be told, nor by measuring better", () => {
    const finding = verdict("10 ft ± 1/16 in");
    expect(finding.verdict).toBe("review");
    expect(finding.missing[0]!.what).toBe(
      "One leg: measure again, as closely as you can; no instrument settles a reading that is exactly on the limit, only more room does",
    );
  });

  test("are left aside where the caller chose simple acceptance", () => {
    const simple = { ...irc, decision: "simple" } as const;
    expect(verdict("9 ft 11 in ± 6 in", simple)).toMatchObject({ verdict: "pass", tolerance: null });
    expect(verdict("10 ft 1 in ± 6 in", simple).verdict).toBe("fail");
  });

  test("of several inputs combine as the root of the sum of squares", () => {
    const finding = bench({ legs: ["3 ft ± 3 in", "4 ft ± 4 in"] }, irc);
    expect(finding.tolerance).toMatchObject({ text: "5 in", kind: "length" });
    expect(finding.verdict).toBe("pass");
    expect(bench({ legs: ["5 ft ± 3 in", "4 ft 9 in ± 4 in"] }, irc).missing.map(({ what }) => what)).toEqual([
      "One leg: measure again, as closely as you can",
      "One leg: measure again, as closely as you can",
    ]);
  });

  test("only the measurements behind the doubt are asked for again", () => {
    const finding = bench({ legs: ["3 ft"], cord: "3 ft 1 in ± 2 in" }, irc);
    expect(finding.missing).toEqual([
      { path: ["cord"], what: "Length of the cord: measure again, to better than ± 1 in, with a tape pulled tight" },
    ]);
    const two = bench({ legs: ["9 ft 11 in ± 3 in"], cord: "20 ft ± 1 in" }, irc);
    expect(two.missing.map(({ path }) => path)).toEqual([["legs", 0]]);
  });

  test("a tolerance too small to move the number at all changes nothing", () => {
    expect(bench({ legs: [{ value: 30, unit: "m", plusMinus: 1.2e-15 }] }, irc)).toMatchObject({
      verdict: "fail",
      tolerance: null,
    });
  });

  test("do not reach beyond the field's bounds, and one side then speaks for both", () => {
    expect(bench({ legs: ["1 in ± 2 in"] }, irc)).toMatchObject({ verdict: "pass", tolerance: { text: "2 in" } });
  });

  test("a remedy keeps the tolerances of what it does not change", () => {
    const messages = (text: string) => bench({ legs: ["13 ft", text] }, irc).remedies.map(({ message }) => message);
    expect(messages("6 in ± 1 in")).toContain("Take 4 ft off the first leg.");
    expect(messages("6 in ± 8 in")).not.toContain("Take 4 ft off the first leg.");
  });
});

/**
 * JCGM 100:2008, 5.1.3, example: the power lost in a resistor at a temperature, P = V² / (R0 (1 + a (t - t0))), whose
 * sensitivities the guide gives as 2P/V, -P/R0, -P (t - t0) / (1 + a (t - t0)) and -P a / (1 + a (t - t0)).
 * Formula and sensitivities from memory of the guide; the derivatives were taken again by hand.
 */
describe("the power of a resistor, JCGM 100:2008, 5.1.3", () => {
  const resistor = z.strictObject({
    volts: quantity("voltage"),
    r0: quantity("resistance"),
    t: quantity("temperature"),
    share: quantity("ratio").optional(),
  });
  const a = 0.004;
  const t0 = 293.15;
  const power = ({ volts, r0, t }: { volts: number; r0: number; t: number }) =>
    brand<"power">(volts ** 2 / (r0 * (1 + a * (t - t0))));
  const calculator = defineCalculator({
    id: "electrical/bench-power",
    title: "Power of a resistor",
    since: "0.1.0",
    input: resistor,
    outputs: { power: { kind: "power", what: "Power" }, t: { kind: "temperature", what: "Temperature" } },
    basis: [],
    limits: [],
    messages: {},
    cautions: [],
    examples: [],
    compute: (values) => ({ power: power(values), t: values.t }),
  });
  const rule = defineRule({
    id: "electrical/bench-resistor",
    title: "The resistor stays cool",
    since: "0.1.0",
    input: resistor,
    basis: [],
    limits: [],
    messages: { pass: { cool: "Cool." }, fail: { hot: "Hot." } },
    cautions: [],
    examples: [],
    check: (values, { judge }) =>
      judge({ kind: "power", measured: power(values), limit: 1000, sense: "atMost", pass: ["cool"], fail: ["hot"] }),
  });
  const given = { volts: "120 V ± 0.5 V", r0: "20 ohm ± 0.1 ohm", t: "60 °C ± 1 °C" };
  const P = 120 ** 2 / (20 * (1 + a * 40));
  const u = Math.sqrt((((2 * P) / 120) * 0.5) ** 2 + ((P / 20) * 0.1) ** 2 + (((P * a) / (1 + a * 40)) * 1) ** 2);

  test("the guide's sum, by hand: 5.17 W, 3.10 W and 2.14 W make 6.4 W", () => {
    expect([P, u].map((watts) => watts.toFixed(1))).toEqual(["620.7", "6.4"]);
  });

  test("a calculator carries it to first order", () => {
    const { values } = calculator(given as never);
    expect((values["power"] as { si: number }).si).toBeCloseTo(P, 9);
    const { tolerance } = values["power"] as { tolerance: { si: number } };
    expect(Math.abs(tolerance.si / u - 1)).toBeLessThan(1e-4);
  });

  test("a temperature's tolerance is a difference, not a temperature", () => {
    expect(calculator(given as never).values["t"]).toMatchObject({
      text: "140 °F",
      tolerance: { text: "1.8 °F", kind: "temperatureDifference" },
    });
  });

  test("a rule carries the same", () => {
    const { tolerance } = rule(given as never);
    expect(Math.abs(tolerance!.si! / u - 1)).toBeLessThan(1e-4);
  });
});

describe("comparing temperatures", () => {
  const warm = defineRule({
    id: "placement/bench-warm",
    title: "The room is warm",
    since: "0.1.0",
    input: z.strictObject({ room: quantity("temperature").describe("Room") }),
    basis: [],
    limits: [],
    messages: { pass: { warm: "Warm." }, fail: { cold: "Cold." } },
    cautions: [],
    examples: [],
    check: ({ room }, { judge }) =>
      judge({
        kind: "temperature",
        measured: room,
        limit: si(50, "degF"),
        sense: "atLeast",
        pass: ["warm"],
        fail: ["cold"],
      }),
  });

  test("margin and tolerance are differences", () => {
    expect(warm({ room: "68 °F ± 2 °F" })).toMatchObject({
      measured: { text: "68 °F" },
      margin: { text: "18 °F", kind: "temperatureDifference" },
      tolerance: { text: "2 °F" },
    });
    const near = warm({ room: "51 °F ± 2 °F" });
    expect(near.message).toBe("51 °F ± 2 °F lies across the limit of 50 °F; measure more closely.");
    expect(near.missing[0]!.what).toBe("Room: measure again, to better than ± 1 °F");
    expect(near.workings[0]!.text).toBe("51 °F ± 2 °F at least 50 °F: cannot be told");
  });
});

describe("a tolerance that changes which comparisons are made", () => {
  const step = defineRule({
    id: "placement/bench-step",
    title: "A rule with a step",
    since: "0.1.0",
    input: z.strictObject({ x: quantity("length"), y: quantity("length").optional() }),
    basis: [],
    limits: [],
    messages: { pass: { fine: "Fine." }, fail: { bad: "Bad." } },
    cautions: [],
    examples: [],
    check: ({ x }, { judge, all }) => {
      const one = () =>
        judge({ kind: "length", measured: x, limit: 5, sense: "atMost", pass: ["fine"], fail: ["bad"] });
      return x > 1 ? all(one(), one()) : one();
    },
  });

  test("cannot be told: review, without an infinite number anywhere", () => {
    const finding = step({ x: "1 m ± 1 cm", y: "1 m ± 1 mm" });
    expect(finding).toMatchObject({
      verdict: "review",
      messageId: "tooCloseToCall",
      message: "3 ft 3 3/8 in is so near a step of the rule that its tolerance decides; measure more closely.",
      tolerance: null,
    });
    expect(JSON.stringify(finding)).not.toMatch(/Infinity|NaN/);
    expect(finding.missing).toEqual([{ path: ["x"], what: ": measure again, as closely as you can" }]);
    expect(JSON.parse(JSON.stringify(finding))).toEqual(finding);
  });

  test("and passes once it is far enough from the step", () => {
    expect(step({ x: "2 m ± 1 cm" }).verdict).toBe("pass");
  });
});

describe("a doubt in another measure than the input", () => {
  const double = defineRule({
    id: "placement/bench-double",
    title: "Twice the gap",
    since: "0.1.0",
    input: z.strictObject({
      gap: quantity("length").describe("Gap"),
      tilt: quantity("angle").optional().describe("Tilt"),
    }),
    basis: [],
    limits: [],
    messages: { pass: { fine: "Fine." }, fail: { bad: "Bad." } },
    cautions: [],
    examples: [],
    check: ({ gap, tilt = brand<"angle">(0) }, { judge }) =>
      judge({ kind: "inches", measured: 2 * gap + tilt, limit: 1, sense: "atMost", pass: ["fine"], fail: ["bad"] }),
  });

  test("says how closely to measure the input itself", () => {
    expect(double({ gap: { value: 0.49, unit: "m", plusMinus: 0.1 } }, { units: "si" }).missing[0]!.what).toBe(
      "Gap: measure again, to better than ± 10 mm, with a tape pulled tight",
    );
    expect(double({ gap: "0 m", tilt: { value: 0.9, unit: "rad", plusMinus: 0.2 } }).missing[0]!.what).toBe(
      "Tilt: measure again, to better than ± 5.73°",
    );
  });
});

describe("remedies", () => {
  const given = { fuel: "propane" as const, legs: ["11 ft", "1/2 in"], strap: true };

  test("are offered only where the rule then passes, in the order proposed", () => {
    const { remedies } = bench(given, irc);
    expect(remedies.map(({ message }) => message)).toEqual([
      "Go straight, in one leg of 6 ft.",
      "Take 4 ft off the first leg.",
    ]);
    expect(bench({ ...given, strap: false }, irc).remedies).toEqual([]);
  });

  test("applied to what was given, each one passes; lists of quantities too", () => {
    for (const { changes } of bench(given, irc).remedies) {
      const mended = changes.reduce<unknown>((whole, { path, value }) => setPath(whole, path, value), given);
      expect(bench.try(mended, irc).finding?.verdict).toBe("pass");
    }
    expect(bench(given, irc).remedies.map(({ changes }) => changes)).toEqual([
      [{ path: ["legs"], value: [{ value: expect.closeTo(1.8288, 12), unit: "m" }] }],
      [{ path: ["legs", 0], value: { value: expect.closeTo(7, 9), unit: "ft" } }],
    ]);
  });

  test("are not sought where nothing fails", () => {
    expect(bench({ legs: ["3 ft"] }, irc).remedies).toEqual([]);
    expect(bench({}, irc).remedies).toEqual([]);
  });
});

describe("faults", () => {
  test("are thrown by a call and given back by try", () => {
    expect(() => bench({ legs: ["3"] })).toThrow(InputFault);
    const tried = bench.try({ legs: ["3"] });
    expect(tried).toMatchObject({ ok: false, fault: { issues: [{ path: ["legs", 0], code: "noUnit" }] } });
    expect(bench.try({ legs: ["3 ft"] })).toMatchObject({ ok: true, finding: { verdict: "pass" } });
    expect(
      bench.try({}, { maker: [{ limit: "x", value: 1, citation: { document: "Sheet" } }] }).fault!.issues[0]!.code,
    ).toBe("unknownLimit");
  });

  test("other errors are not swallowed", () => {
    const broken = defineRule({
      id: "a/b",
      title: "T",
      since: "0.1.0",
      input: z.strictObject({}),
      basis: [],
      limits: [],
      cautions: [],
      examples: [],
      messages: { pass: { a: "A." } },
      check: () => {
        throw new RangeError("a slip of the code");
      },
    });
    expect(() => broken.try({})).toThrow(RangeError);
  });
});

describe("runs of one rule do not meet", () => {
  /** Compares a length twice, runs itself over the next length between the two, and throws at 13 ft. */
  const nested = defineRule({
    id: "a/nested",
    title: "T",
    since: "0.1.0",
    input: z.strictObject({ lengths: z.array(quantity("length").describe("L")).describe("Lengths") }),
    basis: [],
    limits: [],
    cautions: [],
    examples: [],
    messages: { pass: { short: "{length:length} is short." }, fail: { long: "{length:length} is long." } },
    check: ({ lengths }, { judge, formula, assume, all }) => {
      const [length, ...rest] = lengths;
      const one = (limit: number) =>
        judge({
          kind: "length",
          measured: length!,
          limit: si(limit, "ft"),
          sense: "atMost",
          pass: ["short", { length: length! }],
          fail: ["long", { length: length! }],
        });
      const first = one(20);
      formula("{own:length} = {length:length}", { own: length!, length: length! });
      if (rest.length > 0) nested({ lengths: rest.map((value) => ({ value, unit: "m" })) });
      if (length === si(13, "ft")) throw new RangeError("a slip of the code");
      assume(`So many follow: ${rest.length}.`);
      return all(first, one(10));
    },
  });
  const at = readAt({});
  const read = (...lengths: number[]) => ({ lengths: lengths.map((length) => si(length, "ft")) });

  test("one that is run inside another leaves nothing in it", () => {
    const outer = nested({ lengths: ["9 ft ± 0.5 ft", "25 ft", "30 ft"] });
    expect(outer).toMatchObject({ verdict: "pass", assumptions: ["So many follow: 2."] });
    expect(outer.workings.length).toBe(3);
    expect(outer.parts.map(({ messageId }) => messageId)).toEqual(["short", "short"]);
    const inner = nested({ lengths: ["9.8 ft ± 0.5 ft", "3 ft"] });
    expect(inner).toMatchObject({ verdict: "review", messageId: "tooCloseToCall" });
  });

  test("one that threw leaves nothing for the next", () => {
    expect(() => nested({ lengths: ["13 ft"] })).toThrow(RangeError);
    const next = nested({ lengths: ["9 ft ± 0.5 ft"] });
    expect([next.verdict, next.parts.length, next.workings.length]).toEqual(["pass", 2, 3]);
  });

  test("a finding is that of its own run, whenever it is asked for", () => {
    const early = nested.run(read(9), at, []);
    const late = nested.run(read(12, 1), at, []);
    expect([early.verdict, late.verdict]).toEqual(["pass", "fail"]);
    expect(early.finding()).toEqual(nested({ lengths: ["9 ft"] }));
    expect(late.finding()).toEqual(nested({ lengths: ["12 ft", "1 ft"] }));
    expect(early.finding()).toEqual(early.finding());
  });
});

const legsInput = z.strictObject({
  legs: z.array(quantity("length").describe("One leg")).max(5).optional().describe("Legs"),
});
const cut = defineCalculator({
  id: "placement/bench-cut",
  title: "Pieces to cut",
  since: "0.1.0",
  input: legsInput,
  outputs: {
    total: { kind: "length", what: "Total" },
    word: { kind: "text", what: "In a word" },
    most: { kind: "length", what: "Longest" },
    pieces: { list: { at: { kind: "length", what: "Where" }, note: { kind: "text", what: "Note" } }, what: "Pieces" },
  },
  basis: [codeBasis("irc", 2021, "9.9", "seen")],
  limits: [reach],
  messages: {
    missing: { noLegs: "The legs were not measured." },
    impossible: { tooMuch: "{total:length} is more than there is." },
  },
  cautions: ["deferral"],
  examples: [],
  compute({ legs }, { missing, impossible, formula, limit }) {
    if (legs === undefined) return missing(["noLegs"], ["legs"]);
    const total = brand<"length">(legs.reduce<number>((sum, leg) => sum + leg, 0));
    if (total > 100) return impossible(["tooMuch", { total }]);
    limit(reach);
    if (legs.length === 1) formula("{total:length} = {leg:length}", { total, leg: legs[0]! });
    const most: Length | null = legs.length === 0 ? null : brand<"length">(Math.max(...legs));
    return { total, word: legs.length === 0 ? null : "some", most, pieces: legs.map((at) => ({ at, note: null })) };
  },
});

const calculatorFacts = {
  id: "placement/bench-any",
  title: "Anything",
  since: "0.1.0",
  input: z.strictObject({ x: quantity("length") }),
  basis: [],
  limits: [],
  messages: {},
  cautions: [],
  examples: [],
} as const;

describe("a calculation", () => {
  test("has the same keys whatever its status, and says why there is no answer", () => {
    const computed = cut({ legs: ["1 ft", "2 ft"] });
    const absent = cut({});
    const impossible = cut({ legs: ["400 ft"] });
    expect([absent, impossible].map((calculation) => Object.keys(calculation))).toEqual([
      Object.keys(computed),
      Object.keys(computed),
    ]);
    expect(absent).toMatchObject({
      status: "missing",
      messageId: "noLegs",
      message: "The legs were not measured.",
      missing: [{ path: ["legs"], what: "Legs" }],
      values: { total: null, word: null, most: null, pieces: [] },
    });
    expect(impossible).toMatchObject({
      status: "impossible",
      messageId: "tooMuch",
      message: "400 ft is more than there is.",
      missing: [],
    });
    expect(computed).toMatchObject({
      calculator: "placement/bench-cut",
      status: "computed",
      messageId: null,
      message: "Total: 3 ft; In a word: some; Longest: 24 in; 12 in; 24 in",
      values: {
        total: { si: expect.closeTo(0.9144, 12), text: "3 ft", tolerance: null },
        word: { si: null, text: "some" },
      },
      cautions: [cautions.deferral],
    });
    expect(computed.basis.map(({ section }) => section)).toEqual(["1.2", "9.9"]);
    expect(JSON.parse(JSON.stringify(computed))).toEqual(computed);
  });

  test("has no negative zero, which JSON would lose", () => {
    const negative = defineCalculator({
      ...calculatorFacts,
      outputs: { x: { kind: "length", what: "X" } },
      compute: ({ x }, { formula }) => {
        const back = brand<"length">(-x);
        formula("{back:length} = -{x:length}", { back, x });
        return { x: back };
      },
    });
    const calculation = negative({ x: "0 in" });
    expect(calculation.values["x"]).toMatchObject({ si: 0, text: "0 in" });
    expect(JSON.parse(JSON.stringify(calculation))).toEqual(calculation);
  });

  test("leaves out of its line what does not exist", () => {
    expect(cut({ legs: [] })).toMatchObject({ message: "Total: 0 in", values: { most: null, word: null, pieces: [] } });
  });

  test("carries tolerances into every number, lists too", () => {
    const { values } = cut({ legs: ["3 ft ± 3 in", "2 ft ± 4 in"] });
    expect(values["total"]).toMatchObject({ tolerance: { text: "5 in" } });
    expect(values["pieces"]).toMatchObject([
      { at: { tolerance: { text: "3 in" } }, note: null },
      { at: { tolerance: { text: "4 in" } } },
    ]);
    expect(values["most"]).toMatchObject({ tolerance: { text: "3 in" } });
    expect(values["word"]).toMatchObject({ tolerance: null });
  });

  test("where one end of a tolerance has no answer the other end counts alone", () => {
    const { values, assumptions } = cut({ legs: [{ value: 99.5, unit: "m", plusMinus: 1 }] }, { units: "si" });
    expect(values["total"]).toMatchObject({ tolerance: { text: "1 m" } });
    expect(assumptions.join()).not.toContain("not carried");
  });

  test("where neither end has one, it says that the tolerance is not carried", () => {
    const fussy = defineCalculator({
      id: "placement/bench-fussy",
      title: "Exactly one",
      since: "0.1.0",
      input: z.strictObject({ x: quantity("length") }),
      outputs: { x: { kind: "length", what: "X" } },
      basis: [],
      limits: [],
      messages: { impossible: { off: "Off." } },
      cautions: [],
      examples: [],
      compute: ({ x }, { impossible }) => (x === 1000 ? { x } : impossible(["off"])),
    });
    expect(fussy({ x: "1000 m ± 1 mm" })).toMatchObject({
      assumptions: ["The tolerance of x is not carried: there is no answer at its ends."],
      values: { x: { tolerance: null } },
    });
    expect(fussy({ x: { value: 1000, unit: "m", plusMinus: 1e-14 } })).toMatchObject({ assumptions: [] });
  });

  test("faults are thrown by a call and given back by try; other errors are not swallowed", () => {
    expect(() => cut({ legs: ["3"] })).toThrow(InputFault);
    expect(cut.try({ legs: ["3"] })).toMatchObject({ ok: false });
    expect(cut.try({ legs: ["3 ft"] })).toMatchObject({ ok: true, calculation: { status: "computed" } });
    const broken = defineCalculator({
      id: "a/b",
      title: "T",
      since: "0.1.0",
      input: z.strictObject({}),
      outputs: {},
      basis: [],
      limits: [],
      messages: {},
      cautions: [],
      examples: [],
      compute: () => {
        throw new RangeError("a slip of the code");
      },
    });
    expect(() => broken.try({})).toThrow(RangeError);
  });
});

describe("the catalogue", () => {
  test("is what modules export, once each, in order of id", () => {
    const entries = entriesOf({ bench, cut, other: 5, helper: () => 1 }, { again: bench });
    expect(entries.map(({ id }) => id)).toEqual(["placement/bench", "placement/bench-cut"]);
    expect(limitsOf(entries).map(({ id }) => id)).toEqual(["placement/bench.asked", "placement/bench.reach"]);
    expect(tradeOf(bench)).toBe("placement");
    expect(inputOf(bench)).toBe(input);
    expect([bench.kind, bench.since, bench.remedies["useless"], cut.kind]).toEqual([
      "rule",
      "0.1.0",
      "Paint it.",
      "calculator",
    ]);
  });
});

describe("a trade's part of a survey", () => {
  const part = definePart({
    trade: "placement",
    site: z.strictObject({ way: legsInput.optional() }),
    machine: {},
    uses: [
      { entry: bench, from: { fuel: "machine.fuel", legs: "placement.way.legs" } },
      { entry: cut, from: { legs: "placement.way.legs" } },
    ],
  });
  const runs = prepareUses(part.uses);
  const at = readAt(irc);

  test("gives each entry its inputs from the survey and turns paths back", () => {
    const [first, second] = runs({ machine: { fuel: "electric" }, placement: { way: { legs: [3, 1] } } }, at, []);
    expect(first).toMatchObject({ kind: "rule", run: { verdict: "fail" } });
    expect(second).toMatchObject({ kind: "calculator", run: { status: "computed" } });
    expect(first!.inSurvey(["legs", 1])).toEqual(["placement", "way", "legs", 1]);
    expect(first!.inSurvey(["strap"])).toEqual(["strap"]);
  });

  test("passes tolerances on to the entries they reach", () => {
    const tolerance = {
      path: ["placement", "way", "legs", 0],
      plusMinus: 0.1,
      min: 0,
      max: 100,
      unit: "m",
      dimension: "length",
    } as const;
    const elsewhere = { ...tolerance, path: ["placement", "door"] };
    const [first, second] = runs({ machine: {}, placement: { way: { legs: [3] } } }, at, [tolerance, elsewhere]);
    expect(first).toMatchObject({ run: { verdict: "review" } });
    expect(second!.kind === "calculator" && second!.run.calculation().values["total"]).toMatchObject({
      tolerance: { si: expect.closeTo(0.1, 9) },
    });
  });

  test("what the survey does not have is left out, not guessed", () => {
    const [first] = runs({ machine: null }, at, []);
    expect(first).toMatchObject({ run: { verdict: "review" } });
  });
});

describe("how closely to measure again", () => {
  const length = (halfInches: number) =>
    howClosely(
      { room: halfInches * 0.0254, limit: 1, contribution: 0.01, plusMinus: 0.01, alone: true },
      "length",
      "length",
      "us",
    );

  test.each([
    [1, "to better than ± 1 in, with a tape pulled tight"],
    [1 / 16, "to better than ± 1/16 in, with a tape read to its sixteenths"],
    [1 / 64, "to better than ± 0.0156 in, with a steel rule"],
    [0.002, "to better than ± 0.002 in, with a caliper or a feeler gauge"],
  ])("a length with %s in of room", (room, words) => expect(length(room)).toBe(words));

  test("a gap of 1 in ± 1/16 in against 1 in is a review that no tape settles", () => {
    const on = howClosely(
      { room: 0, limit: 0.0254, contribution: 0.0015875, plusMinus: 0.0015875, alone: true },
      "inches",
      "length",
      "us",
    );
    expect(on).toContain("only more room does");
  });
});
