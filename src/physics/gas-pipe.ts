/**
 * Flow of fuel gas in pipes by the sizing equations of the fuel gas codes.
 *
 * Source: International Fuel Gas Code 402.4 (IRC G2413.4), equations 4-1 and 4-2, and the table of C_r and Y there. The
 * gas factors were seen in a published copy of the 2018 text; the constants 19.17 and 18.93 and the exponents are from
 * memory and reproduce 220 cells of the printed capacity tables. Flow is in the standard state, 60 °F and 30 inHg.
 */
import type { Length, Pressure, VolumeFlow } from "../core/quantity/dimension.js";
import { brand, inUnit, si } from "../core/quantity/si.js";
import { requireNotNegative, requirePositive } from "./domain.js";

/** The two factors of a gas in the sizing equations. */
export interface GasFactors {
  /** C_r, for viscosity, density and temperature. */
  readonly cr: number;
  /** Y, for compressibility. */
  readonly y: number;
}

/** Natural gas of specific gravity 0.60; IFGC 2018, table 402.4. */
export const naturalGas: GasFactors = { cr: 0.6094, y: 0.9992 };

/** Undiluted propane of specific gravity 1.50; IFGC 2018, table 402.4. */
export const propane: GasFactors = { cr: 1.2462, y: 0.991 };

/** D = Q^0.381/(k·X^0.206), D in in, Q in ft³/h. */
const LOW = 19.17;
const HIGH = 18.93;
const FLOW_EXPONENT = 0.381;
const DROP_EXPONENT = 0.206;

/** X = ΔH/(C_r·L) of equation 4-1, ΔH in inches of water, L in ft. */
function lowTerm(drop: Pressure, length: Length, gas: GasFactors): number {
  requirePositive("pressure drop", drop);
  requirePositive("length", length);
  requirePositive("gas factor Cr", gas.cr);
  return inUnit(drop, "inH2O") / (gas.cr * inUnit(length, "ft"));
}

/** X = (P₁² − P₂²)·Y/(C_r·L) of equation 4-2, pressures in psi absolute. */
function highTerm(inlet: Pressure, outlet: Pressure, length: Length, gas: GasFactors): number {
  requirePositive("outlet pressure", outlet);
  if (!(inlet > outlet && inlet < Infinity)) {
    throw new RangeError(`inlet pressure must be above the outlet's ${outlet} Pa (got ${inlet})`);
  }
  requirePositive("length", length);
  requirePositive("gas factor Cr", gas.cr);
  requirePositive("gas factor Y", gas.y);
  return ((inUnit(inlet, "psi") ** 2 - inUnit(outlet, "psi") ** 2) * gas.y) / (gas.cr * inUnit(length, "ft"));
}

const flowOf = (factor: number, diameter: Length, term: number): VolumeFlow => {
  requirePositive("diameter", diameter);
  return si((factor * inUnit(diameter, "in") * term ** DROP_EXPONENT) ** (1 / FLOW_EXPONENT), "cfh");
};

const diameterOf = (factor: number, flow: VolumeFlow, term: number): Length => {
  requirePositive("gas flow", flow);
  return si(inUnit(flow, "cfh") ** FLOW_EXPONENT / (factor * term ** DROP_EXPONENT), "in");
};

/** Term X that a flow needs in a pipe. */
function termOf(factor: number, flow: VolumeFlow, diameter: Length): number {
  requireNotNegative("gas flow", flow);
  requirePositive("diameter", diameter);
  return (inUnit(flow, "cfh") ** FLOW_EXPONENT / (factor * inUnit(diameter, "in"))) ** (1 / DROP_EXPONENT);
}

/**
 * Gas that a pipe carries at low pressure, under 1.5 psi, in the standard state [m³/s].
 *
 * Equation 4-1 solved for Q: Q = ( 19.17·D·(ΔH/(C_r·L))^0.206 )^(1/0.381), ft³/h, in, inches of water, ft.
 *
 * @param diameter - D, inside [m]
 * @param drop - ΔH, pressure drop allowed [Pa]
 * @param length - L, pipe and the equivalent length of fittings [m]
 * @param gas - factors of the gas
 * @throws RangeError when a value is not above 0
 * @see International Fuel Gas Code 402.4, equation 4-1
 * @example lowPressureGasFlow(0.0157988, 124.54446, 3.048, naturalGas) * 127132.8 // 173
 */
export function lowPressureGasFlow(diameter: Length, drop: Pressure, length: Length, gas: GasFactors): VolumeFlow {
  return flowOf(LOW, diameter, lowTerm(drop, length, gas));
}

/**
 * Inside diameter that carries a gas flow at low pressure, under 1.5 psi [m].
 *
 * D = Q^0.381 / ( 19.17·(ΔH/(C_r·L))^0.206 ), in, ft³/h, inches of water, ft.
 *
 * @param flow - Q, in the standard state [m³/s]
 * @param drop - ΔH, pressure drop allowed [Pa]
 * @param length - L, pipe and the equivalent length of fittings [m]
 * @param gas - factors of the gas
 * @throws RangeError when a value is not above 0
 * @see International Fuel Gas Code 402.4, equation 4-1
 * @example lowPressureGasDiameter(173 / 127132.8, 124.54446, 3.048, naturalGas) / 0.0254 // 0.622
 */
export function lowPressureGasDiameter(flow: VolumeFlow, drop: Pressure, length: Length, gas: GasFactors): Length {
  return diameterOf(LOW, flow, lowTerm(drop, length, gas));
}

/**
 * Pressure lost by a gas flow at low pressure, under 1.5 psi [Pa].
 *
 * Equation 4-1 solved for ΔH: ΔH = C_r·L·( Q^0.381/(19.17·D) )^(1/0.206), inches of water, ft, ft³/h, in.
 *
 * @param flow - Q, in the standard state, 0 or more [m³/s]
 * @param diameter - D, inside [m]
 * @param length - L, pipe and the equivalent length of fittings, 0 or more [m]
 * @param gas - factors of the gas
 * @throws RangeError when a value is out of its range
 * @see International Fuel Gas Code 402.4, equation 4-1
 * @example lowPressureGasDrop(22 / 127132.8, 0.0157988, 12.192, naturalGas) / 249.08891 // 0.0441
 */
export function lowPressureGasDrop(flow: VolumeFlow, diameter: Length, length: Length, gas: GasFactors): Pressure {
  requireNotNegative("length", length);
  requirePositive("gas factor Cr", gas.cr);
  return si(gas.cr * inUnit(length, "ft") * termOf(LOW, flow, diameter), "inH2O");
}

/**
 * Gas that a pipe carries at 1.5 psi and more, in the standard state [m³/s].
 *
 * Equation 4-2 solved for Q: Q = ( 18.93·D·((P₁² − P₂²)·Y/(C_r·L))^0.206 )^(1/0.381), ft³/h, in, psi absolute, ft.
 *
 * @param diameter - D, inside [m]
 * @param inlet - P₁, absolute [Pa]
 * @param outlet - P₂, absolute, below the inlet's [Pa]
 * @param length - L, pipe and the equivalent length of fittings [m]
 * @param gas - factors of the gas
 * @throws RangeError when a value is out of its range
 * @see International Fuel Gas Code 402.4, equation 4-2
 * @example highPressureGasFlow(0.0157988, 115142.4, 108247.7, 3.048, naturalGas) * 127132.8 // 1596
 */
export function highPressureGasFlow(
  diameter: Length,
  inlet: Pressure,
  outlet: Pressure,
  length: Length,
  gas: GasFactors,
): VolumeFlow {
  return flowOf(HIGH, diameter, highTerm(inlet, outlet, length, gas));
}

/**
 * Inside diameter that carries a gas flow at 1.5 psi and more [m].
 *
 * D = Q^0.381 / ( 18.93·((P₁² − P₂²)·Y/(C_r·L))^0.206 ), in, ft³/h, psi absolute, ft.
 *
 * @param flow - Q, in the standard state [m³/s]
 * @param inlet - P₁, absolute [Pa]
 * @param outlet - P₂, absolute, below the inlet's [Pa]
 * @param length - L, pipe and the equivalent length of fittings [m]
 * @param gas - factors of the gas
 * @throws RangeError when a value is out of its range
 * @see International Fuel Gas Code 402.4, equation 4-2
 * @example highPressureGasDiameter(1596 / 127132.8, 115142.4, 108247.7, 3.048, naturalGas) / 0.0254 // 0.622
 */
export function highPressureGasDiameter(
  flow: VolumeFlow,
  inlet: Pressure,
  outlet: Pressure,
  length: Length,
  gas: GasFactors,
): Length {
  return diameterOf(HIGH, flow, highTerm(inlet, outlet, length, gas));
}

/**
 * Pressure left at the end of a pipe at 1.5 psi and more, absolute [Pa]; undefined where the pipe cannot carry the flow.
 *
 * Equation 4-2 solved for P₂: P₂² = P₁² − (C_r·L/Y)·( Q^0.381/(18.93·D) )^(1/0.206), psi absolute.
 *
 * @param flow - Q, in the standard state, 0 or more [m³/s]
 * @param diameter - D, inside [m]
 * @param inlet - P₁, absolute [Pa]
 * @param length - L, pipe and the equivalent length of fittings, 0 or more [m]
 * @param gas - factors of the gas
 * @throws RangeError when a value is out of its range
 * @see International Fuel Gas Code 402.4, equation 4-2
 * @example highPressureGasOutlet(1596 / 127132.8, 0.0157988, 115142.4, 3.048, naturalGas) // 108247
 */
export function highPressureGasOutlet(
  flow: VolumeFlow,
  diameter: Length,
  inlet: Pressure,
  length: Length,
  gas: GasFactors,
): Pressure | undefined {
  requirePositive("inlet pressure", inlet);
  requireNotNegative("length", length);
  requirePositive("gas factor Cr", gas.cr);
  requirePositive("gas factor Y", gas.y);
  const square = inUnit(inlet, "psi") ** 2 - ((gas.cr * inUnit(length, "ft")) / gas.y) * termOf(HIGH, flow, diameter);
  return square > 0 ? brand<"pressure">(si(Math.sqrt(square), "psi")) : undefined;
}
