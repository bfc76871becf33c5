import * as z from "zod";
import { type Basis, burns } from "../core/basis/index.js";
import {
  brand,
  type HeatContent,
  type Length,
  type Power,
  type Ratio,
  si,
  type Time,
  type Volume,
  type VolumeFlow,
} from "../core/quantity/index.js";
import { defineCalculator, machineFacts, quantity } from "../core/rule/index.js";
import { altitudeCode, gasHeat } from "./basis.js";
import { altitudeDerating, heatContent_Btu_ft3 } from "./tables/fuel-gas.js";

export const gasDemandInput = z.strictObject({
  fuel: machineFacts.fuel,
  heatInput: machineFacts.heatInput,
  heatContent: quantity("heatContent", { min: [400, "Btu/ft3"], max: [3500, "Btu/ft3"] })
    .optional()
    .describe(
      "Heat in a cubic foot of the gas as the supplier bills it; 1,000 Btu/ft3 natural, 2,516 propane where left out",
    ),
  altitude: quantity("length", { min: [-1500, "ft"], max: [15_000, "ft"] })
    .optional()
    .describe("Height of the site above the sea"),
  makerDerates: z
    .enum(["code", "fromTwoThousand", "none"])
    .optional()
    .describe(
      "What the machine's sheet says of altitude: nothing of its own (the code's rule), 4 % per 1,000 ft counted from 2,000 ft, or no derating at all",
    ),
  dial: quantity("volume", { min: [0.05, "ft3"], max: [100, "ft3"] })
    .optional()
    .describe("Gas for one turn of the meter's test dial, as printed on it, with only this machine burning"),
  dialTime: quantity("time", { min: [1, "s"], max: [3600, "s"] })
    .optional()
    .describe("Time of one turn of that dial"),
});

/**
 * Volume flow of a gas that an input rate burns [m³/s]: q = P / H.
 *
 * @param input - P, input rate [W]
 * @param heat - H, heat content, above 0 [J/m³]
 * @example gasFlow(si(22000, "Btu/h"), si(1000, "Btu/ft3")) // 0.00017305
 */
export function gasFlow(input: Power, heat: HeatContent): VolumeFlow {
  return brand<"volumeFlow">(input / heat);
}

/**
 * Share of the sea-level input that is left at an altitude, a ratio.
 *
 * 1 up to 2,000 ft; above, 1 − 4 % per 1,000 ft of altitude above the sea, the first 2,000 ft included. Makers who count
 * from 2,000 ft differ; their sheet decides.
 *
 * @param altitude - height above the sea [m]
 * @param from - height that the 4 % are counted from: the sea for the code [m]
 * @basis IFGC and NFPA 54, high-altitude installations; two appliance manuals that cite the code
 * @example altitudeShare(si(5300, "ft")) // 0.788
 */
export function altitudeShare(altitude: Length, from: Length = brand<"length">(0)): Ratio {
  if (altitude <= si(altitudeDerating.from_ft, "ft") * (1 + 1e-9)) return brand<"ratio">(1);
  return brand<"ratio">(1 - (altitudeDerating.per1000ft * (altitude - from)) / si(1000, "ft"));
}

/**
 * Input rate that a meter shows [W]: P = H·V/t.
 *
 * @param heat - H, heat content [J/m³]
 * @param dial - V, gas for one turn of the test dial [m³]
 * @param time - t, time of the turn, above 0 [s]
 * @example clockedInput(si(1000, "Btu/ft3"), si(2, "ft3"), si(200, "s")) // 10550.56
 */
export function clockedInput(heat: HeatContent, dial: Volume, time: Time): Power {
  return brand<"power">((heat * dial) / time);
}

/**
 * Gas that the machine takes, and what altitude does to its input.
 *
 * A calculator; its page is `docs/rules/plumbing/gas-demand.md`.
 */
export const gasDemand = defineCalculator({
  id: "plumbing/gas-demand",
  title: "Gas that the machine takes, and what altitude does to its input",
  since: "0.1.0",
  input: gasDemandInput,
  outputs: {
    flow: { kind: "gasFlow", what: "gas flow at the plate's input" },
    share: { kind: "ratio", what: "share of the plate's input to be set at this altitude" },
    deratedInput: { kind: "heatRate", what: "input to be set at this altitude" },
    deratedFlow: { kind: "gasFlow", what: "gas flow at that input" },
    clocked: { kind: "heatRate", what: "input that the meter shows" },
    clockedShare: { kind: "ratio", what: "meter's input against the one to be set" },
  },
  basis: [],
  limits: [],
  messages: {
    missing: {
      inputUnknown: "Read the input rate from the machine's plate.",
      altitudeUnknown: "Look up the height of the site above the sea; above 2,000 ft it takes from the input.",
    },
    impossible: {
      noGas: "This machine burns no gas.",
    },
  },
  cautions: ["gas", "carbonMonoxide", "deferral"],
  examples: [
    {
      title: "A gas dryer near the sea",
      input: { fuel: "naturalGas", heatInput: "22,000 Btu/h", altitude: "300 ft" },
      gives: "computed",
    },
    {
      title: "The same at 5,300 ft, where the meter was timed",
      input: {
        fuel: "naturalGas",
        heatInput: "22,000 Btu/h",
        altitude: "5300 ft",
        heatContent: "830 Btu/ft3",
        dial: "1 ft3",
        dialTime: "170 s",
      },
      gives: "computed",
    },
    {
      title: "A propane range whose maker counts from 2,000 ft",
      input: { fuel: "propane", heatInput: "65,000 Btu/h", altitude: "4000 ft", makerDerates: "fromTwoThousand" },
      gives: "computed",
    },
    {
      title: "A fan-assisted dryer whose maker asks for no derating",
      input: { fuel: "naturalGas", heatInput: "22,000 Btu/h", altitude: "4000 ft", makerDerates: "none" },
      gives: "computed",
    },
    { title: "Plate not read", input: { fuel: "naturalGas", altitude: "0 ft" }, gives: "inputUnknown" },
    { title: "Height not known", input: { fuel: "naturalGas", heatInput: "22,000 Btu/h" }, gives: "altitudeUnknown" },
    { title: "An electric dryer", input: { fuel: "electric" }, gives: "noGas" },
  ],
  compute(input, { assume, formula, impossible, missing, rest }) {
    const { fuel, heatInput, altitude, makerDerates = "code", dial, dialTime } = input;
    if (!burns(fuel) || fuel === "electric" || fuel === "none") return impossible(["noGas"]);
    if (heatInput === undefined) {
      return missing(["inputUnknown"], ["heatInput"], ...(altitude === undefined ? [["altitude"]] : []));
    }
    if (altitude === undefined) return missing(["altitudeUnknown"], ["altitude"]);
    const bases: Basis[] = [gasHeat, altitudeCode];
    for (const basis of bases) rest(basis);
    const heat = input.heatContent ?? si(heatContent_Btu_ft3[fuel], "Btu/ft3");
    if (input.heatContent === undefined) {
      assume("The gas is taken to have the code's usual heat content; the supplier's bill has the real one.");
    }
    const flow = gasFlow(heatInput, heat);
    formula("{flow:gasFlow} = {input:heatRate} / {heat:heatContent}", { flow, input: heatInput, heat });

    const from = makerDerates === "fromTwoThousand" ? si(altitudeDerating.from_ft, "ft") : brand<"length">(0);
    const share = makerDerates === "none" ? brand<"ratio">(1) : altitudeShare(altitude, from);
    if (input.makerDerates === undefined) {
      assume("The machine's sheet is taken to say nothing of its own on altitude; where it does, it decides.");
    }
    if (share < 1) {
      const rate = brand<"ratio">(altitudeDerating.per1000ft);
      formula("{share:ratio} = 1 - {rate:ratio} * ({altitude:length} - {from:length}) / (1000 ft)", {
        share,
        rate,
        altitude,
        from,
      });
    }
    const deratedInput = brand<"power">(heatInput * share);
    formula("{derated:heatRate} = {input:heatRate} * {share:ratio}", {
      derated: deratedInput,
      input: heatInput,
      share,
    });
    const timed = dial !== undefined && dialTime !== undefined;
    const clocked = timed ? clockedInput(heat, dial, dialTime) : null;
    if (timed) {
      formula("{clocked:heatRate} = {heat:heatContent} * {dial:volume} / {time:time}", {
        clocked: clocked!,
        heat,
        dial,
        time: dialTime,
      });
    }
    return {
      flow,
      share,
      deratedInput,
      deratedFlow: gasFlow(deratedInput, heat),
      clocked,
      clockedShare: clocked === null || deratedInput === 0 ? null : brand<"ratio">(clocked / deratedInput),
    };
  },
});
