/** What one mutation run tries, and where it keeps its notes; shared by the command, the configuration and the runner. */
import { appendFileSync, readFileSync } from "node:fs";
import type { Mutant } from "./mutate.js";

/** Written by the command, read by the configuration and the runner. */
export interface Plan {
  /** Patterns of the test files. */
  readonly tests: readonly string[];
  /** Test files that have run already, where a fault that hung ended a run before its time. */
  readonly done: readonly string[];
  /** Faults not to be tried here. */
  readonly apart: readonly number[];
  readonly mutants: readonly Mutant[];
  /** Mutated source by absolute path. */
  readonly code: Readonly<Record<string, string>>;
}

/** The environment variable that names the folder of a run. */
export const FOLDER = "MUTATION_RUN";

/** The environment variable that switches one fault on from the start, for those that act while files load. */
export const FROM_START = "MUTATION_FROM_START";

/**
 * A note: a fault killed by a test, out of time, reached in a test, reached while loading; faults of which one left
 * something behind that fails a test without any, so that each needs a run of its own; a file done; a failing test.
 */
export type Note =
  | readonly ["killed" | "timedOut", id: number, test: string]
  | readonly ["reached" | "loaded", id: number]
  | readonly ["apart", id: number]
  | readonly ["done", file: string]
  | readonly ["broken", test: string, why: string];

const notesOf = (folder: string) => `${folder}/notes.jsonl`;

export function note(folder: string, one: Note): void {
  appendFileSync(notesOf(folder), `${JSON.stringify(one)}\n`);
}

/** The notes of a run, from a byte of their file on. */
export function notes(folder: string, from = 0): readonly Note[] {
  return readFileSync(notesOf(folder))
    .subarray(from)
    .toString("utf8")
    .split("\n")
    .filter((line) => line !== "")
    .map((line) => JSON.parse(line) as Note);
}
