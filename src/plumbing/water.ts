/** Whether and which water a machine takes; asked by every rule about supply and drain. */
import * as z from "zod";
import { type MachineKind, machineFacts } from "../core/rule/index.js";

/** Water that a machine takes from the house. */
export const supplies = ["none", "cold", "hot", "both"] as const;
/** Which water the machine takes. */
export type Supply = (typeof supplies)[number];

export const supplyFact = z
  .enum(supplies)
  .optional()
  .describe("Water the machine takes, from its sheet: none, cold, hot, or both");

/** The facts of a machine that decide whether it takes water. */
export const waterFacts = { kind: machineFacts.kind, steam: machineFacts.steam, supply: supplyFact } as const;

/** What of a machine tells whether it takes water. */
export interface WaterFacts {
  readonly kind: MachineKind;
  readonly steam?: boolean | undefined;
  readonly supply?: Supply | undefined;
}

/**
 * Whether a machine takes water; `undefined` where that has to be asked: a dryer may make steam, a refrigerator ice.
 *
 * @example takesWater({ kind: "washer" }) // true
 */
export function takesWater({ kind, steam, supply }: WaterFacts): boolean | undefined {
  if (supply !== undefined) return supply !== "none";
  switch (kind) {
    case "washer":
    case "stack":
    case "dishwasher":
      return true;
    case "dryer":
      return steam;
    case "refrigerator":
      return undefined;
    default:
      return false;
  }
}

/** The field that answers where `takesWater` cannot. */
export const waterQuestion = (kind: MachineKind): "steam" | "supply" => (kind === "dryer" ? "steam" : "supply");
