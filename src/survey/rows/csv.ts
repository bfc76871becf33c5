/** Rows of CSV: a header of survey fields with units, then one survey a row. */
import type * as z from "zod";
import { isReadingProblem, readQuantity } from "../../core/quantity/index.js";
import { describeReceived, type InputIssue, schemaAt } from "../../core/rule/index.js";
import { surveyInput } from "../survey.js";
import { dimensionOfField, plainSchema, textReader } from "./cell.js";
import { type Chunks, refuseLine } from "./json.js";
import { type Line, LONGEST_LINE, linesOf } from "./lines.js";
import { RecordScanner } from "./record.js";
import { type Mapping, type Reading, type RefusalIssue, type Row, refusalText, refuse, shorten } from "./row.js";

type Path = readonly (string | number)[];

/** One column: the survey field it fills, and how its cells become values. */
interface Column {
  readonly path: Path;
  readonly toValue: (cell: string) => unknown;
  /** Columns before it that hold the same field or a part of it, so that only one of them may be filled. */
  readonly clashes: readonly number[];
}

/** A field's name with dots, and the unit of bare numbers. Names and places of lists are ASCII. */
const HEADER = /^([A-Za-z][\w.]*)(?:\s*\[([^\]]+)\])?$/;
/** A place in a list; a hundred entries are more than any site has. */
const LIST_PLACE = /^(?:0|[1-9]\d?)$/;

/** The schema of a field, with numbers, and nothing else, as places in lists. */
function fieldAt(path: Path): z.core.$ZodType | undefined {
  let schema: z.core.$ZodType | undefined = surveyInput;
  for (const key of path) {
    const isList: boolean = ["array", "tuple"].includes(plainSchema(schema).definition.type);
    if (isList !== (typeof key === "number")) return undefined;
    schema = schemaAt(schema, [key]);
    if (!schema) return undefined;
  }
  return schema;
}

/** Reads a header cell; a text says what is wrong with it. */
function columnOf(header: string): Column | string {
  const name = header.trim();
  const match = HEADER.exec(name);
  if (!match) {
    const parted = /[;\t|]/.test(name) ? "; part the cells with commas" : "";
    return `this is not the name of a survey field; write for example "venting.duct.straight [ft]"${parted}`;
  }
  const path = match[1]!.split(".").map((key) => (LIST_PLACE.test(key) ? Number(key) : key));
  const unit = match[2]?.trim() ?? null;
  const schema = fieldAt(path);
  if (!schema) return "there is no such survey field; the form lists them all";
  if (plainSchema(schema).definition.type === "object")
    return "this is a group of fields; name one of the fields in it";
  if (unit !== null) {
    const dimension = dimensionOfField(schema);
    if (!dimension) return "this field takes no unit";
    const read = readQuantity({ value: 1, unit }, dimension);
    if (isReadingProblem(read)) return `the unit in brackets: ${read.message}`;
  }
  return { path, toValue: textReader(schema, unit), clashes: [] };
}

/** The columns of a file; `null` for one that is passed over. */
type Columns = readonly (Column | null)[];

const startsWith = (path: Path, start: Path): boolean => start.every((key, i) => path[i] === key);

/** Puts a value at a path of a growing object; a gap left in a list is seen as a fault later. */
function put(root: Record<string, unknown>, path: Path, value: unknown): void {
  let at: Record<string | number, unknown> = root;
  path.forEach((key, i) => {
    if (i === path.length - 1) {
      at[key] = value;
      return;
    }
    if (!Object.hasOwn(at, key)) at[key] = typeof path[i + 1] === "number" ? [] : {};
    at = at[key] as Record<string | number, unknown>;
  });
}

interface Assembled {
  readonly lines: readonly Line[];
  readonly cells: readonly string[] | null;
  readonly problem: string;
  /** Character of the first line where it broke, from 1. */
  readonly at: number | null;
}

/** Lines that one quoted cell may span; beyond, its closing quote is taken as forgotten. */
const LONGEST_CELL_LINES = 100;

/**
 * Records of CSV. A cell in quotes may span lines; where that goes wrong, or gives a record of another width than the
 * header's, a closing quote was forgotten: only the first line is given up.
 */
async function* recordsOf(
  chunks: Chunks,
  width: () => number | undefined,
  firstLine: number | undefined,
): AsyncGenerator<Assembled> {
  const source = linesOf(chunks, firstLine);
  const waiting: Line[] = [];
  const next = async (): Promise<Line | undefined> => {
    const back = waiting.shift();
    if (back) return back;
    const { value, done } = await source.next();
    return done ? undefined : value;
  };
  for (let first = await next(); first; first = await next()) {
    if (first.text === null) {
      yield { lines: [first], cells: null, problem: "", at: null };
      continue;
    }
    if (first.text.trim() === "") continue;
    const scanner = new RecordScanner();
    const lines = [first];
    let length = first.text.length;
    let fed = scanner.feed(first.text);
    const broken = typeof fed === "object" ? fed : { problem: "a quote is opened and not closed", at: null };
    while (fed === "open" && lines.length < LONGEST_CELL_LINES && length < LONGEST_LINE) {
      const more = await next();
      if (!more) break;
      lines.push(more);
      if (more.text === null) break;
      length += more.text.length;
      fed = scanner.feed(more.text);
    }
    const fits = lines.length === 1 || width() === undefined || scanner.cells.length === width();
    if (fed === "whole" && fits) yield { lines, cells: scanner.cells, problem: "", at: null };
    else {
      waiting.unshift(...lines.slice(1));
      yield { lines: [first], cells: null, problem: broken.problem, at: broken.at === null ? null : broken.at + 1 };
    }
  }
}

/**
 * Rows of CSV after RFC 4180. The header names survey fields with dots, list places as numbers, and the unit of bare
 * numbers in brackets: `venting.duct.straight [ft]`. A cell with a unit of its own keeps it; an empty cell is a value
 * that was not given; `none` in a list column is an empty list. Where the header cannot be used every row is refused.
 */
export async function* csvRows(chunks: Chunks, { part, mapping = {} }: Reading = {}): AsyncGenerator<Row> {
  let columns: Columns | null = part?.header === undefined ? null : columnsOf(part.header, mapping);
  let badHeader: Extract<Row, { ok: false }> | null = null;
  let rows = 0;
  for await (const record of recordsOf(chunks, () => columns?.length, part?.line)) {
    const { lines, cells, problem, at } = record;
    const first = lines[0]!;
    const text = lines.map(({ shown }) => shown).join("\n");
    if (columns === null && badHeader === null) {
      const header = cells === null ? refusalOfRecord(record, text) : readHeader(cells, first.line, text, mapping);
      if ("ok" in header) badHeader = header as Extract<Row, { ok: false }>;
      else columns = header;
      continue;
    }
    rows++;
    if (columns === null) yield underBadHeader(badHeader!, first.line, text, rows === 1);
    else if (cells === null) {
      yield first.text === null
        ? refuseLine(first)
        : refuse(first.line, text, "brokenCsv", at === null ? problem : `${problem} (character ${at} of the line)`);
    } else yield rowOf(columns, cells, first.line, text);
  }
  if (rows > 0 || part) return;
  if (badHeader) yield badHeader;
  else if (columns) yield refuse(1, "", "noRows", "the file has a header and no rows");
  else yield refuse(1, "", "empty", "the file is empty; its first row must name survey fields");
}

function refusalOfRecord({ lines: [first], problem }: Assembled, text: string): Row {
  return first!.text === null ? refuseLine(first!) : refuse(first!.line, text, "brokenCsv", problem);
}

/** The refusal of a row that no usable header stands over: the first one carries all that is wrong with the header. */
function underBadHeader(
  { line, issues }: { line: number; issues: readonly RefusalIssue[] },
  at: number,
  text: string,
  first: boolean,
): Row {
  if (first) return { ok: false, line: at, text: shorten(text), issues };
  return refuse(at, text, "badHeader", `the header cannot be used: ${refusalText({ ...issues[0]!, line })}`);
}

/** The columns of a header that stands on one line without quotes; `null` where it cannot be used. */
export function columnsOf(header: string, mapping: Mapping): Columns | null {
  const scanner = new RecordScanner();
  if (scanner.feed(header) !== "whole") return null;
  const read = readHeader(scanner.cells, 1, header, mapping);
  return "ok" in read ? null : read;
}

function readHeader(cells: readonly string[], line: number, text: string, mapping: Mapping): Columns | Row {
  const names = cells.map((cell) => {
    const name = cell.trim();
    return Object.hasOwn(mapping, name) ? mapping[name]! : name;
  });
  const read = names.map((name) => (name === null ? null : columnOf(name)));
  const issues: RefusalIssue[] = [];
  const complain = (code: string, message: string, expected: string, i: number): void => {
    const mapped = names[i] === cells[i]!.trim() ? "" : ` (the mapping names it ${describeReceived(names[i])})`;
    const received = describeReceived(cells[i]!);
    issues.push({ path: [], code, message: `${message}${mapped}`, expected, received, line, column: i + 1 });
  };
  const seen = new Set<string>();
  read.forEach((column, i) => {
    if (column === null) return;
    if (typeof column === "string") {
      complain("unknownColumn", column, "a survey field", i);
      return;
    }
    const name = column.path.join(".");
    if (seen.has(name)) complain("twice", `the field "${name}" is named twice`, "each field once", i);
    seen.add(name);
  });
  const here = new Set(cells.map((cell) => cell.trim()));
  for (const [name, field] of Object.entries(mapping)) {
    if (field === null || here.has(name)) continue;
    const message = `the mapping names a column ${describeReceived(name)}, which the file does not have`;
    issues.push({ path: [], code: "missingColumn", message, expected: "", received: "", line, column: null });
  }
  if (issues.length > 0) return { ok: false, line, text: shorten(text), issues };
  const columns = read as Columns;
  return columns.map(
    (column, i) =>
      column && {
        ...column,
        clashes: columns.flatMap((one, j) =>
          one && j < i && (startsWith(column.path, one.path) || startsWith(one.path, column.path)) ? [j] : [],
        ),
      },
  );
}

function rowOf(columns: Columns, cells: readonly string[], line: number, text: string): Row {
  if (cells.length !== columns.length) {
    const few = cells.length < columns.length ? "too few" : "too many";
    return refuse(line, text, "cellCount", `the row has ${cells.length} cells, ${few} for ${columns.length} columns`, {
      at: { line, column: Math.min(cells.length, columns.length) + 1 },
      expected: `${columns.length} cells`,
      received: `${cells.length} cells`,
    });
  }
  const value: Record<string, unknown> = {};
  for (const [i, column] of columns.entries()) {
    const cell = cells[i]!.trim();
    if (column === null || cell === "") continue;
    const { path, toValue, clashes } = column;
    const other = clashes.find((j) => cells[j]!.trim() !== "");
    if (other !== undefined) {
      const both = `"${columns[other]!.path.join(".")}" and "${path.join(".")}"`;
      const message = `${both} are both filled; leave one of them empty`;
      return refuse(line, text, "twice", message, { at: { line, column: i + 1 }, received: describeReceived(cell) });
    }
    put(value, path, toValue(cell));
  }
  const columnFor = (path: InputIssue["path"]): number | null => {
    const below = columns.findIndex((column) => column && path.length > 0 && startsWith(column.path, path));
    const above = columns.findIndex((column) => column && startsWith(path, column.path));
    return below >= 0 ? below + 1 : above >= 0 ? above + 1 : null;
  };
  return { ok: true, line, text, value, placeOf: (path) => ({ line, column: columnFor(path) }) };
}
