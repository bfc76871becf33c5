/** One evaluation of a rule or calculator: what its body may ask, and what was recorded while it ran. No text is made here. */
import type { Basis, Conditions, Fuel, Governing, Limit } from "../basis/index.js";
import { type Comparison, compare, type QuantityKind, type Sense } from "../quantity/index.js";
import { lookUp, type Table } from "../table/index.js";
import { type At, defaults } from "./at.js";
import type { Verdict } from "./finding.js";
import { type Data, differenceOf, type SlotKind, type Slots } from "./message.js";
import { documentTitle } from "./titles.js";

/** A step before it has a text. */
export type RawStep =
  | { readonly kind: "formula"; readonly template: string; readonly data: Data }
  | {
      readonly kind: "lookup";
      readonly table: Table;
      readonly key: number;
      readonly keyKind: SlotKind;
      readonly value: number | undefined;
      readonly valueKind: SlotKind;
    }
  | {
      readonly kind: "compare";
      readonly measured: number;
      readonly tolerance: number;
      readonly sense: Sense;
      readonly limit: number;
      readonly of: SlotKind;
      readonly comparison: Comparison;
    };

/** One comparison, as the tolerance pass needs it. */
export interface Compared {
  readonly measured: number;
  readonly limit: number;
  readonly sense: Sense;
}

/** One statement before it has a text. */
export interface RawPart {
  readonly verdict: Verdict;
  readonly messageId: string;
  readonly template: string;
  readonly data: Data;
  readonly compared: {
    readonly measured: number;
    readonly tolerance: number;
    readonly limit: number;
    readonly sense: Sense;
    readonly kind: SlotKind;
    readonly governing: Governing | undefined;
  } | null;
  readonly missing: readonly (readonly (string | number)[])[];
  /** For a comparison that could not be told: the room there is, and what each tolerance contributes to the doubt. */
  readonly doubt: { readonly room: number; readonly contributions: readonly number[] } | null;
}

/** The half-width of one comparison, and what each tolerance contributes to it. */
export interface Spread {
  readonly halfWidth: number;
  readonly contributions: readonly number[];
}

/** Messages by verdict, then by id. */
export interface Messages {
  readonly pass?: Readonly<Record<string, string>>;
  readonly fail?: Readonly<Record<string, string>>;
  readonly review?: Readonly<Record<string, string>>;
  readonly notApplicable?: Readonly<Record<string, string>>;
}

type IdsOf<M extends Messages, V extends keyof Messages> = M[V] extends object ? keyof M[V] & string : never;
type TemplateOf<M extends Messages, V extends keyof Messages, Id extends string> =
  M[V] extends Readonly<Record<Id, infer T extends string>> ? T : never;

/** A message id with the values its slots take. */
export type Saying<M extends Messages, V extends keyof Messages> = {
  [Id in IdsOf<M, V>]: keyof Slots<TemplateOf<M, V, Id>> extends never
    ? readonly [id: Id] | readonly [id: Id, slots: Slots<TemplateOf<M, V, Id>>]
    : readonly [id: Id, slots: Slots<TemplateOf<M, V, Id>>];
}[IdsOf<M, V>];

/** Any message of a rule, its verdict following from its id. */
export type AnySaying<M extends Messages> =
  | Saying<M, "pass">
  | Saying<M, "fail">
  | Saying<M, "review">
  | Saying<M, "notApplicable">;

/** What one comparison is about. */
export interface Judgement<M extends Messages> {
  /** The kind of quantity compared, or a plain count. */
  readonly kind: QuantityKind | "count" | "number";
  /** The value, SI. */
  readonly measured: number;
  /** The bound: a governing limit, whose sense is used, or a plain number with `sense`. */
  readonly limit: Governing | number;
  readonly sense?: Sense;
  readonly pass: Saying<M, "pass">;
  readonly fail: Saying<M, "fail">;
}

/** The outcome of a rule's body: its statements, the governing one decided later. */
export type Outcome = readonly RawPart[];

/** A place in an input: field names and places in lists. */
export type Path = readonly (string | number)[];

/** What a body showed while it ran: its workings, what they rest on, and what was taken for granted. */
export interface Trace {
  readonly steps: RawStep[];
  readonly bases: Basis[];
  readonly governed: Governing[];
  readonly assumptions: string[];
}

export const newTrace = (): Trace => ({ steps: [], bases: [], governed: [], assumptions: [] });

/** What both rules and calculators may ask. One serves many runs, one after the other. */
export class Asking {
  #at: At | undefined;
  /** @internal */
  protected trace: Trace | null = null;

  /**
   * Begins a run.
   *
   * @param trace - takes what the run shows; `null` where nobody will look at it, as for verdicts and tolerances
   * @internal
   */
  beginAt(at: At, trace: Trace | null): void {
    this.#at = at;
    this.trace = trace;
  }

  /** The place asked about. */
  get at(): At {
    return this.#at!;
  }

  /**
   * The governing value of a limit at the place asked about, or `undefined` where no text says anything.
   * Records the basis, what was set aside, and any default it leaned on.
   */
  limit = (limit: Limit, fuel: Fuel = "none", conditions: Conditions = {}): Governing | undefined => {
    const governing = this.at.governing(limit, fuel, conditions);
    const governed = this.trace?.governed;
    if (!governing || !governed || governed.includes(governing)) return governing;
    governed.push(governing);
    this.#assumeTexts(governing);
    return governing;
  };

  #assumeTexts(governing: Governing): void {
    if (governing.origin !== "code" && !governing.setAside.some(({ candidate }) => candidate.origin === "code")) return;
    const { assumed, buildingAssumed, adopted } = this.at;
    for (const { text } of [governing, ...governing.setAside.map(({ candidate }) => candidate)]) {
      if (text === null || text === "practice") continue;
      const document = text === "ircFuelGas" ? "irc" : text;
      if (assumed.has(document))
        this.assume(`No adopted edition was given: ${documentTitle(document, adopted[document]!)} is assumed.`);
    }
    if (buildingAssumed && governing.limit.subject !== "electrical") {
      this.assume(`The kind of building was not given: ${defaults.building} is assumed.`);
    }
  }

  /** Says what was taken for granted; once each. */
  assume = (text: string): void => {
    const assumptions = this.trace?.assumptions;
    if (assumptions && !assumptions.includes(text)) assumptions.push(text);
  };

  /** Adds a basis that only this case rests on. */
  rest = (basis: Basis): void => {
    this.trace?.bases.push(basis);
  };

  /**
   * Shows one formula step. The text has an equals sign and typed slots, and parses in mathjs once the slots are bare
   * symbols: `"{need:length} = {route:length} * (1 + {share:ratio})"`.
   */
  formula = <const T extends string>(template: T, data: Slots<T>): void => {
    this.trace?.steps.push({ kind: "formula", template, data: data as Data });
  };

  /** Looks into a named table and shows the step. */
  lookUp = (table: Table, key: number, keyKind: SlotKind, valueKind: SlotKind): number | undefined => {
    const value = lookUp(table, key);
    this.trace?.steps.push({ kind: "lookup", table, key, keyKind, value, valueKind });
    this.trace?.bases.push(table.basis);
    return value;
  };
}

/** The one message every rule has: the tolerance lies across the limit. */
export const TOO_CLOSE = "tooCloseToCall";

/** Messages by id, each with the verdict it stands for. */
export type Templates = ReadonlyMap<string, { readonly verdict: Verdict; readonly template: string }>;

/** What the body of a rule may ask. */
export class RuleContext<M extends Messages> extends Asking {
  readonly #templates: Templates;
  #spreads: readonly Spread[] | null = null;
  #compared: Compared[] = [];

  constructor(templates: Templates) {
    super();
    this.#templates = templates;
  }

  /**
   * Begins a run; its comparisons are doubtful by these spreads.
   *
   * @internal
   */
  begin(at: At, trace: Trace | null, spreads: readonly Spread[] | null): void {
    this.beginAt(at, trace);
    this.#spreads = spreads;
    this.#compared = [];
  }

  /** What this run has compared so far. */
  get compared(): readonly Compared[] {
    return this.#compared;
  }

  #part(
    [messageId, data = {}]: readonly [string, unknown?],
    compared: RawPart["compared"],
    missing: RawPart["missing"],
  ): RawPart {
    const { verdict, template } = this.#templates.get(messageId)!;
    return { verdict, messageId, template, data: data as Data, compared, missing, doubt: null };
  }

  /** States something that no comparison decides. */
  say = (...saying: AnySaying<M>): Outcome => [this.#part(saying as readonly [string, unknown?], null, [])];

  /** States that something was not measured; `paths` say what to measure. */
  missing = (saying: Saying<M, "review">, ...paths: Path[]): Outcome => [
    this.#part(saying as readonly [string, unknown?], null, paths),
  ];

  /**
   * Compares a value with a limit and says the one or the other. Where a tolerance lies across the limit it says
   * neither, and asks for a closer measurement.
   */
  judge = ({ kind, measured, limit, sense, pass, fail }: Judgement<M>): Outcome => {
    const governing = typeof limit === "number" ? undefined : limit;
    const bound = typeof limit === "number" ? limit : limit.value;
    const way = sense ?? (governing?.limit.sense as Sense);
    const spread = this.#spreads?.[this.#compared.length];
    const tolerance = spread?.halfWidth ?? 0;
    const compared = { measured, tolerance, limit: bound, sense: way, kind, governing };
    this.#compared.push(compared);
    const comparison = compare(measured, tolerance, way, bound, this.at.decision);
    this.trace?.steps.push({ kind: "compare", measured, tolerance, sense: way, limit: bound, of: kind, comparison });
    if (comparison === "unsure") {
      const across = Number.isFinite(tolerance);
      return [
        {
          verdict: "review",
          messageId: TOO_CLOSE,
          template: across
            ? `{measured:${kind}} ± {tolerance:${differenceOf(kind)}} lies across the limit of {limit:${kind}}; measure more closely.`
            : `{measured:${kind}} is so near a step of the rule that its tolerance decides; measure more closely.`,
          data: across ? { measured, tolerance, limit: bound } : { measured },
          compared: across ? compared : { ...compared, tolerance: 0 },
          missing: [],
          doubt: { room: Math.abs(measured - bound), contributions: spread!.contributions },
        },
      ];
    }
    return [this.#part((comparison === "inside" ? pass : fail) as readonly [string, unknown?], compared, [])];
  };

  /** Several statements as one finding; the worst governs. */
  all = (...outcomes: readonly (Outcome | undefined)[]): Outcome => {
    const parts: RawPart[] = [];
    for (const outcome of outcomes) if (outcome) parts.push(...outcome);
    return parts;
  };
}
