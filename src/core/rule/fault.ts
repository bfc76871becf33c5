/** Faults: input that cannot be used. A verdict is never a fault, and a fault is never a verdict. */

/** One thing wrong with an input. */
export interface InputIssue {
  /** Where, from the root of what was given. */
  readonly path: readonly (string | number)[];
  /** A short, stable word for the kind of fault. */
  readonly code: string;
  /** What to write instead. */
  readonly message: string;
  readonly expected: string;
  /** What came, shortened. */
  readonly received: string;
}

/** Characters that steer a terminal or a page are not printed. */
const printable = (text: string): string => text.replace(/\p{C}/gu, "\ufffd");

/** What came, as a short text that is safe to print. */
export function describeReceived(value: unknown): string {
  if (value === undefined) return "nothing";
  let text: string;
  if (typeof value === "string") text = printable(JSON.stringify(value.slice(0, 100)));
  else if (typeof value === "number" && !Number.isFinite(value)) text = "a number that is not finite";
  else if (typeof value === "number" || typeof value === "boolean" || value === null) text = String(value);
  else if (Array.isArray(value)) text = `a list of ${value.length}`;
  else text = typeof value === "object" ? "an object" : `a ${typeof value}`;
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

/** A path as people write it: `elbows[0].angle`. A key that is no plain name is quoted. */
export function pathText(path: readonly (string | number)[]): string {
  return path.reduce<string>((text, part) => {
    if (typeof part === "number") return `${text}[${part}]`;
    if (!/^[\w$-]{1,60}$/.test(part)) return `${text}[${describeReceived(part)}]`;
    return text === "" ? part : `${text}.${part}`;
  }, "");
}

/** One issue as a line of text. */
export function issueText({ path, message, received }: InputIssue): string {
  const where = pathText(path);
  return `${where === "" ? "" : `${where}: `}${message} (got ${received})`;
}

/**
 * Input that cannot be used. Every complaint is listed; the message is all of them, one a line.
 */
export class InputFault extends Error {
  override readonly name = "InputFault";
  readonly issues: readonly InputIssue[];

  constructor(issues: readonly InputIssue[]) {
    super(issues.map(issueText).join("\n"));
    this.issues = issues;
  }
}
