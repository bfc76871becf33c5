/** The electrical part of a survey, in the order one walks: plate, panel, circuit, receptacle, cord, meter. */
import * as z from "zod";
import { definePart } from "../core/rule/index.js";
import { circuitInput, cordInput, receptacleInput } from "./circuit.js";
import { circuitFound, circuitFoundInput } from "./circuit-found.js";
import { cordMatch } from "./cord-match.js";
import { plateInput } from "./plate.js";
import { receptacleReach, receptacleReachInput } from "./receptacle-reach.js";
import { supplyVoltage, supplyVoltageInput } from "./supply-voltage.js";
import { wiringSite, wiringUses } from "./survey-wiring.js";
import { systemInput } from "./system.js";

const reach = receptacleReachInput.shape;
const volts = supplyVoltageInput.shape;

export const electricalPart = definePart({
  trade: "electrical",
  site: z.strictObject({
    system: systemInput.optional(),
    circuit: circuitInput.optional().describe("The circuit from the panel to the receptacle"),
    hardWired: circuitFoundInput.shape.hardWired,
    receptacle: receptacleInput.optional().describe("The receptacle for the machine"),
    cord: cordInput.optional().describe("The cord that is on the machine, or is to go on it"),
    cordWay: z
      .strictObject({ path: reach.path, pullOut: reach.pullOut })
      .optional()
      .describe("The way of the cord from the machine to the receptacle"),
    voltage: z
      .strictObject({ noLoad: volts.noLoad, loaded: volts.loaded })
      .optional()
      .describe("Voltages read at the receptacle"),
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
        plate: "machine.plate",
        system: "electrical.system",
        circuit: "electrical.circuit",
        receptacle: "electrical.receptacle",
        hardWired: "electrical.hardWired",
      },
    },
    {
      entry: cordMatch,
      from: {
        kind: "machine.kind",
        plate: "machine.plate",
        system: "electrical.system",
        circuit: "electrical.circuit",
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
        plate: "machine.plate",
        system: "electrical.system",
        noLoad: "electrical.voltage.noLoad",
        loaded: "electrical.voltage.loaded",
      },
    },
    ...wiringUses,
  ],
});
