import fc from "fast-check";
import psychrolib from "psychrolib";
import { describe, expect, test } from "vitest";
import { brand, inUnit, si } from "../../src/core/quantity/index.js";
import {
  airConductivity,
  airViscosity,
  dewPoint,
  dryAirDensity,
  dryAirVolume,
  geopotentialHeight,
  humidityRatio,
  humidityRatioFromWetBulb,
  latentHeat,
  moistAir,
  moistAirDensity,
  moistAirEnthalpy,
  pressureAtAltitude,
  saturationPressure,
  standardPressure,
  temperatureAtAltitude,
  vapourPressure,
  wetBulb,
} from "../../src/physics/index.js";
import { reference } from "../references.js";
import { expectNear, expectPrinted } from "./published.js";

psychrolib.SetUnitSystem(psychrolib.SI);

const C = (t: number) => si(t, "degC");
const toC = (t: number) => t - 273.15;
const share = (value: number) => si(value, "1");
const K = (t: number) => brand<"temperature">(t);

describe("standard atmosphere", () => {
  const handbook = reference("physics/atmosphere-handbook.csv");

  test.each(handbook.rows)("handbook table at $altitude_m m", (row) => {
    const z = si(Number(row["altitude_m"]), "m");
    expectPrinted(pressureAtAltitude(z), row["pressure_Pa"]!, handbook.tolerance);
    expectPrinted(toC(temperatureAtAltitude(z)), row["temperature_C"]!, 0.51);
  });

  const ip = reference("physics/atmosphere-handbook-ip.csv");

  test.each(ip.rows)("handbook table at $altitude_ft ft", (row) => {
    const z = si(Number(row["altitude_ft"]), "ft");
    expectNear(inUnit(pressureAtAltitude(z), "psi"), Number(row["pressure_psia"]), ip.tolerance / 100);
    expect(Math.abs(inUnit(temperatureAtAltitude(z), "degF") - Number(row["temperature_F"]))).toBeLessThan(0.07);
  });

  const standard = reference("physics/atmosphere-1976.csv");

  test.each(standard.rows)("$id: 1976 table at geometric height $altitude_m m", (row) => {
    const z = geopotentialHeight(si(Number(row["altitude_m"]), "m"));
    const [t, p] = [temperatureAtAltitude(z), pressureAtAltitude(z)];
    expectPrinted(t, row["temperature_K"]!, 1);
    expectNear(p, Number(row["pressure_Pa"]), standard.tolerance / 100);
    expectPrinted(airViscosity(t), row["viscosity_Pa_s"]!, 1);
    // The table takes R = 287.053 for dry air.
    expectNear(dryAirDensity(t, p) * (287.042 / 287.053), Number(row["density_kg_per_m3"]), standard.tolerance / 100);
    expectPrinted(Number(row["density_kg_per_m3"]) / 1.224999, row["density_ratio"]!, 1);
  });

  test("troposphere in the form T0·(1 − h/44329), p0·(1 − h/44329)^5.255876, a university page on the 1976 atmosphere", () => {
    for (const h of [0, 500, 1500, 3000, 8000]) {
      expectNear(pressureAtAltitude(si(h, "m")), 101325 * (1 - h / 44329) ** 5.255876, 1e-4);
      expectNear(temperatureAtAltitude(si(h, "m")), 288.15 * (1 - h / 44329), 1e-4);
    }
  });

  test("starts at the standard pressure, falls with altitude, ends at the tropopause", () => {
    expect(pressureAtAltitude(si(0, "m"))).toBe(standardPressure);
    expect(geopotentialHeight(si(0, "m"))).toBe(0);
    const z = fc.double({ min: -4000, max: 11000, noNaN: true });
    fc.assert(
      fc.property(z, (a) => {
        expect(pressureAtAltitude(si(a, "m"))).toBeLessThan(pressureAtAltitude(si(a - 1, "m")));
        expect(geopotentialHeight(si(a, "m"))).toBeLessThanOrEqual(a + 1e-9);
      }),
    );
    for (const f of [pressureAtAltitude, temperatureAtAltitude, geopotentialHeight])
      expect(() => f(si(11_001, "m"))).toThrow(/altitude must lie from -5000 to 11000/);
  });
});

describe("dry air", () => {
  const { rows, tolerance } = reference("physics/dry-air.csv");

  test.each(rows)("at $temperature_C °C", (row) => {
    const t = C(Number(row["temperature_C"]));
    expectPrinted(airViscosity(t), row["viscosity_Pa_s"]!, tolerance);
    expectNear(dryAirDensity(t, standardPressure), Number(row["density_kg_per_m3"]), 1e-4);
    expectNear(airViscosity(t) / dryAirDensity(t, standardPressure), Number(row["kinematic_m2_per_s"]), 1e-4);
  });

  test("standard air of the trade: 0.075 lb/ft³ about 70 °F, 1.204 kg/m³ at 20 °C (from memory)", () => {
    expectNear(inUnit(dryAirDensity(si(70, "degF"), standardPressure), "lb/ft3"), 0.075, 2e-3);
    expectPrinted(dryAirDensity(C(20), standardPressure), "1.204", 0.5);
  });

  test("conductivity reproduces the film table's 0.0284093, 0.0287863 and 0.0280304 W/(m·K) at 55, 60, 50 °C", () => {
    for (const [t, k] of [
      [55, 0.0284093],
      [60, 0.0287863],
      [50, 0.0280304],
    ] as const)
      expectNear(airConductivity(C(t)), k, 2e-5);
  });

  test("refuses impossible states", () => {
    expect(() => dryAirDensity(K(0), standardPressure)).toThrow(/temperature/);
    expect(() => dryAirDensity(C(20), brand<"pressure">(-1))).toThrow(/pressure/);
    expect(() => airViscosity(K(90))).toThrow(/100 to 1900/);
    expect(() => airConductivity(K(2000))).toThrow(/100 to 1900/);
  });
});

describe("saturation", () => {
  const formula = reference("physics/saturation-pressure.csv");

  test.each(formula.rows)("formula value at $temperature_C °C", (row) => {
    const p = saturationPressure(C(Number(row["temperature_C"])));
    expectPrinted(p, row["saturation_pressure_Pa"]!, formula.tolerance);
    if (row["humidity_ratio"] !== "")
      expectPrinted(humidityRatio(p, standardPressure), row["humidity_ratio"]!, formula.tolerance);
  });

  const handbook = reference("physics/moist-air-handbook.csv");

  test.each(handbook.rows)("handbook table at $temperature_C °C", (row) => {
    const t = C(Number(row["temperature_C"]));
    const p = saturationPressure(t);
    if (row["saturation_pressure_Pa"] !== "")
      expectNear(
        p,
        Number(row["saturation_pressure_Pa"]),
        Math.max(handbook.tolerance / 100, 0.005 / Number(row["saturation_pressure_Pa"])),
      );
    if (row["humidity_ratio"] === "") return;
    const w = humidityRatio(p, standardPressure);
    expectNear(w, Number(row["humidity_ratio"]), 0.025);
    // Below freezing the two terms nearly cancel: compare on the scale of either.
    const h = moistAirEnthalpy(t, w);
    const scale = Math.max(Math.abs(Number(row["enthalpy_J_per_kg"])), 20_000);
    expect(Math.abs(h - Number(row["enthalpy_J_per_kg"])) / scale).toBeLessThan(0.025);
  });

  test("handbook table in inch-pound units, ASHRAE Fundamentals 2017 IP table 3", () => {
    const table = [
      [-4, 0.014974],
      [23, 0.058268],
      [41, 0.12656],
      [77, 0.45973],
      [122, 1.7914],
      [212, 14.7094],
      [300, 67.0206],
    ] as const;
    for (const [t, p] of table) expectNear(inUnit(saturationPressure(si(t, "degF")), "psi"), p, 3e-4);
  });

  test("agrees with psychrolib from −100 to 200 °C", () => {
    fc.assert(
      fc.property(fc.double({ min: -100, max: 200, noNaN: true }), (t) => {
        expectNear(saturationPressure(C(t)), psychrolib.GetSatVapPres(t), 1e-12);
      }),
      { numRuns: 2000 },
    );
  });

  test("rises with temperature, across the triple point too, and the dew point takes it back", () => {
    expect(saturationPressure(K(273.1599999))).toBeLessThan(saturationPressure(K(273.16)));
    fc.assert(
      fc.property(fc.double({ min: 173.15, max: 473.1, noNaN: true }), (t) => {
        expect(saturationPressure(K(t + 0.01))).toBeGreaterThan(saturationPressure(K(t)));
        expect(Math.abs(dewPoint(saturationPressure(K(t))) - t)).toBeLessThan(1e-6);
      }),
      { numRuns: 2000 },
    );
  });

  test("refuses what the formulas do not cover", () => {
    expect(() => saturationPressure(C(-101))).toThrow(/temperature/);
    expect(() => saturationPressure(C(201))).toThrow(/temperature/);
    expect(() => dewPoint(brand<"pressure">(0))).toThrow(/vapour pressure/);
    expect(() => dewPoint(brand<"pressure">(1e-4))).toThrow(/no dew point/);
    expect(() => dewPoint(brand<"pressure">(2e6))).toThrow(/no dew point/);
  });
});

describe("states of moist air", () => {
  const table = reference("physics/moist-air-states.csv");

  test.each(table.rows)("$id: $temperature_C °C, RH $relative_humidity, $pressure_Pa Pa", (row) => {
    const state = moistAir(
      C(Number(row["temperature_C"])),
      share(Number(row["relative_humidity"])),
      si(Number(row["pressure_Pa"]), "Pa"),
    );
    expectPrinted(state.humidityRatio, row["humidity_ratio"]!, table.tolerance);
    expectPrinted(state.vapourPressure, row["vapour_pressure_Pa"]!, table.tolerance);
    expectPrinted(state.enthalpy, row["enthalpy_J_per_kg"]!, table.tolerance);
    expectPrinted(state.dryAirVolume, row["volume_m3_per_kg"]!, table.tolerance);
    expectPrinted(state.density, row["density_kg_per_m3"]!, table.tolerance);
    expectPrinted(toC(state.dewPoint!), row["dew_point_C"]!, 2);
    // The library stops its search at a thousandth of a degree.
    expect(Math.abs(toC(state.wetBulb) - Number(row["wet_bulb_C"]))).toBeLessThan(1e-3);
  });

  const ip = reference("physics/moist-air-states-ip.csv");

  test.each(ip.rows)("$id: $temperature_F °F, RH $relative_humidity", (row) => {
    const state = moistAir(
      si(Number(row["temperature_F"]), "degF"),
      share(Number(row["relative_humidity"])),
      si(Number(row["pressure_psia"]), "psi"),
    );
    const near = ip.tolerance / 100;
    expectNear(state.humidityRatio, Number(row["humidity_ratio"]), near);
    expectNear(inUnit(state.vapourPressure, "psi"), Number(row["vapour_pressure_psi"]), near);
    expectNear(state.dryAirVolume / (0.3048 ** 3 / 0.45359237), Number(row["volume_ft3_per_lb"]), near);
    expectNear(inUnit(state.density, "lb/ft3"), Number(row["density_lb_per_ft3"]), near);
    expect(Math.abs(inUnit(state.dewPoint!, "degF") - Number(row["dew_point_F"]))).toBeLessThan(0.05);
    expect(Math.abs(inUnit(state.wetBulb, "degF") - Number(row["wet_bulb_F"]))).toBeLessThan(0.05);
    // Dry air counts from 0 °F there and from 0 °C here; water counts from its freezing point in both.
    const zero = moistAirEnthalpy(si(0, "degF"), 0);
    expectNear((state.enthalpy - zero) / 2326, Number(row["enthalpy_Btu_per_lb"]), 2e-3);
  });

  test("chart example, ASHRAE Fundamentals 2017 SI ch. 1 ex. 1: 40 °C and 20 °C wet bulb", () => {
    const w = humidityRatioFromWetBulb(C(40), C(20), standardPressure);
    const pw = vapourPressure(w, standardPressure);
    expect(Math.abs(w - 0.0065)).toBeLessThan(2e-4);
    expect(Math.abs(toC(dewPoint(pw)) - 7)).toBeLessThan(0.5);
    expect(Math.abs(pw / saturationPressure(C(40)) - 0.14)).toBeLessThan(5e-3);
    expectPrinted(moistAirEnthalpy(C(40), w) / 1000, "56.7", 0.5);
    expectPrinted(dryAirVolume(C(40), w, standardPressure), "0.896", 0.5);
    // psychrolib 1.1.1 on the same state.
    expectPrinted(w, "0.0064008", 1);
    expectPrinted(toC(dewPoint(pw)), "7.4336", 3);
    expectPrinted(pw / saturationPressure(C(40)), "0.13980", 1);
  });

  test("chart example in inch-pound units: 100 °F and 65 °F wet bulb, W 0.00523, dew point 40 °F, 14.22 ft³/lb", () => {
    const p = si(14.696, "psi");
    const w = humidityRatioFromWetBulb(si(100, "degF"), si(65, "degF"), p);
    expect(Math.abs(w - 0.00523)).toBeLessThan(6e-5);
    expect(Math.abs(inUnit(dewPoint(vapourPressure(w, p)), "degF") - 40)).toBeLessThan(0.5);
    expectNear(dryAirVolume(si(100, "degF"), w, p) / (0.3048 ** 3 / 0.45359237), 14.22, 1e-3);
    // psychrolib 1.1.1, inch-pound constants.
    expectNear(w, 0.0051895, 2e-3);
  });

  test("humid room, university course page: 25 °C, 100 kPa, 75 %: 2.38 kPa, W 0.0152, 63.8 kJ/kg", () => {
    const state = moistAir(C(25), share(0.75), si(100, "kPa"));
    expectPrinted(state.vapourPressure / 1000, "2.38", 0.5);
    expect(Math.abs(state.humidityRatio - 0.0152)).toBeLessThan(1e-4);
    expect(Math.abs(state.enthalpy / 1000 - 63.8)).toBeLessThan(0.1);
  });

  test("dry air at 25 °C holds 25 148 J/kg in 0.8443 m³, ASHRAE Fundamentals 2017 table 2", () => {
    expectNear(moistAirEnthalpy(C(25), 0), 25_148, 1e-3);
    expectNear(dryAirVolume(C(25), 0, standardPressure), 0.8443, 6e-4);
  });

  test("dew points of W 0.04 and 0.03 at sea level: 36.533 and 31.640 °C, psychrolib 1.1.1", () => {
    expectPrinted(toC(dewPoint(vapourPressure(0.04, standardPressure))), "36.533", 1);
    expectPrinted(toC(dewPoint(vapourPressure(0.03, standardPressure))), "31.640", 1);
  });

  test("agrees with psychrolib on random states", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -30, max: 80, noNaN: true }),
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        fc.double({ min: 60_000, max: 110_000, noNaN: true }),
        (t, rh, p) => {
          const state = moistAir(C(t), share(rh), brand<"pressure">(p));
          expectNear(state.humidityRatio, psychrolib.GetHumRatioFromRelHum(t, rh, p), 1e-11);
          expectNear(state.density, psychrolib.GetMoistAirDensity(t, state.humidityRatio, p), 1e-11);
          expect(Math.abs(state.enthalpy - psychrolib.GetMoistAirEnthalpy(t, state.humidityRatio))).toBeLessThan(1e-6);
          // Near 0 °C an iced bulb and a wet one both have an answer; the library may give either.
          const bulb = psychrolib.GetTWetBulbFromHumRatio(t, state.humidityRatio, p);
          const isOther = bulb < 0 && state.wetBulb >= 273.15;
          expect(Math.abs(toC(state.wetBulb) - bulb)).toBeLessThan(isOther ? 0.6 : 2e-3);
          expect(Math.abs(toC(state.dewPoint!) - psychrolib.GetTDewPointFromRelHum(t, rh))).toBeLessThan(2e-3);
        },
      ),
    );
  });

  test("dew point, wet bulb and dry bulb keep their order, and the wet bulb takes its humidity ratio back", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -40, max: 95, noNaN: true }),
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        fc.double({ min: 90_000, max: 110_000, noNaN: true }),
        (t, rh, p) => {
          const state = moistAir(C(t), share(rh), brand<"pressure">(p));
          expect(state.dewPoint!).toBeLessThanOrEqual(state.wetBulb + 1e-6);
          expect(state.wetBulb).toBeLessThanOrEqual(state.temperature);
          expect(state.density).toBeLessThan(dryAirDensity(state.temperature, state.pressure));
          const back = humidityRatioFromWetBulb(state.temperature, state.wetBulb, state.pressure);
          expect(Math.abs(back - state.humidityRatio)).toBeLessThan(1e-9);
        },
      ),
      { numRuns: 1000 },
    );
  });

  test("every state from −60 to 200 °C whose vapour stays below the total is finite", () => {
    for (let t = -60; t <= 200; t += 2.5) {
      for (const rh of [0, 1e-9, 0.01, 0.3, 0.99, 1]) {
        for (const p of [50_000, 101_325, 110_000]) {
          if (rh * saturationPressure(C(t)) >= p) continue;
          const { dewPoint: dew, ...rest } = moistAir(C(t), share(rh), brand<"pressure">(p));
          expect(Object.values(rest).every(Number.isFinite), `${t} °C, ${rh}, ${p} Pa`).toBe(true);
          expect(dew === undefined || dew <= C(t) + 1e-9).toBe(true);
        }
      }
    }
    expect(() => moistAir(C(-61), share(0.5), standardPressure)).toThrow(/air temperature/);
  });

  test("saturated air has one temperature; wholly dry air no dew point", () => {
    const wet = moistAir(C(30), share(1), standardPressure);
    expect(wet.wetBulb).toBeCloseTo(wet.temperature, 6);
    expect(wet.dewPoint).toBeCloseTo(wet.temperature, 6);
    const dry = moistAir(C(30), share(0), standardPressure);
    expect(dry.dewPoint).toBeUndefined();
    expectNear(dry.density, dryAirDensity(C(30), standardPressure), 1e-15);
    expect(dry.wetBulb).toBeLessThan(dry.temperature);
    // Air hotter than boiling still has a wet bulb.
    const hot = wetBulb(C(120), 0.05, standardPressure);
    expect(toC(hot)).toBeGreaterThan(40);
    expect(toC(hot)).toBeLessThan(100);
  });

  test("vapour pressure and humidity ratio invert each other", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 2, noNaN: true }), (w) => {
        expect(Math.abs(humidityRatio(vapourPressure(w, standardPressure), standardPressure) - w)).toBeLessThan(
          1e-13 * (1 + w),
        );
        expectNear(
          moistAirDensity(C(50), w, standardPressure),
          (1 + w) / dryAirVolume(C(50), w, standardPressure),
          1e-15,
        );
      }),
    );
  });

  test("latent heat: 2501 kJ/kg at 0 °C, steam tables 2406 at 40 °C and 2256 at 100 °C (from memory), to 0.6 %", () => {
    expect(latentHeat(C(0))).toBeCloseTo(2_501_000, 6);
    expectNear(latentHeat(C(40)), 2.406e6, 1e-3);
    expectNear(latentHeat(C(100)), 2.2565e6, 6e-3);
    expect(() => latentHeat(C(101))).toThrow(/temperature/);
  });

  test("refuses impossible moisture", () => {
    expect(() => moistAir(C(20), share(1.01), standardPressure)).toThrow(/relative humidity must lie from 0 to 1/);
    expect(() => moistAir(C(110), share(1), standardPressure)).toThrow(/below the total/);
    expect(() => humidityRatioFromWetBulb(C(20), C(21), standardPressure)).toThrow(/wet bulb must not be above/);
    expect(() => humidityRatioFromWetBulb(C(40), C(5), standardPressure)).toThrow(/humidity ratio/);
    expect(() => wetBulb(C(20), 0.02, standardPressure)).toThrow(/above saturation/);
    expect(() => vapourPressure(-0.1, standardPressure)).toThrow(/humidity ratio/);
  });
});
