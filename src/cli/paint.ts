/** Colour, on a terminal only. It repeats what the words say. */
import type { Paint, Role } from "../report/index.js";
import type { Io } from "./io.js";

const codes: Readonly<Record<Role, string>> = {
  fail: "1;31",
  review: "1;33",
  pass: "1;32",
  notApplicable: "2",
  quiet: "2",
  strong: "1",
};

/** A text in the colour of its role. */
export const paintWith: Paint = (text, role) => `\u001b[${codes[role]}m${text}\u001b[0m`;

/** The colours to use, or none: not into a pipe, not where the user or the terminal declines. */
export function paintFor({ stdout, env }: Io, wanted: boolean): Paint | undefined {
  const declined = (env["NO_COLOR"] ?? "") !== "" || env["TERM"] === "dumb";
  return !wanted || declined || !stdout.isTerminal ? undefined : paintWith;
}

/** How texts are laid out on this output. */
export function layoutFor(io: Io, color: boolean): { readonly width?: number; readonly paint?: Paint } {
  const paint = paintFor(io, color);
  const width = io.stdout.isTerminal ? io.stdout.columns : undefined;
  return { ...(width === undefined ? {} : { width }), ...(paint === undefined ? {} : { paint }) };
}
