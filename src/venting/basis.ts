/** What the venting rules rest on beside their limits. */
import { type Basis, commonPractice } from "../core/basis/index.js";

/** The fitting table has no angles but 45° and 90°; the next larger row is the cautious choice. */
export const nextLargerElbow: Basis = {
  ...commonPractice,
  note: "An elbow of another angle is deducted as the next larger one of the table.",
};
