/** One job as the take-off reads it: the survey's fields as written, and what the rules and calculators said of them. */
import {
  type Dimension,
  isReadingProblem,
  type QuantityKind,
  readQuantity,
  show,
  type UnitSystem,
} from "../../core/quantity/index.js";
import { type CalculatedValue, type Finding, type Part, pathText, type ShownValue } from "../../core/rule/index.js";
import { takesWater } from "../../plumbing/water.js";
import type { Assessment } from "../assess.js";
import type { Survey } from "../survey.js";

/** Trades that a line can belong to. */
export type TakeOffTrade = "electrical" | "venting" | "plumbing" | "placement";

/**
 * How a line is come by. `bring`: it has to be in the van. `there`: it is on site and its rules hold, so it stays.
 * `open`: it cannot be told before something is measured.
 */
export type Supply = "bring" | "there" | "open";

/** One part or tool. */
export interface TakeOffLine {
  readonly kind: "part" | "tool";
  readonly trade: TakeOffTrade;
  readonly what: string;
  /** Size as one asks for it; `null` where it has none or is not known. */
  readonly size: string | null;
  /** How many; `null` where it cannot be told. */
  readonly count: number | null;
  readonly supply: Supply;
  /** Why it is needed, or why what is there will not do. */
  readonly why: string;
  /** Rules, calculators and survey fields that it comes from. */
  readonly from: readonly string[];
  /** Field to measure first, where that is what it waits for. */
  readonly open: string | null;
}

/** A line as a trade drafts it. */
export interface Draft {
  readonly kind?: "part" | "tool";
  readonly what: string;
  readonly size?: string | null | undefined;
  readonly count?: number | null;
  /** Rules that judge what is on site. */
  readonly rules?: readonly string[];
  readonly from?: readonly string[];
  readonly why: string;
  /** Whether it is on site already. */
  readonly there?: boolean;
  /** Size of what replaces the one on site where that will not do; the size of the one on site says nothing then. */
  readonly instead?: string | undefined;
  /** Field without which it cannot be told. */
  readonly open?: string | undefined;
  /** What has to be decided first, where no measurement will tell. */
  readonly undecided?: string | undefined;
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null;

/** One job. */
export class Job {
  readonly survey: Survey;
  readonly #findings: ReadonlyMap<string, Finding>;
  readonly #values: ReadonlyMap<string, Readonly<Record<string, CalculatedValue>>>;
  readonly #units: UnitSystem;
  readonly #decimal: "." | ",";

  constructor(survey: Survey, { findings, values }: Assessment<"full">, units: UnitSystem, decimal: "." | ",") {
    this.survey = survey;
    this.#units = units;
    this.#decimal = decimal;
    this.#findings = new Map(findings.map((finding) => [finding.rule, finding]));
    this.#values = new Map(
      values.flatMap((one) => (one.status === "computed" ? [[one.calculator, one.values] as const] : [])),
    );
  }

  get kind(): Survey["machine"]["kind"] {
    return this.survey.machine.kind;
  }
  get burnsGas(): boolean {
    return this.survey.machine.fuel === "naturalGas" || this.survey.machine.fuel === "propane";
  }
  /** Whether a dryer blows its air outdoors; `undefined` where nobody said, and where there is no dryer. */
  get vents(): boolean | undefined {
    const { kind, exhaust, fuel } = this.survey.machine;
    if (kind !== "dryer" && kind !== "stack") return undefined;
    if (exhaust !== undefined) return exhaust === "vented";
    return fuel === "naturalGas" || fuel === "propane" ? true : undefined;
  }
  get takesWater(): boolean | undefined {
    return takesWater(this.survey.machine);
  }

  at(path: string): unknown {
    return path
      .split(".")
      .reduce<unknown>(
        (inner, key) => (isRecord(inner) && Object.hasOwn(inner, key) ? inner[key] : undefined),
        this.survey,
      );
  }
  has = (path: string): boolean => this.at(path) !== undefined;
  text(path: string): string | undefined {
    const value = this.at(path);
    return typeof value === "string" ? value : undefined;
  }

  /** A quantity in the reader's units; `undefined` where it was not given. */
  size(value: unknown, dimension: Dimension, kind: QuantityKind): string | undefined {
    if (value === undefined) return undefined;
    const read = readQuantity(value, dimension, { decimal: this.#decimal });
    // the survey was assessed before, so that nothing in it is unreadable
    return isReadingProblem(read) ? undefined : show(read.value as never, kind as never, { units: this.#units });
  }
  si(path: string, dimension: Dimension): number | undefined {
    const value = this.at(path);
    const read = value === undefined ? undefined : readQuantity(value, dimension, { decimal: this.#decimal });
    return read === undefined || isReadingProblem(read) ? undefined : read.value;
  }
  length = (path: string): string | undefined => this.size(this.at(path), "length", "length");
  inches = (path: string): string | undefined => this.size(this.at(path), "length", "inches");

  finding(rule: string): Finding | undefined {
    const finding = this.#findings.get(rule);
    return finding?.verdict === "notApplicable" ? undefined : finding;
  }
  /** What a rule said that fails, by message. */
  failures(rule: string): readonly Part[] {
    return this.finding(rule)?.parts.filter(({ verdict }) => verdict === "fail") ?? [];
  }
  value(calculator: string, name: string): ShownValue | undefined {
    const value = this.#values.get(calculator)?.[name];
    return value && "si" in value ? value : undefined;
  }
  list(calculator: string, name: string): readonly Readonly<Record<string, ShownValue | null>>[] {
    const value = this.#values.get(calculator)?.[name];
    return Array.isArray(value) ? value : [];
  }

  /** A drafted line, settled by what its rules said of what is on site. */
  line(trade: TakeOffTrade, draft: Draft): TakeOffLine {
    const { kind = "part", what, size = null, count = 1, rules = [], from = [], there = false } = draft;
    const base = { kind, trade, what, size, count };
    const asked = rules.flatMap((rule) => this.finding(rule) ?? []);
    const sources = [...asked.map(({ rule }) => rule), ...from];
    if (draft.open !== undefined)
      return {
        ...base,
        supply: "open",
        why: draft.why,
        from: [...new Set([...sources, draft.open])],
        open: draft.open,
      };
    if (draft.undecided !== undefined)
      return { ...base, supply: "open", why: draft.undecided, from: sources, open: null };
    if (!there) return { ...base, supply: "bring", why: draft.why, from: sources, open: null };
    const failing = asked.find(({ verdict }) => verdict === "fail");
    if (failing)
      return { ...base, size: draft.instead ?? null, supply: "bring", why: failing.message, from: sources, open: null };
    const waiting = asked.find(({ verdict }) => verdict === "review");
    if (waiting) {
      const first = waiting.missing[0];
      return {
        ...base,
        supply: "open",
        why: waiting.message,
        from: sources,
        open: first ? pathText(first.path) : null,
      };
    }
    return { ...base, supply: "there", why: draft.why, from: sources, open: null };
  }
}
