/**
 * Anything in, only an answer or an `InputFault` out. About 5,000 inputs in all unless FUZZ says how many:
 * `FUZZ=100000 npx vitest run --config tests/vitest.config.ts tests/contract/fuzz.test.ts`.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as z from "zod";
import { adoptable, buildings } from "../../src/core/basis/index.js";
import { siUnit, type Unit, unitFacts } from "../../src/core/quantity/index.js";
import {
  type AtInput,
  type Calculation,
  type CatalogueEntry,
  type Finding,
  InputFault,
  inputOf,
  isOptional,
  quantityMetaOf,
} from "../../src/core/rule/index.js";
import { entries, isFinding } from "./catalogue.js";
import { lossesIn, put } from "./plain.js";

const wanted = process.env["FUZZ"];
const TOTAL = Number(wanted ?? 5000);
/** The short run is the same every time; the long one is not, and tells its seed where it fails. */
const seed = wanted === undefined ? { seed: 20260101 } : {};
/** Half of the inputs are shaped like the schema, a quarter are so but for one value, a quarter are anything. */
const RUNS = Math.max(20, Math.ceil(TOTAL / Math.max(1, entries.length) / 4));

/** Time of the processor for one input. */
const LONGEST_MS = 2000;
/** A slow entry is searched for its smallest fault no longer than this. */
const limits = wanted === undefined ? { interruptAfterTimeLimit: 15_000 } : {};

type Schema = z.core.$ZodType;
interface Definition {
  readonly type: string;
  readonly innerType?: Schema;
  readonly element?: Schema;
  readonly valueType?: Schema;
  readonly shape?: Readonly<Record<string, Schema>>;
  readonly options?: readonly Schema[];
  readonly items?: readonly Schema[];
  readonly entries?: Readonly<Record<string, string>>;
  readonly values?: readonly unknown[];
}

/** A number between two bounds: the bounds and zero among them, evenly spread, and down to the smallest at the low end. */
const between = (min: number, max: number): fc.Arbitrary<number> => {
  const share = fc.integer({ min: 0, max: 1_000_000 }).map((part) => part / 1_000_000);
  const decades = fc.double({ min: -9, max: 0, noNaN: true }).map((power) => 10 ** power);
  const at = (part: number): number => Math.min(max, Math.max(min, min + (max - min) * part));
  return fc.oneof(fc.constantFrom(min, max, Math.min(max, Math.max(min, 0))), share.map(at), decades.map(at));
};

function quantityOf({
  quantity: dimension,
  min,
  max,
}: NonNullable<ReturnType<typeof quantityMetaOf>>): fc.Arbitrary<unknown> {
  const unit = unitFacts(siUnit(dimension) as Unit).spellings[0];
  const some = fc.oneof(fc.constantFrom(0, 1e-14, max - min), between(1e-9, Math.max(1e-8, (max - min) / 50)));
  const plusMinus = fc.option(some, { nil: undefined, freq: 3 });
  return fc
    .record({ value: between(min, max), plusMinus })
    .map(({ value, plusMinus: spread }) =>
      spread === undefined ? { value, unit } : { value, unit, plusMinus: spread },
    );
}

/** Inputs that a schema accepts, or nearly. */
function shaped(schema: Schema): fc.Arbitrary<unknown> {
  const meta = quantityMetaOf(schema);
  if (meta) return quantityOf(meta);
  const definition = schema._zod.def as unknown as Definition;
  if (definition.innerType) return shaped(definition.innerType);
  switch (definition.type) {
    case "object": {
      const shape = definition.shape!;
      const needed = Object.keys(shape).filter((key) => !isOptional(shape[key] as z.ZodType));
      return fc.record(Object.fromEntries(Object.entries(shape).map(([key, field]) => [key, shaped(field)])), {
        requiredKeys: needed,
      });
    }
    case "array": {
      const { minItems = 0, maxItems = 5 } = jsonOf(schema);
      return fc.array(shaped(definition.element!), {
        minLength: minItems,
        maxLength: Math.max(minItems, Math.min(maxItems, 5)),
      });
    }
    case "tuple":
      return fc.tuple(...definition.items!.map(shaped));
    case "record":
      return fc.dictionary(fc.string({ maxLength: 5 }), shaped(definition.valueType!), { maxKeys: 3 });
    case "union":
      return fc.oneof(...definition.options!.map(shaped));
    case "enum":
      return fc.constantFrom(...Object.values(definition.entries!));
    case "literal":
      return fc.constantFrom(...definition.values!);
    case "boolean":
      return fc.boolean();
    case "number": {
      const { type, minimum = -1e6, maximum = 1e6, exclusiveMinimum, exclusiveMaximum } = jsonOf(schema);
      const [min, max] = [exclusiveMinimum ?? minimum, exclusiveMaximum ?? maximum];
      if (type !== "integer") return between(min, max);
      return fc.oneof(
        fc.constantFrom(min, max),
        fc.integer({ min, max }),
        fc.integer({ min, max: Math.min(max, min + 9) }),
      );
    }
    case "string":
      return fc.string({ minLength: jsonOf(schema).minLength ?? 0, maxLength: 20 });
    default:
      return fc.jsonValue();
  }
}

interface Bounds {
  readonly type?: string;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly exclusiveMaximum?: number;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly minLength?: number;
}
const jsonOf = (schema: Schema): Bounds => z.toJSONSchema(schema, { io: "input", unrepresentable: "any" }) as Bounds;

const anything = fc.oneof(
  fc.jsonValue(),
  fc.constantFrom<unknown>(
    "18",
    "18 ft",
    "1,5 m",
    "-1 in",
    "1e308 ft",
    "0 in ± 5 ft",
    0,
    -1,
    1e308,
    [],
    {},
    null,
    true,
    "",
  ),
);

/** A shaped input with one field that is anything, known or not. */
const spoiled = (entry: CatalogueEntry): fc.Arbitrary<unknown> => {
  const fields = [...Object.keys((inputOf(entry) as z.ZodObject).shape), "__proto__", "constructor", "strait"];
  return fc.tuple(shaped(inputOf(entry)), fc.constantFrom(...fields), anything).map(([input, field, value]) =>
    Object.defineProperty({ ...(input as object) }, field, {
      value,
      enumerable: true,
      configurable: true,
      writable: true,
    }),
  );
};

/** Surroundings: any editions, any building, stated limits of the entry. */
function surroundings(entry: CatalogueEntry): fc.Arbitrary<AtInput | undefined> {
  const adopted = fc.record(
    Object.fromEntries(
      Object.entries(adoptable).map(([key, { editions }]) => [
        key,
        fc.constantFrom(...(editions as readonly number[])),
      ]),
    ),
    { requiredKeys: [] },
  );
  const citation = fc.constant({ document: "A sheet" });
  const stated = entry.limits.map((limit) => {
    const value =
      limit.dimension === null
        ? limit.kind === "requirement"
          ? fc.boolean()
          : fc.integer({ min: 0, max: 20 })
        : fc.record({
            value: fc.oneof(fc.constantFrom(0, 1), between(0, 100)),
            unit: fc.constant(unitFacts(siUnit(limit.dimension)).spellings[0]),
          });
    return fc.record({ limit: fc.constant(limit.id), value, citation });
  });
  const some = stated.length === 0 ? fc.constant([]) : fc.array(fc.oneof(...stated), { maxLength: 2 });
  return fc.option(
    fc.record(
      {
        jurisdiction: fc.record(
          { adopted, building: fc.constantFrom(...buildings), local: some },
          { requiredKeys: [] },
        ),
        maker: some,
        units: fc.constantFrom("us", "si"),
        decision: fc.constantFrom("guarded", "simple"),
        decimal: fc.constantFrom(".", ","),
      },
      { requiredKeys: [] },
    ),
    { nil: undefined },
  ) as fc.Arbitrary<AtInput | undefined>;
}

/** Tries one input and holds the answer to what every answer keeps. Counts the answers. */
function probe(entry: CatalogueEntry, counts: { answered: number; refused: number }) {
  let keys: string[] | undefined;
  return (input: unknown, at: AtInput | undefined): void => {
    const started = process.cpuUsage();
    const tried = entry.try(input, at) as unknown as {
      ok: boolean;
      fault?: InputFault;
      finding?: Finding;
      calculation?: Calculation;
    };
    // far above any of them, far below what a person takes for a hang
    expect(process.cpuUsage(started).user / 1000).toBeLessThan(LONGEST_MS);
    if (!tried.ok) {
      counts.refused++;
      expect(tried.fault).toBeInstanceOf(InputFault);
      for (const { path, code, message, received } of tried.fault!.issues) {
        expect([typeof code, typeof received, Array.isArray(path)]).toEqual(["string", "string", true]);
        expect(message).not.toMatch(/undefined|NaN|\[object|^$/);
      }
      return;
    }
    counts.answered++;
    const result = (tried.finding ?? tried.calculation)!;
    expect(lossesIn(result)).toEqual([]);
    keys ??= Object.keys(result);
    expect(Object.keys(result)).toEqual(keys);
    if (!isFinding(result)) return;
    for (const { message, changes } of result.remedies) {
      const mended = structuredClone(input) as Record<string, unknown>;
      for (const { path, value } of changes) put(mended, path, value);
      const again = entry.try(mended, at) as { fault?: InputFault; finding?: Finding };
      expect(`${message} ${again.finding?.verdict ?? again.fault?.message}`).toBe(`${message} pass`);
    }
  };
}

describe.each(entries.map((entry) => [entry.id, entry] as const))("%s", (_, entry) => {
  const at = surroundings(entry);

  test("answers what its schema accepts, extremes and tolerances too", () => {
    const counts = { answered: 0, refused: 0 };
    fc.assert(fc.property(shaped(inputOf(entry)), at, probe(entry, counts)), { ...seed, ...limits, numRuns: 2 * RUNS });
    // otherwise the test would look at faults only
    expect(counts.answered).toBeGreaterThan(RUNS / 10);
  });

  test("refuses or answers anything else", () => {
    const counts = { answered: 0, refused: 0 };
    fc.assert(fc.property(spoiled(entry), at, probe(entry, counts)), { ...seed, ...limits, numRuns: RUNS });
    fc.assert(fc.property(anything, fc.oneof(at, anything as fc.Arbitrary<undefined>), probe(entry, counts)), {
      ...seed,
      numRuns: RUNS,
    });
    expect(counts.refused).toBeGreaterThan(0);
  });
});
