/** A trade's part of a survey: what it asks for, and how its entries take their inputs from there. */
import type * as z from "zod";
import type { At } from "./at.js";
import type { CatalogueEntry } from "./catalogue.js";
import type { CalculatorRun } from "./define-calculator.js";
import type { RuleRun } from "./define-rule.js";
import type { Tolerance } from "./input.js";

/** One entry with the places in the survey that its inputs come from, by input field: `"venting.duct.straight"`. */
export interface Use {
  readonly entry: CatalogueEntry;
  readonly from: Readonly<Record<string, string>>;
}

/** A trade's part of a survey. */
export interface SurveyPart {
  /** The field of the survey that holds it. */
  readonly trade: string;
  /** What is found on site. */
  readonly site: z.ZodObject;
  /** What the plate and the sheet of the machine say, beside its kind and fuel. */
  readonly machine: Readonly<Record<string, z.ZodType>>;
  readonly uses: readonly Use[];
}

/** Defines a trade's part of a survey. */
export const definePart = <const P extends SurveyPart>(part: P): P => part;

type Path = readonly (string | number)[];

function valueAt(root: unknown, path: Path): unknown {
  let value = root;
  for (const key of path) {
    if (value === undefined || value === null) return undefined;
    value = (value as Record<string, unknown>)[key];
  }
  return value;
}

/** A run of one entry over a survey, with the paths of its input turned back into the survey's. */
export type UseRun =
  | {
      readonly entry: CatalogueEntry;
      readonly kind: "rule";
      readonly run: RuleRun;
      readonly inSurvey: (path: Path) => Path;
    }
  | {
      readonly entry: CatalogueEntry;
      readonly kind: "calculator";
      readonly run: CalculatorRun;
      readonly inSurvey: (path: Path) => Path;
    };

/** Takes a part's entries apart once: where each input field comes from. */
export function prepareUses(
  uses: readonly Use[],
): (survey: unknown, at: At, tolerances: readonly Tolerance[]) => UseRun[] {
  const prepared = uses.map(({ entry, from }) => {
    const fields = Object.entries(from).map(([field, path]) => ({ field, path: path.split(".") }));
    const inSurvey = ([field, ...rest]: Path): Path => [
      ...(fields.find((known) => known.field === field)?.path ?? [String(field)]),
      ...rest,
    ];
    return { entry, fields, inSurvey };
  });
  return (survey, at, tolerances) =>
    prepared.map(({ entry, fields, inSurvey }): UseRun => {
      const input: Record<string, unknown> = {};
      for (const { field, path } of fields) {
        const value = valueAt(survey, path);
        if (value !== undefined) input[field] = value;
      }
      const felt = tolerances.length === 0 ? tolerances : tolerancesFor(fields, tolerances);
      return entry.kind === "rule"
        ? { entry, kind: "rule", run: entry.run(input as never, at, felt), inSurvey }
        : { entry, kind: "calculator", run: entry.run(input as never, at, felt), inSurvey };
    });
}

/** The tolerances that reach an entry, with their paths in its input. */
function tolerancesFor(
  fields: readonly { readonly field: string; readonly path: Path }[],
  tolerances: readonly Tolerance[],
): Tolerance[] {
  return tolerances.flatMap((tolerance) =>
    fields
      .filter(({ path }) => path.every((key, i) => tolerance.path[i] === key))
      .map(({ field, path }) => ({ ...tolerance, path: [field, ...tolerance.path.slice(path.length)] })),
  );
}
