/** Volumes of boxes and of what lies in them. */
import { codeBasis } from "../../core/basis/index.js";
import { si } from "../../core/quantity/index.js";
import { defineTable } from "../../core/table/index.js";

/** NEC Table 314.16(B), the same in every edition from 2014 on; cubic inches as printed. */
export const conductorVolume = defineTable({
  id: "electrical/box-conductor-volume",
  title: "Volume for one conductor in a box, by gauge",
  basis: codeBasis("nec", 2020, "Table 314.16(B)", "secondary"),
  between: "exact",
  below: "refuse",
  above: "refuse",
  rows: [
    [6, si(5, "in3")],
    [8, si(3, "in3")],
    [10, si(2.5, "in3")],
    [12, si(2.25, "in3")],
    [14, si(2, "in3")],
    [16, si(1.75, "in3")],
    [18, si(1.5, "in3")],
  ],
});

/**
 * NEC Table 314.16(A): least volume of standard metal boxes [in³], in rising order within each shape. A volume marked
 * on the box counts instead.
 */
export const metalBoxes = {
  "4 x 1 1/4 in round or octagonal": 12.5,
  "4 x 1 1/2 in round or octagonal": 15.5,
  "4 x 2 1/8 in round or octagonal": 21.5,
  "4 x 1 1/4 in square": 18,
  "4 x 1 1/2 in square": 21,
  "4 x 2 1/8 in square": 30.3,
  "4 11/16 x 1 1/4 in square": 25.5,
  "4 11/16 x 1 1/2 in square": 29.5,
  "4 11/16 x 2 1/8 in square": 42,
  "3 x 2 x 1 1/2 in device": 7.5,
  "3 x 2 x 2 in device": 10,
  "3 x 2 x 2 1/4 in device": 10.5,
  "3 x 2 x 2 1/2 in device": 12.5,
  "3 x 2 x 2 3/4 in device": 14,
  "3 x 2 x 3 1/2 in device": 18,
} as const;

/** NEC 314.16(A), barriers that are not marked with their volume [in³]. */
export const barrierVolumes = { metal: 0.5, nonmetallic: 1 } as const;

/** NEC 314.16(B)(2) to (5): allowances, in volumes of one conductor. */
export const allowances = {
  /** All internal clamps together. */
  clamps: 1,
  /** Each kind of support: stud, hickey. */
  support: 1,
  /** A yoke with its devices, for each gang it takes. */
  device: 2,
  /** All grounding conductors together; since 2020 only the first four. */
  grounds: 1,
  groundsInOne: 4,
  /** Since 2020 for each further one. */
  furtherGround: 0.25,
} as const;
