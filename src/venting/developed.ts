/** Developed length by the code's reckoning, which more than one rule asks for. */
import * as z from "zod";
import type { Fuel, Governing, Limit } from "../core/basis/index.js";
import { type Angle, brand, type Length, si } from "../core/quantity/index.js";
import { quantity } from "../core/rule/index.js";
import { nextLargerElbow } from "./basis.js";
import { type CodeLength, codeLength } from "./lengths.js";
import { elbowAllowance, elbowsIncluded } from "./limits.js";
import { type ElbowRadius, elbowRadii } from "./tables/elbows.js";

/** Schema of the elbows of one kind: radius, angle and how many. */
export const elbowInput = z.strictObject({
  radius: z.enum(elbowRadii).describe("Centreline radius; an ordinary adjustable elbow is the mitred one"),
  angle: quantity("angle", { min: [1, "deg"], max: [90, "deg"] }).describe("Angle the elbow turns the duct through"),
  count: z.int().min(1).max(50).describe("How many of them"),
});

/** Deduction of one kind of elbow, and how many there are of it. */
export interface Deduction {
  readonly each: CodeLength;
  readonly count: number;
}

/**
 * Developed length of a dryer exhaust duct by the code's reckoning [m]: straight duct and the deduction for every elbow.
 *
 * developed = straight + Σ count · each. A code's allowance, not a hydraulic equivalent length.
 *
 * @param straight - straight duct [m], 0 or more
 * @param deductions - each elbow's deduction [m] and count
 * @basis IRC 2021, M1502.4.6.1
 * @example developedLength(si(18, "ft"), [{ each: codeLength(si(5, "ft")), count: 2 }]) // 8.5344
 */
export function developedLength(straight: Length, deductions: readonly Deduction[]): CodeLength {
  return deductions.reduce<number>((sum, { each, count }) => sum + each * count, straight) as CodeLength;
}

/** The row of the fitting table that an angle falls under: itself or the next larger. */
export const tableAngle = (angle: number): 45 | 90 => (angle <= si(45, "deg") * (1 + 1e-9) ? 45 : 90);

/** Elbows of one kind, read. */
export interface Elbow {
  readonly radius: ElbowRadius;
  readonly angle: Angle;
  readonly count: number;
}

/** What the reckoning asks of a rule's context. */
interface Asker {
  readonly limit: (
    limit: Limit,
    fuel: Fuel,
    conditions?: Readonly<Record<string, string | number | boolean>>,
  ) => Governing | undefined;
  readonly rest: (basis: typeof nextLargerElbow) => void;
}

/** Deductions of a run by the texts that bind, and how many elbows the base length still has in it unused. */
export interface Reckoning {
  readonly deductions: readonly Deduction[];
  readonly unused: number;
}

/** Reckons the deductions of a run's elbows; `undefined` where no text gives them. */
export function reckon(elbows: readonly Elbow[], fuel: Fuel, { limit, rest }: Asker): Reckoning | undefined {
  let unused = limit(elbowsIncluded, fuel)?.value ?? 0;
  const deductions: Deduction[] = [];
  for (const { radius, angle, count } of elbows) {
    const row = tableAngle(angle);
    const each = limit(elbowAllowance, fuel, { radius, angle: row });
    if (!each) return undefined;
    if (Math.abs(angle - si(row, "deg")) > 1e-6) rest(nextLargerElbow);
    const taken = row === 90 ? Math.min(unused, count) : 0;
    unused -= taken;
    deductions.push({ each: codeLength(brand<"length">(each.value)), count: count - taken });
  }
  return { deductions, unused };
}
