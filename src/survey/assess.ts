/** Whole-site assessment: every rule and calculator of every trade over one survey. */

import type * as z from "zod";
import type { UnitSystem } from "../core/quantity/index.js";
import {
  type At,
  type Calculation,
  checkNamedLimits,
  completeAt,
  type Finding,
  InputFault,
  InputReader,
  type Missing,
  prepareUses,
  type Read,
  type Remedy,
  type SurveyPart,
  severity,
  type Tolerance,
  type UseRun,
  type Verdict,
  verdicts,
} from "../core/rule/index.js";
import { allLimits, parts } from "./catalogue.js";
import { type Survey, surveyInput } from "./survey.js";
import { walkOrder } from "./walk.js";

/** How much of an assessment is wanted. */
export type Detail = "verdicts" | "brief" | "full";

/** How to assess. Every part has a stated default. */
export interface AssessOptions<D extends Detail = "full"> {
  /** `full`: everything. `brief`: what fails or needs review, without workings. `verdicts`: no texts. Default `full`. */
  readonly detail?: D;
  /** The reader's units; US where left out. */
  readonly units?: UnitSystem;
  /** How a tolerance is weighed; guarded where left out. */
  readonly decision?: "guarded" | "simple";
  /** The decimal mark of the texts given; the point where left out. */
  readonly decimal?: "." | ",";
}

/** Something to measure next, with the rules that wait for it. */
export interface ToMeasure extends Missing {
  readonly rules: readonly string[];
}

/** How many findings have each verdict. */
export type VerdictCounts = Readonly<Record<Verdict, number>>;

/** A verdict without its texts. */
export interface VerdictOnly {
  readonly rule: string;
  readonly verdict: Verdict;
  readonly messageId: string;
}

/** A finding without its workings. */
export type BriefFinding = Omit<Finding, "workings" | "parts" | "setAside" | "assumptions">;

/** The findings that a level of detail gives. */
export type FindingOf<D extends Detail> = D extends "full" ? Finding : D extends "brief" ? BriefFinding : VerdictOnly;

/** All findings and values for one survey. */
export interface Assessment<D extends Detail = "full"> {
  readonly site: string;
  /** The worst verdict of all that apply; `notApplicable` only where no rule applies. */
  readonly verdict: Verdict;
  readonly counts: VerdictCounts;
  /** Worst first, then by trade and rule. */
  readonly findings: readonly FindingOf<D>[];
  /** Computed values; with full detail only. */
  readonly values: readonly Calculation[];
  /** What a verdict still waits for, in the order one walks the site; what a calculator waits for stands with its values. */
  readonly toMeasure: readonly ToMeasure[];
  readonly assumptions: readonly string[];
  readonly cautions: readonly string[];
}

type ReadSurvey = Read<z.output<typeof surveyInput>>;

type Runner = (survey: unknown, at: At, tolerances: readonly Tolerance[]) => UseRun[];

const reader = new InputReader(surveyInput);
let everything: Runner[] | undefined;
let rulesOnly: Runner[] | undefined;

/** Runs the rules, and the calculators too where their values are wanted. */
function runAll(survey: ReadSurvey, at: At, tolerances: readonly Tolerance[], withValues: boolean): UseRun[] {
  const all: readonly SurveyPart[] = parts;
  everything ??= all.map(({ uses }) => prepareUses(uses));
  rulesOnly ??= all.map(({ uses }) => prepareUses(uses.filter(({ entry }) => entry.kind === "rule")));
  return (withValues ? everything : rulesOnly).flatMap((run) => run(survey, at, tolerances));
}

let lastPlace: { readonly key: string; readonly at: At } | undefined;

/**
 * What surrounds a survey, read and completed. The last one is remembered, since a file of surveys is mostly of one
 * place, and what its limits resolve to is remembered with it.
 */
function placeOf(survey: ReadSurvey, { units, decision, decimal }: AssessOptions<Detail>): At {
  const given = { jurisdiction: survey.jurisdiction, maker: survey.maker, units, decision, decimal };
  const key = JSON.stringify(given);
  if (lastPlace?.key === key) return lastPlace.at;
  const at = completeAt(given as never);
  if (at.named.length > 0) checkNamedLimits(at, allLimits());
  lastPlace = { key, at };
  return at;
}

type RuleUse = Extract<UseRun, { kind: "rule" }>;
const isRule = (use: UseRun): use is RuleUse => use.kind === "rule";

const worstFirst = (a: RuleUse, b: RuleUse): number =>
  severity(a.run.verdict) - severity(b.run.verdict) || (a.entry.id < b.entry.id ? -1 : 1);

type ToSurvey = UseRun["inSurvey"];
const moveMissing = (missing: readonly Missing[], inSurvey: ToSurvey): Missing[] =>
  missing.map(({ path, what }) => ({ path: inSurvey(path), what }));
const moveRemedies = (remedies: readonly Remedy[], inSurvey: ToSurvey): Remedy[] =>
  remedies.map(({ message, changes }) => ({
    message,
    changes: changes.map(({ path, value }) => ({ path: inSurvey(path), value })),
  }));

/** A finding with its paths turned into the survey's. */
function inSurveyTerms({ run, inSurvey }: RuleUse): Finding {
  const finding = run.finding();
  return {
    ...finding,
    missing: moveMissing(finding.missing, inSurvey),
    remedies: moveRemedies(finding.remedies, inSurvey),
  };
}

const union = (lists: readonly (readonly string[])[]): string[] => [...new Set(lists.flat())];

function toMeasure(waiting: readonly { readonly id: string; readonly missing: readonly Missing[] }[]): ToMeasure[] {
  const byPath = new Map<string, { path: Missing["path"]; what: string; rules: string[] }>();
  for (const { id, missing } of waiting) {
    for (const { path, what } of missing) {
      const key = path.join("\u0000");
      const known = byPath.get(key);
      if (known) {
        if (!known.rules.includes(id)) known.rules.push(id);
      } else byPath.set(key, { path, what, rules: [id] });
    }
  }
  return [...byPath.values()].sort((a, b) => walkOrder(a.path) - walkOrder(b.path));
}

function countVerdicts(rules: readonly RuleUse[]): VerdictCounts {
  const counts: Record<Verdict, number> = { fail: 0, review: 0, pass: 0, notApplicable: 0 };
  for (const { run } of rules) counts[run.verdict]++;
  return counts;
}

/**
 * Assesses one site: every finding that applies, worst first, the computed values, and what to measure next.
 *
 * @param survey - what was found; see `surveyInput` for its schema
 * @throws InputFault where the survey cannot be used, listing everything that is wrong with it
 * @example assessSite({ site: { id: "A-1" }, machine: { kind: "dryer", fuel: "electric" } }).verdict // "review"
 */
export function assessSite<D extends Detail = "full">(survey: Survey, options: AssessOptions<D> = {}): Assessment<D> {
  return assessUnknown(survey, options);
}

/** The same for input of unknown shape, such as a row of a file. */
export function assessUnknown<D extends Detail = "full">(
  input: unknown,
  options: AssessOptions<D> = {},
): Assessment<D> {
  const { detail = "full" as D, decimal = "." } = options;
  const { value: survey, tolerances } = reader.read(input, { decimal });
  const uses = runAll(survey, placeOf(survey, options), tolerances, detail === "full");
  const rules = uses.filter(isRule).sort(worstFirst);
  const counts = countVerdicts(rules);
  const verdict = verdicts.find((one) => counts[one] > 0) ?? "notApplicable";
  const site = survey.site.id;

  if (detail === "verdicts") {
    const findings = rules.map(
      ({ entry, run }): VerdictOnly => ({
        rule: entry.id,
        verdict: run.verdict,
        messageId: run.governing.messageId,
      }),
    );
    // written out here as elsewhere: V8 gives an object that is spread and added to a shape of its own, every time anew
    return {
      site,
      verdict,
      counts,
      findings,
      values: [],
      toMeasure: [],
      assumptions: [],
      cautions: [],
    } as unknown as Assessment<D>;
  }

  if (detail === "brief") {
    const findings = rules.filter(({ run }) => run.verdict === "fail" || run.verdict === "review").map(inSurveyTerms);
    return {
      site,
      verdict,
      counts,
      findings: findings.map(
        ({ workings: _w, parts: _p, setAside: _s, assumptions: _a, ...brief }): BriefFinding => brief,
      ),
      values: [],
      toMeasure: toMeasure(findings.map(({ rule, missing }) => ({ id: rule, missing }))),
      assumptions: union(findings.map(({ assumptions }) => assumptions)),
      cautions: union(findings.map(({ cautions }) => cautions)),
    } as unknown as Assessment<D>;
  }

  const findings = rules.map(inSurveyTerms);
  const values = uses.flatMap((use): Calculation[] => {
    if (use.kind === "rule") return [];
    const calculation = use.run.calculation();
    return [{ ...calculation, missing: moveMissing(calculation.missing, use.inSurvey) }];
  });
  const applying = findings.filter((finding) => finding.verdict !== "notApplicable");
  return {
    site,
    verdict,
    counts,
    findings,
    values,
    toMeasure: toMeasure(findings.map(({ rule, missing }) => ({ id: rule, missing }))),
    assumptions: union([...applying, ...values].map(({ assumptions }) => assumptions)),
    cautions: union(applying.map(({ cautions }) => cautions)),
  } as unknown as Assessment<D>;
}

/** A site's assessment, or the fault of its survey. */
export type TriedAssessment<D extends Detail = "full"> =
  | { readonly ok: true; readonly assessment: Assessment<D>; readonly fault?: undefined }
  | { readonly ok: false; readonly fault: InputFault; readonly assessment?: undefined };

/** Assesses input of unknown shape, with the fault as a value. */
export function tryAssess<D extends Detail = "full">(
  input: unknown,
  options: AssessOptions<D> = {},
): TriedAssessment<D> {
  try {
    return { ok: true, assessment: assessUnknown(input, options) };
  } catch (error) {
    if (error instanceof InputFault) return { ok: false, fault: error };
    throw error;
  }
}
