export {
  type At,
  type AtInput,
  atInput,
  checkNamedLimits,
  completeAt,
  defaults,
  type JurisdictionInput,
  jurisdictionInput,
  makerInput,
  readAt,
} from "./at.js";
export {
  type AnyCalculator,
  type AnyRule,
  type CatalogueEntry,
  entriesOf,
  inputOf,
  limitsOf,
  tradeOf,
} from "./catalogue.js";
export { type Caution, cautions } from "./cautions.js";
export {
  type Calculator,
  CalculatorContext,
  type CalculatorExample,
  type CalculatorMessages,
  type CalculatorRun,
  type CalculatorSpec,
  defineCalculator,
  type OutputField,
  type OutputKind,
  type OutputList,
  type Outputs,
  type TriedCalculation,
  type Values,
} from "./define-calculator.js";
export {
  type Change,
  defineRule,
  type Proposal,
  type Rule,
  type RuleExample,
  type RuleRun,
  type RuleSpec,
  type Tried,
} from "./define-rule.js";
export { describeReceived, InputFault, type InputIssue, issueText, pathText } from "./fault.js";
export {
  type CalculatedValue,
  type Calculation,
  type CitedBasis,
  cited,
  type Finding,
  type Missing,
  type Part,
  type Remedy,
  type SetAside,
  type ShownValue,
  type Step,
  severity,
  type Verdict,
  verdicts,
} from "./finding.js";
export {
  descriptionAt,
  type Given,
  InputReader,
  inputJsonSchema,
  isOptional,
  type QuantityBounds,
  type QuantitySchema,
  quantity,
  quantityMetaOf,
  type Read,
  type ReadInput,
  schemaAt,
  type Tolerance,
  type Written,
} from "./input.js";
export { type MachineKind, machineFacts, machineKinds } from "./machine.js";
export { plain, type Shown, type SlotKind, type Slots, showSlot } from "./message.js";
export {
  definePart,
  prepareUses,
  type SurveyPart,
  type Use,
  type UseRun,
} from "./part.js";
export { setPath } from "./path.js";
export {
  type AnySaying,
  type Judgement,
  type Messages,
  type Outcome,
  type Path,
  RuleContext,
  type Saying,
  TOO_CLOSE,
} from "./run.js";
