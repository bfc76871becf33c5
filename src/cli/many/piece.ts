/** Answering one piece of a file. */
import { closeSync, openSync, readSync } from "node:fs";
import { rowsOf } from "../../survey/index.js";
import { bytesOf, readingError, Unreadable } from "../files.js";
import type { Io } from "../io.js";
import { answered } from "./encode.js";
import type { Piece, Range } from "./plan.js";
import type { Batch, Settings } from "./settings.js";

/** Bytes that are read at once; a range is seldom more. */
const READ = 262_144;

/** What a call to the file system gives, its error in words. */
function inWords<T>(call: () => T): T {
  try {
    return call();
  } catch (error) {
    throw readingError(error);
  }
}

/** Memory to read into, while no range is read. */
let idle: Uint8Array | undefined;

/** The bytes of a range, the same memory filled again and again. Read without waiting: there is nothing else to do. */
function* bytesIn(path: string, { start, end }: Range): Generator<Uint8Array> {
  const file = inWords(() => openSync(path, "r"));
  const buffer = idle ?? new Uint8Array(READ);
  idle = undefined;
  try {
    for (let at = start; at < end; ) {
      const length = inWords(() => readSync(file, buffer, 0, Math.min(buffer.length, end - at), at));
      if (length === 0) throw new Unreadable("it became shorter while it was read");
      at += length;
      yield buffer.subarray(0, length);
    }
  } finally {
    idle = buffer;
    closeSync(file);
  }
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
  readonly batch: Batch;
  readonly unreadable: string | null;
}
