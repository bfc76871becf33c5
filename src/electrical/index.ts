/** Electrical: supply, circuit, receptacle and cord of household machines. */

export { ampacity } from "./ampacity.js";
export { applianceLoad } from "./appliance-load.js";
export { type BoxContents, type BoxNeed, boxFill, boxNeed, groundAllowance, type Sized } from "./box-fill.js";
export { branchCircuit } from "./branch-circuit.js";
export { circuitFound } from "./circuit-found.js";
export {
  type Ampacity,
  type AmpacityStep,
  ambientEquation,
  ambientFactor,
  bundleFactor,
  type ConductorRun,
  conductorAmpacity,
  mostOvercurrent,
  ratingAbove,
  tableAmpacity,
} from "./conductors.js";
export { conduitFill, fillCase, mostConductors } from "./conduit-fill.js";
export { cordAmpacity, cordMatch, mates } from "./cord-match.js";
export {
  type CookingDemand,
  connectedDryers,
  cookingDemand,
  cookingDemandC,
  cookingFactorA,
  cookingFactorB,
  dryerFactor,
  dryerFactor2026,
  excessKilowatts,
  type RatedGroup,
  raisedAverage,
  rangeCircuitDemand,
} from "./demand.js";
export { disconnect, ratedVoltAmperes } from "./disconnect.js";
export { dryerDemand } from "./dryer-demand.js";
export { gaugeNumber } from "./gauge.js";
export { enlargedGround, groundFor, printedArea } from "./grounding.js";
export type { FillCase } from "./limits-conduit.js";
export { loopResistance } from "./loop-resistance.js";
export { panelHeadroom } from "./panel-headroom.js";
export { elementPower, lineCurrent, ratedCurrent } from "./plate.js";
export { rangeDemand } from "./range-demand.js";
export { cordNeeded, receptacleReach } from "./receptacle-reach.js";
export {
  effectiveImpedance,
  formulaResistance,
  tableReactance,
  tableResistance,
  voltageDropOf,
  wayFactor,
} from "./resistance.js";
export { generalLoad, lightingDemand, tieredDemand } from "./service.js";
export { shockAndArcProtection } from "./shock-and-arc-protection.js";
export { strainRelief, tradeSizeOf } from "./strain-relief.js";
export { supplyVoltage } from "./supply-voltage.js";
export { electricalPart } from "./survey.js";
export { type Between, belongsBetween, nominalVoltage } from "./system.js";
export type { Column } from "./tables/ampacity.js";
export { terminalTorque, toolShare } from "./terminal-torque.js";
export { voltageDrop } from "./voltage-drop.js";
