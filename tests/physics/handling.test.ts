import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brand, inUnit, si } from "../../src/core/quantity/si.js";
import {
  beamFrequency,
  conformanceProbability,
  draggingForce,
  dunkerleyFrequency,
  engagementForStrength,
  floorFrequency,
  frequencyMultiplier,
  type Grip,
  guardBand,
  guardBandRisk,
  handTruckBalance,
  handTruckForce,
  horizontalEstimate,
  type Lift,
  type LiftingDuration,
  type LiftingSystem,
  liftingAsymmetry,
  liftingDuration,
  liftingFrequency,
  liftingFrequencyRows,
  liftingGrips,
  liftingLimit,
  lowerCarrierShare,
  massFrequency,
  normalProbability,
  normalQuantile,
  reversedReading,
  STANDARD_GRAVITY,
  slidingForce,
  slopeAngle,
  slopeAt,
  type TapeClass,
  tapeClasses,
  tapeLimit,
  threadStressArea,
  tipAngle,
  tippingForce,
  tippingLever,
  unbalanceForce,
  usTapeLimit,
  usTapeLimits,
  vialRadius,
  vialTilt,
  wheelStepForce,
} from "../../src/physics/index.js";
import { reference } from "../references.js";
import { expectPrinted } from "./published.js";

const m = (value: number) => brand<"length">(value);
const newton = (value: number) => brand<"force">(value);
const ratio = (value: number) => brand<"ratio">(value);
const rad = (degrees: number) => brand<"angle">((degrees * Math.PI) / 180);
const deg = (angle: number) => (angle * 180) / Math.PI;
const finite = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });

describe("lifting: tables", () => {
  test("the frequency table is that of the manual, cell by cell against a second transcription", () => {
    const { rows } = reference("physics/lifting-frequency.csv");
    expect(liftingFrequencyRows).toHaveLength(rows.length);
    for (const [i, row] of rows.entries()) {
      const ours = liftingFrequencyRows[i]!;
      expect([ours.perMinute, ...ours.short, ...ours.moderate, ...ours.long]).toEqual(
        ["per_min", "short_low", "short_high", "moderate_low", "moderate_high", "long_low", "long_high"].map((c) =>
          Number(row[c]),
        ),
      );
    }
  });

  test("the grip table and the zero point of asymmetry", () => {
    // DHHS (NIOSH) 94-110, table 7: below 30 in, at or above.
    expect(liftingGrips).toEqual({ good: [1, 1], fair: [0.95, 1], poor: [0.9, 0.9] });
    // 135° is the last angle: 1 − 0.0032 · 135 = 0.568, printed .57.
    expect(1 - liftingAsymmetry.perDegree * liftingAsymmetry.most).toBeCloseTo(0.568, 12);
  });

  test("every row is met exactly, rows are joined straight, beyond the last there is nothing", () => {
    const durations: LiftingDuration[] = ["short", "moderate", "long"];
    for (const [i, row] of liftingFrequencyRows.entries()) {
      for (const duration of durations) {
        for (const [j, low] of [true, false].entries()) {
          const at = (perMinute: number) => frequencyMultiplier(brand<"frequency">(perMinute / 60), duration, low);
          expect(at(row.perMinute)).toBeCloseTo(row[duration][j as 0 | 1], 12);
          const next = liftingFrequencyRows[i + 1];
          if (next)
            expect(at((row.perMinute + next.perMinute) / 2)).toBeCloseTo(
              (row[duration][j as 0] + next[duration][j as 0]) / 2,
              12,
            );
        }
      }
    }
    expect(frequencyMultiplier(brand<"frequency">(15.01 / 60), "short", false)).toBe(0);
    expect(frequencyMultiplier(brand<"frequency">(0), "long", false)).toBe(0.85);
    // 94-110, example 7: 2.4 lifts a minute between the rows for 2 and 3.
    expect(frequencyMultiplier(brand<"frequency">(2.4 / 60), "short", true)).toBeCloseTo(0.898, 12);
  });
});

describe("lifting: limits", () => {
  const examples = reference("physics/lifting-examples.csv");
  test.each(examples.rows)("manual's example $id, in inches and pounds", (row) => {
    const n = (name: string) => Number(row[name]);
    const lift: Lift = {
      horizontal: si(n("h_in"), "in"),
      vertical: si(n("v_in"), "in"),
      verticalAtOrigin: si(n("origin_v_in"), "in"),
      travel: si(n("d_in"), "in"),
      asymmetry: si(n("a_deg"), "deg"),
      frequency: brand<"frequency">(n("per_min") / 60),
      duration: row["duration"] as LiftingDuration,
      grip: row["grip"] as Grip,
    };
    const limit = liftingLimit(lift, "us");
    const pounds = inUnit(limit.limit, "lb");
    expect(Math.abs(pounds - n("printed_lb"))).toBeLessThanOrEqual(examples.tolerance);
    if (row["full_lb"] !== "") expect(Math.abs(pounds - n("full_lb"))).toBeLessThanOrEqual(6e-4);
    if (row["full_index"] !== "") expectPrinted(n("load_lb") / pounds, row["full_index"]!);
    const factors = [limit.horizontal, limit.vertical, limit.travel, limit.asymmetry, limit.frequency, limit.grip];
    // The manual's tables print two places, and some rows (H 23, D 48) round up.
    for (const [i, printed] of row["factors"]!.split(";").entries())
      expect(Math.abs(factors[i]! - Number(printed))).toBeLessThanOrEqual(0.01);
  });

  const metric = reference("physics/lifting-metric.csv");
  test.each(metric.rows)("metric case $id", (row) => {
    const cm = (name: string) => si(Number(row[name]), "cm");
    const lift: Lift = {
      horizontal: cm("h_cm"),
      vertical: cm("v_cm"),
      travel: cm("d_cm"),
      asymmetry: rad(0),
      frequency: brand<"frequency">(0),
      duration: "short",
      grip: row["grip"] as Grip,
    };
    const { limit } = liftingLimit(lift, "metric");
    expect(Math.abs(limit - Number(row["limit_kg"]))).toBeLessThanOrEqual(metric.tolerance);
    expect(Math.abs(limit / Number(row["printed_kg"]) - 1)).toBeLessThan(0.025);
  });

  const one: Lift = {
    horizontal: si(15, "in"),
    vertical: si(20, "in"),
    travel: si(30, "in"),
    asymmetry: rad(0),
    frequency: brand<"frequency">(1 / 60),
    duration: "moderate",
    grip: "fair",
  };

  test("the two unit systems differ: at 20° aside 21.656 lb (9.823 kg) against 9.627 kg, worked out apart", () => {
    // 51 · 10/15 · 0.925 · 0.88 · 0.936 · 0.88 · 0.95 lb; 23 · 25/38.1 · 0.9274 · 0.87906 · 0.936 · 0.88 · 0.95 kg.
    const aside = { ...one, asymmetry: rad(20) };
    expect(inUnit(liftingLimit(aside, "us").limit, "lb")).toBeCloseTo(21.656, 3);
    expect(liftingLimit(aside, "us").limit).toBeCloseTo(9.823, 3);
    expect(liftingLimit(aside, "metric").limit).toBeCloseTo(9.627, 3);
  });

  test.each([
    ["us", "in", { horizontal: 25, vertical: 70, travel: 70, knuckle: 30 }],
    ["metric", "cm", { horizontal: 63, vertical: 175, travel: 175, knuckle: 75 }],
  ] as const)("the ends of every range, exactly in the manual's own units: %s", (system, unit, ends) => {
    const at = (change: Partial<Lift>) => liftingLimit({ ...one, ...change }, system as LiftingSystem);
    const length = (value: number) => si(value, unit);
    expect(at({ horizontal: length(ends.horizontal) }).horizontal).toBeGreaterThan(0.39);
    expect(at({ horizontal: length(ends.horizontal + 0.1) }).limit).toBe(0);
    expect(at({ horizontal: length(1) }).horizontal).toBe(1);
    expect(at({ vertical: length(ends.vertical) }).vertical).toBeCloseTo(0.7, 12);
    expect(at({ vertical: length(ends.vertical + 0.1) }).limit).toBe(0);
    expect(at({ travel: length(ends.travel) }).travel).toBeCloseTo(0.8457, 3);
    expect(at({ travel: length(ends.travel + 0.1) }).limit).toBe(0);
    expect(at({ travel: length(0) }).travel).toBe(1);
    expect(at({ asymmetry: rad(135) }).asymmetry).toBeCloseTo(0.568, 12);
    expect(at({ asymmetry: rad(135.1) }).limit).toBe(0);
    // At knuckle height the hands are not low.
    expect(at({ vertical: length(ends.knuckle) }).grip).toBe(1);
    expect(at({ vertical: length(ends.knuckle - 0.1) }).grip).toBe(0.95);
    const often = { frequency: brand<"frequency">(9 / 60), duration: "long" } as const;
    expect(at({ ...often, verticalAtOrigin: length(ends.knuckle), vertical: length(10) }).frequency).toBe(0.15);
    expect(at({ ...often, verticalAtOrigin: length(ends.knuckle - 0.1), vertical: length(40) }).frequency).toBe(0);
  });

  test("every factor is from 0 to 1, and no reach, twist, travel or haste raises the limit", () => {
    const lift = fc.record({
      horizontal: finite(0, 0.8).map(m),
      vertical: finite(0, 2).map(m),
      travel: finite(0, 2).map(m),
      asymmetry: finite(0, Math.PI).map((x) => brand<"angle">(x)),
      frequency: finite(0, 0.3).map((x) => brand<"frequency">(x)),
      duration: fc.constantFrom<LiftingDuration>("short", "moderate", "long"),
      grip: fc.constantFrom<Grip>("good", "fair", "poor"),
    });
    fc.assert(
      fc.property(lift, fc.constantFrom<LiftingSystem>("us", "metric"), finite(0, 0.3), (drawn, system, more) => {
        const now = liftingLimit(drawn, system);
        for (const [name, value] of Object.entries(now)) {
          if (name === "constant" || name === "limit") continue;
          expect(value).toBeGreaterThanOrEqual(0);
          expect(value).toBeLessThanOrEqual(1);
        }
        expect(now.limit).toBeLessThanOrEqual(now.constant);
        for (const worse of [
          { horizontal: m(drawn.horizontal + more) },
          { travel: m(drawn.travel + more) },
          { asymmetry: brand<"angle">(drawn.asymmetry + more) },
          { frequency: brand<"frequency">(drawn.frequency + more) },
          { grip: "poor" as const },
          { duration: "long" as const },
        ]) {
          expect(liftingLimit({ ...drawn, ...worse }, system).limit).toBeLessThanOrEqual(now.limit + 1e-12);
        }
      }),
      { numRuns: 500 },
    );
  });

  test("frequency within 15 minutes: 10 a minute for 8 of 15 are 5.33; for 5 of 15, 3.33 (the manual prints 3.4)", () => {
    const rate = brand<"frequency">(10 / 60);
    expect(liftingFrequency(rate, si(8, "min")) * 60).toBeCloseTo(5.3333, 4);
    expect(liftingFrequency(rate, si(5, "min")) * 60).toBeCloseTo(10 / 3, 12);
    // The table between 5 (.80) and 6 (.75).
    expect(frequencyMultiplier(liftingFrequency(rate, si(8, "min")), "short", true)).toBeCloseTo(0.78333, 5);
    expect(() => liftingFrequency(rate, si(16, "min"))).toThrow(/15 min/);
  });

  test("durations: the manual's 30 min, 10 min light, 45 min is moderate (75 min); enough recovery starts anew", () => {
    const spell = (work: number, recovery: number) => ({ work: si(work, "min"), recovery: si(recovery, "min") });
    expect(liftingDuration([spell(30, 10), spell(45, 0)])).toBe("moderate");
    expect(liftingDuration([spell(30, 30), spell(45, 0)])).toBe("short");
    expect(liftingDuration([spell(60, 60), spell(60, 60)])).toBe("short");
    expect(liftingDuration([spell(90, 27), spell(90, 0)])).toBe("moderate");
    expect(liftingDuration([spell(90, 26), spell(90, 0)])).toBe("long");
    expect(liftingDuration([spell(481, 0)])).toBeUndefined();
    expect(liftingDuration([])).toBe("short");
  });

  test("reach where it was not measured, on both sides of 10 in and 25 cm", () => {
    expect(inUnit(horizontalEstimate(si(16, "in"), si(10, "in"), "us"), "in")).toBeCloseTo(16, 12);
    expect(inUnit(horizontalEstimate(si(16, "in"), si(9.9, "in"), "us"), "in")).toBeCloseTo(18, 12);
    expect(inUnit(horizontalEstimate(si(40, "cm"), si(25, "cm"), "metric"), "cm")).toBeCloseTo(40, 12);
    expect(inUnit(horizontalEstimate(si(40, "cm"), si(24.9, "cm"), "metric"), "cm")).toBeCloseTo(45, 12);
  });

  test("refuses what is no lift", () => {
    expect(() => liftingLimit({ ...one, horizontal: m(-1) }, "us")).toThrow(/horizontal/);
    expect(() => liftingLimit({ ...one, frequency: brand<"frequency">(Number.NaN) }, "us")).toThrow(/frequency/);
  });
});

describe("statics of moving", () => {
  const pitch = brand<"angle">(Math.atan(7.75 / 10));
  test.each(reference("physics/statics.csv").rows)("$kind, case $id", (row) => {
    const n = (name: string) => Number(row[name]);
    const [w, b, c] = [newton(n("a")), n("b"), n("c")];
    const truck = { along: m(24), inFront: m(10), handle: m(50) };
    const value = {
      tipping: () => tippingForce(w, m(b), m(c)),
      tipAngle_deg: () => deg(tipAngle(m(n("a")), m(b))),
      share: () => lowerCarrierShare(rad(n("a")), m(b), m(c)),
      up: () => draggingForce(w, pitch, ratio(b), "up"),
      down: () => draggingForce(w, pitch, ratio(b), "down"),
      wheel: () => wheelStepForce(w, m(b), m(c)),
      balance_deg: () => deg(handTruckBalance(truck)),
      truck: () => handTruckForce(newton(200), truck, rad(n("d"))),
      sliding: () => slidingForce(w, ratio(b)),
    }[row["kind"]!]!();
    expectPrinted(value, row["value"]!);
  });

  test("laws: balance needs no force; a step as high as the axle can't be pulled; friction only helps going down", () => {
    fc.assert(
      fc.property(
        finite(10, 2000),
        finite(0.05, 1.5),
        finite(0, 0.5),
        finite(0.3, 2),
        finite(0, 1),
        (w, along, inFront, handle, mu) => {
          const load = { along: m(along), inFront: m(inFront), handle: m(handle) };
          expect(handTruckForce(newton(w), load, handTruckBalance(load))).toBeCloseTo(0, 9);
          expect(wheelStepForce(newton(w), m(along), m(along))).toBe(Number.POSITIVE_INFINITY);
          expect(wheelStepForce(newton(w), m(along), m(0))).toBe(0);
          const [up, down] = (["up", "down"] as const).map((way) => draggingForce(newton(w), pitch, ratio(mu), way));
          expect((up! + down!) / 2).toBeCloseTo(w * Math.sin(pitch), 9);
          expect(up!).toBeGreaterThanOrEqual(down!);
          // The two carriers' shares, seen from either end, are the whole.
          expect(
            lowerCarrierShare(rad(30), m(handle), m(inFront)) + lowerCarrierShare(rad(30), m(handle), m(-inFront)),
          ).toBeCloseTo(1, 12);
        },
      ),
    );
  });

  test("a slope toward the edge shortens the lever; a lifted machine slides at no force", () => {
    expect(tippingLever(m(0.3), m(0.8), brand<"slope">(0.02))).toBeCloseTo(0.284, 12);
    expect(tippingLever(m(0.3), m(0.8), brand<"slope">(-0.02))).toBeCloseTo(0.316, 12);
    expect(slidingForce(newton(900), ratio(0.4), newton(1000))).toBe(0);
    expect(slidingForce(newton(900), ratio(0.4), newton(400))).toBe(200);
  });

  test.each([
    [() => tippingForce(newton(0), m(1), m(1)), /weight/],
    [() => tippingForce(newton(1), m(-1), m(1)), /lever/],
    [() => tippingForce(newton(1), m(1), m(0)), /push height/],
    [() => tipAngle(m(-1), m(1)), /lever/],
    [() => tipAngle(m(1), m(0)), /centre height/],
    [() => slidingForce(newton(1), ratio(-1)), /friction/],
    [() => lowerCarrierShare(rad(90), m(1), m(0)), /pitch/],
    [() => lowerCarrierShare(rad(10), m(0), m(0)), /hands/],
    [() => draggingForce(newton(1), rad(10), ratio(-1), "up"), /friction/],
    [() => draggingForce(newton(-1), rad(10), ratio(0), "up"), /weight/],
    [() => wheelStepForce(newton(1), m(0), m(0)), /wheel/],
    [() => wheelStepForce(newton(1), m(1), m(-1)), /step/],
    [() => handTruckForce(newton(1), { along: m(0), inFront: m(0), handle: m(1) }, rad(1)), /above/],
    [() => handTruckForce(newton(1), { along: m(1), inFront: m(0), handle: m(1) }, rad(91)), /tilt/],
    [() => handTruckBalance({ along: m(0), inFront: m(0), handle: m(1) }), /above/],
  ])("refuses bad use %#", (call, message) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(message);
  });
});

describe("vibration", () => {
  test.each(reference("physics/vibration.csv").rows)("$kind, case $id", (row) => {
    const [p, q, r] = [Number(row["a"]), Number(row["b"]), Number(row["c"])];
    const value = {
      unbalance_N: () => unbalanceForce(brand<"mass">(p), m(q), si(r, "rpm")),
      floor_Hz: () => floorFrequency(m(p), m(0), r),
      beam_Hz: () => beamFrequency(m(p), r),
      mass_Hz: () => massFrequency(m(p), r),
      mass_rpm: () => massFrequency(m(p), r) * 60,
      dunkerley_Hz: () => dunkerleyFrequency([brand<"frequency">(p), brand<"frequency">(q)]),
    }[row["kind"]!]!();
    expectPrinted(value, row["value"]!);
  });

  test("joists on girders are Dunkerley's sum of the two alone; twice the speed is four times the force", () => {
    fc.assert(
      fc.property(finite(1e-4, 0.02), finite(1e-4, 0.02), finite(1, 25), (joist, girder, speed) => {
        const [one, two] = [floorFrequency(m(joist), m(0)), floorFrequency(m(girder), m(0))];
        expect(floorFrequency(m(joist), m(girder))).toBeCloseTo(dunkerleyFrequency([one, two]), 9);
        const at = (n: number) => unbalanceForce(brand<"mass">(0.5), m(0.25), brand<"frequency">(n));
        expect(at(2 * speed) / at(speed)).toBeCloseTo(4, 9);
      }),
    );
    expect(STANDARD_GRAVITY).toBe(9.80665);
    expect(massFrequency(m(0.00254))).toBe(massFrequency(m(0.00254), 9.80665));
  });

  test.each([
    [() => massFrequency(m(0)), /deflection/],
    [() => beamFrequency(m(1), -9.8), /gravity/],
    [() => floorFrequency(m(1), m(-0.5)), /negative/],
    [() => dunkerleyFrequency([]), /frequencies/],
    [() => unbalanceForce(brand<"mass">(-1), m(1), brand<"frequency">(1)), /at least 0/],
  ])("refuses bad use %#", (call, message) => {
    expect(call).toThrow(message);
  });
});

describe("threads", () => {
  test.each(reference("physics/thread.csv").rows)("$thread", (row) => {
    const inch = (name: string) => si(Number(row[name]), "in");
    const pitch = si(1 / Number(row["per_in"]), "in");
    const area = threadStressArea(inch("d_in"), pitch, "unified");
    expectPrinted(inUnit(area, "in2"), row["area_in2"]!);
    const limits = { leastPitchDiameter: inch("es_in"), greatestMinorDiameter: inch("kn_in") };
    const engagement = engagementForStrength(area, pitch, limits);
    expectPrinted(inUnit(engagement, "in"), row["engagement_in"]!, 0.6);
    expect(engagement / inch("d_in")).toBeGreaterThan(0.68);
    expect(engagement / inch("d_in")).toBeLessThan(0.74);
  });

  test.each([
    // ISO 898-1 nominal stress areas of coarse metric threads.
    [8, 1.25, "36.6"],
    [10, 1.5, "58.0"],
    [12, 1.75, "84.3"],
  ])("M%d", (d, pitch, area) => {
    expectPrinted(inUnit(threadStressArea(si(d, "mm"), si(pitch, "mm"), "metric"), "mm2"), area);
  });

  test("refuses what is no thread", () => {
    expect(() => threadStressArea(m(0.001), m(0.002), "metric")).toThrow(/thread/);
    const limits = { leastPitchDiameter: m(0.005), greatestMinorDiameter: m(0.006) };
    expect(() => engagementForStrength(brand<"area">(1e-5), m(0.001), limits)).toThrow(/pitch diameter/);
  });
});

describe("tapes", () => {
  const { rows, tolerance } = reference("physics/tape.csv");
  test.each(rows)("limits at $length_m m", (row) => {
    for (const name of Object.keys(tapeClasses) as TapeClass[]) {
      const length = m(Number(row["length_m"]));
      expect(Math.abs(inUnit(tapeLimit(name, length, false), "mm") - Number(row[name]))).toBeLessThanOrEqual(tolerance);
      expect(Math.abs(inUnit(tapeLimit(name, length, true), "mm") - Number(row[`${name}_hook`]))).toBeLessThanOrEqual(
        tolerance,
      );
    }
  });

  test("the class table against a second copy; 2 m reached in inches is still 2 m", () => {
    expect(
      Object.entries(tapeClasses).map(([name, { a_mm, b_mm, c_mm }]) => `${name} ${a_mm} ${b_mm} ${c_mm}`),
    ).toEqual(["I 0.1 0.1 0.1", "II 0.3 0.2 0.2", "III 0.6 0.4 0.3"]);
    expect(tapeLimit("II", si(2 / 0.0254, "in"), false)).toBeCloseTo(0.0007, 12);
    expect(tapeLimit("II", m(2.001), false)).toBeCloseTo(0.0009, 12);
    expect(() => tapeLimit("I", m(-1), false)).toThrow(/length/);
  });

  test.each(reference("physics/us-tape.csv").rows)("US tape at $length_ft ft", (row) => {
    expect(inUnit(usTapeLimit(si(Number(row["length_ft"]), "ft")), "in") * 32).toBeCloseTo(
      Number(row["limit_32nds"]),
      9,
    );
  });

  test("the US table ends at 100 ft", () => {
    expect(usTapeLimits.at(-1)).toEqual({ upTo_ft: 100, limit_in: 0.25 });
    expect(() => usTapeLimit(si(100.1, "ft"))).toThrow(/100 ft/);
    expect(() => usTapeLimit(m(-1))).toThrow(/length/);
  });
});

describe("slopes and vials", () => {
  const slopes = {
    "1/16 in/ft": () => si(1 / 16, "in/ft"),
    "1/8 in/ft": () => si(1 / 8, "in/ft"),
    "1/4 in/ft": () => si(1 / 4, "in/ft"),
    "1 mm/m": () => si(1, "mm/m"),
    "0.5 deg": () => slopeAt(rad(0.5)),
    "1 deg": () => slopeAt(rad(1)),
    "1/8 in per 27 in": () => brand<"slope">(1 / 8 / 27),
    "2 %": () => si(2, "percentSlope"),
    "7.75 in per 10 in": () => brand<"slope">(7.75 / 10),
    "7 in per 11 in": () => brand<"slope">(7 / 11),
  };
  test.each(reference("physics/slope.csv").rows)("$slope", (row) => {
    const slope = slopes[row["slope"] as keyof typeof slopes]();
    expectPrinted(slope, row["ratio"]!);
    expectPrinted(inUnit(slope, "mm/m"), row["mm_per_m"]!);
    expectPrinted(inUnit(slope, "percentSlope"), row["percent"]!);
    expectPrinted(deg(slopeAngle(slope)), row["deg"]!);
    if (row["arcmin"] !== "") expectPrinted(inUnit(slopeAngle(slope), "arcmin"), row["arcmin"]!);
    expect(slopeAt(slopeAngle(slope))).toBeCloseTo(slope, 14);
  });

  test.each(reference("physics/vial.csv").rows)("a vial of $arcmin minutes", (row) => {
    const tilt = si(Number(row["arcmin"]), "arcmin");
    expectPrinted(vialRadius(tilt) * 1000, row["radius_mm"]!);
    expectPrinted(Math.sin(tilt) * 1000, row["mm_per_m"]!);
    expect(vialTilt(m(0.002), vialRadius(tilt))).toBeCloseTo(tilt, 15);
    expect(vialTilt(m(-0.001), vialRadius(tilt))).toBeCloseTo(-tilt / 2, 15);
  });

  test("reversing a level takes out its own error, whatever it is", () => {
    fc.assert(
      fc.property(finite(-0.05, 0.05), finite(-0.01, 0.01), (slope, error) => {
        const read = reversedReading(brand<"slope">(slope + error), brand<"slope">(slope - error));
        expect(read.slope).toBeCloseTo(slope, 14);
        expect(read.error).toBeCloseTo(error, 14);
      }),
    );
  });

  test.each([
    [() => slopeAt(rad(90)), /slope/],
    [() => vialRadius(rad(0)), /above 0/],
    [() => vialTilt(m(0.001), m(0)), /radius/],
  ])("refuses bad use %#", (call, message) => {
    expect(call).toThrow(message);
  });
});

describe("deciding under doubt", () => {
  test.each(reference("physics/conformance.csv").rows)("y $y, u $u", (row) => {
    const limit = (cell: string | undefined) => (cell === "" ? {} : Number(cell));
    const range = {
      ...(row["lower"] === "" ? {} : { lower: Number(limit(row["lower"])) }),
      ...(row["upper"] === "" ? {} : { upper: Number(limit(row["upper"])) }),
    };
    expectPrinted(conformanceProbability(Number(row["y"]), Number(row["u"]), range), row["pc"]!);
  });

  test.each(reference("physics/guard-band.csv").rows)("guard band of $share U", (row) => {
    const risk = guardBandRisk(Number(row["share"]));
    expectPrinted(risk, row["risk"]!);
    if (row["published_bound"] !== "") expect(risk).toBeLessThanOrEqual(Number(row["published_bound"]));
  });

  test("the normal distribution against printed values, to all their digits", () => {
    // Abramowitz and Stegun, table 26.1 (from memory), and the far tail (Q(10), Q(20), Q(37)) as commonly tabulated.
    for (const [z, p] of [
      [0, "0.5"],
      [0.5, "0.691462461274013"],
      [1, "0.841344746068543"],
      [1.5, "0.933192798731142"],
      [2, "0.977249868051821"],
      [3, "0.998650101968370"],
      [-1, "0.158655253931457"],
      [-2, "0.0227501319481792"],
      [-3, "1.34989803163009e-3"],
      [-5, "2.86651571879194e-7"],
      [-6, "9.86587645037698e-10"],
      [-10, "7.61985302416053e-24"],
      [-20, "2.75362411860623e-89"],
    ] as const) {
      expect(Math.abs(normalProbability(z) / Number(p) - 1), `${z}`).toBeLessThan(3e-14);
    }
    expect(normalProbability(Number.NEGATIVE_INFINITY)).toBe(0);
    expect(normalProbability(Number.POSITIVE_INFINITY)).toBe(1);
  });

  test("is symmetric, rises, joins smoothly where the methods meet, and its inverse goes back", () => {
    fc.assert(
      fc.property(finite(-8, 8), finite(1e-6, 1), (z, more) => {
        expect(normalProbability(z) + normalProbability(-z)).toBeCloseTo(1, 14);
        expect(normalProbability(z + more)).toBeGreaterThanOrEqual(normalProbability(z));
        if (z < 6) expect(normalQuantile(normalProbability(z))).toBeCloseTo(z, 6);
        if (z < 0) expect(normalQuantile(normalProbability(z))).toBeCloseTo(z, 11);
      }),
    );
    expect(Math.abs(normalProbability(-2 - 1e-12) / normalProbability(-2 + 1e-12) - 1)).toBeLessThan(1e-11);
    expect(normalQuantile(ratio(0.95))).toBeCloseTo(1.6448536269514722, 12);
    expect(normalQuantile(ratio(0.5))).toBeCloseTo(0, 12);
    expect(normalQuantile(ratio(0.975))).toBeCloseTo(1.959963984540054, 12);
  });

  test("95 % one-sided needs 1.6449 u, not 2 u; the two sides of a range share what does not conform", () => {
    expect(guardBand(0.5, ratio(0.95))).toBeCloseTo(0.8224, 4);
    expect(conformanceProbability(5 + guardBand(0.5, ratio(0.95)), 0.5, { lower: 5 })).toBeCloseTo(0.95, 12);
    fc.assert(
      fc.property(finite(-3, 3), finite(0.05, 2), finite(-2, 0), finite(0, 2), (y, u, lower, upper) => {
        const both = conformanceProbability(y, u, { lower, upper });
        const one = conformanceProbability(y, u, { lower });
        const other = conformanceProbability(y, u, { upper });
        expect(both).toBeCloseTo(one + other - 1, 12);
        expect(conformanceProbability(-y, u, { lower: -upper, upper: -lower })).toBeCloseTo(both, 13);
      }),
    );
  });

  test.each([
    [() => normalProbability(Number.NaN), /NaN/],
    [() => normalQuantile(ratio(0)), /probability/],
    [() => normalQuantile(ratio(1)), /probability/],
    [() => conformanceProbability(1, 0, { lower: 0 }), /uncertainty/],
    [() => conformanceProbability(1, 1, {}), /at least one/],
    [() => conformanceProbability(1, 1, { lower: 2, upper: 1 }), /no value/],
    [() => guardBand(-1, ratio(0.9)), /negative/],
  ])("refuses bad use %#", (call, message) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(message);
  });
});
