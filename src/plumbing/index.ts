/** Plumbing and fuel gas: hoses, fittings, supply, drains and gas connections of a household appliance. */

export type { FlowRegime } from "../physics/index.js";
export { backflow, backflowDevices } from "./backflow.js";
export { dishwasherDrain } from "./dishwasher-drain.js";
export { drainCapacity, standpipeVolume } from "./drain-capacity.js";
export { drainPan } from "./drain-pan.js";
export {
  axialTravel,
  fittingTurns,
  gentModulus,
  logModulus,
  threadFactor,
  type WasherForce,
  washerForce,
  washerSqueeze,
} from "./fitting-turns.js";
export { type Branch, flowSplit, type SplitFlow, splitBranchInput, splitFlow, type TapReading } from "./flow-split.js";
export { gasConnector } from "./gas-connector.js";
export { altitudeShare, clockedInput, gasDemand, gasFlow } from "./gas-demand.js";
export {
  type GasCapacity,
  gasBore,
  gasPipe,
  gasPipeCapacity,
  gasSectionInput,
  type SectionDuty,
  sectionDuties,
  sectionLength,
} from "./gas-pipe.js";
export { gasPressure } from "./gas-pressure.js";
export { hoseCondition, hoseDamages } from "./hose-condition.js";
export { hoseNeeded, hoseReach, type TightLeg, tightestLeg } from "./hose-reach.js";
export { leakTest, type TestState, tightReading } from "./leak-test.js";
export { standpipe } from "./standpipe.js";
export { type RunLoss, runLoss, supplyLoss, waterBore, waterRunInput } from "./supply-loss.js";
export { pressureAtHeight, supplyPressure } from "./supply-pressure.js";
export { arresterFor, closingSurge, type Surge, type SurgeRun, surge, surgeRunInput, waveSpeedIn } from "./surge.js";
export { plumbingPart } from "./survey.js";
export { type ThreadFit, threadFit, threadMatch } from "./thread-match.js";
export { type Supply, supplies, takesWater, type WaterFacts } from "./water.js";
