/**
 * dryfit: will the machine go in here, safely and to code? The core that every trade shares, and the whole-site
 * assessment. The trades themselves are `dryfit/electrical`, `dryfit/venting`, `dryfit/plumbing` and
 * `dryfit/placement`; files of surveys are `dryfit/survey`; texts of an assessment are `dryfit/report`.
 *
 * @packageDocumentation
 */
export {
  type Adopted,
  type Basis,
  type Building,
  bindingTexts,
  type Confirmed,
  cite,
  type DatedValue,
  defineLimit,
  type Force,
  type Fuel,
  type Governing,
  govern,
  type Limit,
  type LimitSpec,
  type Text,
} from "./core/basis/index.js";
export {
  type Area,
  type ConductorSize,
  type Current,
  compare,
  compareConductors,
  conductorArea,
  type Dimension,
  exactly,
  inUnit,
  type Length,
  type Power,
  type Pressure,
  type Quantity,
  type QuantityInput,
  type QuantityKind,
  type Reading,
  readCompound,
  readQuantity,
  show,
  si,
  spell,
  type Temperature,
  type Unit,
  type UnitSystem,
  type Voltage,
  type VolumeFlow,
} from "./core/quantity/index.js";
export {
  type AtInput,
  type Calculation,
  type Calculator,
  cautions,
  defineCalculator,
  defineRule,
  type Finding,
  InputFault,
  type InputIssue,
  issueText,
  type JurisdictionInput,
  quantity,
  type Read,
  type Remedy,
  type Rule,
  type Shown,
  type Step,
  type Verdict,
  verdicts,
} from "./core/rule/index.js";
export { type Assessment, assessSite, type Survey, surveyInput, tryAssess } from "./survey/index.js";
