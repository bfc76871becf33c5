import * as z from "zod";
import { brand, type Current, type Power, type Voltage } from "../core/quantity/index.js";
import { defineCalculator, machineFacts, quantity, type Read } from "../core/rule/index.js";
import { ohmsLaw, plateBasis } from "./basis.js";
import { elementPower, lineCurrent, plateInput, ROOT_THREE } from "./plate.js";
import { belongsBetween, nominalVoltage, systemInput } from "./system.js";
import { plateSlack } from "./tables/habits.js";

export const applianceLoadInput = z.strictObject({
  kind: machineFacts.kind.optional(),
  plate: plateInput.optional().describe("What the machine's plate says of its electrics"),
  system: systemInput.optional(),
  found: quantity("voltage", { max: [700, "V"] })
    .optional()
    .describe("Voltage at the machine while it runs, between the conductors it is joined to"),
});

type Input = Read<z.output<typeof applianceLoadInput>>;
type Plate = NonNullable<Input["plate"]>;

/** Machines that are nothing but heating elements, as far as their load goes. Common practice, no source. */
const allElement = (kind: Input["kind"]): boolean => kind === "oven" || kind === "cooktop" || kind === "range";

/** The heating element's power [W], as stated or as what the motor leaves of the current. */
function elementOf(kind: Input["kind"], plate: Plate, current: Current, power: Power): Power | null {
  if (plate.element !== undefined) return plate.element;
  if (plate.motor === undefined) return allElement(kind) ? power : null;
  const phases = plate.phases === "three" ? ROOT_THREE : 1;
  return brand<"power">(Math.max(0, current - plate.motor) * plate.voltage! * phases);
}

/**
 * What the machine draws by its plate, and what is left of its heat at another voltage.
 *
 * A calculator; its page is `docs/rules/electrical/appliance-load.md`.
 */
export const applianceLoad = defineCalculator({
  id: "electrical/appliance-load",
  title: "What the machine draws by its plate, and what is left of its heat at another voltage",
  since: "0.1.0",
  input: applianceLoadInput,
  outputs: {
    current: { kind: "current", what: "Rated current" },
    power: { kind: "apparentPower", what: "Rated power" },
    element: { kind: "power", what: "Heating element at rated voltage" },
    motor: { kind: "current", what: "Motor" },
    voltage: { kind: "voltage", what: "Voltage there" },
    elementThere: { kind: "power", what: "Heating element there" },
    share: { kind: "ratio", what: "Share of the rated heat" },
    longer: { kind: "ratio", what: "Longer to give the same heat, by" },
    currentThere: { kind: "current", what: "Current there" },
  },
  basis: [plateBasis, ohmsLaw],
  limits: [],
  messages: {
    missing: {
      voltageUnknown: "The rated voltage was not noted from the plate.",
      loadUnknown: "Neither current nor power was noted from the plate.",
    },
    impossible: {
      plateDisagrees:
        "The plate's {power:power} is more than its {current:current} at {voltage:voltage} can give; look at the plate again.",
      motorTooLarge:
        "The motor's {motor:current} is more than the machine's {current:current}; look at the plate again.",
      elementTooLarge:
        "The heating element's {element:power} is more than the machine's {power:power}; look at the plate again.",
    },
  },
  cautions: ["mains", "deferral"],
  examples: [
    {
      title: "Juniper Terrace, a 208 V building: what a 240 V dryer has left",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, power: "5600 W", element: "5400 W" },
        system: "208Y/120 V",
      },
      gives: "computed",
    },
    {
      title: "A dryer at a sagging receptacle",
      input: { plate: { voltage: "240 V", current: "24 A", motor: "4 A" }, found: "226 V" },
      gives: "computed",
    },
    {
      title: "A wall oven rated three-phase",
      input: { kind: "oven", plate: { voltage: "208 V", power: "9 kW", phases: "three" }, found: "200 V" },
      gives: "computed",
    },
    { title: "A washer, no element known", input: { plate: { voltage: "120 V", current: "10 A" } }, gives: "computed" },
    { title: "Voltage not noted", input: { plate: { power: "5600 W" } }, gives: "voltageUnknown" },
    { title: "Load not noted", input: { plate: { voltage: "240 V" } }, gives: "loadUnknown" },
    {
      title: "A plate read wrongly",
      input: { plate: { voltage: "120 V", current: "24 A", power: "5600 W" } },
      gives: "plateDisagrees",
    },
    {
      title: "A motor larger than the machine",
      input: { plate: { voltage: "120 V", current: "6 A", motor: "8 A" } },
      gives: "motorTooLarge",
    },
    {
      title: "An element larger than the machine",
      input: { plate: { voltage: "240 V", power: "5000 W", element: "5400 W" } },
      gives: "elementTooLarge",
    },
  ],
  compute({ kind, plate, system, found }, { assume, formula, impossible, missing }) {
    const rated = plate?.voltage;
    if (plate === undefined || rated === undefined) return missing(["voltageUnknown"], ["plate", "voltage"]);
    const phases = plate.phases ?? "one";
    const root = phases === "three" ? ROOT_THREE : 1;
    if (plate.current === undefined && plate.power === undefined) {
      return missing(["loadUnknown"], ["plate", "current"], ["plate", "power"]);
    }
    const current = plate.current ?? lineCurrent(plate.power!, rated, phases);
    const power = brand<"power">(current * rated * root);
    if (plate.power !== undefined && plate.power > power * (1 + plateSlack)) {
      return impossible(["plateDisagrees", { power: plate.power, current, voltage: rated }]);
    }
    if (plate.current === undefined) {
      if (phases === "three") {
        formula("{current:current} = {power:power} / (sqrt(3) * {voltage:voltage})", {
          current,
          power,
          voltage: rated,
        });
      } else formula("{current:current} = {power:power} / {voltage:voltage}", { current, power, voltage: rated });
    } else if (phases === "three") {
      formula("{power:apparentPower} = sqrt(3) * {voltage:voltage} * {current:current}", {
        power,
        voltage: rated,
        current,
      });
    } else formula("{power:apparentPower} = {voltage:voltage} * {current:current}", { power, voltage: rated, current });

    if (plate.motor !== undefined && plate.motor > current * (1 + plateSlack)) {
      return impossible(["motorTooLarge", { motor: plate.motor, current }]);
    }
    const element = elementOf(kind, plate, current, power);
    if (element !== null && element > power * (1 + plateSlack)) {
      return impossible(["elementTooLarge", { element, power }]);
    }
    const elementCurrent = element === null ? null : lineCurrent(element, rated, phases);
    const motor =
      plate.motor ?? (elementCurrent === null ? null : brand<"current">(Math.max(0, current - elementCurrent)));
    const voltage: Voltage | null =
      found ?? (system === undefined ? null : nominalVoltage(system, belongsBetween(system, rated)));
    const nothing = { elementThere: null, share: null, longer: null, currentThere: null };
    const plain = { current, power, element, motor, voltage };
    if (voltage === null || element === null || elementCurrent === null) return { ...plain, ...nothing };

    const elementThere = elementPower(element, voltage, rated);
    formula("{elementThere:power} = {element:power} * ({voltage:voltage} / {rated:voltage})^2", {
      elementThere,
      element,
      voltage,
      rated,
    });
    const share = brand<"ratio">((voltage / rated) ** 2);
    formula("{share:ratio} = ({voltage:voltage} / {rated:voltage})^2", { share, voltage, rated });
    assume("The motor is taken to draw the same at this voltage; a loaded motor on low voltage draws a little more.");
    const currentThere = brand<"current">((elementCurrent * voltage) / rated + (motor ?? 0));
    return {
      ...plain,
      elementThere,
      share,
      longer: share > 0 ? brand<"ratio">(1 / share - 1) : null,
      currentThere,
    };
  },
});
