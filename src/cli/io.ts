/** What the command reads from and writes to, so that a test can stand in for the terminal. */
import { createReadStream } from "node:fs";
import type { Writable } from "node:stream";

/** A place to write to. */
export interface Sink {
  /** Resolves once the text was taken, so that a slow reader slows the writer. Rejects with {@link BrokenPipe}. */
  readonly write: (text: string) => Promise<void>;
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

/** A Node stream as a sink. */
export function sinkOf(stream: Writable & { isTTY?: boolean; columns?: number }): Sink {
  // without a listener the stream would end the process; the error also reaches the callback of the write
  stream.on("error", () => {});
  return {
    write: (text) =>
      new Promise((resolve, reject) => {
        stream.write(text, (error) => {
          if (!error) resolve();
          else reject(isGone(error) ? new BrokenPipe() : error);
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
    stdout: sinkOf(process.stdout),
    stderr: sinkOf(process.stderr),
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
  async out(text: string): Promise<void> {
    this.#held += text;
    if (this.#held.length >= HELD || this.io.stdout.isTerminal) await this.flush();
  }

  /** Writes to standard error, after all that went to standard output. A closed standard error loses nothing but it. */
  async err(text: string): Promise<void> {
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
