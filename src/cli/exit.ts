/** What the command ends with. Where several hold, the first in this list that holds. */
import { severity, type Verdict } from "../core/rule/index.js";

/** Exit codes, in the order in which they win. */
export const exitCodes = {
  /** A fault in dryfit itself. */
  internal: 5,
  /** The command was called in a way it does not know. */
  usage: 4,
  /** A file could not be read or written, or a row or an input was refused. */
  badInput: 3,
  /** A rule fails, or a calculation has no answer. */
  fail: 1,
  /** Nothing fails, and something is missing or too close to tell. */
  review: 2,
  /** Everything that applies passes. */
  pass: 0,
} as const;
export type ExitCode = (typeof exitCodes)[keyof typeof exitCodes];

/** The exit code of a verdict. */
export const codeOf = (verdict: Verdict): ExitCode =>
  verdict === "fail" ? exitCodes.fail : verdict === "review" ? exitCodes.review : exitCodes.pass;

/** The worse of two verdicts. */
export const worse = (a: Verdict, b: Verdict): Verdict => (severity(b) < severity(a) ? b : a);

/** The part of the help that says what the command ends with. */
export const exitHelp = `
Exit codes
  0  everything that applies passes
  1  something fails, or a calculation has no answer
  2  something needs review: a measurement is missing, or too coarse to tell
  3  a file could not be read or written, or a row or value was refused
  4  wrong usage
  5  a fault in dryfit itself
Where several hold: 5, 4, 3, 1, 2, 0. A reader that closes the pipe early is no error; the code is
then that of the rows answered so far.`;
