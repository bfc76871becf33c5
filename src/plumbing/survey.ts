/** Plumbing's part of a survey. */
import * as z from "zod";
import { definePart } from "../core/rule/index.js";
import { backflow, backflowInput } from "./backflow.js";
import { dishwasherDrain, dishwasherDrainInput } from "./dishwasher-drain.js";
import { drainCapacity, drainCapacityInput } from "./drain-capacity.js";
import { drainPan, drainPanInput } from "./drain-pan.js";
import { fittingTurns, fittingTurnsInput } from "./fitting-turns.js";
import { flowSplit, flowSplitInput } from "./flow-split.js";
import { gasConnector, gasConnectorInput } from "./gas-connector.js";
import { gasDemand, gasDemandInput } from "./gas-demand.js";
import { gasPipe, gasPipeInput } from "./gas-pipe.js";
import { gasPressure, gasPressureInput } from "./gas-pressure.js";
import { hoseCondition, hoseConditionInput } from "./hose-condition.js";
import { hoseReach, hoseReachInput } from "./hose-reach.js";
import { leakTest, leakTestInput } from "./leak-test.js";
import { standpipe, standpipeInput } from "./standpipe.js";
import { supplyLoss, supplyLossInput } from "./supply-loss.js";
import { supplyPressure, supplyPressureInput } from "./supply-pressure.js";
import { surge, surgeInput } from "./surge.js";
import { threadMatch, threadMatchInput } from "./thread-match.js";
import { supplyFact } from "./water.js";

const machineWater = { kind: "machine.kind", steam: "machine.steam", supply: "machine.supply" } as const;

const supplyShape = supplyPressureInput.shape;
const hoseShape = hoseReachInput.shape;
const conditionShape = hoseConditionInput.shape;
const standpipeShape = standpipeInput.shape;
const panShape = drainPanInput.shape;
const dishShape = dishwasherDrainInput.shape;
const backflowShape = backflowInput.shape;
const connectorShape = gasConnectorInput.shape;
const gasPressureShape = gasPressureInput.shape;
const demandShape = gasDemandInput.shape;
const pipeShape = gasPipeInput.shape;
const leakShape = leakTestInput.shape;
const lossShape = supplyLossInput.shape;
const splitShape = flowSplitInput.shape;
const surgeShape = surgeInput.shape;
const carryShape = drainCapacityInput.shape;
const jointShape = fittingTurnsInput.shape;

/** Plumbing's part of a survey: its fields, and where each entry takes its inputs from. */
export const plumbingPart = definePart({
  trade: "plumbing",
  site: z.strictObject({
    supply: z
      .strictObject({
        staticPressure: supplyShape.staticPressure,
        flowPressure: supplyShape.flowPressure,
        rise: supplyShape.rise,
        regulator: supplyShape.regulator,
        checkValve: supplyShape.checkValve,
        storageHeater: supplyShape.storageHeater,
        expansionControl: supplyShape.expansionControl,
      })
      .optional()
      .describe("The water supply, from where it enters to the valve behind the machine"),
    supplyRun: z
      .strictObject({
        runs: lossShape.runs,
        flow: lossShape.flow,
        temperature: lossShape.temperature,
        fill: lossShape.fill,
      })
      .optional()
      .describe("The pipes from the gauge to the machine, and what flows in them while it fills"),
    split: z
      .strictObject({
        isShared: splitShape.isShared,
        tapPressure: splitShape.tapPressure,
        tapFlow: splitShape.tapFlow,
        branches: splitShape.branches,
      })
      .optional()
      .describe("A Y on the valve that feeds two machines"),
    surge: z
      .strictObject({
        runs: surgeShape.runs,
        closing: surgeShape.closing,
        arrester: surgeShape.arrester,
        arresters: surgeShape.arresters,
        units: surgeShape.units,
        branch: surgeShape.branch,
      })
      .optional()
      .describe("What the fill valve's closing does to the pipes, and the arrester against it"),
    hose: z
      .strictObject({
        legs: hoseShape.legs,
        length: hoseShape.hose,
        pullOut: hoseShape.pullOut,
        bendRadius: hoseShape.bendRadius,
        make: conditionShape.make,
        age: conditionShape.age,
        rating: conditionShape.rating,
        damage: conditionShape.damage,
      })
      .optional()
      .describe("The inlet hose from the valve to the machine"),
    joint: z
      .strictObject({
        kind: jointShape.joint,
        thread: jointShape.thread,
        metal: jointShape.metal,
        washerThickness: jointShape.washerThickness,
        washerOuter: jointShape.washerOuter,
        washerInner: jointShape.washerInner,
        hardness: jointShape.hardness,
        handTurn: jointShape.handTurn,
      })
      .optional()
      .describe("The joint to be made up, usually the hose coupling on the valve"),
    threads: z
      .strictObject({ male: threadMatchInput.shape.male, female: threadMatchInput.shape.female })
      .optional()
      .describe("Two threads that are to be screwed together, where there is a doubt"),
    drain: z
      .strictObject({
        height: standpipeShape.height,
        trapHeight: standpipeShape.trapHeight,
        size: standpipeShape.size,
        trapped: standpipeShape.trapped,
        airBreak: standpipeShape.airBreak,
        insertion: standpipeShape.insertion,
        crest: standpipeShape.crest,
        tray: standpipeShape.tray,
        trayAway: standpipeShape.trayAway,
        standpipePipe: carryShape.standpipePipe,
        pump: carryShape.pump,
        pumpTime: carryShape.pumpTime,
        pipe: carryShape.pipe,
        material: carryShape.material,
        slope: carryShape.slope,
        arm: carryShape.arm,
        armPipe: carryShape.armPipe,
        otherUnits: carryShape.otherUnits,
      })
      .optional()
      .describe("The washer's standpipe, its trap, the hose in it, and the drain it runs into"),
    dishwasherDrain: z
      .strictObject({
        airGap: dishShape.airGap,
        loop: dishShape.loop,
        fastened: dishShape.fastened,
        inlet: dishShape.inlet,
        trap: dishShape.trap,
        joins: dishShape.joins,
        plugOut: dishShape.plugOut,
      })
      .optional()
      .describe("The dishwasher's drain hose, under the sink"),
    pan: z
      .strictObject({
        roomBelow: panShape.roomBelow,
        fitted: panShape.pan,
        depth: panShape.depth,
        outlet: panShape.outlet,
        ends: panShape.ends,
      })
      .optional()
      .describe("The drain pan under a washer, and what lies below"),
    backflow: z
      .strictObject({
        device: backflowShape.device,
        openHose: backflowShape.openHose,
        opening: backflowShape.opening,
        gap: backflowShape.gap,
        nearWall: backflowShape.nearWall,
        breakerRise: backflowShape.breakerRise,
        valvePast: backflowShape.valvePast,
      })
      .optional()
      .describe("What keeps water from coming back into the drinking water"),
    gas: z
      .strictObject({
        supplied: gasPressureShape.supplied,
        heatContent: demandShape.heatContent,
        altitude: demandShape.altitude,
        dial: demandShape.dial,
        dialTime: demandShape.dialTime,
        staticPressure: gasPressureShape.staticPressure,
        flowPressure: gasPressureShape.flowPressure,
        manifoldPressure: gasPressureShape.manifoldPressure,
      })
      .optional()
      .describe("The gas supply, its pressure and what the meter shows"),
    gasPipe: z
      .strictObject({
        inlet: pipeShape.inlet,
        drop: pipeShape.drop,
        method: pipeShape.method,
        sections: pipeShape.sections,
      })
      .optional()
      .describe("The gas piping from the meter or tank to the machines, section by section"),
    gasTest: z
      .strictObject({
        working: leakShape.working,
        startPressure: leakShape.startPressure,
        endPressure: leakShape.endPressure,
        duration: leakShape.duration,
        startTemperature: leakShape.startTemperature,
        endTemperature: leakShape.endTemperature,
        startBarometer: leakShape.startBarometer,
        endBarometer: leakShape.endBarometer,
        fullScale: leakShape.fullScale,
        step: leakShape.step,
        volume: leakShape.volume,
        disconnected: leakShape.disconnected,
        bubbles: leakShape.bubbles,
      })
      .optional()
      .describe("The pressure test of the gas piping, and the look for leaks after it"),
    connector: z
      .strictObject({
        connection: connectorShape.connection,
        length: connectorShape.length,
        capacity: connectorShape.capacity,
        bore: connectorShape.bore,
        isNew: connectorShape.isNew,
        connectors: connectorShape.connectors,
        concealed: connectorShape.concealed,
        shutoff: connectorShape.shutoff,
        shutoffInRoom: connectorShape.shutoffInRoom,
        shutoffReached: connectorShape.shutoffReached,
        union: connectorShape.union,
        trap: connectorShape.trap,
      })
      .optional()
      .describe("The gas connection at the machine"),
  }),
  machine: {
    supply: supplyFact,
    plateManifold: gasPressureShape.plateManifold,
    makerDerates: demandShape.makerDerates,
  },
  uses: [
    {
      entry: supplyPressure,
      from: {
        ...machineWater,
        staticPressure: "plumbing.supply.staticPressure",
        flowPressure: "plumbing.supply.flowPressure",
        rise: "plumbing.supply.rise",
        regulator: "plumbing.supply.regulator",
        checkValve: "plumbing.supply.checkValve",
        storageHeater: "plumbing.supply.storageHeater",
        expansionControl: "plumbing.supply.expansionControl",
      },
    },
    {
      entry: supplyLoss,
      from: {
        ...machineWater,
        flowPressure: "plumbing.supply.flowPressure",
        rise: "plumbing.supply.rise",
        flow: "plumbing.supplyRun.flow",
        runs: "plumbing.supplyRun.runs",
        temperature: "plumbing.supplyRun.temperature",
        fill: "plumbing.supplyRun.fill",
      },
    },
    {
      entry: flowSplit,
      from: {
        ...machineWater,
        isShared: "plumbing.split.isShared",
        staticPressure: "plumbing.supply.staticPressure",
        tapPressure: "plumbing.split.tapPressure",
        tapFlow: "plumbing.split.tapFlow",
        branches: "plumbing.split.branches",
      },
    },
    {
      entry: surge,
      from: {
        ...machineWater,
        staticPressure: "plumbing.supply.staticPressure",
        runs: "plumbing.surge.runs",
        flow: "plumbing.supplyRun.flow",
        closing: "plumbing.surge.closing",
        hoseRating: "plumbing.hose.rating",
        arrester: "plumbing.surge.arrester",
        arresters: "plumbing.surge.arresters",
        units: "plumbing.surge.units",
        branch: "plumbing.surge.branch",
      },
    },
    {
      entry: hoseReach,
      from: {
        ...machineWater,
        legs: "plumbing.hose.legs",
        hose: "plumbing.hose.length",
        pullOut: "plumbing.hose.pullOut",
        bendRadius: "plumbing.hose.bendRadius",
      },
    },
    {
      entry: hoseCondition,
      from: {
        ...machineWater,
        make: "plumbing.hose.make",
        age: "plumbing.hose.age",
        rating: "plumbing.hose.rating",
        damage: "plumbing.hose.damage",
        staticPressure: "plumbing.supply.staticPressure",
      },
    },
    { entry: threadMatch, from: { male: "plumbing.threads.male", female: "plumbing.threads.female" } },
    {
      entry: standpipe,
      from: {
        kind: "machine.kind",
        height: "plumbing.drain.height",
        trapHeight: "plumbing.drain.trapHeight",
        size: "plumbing.drain.size",
        trapped: "plumbing.drain.trapped",
        airBreak: "plumbing.drain.airBreak",
        insertion: "plumbing.drain.insertion",
        crest: "plumbing.drain.crest",
        tray: "plumbing.drain.tray",
        trayAway: "plumbing.drain.trayAway",
      },
    },
    {
      entry: drainCapacity,
      from: {
        kind: "machine.kind",
        pump: "plumbing.drain.pump",
        pumpTime: "plumbing.drain.pumpTime",
        pipe: "plumbing.drain.pipe",
        material: "plumbing.drain.material",
        slope: "plumbing.drain.slope",
        standpipeHeight: "plumbing.drain.height",
        standpipePipe: "plumbing.drain.standpipePipe",
        arm: "plumbing.drain.arm",
        armPipe: "plumbing.drain.armPipe",
        otherUnits: "plumbing.drain.otherUnits",
      },
    },
    {
      entry: dishwasherDrain,
      from: {
        kind: "machine.kind",
        airGap: "plumbing.dishwasherDrain.airGap",
        loop: "plumbing.dishwasherDrain.loop",
        fastened: "plumbing.dishwasherDrain.fastened",
        inlet: "plumbing.dishwasherDrain.inlet",
        trap: "plumbing.dishwasherDrain.trap",
        joins: "plumbing.dishwasherDrain.joins",
        plugOut: "plumbing.dishwasherDrain.plugOut",
      },
    },
    {
      entry: drainPan,
      from: {
        kind: "machine.kind",
        roomBelow: "plumbing.pan.roomBelow",
        pan: "plumbing.pan.fitted",
        depth: "plumbing.pan.depth",
        outlet: "plumbing.pan.outlet",
        ends: "plumbing.pan.ends",
      },
    },
    {
      entry: backflow,
      from: {
        ...machineWater,
        device: "plumbing.backflow.device",
        openHose: "plumbing.backflow.openHose",
        opening: "plumbing.backflow.opening",
        gap: "plumbing.backflow.gap",
        nearWall: "plumbing.backflow.nearWall",
        breakerRise: "plumbing.backflow.breakerRise",
        valvePast: "plumbing.backflow.valvePast",
      },
    },
    {
      entry: gasDemand,
      from: {
        fuel: "machine.fuel",
        heatInput: "machine.heatInput",
        heatContent: "plumbing.gas.heatContent",
        altitude: "plumbing.gas.altitude",
        makerDerates: "machine.makerDerates",
        dial: "plumbing.gas.dial",
        dialTime: "plumbing.gas.dialTime",
      },
    },
    {
      entry: gasPressure,
      from: {
        fuel: "machine.fuel",
        supplied: "plumbing.gas.supplied",
        staticPressure: "plumbing.gas.staticPressure",
        flowPressure: "plumbing.gas.flowPressure",
        manifoldPressure: "plumbing.gas.manifoldPressure",
        plateManifold: "machine.plateManifold",
      },
    },
    {
      entry: gasPipe,
      from: {
        fuel: "machine.fuel",
        heatContent: "plumbing.gas.heatContent",
        inlet: "plumbing.gasPipe.inlet",
        drop: "plumbing.gasPipe.drop",
        method: "plumbing.gasPipe.method",
        sections: "plumbing.gasPipe.sections",
      },
    },
    {
      entry: leakTest,
      from: {
        fuel: "machine.fuel",
        working: "plumbing.gasTest.working",
        startPressure: "plumbing.gasTest.startPressure",
        endPressure: "plumbing.gasTest.endPressure",
        duration: "plumbing.gasTest.duration",
        startTemperature: "plumbing.gasTest.startTemperature",
        endTemperature: "plumbing.gasTest.endTemperature",
        startBarometer: "plumbing.gasTest.startBarometer",
        endBarometer: "plumbing.gasTest.endBarometer",
        fullScale: "plumbing.gasTest.fullScale",
        step: "plumbing.gasTest.step",
        volume: "plumbing.gasTest.volume",
        disconnected: "plumbing.gasTest.disconnected",
        bubbles: "plumbing.gasTest.bubbles",
      },
    },
    {
      entry: gasConnector,
      from: {
        kind: "machine.kind",
        fuel: "machine.fuel",
        heatInput: "machine.heatInput",
        connection: "plumbing.connector.connection",
        length: "plumbing.connector.length",
        capacity: "plumbing.connector.capacity",
        bore: "plumbing.connector.bore",
        isNew: "plumbing.connector.isNew",
        connectors: "plumbing.connector.connectors",
        concealed: "plumbing.connector.concealed",
        shutoff: "plumbing.connector.shutoff",
        shutoffInRoom: "plumbing.connector.shutoffInRoom",
        shutoffReached: "plumbing.connector.shutoffReached",
        union: "plumbing.connector.union",
        trap: "plumbing.connector.trap",
      },
    },
    {
      entry: fittingTurns,
      from: {
        ...machineWater,
        fuel: "machine.fuel",
        joint: "plumbing.joint.kind",
        thread: "plumbing.joint.thread",
        metal: "plumbing.joint.metal",
        washerThickness: "plumbing.joint.washerThickness",
        washerOuter: "plumbing.joint.washerOuter",
        washerInner: "plumbing.joint.washerInner",
        hardness: "plumbing.joint.hardness",
        handTurn: "plumbing.joint.handTurn",
      },
    },
  ],
});
