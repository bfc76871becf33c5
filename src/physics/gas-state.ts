/** Fuel gas and test air as ideal gases: density, what cooling does to a pressure test, and how much a leak lets out. */
import type { Density, Pressure, Temperature, Time, Volume, VolumeFlow } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { requirePositive } from "./domain.js";
import { dryAirDensity } from "./dry-air.js";

/** The state that gas volumes are billed and piped in, 60 °F and 30 inHg, as the fuel gas codes have it [K, Pa]. */
export const standardGasState = {
  temperature: 288.7055555555555 as Temperature,
  pressure: 101591.666 as Pressure,
} as const;

/**
 * Density of a fuel gas [kg/m³]: specific gravity times {@link dryAirDensity} in the same state.
 *
 * @param specificGravity - against dry air: some 0.60 for natural gas, 1.52 for propane
 * @param temperature - [K]
 * @param pressure - absolute; falls with altitude, and the heat in a cubic metre with it [Pa]
 * @throws RangeError when a value is not above 0
 * @example gasDensity(0.6, 288.7056, 101325) // 0.73361
 */
export function gasDensity(specificGravity: number, temperature: Temperature, pressure: Pressure): Density {
  requirePositive("specific gravity", specificGravity);
  return brand<"density">(specificGravity * dryAirDensity(temperature, pressure));
}

/**
 * Pressure of a closed volume of gas after a change of temperature, absolute [Pa]: p₂ = p₁·T₂/T₁.
 *
 * @param pressure - p₁, absolute [Pa]
 * @param before - T₁ [K]
 * @param after - T₂ [K]
 * @throws RangeError when a value is not above 0
 * @see International Fuel Gas Code, appendix A.6.5
 * @example closedGasPressure(239248, 294.26111, 277.59444) // 225697
 */
export function closedGasPressure(pressure: Pressure, before: Temperature, after: Temperature): Pressure {
  requirePositive("pressure", pressure);
  requirePositive("temperature before", before);
  requirePositive("temperature after", after);
  return brand<"pressure">((pressure * after) / before);
}

/** One reading of a pressure test. */
export interface GasReading {
  /** Absolute pressure: gauge reading plus the barometer at that time [Pa]. */
  readonly pressure: Pressure;
  /** Temperature of the gas in the pipe [K]. */
  readonly temperature: Temperature;
}

/**
 * Mean rate at which a closed volume of gas lost gas between two readings, in the standard state [m³/s].
 *
 * q = V/t·(p₁/T₁ − p₂/T₂)·T_s/p_s, with T_s 60 °F and p_s 30 inHg. Below 0 where more gas is in the pipe than before: the
 * readings are then in error, or the temperature is not the gas's.
 *
 * @param volume - V, of the pipe under test [m³]
 * @param first - first reading
 * @param last - last reading
 * @param time - t, between them [s]
 * @throws RangeError when a value is not above 0
 * @example leakRate(0.01, { pressure: 122000, temperature: 290 }, { pressure: 121000, temperature: 290 }, 600) * 1e6 // 0.163323
 */
export function leakRate(volume: Volume, first: GasReading, last: GasReading, time: Time): VolumeFlow {
  requirePositive("volume", volume);
  requirePositive("time", time);
  for (const { pressure, temperature } of [first, last]) {
    requirePositive("pressure", pressure);
    requirePositive("temperature", temperature);
  }
  const lost = first.pressure / first.temperature - last.pressure / last.temperature;
  return brand<"volumeFlow">(((volume / time) * lost * standardGasState.temperature) / standardGasState.pressure);
}
