/** What a run that writes to a file has finished, so that a later one goes on from there. */
import { createHash } from "node:crypto";
import { type FileHandle, open, readFile, rename, rm, stat } from "node:fs/promises";
import { resolve } from "node:path";
import * as z from "zod";
import type { Tally } from "../../survey/index.js";
import { shownName } from "../files.js";
import { writingError } from "../io.js";
import { UsageError } from "../outcome.js";
import { version } from "../version.js";
import { CUT, type Source } from "./plan.js";
import type { Settings } from "./settings.js";

/** What a run has come to. */
export interface State {
  readonly tally: Tally;
  /** Files, by their place among those given, that could not be read to their end. */
  readonly unread: readonly number[];
}

/** A point at which everything before is on the disk. */
export interface Checkpoint {
  /** Pieces that are finished. */
  readonly pieces: number;
  /** Bytes of the output, and of the refusals. */
  readonly out: number;
  readonly refusals: number;
  readonly state: State;
}

const counts = z.record(z.string(), z.number());
const checkpoint = z.strictObject({
  pieces: z.int(),
  out: z.int(),
  refusals: z.int(),
  state: z.strictObject({
    tally: z.strictObject({
      rows: z.int(),
      refused: z.int(),
      byVerdict: z.strictObject({ fail: z.int(), review: z.int(), pass: z.int(), notApplicable: z.int() }),
      causes: z.record(z.string(), z.record(z.string(), counts)),
      refusals: counts,
    }),
    unread: z.array(z.int()),
  }),
});

/** What must be the same for a run to go on where another stopped. */
type Heading = Readonly<Record<"version" | "inputs" | "options" | "output" | "cut", unknown>>;

/** Everything that decides the bytes of the output. */
export async function headingOf(
  sources: readonly Source[],
  settings: Settings,
  out: string,
  refusals: string | undefined,
): Promise<Heading> {
  const inputs = await Promise.all(
    sources.map(async ({ path, format }) => {
      const found = await stat(path).catch(() => null);
      return { path, format, size: found?.size ?? null, changed: found?.mtimeMs ?? null };
    }),
  );
  const output = { out: resolve(out), refusals: refusals === undefined ? null : resolve(refusals) };
  return { version, inputs, options: settings, output, cut: CUT };
}

const differences: Readonly<Record<keyof Heading, string>> = {
  version: "by another version",
  inputs: "from other files, or they have changed since",
  options: "with other options",
  output: "to another output",
  cut: "by another version",
};

/** Each line carries its own check sum: one that was cut short, or lies in a damaged file, is not taken for a line. */
const sumOf = (text: string): string => createHash("sha256").update(text).digest("hex").slice(0, 16);
const lineOf = (value: unknown): string => {
  const text = JSON.stringify(value);
  return `${sumOf(text)} ${text}\n`;
};

/** The values of a journal's lines, up to the first that is not whole. */
function valuesOf(journal: string): unknown[] {
  const values: unknown[] = [];
  for (const line of journal.split("\n")) {
    const text = line.slice(17);
    if (line[16] !== " " || sumOf(text) !== line.slice(0, 16)) break;
    values.push(JSON.parse(text));
  }
  return values;
}

const sizeOf = (path: string): Promise<number> =>
  stat(path).then(
    ({ size }) => size,
    () => -1,
  );

/** The journal beside an output. */
export class Journal {
  readonly #path: string;
  readonly #file: FileHandle;
  private constructor(path: string, file: FileHandle) {
    this.#path = path;
    this.#file = file;
  }

  /**
   * The last point that an earlier run reached; `null` where there was none, or its files are no longer there.
   * Refuses to go on with other inputs or options.
   *
   * @param parts - the unfinished files of the output and of the refusals
   */
  static async last(path: string, heading: Heading, parts: readonly string[]): Promise<Checkpoint | null> {
    const values = valuesOf(await readFile(path, "utf8").catch(() => ""));
    const [begun, ...rest] = values;
    if (begun === undefined) return null;
    for (const key of Object.keys(differences) as (keyof Heading)[]) {
      if (JSON.stringify((begun as Partial<Heading>)[key]) === JSON.stringify(heading[key])) continue;
      const name = shownName(path);
      throw new UsageError(`${name} was begun ${differences[key]}; give the same, or delete it to begin anew`);
    }
    const point = checkpoint.safeParse(rest.at(-1));
    if (!point.success) return null;
    const [out, refusals = 0] = await Promise.all(parts.map(sizeOf));
    const { data } = point;
    return out! >= data.out && refusals >= data.refusals ? (data as Checkpoint) : null;
  }

  /** Opens the journal, to go on with it or anew. */
  static async open(path: string, heading: Heading, from: Checkpoint | null): Promise<Journal> {
    try {
      // written anew and then put in its place, so that nothing of a line that was cut short stays
      const anew = `${path}.new`;
      const file = await open(anew, "w");
      await file.write(`${lineOf(heading)}${from === null ? "" : lineOf(from)}`);
      await file.datasync();
      await rename(anew, path);
      return new Journal(path, file);
    } catch (error) {
      throw writingError(error, shownName(path));
    }
  }

  /** Notes a point. Everything before it must be on the disk by then. */
  async note(point: Checkpoint): Promise<void> {
    try {
      await this.#file.write(lineOf(point));
      await this.#file.datasync();
    } catch (error) {
      throw writingError(error, shownName(this.#path));
    }
  }

  /** Leaves the journal for a later run. */
  async close(): Promise<void> {
    await this.#file.close();
  }

  /** Everything is done. */
  async remove(): Promise<void> {
    await this.#file.close();
    await rm(this.#path, { force: true });
  }
}
