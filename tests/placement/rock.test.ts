import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { si } from "../../src/core/quantity/index.js";
import type { ShownValue } from "../../src/core/rule/index.js";
import { loadShift, rock, weightOf } from "../../src/placement/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("placement/rock.csv");
const corners = ["frontLeft", "frontRight", "backRight", "backLeft"] as const;
const POUND_FORCE = 4.4482216152605;

const list = (cell: string) => cell.split(";").map(Number);
const inputOf = (row: Readonly<Record<string, string>>) => {
  const text = (value: number) => `${value} ${row.unit}`;
  const heights = list(row.heights!);
  return {
    feet: { width: text(Number(row.width)), depth: text(Number(row.depth)) },
    drops: Object.fromEntries(corners.map((key, i) => [key, text(40 - heights[i]!)])),
    ...(row.weight_lb === ""
      ? {}
      : {
          mass: `${row.weight_lb} lb`,
          centre: { right: text(Number(row.right)), back: text(Number(row.back)) },
          stiffness: `${row.stiffness_lbf_in} lbf/in`,
        }),
  };
};
const loads = (values: Record<string, unknown>) =>
  (values.feet as { load: ShownValue }[]).map(({ load }) => load.si! / POUND_FORCE);

describe("placement/rock", () => {
  test.each(rows.filter(({ rock_deg }) => rock_deg !== ""))("$id rocks by $rock_deg°", (row) => {
    const { values } = rock.try(inputOf(row)).calculation!;
    expect((values.angle as unknown as ShownValue).si! * (180 / Math.PI)).toBeCloseTo(Number(row.rock_deg), 4);
  });

  test.each(rows.filter(({ loads_lbf }) => loads_lbf !== ""))("$id carries $loads_lbf lbf", (row) => {
    const { values } = rock.try(inputOf(row)).calculation!;
    const carried = loads(values);
    list(row.loads_lbf!).forEach((load, i) => {
      expect(Math.abs(carried[i]! - load)).toBeLessThanOrEqual(tolerance);
    });
    // Sharing by area balances too, and is wrong.
    if (row.bilinear_lbf !== "")
      expect(Math.max(...list(row.bilinear_lbf!).map((load, i) => Math.abs(load - carried[i]!)))).toBeGreaterThan(0.7);
  });

  test("pairs the diagonal feet: rows of two would find no rock where there is some", () => {
    const { values } = rock.try(inputOf({ unit: "mm", width: "600", depth: "550", heights: "0;3;3;0", weight_lb: "" }))
      .calculation!;
    expect(values.carries as unknown as ShownValue).toMatchObject({ text: "all four: it does not rock" });
    const twisted = rock.try(inputOf({ unit: "mm", width: "600", depth: "550", heights: "0;3;0;3", weight_lb: "" }));
    expect(twisted.calculation!.values.gap as unknown as ShownValue).toMatchObject({ text: "0.236 in" });
  });

  test("says which feet bear, what hangs and what a quarter turn does, and shows the steps", () => {
    const { values, workings } = rock(
      {
        feet: { width: "600 mm", depth: "550 mm" },
        rocks: { foot: "back left", gap: "4 mm" },
        mass: "70 kg",
        stiffness: "200 N/mm",
        thread: "M8 x 1.25",
      },
      { units: "si" },
    );
    expect(values.carries as unknown as ShownValue).toMatchObject({
      text: "front left and back right, and either front right or back left",
    });
    expect(workings.map(({ text }) => text)).toEqual([
      "twist = frontLeft - frontRight + backRight - backLeft: 0 mm - 0 mm + 0 mm - -4 mm = 4 mm",
      "quarterTurn = stiffness * (lead / 4) / 4: 200 N/mm * (1.25 mm / 4) / 4 = 15.6 N",
    ]);
  });

  test("a quarter turn shifts the load by what the springs say", () => {
    const turned = (gap: number) =>
      loads(
        rock({
          feet: { width: "24 in", depth: "22 in" },
          rocks: { foot: "front left", gap: `${gap} mm` },
          mass: "100 kg",
          stiffness: "100 N/mm",
        }).values,
      )[0]! * POUND_FORCE;
    expect(turned(0.5) - turned(0.8125)).toBeCloseTo(loadShift(si(100, "N/mm"), si(0.3125, "mm")), 6);
  });

  test("the loads always add up to the weight and none is below 0", () => {
    const at = fc.integer({ min: -110, max: 110 }).map((tenths) => tenths / 10);
    const gap = fc.integer({ min: 0, max: 1000 }).map((hundredths) => hundredths / 100);
    fc.assert(
      fc.property(at, at, gap, (right, back, free) => {
        const carried = loads(
          rock({
            feet: { width: "24 in", depth: "22 in" },
            rocks: { foot: "back right", gap: { value: free, unit: "mm" } },
            mass: "80 kg",
            centre: { right: { value: right, unit: "in" }, back: { value: back, unit: "in" } },
            stiffness: "300 N/mm",
          }).values,
        );
        expect(Math.min(...carried)).toBeGreaterThanOrEqual(0);
        const sum = carried.reduce((total, load) => total + load, 0) * POUND_FORCE;
        expect(sum).toBeCloseTo(weightOf(si(80, "kg")), 6);
      }),
    );
  });

  test("does not answer without heights, and points at what cannot be read", () => {
    expect(rock({ feet: { width: "24 in", depth: "22 in" } })).toMatchObject({
      status: "missing",
      missing: [{ path: ["drops"] }, { path: ["rocks"] }],
    });
    const read = rock.try({ mass: "80" });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["mass"], code: "noUnit" });
  });
});
