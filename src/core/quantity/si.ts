import type { Dimension, Quantity } from "./dimension.js";
import { type DimensionOf, type Unit, type UnitsOf, unitFacts } from "./units.js";

/**
 * A value in a unit of the table as a branded SI number.
 *
 * si = value · factor + zero; only temperatures have a zero.
 *
 * @param value - the number in `unit`; any finite number
 * @param unit - an id of the unit table
 * @example si(22, "in") // 0.5588
 */
export function si<U extends Unit>(value: number, unit: U): Quantity<DimensionOf<U>> {
  const { factor, zero } = unitFacts(unit);
  return (zero === undefined ? value * factor : value * factor + zero) as Quantity<DimensionOf<U>>;
}

/**
 * A branded SI number as a plain number in a unit of its own dimension. Not rounded.
 *
 * @param quantity - the SI number
 * @param unit - an id of the unit table, of the same dimension
 * @example inUnit(si(0.5588, "m"), "in") // 22
 */
export function inUnit<D extends Dimension>(quantity: Quantity<D>, unit: UnitsOf<D>): number {
  const { factor, zero } = unitFacts(unit);
  return zero === undefined ? quantity / factor : (quantity - zero) / factor;
}

/** Brands a number that already is in the SI unit of the dimension; the caller vouches for it. */
export function brand<D extends Dimension>(value: number): Quantity<D> {
  return value as Quantity<D>;
}
