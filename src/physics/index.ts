/** SI numerics that the trades share. */

// Flow, air, water, gas and heat
export { geopotentialHeight, pressureAtAltitude, standardPressure, temperatureAtAltitude } from "./atmosphere.js";
export { mitreBend, roundedBend } from "./bends.js";
export { type Clash, clashes, overlappingBoxes } from "./clashes.js";
export {
  conformanceProbability,
  guardBand,
  guardBandRisk,
  normalProbability,
  normalQuantile,
  type ToleranceRange,
} from "./conformance.js";
export { type Corner, cornerClearance, type LongestTurning, longestTurning, type PlanSize } from "./corner.js";
export {
  circleArea,
  equalFrictionDiameter,
  equalFrictionOvalDiameter,
  flattenedAreaRatio,
  hydraulicDiameter,
  meanVelocity,
} from "./cross-section.js";
export {
  type CorridorNeed,
  corridorForDoorway,
  type DoorFrame,
  doorClearWidth,
  doorwaySlant,
  type LeafPlace,
} from "./doorway.js";
export { stackPressure, standardGravity, windPressure } from "./driving-pressure.js";
export { airConductivity, airViscosity, dryAirDensity, gasConstantOfAir } from "./dry-air.js";
export {
  condensationRate,
  type DuctRun,
  type DuctWall,
  distanceTo,
  ductTransmittance,
  heatCapacityFlow,
  heatLost,
  type Layer,
  temperatureAlong,
  wallTemperature,
} from "./duct-heat.js";
export { smoothElbow, standardElbow } from "./elbow-multiples.js";
export {
  airPower,
  type FanChange,
  type FanCurve,
  type FanPoint,
  type FanState,
  fanCurve,
  fanPressure,
  type OperatingPoint,
  operatingPoint,
  scaledFan,
} from "./fan.js";
export { feetReactions } from "./feet-load.js";
export {
  bellmouthEntry,
  type ContractionFormula,
  freeExit,
  proudEntry,
  sharpOrifice,
  suddenContraction,
  suddenExpansion,
} from "./fittings.js";
export { freePlaces, freeSpans, type Span } from "./free-space.js";
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
export {
  type GasFactors,
  highPressureGasDiameter,
  highPressureGasFlow,
  highPressureGasOutlet,
  lowPressureGasDiameter,
  lowPressureGasDrop,
  lowPressureGasFlow,
  naturalGas,
  propane,
} from "./gas-pipe.js";
export { closedGasPressure, type GasReading, gasDensity, leakRate, standardGasState } from "./gas-state.js";
export {
  type Drain,
  drainDepth,
  drainFlow,
  manningVelocity,
  type PipeFill,
  pipeFill,
  stackFlow,
} from "./gravity-drain.js";
export {
  draggingForce,
  type HandTruckLoad,
  handTruckBalance,
  handTruckForce,
  lowerCarrierShare,
  wheelStepForce,
} from "./handling.js";
export { hazenWilliamsHead } from "./hazen-williams.js";
export {
  dittusBoelter,
  type FreeConvection,
  filmCoefficient,
  freeCylinder,
  freePlate,
  gnielinski,
  prandtlOfAir,
  radiationFilm,
  rayleigh,
} from "./heat-film.js";
export { type BendFlow, bendReynoldsFactor, bendRoughnessFactor, idelchikBend } from "./idelchik-bend.js";
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
export {
  frequencyMultiplier,
  type Grip,
  horizontalEstimate,
  type Lift,
  type LiftingDuration,
  type LiftingLimit,
  type LiftingSpell,
  type LiftingSystem,
  liftingDuration,
  liftingFrequency,
  liftingLimit,
} from "./lifting.js";
export {
  type FrequencyRow,
  liftingAsymmetry,
  liftingDurations,
  liftingFrequencyRows,
  liftingGrips,
  liftingSystems,
} from "./lifting-tables.js";
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
  type Box,
  box,
  nearestOnSegment,
  type Point,
  point,
  pointDistance,
  pointSegmentDistance,
  type Segment,
  segmentDistance,
  segmentsMeet,
  TOUCH,
  turnOf,
} from "./plane.js";
export {
  boxPolygon,
  convexPolygon,
  leftOf,
  type Polygon,
  penetration,
  polygonArea,
  polygonContains,
  polygonDistance,
  polygonSides,
  polygonsOverlap,
  sharedArea,
  turnedRectangle,
} from "./polygon.js";
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
export { brent, type LeastValue, leastValue } from "./roots.js";
export {
  type Sector,
  sectorArea,
  sectorPointDistance,
  sectorPolygonDistance,
  sectorSharedArea,
  sectorsMeet,
} from "./sector.js";
export { nearestShimStack, type ShimStack, shimHeights, shimStack } from "./shims.js";
export { type ReversedReading, reversedReading, slopeAngle, slopeAt, vialRadius, vialTilt } from "./slope.js";
export { slidingForce, tipAngle, tippingForce, tippingLever } from "./stability.js";
export { freeOpening, type Leaf, leafEnvelope, leafOutline, swingsFree } from "./swing.js";
export { type TapeClass, tapeClasses, tapeLimit, usTapeLimit, usTapeLimits } from "./tape.js";
export { engagementForStrength, type ThreadLimits, threadStressArea } from "./thread.js";
export {
  shortestCarry,
  stairNeedAlong,
  stairNeedUpright,
  type TiltedCarry,
  type TiltRange,
  tiltedHeight,
  tooTallBetween,
} from "./tilt.js";
export { type CountedTurns, countedTurns } from "./turns.js";
export {
  beamFrequency,
  dunkerleyFrequency,
  floorFrequency,
  massFrequency,
  STANDARD_GRAVITY,
  unbalanceForce,
} from "./vibration.js";
export { bulkModulusOfWater, columnPressure, soundSpeedInWater, waterDensity, waterViscosity } from "./water.js";
export { type Closure, closurePressure, type ElasticPipe, joukowsky, wavePeriod, waveSpeed } from "./water-hammer.js";
