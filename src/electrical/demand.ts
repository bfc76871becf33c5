/** Demand of cooking appliances and dryers: the kernels. */
import { brand, inUnit, type Power, si } from "../core/quantity/index.js";
import { cookingBounds, cookingRows, cookingSpans } from "./tables/demand.js";

/** A share that a table prints in per cent, as a number [-]. */
const percent = (value: number): number => value / 100;

/**
 * Column A of the cooking table [-]: appliances of less than 3½ kW.
 *
 * @param count - number of them, 1 or more
 * @example cookingFactorA(4) // 0.66
 */
export function cookingFactorA(count: number): number {
  const row = cookingRows.find(({ appliances }) => appliances === count);
  return percent(row?.a_percent ?? cookingSpans.find(({ from }) => count >= from)!.a_percent);
}

/**
 * Column B of the cooking table [-]: appliances of 3½ to 8¾ kW.
 *
 * @example cookingFactorB(2) // 0.65
 */
export function cookingFactorB(count: number): number {
  const row = cookingRows.find(({ appliances }) => appliances === count);
  return percent(row?.b_percent ?? cookingSpans.find(({ from }) => count >= from)!.b_percent);
}

/**
 * Column C of the cooking table [W]: most demand of ranges of not over 12 kW each.
 *
 * @example cookingDemandC(26) // 41000
 */
export function cookingDemandC(count: number): Power {
  const row = cookingRows.find(({ appliances }) => appliances === count);
  const span = cookingSpans.find(({ from }) => count >= from);
  return si(row?.c_kW ?? span!.base_kW + span!.each_kW * count, "kW");
}

/**
 * Whole kilowatts by which a rating exceeds 12 kW, a major fraction (½ kW and more) counting as one.
 *
 * @param rating - rating, or the average of unequal ratings [W]
 * @example excessKilowatts(si(14.5, "kW")) // 3
 */
export function excessKilowatts(rating: Power): number {
  const excess = inUnit(rating, "kW") - cookingBounds.c_kW;
  return Math.max(0, Math.floor(excess + 0.5 + 1e-9));
}

/**
 * Demand of one household range on its branch circuit [W]: column C of the cooking table with its raise above 12 kW, or
 * the share of column A or B where that is less; its rating where the table does not apply.
 *
 * @param rating - rating on the plate [W], up to 27 kW
 * @basis NEC 2017, Table 220.55, notes 1, 3 and 4
 * @example rangeCircuitDemand(si(14, "kW")) // 8800
 */
export function rangeCircuitDemand(rating: Power): Power {
  const kilowatts = inUnit(rating, "kW");
  const { above_kW, b_kW, large_kW, raise_percent } = cookingBounds;
  if (kilowatts <= above_kW) return rating;
  const byC = cookingDemandC(1) * (1 + percent(raise_percent) * excessKilowatts(rating));
  if (kilowatts > large_kW) return brand<"power">(byC);
  const share = kilowatts < b_kW ? cookingFactorA(1) : cookingFactorB(1);
  return brand<"power">(Math.min(byC, share * rating));
}
