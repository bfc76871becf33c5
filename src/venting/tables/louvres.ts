/** Free area of a louvre or grille. */
import type { Basis } from "../../core/basis/index.js";

/**
 * Share of a louvre's face that lets air through, to be taken only where its real free area is not known [-].
 * IFGC 304.10 and IRC G2407.10 (NFPA 54 9.3.7): wood 25 %, metal 75 %; seen in a gas utility's guide and a trade summary.
 */
export const louvreShares = { wood: 0.25, metal: 0.75 } as const;

/** Where the shares come from. */
export const louvreBasis: Basis = {
  document: "IFGC",
  publisher: "International Code Council",
  edition: "",
  section: "304.10",
  force: "mandatory",
  confirmed: "secondary",
  note: "Where the free area of a louvre is not known, wood counts 25 % and metal 75 % of its face.",
};
