/** Rows of a file: each one either a value or a refusal, with its place in the file. */
import { type InputFault, type InputIssue, issueText } from "../../core/rule/index.js";

/** Why a row, or a part of it, was refused. */
export interface RefusalIssue extends InputIssue {
  /** Column of the character (in JSON) or of the cell (in CSV), from 1; `null` where it cannot be told. */
  readonly column: number | null;
}

/** A row that could not be used. */
export interface Refusal {
  /** Line in the file, from 1, where the row starts. */
  readonly line: number;
  /** The row as it stands in the file, shortened to 500 characters. */
  readonly text: string;
  readonly issues: readonly RefusalIssue[];
}

/** A row of a file: its value, or why it was refused. */
export type Row =
  | {
      readonly ok: true;
      readonly line: number;
      readonly text: string;
      readonly value: unknown;
      /** The column of a path of the value, for complaints that come later. */
      readonly columnOf: (path: InputIssue["path"]) => number | null;
    }
  | ({ readonly ok: false } & Refusal);

const LONGEST_SHOWN = 500;

/** A text short enough to print. */
export const shorten = (text: string): string =>
  text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}... (${text.length} characters)` : text;

/** A refusal of a whole row for one reason. */
export function refuse(
  line: number,
  text: string,
  code: string,
  message: string,
  {
    column = null,
    expected = "",
    received = "the row",
  }: { column?: number | null; expected?: string; received?: string } = {},
): Row {
  return {
    ok: false,
    line,
    text: shorten(text),
    issues: [{ path: [], code, message, expected, received, column }],
  };
}

/** The refusal of a row whose value turned out to be unusable. */
export function refusalOf(row: Extract<Row, { ok: true }>, fault: InputFault): Refusal {
  return {
    line: row.line,
    text: shorten(row.text),
    issues: fault.issues.map((issue) => ({ ...issue, column: row.columnOf(issue.path) })),
  };
}

/** One refusal issue as a line of text: `line 15, column 4: ...`. */
export function refusalText(line: number, issue: RefusalIssue): string {
  return `line ${line}${issue.column === null ? "" : `, column ${issue.column}`}: ${issueText(issue)}`;
}
