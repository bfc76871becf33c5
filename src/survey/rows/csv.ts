/** Rows of CSV: a header of survey fields with units, then one survey a row. */
import { CsvError, parse } from "csv-parse/sync";
import type * as z from "zod";
import { isReadingProblem, readQuantity } from "../../core/quantity/index.js";
import { type InputIssue, quantityMetaOf, schemaAt } from "../../core/rule/index.js";
import { surveyInput } from "../survey.js";
import { surveyFields } from "../walk.js";
import { refuseLine } from "./json.js";
import { type Line, linesOf } from "./lines.js";
import { type Row, refuse } from "./row.js";

/** One column: the survey field it fills, and the unit of its bare numbers. */
interface Column {
  readonly path: readonly (string | number)[];
  readonly unit: string | null;
  readonly toValue: (cell: string) => unknown;
}

const HEADER = /^([\w.]+)(?:\s*\[([^\]]+)\])?$/;
const truths = new Map([
  ["true", true],
  ["yes", true],
  ["false", false],
  ["no", false],
]);

type Definition = {
  readonly type: string;
  readonly innerType?: z.core.$ZodType;
  readonly element?: z.core.$ZodType;
  readonly options?: readonly z.core.$ZodType[];
};

function unwrapped(schema: z.core.$ZodType): { schema: z.core.$ZodType; definition: Definition } {
  let current = schema;
  let definition = current._zod.def as Definition;
  while (definition.innerType) {
    current = definition.innerType;
    definition = current._zod.def as Definition;
  }
  return { schema: current, definition };
}

/** A cell as the number or the text it is; the schema says later whether that will do. */
const numberOr = (cell: string): unknown => (/^-?\d+(?:\.\d+)?$/.test(cell) ? Number(cell) : cell);

function converter(schema: z.core.$ZodType, unit: string | null): Column["toValue"] {
  const { schema: inner, definition } = unwrapped(schema);
  const meta = quantityMetaOf(inner);
  if (meta) {
    if (unit === null) return (cell) => cell;
    return (cell) => (isReadingProblem(readQuantity(cell, meta.quantity)) ? `${cell} ${unit}` : cell);
  }
  switch (definition.type) {
    case "number":
    case "int":
    case "literal":
      return numberOr;
    case "boolean":
      return (cell) => truths.get(cell.toLowerCase()) ?? cell;
    case "array":
      return (cell) => (cell.toLowerCase() === "none" ? [] : cell.split(";").map((item) => item.trim()));
    default:
      return (cell) => cell;
  }
}

/** Reads a header cell; a text says what is wrong with it. */
function columnOf(header: string): Column | string {
  const match = HEADER.exec(header.trim());
  if (!match) return `"${header}" is not a survey field; write for example "venting.duct.straight [ft]"`;
  const path = match[1]!.split(".").map((key) => (/^\d+$/.test(key) ? Number(key) : key));
  const unit = match[2]?.trim() ?? null;
  const schema = schemaAt(surveyInput, path);
  if (!schema) return `there is no survey field "${match[1]}"; the form command lists them all`;
  const { schema: inner, definition } = unwrapped(schema);
  const meta = quantityMetaOf(inner);
  if (!meta && definition.type === "object") return `"${match[1]}" is a group of fields; name one of the fields in it`;
  if (unit !== null) {
    if (!meta) return `"${match[1]}" takes no unit`;
    const read = readQuantity({ value: 1, unit }, meta.quantity);
    if (isReadingProblem(read)) return `[${unit}]: ${read.message}`;
  }
  return { path, unit, toValue: converter(schema, unit) };
}

/** Puts a value at a path of a growing object; lists grow by one, so that a gap is seen as a fault later. */
function put(root: Record<string, unknown>, path: readonly (string | number)[], value: unknown): void {
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
}

/** Lines that one quoted cell may span; beyond, its closing quote is taken as forgotten. */
const LONGEST_CELL_LINES = 100;

function parseRecord(text: string): readonly string[] | string {
  try {
    const records = parse(text, { relax_column_count: true }) as string[][];
    return records.length === 1 ? records[0]! : "the row cannot be taken apart into cells";
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    if (error.code === "CSV_QUOTE_NOT_CLOSED") return "a quote is opened and not closed";
    if (error.code === "INVALID_OPENING_QUOTE" || error.code === "CSV_INVALID_CLOSING_QUOTE") {
      return 'a quote stands inside a cell; double it and put the whole cell in quotes: "5 ""in"""';
    }
    return "the row cannot be taken apart into cells";
  }
}

/** Records of CSV. A cell in quotes may span lines; where that goes wrong only its first line is given up. */
async function* recordsOf(chunks: AsyncIterable<Uint8Array> | Iterable<Uint8Array>): AsyncGenerator<Assembled> {
  const source = linesOf(chunks);
  const waiting: Line[] = [];
  const next = async (): Promise<Line | undefined> => {
    const back = waiting.shift();
    if (back) return back;
    const { value, done } = await source.next();
    return done ? undefined : value;
  };
  for (let first = await next(); first; first = await next()) {
    if (first.text === null) {
      yield { lines: [first], cells: null, problem: "" };
      continue;
    }
    const lines = [first];
    let text = first.text;
    let cells = first.text.trim() === "" ? [] : parseRecord(text);
    const firstProblem = typeof cells === "string" ? cells : "";
    while (cells === "a quote is opened and not closed" && lines.length < LONGEST_CELL_LINES) {
      const more = await next();
      if (!more) break;
      lines.push(more);
      if (more.text === null) break;
      text += `\n${more.text}`;
      cells = parseRecord(text);
    }
    if (typeof cells === "string") {
      waiting.unshift(...lines.slice(1));
      yield { lines: [first], cells: null, problem: firstProblem };
    } else if (cells.length > 0) yield { lines, cells, problem: "" };
  }
}

/**
 * Rows of CSV after RFC 4180. The header names survey fields with dots, list places as numbers, and the unit of bare
 * numbers in brackets: `venting.duct.straight [ft]`. A cell with a unit of its own keeps it; an empty cell is a value
 * that was not given; `none` in a list column is an empty list.
 */
export async function* csvRows(chunks: AsyncIterable<Uint8Array> | Iterable<Uint8Array>): AsyncGenerator<Row> {
  let columns: Column[] | null = null;
  for await (const { lines, cells, problem } of recordsOf(chunks)) {
    const first = lines[0]!;
    const text = lines.map(({ shown }) => shown).join("\n");
    if (cells === null) {
      yield first.text === null ? refuseLine(first) : refuse(first.line, text, "brokenCsv", problem);
      if (columns === null) return;
      continue;
    }
    if (columns === null) {
      const header = readHeader(cells, first.line, text);
      if (!Array.isArray(header)) {
        yield header;
        return;
      }
      columns = header;
      continue;
    }
    yield rowOf(columns, cells, first.line, text);
  }
  if (columns === null) yield refuse(1, "", "noHeader", "the file is empty; its first row must name survey fields");
}

function readHeader(cells: readonly string[], line: number, text: string): Column[] | Row {
  const read = cells.map(columnOf);
  const issues = read.flatMap((column, i) =>
    typeof column === "string"
      ? [
          {
            path: [],
            code: "unknownColumn",
            message: column,
            expected: "a survey field",
            received: cells[i]!,
            column: i + 1,
          },
        ]
      : [],
  );
  const names = cells.map((cell) => HEADER.exec(cell.trim())?.[1]);
  names.forEach((name, i) => {
    if (name !== undefined && names.indexOf(name) < i) {
      const message = `the field "${name}" is named twice`;
      issues.push({
        path: [],
        code: "twice",
        message,
        expected: "each field once",
        received: cells[i]!,
        column: i + 1,
      });
    }
  });
  return issues.length > 0 ? { ok: false, line, text, issues } : (read as Column[]);
}

function rowOf(columns: readonly Column[], cells: readonly string[], line: number, text: string): Row {
  if (cells.length !== columns.length) {
    const few = cells.length < columns.length ? "too few" : "too many";
    return refuse(line, text, "cellCount", `the row has ${cells.length} cells, ${few} for ${columns.length} columns`, {
      column: Math.min(cells.length, columns.length) + 1,
      expected: `${columns.length} cells`,
      received: `${cells.length} cells`,
    });
  }
  const value: Record<string, unknown> = {};
  columns.forEach(({ path, toValue }, i) => {
    const cell = cells[i]!.trim();
    if (cell !== "") put(value, path, toValue(cell));
  });
  const columnFor = (path: InputIssue["path"]): number | null => {
    const at = columns.findIndex((column) => path.every((key, i) => column.path[i] === key));
    const above = columns.findIndex((column) => column.path.every((key, i) => path[i] === key));
    return at >= 0 ? at + 1 : above >= 0 ? above + 1 : null;
  };
  return { ok: true, line, text, value, columnOf: columnFor };
}

/** The header of a CSV that has every single-value field of a survey, for an empty form. */
export function csvHeader(): string[] {
  return surveyFields().map(({ path }) => path.join("."));
}
