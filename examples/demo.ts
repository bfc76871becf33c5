/**
 * The main job on the co-operative's surveys: per site every verdict with the basis it rests on, one line a finding;
 * for the single surveys the computed values as well; refused rows with their reasons; at the end counts that add up to
 * the rows read.
 */
import { createReadStream, readdirSync } from "node:fs";
import { basename } from "node:path";
import { fileURLToPath } from "node:url";
import { countsText, deferralText, findingLine, tallyText } from "dryfit/report";
import { type Answer, assessMany, count, type Format, newTally, refusalText, type Tally } from "dryfit/survey";

const here = (name: string): string => fileURLToPath(new URL(name, import.meta.url));

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
    for await (const answer of assessMany(createReadStream(file), format)) {
      count(tally, answer);
      print(basename(file), answer, format === "json");
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
