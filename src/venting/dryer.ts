/** What the rules on dryer exhaust share: facts of the machine, and when there is no duct to look at. */
import type { MachineKind } from "../core/rule/index.js";
import { machineFacts } from "../core/rule/index.js";

/** Facts of the machine that decide which texts bind and whether there is a duct at all. */
export const dryerFacts = {
  kind: machineFacts.kind.optional(),
  fuel: machineFacts.fuel,
  exhaust: machineFacts.exhaust,
} as const;

/** Messages for machines without an exhaust duct. */
export const noDuctMessages = {
  noExhaust: "A ventless dryer has no exhaust duct.",
  notDryer: "Only a dryer has this exhaust.",
} as const;

/** Examples that reach those messages. */
export const noDuctExamples = [
  {
    title: "A ventless dryer",
    input: { fuel: "electric" as const, exhaust: "ventless" as const },
    gives: "noExhaust",
  },
  { title: "A washer", input: { kind: "washer" as const, fuel: "none" as const }, gives: "notDryer" },
];

/** Why a machine has no dryer exhaust, or `undefined` where it has one. A machine whose kind was not said is a dryer. */
export function withoutDuct(
  kind: MachineKind | undefined,
  exhaust: "vented" | "ventless" | undefined,
): ["noExhaust"] | ["notDryer"] | undefined {
  if (kind !== undefined && kind !== "dryer" && kind !== "stack") return ["notDryer"];
  return exhaust === "ventless" ? ["noExhaust"] : undefined;
}
