/** How rough the inside of a dryer's duct is, and what else its walls do to the air. */
import type { Basis } from "../../core/basis/index.js";

/** Walls that a run can have. */
export const wallKinds = [
  "new galvanized",
  "new aluminium",
  "linted metal",
  "semi-rigid metal",
  "foil flexible",
] as const;
export type WallKind = (typeof wallKinds)[number];

/**
 * Mean height of the roughness [mm]. Named by what it is, never "smooth" or "average": those words changed their meaning
 * in the handbook's table of 2021. Galvanized with joints every 4 ft 0.05 to 0.10 mm and aluminium 0.037 to 0.061 mm in
 * that table (seen in a secondary source); linted 0.15 to 0.9 mm, semi-rigid 0.9 to 2 mm and foil 3 mm, stretched, are
 * common practice, no source. The upper end is taken.
 */
export const wallRoughness: Record<WallKind, number> = {
  "new galvanized": 0.09,
  "new aluminium": 0.06,
  "linted metal": 0.9,
  "semi-rigid metal": 2,
  "foil flexible": 3,
};

/** Where the roughness comes from. */
export const roughnessBasis: Basis = {
  document: "ASHRAE Handbook Fundamentals",
  publisher: "ASHRAE",
  edition: "2021",
  section: "chapter 21, duct roughness",
  force: "advice",
  confirmed: "secondary",
  note: "New metal from ranges that restate the handbook's table; linted and flexible walls by common practice, no source.",
};

/**
 * Factors of the loss of flexible duct that is not fully stretched: 1 + a·C·exp(−b·D), C in per cent of the stretched
 * length, D in mm; from measurements on 150 to 250 mm ducts (Abushakra and others, 2002), as the handbook gives them
 * (from memory). At 100 mm it is an extrapolation.
 */
export const compression = { a: 0.58, b: 0.00496 } as const;

/** Where the compression factor comes from. */
export const compressionBasis: Basis = {
  document: "Compression effects on pressure loss in flexible ducts",
  publisher: "Lawrence Berkeley National Laboratory",
  edition: "2002",
  section: "fitted formula",
  force: "advice",
  confirmed: "memory",
  note: "Measured on ducts of 150 to 250 mm; at 100 mm an extrapolation.",
};

/** Joints of an ordinary adjustable elbow: four pieces, so three mitres of a third of the angle (common practice, no source). */
export const adjustableJoints = 3;

/** Loss of a louvred dryer hood with its flap open, the exit included [-]; 1.5 to 3 is the working range (common practice, no source). */
export const hoodLossDefault = 2;
