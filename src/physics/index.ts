/** SI numerics that the trades share. */

// Flow, air, water, gas and heat
export { geopotentialHeight, pressureAtAltitude, standardPressure, temperatureAtAltitude } from "./atmosphere.js";
export { mitreBend, roundedBend } from "./bends.js";
export {
  circleArea,
  equalFrictionDiameter,
  equalFrictionOvalDiameter,
  flattenedAreaRatio,
  hydraulicDiameter,
  meanVelocity,
} from "./cross-section.js";
export { airConductivity, airViscosity, dryAirDensity, gasConstantOfAir } from "./dry-air.js";
export { smoothElbow, standardElbow } from "./elbow-multiples.js";
export {
  bellmouthEntry,
  type ContractionFormula,
  freeExit,
  proudEntry,
  sharpOrifice,
  suddenContraction,
  suddenExpansion,
} from "./fittings.js";
export {
  churchill,
  colebrook,
  darcyFactor,
  type FlowRegime,
  flowRegime,
  fullyRoughFactor,
  laminarEnd,
  reynolds,
  type TransitionChoice,
  turbulentStart,
} from "./friction.js";
export { type BendFlow, bendReynoldsFactor, bendRoughnessFactor, idelchikBend } from "./idelchik-bend.js";
// Geometry and numerics
export { type FittedPlane, fittedPlane, type LinearFit, leastSquares, type SpotHeight } from "./least-squares.js";
export {
  type BodySlope,
  carriedHeights,
  type FeetBase,
  type FootNumber,
  type FootPlane,
  type FootTravel,
  type FourFeet,
  type FreeFoot,
  floorHeights,
  footPlane,
  type LevelAim,
  type LevelStance,
  levelStance,
  type RestState,
  restStates,
  rockAngle,
  type SlopedStance,
  slopedStance,
  twist,
} from "./level.js";
export { type LinearCondition, leastCost } from "./linear-program.js";
export {
  dewPoint,
  dryAirVolume,
  heatOfDryAir,
  heatOfVapour,
  humidityRatio,
  humidityRatioFromWetBulb,
  latentHeat,
  type MoistAir,
  moistAir,
  moistAirDensity,
  moistAirEnthalpy,
  saturationPressure,
  vapourPressure,
  wetBulb,
} from "./moist-air.js";
export {
  equivalentLength,
  fittingLoss,
  frictionGradient,
  frictionLoss,
  type PipeFlow,
  velocityPressure,
} from "./pressure-loss.js";
export {
  type Combining,
  combined,
  combinedCorrelated,
  contributions,
  effectiveFreedom,
  type LimitShape,
  propagated,
  standardOfLimits,
  standardOfResolution,
} from "./propagation.js";
export { brent } from "./roots.js";
export { type CountedTurns, countedTurns } from "./turns.js";
