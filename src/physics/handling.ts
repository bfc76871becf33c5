/** Statics of moving a machine by hand: carrying, dragging, wheels, hand trucks. Weights and forces, no people's limits. */

import type { Angle, Force, Length, Ratio } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";

function requireWeight(weight: Force): void {
  if (!(weight > 0 && weight < Infinity)) throw new RangeError(`a weight of ${weight} N must be above 0 and finite`);
}

function requirePitch(pitch: Angle): void {
  if (!(pitch >= 0 && pitch < Math.PI / 2))
    throw new RangeError(`a pitch of ${pitch} rad is not from 0 to below a right angle`);
}

/**
 * Share of the weight on the lower of two carriers on a slope, as a part of 1: ½ + (c/L)·tan φ.
 *
 * Vertical hand forces, centre of mass midway between the hands. Above 1 the upper carrier would have to pull down.
 *
 * @param pitch - φ of the slope, from 0 [rad]
 * @param hold - L, distance of the hands along the load, above 0 [m]
 * @param centre - c, height of the centre of mass above the line of the hands; negative below it [m]
 * @example lowerCarrierShare(Math.atan(0.775), 38, 13.5) // 0.7753
 */
export function lowerCarrierShare(pitch: Angle, hold: Length, centre: Length): Ratio {
  requirePitch(pitch);
  if (!(hold > 0)) throw new RangeError(`hands ${hold} m apart hold nothing level`);
  return brand<"ratio">(1 / 2 + (centre / hold) * Math.tan(pitch));
}

/**
 * Force along a slope that moves a load up it, or holds it back going down [N]: W·(sin φ ± μ·cos φ).
 *
 * Going down, a negative force means that the load does not slide by itself and has to be pushed.
 *
 * @param weight - above 0 [N]
 * @param pitch - φ, from 0 [rad]
 * @param friction - μ between load and slope, at least 0
 * @param going - `up` or `down`
 * @example draggingForce(150, Math.atan(0.775), 0.1, "up") // 103.742
 */
export function draggingForce(weight: Force, pitch: Angle, friction: Ratio, going: "up" | "down"): Force {
  requireWeight(weight);
  requirePitch(pitch);
  if (!(friction >= 0)) throw new RangeError(`a friction of ${friction} is negative`);
  const sign = going === "up" ? 1 : -1;
  return brand<"force">(weight * (Math.sin(pitch) + sign * friction * Math.cos(pitch)));
}

/**
 * Horizontal pull at the axle that brings a wheel over a step [N]: W·√(h·(2R − h))/(R − h). Infinite for a step as high as
 * the radius or higher: that one needs lifting or a ramp.
 *
 * @param weight - on the wheel, above 0 [N]
 * @param radius - R, above 0 [m]
 * @param step - h, at least 0 [m]
 * @example wheelStepForce(150, 5, 2) // 200
 */
export function wheelStepForce(weight: Force, radius: Length, step: Length): Force {
  requireWeight(weight);
  if (!(radius > 0)) throw new RangeError(`a wheel of radius ${radius} m is none`);
  if (!(step >= 0)) throw new RangeError(`a step of ${step} m is negative`);
  return brand<"force">(step >= radius ? Infinity : (weight * Math.sqrt(step * (2 * radius - step))) / (radius - step));
}

/** A loaded hand truck, measured from its axle. */
export interface HandTruckLoad {
  /** Centre of mass along the frame, above 0 [m]. */
  readonly along: Length;
  /** Centre of mass in front of the frame, at least 0 [m]. */
  readonly inFront: Length;
  /** The handle along the frame, above 0 [m]. */
  readonly handle: Length;
}

/**
 * Force at the handle of a tilted hand truck, square to the frame [N]: W·(a·sin t − p·cos t)/L. Positive when the load
 * pulls the handle down onto the hands, negative when it wants to stand up again.
 *
 * @param weight - above 0 [N]
 * @param load - where the weight and the handle are
 * @param tilt - t of the frame from upright, 0 to a right angle [rad]
 * @example handTruckForce(200, { along: 24, inFront: 10, handle: 50 }, 0.7853981634) // 39.598
 */
export function handTruckForce(weight: Force, { along, inFront, handle }: HandTruckLoad, tilt: Angle): Force {
  requireWeight(weight);
  if (!(along > 0 && inFront >= 0 && handle > 0))
    throw new RangeError("the load stands above and in front of the axle");
  if (!(tilt >= 0 && tilt <= Math.PI / 2)) throw new RangeError(`a tilt of ${tilt} rad is not from 0 to a right angle`);
  return brand<"force">((weight * (along * Math.sin(tilt) - inFront * Math.cos(tilt))) / handle);
}

/**
 * Tilt at which a hand truck balances without a force at the handle [rad]: atan(p/a).
 *
 * @param load - where the weight is
 * @example handTruckBalance({ along: 24, inFront: 10, handle: 50 }) // 0.394791
 */
export function handTruckBalance({ along, inFront }: HandTruckLoad): Angle {
  if (!(along > 0 && inFront >= 0)) throw new RangeError("the load stands above and in front of the axle");
  return brand<"angle">(Math.atan2(inFront, along));
}
