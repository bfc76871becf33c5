/** What a rule and a calculator give back: plain JSON, the same keys always. */
import { type Basis, cite } from "../basis/index.js";
import type { Shown } from "./message.js";

/** The outcome of a rule. A `review` says what is missing or too close to tell; it is never a pass. */
export const verdicts = ["fail", "review", "pass", "notApplicable"] as const;
/** The verdict of a finding or of one of its parts. */
export type Verdict = (typeof verdicts)[number];

/** The place of a verdict from worst to best. */
export const severity = (verdict: Verdict): number => verdicts.indexOf(verdict);

/** A basis with its citation as a line of text. */
export interface CitedBasis extends Basis {
  readonly citation: string;
}
/** A basis with its citation. */
export const cited = (basis: Basis): CitedBasis => ({ ...basis, citation: cite(basis) });

/** A limit that was considered and does not govern. */
export interface SetAside {
  readonly limit: string;
  readonly value: Shown;
  readonly reason: string;
  readonly basis: CitedBasis;
}

/** A value that was not given, with how to get it. */
export interface Missing {
  readonly path: readonly (string | number)[];
  readonly what: string;
}

/** One step of the workings. */
export interface Step {
  readonly kind: "formula" | "lookup" | "compare";
  readonly text: string;
  /** The formula as mathjs parses it; `null` for the other kinds. */
  readonly formula: string | null;
  /** The table looked into; `null` for the other kinds. */
  readonly table: string | null;
  readonly values: Readonly<Record<string, Shown>>;
}

/** One statement of a rule; a rule that looks at several things makes several. */
export interface Part {
  readonly verdict: Verdict;
  readonly messageId: string;
  readonly message: string;
  readonly data: Readonly<Record<string, Shown>>;
}

/** A change to the input that was tried and makes the rule pass. */
export interface Remedy {
  readonly message: string;
  /** What to set in the input; `value` is in the form the input takes. */
  readonly changes: readonly { readonly path: readonly (string | number)[]; readonly value: unknown }[];
}

/** One rule's outcome. */
export interface Finding {
  readonly rule: string;
  readonly title: string;
  readonly verdict: Verdict;
  /** Which message; it decides the verdict. */
  readonly messageId: string;
  readonly message: string;
  readonly parts: readonly Part[];
  /** The compared value, its limit and the room left (negative where it fails); `null` where nothing was compared. */
  readonly measured: Shown | null;
  readonly tolerance: Shown | null;
  readonly limit: Shown | null;
  readonly margin: Shown | null;
  /** What the verdict rests on: the governing limit first. */
  readonly basis: readonly CitedBasis[];
  readonly setAside: readonly SetAside[];
  readonly workings: readonly Step[];
  readonly assumptions: readonly string[];
  readonly missing: readonly Missing[];
  readonly remedies: readonly Remedy[];
  readonly cautions: readonly string[];
}

/** A computed value as results carry it. */
export interface ShownValue extends Shown {
  /** Half-width of its tolerance, where the inputs had one; same kind. */
  readonly tolerance: Shown | null;
}

/** A value of a calculation: a quantity, a list of records of them, or `null` where it could not be had. */
export type CalculatedValue = ShownValue | null | readonly Readonly<Record<string, ShownValue | null>>[];

/** One calculator's outcome. */
export interface Calculation {
  readonly calculator: string;
  readonly title: string;
  /** `missing`: an input is needed first; `impossible`: the input allows no answer, and the message says why. */
  readonly status: "computed" | "missing" | "impossible";
  readonly messageId: string | null;
  readonly message: string;
  readonly values: Readonly<Record<string, CalculatedValue>>;
  readonly basis: readonly CitedBasis[];
  readonly setAside: readonly SetAside[];
  readonly workings: readonly Step[];
  readonly assumptions: readonly string[];
  readonly missing: readonly Missing[];
  readonly cautions: readonly string[];
}
