/** What surrounds a check, as a schema that the form can show: the place, the maker's figures, the reader's units. */
import { adoptable, buildings } from "../../../src/core/basis/index.js";
import type { CatalogueEntry } from "../../../src/core/rule/index.js";
import type { Schema } from "./form.js";

const text = (description: string): Schema => ({ type: "string", description });

/** The facts that the limits of an entry depend on, each with the values that they are kept for. */
function factsOf({ limits }: CatalogueEntry): Schema {
  const facts = new Map<string, Set<unknown>>();
  for (const limit of limits) {
    for (const { when = {} } of limit.values) {
      for (const [fact, value] of Object.entries(when)) facts.set(fact, (facts.get(fact) ?? new Set()).add(value));
    }
  }
  return {
    type: "object",
    description: "The case it holds for; every case where nothing is said",
    open: true,
    properties: Object.fromEntries([...facts].map(([fact, values]) => [fact, { enum: [...values] }])),
  };
}

/** A figure that stands in a limit's place, with where it is written. */
const statedOf = (entry: CatalogueEntry): Schema => ({
  type: "object",
  properties: {
    limit: { enum: entry.limits.map(({ id }) => id), description: "The limit that it is about" },
    value: {
      type: "amount",
      description: "With its unit; a bare number for a count; true or false for a requirement",
    },
    when: factsOf(entry),
    citation: {
      type: "object",
      properties: {
        document: text("Name of the ordinance, amendment or instruction sheet"),
        publisher: text("Who issued it"),
        edition: text("Its date or edition"),
        section: text("Section, page or table"),
      },
      required: ["document"],
    },
  },
  required: ["limit", "value", "citation"],
});

/** The schema of what surrounds a check of one entry. */
export function placeSchema(entry: CatalogueEntry): Schema {
  const named = entry.limits.length > 0;
  const adopted = Object.entries(adoptable).map(([key, { short, editions }]): [string, Schema] => [
    key,
    { enum: editions, description: `Adopted edition of the ${short}` },
  ]);
  const list = (description: string): Schema => ({ type: "array", description, items: statedOf(entry) });
  return {
    type: "object",
    properties: {
      units: { enum: ["us", "si"], description: "Units of the texts; US where not said" },
      decision: {
        enum: ["guarded", "simple"],
        description: "How a tolerance is weighed; guarded where not said: an interval across the limit is a review",
      },
      decimal: { enum: [".", ","], description: "Decimal mark of what is written here; the point where not said" },
      jurisdiction: {
        type: "object",
        open: true,
        properties: {
          building: {
            enum: buildings,
            description: "Kind of building; dwelling is a one- or two-family house or townhouse",
          },
          adopted: { type: "object", open: true, properties: Object.fromEntries(adopted) },
          ...(named ? { local: list("Local amendments") } : {}),
        },
      },
      ...(named ? { maker: list("What the maker's instructions state") } : {}),
    },
  };
}
