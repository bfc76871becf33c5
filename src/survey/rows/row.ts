/** Rows of a file: each one either a value or a refusal, with its place in the file. */
import { type InputFault, type InputIssue, issueText } from "../../core/rule/index.js";

/** A place in a file, from 1. */
export interface Place {
  readonly line: number;
  /** Column of the character (in JSON) or of the cell (in CSV); `null` where it cannot be told. */
  readonly column: number | null;
}

/** Why a row, or a part of it, was refused, and where that stands. */
export interface RefusalIssue extends InputIssue, Place {}

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
      /** Where a path of the value stands, for complaints that come later. */
      readonly placeOf: (path: InputIssue["path"]) => Place;
    }
  | ({ readonly ok: false } & Refusal);

/** A part of a file that is cut at line ends. Only the whole file can tell that it has no rows. */
export interface Part {
  /** Number of its first line in the file, from 1. */
  readonly line: number;
  /** The header of a CSV file, for every part but the one that holds it. */
  readonly header?: string;
}

/** Other people's column names, and ours for them: `"Run (ft)": "venting.duct.straight [ft]"`; `null` passes a column over. */
export type Mapping = Readonly<Record<string, string | null>>;

/** How to read rows, beside their format. */
export interface Reading {
  /** Where the bytes are a part of a file and not the whole. JSON is always whole. */
  readonly part?: Part;
  /** Names of the columns of a CSV file, where they are not ours. */
  readonly mapping?: Mapping;
}

const LONGEST_SHOWN = 500;

/** A text short enough to print. */
export const shorten = (text: string): string =>
  text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}... (${text.length} characters)` : text;

/** What is said of a refused row beside its message. */
export interface RefusalFacts {
  /** Where the fault stands; the start of the row where left out. */
  readonly at?: Place;
  readonly expected?: string;
  /** What came; empty where it is the row as a whole. */
  readonly received?: string;
}

/** A refusal of a whole row for one reason. */
export function refuse(
  line: number,
  text: string,
  code: string,
  message: string,
  { at = { line, column: null }, expected = "", received = "" }: RefusalFacts = {},
): Row {
  return { ok: false, line, text: shorten(text), issues: [{ path: [], code, message, expected, received, ...at }] };
}

/** The refusal of a row whose value turned out to be unusable. */
export function refusalOf(row: Extract<Row, { ok: true }>, fault: InputFault): Refusal {
  return {
    line: row.line,
    text: shorten(row.text),
    issues: fault.issues.map((issue) => ({ ...issue, ...row.placeOf(issue.path) })),
  };
}

/** One refusal issue as a line of text: `line 15, column 4: ...`. */
export function refusalText(issue: RefusalIssue): string {
  const what = issue.received === "" ? issue.message : issueText(issue);
  return `line ${issue.line}${issue.column === null ? "" : `, column ${issue.column}`}: ${what}`;
}
