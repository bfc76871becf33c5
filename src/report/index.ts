/** Texts made from an assessment. */
export { basisText } from "./basis.js";
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
