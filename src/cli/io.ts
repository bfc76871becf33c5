/** What the command reads from and writes to, so that a test can stand in for the terminal. */
import { createReadStream } from "node:fs";
import type { Writable } from "node:stream";

/** A place to write to. */
export interface Sink {
  /**
   * Resolves once the text, or the bytes of it, were taken, so that a slow reader slows the writer. Rejects with
   * {@link BrokenPipe} where nobody reads any more, and with {@link Unwritable} where it cannot be written.
   */
  readonly write: (text: string | Uint8Array) => Promise<void>;
  readonly isTerminal: boolean;
  readonly columns: number | undefined;
}

/** The surroundings of one run. */
export interface Io {
  readonly stdin: AsyncIterable<Uint8Array>;
  readonly stdout: Sink;
  readonly stderr: Sink;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** The bytes of a file; fails at the first read where it cannot be had. */
  readonly open: (path: string) => AsyncIterable<Uint8Array>;
}

/** The reader at the other end has gone. */
export class BrokenPipe extends Error {}

const isGone = (error: unknown): boolean =>
  ["EPIPE", "ECONNRESET", "ERR_STREAM_DESTROYED"].includes((error as NodeJS.ErrnoException | null)?.code ?? "");

/** An output cannot be written. */
export class Unwritable extends Error {}

const reasons: Readonly<Record<string, string>> = {
  ENOSPC: "the disk is full",
  EDQUOT: "the share of the disk is used up",
  EFBIG: "it would be larger than is allowed",
  EACCES: "it may not be written",
  EPERM: "it may not be written",
  EROFS: "the disk may only be read",
  ENOENT: "there is no such folder",
  ENOTDIR: "a part of its path is not a directory",
  EISDIR: "this is a directory",
  ENAMETOOLONG: "its name is too long",
};

/** The error of an output that cannot be written, in words; any other error as it is. */
export function writingError(error: unknown, name: string): unknown {
  const { code = "", message } = error as NodeJS.ErrnoException;
  return /^E[A-Z]+$/.test(code) ? new Unwritable(`${name} cannot be written: ${reasons[code] ?? message}`) : error;
}

/** A Node stream as a sink. */
export function sinkOf(stream: Writable & { isTTY?: boolean; columns?: number }, name: string): Sink {
  // without a listener the stream would end the process; the error also reaches the callback of the write
  stream.on("error", () => {});
  return {
    write: (text) =>
      new Promise((resolve, reject) => {
        stream.write(text, (error) => {
          if (!error) resolve();
          else reject(isGone(error) ? new BrokenPipe() : writingError(error, name));
        });
      }),
    isTerminal: stream.isTTY === true,
    columns: stream.columns,
  };
}

/** The surroundings of the running process. */
export function processIo(): Io {
  return {
    stdin: process.stdin,
    stdout: sinkOf(process.stdout, "standard output"),
    stderr: sinkOf(process.stderr, "standard error"),
    env: process.env,
    open: (path) => createReadStream(path),
  };
}

const HELD = 16_384;

/** Gathers small writes into larger ones, and keeps what is said on both outputs in order. */
export class Console {
  readonly io: Io;
  #held = "";
  constructor(io: Io) {
    this.io = io;
  }

  /** Writes to standard output. */
  async out(text: string | Uint8Array): Promise<void> {
    if (typeof text !== "string") {
      await this.flush();
      await this.io.stdout.write(text);
      return;
    }
    this.#held += text;
    if (this.#held.length >= HELD || this.io.stdout.isTerminal) await this.flush();
  }

  /** Writes to standard error, after all that went to standard output. A closed standard error loses nothing but it. */
  async err(text: string | Uint8Array): Promise<void> {
    await this.flush();
    await this.io.stderr.write(text).catch((error: unknown) => {
      if (!(error instanceof BrokenPipe)) throw error;
    });
  }

  /** Writes what is held back. */
  async flush(): Promise<void> {
    if (this.#held === "") return;
    const text = this.#held;
    this.#held = "";
    await this.io.stdout.write(text);
  }
}
