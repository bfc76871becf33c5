/** Short writing for dated values, one row a line. Internal to the venting tables. */
import type { Conditions, Confirmed, DatedValue, Text } from "../core/basis/index.js";

/** One dated value: text, first and last edition, section, value, how confirmed. */
export function row(
  text: Text,
  from: number,
  to: number,
  section: string,
  value: DatedValue["value"],
  confirmed: Confirmed,
  more: { readonly when?: Conditions; readonly note?: string } = {},
): DatedValue {
  return { text, from, to, section, value, confirmed, ...more };
}

/** A habit of the trade. */
export function habit(
  value: DatedValue["value"],
  note?: string,
  more: { readonly when?: Conditions } = {},
): DatedValue {
  return { text: "practice", value, confirmed: "practice", ...(note === undefined ? {} : { note }), ...more };
}
