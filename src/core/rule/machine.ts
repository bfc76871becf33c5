/** What more than one trade needs to know of a machine. */
import * as z from "zod";
import { fuels } from "../basis/index.js";
import { quantity } from "./input.js";

/** Kinds of machine. What else matters (fuel, steam, ventless) is said beside it. */
export const machineKinds = [
  "dryer",
  "washer",
  "stack",
  "range",
  "oven",
  "cooktop",
  "dishwasher",
  "refrigerator",
  "hood",
] as const;
export type MachineKind = (typeof machineKinds)[number];

/** Facts of the machine that several trades share, each with its one schema. */
export const machineFacts = {
  kind: z.enum(machineKinds).describe("What the machine is; stack is a washer with a dryer on top"),
  fuel: z.enum(fuels).describe("What heats the machine; none where it only turns or cools"),
  exhaust: z
    .enum(["vented", "ventless"])
    .optional()
    .describe("Whether the dryer blows its air outdoors or condenses its water"),
  steam: z.boolean().optional().describe("Whether the machine takes water to make steam"),
  heatInput: quantity("power", { max: [200_000, "Btu/h"] })
    .optional()
    .describe("Input rate of the burner, from the plate"),
  exhaustRate: quantity("volumeFlow", { max: [3000, "cfm"] })
    .optional()
    .describe("Air the machine exhausts, from the sheet"),
} as const;
