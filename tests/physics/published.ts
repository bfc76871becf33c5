/** Comparing with printed numbers, and reading the fixtures that libraries made. */
import { readFileSync } from "node:fs";
import { expect } from "vitest";

const folder = new URL("../references/physics/", import.meta.url);

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
