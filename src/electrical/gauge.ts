/** Gauges as numbers, for tables that are kept by them. */
import type { AwgSize } from "../core/quantity/index.js";

/**
 * The number of a gauge: 1/0 is 0, 4/0 is -3.
 *
 * @example gaugeNumber("2/0 AWG") // -1
 */
export const gaugeNumber = (size: AwgSize): number =>
  size.includes("/0") ? 1 - Number.parseInt(size, 10) : Number.parseInt(size, 10);
