/** Demand of household cooking appliances and dryers. */

/** One row of the cooking table: columns A and B as shares, column C in kW. */
export interface CookingRow {
  readonly appliances: number;
  /** Under 3½ kW each. */
  readonly a_percent: number;
  /** 3½ to 8¾ kW each. */
  readonly b_percent: number;
  /** Not over 12 kW each. */
  readonly c_kW: number;
}

const row = (appliances: number, a_percent: number, b_percent: number, c_kW: number): CookingRow => ({
  appliances,
  a_percent,
  b_percent,
  c_kW,
});

/** NEC Table 220.55, rows of one number of appliances each; the same in every edition from 2014 to 2023. */
export const cookingRows: readonly CookingRow[] = [
  row(1, 80, 80, 8),
  row(2, 75, 65, 11),
  row(3, 70, 55, 14),
  row(4, 66, 50, 17),
  row(5, 62, 45, 20),
  row(6, 59, 43, 21),
  row(7, 56, 40, 22),
  row(8, 53, 36, 23),
  row(9, 51, 35, 24),
  row(10, 49, 34, 25),
  row(11, 47, 32, 26),
  row(12, 45, 32, 27),
  row(13, 43, 32, 28),
  row(14, 41, 32, 29),
  row(15, 40, 32, 30),
  row(16, 39, 28, 31),
  row(17, 38, 28, 32),
  row(18, 37, 28, 33),
  row(19, 36, 28, 34),
  row(20, 35, 28, 35),
  row(21, 34, 26, 36),
  row(22, 33, 26, 37),
  row(23, 32, 26, 38),
  row(24, 31, 26, 39),
  row(25, 30, 26, 40),
];

/** NEC Table 220.55, rows of many: shares from a number on, and column C as base plus so much for each appliance. */
export const cookingSpans: readonly {
  readonly from: number;
  readonly a_percent: number;
  readonly b_percent: number;
  readonly base_kW: number;
  readonly each_kW: number;
}[] = [
  { from: 61, a_percent: 30, b_percent: 16, base_kW: 25, each_kW: 0.75 },
  { from: 51, a_percent: 30, b_percent: 18, base_kW: 25, each_kW: 0.75 },
  { from: 41, a_percent: 30, b_percent: 20, base_kW: 25, each_kW: 0.75 },
  { from: 31, a_percent: 30, b_percent: 22, base_kW: 15, each_kW: 1 },
  { from: 26, a_percent: 30, b_percent: 24, base_kW: 15, each_kW: 1 },
];

/** NEC Table 220.55, heads and notes 1 to 3: ratings [kW] that part the columns, and the raise for larger ranges. */
export const cookingBounds = {
  /** The table is for appliances above this. */
  above_kW: 1.75,
  /** Column A below, column B from here on. */
  b_kW: 3.5,
  /** Column B up to here. */
  large_kW: 8.75,
  /** Column C up to here; beyond it the raise. */
  c_kW: 12,
  /** The notes end here. */
  most_kW: 27,
  /** Raise of column C for each kW or major fraction above 12. */
  raise_percent: 5,
} as const;

/** NEC Table 220.54, demand factors of household dryers, 2014 to 2023: by number, each row up to the next. */
export const dryerRows: readonly (readonly [from: number, percent: number, lessForEach: number])[] = [
  [1, 100, 0],
  [5, 85, 0],
  [6, 75, 0],
  [7, 65, 0],
  [8, 60, 0],
  [9, 55, 0],
  [10, 50, 0],
  [11, 47, 0],
  [12, 46, 1],
  [24, 34.5, 0.5],
  [43, 25, 0],
];

/** NEC Table 120.54 of 2026: only these rows were found; those between are not guessed. */
export const dryerRows2026 = { one: 2, percent1: 100, some: 5, percent2: 80, many: 43, percent3: 25 } as const;

/** NEC 220.54: least demand of one dryer [VA], for feeders and services only. */
export const dryerFloor_VA = 5000;
