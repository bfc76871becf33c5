/** Rows of JSON: one value a line, or one file with one survey or a list of them. */
import { findNodeAtLocation, type Node, type ParseError, parse, parseTree, printParseErrorCode } from "jsonc-parser";
import type { InputIssue } from "../../core/rule/index.js";
import { type Line, linesOf } from "./lines.js";
import { type Row, refuse } from "./row.js";

const lineFaults: Record<NonNullable<Line["fault"]>, string> = {
  encoding: "the row is not valid UTF-8; save the file as UTF-8",
  utf16: "the file is UTF-16; save it as UTF-8",
  tooLong: "the row is longer than 1 MiB; a survey is a few kilobytes",
};

/** The refusal of a line that could not be decoded. */
export const refuseLine = ({ line, fault, shown }: Line): Row => refuse(line, shown, fault!, lineFaults[fault!]);

/** Nesting deeper than any survey; the position finder below must not be led into the depths. */
const DEEPEST = 64;

function depthOf(text: string): number {
  let depth = 0;
  let deepest = 0;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code === 91 || code === 123) deepest = Math.max(deepest, ++depth);
    else if (code === 93 || code === 125) depth--;
  }
  return deepest;
}

/** Where a path's value stands in a text: offset, or that of the nearest part that exists. */
function offsetOf(tree: Node | undefined, path: InputIssue["path"]): number | null {
  for (let length = path.length; length >= 0; length--) {
    const node = tree && findNodeAtLocation(tree, path.slice(0, length) as (string | number)[]);
    if (node) return node.offset;
  }
  return null;
}

function columnFinder(text: string): (path: InputIssue["path"]) => number | null {
  let tree: Node | undefined | null = null;
  return (path) => {
    if (tree === null) tree = parseTree(text);
    const offset = offsetOf(tree, path);
    return offset === null ? null : offset + 1;
  };
}

function brokenAt(text: string): { offset: number; what: string } {
  const errors: ParseError[] = [];
  parse(text, errors, { disallowComments: true, allowTrailingComma: false });
  const first = errors[0];
  const words = first
    ? printParseErrorCode(first.error)
        .replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`)
        .trim()
    : "";
  return { offset: first?.offset ?? 0, what: words };
}

/** One line of NDJSON as a row. */
export function jsonRow(text: string, line: number): Row {
  if (depthOf(text) > DEEPEST) return refuse(line, text, "tooDeep", `the row is nested more than ${DEEPEST} deep`);
  try {
    return { ok: true, line, text, value: JSON.parse(text), columnOf: columnFinder(text) };
  } catch {
    const { offset, what } = brokenAt(text);
    return refuse(line, text, "brokenJson", `this is not JSON (${what || "unexpected character"})`, {
      column: offset + 1,
    });
  }
}

/** Rows of newline-delimited JSON. Empty lines are not rows. */
export async function* ndjsonRows(chunks: AsyncIterable<Uint8Array> | Iterable<Uint8Array>): AsyncGenerator<Row> {
  for await (const line of linesOf(chunks)) {
    if (line.text === null) yield refuseLine(line);
    else if (line.text.trim() !== "") yield jsonRow(line.text, line.line);
  }
}

const lineAt = (text: string, offset: number): number => {
  let line = 1;
  for (let at = text.indexOf("\n"); at >= 0 && at < offset; at = text.indexOf("\n", at + 1)) line++;
  return line;
};
const columnAt = (text: string, offset: number): number => offset - text.lastIndexOf("\n", offset - 1);

/** Rows of one JSON file: the one survey it holds, or each of a list. The file is read whole. */
export async function* jsonRows(chunks: AsyncIterable<Uint8Array> | Iterable<Uint8Array>): AsyncGenerator<Row> {
  const lines: string[] = [];
  for await (const line of linesOf(chunks)) {
    if (line.text === null) {
      yield refuseLine(line);
      return;
    }
    lines.push(line.text);
  }
  const text = lines.join("\n");
  if (depthOf(text) > DEEPEST) {
    yield refuse(1, text, "tooDeep", `the file is nested more than ${DEEPEST} deep`);
    return;
  }
  let whole: unknown;
  try {
    whole = JSON.parse(text);
  } catch {
    const { offset, what } = brokenAt(text);
    const message = `this is not JSON (${what || "unexpected character"})`;
    yield refuse(lineAt(text, offset), text, "brokenJson", message, { column: columnAt(text, offset) });
    return;
  }
  if (!Array.isArray(whole)) {
    yield { ok: true, line: 1, text, value: whole, columnOf: wholeFileColumns(text, []) };
    return;
  }
  const tree = parseTree(text);
  for (const [i, value] of whole.entries()) {
    const node = tree && findNodeAtLocation(tree, [i]);
    const at = node?.offset ?? 0;
    const body = node ? text.slice(at, at + node.length) : "";
    yield { ok: true, line: lineAt(text, at), text: body, value, columnOf: wholeFileColumns(text, [i]) };
  }
}

function wholeFileColumns(text: string, root: (string | number)[]): (path: InputIssue["path"]) => number | null {
  let tree: Node | undefined | null = null;
  return (path) => {
    if (tree === null) tree = parseTree(text);
    const offset = offsetOf(tree, [...root, ...path]);
    return offset === null ? null : columnAt(text, offset);
  };
}
