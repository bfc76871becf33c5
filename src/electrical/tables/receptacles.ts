/** Receptacles on circuits, and the bound of the rule for unmarked appliances. */
import type { ConfigurationName } from "./configurations.js";

/** NEC Table 210.21(B)(3): ratings of receptacles [A] where a circuit has more than one of them. */
export const severalRows: Readonly<Record<number, readonly number[]>> = {
  15: [15],
  20: [15, 20],
  30: [30],
  40: [40, 50],
  50: [50],
};

/**
 * Ratings of receptacles that may share a circuit of a rating [A]; none where the table has no row.
 *
 * @example severalReceptacles(20) // [15, 20]
 */
export const severalReceptacles = (circuit_A: number): readonly number[] => severalRows[circuit_A] ?? [];

/** NEC 422.11(E): an unmarked appliance up to this current [A] has a fixed largest device, above it a share. */
export const unmarkedBound_A = 13.3;

/** ANSI/NEMA WD 6: grounding receptacles by what the machine works with, small to large. */
export const receptacleFamilies = {
  LN: ["5-15", "5-20", "5-30"],
  LL: ["6-15", "6-20", "6-30", "6-50"],
  LLN: ["14-30", "14-50", "14-60"],
} as const satisfies Record<string, readonly ConfigurationName[]>;
