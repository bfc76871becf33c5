/** Water running by its own weight in round drains: partly full sloping pipes, and the ring of water down a stack. */
import type { Area, Length, Ratio, Slope, Speed, VolumeFlow } from "../core/quantity/dimension.js";
import { brand, inUnit, si } from "../core/quantity/si.js";
import { requireNotNegative, requirePositive, requireWithin } from "./domain.js";
import { brent } from "./roots.js";

/** The water in a partly full round pipe. */
export interface PipeFill {
  /** Angle at the centre over the water, θ: 0 empty, 2π full [rad]. */
  readonly angle: number;
  /** Area of the water [m²]. */
  readonly area: Area;
  /** Wall that the water wets [m]. */
  readonly wetted: Length;
  /** Area over wetted wall, 0 when empty [m]. */
  readonly hydraulicRadius: Length;
}

/**
 * The section of the water in a partly full round pipe.
 *
 * θ = 2·arccos(1 − 2·y/D), A = D²/8·(θ − sin θ), P = D·θ/2, R = A/P.
 *
 * @param diameter - D, inside [m]
 * @param depth - y/D, 0 to 1
 * @throws RangeError when a value is out of its range
 * @example pipeFill(0.1, 0.5).hydraulicRadius // 0.025
 */
export function pipeFill(diameter: Length, depth: Ratio): PipeFill {
  requirePositive("diameter", diameter);
  requireWithin("depth over diameter", depth, 0, 1);
  // 4·arcsin √(y/D) is the same angle and keeps its digits when the pipe is nearly empty.
  const angle = 4 * Math.asin(Math.sqrt(Math.min(1, Math.max(0, depth))));
  const area = (diameter ** 2 / 8) * (angle - Math.sin(angle));
  const wetted = (diameter * angle) / 2;
  return {
    angle,
    area: brand<"area">(area),
    wetted: brand<"length">(wetted),
    hydraulicRadius: brand<"length">(wetted === 0 ? 0 : area / wetted),
  };
}

/**
 * Mean speed of steady flow in a sloping channel or drain [m/s]; after Manning.
 *
 * v = R^(2/3)·S^(1/2)/n, fully rough turbulent flow.
 *
 * @param hydraulicRadius - R, 0 or more [m]
 * @param slope - S, 0 or more [m/m]
 * @param roughness - n, some 0.009 for PVC to 0.013 for cast iron [s/m^(1/3)]
 * @throws RangeError when a value is out of its range
 * @example manningVelocity(0.0131255, 0.02083333, 0.009) // 0.8924
 */
export function manningVelocity(hydraulicRadius: Length, slope: Slope, roughness: number): Speed {
  requireNotNegative("hydraulic radius", hydraulicRadius);
  requireNotNegative("slope", slope);
  requirePositive("Manning's n", roughness);
  return brand<"speed">((hydraulicRadius ** (2 / 3) * Math.sqrt(slope)) / roughness);
}

/** A sloping round drain. */
export interface Drain {
  /** Inside diameter [m]. */
  readonly diameter: Length;
  /** Fall along the pipe [m/m]. */
  readonly slope: Slope;
  /** Manning's n [s/m^(1/3)]. */
  readonly roughness: number;
}

/**
 * Steady flow of a round drain at a depth [m³/s]: the area of {@link pipeFill} times {@link manningVelocity}.
 *
 * Half full it runs as fast as full; it carries most, 1.076 of the full flow, at y/D 0.938.
 *
 * @param drain - the pipe
 * @param depth - y/D, 0 to 1
 * @throws RangeError when a value is out of its range
 * @example drainFlow({ diameter: 0.0525018, slope: 1 / 48, roughness: 0.009 }, 0.5) // 9.66e-4
 */
export function drainFlow(drain: Drain, depth: Ratio): VolumeFlow {
  const { area, hydraulicRadius } = pipeFill(drain.diameter, depth);
  return brand<"volumeFlow">(area * manningVelocity(hydraulicRadius, drain.slope, drain.roughness));
}

/**
 * y/D of greatest flow by Manning, where A^(5/3)/P^(2/3) is greatest: 3·θ − 5·θ·cos θ + 2·sin θ = 0, θ near 302.4°, and
 * y/D = (1 − cos(θ/2))/2.
 */
const FULLEST = 0.938181;

/**
 * Depth over diameter at which a drain carries a flow, a ratio; undefined where it carries the flow at no depth.
 *
 * The lower of two depths where two carry it.
 *
 * @param drain - the pipe; its slope above 0
 * @param flow - 0 or more [m³/s]
 * @throws RangeError when a value is out of its range
 * @example drainDepth({ diameter: 0.0525018, slope: 1 / 48, roughness: 0.009 }, 9.66e-4) // 0.5
 */
export function drainDepth(drain: Drain, flow: VolumeFlow): Ratio | undefined {
  requireNotNegative("volume flow", flow);
  requirePositive("slope", drain.slope);
  if (flow > drainFlow(drain, brand<"ratio">(FULLEST))) return undefined;
  return brand<"ratio">(brent((y) => drainFlow(drain, brand<"ratio">(y)) - flow, 0, FULLEST, 1e-14));
}

/** q = 27.8·r^(5/3)·d^(8/3) US gal/min, d in in. */
const STACK = 27.8;

/**
 * Flow of a vertical drain stack whose water runs as a ring down the wall, at its terminal speed [m³/s].
 *
 * q = 27.8·r^(5/3)·d^(8/3), US gal/min and in. Codes let r reach 1/4 to 1/3.
 *
 * @param diameter - d, inside [m]
 * @param share - r, water's share of the area, 0 to 1
 * @throws RangeError when a value is out of its range
 * @see R. S. Wyly and H. N. Eaton, National Bureau of Standards Monograph 31, 1961 (from memory)
 * @example stackFlow(0.0508, 0.25) / 6.30902e-5 // 17.5
 */
export function stackFlow(diameter: Length, share: Ratio): VolumeFlow {
  requirePositive("diameter", diameter);
  requireWithin("water's share of the area", share, 0, 1);
  return si(STACK * share ** (5 / 3) * inUnit(diameter, "in") ** (8 / 3), "gpm");
}
