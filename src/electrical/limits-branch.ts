/** The numbers that the electrical texts set for new branch circuits, dated. */
import { defineLimit } from "../core/basis/index.js";
import { habit, nec } from "./dated.js";

/** What a continuous load counts for. */
export const continuousShare = defineLimit({
  id: "electrical/branch-circuit.continuous",
  title: "What a continuous load counts for on its circuit",
  subject: "electrical",
  kind: "ratio",
  sense: "atLeast",
  maker: "tightens",
  values: [
    nec(2014, 2014, "210.19(A)(1), 210.20(A)", [125, "percent"], "secondary"),
    nec(2017, 2017, "210.19(A)(1), 210.20(A)", [125, "percent"], "seen"),
    nec(2020, 2020, "210.19(A)(1), 210.20(A)", [125, "percent"], "secondary"),
    nec(2023, 2026, "210.19(A), 210.20(A)", [125, "percent"], "memory"),
  ],
});

/** What the largest motor counts for where the plate gives motor and heating apart. */
export const motorShare = defineLimit({
  id: "electrical/branch-circuit.motor",
  title: "What the largest motor counts for on a circuit with other load",
  subject: "electrical",
  kind: "ratio",
  sense: "atLeast",
  maker: "tightens",
  values: [
    nec(2014, 2014, "220.18(A)", [125, "percent"], "secondary"),
    nec(2017, 2017, "220.18(A)", [125, "percent"], "seen"),
    nec(2020, 2023, "220.18(A)", [125, "percent"], "secondary"),
    nec(2026, 2026, "120.18(A)", [125, "percent"], "memory"),
  ],
});

/** Share of a large range's circuit that its neutral must carry. */
export const rangeNeutral = defineLimit({
  id: "electrical/branch-circuit.range-neutral",
  title: "Share of the circuit that the neutral of a large range must carry",
  subject: "electrical",
  kind: "ratio",
  sense: "atLeast",
  maker: "tightens",
  values: [
    nec(2014, 2020, "210.19(A)(3), exception 2", [70, "percent"], "secondary"),
    nec(2023, 2023, "210.19(C), exception 2", [70, "percent"], "memory"),
    nec(2026, 2026, "210.19(C), exception 2", [70, "percent"], "memory"),
  ],
});

/** The usual circuit of a full-size dryer, which its receptacle is made for. */
export const usualDryer = defineLimit({
  id: "electrical/branch-circuit.dryer",
  title: "Usual circuit of a 120/240 V dryer",
  subject: "electrical",
  kind: "current",
  sense: "atLeast",
  maker: "replaces",
  values: [habit([30, "A"], { note: "A household electric dryer has a circuit of its own of 30 A." })],
});
