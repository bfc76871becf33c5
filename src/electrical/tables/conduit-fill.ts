/** Sizes of raceways and of the conductors in them. */
import { codeBasis } from "../../core/basis/index.js";
import { si } from "../../core/quantity/index.js";
import { defineTable } from "../../core/table/index.js";

/** NEC Chapter 9, Table 4: inside diameter of electrical metallic tubing by trade size [in], in rising order. */
export const emtBores = { "1/2 in": 0.622, "3/4 in": 0.824, "1 in": 1.049, "1 1/4 in": 1.38 } as const;

/**
 * NEC Chapter 9, Table 5: area of THHN and THWN-2 conductors, as printed in square inches. The printed areas and not
 * those of the printed diameters bear out Annex C: 14 AWG of 0.111 in would go 62 times into 1 1/4 in tubing, not 61.
 */
export const conductorArea = defineTable({
  id: "electrical/conductor-area",
  title: "Area of a THHN or THWN-2 conductor, by gauge",
  basis: codeBasis("nec", 2017, "Chapter 9, Table 5", "seen"),
  between: "exact",
  below: "refuse",
  above: "refuse",
  rows: [
    [4, si(0.0824, "in2")],
    [6, si(0.0507, "in2")],
    [8, si(0.0366, "in2")],
    [10, si(0.0211, "in2")],
    [12, si(0.0133, "in2")],
    [14, si(0.0097, "in2")],
  ],
});

/** NEC Chapter 9, note 7 to the tables: a part of a conductor from which the next whole number counts. */
export const roundsUpFrom = 0.8;
