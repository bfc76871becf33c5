/** Heat lost by air on its way through a duct, and the water that falls out of it. */
import type { Length, MassFlow, Power, Pressure, Temperature } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { requireNotNegative, requirePositive } from "./domain.js";
import { heatOfDryAir, heatOfVapour, humidityRatio, saturationPressure } from "./moist-air.js";

/** One layer round a duct. */
export interface Layer {
  /** Thickness as fitted [m]. */
  readonly thickness: Length;
  /** Thermal conductivity; of a layer sold by its flat resistance R, thickness over R [W/(m·K)]. */
  readonly conductivity: number;
}

/** A round duct with its films and layers. A thin metal wall counts for nothing and is left out. */
export interface DuctWall {
  /** Inside diameter [m]. */
  readonly diameter: Length;
  /** Film coefficient inside [W/(m²·K)]. */
  readonly insideFilm: number;
  /** Film coefficient outside, convection and radiation together [W/(m²·K)]. */
  readonly outsideFilm: number;
  /** From the inside out. */
  readonly layers: readonly Layer[];
}

/**
 * Heat transfer coefficient of a round duct on its inside area, U [W/(m²·K)].
 *
 * 1/(U·π·D) = 1/(h_i·π·D) + Σ ln(r₂/r₁)/(2·π·k) + 1/(h_o·π·D_o)
 *
 * @param wall - films and layers
 * @throws RangeError when a value is not above 0
 * @example ductTransmittance({ diameter: 0.1, insideFilm: 25, outsideFilm: 10, layers: [] }) // 7.142857
 */
export function ductTransmittance(wall: DuctWall): number {
  requirePositive("diameter", wall.diameter);
  requirePositive("inside film coefficient", wall.insideFilm);
  requirePositive("outside film coefficient", wall.outsideFilm);
  const inner = wall.diameter / 2;
  let radius = inner;
  let resistance = 1 / wall.insideFilm;
  for (const { thickness, conductivity } of wall.layers) {
    requirePositive("layer thickness", thickness);
    requirePositive("layer conductivity", conductivity);
    resistance += (inner * Math.log1p(thickness / radius)) / conductivity;
    radius += thickness;
  }
  return 1 / (resistance + inner / (radius * wall.outsideFilm));
}

/**
 * Heat capacity flow of moist air [W/K]: C = ṁ·(1006 + 1860·W).
 *
 * @param dryAir - ṁ, mass flow of dry air [kg/s]
 * @param ratio - W, 0 or more [kg/kg dry air]
 * @throws RangeError when a value is out of its range
 * @example heatCapacityFlow(0.059626, 0.04) // 64.42
 */
export function heatCapacityFlow(dryAir: MassFlow, ratio: number): number {
  requirePositive("mass flow of dry air", dryAir);
  requireNotNegative("humidity ratio", ratio);
  return dryAir * (heatOfDryAir + heatOfVapour * ratio);
}

/** Air that runs through a duct in surroundings of one temperature. */
export interface DuctRun {
  /** Temperature of the air at the inlet [K]. */
  readonly inlet: Temperature;
  /** Temperature around the duct [K]. */
  readonly ambient: Temperature;
  /** U on the inside area, from {@link ductTransmittance} [W/(m²·K)]. */
  readonly transmittance: number;
  /** Inside diameter [m]. */
  readonly diameter: Length;
  /** C of the air, from {@link heatCapacityFlow} [W/K]. */
  readonly capacity: number;
}

function decayLength(run: DuctRun): number {
  requirePositive("inlet temperature", run.inlet);
  requirePositive("ambient temperature", run.ambient);
  requirePositive("transmittance", run.transmittance);
  requirePositive("diameter", run.diameter);
  requirePositive("heat capacity flow", run.capacity);
  return run.capacity / (run.transmittance * Math.PI * run.diameter);
}

/**
 * Mean temperature of the air at a distance from the inlet [K].
 *
 * T(x) = T_a + (T_in − T_a)·exp(−U·π·D·x/C). Holds without condensation; where water falls out, its latent heat keeps
 * the air warmer than this.
 *
 * @param run - the duct and the air in it
 * @param distance - x, 0 or more [m]
 * @throws RangeError when a value is out of its range
 * @example temperatureAlong({ inlet: 328.15, ambient: 273.15, transmittance: 6, diameter: 0.1016, capacity: 64.4195 }, 7.62) // 317.001
 */
export function temperatureAlong(run: DuctRun, distance: Length): Temperature {
  const decay = decayLength(run);
  requireNotNegative("distance", distance);
  return brand<"temperature">(run.ambient + (run.inlet - run.ambient) * Math.exp(-distance / decay));
}

/**
 * Heat that the air gives off along a length of duct [W]: C·(T_in − T(x)); negative where it is heated.
 *
 * @param run - the duct and the air in it
 * @param distance - x, 0 or more [m]
 * @throws RangeError when a value is out of its range
 * @example heatLost({ inlet: 328.15, ambient: 273.15, transmittance: 6, diameter: 0.1016, capacity: 64.4195 }, 7.62) // 718.2
 */
export function heatLost(run: DuctRun, distance: Length): Power {
  return brand<"power">(run.capacity * (run.inlet - temperatureAlong(run, distance)));
}

/**
 * Distance from the inlet at which the air has come to a temperature [m]; undefined where it never does.
 *
 * x = C/(U·π·D)·ln( (T_in − T_a)/(T − T_a) )
 *
 * @param run - the duct and the air in it
 * @param temperature - T [K]
 * @throws RangeError when a value is out of its range
 * @example distanceTo({ inlet: 328.15, ambient: 273.15, transmittance: 6, diameter: 0.1016, capacity: 64.4195 }, 317.001) // 7.62
 */
export function distanceTo(run: DuctRun, temperature: Temperature): Length | undefined {
  const decay = decayLength(run);
  requirePositive("temperature", temperature);
  if (temperature === run.inlet) return brand<"length">(0);
  const share = (run.inlet - run.ambient) / (temperature - run.ambient);
  return share > 1 && share < Infinity ? brand<"length">(decay * Math.log(share)) : undefined;
}

/**
 * Temperature of the inside of the wall [K]: T_w = T − (U/h_i)·(T − T_a). Water falls out where it is below the dew point.
 *
 * @param air - T, of the air in the duct there [K]
 * @param ambient - T_a [K]
 * @param transmittance - U on the inside area [W/(m²·K)]
 * @param insideFilm - h_i, above U [W/(m²·K)]
 * @throws RangeError when a value is out of its range
 * @example wallTemperature(313.2, 273.15, 6, 27.9) // 304.587
 */
export function wallTemperature(
  air: Temperature,
  ambient: Temperature,
  transmittance: number,
  insideFilm: number,
): Temperature {
  requirePositive("air temperature", air);
  requirePositive("ambient temperature", ambient);
  requirePositive("transmittance", transmittance);
  if (!(insideFilm > transmittance && insideFilm < Infinity)) {
    throw new RangeError(`inside film coefficient must be above U of ${transmittance} (got ${insideFilm})`);
  }
  return brand<"temperature">(air - (transmittance / insideFilm) * (air - ambient));
}

/**
 * Water that falls out of air brought wholly to a lower temperature [kg/s]; an upper bound for a duct with that wall.
 *
 * ṁ_w = ṁ·(W − W_s(T)), 0 where the air can hold it.
 *
 * @param dryAir - ṁ, mass flow of dry air [kg/s]
 * @param ratio - W, of the air coming in [kg/kg dry air]
 * @param coldest - T, the lowest temperature the air is brought to [K]
 * @param pressure - total, absolute [Pa]
 * @throws RangeError when a value is out of its range
 * @example condensationRate(0.05, 0.04, 303.15, 101325) // 6.3987e-4
 */
export function condensationRate(dryAir: MassFlow, ratio: number, coldest: Temperature, pressure: Pressure): MassFlow {
  requirePositive("mass flow of dry air", dryAir);
  requireNotNegative("humidity ratio", ratio);
  const saturation = saturationPressure(coldest);
  if (saturation >= pressure) return brand<"massFlow">(0);
  return brand<"massFlow">(dryAir * Math.max(0, ratio - humidityRatio(saturation, pressure)));
}
