/** Files as bytes, and what to say where there are none. */
import { pipeline, Readable } from "node:stream";
import { createGunzip } from "node:zlib";
import { cleanText } from "../report/index.js";
import type { Io } from "./io.js";

/** A file could not be read. */
export class Unreadable extends Error {}

const reasons: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file",
  EISDIR: "this is a directory",
  EACCES: "it may not be read",
  EPERM: "it may not be read",
  ENOTDIR: "a part of its path is not a directory",
  ENAMETOOLONG: "its name is too long",
  ELOOP: "its links lead in a circle",
};

/** The name to print for a file. */
export const shownName = (path: string): string => (path === "-" ? "standard input" : cleanText(path));

/** The first bytes of a gzip file (RFC 1952, section 2.3.1). */
const isGzip = ([first, second]: Uint8Array): boolean => first === 0x1f && second === 0x8b;

/** What a gzip file holds, all its members one after another; any other file as it is. */
async function* unpacked(source: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  const chunks = source[Symbol.asyncIterator]();
  let start = new Uint8Array(0);
  let end = false;
  while (start.length < 2 && !end) {
    const { value, done = false } = await chunks.next();
    end = done;
    if (!done) start = start.length === 0 ? new Uint8Array(value) : new Uint8Array([...start, ...value]);
  }
  async function* whole(): AsyncGenerator<Uint8Array> {
    try {
      if (start.length > 0) yield start;
      for (let next = await chunks.next(); !next.done; next = await chunks.next()) yield next.value;
    } finally {
      await chunks.return?.();
    }
  }
  if (!isGzip(start)) yield* whole();
  else yield* pipeline(Readable.from(whole()), createGunzip(), () => {});
}

/** The error of a file that cannot be read, in words; any other error as it is. */
export function readingError(error: unknown): unknown {
  const { code = "", message } = error as NodeJS.ErrnoException;
  if (code === "ERR_INVALID_ARG_VALUE") return new Unreadable("its name is not a file's");
  if (/^Z_[A-Z_]+$/.test(code)) return new Unreadable(`it is a broken gzip file (${cleanText(message)})`);
  return /^E[A-Z]+$/.test(code) ? new Unreadable(reasons[code] ?? cleanText(message)) : error;
}

/** The bytes of a file, `-` being standard input; those of a gzip file are unpacked, whatever its name. */
export async function* bytesOf(io: Io, path: string): AsyncGenerator<Uint8Array> {
  try {
    yield* unpacked(path === "-" ? io.stdin : io.open(path));
  } catch (error) {
    throw readingError(error);
  }
}

const MOST_BYTES = 1_048_576;

/** The whole of a small file as text. */
export async function textOf(io: Io, path: string): Promise<string> {
  const decoder = new TextDecoder("utf-8", { fatal: true });
  let text = "";
  let length = 0;
  try {
    for await (const chunk of bytesOf(io, path)) {
      length += chunk.length;
      if (length > MOST_BYTES) throw new Unreadable("it is larger than 1 MiB");
      text += decoder.decode(chunk, { stream: true });
    }
    return text + decoder.decode();
  } catch (error) {
    if (error instanceof TypeError) throw new Unreadable("it is not UTF-8");
    throw error;
  }
}

/** The JSON value that a small file holds. */
export async function jsonOf(io: Io, path: string): Promise<unknown> {
  const text = await textOf(io, path);
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new Unreadable(`it is not JSON: ${cleanText((error as Error).message)}`);
  }
}
