/** Friction loss of cold water in pipes by the trade's power law. */
import type { Length, VolumeFlow } from "../core/quantity/dimension.js";
import { brand, inUnit } from "../core/quantity/si.js";
import { requireNotNegative, requirePositive } from "./domain.js";

/** h = 0.2083·(100/C)^1.852·q^1.852/d^4.8655, in ft of head per 100 ft, US gal/min and in. */
const FACTOR = 0.2083;
const FLOW_EXPONENT = 1.852;
const BORE_EXPONENT = 4.8655;
const PER_LENGTH = 100;
const PER_ROUGHNESS = 100;

/**
 * Head lost by water in a straight pipe [m of water].
 *
 * h = 0.2083·(100/C)^1.852·q^1.852/d^4.8655 ft per 100 ft, q in US gal/min, d in in (in SI: 10.67·L·Q^1.852/(C^1.852·D^4.87)).
 * Best for cold water near 1 m/s; below the Darcy–Weisbach loss by some 10 % in small pipes, above it in hot water.
 *
 * @param flow - q, 0 or more [m³/s]
 * @param diameter - d, inside [m]
 * @param length - L, 0 or more [m]
 * @param coefficient - C, some 150 for smooth new tube down to 100 for old galvanized pipe
 * @throws RangeError when a value is out of its range
 * @see the Hazen–Williams formula; seen in two places that agree, one of them after a plumbing engineering data book
 * @example hazenWilliamsHead(2.523608e-4, 0.013843, 15.24, 150) / 0.3048 // 12.28
 */
export function hazenWilliamsHead(flow: VolumeFlow, diameter: Length, length: Length, coefficient: number): Length {
  requireNotNegative("volume flow", flow);
  requirePositive("diameter", diameter);
  requireNotNegative("length", length);
  requirePositive("Hazen-Williams coefficient", coefficient);
  const perHundred =
    (FACTOR * (PER_ROUGHNESS / coefficient) ** FLOW_EXPONENT * inUnit(flow, "gpm") ** FLOW_EXPONENT) /
    inUnit(diameter, "in") ** BORE_EXPONENT;
  return brand<"length">((perHundred / PER_LENGTH) * length);
}
