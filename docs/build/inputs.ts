/** The inputs of an entry as rows of a table, from its schema. */
import * as z from "zod";
import { type Quantity, quantityExample, quantityHelp, show } from "../../src/core/quantity/index.js";
import { descriptionAt, isOptional, quantityMetaOf } from "../../src/core/rule/index.js";
import { code } from "./markdown.js";

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
  readonly discriminator?: string;
  readonly defaultValue?: unknown;
}
const definitionOf = (schema: Schema): Definition => schema._zod.def as unknown as Definition;

function unwrap(schema: Schema): Schema {
  const { innerType } = definitionOf(schema);
  return innerType ? unwrap(innerType) : schema;
}

const metaOf = (schema: Schema) => quantityMetaOf(schema) ?? quantityMetaOf(unwrap(schema));

/** What to write, in words. */
function formOf(schema: Schema): string {
  const meta = metaOf(schema);
  if (meta)
    return `${quantityHelp(meta.quantity).replace(/, for example.*/, "")}, as ${code(quantityExample(meta.quantity))}`;
  const definition = definitionOf(unwrap(schema));
  switch (definition.type) {
    case "enum":
      return Object.values(definition.entries!).map(code).join(", ");
    case "literal":
      return definition.values!.map((value) => code(String(value))).join(", ");
    case "boolean":
      return "true or false";
    case "number":
      return jsonOf(schema).type === "integer" ? "whole number" : "number";
    case "string":
      return "text";
    case "array":
      return `list; each ${formOf(definition.element!)}`;
    case "tuple":
      return `list of ${definition.items!.length}; each ${formOf(definition.items![0]!)}`;
    case "record":
      return `by name; each ${formOf(definition.valueType!)}`;
    case "object":
      return "record";
    case "union":
      return definition.discriminator === undefined
        ? definition.options!.map(formOf).join(", or ")
        : `record; ${code(definition.discriminator)} says which kind`;
    default:
      return definition.type;
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
  readonly maxLength?: number;
}

/** The bounds of one field as its JSON Schema has them. */
const jsonOf = (schema: Schema): Bounds =>
  z.toJSONSchema(unwrap(schema), { io: "input", unrepresentable: "any" }) as Bounds;

/** The values that can be meant, in words; empty where the form says it all. */
function boundsOf(schema: Schema): string {
  const meta = metaOf(schema);
  if (meta) {
    const text = (si: number): string => show(si as Quantity<"length">, meta.quantity as "length");
    return `${text(meta.min)} to ${text(meta.max)}`;
  }
  const json = jsonOf(schema);
  const known = (value: number | undefined): value is number =>
    value !== undefined && Math.abs(value) < Number.MAX_SAFE_INTEGER;
  const least = json.minimum ?? json.minItems ?? json.minLength;
  const most = json.maximum ?? json.maxItems ?? json.maxLength;
  const unit = json.type === "array" ? " entries" : json.type === "string" ? " characters" : "";
  const parts = [
    known(json.exclusiveMinimum) ? `more than ${json.exclusiveMinimum}` : known(least) ? `at least ${least}` : "",
    known(json.exclusiveMaximum) ? `less than ${json.exclusiveMaximum}` : known(most) ? `at most ${most}` : "",
  ].filter(Boolean);
  return parts.length === 0 ? "" : parts.join(", ") + unit;
}

/** Rows of field, what it is, form, bounds and whether it is needed, with the fields inside it below. */
export function inputRows(schema: Schema, path = ""): string[][] {
  const definition = definitionOf(unwrap(schema));
  switch (definition.type) {
    case "object":
      return Object.entries(definition.shape!).flatMap(([key, field]) => {
        const here = path === "" ? key : `${path}.${key}`;
        return [
          [
            code(here),
            descriptionAt(field, []),
            formOf(field),
            boundsOf(field),
            isOptional(field as z.ZodType) ? "no" : "yes",
          ],
          ...(metaOf(field) ? [] : inputRows(field, here)),
        ];
      });
    case "array":
      return metaOf(definition.element!) ? [] : inputRows(definition.element!, `${path}[]`);
    case "record":
      return metaOf(definition.valueType!) ? [] : inputRows(definition.valueType!, `${path}.*`);
    case "union":
      return definition.options!.flatMap((option) => inputRows(option, path));
    default:
      return [];
  }
}
