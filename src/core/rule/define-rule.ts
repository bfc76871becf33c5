/** `defineRule`: from one object, the callable rule with its schema, catalogue facts, examples and texts. */
import type * as z from "zod";
import { type Basis, basesOfLimit, type Fuel, type Limit } from "../basis/index.js";
import {
  type Dimension,
  kindDimension,
  kinds,
  type QuantityKind,
  same,
  type Unit,
  type UnitSystem,
} from "../quantity/index.js";
import { type At, type AtInput, checkNamedLimits, readAt, withStated } from "./at.js";
import { type Caution, cautions } from "./cautions.js";
import { howClosely } from "./closeness.js";
import { endsOf } from "./ends.js";
import { InputFault } from "./fault.js";
import {
  type CitedBasis,
  cited,
  type Finding,
  type Missing,
  type Part,
  type Remedy,
  severity,
  type Verdict,
} from "./finding.js";
import {
  descriptionAt,
  type Given,
  InputReader,
  inputJsonSchema,
  type Read,
  schemaAt,
  type Tolerance,
  writtenForm,
} from "./input.js";
import { type Data, differenceOf, fill, type SlotKind, type Slots, shownData } from "./message.js";
import { setPath } from "./path.js";
import { basesOf, setAsideOf, shown, shownPair, stepOf } from "./render.js";
import {
  type Compared,
  type Messages,
  newTrace,
  type Outcome,
  type Path,
  type RawPart,
  RuleContext,
  type Spread,
  type Templates,
  TOO_CLOSE,
  type Trace,
} from "./run.js";

/** One change of an input value, in SI where it is a quantity. */
export interface Change {
  readonly path: Path;
  readonly value: unknown;
  /** The unit to write a quantity in. */
  readonly unit?: Unit;
}

/** A change that might help, before it is tried. */
export type Proposal<R extends Readonly<Record<string, string>>> = {
  [Id in keyof R & string]: {
    readonly change: readonly Change[];
    readonly say: keyof Slots<R[Id]> extends never ? readonly [Id] : readonly [Id, Slots<R[Id]>];
  };
}[keyof R & string];

/** One example of a rule: what goes in, and which message comes out. */
export interface RuleExample<Input> {
  readonly title: string;
  readonly input: Given<Input>;
  readonly at?: AtInput;
  /** The message that must come out; the verdict follows from it. */
  readonly gives: string;
}

/** The one object a rule is made from. */
export interface RuleSpec<S extends z.ZodType, M extends Messages, R extends Readonly<Record<string, string>>> {
  /** `trade/stem`, the stem being the file's name. */
  readonly id: string;
  /** What holds when the rule passes, as a sentence without a full stop. */
  readonly title: string;
  /** Version of the package that brought the rule. */
  readonly since: string;
  readonly input: S;
  /** What the rule rests on beside its limits. */
  readonly basis: readonly Basis[];
  readonly limits: readonly Limit[];
  readonly messages: M;
  /** Texts of the changes the rule may offer. */
  readonly remedies?: R;
  readonly cautions: readonly Caution[];
  /** Together they reach every message. */
  readonly examples: readonly RuleExample<z.input<S>>[];
  /** Reads downward: cannot tell, compute, show the step, compare, say. Pure. */
  readonly check: (input: Read<z.output<S>>, ask: RuleContext<M>) => Outcome;
  /** Changes to try when the rule fails, least change first. Offered only where the rule then passes. */
  readonly mend?: (input: Read<z.output<S>>, at: At) => readonly Proposal<R>[];
}

/** A run of a rule before its texts are made. */
export interface RuleRun {
  readonly verdict: Verdict;
  readonly governing: RawPart;
  readonly parts: readonly RawPart[];
  /** The whole finding, with texts. */
  readonly finding: () => Finding;
}

/** A result that carries either a finding or the fault. */
export type Tried<T> =
  | { readonly ok: true; readonly finding: T; readonly fault?: undefined }
  | { readonly ok: false; readonly fault: InputFault; readonly finding?: undefined };

/** A rule: callable, and carrying everything the catalogue, the docs and the tests need. */
export interface Rule<S extends z.ZodType = z.ZodType, M extends Messages = Messages> {
  /**
   * Checks one input.
   *
   * @throws InputFault where the input or what surrounds it cannot be used
   */
  (input: Given<z.input<S>>, at?: AtInput): Finding;
  /** The same, with the fault as a value. */
  readonly try: (input: unknown, at?: AtInput) => Tried<Finding>;
  /** Checks values that were read before; for surveys. */
  readonly run: (input: Read<z.output<S>>, at: At, tolerances: readonly Tolerance[]) => RuleRun;
  readonly kind: "rule";
  readonly id: string;
  readonly title: string;
  readonly since: string;
  readonly input: S;
  readonly basis: readonly Basis[];
  readonly limits: readonly Limit[];
  readonly messages: M;
  readonly remedies: Readonly<Record<string, string>>;
  readonly cautions: readonly Caution[];
  readonly examples: readonly RuleExample<z.input<S>>[];
  /** The JSON Schema of the input. */
  readonly jsonSchema: () => Record<string, unknown>;
}

/** Remedies offered at most; they come least change first, and nobody reads more. */
const MOST_REMEDIES = 6;

function templatesOf(messages: Messages): Templates {
  const templates = new Map<string, { verdict: Verdict; template: string }>();
  for (const [verdict, byId] of Object.entries(messages) as [Verdict, Record<string, string>][]) {
    for (const [id, template] of Object.entries(byId)) {
      if (templates.has(id) || id === TOO_CLOSE) throw new RangeError(`message ${id} is named twice`);
      templates.set(id, { verdict, template });
    }
  }
  return templates;
}

/** The governing statement: the worst; among equals the first. */
function worst(parts: readonly RawPart[]): RawPart {
  let bad = parts[0];
  if (bad === undefined) throw new TypeError("a rule must say something");
  for (const part of parts) if (severity(part.verdict) < severity(bad.verdict)) bad = part;
  return bad;
}

/**
 * Half-width of each comparison from the tolerances of the inputs: each input is moved to both ends of its tolerance,
 * and half the change of (measured − limit) counts; independent inputs combine as the root of the sum of squares
 * (JCGM 100:2008, 5.1.2, to first order). Where moving an input changes which comparisons are made, nothing can be
 * told: the half-width is infinite.
 */
function spreadsOf<T>(
  input: T,
  tolerances: readonly Tolerance[],
  nominal: readonly Compared[],
  compareAgain: (input: T) => readonly Compared[],
): Spread[] {
  const contributions = tolerances.map((tolerance): number[] => {
    const ends = endsOf(input, tolerance);
    if (!ends) return nominal.map(() => 0);
    const down = compareAgain(ends.low);
    const up = compareAgain(ends.high);
    return nominal.map((_, i) => {
      const a = down[i];
      const b = up[i];
      if (!a || !b || down.length !== nominal.length || up.length !== nominal.length) return Number.POSITIVE_INFINITY;
      return Math.abs(b.measured - b.limit - (a.measured - a.limit)) / ends.reach;
    });
  });
  return nominal.map((_, i) => {
    const each = contributions.map((contribution) => contribution[i]!);
    return { halfWidth: Math.hypot(...each), contributions: each };
  });
}

/**
 * Defines a rule.
 *
 * From the one object come the callable function, the JSON Schema of its input, and all that the catalogue, the docs
 * page, the command and the contract tests read.
 */
export function defineRule<
  S extends z.ZodType,
  const M extends Messages,
  const R extends Readonly<Record<string, string>> = Record<never, never>,
>(spec: RuleSpec<S, M, R>): Rule<S, M> {
  type Input = Read<z.output<S>>;
  const reader = new InputReader(spec.input);
  let templates: Templates | undefined;
  /** One context serves run after run; a body that is run inside another, or after one that threw, gets a new one. */
  let idle: RuleContext<M> | undefined;

  const evaluate = (input: Input, at: At, spreads: readonly Spread[] | null, trace: Trace | null) => {
    templates ??= templatesOf(spec.messages);
    const context = idle ?? new RuleContext<M>(templates);
    idle = undefined;
    context.begin(at, trace, spreads);
    const parts = withStated(at, () => spec.check(input, context));
    const { compared } = context;
    idle = context;
    return { parts, compared };
  };

  /** How doubtful each comparison is; `null` where nothing is. */
  const doubtsOf = (input: Input, at: At, tolerances: readonly Tolerance[]): readonly Spread[] | null =>
    tolerances.length === 0 || at.decision === "simple" ? null : spreadsAt(input, at, tolerances);

  const spreadsAt = (input: Input, at: At, tolerances: readonly Tolerance[]): readonly Spread[] => {
    const compareAt = (moved: Input): readonly Compared[] => evaluate(moved, at, null, null).compared;
    return spreadsOf(input, tolerances, compareAt(input), compareAt);
  };

  const remediesFor = (input: Input, at: At, tolerances: readonly Tolerance[]): Remedy[] => {
    const offered: Remedy[] = [];
    for (const proposal of spec.mend?.(input, at) ?? []) {
      const { change, say } = proposal as { change: readonly Change[]; say: readonly [string, Data?] };
      const changes = change.map(({ path, value, unit }) => ({
        path,
        value: writtenValue(spec.input, path, value, unit),
      }));
      if (!changes.every(({ path, value }) => isAccepted(spec.input, path, value))) continue;
      const changed = change.reduce((whole, { path, value }) => setPath(whole, path, value), input);
      // most proposals fail already without their tolerances, and those are what costs
      if (worst(evaluate(changed, at, null, null).parts).verdict !== "pass") continue;
      const kept = tolerances.filter(({ path }) => !change.some((one) => startsWith(path, one.path)));
      if (worst(evaluate(changed, at, doubtsOf(changed, at, kept), null).parts).verdict !== "pass") continue;
      offered.push({ message: fill(spec.remedies![say[0]]!, say[1] ?? {}, at.units), changes });
      if (offered.length === MOST_REMEDIES) break;
    }
    return offered;
  };

  const run = (input: Input, at: At, tolerances: readonly Tolerance[]): RuleRun => {
    const doubts = doubtsOf(input, at, tolerances);
    const { parts } = evaluate(input, at, doubts, null);
    const governing = worst(parts);
    const finding = (): Finding => {
      // run again, since most runs of a file are asked for no more than their verdict
      const trace = newTrace();
      evaluate(input, at, doubts, trace);
      const { units } = at;
      const { compared } = governing;
      const relevant = parts.filter(({ verdict }) => verdict !== "pass" && verdict !== "notApplicable");
      const spoken = relevant.length === 0 ? [governing] : [governing, ...relevant.filter((p) => p !== governing)];
      const kind = compared?.kind;
      const [measured, limit] = compared
        ? shownPair(compared.measured, compared.limit, compared.kind, units)
        : ([null, null] as const);
      return {
        rule: spec.id,
        title: spec.title,
        verdict: governing.verdict,
        messageId: governing.messageId,
        message: spoken.map(({ template, data }) => fill(template, data, units)).join(" "),
        parts: parts.map(
          ({ verdict, messageId, template, data }): Part => ({
            verdict,
            messageId,
            message: fill(template, data, units),
            data: shownData(template, data, units),
          }),
        ),
        measured,
        tolerance: compared && compared.tolerance > 0 ? shown(compared.tolerance, differenceOf(kind!), units) : null,
        limit,
        margin: compared && shown(room(compared), differenceOf(kind!), units),
        basis: basesFor(input, at, trace, parts, governing),
        setAside: setAsideOf(trace.governed, units),
        workings: trace.steps.map((step) => stepOf(step, units)),
        assumptions: trace.assumptions,
        missing: missingOf(parts, tolerances, spec.input, units),
        remedies: governing.verdict === "fail" ? remediesFor(input, at, tolerances) : [],
        cautions: spec.cautions.map((name) => cautions[name]),
      };
    };
    return { verdict: governing.verdict, governing, parts, finding };
  };

  /** What the finding rests on; where the body asked for no limit, what the rule's limits rest on here. */
  const basesFor = (
    input: Input,
    at: At,
    trace: Trace,
    parts: readonly RawPart[],
    governing: RawPart,
  ): readonly CitedBasis[] => {
    // where everything passes no single statement decided, and a habit of the trade does not stand before the code
    const decided = governing.compared?.governing;
    const isHabit = decided?.origin === "practice" && governing.verdict === "pass" && parts.length > 1;
    const bases = basesOf(trace, spec.basis, isHabit ? undefined : decided);
    if (bases.length > 0) return bases;
    const { fuel = "none" } = input as { fuel?: Fuel };
    const seen = new Map(
      spec.limits.flatMap((limit) => basesOfLimit(limit, at, fuel).map(cited)).map((one) => [one.citation, one]),
    );
    return [...seen.values()];
  };

  const check = (input: unknown, atGiven?: AtInput): Finding => {
    const at = readAt(atGiven);
    checkNamedLimits(at, spec.limits);
    const { value, tolerances } = reader.read(input, { decimal: at.decimal });
    return run(value, at, tolerances).finding();
  };

  const attempt = (input: unknown, at?: AtInput): Tried<Finding> => {
    try {
      return { ok: true, finding: check(input, at) };
    } catch (error) {
      if (error instanceof InputFault) return { ok: false, fault: error };
      throw error;
    }
  };

  const { check: _body, mend: _mend, remedies = {}, ...facts } = spec;
  return Object.assign((input: Given<z.input<S>>, at?: AtInput) => check(input, at), {
    ...facts,
    remedies,
    kind: "rule" as const,
    try: attempt,
    run,
    jsonSchema: () => inputJsonSchema(spec.input),
  }) as Rule<S, M>;
}

/** What to measure: values that were not given, and values that were not measured closely enough. */
function missingOf(
  parts: readonly RawPart[],
  tolerances: readonly Tolerance[],
  schema: z.ZodType,
  units: UnitSystem,
): Missing[] {
  const absent = parts.flatMap(({ missing }) => missing.map((path) => ({ path, what: descriptionAt(schema, path) })));
  const again = new Map<Tolerance, Missing>();
  for (const { doubt, compared } of parts) {
    if (!doubt) continue;
    const alone = doubt.contributions.filter((contribution) => contribution > 0).length === 1;
    doubt.contributions.forEach((contribution, i) => {
      const tolerance = tolerances[i]!;
      if (contribution === 0 || again.has(tolerance)) return;
      const { path, plusMinus, dimension } = tolerance;
      const kind = kindsMatch(compared!.kind, dimension) ? compared!.kind : dimension;
      const { room } = doubt;
      const how = howClosely({ room, limit: compared!.limit, contribution, plusMinus, alone }, kind, dimension, units);
      again.set(tolerance, { path, what: `${descriptionAt(schema, path)}: measure again, ${how}` });
    });
  }
  return [...absent, ...again.values()];
}

const kindsMatch = (kind: SlotKind, dimension: Dimension): boolean =>
  kind in kinds && kindDimension(kind as QuantityKind) === dimension;

/** The room left to the limit, negative where it is passed; nothing where the two agree within the slack. */
function room({ measured, limit, sense }: NonNullable<RawPart["compared"]>): number {
  if (same(measured, limit)) return 0;
  return sense === "atMost" ? limit - measured : measured - limit;
}

const startsWith = (path: Path, start: Path): boolean => start.every((key, i) => path[i] === key);

/** Whether the field would take a changed value: a louvre larger than any that is made is no remedy. */
function isAccepted(schema: z.ZodType, path: Path, value: unknown): boolean {
  const found = schemaAt(schema, path) as z.ZodType | undefined;
  return found?.safeParse(value).success === true;
}

/** A changed value in the form the input takes: a quantity as exact value and unit. */
function writtenValue(schema: z.ZodType, path: Path, value: unknown, unit: Unit | undefined): unknown {
  const found = schemaAt(schema, path);
  return found ? writtenForm(found, value, unit) : value;
}
