/** Schemas of quantities, and the reader that turns a checked input into SI numbers. */
import * as z from "zod";
import {
  atLeast,
  atMost,
  type Dimension,
  exactly,
  isReadingProblem,
  type Quantity,
  type QuantityInput,
  quantityExample,
  quantityHelp,
  type Reading,
  type ReadingProblem,
  readQuantity,
  show,
  si,
  siUnit,
  type Unit,
  type UnitsOf,
  unitFacts,
} from "../quantity/index.js";
import { describeReceived, InputFault, type InputIssue } from "./fault.js";

declare const quantityMark: unique symbol;

/** A checked but not yet read quantity of a dimension. */
export type Written<D extends Dimension> = QuantityInput & { readonly [quantityMark]: D };

/** A schema of one quantity. */
export type QuantitySchema<D extends Dimension> = z.ZodType<Written<D>, QuantityInput>;

/** An input after reading: every quantity is a branded SI number, everything else as it was. */
export type Read<T> = T extends { readonly [quantityMark]: infer D extends Dimension }
  ? Quantity<D>
  : T extends readonly (infer Item)[]
    ? Read<Item>[]
    : T extends object
      ? { [Key in keyof T]: Read<T[Key]> }
      : T;

/** An input as callers may give it: nothing in it is changed, so constants will do. */
export type Given<T> = T extends object ? { readonly [Key in keyof T]: Given<T[Key]> } : T;

/** Bounds of a quantity in a unit of its dimension. */
export interface QuantityBounds<D extends Dimension> {
  readonly min?: readonly [number, UnitsOf<D>];
  readonly max?: readonly [number, UnitsOf<D>];
}

/** What a schema remembers of a quantity. */
interface QuantityMeta {
  readonly quantity: Dimension;
  readonly min: number;
  readonly max: number;
}

/**
 * Bounds in SI that hold where a schema sets none: wider than anything on a site, narrow enough that no formula
 * overflows. Common practice, no source.
 */
export const anywhere: Record<Dimension, readonly [number, number]> = {
  length: [0, 1e4],
  area: [0, 1e6],
  volume: [0, 1e6],
  angle: [-2 * Math.PI, 2 * Math.PI],
  slope: [-10, 10],
  mass: [0, 1e5],
  force: [0, 1e6],
  torque: [0, 1e5],
  pressure: [0, 1e8],
  pressureGradient: [0, 1e6],
  temperature: [173.15, 1273.15],
  temperatureDifference: [-1000, 1000],
  power: [0, 1e8],
  energy: [0, 1e12],
  voltage: [0, 1e5],
  current: [0, 1e5],
  resistance: [0, 1e9],
  resistancePerLength: [0, 1e3],
  volumeFlow: [0, 1e3],
  massFlow: [0, 1e4],
  speed: [0, 1e3],
  time: [0, 1e10],
  frequency: [0, 1e6],
  density: [0, 1e5],
  viscosity: [0, 1e3],
  heatContent: [0, 1e9],
  thermalResistance: [0, 1e3],
  stiffness: [0, 1e9],
  ratio: [0, 1],
};

/** Below this in SI, and not nothing, a number measures nothing; its reciprocal is past what formulas can hold. */
const SMALLEST = 1e-15;
/** Whether a number is too small to mean anything. */
export const isTooSmall = (value: number): boolean => value !== 0 && Math.abs(value) < SMALLEST;
const TOO_SMALL = {
  message: "the number is too small to mean anything here; write 0 where it is nothing",
  expected: "0, or a number that can be measured",
};

const bound = (value: readonly [number, Unit] | undefined, otherwise: number): number =>
  value === undefined ? otherwise : si(value[0], value[1]);

/**
 * Schema of one quantity: text with its unit, or `{ value, unit, plusMinus }`. A bare number is refused.
 *
 * @param dimension - what it measures
 * @param bounds - the least and the most that can be meant; a value outside is a fault, not a verdict
 */
export function quantity<D extends Dimension>(dimension: D, bounds: QuantityBounds<D> = {}): QuantitySchema<D> {
  const [least, most] = anywhere[dimension];
  const min = bound(bounds.min as readonly [number, Unit] | undefined, least);
  const max = bound(bounds.max as readonly [number, Unit] | undefined, most);
  const meta: QuantityMeta = { quantity: dimension, min, max };
  const schema = z
    .unknown()
    .check((context) => {
      const complaint = complaintAbout(context.value, meta);
      if (complaint) {
        const { code, message, expected } = complaint;
        context.issues.push({ code: "custom", input: context.value, message, params: { code, expected } });
      }
    })
    .meta({ ...meta });
  return schema as unknown as QuantitySchema<D>;
}

/** A text with the decimal comma that could not be read, kept so that the schema refuses it with the right words. */
class Unreadable {
  readonly problem: ReadingProblem;
  constructor(problem: ReadingProblem) {
    this.problem = problem;
  }
}

function complaintAbout(value: unknown, { quantity: dimension, min, max }: QuantityMeta) {
  if (value instanceof Unreadable) return value.problem;
  if (value === undefined) {
    const expected = quantityHelp(dimension);
    return { code: "missing", message: `this is needed: ${expected}`, expected };
  }
  const read = readQuantity(value, dimension);
  if (isReadingProblem(read)) return read;
  if (isTooSmall(read.value) || isTooSmall(read.plusMinus)) return { code: "outOfRange", ...TOO_SMALL };
  if (!atLeast(read.value, min) || !atMost(read.value, max)) {
    const expected = `between ${boundText(min, dimension)} and ${boundText(max, dimension)}`;
    return { code: "outOfRange", message: `the value must be ${expected}`, expected };
  }
  return undefined;
}

const boundText = (value: number, dimension: Dimension): string =>
  show(value as Quantity<"length">, dimension as "length");

/** The quantity that a schema describes, looking through optional and default wrappers. */
export function quantityMetaOf(schema: z.core.$ZodType): QuantityMeta | undefined {
  const meta = z.globalRegistry.get(schema) as Partial<QuantityMeta> | undefined;
  return meta?.quantity === undefined ? undefined : (meta as QuantityMeta);
}

type Definition = z.core.$ZodTypeDef & {
  readonly innerType?: z.core.$ZodType;
  readonly element?: z.core.$ZodType;
  readonly valueType?: z.core.$ZodType;
  readonly shape?: Record<string, z.core.$ZodType>;
  readonly options?: readonly z.core.$ZodType[];
  readonly items?: readonly z.core.$ZodType[];
  readonly discriminator?: string;
};
const definitionOf = (schema: z.core.$ZodType): Definition => schema._zod.def as Definition;

/** A schema without its optional, default and read-only wrappers. */
function unwrapped(schema: z.core.$ZodType): z.core.$ZodType {
  let current = schema;
  for (let inner = definitionOf(current).innerType; inner; inner = definitionOf(current).innerType) current = inner;
  return current;
}

/** The option of a discriminated union that a value chooses. */
function optionFor({ options, discriminator }: Definition, value: object): z.core.$ZodType | undefined {
  if (discriminator === undefined) return undefined;
  const tag = (value as Record<string, unknown>)[discriminator];
  return options!.find((option) => definitionOf(option).shape?.[discriminator]?._zod.values?.has(tag as never));
}

/** The schema of each field or entry of a value, by key; nothing for what the schema does not know. */
function partOf(schema: z.core.$ZodType, value: object, key: string | number): z.core.$ZodType | undefined {
  const definition = definitionOf(schema);
  switch (definition.type) {
    case "object":
      return Object.hasOwn(definition.shape!, key) ? definition.shape![key] : undefined;
    case "array":
      return definition.element;
    case "tuple":
      return definition.items![Number(key)];
    case "record":
      return definition.valueType;
    case "union": {
      const option = optionFor(definition, value);
      return option && partOf(unwrapped(option), value, key);
    }
    default:
      return undefined;
  }
}

/** A copy of a value with each quantity in it replaced; what is not an object of its own kind stays as it is. */
function mapQuantities(
  schema: z.core.$ZodType,
  value: unknown,
  change: (value: unknown, meta: QuantityMeta) => unknown,
): unknown {
  if (value === undefined) return value;
  const meta = quantityMetaOf(schema) ?? quantityMetaOf(unwrapped(schema));
  if (meta) return change(value, meta);
  if (typeof value !== "object" || value === null) return value;
  const inner = unwrapped(schema);
  const part = (key: string | number, field: unknown): unknown => {
    const found = partOf(inner, value, key);
    return found ? mapQuantities(found, field, change) : field;
  };
  if (Array.isArray(value)) return value.map((item, i) => part(i, item));
  return Object.fromEntries(Object.entries(value).map(([key, field]) => [key, part(key, field)]));
}

/** A value that was read, in the form the input takes: each quantity as exact value and unit. */
export function writtenForm(schema: z.core.$ZodType, value: unknown, unit?: Unit): unknown {
  return mapQuantities(schema, value, (si, { quantity: dimension }) =>
    typeof si === "number" ? exactly(si as Quantity<Dimension>, unit ?? siUnit(dimension)) : si,
  );
}

/** A tolerance that came with one quantity of an input. */
export interface Tolerance {
  readonly path: readonly (string | number)[];
  /** Half-width, SI. */
  readonly plusMinus: number;
  readonly min: number;
  readonly max: number;
  readonly unit: Unit;
  readonly dimension: Dimension;
}

/** An input that was read: SI values, and the tolerances that were stated. */
export interface ReadInput<T> {
  readonly value: T;
  readonly tolerances: readonly Tolerance[];
}

/**
 * Values with a tolerance that one input may hold. Each one is moved to both ends and the check run again, so a plan of
 * hundreds of things, every size with its tolerance, would hold up a whole file.
 */
const MOST_TOLERANCES = 100;

type Path = readonly (string | number)[];
/** `path` is where the reader is; it grows and shrinks on the way, so that only what has a tolerance copies it. */
type Reader = (value: unknown, path: (string | number)[], tolerances: Tolerance[]) => unknown;

/** Reads one part of a value. */
function readPart(
  reader: Reader,
  value: unknown,
  key: string | number,
  path: (string | number)[],
  tolerances: Tolerance[],
): unknown {
  path.push(key);
  const read = reader(value, path, tolerances);
  path.pop();
  return read;
}

/** A reader for the quantities inside a schema; `undefined` where there are none, so that the value can stay as it is. */
function readerOf(schema: z.core.$ZodType): Reader | undefined {
  const meta = quantityMetaOf(schema);
  const definition = definitionOf(schema);
  if (definition.innerType) {
    const inner = readerOf(definition.innerType);
    return inner && ((value, path, tolerances) => (value === undefined ? value : inner(value, path, tolerances)));
  }
  if (meta) {
    const { quantity: dimension, min, max } = meta;
    return (value, path, tolerances) => {
      const read = readQuantity(value, dimension) as Reading<Dimension>;
      if (read.plusMinus > 0) {
        tolerances.push({ path: [...path], plusMinus: read.plusMinus, min, max, unit: read.unit, dimension });
      }
      return read.value;
    };
  }
  switch (definition.type) {
    case "object":
      return objectReader(definition.shape!);
    case "array": {
      const item = readerOf(definition.element!);
      return (
        item &&
        ((value, path, tolerances) => (value as unknown[]).map((v, i) => readPart(item, v, i, path, tolerances)))
      );
    }
    case "tuple": {
      const items = definition.items!.map(readerOf);
      if (items.every((item) => item === undefined)) return undefined;
      return (value, path, tolerances) =>
        (value as unknown[]).map((v, i) => (items[i] ? readPart(items[i], v, i, path, tolerances) : v));
    }
    case "record": {
      const item = readerOf(definition.valueType!);
      return (
        item &&
        ((value, path, tolerances) =>
          Object.fromEntries(
            Object.entries(value as object).map(([key, v]) => [key, readPart(item, v, key, path, tolerances)]),
          ))
      );
    }
    case "union":
      return unionReader(definition);
    default:
      return undefined;
  }
}

function objectReader(shape: Record<string, z.core.$ZodType>): Reader | undefined {
  const readers: [string, Reader][] = [];
  for (const [key, schema] of Object.entries(shape)) {
    const reader = readerOf(schema);
    if (reader) readers.push([key, reader]);
  }
  if (readers.length === 0) return undefined;
  return (value, path, tolerances) => {
    const read: Record<string, unknown> = { ...(value as object) };
    for (const [key, reader] of readers) {
      if (read[key] !== undefined) read[key] = readPart(reader, read[key], key, path, tolerances);
    }
    return read;
  };
}

function unionReader({ options, discriminator }: Definition): Reader | undefined {
  const choices = options!.map((option) => ({ option, reader: readerOf(option) }));
  if (choices.every(({ reader }) => reader === undefined)) return undefined;
  if (discriminator === undefined) {
    throw new TypeError("a union with quantities inside needs a discriminator");
  }
  const byTag = new Map<unknown, Reader | undefined>();
  for (const { option, reader } of choices) {
    const tag = definitionOf(option).shape![discriminator]!;
    for (const value of tag._zod.values ?? []) byTag.set(value, reader);
  }
  return (value, path, tolerances) =>
    byTag.get((value as Record<string, unknown>)[discriminator])?.(value, path, tolerances) ?? value;
}

const at = (root: unknown, path: Path): unknown =>
  path.reduce<unknown>(
    (value, key) =>
      typeof value === "object" && value !== null ? (value as Record<string | number, unknown>)[key] : undefined,
    root,
  );

const list = (values: readonly unknown[]): string => values.map((value) => JSON.stringify(value)).join(", ");

/** Our words for a complaint of the schema library. */
function issuesFrom(issue: z.core.$ZodIssue, root: unknown, schema: z.core.$ZodType): InputIssue[] {
  const path = issue.path as Path as (string | number)[];
  const value = at(root, path);
  const received = describeReceived(value);
  const make = (code: string, message: string, expected: string): InputIssue[] => [
    { path, code, message, expected, received },
  ];
  switch (issue.code) {
    case "custom": {
      const { code = "notAccepted", expected = "" } = (issue.params ?? {}) as { code?: string; expected?: string };
      return make(code, issue.message, expected);
    }
    case "unrecognized_keys": {
      const accepted = fieldsAt(schema, path);
      return issue.keys.map((key) => ({
        path: [...path, key],
        code: "unknownField",
        message: `there is no such field; write one of ${accepted}`,
        expected: accepted,
        received: describeReceived(at(root, [...path, key])),
      }));
    }
    case "invalid_value":
      return make(
        value === undefined ? "missing" : "notAccepted",
        `write one of ${list(issue.values)}`,
        list(issue.values),
      );
    case "invalid_union": {
      const known = "options" in issue && Array.isArray(issue.options) ? `one of ${list(issue.options)}` : undefined;
      const expected = known ?? (descriptionAt(schema, path) || "one of the accepted forms");
      return make(value === undefined ? "missing" : "notAccepted", known ? `write ${known}` : expected, expected);
    }
    case "invalid_type": {
      const expected = typeText(issue.expected);
      return value === undefined
        ? make("missing", `this is needed: ${expected}`, expected)
        : make("wrongType", `write ${expected}`, expected);
    }
    case "too_small":
    case "too_big": {
      const edge = edgeText(issue);
      const unit = issue.origin === "string" ? " characters" : issue.origin === "array" ? " entries" : "";
      return make("outOfRange", `write ${edge}${unit}`, `${edge}${unit}`);
    }
    case "not_multiple_of": {
      const expected = `a multiple of ${issue.divisor}`;
      return make("notAccepted", `write ${expected}`, expected);
    }
    case "invalid_format": {
      const expected = formats[issue.format] ?? `a text of the form "${issue.format}"`;
      return make("notAccepted", `write ${expected}`, expected);
    }
    case "invalid_key":
    case "invalid_element": {
      const expected = descriptionAt(schema, path.slice(0, -1)) || "a name that is accepted here";
      return make("notAccepted", `this name is not accepted: ${expected}`, expected);
    }
  }
}

/** One complaint per value: a text in place of a list is not also a list that is too long. */
function firstAtEachPath(issues: readonly InputIssue[]): InputIssue[] {
  const seen = new Set<string>();
  return issues.filter(({ path }) => {
    const key = JSON.stringify(path);
    return !seen.has(key) && seen.add(key);
  });
}

/** Forms of text that a schema may ask for, in our words. */
const formats: Readonly<Record<string, string>> = {
  date: 'a date as year, month and day, for example "2026-03-09"',
  datetime: 'a date and time, for example "2026-03-09T14:30:00Z"',
  regex: "a text of the form that the field describes",
};

type Edge = z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig;

function edgeText(issue: Edge): string {
  if (issue.code === "too_small") return `${issue.inclusive === false ? "more than" : "at least"} ${issue.minimum}`;
  return `${issue.inclusive === false ? "less than" : "at most"} ${issue.maximum}`;
}

function typeText(type: string): string {
  switch (type) {
    case "object":
    case "record":
      return "an object";
    case "array":
    case "tuple":
      return "a list";
    case "int":
      return "a whole number";
    case "boolean":
      return "true or false";
    case "string":
      return "a text";
    default:
      return `a ${type}`;
  }
}

/** The schema at a path, looking through wrappers; array indices are one step. */
export function schemaAt(schema: z.core.$ZodType, path: Path): z.core.$ZodType | undefined {
  let current: z.core.$ZodType | undefined = schema;
  for (const key of path) {
    if (!current) return undefined;
    const inner: z.core.$ZodType = unwrapped(current);
    const options = definitionOf(inner).options ?? [inner];
    current = options.map((option) => partOf(unwrapped(option), {}, key)).find((found) => found !== undefined);
  }
  return current;
}

function fieldsAt(schema: z.core.$ZodType, path: Path): string {
  const found = schemaAt(schema, path);
  const definition = found && definitionOf(unwrapped(found));
  const shapes = definition?.shape
    ? [definition.shape]
    : (definition?.options ?? []).map((o) => definitionOf(o).shape ?? {});
  return [...new Set(shapes.flatMap((shape) => Object.keys(shape)))].join(", ");
}

/** The line of help that a schema carries at a path: its description. */
export function descriptionAt(schema: z.core.$ZodType, path: Path): string {
  let found = schemaAt(schema, path);
  while (found) {
    const description = z.globalRegistry.get(found)?.description;
    if (description !== undefined) return description;
    found = definitionOf(found).innerType;
  }
  return "";
}

/** Whether a field may be left out. */
export function isOptional(schema: z.core.$ZodType): boolean {
  return schema._zod.optin === "optional";
}

export interface ReadInputOptions {
  /** The decimal mark in texts; the stated default is the point. */
  readonly decimal?: "." | ",";
}

/** Rewrites texts that use the decimal comma into value and unit, so that the schema can check them. */
function withPoint(schema: z.core.$ZodType, root: unknown): unknown {
  return mapQuantities(schema, root, (value, { quantity: dimension }) => {
    if (typeof value !== "string") return value;
    const read = readQuantity(value, dimension, { decimal: "," });
    if (isReadingProblem(read)) return new Unreadable(read);
    const plain = exactly(read.value, read.unit);
    if (read.plusMinus === 0) return plain;
    return { ...plain, plusMinus: read.plusMinus / unitFacts(plain.unit).factor };
  });
}

/** Checks and reads inputs of one schema. Made once per schema; the work of walking the schema is done at first use. */
export class InputReader<S extends z.ZodType> {
  readonly schema: S;
  #reader: Reader | undefined | null = null;

  constructor(schema: S) {
    this.schema = schema;
  }

  /**
   * Checks an input against the schema and reads its quantities.
   *
   * @throws InputFault listing everything that is wrong with it
   */
  read(input: unknown, { decimal = "." }: ReadInputOptions = {}): ReadInput<Read<z.output<S>>> {
    const given = decimal === "," ? withPoint(this.schema, input) : input;
    const checked = this.schema.safeParse(given);
    if (!checked.success) {
      const issues = checked.error.issues.flatMap((issue) => issuesFrom(issue, input, this.schema));
      throw new InputFault(firstAtEachPath(issues));
    }
    return this.#readChecked(checked.data);
  }

  #readChecked(data: unknown): ReadInput<Read<z.output<S>>> {
    if (this.#reader === null) this.#reader = readerOf(this.schema);
    const tolerances: Tolerance[] = [];
    const value = this.#reader ? this.#reader(data, [], tolerances) : data;
    const tooMany = tolerances[MOST_TOLERANCES];
    if (tooMany) {
      const expected = `at most ${MOST_TOLERANCES} values with a tolerance`;
      const message = `a check takes ${expected}; leave out those that matter least`;
      throw new InputFault([
        { path: tooMany.path, code: "tooManyTolerances", message, expected, received: `${tolerances.length} of them` },
      ]);
    }
    return { value: value as Read<z.output<S>>, tolerances };
  }
}

/**
 * The JSON Schema (draft 2020-12) of an input. A quantity is a text with its unit or an object of value and unit; its
 * dimension and, under `between`, its bounds stand beside it.
 */
export function inputJsonSchema(schema: z.ZodType): Record<string, unknown> {
  return z.toJSONSchema(schema, {
    io: "input",
    override: ({ zodSchema, jsonSchema }) => {
      const meta = quantityMetaOf(zodSchema);
      if (!meta) return;
      const { description } = jsonSchema;
      for (const key of Object.keys(jsonSchema)) delete jsonSchema[key];
      Object.assign(jsonSchema, {
        ...(description === undefined ? {} : { description }),
        quantity: meta.quantity,
        between: [boundText(meta.min, meta.quantity), boundText(meta.max, meta.quantity)],
        examples: [quantityExample(meta.quantity)],
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
    },
  }) as Record<string, unknown>;
}
