/** Loads of a dwelling for its service. */

/** NEC 220.83(A) for existing dwellings (120.83 in 2026), and 220.12, 220.52 for what goes into it. */
export interface DwellingRules {
  readonly from: number;
  /** General lighting and receptacles [VA per ft²]. */
  readonly lighting_VA_ft2: number;
  /** Each small-appliance and each laundry circuit [VA]. */
  readonly circuit_VA: number;
  /** Counted in full up to here [VA]. */
  readonly first_VA: number;
  /** What is counted of the rest. */
  readonly rest_percent: number;
}

/** Newest last; each row holds until the next. The tiers of 2026 are from memory. */
export const dwellingRows: readonly DwellingRules[] = [
  { from: 2014, lighting_VA_ft2: 3, circuit_VA: 1500, first_VA: 8000, rest_percent: 40 },
  { from: 2026, lighting_VA_ft2: 2, circuit_VA: 1500, first_VA: 8000, rest_percent: 40 },
];

/** NEC Table 220.42 (220.45 in 2023): demand of general lighting in dwellings, by tiers [VA] from zero. */
export const lightingTiers: readonly { readonly upTo_VA: number; readonly percent: number }[] = [
  { upTo_VA: 3000, percent: 100 },
  { upTo_VA: 120_000, percent: 35 },
  { upTo_VA: Number.POSITIVE_INFINITY, percent: 25 },
];
