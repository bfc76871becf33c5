/** Random floors and machines for the levelling of feet, checked against an independent solver. */
import { expect } from "vitest";
import { readAt, type ShownValue } from "../../src/core/rule/index.js";
import { levelFeet } from "../../src/placement/index.js";

export type Foot = Record<"foot" | "turns" | "way" | "change" | "extension", ShownValue | null>;
export const corners = ["frontLeft", "frontRight", "backRight", "backLeft"] as const;

/**
 * The long run (`FUZZ` set, as for the other fuzz tests) looks at every answer; else one in twenty is looked at, as
 * building its calculation takes the most time.
 */
const lookedAt = process.env["FUZZ"] === undefined ? 20 : 1;

/**
 * Levels so many random machines on random floors and expects of each answer: inside the travel, level and without rock
 * but for the rounding, and no lower stance. Returns how many had an answer.
 */
export function answeredFloors(seed: number, count: number): number {
  const at = readAt({ units: "si" });
  let state = seed;
  const random = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  const lead = 0.0015;
  const quarter = lead / 4;
  let answered = 0;
  for (let n = 0; n < count; n++) {
    const floor = [0, 0, 0, 0].map(() => random() * 0.02);
    const extended = [0, 0, 0, 0].map(() => random() * 0.015);
    const width = 0.4 + random() * 0.5;
    const depth = 0.4 + random() * 0.5;
    const travel = 0.01 + random() * 0.02;
    const four = (values: number[]) => Object.fromEntries(corners.map((key, i) => [key, values[i]]));
    const input = {
      feet: { width, depth },
      reading: { by: "drops", ...four(floor.map((height) => 1 - height)) },
      extended: four(extended),
      lead,
      screw: { length: travel, engagement: 0 },
    };
    const { status, calculation } = levelFeet.run(input as never, at, []);
    // An independent solver: the lowest common height by bisection on what the four feet can reach.
    const reach = (height: number) => floor.every((one) => height - one >= -1e-12);
    let low = -1;
    let high = 1;
    for (let step = 0; step < 60; step++) {
      const middle = (low + high) / 2;
      if (reach(middle)) high = middle;
      else low = middle;
    }
    const lowest = high;
    const possible = floor.every((one) => lowest - one <= travel);
    if (!possible) {
      expect(status).toBe("impossible");
      continue;
    }
    if (status !== "computed") {
      // Only where not even a quarter turn is left between the lowest stance and the end of the screw.
      expect(lowest + quarter).toBeGreaterThan(Math.min(...floor) + travel - quarter);
      continue;
    }
    answered++;
    if (n % lookedAt !== 0) continue;
    const result = calculation().values;
    const stands = (result.feet as unknown as Foot[]).map(({ change }, i) => floor[i]! + extended[i]! + change!.si!);
    const out = (result.feet as unknown as Foot[]).map(({ change }, i) => extended[i]! + change!.si!);
    expect(Math.min(...out)).toBeGreaterThanOrEqual(-1e-9);
    expect(Math.max(...out)).toBeLessThanOrEqual(travel + 1e-9);
    const rock = Math.abs(stands[0]! - stands[1]! + stands[2]! - stands[3]!);
    expect(rock).toBeLessThanOrEqual(quarter / 2 + 1e-9);
    for (const stand of stands) expect(Math.abs(stand - lowest)).toBeLessThanOrEqual(3 * quarter);
    // At the very end of the screw the choice of quarters is cut, and the first aim, no rock, costs some level.
    const cut = lowest - Math.min(...floor) + 2 * quarter > travel;
    expect(Math.max(...stands) - Math.min(...stands)).toBeLessThanOrEqual((cut ? 3 : 2) * quarter + 1e-9);
  }
  return answered;
}
