/** Values from plain text, as a field's schema has them: cells of CSV, and flags of a command. */
import type * as z from "zod";
import type { Dimension } from "../../core/quantity/index.js";
import { quantityMetaOf } from "../../core/rule/index.js";

type Definition = {
  readonly type: string;
  readonly innerType?: z.core.$ZodType;
  readonly element?: z.core.$ZodType;
  readonly items?: readonly z.core.$ZodType[];
};

/** A schema without its optional and default wrappers, with what it is. */
export function plainSchema(schema: z.core.$ZodType): { schema: z.core.$ZodType; definition: Definition } {
  let current = schema;
  let definition = current._zod.def as unknown as Definition;
  while (definition.innerType && !quantityMetaOf(current)) {
    current = definition.innerType;
    definition = current._zod.def as unknown as Definition;
  }
  return { schema: current, definition };
}

/** The dimension of a field that holds a quantity or a list of them. */
export function dimensionOfField(schema: z.core.$ZodType): Dimension | undefined {
  const { schema: inner, definition } = plainSchema(schema);
  const meta = quantityMetaOf(inner);
  if (meta) return meta.quantity;
  return definition.type === "array" ? dimensionOfField(definition.element!) : undefined;
}

const truths = new Map([
  ["true", true],
  ["yes", true],
  ["false", false],
  ["no", false],
]);
const truthOr = (text: string): unknown => truths.get(text.toLowerCase()) ?? text;

/** A text as the number or the text it is; the schema says later whether that will do. */
const numberOr = (text: string): unknown => (/^-?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?$/.test(text) ? Number(text) : text);

/** A number or a truth where the text is one. */
const anyOr = (text: string): unknown => {
  const number = numberOr(text);
  return typeof number === "number" ? number : truthOr(text);
};

/** JSON where it is written as such; the text itself otherwise, for the schema to refuse. */
function jsonOr(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}

/** A number alone, as the reader of quantities takes it, without a unit. */
const BARE = /^[-+−]? ?[\d.,/⁄½¼¾⅛⅜⅝⅞⅓⅔\s-]*[\d½¼¾⅛⅜⅝⅞⅓⅔][.,]?(?:[eE][-+]?\d+)?$/u;
const MARK = /(±|\+\/-)/;

/** A quantity with the unit of its column after each bare number; a unit of its own stays. */
function withUnit(text: string, unit: string): string {
  return text
    .split(MARK)
    .map((part) => (BARE.test(part.trim()) ? `${part.trim()} ${unit}` : part.trim()))
    .join(" ");
}

/**
 * A reader from text to the value that a field's schema takes. `none` is an empty list; entries of a list are parted by
 * semicolons; records are written as JSON.
 *
 * @param schema - schema of the field
 * @param unit - the unit of bare numbers; none are taken where it is `null`
 */
export function textReader(schema: z.core.$ZodType, unit: string | null): (text: string) => unknown {
  const { schema: inner, definition } = plainSchema(schema);
  if (quantityMetaOf(inner)) return unit === null ? (text) => text : (text) => withUnit(text, unit);
  switch (definition.type) {
    case "number":
    case "int":
    case "literal":
      return numberOr;
    case "boolean":
      return truthOr;
    case "array":
    case "tuple":
      return listReader(definition, unit);
    case "object":
    case "record":
      return jsonOr;
    case "union":
    case "unknown":
      return (text) => (text.startsWith("{") ? jsonOr(text) : anyOr(text));
    default:
      return (text) => text;
  }
}

function listReader({ element, items }: Definition, unit: string | null): (text: string) => unknown {
  const readers = (items ?? [element!]).map((schema) => textReader(schema, unit));
  return (text) => {
    if (text.toLowerCase() === "none") return [];
    if (text.startsWith("[") || text.startsWith("{")) return jsonOr(text);
    return text.split(";").map((part, i) => (readers[i] ?? readers[readers.length - 1]!)(part.trim()));
  };
}
