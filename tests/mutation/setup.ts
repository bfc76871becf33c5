/** Before any test file: the switchboard of the faults, and properties that stop at their first failing case. */
import fc from "fast-check";
import { FROM_START } from "./plan.js";

/** What mutated code and the runner share. */
export interface Faults {
  /** The fault that is on; 0 for none. */
  active: number;
  /** Faults reached while none was on, since it was last cleared. */
  readonly reached: Set<number>;
  /** Turns of loops since it was last cleared, and how many are too many. */
  turns: number;
  most: number;
  readonly $on: (id: number) => boolean;
  readonly $turn: () => void;
}

declare global {
  var $faults: Faults;
}

/** How many turns a fault that is on from the start may take over one test file. */
const MOST = 1e9;

const active = Number(process.env[FROM_START] ?? 0);
const faults: Faults = {
  active,
  reached: new Set(),
  turns: 0,
  most: active === 0 ? Infinity : MOST,
  $on(id) {
    if (faults.active === 0) faults.reached.add(id);
    return faults.active === id;
  },
  $turn() {
    // No RangeError: a test that expects one must not take this for it.
    if (++faults.turns > faults.most) throw new Error("a loop turns without end");
  },
};
globalThis.$faults = faults;

// One failing case is enough: looking for a smaller one takes time and tells nothing here.
fc.configureGlobal({ ...fc.readConfigureGlobal(), endOnFailure: true });
