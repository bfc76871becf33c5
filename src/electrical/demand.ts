/** Demand of cooking appliances and dryers: the kernels. */
import { brand, inUnit, type Power, si } from "../core/quantity/index.js";
import { cookingBounds, cookingRows, cookingSpans, dryerFloor_VA, dryerRows, dryerRows2026 } from "./tables/demand.js";

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

/** Appliances of one rating. */
export interface RatedGroup {
  /** Rating of each [W]. */
  readonly rating: Power;
  readonly count: number;
}

/** How many appliances a list holds. */
export const countOf = (groups: readonly RatedGroup[]): number => groups.reduce((sum, { count }) => sum + count, 0);

/**
 * Average rating of ranges for the raise of column C [W]: those below 12 kW count as 12 kW (note 2).
 *
 * @param groups - at least one appliance
 * @example raisedAverage([{ rating: si(8, "kW"), count: 1 }, { rating: si(16, "kW"), count: 1 }]) // 14000
 */
export function raisedAverage(groups: readonly RatedGroup[]): Power {
  const least = cookingBounds.c_kW * 1000;
  const sum = groups.reduce((total, { rating, count }) => total + count * Math.max(rating, least), 0);
  return brand<"power">(sum / countOf(groups));
}

/** Demand of cooking appliances by the two ways of the table. */
export interface CookingDemand {
  /** All by column C, raised above 12 kW [W]. */
  readonly byC: Power;
  /** Column C before the raise [W]. */
  readonly beforeRaise: Power;
  /** Whole kilowatts, or major fractions, above 12. */
  readonly excess: number;
  /** Those of up to 8¾ kW by columns A and B, each with the number in that column, the larger ones by column C [W]. */
  readonly byColumns: Power;
  /** The less of the two [W]. */
  readonly demand: Power;
}

/** Column C for some appliances with its raise [W]; nothing for none. */
const raisedC = (groups: readonly RatedGroup[]): number =>
  groups.length === 0
    ? 0
    : cookingDemandC(countOf(groups)) *
      (1 + percent(cookingBounds.raise_percent) * excessKilowatts(raisedAverage(groups)));

/**
 * Demand of household cooking appliances on a feeder or service [W].
 *
 * @param groups - appliances by rating, each above 1¾ and up to 27 kW; at least one
 * @basis NEC 2017, Table 220.55, notes 1 to 3
 * @example cookingDemand([{ rating: si(16, "kW"), count: 24 }]).demand // 46800
 */
export function cookingDemand(groups: readonly RatedGroup[]): CookingDemand {
  const { b_kW, large_kW } = cookingBounds;
  const inA = groups.filter(({ rating }) => inUnit(rating, "kW") < b_kW * (1 - 1e-9));
  const large = groups.filter(({ rating }) => inUnit(rating, "kW") > large_kW * (1 + 1e-9));
  const inB = groups.filter((group) => !inA.includes(group) && !large.includes(group));
  const sum = (some: readonly RatedGroup[]): number =>
    some.reduce((total, { rating, count }) => total + count * rating, 0);
  const shareOf = (some: readonly RatedGroup[], factor: (count: number) => number): number =>
    some.length === 0 ? 0 : factor(countOf(some)) * sum(some);
  const byC = raisedC(groups);
  const byColumns = shareOf(inA, cookingFactorA) + shareOf(inB, cookingFactorB) + raisedC(large);
  return {
    byC: brand<"power">(byC),
    beforeRaise: cookingDemandC(countOf(groups)),
    excess: excessKilowatts(raisedAverage(groups)),
    byColumns: brand<"power">(byColumns),
    demand: brand<"power">(Math.min(byC, byColumns)),
  };
}

/**
 * Demand factor of household dryers by their number [-], by the table of 2014 to 2023.
 *
 * @example dryerFactor(16) // 0.42
 */
export function dryerFactor(count: number): number {
  const [from, least, lessForEach] = dryerRows.findLast(([first]) => count >= first)!;
  return percent(least - lessForEach * (count - from));
}

/**
 * Demand factor of household dryers by the table of 2026 [-], or `undefined` for numbers whose row was not found.
 *
 * @example dryerFactor2026(3) // 0.8
 */
export function dryerFactor2026(count: number): number | undefined {
  const { one, percent1, some, percent2, many, percent3 } = dryerRows2026;
  if (count <= one) return percent(percent1);
  if (count <= some) return percent(percent2);
  return count >= many ? percent(percent3) : undefined;
}

/**
 * Load of dryers before the demand factor [W]: each at its rating, or 5000 VA where that is more. For feeders and
 * services only; a dryer's own circuit follows its plate.
 *
 * @example connectedDryers([{ rating: si(4, "kW"), count: 1 }]) // 5000
 */
export function connectedDryers(groups: readonly RatedGroup[]): Power {
  return brand<"power">(
    groups.reduce((total, { rating, count }) => total + count * Math.max(rating, dryerFloor_VA), 0),
  );
}
