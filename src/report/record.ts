/** The record of a job as text, as Markdown, and as a sheet to print and sign. */
import type { InForce, JobRecord, RecordedField, RecordedRule } from "../survey/index.js";
import { cell, code, facts, linesOf, list, mark, page, paragraph, table } from "./html-page.js";
import { type Content, element, words } from "./markup.js";
import { cleanText, markdownText, verdictWords } from "./text.js";

const shown = (value: RecordedField["asFound"]): string => (value === null ? "not said" : String(value));

/** Editions and kind of building, with what nobody had named. */
function forceText({ editions, building, assumed }: InForce): string {
  const said = (key: string, text: string): string => (assumed.includes(key) ? `${text} (assumed)` : text);
  const texts = Object.entries(editions).map(([key, edition]) => said(key, `${key.toUpperCase()} ${edition}`));
  return [...texts, said("building", building)].join(", ");
}

/** What was in force, twice where the surveys differ in it. */
function inForceLines({ inForce }: JobRecord): string[] {
  const [before, after] = [forceText(inForce.asFound), forceText(inForce.asLeft)];
  return before === after ? [after] : [`as found ${before}`, `as left ${after}`];
}

const outcome = ({ verdict }: JobRecord): string =>
  `as found ${verdictWords[verdict.asFound]}, as left ${verdictWords[verdict.asLeft]}`;
const applies = ({ asFound, asLeft }: RecordedRule): boolean =>
  asFound.verdict !== "notApplicable" || asLeft.verdict !== "notApplicable";
const whoText = ({ measured }: JobRecord): string =>
  `${measured?.by ?? "not said by whom"}, ${measured?.on ?? "not said when"}, with ${measured?.with ?? "tools not named"}`;
const blank = "____________________";

/** What the record says, line by line; both plain forms are made of it. */
function parts(record: JobRecord): readonly { readonly title: string; readonly lines: readonly string[] }[] {
  const { fields, rules, values, assumptions, cautions, signatures, hash } = record;
  const idle = rules.filter((one) => !applies(one)).map(({ rule }) => rule);
  return [
    {
      title: "Signatures",
      lines: signatures.map(({ role }) => `${role}: ${blank}  Date: __________  Signature: ${blank}`),
    },
    {
      title: "Values, * where the work changed them",
      lines: fields.map(({ field, asFound, asLeft, changed }) =>
        changed ? `* ${field}: ${shown(asFound)} -> ${shown(asLeft)}` : `${field}: ${shown(asLeft)}`,
      ),
    },
    {
      title: "Rules",
      lines: rules
        .filter(applies)
        .flatMap(({ rule, asFound, asLeft }) => [
          `${verdictWords[asLeft.verdict]}  ${rule}: ${asLeft.message}`,
          ...(asFound.message === asLeft.message
            ? []
            : [`   as found ${verdictWords[asFound.verdict]}: ${asFound.message}`]),
          ...asLeft.basis.map((one) => `   ${one}`),
        ]),
    },
    { title: "Do not apply", lines: idle.length === 0 ? [] : [idle.join(", ")] },
    { title: "Computed", lines: values.map(({ calculator, message }) => `${calculator}: ${message}`) },
    { title: "Assumed", lines: assumptions },
    { title: "Cautions", lines: cautions },
    { title: "Hash of the content, SHA-256", lines: [hash] },
  ].filter(({ lines }) => lines.length > 0);
}

/** A record as plain text: lines to sign, values found and left, every rule with its basis, and the hash. */
export function recordText(record: JobRecord): string {
  const lines = [
    `Record of ${record.site}: ${outcome(record)}`,
    `Measured: ${whoText(record)}`,
    ...inForceLines(record).map((one) => `In force: ${one}`),
    ...parts(record).flatMap(({ title, lines: said }) => ["", title, ...said.map((one) => `  ${one}`)]),
  ];
  return `${lines.map(cleanText).join("\n")}\n`;
}

/** A record as a Markdown page. */
export function recordMarkdown(record: JobRecord): string {
  const lines = [
    `# ${markdownText(`Record of ${record.site}: ${outcome(record)}`)}`,
    "",
    `- Measured: ${markdownText(whoText(record))}`,
    ...inForceLines(record).map((one) => `- In force: ${markdownText(one)}`),
    ...parts(record).flatMap(({ title, lines: said }) => [
      "",
      `## ${markdownText(title)}`,
      "",
      ...said.map((one) => (one.startsWith("   ") ? `  - ${markdownText(one.trim())}` : `- ${markdownText(one)}`)),
    ]),
  ];
  return `${lines.join("\n")}\n`;
}

const changedTable = (fields: readonly RecordedField[]): Content => {
  const changed = fields.filter((one) => one.changed);
  if (changed.length === 0) return paragraph("The work changed none of the values.");
  return table(
    "What the work changed",
    ["Field", "As found", "As left"],
    changed.map(({ field, asFound, asLeft }) => [
      cell(code(field)),
      cell(linesOf(shown(asFound)), "free"),
      cell(linesOf(shown(asLeft)), "free"),
    ]),
  );
};

const allValues = (fields: readonly RecordedField[]): Content =>
  table(
    "As left",
    ["Field", "Value"],
    fields.map(({ field, asLeft }) => [cell(code(field)), cell(linesOf(shown(asLeft)), "free")]),
    true,
  );

/**
 * A record as one page of HTML that needs no network and has no script: to print, to sign, to keep. The sheet to sign
 * comes first; what it rests on follows.
 */
export function recordHtml(record: JobRecord): string {
  const { site, fields, rules, values, assumptions, cautions, signatures, hash, verdict } = record;
  const applying = rules.filter(applies);
  const idle = rules.filter((one) => !applies(one));
  return page({
    title: `Record of ${site}`,
    lead: [
      element("p", { class: "verdict" }, mark(verdict.asLeft), words(outcome(record))),
      facts([
        ["Measured", words(whoText(record))],
        ["In force", inForceLines(record).map((one, i) => [i === 0 ? null : element("br"), words(one)])],
        ["SHA-256", code(hash)],
      ]),
    ],
    sections: [
      {
        id: "signatures",
        title: "Signatures",
        content: table(
          "To be filled in by hand",
          ["Who", "Name", "Date", "Signature"],
          signatures.map(({ role }) => [
            cell(words(role)),
            ...[blank, "____________", blank].map((one) => cell(words(one))),
          ]),
        ),
      },
      { id: "changed", title: "Changed", content: changedTable(fields) },
      {
        id: "rules",
        title: "Rules",
        content: [
          applying.length === 0
            ? null
            : table(
                "At the end of the work, with what governs",
                ["Rule", "As left", "What it says", "Rests on"],
                applying.map(({ rule, asFound, asLeft }) => [
                  cell(code(rule)),
                  cell(mark(asLeft.verdict)),
                  cell([
                    linesOf(asLeft.message),
                    asFound.message === asLeft.message
                      ? null
                      : [element("br"), words(`As found ${verdictWords[asFound.verdict]}: ${asFound.message}`)],
                  ]),
                  cell(words(asLeft.basis[0] ?? "")),
                ]),
              ),
          idle.length === 0
            ? null
            : paragraph(`Do not apply here: ${idle.map(({ rule }) => rule).join(", ")}.`, "quiet"),
        ],
      },
      { id: "values", title: "Values", content: allValues(fields) },
      {
        id: "computed",
        title: "Computed",
        content: list(values.map(({ calculator, message }) => [code(calculator), words(": "), linesOf(message)])),
      },
      { id: "assumed", title: "Assumed", content: list(assumptions.map((one) => linesOf(one))) },
      { id: "cautions", title: "Cautions", content: list(cautions.map((one) => linesOf(one))) },
    ],
  });
}
