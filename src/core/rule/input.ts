/** Schemas of quantities, and the reader that turns a checked input into SI numbers. */
import * as z from "zod";
import {
  type Dimension,
  exactly,
  isReadingProblem,
  type Quantity,
  type QuantityInput,
  quantityExample,
  quantityHelp,
  type Reading,
  readQuantity,
  show,
  si,
  type Unit,
  type UnitsOf,
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
const anywhere: Record<Dimension, readonly [number, number]> = {
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

function complaintAbout(value: unknown, { quantity: dimension, min, max }: QuantityMeta) {
  if (value === undefined) {
    const expected = quantityHelp(dimension);
    return { code: "missing", message: `this is needed: ${expected}`, expected };
  }
  const read = readQuantity(value, dimension);
  if (isReadingProblem(read)) return read;
  if (read.value < min || read.value > max) {
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

type Path = readonly (string | number)[];
type Reader = (value: unknown, path: Path, tolerances: Tolerance[]) => unknown;

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
        tolerances.push({ path, plusMinus: read.plusMinus, min, max, unit: read.unit, dimension });
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
        item && ((value, path, tolerances) => (value as unknown[]).map((v, i) => item(v, [...path, i], tolerances)))
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
      if (read[key] !== undefined) read[key] = reader(read[key], [...path, key], tolerances);
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
      const tag = "discriminator" in issue && typeof issue.discriminator === "string" ? issue.discriminator : undefined;
      const expected = tag === undefined ? "one of the accepted forms" : `a known ${tag}`;
      return make("notAccepted", `write ${expected}`, expected);
    }
    case "invalid_type": {
      const expected = typeText(issue.expected);
      return value === undefined
        ? make("missing", `this is needed: ${expected}`, expected)
        : make("wrongType", `write ${expected}`, expected);
    }
    case "too_small":
    case "too_big": {
      const edge = issue.code === "too_small" ? `at least ${issue.minimum}` : `at most ${issue.maximum}`;
      const unit = issue.origin === "string" ? " characters" : issue.origin === "array" ? " entries" : "";
      return make("outOfRange", `write ${edge}${unit}`, `${edge}${unit}`);
    }
    default:
      return make("notAccepted", issue.message, issue.message);
  }
}

function typeText(type: string): string {
  switch (type) {
    case "object":
      return "an object";
    case "array":
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
    while (current && definitionOf(current).innerType) current = definitionOf(current).innerType;
    if (!current) return undefined;
    const definition: Definition = definitionOf(current);
    if (definition.type === "array") current = definition.element;
    else if (definition.shape) current = Object.hasOwn(definition.shape, key) ? definition.shape[key] : undefined;
    else if (definition.options) {
      current = definition.options
        .map((option) => definitionOf(option).shape?.[key as string])
        .find((found) => found !== undefined);
    } else return undefined;
  }
  return current;
}

function fieldsAt(schema: z.core.$ZodType, path: Path): string {
  let found = schemaAt(schema, path);
  while (found && definitionOf(found).innerType) found = definitionOf(found).innerType;
  const definition = found && definitionOf(found);
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
function withPoint(schema: z.core.$ZodType, value: unknown): unknown {
  const definition = definitionOf(schema);
  if (definition.innerType) return value === undefined ? value : withPoint(definition.innerType, value);
  const meta = quantityMetaOf(schema);
  if (meta) {
    if (typeof value !== "string") return value;
    const read = readQuantity(value, meta.quantity, { decimal: "," });
    if (isReadingProblem(read)) return value.replaceAll(",", "\u201a");
    const plain = exactly(read.value, read.unit);
    if (read.plusMinus === 0) return plain;
    const perUnit = Math.abs(si(1, plain.unit) - si(0, plain.unit));
    return { ...plain, plusMinus: read.plusMinus / perUnit };
  }
  if (Array.isArray(value) && definition.element) return value.map((item) => withPoint(definition.element!, item));
  if (typeof value === "object" && value !== null && definition.shape) {
    return Object.fromEntries(
      Object.entries(value).map(([key, field]) => {
        const inner = Object.hasOwn(definition.shape!, key) ? definition.shape![key] : undefined;
        return [key, inner ? withPoint(inner, field) : field];
      }),
    );
  }
  return value;
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
      throw new InputFault(checked.error.issues.flatMap((issue) => issuesFrom(issue, input, this.schema)));
    }
    return this.#readChecked(checked.data);
  }

  #readChecked(data: unknown): ReadInput<Read<z.output<S>>> {
    if (this.#reader === null) this.#reader = readerOf(this.schema);
    const tolerances: Tolerance[] = [];
    const value = this.#reader ? this.#reader(data, [], tolerances) : data;
    return { value: value as Read<z.output<S>>, tolerances };
  }
}

/**
 * The JSON Schema (draft 2020-12) of an input. A quantity is a text with its unit or an object of value and unit; its
 * dimension and bounds stand beside it.
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
