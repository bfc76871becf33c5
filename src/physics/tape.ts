/** How far a tape measure may be off. */

import type { Length } from "../core/quantity/dimension.js";
import { brand, inUnit, si } from "../core/quantity/si.js";

/**
 * Accuracy classes of material measures of length: limit a + b·L, L in whole metres rounded up, and c more where an end is
 * a surface. In millimetres, and millimetres a metre. Directive 2014/32/EU, annex X (MI-008), chapter I; the same in UK SI
 * 2016/1153, schedule 1I, chapter 1, paragraph 2 (seen) and OIML R 35.
 */
export const tapeClasses = {
  I: { a_mm: 0.1, b_mm: 0.1, c_mm: 0.1 },
  II: { a_mm: 0.3, b_mm: 0.2, c_mm: 0.2 },
  III: { a_mm: 0.6, b_mm: 0.4, c_mm: 0.3 },
} as const;

/** The class printed on a tape. */
export type TapeClass = keyof typeof tapeClasses;

/**
 * Limits for metal tapes in the United States, from zero: up to so many feet, so many inches. NIST Handbook 44, section
 * 5.52, maintenance and acceptance tolerances (seen as quoted). Between the printed rows the larger limit holds.
 */
export const usTapeLimits = [
  { upTo_ft: 6, limit_in: 1 / 32 },
  { upTo_ft: 30, limit_in: 1 / 16 },
  { upTo_ft: 55, limit_in: 1 / 8 },
  { upTo_ft: 80, limit_in: 3 / 16 },
  { upTo_ft: 100, limit_in: 1 / 4 },
] as const;

/** Lengths this little beyond a whole number, relatively, are that number. */
const SLACK = 1e-9;

/**
 * Greatest error allowed for a tape of an accuracy class between two marks [m]: ± (a + b·L), L rounded up to whole metres;
 * c more from a hook or an end tab.
 *
 * @param tapeClass - printed on the tape
 * @param length - measured, at least 0 [m]
 * @param fromHook - whether one end is a surface
 * @see Directive 2014/32/EU, annex X, chapter I
 * @example tapeLimit("II", 2.3, true) // 0.0011
 */
export function tapeLimit(tapeClass: TapeClass, length: Length, fromHook: boolean): Length {
  if (!(length >= 0 && length < Infinity)) throw new RangeError(`a length of ${length} m is none`);
  const { a_mm, b_mm, c_mm } = tapeClasses[tapeClass];
  const metres = Math.ceil(length * (1 - SLACK));
  return si(a_mm + b_mm * metres + (fromHook ? c_mm : 0), "mm");
}

/**
 * Greatest error allowed for a metal tape in the United States, measured from its zero [m].
 *
 * @param length - measured, up to 100 ft [m]
 * @throws RangeError beyond 100 ft, where the table ends
 * @see NIST Handbook 44, section 5.52
 * @example usTapeLimit(2.4384) // 0.0015875
 */
export function usTapeLimit(length: Length): Length {
  if (!(length >= 0)) throw new RangeError(`a length of ${length} m is none`);
  const feet = inUnit(length, "ft") * (1 - SLACK);
  const row = usTapeLimits.find(({ upTo_ft }) => feet <= upTo_ft);
  if (row === undefined)
    throw new RangeError(`the table of limits ends at 100 ft; ${brand<"length">(length)} m is beyond`);
  return si(row.limit_in, "in");
}
