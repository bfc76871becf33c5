/** Answering one piece of a file. */
import { createReadStream } from "node:fs";
import { rowsOf } from "../../survey/index.js";
import { bytesOf, readingError, Unreadable } from "../files.js";
import type { Io } from "../io.js";
import { answered } from "./encode.js";
import type { Piece, Range } from "./plan.js";
import type { Batch, Settings } from "./settings.js";

async function* bytesIn(path: string, { start, end }: Range): AsyncGenerator<Uint8Array> {
  let left = end - start;
  try {
    for await (const chunk of createReadStream(path, { start, end: end - 1, highWaterMark: 262_144 })) {
      left -= (chunk as Uint8Array).length;
      yield chunk as Uint8Array;
    }
  } catch (error) {
    throw readingError(error);
  }
  if (left > 0) throw new Unreadable("it became shorter while it was read");
}

/** The answers to the rows of a range. */
export function answerRange({ path, format }: Piece, range: Range, settings: Settings): AsyncGenerator<Batch> {
  const { line, header } = range;
  const part = header === undefined ? { line } : { line, header };
  const reading = settings.mapping === null ? { part } : { part, mapping: settings.mapping };
  return answered(rowsOf(bytesIn(path, range), format, reading), path, settings);
}

/** The answers to the rows of a whole file, as it comes. */
export function answerWhole({ path, format }: Piece, io: Io, settings: Settings): AsyncGenerator<Batch> {
  const reading = settings.mapping === null ? {} : { mapping: settings.mapping };
  return answered(rowsOf(bytesOf(io, path), format, reading), path, settings);
}

/** The answers to a range from a worker, and why it could not be read to its end. */
export interface Ranged {
  readonly batches: readonly Batch[];
  readonly unreadable: string | null;
}
