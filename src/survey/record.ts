/** The record of a job: what was found and how it was left, why it passes, and a hash that shows later changes. */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import * as z from "zod";
import type { Adopted, Building } from "../core/basis/index.js";
import type { DecisionRule, UnitSystem } from "../core/quantity/index.js";
import { completeAt, describeReceived, type Finding, InputFault, pathText, type Verdict } from "../core/rule/index.js";
import { type Assessment, type AssessOptions, assessUnknown } from "./assess.js";
import { canonicalJson } from "./canonical.js";
import { type AssessmentComparison, compareAssessments } from "./compare.js";
import type { Survey } from "./survey.js";
import { walkOrder } from "./walk.js";

/** One field of the survey, as it was found and as it was left; `null` where nothing was said. */
export interface RecordedField {
  readonly field: string;
  readonly asFound: string | number | boolean | null;
  readonly asLeft: string | number | boolean | null;
  readonly changed: boolean;
}

/** What a rule said at one time. */
export interface RecordedVerdict {
  readonly verdict: Verdict;
  readonly message: string;
  /** Citations of all it rests on, the governing one first. */
  readonly basis: readonly string[];
}

/** One rule before the work and after it. */
export interface RecordedRule {
  readonly rule: string;
  readonly title: string;
  readonly asFound: RecordedVerdict;
  readonly asLeft: RecordedVerdict;
}

/** What was in force for one of the surveys. */
export interface InForce {
  /** Every edition, those that stood at their default too, so that a later default changes nothing. */
  readonly editions: Adopted;
  readonly building: Building;
  /** What of it nobody named: documents by their short key, and `building`. */
  readonly assumed: readonly string[];
}

/** One computed value as it stood at the end. */
export interface RecordedValue {
  readonly calculator: string;
  readonly message: string;
}

/** A line to be signed by hand. Everything but the role is blank. */
export interface SignatureLine {
  readonly role: string;
  readonly name: "";
  readonly date: "";
  readonly signature: "";
}

/** The record of a job: plain JSON, whole enough to be assessed again. */
export interface JobRecord {
  readonly record: 1;
  readonly site: string;
  /** Who measured, when and with what, as the survey last left says. */
  readonly measured: Survey["measured"] | null;
  readonly inForce: { readonly asFound: InForce; readonly asLeft: InForce };
  readonly units: UnitSystem;
  readonly decision: DecisionRule;
  readonly decimal: "." | ",";
  /** The surveys as they were given, with the editions written out. */
  readonly surveys: { readonly asFound: Survey; readonly asLeft: Survey };
  readonly verdict: { readonly asFound: Verdict; readonly asLeft: Verdict };
  readonly fields: readonly RecordedField[];
  readonly rules: readonly RecordedRule[];
  readonly values: readonly RecordedValue[];
  readonly assumptions: readonly string[];
  readonly cautions: readonly string[];
  readonly signatures: readonly SignatureLine[];
  /** SHA-256 of everything above as canonical JSON (RFC 8785), in hexadecimal. */
  readonly hash: string;
}

/** How a record is made: as an assessment is. */
export type RecordOptions = Omit<AssessOptions, "detail">;

type Leaf = string | number | boolean | null;
type Path = readonly (string | number)[];

const isQuantity = (value: object): value is { value: number; unit: string; plusMinus?: number } =>
  "value" in value && "unit" in value && Object.keys(value).length <= 3;

/** Every value of a survey with its path; a quantity as an object is one value. */
function leavesOf(value: unknown, path: Path = []): { readonly path: Path; readonly value: Leaf }[] {
  if (value === undefined || value === null) return [];
  if (typeof value !== "object") return [{ path, value: value as Leaf }];
  if (isQuantity(value)) {
    const { value: number, unit, plusMinus } = value;
    return [{ path, value: `${number} ${unit}${plusMinus === undefined ? "" : ` ± ${plusMinus} ${unit}`}` }];
  }
  if (Array.isArray(value)) {
    if (value.length === 0) return [{ path, value: "none" }];
    return value.flatMap((item, i) => leavesOf(item, [...path, i]));
  }
  return Object.entries(value).flatMap(([key, item]) => leavesOf(item, [...path, key]));
}

function fieldsOf(asFound: Survey, asLeft: Survey): RecordedField[] {
  const byName = new Map<string, { path: Path; asFound: Leaf; asLeft: Leaf }>();
  for (const { path, value } of leavesOf(asFound)) byName.set(pathText(path), { path, asFound: value, asLeft: null });
  for (const { path, value } of leavesOf(asLeft)) {
    const name = pathText(path);
    byName.set(name, { path, asFound: byName.get(name)?.asFound ?? null, asLeft: value });
  }
  return [...byName]
    .sort(([a, { path: one }], [b, { path: other }]) => walkOrder(one) - walkOrder(other) || (a < b ? -1 : 1))
    .map(([field, { asFound: before, asLeft: after }]) => ({
      field,
      asFound: before,
      asLeft: after,
      changed: before !== after,
    }));
}

const verdictOf = ({ verdict, message, basis }: Finding): RecordedVerdict => ({
  verdict,
  message,
  basis: basis.map(({ citation }) => citation),
});

/** Every survey is asked every rule, so that each of the last has been asked before. */
function rulesOf(before: Assessment<"full">, after: Assessment<"full">): RecordedRule[] {
  const earlier = new Map(before.findings.map((finding) => [finding.rule, finding]));
  return after.findings.map((finding) => ({
    rule: finding.rule,
    title: finding.title,
    asFound: verdictOf(earlier.get(finding.rule)!),
    asLeft: verdictOf(finding),
  }));
}

/** Who signs: whoever installed it and whoever was shown it; for gas and fixed wiring, whoever is licensed for it. */
function signaturesOf(surveys: readonly Survey[]): SignatureLine[] {
  const roles = ["Installed by", "Handed over to"];
  if (surveys.some(({ machine: { fuel } }) => fuel === "naturalGas" || fuel === "propane"))
    roles.push("Gas work by (licensed)");
  if (surveys.some(({ electrical }) => electrical?.hardWired === true)) roles.push("Electrical work by (licensed)");
  return roles.map((role) => ({ role, name: "", date: "", signature: "" }));
}

/** Hash of a record's content, leaving out the hash that it carries. */
function hashOf(record: object): string {
  const { hash: _carried, ...content } = record as { hash?: unknown };
  return bytesToHex(sha256(utf8ToBytes(canonicalJson(content))));
}

/** A survey with every edition written out, and what was in force for it. */
interface Placed {
  readonly survey: Survey;
  readonly inForce: InForce;
}

type How = Required<RecordOptions>;

function placed(survey: Survey, how: How): Placed {
  assessUnknown(survey, { detail: "verdicts", ...how });
  const at = completeAt({ jurisdiction: survey.jurisdiction, maker: survey.maker, ...how } as never);
  const { adopted: editions, building } = at;
  const whole = { ...survey, jurisdiction: { ...survey.jurisdiction, adopted: editions, building } } as Survey;
  const assumed = [...[...at.assumed].sort(), ...(at.buildingAssumed ? ["building"] : [])];
  return { survey: plainCopy(whole), inForce: { editions, building, assumed } };
}

/**
 * Makes the record of a job.
 *
 * @param asFound - the survey before the work
 * @param asLeft - the survey after it; the same one where nothing was changed
 * @param options - units, decision rule and decimal mark, as for an assessment
 * @throws InputFault where a survey cannot be used, or the two are not of one site
 * @example recordOf({ site: { id: "A" }, machine: { kind: "dryer", fuel: "electric" } }).verdict.asLeft // "review"
 */
export function recordOf(asFound: Survey, asLeft: Survey = asFound, options: RecordOptions = {}): JobRecord {
  const { units = "us", decision = "guarded", decimal = "." } = options;
  const how = { units, decision, decimal };
  return recordFrom(placed(asFound, how), placed(asLeft, how), how);
}

function recordFrom(before: Placed, after: Placed, how: How): JobRecord {
  if (before.survey.site.id !== after.survey.site.id) {
    const message = `the two surveys must be of one site; write ${JSON.stringify(before.survey.site.id)}`;
    const received = describeReceived(after.survey.site.id);
    throw new InputFault([
      { path: ["site", "id"], code: "notAccepted", message, expected: before.survey.site.id, received },
    ]);
  }
  const found = assessUnknown(before.survey, how);
  const left = assessUnknown(after.survey, how);
  const content = {
    record: 1 as const,
    site: left.site,
    measured: after.survey.measured ?? null,
    inForce: { asFound: before.inForce, asLeft: after.inForce },
    ...how,
    surveys: { asFound: before.survey, asLeft: after.survey },
    verdict: { asFound: found.verdict, asLeft: left.verdict },
    fields: fieldsOf(before.survey, after.survey),
    rules: rulesOf(found, left),
    values: left.values
      .filter(({ status }) => status === "computed")
      .map(({ calculator, message }) => ({ calculator, message })),
    assumptions: left.assumptions,
    cautions: left.cautions,
    signatures: signaturesOf([before.survey, after.survey]),
  };
  return { ...content, hash: hashOf(content) };
}

/** A copy that shares nothing with the caller's survey and has no `undefined` in it. */
const plainCopy = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;

const inForceShape = z.looseObject({ assumed: z.array(z.string()) });
const recordShape = z.looseObject({
  record: z.literal(1),
  units: z.enum(["us", "si"]),
  decision: z.enum(["guarded", "simple"]),
  decimal: z.enum([".", ","]),
  inForce: z.strictObject({ asFound: inForceShape, asLeft: inForceShape }),
  surveys: z.strictObject({ asFound: z.unknown(), asLeft: z.unknown() }),
  hash: z.string().regex(/^[0-9a-f]{64}$/),
});

const assumedAs = ({ survey, inForce }: Placed, assumed: readonly string[]): Placed => ({
  survey,
  inForce: { ...inForce, assumed },
});

/** What came of checking a record. */
export interface RecordCheck {
  /** Whether nothing in it was changed since it was made. */
  readonly intact: boolean;
  /** Whether assessing it again, under the editions it names, says the same. */
  readonly reproduced: boolean;
  /** Parts of the record that would read otherwise if it were made today. */
  readonly differs: readonly string[];
}

/** Deeper than any record: what it is made of must not lead into the depths. */
const DEEPEST = 64;

/** Refuses what no JSON text holds, before anything walks through it. */
function requirePlainJson(value: unknown, path: Path = []): void {
  const refuse = (message: string): never => {
    throw new InputFault([
      {
        path: path.slice(0, 8),
        code: "notARecord",
        message,
        expected: "plain JSON",
        received: describeReceived(value),
      },
    ]);
  };
  if (path.length > DEEPEST) refuse(`this is not a record: it is nested more than ${DEEPEST} deep`);
  if (typeof value === "object" && value !== null) {
    for (const [key, inner] of Object.entries(value)) requirePlainJson(inner, [...path, key]);
  } else if (value !== null && !["string", "number", "boolean"].includes(typeof value)) {
    refuse("this is not a record: it is no plain JSON");
  } else if (typeof value === "number" && !Number.isFinite(value)) refuse("this is not a record: it is no plain JSON");
}

/**
 * Checks a record: whether its hash fits what it holds, and whether it would be made the same way today.
 *
 * @param record - a record of unknown origin
 * @throws InputFault where it is no record, or its surveys cannot be used
 * @example checkRecord(recordOf({ site: { id: "A" }, machine: { kind: "dryer", fuel: "electric" } })).intact // true
 */
export function checkRecord(record: unknown): RecordCheck {
  requirePlainJson(record);
  const read = recordShape.safeParse(record);
  if (!read.success) {
    throw new InputFault(
      read.error.issues.map(({ path, message }) => ({
        path: path as (string | number)[],
        code: "notARecord",
        message: `this is not a record: ${message}`,
        expected: "a record as recordOf makes it",
        received: describeReceived(path.reduce<unknown>((at, key) => (at as never)?.[key], record)),
      })),
    );
  }
  const { surveys, inForce, units, decision, decimal, hash } = read.data;
  const how = { units, decision, decimal };
  // that something was assumed is known from the record alone: its surveys name every edition
  const again = recordFrom(
    assumedAs(placed(surveys.asFound as Survey, how), inForce.asFound.assumed),
    assumedAs(placed(surveys.asLeft as Survey, how), inForce.asLeft.assumed),
    how,
  );
  const given = record as Record<string, unknown>;
  const remade = again as unknown as Record<string, unknown>;
  const differs = [...new Set([...Object.keys(again), ...Object.keys(given)])].filter(
    (part) => part !== "hash" && canonicalJson(given[part] ?? null) !== canonicalJson(remade[part] ?? null),
  );
  return { intact: hashOf(given) === hash, reproduced: differs.length === 0, differs };
}

/** What the work changed, from the surveys of a record. */
export function changesOf({ surveys, units, decision, decimal }: JobRecord): AssessmentComparison {
  const how = { units, decision, decimal } as const;
  return compareAssessments(assessUnknown(surveys.asFound, how), assessUnknown(surveys.asLeft, how), { units });
}
