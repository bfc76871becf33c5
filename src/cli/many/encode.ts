/** Answers as the bytes that are written. */
import { assessmentMarkdown, assessmentText, cleanText, csvCell } from "../../report/index.js";
import { type Answer, answerRow, count, type Detail, newTally, type Row, refusalText } from "../../survey/index.js";
import { shownName } from "../files.js";
import { jsonText } from "../json.js";
import { paintWith } from "../paint.js";
import type { Batch, Channel, Form, Settings } from "./settings.js";

const csvColumns = ["file", "line", "site", "siteVerdict", "rule", "verdict", "messageId", "message", "basis"] as const;
const csvLine = (cells: readonly string[]): string => `${cells.map((cell) => csvCell(cleanText(cell))).join(",")}\r\n`;

/** What stands before the first row. */
export const prologue = (form: Form): string =>
  form === "json" ? '{"rows":[' : form === "csv" ? csvLine([...csvColumns]) : "";

/** A row of CSV for each finding and each fault; a site without findings still has its row. */
function csvText(file: string, answer: Answer<Detail>): string {
  if (!answer.ok) {
    return answer.refusal.issues
      .map((issue) =>
        csvLine([file, String(answer.line), "", "refused", "", "refused", issue.code, refusalText(issue), ""]),
      )
      .join("");
  }
  const { line, assessment } = answer;
  const start = [file, String(line), assessment.site, assessment.verdict];
  if (assessment.findings.length === 0) return csvLine([...start, "", "", "", "", ""]);
  return assessment.findings
    .map((finding) => {
      const { rule, verdict, messageId } = finding;
      const texts = "message" in finding ? [finding.message, finding.basis[0]?.citation ?? ""] : ["", ""];
      return csvLine([...start, rule, verdict, messageId, ...texts]);
    })
    .join("");
}

/** A refused row, to be mended and read again. */
function refusalLine(file: string, { refusal }: Extract<Answer<Detail>, { ok: false }>): string {
  const { line, text, issues } = refusal;
  return `${jsonText({ file, line, column: issues[0]!.column, messages: issues.map(refusalText), text })}\n`;
}

/** What is said of a refused row on standard error. */
function refusalLines(file: string, { refusal }: Extract<Answer<Detail>, { ok: false }>): string {
  const { issues, text } = refusal;
  const lines = issues.map((issue) => `${shownName(file)}: ${cleanText(refusalText(issue))}\n`);
  return `${lines.join("")}${text === "" ? "" : `  refused: ${cleanText(text)}\n`}`;
}

function answerJson(file: string, answer: Answer<Detail>): string {
  const { ok, line } = answer;
  return jsonText(ok ? { file, ok, line, assessment: answer.assessment } : { file, ok, line, refusal: answer.refusal });
}

function answerText(file: string, answer: Answer<Detail>, { form, options, width, isPainted }: Settings): string {
  switch (form) {
    case "json": // parted from the row before; the writer takes this away from the very first
      return `,\n${answerJson(file, answer)}`;
    case "ndjson":
      return `${answerJson(file, answer)}\n`;
    case "csv":
      return csvText(file, answer);
    case "markdown":
      return answer.ok ? `${assessmentMarkdown(answer.assessment as never)}\n` : "";
    case "text": {
      if (!answer.ok) return "";
      const layout = { ...(width === null ? {} : { width }), ...(isPainted ? { paint: paintWith } : {}) };
      return `${assessmentText(answer.assessment, layout)}${options.detail === "verdicts" ? "" : "\n"}`;
    }
  }
}

/**
 * The answers to rows, encoded, in batches. What was answered before an error of the reader comes before the error.
 *
 * @param file - name of the file as the user gave it
 */
export async function* answered(rows: AsyncIterable<Row>, file: string, settings: Settings): AsyncGenerator<Batch> {
  const encoder = new TextEncoder();
  let said: { to: Channel; bytes: Uint8Array }[] = [];
  let held = "";
  let to: Channel = "out";
  // a file of their own: no order to keep with the rest, so that they part no text that could be written at once
  let refused = "";
  let length = 0;
  let tally = newTally();
  const settle = (): void => {
    if (held !== "") said.push({ to, bytes: encoder.encode(held) });
    held = "";
  };
  const say = (channel: Exclude<Channel, "refusals">, text: string): void => {
    if (text === "") return;
    if (channel !== to) settle();
    to = channel;
    held += text;
    length += text.length;
  };
  const take = (): Batch => {
    settle();
    if (refused !== "") said.push({ to: "refusals", bytes: encoder.encode(refused) });
    refused = "";
    const batch = { said, tally };
    said = [];
    length = 0;
    tally = newTally();
    return batch;
  };
  const isForPeople = settings.form === "text" || settings.form === "markdown";
  try {
    for await (const row of rows) {
      const answer = answerRow(row, settings.options);
      count(tally, answer);
      say("out", answerText(file, answer, settings));
      if (!answer.ok && settings.hasRefusalsFile) refused += refusalLine(file, answer);
      else if (!answer.ok && isForPeople) say("err", refusalLines(file, answer));
      if (length + refused.length >= settings.gathered) yield take();
    }
  } catch (error) {
    if (tally.rows > 0) yield take();
    throw error;
  }
  if (tally.rows > 0) yield take();
}
