/** What changed between two assessments: which verdicts flip, by how much, and why. */
import type { UnitSystem } from "../core/quantity/index.js";
import { type Finding, pathText, plain, type Shown, severity, showSlot, type Verdict } from "../core/rule/index.js";
import type { Assessment } from "./assess.js";

/** What one assessment said of a rule. */
export interface ChangeSide {
  readonly verdict: Verdict;
  readonly messageId: string;
  readonly message: string;
  readonly measured: Shown | null;
  readonly limit: Shown | null;
  /** The room left; negative where it fails. */
  readonly margin: Shown | null;
  /** Citation of the governing basis, or `null` where none is named. */
  readonly basis: string | null;
}

/** Which way a verdict went. `other`: to or from not applicable, or a rule that only one side has. */
export type ChangeDirection = "better" | "worse" | "same" | "other";

/** One rule on which two assessments differ. */
export interface RuleChange {
  readonly rule: string;
  readonly title: string;
  /** `null` where that assessment has no such rule. */
  readonly before: ChangeSide | null;
  readonly after: ChangeSide | null;
  /** Whether the verdict is another one. */
  readonly flips: boolean;
  readonly direction: ChangeDirection;
  /** Room gained, or lost where negative; `null` where there is none or the margins cannot be set against each other. */
  readonly by: Shown | null;
  /** What is behind the change, a line each: the limit, what was measured, what is still missing, the basis. */
  readonly why: readonly string[];
}

/** Two assessments beside each other. */
export interface AssessmentComparison {
  readonly before: { readonly site: string; readonly verdict: Verdict };
  readonly after: { readonly site: string; readonly verdict: Verdict };
  /** Flipped verdicts first, the worst of them first; then by rule. */
  readonly changes: readonly RuleChange[];
  /** Rules that said the same both times. */
  readonly unchanged: number;
}

const sideOf = ({ verdict, messageId, message, measured, limit, margin, basis }: Finding): ChangeSide => ({
  verdict,
  messageId,
  message,
  measured,
  limit,
  margin,
  basis: basis[0]?.citation ?? null,
});

const differ = (a: Shown | null, b: Shown | null): boolean =>
  a?.si !== b?.si || a?.kind !== b?.kind || a?.text !== b?.text;

function gained(before: Shown | null, after: Shown | null, units: UnitSystem): Shown | null {
  if (before?.si == null || after?.si == null || before.kind !== after.kind || before.kind === "text") return null;
  const si = plain(after.si - before.si);
  if (si === 0) return null;
  const { kind } = before;
  return { si, kind, text: showSlot(si, kind, units) };
}

function directionOf(before: Verdict | undefined, after: Verdict | undefined): ChangeDirection {
  if (before === after) return "same";
  if (before === undefined || after === undefined) return "other";
  if (before === "notApplicable" || after === "notApplicable") return "other";
  return severity(after) > severity(before) ? "better" : "worse";
}

const fromTo = (what: string, before: Shown | null, after: Shown | null): string[] => {
  if (!differ(before, after)) return [];
  if (before === null) return [`${what}: ${after!.text}, none before.`];
  if (after === null) return [`${what}: none any more, ${before.text} before.`];
  return [`${what}: ${after.text}, ${before.text} before.`];
};

function reasons(before: Finding, after: Finding): string[] {
  const missingBefore = new Map(before.missing.map((one) => [pathText(one.path), one]));
  const missingAfter = new Map(after.missing.map((one) => [pathText(one.path), one]));
  const [first, second] = [sideOf(before), sideOf(after)];
  const why = [
    ...fromTo("Limit", before.limit, after.limit),
    ...fromTo("Measured", before.measured, after.measured),
    ...[...missingBefore.keys()].filter((path) => !missingAfter.has(path)).map((path) => `${path} is settled now.`),
    ...[...missingAfter.keys()]
      .filter((path) => !missingBefore.has(path))
      .map((path) => `${path} is not settled any more.`),
  ];
  if (first.basis !== second.basis)
    why.push(`It rests on ${second.basis ?? "no basis"} instead of ${first.basis ?? "none"}.`);
  if (why.length === 0 && first.message !== second.message) why.push(`It said: ${first.message}`);
  return why;
}

function changeOf(before: Finding | undefined, after: Finding | undefined, units: UnitSystem): RuleChange | null {
  const { rule, title } = (after ?? before)!;
  const base = { rule, title, before: before ? sideOf(before) : null, after: after ? sideOf(after) : null };
  const direction = directionOf(before?.verdict, after?.verdict);
  if (!before || !after) {
    const why = [after ? "The rule was not asked before." : "The rule is not asked any more."];
    return { ...base, flips: true, direction, by: null, why };
  }
  // a rule that never applied has nothing to tell, whichever edition says so
  if (before.verdict === "notApplicable" && after.verdict === "notApplicable") return null;
  const why = reasons(before, after);
  const flips = before.verdict !== after.verdict;
  if (!flips && why.length === 0) return null;
  return { ...base, flips, direction, by: gained(before.margin, after.margin, units), why };
}

const order = ({ flips, after, before, rule }: RuleChange): string =>
  `${flips ? 0 : 1}${severity((after ?? before)!.verdict)}${rule}`;

/**
 * Sets two full assessments beside each other: two editions over one survey, or one site before and after the work.
 *
 * @param before - the earlier one, or the one under the earlier edition
 * @param after - the later one
 * @param units - units of the differences; as the assessments were made, US where left out
 * @example compareAssessments(assessSite({ site: { id: "A" }, machine: { kind: "dryer", fuel: "electric" } }), assessSite({ site: { id: "A" }, machine: { kind: "dryer", fuel: "electric" } })).changes.length // 0
 */
export function compareAssessments(
  before: Assessment<"full">,
  after: Assessment<"full">,
  { units = "us" }: { readonly units?: UnitSystem } = {},
): AssessmentComparison {
  const earlier = new Map(before.findings.map((finding) => [finding.rule, finding]));
  const later = new Map(after.findings.map((finding) => [finding.rule, finding]));
  const rules = [...new Set([...earlier.keys(), ...later.keys()])];
  const changes = rules
    .map((rule) => changeOf(earlier.get(rule), later.get(rule), units))
    .filter((change) => change !== null)
    .sort((a, b) => (order(a) < order(b) ? -1 : 1));
  return {
    before: { site: before.site, verdict: before.verdict },
    after: { site: after.site, verdict: after.verdict },
    changes,
    unchanged: rules.length - changes.length,
  };
}
