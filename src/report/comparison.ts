/** What changed between two assessments, as text and as Markdown. */
import type { AssessmentComparison, RuleChange } from "../survey/index.js";
import { cleanText, markdownText, verdictWords } from "./text.js";

const wordOf = (side: RuleChange["before"]): string => (side === null ? "absent" : verdictWords[side.verdict]);

const headline = ({ before, after, changes, unchanged }: AssessmentComparison): string => {
  const flipped = changes.filter(({ flips }) => flips).length;
  const sites = before.site === after.site ? before.site : `${before.site} and ${after.site}`;
  return `${sites}: ${verdictWords[before.verdict]} before, ${verdictWords[after.verdict]} after; ${flipped} of ${
    changes.length + unchanged
  } verdicts change`;
};

/**
 * A comparison as plain text: flipped verdicts first, each with the room gained or lost and why.
 *
 * @example comparisonText({ before: { site: "A", verdict: "pass" }, after: { site: "A", verdict: "pass" }, changes: [], unchanged: 2 }) // "A: PASS before, PASS after; 0 of 2 verdicts change\n"
 */
export function comparisonText(comparison: AssessmentComparison): string {
  const lines = comparison.changes.flatMap((change) => [
    `  ${wordOf(change.before)} -> ${wordOf(change.after)}  ${change.rule}: ${(change.after ?? change.before)!.message}`,
    ...(change.by === null ? [] : [`         room changes by ${change.by.text}`]),
    ...change.why.map((why) => `         ${why}`),
  ]);
  return `${[headline(comparison), ...lines].map(cleanText).join("\n")}\n`;
}

/** A comparison as a Markdown page. */
export function comparisonMarkdown(comparison: AssessmentComparison): string {
  const rows = comparison.changes.map((change) => {
    const by = change.by === null ? "" : markdownText(change.by.text);
    const why = change.why.map(markdownText).join("<br>");
    return `| ${wordOf(change.before)} | ${wordOf(change.after)} | ${change.rule} | ${by} | ${why} |`;
  });
  const table =
    rows.length === 0
      ? []
      : ["", "| Before | After | Rule | Room changes by | Why |", "|---|---|---|---|---|", ...rows];
  return `${[`# ${markdownText(headline(comparison))}`, ...table].join("\n")}\n`;
}
