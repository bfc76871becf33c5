/** What the machine's plate says of its electrics, and the load that follows from it. */
import * as z from "zod";
import { brand, type Current, type Power, type Voltage } from "../core/quantity/index.js";
import { quantity, type Read } from "../core/rule/index.js";

const amps = (most: number) => quantity("current", { min: [0.1, "A"], max: [most, "A"] }).optional();
const watts = quantity("power", { min: [1, "W"], max: [50, "kW"] }).optional();

export const plateInput = z.strictObject({
  voltage: quantity("voltage", { min: [90, "V"], max: [500, "V"] })
    .optional()
    .describe("Rated voltage; where the plate gives two, such as 240 V and 208 V, the one for this building"),
  current: amps(200).describe("Rated current"),
  power: watts.describe("Rated power, W or VA"),
  element: watts.describe("Power of the heating element alone"),
  motor: amps(100).describe("Current of the motor alone"),
  phases: z.enum(["one", "three"]).optional().describe("Phases; one unless the plate says 3~"),
  neutral: z
    .boolean()
    .optional()
    .describe("Whether it needs a neutral as well: the plate says 120/240 V or 120/208 V, not 240 V alone"),
  leastCircuit: amps(200).describe("Minimum circuit, where the plate or the sheet states one"),
  mostOvercurrent: amps(200).describe("Largest breaker or fuse, where the plate or the sheet states one"),
});

/** The plate after reading. */
export type Plate = Read<z.output<typeof plateInput>>;

/** √3, between line and phase of a balanced three-phase load [-]. */
export const ROOT_THREE = Math.sqrt(3);

/**
 * Line current of a load [A].
 *
 * I = P / V single-phase, I = P / (√3 · V) balanced three-phase; P in VA, or in W at a power factor of one.
 *
 * @param power - apparent power [VA]
 * @param voltage - between the conductors it is joined to [V], above 0
 * @example lineCurrent(si(5500, "W"), si(240, "V"), "one") // 22.916666666666668
 */
export function lineCurrent(power: Power, voltage: Voltage, phases: "one" | "three"): Current {
  return brand<"current">(power / (phases === "three" ? ROOT_THREE * voltage : voltage));
}

/**
 * Power of a resistive element at another voltage than its rated one [W].
 *
 * P = P_rated · (V / V_rated)², by Ohm's law; the change of resistance with temperature is left out.
 *
 * @param rated - power at the rated voltage [W]
 * @param voltage - voltage that is there [V], 0 or more
 * @param ratedVoltage - voltage on the plate [V], above 0
 * @example elementPower(si(5400, "W"), si(208, "V"), si(240, "V")) // 4056
 */
export function elementPower(rated: Power, voltage: Voltage, ratedVoltage: Voltage): Power {
  return brand<"power">(rated * (voltage / ratedVoltage) ** 2);
}

/**
 * Rated current of the machine [A]: as printed, else from power and voltage; `undefined` where the plate gives neither.
 *
 * @example ratedCurrent({ power: si(5600, "W"), voltage: si(240, "V") }) // 23.333333333333332
 */
export function ratedCurrent({ current, power, voltage, phases = "one" }: Plate): Current | undefined {
  if (current !== undefined) return current;
  return power === undefined || voltage === undefined ? undefined : lineCurrent(power, voltage, phases);
}
