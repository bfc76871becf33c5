/** Venting: dryer exhaust and range hoods. */

export { type FanCurve, type FanPoint, fanCurve } from "../physics/index.js";
export { backPressureLimit } from "./back-pressure-limit.js";
export type { Driving, Meeting } from "./blower.js";
export { boosterFan } from "./booster-fan.js";
export {
  type AirOpening,
  airOpeningInput,
  closetAir,
  freeArea,
  louvreFace,
  type OpeningCover,
  openingCovers,
} from "./closet-air.js";
export { airWays, combustionAir, draughts, volumeAtChange } from "./combustion-air.js";
export { condensation } from "./condensation.js";
export { type Cell, type Entering, insideFilm, march, type Stretch } from "./cooling.js";
export { cutList, legPieces } from "./cut-list.js";
export { type Deduction, developedLength, elbowInput } from "./developed.js";
export { type Drying, type DryingRate, dryingAir, dryingRate, type RateSetter } from "./drying-air.js";
export { ductAirflow } from "./duct-airflow.js";
export { ductConstruction, ductMaterials } from "./duct-construction.js";
export { ductLength, furtherElbows } from "./duct-length.js";
export { ductOptions } from "./duct-options.js";
export { ductResistance } from "./duct-resistance.js";
export { hoodExhaust, hoodMaterials } from "./hood-exhaust.js";
export { lengthLabel } from "./length-label.js";
export { type CodeLength, codeLength, type HydraulicLength, hydraulicLength, plainLength } from "./lengths.js";
export { lintMargin, withLint } from "./lint-margin.js";
export { makeupAir } from "./makeup-air.js";
export { type HouseAir, makeupNeed, makeupOpening } from "./makeup-opening.js";
export { type Cutting, type Cuttings, cutStock } from "./packing.js";
export { cheapestRoute, type Plan, type Route, type RouteCosts } from "./routing.js";
export {
  backPressure,
  compressionFactor,
  type DuctAir,
  elbowLoss,
  type Piece,
  type PieceLoss,
  pieceLoss,
  runLoss,
} from "./run.js";
export { ventingPart } from "./survey.js";
export { louvreShares } from "./tables/louvres.js";
export { nearbyThings, outletPlaces, termination } from "./termination.js";
export { transitionDuct } from "./transition-duct.js";
