/** The load that a machine puts on its own circuit, with the steps that lead there. */
import type { Basis } from "../core/basis/index.js";
import { brand, type Current, inUnit } from "../core/quantity/index.js";
import type { At, MachineKind } from "../core/rule/index.js";
import { necBasis } from "./basis.js";
import { rangeCircuitDemand } from "./demand.js";
import { lineCurrent, type Plate } from "./plate.js";
import { cookingBounds } from "./tables/demand.js";

/** The current on the machine's circuit, and what it rests on beside the plate. */
export interface CircuitLoad {
  readonly load: Current;
  /** Where a range is taken at less than its plate. */
  readonly basis: Basis | undefined;
  /** Whether it is a range of 8¾ kW or more, which has a least circuit. */
  readonly isLargeRange: boolean;
}

/**
 * Load of a machine on its own branch circuit [A]: its rated current, or for a range the demand of the cooking table.
 * `undefined` where the plate gives neither current nor power and voltage.
 */
export function circuitLoad(kind: MachineKind | undefined, plate: Plate, at: At): CircuitLoad | undefined {
  const { current, power, voltage, phases = "one" } = plate;
  const watts = power ?? (current === undefined || voltage === undefined ? undefined : current * voltage);
  if (kind === "range" && watts !== undefined && voltage !== undefined && phases === "one") {
    const rating = brand<"power">(watts);
    const kilowatts = inUnit(rating, "kW");
    if (kilowatts <= cookingBounds.most_kW) {
      return {
        load: lineCurrent(rangeCircuitDemand(rating), voltage, phases),
        basis: necBasis(at, "Table 220.55, note 4", "seen", "One range on its circuit is taken at its demand."),
        isLargeRange: kilowatts >= cookingBounds.large_kW * (1 - 1e-9),
      };
    }
  }
  const load =
    current ?? (power === undefined || voltage === undefined ? undefined : lineCurrent(power, voltage, phases));
  return load === undefined ? undefined : { load, basis: undefined, isLargeRange: false };
}
