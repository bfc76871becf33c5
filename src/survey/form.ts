/** The empty survey: its fields with help and an example of each, and forms to fill in. */
import type * as z from "zod";
import {
  type Dimension,
  inUnit,
  isReadingProblem,
  type Quantity,
  quantityExample,
  readQuantity,
  unitFacts,
} from "../core/quantity/index.js";
import { descriptionAt, isOptional, quantityMetaOf, schemaAt } from "../core/rule/index.js";
import { plainSchema } from "./rows/cell.js";
import { surveyInput } from "./survey.js";
import { surveyFields } from "./walk.js";

/** One field of a form. */
export interface FormField {
  /** Where it stands, with dots; `0` stands for any place in a list. */
  readonly path: string;
  /** Whether a survey without it is refused. */
  readonly needed: boolean;
  /** Whether a record of the survey that holds it is refused without it. */
  readonly neededInRecord: boolean;
  /** A value that is accepted, as JSON takes it. */
  readonly example: unknown;
  /** What may be written, in a few words. */
  readonly accepts: string;
  /** What it means. */
  readonly help: string;
}

/** What may be written in a field, and an example of it. */
export interface Accepted {
  readonly example: unknown;
  readonly accepts: string;
}

interface Known {
  readonly type: string;
  readonly entries?: Readonly<Record<string, string>>;
  readonly values?: readonly unknown[];
  readonly element?: z.core.$ZodType;
  readonly items?: readonly z.core.$ZodType[];
  readonly options?: readonly z.core.$ZodType[];
  readonly format?: string;
  readonly checks?: readonly {
    readonly _zod: { readonly def: { readonly value?: unknown; readonly minimum?: number } };
  }[];
}

/** The least number, or the least count of entries, that a schema's checks ask for; 0 where they ask for none. */
function leastOf({ checks = [] }: Known): number {
  const least = checks.map(({ _zod: { def } }) => {
    const { check, value, minimum } = def as { check?: string; value?: number; minimum?: number };
    return check === "greater_than" ? (value ?? 0) : (minimum ?? 0);
  });
  return Math.max(0, ...least);
}

type Bounds = NonNullable<ReturnType<typeof quantityMetaOf>>;

/** Examples beside the usual ones: small things are measured in inches, ages in years. */
const otherExamples: Partial<Record<Dimension, readonly { readonly most: string; readonly example: string }[]>> = {
  length: [
    { most: "1 in", example: "1/8 in" },
    { most: "15 ft", example: "27 in" },
  ],
  time: [
    { most: "1 h", example: "10 s" },
    { most: "7 d", example: "15 min" },
    { most: "1000 years", example: "5 years" },
  ],
};

const siOf = (text: string, dimension: Dimension): number => {
  const read = readQuantity(text, dimension);
  return isReadingProblem(read) ? Number.NaN : read.value;
};

/** A quantity inside the bounds of its schema: an example that suits its size, or the middle in the usual unit. */
function exampleQuantity({ quantity, min, max }: Bounds): string {
  const suited = otherExamples[quantity]?.find(({ most }) => max <= siOf(most, quantity) * (1 + 1e-9));
  const usual = suited?.example ?? quantityExample(quantity);
  const read = readQuantity(usual, quantity);
  if (isReadingProblem(read) || (read.value >= min && read.value <= max)) return usual;
  const middle = inUnit(((min + max) / 2) as Quantity<typeof quantity>, read.unit as never);
  return `${Number(middle.toPrecision(2))} ${unitFacts(read.unit).spellings[0]}`;
}

/** What a field takes, from its schema. */
export function acceptedBy(schema: z.core.$ZodType): Accepted {
  const { schema: inner, definition } = plainSchema(schema);
  const meta = quantityMetaOf(inner);
  if (meta) {
    const example = exampleQuantity(meta);
    return { example, accepts: `a quantity with its unit, for example ${example}` };
  }
  const { type, entries, values, element, items, options, format } = definition as Known;
  switch (type) {
    case "enum": {
      const words = Object.values(entries!);
      return { example: words[0], accepts: `one of ${words.join(", ")}` };
    }
    case "literal":
      return { example: values!.at(-1), accepts: `one of ${values!.join(", ")}` };
    case "boolean":
      return { example: true, accepts: "true or false" };
    case "int":
    case "number":
      return { example: Math.max(1, leastOf(definition as Known)), accepts: "a number without a unit" };
    case "array": {
      const one = acceptedBy(element!);
      const count = Math.max(1, leastOf(definition as Known));
      return { example: Array.from({ length: count }, () => one.example), accepts: `a list; each ${one.accepts}` };
    }
    case "tuple": {
      const each = items!.map(acceptedBy);
      return {
        example: each.map(({ example }) => example),
        accepts: `a list of ${each.length}; each ${each[0]!.accepts}`,
      };
    }
    case "object": {
      const { shape } = definition as unknown as { shape: Record<string, z.core.$ZodType> };
      const needed = Object.entries(shape).filter(([, field]) => !isOptional(field));
      const example = Object.fromEntries(needed.map(([key, field]) => [key, acceptedBy(field).example]));
      return { example, accepts: `a record of ${Object.keys(shape).join(", ")}` };
    }
    case "string":
      return format === "date"
        ? { example: "2026-03-09", accepts: "a date as year-month-day" }
        : { example: "text", accepts: "text" };
    case "record":
      return { example: {}, accepts: "names with their values" };
    case "union":
      if (options!.every((option) => plainSchema(option).definition.type === "object")) {
        const [first, ...rest] = options!.map(acceptedBy);
        return { example: first!.example, accepts: [first!.accepts, ...rest.map((one) => one.accepts)].join(", or ") };
      }
      return { example: "18 ft", accepts: "a quantity with its unit, a count, or true or false" };
    default:
      return { example: "text", accepts: "text" };
  }
}

const schemaOf = (path: readonly string[]): z.core.$ZodType => schemaAt(surveyInput, path)!;

/** Every field of a survey, in the order one walks a site. */
export function formFields(): FormField[] {
  return surveyFields().map(({ path, schema }) => ({
    path: path.join("."),
    needed: path.every((_, i) => !isOptional(schemaOf(path.slice(0, i + 1))) && path[i] !== "0"),
    neededInRecord: !isOptional(schema),
    ...acceptedBy(schema),
    help: descriptionAt(surveyInput, path),
  }));
}

/** A number and its unit, as a column of CSV parts them. */
const NUMBER_AND_UNIT = /^-?[\d./]+ ?([^\d\s].*)$/;

/** The header of a CSV that has every field of a survey, with the unit of bare numbers in brackets. */
export function csvHeader(): string[] {
  return surveyFields().map(({ path, schema }) => {
    const name = path.join(".");
    const meta = quantityMetaOf(plainSchema(schema).schema);
    const unit = meta && NUMBER_AND_UNIT.exec(exampleQuantity(meta))?.[1];
    return meta && unit && !isReadingProblem(readQuantity({ value: 1, unit }, meta.quantity))
      ? `${name} [${unit}]`
      : name;
  });
}

/** Ways to print an empty survey. */
export const formFormats = ["text", "json", "csv"] as const;
/** How an empty survey is written. */
export type FormFormat = (typeof formFormats)[number];

/**
 * An empty survey to fill in. `json` has a comment with help over each field; what may be left out is commented out with
 * an example. `csv` is a header with units and a first row that holds only what is needed. `text` lists the fields.
 */
export function surveyForm(format: FormFormat): string {
  switch (format) {
    case "json":
      return `${jsonForm()}\n`;
    case "csv": {
      const row = formFields().map(({ needed, example }) => (needed ? String(example) : ""));
      return `${csvHeader().join(",")}\n${row.join(",")}\n`;
    }
    case "text":
      return formFields()
        .map(({ path, needed, neededInRecord, accepts, help }) => {
          const mark = needed ? " (needed)" : neededInRecord ? " (needed if its group is given)" : "";
          return `${path}${mark}\n    ${help}\n    ${accepts}\n`;
        })
        .join("");
  }
}

type Shaped = { readonly shape?: Record<string, z.core.$ZodType>; readonly element?: z.core.$ZodType };
const shapedOf = (schema: z.core.$ZodType): Shaped => plainSchema(schema).definition as unknown as Shaped;

const comment = (lines: readonly string[]): string[] => lines.map((line) => `// ${line}`);
const indent = (lines: readonly string[]): string[] => lines.map((line) => `  ${line}`);

/** The lines of a list of records, as many of them as the list must have. */
function entryLines(shape: Record<string, z.core.$ZodType>, all: boolean, count: number): string[] {
  return Array.from({ length: count }, () => ["{", ...indent(recordLines(shape, all)), "},"]).flat();
}

/** The lines of one record; `all` where the record as a whole is commented out, so that its own fields need not be. */
function recordLines(shape: Record<string, z.core.$ZodType>, all: boolean): string[] {
  return Object.entries(shape).flatMap(([key, schema]) => {
    const help = descriptionAt(schema, []);
    const inner = plainSchema(schema).schema as z.ZodType;
    const { shape: fields, element } = shapedOf(schema);
    const listed = element && shapedOf(element).shape;
    const live = !isOptional(schema) || (fields !== undefined && inner.safeParse({}).success);
    const off = !live && !all;
    const within = all || off;
    const head = fields || listed ? help : `${help} (${acceptedBy(schema).accepts})`.trim();
    const value = fields
      ? ["{", ...indent(recordLines(fields, within)), "},"]
      : listed
        ? [
            "[",
            ...indent(entryLines(listed, within, Math.max(1, leastOf(plainSchema(schema).definition as Known)))),
            "],",
          ]
        : [`${JSON.stringify(acceptedBy(schema).example)},`];
    const lines = [`"${key}": ${value[0]}`, ...value.slice(1)];
    return [...(head === "" ? [] : [`// ${head}`]), ...(off ? comment(lines) : lines)];
  });
}

function jsonForm(): string {
  const { shape } = shapedOf(surveyInput);
  return ["{", ...indent(recordLines(shape!, false)), "}"].join("\n");
}
