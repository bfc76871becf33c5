/** The order of work for one site: which steps, after which, and where work stops until something is measured or said. */
import type { Verdict } from "../../core/rule/index.js";
import { type AssessOptions, assessSite } from "../assess.js";
import type { Survey } from "../survey.js";
import { declared, factsOf, type HoldPoint, type StepDeclaration } from "./steps.js";

/** A rule that stands against a step: it fails, or waits for a measurement. */
export interface Obstacle {
  readonly rule: string;
  readonly verdict: Extract<Verdict, "fail" | "review">;
  readonly message: string;
}

/** One step of the work. */
export interface WorkStep {
  readonly id: string;
  readonly title: string;
  readonly what: string;
  /** Steps that must be done before it. */
  readonly after: readonly string[];
  /** Its place in the work: one more than the farthest step before it, from 1. Steps of one stage can go side by side. */
  readonly stage: number;
  readonly hold: HoldPoint | null;
  /** Rules that it rests on and that apply here. */
  readonly rules: readonly string[];
  /** What stands against beginning it. */
  readonly obstacles: readonly Obstacle[];
}

/** The steps of one job, each after all that must precede it. */
export interface WorkOrder {
  readonly site: string;
  readonly steps: readonly WorkStep[];
  readonly cautions: readonly string[];
}

/** The steps before one that this job has; a step that it has not hands on those before itself. */
function before(step: StepDeclaration, has: ReadonlySet<string>): StepDeclaration[] {
  return [...new Set(step.after.flatMap((one) => (has.has(one.id) ? [one] : before(one, has))))];
}

/** Every step that comes before one, however far. */
function farBefore(step: StepDeclaration): Set<StepDeclaration> {
  return new Set(step.after.flatMap((one) => [one, ...farBefore(one)]));
}

/** The nearest of them: without those that come before another of them anyway. */
function nearest(step: StepDeclaration, has: ReadonlySet<string>): StepDeclaration[] {
  const first = before(step, has);
  return first.filter((one) => !first.some((other) => farBefore(other).has(one)));
}

/**
 * The order of work for a survey.
 *
 * @param survey - what was found
 * @param options - as for an assessment
 * @throws InputFault where the survey cannot be used
 * @example orderOfWork({ site: { id: "A" }, machine: { kind: "dryer", fuel: "electric" } }).steps[0]?.id // "read"
 */
export function orderOfWork(survey: Survey, options: Omit<AssessOptions, "detail"> = {}): WorkOrder {
  const { site, findings, cautions } = assessSite(survey, options);
  const said = new Map(findings.map((finding) => [finding.rule, finding]));
  const facts = factsOf(survey);
  const chosen = declared.filter(({ when }) => when(facts));
  const has = new Set(chosen.map(({ id }) => id));
  const held = new Set(chosen.flatMap(({ rules }) => rules));
  // what no step rests on is settled at the start: nothing that fails or waits is left out
  const loose = findings.map(({ rule }) => rule).filter((rule) => !held.has(rule));
  const stages = new Map<string, number>();
  const steps = chosen.map((step): WorkStep => {
    const first = nearest(step, has);
    const stage = 1 + Math.max(0, ...first.map(({ id }) => stages.get(id)!));
    stages.set(step.id, stage);
    const applying = (step.id === "settle" ? loose : step.rules).flatMap((rule) => {
      const finding = said.get(rule);
      return finding && finding.verdict !== "notApplicable" ? [finding] : [];
    });
    return {
      id: step.id,
      title: step.title,
      what: step.what,
      after: first.map(({ id }) => id),
      stage,
      hold: step.hold,
      rules: applying.map(({ rule }) => rule),
      obstacles: applying.flatMap(({ rule, verdict, message }): Obstacle[] =>
        verdict === "fail" || verdict === "review" ? [{ rule, verdict, message }] : [],
      ),
    };
  });
  // what was declared first comes first within a stage, so that the same survey gives the same order
  return { site, steps: steps.sort((a, b) => a.stage - b.stage), cautions };
}
