/** What the venting rules rest on beside their limits. */
import { type Basis, commonPractice } from "../core/basis/index.js";

/** The fitting table has no angles but 45° and 90°; the next larger row is the cautious choice. */
export const nextLargerElbow: Basis = {
  ...commonPractice,
  note: "An elbow of another angle is deducted as the next larger one of the table.",
};

/** How elbows are counted for a maker's chart that only knows 90°. */
export const makerElbowCount: Basis = {
  ...commonPractice,
  note: "For the maker's chart two elbows of 45° or less count as one of 90°; the sheet itself decides.",
};

/** The instructions of the power ventilator, which set its length. */
export const ventilatorSheet: Basis = {
  document: "Power ventilator's instructions",
  publisher: "",
  edition: "",
  section: "",
  force: "maker",
  confirmed: "stated",
  note: "Elbows are added up as the code's table has them.",
};

/** A Type 1 dryer that gets make-up air by the dryer's own section is left out of the combustion-air sum. */
export const dryerLeftOut: Basis = {
  document: "IFGC",
  publisher: "International Code Council",
  edition: "",
  section: "304.1, exception",
  force: "mandatory",
  confirmed: "secondary",
  note: "A household dryer with make-up air by its own section needs no combustion air beside it; the 2024 edition rewrote the clause.",
};

/** An air change above 0.60 an hour is not used; below 0.40 the method with the known air change must be. */
export const airChangeBounds: Basis = {
  document: "NFPA 54",
  publisher: "NFPA",
  edition: "",
  section: "9.3.2",
  force: "mandatory",
  confirmed: "secondary",
  note: "No air change above 0.60 an hour is counted; where it is known to be below 0.40 the plain 50 ft³ rule must not be used.",
};
