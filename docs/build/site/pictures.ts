/** The drawings of one check: its input put where a survey has it, and drawn as the report of a site draws it. */
import type { AtInput, Calculation, CatalogueEntry, Finding } from "../../../src/core/rule/index.js";
import { type SiteDrawing, siteDrawings } from "../../../src/report/drawings.js";
import { parts } from "../../../src/survey/catalogue.js";
import type { Survey } from "../../../src/survey/index.js";

type Tree = { [name: string]: unknown };

/** A survey that holds the fields of one input and nothing else; `undefined` for an entry that no survey asks. */
export function surveyOf(entry: CatalogueEntry, input: object): Survey | undefined {
  const use = parts.flatMap(({ uses }) => uses).find((one) => one.entry === entry);
  if (!use) return undefined;
  const from: Readonly<Record<string, string>> = use.from;
  const survey: Tree = {};
  for (const [field, value] of Object.entries(input)) {
    const path = from[field]?.split(".");
    const name = path?.pop();
    if (path === undefined || name === undefined) continue;
    let inner = survey;
    for (const step of path) {
      inner[step] ??= {};
      inner = inner[step] as Tree;
    }
    inner[name] = value;
  }
  return survey as unknown as Survey;
}

/** The checks that a plan of the room shows something of; others only know the size of the machine. */
const onPlan: ReadonlySet<string> = new Set(["placement/clearances", "placement/door-swing"]);

/** What can be drawn of an input that was read, and of what the entry said of it. */
export function picturesOf(
  entry: CatalogueEntry,
  input: object,
  result: Finding | Calculation,
  { units, decimal }: Pick<AtInput, "units" | "decimal">,
): SiteDrawing[] {
  const survey = surveyOf(entry, input);
  if (!survey) return [];
  const said = "rule" in result ? { findings: [result], values: [] } : { findings: [], values: [result] };
  return siteDrawings(survey, said, {
    ...(units === undefined ? {} : { units }),
    ...(decimal === undefined ? {} : { decimal }),
  }).filter(({ shows }) => shows !== "plan" || onPlan.has(entry.id));
}
