/** Venting: dryer exhaust and range hoods. */
export { developedLength, ductLength, elbowInput } from "./duct-length.js";
export { ventingPart } from "./survey.js";
