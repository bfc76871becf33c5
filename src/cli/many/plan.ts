/** Which bytes of which file are read together: a file cut at line ends, or the whole of it. */
import { createReadStream } from "node:fs";
import { open } from "node:fs/promises";
import type { Format, Mapping } from "../../survey/index.js";
import { columnsOf } from "../../survey/rows/csv.js";
import { linesOf } from "../../survey/rows/lines.js";

/** A file of surveys. */
export interface Source {
  readonly path: string;
  readonly format: Format;
}

/** Bytes of a file that are read together. */
export interface Piece extends Source {
  /** Place of the file among those given. */
  readonly file: number;
  /** Which bytes; `null` for the whole file as it comes. */
  readonly range: Range | null;
}

/** Bytes that begin and end at line ends. */
export interface Range {
  readonly start: number;
  /** The first byte that is no longer part of it. */
  readonly end: number;
  /** Number of its first line. */
  readonly line: number;
  /** The header of a CSV file, for all but its first range. */
  readonly header?: string;
}

/**
 * Where a file is cut: at the line end after so many bytes, some tens of surveys measured in full, enough that handing them
 * over costs little beside answering them; or after so many lines, since the answers of a few ranges are held at once,
 * and those of a survey with little in it are several hundred times its size. A journal holds it: it decides the ranges.
 */
export const CUT = { bytes: 131_072, lines: 64 };
const READ = 1_048_576;
const NEWLINE = 10;
const QUOTE = 34;

/** The header of a file that can be cut, or why it cannot. It must stand before the second range. */
async function headOf(
  { path, format }: Source,
  second: number,
  mapping: Mapping,
): Promise<{ header?: string } | string> {
  let header: string | undefined;
  for await (const { line, text, fault } of linesOf(createReadStream(path))) {
    if (fault === "utf16") return "it is UTF-16";
    if (text !== null && text.trim() === "") continue;
    if (format !== "csv" || header !== undefined) return header === undefined ? {} : { header };
    if (line >= second) return "its header comes late";
    if (text === null || columnsOf(text, mapping) === null) return "its header cannot be used";
    header = text;
  }
  return "it has no rows";
}

/** Cuts a file into ranges, or says why it cannot be cut. */
async function rangesOf(source: Source, mapping: Mapping): Promise<readonly Range[] | string> {
  if (source.path === "-") return "it is standard input";
  if (source.format === "json") return "it is JSON; NDJSON can be shared out";
  const file = await open(source.path);
  try {
    if (!(await file.stat()).isFile()) return "it is no ordinary file";
    const buffer = new Uint8Array(READ);
    const ranges: Range[] = [];
    let [at, start, line, firstLine] = [0, 0, 1, 1];
    for (;;) {
      const { bytesRead } = await file.read(buffer, 0, READ, at);
      if (bytesRead === 0) break;
      if (at === 0 && buffer[0] === 0x1f && buffer[1] === 0x8b) return "it is packed";
      const bytes = buffer.subarray(0, bytesRead);
      if (source.format === "csv" && bytes.includes(QUOTE)) return "it has quotes";
      for (let next = bytes.indexOf(NEWLINE); next >= 0; next = bytes.indexOf(NEWLINE, next + 1)) {
        line++;
        const end = at + next + 1;
        if (end - start < CUT.bytes && line - firstLine < CUT.lines) continue;
        ranges.push({ start, end, line: firstLine });
        [start, firstLine] = [end, line];
      }
      at += bytesRead;
    }
    if (at > start) ranges.push({ start, end: at, line: firstLine });
    const head = await headOf(source, ranges[1]?.line ?? Number.POSITIVE_INFINITY, mapping);
    if (typeof head === "string") return head;
    const { header } = head;
    if (header === undefined) return ranges;
    return ranges.map((range, i) => {
      const { start, end, line } = range;
      return i === 0 ? range : { start, end, line, header };
    });
  } finally {
    await file.close();
  }
}

/** Everything to read, in order, and what cannot be shared out, with the reason. */
export interface Plan {
  readonly pieces: readonly Piece[];
  readonly uncut: readonly { readonly path: string; readonly why: string }[];
}

/** Files as they are, each read from its beginning to its end. */
export const planWhole = (sources: readonly Source[]): Plan => ({
  pieces: sources.map((source, file) => ({ ...source, file, range: null })),
  uncut: [],
});

/** Cuts the files that can be cut. One that cannot be read is left whole, for its reader to say so. */
export async function planRanges(sources: readonly Source[], mapping: Mapping): Promise<Plan> {
  const pieces: Piece[] = [];
  const uncut: { path: string; why: string }[] = [];
  for (const [file, source] of sources.entries()) {
    const { path, format } = source;
    const ranges = await rangesOf(source, mapping).catch(() => null);
    if (ranges === null || typeof ranges === "string") {
      pieces.push({ path, format, file, range: null });
      if (ranges !== null) uncut.push({ path, why: ranges });
    } else for (const range of ranges) pieces.push({ path, format, file, range }); // there may be too many to spread
  }
  return { pieces, uncut };
}
