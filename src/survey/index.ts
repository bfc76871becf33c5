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
export { csvHeader, csvRows } from "./rows/csv.js";
export { jsonRows, ndjsonRows } from "./rows/json.js";
export { type Answer, answerRow, assessMany, count, type Format, formats, newTally, type Tally } from "./rows/many.js";
export { type Refusal, type RefusalIssue, type Row, refusalText } from "./rows/row.js";
export { type Survey, surveyInput } from "./survey.js";
export { type SurveyField, surveyFields } from "./walk.js";
