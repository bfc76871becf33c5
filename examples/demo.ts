/**
 * The main job on the co-operative's surveys: per site every verdict with the basis it rests on, one line a finding;
 * for the single surveys the computed values as well; refused rows with their reasons; at the end counts that add up to
 * the rows read, and where the reports were left: one page a single survey, one for the whole file.
 */
import { createReadStream, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { basename } from "node:path";
import { fileURLToPath } from "node:url";
import { batchHtml, countsText, deferralText, findingLine, siteHtml, tallyText } from "dryfit/report";
import {
  type Answer,
  assessMany,
  count,
  type Format,
  newTally,
  orderOfWork,
  refusalText,
  type Survey,
  type Tally,
  takeOff,
} from "dryfit/survey";

const here = (name: string): string => fileURLToPath(new URL(name, import.meta.url));
const reports = here("../.out/reports/");
mkdirSync(reports, { recursive: true });

/** Leaves a report as a file. */
const leave = (name: string, html: string): void => writeFileSync(`${reports}${name}.html`, html);

/** One answer; with the computed values where they are wanted. */
function print(file: string, answer: Answer<"full">, withValues: boolean): void {
  if (!answer.ok) {
    for (const issue of answer.refusal.issues) console.log(`REFUSED ${file}: ${refusalText(issue)}`);
    return;
  }
  const { site, counts, findings, values } = answer.assessment;
  console.log(`\n${site}: ${countsText(counts)}`);
  const [idle, telling] = [true, false].map((one) => findings.filter((f) => (f.verdict === "notApplicable") === one));
  for (const finding of telling!) console.log(`  ${findingLine(finding)}`);
  if (idle!.length > 0) console.log(`  N/A    ${idle!.map(({ rule }) => rule).join(", ")}`);
  if (!withValues) return;
  for (const { calculator, status, message, basis } of values) {
    if (status === "computed") console.log(`  VALUE  ${calculator}: ${message} [${basis[0]?.citation ?? ""}]`);
  }
}

async function assess(files: readonly string[], format: Format): Promise<Tally> {
  const tally = newTally();
  for (const file of files) {
    const answers: Answer<"full">[] = [];
    for await (const answer of assessMany(createReadStream(file), format)) {
      count(tally, answer);
      answers.push(answer);
      print(basename(file), answer, format === "json");
    }
    const [only] = answers;
    const name = basename(file).replace(/\.\w+$/, "");
    if (format !== "json") leave(name, batchHtml(answers, { title: "The co-operative's laundries" }));
    else if (only?.ok) {
      const survey = JSON.parse(readFileSync(file, "utf8")) as Survey;
      leave(name, siteHtml(only.assessment, { survey, parts: takeOff(survey), order: orderOfWork(survey) }));
    }
  }
  return tally;
}

const sites = readdirSync(here("sites"))
  .sort()
  .map((name) => here(`sites/${name}`));
const single = await assess(sites, "json");
const rows = await assess([here("co-op.csv")], "csv");

console.log(`\nSingle surveys: ${tallyText(single)}`);
console.log(`co-op.csv: ${tallyText(rows)}`);
console.log(deferralText);
console.log(`Reports, to be opened in a browser: ${reports}co-op.html and one for each single survey beside it.`);
