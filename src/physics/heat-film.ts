/** Heat transfer between a surface and a fluid: Nusselt numbers and film coefficients. */
import type { Density, Length, Temperature, Viscosity } from "../core/quantity/dimension.js";
import { requirePositive, requireWithin } from "./domain.js";
import { standardGravity } from "./driving-pressure.js";

/** Stefan–Boltzmann constant, CODATA 2018 [W/(m²·K⁴)]. */
const STEFAN_BOLTZMANN = 5.670374419e-8;

/** Prandtl number of air between 0 and 100 °C, to 1 %, a number without a unit (from memory). */
export const prandtlOfAir = 0.704;

/**
 * Film coefficient of a Nusselt number [W/(m²·K)]: h = Nu·k/L.
 *
 * @param nusselt - Nu
 * @param conductivity - k, of the fluid [W/(m·K)]
 * @param length - L, the length that Nu was made with: diameter of a pipe, height of a plate [m]
 * @throws RangeError when a value is not above 0
 * @example filmCoefficient(99.9395, 0.0284093, 0.1016) // 27.945
 */
export function filmCoefficient(nusselt: number, conductivity: number, length: Length): number {
  requirePositive("Nusselt number", nusselt);
  requirePositive("conductivity", conductivity);
  requirePositive("length", length);
  return (nusselt * conductivity) / length;
}

/**
 * Nusselt number inside a pipe, fully turbulent, a number without a unit; after Dittus and Boelter.
 *
 * Nu = 0.023·Re^0.8·Pr^n, n = 0.3 where the fluid cools, 0.4 where it is heated. Re from 10 000, Pr 0.6 to 160, ten
 * diameters and more from the entry; ± 25 %.
 *
 * @param re - Reynolds number
 * @param prandtl - Pr
 * @param fluid - whether the fluid cools or is heated
 * @throws RangeError outside that range
 * @see Fundamentals of Heat and Mass Transfer (Wiley), chapter 8 (from memory)
 * @example dittusBoelter(40241.3, 0.704, "cools") // 99.94
 */
export function dittusBoelter(re: number, prandtl: number, fluid: "cools" | "heated"): number {
  requireWithin("Reynolds number", re, 1e4, Number.MAX_VALUE);
  requireWithin("Prandtl number", prandtl, 0.6, 160);
  return 0.023 * re ** 0.8 * prandtl ** (fluid === "cools" ? 0.3 : 0.4);
}

/**
 * Nusselt number inside a pipe, a number without a unit; after Gnielinski.
 *
 * Nu = (f/8)·(Re − 1000)·Pr / (1 + 12.7·√(f/8)·(Pr^⅔ − 1)); f is the Darcy factor, for a smooth pipe
 * (0.790·ln Re − 1.64)⁻² (Petukhov). Re 3000 to 5·10⁶, Pr 0.5 to 2000; ± 10 %.
 *
 * @param re - Reynolds number
 * @param prandtl - Pr
 * @param factor - f; the smooth pipe's when left out
 * @throws RangeError outside that range
 * @see Fundamentals of Heat and Mass Transfer (Wiley), chapter 8 (from memory)
 * @example gnielinski(40241.3, 0.704) // 88.397
 */
export function gnielinski(re: number, prandtl: number, factor?: number): number {
  requireWithin("Reynolds number", re, 3e3, 5e6);
  requireWithin("Prandtl number", prandtl, 0.5, 2000);
  const f = factor ?? (0.79 * Math.log(re) - 1.64) ** -2;
  requirePositive("friction factor", f);
  return ((f / 8) * (re - 1000) * prandtl) / (1 + 12.7 * Math.sqrt(f / 8) * (prandtl ** (2 / 3) - 1));
}

/** What sets free convection of a gas at a surface going. */
export interface FreeConvection {
  /** Temperature of the surface [K]. */
  readonly surface: Temperature;
  /** Temperature of the gas far off [K]. */
  readonly ambient: Temperature;
  /** Diameter of a horizontal cylinder, or height of an upright plate [m]. */
  readonly length: Length;
  /** Density of the gas at the mean of both temperatures [kg/m³]. */
  readonly density: Density;
  /** Dynamic viscosity there [Pa·s]. */
  readonly viscosity: Viscosity;
  /** Pr there. */
  readonly prandtl: number;
}

/**
 * Rayleigh number of free convection in an ideal gas, a number without a unit.
 *
 * Ra = Gr·Pr, Gr = g·|T_s − T_a|·L³/(T_m·ν²), T_m the mean of both temperatures, ν = μ/ρ.
 *
 * @param flow - surface, gas and size
 * @throws RangeError when a value is not above 0
 * @example rayleigh({ surface: 320, ambient: 300, length: 0.1, density: 1.14, viscosity: 1.9e-5, prandtl: 0.704 }) // 1603482
 */
export function rayleigh(flow: FreeConvection): number {
  requirePositive("surface temperature", flow.surface);
  requirePositive("ambient temperature", flow.ambient);
  requirePositive("length", flow.length);
  requirePositive("density", flow.density);
  requirePositive("viscosity", flow.viscosity);
  requirePositive("Prandtl number", flow.prandtl);
  const mean = (flow.surface + flow.ambient) / 2;
  const nu = flow.viscosity / flow.density;
  const grashof = (standardGravity * Math.abs(flow.surface - flow.ambient) * flow.length ** 3) / (mean * nu * nu);
  return grashof * flow.prandtl;
}

/** Upper end of both relations of Churchill and Chu, as used here. */
const MOST_RAYLEIGH = 1e12;

/**
 * Nusselt number of free convection at a long horizontal cylinder, on its diameter, a number without a unit.
 *
 * Nu = ( 0.60 + 0.387·Ra^(1/6) / (1 + (0.559/Pr)^(9/16))^(8/27) )², Ra to 10¹². Still air only: wind raises it severalfold.
 *
 * @param ra - Rayleigh number on the diameter, 0 or more
 * @param prandtl - Pr, above 0
 * @throws RangeError outside that range
 * @see S. W. Churchill and H. H. S. Chu, International Journal of Heat and Mass Transfer 18 (1975), 1049 (from memory)
 * @example freeCylinder(4.819e6, 0.7) // 22.761
 */
export function freeCylinder(ra: number, prandtl: number): number {
  requireWithin("Rayleigh number", ra, 0, MOST_RAYLEIGH);
  requirePositive("Prandtl number", prandtl);
  return (0.6 + (0.387 * ra ** (1 / 6)) / (1 + (0.559 / prandtl) ** (9 / 16)) ** (8 / 27)) ** 2;
}

/**
 * Nusselt number of free convection at an upright plate, on its height, a number without a unit.
 *
 * Nu = ( 0.825 + 0.387·Ra^(1/6) / (1 + (0.492/Pr)^(9/16))^(8/27) )², Ra to 10¹².
 *
 * @param ra - Rayleigh number on the height, 0 or more
 * @param prandtl - Pr, above 0
 * @throws RangeError outside that range
 * @see S. W. Churchill and H. H. S. Chu, International Journal of Heat and Mass Transfer 18 (1975), 1323 (from memory)
 * @example freePlate(1.813e9, 0.69) // 147
 */
export function freePlate(ra: number, prandtl: number): number {
  requireWithin("Rayleigh number", ra, 0, MOST_RAYLEIGH);
  requirePositive("Prandtl number", prandtl);
  return (0.825 + (0.387 * ra ** (1 / 6)) / (1 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27)) ** 2;
}

/**
 * Film coefficient of radiation between a surface and large surroundings [W/(m²·K)].
 *
 * h = ε·σ·(T₁² + T₂²)·(T₁ + T₂), σ = 5.670374·10⁻⁸ W/(m²·K⁴)
 *
 * @param emissivity - ε, 0 to 1: bright metal 0.05 to 0.3, oxidised 0.3 to 0.8, most other surfaces 0.9 (from memory)
 * @param surface - T₁ [K]
 * @param surroundings - T₂ [K]
 * @throws RangeError when a value is out of its range
 * @example radiationFilm(0.9, 295.15, 293.15) // 5.19548
 */
export function radiationFilm(emissivity: number, surface: Temperature, surroundings: Temperature): number {
  requireWithin("emissivity", emissivity, 0, 1);
  requirePositive("surface temperature", surface);
  requirePositive("temperature of the surroundings", surroundings);
  return emissivity * STEFAN_BOLTZMANN * (surface ** 2 + surroundings ** 2) * (surface + surroundings);
}
