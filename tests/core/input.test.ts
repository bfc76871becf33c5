import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as z from "zod";
import {
  defineCalculator,
  defineRule,
  describeReceived,
  descriptionAt,
  InputFault,
  type InputIssue,
  InputReader,
  inputJsonSchema,
  isOptional,
  pathText,
  quantity,
  schemaAt,
} from "../../src/core/rule/index.js";

const leg = z.strictObject({
  run: quantity("length", { max: [10, "ft"] }).describe("One leg"),
  turn: quantity("angle").optional(),
});

/** A made-up schema with every construct that an input may have. */
const schema = z.strictObject({
  kind: z.enum(["hose", "duct"]).describe("What runs"),
  straight: quantity("length", { min: [1, "in"], max: [100, "ft"] })
    .optional()
    .describe("The straight part"),
  legs: z.array(leg).min(1).max(3).optional(),
  end: z
    .discriminatedUnion("to", [
      z.strictObject({ to: z.literal("wall"), height: quantity("length") }),
      z.strictObject({ to: z.enum(["roof", "soffit"]), slope: quantity("slope").optional() }),
    ])
    .optional(),
  feet: z.tuple([quantity("length"), quantity("length")]).optional(),
  pair: z.tuple([z.string(), z.boolean()]).optional(),
  spots: z
    .record(z.string().max(5), quantity("length"))
    .optional()
    .describe("Heights by name of the spot, up to 5 letters"),
  marks: z.record(z.string(), z.boolean()).optional(),
  count: z.int().min(1).max(9).optional(),
  share: z.number().gt(0).lt(1).optional(),
  step: z.number().multipleOf(5).optional(),
  on: z.iso.date().optional().describe("When it was measured"),
  at: z.iso.datetime().optional(),
  code: z
    .string()
    .regex(/^[A-Z]+$/)
    .optional(),
  mail: z.email().optional(),
  name: z.string().min(1).max(4).optional(),
  loose: z.union([z.string(), z.boolean()]).optional().describe("A word, or yes or no"),
  either: z.union([z.string(), z.boolean()]).optional(),
  live: z.boolean().default(false),
});
const reader = new InputReader(schema);

function issues(input: unknown, options?: { decimal: "," }): readonly InputIssue[] {
  try {
    reader.read(input, options);
  } catch (error) {
    if (error instanceof InputFault) return error.issues;
    throw error;
  }
  throw new Error("the input was accepted");
}
const one = (fields: object) => issues({ kind: "hose", ...fields })[0]!;

describe("reading an input", () => {
  test("turns every quantity into SI, at any depth, and leaves the rest", () => {
    const { value, tolerances } = reader.read({
      kind: "duct",
      straight: "12 in ± 1/4 in",
      legs: [{ run: "1 ft", turn: "90°" }, { run: { value: 2, unit: "ft", plusMinus: 0.1 } }],
      end: { to: "roof", slope: "1/4 in per ft" },
      feet: ["1 in", "2 in ± 1 mm"],
      pair: ["x", true],
      spots: { a: "3 in", b: "4 in" },
      marks: { here: true },
      count: 2,
    });
    expect(value).toEqual({
      kind: "duct",
      straight: expect.closeTo(0.3048, 12),
      legs: [
        { run: expect.closeTo(0.3048, 12), turn: expect.closeTo(Math.PI / 2, 12) },
        { run: expect.closeTo(0.6096, 12) },
      ],
      end: { to: "roof", slope: expect.closeTo(1 / 48, 12) },
      feet: [expect.closeTo(0.0254, 12), expect.closeTo(0.0508, 12)],
      pair: ["x", true],
      spots: { a: expect.closeTo(0.0762, 12), b: expect.closeTo(0.1016, 12) },
      marks: { here: true },
      count: 2,
      live: false,
    });
    expect(tolerances.map(({ path, plusMinus }) => [pathText(path), Number(plusMinus.toFixed(9))])).toEqual([
      ["straight", 0.00635],
      ["legs[1].run", 0.03048],
      ["feet[1]", 0.001],
    ]);
    expect(tolerances[0]).toMatchObject({
      min: expect.closeTo(0.0254, 12),
      max: expect.closeTo(30.48, 12),
      unit: "in",
      dimension: "length",
    });
  });

  test("reads the quantities of a schema that has none", () => {
    const plain = new InputReader(z.strictObject({ a: z.string(), b: z.array(z.number()), c: z.tuple([z.boolean()]) }));
    const input = { a: "x", b: [1], c: [true] as const };
    expect(plain.read(input)).toEqual({ value: input, tolerances: [] });
  });

  test("refuses to guess between forms that hold quantities", () => {
    const unclear = new InputReader(z.strictObject({ a: z.union([quantity("length"), z.boolean()]) }));
    expect(() => unclear.read({ a: true })).toThrow(TypeError);
  });

  test("does not change what it was given", () => {
    const input = { kind: "hose", legs: [{ run: "1 ft" }] };
    const copy = structuredClone(input);
    reader.read(input);
    reader.read(input, { decimal: "," });
    expect(input).toEqual(copy);
  });
});

describe("faults in our words", () => {
  const cases: [string, object, Partial<InputIssue>][] = [
    [
      "no unit",
      { straight: "18" },
      { path: ["straight"], code: "noUnit", message: 'say the unit, for example "18 ft"', received: '"18"' },
    ],
    ["a bare number", { straight: 18 }, { code: "noUnit", received: "18" }],
    ["another dimension", { straight: "18 psi" }, { code: "wrongDimension" }],
    [
      "beyond its bounds",
      { straight: "101 ft" },
      { code: "outOfRange", message: "the value must be between 1 in and 100 ft", expected: "between 1 in and 100 ft" },
    ],
    [
      "smaller than anything measured",
      { legs: [{ run: "1e-300 m" }] },
      { code: "outOfRange", message: "the number is too small to mean anything here; write 0 where it is nothing" },
    ],
    ["with a tolerance that is", { legs: [{ run: "1 m ± 1e-300 m" }] }, { code: "outOfRange" }],
    ["a quantity of the wrong type", { straight: [] }, { code: "wrongType", received: "a list of 0" }],
    ["a quantity left out", { legs: [{}] }, { path: ["legs", 0, "run"], code: "missing", received: "nothing" }],
    [
      "a word that is not listed",
      { kind: "pipe" },
      { path: ["kind"], code: "notAccepted", message: 'write one of "hose", "duct"', received: '"pipe"' },
    ],
    [
      "a listed word left out",
      { kind: undefined },
      { path: ["kind"], code: "missing", message: 'write one of "hose", "duct"' },
    ],
    ["too few entries", { legs: [] }, { path: ["legs"], code: "outOfRange", message: "write at least 1 entries" }],
    [
      "too many entries",
      { legs: Array(4).fill({ run: "1 ft" }) },
      { code: "outOfRange", message: "write at most 3 entries", received: "a list of 4" },
    ],
    [
      "an unknown choice",
      { end: { to: "sky" } },
      { path: ["end", "to"], code: "notAccepted", message: 'write one of "wall", "roof", "soffit"' },
    ],
    [
      "a choice left out",
      { end: {} },
      { path: ["end", "to"], code: "missing", message: 'write one of "wall", "roof", "soffit"' },
    ],
    [
      "a field of another choice",
      { end: { to: "wall", height: "1 ft", slope: "1 %" } },
      {
        path: ["end", "slope"],
        code: "unknownField",
        message: "there is no such field; write one of to, height, slope",
      },
    ],
    ["a short pair", { feet: ["1 in"] }, { path: ["feet"], code: "outOfRange", message: "write at least 2 entries" }],
    ["an unreadable entry of a pair", { feet: ["1 in", "2"] }, { path: ["feet", 1], code: "noUnit" }],
    ["a pair that is none", { feet: 5 }, { code: "wrongType", message: "write a list" }],
    [
      "a name that is too long",
      { spots: { corner: "1 in" } },
      {
        path: ["spots", "corner"],
        code: "notAccepted",
        message: "this name is not accepted: Heights by name of the spot, up to 5 letters",
      },
    ],
    ["an unreadable entry by name", { spots: { a: "1" } }, { path: ["spots", "a"], code: "noUnit" }],
    ["a record that is none", { marks: 5 }, { code: "wrongType", message: "write an object" }],
    ["a broken count", { count: 1.5 }, { code: "wrongType", message: "write a whole number", received: "1.5" }],
    ["a count too small", { count: 0 }, { code: "outOfRange", message: "write at least 1" }],
    [
      "not a number",
      { share: Number.NaN },
      { code: "wrongType", message: "write a number", received: "a number that is not finite" },
    ],
    ["no finite number", { share: Number.POSITIVE_INFINITY }, { code: "wrongType", message: "write a number" }],
    ["an open lower end", { share: 0 }, { code: "outOfRange", message: "write more than 0" }],
    ["an open upper end", { share: 1 }, { code: "outOfRange", message: "write less than 1" }],
    ["not a multiple", { step: 7 }, { code: "notAccepted", message: "write a multiple of 5" }],
    [
      "no date",
      { on: "9/3/2026" },
      { code: "notAccepted", message: 'write a date as year, month and day, for example "2026-03-09"' },
    ],
    [
      "no time",
      { at: "noon" },
      { code: "notAccepted", message: 'write a date and time, for example "2026-03-09T14:30:00Z"' },
    ],
    [
      "the wrong form",
      { code: "a1" },
      { code: "notAccepted", message: "write a text of the form that the field describes" },
    ],
    ["another form", { mail: "x" }, { code: "notAccepted", message: 'write a text of the form "email"' }],
    ["too long a text", { name: "abcde" }, { code: "outOfRange", message: "write at most 4 characters" }],
    ["an empty text", { name: "" }, { code: "outOfRange", message: "write at least 1 characters" }],
    ["no text", { name: 5 }, { code: "wrongType", message: "write a text" }],
    ["no truth", { live: "yes" }, { code: "wrongType", message: "write true or false" }],
    ["none of the forms", { loose: 5 }, { code: "notAccepted", message: "A word, or yes or no" }],
    ["none of the forms, undescribed", { either: 5 }, { code: "notAccepted", message: "one of the accepted forms" }],
    ["a field that is unknown", { strait: "18 ft" }, { path: ["strait"], code: "unknownField", received: '"18 ft"' }],
    [
      "a field that is unknown in a list",
      { legs: [{ run: "1 ft", len: 1 }] },
      { path: ["legs", 0, "len"], message: "there is no such field; write one of run, turn" },
    ],
  ];
  test.each(cases)("%s", (_, fields, expected) => {
    expect(one(fields)).toMatchObject(expected);
  });

  test("every complaint at once, each with its path, and one message that lists them", () => {
    const input = { kind: "pipe", straight: "18", count: 0, strait: 1 };
    expect(
      issues(input)
        .map(({ path }) => pathText(path))
        .sort(),
    ).toEqual(["count", "kind", "straight", "strait"]);
    try {
      reader.read(input);
    } catch (error) {
      expect(error).toMatchObject({ name: "InputFault" });
      expect((error as Error).message.split("\n")).toHaveLength(4);
      expect((error as Error).message).toContain('straight: say the unit, for example "18 ft" (got "18")');
    }
  });

  test.each([
    [null, "null"],
    ["text", '"text"'],
    [5, "5"],
    [[], "a list of 0"],
    [undefined, "nothing"],
    [() => 1, "a function"],
  ])("what is no object at all: %s", (input, received) => {
    expect(issues(input)[0]).toMatchObject({ path: [], received });
  });

  test("names that every object has are unknown fields too", () => {
    const sly = JSON.parse(
      '{"kind":"hose","__proto__":{"straight":"1 ft"},"constructor":1,"legs":[{"run":"1 ft","__proto__":1}]}',
    );
    expect(issues(sly).map(({ path, code }) => [pathText(path), code])).toEqual([
      ["legs[0].__proto__", "unknownField"],
      ["__proto__", "unknownField"],
      ["constructor", "unknownField"],
    ]);
    expect(issues(sly, { decimal: "," })).toHaveLength(3);
    expect(({} as Record<string, unknown>)["straight"]).toBeUndefined();
  });

  test("texts of others are short and cannot steer a terminal", () => {
    expect(describeReceived("x".repeat(500))).toHaveLength(60);
    expect(describeReceived("\u001b[31m\u202e")).not.toMatch(/\p{C}/u);
    expect(pathText(["a", "\u001b[2J", 3, "b c"])).toBe('a["\\u001b[2J"][3]["b c"]');
    expect(pathText([`${"k".repeat(99)}`]).length).toBeLessThan(70);
    expect(describeReceived({})).toBe("an object");
    expect(describeReceived(true)).toBe("true");
  });
});

describe("the decimal comma", () => {
  const comma = { decimal: "," } as const;

  test("is read where the caller says so, at any depth, with its tolerance", () => {
    const { value, tolerances } = reader.read(
      {
        kind: "hose",
        straight: "1,5 m ± 0,5 cm",
        legs: [{ run: "0,5 m" }],
        end: { to: "wall", height: "2,5 m" },
        feet: ["1,5 mm", { value: 1.5, unit: "mm" }],
        spots: { a: "1,5 m" },
        name: "1,5",
      },
      comma,
    );
    expect(value).toMatchObject({
      straight: 1.5,
      legs: [{ run: 0.5 }],
      end: { to: "wall", height: 2.5 },
      feet: [expect.closeTo(0.0015, 12), expect.closeTo(0.0015, 12)],
      spots: { a: 1.5 },
      name: "1,5",
    });
    expect(tolerances[0]!.plusMinus).toBeCloseTo(0.005, 12);
  });

  test("keeps a temperature's tolerance a difference", () => {
    const room = new InputReader(z.strictObject({ t: quantity("temperature") }));
    const { value, tolerances } = room.read({ t: "20,5 °C ± 0,5 °C" }, comma);
    expect(value.t).toBeCloseTo(293.65, 9);
    expect(tolerances[0]!.plusMinus).toBeCloseTo(0.5, 9);
  });

  test("is not guessed: a point is then refused, not read as a decimal", () => {
    expect(issues({ kind: "hose", straight: "1.5 m" }, comma)[0]).toMatchObject({
      code: "commaTwoWays",
      received: '"1.5 m"',
    });
    expect(issues({ kind: "hose", straight: "1,5 m" })[0]).toMatchObject({ code: "commaTwoWays", received: '"1,5 m"' });
    expect(issues({ kind: "hose", straight: "1,5" }, comma)[0]).toMatchObject({ code: "noUnit" });
  });

  test("leaves other faults as they are", () => {
    expect(
      issues({ kind: "hose", legs: "1,5 m", nope: 1 }, comma)
        .map(({ code }) => code)
        .sort(),
    ).toEqual(["unknownField", "wrongType"]);
    expect(issues({ kind: "hose", end: { to: "sky", height: "1,5 m" } }, comma)[0]).toMatchObject({
      path: ["end", "to"],
    });
    expect(issues(null, comma)).toHaveLength(1);
  });
});

describe("what a schema says of itself", () => {
  test("a schema, its help and whether it may be left out, by path", () => {
    expect(schemaAt(schema, ["legs", 2, "run"])).toBe(leg.shape.run);
    expect(schemaAt(schema, ["legs", 0, "nope"])).toBeUndefined();
    expect(schemaAt(schema, ["kind", "deeper", "still"])).toBeUndefined();
    expect(schemaAt(schema, ["constructor"])).toBeUndefined();
    expect(schemaAt(schema, ["end", "height"])).toBeDefined();
    expect(schemaAt(schema, ["feet", 1])).toBeDefined();
    expect(schemaAt(schema, ["feet", 7])).toBeUndefined();
    expect(descriptionAt(schema, ["straight"])).toBe("The straight part");
    expect(descriptionAt(schema, ["legs", 0, "run"])).toBe("One leg");
    expect(descriptionAt(schema, ["count"])).toBe("");
    expect([isOptional(schema.shape.straight), isOptional(schema.shape.kind)]).toEqual([true, false]);
  });

  test("its JSON Schema: closed objects, what is needed, quantities as text or parts with their bounds", () => {
    const json = inputJsonSchema(schema) as {
      $schema: string;
      required: string[];
      additionalProperties: boolean;
      properties: Record<string, Record<string, unknown>>;
    };
    expect(json.$schema).toBe("https://json-schema.org/draft/2020-12/schema");
    expect(json).toMatchObject({ type: "object", additionalProperties: false });
    expect(json.required).toEqual(["kind"]);
    expect(json.properties["straight"]).toEqual({
      description: "The straight part",
      quantity: "length",
      between: ["1 in", "100 ft"],
      examples: ["18 ft"],
      anyOf: [
        { type: "string", maxLength: 100 },
        {
          type: "object",
          properties: {
            value: { type: "number" },
            unit: { type: "string" },
            plusMinus: { type: "number", minimum: 0 },
          },
          required: ["value", "unit"],
          additionalProperties: false,
        },
      ],
    });
    expect(json.properties["legs"]).toMatchObject({
      type: "array",
      minItems: 1,
      maxItems: 3,
      items: { required: ["run"] },
    });
    expect(JSON.parse(JSON.stringify(json))).toEqual(json);
  });
});

describe("Standard Schema", () => {
  const check = defineRule({
    id: "venting/bench",
    title: "The bench holds",
    since: "0.1.0",
    input: schema,
    basis: [],
    limits: [],
    messages: { pass: { fine: "Fine." } },
    cautions: [],
    examples: [],
    check: (_, { say }) => say("fine"),
  });
  const compute = defineCalculator({
    id: "venting/bench-sum",
    title: "A sum",
    since: "0.1.0",
    input: schema,
    outputs: { sum: { kind: "number", what: "Sum" } },
    basis: [],
    limits: [],
    messages: {},
    cautions: [],
    examples: [],
    compute: () => ({ sum: 1 }),
  });

  test("any validator that speaks it accepts and refuses what the entry does", async () => {
    const field = fc.constantFrom("18 ft", "18", 18, null, "hose", true, [{ run: "1 ft" }], [], {
      to: "wall",
      height: "3 ft",
    });
    const input = fc.dictionary(fc.constantFrom("kind", "straight", "legs", "end", "count", "nope"), field);
    await fc.assert(
      fc.asyncProperty(fc.oneof(input, fc.jsonValue()), async (value) => {
        const result = await check.input["~standard"].validate(value);
        expect(check.try(value).ok).toBe(result.issues === undefined);
        expect(compute.try(value).ok).toBe(result.issues === undefined);
      }),
    );
    expect(check.input["~standard"]).toMatchObject({ version: 1, vendor: "zod" });
    expect(check.jsonSchema()).toEqual(inputJsonSchema(schema));
    expect(compute.jsonSchema()).toEqual(inputJsonSchema(schema));
  });
});

describe("very many tolerances", () => {
  const many = new InputReader(z.strictObject({ sizes: z.array(quantity("length")) }));
  const sizes = (n: number) => ({ sizes: Array.from({ length: n }, () => "5 in ± 1/16 in") });

  test("are carried up to a hundred", () => expect(many.read(sizes(100)).tolerances.length).toBe(100));

  test("and refused beyond, with the place", () => {
    expect(() => many.read(sizes(101))).toThrow(/sizes\[100\]: a check takes at most 100 values with a tolerance/);
  });
});
