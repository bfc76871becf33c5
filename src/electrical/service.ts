/** Demand of a whole dwelling: the kernels. */
import { type Area, brand, inUnit, type Power } from "../core/quantity/index.js";
import { type DwellingRules, dwellingRows, lightingTiers } from "./tables/dwelling.js";

/** The rules for dwellings in an edition. */
export const dwellingRulesOf = (edition: number): DwellingRules =>
  dwellingRows.findLast(({ from }) => edition >= from) ?? dwellingRows[0]!;

/**
 * Demand of a load that is counted in full up to a bound and in part beyond it [VA].
 *
 * @param load - sum of what is connected [VA]
 * @param first - counted in full up to here [VA]
 * @param rest - share of what is beyond [-]
 * @example tieredDemand(si(29700, "VA"), si(10000, "VA"), 0.4) // 17880
 */
export function tieredDemand(load: Power, first: Power, rest: number): Power {
  return brand<"power">(Math.min(load, first) + rest * Math.max(0, load - first));
}

/**
 * Demand of general lighting, small-appliance and laundry circuits of a dwelling by the standard method [VA].
 *
 * @basis NEC 2017, Table 220.42
 * @example lightingDemand(si(9000, "VA")) // 5100
 */
export function lightingDemand(load: Power): Power {
  let from = 0;
  let sum = 0;
  for (const { upTo_VA, percent } of lightingTiers) {
    sum += (percent / 100) * Math.max(0, Math.min(load, upTo_VA) - from);
    from = upTo_VA;
  }
  return brand<"power">(sum);
}

/**
 * General load of a dwelling [VA]: lighting by floor area, and its small-appliance and laundry circuits.
 *
 * @param area - floor area [m²]
 * @param circuits - number of small-appliance and laundry circuits
 * @example generalLoad(si(1500, "ft2"), 3, 2020) // 9000
 */
export function generalLoad(area: Area, circuits: number, edition: number): Power {
  const { lighting_VA_ft2, circuit_VA } = dwellingRulesOf(edition);
  return brand<"power">(lighting_VA_ft2 * inUnit(area, "ft2") + circuit_VA * circuits);
}
