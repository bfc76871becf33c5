/** Pressure lost by a fluid of constant density along pipes and in fittings. */
import type { Density, Length, Pressure, PressureGradient, Speed, Viscosity } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { requireNotNegative, requirePositive } from "./domain.js";
import { darcyFactor, reynolds, type TransitionChoice } from "./friction.js";

/** Steady flow in a round pipe. */
export interface PipeFlow {
  /** Mean speed over the section, 0 or more [m/s]. */
  readonly velocity: Speed;
  /** Inside diameter; for another section its hydraulic diameter [m]. */
  readonly diameter: Length;
  /** Mean height of the wall's roughness; 0 to 5 % of the diameter [m]. */
  readonly roughness: Length;
  /** Density of the fluid [kg/m³]. */
  readonly density: Density;
  /** Dynamic viscosity of the fluid [Pa·s]. */
  readonly viscosity: Viscosity;
}

/**
 * Velocity pressure [Pa].
 *
 * p_v = ρ·v²/2. In inch-pound units of standard air, 0.075 lb/ft³, this is (V/4005)² in of water with V in ft/min.
 *
 * @param density - ρ, at least 0 [kg/m³]
 * @param velocity - v, 0 or more [m/s]
 * @throws RangeError when a value is negative or not finite
 * @example velocityPressure(1.2041, 8.7314) // 45.899
 */
export function velocityPressure(density: Density, velocity: Speed): Pressure {
  requireNotNegative("density", density);
  requireNotNegative("velocity", velocity);
  return brand<"pressure">((density * velocity * velocity) / 2);
}

/**
 * Friction loss per length of a round pipe [Pa/m].
 *
 * dp/dL = f·ρ·v²/(2·D) (Darcy and Weisbach), f from {@link darcyFactor}; 0 in a fluid at rest. Holds while the density
 * stays nearly constant along the pipe (a loss under some 10 % of the absolute pressure).
 *
 * @param flow - the pipe and what runs in it
 * @param transition - what to take between Reynolds numbers 2040 and 4000
 * @throws RangeError when a value is out of its range
 * @example frictionGradient({ velocity: 8.7321, diameter: 0.1016, roughness: 9e-5, density: 1.2041, viscosity: 1.813e-5 }) // 10.46998
 */
export function frictionGradient(flow: PipeFlow, transition: TransitionChoice = "churchill"): PressureGradient {
  const re = reynolds(flow.velocity, flow.diameter, flow.density, flow.viscosity);
  requireNotNegative("roughness", flow.roughness);
  if (re === 0) return brand<"pressureGradient">(0);
  const f = darcyFactor(re, flow.roughness / flow.diameter, transition);
  return brand<"pressureGradient">((f * velocityPressure(flow.density, flow.velocity)) / flow.diameter);
}

/**
 * Friction loss of a length of round pipe [Pa]: Δp = f·(L/D)·ρ·v²/2, by {@link frictionGradient}.
 *
 * @param flow - the pipe and what runs in it
 * @param length - L, 0 or more [m]
 * @param transition - what to take between Reynolds numbers 2040 and 4000
 * @throws RangeError when a value is out of its range
 * @example frictionLoss({ velocity: 8.7321, diameter: 0.1016, roughness: 9e-5, density: 1.2041, viscosity: 1.813e-5 }, 7.62) // 79.7813
 */
export function frictionLoss(flow: PipeFlow, length: Length, transition: TransitionChoice = "churchill"): Pressure {
  requireNotNegative("length", length);
  return brand<"pressure">(frictionGradient(flow, transition) * length);
}

/**
 * Pressure loss of a fitting [Pa].
 *
 * Δp = K·ρ·v²/2, with v in the section that K refers to.
 *
 * @param k - K, loss coefficient, 0 or more
 * @param density - ρ [kg/m³]
 * @param velocity - v, 0 or more [m/s]
 * @throws RangeError when a value is negative or not finite
 * @example fittingLoss(1.5, 1.2, 10) // 90
 */
export function fittingLoss(k: number, density: Density, velocity: Speed): Pressure {
  requireNotNegative("loss coefficient", k);
  return brand<"pressure">(k * velocityPressure(density, velocity));
}

/**
 * Length of straight pipe with the same loss as a fitting at the same flow [m].
 *
 * L_eq = K·D/f. It depends on f and so on the flow; it is not the equivalent length that a code assigns to a fitting.
 *
 * @param k - K, loss coefficient, 0 or more
 * @param diameter - D [m]
 * @param factor - f, Darcy friction factor of the pipe at this flow
 * @throws RangeError when a value is out of its range
 * @example equivalentLength(0.57, 0.1016, 0.023172) // 2.4992
 */
export function equivalentLength(k: number, diameter: Length, factor: number): Length {
  requireNotNegative("loss coefficient", k);
  requirePositive("diameter", diameter);
  requirePositive("friction factor", factor);
  return brand<"length">((k * diameter) / factor);
}
