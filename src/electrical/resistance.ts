/** Resistance, impedance and voltage drop of a run: the kernels. */
import {
  type AwgSize,
  brand,
  type ConductorSize,
  type Current,
  conductorArea,
  inUnit,
  type Length,
  type ResistancePerLength,
  si,
  type Temperature,
  type Voltage,
} from "../core/quantity/index.js";
import type { Metal } from "./circuit.js";
import { ROOT_THREE } from "./plate.js";
import { iecRun, reactanceRows, resistanceRows, resistivities, temperatureCoefficients } from "./tables/resistance.js";

/** How the metal of a conductor is made up. */
export const constructions = ["solid", "stranded"] as const;
/** Solid or stranded. */
export type Construction = (typeof constructions)[number];
/** What surrounds the conductors, as far as reactance goes. */
export const surroundings = ["cable or plastic", "aluminum", "steel"] as const;
/** A raceway's metal. */
export type Surrounding = (typeof surroundings)[number];

/** Temperature that the tables of resistance are for. */
const TABLE_TEMPERATURE = si(75, "degC");

/**
 * DC resistance of one conductor by the code's table [Ω/m], at a conductor temperature; `undefined` for a solid size that
 * the table lacks.
 *
 * R = R75 · (1 + α75 · (T − 75 °C))
 *
 * @basis NEC 2017, chapter 9, Table 8 with its note 2
 * @example tableResistance("12 AWG", "copper", "solid", si(75, "degC")) // 0.00633202
 */
export function tableResistance(
  size: AwgSize,
  metal: Metal,
  construction: Construction,
  temperature: Temperature,
): ResistancePerLength | undefined {
  const row = resistanceRows.find((one) => one.size === size)!;
  const printed =
    metal === "copper"
      ? construction === "solid"
        ? row.copperSolid
        : row.copperStranded
      : construction === "solid"
        ? row.aluminumSolid
        : row.aluminumStranded;
  if (printed === null) return undefined;
  const warmer = 1 + temperatureCoefficients[metal] * (temperature - TABLE_TEMPERATURE);
  return brand<"resistancePerLength">(si(printed, "ohm/kft") * warmer);
}

/**
 * Resistance of one solid conductor from resistivity and area [Ω/m]: ρ20 · (1 + α20 · (T − 20 °C)) / A.
 *
 * @basis IEC 60028 for copper; ASTM B258 for the area
 * @example formulaResistance("12 AWG", "copper", si(75, "degC")) // 0.006337124
 */
export function formulaResistance(size: ConductorSize, metal: Metal, temperature: Temperature): ResistancePerLength {
  const { ohm_m, perKelvin } = resistivities[metal];
  const warmer = 1 + perKelvin * (inUnit(temperature, "degC") - 20);
  return brand<"resistancePerLength">((ohm_m * warmer) / conductorArea(size));
}

/**
 * Reactance of one conductor to neutral [Ω/m] by the code's table; `undefined` for 18 and 16 AWG, which it lacks.
 *
 * @basis NEC 2017, chapter 9, Table 9
 */
export function tableReactance(size: AwgSize, surrounding: Surrounding): ResistancePerLength | undefined {
  const row = reactanceRows.find((one) => one.size === size);
  return row && si(surrounding === "steel" ? row.steel : row.plain, "ohm/kft");
}

/**
 * Effective impedance of one conductor [Ω/m]: R cos θ + X sin θ.
 *
 * @param powerFactor - cos θ, 0 to 1
 * @basis NEC 2017, chapter 9, Table 9, note 2
 * @example effectiveImpedance(si(0.054, "ohm/kft"), si(0.052, "ohm/kft"), 0.85) // 0.0002404616
 */
export function effectiveImpedance(
  resistance: ResistancePerLength,
  reactance: ResistancePerLength,
  powerFactor: number,
): ResistancePerLength {
  return brand<"resistancePerLength">(resistance * powerFactor + reactance * Math.sqrt(1 - powerFactor ** 2));
}

/**
 * Conductor lengths that the current passes for each length of run: out and back on two wires, √3 balanced three-phase [-].
 */
export const wayFactor = (phases: "one" | "three"): number => (phases === "three" ? ROOT_THREE : 2);

/**
 * Voltage drop of a run [V]: 2 · Z · L · I single-phase, √3 · Z · L · I balanced three-phase, L one way.
 *
 * @param impedance - effective impedance of one conductor [Ω/m]
 * @param length - one way [m]
 * @example voltageDropOf(si(1.93, "ohm/kft"), si(100, "ft"), si(20, "A"), "one") // 7.72
 */
export function voltageDropOf(
  impedance: ResistancePerLength,
  length: Length,
  current: Current,
  phases: "one" | "three",
): Voltage {
  return brand<"voltage">(wayFactor(phases) * impedance * length * current);
}

/**
 * Resistance of one conductor in service by IEC 60364-5-52 [Ω/m]: 1.25 times its resistivity at 20 °C, over its area.
 *
 * @example serviceResistance("2.5 mm2", "copper") // 0.009
 */
export function serviceResistance(size: ConductorSize, metal: Metal): ResistancePerLength {
  return brand<"resistancePerLength">((iecRun[metal] * 1e-6) / conductorArea(size));
}

/** Reactance of one conductor by IEC 60364-5-52, where no other is known [Ω/m]. */
export const serviceReactance = (): ResistancePerLength => brand<"resistancePerLength">(iecRun.reactance_mohm_m / 1000);
