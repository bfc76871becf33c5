/**
 * Every step of every example, done again by a second system: formulas by mathjs with units, look-ups and comparisons
 * by the few lines below.
 */
import { all, create, type Unit } from "mathjs";
import { describe, expect, test } from "vitest";
import { type Dimension, dimensions, kindDimension, kinds, type QuantityKind } from "../../src/core/quantity/index.js";
import type { Step } from "../../src/core/rule/index.js";
import type { Table } from "../../src/core/table/index.js";
import { allTables, entries, examplesOf } from "./catalogue.js";

const math = create(all!, {});
const tables = await allTables();
const TOLERANCE = 1e-9;

type Value = Step["values"][string];
/** A number in SI with its powers of the base units; an angle counts as a plain number, as in the SI. */
interface Measure {
  readonly si: number;
  readonly powers: readonly number[];
}
type MathUnit = Unit & { value: number | null; dimensions: number[] };

const BASE_UNITS = (math.unit("m") as MathUnit).dimensions.length;
const ANGLE = (math.unit("rad") as MathUnit).dimensions.findIndex((power) => power !== 0);
const PLAIN: readonly Dimension[] = ["ratio", "slope"];

function dimensionOf({ kind }: Value): Dimension | null {
  return kind in kinds ? kindDimension(kind as QuantityKind) : null;
}

/** A value of a step as mathjs takes it. */
function symbol(name: string, value: Value): number | Unit {
  if (value.si === null) throw new Error(`"${name}" is a word, not a number`);
  const dimension = dimensionOf(value);
  if (dimension === null || PLAIN.includes(dimension)) return value.si;
  return math.unit(value.si, dimensions[dimension].math.replaceAll(" ", " * "));
}

function measure(value: unknown): Measure {
  if (typeof value === "number") return { si: value, powers: Array(BASE_UNITS).fill(0) };
  const unit = value as MathUnit;
  if (typeof unit?.value !== "number" || !Array.isArray(unit.dimensions)) {
    throw new Error(`it comes to ${math.format(value)}, which is no number with a unit`);
  }
  return { si: unit.value, powers: unit.dimensions.map((power, i) => (i === ANGLE ? 0 : power)) };
}

const sameDimension = (a: Measure, b: Measure): boolean =>
  a.powers.every((power, i) => Math.abs(power - b.powers[i]!) < 1e-12);

/** What is wrong with a formula step; nothing where both sides agree. */
function formulaFault({ formula, values }: Step): string | undefined {
  const sides = formula!.split(" = ");
  if (sides.length !== 2) return "it needs exactly one equals sign";
  const [left = "", right = ""] = sides;
  if (!Object.hasOwn(values, left)) return `its left side "${left}" is not one slot`;
  try {
    const scope = new Map(Object.entries(values).map(([name, value]) => [name, symbol(name, value)]));
    const want = measure(scope.get(left));
    scope.delete(left);
    const got = measure(math.evaluate(right, scope));
    if (!sameDimension(want, got)) {
      return `the right side has the dimension ${got.powers}, the left ${want.powers} (mathjs's base units)`;
    }
    // a difference of two nearly equal numbers is known to the last bits of the numbers, not of itself
    const sizes = Object.values(values)
      .filter((value) => value.si !== null && sameDimension(measure(symbol("", value)), want))
      .map((value) => Math.abs(value.si!));
    const slack = TOLERANCE * Math.max(Math.abs(want.si), Math.abs(got.si)) + 1e-13 * Math.max(0, ...sizes);
    return Math.abs(got.si - want.si) <= slack ? undefined : `mathjs makes it ${got.si}, the code ${want.si}`;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

/** The printed value at a key, found the plain way. */
function lookUpAgain({ rows, between, below, above }: Table, key: number): number | undefined {
  const near = (a: number, b: number) => Math.abs(a - b) <= 1e-9 * Math.abs(b);
  const exact = rows.find(([row]) => near(key, row) || key === row);
  if (exact) return exact[1];
  const lower = rows.filter(([row]) => row < key).at(-1);
  const upper = rows.find(([row]) => row > key);
  if (!lower) return below === "hold" ? upper![1] : undefined;
  if (!upper) return above === "hold" ? lower[1] : undefined;
  const share = (key - lower[0]) / (upper[0] - lower[0]);
  return { exact: undefined, next: upper[1], previous: lower[1], linear: lower[1] + share * (upper[1] - lower[1]) }[
    between
  ];
}

function lookUpFault({ table: id, values, text }: Step): string | undefined {
  const table = tables.get(id!);
  if (!table) return `no file of a trade exports a table called ${id}`;
  const want = lookUpAgain(table, values["key"]!.si!);
  const got = values["value"]?.si;
  if (want === undefined || got === undefined || got === null) {
    return want === got && text.endsWith(": no value") ? undefined : `the table gives ${want}, the step ${got}`;
  }
  return Math.abs(got - want) <= 1e-11 * Math.abs(want) ? undefined : `the table gives ${want}, the step ${got}`;
}

function compareFault({ values, text }: Step): string | undefined {
  const measured = values["measured"]!.si!;
  const limit = values["limit"]!.si!;
  const spread = values["tolerance"]?.si ?? 0;
  const atMost = text.includes(" at most ");
  if (atMost === text.includes(" at least ")) return "it does not say which way the limit binds";
  const holds = (value: number): boolean => (atMost ? value - limit : limit - value) <= 1e-9 * Math.abs(limit);
  const [low, high] = [holds(measured - spread), holds(measured + spread)];
  const want = low && high ? "holds" : low || high ? "cannot be told" : "does not hold";
  const told = text.split(": ").at(-1);
  // a step of the rule, where no finite tolerance is known, cannot be told either
  return told === want || (told === "cannot be told" && spread === 0) ? undefined : `it says "${told}", but ${want}`;
}

const faultOf = { formula: formulaFault, lookup: lookUpFault, compare: compareFault };

describe.each(entries.map((entry) => [entry.id, entry] as const))("workings of %s", (_, entry) => {
  test("agree with a second calculation", () => {
    const faults = examplesOf(entry).flatMap(({ title, result }) =>
      result.workings.flatMap((step) => {
        const fault = faultOf[step.kind](step);
        return fault === undefined ? [] : [`example "${title}", step "${step.formula ?? step.text}": ${fault}`];
      }),
    );
    expect(faults).toEqual([]);
  });
});

describe("the second calculation itself", () => {
  const step = (formula: string, values: Record<string, [number, string]>): Step => ({
    kind: "formula",
    text: "",
    formula,
    table: null,
    values: Object.fromEntries(
      Object.entries(values).map(([name, [si, kind]]) => [name, { si, kind: kind as QuantityKind, text: "" }]),
    ),
  });

  test("accepts what is right", () => {
    expect(
      formulaFault(
        step("need = route * (1 + share)", { need: [1.65, "length"], route: [1.5, "length"], share: [0.1, "ratio"] }),
      ),
    ).toBeUndefined();
    expect(
      formulaFault(
        step("fall = run * tan(a)", { fall: [Math.tan(0.1), "length"], run: [1, "length"], a: [0.1, "angle"] }),
      ),
    ).toBeUndefined();
    expect(
      formulaFault(step("a = atan(h / run)", { a: [Math.atan(0.5), "angle"], h: [1, "length"], run: [2, "length"] })),
    ).toBeUndefined();
    expect(
      formulaFault(step("q = 0.5 * (d / (1 inch))^2 * (1 m^3/s)", { q: [2, "volumeFlow"], d: [0.0508, "length"] })),
    ).toBeUndefined();
    expect(
      formulaFault(step("p = u * i", { p: [240, "power"], u: [24, "voltage"], i: [10, "current"] })),
    ).toBeUndefined();
  });

  test("refuses a wrong number, a wrong dimension and a text that does not parse", () => {
    expect(formulaFault(step("a = b + c", { a: [3, "length"], b: [1, "length"], c: [2.00001, "length"] }))).toMatch(
      /mathjs makes it/,
    );
    expect(formulaFault(step("a = b * c", { a: [2, "length"], b: [1, "length"], c: [2, "length"] }))).toMatch(
      /dimension/,
    );
    expect(formulaFault(step("a = b + c", { a: [3, "length"], b: [1, "length"], c: [2, "count"] }))).toMatch(/./);
    expect(formulaFault(step("a = b b c +", { a: [3, "length"] }))).toMatch(/./);
    expect(formulaFault(step("a = b = c", { a: [3, "length"] }))).toMatch(/one equals sign/);
    expect(formulaFault(step("2 * a = b", { a: [1, "length"], b: [2, "length"] }))).toMatch(/not one slot/);
    expect(formulaFault(step("a = a", { a: [1, "length"] }))).toMatch(/Undefined symbol/);
  });

  test("knows a look-up and a comparison that were done wrong", () => {
    const values = {
      measured: { si: 2, kind: "number", text: "2" },
      limit: { si: 1, kind: "number", text: "1" },
    } as const;
    expect(compareFault({ kind: "compare", text: "2 at most 1: holds", formula: null, table: null, values })).toMatch(
      /does not hold/,
    );
    expect(
      compareFault({ kind: "compare", text: "2 at most 1: does not hold", formula: null, table: null, values }),
    ).toBeUndefined();
    expect(lookUpFault({ kind: "lookup", text: "", formula: null, table: "nowhere", values })).toMatch(
      /no file of a trade/,
    );
    const [table] = tables.values();
    if (table) {
      const [key, value] = table.rows[0]!;
      const at = (si: number) =>
        ({ key: { si: key, kind: "number", text: "" }, value: { si, kind: "number", text: "" } }) as const;
      expect(
        lookUpFault({ kind: "lookup", text: "", formula: null, table: table.id, values: at(value) }),
      ).toBeUndefined();
      expect(lookUpFault({ kind: "lookup", text: "", formula: null, table: table.id, values: at(value + 1) })).toMatch(
        /the table gives/,
      );
    }
  });
});
