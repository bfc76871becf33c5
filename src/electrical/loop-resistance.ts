import * as z from "zod";
import { brand, type Resistance } from "../core/quantity/index.js";
import { defineCalculator, quantity } from "../core/rule/index.js";
import { necBasis, ohmsLaw } from "./basis.js";
import { circuitInput } from "./circuit.js";
import { wayFactor } from "./resistance.js";
import { impedanceOf, runInput, runTaken } from "./run.js";
import { supplyVoltageInput } from "./supply-voltage.js";

const volts = quantity("voltage", { max: [700, "V"] }).optional();

export const loopResistanceInput = z.strictObject({
  noLoad: supplyVoltageInput.shape.noLoad,
  loaded: supplyVoltageInput.shape.loaded,
  load: quantity("current", { min: [0.5, "A"], max: [400, "A"] })
    .optional()
    .describe("Current while the loaded voltage was read, with a clamp around one line"),
  panelNoLoad: volts.describe("Voltage at the panel with the machine off, between the same conductors"),
  panelLoaded: volts.describe("Voltage at the panel with the machine at full heat"),
  circuit: circuitInput.optional().describe("The circuit from the panel to the receptacle"),
  run: runInput.optional().describe("Make-up and surroundings of the run's conductors"),
});

/**
 * Resistance of source and run from two readings, and the heat in what the wire does not explain.
 *
 * A calculator; its page is `docs/rules/electrical/loop-resistance.md`.
 */
export const loopResistance = defineCalculator({
  id: "electrical/loop-resistance",
  title: "Resistance of source and run from two readings, and the heat in what the wire does not explain",
  since: "0.1.0",
  input: loopResistanceInput,
  outputs: {
    drop: { kind: "voltage", what: "Voltage lost" },
    loop: { kind: "resistance", what: "Source and run together" },
    source: { kind: "resistance", what: "Up to the panel" },
    wire: { kind: "resistance", what: "Explained by the run's wire" },
    left: { kind: "resistance", what: "Not explained" },
    heat: { kind: "power", what: "Heat made there while the machine runs" },
  },
  basis: [ohmsLaw],
  limits: [],
  messages: {
    missing: {
      readingsUnknown:
        "Two voltages at the receptacle are needed, machine off and machine at full heat, and its current.",
    },
    impossible: {
      rises: "The voltage rises by {rise:voltage} under load; the readings were taken at another moment or place.",
      panelRises: "The voltage at the panel rises by {rise:voltage} under load; read both again, one after the other.",
    },
  },
  cautions: ["mains", "fire", "deferral"],
  examples: [
    {
      title: "Number 7 Alder Row: two voltage readings find a loose joint",
      input: {
        noLoad: "242 V",
        loaded: "221 V",
        load: "21 A",
        panelNoLoad: "243 V",
        panelLoaded: "240 V",
        circuit: { size: "10 AWG", metal: "copper", length: "45 ft" },
      },
      gives: "computed",
    },
    {
      title: "A healthy circuit",
      input: {
        noLoad: "243 V",
        loaded: "239.5 V",
        load: "22 A",
        circuit: { size: "10 AWG", metal: "copper", length: "40 ft" },
      },
      gives: "computed",
    },
    {
      title: "A run nobody has measured",
      input: { noLoad: "121 V", loaded: "117 V", load: "11 A" },
      gives: "computed",
    },
    { title: "Machine not run", input: { noLoad: "240 V" }, gives: "readingsUnknown" },
    {
      title: "Readings the wrong way round",
      input: { noLoad: "236 V", loaded: "241 V", load: "20 A" },
      gives: "rises",
    },
    {
      title: "Panel readings an hour apart",
      input: { noLoad: "241 V", loaded: "236 V", load: "20 A", panelNoLoad: "239 V", panelLoaded: "240 V" },
      gives: "panelRises",
    },
  ],
  compute(input, { assume, at, formula, impossible, missing, rest }) {
    const {
      noLoad,
      loaded,
      load,
      panelNoLoad,
      panelLoaded,
      circuit,
      run = {} as NonNullable<typeof input.run>,
    } = input;
    if (noLoad === undefined || loaded === undefined || load === undefined) {
      const unknown = Object.entries({ noLoad, loaded, load }).filter(([, value]) => value === undefined);
      return missing(["readingsUnknown"], ...unknown.map(([name]) => [name]));
    }
    const drop = brand<"voltage">(noLoad - loaded);
    if (drop < 0) return impossible(["rises", { rise: brand<"voltage">(-drop) }]);
    formula("{drop:voltage} = {noLoad:voltage} - {loaded:voltage}", { drop, noLoad, loaded });
    const loop = brand<"resistance">(drop / load);
    formula("{loop:resistance} = {drop:voltage} / {load:current}", { loop, drop, load });

    let source: Resistance | null = null;
    if (panelNoLoad !== undefined && panelLoaded !== undefined) {
      const fall = brand<"voltage">(panelNoLoad - panelLoaded);
      if (fall < 0) return impossible(["panelRises", { rise: brand<"voltage">(-fall) }]);
      source = brand<"resistance">(fall / load);
      formula("{fall:voltage} = {panelNoLoad:voltage} - {panelLoaded:voltage}", { fall, panelNoLoad, panelLoaded });
      formula("{source:resistance} = {fall:voltage} / {load:current}", { source, fall, load });
    }
    const { size, metal, length } = circuit ?? ({} as NonNullable<typeof circuit>);
    if (size === undefined || metal === undefined || length === undefined) {
      assume("The run's wire is not known, so nothing of the loop is set against it.");
      return { drop, loop, source, wire: null, left: null, heat: null };
    }
    for (const taken of runTaken(run, size)) assume(taken);
    rest(necBasis(at, "chapter 9, Table 8 with note 2", "seen", "Resistance of conductors."));
    const { impedance } = impedanceOf(run, size, metal);
    const factor = wayFactor("one");
    const wire = brand<"resistance">(factor * impedance * length);
    formula("{wire:resistance} = {factor:number} * {impedance:resistancePerLength} * {length:length}", {
      wire,
      factor,
      impedance,
      length,
    });
    const known = brand<"resistance">(source ?? 0);
    if (source === null) {
      assume("Nothing was read at the panel, so what is not explained has the supply up to the panel in it.");
    }
    const left = brand<"resistance">(loop - known - wire);
    formula("{left:resistance} = {loop:resistance} - {known:resistance} - {wire:resistance}", {
      left,
      loop,
      known,
      wire,
    });
    if (left < 0) {
      assume("The wire alone explains more than was lost: nothing is left over, or a reading or the length is off.");
      return { drop, loop, source, wire, left, heat: null };
    }
    const heat = brand<"power">(load ** 2 * left);
    formula("{heat:power} = {load:current}^2 * {left:resistance}", { heat, load, left });
    return { drop, loop, source, wire, left, heat };
  },
});
