/** What the electrical texts ask about the means to disconnect an appliance, dated. */
import { defineLimit } from "../core/basis/index.js";
import { nec } from "./dated.js";

/** Load up to which the breaker alone will do, wherever it is. */
export const smallAppliance = defineLimit({
  id: "electrical/disconnect.small",
  title: "Wired-in appliance whose breaker alone may disconnect it, wherever it is",
  subject: "electrical",
  kind: "apparentPower",
  sense: "atMost",
  maker: "tightens",
  values: [
    nec(2014, 2014, "422.31(A)", [300, "VA"], "secondary"),
    nec(2017, 2017, "422.31(A)", [300, "VA"], "seen"),
    nec(2020, 2023, "422.31(A)", [300, "VA"], "secondary"),
    nec(2026, 2026, "422.31(A)", [300, "VA"], "memory"),
  ],
});

/** Distance within which a means of disconnecting that can be seen counts as in sight. */
export const sightDistance = defineLimit({
  id: "electrical/disconnect.sight",
  title: "Farthest that a means of disconnecting is in sight",
  subject: "electrical",
  kind: "length",
  sense: "atMost",
  maker: "tightens",
  values: [
    nec(2014, 2023, "422.31(B) with the definition in Article 100", [50, "ft"], "secondary", {
      note: "In sight is visible and not more than 50 ft away.",
    }),
    nec(2026, 2026, "422.31(B) with the definition in Article 100", [50, "ft"], "memory"),
  ],
});

/** Whether the breaker may stand out of sight where a lock can hold it open. */
export const lockableCounts = defineLimit({
  id: "electrical/disconnect.lockable",
  title: "A breaker that can be locked open may be out of sight",
  subject: "electrical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    nec(2014, 2014, "422.31(B) and 110.25", true, "secondary"),
    nec(2017, 2017, "422.31(B) and 110.25", true, "seen"),
    nec(2020, 2023, "422.31(B) and 110.25", true, "secondary"),
    nec(2026, 2026, "422.31(B) and 110.25", true, "memory"),
  ],
});
