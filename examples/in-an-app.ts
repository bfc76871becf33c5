/**
 * In an app: a form for one dryer. One rule checks one field group as it is typed; the whole site is assessed when the
 * form is sent. What cannot be used comes back as an error beside its field, never as a verdict.
 */
import type { Finding, InputIssue, Survey } from "dryfit";
import { assessSite, tryAssess } from "dryfit";
import { ductLength } from "dryfit/venting";

/** What a form holds: texts as people type them. */
interface DuctForm {
  readonly fuel: string;
  readonly straight: string;
  readonly elbows: { readonly radius: string; readonly angle: string; readonly count: number }[];
}

/** Errors by field, as a form shows them: `{ straight: "say the unit, for example \"18 ft\"" }`. */
function formErrors(issues: readonly InputIssue[]): Record<string, string> {
  return Object.fromEntries(issues.map(({ path, message }) => [path.join("."), message]));
}

/** Called at each change of the form. */
function onChange(form: DuctForm): { readonly errors: Record<string, string>; readonly finding?: Finding } {
  const tried = ductLength.try(form);
  return tried.ok ? { errors: {}, finding: tried.finding } : { errors: formErrors(tried.fault.issues) };
}

const typed: DuctForm = {
  fuel: "electric",
  straight: "28",
  elbows: [{ radius: "4 in mitred", angle: "90°", count: 2 }],
};

console.log("Typed so far:", onChange(typed).errors);

const { finding } = onChange({ ...typed, straight: "28 ft" });
if (finding) {
  console.log(finding.verdict, "-", finding.message);
  console.log("because of", finding.basis[0]?.citation);
  for (const { message, changes } of finding.remedies) console.log("would pass:", message, JSON.stringify(changes));
}

/** Called when the form is sent. The types say what a survey may hold. */
const survey: Survey = {
  site: { id: "Alder Row 3" },
  jurisdiction: { adopted: { irc: 2021, nec: 2020 }, building: "dwelling" },
  machine: { kind: "dryer", fuel: "electric", exhaust: "vented" },
  venting: { duct: { straight: "28 ft ± 2 in", elbows: [{ radius: "4 in mitred", angle: "90°", count: 2 }] } },
};
const { verdict, counts, toMeasure } = assessSite(survey);
console.log(`${survey.site.id}: ${verdict}`, counts);
console.log(`${toMeasure.length} things to measure; first: ${toMeasure[0]?.what}`);

// A survey of unknown shape, from a store or a network: the fault is a value, not a surprise.
const tried = tryAssess({ site: { id: "Alder Row 3" }, machine: { kind: "dryer", fuel: "steam", colour: "red" } });
if (!tried.ok) console.log(formErrors(tried.fault.issues));
