import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { si } from "../../src/core/quantity/index.js";
import type { ShownValue } from "../../src/core/rule/index.js";
import { handling, teamLimit } from "../../src/placement/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("placement/handling.csv");
type Row = (typeof rows)[number];

const inputOf = (row: Row) => {
  const [length, mass] = row.units === "us" ? ["in", "lb"] : ["cm", "kg"];
  const long = (value: string) => `${value} ${length}`;
  return {
    mass: `${row.mass} ${mass}`,
    lift: {
      horizontal: long(row.h!),
      vertical: long(row.v!),
      travel: long(row.travel!),
      twist: `${row.twist_deg}°`,
      perMinute: Number(row.per_minute),
      grip: row.grip,
      ...(row.placed_h === "" ? {} : { placed: { horizontal: long(row.placed_h!), vertical: long(row.placed_v!) } }),
    },
  };
};
const run = (row: Row) => handling.try(inputOf(row), { units: row.units as "us" | "si" }).calculation!;
const step = (row: Row) => {
  const steps = run(row).workings.filter(({ formula }) => formula?.startsWith("limit"));
  return steps[row.placed_h === "" ? 0 : 1]!;
};
const unitOf = (row: Row) => si(1, row.units === "us" ? "lb" : "kg");
const shown = (value: unknown) => value as ShownValue;

describe("the lifting equation", () => {
  test.each(rows.filter(({ units }) => units === "us"))(
    "$id prints $printed, its factors rounded to two places",
    (row) => {
      const { values } = step(row);
      const factor = (name: string) =>
        name === "horizontal" && row.table_h !== ""
          ? Number(row.table_h)
          : Math.round(values[name]!.si! * 100 + 1e-9) / 100;
      const product = ["horizontal", "vertical", "travel", "twist", "frequency", "grip"].reduce(
        (limit, name) => limit * factor(name),
        51,
      );
      expect(Math.abs(product - Number(row.printed))).toBeLessThanOrEqual(tolerance);
    },
  );

  test.each(rows.filter(({ full }) => full !== ""))("$id is $full at full precision", (row) => {
    const limit = step(row).values.limit!.si! / unitOf(row);
    expect(Math.abs(limit - Number(row.full))).toBeLessThanOrEqual(6e-4);
    if (row.deviation !== "")
      expect(Math.abs(Number(row.printed) - limit - Number(row.deviation))).toBeLessThanOrEqual(tolerance);
  });

  test("takes the lower of both ends, and the frequency by the height at the origin", () => {
    const { values } = run(rows.find(({ id }) => id === "W5")!);
    expect(shown(values.limit).si).toBeGreaterThan(shown(values.limitPlaced).si!);
    expect(shown(values.index).si! * shown(values.limitPlaced).si!).toBeCloseTo(si(26, "lb"), 9);
    expect(shown(values.meaning).text).toMatch(/^a raised risk for some/);
  });

  test("metric and US constants are two sets, not conversions of each other", () => {
    const lift = {
      horizontal: "15 in",
      twist: "20°",
      vertical: "20 in",
      travel: "30 in",
      perMinute: 1,
      duration: "moderate",
      grip: "fair",
    };
    const limit = (units: "us" | "si") =>
      shown(handling.try({ mass: "20 lb", lift }, { units }).calculation!.values.limit).si!;
    expect(limit("us")).toBeCloseTo(9.823, 3);
    expect(limit("si")).toBeCloseTo(9.627, 3);
  });
});

describe("teamLimit", () => {
  test("two lift two thirds of the sum, three a half: not twice and three times", () => {
    expect(teamLimit(si(20, "kg"), 2)).toBeCloseTo(26.667, 3);
    expect(teamLimit(si(20, "kg"), 3)).toBeCloseTo(30, 9);
  });
});

describe("placement/handling", () => {
  const washer = { mass: "150 lb" };

  test("pull on stairs, hold on the way down, share of the lower carrier: worked out apart", () => {
    const { values, workings } = handling({
      ...washer,
      slope: { rise: "7.75 in", run: "10 in", friction: 0.1 },
      carriers: { apart: "38 in", above: "13.5 in" },
    });
    const pounds = (name: string) => shown(values[name]).si! / si(1, "lbf");
    expect(pounds("dragUp")).toBeCloseTo(103.742, 3);
    expect(pounds("holdDown")).toBeCloseTo(80.03, 3);
    expect(shown(values.lowerShare).si).toBeCloseTo(0.7753, 4);
    expect(workings.map(({ text }) => text)).toContain("pitch = atan(rise / run): atan(7 3/4 in / 10 in) = 37.8°");
  });

  test("force at the handle of a truck, and where it balances: worked out apart", () => {
    const at = (tilt: number) => {
      const { values } = handling({
        mass: "200 lb",
        truck: { along: "24 in", inFront: "10 in", handle: "50 in", tilt: `${tilt}°` },
      });
      return [shown(values.handle).si! / si(1, "lbf"), (shown(values.balance).si! * 180) / Math.PI] as const;
    };
    expect(at(0)[0]).toBeCloseTo(-40, 3);
    expect(at(30)[0]).toBeCloseTo(13.359, 3);
    expect(at(45)[0]).toBeCloseTo(39.598, 3);
    expect(at(60)[0]).toBeCloseTo(63.138, 3);
    expect(at(0)[1]).toBeCloseTo(22.62, 3);
  });

  test("never promises that a lift is safe", () => {
    const calm = handling({
      mass: "5 lb",
      lift: { horizontal: "10 in", vertical: "30 in", travel: "10 in", grip: "good" },
    });
    expect(calm.message).not.toMatch(/\bsafe\b/);
    expect(calm.cautions.join(" ")).toContain("no calculation here makes a lift safe");
  });

  test("gives no index where the equation allows nothing", () => {
    const { values } = handling({
      ...washer,
      lift: { horizontal: "26 in", vertical: "30 in", travel: "10 in", grip: "good" },
    });
    expect(values.index).toBeNull();
    expect(shown(values.meaning).text).toMatch(/^out of the range/);
  });

  test("carries the tolerance of the mass", () => {
    const { values } = handling({
      mass: "150 lb ± 10 lb",
      slope: { rise: "7 in", run: "11 in", friction: 0 },
    });
    expect(shown(values.dragUp).tolerance!.si).toBeGreaterThan(0);
  });

  test("asks for what is missing and points at the unreadable", () => {
    expect(handling({ ...washer }).missing.map(({ path }) => path)).toEqual([["lift"], ["slope"], ["truck"]]);
    expect(handling.try({ mass: "150" }).fault?.issues[0]).toMatchObject({ path: ["mass"], code: "noUnit" });
  });

  test("further out, never more", () => {
    const inches = fc.integer({ min: 0, max: 30 });
    fc.assert(
      fc.property(inches, inches, (a, b) => {
        const limit = (horizontal: number) =>
          shown(
            handling({
              ...washer,
              lift: { horizontal: `${horizontal} in`, vertical: "30 in", travel: "20 in", grip: "fair" },
            }).values.limit,
          ).si!;
        expect(limit(Math.max(a, b))).toBeLessThanOrEqual(limit(Math.min(a, b)));
      }),
    );
  });
});
