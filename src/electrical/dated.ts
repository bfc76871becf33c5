/** Shorthand for dated values of the electrical code. */
import type { Confirmed, DatedValue } from "../core/basis/index.js";

/** One dated value of the National Electrical Code; `to` is the last edition that was looked at. */
export function nec(
  from: number,
  to: number,
  section: string,
  value: DatedValue["value"],
  confirmed: Confirmed,
  more: Pick<DatedValue, "force" | "when" | "note"> = {},
): DatedValue {
  return { text: "nec", from, to, section, value, confirmed, ...more };
}

/** A value that is a habit of the trade. */
export function habit(value: DatedValue["value"], more: Pick<DatedValue, "when" | "note"> = {}): DatedValue {
  return { text: "practice", value, confirmed: "practice", ...more };
}
