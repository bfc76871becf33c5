/** Reads quantities in odd compound units that the table does not have, with mathjs, loaded only when asked for. */
import type { Unit as MathUnit } from "mathjs";
import { type Dimension, dimensions, type Quantity } from "./dimension.js";

/** A number, then unit names joined by `/`, `*`, `^`, brackets and spaces: nothing that can be evaluated. */
const COMPOUND = /^([-+]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?) +([A-Za-z(][A-Za-z0-9^*/() ]*)$/;

/**
 * Reads a quantity in a compound unit that mathjs can put together, for example a thermal resistance in
 * `(hour ft^2 degF)/BTU`. Unit names are those of mathjs. The text is parsed as a unit and never evaluated.
 *
 * Temperatures are left out: compound units know no zero point, so use `readQuantity`.
 *
 * @param text - a number, a space, and the unit; at most 100 characters
 * @param dimension - what the quantity must measure
 * @throws RangeError where the text is no such quantity, saying what to write
 * For example `8 (hour ft^2 degF)/BTU` as a thermal resistance is 1.4089 m²·K/W.
 */
export async function readCompound<D extends Exclude<Dimension, "temperature" | "temperatureDifference">>(
  text: string,
  dimension: D,
): Promise<Quantity<D>> {
  const refuse = (why: string): RangeError =>
    new RangeError(
      `${why}; write a number, a space and a unit that amounts to ${dimensions[dimension].symbol || "a plain ratio"}`,
    );
  if (text.length > 100) throw refuse("a quantity has at most 100 characters");
  const parts = COMPOUND.exec(text.trim());
  if (!parts) throw refuse(`"${text}" is not a number with a compound unit`);
  const { unit } = await import("mathjs");
  let read: MathUnit;
  let wanted: MathUnit;
  try {
    read = unit(Number(parts[1]), parts[2]!) as unknown as MathUnit;
    wanted = unit(1, dimensions[dimension].math || "m/m") as unknown as MathUnit;
  } catch {
    throw refuse(`"${parts[2]}" has a unit name that is not known`);
  }
  if (!read.equalBase(wanted)) throw refuse(`"${parts[2]}" is not a unit of ${dimension}`);
  const value = read.toSI().toJSON().value;
  if (!Number.isFinite(value)) throw refuse("the number is too large");
  return value as Quantity<D>;
}
