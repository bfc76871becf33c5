/** Water-hammer arresters by size. */
import type { Basis } from "../../core/basis/index.js";

/** The sizing standard of arresters. */
export const arresterStandard: Basis = {
  document: "PDI-WH 201",
  publisher: "Plumbing and Drainage Institute",
  edition: "",
  section: "sizing and placement",
  force: "advice",
  confirmed: "memory",
  note: "Ranges A to F agree with a public note on the standard; AA is from memory.",
};

/** Sizes in rising order. */
export const arresterSizes = ["AA", "A", "B", "C", "D", "E", "F"] as const;
export type ArresterSize = (typeof arresterSizes)[number];

/** Most supply fixture units of a branch that each size serves. */
export const arresterUnits: Readonly<Record<ArresterSize, number>> = {
  AA: 3,
  A: 11,
  B: 32,
  C: 60,
  D: 113,
  E: 154,
  F: 330,
};

/** Flowing pressure above which the next larger size is taken [psi], and branch length from which two are [ft]. */
export const arresterRules = { nextAbove_psi: 65, twoAbove_ft: 20 } as const;
