/** Equipment grounding conductors: the table, and the increase with larger circuit conductors. */
import { awgSizes, type ConductorSize, type Current, kcmilSizes } from "../core/quantity/index.js";
import type { Metal } from "./circuit.js";
import { groundRows } from "./tables/grounding.js";
import { resistanceRows } from "./tables/resistance.js";

/**
 * Area of a conductor as the code's own table prints it [circular mils]; a kcmil size is its name.
 *
 * @example printedArea("6 AWG") // 26240
 */
export function printedArea(size: ConductorSize): number {
  const printed = resistanceRows.find((row) => row.size === size)?.cmil;
  return printed ?? 1000 * Number.parseFloat(size);
}

/** Sizes of the code's conductor tables, small to large. */
const tableSizes: readonly ConductorSize[] = [...awgSizes, ...kcmilSizes];

/**
 * Least equipment grounding conductor for an overcurrent device, or `undefined` above 1200 A.
 *
 * @basis NEC 2017, Table 250.122
 * @example groundFor(si(50, "A"), "copper") // "10 AWG"
 */
export function groundFor(rating: Current, metal: Metal): ConductorSize | undefined {
  return groundRows.find(({ upTo_A }) => rating <= upTo_A * (1 + 1e-9))?.[metal];
}

/**
 * Equipment grounding conductor enlarged in proportion to the circuit conductors.
 *
 * area = table · installed / least, with unrounded ratios and the areas that the code's own table prints; then the next
 * size up. A result that is above a size by the rounding of those areas alone goes to the larger size. Never larger than
 * the circuit conductors.
 *
 * @param table - size by the table
 * @param least - least size of the circuit conductors
 * @param installed - size that is installed
 * @basis NEC 2017, 250.122(A) and (B)
 * @example enlargedGround("10 AWG", "8 AWG", "1 AWG") // "3 AWG"
 */
export function enlargedGround(table: ConductorSize, least: ConductorSize, installed: ConductorSize): ConductorSize {
  const ratio = printedArea(installed) / printedArea(least);
  if (ratio <= 1) return table;
  const wanted = printedArea(table) * ratio;
  const size = tableSizes.find((one) => printedArea(one) >= wanted * (1 - 1e-12)) ?? installed;
  return printedArea(size) > printedArea(installed) ? installed : size;
}
