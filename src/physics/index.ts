/** SI numerics that the trades share. */

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
