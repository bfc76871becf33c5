/** Fan laws, fan curves given by points, and where a fan and a duct system meet. */
import type { Power, Pressure, VolumeFlow } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { requireNotNegative, requirePositive, requireWithin } from "./domain.js";
import { brent } from "./roots.js";

/** One state of a fan in a duct system. */
export interface FanState {
  /** Volume flow through the fan [m³/s]. */
  readonly flow: VolumeFlow;
  /** Pressure rise, static or total, as long as it stays the same kind [Pa]. */
  readonly pressure: Pressure;
  /** Shaft power [W]. */
  readonly power: Power;
}

/** New value over old of what changes between two states of like fans. */
export interface FanChange {
  /** Speed of rotation, new over old; 1 when left out. */
  readonly speed?: number;
  /** Wheel diameter of a geometrically like fan, new over old; 1 when left out. */
  readonly size?: number;
  /** Air density, new over old; 1 when left out. */
  readonly density?: number;
}

/**
 * The state of a fan, or of a like one, after a change of speed, size or density at the same point of its curve.
 *
 * Q ∝ N·D³, p ∝ N²·D²·ρ, P ∝ N³·D⁵·ρ. A change of density alone leaves the volume flow as it was. Holds while the duct
 * system's loss goes with Q² and Reynolds numbers do not change much.
 *
 * @param state - before the change
 * @param change - ratios, each above 0
 * @throws RangeError when a ratio is not above 0
 * @see the fan laws, in any fan handbook; power goes with D⁵ (D³ appears in some reprints by mistake)
 * @example scaledFan({ flow: 1, pressure: 200, power: 300 }, { speed: 1.1 }).power // 399.3
 */
export function scaledFan(state: FanState, change: FanChange): FanState {
  const { speed = 1, size = 1, density = 1 } = change;
  requirePositive("speed ratio", speed);
  requirePositive("size ratio", size);
  requirePositive("density ratio", density);
  return {
    flow: brand<"volumeFlow">(state.flow * speed * size ** 3),
    pressure: brand<"pressure">(state.pressure * speed ** 2 * size ** 2 * density),
    power: brand<"power">(state.power * speed ** 3 * size ** 5 * density),
  };
}

/**
 * Power that a flow gains or loses over a pressure difference [W]: P = Q·Δp. Shaft power is this over the efficiency.
 *
 * @param flow - Q, 0 or more [m³/s]
 * @param pressure - Δp, 0 or more [Pa]
 * @throws RangeError when a value is negative or not finite
 * @example airPower(0.1, 250) // 25
 */
export function airPower(flow: VolumeFlow, pressure: Pressure): Power {
  requireNotNegative("volume flow", flow);
  requireNotNegative("pressure", pressure);
  return brand<"power">(flow * pressure);
}

/** One point of a fan curve. */
export interface FanPoint {
  /** Volume flow [m³/s]. */
  readonly flow: VolumeFlow;
  /** Pressure rise at that flow [Pa]. */
  readonly pressure: Pressure;
}

/** A fan curve checked by {@link fanCurve}: by rising flow, the pressure never rising. */
export interface FanCurve {
  readonly points: readonly FanPoint[];
}

/**
 * A fan curve from points, checked so that it can meet a duct system in one point only.
 *
 * Straight lines run between the points. A curve with a dip (stall) is refused: give its falling part.
 *
 * @param points - two or more, by rising flow from 0 or more, the pressure never rising and never negative
 * @throws RangeError naming the first point that breaks this
 * @example fanCurve([{ flow: 0, pressure: 200 }, { flow: 0.1, pressure: 0 }]).points.length // 2
 */
export function fanCurve(points: readonly FanPoint[]): FanCurve {
  if (points.length < 2) throw new RangeError(`a fan curve needs two points or more (got ${points.length})`);
  points.forEach(({ flow, pressure }, i) => {
    requireNotNegative(`flow of fan point ${i + 1}`, flow);
    requireNotNegative(`pressure of fan point ${i + 1}`, pressure);
    const before = points[i - 1];
    if (before && !(flow > before.flow))
      throw new RangeError(`fan point ${i + 1}: the flow must rise (got ${flow} after ${before.flow})`);
    if (before && pressure > before.pressure) {
      throw new RangeError(`fan point ${i + 1}: the pressure must not rise (got ${pressure} after ${before.pressure})`);
    }
  });
  return { points };
}

/** Index of the point at the right end of the segment that holds a flow, at least 1. */
function segmentOf({ points }: FanCurve, flow: number): number {
  let low = 1;
  let high = points.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (points[middle]!.flow < flow) low = middle + 1;
    else high = middle;
  }
  return low;
}

function onSegment({ points }: FanCurve, right: number, flow: number): number {
  const [a, b] = [points[right - 1]!, points[right]!];
  return a.pressure + ((b.pressure - a.pressure) * (flow - a.flow)) / (b.flow - a.flow);
}

/**
 * Pressure rise of a fan at a flow [Pa], on the straight lines between its points.
 *
 * @param curve - from {@link fanCurve}
 * @param flow - from the first to the last flow of the curve [m³/s]
 * @throws RangeError beyond the ends
 * @example fanPressure(fanCurve([{ flow: 0, pressure: 200 }, { flow: 0.1, pressure: 0 }]), 0.025) // 150
 */
export function fanPressure(curve: FanCurve, flow: VolumeFlow): Pressure {
  requireWithin("flow on the fan curve", flow, curve.points[0]!.flow, curve.points.at(-1)!.flow);
  return brand<"pressure">(onSegment(curve, segmentOf(curve, flow), flow));
}

/**
 * Where a fan and a system meet. `crossing`: at this flow and pressure. `beforeCurve`: at the curve's first flow the
 * system already takes more than the fan gives. `beyondCurve`: at its last flow the system takes less, so that the true
 * flow is greater than the curve shows. At an end, flow and pressure are those of the curve's end point.
 */
export interface OperatingPoint {
  readonly place: "crossing" | "beforeCurve" | "beyondCurve";
  /** [m³/s] */
  readonly flow: VolumeFlow;
  /** Pressure of the fan at that flow [Pa]. */
  readonly pressure: Pressure;
}

/**
 * The operating point of a fan in a duct system: the root of p_fan(Q) − p_system(Q).
 *
 * The segment is found by halving, the root in it by Brent's method, to 1e-12 of the curve's last flow.
 *
 * @param curve - from {@link fanCurve}
 * @param systemLoss - loss of the system at a flow, never falling as the flow grows [m³/s → Pa]
 * @throws RangeError when the system's loss is not a number
 * @example operatingPoint(fanCurve([{ flow: 0, pressure: 200 }, { flow: 0.1, pressure: 0 }]), (q) => 1e4 * q * q).flow // 0.0732051
 */
export function operatingPoint(curve: FanCurve, systemLoss: (flow: VolumeFlow) => number): OperatingPoint {
  const { points } = curve;
  const surplus = (i: number) => {
    const { flow, pressure } = points[i]!;
    const loss = systemLoss(flow);
    if (Number.isNaN(loss)) throw new RangeError(`the system's loss is not a number at ${flow} m³/s`);
    return pressure - loss;
  };
  let low = 0;
  let high = points.length - 1;
  if (surplus(low) < 0) return { place: "beforeCurve", ...points[low]! };
  if (surplus(high) > 0) return { place: "beyondCurve", ...points[high]! };
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (surplus(middle) >= 0) low = middle;
    else high = middle;
  }
  const flow = brent(
    (q) => onSegment(curve, high, q) - systemLoss(brand<"volumeFlow">(q)),
    points[low]!.flow,
    points[high]!.flow,
    1e-12 * points.at(-1)!.flow,
  );
  return {
    place: "crossing",
    flow: brand<"volumeFlow">(flow),
    pressure: brand<"pressure">(onSegment(curve, high, flow)),
  };
}
