/** One worker thread: it reads ranges of files by itself and hands back what is to be written. */
import { Transfer, worker } from "workerpool";
import { addTally, newTally } from "../../survey/index.js";
import { Unreadable } from "../files.js";
import { answerRange, type Ranged } from "./piece.js";
import type { Piece, Range } from "./plan.js";
import type { Batch, Channel, Settings } from "./settings.js";

/** Bytes that are handed over, and written, as one: each time costs something. A range with verdicts alone has less. */
const ROOM = 524_288;

type Said = Batch["said"][number];

/** What goes one after another to one channel or the other, in large pieces. */
class Gathering {
  readonly #room = new Uint8Array(ROOM);
  #length = 0;
  #to: Channel = "out";
  #said: Said[] = [];

  /** Begins anew; what is gathered goes to `said`. */
  begin(said: Said[]): void {
    this.#length = 0;
    this.#said = said;
  }

  /** Adds bytes. */
  add({ to, bytes }: Said): void {
    if (to !== this.#to || this.#length + bytes.length > ROOM) this.settle();
    this.#to = to;
    if (bytes.length > ROOM) {
      this.#said.push({ to, bytes });
      return;
    }
    this.#room.set(bytes, this.#length);
    this.#length += bytes.length;
  }

  /** Hands on what was gathered. */
  settle(): void {
    if (this.#length > 0) this.#said.push({ to: this.#to, bytes: this.#room.slice(0, this.#length) });
    this.#length = 0;
  }
}

// kept from range to range: memory that is given up grows old before it is collected
const refusals = new Gathering();
const rest = new Gathering();

async function answer(piece: Piece, range: Range, settings: Settings): Promise<unknown> {
  const said: Said[] = [];
  const tally = newTally();
  rest.begin(said);
  refusals.begin(said);
  let unreadable: string | null = null;
  try {
    for await (const batch of answerRange(piece, range, settings)) {
      addTally(tally, batch.tally);
      // refusals have a file of their own, so that they part nothing
      for (const one of batch.said) (one.to === "refusals" ? refusals : rest).add(one);
    }
  } catch (error) {
    if (!(error instanceof Unreadable)) throw error;
    unreadable = error.message;
  }
  rest.settle();
  refusals.settle();
  const ranged: Ranged = { batch: { said, tally }, unreadable };
  return new Transfer(
    ranged,
    said.map(({ bytes }) => bytes.buffer),
  );
}

worker({ answer });
