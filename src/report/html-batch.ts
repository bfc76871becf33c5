/** The report of many sites as HTML: counts, every site with its verdict, what fails by rule, and what was refused. */
import type { Verdict } from "../core/rule/index.js";
import type { Answer, Detail, Refusal } from "../survey/index.js";
import { refusalText } from "../survey/rows/row.js";
import { cell, code, linesOf, list, mark, page, paragraph, table } from "./html-page.js";
import { type Content, element, words } from "./markup.js";
import { countsText, tallyText } from "./text.js";

/** How the report of a batch is made. */
export interface BatchReportOptions {
  /** Title of the report; "Many sites" where left out. */
  readonly title?: string;
}

interface SiteLine {
  readonly line: number;
  readonly site: string;
  readonly verdict: Verdict;
  readonly counts: Readonly<Record<Verdict, number>>;
  readonly failing: readonly string[];
}

interface Cause {
  readonly rule: string;
  readonly title: string | undefined;
  readonly verdict: Verdict;
  readonly messageId: string;
  /** What it said the first time. */
  readonly example: string | undefined;
  readonly sites: string[];
}

/** Sites named beside a cause; the table of sites has them all. */
const NAMED = 8;

const rowId = (line: number, order: number): string => `row-${line}-${order}`;

function causesTable(causes: readonly Cause[]): Content {
  if (causes.length === 0) return null;
  return table(
    "Each cause, the most frequent first",
    ["Rule", "Verdict", "Sites", "Cause, as first said", "Which"],
    causes.map(({ rule, title, verdict, messageId, example, sites }) => [
      cell([code(rule), title === undefined ? null : [element("br"), words(title)]]),
      cell(mark(verdict)),
      cell(words(String(sites.length)), "number"),
      cell([code(messageId), example === undefined ? null : [words(": "), linesOf(example)]]),
      cell(
        words(
          sites.length > NAMED
            ? `${sites.slice(0, NAMED).join(", ")} and ${sites.length - NAMED} more`
            : sites.join(", "),
        ),
        "free",
      ),
    ]),
  );
}

const refusalRow = ({ line, text, issues }: Refusal) => [
  cell(words(String(line))),
  cell(list(issues.map((issue) => linesOf(refusalText(issue)))), "free"),
  cell(element("code", {}, linesOf(text)), "free"),
];

/**
 * The report of many sites as one HTML file: no script, no network. Every site and every refusal is in it; for files of
 * many thousand rows the other outputs serve better.
 *
 * @param answers - in order, as `assessMany` gives them, collected
 */
export function batchHtml(
  answers: Iterable<Answer<Detail>>,
  { title = "Many sites" }: BatchReportOptions = {},
): string {
  const sites: SiteLine[] = [];
  const refusals: Refusal[] = [];
  const causes = new Map<string, Cause>();
  const byVerdict: Record<Verdict, number> = { fail: 0, review: 0, pass: 0, notApplicable: 0 };
  for (const answer of answers) {
    if (!answer.ok) {
      refusals.push(answer.refusal);
      continue;
    }
    const { site, verdict, counts, findings } = answer.assessment;
    byVerdict[verdict]++;
    const failing: string[] = [];
    for (const finding of findings) {
      if (finding.verdict === "fail") failing.push(finding.rule);
      if (finding.verdict !== "fail" && finding.verdict !== "review") continue;
      const key = `${finding.rule} ${finding.messageId}`;
      const cause = causes.get(key) ?? {
        rule: finding.rule,
        title: "title" in finding ? finding.title : undefined,
        verdict: finding.verdict,
        messageId: finding.messageId,
        example: "message" in finding ? finding.message : undefined,
        sites: [],
      };
      cause.sites.push(site);
      causes.set(key, cause);
    }
    sites.push({ line: answer.line, site, verdict, counts, failing });
  }
  const sorted = [...causes.values()].sort(
    (a, b) => a.verdict.localeCompare(b.verdict, "en") || b.sites.length - a.sites.length || (a.rule < b.rule ? -1 : 1),
  );
  const tally = { rows: sites.length + refusals.length, refused: refusals.length, byVerdict };
  return page({
    title,
    lead: null,
    sections: [
      {
        id: "counts",
        title: "Counts",
        content: [
          paragraph(`${tallyText(tally)}.`),
          table(
            "Sites by verdict",
            ["Verdict", "Sites"],
            (["fail", "review", "pass", "notApplicable"] as const).map((verdict) => [
              cell(mark(verdict)),
              cell(words(String(byVerdict[verdict])), "number"),
            ]),
            true,
          ),
        ],
      },
      { id: "causes", title: "What fails, and what cannot be told", content: causesTable(sorted) },
      {
        id: "sites",
        title: "Sites",
        content:
          sites.length === 0
            ? null
            : table(
                "In the order of the file",
                ["Site", "Verdict", "Rules", "What fails"],
                sites.map(({ line, site, verdict, counts, failing }, order) => [
                  cell(element("span", { id: rowId(line, order) }, linesOf(site))),
                  cell(mark(verdict)),
                  cell(words(countsText(counts))),
                  cell(
                    failing.length === 0
                      ? words("nothing")
                      : failing.map((rule, i) => [i === 0 ? null : words(", "), code(rule)]),
                  ),
                ]),
              ),
      },
      {
        id: "refusals",
        title: "Refused rows",
        content:
          refusals.length === 0
            ? null
            : table("Rows that could not be used", ["Line", "Why", "The row"], refusals.map(refusalRow)),
      },
    ],
  });
}
