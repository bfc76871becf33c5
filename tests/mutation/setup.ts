/** Before any test file: the switchboard of the faults, and properties that stop at their first failing case. */
import { performance } from "node:perf_hooks";
import fc from "fast-check";
import { FROM_START } from "./plan.js";

/** What mutated code and the runner share. */
export interface Faults {
  /** The fault that is on; 0 for none. */
  active: number;
  /** Faults reached while none was on, since it was last cleared. */
  readonly reached: Set<number>;
  /** When a loop gives up, by `performance.now()`. */
  deadline: number;
  readonly $on: (id: number) => boolean;
  readonly $turn: () => void;
}

declare global {
  var $faults: Faults;
}

/** How long a fault that is on from the start may take over one file's loops [ms]. */
const LONGEST = 30_000;

let turns = 0;
const active = Number(process.env[FROM_START] ?? 0);
const faults: Faults = {
  active,
  reached: new Set(),
  deadline: active === 0 ? Infinity : performance.now() + LONGEST,
  $on(id) {
    if (faults.active === 0) faults.reached.add(id);
    return faults.active === id;
  },
  $turn() {
    turns++;
    if ((turns & 1023) === 0 && performance.now() > faults.deadline) throw new RangeError("out of time");
  },
};
globalThis.$faults = faults;

// One failing case is enough: looking for a smaller one takes time and tells nothing here.
fc.configureGlobal({ ...fc.readConfigureGlobal(), endOnFailure: true });
