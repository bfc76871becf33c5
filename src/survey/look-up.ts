/** Looking up what a rule rests on: by number, by section, by word. */
import {
  adoptable,
  type Basis,
  coversEdition,
  type DatedValue,
  documentOf,
  type Limit,
  printedSi,
  type Text,
} from "../core/basis/index.js";
import { type Dimension, dimensions, isReadingProblem, readQuantity, same } from "../core/quantity/index.js";
import { type CatalogueEntry, type CitedBasis, cited, type Step } from "../core/rule/index.js";
import { allLimits, catalogue } from "./catalogue.js";

/** A limit with those of its dated values that the words speak of. */
export interface FoundLimit {
  readonly limit: Limit;
  readonly values: readonly DatedValue[];
  /** Ids of the entries that ask for it. */
  readonly usedBy: readonly string[];
}

/** A basis that the words speak of. */
export interface FoundBasis {
  readonly basis: CitedBasis;
  readonly usedBy: readonly string[];
}

/** A table that the words speak of. */
export interface FoundTable {
  readonly table: string;
  /** Look-ups of the worked examples, as text. */
  readonly lookups: readonly string[];
  readonly usedBy: readonly string[];
}

/** What was found for some words. */
export interface Found {
  readonly entries: readonly CatalogueEntry[];
  readonly limits: readonly FoundLimit[];
  readonly bases: readonly FoundBasis[];
  readonly tables: readonly FoundTable[];
}

interface Term {
  /** The words as they were given, in small letters. */
  readonly word: string;
  /** SI numbers it can be read as, by dimension; `null` for a number without a unit. */
  readonly numbers: readonly { readonly dimension: Dimension | null; readonly si: number }[];
}

const MOST_WORDS = 20;

function termOf(words: readonly string[]): Term | undefined {
  const text = words.join(" ");
  const numbers: { dimension: Dimension | null; si: number }[] = [];
  for (const dimension of Object.keys(dimensions) as Dimension[]) {
    const read = readQuantity(text, dimension);
    if (!isReadingProblem(read)) numbers.push({ dimension, si: read.value });
  }
  if (words.length === 1 && /^\d+(?:\.\d+)?$/.test(text)) numbers.push({ dimension: null, si: Number(text) });
  if (words.length > 1 && numbers.length === 0) return undefined;
  return { word: text.toLowerCase(), numbers };
}

/** The words as terms: the longest runs that read as one quantity, and single words. */
function termsOf(text: string): Term[] {
  const words = text.trim().split(/\s+/).filter(Boolean).slice(0, MOST_WORDS);
  const terms: Term[] = [];
  for (let at = 0; at < words.length; ) {
    let length = Math.min(5, words.length - at);
    let term = termOf(words.slice(at, at + length));
    while (!term) term = termOf(words.slice(at, at + --length));
    terms.push(term);
    at += length;
  }
  return terms;
}

/** Whether a section is the one asked for, or lies in it: `504.9` holds `504.9.4.1`, not `1504.9`. */
function inSection(section: string, asked: string): boolean {
  return section
    .toLowerCase()
    .split(/[^\w.()]+/)
    .some((part) => part === asked || part.startsWith(`${asked}.`) || part.startsWith(`${asked}(`));
}

/** Whether a text holds a word, numbers as whole numbers only. */
function holds(text: string, { word, numbers }: Term): boolean {
  const at = text.toLowerCase().indexOf(word);
  if (at < 0 || numbers.length === 0) return at >= 0;
  return new RegExp(`(?<![\\d.])${word.replace(/[^\w]/g, "\\$&")}(?![\\d.]*\\d)`).test(text.toLowerCase());
}

const documentWords = (text: Text | "practice"): string => {
  if (text === "practice") return "common practice";
  const { short, title, publisher } = adoptable[documentOf(text)];
  return `${short} ${title} ${publisher}`;
};

function speaksOfValue(term: Term, limit: Limit, value: DatedValue, users: string): boolean {
  const si = printedSi(value.value);
  const printed = Array.isArray(value.value) ? value.value[0] : Number(value.value);
  for (const { dimension, si: asked } of term.numbers) {
    if (
      dimension === null
        ? printed === asked && typeof value.value !== "boolean"
        : dimension === limit.dimension && same(si, asked)
    )
      return true;
    if (dimension === null && value.text !== "practice" && isYear(asked) && coversEdition(value, asked)) return true;
  }
  if (inSection(value.section ?? "", term.word)) return true;
  const when = Object.entries(value.when ?? {})
    .flat()
    .join(" ");
  return holds(`${limit.id} ${limit.title} ${documentWords(value.text)} ${value.note ?? ""} ${when} ${users}`, term);
}

const isYear = (number: number): boolean => Number.isInteger(number) && number >= 1990 && number <= 2100;

function speaksOfBasis(term: Term, { document, publisher, edition, section, note = "" }: Basis): boolean {
  return inSection(section, term.word) || holds(`${document} ${publisher} ${edition} ${section} ${note}`, term);
}

interface Worked {
  readonly entry: CatalogueEntry;
  readonly bases: readonly Basis[];
  readonly steps: readonly Step[];
}

/** The bases and steps of an entry, its own and those that its worked examples rest on. */
function workedOf(entry: CatalogueEntry): Worked {
  const bases: Basis[] = [...entry.basis];
  const steps: Step[] = [];
  for (const { input, at } of entry.examples) {
    const tried = entry.try(input, at);
    if (!tried.ok) continue; // an example that is refused is the contract tests' to report
    const outcome = "finding" in tried ? tried.finding! : tried.calculation!;
    bases.push(...outcome.basis.map(({ citation: _citation, ...basis }) => basis));
    steps.push(...outcome.workings);
  }
  return { entry, bases, steps };
}

let worked: readonly Worked[] | undefined;

/**
 * Finds limits, bases, tables and entries by words: a number with its unit (`35 ft`), a section (`M1502.4.6.1`,
 * `504.9`), a document, an edition or any other word. All words must be spoken of.
 *
 * @example lookUpBasis("35 ft duct").limits[0]?.limit.id // "venting/duct-length.base"
 */
export function lookUpBasis(words: string): Found {
  const terms = termsOf(words);
  if (terms.length === 0) return { entries: [], limits: [], bases: [], tables: [] };
  const all = catalogue();
  worked ??= all.map(workedOf);
  const entries = all.filter(({ id, title }) => terms.every((term) => holds(`${id} ${title}`, term)));
  const exact = all.find(({ id }) => id === words.trim());

  const limits = allLimits().flatMap((limit): FoundLimit[] => {
    const users = all.filter((entry) => (entry.limits as readonly Limit[]).includes(limit));
    const text = users.map(({ id, title }) => `${id} ${title}`).join(" ");
    const values =
      exact && users.includes(exact)
        ? limit.values
        : limit.values.filter((value) => terms.every((term) => speaksOfValue(term, limit, value, text)));
    return values.length === 0 ? [] : [{ limit, values, usedBy: users.map(({ id }) => id) }];
  });

  const bases = new Map<string, { basis: CitedBasis; usedBy: string[] }>();
  const tables = new Map<string, { lookups: Set<string>; usedBy: Set<string> }>();
  for (const { entry, bases: own, steps } of worked) {
    for (const one of own) {
      if (entry !== exact && !terms.every((term) => speaksOfBasis(term, one))) continue;
      const basis = cited(one);
      const key = `${basis.citation}\n${basis.note ?? ""}`;
      const known = bases.get(key) ?? { basis, usedBy: [] };
      if (!known.usedBy.includes(entry.id)) known.usedBy.push(entry.id);
      bases.set(key, known);
    }
    for (const step of steps) {
      if (step.table === null) continue;
      if (entry !== exact && !terms.every((term) => speaksOfStep(term, step))) continue;
      const known = tables.get(step.table) ?? { lookups: new Set<string>(), usedBy: new Set<string>() };
      known.lookups.add(step.text);
      known.usedBy.add(entry.id);
      tables.set(step.table, known);
    }
  }
  return {
    entries: exact ? [exact] : entries,
    limits,
    bases: [...bases.values()],
    tables: [...tables].map(([table, { lookups, usedBy }]) => ({ table, lookups: [...lookups], usedBy: [...usedBy] })),
  };
}

function speaksOfStep(term: Term, { text, table, values }: Step): boolean {
  const numbers = Object.values(values).map(({ si }) => si);
  if (term.numbers.some(({ si: asked }) => numbers.some((si) => si !== null && same(si, asked)))) return true;
  return holds(`${table} ${text}`, term);
}
