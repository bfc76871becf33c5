/** Makes the texts of findings and calculations from what a run recorded: the last step, and the only one that rounds. */
import type { Basis, Force, Governing } from "../basis/index.js";
import type { UnitSystem } from "../quantity/index.js";
import { type CitedBasis, cited, type SetAside, type Step } from "./finding.js";
import {
  differenceOf,
  fill,
  formulaOf,
  plain,
  type Shown,
  type SlotKind,
  showApart,
  shownData,
  showSlot,
} from "./message.js";
import type { RawStep, Trace } from "./run.js";

/** A measured value and its limit, each with as many digits as it takes to tell one from the other. */
export function shownPair(measured: number, limit: number, kind: SlotKind, units: UnitSystem): readonly [Shown, Shown] {
  const [left, right] = showApart(
    [
      { value: measured, kind },
      { value: limit, kind },
    ],
    units,
  );
  return [
    { si: plain(measured), kind, text: left! },
    { si: plain(limit), kind, text: right! },
  ];
}

/** One value for programs and for people. */
export const shown = (si: number, kind: SlotKind, units: UnitSystem): Shown => ({
  si: plain(si),
  kind,
  text: showSlot(si, kind, units),
});

/** A limit's value; a requirement is a yes or a no. */
function shownLimit(value: number, { limit }: Governing, units: UnitSystem): Shown {
  if (limit.kind === "requirement")
    return { si: value, kind: "count", text: value === 1 ? "required" : "not required" };
  return shown(value, limit.kind, units);
}

/** The right-hand side with its values in place of its symbols, for people. */
function withValues(template: string, values: Record<string, Shown>): string {
  return template.replace(/\{([A-Za-z]\w*):\w+\}/g, (_, name: string) => values[name]!.text);
}

/** A step with its text. */
export function stepOf(raw: RawStep, units: UnitSystem): Step {
  switch (raw.kind) {
    case "formula": {
      const values = shownData(raw.template, raw.data, units);
      const [left = "", ...right] = raw.template.split(" = ");
      const text = `${formulaOf(raw.template)}: ${withValues(right.join(" = "), values)} = ${fill(left, raw.data, units)}`;
      return { kind: "formula", text, formula: formulaOf(raw.template), table: null, values };
    }
    case "lookup": {
      const key = shown(raw.key, raw.keyKind, units);
      const value = raw.value === undefined ? undefined : shown(raw.value, raw.valueKind, units);
      return {
        kind: "lookup",
        text: `${raw.table.title}, at ${key.text}: ${value === undefined ? "no value" : value.text}`,
        formula: null,
        table: raw.table.id,
        values: value === undefined ? { key } : { key, value },
      };
    }
    case "compare": {
      const { measured, tolerance, limit, of, sense, comparison } = raw;
      const [left, right] = shownPair(measured, limit, of, units);
      const known = tolerance > 0 && Number.isFinite(tolerance) ? shown(tolerance, differenceOf(of), units) : undefined;
      const spread = known ? ` ± ${known.text}` : "";
      const asked = sense === "atMost" ? "at most" : "at least";
      const outcome = comparison === "inside" ? "holds" : comparison === "outside" ? "does not hold" : "cannot be told";
      return {
        kind: "compare",
        text: `${left.text}${spread} ${asked} ${right.text}: ${outcome}`,
        formula: null,
        table: null,
        values: known ? { measured: left, tolerance: known, limit: right } : { measured: left, limit: right },
      };
    }
  }
}

/** What was set aside in resolving the limits, and why. */
export function setAsideOf(governed: readonly Governing[], units: UnitSystem): SetAside[] {
  return governed.flatMap((governing) =>
    governing.setAside.map(({ candidate, reason }) => ({
      limit: governing.limit.id,
      value: shownLimit(candidate.value, governing, units),
      reason,
      basis: cited(candidate.basis),
    })),
  );
}

const forces = ["mandatory", "local", "maker", "advice", "practice"] as const satisfies readonly Force[];
const strongestFirst = (a: Basis, b: Basis): number => forces.indexOf(a.force) - forces.indexOf(b.force);

/**
 * The bases of a run, without repeats: the one that decided, then the governing limits with what binds before what only
 * advises, then those of this case, then the rule's own.
 */
export function basesOf(trace: Trace, own: readonly Basis[], decided?: Governing): CitedBasis[] {
  const governed = trace.governed.map(({ basis }) => basis).sort(strongestFirst);
  const all = [...(decided ? [decided.basis] : []), ...governed, ...trace.bases, ...own];
  const seen = new Map<string, CitedBasis>();
  for (const basis of all) {
    const citation = cited(basis);
    const key = `${citation.citation}\n${citation.note ?? ""}`;
    if (!seen.has(key)) seen.set(key, citation);
  }
  return [...seen.values()];
}
