/** Make-up air of a whole house by the tables of Minnesota Rules 1346.0501 (IMC 501.4 as amended). */
import type { Basis } from "../../core/basis/index.js";

/** Where the tables come from. */
export const makeupTables: Basis = {
  document: "Minnesota Rules, chapter 1346",
  publisher: "Minnesota Department of Labor and Industry",
  edition: "",
  section: "1346.0501, Tables 501.4.1 and 501.4.2",
  force: "local",
  confirmed: "seen",
  note: "The second table was read from a scan; its digits were reconciled so that the ranges join.",
};

/** Which draught the appliances in the house have; the worst one counts. */
export const draughtClasses = ["sealed", "fan-assisted", "one natural", "several natural"] as const;
export type DraughtClass = (typeof draughtClasses)[number];

/**
 * Infiltration credited to a house by its floor area, cfm per square foot, Table 501.4.1: power-vented, direct-vented or
 * no appliances; fan-assisted; one with natural draught or solid fuel; several.
 */
export const infiltrationFactors: Record<DraughtClass, number> = {
  sealed: 0.15,
  "fan-assisted": 0.09,
  "one natural": 0.06,
  "several natural": 0.03,
};

/** Exhaust of a clothes dryer where it is not known [cfm], Table 501.4.1. */
export const dryerDefault = 135;

/** Share of the largest and of the next largest exhaust that counts [-], Table 501.4.1. */
export const largestShare = 0.8;

/** Round openings [in] with the greatest make-up air for each draught class [cfm], Table 501.4.2. */
export const openingRows: readonly (readonly [inches: number, ...cfm: readonly number[]])[] = [
  [3, 36, 22, 15, 9],
  [4, 66, 41, 28, 17],
  [5, 109, 66, 46, 28],
  [6, 163, 100, 69, 42],
  [7, 232, 143, 99, 61],
  [8, 317, 195, 135, 83],
  [9, 419, 258, 179, 110],
  [10, 539, 332, 230, 142],
  [11, 679, 419, 290, 179],
];

/** Openings wider than this are motorized and interlocked [in]. */
export const widestPassive = 8;

/** Length of smooth round duct that the table takes for granted, and what hood and each 90° elbow use up of it [ft]. */
export const openingRun = { whole: 100, hood: 40, elbow: 10 } as const;
