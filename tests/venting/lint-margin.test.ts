import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inUnit, si } from "../../src/core/quantity/index.js";
import { circleArea, meanVelocity } from "../../src/physics/index.js";
import { lintMargin } from "../../src/venting/index.js";
import { lintConveying } from "../../src/venting/tables/blower.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("venting/lint-margin.csv");
const number = (value: unknown) => (value as { si: number }).si;
const input = {
  diameter: "4 in",
  straight: "25 ft",
  elbows: [{ radius: "4 in mitred" as const, angle: "90°", count: 2 }],
};

test.each(rows)(
  "$flow_cfm cfm in a $diameter_in in duct is $speed_fpm fpm, below what conveys lint in industry",
  (row) => {
    const speed = meanVelocity(si(Number(row.flow_cfm), "cfm"), circleArea(si(Number(row.diameter_in), "in")));
    expect(Math.abs(inUnit(speed, "fpm") - Number(row.speed_fpm))).toBeLessThanOrEqual(tolerance);
    expect(inUnit(speed, "fpm")).toBeLessThan(lintConveying.least);
    expect(lintConveying).toEqual({ least: 2500, most: 3000 });
  },
);

describe("venting/lint-margin", () => {
  test("the layer it finds uses up exactly the maker's limit", () => {
    const { values } = lintMargin({ ...input, backPressureLimit: "0.65 inH2O" });
    const layer = number(values.layer);
    const bore = number(values.bore);
    expect(bore).toBeCloseTo(0.1016 - 2 * layer, 12);
    const steps = values.steps as unknown as readonly { layer: { si: number }; atMachine: { si: number } }[];
    for (const step of steps) {
      const over = step.atMachine.si > si(0.65, "inH2O");
      expect(over).toBe(step.layer.si > layer);
    }
  });

  test("more lint never moves more air", () => {
    const { values } = lintMargin(input);
    const flows = (values.steps as unknown as readonly { flow: { si: number } }[]).map(({ flow }) => flow.si);
    expect(flows.length).toBeGreaterThan(5);
    flows.slice(1).forEach((flow, i) => {
      expect(flow).toBeLessThan(flows[i]!);
    });
  });

  test("a longer run has less margin for lint", () => {
    const feet = fc.integer({ min: 5, max: 40 });
    const layer = (length: number) =>
      number(lintMargin({ diameter: "4 in", straight: `${length} ft`, elbows: [], leastFlow: "90 cfm" }).values.layer);
    fc.assert(
      fc.property(feet, feet, (a, b) => {
        expect(layer(Math.max(a, b))).toBeLessThanOrEqual(layer(Math.min(a, b)) + 1e-9);
      }),
      { numRuns: 15 },
    );
  });

  test("trap: the industrial 2500 fpm is said, never judged by; a 6 in duct halves the speed and settles more", () => {
    const four = lintMargin({ ...input, diameter: "4 in" }).values;
    const six = lintMargin({ ...input, diameter: "6 in" }).values;
    expect((four.conveying as { text: string }).text).toMatch(/no household duct reaches it/);
    expect(number(six.cleanFlow)).toBeGreaterThan(number(four.cleanFlow));
    expect(number(six.speed)).toBeLessThan(0.8 * number(four.speed));
  });

  test("says what it assumed, asks for the run, points at what cannot be read", () => {
    const sum = lintMargin(input);
    expect(sum.assumptions.join()).toMatch(/three quarters of the clean flow/);
    expect(sum.workings.map(({ formula }) => formula)).toEqual([
      "speed = flow / (pi / 4 * diameter^2)",
      "bore = diameter - 2 * layer",
    ]);
    expect(lintMargin({}).missing.map(({ path }) => path[0])).toEqual(["diameter", "straight", "elbows"]);
    expect(lintMargin.try({ leastFlow: "90" }).fault?.issues[0]).toMatchObject({ path: ["leastFlow"] });
  });
});
