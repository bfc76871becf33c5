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
