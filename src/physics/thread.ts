/** Strength of screw threads: how much of a foot's thread has to stay in its nut. */

import type { Area, Length } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";

/** The height of the sharp thread triangle less a part of it, in pitches: what the stress diameter is below the nominal. */
const STRESS_PITCHES = { unified: 0.9743, metric: 0.9382 } as const;

function requireThread(nominal: number, pitch: number): void {
  if (!(pitch > 0 && nominal > pitch && nominal < Infinity))
    throw new RangeError(`a thread of ${nominal} m at a pitch of ${pitch} m is none`);
}

/**
 * Tensile stress area of a screw thread [m²]: (π/4)·(d − 0.9743·P)² for unified threads, 0.9382·P for metric ones.
 *
 * @param nominal - d, above the pitch [m]
 * @param pitch - P, above 0 [m]
 * @param system - whose factor to use
 * @see ASME B1.1, appendix B; ISO 898-1 (seen in two paraphrases of handbooks that agree)
 * @example threadStressArea(0.008, 0.00125, "metric") // 0.0000366
 */
export function threadStressArea(nominal: Length, pitch: Length, system: keyof typeof STRESS_PITCHES): Area {
  requireThread(nominal, pitch);
  return brand<"area">((Math.PI / 4) * (nominal - STRESS_PITCHES[system] * pitch) ** 2);
}

/** Diameters of a thread and its nut at their loosest [m]. */
export interface ThreadLimits {
  /** Es: smallest pitch diameter of the screw. */
  readonly leastPitchDiameter: Length;
  /** Kn: largest minor diameter of the nut. */
  readonly greatestMinorDiameter: Length;
}

/**
 * Length of thread that must be engaged for the screw to break before its thread strips, in equal materials [m].
 *
 * Le = 2·At/(π·Kn·[½ + 0.57735·(Es − Kn)/P]). About 0.7 d; the rule of 1 d in steel has that in hand already, 1.5 d is for
 * weaker nuts. A foot that only carries weight needs far less.
 *
 * @param area - At, tensile stress area [m²]
 * @param pitch - P, above 0 [m]
 * @param limits - Es and Kn [m]
 * @see FED-STD-H28 and Machinery's Handbook, 24th edition, length of engagement (seen in paraphrase)
 * @example engagementForStrength(2.0529e-5, 0.00127, { leastPitchDiameter: 0.0054026, greatestMinorDiameter: 0.0052578 }) // 0.00439
 */
export function engagementForStrength(area: Area, pitch: Length, limits: ThreadLimits): Length {
  const { leastPitchDiameter: es, greatestMinorDiameter: kn } = limits;
  requireThread(kn, pitch);
  if (!(area > 0 && es > kn))
    throw new RangeError("a thread has an area, and a pitch diameter above the nut's minor diameter");
  return brand<"length">((2 * area) / (Math.PI * kn * (1 / 2 + (Math.tan(Math.PI / 6) * (es - kn)) / pitch)));
}
