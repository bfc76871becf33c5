/** Rows of JSON: one value a line, or one file with one survey or a list of them. */
import {
  findNodeAtLocation,
  getNodeValue,
  type Node,
  type ParseError,
  type ParseOptions,
  parseTree,
  printParseErrorCode,
} from "jsonc-parser";
import { describeReceived, type InputIssue } from "../../core/rule/index.js";
import { type Line, linesOf } from "./lines.js";
import { type Place, type Reading, type Row, refuse } from "./row.js";

/** The bytes of a file, as a stream gives them. */
export type Chunks = AsyncIterable<Uint8Array> | Iterable<Uint8Array>;
type Path = InputIssue["path"];

const lineFaults: Record<NonNullable<Line["fault"]>, string> = {
  encoding: "the row is not valid UTF-8; save the file as UTF-8",
  utf16: "the file is UTF-16; save it as UTF-8",
  tooLong: "the row is longer than 1 MiB; a survey is a few kilobytes",
};

/** The refusal of a line that could not be decoded. */
export const refuseLine = ({ line, fault, shown }: Line): Row => refuse(line, shown, fault!, lineFaults[fault!]);

/** Nesting deeper than any survey; the parser must not be led into the depths. */
const DEEPEST = 64;
/** The largest JSON file that is read; a longer list of surveys belongs in NDJSON or CSV, which are read row by row. */
export const LARGEST_JSON = 67_108_864;

const QUOTE = 34;
const NEWLINE = 10;

/** How deep a text nests, and how many members its objects have, without parsing it. Strings and comments are skipped. */
function outline(text: string): { readonly depth: number; readonly members: number } {
  let depth = 0;
  let deepest = 0;
  let members = 0;
  for (let i = 0; i < text.length; i++) {
    switch (text.charCodeAt(i)) {
      case QUOTE:
        for (i++; i < text.length && text.charCodeAt(i) !== QUOTE && text.charCodeAt(i) !== NEWLINE; i++) {
          if (text[i] === "\\") i++;
        }
        break;
      case 47: // a slash
        if (text[i + 1] === "/") i = indexFrom(text, "\n", i);
        else if (text[i + 1] === "*") i = indexFrom(text, "*/", i + 2) + 1;
        break;
      case 91:
      case 123: // opening brackets
        deepest = Math.max(deepest, ++depth);
        break;
      case 93:
      case 125: // closing brackets
        depth--;
        break;
      case 58: // a colon, one a member
        members++;
    }
  }
  return { depth: deepest, members };
}

function indexFrom(text: string, what: string, from: number): number {
  const at = text.indexOf(what, from);
  return at < 0 ? text.length : at;
}

/** How many members the objects of a value have, in all. */
function membersOf(value: unknown): number {
  if (typeof value !== "object" || value === null) return 0;
  let members = 0;
  if (Array.isArray(value)) for (const item of value) members += membersOf(item);
  else for (const name of Object.keys(value)) members += 1 + membersOf((value as Record<string, unknown>)[name]);
  return members;
}

/** The second of two members with one name; the usual parser would drop the first in silence. */
function repeated(node: Node): Node | undefined {
  if (node.type === "object") {
    const names = new Set<unknown>();
    for (const { children: [name] = [] } of node.children ?? []) {
      if (names.has(name?.value)) return name;
      names.add(name?.value);
    }
  }
  for (const child of node.children ?? []) {
    const found = repeated(child);
    if (found) return found;
  }
  return undefined;
}

/** The node at a path, or the nearest part above it that exists. */
function nodeAt(root: Node, path: Path): Node {
  for (let length = path.length; length > 0; length--) {
    const node = findNodeAtLocation(root, path.slice(0, length) as (string | number)[]);
    if (node) return node;
  }
  return root;
}

interface Parsed {
  readonly tree: Node | undefined;
  readonly error: { readonly offset: number; readonly what: string } | undefined;
}

function parsed(text: string, options: ParseOptions): Parsed {
  const errors: ParseError[] = [];
  const tree = parseTree(text, errors, options);
  const [first] = errors;
  const what =
    first && printParseErrorCode(first.error).replace(/(?<=.)[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  return { tree, error: first && { offset: first.offset, what: (what ?? "").toLowerCase() } };
}

const STRICT = { disallowComments: true, allowTrailingComma: false } as const;
/** A file for people may have comments, as the empty form has, and a comma after the last entry. */
const FOR_PEOPLE = { disallowComments: false, allowTrailingComma: true } as const;

const notJson = (what: string): string => `this is not JSON (${what || "unexpected character"})`;

function twice(line: number, text: string, at: Place, name: unknown): Row {
  return refuse(line, text, "twice", `the field ${describeReceived(name)} is written twice`, { at });
}

/** One line of NDJSON as a row. */
export function jsonRow(text: string, line: number): Row {
  const { depth, members } = outline(text);
  if (depth > DEEPEST) return refuse(line, text, "tooDeep", `the row is nested more than ${DEEPEST} deep`);
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    const { offset, what } = parsed(text, STRICT).error ?? { offset: 0, what: "" };
    return refuse(line, text, "brokenJson", notJson(what), { at: { line, column: offset + 1 } });
  }
  let tree: Node | undefined;
  const root = (): Node => {
    tree ??= parseTree(text)!;
    return tree;
  };
  if (members !== membersOf(value)) {
    const second = repeated(root())!;
    return twice(line, text, { line, column: second.offset + 1 }, second.value);
  }
  return { ok: true, line, text, value, placeOf: (path) => ({ line, column: nodeAt(root(), path).offset + 1 }) };
}

const nothing = (): Row => refuse(1, "", "empty", "the file is empty; it must hold a survey");

/** Rows of newline-delimited JSON. Empty lines are not rows. */
export async function* ndjsonRows(chunks: Chunks, { part }: Reading = {}): AsyncGenerator<Row> {
  let rows = 0;
  for await (const line of linesOf(chunks, part?.line)) {
    if (line.text?.trim() === "") continue;
    rows++;
    yield line.text === null ? refuseLine(line) : jsonRow(line.text, line.line);
  }
  if (rows === 0 && !part) yield nothing();
}

/** Lines of a text, by offset. */
class Places {
  readonly #starts: number[] = [0];
  constructor(text: string) {
    for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) this.#starts.push(at + 1);
  }
  at(offset: number): { readonly line: number; readonly column: number } {
    let low = 0;
    let high = this.#starts.length - 1;
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if (this.#starts[middle]! <= offset) low = middle;
      else high = middle - 1;
    }
    return { line: low + 1, column: offset - this.#starts[low]! + 1 };
  }
}

/** The text of a whole file, or its refusal. */
async function wholeText(chunks: Chunks): Promise<string | Row> {
  const pieces: Uint8Array[] = [];
  let length = 0;
  for await (const chunk of chunks) {
    length += chunk.length;
    if (length > LARGEST_JSON) {
      const message = "the file is larger than 64 MiB; write one survey a line (NDJSON) and it is read row by row";
      return refuse(1, "", "tooLong", message);
    }
    pieces.push(new Uint8Array(chunk));
  }
  const bytes = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    bytes.set(piece, at);
    at += piece.length;
  }
  try {
    if (bytes[0] === 0 || bytes[1] === 0) throw new TypeError();
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    for await (const line of linesOf([bytes]))
      if (line.text === null && line.fault !== "tooLong") return refuseLine(line);
    return refuse(1, "", "encoding", lineFaults.encoding);
  }
}

/**
 * Rows of one JSON file: the one survey it holds, or each of a list. The file is read whole. It may have comments and a
 * comma after the last entry.
 */
export async function* jsonRows(chunks: Chunks): AsyncGenerator<Row> {
  const text = await wholeText(chunks);
  if (typeof text !== "string") {
    yield text;
    return;
  }
  if (text.trim() === "") {
    yield nothing();
    return;
  }
  if (outline(text).depth > DEEPEST) {
    yield refuse(1, text, "tooDeep", `the file is nested more than ${DEEPEST} deep`);
    return;
  }
  const places = new Places(text);
  const { tree, error } = parsed(text, FOR_PEOPLE);
  if (tree === undefined || error) {
    const at = places.at(error?.offset ?? 0);
    yield refuse(at.line, text, "brokenJson", notJson(error?.what ?? ""), { at });
    return;
  }
  const surveys = tree.type === "array" ? (tree.children ?? []) : [tree];
  if (surveys.length === 0) yield refuse(1, text, "empty", "the list is empty; it must hold a survey");
  for (const node of surveys) yield rowOfNode(node, text, places);
}

function rowOfNode(node: Node, text: string, places: Places): Row {
  const { line } = places.at(node.offset);
  const body = text.slice(node.offset, node.offset + node.length);
  const second = repeated(node);
  if (second) return twice(line, body, places.at(second.offset), second.value);
  const placeOf = (path: Path): Place => places.at(nodeAt(node, path).offset);
  return { ok: true, line, text: body, value: plain(getNodeValue(node)), placeOf };
}

/** The parser's objects have no prototype; callers are given ordinary ones. */
function plain(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(plain);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, field]) => [key, plain(field)]));
}
