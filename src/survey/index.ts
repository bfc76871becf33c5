/** A whole site, and many of them. */
export {
  type Assessment,
  type AssessOptions,
  assessSite,
  assessUnknown,
  type BriefFinding,
  type Detail,
  type FindingOf,
  type ToMeasure,
  type TriedAssessment,
  tryAssess,
  type VerdictCounts,
  type VerdictOnly,
} from "./assess.js";
export { allLimits, catalogue, entryWithId } from "./catalogue.js";
export {
  type AssessmentComparison,
  type ChangeDirection,
  type ChangeSide,
  compareAssessments,
  type RuleChange,
} from "./compare.js";
export {
  type Accepted,
  acceptedBy,
  csvHeader,
  type FormField,
  type FormFormat,
  formFields,
  formFormats,
  surveyForm,
} from "./form.js";
export { type Found, type FoundBasis, type FoundLimit, type FoundTable, lookUpBasis } from "./look-up.js";
export { type Obstacle, orderOfWork, type WorkOrder, type WorkStep } from "./order/order.js";
export type { HoldPoint } from "./order/steps.js";
export {
  changesOf,
  checkRecord,
  type InForce,
  type JobRecord,
  type RecordCheck,
  type RecordedField,
  type RecordedRule,
  type RecordedValue,
  type RecordedVerdict,
  type RecordOptions,
  recordOf,
  type SignatureLine,
} from "./record.js";
export { textReader } from "./rows/cell.js";
export { csvRows } from "./rows/csv.js";
export { type Chunks, jsonRows, ndjsonRows } from "./rows/json.js";
export {
  type Answer,
  addTally,
  answerRow,
  assessMany,
  type Cause,
  type CauseCounts,
  causesOf,
  count,
  type Format,
  formats,
  newTally,
  rowsOf,
  type Tally,
} from "./rows/many.js";
export {
  type Mapping,
  type Part,
  type Place,
  type Reading,
  type Refusal,
  type RefusalIssue,
  type Row,
  refusalOf,
  refusalText,
} from "./rows/row.js";
export { type Survey, surveyInput } from "./survey.js";
export type { Supply, TakeOffLine, TakeOffTrade } from "./take-off/job.js";
export { type TakeOff, takeOff } from "./take-off/take-off.js";
export { type SurveyField, surveyFields } from "./walk.js";
