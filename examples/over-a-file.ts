/**
 * Over a file: every row of a CSV answered or refused, in order, in constant memory. Prints the sites that fail with
 * their rules, the refused rows with their reasons, and counts that add up to the rows read.
 */
import { createReadStream } from "node:fs";
import { fileURLToPath } from "node:url";
import { assessMany, count, newTally, refusalText } from "dryfit/survey";

const file = process.argv[2] ?? fileURLToPath(new URL("co-op.csv", import.meta.url));
const tally = newTally();

for await (const answer of assessMany(createReadStream(file), "csv", { detail: "verdicts" })) {
  count(tally, answer);
  if (!answer.ok) {
    for (const issue of answer.refusal.issues) console.log("refused", refusalText(issue));
    continue;
  }
  const { site, verdict, findings } = answer.assessment;
  if (verdict !== "fail") continue;
  const failing = findings.filter((finding) => finding.verdict === "fail");
  console.log("fails", site, failing.map(({ rule, messageId }) => `${rule} (${messageId})`).join(", "));
}

const { rows, refused, byVerdict } = tally;
const { fail, review, pass, notApplicable } = byVerdict;
console.log(
  `${rows} rows = ${fail} fail + ${review} review + ${pass} pass + ${notApplicable} not applicable + ${refused} refused`,
);
