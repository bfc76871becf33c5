/** Texts made from an assessment. */
export { basisText } from "./basis.js";
export { comparisonMarkdown, comparisonText } from "./comparison.js";
export { type Said, type SiteDrawing, type SiteDrawingOptions, siteDrawings } from "./drawings.js";
export { type BatchReportOptions, batchHtml, type SiteReportOptions, siteHtml } from "./html.js";
export type { Markup } from "./markup.js";
export { orderMarkdown, orderText } from "./order.js";
export { recordHtml, recordMarkdown, recordText } from "./record.js";
export {
  type BehindData,
  type BehindLine,
  behindDrawing,
  type CircuitData,
  type CircuitPiece,
  type CircuitSymbol,
  type Corner,
  circuitDrawing,
  type DrawingOptions,
  type FanRunData,
  type FeetData,
  type FlowPoint,
  type FootMove,
  fanRunDrawing,
  feetDrawing,
  orderDrawing,
  type PlanData,
  type PlanDoor,
  type PlanRoomDoor,
  type PlanThing,
  type ProfileData,
  planDrawing,
  profileDrawing,
  type RunPiece,
  type Sides,
} from "./svg/index.js";
export { csvCell, takeOffCsv, takeOffMarkdown, takeOffText } from "./take-off.js";
export {
  assessmentMarkdown,
  assessmentText,
  calculationText,
  cleanText,
  countsText,
  deferralText,
  findingLine,
  findingText,
  type Paint,
  type Role,
  type TextOptions,
  tallyText,
  verdictWords,
} from "./text.js";
