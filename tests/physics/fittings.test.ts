import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brand, inUnit, type Length, si } from "../../src/core/quantity/index.js";
import {
  bellmouthEntry,
  bendReynoldsFactor,
  bendRoughnessFactor,
  brent,
  circleArea,
  colebrook,
  darcyFactor,
  fittingLoss,
  freeExit,
  frictionLoss,
  fullyRoughFactor,
  idelchikBend,
  meanVelocity,
  mitreBend,
  proudEntry,
  reynolds,
  roundedBend,
  sharpOrifice,
  smoothElbow,
  standardElbow,
  suddenContraction,
  suddenExpansion,
} from "../../src/physics/index.js";
import { reference } from "../references.js";
import { expectNear, expectPrinted } from "./published.js";

const ratio = (value: number) => si(value, "1");
const deg = (value: number) => si(value, "deg");
const GRAVITY = 9.80665;

describe("roundedBend", () => {
  const { rows, tolerance } = reference("physics/bend-rounded.csv");

  test.each(rows)("$id: $angle_deg degrees, r/D $radius_ratio, f $factor", (row) => {
    const k = roundedBend(Number(row["factor"]), deg(Number(row["angle_deg"])), ratio(Number(row["radius_ratio"])));
    // f is printed to 6 decimals; K carries up to 43 f, so a little more than the last digit can move.
    expectPrinted(k, row["rennels"]!, tolerance + 2);
    // The other laws scatter widely. From r/D 1 at 90 degrees this one stays within 46 % of three of them.
    if (Number(row["radius_ratio"]) >= 1 && row["angle_deg"] === "90") {
      for (const other of ["crane", "miller", "ito"]) expectNear(k, Number(row[other]), 0.46);
    }
  });

  test("a bend of no angle is no bend; a wider angle never loses less; a straight-on limit holds", () => {
    expect(roundedBend(0.02, deg(0), ratio(1.5))).toBe(0);
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 180, noNaN: true }),
        fc.double({ min: 1, max: 180, noNaN: true }),
        fc.double({ min: 1, max: 10, noNaN: true }),
        fc.double({ min: 0.01, max: 0.06, noNaN: true }),
        (a, b, r, f) => {
          const [less, more] = a < b ? [a, b] : [b, a];
          // Throat losses fade with (r/D)^(-4a/π) as the bend goes on, so the law may dip by a few thousandths.
          expect(roundedBend(f, deg(more), ratio(r))).toBeGreaterThanOrEqual(
            roundedBend(f, deg(less), ratio(r)) - 0.35 * f * r,
          );
          expect(roundedBend(f * 1.1, deg(a), ratio(r))).toBeGreaterThan(roundedBend(f, deg(a), ratio(r)));
        },
      ),
    );
  });

  test.each([
    [0, 90, 1.5, /friction factor/],
    [0.02, 181, 1.5, /angle/],
    [0.02, -1, 1.5, /angle/],
    [0.02, 90, 0.49, /radius/],
  ])("refuses f %s, %s degrees, r/D %s", (f, angle, r, message) => {
    expect(() => roundedBend(f, deg(angle), ratio(r))).toThrow(message);
  });

  test("the ASHRAE die-stamped, pressed and gored elbows lie within 0.16 of it", () => {
    const tables = reference("physics/elbow-tables.csv");
    for (const row of tables.rows) {
      const d = Number(row["diameter_mm"]);
      const f = colebrook(5e4, 0.09 / d);
      const k = roundedBend(f, deg(Number(row["angle_deg"])), ratio(Number(row["radius_ratio"])));
      expect(Math.abs(k - Number(row["k"]))).toBeLessThanOrEqual(tables.tolerance);
    }
  });
});

describe("mitreBend", () => {
  const { rows, tolerance } = reference("physics/bend-mitre.csv");

  test.each(rows)("$id: $angle_deg degrees", (row) => {
    const k = mitreBend(deg(Number(row["angle_deg"])));
    expectPrinted(k, row["rennels"]!, tolerance);
    for (const other of ["crane", "miller", "blevins"]) expectNear(k, Number(row[other]), 0.45);
  });

  test("square-duct mitres: 0.34 at 45, 0.55 at 60, 1.2 at 90 degrees, a companion data set of ASHRAE Fundamentals 1989", () => {
    for (const [angle, k] of [
      [45, 0.34],
      [60, 0.55],
      [75, 0.81],
      [90, 1.2],
    ] as const)
      expectNear(mitreBend(deg(angle)), k, 0.11);
  });

  test("is zero straight on, grows with the angle and stops at 150 degrees", () => {
    expect(mitreBend(deg(0))).toBe(0);
    const angle = fc.double({ min: 0, max: 150, noNaN: true });
    fc.assert(
      fc.property(angle, angle, (a, b) => {
        expect(mitreBend(deg(Math.max(a, b)))).toBeGreaterThanOrEqual(mitreBend(deg(Math.min(a, b))) - 1e-12);
      }),
    );
    expect(mitreBend(deg(150))).toBeGreaterThan(2);
    expect(() => mitreBend(deg(151))).toThrow(/mitre angle/);
  });
});

describe("idelchikBend", () => {
  /** The local part alone: a friction factor far too small to matter. */
  const local = (angle: number, r: number, re = 4e5, relativeRoughness = 0) =>
    idelchikBend({ angle: deg(angle), radiusRatio: ratio(r), re, relativeRoughness, factor: 1e-15 });

  test.each(reference("physics/bend-idelchik-angle.csv").rows)("angle factor at $angle_deg degrees", (row) => {
    expect(local(Number(row["angle_deg"]), 1) / 0.21).toBeCloseTo(Number(row["a1"]), 12);
  });

  test.each(reference("physics/bend-idelchik-radius.csv").rows)("radius factor at $radius_ratio", (row) => {
    expect(local(90, Number(row["radius_ratio"]))).toBeCloseTo(Number(row["b1"]), 12);
  });

  test.each(reference("physics/bend-idelchik-reynolds.csv").rows)("Reynolds factor at $re", (row) => {
    const re = Number(row["re"]);
    for (const [r, column] of [
      [0.5, "to_0.55"],
      [0.55, "to_0.55"],
      [0.56, "to_0.70"],
      [0.7, "to_0.70"],
      [0.71, "above_0.70"],
      [40, "above_0.70"],
    ] as const) {
      expect(bendReynoldsFactor(re, ratio(r))).toBeCloseTo(Number(row[column]), 10);
      expect(local(90, r, re) / local(90, r)).toBeCloseTo(Number(row[column]), 10);
    }
  });

  test("the printed formulas of the two factors run within 0.05 of the tables", () => {
    // A1 = 0.9 sin a to 70°, 0.7 + 0.35 a/90 from 100°; B1 = 0.21 (r/D)^-2.5 to r/D 1, then ^-0.5.
    for (const a of [20, 30, 45, 60]) expect(Math.abs(local(a, 1) / 0.21 - 0.9 * Math.sin(deg(a)))).toBeLessThan(0.05);
    for (const a of [110, 130, 150, 180])
      expect(Math.abs(local(a, 1) / 0.21 - (0.7 + (0.35 * a) / 90))).toBeLessThan(0.01);
    for (const r of [0.5, 0.6, 0.7, 0.8, 0.9]) expect(Math.abs(local(90, r) - 0.21 * r ** -2.5)).toBeLessThan(0.021);
    for (const r of [1.25, 1.5, 2, 4, 6, 8, 10, 20, 30, 40])
      expect(Math.abs(local(90, r) - 0.21 * r ** -0.5)).toBeLessThan(0.0051);
  });

  test("adds the friction along the centre line, 0.0175·a·f·r/D with a in degrees", () => {
    const bend = { angle: deg(60), radiusRatio: ratio(3), re: 1e6, relativeRoughness: 0, factor: 0.012 };
    expectNear(idelchikBend(bend) - local(60, 3, 1e6), 0.0175 * 60 * 0.012 * 3, 5e-3);
  });

  test("roughness: none to Re 40 000, then by the cells of the table", () => {
    expect(bendRoughnessFactor(4e4, ratio(1.5), 0.03)).toBe(1);
    expect(bendRoughnessFactor(1e6, ratio(1.5), 0)).toBe(1);
    expect(bendRoughnessFactor(1e5, ratio(0.5), 0.0008)).toBeCloseTo(1.4, 12);
    expect(bendRoughnessFactor(1e5, ratio(0.5), 0.01)).toBe(1.5);
    expect(bendRoughnessFactor(1e5, ratio(1.5), 0.01)).toBe(2);
    expect(bendRoughnessFactor(3e5, ratio(1.5), 0.0005)).toBeCloseTo(1.5, 12);
    expect(bendRoughnessFactor(6e4, ratio(1.5), 0.0009)).toBeCloseTo(colebrook(6e4, 0.0009) / colebrook(6e4, 0), 12);
  });

  test("refuses what the tables do not cover", () => {
    expect(() => local(90, 0.49)).toThrow(/radius/);
    expect(() => local(90, 41)).toThrow(/radius/);
    expect(() => local(90, 1, 9999)).toThrow(/Reynolds/);
    expect(() => local(181, 1)).toThrow(/angle/);
    expect(() => bendRoughnessFactor(1e5, ratio(1), 0.06)).toThrow(/roughness/);
  });
});

describe("multiples of the fully rough factor", () => {
  test.each(reference("physics/elbow-multiples.csv").rows)("90 degree bend, r/D $radius_ratio", (row) => {
    expectNear(smoothElbow(ratio(Number(row["radius_ratio"])), 0.02), Number(row["multiple"]) * 0.02, 1e-12);
  });

  test("standard elbows of 4 in pipe, fluids 1.0.22 bend_rounded 'Crane standard': 0.259714 and 0.486964", () => {
    expectNear(standardElbow(deg(45), 0.016232), 0.259714, 1e-4);
    expectNear(standardElbow(deg(90), 0.016232), 0.486964, 1e-4);
    expectNear(standardElbow(deg(180), 0.016232), 50 * 0.016232, 1e-12);
  });

  test("a radius a rounding error outside the table is on its end", () => {
    expectNear(smoothElbow(ratio(10 * (1 + 1e-12)), 0.02), 30 * 0.02, 1e-12);
    expectNear(smoothElbow(ratio(1 - 1e-12), 0.02), 20 * 0.02, 1e-12);
  });

  test("refuses other angles and radii", () => {
    expect(() => standardElbow(deg(60), 0.02)).toThrow(/45, 90 or 180/);
    expect(() => standardElbow(deg(90.2), 0.02)).toThrow(/45, 90 or 180/);
    expect(() => smoothElbow(ratio(0.9), 0.02)).toThrow(/radius/);
    expect(() => smoothElbow(ratio(11), 0.02)).toThrow(/radius/);
  });
});

describe("changes of section", () => {
  const { rows, tolerance } = reference("physics/section-change.csv");

  test.each(rows)("$id: $change from $from_mm to $to_mm mm", (row) => {
    const [from, to] = [Number(row["from_mm"]), Number(row["to_mm"])];
    const k = from < to ? suddenExpansion(ratio((from / to) ** 2)) : suddenContraction(ratio((to / from) ** 2));
    expectPrinted(k, row["k"]!, tolerance);
  });

  test("no change loses nothing; a sharper one never loses less; the three contractions stay within 0.125", () => {
    const n = fc.double({ min: 0.01, max: 1, noNaN: true });
    expect(suddenExpansion(ratio(1))).toBe(0);
    for (const formula of ["jet", "linear", "idelchik"] as const)
      expect(suddenContraction(ratio(1), formula)).toBeCloseTo(0, 12);
    fc.assert(
      fc.property(n, n, (a, b) => {
        const [tight, open] = a < b ? [a, b] : [b, a];
        expect(suddenExpansion(ratio(open))).toBeLessThanOrEqual(suddenExpansion(ratio(tight)) + 1e-12);
        expect(sharpOrifice(ratio(open))).toBeLessThanOrEqual(sharpOrifice(ratio(tight)) * (1 + 1e-12) + 1e-12);
        for (const formula of ["jet", "linear", "idelchik"] as const)
          expect(suddenContraction(ratio(open), formula)).toBeLessThanOrEqual(
            suddenContraction(ratio(tight), formula) + 1e-12,
          );
        expect(Math.abs(suddenContraction(ratio(a)) - suddenContraction(ratio(a), "linear"))).toBeLessThan(0.125);
        expect(Math.abs(suddenContraction(ratio(a), "idelchik") - suddenContraction(ratio(a), "linear"))).toBeLessThan(
          0.08,
        );
      }),
    );
    expect(() => suddenExpansion(ratio(0))).toThrow(/area ratio/);
    expect(() => suddenContraction(ratio(1.1))).toThrow(/area ratio/);
  });

  const orifice = reference("physics/orifice-obstruction.csv");

  test.each(orifice.rows)("sharp orifice leaving $open_ratio open", (row) => {
    expectPrinted(sharpOrifice(ratio(Number(row["open_ratio"]))), row["k"]!, orifice.tolerance);
  });
});

describe("entries and exit", () => {
  test.each(reference("physics/entry-bellmouth.csv").rows)("bellmouth r/D $mouth_ratio", (row) => {
    expect(bellmouthEntry(ratio(Number(row["mouth_ratio"])))).toBeCloseTo(Number(row["k"]), 12);
  });

  test.each(reference("physics/entry-proud.csv").rows)("proud end L/D $proud_ratio", (row) => {
    expect(proudEntry(ratio(Number(row["proud_ratio"])))).toBeCloseTo(Number(row["k"]), 12);
  });

  test("the last value stands for all beyond; between points on the line; a free exit loses it all", () => {
    expect(bellmouthEntry(ratio(2))).toBe(0.03);
    expect(proudEntry(ratio(10))).toBe(1);
    expect(bellmouthEntry(ratio(0.07))).toBeCloseTo((0.32 + 0.2) / 2, 12);
    expect(freeExit).toBe(1); // fluids 1.0.22, exit_normal
    expect(proudEntry(ratio(0))).toBe(0.5); // fluids 1.0.22, entrance_sharp(method='Idelchik')
    expect(() => bellmouthEntry(ratio(-0.1))).toThrow(/mouth/);
    expect(() => proudEntry(ratio(Number.NaN))).toThrow(/wall/);
  });
});

describe("whole pipe systems, Technical Paper 410", () => {
  const water = { density: si(62.364, "lb/ft3"), viscosity: si(1.1, "mPa*s") };
  const steel = si(0.0018, "in");
  const fullyRough = (bore: Length) => fullyRoughFactor(steel / bore);

  test("example 7.19: 11.5 ft of head gives 137 gpm", () => {
    const [three, two] = [si(3.068, "in"), si(2.067, "in")];
    const loss = (q: number) => {
      const v3 = meanVelocity(si(q, "gpm"), circleArea(three));
      const v2 = meanVelocity(si(q, "gpm"), circleArea(two));
      // Sharp entry 0.5, mitre 60 f_T, gate valve 8 f_T (appendix A, from memory), narrowing and exit on the 2 in pipe.
      const k3 = 0.5 + (60 + 8) * fullyRough(three);
      const k2 = suddenContraction(ratio((two / three) ** 2), "linear") + freeExit;
      return (
        frictionLoss({ velocity: v3, diameter: three, roughness: steel, ...water }, si(10, "ft")) +
        frictionLoss({ velocity: v2, diameter: two, roughness: steel, ...water }, si(20, "ft")) +
        fittingLoss(k3, water.density, v3) +
        fittingLoss(k2, water.density, v2)
      );
    };
    const flow = brent((q) => loss(q) - water.density * GRAVITY * si(11.5, "ft"), 20, 400);
    // The printed solution rounds its factors; one by fluids 1.0.22 with the nominal ratio 2/3 gives 136.7.
    expectNear(flow, 137, 0.02);
  });

  test("example 7.15: 100 gpm against 400 ft takes 421 ft of head and 15.2 hp at 70 %", () => {
    const [density, viscosity] = [si(62.298, "lb/ft3"), si(0.95, "mPa*s")];
    const bore = si(3.068, "in");
    const flow = si(100, "gpm");
    const velocity = meanVelocity(flow, circleArea(bore));
    // Gate valve 8 f_T and lift check 600 f_T of its 2 1/2 in bore, referred to 3 in by the fourth power (from memory).
    const small = si(2.469, "in");
    const beta = small / bore;
    const check = (600 * fullyRough(small) + beta * (0.5 * (1 - beta ** 2) + (1 - beta ** 2) ** 2)) / beta ** 4;
    const k = freeExit + 8 * fullyRough(bore) + 4 * standardElbow(deg(90), fullyRough(bore)) + check;
    const loss =
      frictionLoss({ velocity, diameter: bore, roughness: si(0.0022, "in"), density, viscosity }, si(500, "ft")) +
      fittingLoss(k, density, velocity);
    const head = loss / (density * GRAVITY) / 0.3048 + 400;
    expectNear(head, 421, 2e-3);
    expectNear(inUnit(brand<"power">((flow * head * 0.3048 * density * GRAVITY) / 0.7), "hp"), 15.2, 5e-3);
  });

  test("example 7.14 (metric): 1500 L/min up 22 m through 5 and 4 in pipe takes 2.6 bar", () => {
    const [density, viscosity] = [si(999.1, "kg/m3"), si(1.1376e-3, "Pa*s")];
    const [four, five] = [si(102.26, "mm"), si(128.2, "mm")];
    const part = (bore: Length, length: number, k: number) => {
      const velocity = meanVelocity(si(1500, "L/min"), circleArea(bore));
      const re = reynolds(velocity, bore, density, viscosity);
      const bend = roundedBend(darcyFactor(re, steel / bore), deg(90), ratio(1.5));
      return (
        frictionLoss({ velocity, diameter: bore, roughness: steel, density, viscosity }, si(length, "m")) +
        fittingLoss(bend + k, density, velocity)
      );
    };
    const widening = suddenExpansion(ratio((four / five) ** 2));
    const total = density * GRAVITY * 22 + part(four, 34, widening) + part(five, 67, 0);
    expectNear(total, 2.6e5, 0.02);
  });
});
