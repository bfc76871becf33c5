/** Equipment grounding conductors. */
import type { ConductorSize } from "../../core/quantity/index.js";

/** NEC Table 250.122: least equipment grounding conductor for overcurrent devices up to a rating [A]. */
export const groundRows: readonly {
  readonly upTo_A: number;
  readonly copper: ConductorSize;
  readonly aluminum: ConductorSize;
}[] = [
  { upTo_A: 15, copper: "14 AWG", aluminum: "12 AWG" },
  { upTo_A: 20, copper: "12 AWG", aluminum: "10 AWG" },
  { upTo_A: 60, copper: "10 AWG", aluminum: "8 AWG" },
  { upTo_A: 100, copper: "8 AWG", aluminum: "6 AWG" },
  { upTo_A: 200, copper: "6 AWG", aluminum: "4 AWG" },
  { upTo_A: 300, copper: "4 AWG", aluminum: "2 AWG" },
  { upTo_A: 400, copper: "3 AWG", aluminum: "1 AWG" },
  { upTo_A: 500, copper: "2 AWG", aluminum: "1/0 AWG" },
  { upTo_A: 600, copper: "1 AWG", aluminum: "2/0 AWG" },
  { upTo_A: 800, copper: "1/0 AWG", aluminum: "3/0 AWG" },
  { upTo_A: 1000, copper: "2/0 AWG", aluminum: "4/0 AWG" },
  { upTo_A: 1200, copper: "3/0 AWG", aluminum: "250 kcmil" },
];
