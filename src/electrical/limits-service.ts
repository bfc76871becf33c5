/** The numbers that the electrical texts set for existing services, dated. */
import { defineLimit } from "../core/basis/index.js";
import { nec } from "./dated.js";

/** What a metered demand is multiplied with before a new load is added. */
export const measuredShare = defineLimit({
  id: "electrical/panel-headroom.metered",
  title: "What a metered demand counts for when a load is added",
  subject: "electrical",
  kind: "ratio",
  sense: "atLeast",
  maker: "tightens",
  values: [
    nec(2014, 2023, "220.87", [125, "percent"], "secondary", {
      note: "Highest 15-minute demand of a year, or of 30 days that hold the heating or cooling season.",
    }),
    nec(2026, 2026, "120.87", [125, "percent"], "memory"),
  ],
});
