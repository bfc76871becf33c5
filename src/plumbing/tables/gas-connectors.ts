/** Capacity of listed flexible gas connectors, where the tag is gone. */
import type { Basis } from "../../core/basis/index.js";
import { si } from "../../core/quantity/index.js";
import { defineTable, type Table } from "../../core/table/index.js";

/** Inside diameters of connectors [in]. */
export const connectorBores = ["1/4", "3/8", "1/2"] as const;
export type ConnectorBore = (typeof connectorBores)[number];

/** A table that a home-inspection handbook copies from a connector's own sheet; the tag on the connector decides. */
export const connectorSheet: Basis = {
  document: "Home-inspection handbook page on flexible gas connectors",
  publisher: "",
  edition: "",
  section: "lengths and diameters against capacity, natural gas",
  force: "advice",
  confirmed: "secondary",
  note: "The tag on the connector decides.",
};

/** Lengths of the table [in]. */
const LENGTHS = [12, 18, 24, 30, 36, 48, 60, 72] as const;

/** Capacity [thousands of Btu/h], natural gas, by length. */
const capacities: Readonly<Record<ConnectorBore, readonly number[]>> = {
  "1/4": [48.0, 43.8, 40.0, 36.4, 33.4, 28.3, 24.9, 23.1],
  "3/8": [102, 93.1, 85.5, 77.1, 71.1, 60.5, 53.2, 48.1],
  "1/2": [180, 164.2, 150, 136, 125, 106, 93.2, 86],
};

const tableOf = (bore: ConnectorBore): Table =>
  defineTable({
    id: `plumbing/gas-connectors-${bore.replace("/", "-")}`,
    title: `Capacity of a ${bore} in gas connector by length`,
    basis: connectorSheet,
    between: "next",
    below: "hold",
    above: "refuse",
    rows: capacities[bore].map((thousand, i) => [si(LENGTHS[i]!, "in"), si(thousand, "MBH")]),
  });

export const quarterInchConnectors = tableOf("1/4");
export const threeEighthsInchConnectors = tableOf("3/8");
export const halfInchConnectors = tableOf("1/2");

/** The table of a bore. */
export const connectorTable: Readonly<Record<ConnectorBore, Table>> = {
  "1/4": quarterInchConnectors,
  "3/8": threeEighthsInchConnectors,
  "1/2": halfInchConnectors,
};

/** Longest connector that is made [ft]. ANSI Z21.24, by its scope. */
export const longestConnector_ft = 6;
