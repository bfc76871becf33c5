/** What must not compile: the code's equivalent length and the hydraulic one in each other's place, or as a plain length. */
import { brand, si } from "../../src/core/quantity/index.js";
import { frictionLoss, type PipeFlow } from "../../src/physics/index.js";
import {
  type CodeLength,
  codeLength,
  developedLength,
  type HydraulicLength,
  hydraulicLength,
} from "../../src/venting/index.js";

const allowance: CodeLength = codeLength(si(5, "ft"));
const hydraulic: HydraulicLength = hydraulicLength(1.2, si(4, "in"), 0.0232);
declare const flow: PipeFlow;

// @ts-expect-error a hydraulic length is no code's allowance
export const wrongCode: CodeLength = hydraulic;
// @ts-expect-error a code's allowance is no hydraulic length
export const wrongHydraulic: HydraulicLength = allowance;
// @ts-expect-error a plain length is no code's allowance until someone vouches for it
export const wrongPlain: CodeLength = si(5, "ft");
// @ts-expect-error a fitting's deduction is the code's, never what the air feels
export const wrongDeduction = developedLength(si(18, "ft"), [{ each: hydraulic, count: 2 }]);
// @ts-expect-error the straight run is a real length, not an allowance
export const wrongRun = developedLength(allowance, []);
// @ts-expect-error no pressure loss is computed over a code's length
export const wrongLoss = frictionLoss(flow, allowance);
// @ts-expect-error nor over a fitting's hydraulic length, which belongs to one flow
export const wrongFittingLoss = frictionLoss(flow, hydraulic);

export const right = developedLength(brand<"length">(5.4864), [{ each: allowance, count: 2 }]);
