/** How a run ends. */
import type { ExitCode } from "./exit.js";

/** The exit code so far, kept up to date so that a run that is cut short ends rightly. */
export interface Outcome {
  code: ExitCode;
}

/** The command was called in a way it does not know. */
export class UsageError extends Error {}
