/** What the electrical texts ask about the strain relief of a cord, dated. */
import { defineLimit } from "../core/basis/index.js";
import { habit, nec } from "./dated.js";

/** Whether a cord must be held so that a pull does not reach joints or terminals. */
export const strainHeld = defineLimit({
  id: "electrical/strain-relief.held",
  title: "A pull on the cord does not reach joints or terminals",
  subject: "electrical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    nec(2014, 2014, "400.10", true, "secondary"),
    nec(2017, 2017, "400.14", true, "seen"),
    nec(2020, 2023, "400.14", true, "secondary"),
    nec(2026, 2026, "400.14", true, "memory"),
    habit(true, { note: "A cord is held at the machine everywhere." }),
  ],
});
