/** Published worked examples, one row each in the reference file, recomputed with the kernels and rules of the trade. */
import { expect, test } from "vitest";
import { brand, inUnit, si } from "../../src/core/quantity/index.js";
import {
  airViscosity,
  brent,
  colebrook,
  dewPoint,
  dryAirDensity,
  dryAirVolume,
  filmCoefficient,
  frictionGradient,
  geopotentialHeight,
  humidityRatio,
  humidityRatioFromWetBulb,
  moistAirEnthalpy,
  pressureAtAltitude,
  radiationFilm,
  rayleigh,
  saturationPressure,
  scaledFan,
  stackPressure,
  temperatureAtAltitude,
  vapourPressure,
} from "../../src/physics/index.js";
import { ductLength, makeupNeed, volumeAtChange } from "../../src/venting/index.js";
import { reference } from "../references.js";

const { rows } = reference("venting/worked-examples.csv");

const degC = (t: number) => si(t, "degC");
const celsius = (t: number) => t - 273.15;
const sea = si(101325, "Pa");

/** Every computed value by id and what it is. */
const computed: Record<string, Record<string, () => number>> = {
  W01: {
    "friction factor": () => colebrook((6 * 0.5) / 1.1e-5, 0.0008),
    "head loss with f 0.02 [ft]": () => (0.02 * (200 / 0.5) * 6 ** 2) / (2 * 32.2),
    "pressure drop with f 0.02 [lbf/ft2]": () => ((0.02 * (200 / 0.5) * 6 ** 2) / (2 * 32.2)) * 62.4,
  },
  W02: {
    "velocity for 4.5 ft of head [ft/s]": () =>
      brent((v) => (colebrook((v * 0.5) / 1.1e-5, 0.0008) * 400 * v * v) / (2 * 32.2) - 4.5, 1, 20),
  },
  W03: (() => {
    const diameter = 4 / 12;
    const gamma = 0.0709;
    const nu = 1.79e-4;
    const f = (v: number) => colebrook((v * diameter) / nu, 0.0015);
    // 0.20 inH2O = entrance 0.5, four elbows at 1.5, exit 1, friction over 20 ft
    const head = ((0.2 / 12) * 62.4) / gamma;
    const velocity = () => brent((v) => ((7.5 + f(v) * (20 / diameter)) * v * v) / (2 * 32.2) - head, 5, 30);
    return {
      "dryer vent: friction factor": () => f(velocity()),
      "dryer vent: velocity [ft/s]": velocity,
      "dryer vent: flow [ft3/s]": () => (velocity() * Math.PI * diameter ** 2) / 4,
    };
  })(),
  W04: (() => {
    const v = (d: number) => 0.35 / ((Math.PI / 4) * d * d);
    const f = (d: number) => colebrook((v(d) * d) / 1.655e-5, 0);
    const d = () => brent((x) => (f(x) * (150 / x) * v(x) ** 2) / (2 * 9.81) - 20, 0.1, 1);
    return { "diameter [m]": d, "velocity [m/s]": () => v(d()), "friction factor": () => f(d()) };
  })(),
  W05: {
    "Reynolds number": () => (1.23 * 50 * 0.004) / 1.79e-5,
    "laminar pressure drop [kPa]": () =>
      ((64 / ((1.23 * 50 * 0.004) / 1.79e-5)) * (0.1 / 0.004) * 1.23 * 50 ** 2) / 2 / 1000,
    "turbulent friction factor": () => colebrook((1.23 * 50 * 0.004) / 1.79e-5, 0.0015 / 4),
  },
  W06: { "stack pressure [Pa]": () => stackPressure(si(1.204, "kg/m3"), si(1.45, "kg/m3"), si(15, "m")) },
  W07: (() => {
    const w = humidityRatioFromWetBulb(degC(40), degC(20), sea);
    const vapour = vapourPressure(w, sea);
    return {
      "humidity ratio": () => w,
      "dew point [C]": () => celsius(dewPoint(vapour)),
      "relative humidity [%]": () => (100 * vapour) / saturationPressure(degC(40)),
      "enthalpy [kJ/kg]": () => moistAirEnthalpy(degC(40), w) / 1000,
      "volume [m3/kg]": () => dryAirVolume(degC(40), w, sea),
    };
  })(),
  W08: (() => {
    const pressure = si(14.696, "psi");
    const w = humidityRatioFromWetBulb(si(100, "degF"), si(65, "degF"), pressure);
    return {
      "humidity ratio": () => w,
      "dew point [F]": () => inUnit(dewPoint(vapourPressure(w, pressure)), "degF"),
      "volume [ft3/lb]": () => (dryAirVolume(si(100, "degF"), w, pressure) / 0.3048 ** 3) * 0.45359237,
    };
  })(),
  W09: {
    "pressure at 1000 m [Pa]": () => pressureAtAltitude(si(1000, "m")),
    "pressure at 4000 m [Pa]": () => pressureAtAltitude(si(4000, "m")),
  },
  W10: {
    "pressure at 2000 m on the map [Pa]": () => pressureAtAltitude(geopotentialHeight(si(2000, "m"))),
    "pressure at 4000 m on the map [Pa]": () => pressureAtAltitude(geopotentialHeight(si(4000, "m"))),
    "viscosity at 2000 m [uPa s]": () => airViscosity(temperatureAtAltitude(geopotentialHeight(si(2000, "m")))) * 1e6,
  },
  W11: {
    "friction factor at Reynolds number 100600": () => colebrook(100600, 0),
  },
  W13: (() => {
    const state = { flow: si(400, "gpm"), pressure: si(126, "ftH2O"), power: si(17.5, "hp") };
    const slow = scaledFan(state, { speed: 1700 / 3500 });
    return {
      "flow at lower speed [gpm]": () => inUnit(slow.flow, "gpm"),
      "head at lower speed [ft]": () => inUnit(slow.pressure, "ftH2O"),
      "power at lower speed [hp]": () => inUnit(slow.power, "hp"),
    };
  })(),
  W15: (() => {
    const area = 15 * 2 * (0.35 + 0.2);
    // the book's surface is at 50 °C; 45 K is its difference to the air and the walls
    const convection = 4 * area * 45;
    const radiation = radiationFilm(0.5, degC(50), degC(5)) * area * 45;
    return {
      "convection [W]": () => convection,
      "radiation [W]": () => radiation,
      "air leaves at [C]": () => 58 - (convection + radiation) / (1.1 * 4 * 0.35 * 0.2 * 1008),
    };
  })(),
  W16: (() => {
    const grashof = () =>
      rayleigh({
        surface: brand<"temperature">(443),
        ambient: brand<"temperature">(303),
        length: si(0.1, "m"),
        density: si(1, "kg/m3"),
        viscosity: si(23.13e-6, "Pa*s"),
        prandtl: 0.7,
      }) / 0.7;
    return {
      "Grashof number [million]": () => grashof() / 1e6,
      "film coefficient [W/m2K]": () => filmCoefficient(0.53 * (grashof() * 0.7) ** 0.25, 0.0325, si(0.1, "m")),
    };
  })(),
  W17: (() => {
    const house = {
      floorArea: si(9668, "ft2"),
      draught: "sealed" as const,
      continuous: si(0, "cfm"),
      dryer: si(135, "cfm"),
      largest: si(300, "cfm"),
      next: si(0, "cfm"),
    };
    const exhaust = makeupNeed({ ...house, floorArea: si(0, "ft2") });
    return {
      "infiltration credit [cfm]": () => inUnit(brand<"volumeFlow">(exhaust - makeupNeed(house)), "cfm"),
      "exhaust counted [cfm]": () => inUnit(exhaust, "cfm"),
    };
  })(),
  W18: {
    "volume at 0.50 changes [ft3]": () =>
      inUnit(
        volumeAtChange(si(30000, "Btu/h"), si(0, "Btu/h"), 0.5, { natural: si(21, "ft3"), fan: si(15, "ft3") }),
        "ft3",
      ),
  },
  W19: { "exhaust [ft3/h]": () => inUnit(si(180, "cfm"), "cfh") },
  W20: {
    "stack gradient [Pa/m]": () =>
      stackPressure(
        dryAirDensity(brand<"temperature">(283.2), sea),
        dryAirDensity(brand<"temperature">(296.2), sea),
        si(1, "m"),
      ),
  },
  W21: {
    "vapour pressure [kPa]": () => (0.75 * saturationPressure(degC(25))) / 1000,
    "humidity ratio": () => humidityRatio(brand<"pressure">(0.75 * saturationPressure(degC(25))), si(100, "kPa")),
  },
  W22: {
    "three mitred 90s leave [ft]": () => left({ irc: 2021 }, [["4 in mitred", "90°", 3]]),
    "two 90s and one 45 leave [ft]": () =>
      left({ irc: 2021 }, [
        ["4 in mitred", "90°", 2],
        ["4 in mitred", "45°", 1],
      ]),
    "four 10 in smooth 90s leave [ft]": () => left({ irc: 2021 }, [["10 in smooth", "90°", 4]]),
  },
  W23: { "uniform code with four elbows leaves [ft]": () => left({ umc: 2012 }, [["4 in mitred", "90°", 4]]) },
  W24: (() => {
    const area = (Math.PI / 4) * (20 * 0.0254) ** 2;
    const velocity = brand<"speed">(si(4000, "cfm") / area);
    return {
      "chart friction [inH2O/100 ft]": () =>
        inUnit(
          frictionGradient({
            velocity,
            diameter: si(20, "in"),
            roughness: si(0.15, "mm"),
            density: si(1.2041, "kg/m3"),
            viscosity: si(1.813e-5, "Pa*s"),
          }),
          "inH2O/100ft",
        ),
      "speed [fpm]": () => inUnit(velocity, "fpm"),
    };
  })(),
};

/** Straight duct that elbows leave [ft]. */
function left(adopted: Record<string, number>, elbows: readonly (readonly [string, string, number])[]): number {
  const finding = ductLength(
    {
      fuel: "electric",
      straight: "0 ft",
      elbows: elbows.map(([radius, angle, count]) => ({ radius: radius as "4 in mitred", angle, count })),
    },
    { jurisdiction: { adopted } },
  );
  return inUnit(brand<"length">(finding.margin!.si!), "ft");
}

test.each(rows)("$id, $what: $value ($from)", ({ id, what, value, within }) => {
  const result = computed[id!]![what!]!();
  expect(Math.abs(result - Number(value))).toBeLessThanOrEqual(Number(within) * (1 + 1e-9));
});

test("there are at least 24 worked examples and every computed one is in the file", () => {
  expect(rows.length).toBeGreaterThanOrEqual(24);
  const known = Object.entries(computed).flatMap(([id, values]) => Object.keys(values).map((what) => `${id} ${what}`));
  expect(rows.map(({ id, what }) => `${id} ${what}`).sort()).toEqual(known.sort());
});
