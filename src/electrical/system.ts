/** Supply systems: which voltages a building has, and which of them a machine is joined to. */
import * as z from "zod";
import { brand, type Voltage } from "../core/quantity/index.js";

/** Systems of supply: single-phase three-wire, the two-phase take-off of a four-wire wye, and the 230 V of IEC 60038. */
export const systems = ["120/240 V", "208Y/120 V", "230/400 V"] as const;
/** A system of supply. */
export type System = (typeof systems)[number];

export const systemInput = z
  .enum(systems)
  .describe("System of the building: read it at the panel, or measure line to line and line to neutral");

/** Nominal voltages by system [V]. ANSI C84.1, table 1; IEC 60038, table 1. */
const nominal: Record<System, { readonly lines: number; readonly neutral: number }> = {
  "120/240 V": { lines: 240, neutral: 120 },
  "208Y/120 V": { lines: 208, neutral: 120 },
  "230/400 V": { lines: 400, neutral: 230 },
};

/** Between which conductors a machine is joined. */
export type Between = "lines" | "neutral";

/**
 * Nominal voltage between the lines, or between line and neutral [V].
 *
 * @example nominalVoltage("208Y/120 V", "lines") // 208
 */
export function nominalVoltage(system: System, between: Between): Voltage {
  return brand<"voltage">(nominal[system][between]);
}

/**
 * Between which conductors a machine belongs by the voltage on its plate: the pair whose nominal voltage is nearer.
 *
 * @param rated - rated voltage [V]
 * @example belongsBetween("120/240 V", si(230, "V")) // "lines"
 */
export function belongsBetween(system: System, rated: Voltage): Between {
  const { lines, neutral } = nominal[system];
  return rated * rated >= lines * neutral ? "lines" : "neutral";
}
