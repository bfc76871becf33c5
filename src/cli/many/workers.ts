/** Worker threads that answer ranges of files. */
import { fileURLToPath } from "node:url";
import { pool } from "workerpool";
import type { Ranged } from "./piece.js";
import type { Piece, Range } from "./plan.js";
import type { Settings } from "./settings.js";

/** Ranges that are under way or wait to be written, for each worker: enough that none is idle, few enough to hold. */
const AHEAD = 2;

/**
 * Megabytes of a thread for what was made last, and for the rest. With half for the first, collections of both kinds are
 * twice as many, and after each of the second kind code is compiled again; the rest holds some 25 MB, and the densest
 * row of 1 MiB that a test found is refused within 256.
 */
const HEAP = { maxYoungGenerationSizeMb: 48, maxOldGenerationSizeMb: 512 };

/** Answers ranges on several threads, some of them ahead of the one that is asked for. */
export class Workers {
  readonly #pool;
  readonly #ahead: number;
  readonly #pieces: readonly Piece[];
  readonly #settings: Settings;
  readonly #started = new Map<number, Promise<Ranged>>();
  #next: number;

  constructor(count: number, pieces: readonly Piece[], from: number, settings: Settings) {
    // beside this file once both are built
    const script = fileURLToPath(new URL("./worker.js", import.meta.url));
    this.#pool = pool(script, {
      workerType: "thread",
      minWorkers: count,
      maxWorkers: count,
      workerThreadOpts: { resourceLimits: HEAP },
    });
    this.#ahead = count * AHEAD;
    this.#pieces = pieces;
    this.#settings = settings;
    this.#next = from;
  }

  /** The answers to a range; those of the next ones are begun. Ask in order. */
  async answer(index: number): Promise<Ranged> {
    for (; this.#next < this.#pieces.length && this.#next < index + this.#ahead; this.#next++) {
      const piece = this.#pieces[this.#next]!;
      if (piece.range === null) continue;
      const given: [Piece, Range, Settings] = [piece, piece.range, this.#settings];
      const started = Promise.resolve(this.#pool.exec("answer", given) as PromiseLike<Ranged>);
      // heard when its turn comes; nobody may ever ask for it
      started.catch(() => {});
      this.#started.set(this.#next, started);
    }
    const ranged = this.#started.get(index)!;
    // also those that were passed over
    for (const known of this.#started.keys()) if (known <= index) this.#started.delete(known);
    return ranged;
  }

  /** Ends the threads, whatever they are at. */
  async end(): Promise<void> {
    await this.#pool.terminate(true);
  }
}
