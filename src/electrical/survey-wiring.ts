/** The part of the electrical survey on wiring work: terminals, boxes, raceways, protection, disconnecting. */
import * as z from "zod";
import type { Use } from "../core/rule/index.js";
import { boxFill, boxFillInput } from "./box-fill.js";
import { conduitFill, conduitFillInput } from "./conduit-fill.js";
import { disconnect, disconnectInput } from "./disconnect.js";
import { shockAndArcProtection, shockAndArcProtectionInput } from "./shock-and-arc-protection.js";
import { strainRelief, strainReliefInput } from "./strain-relief.js";
import { terminalTorque, terminalTorqueInput } from "./terminal-torque.js";

/** Fields of a rule that lie under one group of the survey, by their own names. */
const under = (group: string, shape: Readonly<Record<string, unknown>>): Record<string, string> =>
  Object.fromEntries(Object.keys(shape).map((name) => [name, `electrical.${group}.${name}`]));

const box = boxFillInput.shape;
const conduit = conduitFillInput.shape;
const { hardWired: _wired, ...strain } = strainReliefInput.shape;
const { kind: _kind, plate: _plate, hardWired: _wired2, ...off } = disconnectInput.shape;
const {
  kind: _kind2,
  fuel: _fuel,
  plate: _plate2,
  system: _system,
  circuit: _circuit,
  hardWired: _wired3,
  ...guard
} = shockAndArcProtectionInput.shape;
const terminal = terminalTorqueInput.shape;

/** Fields of the survey that this wiring work asks for. */
export const wiringSite = {
  outletBox: z.strictObject(box).optional().describe("The box behind the receptacle or of the junction"),
  raceway: conduit.raceway,
  wires: conduit.wires,
  strainRelief: z.strictObject(strain).optional().describe("The clamp that holds the cord at the machine"),
  disconnect: z.strictObject(off).optional().describe("What cuts the machine off for one who works on it"),
  protection: z.strictObject(guard).optional().describe("Protection against shock and arcs at the machine's outlet"),
  terminal: z.strictObject(terminal).optional().describe("A screw terminal to be tightened"),
} as const;

/** Entries that take their inputs from there. */
export const wiringUses: readonly Use[] = [
  { entry: boxFill, from: under("outletBox", box) },
  { entry: conduitFill, from: { raceway: "electrical.raceway", wires: "electrical.wires" } },
  { entry: strainRelief, from: { hardWired: "electrical.hardWired", ...under("strainRelief", strain) } },
  {
    entry: disconnect,
    from: {
      kind: "machine.kind",
      plate: "machine.plate",
      hardWired: "electrical.hardWired",
      ...under("disconnect", off),
    },
  },
  {
    entry: shockAndArcProtection,
    from: {
      kind: "machine.kind",
      fuel: "machine.fuel",
      plate: "machine.plate",
      system: "electrical.system",
      circuit: "electrical.circuit",
      hardWired: "electrical.hardWired",
      ...under("protection", guard),
    },
  },
  { entry: terminalTorque, from: under("terminal", terminal) },
];
