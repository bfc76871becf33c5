/** Where a rule is asked: the jurisdiction, what the maker states, the reader's units. Every part has a stated default. */
import * as z from "zod";
import {
  type Adoptable,
  type Adopted,
  adoptable,
  type Basis,
  type Building,
  buildings,
  type Conditions,
  type Fuel,
  type Governing,
  govern,
  type Limit,
  type StatedValue,
  type Text,
} from "../basis/index.js";
import {
  type DecisionRule,
  isReadingProblem,
  type QuantityInput,
  readQuantity,
  type UnitSystem,
} from "../quantity/index.js";
import { describeReceived, InputFault, type InputIssue } from "./fault.js";
import { anywhere, type Given, InputReader, isTooSmall } from "./input.js";

const texts = [...(Object.keys(adoptable) as Text[]), "ircFuelGas"] as unknown as [Text, ...Text[]];

const statedAmount = z
  .union([
    z.string(),
    z.number(),
    z.boolean(),
    z.strictObject({ value: z.number(), unit: z.string(), plusMinus: z.number().optional() }),
  ])
  .describe("Quantity with its unit; a bare number for a count; true or false for a requirement");

const when = z
  .record(z.string().max(50), z.union([z.string().max(100), z.number(), z.boolean()]))
  .optional()
  .describe("Facts of the case it holds for, as the limit names them; every case where left out");

const citation = z
  .strictObject({
    document: z.string().min(1).max(200).describe("Name of the ordinance, amendment or instruction sheet"),
    publisher: z.string().max(200).optional().describe("Who issued it"),
    edition: z.string().max(100).optional().describe("Its date or edition"),
    section: z.string().max(200).optional().describe("Section, page or table"),
  })
  .describe("Where the figure stands");

const editionSchemas = Object.fromEntries(
  Object.entries(adoptable).map(([key, { title, editions }]) => [
    key,
    z
      .literal([...editions])
      .optional()
      .describe(`Adopted edition of the ${title}`),
  ]),
) as unknown as { [K in Adoptable]: z.ZodOptional<z.ZodType<number, number>> };

/** Schema of a jurisdiction. */
export const jurisdictionInput = z.strictObject({
  adopted: z.strictObject(editionSchemas).optional().describe("Documents adopted there, with their editions"),
  building: z
    .enum(buildings)
    .optional()
    .describe("Kind of building: dwelling is a one- or two-family house or townhouse"),
  local: z
    .array(
      z.strictObject({
        limit: z.string().max(100).describe("Id of the limit that is amended, as the catalogue lists it"),
        value: statedAmount,
        when,
        amends: z.enum(texts).optional().describe("The one text that is amended; all of the subject where left out"),
        citation,
      }),
    )
    .max(200)
    .optional()
    .describe("Local amendments, each with its own citation"),
});

/** Schema of what the maker states. */
export const makerInput = z
  .array(
    z.strictObject({
      limit: z.string().max(100).describe("Id of the limit, as the catalogue lists it"),
      value: statedAmount,
      when,
      citation,
    }),
  )
  .max(200)
  .describe("Limits that the maker's instructions state");

/** Schema of everything around a check. */
export const atInput = z.strictObject({
  jurisdiction: jurisdictionInput.optional(),
  maker: makerInput.optional(),
  units: z.enum(["us", "si"]).optional().describe("Units of the texts; US where left out"),
  decision: z
    .enum(["guarded", "simple"])
    .optional()
    .describe("How a tolerance is weighed; guarded where left out: an interval across the limit is a review"),
  decimal: z.enum([".", ","]).optional().describe("Decimal mark of the texts given; the point where left out"),
});

/** What surrounds a check, as callers write it. */
export type AtInput = Given<z.input<typeof atInput>>;
/** A jurisdiction, as callers write it. */
export type JurisdictionInput = Given<z.input<typeof jurisdictionInput>>;

/** Defaults, repeated in every finding that leans on one. */
export const defaults = {
  adopted: { irc: 2021, imc: 2021, ifgc: 2021, ipc: 2021, nec: 2020 } satisfies Adopted,
  building: "dwelling" satisfies Building,
} as const;

/** What surrounds a check, read and completed. */
export interface At {
  readonly adopted: Adopted;
  readonly building: Building;
  readonly units: UnitSystem;
  readonly decision: DecisionRule;
  readonly decimal: "." | ",";
  /** Documents that nobody named and that stand at their default edition. */
  readonly assumed: ReadonlySet<Adoptable>;
  /** Whether the kind of building stands at its default. */
  readonly buildingAssumed: boolean;
  /** Resolves a limit here; the same question is answered once. `undefined` where no text says anything. */
  readonly governing: (limit: Limit, fuel: Fuel, conditions: Conditions) => Governing | undefined;
  /** Stated values for a limit, read at first use. */
  readonly stated: (limit: Limit) => { readonly local: readonly StatedValue[]; readonly maker: readonly StatedValue[] };
  /** Ids that amendments or the maker name, with their path, for the check that none is unknown. */
  readonly named: readonly {
    readonly limit: string;
    readonly when: Conditions;
    readonly path: readonly (string | number)[];
  }[];
}

const reader = new InputReader(atInput);

type Stated = {
  limit: string;
  value: QuantityInput | number | boolean;
  amends?: Text | undefined;
  when?: Conditions | undefined;
  citation: {
    document: string;
    publisher?: string | undefined;
    edition?: string | undefined;
    section?: string | undefined;
  };
};

function statedBasis({ citation: { document, publisher, edition, section } }: Stated, force: "local" | "maker"): Basis {
  return {
    document,
    publisher: publisher ?? "",
    edition: edition ?? "",
    section: section ?? "",
    force,
    confirmed: "stated",
  };
}

/** A limit on a ratio may be more than the whole: 125 % of a current. Common practice, no source. */
const MOST_RATIO = [0, 100] as const;

function amountOf(value: Stated["value"], limit: Limit, decimal: "." | ","): number | InputIssue["message"] {
  if (limit.kind === "requirement") {
    return typeof value === "boolean" ? Number(value) : "this limit is a requirement: write true or false";
  }
  if (limit.dimension === null) {
    return typeof value === "number" && Number.isInteger(value) && value >= 0 && value <= 1e6
      ? value
      : "this limit is a count: write a whole number, 0 or more";
  }
  const read = readQuantity(value, limit.dimension, { decimal });
  if (isReadingProblem(read)) return read.message;
  const [least, most] = limit.dimension === "ratio" ? MOST_RATIO : anywhere[limit.dimension];
  if (read.value < least || read.value > most || isTooSmall(read.value))
    return "no limit is as small or as large as this";
  return read.plusMinus > 0 ? "a limit has no tolerance; leave out the part after ±" : read.value;
}

function statedFor(
  limit: Limit,
  entries: readonly Stated[],
  force: "local" | "maker",
  decimal: "." | ",",
): StatedValue[] {
  const found: StatedValue[] = [];
  entries.forEach((entry, index) => {
    if (entry.limit !== limit.id) return;
    const value = amountOf(entry.value, limit, decimal);
    if (typeof value === "string") {
      const path = force === "local" ? ["jurisdiction", "local", index, "value"] : ["maker", index, "value"];
      throw new InputFault([
        { path, code: "notAccepted", message: value, expected: limit.title, received: describeReceived(entry.value) },
      ]);
    }
    found.push({
      limit: limit.id,
      value,
      basis: statedBasis(entry, force),
      ...(entry.amends === undefined ? {} : { amends: entry.amends }),
      ...(entry.when === undefined ? {} : { when: entry.when }),
    });
  });
  return found;
}

/** The documents to assume, so that every subject has a text: those that nothing adopted speaks for. */
function missingDocuments(adopted: Adopted, building: Building): (keyof typeof defaults.adopted)[] {
  const has = (...documents: Adoptable[]): boolean => documents.some((document) => adopted[document] !== undefined);
  const missing: (keyof typeof defaults.adopted)[] = [];
  const house = building === "dwelling";
  if (!has("nec", "iec60364")) missing.push("nec");
  if (house && !has("irc", "imc", "umc")) missing.push("irc");
  const residential = house && (has("irc") || missing.includes("irc"));
  if (!residential && !has("imc", "umc")) missing.push("imc");
  if (!residential && !has("ifgc", "upc")) missing.push("ifgc");
  if (!residential && !has("ipc", "upc")) missing.push("ipc");
  return missing;
}

/**
 * Reads what surrounds a check and fills in the stated defaults.
 *
 * @throws InputFault where it cannot be used, for example for an edition that the document does not have
 */
export function readAt(input: AtInput = {}): At {
  return completeAt(reader.read(input).value);
}

/** Remembers the answers, since a rule asks the same limit for every fitting and a survey for every rule. */
function answeredOnce(resolve: At["governing"]): At["governing"] {
  const answers = new Map<Limit, Map<string, Governing | undefined>>();
  return (limit, fuel, conditions) => {
    let known = answers.get(limit);
    if (!known) {
      known = new Map();
      answers.set(limit, known);
    }
    let key: string = fuel;
    for (const name in conditions) key += `;${name}=${typeof conditions[name]}:${conditions[name]}`;
    if (known.has(key)) return known.get(key);
    const governing = resolve(limit, fuel, conditions);
    known.set(key, governing);
    return governing;
  };
}

/** Fills in the stated defaults of surroundings that a schema has checked already. */
export function completeAt({
  jurisdiction = {},
  maker = [],
  units = "us",
  decision = "guarded",
  decimal = ".",
}: z.output<typeof atInput>): At {
  const local = (jurisdiction.local ?? []) as Stated[];
  const adopted = { ...jurisdiction.adopted } as Adopted;
  const building = jurisdiction.building ?? defaults.building;
  const assumed = missingDocuments(adopted, building);
  const cache = new Map<Limit, { local: StatedValue[]; maker: StatedValue[] }>();
  const stated: At["stated"] = (limit) => {
    let found = cache.get(limit);
    if (!found) {
      found = {
        local: statedFor(limit, local, "local", decimal),
        maker: statedFor(limit, maker as Stated[], "maker", decimal),
      };
      cache.set(limit, found);
    }
    return found;
  };
  const completed: Adopted = {
    ...adopted,
    ...Object.fromEntries(assumed.map((document) => [document, defaults.adopted[document]])),
  };
  return {
    adopted: completed,
    building,
    units,
    decision,
    decimal,
    assumed: new Set<Adoptable>(assumed),
    buildingAssumed: jurisdiction.building === undefined,
    governing: answeredOnce((limit, fuel, conditions) =>
      govern(limit, { adopted: completed, building, ...stated(limit) }, fuel, conditions),
    ),
    stated,
    named: [
      ...local.map(({ limit, when = {} }, i) => ({ limit, when, path: ["jurisdiction", "local", i] })),
      ...(maker as Stated[]).map(({ limit, when = {} }, i) => ({ limit, when, path: ["maker", i] })),
    ],
  };
}

/**
 * Refuses amendments and maker's figures for limits or conditions that nothing here knows, so that a misspelt name is
 * not dropped in silence; reads the others, so that an unreadable figure is found even where no rule asks for it.
 */
export function checkNamedLimits(at: At, known: readonly Limit[]): void {
  const byId = new Map(known.map((limit) => [limit.id, limit]));
  const issues: InputIssue[] = [];
  for (const { limit, when, path } of at.named) {
    const found = byId.get(limit);
    if (found) {
      at.stated(found);
      issues.push(...unknownConditions(found, when, path));
    } else {
      const ids = [...byId.keys()].join(", ") || "none: no limit can be amended here";
      issues.push({
        path: [...path, "limit"],
        code: "unknownLimit",
        message: `there is no such limit here; write one of ${ids}`,
        expected: ids,
        received: describeReceived(limit),
      });
    }
  }
  if (issues.length > 0) throw new InputFault(issues);
}

/** Facts of the case that no value of the limit depends on, so that the stated one could never hold. */
function unknownConditions(limit: Limit, when: Conditions, path: readonly (string | number)[]): InputIssue[] {
  const known = new Set(limit.values.flatMap((value) => Object.keys(value.when ?? {})));
  const names = [...known].join(", ") || "none: this limit is the same in every case";
  return Object.keys(when)
    .filter((key) => !known.has(key))
    .map((key) => ({
      path: [...path, "when", key],
      code: "unknownField",
      message: `this limit does not depend on such a fact; write one of ${names}`,
      expected: names,
      received: describeReceived(when[key]),
    }));
}

/**
 * Runs the body of a rule or calculator at a place. A local amendment or a maker may state a figure that no formula holds
 * for, such as a pressure loss of nothing; that is a fault of what was stated, and is told as one.
 */
export function withStated<T>(at: At, body: () => T): T {
  try {
    return body();
  } catch (error) {
    if (!(error instanceof RangeError) || at.named.length === 0) throw error;
    throw new InputFault(
      at.named.map(({ limit, path }) => ({
        path: [...path, "value"],
        code: "outOfRange",
        message: `with the limits stated here a formula leaves the range it holds for: ${error.message}`,
        expected: "a figure that can be worked with",
        received: describeReceived(limit),
      })),
    );
  }
}
