/** How the electrical texts count what lies in a box, dated. */
import { defineLimit } from "../core/basis/index.js";
import { nec } from "./dated.js";

/** Whether the grounding conductors of a box are counted, the fifth and each further one a quarter. */
export const quarterGrounds = defineLimit({
  id: "electrical/box-fill.quarter-grounds",
  title: "From the fifth on, each grounding conductor counts a quarter",
  subject: "electrical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    nec(2014, 2014, "314.16(B)(5)", false, "secondary", { note: "All grounding conductors together count as one." }),
    nec(2017, 2017, "314.16(B)(5)", false, "seen", { note: "All grounding conductors together count as one." }),
    nec(2020, 2026, "314.16(B)(5)", true, "secondary", {
      note: "The first four grounding conductors count as one, each further one a quarter.",
    }),
  ],
});
