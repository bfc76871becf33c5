/** The Darcy friction factor of a round pipe, four times the Fanning factor. */
import type { Density, Length, Speed, Viscosity } from "../core/quantity/dimension.js";
import { requireNotNegative, requirePositive, requireWithin } from "./domain.js";

/**
 * Reynolds number up to which flow in a round pipe returns to laminar after any disturbance.
 * Source: K. Avila and others, Science 333 (2011), 192: 2040 ± 10 (from memory).
 */
export const laminarEnd = 2040;

/** Reynolds number from which Colebrook's equation is used: where the turbulent lines of L. F. Moody's chart begin (1944). */
export const turbulentStart = 4000;

/** Greatest relative roughness drawn in L. F. Moody's chart, Transactions of the ASME 66 (1944), 671. */
const ROUGHEST = 0.05;

/** Terms of the equation of C. F. Colebrook, Journal of the Institution of Civil Engineers 11 (1939), 133. */
const ROUGH_TERM = 3.7;
const SMOOTH_TERM = 2.51;

/** Which way a pipe flow behaves, by its Reynolds number. */
export type FlowRegime = "laminar" | "transition" | "turbulent";

/**
 * What to take between Reynolds numbers 2040 and 4000, where a real pipe may run either way. `churchill`: the rise of
 * Churchill's curve, the likeliest course. `turbulent`: Colebrook's equation, the greater loss (Churchill's curve passes it
 * by at most 0.5 % near 3500).
 */
export type TransitionChoice = "churchill" | "turbulent";

/**
 * Reynolds number of pipe flow, a number without a unit.
 *
 * Re = ρ·v·D / μ
 *
 * @param velocity - v, mean speed over the section, 0 or more [m/s]
 * @param diameter - D, inside diameter, or hydraulic diameter of another section [m]
 * @param density - ρ [kg/m³]
 * @param viscosity - μ, dynamic [Pa·s]
 * @throws RangeError when a value is out of its range
 * @example reynolds(8.7314, 0.1016, 1.2041, 1.813e-5) // 58917.2
 */
export function reynolds(velocity: Speed, diameter: Length, density: Density, viscosity: Viscosity): number {
  requireNotNegative("velocity", velocity);
  requirePositive("diameter", diameter);
  requirePositive("density", density);
  requirePositive("viscosity", viscosity);
  return (density * velocity * diameter) / viscosity;
}

/**
 * The regime of pipe flow at a Reynolds number: laminar up to 2040, turbulent from 4000, transition between.
 *
 * @param re - Reynolds number, 0 or more
 * @throws RangeError when re is negative or not finite
 * @example flowRegime(3000) // "transition"
 */
export function flowRegime(re: number): FlowRegime {
  requireNotNegative("Reynolds number", re);
  if (re <= laminarEnd) return "laminar";
  return re < turbulentStart ? "transition" : "turbulent";
}

function requireTurbulent(re: number, relativeRoughness: number): void {
  if (!(re >= laminarEnd && re < Infinity)) {
    throw new RangeError(`Reynolds number must be ${laminarEnd} or more and finite (got ${re})`);
  }
  requireWithin("relative roughness", relativeRoughness, 0, ROUGHEST);
}

/**
 * Darcy friction factor of turbulent flow, a number without a unit, to the precision of the machine.
 *
 * 1/√f = −2·log₁₀( (ε/D)/3.7 + 2.51/(Re·√f) ), solved for 1/√f by Halley's method from Haaland's explicit form.
 * Holds for Re from 2040 (below it no turbulence lasts) and ε/D from 0 to 0.05, the roughest line of Moody's chart.
 * Real pipes scatter by some ±10 % about it.
 *
 * @param re - Reynolds number
 * @param relativeRoughness - ε/D, mean height of the roughness over the inside diameter
 * @throws RangeError outside that range
 * @see C. F. Colebrook, Journal of the Institution of Civil Engineers 11 (1939), 133
 * @example colebrook(1e5, 1e-4) // 0.01851386607747
 */
export function colebrook(re: number, relativeRoughness: number): number {
  requireTurbulent(re, relativeRoughness);
  const rough = relativeRoughness / ROUGH_TERM;
  const smooth = SMOOTH_TERM / re;
  // Haaland (1983), within about 1.5 % of the root; only the start of the search.
  let x = -1.8 * Math.log10(rough ** 1.11 + 6.9 / re);
  const c = 2 / Math.LN10;
  for (let count = 0; count < 8; count++) {
    const inside = rough + smooth * x;
    const value = x + c * Math.log(inside);
    const q = smooth / inside;
    const first = 1 + c * q;
    const second = -c * q * q;
    const step = (2 * value * first) / (2 * first * first - value * second);
    x -= step;
    // The error left is the cube of the step, far below the last bit.
    if (Math.abs(step) < 1e-6 * x) break;
  }
  return 1 / (x * x);
}

/**
 * Darcy friction factor over all regimes in one smooth curve, a number without a unit.
 *
 * f = 8·[ (8/Re)¹² + (A + B)^(−3/2) ]^(1/12), A = [ 2.457·ln( 1/((7/Re)^0.9 + 0.27·ε/D) ) ]¹⁶, B = (37530/Re)¹⁶.
 * Exactly laminar for small Re; within about 2 % of Colebrook's equation from Re 4000.
 *
 * @param re - Reynolds number, above 0
 * @param relativeRoughness - ε/D, 0 to 0.05
 * @throws RangeError outside that range
 * @see S. W. Churchill, Chemical Engineering 84 (1977), no. 24, 91
 * @example churchill(3000, 0) // 0.0429747
 */
export function churchill(re: number, relativeRoughness: number): number {
  requirePositive("Reynolds number", re);
  requireWithin("relative roughness", relativeRoughness, 0, ROUGHEST);
  // Below this the turbulent part is under 1e-100 of the laminar one and B would overflow.
  if (re < 1) return 64 / re;
  const a = (2.457 * Math.log(1 / ((7 / re) ** 0.9 + 0.27 * relativeRoughness))) ** 16;
  const b = (37530 / re) ** 16;
  return 8 * ((8 / re) ** 12 + (a + b) ** -1.5) ** (1 / 12);
}

/**
 * Darcy friction factor of the fully rough regime, a number without a unit: Colebrook's equation as Re grows without end.
 *
 * f_T = 0.25 / log₁₀²( (ε/D)/3.7 ). Loss coefficients of pipe fittings are tabulated as multiples of it.
 *
 * @param relativeRoughness - ε/D, above 0 up to 0.05
 * @throws RangeError outside that range
 * @see Flow of Fluids Through Valves, Fittings and Pipe, Technical Paper 410, 2009 edition, page A-27 (from memory)
 * @example fullyRoughFactor(4.572e-5 / 0.1016) // 0.016311
 */
export function fullyRoughFactor(relativeRoughness: number): number {
  requirePositive("relative roughness", relativeRoughness);
  requireWithin("relative roughness", relativeRoughness, 0, ROUGHEST);
  return 0.25 / Math.log10(relativeRoughness / ROUGH_TERM) ** 2;
}

/**
 * Darcy friction factor in any regime, a number without a unit.
 *
 * Laminar: f = 64/Re up to Re 2040. Turbulent: {@link colebrook} from Re 4000. Between them by `transition`: the default
 * is Churchill's curve moved by a straight line in Re so that it meets both neighbours, so that a computed pressure loss
 * never falls as the flow grows; `turbulent` takes Colebrook's equation from 2040 on.
 *
 * @param re - Reynolds number, above 0
 * @param relativeRoughness - ε/D, 0 to 0.05
 * @param transition - what to take between 2040 and 4000
 * @throws RangeError outside that range
 * @example darcyFactor(58920, 0.09 / 101.6) // 0.02317
 */
export function darcyFactor(re: number, relativeRoughness: number, transition: TransitionChoice = "churchill"): number {
  requirePositive("Reynolds number", re);
  requireWithin("relative roughness", relativeRoughness, 0, ROUGHEST);
  if (re <= laminarEnd) return 64 / re;
  if (re >= turbulentStart || transition === "turbulent") return colebrook(re, relativeRoughness);
  const share = (re - laminarEnd) / (turbulentStart - laminarEnd);
  const below = 64 / laminarEnd - churchill(laminarEnd, relativeRoughness);
  const above = colebrook(turbulentStart, relativeRoughness) - churchill(turbulentStart, relativeRoughness);
  return churchill(re, relativeRoughness) + (1 - share) * below + share * above;
}
