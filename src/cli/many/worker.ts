/** One worker thread: it reads ranges of files by itself and hands back what is to be written. */
import { Transfer, worker } from "workerpool";
import { Unreadable } from "../files.js";
import { answerRange, type Ranged } from "./piece.js";
import type { Piece, Range } from "./plan.js";
import type { Batch, Settings } from "./settings.js";

async function answer(piece: Piece, range: Range, settings: Settings): Promise<unknown> {
  const batches: Batch[] = [];
  let unreadable: string | null = null;
  try {
    for await (const batch of answerRange(piece, range, settings)) batches.push(batch);
  } catch (error) {
    if (!(error instanceof Unreadable)) throw error;
    unreadable = error.message;
  }
  const ranged: Ranged = { batches, unreadable };
  return new Transfer(
    ranged,
    batches.flatMap(({ said }) => said.map(({ bytes }) => bytes.buffer)),
  );
}

worker({ answer });
