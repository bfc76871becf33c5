/** The order of work as text and as Markdown. */
import type { WorkOrder, WorkStep } from "../survey/index.js";
import { cleanText, markdownText, verdictWords } from "./text.js";

const holds = ({ hold, obstacles }: WorkStep): string[] => [
  ...obstacles.map(({ rule, verdict, message }) => `${verdictWords[verdict]} ${rule}: ${message}`),
  ...(hold === null ? [] : [`HOLD (${hold.kind}) ${hold.what}`]),
];

/** The order of work as plain text: numbered steps, hold points below them, cautions first. */
export function orderText({ site, steps, cautions }: WorkOrder): string {
  const place = new Map(steps.map(({ id }, i) => [id, i + 1]));
  const lines = steps.flatMap((step, i) => [
    `${String(i + 1).padStart(3)}  ${step.title}${
      step.after.length === 0 ? "" : ` (after ${step.after.map((id) => place.get(id)).join(", ")})`
    }`,
    `     ${step.what}`,
    ...holds(step).map((text) => `     ${text}`),
  ]);
  const warned = cautions.length === 0 ? [] : [...cautions.map((caution) => `  ! ${caution}`), ""];
  return `${[`Order of work: ${site}`, ...warned, ...lines].map(cleanText).join("\n")}\n`;
}

/** The order of work as a Markdown page with boxes to tick. */
export function orderMarkdown({ site, steps, cautions }: WorkOrder): string {
  const lines = steps.flatMap((step, i) => [
    `${i + 1}. [ ] ${markdownText(step.title)}: ${markdownText(step.what)}`,
    ...holds(step).map((text) => `   - [ ] ${markdownText(text)}`),
  ]);
  return `${[`# ${markdownText(`Order of work: ${site}`)}`, "", ...cautions.map((one) => `> ${markdownText(one)}`), "", ...lines].join("\n")}\n`;
}
