/** A limit is a number that a rule sets, kept as dated data, one reference per value. */
import {
  type Dimension,
  kindDimension,
  type QuantityKind,
  type Sense,
  type Unit,
  unitFacts,
} from "../quantity/index.js";
import { type Basis, type Confirmed, codeBasis, commonPractice, type Force } from "./basis.js";
import { adoptable, documentOf, type Subject, type Text } from "./documents.js";

/** Facts of the case that a value may depend on, for example `{ fuel: "gas" }`. */
export type Conditions = Readonly<Record<string, string | number | boolean>>;

/** What kind of thing a limit bounds: a quantity, a plain count, or whether something is called for at all. */
export type LimitKind = QuantityKind | "count" | "requirement";
/** Which way a limit binds; a requirement binds when it is true. */
export type LimitSense = Sense | "required";

/** One value of a limit, in the unit its source prints. */
export interface DatedValue {
  /** The text that sets it, or `practice` for a habit of the trade. */
  readonly text: Text | "practice";
  /** First edition with this value; every known edition from it on, up to `to`. */
  readonly from?: number;
  /** Last edition with this value; the newest known where left out. */
  readonly to?: number;
  readonly section?: string;
  /** Number and unit as printed; a bare number for a count; a truth for a requirement. */
  readonly value: readonly [number, Unit] | number | boolean;
  readonly confirmed: Confirmed;
  readonly force?: Force;
  /** Holds only where each of these facts is so. */
  readonly when?: Conditions;
  readonly note?: string;
}

/** The definition of a limit. */
export interface LimitSpec {
  /** `trade/stem.name`; what a local amendment or a maker's statement refers to. */
  readonly id: string;
  readonly title: string;
  readonly subject: Subject;
  readonly kind: LimitKind;
  readonly sense: LimitSense;
  /**
   * What the maker's own figure does: `replaces` where the code defers to the listing, so that it may be more or less;
   * `tightens` where both bind and the stricter counts.
   */
  readonly maker: "replaces" | "tightens";
  readonly values: readonly DatedValue[];
}

/** A limit, ready to be resolved. */
export interface Limit extends LimitSpec {
  readonly dimension: Dimension | null;
}

/** Defines a limit from its dated values. {@link faultsOfLimit} tells what is wrong with them. */
export function defineLimit(spec: LimitSpec): Limit {
  const dimension = spec.kind === "count" || spec.kind === "requirement" ? null : kindDimension(spec.kind);
  return { ...spec, dimension };
}

/** The SI number of a printed value; a requirement becomes 1 or 0. */
export function printedSi(value: DatedValue["value"]): number {
  if (typeof value === "boolean") return value ? 1 : 0;
  if (typeof value === "number") return value;
  const { factor, zero = 0 } = unitFacts(value[1]);
  return value[0] * factor + zero;
}

/** Whether a dated value belongs to an edition of its text. */
export function coversEdition(value: DatedValue, edition: number): boolean {
  return edition >= (value.from ?? 0) && edition <= (value.to ?? Number.POSITIVE_INFINITY);
}

/** The citation of a dated value in the edition at hand. */
export function basisOf(value: DatedValue, edition: number): Basis {
  const { text, section = "", confirmed, force, note } = value;
  if (text !== "practice") return codeBasis(text, edition, section, confirmed, force, note);
  return note === undefined ? commonPractice : { ...commonPractice, note };
}

const spans = (value: DatedValue): string =>
  `${value.text} ${value.from ?? "first"} to ${value.to ?? "last"}${value.when ? ` ${JSON.stringify(value.when)}` : ""}`;

/** Whether an earlier value hides a later one: same text, an edition in common, and no condition the later lacks. */
function hides(earlier: DatedValue, later: DatedValue): boolean {
  const { from = 0, to = Number.POSITIVE_INFINITY } = earlier;
  return (
    earlier.text === later.text &&
    from <= (later.to ?? Number.POSITIVE_INFINITY) &&
    (later.from ?? 0) <= to &&
    Object.entries(earlier.when ?? {}).every(([key, wanted]) => later.when?.[key] === wanted)
  );
}

/**
 * Complaints about a limit's data: editions that do not exist, units of another dimension, values that another one of
 * the same text and edition hides. For the contract tests.
 */
export function faultsOfLimit(limit: Limit): string[] {
  const faults: string[] = [];
  limit.values.forEach((later, i) => {
    if ((later.from ?? 0) > (later.to ?? Number.POSITIVE_INFINITY))
      faults.push(`${limit.id}: ${spans(later)} is no span`);
    const earlier = limit.values.slice(0, i).find((one) => hides(one, later));
    if (earlier) faults.push(`${limit.id}: ${spans(later)} is hidden by ${spans(earlier)}`);
  });
  for (const value of limit.values) {
    if (value.text !== "practice") {
      const editions: readonly number[] = adoptable[documentOf(value.text)].editions;
      for (const year of [value.from, value.to]) {
        if (year !== undefined && !editions.includes(year))
          faults.push(`${limit.id}: ${value.text} has no ${year} edition`);
      }
      if (value.section === undefined) faults.push(`${limit.id}: a value of ${value.text} names no section`);
    }
    const isQuantity = Array.isArray(value.value);
    if (isQuantity !== (limit.dimension !== null)) faults.push(`${limit.id}: a value does not fit its kind`);
    if (isQuantity) {
      const unit = (value.value as readonly [number, Unit])[1];
      if (unitFacts(unit).dimension !== limit.dimension)
        faults.push(`${limit.id}: ${unit} is not a ${limit.dimension}`);
    }
    if ((typeof value.value === "boolean") !== (limit.kind === "requirement")) {
      faults.push(`${limit.id}: only a requirement is true or false`);
    }
  }
  return faults;
}
