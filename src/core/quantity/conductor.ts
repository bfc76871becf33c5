/**
 * Conductor sizes are names, not lengths: a gauge is a place in a series, and a metric size is another series. The two
 * are not interchangeable without a table, so comparing across them throws.
 */
import type { Area } from "./dimension.js";
import { si } from "./si.js";

/** American wire gauge sizes, small to large. */
export const awgSizes = [
  "18 AWG",
  "16 AWG",
  "14 AWG",
  "12 AWG",
  "10 AWG",
  "8 AWG",
  "6 AWG",
  "4 AWG",
  "3 AWG",
  "2 AWG",
  "1 AWG",
  "1/0 AWG",
  "2/0 AWG",
  "3/0 AWG",
  "4/0 AWG",
] as const;

/** Sizes above the gauge, by area in thousands of circular mils. */
export const kcmilSizes = ["250 kcmil", "300 kcmil", "350 kcmil", "400 kcmil", "500 kcmil"] as const;

/** Metric sizes of IEC 60228:2004, table 2, small to large. */
export const metricSizes = [
  "0.75 mm2",
  "1 mm2",
  "1.5 mm2",
  "2.5 mm2",
  "4 mm2",
  "6 mm2",
  "10 mm2",
  "16 mm2",
  "25 mm2",
  "35 mm2",
  "50 mm2",
  "70 mm2",
  "95 mm2",
] as const;

/** Every size that a survey may name. */
export const conductorSizes = [...awgSizes, ...kcmilSizes, ...metricSizes] as const;

/** A conductor size by name, for example `"12 AWG"` or `"2.5 mm2"`. */
export type ConductorSize = (typeof conductorSizes)[number];
/** A gauge size. */
export type AwgSize = (typeof awgSizes)[number];

/** Place of a size in its list; a name that is not in it is a fault of the calling code. */
function place(size: ConductorSize): number {
  const at = conductorSizes.indexOf(size);
  if (at < 0) throw new RangeError(`"${size}" is not a conductor size; the sizes are ${conductorSizes.join(", ")}`);
  return at;
}

const isMetric = (size: ConductorSize): boolean => size.endsWith("mm2");

/**
 * Area of a conductor by its name [m²].
 *
 * AWG n: diameter 0.005 in · 92^((36 − n) / 39), ASTM B258-18, section 4 (1/0 is n = 0, 4/0 is n = −3);
 * kcmil: 1000 circular mils each; mm²: the nominal area.
 *
 * @throws RangeError where the name is not one of {@link conductorSizes}
 * @example conductorArea("12 AWG") // 3.3087729e-6
 */
export function conductorArea(size: ConductorSize): Area {
  place(size);
  if (isMetric(size)) return si(Number.parseFloat(size), "mm2");
  const mils = size.endsWith("kcmil") ? Math.sqrt(1000 * Number.parseFloat(size)) : 5 * 92 ** ((36 - gauge(size)) / 39);
  return si((Math.PI / 4) * (mils / 1000) ** 2, "in2");
}

function gauge(size: ConductorSize): number {
  const zeros = /^(\d)\/0/.exec(size);
  return zeros ? 1 - Number(zeros[1]) : Number.parseInt(size, 10);
}

/**
 * Negative, zero or positive as `a` is smaller than, equal to or larger than `b`.
 *
 * @throws RangeError where one is metric and the other is not, or where a name is not one of {@link conductorSizes}
 * @example compareConductors("10 AWG", "12 AWG") > 0 // true
 */
export function compareConductors(a: ConductorSize, b: ConductorSize): number {
  const order = place(a) - place(b);
  if (isMetric(a) !== isMetric(b)) {
    throw new RangeError(`${a} and ${b} are sizes of two series; compare their ampacity or resistance from a table`);
  }
  return order;
}
