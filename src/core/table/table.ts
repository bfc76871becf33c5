/** Look-up in a printed table, with what happens between and beyond its rows said by name. */
import type { Basis } from "../basis/index.js";

/**
 * What a key between two rows does: `exact` refuses it, `next` takes the row above, `previous` the row below,
 * `linear` interpolates.
 */
export type Between = "exact" | "next" | "previous" | "linear";
/** What a key beyond the last or before the first row does: `refuse` gives nothing, `hold` keeps the end row. */
export type Beyond = "refuse" | "hold";

/** A table of one column of keys and one of values, both plain SI or plain numbers. */
export interface Table {
  readonly id: string;
  readonly title: string;
  readonly basis: Basis;
  readonly between: Between;
  readonly below: Beyond;
  readonly above: Beyond;
  /** Rows in rising order of the key. */
  readonly rows: readonly (readonly [key: number, value: number])[];
}

/** Defines a table; a contract test checks that the keys rise. */
export function defineTable(table: Table): Table {
  return table;
}

/** A key within a billionth of a row's is on that row. */
const onRow = (key: number, row: number): boolean => Math.abs(key - row) <= 1e-9 * Math.max(1e-12, Math.abs(row));

/**
 * The value at a key, or `undefined` where the table gives none.
 *
 * @example lookUp(defineTable({ id: "t", title: "t", basis: commonPractice, between: "next", below: "hold", above: "refuse", rows: [[15, 20], [20, 25]] }), 16) // 25
 */
export function lookUp({ rows, between, below, above }: Table, key: number): number | undefined {
  const first = rows[0]!;
  const last = rows[rows.length - 1]!;
  if (!Number.isFinite(key)) return undefined;
  if (key < first[0] && !onRow(key, first[0])) return below === "hold" ? first[1] : undefined;
  if (key > last[0] && !onRow(key, last[0])) return above === "hold" ? last[1] : undefined;
  const at = rows.findIndex(([row]) => row >= key || onRow(key, row));
  const [upperKey, upper] = rows[at]!;
  if (onRow(key, upperKey)) return upper;
  const [lowerKey, lower] = rows[at - 1]!;
  switch (between) {
    case "exact":
      return undefined;
    case "next":
      return upper;
    case "previous":
      return lower;
    case "linear":
      return lower + ((upper - lower) * (key - lowerKey)) / (upperKey - lowerKey);
  }
}
