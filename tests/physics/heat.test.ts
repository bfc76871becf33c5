import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brand, si } from "../../src/core/quantity/index.js";
import {
  airConductivity,
  airViscosity,
  circleArea,
  condensationRate,
  type DuctRun,
  type DuctWall,
  dewPoint,
  distanceTo,
  dittusBoelter,
  dryAirDensity,
  dryAirVolume,
  ductTransmittance,
  filmCoefficient,
  freeCylinder,
  freePlate,
  gnielinski,
  heatCapacityFlow,
  heatLost,
  meanVelocity,
  prandtlOfAir,
  radiationFilm,
  rayleigh,
  reynolds,
  standardPressure,
  temperatureAlong,
  vapourPressure,
  wallTemperature,
} from "../../src/physics/index.js";
import { reference } from "../references.js";
import { expectNear, expectPrinted } from "./published.js";

/** Room for the last bits in what must not fall. */
const LESS = 1 - 1e-12;
const C = (t: number) => si(t, "degC");
const K = (t: number) => brand<"temperature">(t);
const toC = (t: number) => t - 273.15;

describe("film inside a duct", () => {
  const { rows, tolerance } = reference("physics/duct-film.csv");

  test.each(rows)("$flow_cfm cfm at $temperature_C °C", (row) => {
    const diameter = si(4, "in");
    const t = C(Number(row["temperature_C"]));
    const velocity = meanVelocity(si(Number(row["flow_cfm"]), "cfm"), circleArea(diameter));
    const re = reynolds(velocity, diameter, dryAirDensity(t, standardPressure), airViscosity(t));
    expectNear(re, Number(row["re"]), tolerance / 100);
    const printed = Number(row["re"]);
    const db = dittusBoelter(printed, prandtlOfAir, "cools");
    const g = gnielinski(printed, prandtlOfAir);
    expectPrinted(db, row["nusselt_db"]!, 2);
    expectPrinted(g, row["nusselt_gnielinski"]!, 2);
    expectPrinted(filmCoefficient(db, Number(row["conductivity_W_per_mK"]), diameter), row["film_db"]!, 1);
    expectPrinted(filmCoefficient(g, airConductivity(t), diameter), row["film_gnielinski"]!, 6);
  });

  test("both grow with the Reynolds number, the two agree to 20 %, and roughness raises Gnielinski's", () => {
    const re = fc.double({ min: 1e4, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(re, re, (a, b) => {
        const [slow, fast] = [Math.min(a, b), Math.max(a, b)];
        expect(dittusBoelter(fast, 0.7, "cools")).toBeGreaterThanOrEqual(dittusBoelter(slow, 0.7, "cools") * LESS);
        expect(gnielinski(fast, 0.7)).toBeGreaterThanOrEqual(gnielinski(slow, 0.7) * LESS);
        expectNear(gnielinski(a, 0.7), dittusBoelter(a, 0.7, "cools"), 0.2);
        expect(gnielinski(a, 0.7, 0.05)).toBeGreaterThan(gnielinski(a, 0.7));
      }),
    );
    expect(dittusBoelter(2e4, 5, "heated") / dittusBoelter(2e4, 5, "cools")).toBeCloseTo(5 ** 0.1, 12);
  });

  test("refuses what the relations do not cover", () => {
    expect(() => dittusBoelter(9999, 0.7, "cools")).toThrow(/Reynolds/);
    expect(() => dittusBoelter(2e4, 0.01, "cools")).toThrow(/Prandtl/);
    expect(() => gnielinski(2900, 0.7)).toThrow(/Reynolds/);
    expect(() => gnielinski(1e4, 0.7, 0)).toThrow(/friction/);
    expect(() => filmCoefficient(10, 0, si(1, "m"))).toThrow(/conductivity/);
  });
});

describe("free convection and radiation", () => {
  test("hot horizontal pipe, course problem: 170 °C in 30 °C air, D 0.1 m, Gr 6.884e6, h 8.07, 1419.8 W over 4 m", () => {
    const flow = {
      surface: C(170),
      ambient: C(30),
      length: si(0.1, "m"),
      density: si(1, "kg/m3"),
      viscosity: si(23.13e-6, "Pa*s"),
      prandtl: 0.7,
    };
    const ra = rayleigh(flow);
    // The problem takes 9.81 m/s² and 373 K.
    expectNear(ra / 0.7, 6.884e6, 1e-3);
    const simple = 0.53 * ra ** 0.25;
    expectPrinted(simple, "24.83", 1);
    expectNear(filmCoefficient(simple, 0.0325, flow.length), 8.07, 1e-3);
    expectNear(filmCoefficient(simple, 0.0325, flow.length) * Math.PI * 0.1 * 4 * 140, 1419.8, 1e-3);
    // Churchill and Chu's relation, more exact, comes within 10 % of that simple one.
    expectNear(freeCylinder(ra, 0.7), simple, 0.1);
  });

  test("glass-door fire screen, Fundamentals of Heat and Mass Transfer ex. 9.2 (from memory): Ra 1.813e9, Nu 147, h 7.0", () => {
    const flow = {
      surface: K(505),
      ambient: K(296),
      length: si(0.71, "m"),
      density: si(1, "kg/m3"),
      viscosity: si(26.4e-6, "Pa*s"),
      prandtl: 0.69,
    };
    expectNear(rayleigh(flow), 1.813e9, 0.01);
    expectPrinted(freePlate(1.813e9, 0.69), "147", 0.5);
    expectPrinted(filmCoefficient(147, 33.8e-3, flow.length), "7.0", 0.5);
  });

  test("horizontal steam pipe, same book ex. 9.4 (from memory): Ra 5.073e6, Nu 23.3, to 1 %", () => {
    expectNear(freeCylinder(5.073e6, 0.697), 23.3, 0.01);
  });

  test("still-air film of a wall, 8.29 W/(m²·K) at emissivity 0.9 and 3.4 at 0.05 (building handbook, from memory), to 15 %", () => {
    const [surface, ambient] = [C(15.5), C(21)];
    const mean = C((15.5 + 21) / 2);
    const ra = rayleigh({
      surface,
      ambient,
      length: si(2.4, "m"),
      density: dryAirDensity(mean, standardPressure),
      viscosity: airViscosity(mean),
      prandtl: prandtlOfAir,
    });
    const convection = filmCoefficient(freePlate(ra, prandtlOfAir), airConductivity(mean), si(2.4, "m"));
    expectNear(convection + radiationFilm(0.9, surface, ambient), 8.29, 0.15);
    expectNear(convection + radiationFilm(0.05, surface, ambient), 3.4, 0.25);
  });

  test("black radiation between like temperatures tends to 4·σ·T³ and vanishes with emissivity", () => {
    expectNear(radiationFilm(1, K(300), K(300)), 4 * 5.670374419e-8 * 300 ** 3, 1e-12);
    expect(radiationFilm(0, K(400), K(300))).toBe(0);
    expect(radiationFilm(0.8, K(400), K(300))).toBeCloseTo(radiationFilm(0.8, K(300), K(400)), 12);
    // Exactly ε·σ·(T1⁴ − T2⁴) over the difference.
    expectNear(radiationFilm(0.5, C(45), C(5)) * 40, 0.5 * 5.670374419e-8 * (318.15 ** 4 - 278.15 ** 4), 1e-12);
    expect(() => radiationFilm(1.1, K(300), K(300))).toThrow(/emissivity/);
  });

  test("grows with the difference, and pure conduction is left at none", () => {
    const ra = fc.double({ min: 0, max: 1e11, noNaN: true });
    fc.assert(
      fc.property(ra, ra, (a, b) => {
        for (const nu of [freeCylinder, freePlate])
          expect(nu(Math.max(a, b), 0.7)).toBeGreaterThanOrEqual(nu(Math.min(a, b), 0.7) * LESS);
      }),
    );
    expect(freeCylinder(0, 0.7)).toBeCloseTo(0.36, 12);
    expect(() => freeCylinder(2e12, 0.7)).toThrow(/Rayleigh/);
    expect(() => freePlate(-1, 0.7)).toThrow(/Rayleigh/);
  });
});

describe("temperature along a duct", () => {
  const { rows, tolerance } = reference("physics/duct-decay.csv");

  test.each(rows)("$id: $flow_cfm cfm from $inlet_C °C over $length_m m", (row) => {
    const [w, inlet] = [Number(row["humidity_ratio"]), C(Number(row["inlet_C"]))];
    const perVolume = 1 / dryAirVolume(inlet, w, standardPressure);
    const dryAir = brand<"massFlow">(si(Number(row["flow_cfm"]), "cfm") * perVolume);
    const run: DuctRun = {
      inlet,
      ambient: C(Number(row["ambient_C"])),
      transmittance: Number(row["transmittance_W_per_m2K"]),
      diameter: si(0.1016, "m"),
      capacity: heatCapacityFlow(dryAir, w),
    };
    const length = si(Number(row["length_m"]), "m");
    expectPrinted(perVolume, row["dry_air_kg_per_m3"]!, tolerance);
    expectPrinted(dryAir, row["dry_air_kg_per_s"]!, tolerance);
    expectPrinted(run.capacity, row["capacity_W_per_K"]!, tolerance);
    const outlet = temperatureAlong(run, length);
    expectPrinted(toC(outlet), row["outlet_C"]!, tolerance);
    // What the air gives off is what passes the wall at the logarithmic mean difference.
    const [first, last] = [run.inlet - run.ambient, outlet - run.ambient];
    const passed = (run.transmittance * Math.PI * run.diameter * length * (first - last)) / Math.log(first / last);
    expectNear(heatLost(run, length), passed, 1e-9);
    expectNear(distanceTo(run, outlet)!, length, 1e-9);
  });

  test("case H02: the air leaves above its dew point, yet its wall is 31.4 °C, below it", () => {
    const wall = wallTemperature(C(40.052), C(0), 6, 27.9);
    expectPrinted(toC(wall), "31.4", 0.5);
    expect(wall).toBeLessThan(dewPoint(vapourPressure(0.04, standardPressure)));
  });

  test("basement heating duct, Fundamentals of Heat and Mass Transfer problem 1.79: 2970 + 2298 = 5268 W, leaves at 41 °C", () => {
    // 15 m of 0.35 m × 0.20 m at 50 °C in air and walls of 5 °C, h 4, emissivity 0.5; air enters at 58 °C and 4 m/s.
    const area = 15 * 2 * (0.35 + 0.2);
    const [surface, around] = [K(323), K(278)];
    const convection = 4 * area * (surface - around);
    const radiation = radiationFilm(0.5, surface, around) * area * (surface - around);
    expectPrinted(convection, "2970", 0.5);
    expectPrinted(radiation, "2298", 0.5);
    const capacity = 1.1 * 0.35 * 0.2 * 4 * 1008;
    expectPrinted(58 - (convection + radiation) / capacity, "41", 0.5);
    const run: DuctRun = { inlet: C(58), ambient: C(5), transmittance: 10, diameter: si(0.35, "m"), capacity };
    expectNear(heatLost(run, distanceTo(run, C(58 - 5268 / capacity))!), 5268, 1e-9);
  });

  test("moves from inlet to ambient and never past it, warm or cold", () => {
    const t = fc.double({ min: 250, max: 350, noNaN: true });
    fc.assert(
      fc.property(
        t,
        t,
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 50, noNaN: true }),
        (inlet, ambient, u, x) => {
          const run: DuctRun = {
            inlet: K(inlet),
            ambient: K(ambient),
            transmittance: u,
            diameter: si(0.1, "m"),
            capacity: 50,
          };
          const here = temperatureAlong(run, si(x, "m"));
          expect(here).toBeGreaterThanOrEqual(Math.min(inlet, ambient) - 1e-9);
          expect(here).toBeLessThanOrEqual(Math.max(inlet, ambient) + 1e-9);
          // Two halves in a row are the whole.
          const half = temperatureAlong({ ...run, inlet: temperatureAlong(run, si(x / 2, "m")) }, si(x / 2, "m"));
          expect(half).toBeCloseTo(here, 9);
        },
      ),
    );
  });

  test("says where a temperature is never reached", () => {
    const run: DuctRun = { inlet: C(50), ambient: C(10), transmittance: 5, diameter: si(0.1, "m"), capacity: 60 };
    expect(distanceTo(run, C(10))).toBeUndefined();
    expect(distanceTo(run, C(5))).toBeUndefined();
    expect(distanceTo(run, C(60))).toBeUndefined();
    expect(distanceTo(run, C(50))).toBe(0);
    expect(distanceTo({ ...run, ambient: C(50) }, C(40))).toBeUndefined();
    expect(() => temperatureAlong(run, si(-1, "m"))).toThrow(/distance/);
    expect(() => temperatureAlong({ ...run, capacity: 0 }, si(1, "m"))).toThrow(/capacity/);
  });
});

describe("transmittance of a round duct", () => {
  const bare: DuctWall = { diameter: si(4, "in"), insideFilm: 28, outsideFilm: 8, layers: [] };

  test("a bare duct is its two films in series", () => {
    expectNear(ductTransmittance(bare), 1 / (1 / 28 + 1 / 8), 1e-14);
  });

  test("a layer adds ln(r2/r1)/(2πk) per metre, a thin one its flat resistance", () => {
    const wrapped = { ...bare, layers: [{ thickness: si(1.5, "in"), conductivity: 0.04 }] };
    const perMetre =
      1 / (28 * Math.PI * 0.1016) + Math.log(89 / 51) / (2 * Math.PI * 0.04) + 1 / (8 * Math.PI * 0.1778);
    expectNear(
      1 / (ductTransmittance(wrapped) * Math.PI * 0.1016),
      1 / (28 * Math.PI * 0.1016) + Math.log(88.9 / 50.8) / (2 * Math.PI * 0.04) + 1 / (8 * Math.PI * 0.1778),
      1e-12,
    );
    expectNear(1 / (ductTransmittance(wrapped) * Math.PI * 0.1016), perMetre, 0.01);
    const thin = { ...bare, diameter: si(100, "m"), layers: [{ thickness: si(1, "mm"), conductivity: 0.04 }] };
    expectNear(1 / ductTransmittance(thin), 1 / 28 + 0.001 / 0.04 + 1 / 8, 1e-4);
  });

  test("two layers are one of their thickness; more insulation never loses more than a bare duct of this size", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-3, max: 0.1, noNaN: true }),
        fc.double({ min: 1e-3, max: 0.1, noNaN: true }),
        (a, b) => {
          const layer = (t: number) => ({ thickness: si(t, "m"), conductivity: 0.04 });
          const two = ductTransmittance({ ...bare, layers: [layer(a), layer(b)] });
          expectNear(two, ductTransmittance({ ...bare, layers: [layer(a + b)] }), 1e-12);
          // Above the critical radius k/h = 5 mm every layer helps.
          expect(two).toBeLessThan(ductTransmittance({ ...bare, layers: [layer(a)] }));
        },
      ),
    );
    expect(() => ductTransmittance({ ...bare, layers: [{ thickness: si(0, "m"), conductivity: 0.04 }] })).toThrow(
      /thickness/,
    );
    expect(() => ductTransmittance({ ...bare, outsideFilm: 0 })).toThrow(/outside film/);
  });

  test("insulation outside warms the inner wall", () => {
    const wrapped = ductTransmittance({ ...bare, layers: [{ thickness: si(1, "in"), conductivity: 0.04 }] });
    expect(wallTemperature(C(50), C(0), wrapped, 28)).toBeGreaterThan(
      wallTemperature(C(50), C(0), ductTransmittance(bare), 28),
    );
    expect(() => wallTemperature(C(50), C(0), 6, 6)).toThrow(/inside film coefficient must be above U/);
  });
});

describe("condensationRate", () => {
  test("is none while the air can hold its water, then grows as the wall gets colder, up to all of it", () => {
    const dryAir = si(0.05, "kg/s");
    const dew = dewPoint(vapourPressure(0.04, standardPressure));
    expect(condensationRate(dryAir, 0.04, K(dew + 0.01), standardPressure)).toBe(0);
    expect(condensationRate(dryAir, 0.04, K(dew - 0.01), standardPressure)).toBeGreaterThan(0);
    fc.assert(
      fc.property(fc.double({ min: -40, max: 110, noNaN: true }), (t) => {
        const rate = condensationRate(dryAir, 0.04, C(t), standardPressure);
        expect(rate).toBeLessThanOrEqual(0.05 * 0.04);
        expect(condensationRate(dryAir, 0.04, C(t - 1), standardPressure)).toBeGreaterThanOrEqual(rate);
      }),
    );
    // W_s at 30 °C is 0.0272026 by psychrolib 1.1.1.
    expectNear(condensationRate(dryAir, 0.04, C(30), standardPressure), 0.05 * (0.04 - 0.0272026), 1e-5);
    expect(() => condensationRate(si(0, "kg/s"), 0.04, C(30), standardPressure)).toThrow(/dry air/);
  });
});
