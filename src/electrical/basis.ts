/** What the electrical rules rest on beside their limits. */
import { type Basis, type Confirmed, codeBasis, commonPractice } from "../core/basis/index.js";
import { type At, defaults } from "../core/rule/index.js";

/** The edition whose text was read; what was seen there was met in the others only as restated. */
const READ_EDITION = 2017;
/** The edition of which only what became Article 120 was met. */
const UNREAD_EDITION = 2026;
const MET_THERE = "120.";

/**
 * A section of the electrical code in the adopted edition; the default edition where only another code is adopted.
 *
 * @param confirmed - how the value was confirmed in the edition of 2017; other editions get what can be said of them
 */
export function necBasis(at: At, section: string, confirmed: Confirmed, note?: string): Basis {
  const edition = at.adopted.nec ?? defaults.adopted.nec;
  const unread = edition === UNREAD_EDITION && !section.startsWith(MET_THERE);
  const known = confirmed === "seen" && edition !== READ_EDITION ? "secondary" : confirmed;
  return codeBasis("nec", edition, section, unread ? "memory" : known, "mandatory", note);
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
