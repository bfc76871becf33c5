import * as z from "zod";
import { brand, type Length, type Pressure, si } from "../core/quantity/index.js";
import { defineRule, type MachineKind, type Proposal, quantity } from "../core/rule/index.js";
import { STANDARD_GRAVITY } from "../physics/index.js";
import { expansionControl, flowLeast, machineLeast, machineMost, staticLeast, staticMost } from "./limits.js";
import { coldWater_kg_m3, regulatorSetting_psi } from "./tables/supply.js";
import { takesWater, waterFacts, waterQuestion } from "./water.js";

const readPressure = quantity("pressure", { min: [0, "psi"], max: [400, "psi"] });

export const supplyPressureInput = z.strictObject({
  ...waterFacts,
  staticPressure: readPressure
    .optional()
    .describe(
      "Gauge pressure with nothing running, the highest seen in a day; a gauge with a drag hand left overnight shows it",
    ),
  flowPressure: readPressure
    .optional()
    .describe("Gauge pressure at the same tap while another tap nearby runs fully open"),
  rise: quantity("length", { min: [-200, "ft"], max: [200, "ft"] })
    .optional()
    .describe("Height of the machine's inlet above the gauge; negative where the inlet is lower, 0 in where level"),
  regulator: z.boolean().optional().describe("Whether a pressure-reducing valve is fitted where the water enters"),
  checkValve: z
    .boolean()
    .optional()
    .describe("Whether a check valve or backflow preventer is fitted where the water enters; many meters have one"),
  storageHeater: z.boolean().optional().describe("Whether a water heater with a tank is on the system"),
  expansionControl: z
    .boolean()
    .optional()
    .describe("Whether an expansion tank or its listed equal is fitted between that valve and the heater"),
});

/**
 * Water pressure at another height of the same column at rest [Pa].
 *
 * p = p₀ − ρ·g·h: 0.433 psi less for every foot up.
 *
 * @param pressure - p₀, at the gauge [Pa]
 * @param rise - h, above the gauge; negative below it [m]
 * @example pressureAtHeight(si(60, "psi"), si(10, "ft")) // 383821.67
 */
export function pressureAtHeight(pressure: Pressure, rise: Length): Pressure {
  return brand<"pressure">(pressure - coldWater_kg_m3 * STANDARD_GRAVITY * rise);
}

/** The row of the outlet table that stands for a machine; none for an ice maker. */
function outletOf(kind: MachineKind): "laundryTray" | "dishwasher" | "none" {
  if (kind === "dishwasher") return "dishwasher";
  return kind === "refrigerator" ? "none" : "laundryTray";
}

const remedies = {
  regulator:
    "Have a pressure-reducing valve set to {setting:pressure} fitted where the water enters, with thermal expansion control, and measure the flowing pressure again.",
  expansion: "Have an expansion tank fitted on the cold side of the heater.",
} as const;

/** The water pressure suits the code and the machine. A rule; its page is `docs/rules/plumbing/supply-pressure.md`. */
export const supplyPressure = defineRule({
  id: "plumbing/supply-pressure",
  title: "The water pressure suits the code and the machine",
  since: "0.1.0",
  input: supplyPressureInput,
  basis: [],
  limits: [staticMost, staticLeast, flowLeast, machineLeast, machineMost, expansionControl],
  messages: {
    pass: {
      staticWithin: "The static pressure of {static:pressure} is within the {most:pressure} allowed.",
      staticEnough: "The static pressure of {static:pressure} reaches the {least:pressure} asked for.",
      flowEnough: "{flow:pressure} is left at the outlet with water running; {least:pressure} is asked for.",
      valveHolds: "The machine's valve sees {static:pressure} at rest and holds {most:pressure}.",
      valveFills: "The machine's valve has {flow:pressure} to fill with and needs {least:pressure}.",
      readingsAgree: "The flowing pressure reads below the static one, as it must.",
      expansionControlled: "The closed system has thermal expansion control.",
    },
    fail: {
      staticTooHigh:
        "The static pressure of {static:pressure} is over the {most:pressure} allowed: a pressure-reducing valve is called for, and thermal expansion control with it.",
      staticTooLow: "The static pressure of {static:pressure} is below the {least:pressure} asked for.",
      flowTooLow: "Only {flow:pressure} is left at the outlet with water running; {least:pressure} is asked for.",
      valveOver: "The machine's valve sees {static:pressure} at rest, over the {most:pressure} it holds.",
      valveStarved: "The machine's valve has only {flow:pressure} to fill with and needs {least:pressure}.",
      readingsCrossed:
        "The flowing pressure of {flow:pressure} reads above the static {static:pressure}, which cannot be; read both again.",
      noExpansionControl:
        "A regulator or check valve closes the system, and nothing takes up the water that heating swells: thermal expansion control is called for.",
    },
    review: {
      waterUnknown: "Say whether the machine takes water.",
      staticUnknown: "The static pressure was not measured.",
      flowUnknown: "The flowing pressure was not measured.",
      riseUnknown: "The height of the machine's inlet above the gauge was not measured.",
      closedUnknown: "Nobody looked whether a regulator or check valve closes the system.",
      controlUnknown: "Nobody looked for an expansion tank on the closed system.",
    },
    notApplicable: { noWater: "This machine takes no water." },
  },
  remedies,
  cautions: ["water", "scald", "deferral"],
  examples: [
    {
      title: "A laundry on the first floor, gauge on the washer's own tap",
      input: {
        kind: "washer",
        staticPressure: "62 psi",
        flowPressure: "48 psi",
        rise: "0 in",
        regulator: true,
        checkValve: false,
        expansionControl: true,
      },
      gives: "staticWithin",
    },
    {
      title: "A high-pressure building without a regulator",
      input: {
        kind: "washer",
        staticPressure: "105 psi",
        flowPressure: "88 psi",
        rise: "0 in",
        regulator: false,
        checkValve: false,
      },
      gives: "staticTooHigh",
    },
    {
      title: "An old text that names a least pressure",
      input: {
        kind: "washer",
        staticPressure: "37 psi",
        flowPressure: "25 psi",
        rise: "0 in",
        regulator: false,
        checkValve: false,
      },
      at: { jurisdiction: { adopted: { irc: 2009 } } },
      gives: "staticTooLow",
    },
    {
      title: "The same text, met",
      input: {
        kind: "washer",
        staticPressure: "55 psi",
        flowPressure: "40 psi",
        rise: "0 in",
        regulator: false,
        checkValve: false,
      },
      at: { jurisdiction: { adopted: { irc: 2009 } } },
      gives: "staticWithin",
    },
    {
      title: "A top-floor laundry, gauge in the basement, under a uniform code",
      input: {
        kind: "washer",
        staticPressure: "48 psi",
        flowPressure: "30 psi",
        rise: "36 ft",
        regulator: false,
        checkValve: false,
      },
      at: { jurisdiction: { adopted: { upc: 2021 } } },
      gives: "flowTooLow",
    },
    {
      title: "A machine whose sheet asks for more than the tap gives",
      input: {
        kind: "washer",
        staticPressure: "40 psi",
        flowPressure: "18 psi",
        rise: "0 in",
        regulator: false,
        checkValve: false,
      },
      gives: "valveStarved",
    },
    {
      title: "A valve rated lower than the building's pressure",
      input: {
        kind: "dishwasher",
        staticPressure: "78 psi",
        flowPressure: "60 psi",
        rise: "0 in",
        regulator: false,
        checkValve: false,
      },
      at: {
        maker: [{ limit: "plumbing/supply-pressure.machine-most", value: "75 psi", citation: { document: "Sheet" } }],
      },
      gives: "valveOver",
    },
    {
      title: "Readings written into the wrong boxes",
      input: {
        kind: "washer",
        staticPressure: "45 psi",
        flowPressure: "60 psi",
        rise: "0 in",
        regulator: false,
        checkValve: false,
      },
      gives: "readingsCrossed",
    },
    {
      title: "A regulator and no expansion tank",
      input: {
        kind: "washer",
        staticPressure: "60 psi",
        flowPressure: "45 psi",
        rise: "0 in",
        regulator: true,
        expansionControl: false,
      },
      gives: "noExpansionControl",
    },
    {
      title: "A regulator, and nobody looked for the tank",
      input: { kind: "washer", staticPressure: "60 psi", flowPressure: "45 psi", rise: "0 in", regulator: true },
      gives: "controlUnknown",
    },
    {
      title: "Nobody looked for a regulator",
      input: { kind: "washer", staticPressure: "60 psi", flowPressure: "45 psi", rise: "0 in" },
      gives: "closedUnknown",
    },
    { title: "Static pressure not measured", input: { kind: "washer" }, gives: "staticUnknown" },
    {
      title: "Flowing pressure not measured",
      input: { kind: "washer", staticPressure: "60 psi", rise: "0 in", storageHeater: false },
      gives: "flowUnknown",
    },
    {
      title: "Height not measured",
      input: { kind: "washer", staticPressure: "60 psi", storageHeater: false },
      gives: "riseUnknown",
    },
    { title: "A refrigerator that may make ice", input: { kind: "refrigerator" }, gives: "waterUnknown" },
    { title: "A range", input: { kind: "range" }, gives: "noWater" },
  ],
  check(input, { all, assume, formula, judge, limit, missing, say }) {
    const { kind, staticPressure, flowPressure, rise, regulator, checkValve, storageHeater } = input;
    const wet = takesWater(input);
    if (wet === false) return say("noWater");
    if (wet === undefined) return missing(["waterUnknown"], [waterQuestion(kind)]);

    const atMachine = (name: "static" | "flow", pressure: Pressure, up: Length): Pressure => {
      const there = pressureAtHeight(pressure, up);
      const water = brand<"density">(coldWater_kg_m3);
      const data = { there, pressure, water, gravity: STANDARD_GRAVITY, up };
      if (name === "static" || up !== 0) {
        formula(
          "{there:pressure} = {pressure:pressure} - {water:density} * {gravity:number} * (1 m/s^2) * {up:length}",
          data,
        );
      }
      return there;
    };

    const supply = () => {
      if (staticPressure === undefined || rise === undefined) {
        return all(
          staticPressure === undefined ? missing(["staticUnknown"], ["staticPressure"]) : undefined,
          rise === undefined ? missing(["riseUnknown"], ["rise"]) : undefined,
        );
      }
      const here = atMachine("static", staticPressure, rise);
      const highest = brand<"pressure">(Math.max(staticPressure, here));
      const most = limit(staticMost);
      const least = limit(staticLeast);
      const holds = limit(machineMost);
      return all(
        most &&
          judge({
            kind: "pressure",
            measured: highest,
            limit: most,
            pass: ["staticWithin", { static: highest, most: brand<"pressure">(most.value) }],
            fail: ["staticTooHigh", { static: highest, most: brand<"pressure">(most.value) }],
          }),
        least &&
          judge({
            kind: "pressure",
            measured: staticPressure,
            limit: least,
            pass: ["staticEnough", { static: staticPressure, least: brand<"pressure">(least.value) }],
            fail: ["staticTooLow", { static: staticPressure, least: brand<"pressure">(least.value) }],
          }),
        holds &&
          judge({
            kind: "pressure",
            measured: here,
            limit: holds,
            pass: ["valveHolds", { static: here, most: brand<"pressure">(holds.value) }],
            fail: ["valveOver", { static: here, most: brand<"pressure">(holds.value) }],
          }),
      );
    };

    const flowing = () => {
      if (flowPressure === undefined) return missing(["flowUnknown"], ["flowPressure"]);
      if (staticPressure === undefined || rise === undefined) return undefined;
      const here = atMachine("flow", flowPressure, rise);
      const outlet = outletOf(kind);
      const least = outlet === "none" ? undefined : limit(flowLeast, "none", { outlet });
      if (least && outlet === "laundryTray" && least.basis.section.startsWith("Table")) {
        assume("The code's table has no row for a laundry machine; its laundry tray row is used.");
      }
      const fills = limit(machineLeast);
      return all(
        judge({
          kind: "pressure",
          measured: flowPressure,
          limit: staticPressure,
          sense: "atMost",
          pass: ["readingsAgree"],
          fail: ["readingsCrossed", { flow: flowPressure, static: staticPressure }],
        }),
        least &&
          judge({
            kind: "pressure",
            measured: here,
            limit: least,
            pass: ["flowEnough", { flow: here, least: brand<"pressure">(least.value) }],
            fail: ["flowTooLow", { flow: here, least: brand<"pressure">(least.value) }],
          }),
        fills &&
          judge({
            kind: "pressure",
            measured: here,
            limit: fills,
            pass: ["valveFills", { flow: here, least: brand<"pressure">(fills.value) }],
            fail: ["valveStarved", { flow: here, least: brand<"pressure">(fills.value) }],
          }),
      );
    };

    const expansion = () => {
      if (storageHeater === false) return undefined;
      const closed = regulator === true || checkValve === true;
      if (!closed) {
        if (regulator === false && checkValve === false) return undefined;
        const open = [regulator === undefined ? ["regulator"] : [], checkValve === undefined ? ["checkValve"] : []];
        return missing(["closedUnknown"], ...open.filter((path) => path.length > 0));
      }
      const called = limit(expansionControl);
      if (called?.value !== 1) return undefined;
      if (storageHeater === undefined) assume("A water heater with a tank is taken to be on the system.");
      if (input.expansionControl === undefined) return missing(["controlUnknown"], ["expansionControl"]);
      return say(input.expansionControl ? "expansionControlled" : "noExpansionControl");
    };

    return all(supply(), flowing(), expansion());
  },
  mend({ staticPressure, flowPressure, regulator }) {
    const setting = si(regulatorSetting_psi, "psi");
    const tank = { path: ["expansionControl"], value: true };
    const proposals: Proposal<typeof remedies>[] = [{ change: [tank], say: ["expansion"] }];
    if (regulator !== true && staticPressure !== undefined && staticPressure > setting && flowPressure !== undefined) {
      proposals.push({
        change: [
          { path: ["staticPressure"], value: setting, unit: "psi" },
          { path: ["flowPressure"], value: Math.min(flowPressure, setting), unit: "psi" },
          { path: ["regulator"], value: true },
          tank,
        ],
        say: ["regulator", { setting }],
      });
    }
    return proposals;
  },
});
