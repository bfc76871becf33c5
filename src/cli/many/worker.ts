/** One worker thread: it reads ranges of files by itself and hands back what is to be written. */
import { Transfer, worker } from "workerpool";
import { addTally, newTally } from "../../survey/index.js";
import { Unreadable } from "../files.js";
import { answerRange, type Ranged } from "./piece.js";
import type { Piece, Range } from "./plan.js";
import type { Batch, Channel, Settings } from "./settings.js";

/** Bytes that are handed over and written at once; each time costs something, and so does holding them. */
const JOINED = 524_288;

interface Run {
  readonly to: Channel;
  readonly pieces: Uint8Array[];
  length: number;
}

function bytesOf({ pieces, length }: Run): Uint8Array {
  if (pieces.length === 1) return pieces[0]!;
  const whole = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

/** Batches as one, in fewer and larger pieces. Refusals have a file of their own, so that they part nothing. */
function joined(batches: readonly Batch[]): Batch {
  const tally = newTally();
  const runs: Run[] = [];
  const last: { refusals?: Run; rest?: Run } = {};
  for (const batch of batches) {
    addTally(tally, batch.tally);
    for (const { to, bytes } of batch.said) {
      const kind = to === "refusals" ? to : "rest";
      let run = last[kind];
      if (run?.to !== to || run.length + bytes.length > JOINED) {
        run = { to, pieces: [], length: 0 };
        last[kind] = run;
        runs.push(run);
      }
      run.pieces.push(bytes);
      run.length += bytes.length;
    }
  }
  return { tally, said: runs.map((run) => ({ to: run.to, bytes: bytesOf(run) })) };
}

async function answer(piece: Piece, range: Range, settings: Settings): Promise<unknown> {
  const batches: Batch[] = [];
  let unreadable: string | null = null;
  try {
    for await (const batch of answerRange(piece, range, settings)) batches.push(batch);
  } catch (error) {
    if (!(error instanceof Unreadable)) throw error;
    unreadable = error.message;
  }
  const ranged: Ranged = { batch: joined(batches), unreadable };
  return new Transfer(
    ranged,
    ranged.batch.said.map(({ bytes }) => bytes.buffer),
  );
}

worker({ answer });
