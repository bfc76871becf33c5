/** How a run over many surveys answers them: plain data, the same in every worker. */
import type { AssessOptions, Detail, Mapping, Tally } from "../../survey/index.js";

/** How answers are written. */
export type Form = "text" | "markdown" | "json" | "ndjson" | "csv";

/** Everything that decides what comes out for a row. */
export interface Settings {
  readonly form: Form;
  readonly options: AssessOptions<Detail>;
  readonly mapping: Mapping | null;
  /** Refused rows go to a file of their own. */
  readonly hasRefusalsFile: boolean;
  /** Columns to wrap texts at; not wrapped where `null`. */
  readonly width: number | null;
  readonly isPainted: boolean;
  /** Characters of output that are gathered before they are handed on. */
  readonly gathered: number;
}

/** Where a piece of output goes. */
export type Channel = "out" | "err" | "refusals";

/** The answers to some rows that follow each other, in the order in which they are to be said. */
export interface Batch {
  readonly said: readonly { readonly to: Channel; readonly bytes: Uint8Array }[];
  /** What these rows count. */
  readonly tally: Tally;
}
