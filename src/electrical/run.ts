/** What the voltage lost in a run depends on beside size and length: one schema for the calculators that ask. */
import * as z from "zod";
import { type AwgSize, brand, type ConductorSize, type ResistancePerLength, si } from "../core/quantity/index.js";
import { quantity, type Read } from "../core/rule/index.js";
import type { Metal } from "./circuit.js";
import {
  type Construction,
  constructions,
  effectiveImpedance,
  serviceReactance,
  serviceResistance,
  surroundings,
  tableReactance,
  tableResistance,
} from "./resistance.js";

export const runInput = z.strictObject({
  construction: z.enum(constructions).optional().describe("Solid or stranded conductors"),
  surrounding: z.enum(surroundings).optional().describe("Cable or plastic conduit, aluminum or steel conduit"),
  powerFactor: quantity("ratio", { min: [0.1, "1"], max: [1, "1"] })
    .optional()
    .describe("Power factor of the load; 100 % for a heating element"),
  temperature: quantity("temperature", { min: [-20, "degC"], max: [90, "degC"] })
    .optional()
    .describe("Temperature of the conductors under load"),
});
/** The run after reading. */
export type Run = Read<z.output<typeof runInput>>;

/** Sizes that are solid in cable; larger ones are stranded. Common practice, no source. */
const SOLID: readonly AwgSize[] = ["18 AWG", "16 AWG", "14 AWG", "12 AWG", "10 AWG"];

/** The construction taken where none was noted. */
export const usualConstruction = (size: AwgSize): Construction => (SOLID.includes(size) ? "solid" : "stranded");

/** Temperature that the tables of resistance are for, taken where none was noted. */
export const usualTemperature = si(75, "degC");

/** What {@link impedanceOf} takes for granted, as sentences. */
export function runTaken({ construction, powerFactor, temperature }: Run, size: AwgSize): string[] {
  return [
    construction === undefined ? `The ${size} conductors are taken as ${usualConstruction(size)}.` : "",
    powerFactor === undefined ? "The load is taken as a heating element: power factor 100 %." : "",
    temperature === undefined ? "The conductors are taken at 75 °C (167 °F), as the table has them." : "",
  ].filter((text) => text !== "");
}

/** Resistance and effective impedance of one conductor of a run. */
export interface RunImpedance {
  readonly resistance: ResistancePerLength;
  readonly reactance: ResistancePerLength;
  readonly impedance: ResistancePerLength;
}

/** Resistance, reactance and effective impedance of one conductor [Ω/m]; a stranded row where the table has no solid one. */
export function impedanceOf(run: Run, size: AwgSize, metal: Metal): RunImpedance {
  const { construction = usualConstruction(size), surrounding = "cable or plastic", powerFactor = 1 } = run;
  const temperature = run.temperature ?? usualTemperature;
  const resistance =
    tableResistance(size, metal, construction, temperature) ?? tableResistance(size, metal, "stranded", temperature)!;
  const reactance = tableReactance(size, surrounding) ?? brand<"resistancePerLength">(0);
  return { resistance, reactance, impedance: effectiveImpedance(resistance, reactance, powerFactor) };
}

/** What {@link metricImpedanceOf} takes for granted, as sentences. */
export function metricTaken({ powerFactor }: Run): string[] {
  return [
    powerFactor === undefined ? "The load is taken as a heating element: power factor 100 %." : "",
    "The conductors are taken as warm as in normal service: 1.25 times their resistance at 20 °C.",
  ].filter((text) => text !== "");
}

/** Resistance, reactance and effective impedance of one conductor of a metric run [Ω/m], by IEC 60364-5-52, annex G. */
export function metricImpedanceOf(
  { powerFactor = brand<"ratio">(1) }: Run,
  size: ConductorSize,
  metal: Metal,
): RunImpedance {
  const resistance = serviceResistance(size, metal);
  const reactance = serviceReactance();
  return { resistance, reactance, impedance: effectiveImpedance(resistance, reactance, powerFactor) };
}
