/** A file that holds one survey. */
import { cleanText } from "../report/index.js";
import { jsonRows, type Row, refusalText } from "../survey/index.js";
import { bytesOf, shownName, Unreadable } from "./files.js";
import type { Console } from "./io.js";

/** The one survey of a file; says on standard error why there is none. */
export async function surveyRow(path: string, console: Console): Promise<Extract<Row, { ok: true }> | undefined> {
  const rows: Row[] = [];
  try {
    for await (const row of jsonRows(bytesOf(console.io, path))) rows.push(row);
  } catch (error) {
    if (!(error instanceof Unreadable)) throw error;
    await console.err(`dryfit: ${shownName(path)}: ${error.message}\n`);
    return undefined;
  }
  const [row] = rows;
  if (rows.length !== 1) {
    await console.err(`dryfit: ${shownName(path)}: it holds ${rows.length} surveys; one is wanted here\n`);
    return undefined;
  }
  if (row!.ok) return row;
  await say(path, row!.issues.map(refusalText), console);
  return undefined;
}

/** Says lines about a file on standard error. */
export const say = (path: string, lines: readonly string[], console: Console): Promise<void> =>
  console.err(lines.map((line) => `${shownName(path)}: ${cleanText(line)}\n`).join(""));
