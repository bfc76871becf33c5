/** Tipping and sliding of a machine on its feet. */

import type { Angle, Force, Length, Ratio, Slope } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";

function requireAbove(value: number, what: string): void {
  if (!(value > 0 && value < Infinity)) throw new RangeError(`${what} of ${value} must be above 0 and finite`);
}

/**
 * Horizontal push at which a machine starts to tip about an edge [N].
 *
 * F = W·x/h, x being the horizontal distance of the centre of mass from the edge. On a slope take x from {@link tippingLever}.
 *
 * @param weight - above 0 [N]
 * @param lever - x, at least 0 [m]
 * @param pushHeight - h, height of the push above the edge, above 0 [m]
 * @example tippingForce(200, 15, 38) // 78.947
 */
export function tippingForce(weight: Force, lever: Length, pushHeight: Length): Force {
  requireAbove(weight, "a weight");
  requireAbove(pushHeight, "a push height");
  if (!(lever >= 0)) throw new RangeError(`a lever of ${lever} m is negative: the machine tips by itself`);
  return brand<"force">((weight * lever) / pushHeight);
}

/**
 * Horizontal distance of the centre of mass from the tipping edge on sloping ground [m]: x − z·s; negative when it tips by
 * itself. For slopes to about 0.1.
 *
 * @param lever - x on level ground [m]
 * @param centreHeight - z, height of the centre of mass above the edge [m]
 * @param slope - s, positive when the ground falls toward the edge [m/m]
 * @example tippingLever(0.3, 0.8, 0.02) // 0.284
 */
export function tippingLever(lever: Length, centreHeight: Length, slope: Slope): Length {
  return brand<"length">(lever - centreHeight * slope);
}

/**
 * Tilt at which the centre of mass stands over the tipping edge: the balance point [rad]. atan(x/z).
 *
 * @param lever - x, horizontal distance of the centre of mass from the edge, at least 0 [m]
 * @param centreHeight - z, height of the centre of mass above the edge, above 0 [m]
 * @example tipAngle(15, 19) // 0.66829
 */
export function tipAngle(lever: Length, centreHeight: Length): Angle {
  requireAbove(centreHeight, "a centre height");
  if (!(lever >= 0)) throw new RangeError(`a lever of ${lever} m is negative`);
  return brand<"angle">(Math.atan(lever / centreHeight));
}

/**
 * Horizontal force at which a machine, or a person pushing, starts to slide [N]: μ·(W − V), 0 when lifted off.
 *
 * A machine that spins can turn on its feet at a lower speed than it slides, so holding this force is not enough for it.
 *
 * @param weight - above 0 [N]
 * @param friction - μ, coefficient of static friction, at least 0
 * @param lift - V, upward force at the same moment [N]
 * @see Papadopoulos and Papadimitriou, Modeling, design and control of a portable washing machine during the spinning
 * cycle, IEEE/ASME AIM 2001, 899–904, for slipping by rotation
 * @example slidingForce(975, 0.359) // 350.025
 */
export function slidingForce(weight: Force, friction: Ratio, lift: Force = brand<"force">(0)): Force {
  requireAbove(weight, "a weight");
  if (!(friction >= 0)) throw new RangeError(`a friction of ${friction} is negative`);
  return brand<"force">(friction * Math.max(0, weight - lift));
}
