/** What many answers come to, as text. */
import { verdictWords } from "../../report/index.js";
import { causesOf, type Tally } from "../../survey/index.js";

/** As many are shown of each kind; `--json` has them all. */
const SHOWN = 5;

/** The most frequent causes, a line each; nothing where only one row was read, whose findings say the same. */
export function causesText(tally: Tally): string {
  if (tally.rows < 2) return "";
  const causes = causesOf(tally);
  const refusals = Object.entries(tally.refusals).toSorted(([a, m], [b, n]) => n - m || (a < b ? -1 : 1));
  const kinds = [
    ...(["fail", "review"] as const).map((kind) =>
      causes
        .filter(({ verdict }) => verdict === kind)
        .map(({ rule, messageId, count }) => [count, `${verdictWords[kind].padEnd(8)}${rule}, ${messageId}`] as const),
    ),
    refusals.map(([code, count]) => [count, `REFUSED ${code}`] as const),
  ];
  const lines = kinds.flatMap((found) => {
    const shown = found.slice(0, SHOWN).map(([count, what]) => `${String(count).padStart(9)}  ${what}\n`);
    const rest = found.length - shown.length;
    return rest > 0 ? [...shown, `${" ".repeat(11)}and ${rest} rarer\n`] : shown;
  });
  return lines.length === 0 ? "" : `Most frequent causes:\n${lines.join("")}`;
}
