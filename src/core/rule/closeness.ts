/** How closely to measure again, and with what. */
import { type Dimension, same, si, type UnitSystem } from "../quantity/index.js";
import { differenceOf, type SlotKind, showSlot } from "./message.js";

/** What reads a length to a given half-width [m], finest last. Common practice, no source. */
const lengthTools: readonly { readonly from: number; readonly tool: string }[] = [
  { from: si(1 / 8, "in"), tool: "a tape pulled tight" },
  { from: si(1 / 16, "in"), tool: "a tape read to its sixteenths" },
  { from: si(1 / 64, "in"), tool: "a steel rule" },
  { from: 0, tool: "a caliper or a feeler gauge" },
];

/** One tolerance in doubt: the room to the limit, and how much of the doubt a tolerance makes. */
export interface Doubt {
  /** Distance of the compared value from its limit. */
  readonly room: number;
  /** The limit, to tell a value on it from one beside it. */
  readonly limit: number;
  /** The tolerance's share of the compared value, and its own half-width. */
  readonly contribution: number;
  readonly plusMinus: number;
  /** Whether no other tolerance adds to the doubt; only then does it follow how closely to measure. */
  readonly alone: boolean;
}

/**
 * What to do about a measurement that is too coarse to tell, as the end of "measure again, ...".
 *
 * @param kind - the kind the half-width is shown as
 */
export function howClosely(doubt: Doubt, kind: SlotKind, dimension: Dimension, units: UnitSystem): string {
  const { room, limit, contribution, plusMinus, alone } = doubt;
  if (!alone || !Number.isFinite(contribution)) return "as closely as you can";
  if (same(limit + room, limit)) {
    return "as closely as you can; no instrument settles a reading that is exactly on the limit, only more room does";
  }
  const enough = (room / contribution) * plusMinus;
  const closely = `to better than ± ${showSlot(enough, differenceOf(kind), units)}`;
  if (dimension !== "length") return closely;
  return `${closely}, with ${lengthTools.find(({ from }) => enough >= from)!.tool}`;
}
