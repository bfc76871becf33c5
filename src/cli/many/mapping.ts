/** A file that says how other people's columns are called here. */
import { cleanText } from "../../report/index.js";
import { jsonRows, type Mapping, type Row, refusalText } from "../../survey/index.js";
import { bytesOf, shownName, Unreadable } from "../files.js";
import type { Io } from "../io.js";

/** Reads a mapping: one JSON object from their column names to ours, or to `null` to pass a column over. */
export async function readMapping(io: Io, path: string): Promise<Mapping> {
  const wrong = (what: string): Unreadable => new Unreadable(`${shownName(path)}: ${what}`);
  const rows: Row[] = [];
  try {
    for await (const row of jsonRows(bytesOf(io, path))) rows.push(row);
  } catch (error) {
    throw error instanceof Unreadable ? wrong(error.message) : error;
  }
  const [row] = rows;
  if (rows.length === 1 && !row!.ok) throw wrong(row!.issues.map(refusalText).map(cleanText).join("; "));
  const value = rows.length === 1 && row!.ok ? row!.value : undefined;
  if (typeof value !== "object" || value === null) {
    throw wrong('a mapping is one JSON object such as {"Run (ft)": "venting.duct.straight [ft]", "Remark": null}');
  }
  for (const [name, field] of Object.entries(value)) {
    if (typeof field === "string" || field === null) continue;
    throw wrong(`the column ${cleanText(JSON.stringify(name))} must be given a field's name in quotes, or null`);
  }
  return Object.fromEntries(Object.entries(value as Mapping).map(([name, field]) => [name.trim(), field]));
}
