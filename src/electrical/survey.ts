/** The electrical part of a survey, in the order one walks: plate, panel, circuit, receptacle, cord, meter. */
import * as z from "zod";
import { definePart } from "../core/rule/index.js";
import { ampacity } from "./ampacity.js";
import { applianceLoad } from "./appliance-load.js";
import { branchCircuit, branchCircuitInput } from "./branch-circuit.js";
import { circuitInput, cordInput, receptacleInput } from "./circuit.js";
import { circuitFound, circuitFoundInput } from "./circuit-found.js";
import { cordMatch } from "./cord-match.js";
import { dryerDemand, dryerDemandInput } from "./dryer-demand.js";
import { loopResistance, loopResistanceInput } from "./loop-resistance.js";
import { dwellingInput, panelHeadroom } from "./panel-headroom.js";
import { plateInput } from "./plate.js";
import { rangeDemand, rangeDemandInput } from "./range-demand.js";
import { receptacleReach, receptacleReachInput } from "./receptacle-reach.js";
import { runInput } from "./run.js";
import { supplyVoltage, supplyVoltageInput } from "./supply-voltage.js";
import { wiringSite, wiringUses } from "./survey-wiring.js";
import { systemInput } from "./system.js";
import { voltageDrop } from "./voltage-drop.js";

const reach = receptacleReachInput.shape;
const volts = supplyVoltageInput.shape;
const loop = loopResistanceInput.shape;
const ranges = rangeDemandInput.shape;
const dryers = dryerDemandInput.shape;

const plate = "machine.plate";
const system = "electrical.system";
const circuit = "electrical.circuit";
const run = "electrical.run";

/** Electrical's part of a survey: its fields, and where each entry takes its inputs from. */
export const electricalPart = definePart({
  trade: "electrical",
  site: z.strictObject({
    system: systemInput.optional(),
    circuit: circuitInput.optional().describe("The circuit from the panel to the receptacle"),
    hardWired: circuitFoundInput.shape.hardWired,
    receptacle: receptacleInput.optional().describe("The receptacle for the machine"),
    run: runInput.optional().describe("Make-up and surroundings of the run's conductors"),
    continuous: branchCircuitInput.shape.continuous,
    cord: cordInput.optional().describe("The cord that is on the machine, or is to go on it"),
    cordWay: z
      .strictObject({ path: reach.path, pullOut: reach.pullOut })
      .optional()
      .describe("The way of the cord from the machine to the receptacle"),
    voltage: z
      .strictObject({
        noLoad: volts.noLoad,
        loaded: volts.loaded,
        legs: volts.legs,
        load: loop.load,
        panelNoLoad: loop.panelNoLoad,
        panelLoaded: loop.panelLoaded,
      })
      .optional()
      .describe("Voltages read at the receptacle and at the panel, and the current meanwhile"),
    dwelling: dwellingInput.optional().describe("The dwelling's service and what hangs on it"),
    feeder: z
      .strictObject({
        ranges: ranges.ranges,
        rangesBetween: ranges.between,
        dryers: dryers.dryers,
        dryersBetween: dryers.between,
        factorBy: dryers.factorBy,
        phases: ranges.phases,
      })
      .optional()
      .describe("The feeder or service that several dwellings hang on"),
    ...wiringSite,
  }),
  machine: {
    plate: plateInput.optional().describe("What the machine's plate says of its electrics"),
  },
  uses: [
    {
      entry: circuitFound,
      from: {
        kind: "machine.kind",
        plate,
        system,
        circuit,
        receptacle: "electrical.receptacle",
        hardWired: "electrical.hardWired",
      },
    },
    {
      entry: cordMatch,
      from: {
        kind: "machine.kind",
        plate,
        system,
        circuit,
        receptacle: "electrical.receptacle",
        cord: "electrical.cord",
        hardWired: "electrical.hardWired",
      },
    },
    {
      entry: receptacleReach,
      from: {
        distance: "electrical.receptacle.distance",
        path: "electrical.cordWay.path",
        cord: "electrical.cord.length",
        pullOut: "electrical.cordWay.pullOut",
        hardWired: "electrical.hardWired",
      },
    },
    {
      entry: supplyVoltage,
      from: {
        plate,
        system,
        noLoad: "electrical.voltage.noLoad",
        loaded: "electrical.voltage.loaded",
        legs: "electrical.voltage.legs",
      },
    },
    { entry: applianceLoad, from: { kind: "machine.kind", plate, system, found: "electrical.voltage.loaded" } },
    { entry: ampacity, from: { circuit } },
    {
      entry: branchCircuit,
      from: { kind: "machine.kind", plate, system, circuit, run, continuous: "electrical.continuous" },
    },
    {
      entry: voltageDrop,
      from: { kind: "machine.kind", plate, system, circuit, run, current: "electrical.voltage.load" },
    },
    {
      entry: loopResistance,
      from: {
        noLoad: "electrical.voltage.noLoad",
        loaded: "electrical.voltage.loaded",
        load: "electrical.voltage.load",
        panelNoLoad: "electrical.voltage.panelNoLoad",
        panelLoaded: "electrical.voltage.panelLoaded",
        circuit,
        run,
      },
    },
    { entry: panelHeadroom, from: { plate, system, dwelling: "electrical.dwelling" } },
    {
      entry: rangeDemand,
      from: {
        ranges: "electrical.feeder.ranges",
        phases: "electrical.feeder.phases",
        between: "electrical.feeder.rangesBetween",
        system,
      },
    },
    {
      entry: dryerDemand,
      from: {
        dryers: "electrical.feeder.dryers",
        phases: "electrical.feeder.phases",
        between: "electrical.feeder.dryersBetween",
        factorBy: "electrical.feeder.factorBy",
        system,
      },
    },
    ...wiringUses,
  ],
});
