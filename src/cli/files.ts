/** Files as bytes, and what to say where there are none. */
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

/** The bytes of a file, `-` being standard input. */
export async function* bytesOf(io: Io, path: string): AsyncGenerator<Uint8Array> {
  try {
    yield* path === "-" ? io.stdin : io.open(path);
  } catch (error) {
    const { code = "", message } = error as NodeJS.ErrnoException;
    const isArgument = code === "ERR_INVALID_ARG_VALUE";
    if (!isArgument && !/^E[A-Z]+$/.test(code)) throw error;
    throw new Unreadable(isArgument ? "its name is not a file's" : (reasons[code] ?? cleanText(message)));
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
