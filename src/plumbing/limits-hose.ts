/** What the trade asks of hoses. No model code sets these; makers and local rules do. */
import { defineLimit } from "../core/basis/index.js";

/** Age at which a hose is replaced. */
export const hoseAge = defineLimit({
  id: "plumbing/hose-condition.age",
  title: "Greatest age of an inlet hose",
  subject: "plumbing",
  kind: "time",
  sense: "atMost",
  maker: "replaces",
  values: [
    {
      text: "practice",
      value: [5, "yr"],
      confirmed: "practice",
      note: "Hoses are replaced every three to five years; five is the most that is said.",
    },
  ],
});
