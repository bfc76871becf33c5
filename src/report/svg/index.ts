/** Drawings as SVG text, from plain SI data. */

export { type BehindData, type BehindLine, behindDrawing } from "./behind.js";
export { type CircuitData, type CircuitPiece, type CircuitSymbol, circuitDrawing } from "./circuit.js";
export {
  type FanRunData,
  type FlowPoint,
  fanRunDrawing,
  type ProfileData,
  profileDrawing,
  type RunPiece,
} from "./duct.js";
export { type Corner, type FeetData, type FootMove, feetDrawing } from "./feet.js";
export type { DrawingOptions } from "./options.js";
export { orderDrawing } from "./order.js";
export {
  type PlanData,
  type PlanDoor,
  type PlanRoomDoor,
  type PlanThing,
  planDrawing,
  type Sides,
} from "./plan.js";
