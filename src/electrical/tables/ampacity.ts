/** Ampacity of insulated conductors, its corrections, and the overcurrent ratings that protect them. */
import type { AwgSize } from "../../core/quantity/index.js";

/** Columns of the ampacity table by temperature rating [°C]. */
export type Column = 60 | 75 | 90;

/** One row: ampacity [A] of copper and of aluminum at 60, 75 and 90 °C; `null` where the table has no aluminum. */
export interface AmpacityRow {
  readonly size: AwgSize;
  readonly copper_A: readonly [number, number, number];
  readonly aluminum_A: readonly [number, number, number] | null;
}

/**
 * NEC Table 310.16 (2020 and later; 310.15(B)(16) in 2014 and 2017): at most three current-carrying conductors in
 * raceway, cable or earth, 30 °C ambient. The same in every edition named here; tables of 2008 and before differ.
 */
export const ampacityRows: readonly AmpacityRow[] = [
  { size: "14 AWG", copper_A: [15, 20, 25], aluminum_A: null },
  { size: "12 AWG", copper_A: [20, 25, 30], aluminum_A: [15, 20, 25] },
  { size: "10 AWG", copper_A: [30, 35, 40], aluminum_A: [25, 30, 35] },
  { size: "8 AWG", copper_A: [40, 50, 55], aluminum_A: [35, 40, 45] },
  { size: "6 AWG", copper_A: [55, 65, 75], aluminum_A: [40, 50, 55] },
  { size: "4 AWG", copper_A: [70, 85, 95], aluminum_A: [55, 65, 75] },
  { size: "3 AWG", copper_A: [85, 100, 115], aluminum_A: [65, 75, 85] },
  { size: "2 AWG", copper_A: [95, 115, 130], aluminum_A: [75, 90, 100] },
  { size: "1 AWG", copper_A: [110, 130, 145], aluminum_A: [85, 100, 115] },
  { size: "1/0 AWG", copper_A: [125, 150, 170], aluminum_A: [100, 120, 135] },
  { size: "2/0 AWG", copper_A: [145, 175, 195], aluminum_A: [115, 135, 150] },
  { size: "3/0 AWG", copper_A: [165, 200, 225], aluminum_A: [130, 155, 175] },
  { size: "4/0 AWG", copper_A: [195, 230, 260], aluminum_A: [150, 180, 205] },
];

/**
 * NEC Table 310.15(B)(1) (2020; 310.15(B)(2)(a) before): correction for ambient temperatures other than 30 °C. Each row
 * is for ambients up to `upTo_C`, from the row before.
 */
export const ambientRows: readonly {
  readonly upTo_C: number;
  readonly factors: readonly [number | null, number | null, number];
}[] = [
  { upTo_C: 10, factors: [1.29, 1.2, 1.15] },
  { upTo_C: 15, factors: [1.22, 1.15, 1.12] },
  { upTo_C: 20, factors: [1.15, 1.11, 1.08] },
  { upTo_C: 25, factors: [1.08, 1.05, 1.04] },
  { upTo_C: 30, factors: [1, 1, 1] },
  { upTo_C: 35, factors: [0.91, 0.94, 0.96] },
  { upTo_C: 40, factors: [0.82, 0.88, 0.91] },
  { upTo_C: 45, factors: [0.71, 0.82, 0.87] },
  { upTo_C: 50, factors: [0.58, 0.75, 0.82] },
  { upTo_C: 55, factors: [0.41, 0.67, 0.76] },
  { upTo_C: 60, factors: [null, 0.58, 0.71] },
  { upTo_C: 65, factors: [null, 0.47, 0.65] },
  { upTo_C: 70, factors: [null, 0.33, 0.58] },
  { upTo_C: 75, factors: [null, null, 0.5] },
  { upTo_C: 80, factors: [null, null, 0.41] },
  { upTo_C: 85, factors: [null, null, 0.29] },
];

/** NEC Table 310.15(C)(1) (2020; 310.15(B)(3)(a) before): adjustment for more than three current-carrying conductors. */
export const bundleRows: readonly (readonly [upTo: number, factor: number])[] = [
  [3, 1],
  [6, 0.8],
  [9, 0.7],
  [20, 0.5],
  [30, 0.45],
  [40, 0.4],
  [Number.POSITIVE_INFINITY, 0.35],
];

/** NEC 240.4(D): most overcurrent protection of small conductors [A], whatever their corrected ampacity. */
export const smallConductors: readonly {
  readonly size: AwgSize;
  readonly copper_A: number;
  readonly aluminum_A: number | null;
}[] = [
  { size: "14 AWG", copper_A: 15, aluminum_A: null },
  { size: "12 AWG", copper_A: 20, aluminum_A: 15 },
  { size: "10 AWG", copper_A: 30, aluminum_A: 25 },
];

/** NEC 240.6(A), Table 240.6(A) since 2017: standard ratings of fuses and breakers [A]; 10 A is of 2023. */
export const standardRatings: readonly number[] = [
  15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500, 600,
  700, 800, 1000, 1200, 1600, 2000, 2500, 3000, 4000, 5000, 6000,
];

/** NEC 240.4(B): the next rating up is allowed to this rating [A]. */
export const nextUpTo_A = 800;
