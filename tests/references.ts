/**
 * Reads a reference file: comment lines with `source`, `confirmed` and `tolerance`, then a CSV table. Cells hold no
 * commas; lists inside a cell are separated by semicolons.
 */
import { readFileSync } from "node:fs";

export interface ReferenceFile {
  readonly source: string;
  readonly confirmed: string;
  /** The number at the start of the tolerance line; its reason follows it in the file. */
  readonly tolerance: number;
  readonly rows: readonly Readonly<Record<string, string>>[];
}

/** Loads `tests/references/<path>`. */
export function reference(path: string): ReferenceFile {
  const lines = readFileSync(new URL(`references/${path}`, import.meta.url), "utf8")
    .trim()
    .split("\n");
  const heads = lines.filter((line) => line.startsWith("#")).map((line) => line.slice(1).trim());
  const head = (name: string): string => {
    const found = heads.filter((line) => line.startsWith(`${name}:`)).map((line) => line.slice(name.length + 1).trim());
    if (found.length === 0) throw new Error(`${path}: no line "# ${name}: ..."`);
    return found.join("; ");
  };
  const [header = "", ...body] = lines.filter((line) => !line.startsWith("#") && line.trim() !== "");
  const columns = header.split(",");
  const rows = body.map((line) => {
    const cells = line.split(",");
    if (cells.length !== columns.length)
      throw new Error(`${path}: "${line}" has ${cells.length} cells, not ${columns.length}`);
    return Object.fromEntries(columns.map((column, i) => [column, cells[i]!]));
  });
  if (rows.length === 0) throw new Error(`${path}: no rows`);
  const tolerance = Number.parseFloat(head("tolerance"));
  if (!Number.isFinite(tolerance)) throw new Error(`${path}: the tolerance line must start with a number`);
  return { source: head("source"), confirmed: head("confirmed"), tolerance, rows };
}
