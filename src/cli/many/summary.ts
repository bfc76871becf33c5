/** What many answers come to, as text. */
import { verdictWords } from "../../report/index.js";
import { causesOf, type Tally } from "../../survey/index.js";

/** As many as are shown of each kind; `--json` has them all. */
const SHOWN = 10;

/** The most frequent causes, a line each; nothing where only one site was answered, whose findings say the same. */
export function causesText(tally: Tally): string {
  if (tally.rows < 2) return "";
  const causes = causesOf(tally);
  const shown = causes
    .toSorted((a, b) => b.count - a.count)
    .slice(0, SHOWN)
    .map(({ rule, verdict, messageId, count }) => [count, `${verdictWords[verdict].padEnd(6)} ${rule}, ${messageId}`]);
  const refused = Object.entries(tally.refusals)
    .toSorted(([a, m], [b, n]) => n - m || (a < b ? -1 : 1))
    .slice(0, SHOWN)
    .map(([code, count]) => [count, `refused, ${code}`]);
  if (shown.length + refused.length === 0) return "";
  const rest = causes.length > SHOWN ? ` (${SHOWN} of ${causes.length})` : "";
  const lines = [...shown, ...refused].map(([count, what]) => `${String(count).padStart(9)}  ${what}\n`);
  return `Most frequent causes${rest}:\n${lines.join("")}`;
}
