/** What the electrical texts ask about how a stated torque is reached, dated. */
import { defineLimit } from "../core/basis/index.js";
import { nec } from "./dated.js";

/** Whether a stated torque must be reached with a means that shows it. */
export const torqueMeans = defineLimit({
  id: "electrical/terminal-torque.means",
  title: "A stated torque is reached with a torque tool or another accepted means",
  subject: "electrical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    nec(2017, 2017, "110.14(D)", true, "seen", {
      note: "A calibrated torque tool, unless the maker gives another way.",
    }),
    nec(2020, 2020, "110.14(D)", true, "seen", {
      note: "An approved means: a torque tool, or a bolt that shears at the torque.",
    }),
    nec(2023, 2026, "110.14(D)", true, "memory", { note: "An approved means." }),
  ],
});
