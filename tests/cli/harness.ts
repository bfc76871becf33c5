/** The command in this process, with memory in place of files and terminal. */
import { readFileSync } from "node:fs";
import { BrokenPipe, type Io } from "../../src/cli/io.js";
import { run } from "../../src/cli/run.js";

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

export interface Surroundings {
  readonly files?: Readonly<Record<string, string | Uint8Array>>;
  readonly stdin?: string | Uint8Array;
  readonly env?: Readonly<Record<string, string>>;
  readonly isTerminal?: boolean;
  readonly columns?: number;
  /** Characters after which the reader of standard output goes away. */
  readonly closesAfter?: number;
}

const bytes = (body: string | Uint8Array): Uint8Array =>
  typeof body === "string" ? new TextEncoder().encode(body) : body;

async function* inPieces(body: Uint8Array): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < body.length; at += 65_536) yield body.subarray(at, at + 65_536);
}

const missing: AsyncIterable<Uint8Array> = {
  [Symbol.asyncIterator]: () => ({
    next: () => Promise.reject(Object.assign(new Error("no such file"), { code: "ENOENT" })),
  }),
};

export async function dryfit(args: readonly string[], surroundings: Surroundings = {}): Promise<Ran> {
  const { files = {}, stdin = "", env = {}, isTerminal = false, columns, closesAfter } = surroundings;
  const texts = { out: "", err: "" };
  const sink = (name: "out" | "err") => ({
    write: async (given: string | Uint8Array) => {
      const text = typeof given === "string" ? given : new TextDecoder().decode(given);
      if (name === "out" && closesAfter !== undefined && texts.out.length >= closesAfter) throw new BrokenPipe();
      texts[name] += text;
    },
    isTerminal,
    columns,
  });
  const io: Io = {
    stdin: inPieces(bytes(stdin)),
    stdout: sink("out"),
    stderr: sink("err"),
    env,
    open: (path) => {
      const body = files[path];
      if (body !== undefined) return inPieces(bytes(body));
      return path.startsWith("/") ? inPieces(readFileSync(path)) : missing;
    },
  };
  const code = await run(args, io);
  return { code, ...texts };
}
