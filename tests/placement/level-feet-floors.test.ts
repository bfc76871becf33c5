import { expect, test } from "vitest";
import { answeredFloors } from "./floors.js";

test("another 50,000 random floors: inside the travel, level and without rock but for the rounding, none lower", () => {
  expect(answeredFloors(7, 50_000)).toBeGreaterThan(15_000);
});
