/** The fields of a survey in the order of its schema, which is the order one walks a site. */
import type * as z from "zod";
import { surveyInput } from "./survey.js";

/** One field of the survey: its path, with `0` standing for any place in a list. */
export interface SurveyField {
  readonly path: readonly string[];
  readonly schema: z.core.$ZodType;
}

type Definition = {
  readonly innerType?: z.core.$ZodType;
  readonly element?: z.core.$ZodType;
  readonly shape?: Record<string, z.core.$ZodType>;
};

function collect(schema: z.core.$ZodType, path: readonly string[], fields: SurveyField[]): void {
  let inner = schema;
  let definition = inner._zod.def as Definition;
  while (definition.innerType) {
    inner = definition.innerType;
    definition = inner._zod.def as Definition;
  }
  if (definition.shape) {
    for (const [key, field] of Object.entries(definition.shape)) collect(field, [...path, key], fields);
  } else if (definition.element && (definition.element._zod.def as Definition).shape) {
    collect(definition.element, [...path, "0"], fields);
  } else fields.push({ path, schema });
}

let known: readonly SurveyField[] | undefined;

/** Every field of the survey that holds a value, in walking order. */
export function surveyFields(): readonly SurveyField[] {
  if (!known) {
    const fields: SurveyField[] = [];
    collect(surveyInput, [], fields);
    known = fields;
  }
  return known;
}

let places: Map<string, number> | undefined;

/** The place of a path in the walk: that of its field, or of the first field below it. */
export function walkOrder(path: readonly (string | number)[]): number {
  if (!places) {
    places = new Map();
    for (const [place, field] of surveyFields().entries()) {
      for (let length = 1; length <= field.path.length; length++) {
        const key = field.path.slice(0, length).join(".");
        if (!places.has(key)) places.set(key, place);
      }
    }
  }
  const key = path.map((part) => (typeof part === "number" ? "0" : part)).join(".");
  return places.get(key) ?? Number.MAX_SAFE_INTEGER;
}
