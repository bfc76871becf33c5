/** `defineCalculator`: from one object, the callable calculator with its schema, catalogue facts, examples and texts. */
import type * as z from "zod";
import type { Basis, Limit } from "../basis/index.js";
import type { DimensionOfKind, Quantity, QuantityKind, UnitSystem } from "../quantity/index.js";
import { type At, type AtInput, checkNamedLimits, readAt, withStated } from "./at.js";
import { type Caution, cautions } from "./cautions.js";
import { endsOf } from "./ends.js";
import { InputFault, pathText } from "./fault.js";
import type { CalculatedValue, Calculation, ShownValue } from "./finding.js";
import { descriptionAt, type Given, InputReader, inputJsonSchema, type Read, type Tolerance } from "./input.js";
import { type Data, differenceOf, fill, plain, type Slots, showSlot } from "./message.js";
import { basesOf, setAsideOf, stepOf } from "./render.js";
import { Asking, newTrace, type Path, type Trace } from "./run.js";

/** The kind of one output: a quantity, a count, a plain number, or a word. */
export type OutputKind = QuantityKind | "count" | "number" | "text";
/** One output: its kind and what it means. */
export interface OutputField {
  readonly kind: OutputKind;
  readonly what: string;
}
/** A list of records of outputs. */
export interface OutputList {
  readonly list: Readonly<Record<string, OutputField>>;
  readonly what: string;
}
/** Everything a calculator gives, by name. */
export type Outputs = Readonly<Record<string, OutputField | OutputList>>;

type ValueOfKind<K extends OutputKind> = K extends QuantityKind
  ? Quantity<DimensionOfKind<K>>
  : K extends "text"
    ? string
    : number;
type ValueOf<O extends OutputField | OutputList> = O extends OutputList
  ? readonly { readonly [K in keyof O["list"]]: ValueOfKind<O["list"][K]["kind"]> | null }[]
  : O extends OutputField
    ? ValueOfKind<O["kind"]> | null
    : never;
/** What the body of a calculator returns: every output, `null` where it does not exist for this input. */
export type Values<O extends Outputs> = { readonly [K in keyof O]: ValueOf<O[K]> };

/** Texts for when there is no answer. */
export interface CalculatorMessages {
  /** An input is needed first. */
  readonly missing?: Readonly<Record<string, string>>;
  /** The input allows no answer. */
  readonly impossible?: Readonly<Record<string, string>>;
}

type SayingOf<T> = {
  [Id in keyof T & string]: T[Id] extends string
    ? keyof Slots<T[Id]> extends never
      ? readonly [Id]
      : readonly [Id, Slots<T[Id]>]
    : never;
}[keyof T & string];

/** No answer, and why. */
class NoAnswer {
  readonly status: "missing" | "impossible";
  readonly messageId: string;
  readonly data: Data;
  readonly paths: readonly Path[];
  constructor(status: "missing" | "impossible", saying: readonly [string, unknown?], paths: readonly Path[]) {
    this.status = status;
    this.messageId = saying[0];
    this.data = (saying[1] ?? {}) as Data;
    this.paths = paths;
  }
}

/** What the body of a calculator may ask. */
export class CalculatorContext<M extends CalculatorMessages> extends Asking {
  /** No answer until the inputs at these paths are known. */
  missing = (saying: SayingOf<NonNullable<M["missing"]>>, ...paths: Path[]): NoAnswer =>
    new NoAnswer("missing", saying as unknown as readonly [string, unknown?], paths);

  /** No answer for this input, and why. */
  impossible = (saying: SayingOf<NonNullable<M["impossible"]>>): NoAnswer =>
    new NoAnswer("impossible", saying as unknown as readonly [string, unknown?], []);
}

/** One example of a calculator: what goes in, and how it ends. */
export interface CalculatorExample<Input> {
  readonly title: string;
  readonly input: Given<Input>;
  readonly at?: AtInput;
  /** `computed`, or the message that must come out. */
  readonly gives: string;
}

/** The one object a calculator is made from. */
export interface CalculatorSpec<S extends z.ZodType, O extends Outputs, M extends CalculatorMessages> {
  /** `trade/stem`, the stem being the file's name. */
  readonly id: string;
  /** What is computed, as a phrase. */
  readonly title: string;
  readonly since: string;
  readonly input: S;
  readonly outputs: O;
  readonly basis: readonly Basis[];
  readonly limits: readonly Limit[];
  readonly messages: M;
  readonly cautions: readonly Caution[];
  readonly examples: readonly CalculatorExample<z.input<S>>[];
  /** Pure. Returns every output, or why there is none. */
  readonly compute: (input: Read<z.output<S>>, ask: CalculatorContext<M>) => Values<O> | NoAnswer;
}

/** A result that carries either a calculation or the fault. */
export type TriedCalculation =
  | { readonly ok: true; readonly calculation: Calculation; readonly fault?: undefined }
  | { readonly ok: false; readonly fault: InputFault; readonly calculation?: undefined };

/** A calculator: callable, and carrying everything the catalogue, the docs and the tests need. */
export interface Calculator<S extends z.ZodType = z.ZodType, O extends Outputs = Outputs> {
  /**
   * Computes from one input.
   *
   * @throws InputFault where the input or what surrounds it cannot be used
   */
  (input: Given<z.input<S>>, at?: AtInput): Calculation;
  /** The same, with the fault as a value. */
  readonly try: (input: unknown, at?: AtInput) => TriedCalculation;
  /** Computes from values that were read before; for surveys. */
  readonly run: (input: Read<z.output<S>>, at: At, tolerances: readonly Tolerance[]) => CalculatorRun;
  readonly kind: "calculator";
  readonly id: string;
  readonly title: string;
  readonly since: string;
  readonly input: S;
  readonly outputs: O;
  readonly basis: readonly Basis[];
  readonly limits: readonly Limit[];
  readonly messages: CalculatorMessages;
  readonly cautions: readonly Caution[];
  readonly examples: readonly CalculatorExample<z.input<S>>[];
  /** The JSON Schema of the input. */
  readonly jsonSchema: () => Record<string, unknown>;
}

/** A run of a calculator before its texts are made. */
export interface CalculatorRun {
  readonly status: Calculation["status"];
  /** The whole calculation, with texts. */
  readonly calculation: () => Calculation;
}

type Raw = Readonly<Record<string, unknown>>;
type Numbers = ReadonlyMap<string, number>;

const isList = (output: OutputField | OutputList): output is OutputList => "list" in output;

/** Every number of the outputs by its place, for the tolerance pass. */
function numbersOf(outputs: Outputs, values: Raw): Numbers {
  const numbers = new Map<string, number>();
  for (const [name, output] of Object.entries(outputs)) {
    const value = values[name];
    if (isList(output)) {
      (value as Raw[]).forEach((record, i) => {
        for (const key of Object.keys(output.list)) {
          if (typeof record[key] === "number") numbers.set(`${name}.${i}.${key}`, record[key]);
        }
      });
    } else if (typeof value === "number") numbers.set(name, value);
  }
  return numbers;
}

/**
 * Defines a calculator.
 *
 * From the one object come the callable function, the JSON Schema of its input, and all that the catalogue, the docs
 * page, the command and the contract tests read.
 */
export function defineCalculator<
  S extends z.ZodType,
  const O extends Outputs,
  const M extends CalculatorMessages = Record<never, never>,
>(spec: CalculatorSpec<S, O, M>): Calculator<S, O> {
  type Input = Read<z.output<S>>;
  const reader = new InputReader(spec.input);

  const evaluate = (input: Input, at: At, trace: Trace | null) => {
    const context = new CalculatorContext<M>();
    context.beginAt(at, trace);
    return withStated(at, () => spec.compute(input, context));
  };

  /** Every number at one end of a tolerance; none where there is no answer there. */
  const numbersAt = (input: Input, at: At): Numbers => {
    const result = evaluate(input, at, null);
    return result instanceof NoAnswer ? new Map() : numbersOf(spec.outputs, result as Raw);
  };

  /**
   * Half-width of each output: as for a rule's comparisons, to first order, root of the sum of squares. Where an end of
   * a tolerance has no answer the other end counts alone; where neither has one, that is told.
   */
  const spreadsOf = (input: Input, nominal: Numbers, at: At, tolerances: readonly Tolerance[]) => {
    const spreads = new Map<string, number>();
    const notCarried: string[] = [];
    for (const tolerance of tolerances) {
      const ends = endsOf(input, tolerance);
      if (!ends) continue;
      const down = numbersAt(ends.low, at);
      const up = numbersAt(ends.high, at);
      let carried = true;
      for (const [place, value] of nominal) {
        const a = down.get(place);
        const b = up.get(place);
        if (a === undefined && b === undefined) carried = false;
        const change =
          a === undefined || b === undefined ? Math.abs((b ?? a ?? value) - value) : Math.abs(b - a) / ends.reach;
        spreads.set(place, Math.hypot(spreads.get(place) ?? 0, change));
      }
      if (!carried) {
        notCarried.push(`The tolerance of ${pathText(tolerance.path)} is not carried: there is no answer at its ends.`);
      }
    }
    return { spreads, notCarried };
  };

  const run = (input: Input, at: At, tolerances: readonly Tolerance[]): CalculatorRun => {
    const trace = newTrace();
    const result = evaluate(input, at, trace);
    const failed = result instanceof NoAnswer ? result : null;
    const calculation = (): Calculation => {
      const { units } = at;
      const nominal = failed ? new Map<string, number>() : numbersOf(spec.outputs, result as Raw);
      const { spreads, notCarried } = spreadsOf(input, nominal, at, tolerances);
      const values = failed ? nothing(spec.outputs) : shownValues(spec.outputs, result as Raw, spreads, units);
      return {
        calculator: spec.id,
        title: spec.title,
        status: failed?.status ?? "computed",
        messageId: failed?.messageId ?? null,
        message: failed
          ? fill(spec.messages[failed.status]![failed.messageId]!, failed.data, units)
          : summary(spec.outputs, values),
        values,
        basis: basesOf(trace, spec.basis),
        setAside: setAsideOf(trace.governed, units),
        workings: trace.steps.map((step) => stepOf(step, units)),
        assumptions: [...trace.assumptions, ...notCarried],
        missing: (failed?.paths ?? []).map((path) => ({ path, what: descriptionAt(spec.input, path) })),
        cautions: spec.cautions.map((name) => cautions[name]),
      };
    };
    return { status: failed?.status ?? "computed", calculation };
  };

  const compute = (input: unknown, atGiven?: AtInput): Calculation => {
    const at = readAt(atGiven);
    checkNamedLimits(at, spec.limits);
    const { value, tolerances } = reader.read(input, { decimal: at.decimal });
    return run(value, at, tolerances).calculation();
  };

  const attempt = (input: unknown, at?: AtInput): TriedCalculation => {
    try {
      return { ok: true, calculation: compute(input, at) };
    } catch (error) {
      if (error instanceof InputFault) return { ok: false, fault: error };
      throw error;
    }
  };

  const { compute: _body, ...facts } = spec;
  return Object.assign((input: Given<z.input<S>>, at?: AtInput) => compute(input, at), {
    ...facts,
    kind: "calculator" as const,
    try: attempt,
    run,
    jsonSchema: () => inputJsonSchema(spec.input),
  }) as Calculator<S, O>;
}

const nothing = (outputs: Outputs): Record<string, CalculatedValue> =>
  Object.fromEntries(Object.entries(outputs).map(([name, output]) => [name, isList(output) ? [] : null]));

function shownValue(
  value: unknown,
  kind: OutputKind,
  spread: number | undefined,
  units: UnitSystem,
): ShownValue | null {
  if (value === null) return null;
  if (typeof value === "string") return { si: null, kind, text: value, tolerance: null };
  const si = value as number;
  const of = differenceOf(kind);
  const tolerance =
    spread !== undefined && spread > 0 ? { si: plain(spread), kind: of, text: showSlot(spread, of, units) } : null;
  return { si: plain(si), kind, text: showSlot(si, kind, units), tolerance };
}

function shownValues(outputs: Outputs, values: Raw, spreads: Numbers, units: UnitSystem) {
  const shown: Record<string, CalculatedValue> = {};
  for (const [name, output] of Object.entries(outputs)) {
    const value = values[name];
    shown[name] = isList(output)
      ? (value as Raw[]).map((record, i) =>
          Object.fromEntries(
            Object.entries(output.list).map(([key, { kind }]) => [
              key,
              shownValue(record[key], kind, spreads.get(`${name}.${i}.${key}`), units),
            ]),
          ),
        )
      : shownValue(value, output.kind, spreads.get(name), units);
  }
  return shown;
}

/** Records of a list that a line of text holds; a longer list is a table or a curve and is only counted there. */
const MOST_ON_A_LINE = 8;

/** All values on one line: `flow 150 cfm; speed 1,720 fpm`. */
function summary(outputs: Outputs, values: Readonly<Record<string, CalculatedValue>>): string {
  const phrases: string[] = [];
  for (const [name, output] of Object.entries(outputs)) {
    const value = values[name];
    if (value === null || value === undefined) continue;
    if (isList(output) && (value as readonly unknown[]).length > MOST_ON_A_LINE) {
      phrases.push(`${output.what}: ${(value as readonly unknown[]).length} rows`);
    } else if (isList(output)) {
      for (const record of value as readonly Readonly<Record<string, ShownValue | null>>[]) {
        const fields = Object.values(record).flatMap((field) => (field ? [field.text] : []));
        phrases.push(fields.join(", "));
      }
    } else phrases.push(`${output.what}: ${(value as ShownValue).text}`);
  }
  return phrases.join("; ");
}
