import { describe, expect, test } from "vitest";
import { readCompound, si } from "../../src/core/quantity/index.js";

describe("readCompound", () => {
  test.each([
    ["8 (hour ft^2 degF)/BTU", "thermalResistance", si(8, "h*ft2*F/Btu")],
    ["60 lbf/inch^2", "pressure", si(60, "psi")],
    ["-2.5e1 N/mm", "stiffness", -si(25, "N/mm")],
    ["150 ft^3/minute", "volumeFlow", si(150, "cfm")],
    ["2 m/m", "ratio", 2],
  ] as const)("reads %s as our own table has it", async (text, dimension, expected) => {
    expect(await readCompound(text, dimension)).toBeCloseTo(expected, 9);
  });

  test.each([
    ["3 m", "pressure", /is not a unit of pressure/],
    ["3 constructor", "length", /not known/],
    ["3", "length", /not a number with a compound unit/],
    ["import 3", "length", /not a number with a compound unit/],
    ["3 m; 2", "length", /not a number with a compound unit/],
    [`3 ${"m".repeat(200)}`, "length", /at most 100/],
    ["1e308 km", "length", /too large/],
  ] as const)("refuses %s", async (text, dimension, why) => {
    await expect(readCompound(text, dimension)).rejects.toThrow(why);
  });
});
