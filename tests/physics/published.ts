/** Reading the data files of numbers from outside, and comparing with what they print. */
import { readFileSync } from "node:fs";
import { expect } from "vitest";

const folder = new URL("../references/physics/", import.meta.url);

export type Row = Readonly<Record<string, string>>;

export interface Published {
  readonly source: string;
  readonly confirmed: string;
  readonly tolerance: string;
  readonly rows: readonly Row[];
}

/** A CSV file: `# key: value` lines, a line of column names, then rows as wide as it. Fields hold no commas or quotes. */
export function published(name: string): Published {
  const lines = readFileSync(new URL(name, folder), "utf8").trimEnd().split("\n");
  const head: Record<string, string> = {};
  const body: string[][] = [];
  for (const line of lines) {
    const key = /^# (\w+): (.+)$/.exec(line);
    if (key) head[key[1]!] = head[key[1]!] === undefined ? key[2]! : `${head[key[1]!]} ${key[2]!}`;
    else body.push(line.split(","));
  }
  const { source, confirmed, tolerance } = head;
  if (!source || !confirmed || !tolerance) throw new Error(`${name}: needs source, confirmed and tolerance lines`);
  const [columns, ...cells] = body;
  const rows = cells.map((row, i) => {
    if (row.length !== columns!.length) throw new Error(`${name}: row ${i + 1} has ${row.length} fields`);
    return Object.fromEntries(columns!.map((column, j) => [column, row[j]!]));
  });
  if (rows.length === 0) throw new Error(`${name}: no rows`);
  return { source, confirmed, tolerance, rows };
}

/** A JSON file that a script of the folder `tools` made with a named library. */
export function generated<T>(name: string): { readonly source: string; readonly rows: readonly T[] } {
  const data = JSON.parse(readFileSync(new URL(name, folder), "utf8"));
  for (const key of ["source", "confirmed", "tolerance", "generator", "columns", "rows"]) {
    if (data[key] === undefined) throw new Error(`${name}: has no ${key}`);
  }
  return data;
}

/** The value of one unit in the last digit of a number as printed: 0.01 for "3.14", 10 for "1.23e3". */
export function lastDigit(printed: string): number {
  const parts = /^[-+]?\d+(?:\.(\d*))?(?:e([-+]?\d+))?$/i.exec(printed);
  if (!parts) throw new Error(`not a plain number: "${printed}"`);
  return 10 ** (Number(parts[2] ?? 0) - (parts[1]?.length ?? 0));
}

/** Expects `actual` to lie within `units` units of the last printed digit; 0.5 is correct rounding. */
export function expectPrinted(actual: number, printed: string | undefined, units = 0.5): void {
  if (printed === undefined) throw new Error("no such column");
  const off = Math.abs(actual - Number(printed)) / lastDigit(printed);
  expect(off, `${actual} against ${printed}: ${off.toPrecision(3)} units of the last digit`).toBeLessThanOrEqual(
    units + 1e-6,
  );
}

/** Expects `actual` within a relative difference of `expected`. */
export function expectNear(actual: number, expected: number, relative: number): void {
  const off = Math.abs(actual - expected) / Math.abs(expected);
  expect(off, `${actual} against ${expected}`).toBeLessThanOrEqual(relative);
}
