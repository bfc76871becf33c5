import * as z from "zod";
import { brand, type Current, type Power, si } from "../core/quantity/index.js";
import { defineCalculator, quantity } from "../core/rule/index.js";
import { necBasis } from "./basis.js";
import { ratedGroups } from "./feeder.js";
import { measuredShare } from "./limits-service.js";
import { lineCurrent, type Plate, plateInput } from "./plate.js";
import { dwellingRulesOf, generalLoad, tieredDemand } from "./service.js";
import { nominalVoltage, systemInput } from "./system.js";

const watts = quantity("power", { max: [200, "kW"] }).optional();

export const dwellingInput = z.strictObject({
  service: quantity("current", { min: [15, "A"], max: [1200, "A"] })
    .optional()
    .describe("Rating of the service: the main breaker or fuses"),
  floor: quantity("area", { max: [20_000, "ft2"] })
    .optional()
    .describe("Floor area of the dwelling, outer dimensions, without garage, porch and unused cellar"),
  kitchenCircuits: z.int().min(0).max(20).optional().describe("Small-appliance circuits of 20 A; two at least"),
  laundryCircuits: z.int().min(0).max(10).optional().describe("Laundry circuits of 20 A"),
  appliances: ratedGroups(60, 0).describe(
    "Everything else that is fastened in place or has a circuit of its own, without the new machine and what it replaces",
  ),
  heatOrCooling: watts.describe("The larger of the heating and the air conditioning that are there; 0 W for none"),
  measured: watts.describe("Highest demand that was metered, averaged over 15 minutes"),
  metering: z
    .enum(["one year", "30 days", "less"])
    .optional()
    .describe("How long the demand was metered, heating or cooling season in it"),
  generates: z
    .boolean()
    .optional()
    .describe("Whether the dwelling makes power of its own or shaves its peaks, which hides its demand"),
});

export const panelHeadroomInput = z.strictObject({
  plate: plateInput.optional().describe("What the machine's plate says of its electrics"),
  system: systemInput.optional(),
  dwelling: dwellingInput.optional().describe("The dwelling's service and what hangs on it"),
});

/** Power of the new machine [VA], or `undefined` where the plate gives neither power nor current and voltage. */
function machinePower({ power, current, voltage, phases }: Plate): Power | undefined {
  if (power !== undefined) return power;
  if (current === undefined || voltage === undefined || phases === "three") return undefined;
  return brand<"power">(current * voltage);
}

/**
 * Room that a dwelling's service has for one more machine, by calculation and by metering.
 *
 * A calculator; its page is `docs/rules/electrical/panel-headroom.md`.
 */
export const panelHeadroom = defineCalculator({
  id: "electrical/panel-headroom",
  title: "Room that a dwelling's service has for one more machine, by calculation and by metering",
  since: "0.1.0",
  input: panelHeadroomInput,
  outputs: {
    machine: { kind: "apparentPower", what: "New machine" },
    connected: { kind: "apparentPower", what: "Connected load with it" },
    calculated: { kind: "apparentPower", what: "Demand by calculation" },
    calculatedCurrent: { kind: "current", what: "Current by calculation" },
    calculatedRoom: { kind: "current", what: "Room left by calculation" },
    metered: { kind: "apparentPower", what: "Demand by metering" },
    meteredCurrent: { kind: "current", what: "Current by metering" },
    meteredRoom: { kind: "current", what: "Room left by metering" },
  },
  basis: [],
  limits: [measuredShare],
  messages: {
    missing: {
      machineUnknown: "The new machine's power, or its voltage and current, are needed from its plate.",
      serviceUnknown: "The rating of the main breaker or fuses is needed, and the supply system.",
      loadsUnknown:
        "Either the dwelling's floor area, circuits, appliances and heating, or its metered demand, are needed.",
    },
    impossible: {
      noCode: "Both methods belong to the National Electrical Code, which is not adopted here.",
      system: "Both methods are for services of 120/240 V or 208Y/120 V.",
    },
  },
  cautions: ["mains", "deferral"],
  examples: [
    {
      title: "Alder Row, a dwelling with a 100 A service and gas heat",
      input: {
        plate: { voltage: "240 V", power: "5.4 kW" },
        system: "120/240 V",
        dwelling: {
          service: "100 A",
          floor: "1200 ft2",
          kitchenCircuits: 2,
          laundryCircuits: 1,
          appliances: [
            { rating: "11.5 kW", count: 1 },
            { rating: "1.2 kW", count: 1 },
          ],
          heatOrCooling: "0 W",
        },
      },
      gives: "computed",
    },
    {
      title: "The same by a year of metering",
      input: {
        plate: { voltage: "240 V", power: "5.4 kW" },
        system: "120/240 V",
        dwelling: { service: "100 A", measured: "8.2 kW", metering: "one year", generates: false },
      },
      gives: "computed",
    },
    {
      title: "Too short a metering",
      input: {
        plate: { voltage: "240 V", power: "5.4 kW" },
        system: "120/240 V",
        dwelling: { service: "100 A", measured: "8.2 kW", metering: "less" },
      },
      gives: "loadsUnknown",
    },
    { title: "Plate not read", input: { system: "120/240 V" }, gives: "machineUnknown" },
    {
      title: "Main breaker not read",
      input: { plate: { voltage: "240 V", power: "5.4 kW" }, system: "120/240 V" },
      gives: "serviceUnknown",
    },
    {
      title: "A house on 230 V",
      input: {
        plate: { voltage: "230 V", power: "2.4 kW" },
        system: "230/400 V",
        dwelling: { service: "63 A" },
      },
      gives: "system",
    },
    {
      title: "A building under another code",
      input: {
        plate: { voltage: "240 V", power: "5.4 kW" },
        system: "120/240 V",
        dwelling: { service: "100 A" },
      },
      at: { jurisdiction: { adopted: { iec60364: 2017 } } },
      gives: "noCode",
    },
  ],
  compute({ plate, system, dwelling }, { assume, at, formula, impossible, limit, missing, rest }) {
    const edition = at.adopted.nec;
    if (edition === undefined) return impossible(["noCode"]);
    const machine = plate && machinePower(plate);
    if (machine === undefined) return missing(["machineUnknown"], ["plate", "power"]);
    // whoever says nothing of the dwelling does not ask about its service
    if (dwelling === undefined) return missing(["serviceUnknown"]);
    const { service } = dwelling;
    if (system === undefined || service === undefined) {
      const unknown = [
        system === undefined ? [["system"]] : [],
        service === undefined ? [["dwelling", "service"]] : [],
      ];
      return missing(["serviceUnknown"], ...unknown.flat());
    }
    if (system === "230/400 V") return impossible(["system"]);
    const volts = nominalVoltage(system, "lines");
    const current = (demand: Power): Current => lineCurrent(demand, volts, "one");

    const calculate = () => {
      const { floor, kitchenCircuits, laundryCircuits, appliances, heatOrCooling } = dwelling;
      if (
        floor === undefined ||
        kitchenCircuits === undefined ||
        laundryCircuits === undefined ||
        appliances === undefined ||
        heatOrCooling === undefined
      ) {
        return undefined;
      }
      const { first_VA, rest_percent } = dwellingRulesOf(edition);
      const general = generalLoad(floor, kitchenCircuits + laundryCircuits, edition);
      const fixed = brand<"power">(appliances.reduce((sum, { rating, count }) => sum + rating * count, 0));
      const connected = brand<"power">(general + fixed + heatOrCooling + machine);
      formula(
        "{connected:apparentPower} = {general:apparentPower} + {fixed:apparentPower} + {heating:apparentPower} + {machine:apparentPower}",
        { connected, general, fixed, heating: heatOrCooling, machine },
      );
      const first = si(first_VA, "VA");
      const share = brand<"ratio">(rest_percent / 100);
      const demand = tieredDemand(connected, first, share);
      if (connected > first) {
        formula(
          "{demand:apparentPower} = {first:apparentPower} + {share:ratio} * ({connected:apparentPower} - {first:apparentPower})",
          { demand, first, share, connected },
        );
      }
      rest(
        necBasis(
          at,
          edition >= 2026 ? "120.83(A)" : "220.83(A)",
          edition >= 2026 ? "memory" : "secondary",
          "Existing dwelling to which no heating or air conditioning is added: 8 kVA in full, 40 % of the rest.",
        ),
      );
      assume("Heating or air conditioning that is there is counted with the rest; none is added with the machine.");
      return { connected, demand };
    };

    const meter = (): Power | undefined => {
      const { measured, metering, generates } = dwelling;
      const share = limit(measuredShare);
      if (measured === undefined || metering === undefined || metering === "less" || share === undefined)
        return undefined;
      if (generates === true) {
        assume("A dwelling that makes its own power or shaves its peaks may not be judged by its metered demand.");
        return undefined;
      }
      if (generates === undefined) assume("The dwelling is taken to make no power of its own.");
      const ratio = brand<"ratio">(share.value);
      const demand = brand<"power">(ratio * measured + machine);
      formula("{metered:apparentPower} = {share:ratio} * {measured:apparentPower} + {machine:apparentPower}", {
        metered: demand,
        share: ratio,
        measured,
        machine,
      });
      return demand;
    };

    const calculated = calculate();
    const metered = meter();
    if (calculated === undefined && metered === undefined) {
      const { floor, kitchenCircuits, laundryCircuits, appliances, heatOrCooling } = dwelling;
      const unknown = Object.entries({ floor, kitchenCircuits, laundryCircuits, appliances, heatOrCooling });
      return missing(
        ["loadsUnknown"],
        ...unknown.filter(([, value]) => value === undefined).map(([name]) => ["dwelling", name]),
      );
    }
    const room = (demand: Power): Current => brand<"current">(service - current(demand));
    return {
      machine,
      connected: calculated?.connected ?? null,
      calculated: calculated?.demand ?? null,
      calculatedCurrent: calculated ? current(calculated.demand) : null,
      calculatedRoom: calculated ? room(calculated.demand) : null,
      metered: metered ?? null,
      meteredCurrent: metered === undefined ? null : current(metered),
      meteredRoom: metered === undefined ? null : room(metered),
    };
  },
});
