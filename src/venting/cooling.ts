/** Heat and water that exhaust air loses along its run, cell by cell. Numerics only, SI. */
import {
  brand,
  type Density,
  type Length,
  type MassFlow,
  type Pressure,
  type Temperature,
} from "../core/quantity/index.js";
import {
  airConductivity,
  airViscosity,
  brent,
  circleArea,
  dryAirDensity,
  dryAirVolume,
  filmCoefficient,
  freeCylinder,
  gnielinski,
  heatCapacityFlow,
  heatOfDryAir,
  heatOfVapour,
  humidityRatio,
  latentHeat,
  prandtlOfAir,
  radiationFilm,
  rayleigh,
  saturationPressure,
} from "../physics/index.js";

/** A stretch of duct with its surroundings. */
export interface Stretch {
  readonly length: Length;
  /** Temperature around it [K]. */
  readonly ambient: Temperature;
  /** Thermal resistance of the wrap on its flat area, 0 where bare [m²·K/W]. */
  readonly insulation: number;
  /** Whether it hangs in the open, where the wind takes over from free convection. */
  readonly inWind: boolean;
}

/** The air that enters the run. */
export interface Entering {
  readonly temperature: Temperature;
  /** Water over dry air [kg/kg]. */
  readonly ratio: number;
  readonly pressure: Pressure;
  readonly dryAir: MassFlow;
}

/** One cell of the run after the march. */
export interface Cell {
  /** Distance of the cell's end from the machine [m]. */
  readonly end: Length;
  readonly stretch: number;
  /** Air at the cell's end [K]. */
  readonly air: Temperature;
  /** Coldest inside wall in the cell [K]. */
  readonly wall: Temperature;
  /** Water that falls out in the cell [kg/s]. */
  readonly water: MassFlow;
  /** Water over dry air at the cell's end [kg/kg]. */
  readonly ratio: number;
}

/** Laminar Nusselt number at constant wall temperature, textbook (from memory). */
const LAMINAR_NUSSELT = 3.66;
/** Emissivity of galvanized duct, somewhat tarnished, and of a wrap's face (from memory). */
const EMISSIVITY = { bare: 0.25, wrapped: 0.9 } as const;
/** Film in a wind of 15 mph, building handbook (from memory) [W/(m²·K)]. */
const WIND_FILM = 34;
/** Conductivity of glass-fibre wrap, to turn its labelled resistance into a thickness (common practice, no source) [W/(m·K)]. */
const WRAP_CONDUCTIVITY = 0.04;
/** Length of a cell [m], and the most cells of a whole run; a longer run has longer cells. */
const CELL = 0.1;
const MOST_CELLS = 160;
/** Rounds that settle the outward film, in the first cell of a stretch and in those after it. */
const ROUNDS = { first: 6, later: 2 } as const;
const FREEZING = 273.15;

/** Film inside a round duct [W/(m²·K)]: Gnielinski's from Reynolds number 3000, the laminar one below. */
export function insideFilm(air: Temperature, speedTimesDensity: number, diameter: Length): number {
  const re = (speedTimesDensity * diameter) / airViscosity(air);
  const nusselt = re >= 3000 ? gnielinski(Math.min(re, 5e6), prandtlOfAir) : LAMINAR_NUSSELT;
  return filmCoefficient(nusselt, airConductivity(air), diameter);
}

/** Conductance from the inside wall outward, on the inside area [W/(m²·K)], for an outer surface at a temperature. */
function outward(stretch: Stretch, diameter: Length, surface: Temperature, pressure: Pressure): number {
  const { ambient, insulation, inWind } = stretch;
  const thickness = insulation * WRAP_CONDUCTIVITY;
  const outer = brand<"length">(diameter + 2 * thickness);
  const mean = brand<"temperature">((surface + ambient) / 2);
  const emissivity = insulation > 0 ? EMISSIVITY.wrapped : EMISSIVITY.bare;
  let film = WIND_FILM;
  if (!inWind) {
    const density: Density = dryAirDensity(mean, pressure);
    const ra = rayleigh({
      surface,
      ambient,
      length: outer,
      density,
      viscosity: airViscosity(mean),
      prandtl: prandtlOfAir,
    });
    film =
      filmCoefficient(freeCylinder(ra, prandtlOfAir), airConductivity(mean), outer) +
      radiationFilm(emissivity, surface, ambient);
  }
  const wrap = thickness === 0 ? 0 : ((diameter / 2) * Math.log(outer / diameter)) / WRAP_CONDUCTIVITY;
  return 1 / (wrap + diameter / (outer * film));
}

/** Humidity ratio of saturated air at a wall [kg/kg]; as much as there is where the wall is near boiling. */
function saturated(wall: number, pressure: Pressure): number {
  const vapour = saturationPressure(brand<"temperature">(wall));
  return vapour >= 0.95 * pressure ? Number.POSITIVE_INFINITY : humidityRatio(vapour, pressure);
}

/**
 * Marches the air through its stretches.
 *
 * In each cell the inside wall takes the temperature at which heat from the air, by film and by water that condenses on
 * it, equals heat to the surroundings: h_i·(T − T_w) + h_i/c·(W − W_s)·r = U_o·(T_w − T_a), the condensation term only
 * where the wall is below the dew point (Lewis number 1). Bulk temperature and water then fall exponentially towards the
 * wall's.
 *
 * @param entering - the air at the machine
 * @param stretches - in the direction of the air
 * @param diameter - bore [m]
 * @param untilWet - whether to stop at the first cell where water falls out
 */
export function march(entering: Entering, stretches: readonly Stretch[], diameter: Length, untilWet = false): Cell[] {
  const { pressure, dryAir } = entering;
  const cells: Cell[] = [];
  let air: number = entering.temperature;
  let ratio = entering.ratio;
  let at = 0;
  const whole = stretches.reduce((sum, { length }) => sum + length, 0);
  const size = Math.max(CELL, whole / MOST_CELLS);
  for (const [index, stretch] of stretches.entries()) {
    const count = Math.max(1, Math.ceil(stretch.length / size));
    const step = stretch.length / count;
    const area = Math.PI * diameter * step;
    // The outward film hangs on the surface's temperature; each cell starts from that of the one before.
    let surface = brand<"temperature">((air + stretch.ambient) / 2);
    for (let i = 0; i < count; i++) {
      const bulk = brand<"temperature">(air);
      const massFlux = (dryAir * (1 + ratio)) / circleArea(diameter);
      const film = insideFilm(bulk, massFlux, diameter);
      const capacity = heatOfDryAir + heatOfVapour * ratio;
      const transfer = film / capacity;
      const latent = latentHeat(brand<"temperature">(Math.min(373.15, Math.max(FREEZING, air))));
      const low = Math.min(air, stretch.ambient);
      const high = Math.max(air, stretch.ambient);
      let wall = air;
      if (high - low > 1e-9) {
        for (let round = 0; round < (i === 0 ? ROUNDS.first : ROUNDS.later); round++) {
          const out = outward(stretch, diameter, surface, pressure);
          const balance = (t: number) =>
            film * (air - t) +
            transfer * Math.max(0, ratio - saturated(t, pressure)) * latent -
            out * (t - stretch.ambient);
          // Where nothing condenses the balance is a straight line.
          const dry = (film * air + out * stretch.ambient) / (film + out);
          wall = saturated(dry, pressure) >= ratio ? dry : balance(high) >= 0 ? high : brent(balance, low, high, 1e-7);
          const flux = out * (wall - stretch.ambient);
          const wrap =
            stretch.insulation === 0
              ? 0
              : ((diameter / 2) * Math.log(1 + (2 * stretch.insulation * WRAP_CONDUCTIVITY) / diameter)) /
                WRAP_CONDUCTIVITY;
          surface = brand<"temperature">(wall - flux * wrap);
        }
      }
      const heatUnits = (film * area) / heatCapacityFlow(dryAir, ratio);
      air = wall + (air - wall) * Math.exp(-heatUnits);
      const held = saturated(wall, pressure);
      let water = 0;
      if (ratio > held) {
        const next = held + (ratio - held) * Math.exp((-transfer * area) / dryAir);
        water = dryAir * (ratio - next);
        ratio = next;
      }
      at += step;
      cells.push({
        end: brand<"length">(at),
        stretch: index,
        air: brand<"temperature">(air),
        wall: brand<"temperature">(wall),
        water: brand<"massFlow">(water),
        ratio,
      });
      if (untilWet && water > 0) return cells;
    }
  }
  return cells;
}

/** Dry air in a volume flow of moist air [kg/s]. */
export const dryAirFlow = (flow: number, temperature: Temperature, ratio: number, pressure: Pressure): MassFlow =>
  brand<"massFlow">(flow / dryAirVolume(temperature, ratio, pressure));
