import * as z from "zod";
import {
  type AwgSize,
  brand,
  type ConductorSize,
  metricSizes,
  type Ratio,
  type Voltage,
} from "../core/quantity/index.js";
import { defineCalculator, machineFacts, quantity } from "../core/rule/index.js";
import { necBasis } from "./basis.js";
import { circuitInput, circuitSizes } from "./circuit.js";
import { branchDrop } from "./limits-drop.js";
import { circuitLoad } from "./load.js";
import { plateInput } from "./plate.js";
import { formulaResistance, voltageDropOf, wayFactor } from "./resistance.js";
import { impedanceOf, metricImpedanceOf, metricTaken, runInput, runTaken, usualTemperature } from "./run.js";
import { belongsBetween, nominalVoltage, systemInput } from "./system.js";
import { conductorResistivityBasis, iecRunBasis } from "./tables/resistance.js";

export const voltageDropInput = z.strictObject({
  kind: machineFacts.kind.optional(),
  plate: plateInput.optional().describe("What the machine's plate says of its electrics"),
  system: systemInput.optional(),
  circuit: circuitInput.optional().describe("The circuit from the panel to the receptacle"),
  run: runInput.optional().describe("Make-up and surroundings of the run's conductors"),
  current: quantity("current", { min: [0.5, "A"], max: [400, "A"] })
    .optional()
    .describe("Current in the run, where it is not what the plate says"),
});

/**
 * Voltage lost in the run, the longest run for a size, and the smallest size for a run.
 *
 * A calculator; its page is `docs/rules/electrical/voltage-drop.md`.
 */
export const voltageDrop = defineCalculator({
  id: "electrical/voltage-drop",
  title: "Voltage lost in the run, the longest run for a size, and the smallest size for a run",
  since: "0.1.0",
  input: voltageDropInput,
  outputs: {
    current: { kind: "current", what: "Current" },
    resistance: { kind: "resistancePerLength", what: "Resistance taken" },
    byResistivity: { kind: "resistancePerLength", what: "Resistance by resistivity and area" },
    impedance: { kind: "resistancePerLength", what: "Effective impedance" },
    drop: { kind: "voltage", what: "Voltage lost" },
    share: { kind: "ratio", what: "Share of the nominal voltage" },
    longest: { kind: "length", what: "Longest run of this size, one way" },
    smallest: { kind: "text", what: "Smallest size of this metal by voltage lost alone, whatever it may carry" },
  },
  basis: [],
  limits: [branchDrop],
  messages: {
    missing: {
      loadUnknown: "The machine's voltage, and its current or power, are needed.",
      systemUnknown: "The supply system of the building is not known.",
      runUnknown: "The length of the run, and the size and metal of its conductors, are needed.",
    },
  },
  cautions: ["mains", "deferral"],
  examples: [
    {
      title: "Number 21 Alder Row: a long run to the laundry at the end of the yard",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: { size: "10 AWG", metal: "copper", length: "165 ft" },
      },
      gives: "computed",
    },
    {
      title: "A 120 V circuit of 20 A over 100 ft of stranded 12 AWG",
      input: {
        plate: { voltage: "120 V" },
        system: "120/240 V",
        current: "20 A",
        circuit: { size: "12 AWG", metal: "copper", length: "100 ft" },
        run: { construction: "stranded", powerFactor: "100 %", temperature: "75 °C" },
      },
      gives: "computed",
    },
    {
      title: "A motor's load in steel conduit, three-phase",
      input: {
        plate: { voltage: "208 V", phases: "three", current: "30 A" },
        system: "208Y/120 V",
        circuit: { size: "8 AWG", metal: "copper", length: "150 ft" },
        run: { surrounding: "steel", powerFactor: "85 %" },
      },
      gives: "computed",
    },
    { title: "Load not known", input: { system: "120/240 V" }, gives: "loadUnknown" },
    { title: "System not known", input: { plate: { voltage: "240 V", current: "23 A" } }, gives: "systemUnknown" },
    {
      title: "Run not measured",
      input: { plate: { voltage: "240 V", current: "23 A" }, system: "120/240 V" },
      gives: "runUnknown",
    },
    {
      title: "A house on 230 V: 2.5 mm² to the laundry",
      input: {
        plate: { voltage: "230 V", current: "10 A" },
        system: "230/400 V",
        circuit: { area: "2.5 mm2", metal: "copper", length: "30 m" },
      },
      at: { jurisdiction: { adopted: { iec60364: 2017 } }, units: "si" },
      gives: "computed",
    },
  ],
  compute(input, { assume, at, formula, limit, missing, rest }) {
    const { kind, plate, system, circuit, run = {} as NonNullable<typeof input.run> } = input;
    const rated = plate?.voltage;
    const current = input.current ?? (plate && circuitLoad(kind, plate, at)?.load);
    if (plate === undefined || rated === undefined || current === undefined) {
      const unknown = [rated === undefined ? ["voltage"] : [], current === undefined ? ["current"] : []].flat();
      return missing(["loadUnknown"], ...unknown.map((name) => ["plate", name]));
    }
    if (system === undefined) return missing(["systemUnknown"], ["system"]);
    const metric = system === "230/400 V";
    const { metal, length } = circuit ?? {};
    const named = metric ? circuit?.area : circuit?.size;
    if (named === undefined || metal === undefined || length === undefined) {
      const unknown = Object.entries({ [metric ? "area" : "size"]: named, metal, length });
      return missing(
        ["runUnknown"],
        ...unknown.filter(([, value]) => value === undefined).map(([name]) => ["circuit", name]),
      );
    }
    const phases = plate.phases ?? "one";
    const nominal = nominalVoltage(system, belongsBetween(system, rated));
    for (const taken of metric ? metricTaken(run) : runTaken(run, named as AwgSize)) assume(taken);
    if (metric) rest(iecRunBasis);
    else {
      rest(necBasis(at, "chapter 9, Table 8 with note 2", "seen", "Resistance of conductors."));
      rest(necBasis(at, "chapter 9, Table 9 with note 2", "seen", "Reactance, and effective impedance."));
    }
    rest(conductorResistivityBasis);
    const of = (size: ConductorSize) =>
      metric ? metricImpedanceOf(run, size, metal) : impedanceOf(run, size as AwgSize, metal);
    const { resistance, reactance, impedance } = of(named);
    const powerFactor = run.powerFactor ?? brand<"ratio">(1);
    formula(
      "{impedance:resistancePerLength} = {resistance:resistancePerLength} * {powerFactor:ratio} + {reactance:resistancePerLength} * sqrt(1 - {powerFactor:ratio}^2)",
      { impedance, resistance, reactance, powerFactor },
    );
    const drop = voltageDropOf(impedance, length, current, phases);
    const factor = wayFactor(phases);
    formula(
      "{drop:voltage} = {factor:number} * {impedance:resistancePerLength} * {length:length} * {current:current}",
      {
        drop,
        factor,
        impedance,
        length,
        current,
      },
    );
    const share: Ratio = brand<"ratio">(drop / nominal);
    formula("{share:ratio} = {drop:voltage} / {nominal:voltage}", { share, drop, nominal });
    const most = limit(branchDrop);
    const allowed = most && brand<"voltage">(most.value * nominal);
    return {
      current,
      resistance,
      byResistivity: formulaResistance(named, metal, run.temperature ?? usualTemperature),
      impedance,
      drop,
      share,
      longest: allowed ? brand<"length">(allowed / (factor * impedance * current)) : null,
      smallest: allowed === undefined ? null : (smallestFor(allowed) ?? "none of the table"),
    };

    function smallestFor(room: Voltage): string | undefined {
      const sizes: readonly ConductorSize[] = metric ? metricSizes : circuitSizes;
      return sizes.find((one) => {
        if (metal === "aluminum" && one === "14 AWG") return false;
        return voltageDropOf(of(one).impedance, length!, current!, phases) <= room * (1 + 1e-9);
      });
    }
  },
});
