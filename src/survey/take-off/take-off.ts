/** The take-off: every part and tool that one job needs, each with what it comes from. */
import { type AssessOptions, assessSite } from "../assess.js";
import type { Survey } from "../survey.js";
import { Job, type TakeOffLine } from "./job.js";
import { electricalLines, placementLines, plumbingLines, ventingLines } from "./lines.js";

/** The parts and tools of one job. */
export interface TakeOff {
  readonly site: string;
  /** Parts first, then tools; in each by trade in walking order. */
  readonly lines: readonly TakeOffLine[];
}

/**
 * Takes off the parts and tools of a job. What was surveyed as being there stays there while its rules hold, and is to
 * be brought where one fails; what cannot be told yet names the field to measure.
 *
 * @param survey - what was found
 * @param options - as for an assessment
 * @throws InputFault where the survey cannot be used
 * @example takeOff({ site: { id: "A" }, machine: { kind: "range", fuel: "electric" } }).lines.some(({ what }) => what.startsWith("anti-tip")) // true
 */
export function takeOff(survey: Survey, options: Omit<AssessOptions, "detail"> = {}): TakeOff {
  const assessment = assessSite(survey, options);
  const job = new Job(survey, assessment, options.units ?? "us", options.decimal ?? ".");
  const lines = [
    ...placementLines(job).map((draft) => job.line("placement", draft)),
    ...electricalLines(job).map((draft) => job.line("electrical", draft)),
    ...plumbingLines(job).map((draft) => job.line("plumbing", draft)),
    ...ventingLines(job).map((draft) => job.line("venting", draft)),
  ];
  return {
    site: assessment.site,
    lines: [...lines.filter(({ kind }) => kind === "part"), ...lines.filter(({ kind }) => kind === "tool")],
  };
}
