/** Many surveys: rows in, answers out, in order, in constant memory; a refused row never stops the rest. */
import { severity, type Verdict, verdicts } from "../../core/rule/index.js";
import { type Assessment, type AssessOptions, type Detail, tryAssess, type VerdictOnly } from "../assess.js";
import { csvRows } from "./csv.js";
import { type Chunks, jsonRows, ndjsonRows } from "./json.js";
import { type Reading, type Refusal, type Row, refusalOf } from "./row.js";

/** What came of one row. */
export type Answer<D extends Detail> =
  | { readonly ok: true; readonly line: number; readonly assessment: Assessment<D> }
  | { readonly ok: false; readonly line: number; readonly refusal: Refusal };

/** Ways a file of surveys can be written. */
export const formats = ["json", "ndjson", "csv"] as const;
/** How a file of surveys is written. */
export type Format = (typeof formats)[number];

const readers = { json: jsonRows, ndjson: ndjsonRows, csv: csvRows } as const satisfies Record<
  Format,
  (chunks: Chunks, reading?: Reading) => AsyncGenerator<Row>
>;

/** The rows of a file, or of a part of one, in order. */
export const rowsOf = (chunks: Chunks, format: Format, reading: Reading = {}): AsyncGenerator<Row> =>
  readers[format](chunks, reading);

/** The answer to one row. */
export function answerRow<D extends Detail = "full">(row: Row, options: AssessOptions<D> = {}): Answer<D> {
  if (!row.ok) {
    const { line, text, issues } = row;
    return { ok: false, line, refusal: { line, text, issues } };
  }
  const tried = tryAssess(row.value, options);
  return tried.ok
    ? { ok: true, line: row.line, assessment: tried.assessment }
    : { ok: false, line: row.line, refusal: refusalOf(row, tried.fault) };
}

/**
 * Answers every survey of a stream of bytes, in order. Memory does not grow with the number of rows, save for `json`,
 * which is read whole.
 *
 * @param chunks - the bytes of the file, as a Node or a web stream gives them
 * @param format - how the surveys are written
 * @param reading - which part of a file it is, and how its columns are named
 */
export async function* assessMany<D extends Detail = "full">(
  chunks: Chunks,
  format: Format,
  options: AssessOptions<D> = {},
  reading: Reading = {},
): AsyncGenerator<Answer<D>> {
  for await (const row of rowsOf(chunks, format, reading)) yield answerRow(row, options);
}

/** How often each message was given, by rule and verdict. */
export type CauseCounts = Record<string, Partial<Record<Verdict, Record<string, number>>>>;

/** Counts over many answers; they add up to the rows read. Plain JSON, so that tallies of parts can be sent and added. */
export interface Tally {
  rows: number;
  refused: number;
  byVerdict: Record<Verdict, number>;
  /** Findings that fail or need review, the same at every level of detail. */
  causes: CauseCounts;
  /** Refused rows by the code of their first issue. */
  refusals: Record<string, number>;
}

/** An empty tally. */
export const newTally = (): Tally => ({
  rows: 0,
  refused: 0,
  byVerdict: { fail: 0, review: 0, pass: 0, notApplicable: 0 },
  causes: {},
  refusals: {},
});

function addCause(causes: CauseCounts, { rule, verdict, messageId }: VerdictOnly, times: number): void {
  causes[rule] ??= {};
  causes[rule][verdict] ??= {};
  const messages = causes[rule][verdict];
  messages[messageId] = (messages[messageId] ?? 0) + times;
}

/** Adds one answer to a tally. */
export function count(tally: Tally, answer: Answer<Detail>): void {
  tally.rows++;
  if (!answer.ok) {
    tally.refused++;
    const { code } = answer.refusal.issues[0]!;
    tally.refusals[code] = (tally.refusals[code] ?? 0) + 1;
    return;
  }
  tally.byVerdict[answer.assessment.verdict]++;
  for (const finding of answer.assessment.findings) {
    if (finding.verdict === "fail" || finding.verdict === "review") addCause(tally.causes, finding, 1);
  }
}

/** Adds the counts of a part to those of the whole. */
export function addTally(tally: Tally, part: Tally): void {
  tally.rows += part.rows;
  tally.refused += part.refused;
  for (const verdict of verdicts) tally.byVerdict[verdict] += part.byVerdict[verdict];
  for (const cause of causesOf(part)) addCause(tally.causes, cause, cause.count);
  for (const [code, times] of Object.entries(part.refusals)) tally.refusals[code] = (tally.refusals[code] ?? 0) + times;
}

/** Why sites fail or need review: one message of one rule, and how often it was given. */
export interface Cause extends VerdictOnly {
  readonly count: number;
}

/** The causes of a tally: what fails first, and of each verdict the most frequent first. */
export function causesOf({ causes }: Tally): Cause[] {
  const found = Object.entries(causes).flatMap(([rule, byVerdict]) =>
    (Object.entries(byVerdict) as [Verdict, Record<string, number>][]).flatMap(([verdict, messages]) =>
      Object.entries(messages).map(([messageId, count]): Cause => ({ rule, verdict, messageId, count })),
    ),
  );
  const name = ({ rule, messageId }: Cause): string => `${rule} ${messageId}`;
  return found.sort(
    (a, b) => severity(a.verdict) - severity(b.verdict) || b.count - a.count || (name(a) < name(b) ? -1 : 1),
  );
}
