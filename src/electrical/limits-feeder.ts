/** The numbers that the electrical texts set for feeders and services, dated. */
import { defineLimit } from "../core/basis/index.js";
import { nec } from "./dated.js";

/** Share of the demand of ranges and dryers that a feeder's neutral carries. */
export const feederNeutral = defineLimit({
  id: "electrical/feeder.neutral",
  title: "Share of the demand of ranges and dryers on the neutral of their feeder",
  subject: "electrical",
  kind: "ratio",
  sense: "atLeast",
  maker: "tightens",
  values: [
    nec(2014, 2014, "220.61(B)(1)", [70, "percent"], "secondary"),
    nec(2017, 2017, "220.61(B)(1)", [70, "percent"], "seen"),
    nec(2020, 2023, "220.61(B)(1)", [70, "percent"], "secondary"),
    nec(2026, 2026, "120.61(B)(1)", [70, "percent"], "memory"),
  ],
});
