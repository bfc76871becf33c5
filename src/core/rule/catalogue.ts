/** The catalogue is made from what the trades export; nothing is registered twice. */
import type * as z from "zod";
import type { Limit } from "../basis/index.js";
import type { Calculator, Outputs } from "./define-calculator.js";
import type { Rule } from "./define-rule.js";
import type { Messages } from "./run.js";

// biome-ignore lint/suspicious/noExplicitAny: entries of every shape live side by side; callers pass unknown inputs
type Loose = any;
/** A rule of any shape. */
export type AnyRule = Rule<Loose, Messages>;
/** A calculator of any shape. */
export type AnyCalculator = Calculator<Loose, Outputs>;
/** Any entry of the catalogue. */
export type CatalogueEntry = AnyRule | AnyCalculator;

const isEntry = (value: unknown): value is CatalogueEntry =>
  typeof value === "function" && "kind" in value && (value.kind === "rule" || value.kind === "calculator");

/** The entries among the exports of some modules, in order of id. */
export function entriesOf(...modules: readonly Readonly<Record<string, unknown>>[]): CatalogueEntry[] {
  const entries = modules.flatMap((module) => Object.values(module)).filter(isEntry);
  return [...new Set(entries)].sort((a, b) => (a.id < b.id ? -1 : 1));
}

/** Every limit that some entries use, once each, in order of id. */
export function limitsOf(entries: readonly CatalogueEntry[]): Limit[] {
  const limits = new Set(entries.flatMap((entry) => entry.limits as readonly Limit[]));
  return [...limits].sort((a, b) => (a.id < b.id ? -1 : 1));
}

/** The trade of an entry: the part of its id before the slash. */
export const tradeOf = (entry: { readonly id: string }): string => entry.id.split("/")[0]!;

/** The input schema of an entry. */
export const inputOf = (entry: CatalogueEntry): z.ZodType => entry.input as z.ZodType;
