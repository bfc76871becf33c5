/** The pressure wave that follows when a valve shuts on running water. */
import type { Density, Length, Pressure, Speed, Time } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { requireNotNegative, requirePositive } from "./domain.js";

/** A thin-walled elastic pipe and the liquid in it. */
export interface ElasticPipe {
  /** Inside diameter [m]. */
  readonly diameter: Length;
  /** Wall thickness [m]. */
  readonly wall: Length;
  /** Young's modulus of the wall; Infinity for a rigid pipe [Pa]. */
  readonly modulus: Pressure;
  /** Bulk modulus of the liquid [Pa]. */
  readonly bulkModulus: Pressure;
  /** Density of the liquid [kg/m³]. */
  readonly density: Density;
  /** Factor for how the pipe is held lengthwise, 0.85 to 1.25; 1 for expansion joints throughout, and when left out. */
  readonly restraint?: number;
}

/**
 * Speed of a pressure wave in an elastic pipe [m/s]; after Korteweg.
 *
 * a = √(K/ρ) / √(1 + c·(K/E)·(D/e)). Air in the water lowers it greatly. Thick or rubber walls only in order of size.
 *
 * @param pipe - pipe and liquid
 * @throws RangeError when a value is not above 0
 * @see D. J. Korteweg (1878), in any text on water hammer
 * @example waveSpeed({ diameter: 0.013843, wall: 0.001016, modulus: 117e9, bulkModulus: 2.2e9, density: 998.2 }) // 1324.6
 */
export function waveSpeed(pipe: ElasticPipe): Speed {
  const { diameter, wall, modulus, bulkModulus, density, restraint = 1 } = pipe;
  requirePositive("diameter", diameter);
  requirePositive("wall thickness", wall);
  if (!(modulus > 0)) throw new RangeError(`Young's modulus must be above 0 (got ${modulus})`);
  requirePositive("bulk modulus", bulkModulus);
  requirePositive("density", density);
  requirePositive("restraint factor", restraint);
  return brand<"speed">(
    Math.sqrt(bulkModulus / density / (1 + (restraint * bulkModulus * diameter) / (modulus * wall))),
  );
}

/**
 * Time that a pressure wave takes to the far end of a pipe and back [s]: 2·L/a. A valve that shuts within it shuts at once.
 *
 * @param length - L, to the next wide pipe or vessel [m]
 * @param speed - a, from {@link waveSpeed} [m/s]
 * @throws RangeError when a value is out of its range
 * @example wavePeriod(10, 1324.6) // 0.0150989
 */
export function wavePeriod(length: Length, speed: Speed): Time {
  requireNotNegative("length", length);
  requirePositive("wave speed", speed);
  return brand<"time">((2 * length) / speed);
}

/**
 * Pressure rise when water is stopped at once [Pa]: Δp = ρ·a·Δv (Joukowsky).
 *
 * @param density - ρ [kg/m³]
 * @param speed - a, wave speed [m/s]
 * @param stopped - Δv, speed taken from the water, 0 or more [m/s]
 * @throws RangeError when a value is out of its range
 * @example joukowsky(998.2, 1324.6, 1) // 1322215.72
 */
export function joukowsky(density: Density, speed: Speed, stopped: Speed): Pressure {
  requirePositive("density", density);
  requirePositive("wave speed", speed);
  requireNotNegative("speed of the water", stopped);
  return brand<"pressure">(density * speed * stopped);
}

/** A valve shutting on a pipe. */
export interface Closure {
  /** Density of the liquid [kg/m³]. */
  readonly density: Density;
  /** Wave speed in the pipe [m/s]. */
  readonly waveSpeed: Speed;
  /** Speed taken from the water, 0 or more [m/s]. */
  readonly stopped: Speed;
  /** Length of the pipe to the next wide pipe or vessel [m]. */
  readonly length: Length;
  /** Time the valve takes to shut, 0 or more [s]. */
  readonly time: Time;
}

/**
 * Pressure rise when a valve shuts in a given time [Pa].
 *
 * Within 2·L/a: ρ·a·Δv (Joukowsky). Slower: 2·ρ·L·Δv/t (Michaud), which equals it at t = 2·L/a and bounds the rise of a
 * steadily shutting valve.
 *
 * @param closure - pipe, water and valve
 * @throws RangeError when a value is out of its range
 * @example closurePressure({ density: 998.2, waveSpeed: 1324.6, stopped: 1, length: 10, time: 0.05 }) // 399280
 */
export function closurePressure(closure: Closure): Pressure {
  const { density, stopped, length, time } = closure;
  const atOnce = joukowsky(density, closure.waveSpeed, stopped);
  requireNotNegative("closing time", time);
  if (time <= wavePeriod(length, closure.waveSpeed)) return atOnce;
  return brand<"pressure">((2 * density * length * stopped) / time);
}
