/** What the electrical rules rest on beside their limits. */
import { type Basis, type Confirmed, codeBasis, commonPractice } from "../core/basis/index.js";
import type { At } from "../core/rule/index.js";

/** A section of the electrical code in the adopted edition; the default edition where only another code is adopted. */
export function necBasis(at: At, section: string, confirmed: Confirmed, note?: string): Basis {
  const basis = codeBasis("nec", at.adopted.nec ?? 2020, section, confirmed);
  return note === undefined ? basis : { ...basis, note };
}

/** Whether the National Electrical Code is what binds at a place. */
export const underNec = (at: At): boolean => at.adopted.nec !== undefined;

/** Ohm's law, for elements whose resistance stays put. */
export const ohmsLaw: Basis = {
  ...commonPractice,
  confirmed: "computed",
  note: "A heating element's resistance stays put, so its power goes with the square of the voltage; a motor's does not.",
};

/** The plate of the machine. */
export const plateBasis: Basis = {
  document: "Machine's rating plate",
  publisher: "",
  edition: "",
  section: "",
  force: "maker",
  confirmed: "stated",
};
