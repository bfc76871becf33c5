/** Electrical: supply, circuit, receptacle and cord of household machines. */

export { type BoxContents, type BoxNeed, boxFill, boxNeed, groundAllowance } from "./box-fill.js";
export { circuitFound } from "./circuit-found.js";
export {
  ambientEquation,
  ambientFactor,
  bundleFactor,
  conductorAmpacity,
  mostOvercurrent,
  ratingAbove,
  tableAmpacity,
} from "./conductors.js";
export { conduitFill, fillCase, mostConductors } from "./conduit-fill.js";
export { cordAmpacity, cordMatch, mates } from "./cord-match.js";
export {
  cookingDemandC,
  cookingFactorA,
  cookingFactorB,
  excessKilowatts,
  rangeCircuitDemand,
} from "./demand.js";
export { elementPower, lineCurrent, ratedCurrent } from "./plate.js";
export { cordNeeded, receptacleReach } from "./receptacle-reach.js";
export { supplyVoltage } from "./supply-voltage.js";
export { electricalPart } from "./survey.js";
export { belongsBetween, nominalVoltage } from "./system.js";
export { gaugeNumber, terminalTorque, toolShare } from "./terminal-torque.js";
