import * as z from "zod";
import { brand, type MassFlow, type Pressure, si, type Temperature } from "../core/quantity/index.js";
import { defineCalculator, machineFacts, quantity } from "../core/rule/index.js";
import {
  brent,
  geopotentialHeight,
  heatCapacityFlow,
  humidityRatio,
  moistAirEnthalpy,
  pressureAtAltitude,
  saturationPressure,
} from "../physics/index.js";
import { moistAirHandbook, testLoad } from "./basis.js";
import { dryAirFlow } from "./cooling.js";
import { airFields, roomTemperature as roomTemperatureInput } from "./run-input.js";

const flowInput = quantity("volumeFlow", { min: [5, "cfm"], max: [1000, "cfm"] });

export const dryingAirInput = z.strictObject({
  heatInput: machineFacts.heatInput,
  flow: flowInput.optional().describe("Exhaust flow through the run at hand, measured or computed"),
  freeFlow: flowInput.optional().describe("Exhaust flow with a short clean run, to compare with"),
  roomTemperature: roomTemperatureInput,
  roomHumidity: quantity("ratio").optional().describe("Relative humidity of that air; 50 % where left out"),
  hottest: quantity("temperature", { min: [30, "degC"], max: [90, "degC"] })
    .optional()
    .describe("Exhaust temperature at which the thermostat stops the heat; 65 °C where left out"),
  hottestInlet: quantity("temperature", { min: [60, "degC"], max: [250, "degC"] })
    .optional()
    .describe(
      "Temperature of the heated air before the drum at which the high limit stops the heat; 120 °C where left out",
    ),
  wetness: quantity("ratio", { min: [5, "percent"], max: [100, "percent"] })
    .optional()
    .describe("Relative humidity of the exhaust while the load is wet; 60 % where left out"),
  intoAir: quantity("ratio", { min: [5, "percent"], max: [100, "percent"] })
    .optional()
    .describe("Share of the heat that gets into the air; 90 % where left out"),
  waterInLoad: quantity("mass", { min: [0.01, "kg"], max: [50, "kg"] })
    .optional()
    .describe("Water to be dried out of the load; that of the federal test load where left out"),
  altitude: airFields.altitude,
});

/** Where nothing is known (common practice, no source). */
const USUAL = { room: 20, humidity: 0.5, hottest: 65, inlet: 120, wetness: 0.6, intoAir: 0.9 } as const;

/** Federal test load: 8.45 lb bone dry, from 57.5 % to 4 % moisture. */
const TEST_WATER = 8.45 * (0.575 - 0.04);

/** What sets the drying rate. */
export interface Drying {
  /** Heat into the air [W]. */
  readonly heat: number;
  /** Dry air through the drum [kg/s]. */
  readonly dryAir: MassFlow;
  readonly roomTemperature: Temperature;
  /** Water over dry air of the room [kg/kg]. */
  readonly roomRatio: number;
  /** Relative humidity of the exhaust. */
  readonly wetness: number;
  /** Thermostat [K]. */
  readonly hottest: Temperature;
  /** High limit of the heated air before the drum [K]. */
  readonly hottestInlet: Temperature;
  readonly pressure: Pressure;
}

/** What holds the drying rate down. */
export type RateSetter = "heater" | "high limit" | "thermostat";

/** Rate and state of the exhaust. */
export interface DryingRate {
  /** Water removed [kg/s]. */
  readonly water: MassFlow;
  /** Exhaust temperature [K]. */
  readonly exhaust: Temperature;
  /** What sets the rate. */
  readonly setBy: RateSetter;
}

const ratioAt = (temperature: Temperature, wetness: number, pressure: Pressure): number =>
  humidityRatio(brand<"pressure">(wetness * saturationPressure(temperature)), pressure);

/**
 * Water that the air takes out of the load [kg/s], by an energy balance of the drum: all heat goes into the air, and the
 * air leaves at a relative humidity.
 *
 * h_out = h_in + P/ṁ gives the exhaust's temperature. The heat is held back where the heated air would be hotter than the
 * high limit before the drum, P ≤ ṁ·c·(T_limit − T_room), or the exhaust hotter than the thermostat. So the heater sets
 * the rate while there is air enough, and the air when there is not.
 *
 * @param drying - heat, air and state of the room
 * @returns nothing where even so the air takes no water up
 */
export function dryingRate(drying: Drying): DryingRate | undefined {
  const { heat, dryAir, roomTemperature, roomRatio, wetness, hottest, hottestInlet, pressure } = drying;
  const most = heatCapacityFlow(dryAir, roomRatio) * Math.max(0, hottestInlet - roomTemperature);
  const target = moistAirEnthalpy(roomTemperature, roomRatio) + Math.min(heat, most) / dryAir;
  const enthalpy = (t: number) => {
    const at = brand<"temperature">(t);
    return moistAirEnthalpy(at, ratioAt(at, wetness, pressure));
  };
  const isHot = enthalpy(hottest) < target;
  const exhaust = isHot ? hottest : brand<"temperature">(brent((t) => enthalpy(t) - target, COLDEST, hottest, 1e-9));
  const water = dryAir * (ratioAt(exhaust, wetness, pressure) - roomRatio);
  if (water <= 0) return undefined;
  return {
    water: brand<"massFlow">(water),
    exhaust,
    setBy: isHot ? "thermostat" : heat > most ? "high limit" : "heater",
  };
}

/** Colder than any exhaust [K]. */
const COLDEST = 200;

/** What the setter means, in words. */
const readings: Record<RateSetter, string> = {
  heater: "the heater sets the rate: the air carries its heat away",
  "high limit": "the air sets the rate: the heated air meets its high limit, and the heater is held back",
  thermostat: "the air sets the rate: the exhaust meets its thermostat, and the heater is held back",
};

/** What a dryer's airflow means for drying. A calculator; its page is `docs/rules/venting/drying-air.md`. */
export const dryingAir = defineCalculator({
  id: "venting/drying-air",
  title: "What a dryer's airflow means for drying",
  since: "0.1.0",
  input: dryingAirInput,
  outputs: {
    exhaust: { kind: "temperature", what: "Exhaust temperature while the load is wet" },
    water: { kind: "massFlow", what: "Water removed" },
    time: { kind: "time", what: "Time to dry the load" },
    freeTime: { kind: "time", what: "The same with the short clean run" },
    longer: { kind: "number", what: "Times as long" },
    reading: { kind: "text", what: "What sets the rate" },
  },
  basis: [moistAirHandbook, testLoad],
  limits: [],
  messages: {
    missing: {
      heatUnknown: "The machine's heat is needed, from its plate.",
      flowUnknown: "The exhaust flow is needed.",
    },
    impossible: {
      noDrying: "Under these assumptions the air takes no water out of the load.",
      thinAir: "At this altitude and thermostat the exhaust would be nearly all steam.",
    },
  },
  cautions: ["fire", "deferral"],
  examples: [
    {
      title: "A 22,000 Btu/h machine on a long run that leaves it 90 cfm instead of 180 cfm",
      input: { heatInput: "22000 Btu/h", flow: "90 cfm", freeFlow: "180 cfm" },
      gives: "computed",
    },
    {
      title: "Choked to 40 cfm",
      input: { heatInput: "22000 Btu/h", flow: "40 cfm", freeFlow: "180 cfm" },
      gives: "computed",
    },
    { title: "No heat", input: { flow: "90 cfm" }, gives: "heatUnknown" },
    { title: "No flow", input: { heatInput: "22000 Btu/h" }, gives: "flowUnknown" },
    {
      title: "A hot damp room, little heat",
      input: { heatInput: "10 Btu/h", flow: "180 cfm", roomTemperature: "35 °C", roomHumidity: "95 %" },
      gives: "noDrying",
    },
    {
      title: "A hot thermostat on a high mountain",
      input: { heatInput: "22000 Btu/h", flow: "90 cfm", hottest: "88 °C", wetness: "100 %", altitude: "4500 m" },
      gives: "thinAir",
    },
  ],
  compute(input, { assume, formula, missing, impossible }) {
    const { heatInput, flow, freeFlow } = input;
    if (heatInput === undefined) return missing(["heatUnknown"], ["heatInput"]);
    if (flow === undefined) return missing(["flowUnknown"], ["flow"]);
    const altitude = input.altitude ?? si(0, "m");
    const pressure = pressureAtAltitude(geopotentialHeight(altitude));
    const roomTemperature = input.roomTemperature ?? si(USUAL.room, "degC");
    const hottest = input.hottest ?? si(USUAL.hottest, "degC");
    const hottestInlet = input.hottestInlet ?? si(USUAL.inlet, "degC");
    const wetness = input.wetness ?? USUAL.wetness;
    const water = input.waterInLoad ?? si(TEST_WATER, "lb");
    if (wetness * saturationPressure(hottest) > 0.9 * pressure) return impossible(["thinAir"]);
    assume(
      "Energy balance of a steady drum: the air leaves at one relative humidity while the load is wet; the last minutes are slower.",
    );
    if (input.wetness === undefined) assume("The exhaust leaves at 60 % relative humidity.");
    if (input.intoAir === undefined) assume("90 % of the heat gets into the air.");
    if (input.hottest === undefined || input.hottestInlet === undefined)
      assume("Where not given, the thermostat holds the exhaust at 65 °C and the high limit the heated air at 120 °C.");
    if (input.waterInLoad === undefined)
      assume("The load holds the water of the federal test load, 8.45 lb from 57.5 % to 4 %.");
    if (input.roomTemperature === undefined || input.roomHumidity === undefined)
      assume("The machine takes in air of 20 °C and 50 % where not given.");
    const roomRatio = ratioAt(roomTemperature, input.roomHumidity ?? USUAL.humidity, pressure);
    const heat = brand<"power">((input.intoAir ?? USUAL.intoAir) * heatInput);
    const rateAt = (volumeFlow: number) => {
      // The flow is taken at the exhaust: a few rounds find the dry air in it.
      let exhaust = hottest;
      let rate: DryingRate | undefined;
      let dryAir = dryAirFlow(volumeFlow, exhaust, ratioAt(exhaust, wetness, pressure), pressure);
      for (let round = 0; round < 60; round++) {
        rate = dryingRate({ heat, dryAir, roomTemperature, roomRatio, wetness, hottest, hottestInlet, pressure });
        if (!rate) return undefined;
        const next = dryAirFlow(volumeFlow, rate.exhaust, ratioAt(rate.exhaust, wetness, pressure), pressure);
        exhaust = rate.exhaust;
        if (Math.abs(next - dryAir) <= 1e-10 * dryAir) break;
        // Half steps: the plain iteration can swing.
        dryAir = brand<"massFlow">((dryAir + next) / 2);
      }
      return rate;
    };
    const here = rateAt(flow);
    const free = freeFlow === undefined ? undefined : rateAt(freeFlow);
    if (!here || (freeFlow !== undefined && !free)) return impossible(["noDrying"]);
    const time = brand<"time">(water / here.water);
    const freeTime = free ? brand<"time">(water / free.water) : null;
    formula("{time:time} = {water:mass} / {rate:massFlow}", { time, water, rate: here.water });
    const longer = freeTime === null ? null : time / freeTime;
    if (freeTime !== null)
      formula("{longer:number} = {time:time} / {freeTime:time}", { longer: longer!, time, freeTime });
    return {
      exhaust: here.exhaust,
      water: here.water,
      time,
      freeTime,
      longer,
      reading: readings[here.setBy],
    };
  },
});
