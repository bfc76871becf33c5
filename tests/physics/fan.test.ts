import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brand, inUnit, si } from "../../src/core/quantity/index.js";
import {
  airPower,
  circleArea,
  dryAirDensity,
  type FanPoint,
  type FanState,
  fanCurve,
  fanPressure,
  fittingLoss,
  frictionLoss,
  meanVelocity,
  operatingPoint,
  scaledFan,
  stackPressure,
  standardPressure,
  velocityPressure,
  windPressure,
} from "../../src/physics/index.js";
import { reference } from "../references.js";
import { expectNear, expectPrinted } from "./published.js";

const point = (flow: number, pressure: number): FanPoint => ({ flow: si(flow, "m3/s"), pressure: si(pressure, "Pa") });
const C = (t: number) => si(t, "degC");

/** The test curve of the reference file as 4600 straight pieces: within 2e-7 inH2O of the parabola. */
const parabola = (scale = 1) =>
  fanCurve(
    Array.from({ length: 4601 }, (_, i) => ({
      flow: si(i / 20, "cfm"),
      pressure: si(Math.max(0, 0.9 * (1 - (i / 20 / 230) ** 2) * scale), "inH2O"),
    })),
  );

interface Duct {
  readonly diameter: number;
  readonly length: number;
  readonly roughness: number;
  readonly k: number;
}

const ductLoss =
  ({ diameter, length, roughness, k }: Duct, air = { density: si(1.2041, "kg/m3"), viscosity: si(1.813e-5, "Pa*s") }) =>
  (flow: number) => {
    const d = si(diameter, "in");
    const velocity = meanVelocity(si(flow, "m3/s"), circleArea(d));
    return (
      frictionLoss({ velocity, diameter: d, roughness: si(roughness, "mm"), ...air }, si(length, "ft")) +
      fittingLoss(k, air.density, velocity)
    );
  };

describe("operatingPoint", () => {
  const { rows, tolerance } = reference("physics/operating-point.csv");

  test.each(rows)("$id: $diameter_in in, $length_ft ft, K $sum_k", (row) => {
    const duct = {
      diameter: Number(row["diameter_in"]),
      length: Number(row["length_ft"]),
      roughness: Number(row["roughness_mm"]),
      k: Number(row["sum_k"]),
    };
    const loss = ductLoss(duct);
    for (const cfm of [100, 150, 200]) {
      expectPrinted(
        inUnit(brand<"pressure">(loss(si(cfm, "cfm"))), "inH2O"),
        row[`loss_inH2O_at_${cfm}cfm`]!,
        tolerance,
      );
    }
    const found = operatingPoint(parabola(), loss);
    expect(found.place).toBe("crossing");
    expectPrinted(inUnit(found.flow, "cfm"), row["flow_cfm"]!, tolerance);
    expectPrinted(inUnit(found.pressure, "inH2O"), row["pressure_inH2O"]!, tolerance);
    expectPrinted(
      inUnit(meanVelocity(found.flow, circleArea(si(duct.diameter, "in"))), "fpm"),
      row["velocity_fpm"]!,
      1,
    );
  });

  test("hot thin air moves the volume flow little: 137.472 cfm at 60 °C, 136.826 at 60 °C and 1524 m (computed with fluids 1.0.22)", () => {
    const s1 = { diameter: 4, length: 25, roughness: 0.09, k: 1.92 };
    for (const [density, flow] of [
      [1.05957, 137.472],
      [0.88166, 136.826],
    ] as const) {
      const air = { density: si(density, "kg/m3"), viscosity: si(1.99882e-5, "Pa*s") };
      const found = operatingPoint(parabola(density / 1.2041), ductLoss(s1, air));
      // The reference scales the fan by standard air of 1.2041 or 1.204; that moves the flow by a hundredth.
      expect(Math.abs(inUnit(found.flow, "cfm") - flow)).toBeLessThan(0.02);
    }
  });

  test("lies on both curves, whatever the fan and the system", () => {
    const steps = fc.array(
      fc.tuple(fc.double({ min: 1e-3, max: 0.1, noNaN: true }), fc.double({ min: 0, max: 100, noNaN: true })),
      {
        minLength: 1,
        maxLength: 20,
      },
    );
    fc.assert(
      fc.property(steps, fc.double({ min: 0.1, max: 1e6, noNaN: true }), (parts, factor) => {
        let [flow, pressure] = [0, 1000];
        const points = [point(flow, pressure)];
        for (const [dq, dp] of parts) {
          flow += dq;
          pressure = Math.max(0, pressure - dp);
          points.push(point(flow, pressure));
        }
        const curve = fanCurve(points);
        const system = (q: number) => factor * q * q;
        const found = operatingPoint(curve, system);
        if (found.place === "crossing") {
          expectNear(system(found.flow) + 1, found.pressure + 1, 1e-9);
          expectNear(fanPressure(curve, found.flow) + 1, found.pressure + 1, 1e-9);
        } else {
          expect(found.place).toBe("beyondCurve");
          expect(found.pressure).toBeGreaterThan(system(found.flow));
        }
        // More loss never gives more flow.
        const choked = operatingPoint(curve, (q) => 2 * system(q));
        expect(choked.flow).toBeLessThanOrEqual(found.flow + 1e-12);
      }),
    );
  });

  test("says when the curve does not reach: at its first and at its last point", () => {
    const curve = fanCurve([point(0.02, 200), point(0.1, 50)]);
    expect(operatingPoint(curve, () => 201)).toEqual({ place: "beforeCurve", ...point(0.02, 200) });
    expect(operatingPoint(curve, () => 49)).toEqual({ place: "beyondCurve", ...point(0.1, 50) });
    expect(operatingPoint(curve, () => 200)).toMatchObject({ place: "crossing", flow: 0.02 });
    expect(operatingPoint(curve, () => 50)).toMatchObject({ place: "crossing", flow: 0.1 });
    expect(operatingPoint(curve, () => 125).flow).toBeCloseTo(0.06, 14);
    expect(() => operatingPoint(curve, () => Number.NaN)).toThrow(/not a number/);
  });
});

describe("fanCurve", () => {
  test.each([
    [[point(0, 100)], /two points or more/],
    [[point(0, 100), point(0, 90)], /fan point 2: the flow must rise/],
    [[point(0, 100), point(0.1, 101)], /fan point 2: the pressure must not rise/],
    [[point(-0.1, 100), point(0.1, 90)], /flow of fan point 1/],
    [[point(0, 100), point(0.1, -1)], /pressure of fan point 2/],
    [[point(0, 100), point(Number.NaN, 1)], /flow of fan point 2/],
  ])("refuses %j", (points, message) => {
    expect(() => fanCurve(points)).toThrow(message);
  });

  test("reads its points and the lines between them, and nothing beyond", () => {
    const curve = fanCurve([point(0, 100), point(0.1, 80), point(0.3, 20)]);
    expect([0, 0.05, 0.1, 0.2, 0.3].map((q) => fanPressure(curve, si(q, "m3/s")))).toEqual(
      [100, 90, 80, 50, 20].map((p) => expect.closeTo(p, 10)),
    );
    expect(() => fanPressure(curve, si(0.31, "m3/s"))).toThrow(/flow on the fan curve/);
  });
});

describe("fan laws", () => {
  const state: FanState = { flow: si(400, "gpm"), pressure: si(126, "ftH2O"), power: si(17.5, "hp") };

  test("Technical Paper 410 ex. 7.33: 400 gpm, 126 ft, 17.5 hp at 3500 turns give 194.3, 29.7 and 2.0 at 1700", () => {
    const slow = scaledFan(state, { speed: 1700 / 3500 });
    expectPrinted(inUnit(slow.flow, "gpm"), "194.3", 0.5);
    expectPrinted(inUnit(slow.pressure, "ftH2O"), "29.7", 0.5);
    expectPrinted(inUnit(slow.power, "hp"), "2.0", 0.5);
    expectPrinted(inUnit(slow.flow, "gpm"), "194.286", 0.5);
    expectPrinted(inUnit(slow.pressure, "ftH2O"), "29.7257", 0.5);
    expectPrinted(inUnit(slow.power, "hp"), "2.00531", 0.5);
  });

  test("compose, undo, and keep power over air power", () => {
    const factor = fc.double({ min: 0.3, max: 3, noNaN: true });
    fc.assert(
      fc.property(factor, factor, factor, (speed, size, density) => {
        const changed = scaledFan(state, { speed, size, density });
        const stepwise = scaledFan(scaledFan(scaledFan(state, { size }), { density }), { speed });
        const back = scaledFan(changed, { speed: 1 / speed, size: 1 / size, density: 1 / density });
        for (const key of ["flow", "pressure", "power"] as const) {
          expectNear(stepwise[key], changed[key], 1e-12);
          expectNear(back[key], state[key], 1e-12);
        }
        const efficiency = (s: FanState) => airPower(s.flow, s.pressure) / s.power;
        expectNear(efficiency(changed), efficiency(state), 1e-12);
      }),
    );
  });

  test("density alone leaves the volume flow; power goes with the fifth power of size", () => {
    expect(scaledFan(state, { density: 0.8 }).flow).toBe(state.flow);
    expectNear(scaledFan(state, { size: 2 }).power / state.power, 32, 1e-14);
    expect(scaledFan(state, {})).toEqual(state);
    expect(() => scaledFan(state, { speed: 0 })).toThrow(/speed ratio/);
  });

  test("the flow on a system of p ∝ Q² follows the speed exactly", () => {
    const curve = fanCurve([point(0, 250), point(0.05, 220), point(0.12, 60)]);
    const faster = fanCurve(curve.points.map((p) => scaledFan({ ...p, power: si(1, "W") }, { speed: 1.3 })));
    const system = (q: number) => 2e4 * q * q;
    expectNear(operatingPoint(faster, system).flow, 1.3 * operatingPoint(curve, system).flow, 1e-9);
  });

  test("air horsepower is cfm·inH2O/6356, by a water column at room temperature (from memory)", () => {
    expectNear(inUnit(airPower(si(1000, "cfm"), si(2, "inH2O")), "hp"), 2000 / 6356, 3e-3);
    expect(() => airPower(si(-1, "m3/s"), si(1, "Pa"))).toThrow(/volume flow/);
  });
});

describe("stack and wind", () => {
  test("cold stack, ASHRAE Fundamentals 2009 ch. 21 ex. 1a (from memory): 1.45 against 1.204 kg/m³ over 15 m, −36 Pa", () => {
    expectPrinted(stackPressure(si(1.204, "kg/m3"), si(1.45, "kg/m3"), si(15, "m")), "-36", 0.5);
    // −36.20 with g = 9.81.
    expectNear(stackPressure(si(1.204, "kg/m3"), si(1.45, "kg/m3"), si(15, "m")), -36.2, 5e-4);
  });

  test("stack gradient, ASHRAE HVAC Applications 2011 ch. 53 form: 283.2 K against 296.2 K, 0.54 Pa/m", () => {
    const [outside, inside] = [283.2, 296.2].map((t) => dryAirDensity(brand<"temperature">(t), standardPressure)) as [
      never,
      never,
    ];
    const dp = stackPressure(outside, inside, si(1, "m"));
    expectPrinted(dp, "0.54", 0.5);
    // The same law written 3460·h·(1/To − 1/Ti), or 0.0342·p·h·(1/To − 1/Ti); both constants have three digits.
    expectNear(dp, 3460 * (1 / 283.2 - 1 / 296.2), 1e-3);
    expectNear(dp, 0.0342 * 101325 * (1 / 283.2 - 1 / 296.2), 2e-3);
  });

  test("inch-pound forms: 0.0188·p·h·(1/To − 1/Ti) psi, and 0.52 inH2O; 0.00598·ρ·g·H a single column (from memory)", () => {
    const [to, ti] = [500, 560];
    const density = (rankine: number) => dryAirDensity(brand<"temperature">((rankine * 5) / 9), si(14.696, "psi"));
    const dp = stackPressure(density(to), density(ti), si(20, "ft"));
    expectNear(inUnit(dp, "psi"), 0.0188 * 14.696 * 20 * (1 / to - 1 / ti), 5e-3);
    expectNear(inUnit(dp, "inH2O"), 0.52 * 14.696 * 20 * (1 / to - 1 / ti), 5e-3);
    const column = stackPressure(si(0.075, "lb/ft3"), brand<"density">(1e-12), si(10, "ft"));
    expectNear(inUnit(column, "inH2O"), 0.00598 * 0.075 * 32.2 * 10, 3e-3);
  });

  test("turns its sign with height and with warmth", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 250, max: 350, noNaN: true }),
        fc.double({ min: 250, max: 350, noNaN: true }),
        fc.double({ min: -10, max: 10, noNaN: true }),
        (a, b, h) => {
          const [cold, warm] = [a, b].map((t) => dryAirDensity(brand<"temperature">(t), standardPressure)) as [
            never,
            never,
          ];
          const up = stackPressure(cold, warm, si(h, "m"));
          expect(stackPressure(cold, warm, si(-h, "m"))).toBeCloseTo(-up, 12);
          expect(stackPressure(warm, cold, si(h, "m"))).toBeCloseTo(-up, 12);
        },
      ),
    );
    expect(() => stackPressure(si(1.2, "kg/m3"), si(0, "kg/m3"), si(1, "m"))).toThrow(/density inside/);
    expect(() => stackPressure(si(1.2, "kg/m3"), si(1, "kg/m3"), brand<"length">(Number.NaN))).toThrow(/height/);
  });

  test("wind pressure is C_p velocity pressures, of either sign", () => {
    const density = dryAirDensity(C(0), standardPressure);
    expect(windPressure(density, si(15, "mph"), 0.8)).toBeCloseTo(0.8 * velocityPressure(density, si(15, "mph")), 12);
    expect(windPressure(density, si(15, "mph"), -0.5)).toBeLessThan(0);
    expect(() => windPressure(density, si(-1, "m/s"), 1)).toThrow(/wind speed/);
    expect(() => windPressure(density, si(1, "m/s"), Number.NaN)).toThrow(/coefficient/);
  });
});
