/** Shims as they are sold, and the units in which they are counted. */
import type { UnitsOf } from "../../core/quantity/index.js";

/** Usual thicknesses [in] and the most pieces in a stack; common practice, no source. */
export const usualShimSizes = { inches: [1 / 32, 1 / 16, 1 / 8, 1 / 4], mostPieces: 3 } as const;

/** Small units tried in turn for one that measures every thickness in whole numbers. */
export const shimUnits: readonly { readonly value: number; readonly in: UnitsOf<"length"> }[] = [
  { value: 1 / 32, in: "in" },
  { value: 0.1, in: "mm" },
  { value: 1 / 64, in: "in" },
  { value: 0.05, in: "mm" },
  { value: 0.001, in: "in" },
];
