/** The record of a job as text, and as one sheet to print and sign. */
import type { JobRecord, RecordedField } from "../survey/index.js";
import { cell, code, facts, linesOf, list, mark, page, paragraph, table } from "./html-page.js";
import { type Content, element, words } from "./markup.js";
import { cleanText, verdictWords } from "./text.js";

const shown = (value: RecordedField["asFound"]): string => (value === null ? "not said" : String(value));
const editionsOf = ({ editions }: JobRecord): string =>
  Object.entries(editions)
    .map(([text, edition]) => `${text.toUpperCase()} ${edition}`)
    .join(", ");

const outcome = ({ verdict }: JobRecord): string =>
  `as found ${verdictWords[verdict.asFound]}, as left ${verdictWords[verdict.asLeft]}`;

/**
 * A record as plain text: values found and left, every rule with its basis, lines to sign, and the hash.
 */
export function recordText(record: JobRecord): string {
  const { site, measured, fields, rules, values, assumptions, cautions, signatures, hash, building } = record;
  const lines = [
    `Record of ${site}: ${outcome(record)}`,
    `Measured by ${measured?.by ?? "(not said)"} on ${measured?.on ?? "(not said)"} with ${measured?.with ?? "(not said)"}`,
    `In force: ${editionsOf(record)}; building: ${building}`,
    "",
    "Values",
    ...fields.map(({ field, asFound, asLeft, changed }) =>
      changed ? `  * ${field}: ${shown(asFound)} -> ${shown(asLeft)}` : `    ${field}: ${shown(asLeft)}`,
    ),
    "",
    "Rules",
    ...rules.flatMap(({ rule, asFound, asLeft, message, basis }) => [
      `  ${verdictWords[asLeft]}  ${rule}${asFound === asLeft ? "" : ` (as found ${verdictWords[asFound]})`}: ${message}`,
      ...basis.map((one) => `        ${one}`),
    ]),
    "",
    "Computed",
    ...values.map(({ calculator, message }) => `  ${calculator}: ${message}`),
    ...(assumptions.length === 0 ? [] : ["", "Assumed", ...assumptions.map((one) => `  ${one}`)]),
    ...(cautions.length === 0 ? [] : ["", "Cautions", ...cautions.map((one) => `  ${one}`)]),
    "",
    ...signatures.map(({ role }) => `${role}: ____________________  Date: __________  Signature: ____________________`),
    "",
    `SHA-256 ${hash}`,
  ];
  return `${lines.map(cleanText).join("\n")}\n`;
}

const valuesTable = (fields: readonly RecordedField[]): Content =>
  table(
    "As found and as left; what the work changed is marked",
    ["Field", "As found", "As left", "Changed"],
    fields.map(({ field, asFound, asLeft, changed }) => [
      cell(code(field)),
      cell(linesOf(shown(asFound)), "free"),
      cell(linesOf(shown(asLeft)), "free"),
      cell(words(changed ? "changed" : "")),
    ]),
  );

/** A record as one page of HTML that needs no network and has no script: to print, to sign, to keep. */
export function recordHtml(record: JobRecord): string {
  const { site, measured, fields, rules, values, assumptions, cautions, signatures, hash, building, verdict } = record;
  return page({
    title: `Record of ${site}`,
    lead: [
      element("p", { class: "verdict" }, mark(verdict.asLeft), words(outcome(record))),
      facts([
        ["Measured by", words(measured?.by ?? "not said")],
        ["On", words(measured?.on ?? "not said")],
        ["With", words(measured?.with ?? "not said")],
        ["In force", words(editionsOf(record))],
        ["Building", words(building)],
      ]),
    ],
    sections: [
      {
        id: "rules",
        title: "Rules",
        content: table(
          "Every rule at the end of the work, and what it said before",
          ["Rule", "As left", "As found", "What it says", "Rests on"],
          rules.map(({ rule, asFound, asLeft, message, basis }) => [
            cell(code(rule)),
            cell(mark(asLeft)),
            cell(mark(asFound)),
            cell(linesOf(message)),
            cell(list(basis.map((one) => words(one)))),
          ]),
        ),
      },
      { id: "values", title: "Values", content: valuesTable(fields) },
      {
        id: "computed",
        title: "Computed",
        content: list(values.map(({ calculator, message }) => [code(calculator), words(": "), linesOf(message)])),
      },
      { id: "assumed", title: "Assumed", content: list(assumptions.map((one) => linesOf(one))) },
      { id: "cautions", title: "Cautions", content: list(cautions.map((one) => linesOf(one))) },
      {
        id: "signatures",
        title: "Signatures",
        content: [
          table(
            "To be filled in by hand",
            ["Who", "Name", "Date", "Signature"],
            signatures.map(({ role }) => [
              cell(words(role)),
              ...["____________________", "____________", "____________________"].map((blank) => cell(words(blank))),
            ]),
          ),
          paragraph("SHA-256 of this record's content; a later change of any value shows when it is checked:", "quiet"),
          element("p", {}, code(hash)),
        ],
      },
    ],
  });
}
