/** Radii that the fitting table knows. In a 4 in duct a 4 in radius is the common mitred or adjustable elbow. */
export const elbowRadii = ["4 in mitred", "6 in smooth", "8 in smooth", "10 in smooth"] as const;
export type ElbowRadius = (typeof elbowRadii)[number];

/**
 * Length to deduct for one dryer exhaust fitting [ft], by radius and angle [°].
 * IRC 2015 Table M1502.4.5.1, and the same rows in the other I-codes since 2009.
 * Printed: 2 ft 6 in, 5 ft, 1 ft, 1 ft 9 in, 1 ft, 1 ft 7 in, 9 in, 1 ft 6 in.
 */
export const elbowRows: readonly { readonly radius: ElbowRadius; readonly angle: 45 | 90; readonly feet: number }[] = [
  { radius: "4 in mitred", angle: 45, feet: 2 + 6 / 12 },
  { radius: "4 in mitred", angle: 90, feet: 5 },
  { radius: "6 in smooth", angle: 45, feet: 1 },
  { radius: "6 in smooth", angle: 90, feet: 1 + 9 / 12 },
  { radius: "8 in smooth", angle: 45, feet: 1 },
  { radius: "8 in smooth", angle: 90, feet: 1 + 7 / 12 },
  { radius: "10 in smooth", angle: 45, feet: 9 / 12 },
  { radius: "10 in smooth", angle: 90, feet: 1 + 6 / 12 },
];
