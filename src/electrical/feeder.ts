/** The feeder or service that several machines hang on: one schema for the demand calculators. */
import * as z from "zod";
import { brand, type Current, type Power } from "../core/quantity/index.js";
import { quantity } from "../core/rule/index.js";
import { lineCurrent, ROOT_THREE } from "./plate.js";
import { nominalVoltage, type System } from "./system.js";

/** Schema of a list of appliances by rating [kW each], with its least number of entries. */
export const ratedGroups = (most: number, least: 0 | 1 = 1) =>
  z
    .array(
      z.strictObject({
        rating: quantity("power", { min: [0.1, "kW"], max: [most, "kW"] }).describe("Rating of each, from its plate"),
        count: z.int().min(1).max(1000).describe("How many of this rating"),
      }),
    )
    .min(least)
    .max(50)
    .optional();

export const feederPhases = z
  .enum(["single-phase", "three-phase, four wires"])
  .optional()
  .describe("Phases of the feeder or service; single-phase where left out");

export const mostBetween = z
  .int()
  .min(1)
  .max(1000)
  .optional()
  .describe("On a three-phase feeder: the largest number of them joined between any two phases");

/**
 * Current that a demand puts on the lines of a feeder [A]. On three phases the demand is three times what half of the
 * demand of twice the largest number between two phases comes to.
 */
export function feederCurrent(demand: Power, system: System, threePhase: boolean): Current {
  const volts = nominalVoltage(system, "lines");
  return threePhase ? brand<"current">(demand / (ROOT_THREE * volts)) : lineCurrent(demand, volts, "one");
}

/** Three-phase demand from that of twice the largest number between two phases: half of it on each of three phases [-]. */
export const THREE_PHASE_SHARE = 3 / 2;
