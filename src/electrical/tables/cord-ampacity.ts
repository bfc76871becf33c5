/** Ampacity of flexible cords. */
import type { AwgSize } from "../../core/quantity/index.js";

/** One row: ampacity [A] with three current-carrying conductors (column A) and with two (column B). */
export interface CordRow {
  readonly size: AwgSize;
  readonly three_A: number;
  readonly two_A: number;
}

/**
 * NEC Table 400.5(A)(1) (2017), 30 °C, at most three current-carrying conductors; the gauges that household cords
 * come in.
 */
export const cordRows: readonly CordRow[] = [
  { size: "18 AWG", three_A: 7, two_A: 10 },
  { size: "16 AWG", three_A: 10, two_A: 13 },
  { size: "14 AWG", three_A: 15, two_A: 18 },
  { size: "12 AWG", three_A: 20, two_A: 25 },
  { size: "10 AWG", three_A: 25, two_A: 30 },
  { size: "8 AWG", three_A: 35, two_A: 40 },
  { size: "6 AWG", three_A: 45, two_A: 55 },
];
