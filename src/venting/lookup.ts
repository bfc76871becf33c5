/** Small helpers that several venting rules share. */
import { type Fuel, govern, type Limit } from "../core/basis/index.js";
import type { At, Outcome, Path } from "../core/rule/index.js";

/** The governing value of a limit at a place [SI], for proposing changes; `undefined` where no text says anything. */
export const valueAt = (
  at: At,
  limit: Limit,
  fuel: Fuel = "none",
  conditions: Readonly<Record<string, string | number | boolean>> = {},
): number | undefined =>
  govern(limit, { adopted: at.adopted, building: at.building, ...at.stated(limit) }, fuel, conditions)?.value;

/** What was not looked at yet: names for the message, paths for the list of what to measure. */
export class Unseen {
  readonly names: string[] = [];
  readonly paths: Path[] = [];

  /** Notes one thing; returns nothing, so that it can stand in a list of outcomes. */
  note(name: string, ...path: Path): undefined {
    this.names.push(name);
    this.paths.push(path);
    return undefined;
  }
}

/** Whether everything said so far is good. */
export const allGood = (outcome: Outcome): boolean => outcome.every(({ verdict }) => verdict === "pass");
