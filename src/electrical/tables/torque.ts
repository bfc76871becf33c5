/** Tightening torque of screw terminals, for where the maker states none. */
import { type Basis, codeBasis } from "../../core/basis/index.js";
import { si } from "../../core/quantity/index.js";
import { defineTable, type Table } from "../../core/table/index.js";

const annexI = (table: string): Basis => ({
  ...codeBasis("nec", 2020, `Informative Annex I, Table ${table}`, "secondary", "advice"),
  note: "From UL 486A-486B; it may be used where the maker states no torque.",
});

/** Rows by gauge as printed in inch-pounds; 1/0 is gauge 0, 4/0 is gauge -3. */
const byGauge = (...rows: readonly (readonly [gauge: number, inchPounds: number])[]): Table["rows"] =>
  rows.map(([gauge, inchPounds]) => [gauge, si(inchPounds, "inlbf")]);
/** Rows by a length in inches as printed, torque in inch-pounds. */
const byInches = (...rows: readonly (readonly [inches: number, inchPounds: number])[]): Table["rows"] =>
  rows.map(([inches, inchPounds]) => [si(inches, "in"), si(inchPounds, "inlbf")]);

const gauge = { between: "exact", below: "refuse", above: "refuse", basis: annexI("I.1") } as const;

/** Table I.1: slotted screws No. 10 and larger, slot no wider than 0.047 in and no longer than 1/4 in. */
export const narrowSlotTorque = defineTable({
  id: "electrical/torque-narrow-slot",
  title: "Slotted screw No. 10 or larger with a narrow slot, by gauge (1/0 is 0, 4/0 is -3)",
  ...gauge,
  rows: byGauge([2, 40], [3, 35], [4, 35], [6, 35], [8, 25], [10, 20], [12, 20], [14, 20], [16, 20], [18, 20]),
});

/** Table I.1: slotted screws No. 10 and larger, slot wider than 0.047 in or longer than 1/4 in. */
export const wideSlotTorque = defineTable({
  id: "electrical/torque-wide-slot",
  title: "Slotted screw No. 10 or larger with a wide or long slot, by gauge (1/0 is 0, 4/0 is -3)",
  ...gauge,
  rows: [
    ...byGauge([-3, 50], [-2, 50], [-1, 50], [0, 50], [1, 50], [2, 50], [3, 50], [4, 45], [6, 45], [8, 40], [10, 35]),
    ...byGauge([12, 35], [14, 35], [16, 35], [18, 35]),
  ],
});

/** Table I.1: hexagon head or split-bolt connector. */
export const splitBoltTorque = defineTable({
  id: "electrical/torque-split-bolt",
  title: "Split-bolt connector with a hexagon, by gauge (1/0 is 0, 4/0 is -3)",
  ...gauge,
  rows: [
    ...byGauge([-3, 500], [-2, 500], [-1, 385], [0, 385], [1, 275], [2, 275], [3, 275], [4, 165], [6, 165], [8, 80]),
    ...byGauge([10, 80], [12, 80], [14, 80], [16, 80], [18, 80]),
  ],
});

/** Table I.1: hexagon head, other connectors. */
export const hexTorque = defineTable({
  id: "electrical/torque-hex",
  title: "Hexagon head turned with a wrench, by gauge (1/0 is 0, 4/0 is -3)",
  ...gauge,
  rows: [
    ...byGauge([-3, 250], [-2, 250], [-1, 180], [0, 180], [1, 150], [2, 150], [3, 150], [4, 110], [6, 110], [8, 75]),
    ...byGauge([10, 75], [12, 75], [14, 75], [16, 75], [18, 75]),
  ],
});

// A slot length between two rows takes the shorter one, as the table's own footnote has it.
const slot = { between: "previous", below: "refuse", basis: annexI("I.2") } as const;

/** Table I.2: slotted screws smaller than No. 10, slot narrower than 0.047 in; the table ends at 1/4 in. */
export const smallNarrowTorque = defineTable({
  id: "electrical/torque-small-narrow-slot",
  title: "Slotted screw smaller than No. 10 with a narrow slot, by length of the slot",
  ...slot,
  above: "refuse",
  rows: byInches([0, 7], [5 / 32, 7], [3 / 16, 7], [7 / 32, 7], [1 / 4, 9]),
});

/** Table I.2: slotted screws smaller than No. 10, slot of 0.047 in and wider. The last row is for all above 9/32 in. */
export const smallWideTorque = defineTable({
  id: "electrical/torque-small-wide-slot",
  title: "Slotted screw smaller than No. 10 with a wide slot, by length of the slot",
  ...slot,
  above: "hold",
  rows: byInches([0, 9], [5 / 32, 12], [3 / 16, 12], [7 / 32, 12], [1 / 4, 12], [9 / 32, 15], [9 / 32 + 1e-6, 20]),
});

/** Table I.3: recessed hexagon or square, by its width across the flats. */
export const socketTorque = defineTable({
  id: "electrical/torque-socket",
  title: "Recessed hexagon or square, by width across flats",
  basis: annexI("I.3"),
  between: "exact",
  below: "refuse",
  above: "refuse",
  rows: [
    ...byInches([1 / 8, 45], [5 / 32, 100], [3 / 16, 120], [7 / 32, 150], [1 / 4, 200], [5 / 16, 275], [3 / 8, 375]),
    ...byInches([1 / 2, 500], [9 / 16, 600]),
  ],
});

/** Widths across flats of Table I.3 by name [in]. */
export const acrossFlats = {
  "1/8 in": 1 / 8,
  "5/32 in": 5 / 32,
  "3/16 in": 3 / 16,
  "7/32 in": 7 / 32,
  "1/4 in": 1 / 4,
  "5/16 in": 5 / 16,
  "3/8 in": 3 / 8,
  "1/2 in": 1 / 2,
  "9/16 in": 9 / 16,
} as const;

/** Slot above which a screw counts as wide or long, heads of Tables I.1 and I.2. */
export const slotBounds = { width_in: 0.047, length_in: 1 / 4 } as const;

/** ISO 6789-1:2017, 5.1.5: how far a torque tool may be off, as a share of what it shows, up to 10 N·m and above. */
export const toolDeviation = { small: 0.06, large: 0.04, upTo_Nm: 10 } as const;
export const toolBasis: Basis = {
  document: "ISO 6789-1",
  publisher: "ISO",
  edition: "2017",
  section: "5.1.5",
  force: "advice",
  confirmed: "secondary",
  note: "How far a hand torque tool may be off: 6 % up to 10 N·m, 4 % above.",
};
