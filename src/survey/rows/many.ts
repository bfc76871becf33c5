/** Many surveys: rows in, answers out, in order, in constant memory; a refused row never stops the rest. */
import type { Verdict } from "../../core/rule/index.js";
import { type Assessment, type AssessOptions, type Detail, tryAssess } from "../assess.js";
import { csvRows } from "./csv.js";
import { jsonRows, ndjsonRows } from "./json.js";
import { type Refusal, type Row, refusalOf } from "./row.js";

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
  (chunks: AsyncIterable<Uint8Array> | Iterable<Uint8Array>) => AsyncGenerator<Row>
>;

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
 */
export async function* assessMany<D extends Detail = "full">(
  chunks: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
  format: Format,
  options: AssessOptions<D> = {},
): AsyncGenerator<Answer<D>> {
  for await (const row of readers[format](chunks)) yield answerRow(row, options);
}

/** Counts over many answers; they add up to the rows read. */
export interface Tally {
  rows: number;
  refused: number;
  byVerdict: Record<Verdict, number>;
}

/** An empty tally. */
export const newTally = (): Tally => ({
  rows: 0,
  refused: 0,
  byVerdict: { fail: 0, review: 0, pass: 0, notApplicable: 0 },
});

/** Adds one answer to a tally. */
export function count(tally: Tally, answer: Answer<Detail>): void {
  tally.rows++;
  if (answer.ok) tally.byVerdict[answer.assessment.verdict]++;
  else tally.refused++;
}
