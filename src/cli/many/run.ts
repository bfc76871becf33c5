/** Many surveys to answers: pieces in, bytes out in order, with what they come to. */
import { realpath, stat } from "node:fs/promises";
import { resolve } from "node:path";
import { cleanText } from "../../report/index.js";
import { addTally, newTally, type Tally } from "../../survey/index.js";
import { shownName, Unreadable } from "../files.js";
import type { Console, Io } from "../io.js";
import { UsageError } from "../outcome.js";
import { prologue } from "./encode.js";
import { type Checkpoint, headingOf, Journal } from "./journal.js";
import { OutputFile, partName } from "./output.js";
import { answerRange, answerWhole } from "./piece.js";
import { type Piece, type Plan, planRanges, planWhole, type Source } from "./plan.js";
import { Progress } from "./progress.js";
import type { Batch, Channel, Settings } from "./settings.js";
import { Workers } from "./workers.js";

/** One run over files of surveys. */
export interface Job {
  readonly sources: readonly Source[];
  readonly settings: Settings;
  readonly workers: number;
  /** File for the answers; standard output where left out. */
  readonly out?: string;
  /** File for the refused rows. */
  readonly refusals?: string;
  /** Goes on where an earlier run to the same output stopped. */
  readonly isResumed: boolean;
  /** Called when the counts have grown, before the answers are written. */
  readonly onCounted: (tally: Tally, unread: number) => void;
  /** What follows the last answer. */
  readonly epilogue: (tally: Tally, unread: number) => string;
}

/** Milliseconds between two points of the journal: what a killed run loses at most, beside the piece under way. */
const POINT_EVERY_MS = 250;

interface Outputs {
  readonly out: OutputFile | null;
  readonly refusals: OutputFile | null;
}

/** Answers every survey of the files; gives the counts, and how many files could not be read. */
export async function runMany(job: Job, console: Console): Promise<{ readonly tally: Tally; readonly unread: number }> {
  await checkOutputs(job);
  const { sources, settings, workers } = job;
  const plan: Plan =
    workers > 1 || job.isResumed ? await planRanges(sources, settings.mapping ?? {}) : planWhole(sources);
  if (workers > 1) {
    for (const { path, why } of plan.uncut)
      await console.err(`dryfit: ${shownName(path)}: one worker reads it: ${why}\n`);
  }
  const heading = job.isResumed ? await headingOf(sources, settings, job.out!, job.refusals) : null;
  const journalName = `${job.out}.journal`;
  const from = heading && (await Journal.last(journalName, heading, await partsOf(job)));
  const outputs = await openOutputs(job, from);
  const leave = onSignal(outputs, job.isResumed);
  let journal: Journal | null = null;
  try {
    journal = heading && (await Journal.open(journalName, heading, from));
    const run = new Run(job, console, outputs, journal, from);
    await run.all(plan);
    await finishOutputs(outputs);
    await journal?.remove();
    return { tally: run.tally, unread: run.unread.size };
  } catch (error) {
    await journal?.close();
    await outputs.out?.abandon(job.isResumed);
    await outputs.refusals?.abandon(job.isResumed);
    throw error;
  } finally {
    leave();
  }
}

const filesOf = ({ out, refusals }: Job): string[] => [out, refusals].filter((path) => path !== undefined);
const partsOf = (job: Job): Promise<string[]> => Promise.all(filesOf(job).map(partName));

/** Refuses outputs that would overwrite an input or each other. */
async function checkOutputs(job: Job): Promise<void> {
  const { sources, out, isResumed } = job;
  if (isResumed && out === undefined) throw new UsageError("--resume goes on with a file: it wants --out");
  if (isResumed && sources.some(({ path }) => path === "-"))
    throw new UsageError("--resume wants files that can be read again, not standard input");
  const real = (path: string): Promise<string> => realpath(path).catch(() => resolve(path));
  const inputs = await Promise.all(sources.map(({ path }) => real(path)));
  const outs = await Promise.all(filesOf(job).map(real));
  for (const path of outs) {
    if (inputs.includes(path)) throw new UsageError(`${shownName(path)} is read; write to another file`);
  }
  if (outs.length === 2 && outs[0] === outs[1] && (await stat(outs[0]!).catch(() => null))?.isFile() !== false)
    throw new UsageError("--out and --refusals are one file; give each its own");
}

async function openOutputs({ out, refusals, isResumed }: Job, from: Checkpoint | null): Promise<Outputs> {
  const open = async (path: string | undefined, keep: number | undefined): Promise<OutputFile | null> =>
    path === undefined ? null : OutputFile.open(path, { keep: keep ?? null, isResumable: isResumed });
  const first = await open(out, from?.out);
  try {
    return { out: first, refusals: await open(refusals, from?.refusals) };
  } catch (error) {
    await first?.abandon(isResumed);
    throw error;
  }
}

/** The refusals first: while the answers have not got their name, a later run begins or goes on. */
async function finishOutputs({ out, refusals }: Outputs): Promise<void> {
  await refusals?.finish();
  await out?.finish();
}

/** Takes unfinished files away where a signal ends the run; gives what undoes this. */
function onSignal({ out, refusals }: Outputs, isKept: boolean): () => void {
  const signals = ["SIGINT", "SIGTERM", "SIGHUP"] as const;
  if (isKept || (!out && !refusals)) return () => {};
  const undo = (): void => {
    for (const signal of signals) process.off(signal, end);
  };
  const end = (signal: NodeJS.Signals): void => {
    undo();
    // nothing is waited for: a write that met a closed file would end the run first, with a code of its own
    out?.discard();
    refusals?.discard();
    process.kill(process.pid, signal);
  };
  for (const signal of signals) process.on(signal, end);
  return undo;
}

/** Bytes to read in all; `null` where a file is not one whose size is known. */
async function totalOf(sources: readonly Source[]): Promise<number | null> {
  const sizes = await Promise.all(sources.map(({ path }) => (path === "-" ? null : stat(path).catch(() => null))));
  let total = 0;
  for (const found of sizes) {
    if (!found?.isFile()) return null;
    total += found.size;
  }
  return total;
}

class Run {
  readonly tally: Tally;
  /** Files that could not be read to their end, by their place. */
  readonly unread: Set<number>;
  readonly #job: Job;
  readonly #console: Console;
  readonly #outputs: Outputs;
  readonly #journal: Journal | null;
  readonly #from: Checkpoint | null;
  #progress = new Progress(null, null, { rows: 0, bytes: 0 });
  #bytes = 0;
  #isFirst: boolean;
  #noted = performance.now();

  constructor(job: Job, console: Console, outputs: Outputs, journal: Journal | null, from: Checkpoint | null) {
    this.#job = job;
    this.#console = console;
    this.#outputs = outputs;
    this.#journal = journal;
    this.#from = from;
    this.tally = newTally();
    if (from) addTally(this.tally, from.state.tally);
    this.unread = new Set(from?.state.unread);
    this.#isFirst = this.tally.rows === 0;
  }

  async all({ pieces }: Plan): Promise<void> {
    const { sources, settings, workers, out } = this.#job;
    const first = this.#from?.pieces ?? 0;
    for (const { range } of pieces.slice(0, first)) this.#bytes += range ? range.end - range.start : 0;
    const { stdout, stderr } = this.#console.io;
    const isWatched = stderr.isTerminal && (out !== undefined || !stdout.isTerminal);
    const before = { rows: this.tally.rows, bytes: this.#bytes };
    this.#progress = new Progress(isWatched ? stderr : null, isWatched ? await totalOf(sources) : null, before);
    if (first === 0) await this.#say("out", new TextEncoder().encode(prologue(settings.form)));

    const cut = pieces.slice(first).filter(({ range }) => range !== null).length;
    const pool = workers > 1 && cut > 1 ? new Workers(Math.min(workers, cut), pieces, first, settings) : null;
    try {
      for (let i = first; i < pieces.length; i++) {
        const piece = pieces[i]!;
        if (!this.unread.has(piece.file)) await this.#piece(piece, i, pool);
        await this.#outputs.out?.endMember();
        await this.#outputs.refusals?.endMember();
        await this.#point(i + 1);
      }
    } finally {
      await pool?.end();
    }
    await this.#progress.clear();
    const text = this.#job.epilogue(this.tally, this.unread.size);
    if (text !== "") await this.#say("out", new TextEncoder().encode(text));
  }

  async #piece(piece: Piece, index: number, pool: Workers | null): Promise<void> {
    const { settings } = this.#job;
    const { range } = piece;
    try {
      if (range === null) {
        for await (const batch of answerWhole(piece, this.#countingIo(), settings)) await this.#take(batch);
        return;
      }
      if (pool) {
        const { batch, unreadable } = await pool.answer(index);
        await this.#take(batch);
        if (unreadable !== null) throw new Unreadable(unreadable);
      } else for await (const batch of answerRange(piece, range, settings)) await this.#take(batch);
      this.#bytes += range.end - range.start;
    } catch (error) {
      if (!(error instanceof Unreadable)) throw error;
      this.unread.add(piece.file);
      this.#job.onCounted(this.tally, this.unread.size);
      await this.#progress.clear();
      await this.#console.err(`dryfit: ${shownName(piece.path)}: ${cleanText(error.message)}\n`);
    }
  }

  /** The surroundings, with the bytes of files counted as they are read. */
  #countingIo(): Io {
    const { io } = this.#console;
    const add = (bytes: number): void => {
      this.#bytes += bytes;
    };
    async function* counted(chunks: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
      for await (const chunk of chunks) {
        add(chunk.length);
        yield chunk;
      }
    }
    return { ...io, open: (path) => counted(io.open(path)) };
  }

  async #take({ said, tally }: Batch): Promise<void> {
    addTally(this.tally, tally);
    this.#job.onCounted(this.tally, this.unread.size);
    for (const { to, bytes } of said) {
      const isFirst = to === "out" && this.#isFirst;
      if (to === "out") this.#isFirst = false;
      // the first row of JSON has none before it to be parted from
      await this.#say(to, isFirst && this.#job.settings.form === "json" ? bytes.subarray(2) : bytes);
    }
    await this.#progress.show({ rows: this.tally.rows, bytes: this.#bytes });
  }

  async #say(to: Channel, bytes: Uint8Array): Promise<void> {
    if (bytes.length === 0) return;
    const { out, refusals } = this.#outputs;
    if (to === "refusals") await refusals!.write(bytes);
    else if (to === "out" && out) await out.write(bytes);
    else if (to === "out") await this.#console.out(bytes);
    else {
      await this.#progress.clear();
      await this.#console.err(bytes);
    }
  }

  /** Notes what is finished, now and then. */
  async #point(pieces: number): Promise<void> {
    const now = performance.now();
    if (!this.#journal || now - this.#noted < POINT_EVERY_MS) return;
    this.#noted = now;
    const { out, refusals } = this.#outputs;
    await Promise.all([out?.sync(), refusals?.sync()]);
    await this.#journal.note({
      pieces,
      out: out?.size ?? 0,
      refusals: refusals?.size ?? 0,
      state: { tally: this.tally, unread: [...this.unread] },
    });
  }
}
