/** Venting: dryer exhaust and range hoods. */
export { type AirOpening, airOpeningInput, closetAir, freeArea, louvreFace, type OpeningCover } from "./closet-air.js";
export { ductConstruction, ductMaterials } from "./duct-construction.js";
export { type Deduction, developedLength, ductLength, elbowInput, furtherElbows } from "./duct-length.js";
export { type CodeLength, codeLength, type HydraulicLength, hydraulicLength, plainLength } from "./lengths.js";
export { ventingPart } from "./survey.js";
export { louvreShares } from "./tables/louvres.js";
export { nearbyThings, outletPlaces, termination } from "./termination.js";
export { transitionDuct } from "./transition-duct.js";
