export { type Basis, type Confirmed, cite, codeBasis, commonPractice, type Force } from "./basis.js";
export {
  type Adoptable,
  type Adopted,
  adoptable,
  type Building,
  bindingTexts,
  buildings,
  burns,
  documentOf,
  type Fuel,
  fuels,
  type Subject,
  type Text,
} from "./documents.js";
export {
  basesOfLimit,
  type Candidate,
  type Governing,
  govern,
  type Origin,
  type Place,
  type StatedValue,
} from "./govern.js";
export {
  basisOf,
  type Conditions,
  coversEdition,
  type DatedValue,
  defineLimit,
  faultsOfLimit,
  type Limit,
  type LimitKind,
  type LimitSense,
  type LimitSpec,
  printedSi,
} from "./limit.js";
