import * as z from "zod";
import { burns } from "../core/basis/index.js";
import { brand, type Pressure, type Ratio, si, type Temperature, type VolumeFlow } from "../core/quantity/index.js";
import { defineRule, machineFacts, quantity } from "../core/rule/index.js";
import { closedGasPressure, leakRate, standardGasState } from "../physics/index.js";
import { coolingTest } from "./basis.js";
import { gaugeScale, testFactor, testLeast, testTime, testTimeLarge } from "./limits-gas.js";
import { codeAtmosphere_psi } from "./tables/gas-pipe.js";

const gauge = quantity("pressure", { min: [0, "psi"], max: [150, "psi"] });
const air = quantity("temperature", { min: [-40, "degF"], max: [140, "degF"] });
const barometer = quantity("pressure", { min: [18, "inHg"], max: [32, "inHg"] });

export const leakTestInput = z.strictObject({
  fuel: machineFacts.fuel,
  working: quantity("pressure", { min: [0.01, "psi"], max: [150, "psi"] })
    .optional()
    .describe("Greatest gauge pressure the piping works at"),
  startPressure: quantity("pressure", { min: [0.1, "psi"], max: [150, "psi"] })
    .optional()
    .describe("Test gauge at the start, after the air has settled"),
  endPressure: gauge.optional().describe("Test gauge at the end"),
  duration: quantity("time", { min: [1, "s"], max: [7, "d"] })
    .optional()
    .describe("Time between the two readings"),
  startTemperature: air.optional().describe("Temperature of the pipe at the start"),
  endTemperature: air.optional().describe("Temperature of the pipe at the end"),
  startBarometer: barometer.optional().describe("Air pressure of the place at the start, not reduced to the sea"),
  endBarometer: barometer.optional().describe("Air pressure of the place at the end, not reduced to the sea"),
  fullScale: quantity("pressure", { min: [0.1, "psi"], max: [1000, "psi"] })
    .optional()
    .describe("Full scale of the test gauge"),
  step: quantity("pressure", { min: [0.001, "psi"], max: [20, "psi"] })
    .optional()
    .describe("Smallest change the gauge lets one see: one division, or half of it where the needle is fine"),
  volume: quantity("volume", { min: [0.001, "ft3"], max: [10_000, "ft3"] })
    .optional()
    .describe("Volume inside the piping under test; its length times the area of its bore"),
  disconnected: z
    .boolean()
    .optional()
    .describe("Whether every machine and valve not rated for the test pressure was taken off or shut away"),
  bubbles: z
    .boolean()
    .optional()
    .describe("Whether soap solution or a detector showed gas at any joint, afterwards with gas on"),
});

/** Volume up to which a system counts as small [ft³], and the volume that each half hour stands for; IFGC 406.4.2. */
const SMALL_FT3 = 10;
const PER_FT3 = 500;

/** One state of a test. */
export interface TestState {
  /** Gauge reading [Pa]. */
  readonly gauge: Pressure;
  /** Temperature of the pipe [K]. */
  readonly temperature: Temperature;
  /** Air pressure of the place [Pa]. */
  readonly barometer: Pressure;
}

/**
 * Gauge reading that a tight pipe shows after temperature and barometer have changed [Pa].
 *
 * p₂ = (p₁ + b₁)·T₂/T₁ − b₂, T in kelvin.
 *
 * @param start - reading, temperature and barometer at the start
 * @param temperature - T₂, of the pipe at the end [K]
 * @param barometer - b₂, at the end [Pa]
 * @basis IFGC and IRC appendix A.6.5
 * @example tightReading({ gauge: si(20, "psi"), temperature: si(70, "degF"), barometer: si(14.7, "psi") }, si(40, "degF"), si(14.7, "psi")) / 6894.757 // 18.0346
 */
export function tightReading(start: TestState, temperature: Temperature, barometer: Pressure): Pressure {
  const absolute = brand<"pressure">(start.gauge + start.barometer);
  return brand<"pressure">(closedGasPressure(absolute, start.temperature, temperature) - barometer);
}

/** The gas piping was tested as asked and is tight. A rule; its page is `docs/rules/plumbing/leak-test.md`. */
export const leakTest = defineRule({
  id: "plumbing/leak-test",
  title: "The gas piping was tested as asked and is tight",
  since: "0.1.0",
  input: leakTestInput,
  basis: [coolingTest],
  limits: [testFactor, testLeast, testTime, testTimeLarge, gaugeScale],
  messages: {
    pass: {
      tight:
        "What a tight pipe would read, {expected:pressure}, agrees with the gauge's {read:pressure} within its step of {step:pressure}.",
      smallestLeak: "On this gauge a leak under {seen:gasFlow} would not show in the time.",
      factorEnough: "The test pressure is {ratio:ratio} of the working pressure; {least:ratio} is asked for.",
      pressureEnough: "The test pressure of {pressure:pressure} reaches the {least:pressure} asked for.",
      timeEnough: "The test was held {time:time}; {least:time} is asked for.",
      gaugeFine: "The gauge's full scale is {ratio:ratio} of the test pressure; {most:ratio} is the most.",
      takenOff: "What the test would have damaged was taken off.",
      noBubbles: "No joint showed gas.",
    },
    fail: {
      leaks:
        "The gauge fell {fall:pressure} further than temperature and barometer explain: there is a leak. Stop, keep the gas off and find it; nothing is lit before the test holds.",
      leaksAt:
        "The gauge fell {fall:pressure} further than temperature and barometer explain: about {rate:gasFlow} leaks out. Stop, keep the gas off and find it; nothing is lit before the test holds.",
      gained:
        "The gauge rose {gain:pressure} further than temperature and barometer explain: a reading is wrong, or air was still coming in. Test again.",
      factorLow: "The test pressure is {ratio:ratio} of the working pressure; {least:ratio} is asked for.",
      pressureLow: "The test pressure of {pressure:pressure} is below the {least:pressure} asked for.",
      tooShort: "The test was held only {time:time}; {least:time} is asked for.",
      gaugeCoarse:
        "The gauge's full scale is {ratio:ratio} of the test pressure; {most:ratio} is the most, or it sees nothing.",
      notTakenOff: "Machines or valves were left on that the test pressure can damage, and that hide or make leaks.",
      bubbles: "A joint showed gas. Shut it off, air the place, light nothing, and have it made tight.",
    },
    review: {
      readingsUnknown: "The readings at the start and end of the test are needed.",
      temperatureUnknown:
        "The pipe's temperature at both readings is needed; at 20 psi a degree is worth a fifteenth of a pound.",
      stepUnknown: "The smallest step of the gauge was not read.",
      volumeUnknown: "In this building the volume of the piping decides how long the test is held.",
      durationUnknown: "The time between the readings was not taken.",
      workingUnknown: "The pressure the piping works at was not measured.",
      scaleUnknown: "The full scale of the gauge was not read.",
      offUnknown: "Nobody wrote down whether machines and valves were taken off.",
      bubblesUnknown: "The joints were not gone over with soap solution or a detector.",
    },
    notApplicable: { noGas: "This machine burns no gas." },
  },
  cautions: ["gas", "deferral"],
  examples: [
    {
      title: "A house tested at 6 psi for a quarter of an hour",
      input: {
        fuel: "naturalGas",
        working: "0.5 psi",
        startPressure: "6 psi",
        endPressure: "6 psi",
        duration: "15 min",
        startTemperature: "68 °F",
        endTemperature: "68 °F",
        fullScale: "15 psi",
        step: "0.1 psi",
        volume: "0.4 ft3",
        disconnected: true,
        bubbles: false,
      },
      gives: "tight",
    },
    {
      title: "A test that only looked like a leak: the pipe cooled overnight",
      input: {
        fuel: "naturalGas",
        working: "2 psi",
        startPressure: "20 psi",
        endPressure: "17.8 psi",
        duration: "12 h",
        startTemperature: "70 °F",
        endTemperature: "40 °F",
        fullScale: "30 psi",
        step: "0.5 psi",
        volume: "0.4 ft3",
        disconnected: true,
        bubbles: false,
      },
      gives: "tight",
    },
    {
      title: "The same fall without cooling",
      input: {
        fuel: "naturalGas",
        working: "2 psi",
        startPressure: "20 psi",
        endPressure: "18 psi",
        duration: "12 h",
        startTemperature: "70 °F",
        endTemperature: "70 °F",
        fullScale: "30 psi",
        step: "0.5 psi",
        volume: "0.4 ft3",
        disconnected: true,
        bubbles: false,
      },
      gives: "leaksAt",
    },
    {
      title: "A weak, short test on a coarse gauge, with bubbles",
      input: {
        fuel: "propane",
        working: "10 psi",
        startPressure: "2 psi",
        endPressure: "1.5 psi",
        duration: "4 min",
        startTemperature: "60 °F",
        endTemperature: "60 °F",
        fullScale: "60 psi",
        step: "0.1 psi",
        disconnected: false,
        bubbles: true,
      },
      gives: "leaks",
    },
    {
      title: "A gauge that rose",
      input: {
        fuel: "naturalGas",
        working: "0.5 psi",
        startPressure: "6 psi",
        endPressure: "6.5 psi",
        duration: "15 min",
        startTemperature: "68 °F",
        endTemperature: "68 °F",
        fullScale: "15 psi",
        step: "0.1 psi",
        disconnected: true,
        bubbles: false,
      },
      gives: "gained",
    },
    {
      title: "A shop whose pipe volume nobody reckoned",
      input: {
        fuel: "naturalGas",
        working: "0.5 psi",
        startPressure: "6 psi",
        endPressure: "6 psi",
        duration: "15 min",
        startTemperature: "68 °F",
        endTemperature: "68 °F",
        fullScale: "15 psi",
        step: "0.1 psi",
        disconnected: true,
        bubbles: false,
      },
      at: { jurisdiction: { adopted: { ifgc: 2021 }, building: "commercial" } },
      gives: "volumeUnknown",
    },
    { title: "Nothing read", input: { fuel: "naturalGas" }, gives: "readingsUnknown" },
    {
      title: "Temperatures not read",
      input: { fuel: "naturalGas", startPressure: "6 psi", endPressure: "6 psi" },
      gives: "temperatureUnknown",
    },
    {
      title: "Step of the gauge not read",
      input: {
        fuel: "naturalGas",
        startPressure: "6 psi",
        endPressure: "6 psi",
        startTemperature: "68 °F",
        endTemperature: "68 °F",
      },
      gives: "stepUnknown",
    },
    { title: "An electric dryer", input: { fuel: "electric" }, gives: "noGas" },
  ],
  check(input, { all, assume, at, formula, judge, limit, missing, say }) {
    const { fuel, working, startPressure, endPressure, duration, fullScale, step, volume } = input;
    if (!burns(fuel)) return say("noGas");
    const absentOf = (open: Readonly<Record<string, unknown>>): string[][] =>
      Object.entries(open).flatMap(([name, value]) => (value === undefined ? [[name]] : []));

    const fall = () => {
      const { startTemperature, endTemperature } = input;
      const noReading = absentOf({ startPressure, endPressure });
      const noTemperature = absentOf({ startTemperature, endTemperature });
      if (
        startPressure === undefined ||
        endPressure === undefined ||
        startTemperature === undefined ||
        endTemperature === undefined ||
        step === undefined
      ) {
        return all(
          noReading.length > 0 ? missing(["readingsUnknown"], ...noReading) : undefined,
          noTemperature.length > 0 ? missing(["temperatureUnknown"], ...noTemperature) : undefined,
          step === undefined ? missing(["stepUnknown"], ["step"]) : undefined,
        );
      }
      const usual = si(codeAtmosphere_psi, "psi");
      const startBarometer = input.startBarometer ?? input.endBarometer ?? usual;
      const endBarometer = input.endBarometer ?? startBarometer;
      if (input.startBarometer === undefined || input.endBarometer === undefined) {
        assume("The barometer is taken to have stood still during the test, at 14.7 psi where it was not read at all.");
      }
      const start = { gauge: startPressure, temperature: startTemperature, barometer: startBarometer };
      const expected = tightReading(start, endTemperature, endBarometer);
      formula(
        "{expected:pressure} = ({start:pressure} + {before:pressure}) * {warm:temperature} / {cold:temperature} - {after:pressure}",
        {
          expected,
          start: startPressure,
          before: startBarometer,
          warm: endTemperature,
          cold: startTemperature,
          after: endBarometer,
        },
      );
      const fallen = brand<"pressure">(expected - endPressure);
      formula("{fallen:pressure} = {expected:pressure} - {read:pressure}", { fallen, expected, read: endPressure });
      let rate: VolumeFlow | undefined;
      if (volume !== undefined && duration !== undefined) {
        const [first, last] = [
          { pressure: brand<"pressure">(startPressure + startBarometer), temperature: startTemperature },
          { pressure: brand<"pressure">(endPressure + endBarometer), temperature: endTemperature },
        ] as const;
        rate = leakRate(volume, first, last, duration);
        const warm = standardGasState.temperature;
        const standard = standardGasState.pressure;
        formula(
          "{rate:gasFlow} = {volume:volume} / {time:time} * {fallen:pressure} / {last:temperature} * {standardT:temperature} / {standardP:pressure}",
          {
            rate,
            volume,
            time: duration,
            fallen,
            last: endTemperature,
            standardT: warm,
            standardP: standard,
          },
        );
      }
      return all(
        judge({
          kind: "pressure",
          measured: fallen,
          limit: step,
          sense: "atMost",
          pass: ["tight", { expected, read: endPressure, step }],
          fail: rate === undefined ? ["leaks", { fall: fallen }] : ["leaksAt", { fall: fallen, rate }],
        }),
        judge({
          kind: "pressure",
          measured: brand<"pressure">(-fallen),
          limit: step,
          sense: "atMost",
          pass: ["tight", { expected, read: endPressure, step }],
          fail: ["gained", { gain: brand<"pressure">(-fallen) }],
        }),
        volume === undefined || duration === undefined
          ? undefined
          : say("smallestLeak", {
              seen: brand<"volumeFlow">(
                ((volume / duration) * step * standardGasState.temperature) /
                  (endTemperature * standardGasState.pressure),
              ),
            }),
      );
    };
    const pressure = () => {
      const least = limit(testLeast, fuel);
      const factor = limit(testFactor, fuel);
      if (startPressure === undefined) {
        return factor && working === undefined ? missing(["workingUnknown"], ["working"]) : undefined;
      }
      const ratio = working === undefined ? undefined : brand<"ratio">(startPressure / working);
      if (factor && ratio !== undefined) {
        formula("{ratio:ratio} = {test:pressure} / {working:pressure}", {
          ratio,
          test: startPressure,
          working: working as Pressure,
        });
      }
      return all(
        least &&
          judge({
            kind: "pressure",
            measured: startPressure,
            limit: least,
            pass: ["pressureEnough", { pressure: startPressure, least: brand<"pressure">(least.value) }],
            fail: ["pressureLow", { pressure: startPressure, least: brand<"pressure">(least.value) }],
          }),
        !factor
          ? undefined
          : ratio === undefined
            ? missing(["workingUnknown"], ["working"])
            : judge({
                kind: "ratio",
                measured: ratio,
                limit: factor,
                pass: ["factorEnough", { ratio, least: brand<"ratio">(factor.value) }],
                fail: ["factorLow", { ratio, least: brand<"ratio">(factor.value) }],
              }),
      );
    };
    const time = () => {
      if (duration === undefined) return missing(["durationUnknown"], ["duration"]);
      const small = at.building === "dwelling" || (volume !== undefined && volume < si(SMALL_FT3, "ft3"));
      const per = small ? undefined : limit(testTimeLarge, fuel);
      if (per && volume === undefined) return missing(["volumeUnknown"], ["volume"]);
      const blocks = volume === undefined ? 1 : Math.ceil(volume / si(PER_FT3, "ft3"));
      const least = per ? brand<"time">(per.value * blocks) : limit(testTime, fuel);
      if (least === undefined) return undefined;
      const value = brand<"time">(typeof least === "number" ? least : least.value);
      return judge({
        kind: "time",
        measured: duration,
        limit: least,
        sense: "atLeast",
        pass: ["timeEnough", { time: duration, least: value }],
        fail: ["tooShort", { time: duration, least: value }],
      });
    };
    const scale = () => {
      const most = limit(gaugeScale, fuel);
      if (!most) return undefined;
      if (fullScale === undefined) return missing(["scaleUnknown"], ["fullScale"]);
      if (startPressure === undefined) return undefined;
      const ratio: Ratio = brand<"ratio">(fullScale / startPressure);
      formula("{ratio:ratio} = {full:pressure} / {test:pressure}", { ratio, full: fullScale, test: startPressure });
      return judge({
        kind: "ratio",
        measured: ratio,
        limit: most,
        pass: ["gaugeFine", { ratio, most: brand<"ratio">(most.value) }],
        fail: ["gaugeCoarse", { ratio, most: brand<"ratio">(most.value) }],
      });
    };
    const { disconnected, bubbles } = input;
    return all(
      fall(),
      bubbles === undefined ? missing(["bubblesUnknown"], ["bubbles"]) : say(bubbles ? "bubbles" : "noBubbles"),
      pressure(),
      time(),
      scale(),
      disconnected === undefined
        ? missing(["offUnknown"], ["disconnected"])
        : say(disconnected ? "takenOff" : "notTakenOff"),
    );
  },
});
