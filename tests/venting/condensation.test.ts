import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brand, inUnit, si } from "../../src/core/quantity/index.js";
import {
  dewPoint,
  heatCapacityFlow,
  moistAirEnthalpy,
  standardPressure,
  temperatureAlong,
  vapourPressure,
  wallTemperature,
} from "../../src/physics/index.js";
import { dryAirFlow } from "../../src/venting/cooling.js";
import { condensation, type Entering, insideFilm, march, type Stretch } from "../../src/venting/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("venting/condensation.csv");
const degC = (t: number) => si(t, "degC");
const bore = si(0.1016, "m");

describe("the decay along a duct", () => {
  test.each(rows)("ends where the reference puts it: $id", (row) => {
    const ratio = Number(row.ratio);
    const inlet = degC(Number(row.inlet_C));
    const dryAir = dryAirFlow(si(Number(row.flow_cfm), "cfm"), inlet, ratio, standardPressure);
    expect(dryAir).toBeCloseTo(Number(row.dry_air_kg_s), 6);
    const outlet = temperatureAlong(
      {
        inlet,
        ambient: degC(Number(row.ambient_C)),
        transmittance: Number(row.U),
        diameter: bore,
        capacity: heatCapacityFlow(dryAir, ratio),
      },
      si(Number(row.length_m), "m"),
    );
    expect(Math.abs(inUnit(outlet, "degC") - Number(row.outlet_C))).toBeLessThanOrEqual(tolerance);
    const dew = dewPoint(vapourPressure(ratio, standardPressure));
    expect(Math.abs(inUnit(dew, "degC") - Number(row.dew_C))).toBeLessThanOrEqual(tolerance);
  });

  test("trap: the air leaves H02 at 40.05 °C, above its dew point of 36.5 °C, and the wall is at 31.4 °C: it drips", () => {
    const wall = wallTemperature(degC(40.052), degC(0), 6, 27.9);
    expect(inUnit(wall, "degC")).toBeCloseTo(31.4, 1);
    expect(40.052).toBeGreaterThan(36.533);
    expect(inUnit(wall, "degC")).toBeLessThan(36.533);
  });

  test("the inside film is that of Gnielinski: 24.7176 W/m²K at 125 cfm and 55 °C, as recomputed with the constants", () => {
    // Re 40241 in dry air: ρ·v from Re·μ/D
    const massFlux = (40241.3 * 1.9763e-5) / bore;
    expect(insideFilm(degC(55), massFlux, bore)).toBeCloseTo(24.7176, 1);
  });
});

const entering = (t: number, ratio: number, cfm: number): Entering => ({
  temperature: degC(t),
  ratio,
  pressure: standardPressure,
  dryAir: dryAirFlow(si(cfm, "cfm"), degC(t), ratio, standardPressure),
});
const stretch = (length: number, ambient: number, insulation = 0): Stretch => ({
  length: si(length, "m"),
  ambient: degC(ambient),
  insulation,
  inWind: false,
});
const wetFrom = (cells: ReturnType<typeof march>) =>
  cells.find(({ water }) => water > 1e-12)?.end ?? Number.POSITIVE_INFINITY;

describe("march", () => {
  const warm = fc.double({ min: 40, max: 65, noNaN: true });
  const humid = fc.double({ min: 0.02, max: 0.045, noNaN: true });
  const cold = fc.double({ min: -30, max: 15, noNaN: true });
  const r = fc.double({ min: 0.02, max: 2, noNaN: true });

  test("more of a wrap never moves the first wet place upstream, nor makes more water", () => {
    fc.assert(
      fc.property(warm, humid, cold, r, r, (t, ratio, ambient, a, b) => {
        const run = (insulation: number) => march(entering(t, ratio, 120), [stretch(8, ambient, insulation)], bore);
        const thin = run(Math.min(a, b));
        const thick = run(Math.max(a, b));
        expect(wetFrom(thick)).toBeGreaterThanOrEqual(wetFrom(thin) - 1e-9);
        const water = (cells: typeof thin) => cells.reduce((sum, cell) => sum + cell.water, 0);
        expect(water(thick)).toBeLessThanOrEqual(water(thin) * (1 + 1e-9) + 1e-12);
      }),
      { numRuns: 40 },
    );
  });

  test("a wrap as thin as paint wets more than bright metal, since its face radiates more", () => {
    const water = (insulation: number) =>
      march(entering(45, 0.035, 120), [stretch(8, -20, insulation)], bore).reduce((sum, cell) => sum + cell.water, 0);
    expect(water(1e-6)).toBeGreaterThan(water(0));
    expect(water(1)).toBeLessThan(water(0));
  });

  test("air never gets colder than its surroundings, nor the wall warmer than the air", () => {
    fc.assert(
      fc.property(warm, humid, cold, (t, ratio, ambient) => {
        for (const cell of march(entering(t, ratio, 100), [stretch(10, ambient)], bore)) {
          expect(cell.air).toBeGreaterThanOrEqual(degC(ambient) - 1e-6);
          expect(cell.wall).toBeLessThanOrEqual(degC(t) + 1e-6);
        }
      }),
      { numRuns: 40 },
    );
  });

  test("keeps the water: what falls out is what the air has lost", () => {
    fc.assert(
      fc.property(warm, humid, cold, (t, ratio, ambient) => {
        const air = entering(t, ratio, 100);
        const cells = march(air, [stretch(10, ambient)], bore);
        const fallen = cells.reduce((sum, cell) => sum + cell.water, 0);
        expect(fallen).toBeCloseTo(air.dryAir * (ratio - cells.at(-1)!.ratio), 9);
        expect(moistAirEnthalpy(cells.at(-1)!.air, cells.at(-1)!.ratio)).toBeLessThan(
          moistAirEnthalpy(air.temperature, ratio),
        );
      }),
      { numRuns: 40 },
    );
  });

  test("stands between still air and a wind, and agrees with the closed form where nothing condenses", () => {
    const dry = entering(55, 0.005, 125);
    const still = march(dry, [stretch(10.668, 0)], bore).at(-1)!;
    const windy = march(dry, [{ ...stretch(10.668, 0), inWind: true }], bore).at(-1)!;
    expect(windy.air).toBeLessThan(still.air);
    // bare duct in still air: U between 3 and 7 W/m²K brackets it
    const closed = (U: number) =>
      temperatureAlong(
        {
          inlet: degC(55),
          ambient: degC(0),
          transmittance: U,
          diameter: bore,
          capacity: heatCapacityFlow(dry.dryAir, 0.005),
        },
        si(10.668, "m"),
      );
    expect(still.air).toBeLessThan(closed(3));
    expect(still.air).toBeGreaterThan(closed(7));
  });
});

describe("venting/condensation", () => {
  const attic = {
    exhaustRate: "125 cfm",
    diameter: "4 in",
    pieces: [
      { piece: "straight" as const, length: "4 ft", wall: "new galvanized" as const },
      { piece: "straight" as const, length: "20 ft", wall: "new galvanized" as const, place: "attic" as const },
    ],
    airTemperature: "50 °C",
    airHumidity: "60 %",
    atticTemperature: "-5 °C",
  };
  const number = (value: unknown) => (value as { si: number }).si;

  test("the wrap that it asks for keeps the attic dry, and half of it does not", () => {
    const { values } = condensation(attic);
    expect(number(values.water)).toBeGreaterThan(0);
    const r = inUnit(brand<"thermalResistance">(number(values.wrap)), "h*ft2*F/Btu");
    const wrapped = (share: number) =>
      condensation({
        ...attic,
        pieces: attic.pieces.map((piece) => ({ ...piece, insulation: `${(r * share).toFixed(6)} h·ft2·°F/Btu` })),
      }).values;
    expect(number(wrapped(1.0001).water)).toBe(0);
    expect(number(wrapped(0.5).water)).toBeGreaterThan(0);
  });

  test("trap: it looks at the wall, not at the air: the air leaves above its dew point and the duct drips", () => {
    const { values } = condensation(attic);
    expect(number(values.outlet)).toBeGreaterThan(number(values.dewPoint));
    expect(number(values.coldestWall)).toBeLessThan(number(values.dewPoint));
    expect((values.reading as { text: string }).text).toMatch(/^water forms on the wall although/);
  });

  test("names the stretch that drips", () => {
    const stretches = condensation(attic).values.stretches as unknown as readonly {
      what: { text: string };
      water: { si: number };
    }[];
    expect(stretches.map(({ water }) => water.si > 0)).toEqual([false, true]);
    expect(stretches[1]!.what.text).toMatch(/attic/);
  });

  test("asks for flow and run; points at what cannot be read", () => {
    expect(condensation({ ...attic, exhaustRate: undefined as never }).missing).toMatchObject([
      { path: ["exhaustRate"] },
    ]);
    expect(condensation.try({ ...attic, atticTemperature: -5 }).fault?.issues[0]).toMatchObject({
      path: ["atticTemperature"],
    });
  });
});
