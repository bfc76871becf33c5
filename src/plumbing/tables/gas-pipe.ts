/** Gas piping: bores, fittings, and the code's printed capacity tables beside its equations. */
import type { Basis } from "../../core/basis/index.js";
import { si } from "../../core/quantity/index.js";
import { defineTable, type Table } from "../../core/table/index.js";

/** Pipes that can be sized. Schedule 40 steel by nominal size; copper tube, type K, by nominal size. */
export const gasPipes = [
  "steel 1/2",
  "steel 3/4",
  "steel 1",
  "steel 1-1/4",
  "steel 1-1/2",
  "steel 2",
  "copper K 3/8",
  "copper K 1/2",
  "copper K 3/4",
  "copper K 1",
] as const;
export type GasPipe = (typeof gasPipes)[number];

/**
 * Inside diameters [in]. Schedule 40: IFGC 2018, headings of tables 402.4(1) and following; copper type K: the bores that
 * reproduce the code's example 3.
 */
export const gasBores_in: Readonly<Record<GasPipe, number>> = {
  "steel 1/2": 0.622,
  "steel 3/4": 0.824,
  "steel 1": 1.049,
  "steel 1-1/4": 1.38,
  "steel 1-1/2": 1.61,
  "steel 2": 2.067,
  "copper K 3/8": 0.402,
  "copper K 1/2": 0.527,
  "copper K 3/4": 0.745,
  "copper K 1": 0.995,
};

/** Length of fittings over the bore. IRC 2018, Table A.2.2, screwed fittings; gives the printed lengths within 0.7 %. */
export const fittingLengths = { elbow90: 30, elbow45: 14, tee: 60 } as const;

/** Fittings in one section from which the code asks for an allowance. IFGC 2018, appendix A. */
export const fittingsFrom = 4;

/** Drop that low-pressure piping is usually sized for [inches of water]. Common practice, no source. */
export const usualDrop_inH2O = 0.5;

/** The state that the sizing equations take for air [psi]. */
export const codeAtmosphere_psi = 14.7;

const codeTable = (section: string, confirmed: Basis["confirmed"]): Basis => ({
  document: "IFGC",
  publisher: "International Code Council",
  edition: "2018",
  section,
  force: "mandatory",
  confirmed,
});

/** A capacity table as the code prints it. */
export interface PrintedTable {
  readonly id: string;
  readonly basis: Basis;
  readonly gas: "naturalGas" | "propane";
  /** Pressure drop the table is made for [inches of water]. */
  readonly drop_inH2O: number;
  /** Lengths as printed [ft]. */
  readonly lengths: readonly number[];
  /** Capacity as printed by size: cubic feet an hour, or thousands of Btu an hour for propane. */
  readonly capacities: Readonly<Partial<Record<GasPipe, readonly number[]>>>;
}

/** Natural gas, inlet under 2 psi, drop 0.3 in w.c., specific gravity 0.60. From memory; it follows equation 4-1. */
export const natural03: PrintedTable = {
  id: "natural-03",
  basis: codeTable("Table 402.4(1)", "memory"),
  gas: "naturalGas",
  drop_inH2O: 0.3,
  lengths: [10, 20, 30, 40, 50, 60, 70, 80, 90, 100],
  capacities: {
    "steel 1/2": [131, 90, 72, 62, 55, 50, 46, 42, 40, 38],
    "steel 3/4": [273, 188, 151, 129, 114, 104, 95, 89, 83, 79],
    "steel 1": [514, 353, 284, 243, 215, 195, 179, 167, 157, 148],
    "steel 1-1/4": [1060, 726, 583, 499, 442, 400, 368, 343, 322, 304],
  },
};

/** Natural gas, inlet under 2 psi, drop 0.5 in w.c., specific gravity 0.60. */
export const natural05: PrintedTable = {
  id: "natural-05",
  basis: codeTable("Table 402.4(2)", "secondary"),
  gas: "naturalGas",
  drop_inH2O: 0.5,
  lengths: [10, 20, 30, 40, 50, 60, 70, 80, 90, 100, 125, 150],
  capacities: {
    "steel 1/2": [172, 118, 95, 81, 72, 65, 60, 56, 52, 50, 44, 40],
    "steel 3/4": [360, 247, 199, 170, 151, 137, 126, 117, 110, 104, 92, 83],
    "steel 1": [678, 466, 374, 320, 284, 257, 237, 220, 207, 195, 173, 157],
    "steel 1-1/4": [1390, 957, 768, 657, 583, 528, 486, 452, 424, 400, 355, 322],
  },
};

/**
 * Propane, inlet 11.0 in w.c., drop 0.5 in w.c., specific gravity 1.50, thousands of Btu an hour, as the 2018 text prints
 * it. Its labels skip 70 ft: the rows called 80 and 100 ft carry what the code's own equation gives at 70 and 80 ft, 5 and
 * 11 % too much. The equation is used where it is the stricter, so the shifted rows are never followed.
 */
export const propane05: PrintedTable = {
  id: "propane-05",
  basis: codeTable("Table 402.4(28)", "seen"),
  gas: "propane",
  drop_inH2O: 0.5,
  lengths: [10, 20, 30, 40, 50, 60, 80, 100],
  capacities: {
    "steel 1/2": [291, 200, 160, 137, 122, 110, 101, 94],
    "steel 3/4": [608, 418, 336, 287, 255, 231, 212, 197],
    "steel 1": [1150, 787, 632, 541, 480, 434, 400, 372],
    "steel 1-1/4": [2350, 1620, 1300, 1110, 985, 892, 821, 763],
  },
};

/** The printed tables. */
export const printedTables: readonly PrintedTable[] = [natural03, natural05, propane05];

const idOf = (printed: PrintedTable, pipe: GasPipe): string =>
  `plumbing/gas-pipe-${printed.id}-${pipe.replace(/[ /]/g, "-")}`;

/** Every size of every printed table, lengths in m, capacities in SI; a length between rows takes the longer. */
export const capacityTables: readonly Table[] = printedTables.flatMap((printed) =>
  (Object.entries(printed.capacities) as [GasPipe, readonly number[]][]).map(([pipe, values]) =>
    defineTable({
      id: idOf(printed, pipe),
      title: `${printed.basis.section}, ${pipe} in`,
      basis: printed.basis,
      between: "next",
      below: "hold",
      above: "refuse",
      rows: values.map((value, i) => [
        si(printed.lengths[i]!, "ft"),
        si(value, printed.gas === "propane" ? "MBH" : "cfh"),
      ]),
    }),
  ),
);

/** The printed table of a size for a gas and a drop, where there is one. */
export function capacityTable(gas: "naturalGas" | "propane", drop: number, pipe: GasPipe): Table | undefined {
  const printed = printedTables.find(
    (table) => table.gas === gas && Math.abs(si(table.drop_inH2O, "inH2O") - drop) <= 1e-6 * Math.abs(drop),
  );
  return printed && capacityTables.find(({ id }) => id === idOf(printed, pipe));
}
