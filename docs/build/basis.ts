/** What an entry rests on, in words: limits by text and edition, plain bases, what differs between editions. */
import {
  adoptable,
  type Basis,
  basisOf,
  type Confirmed,
  cite,
  coversEdition,
  type DatedValue,
  documentOf,
  type Force,
  type Limit,
  type Text,
} from "../../src/core/basis/index.js";
import { showNumber, unitFacts } from "../../src/core/quantity/index.js";
import { type CatalogueEntry, type CitedBasis, cited } from "../../src/core/rule/index.js";
import { blocks, code, table } from "./markdown.js";

const confirmations: Record<Confirmed, string> = {
  seen: "seen in a published copy",
  secondary: "seen in a page that restates it",
  computed: "computed",
  practice: "common practice, no source",
  memory: "from memory, not yet seen",
  stated: "stated by the caller",
};

const forces: Record<Force, string> = {
  mandatory: "binds",
  advice: "advises",
  maker: "binds through the listing",
  local: "binds locally",
  practice: "habit of the trade",
};

/** A text as a reader knows it; the residential code's fuel-gas chapter is named apart. */
export function textTitle(text: DatedValue["text"]): string {
  if (text === "practice") return "Common practice";
  return text === "ircFuelGas" ? "IRC, fuel-gas chapter" : adoptable[text].short;
}

/** The known editions of a text. */
export const editionsOf = (text: Text): readonly number[] => adoptable[documentOf(text)].editions;

function editionsText({ text, from, to }: DatedValue): string {
  if (text === "practice") return "";
  const covered = editionsOf(text).filter((edition) => coversEdition({ from, to } as DatedValue, edition));
  const [first, last] = [covered[0], covered.at(-1)];
  return first === last ? String(first) : `${first} to ${last}`;
}

/** A value as its source prints it. */
export function printed({ value }: DatedValue): string {
  if (typeof value === "boolean") return value ? "called for" : "not called for";
  if (typeof value === "number") return String(value);
  const [number, unit] = value;
  const inches = Math.round(number * 12);
  if (unit === "ft" && !Number.isInteger(number * 4) && Math.abs(number * 12 - inches) < 1e-9) {
    return number < 1 ? `${inches} in` : `${Math.floor(number)} ft ${inches % 12} in`;
  }
  const symbol = unitFacts(unit).spellings[0];
  return `${showNumber(number, 6)}${symbol === "°" ? "" : " "}${symbol}`;
}

/** The facts a value holds for: `radius 6 in smooth, angle 90`. */
export function caseText({ when }: DatedValue): string {
  const fact = ([key, wanted]: [string, string | number | boolean]): string => {
    const name = key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
    if (typeof wanted === "boolean") return wanted ? name : `not ${name}`;
    return `${name} ${wanted}`;
  };
  return Object.entries(when ?? {})
    .map(fact)
    .join(", ");
}

const senses: Record<Limit["sense"], string> = {
  atMost: "At most",
  atLeast: "At least",
  required: "Called for or not",
};

const sourceOf = (value: DatedValue): string[] => [
  textTitle(value.text),
  editionsText(value),
  value.section ?? "",
  [confirmations[value.confirmed], value.force && value.force !== "mandatory" ? forces[value.force] : ""]
    .filter(Boolean)
    .join("; "),
];

/** Values under one heading, so that a table of fittings is printed once and not once an edition. */
function clusters(limit: Limit): { readonly sources: string[][]; readonly values: DatedValue[] }[] {
  const bySource = new Map<string, { source: string[]; values: DatedValue[] }>();
  for (const value of limit.values) {
    const source = sourceOf(value);
    const key = JSON.stringify(source);
    const known = bySource.get(key);
    if (known) known.values.push(value);
    else bySource.set(key, { source, values: [value] });
  }
  const byContent = new Map<string, { sources: string[][]; values: DatedValue[] }>();
  for (const { source, values } of bySource.values()) {
    const key = JSON.stringify(values.map((value) => [caseText(value), printed(value)]));
    const known = byContent.get(key);
    if (known) known.sources.push(source);
    else byContent.set(key, { sources: [source], values });
  }
  return [...byContent.values()];
}

function limitTables(limit: Limit): string {
  const single = clusters(limit).filter(({ values }) => values.length === 1);
  const many = clusters(limit).filter(({ values }) => values.length > 1);
  const hasCase = single.some(({ values }) => caseText(values[0]!) !== "");
  const rows = single.flatMap(({ sources, values: [value] }) =>
    sources.map((source) => [
      ...source.slice(0, 3),
      ...(hasCase ? [caseText(value!)] : []),
      printed(value!),
      source[3]!,
    ]),
  );
  const head = ["text", "editions", "section", ...(hasCase ? ["case"] : []), "value", "confirmed"];
  return blocks(
    table(head, rows),
    ...many.flatMap(({ sources, values }) => [
      table(
        ["case", "value"],
        values.map((value) => [caseText(value) || "every other", printed(value)]),
      ),
      `as in\n\n${table(["text", "editions", "section", "confirmed"], sources)}`,
    ]),
    notesOf(limit),
  );
}

function notesOf(limit: Limit): string {
  const notes = new Map<string, string[]>();
  for (const value of limit.values) {
    if (value.note === undefined) continue;
    const [text, editions, section] = sourceOf(value);
    const where = [[text, editions].filter(Boolean).join(" "), section].filter(Boolean).join(", ");
    const known = notes.get(value.note) ?? [];
    if (!known.includes(where)) notes.set(value.note, [...known, where]);
  }
  return [...notes].map(([note, where]) => `- ${where.join("; ")}: ${note}`).join("\n");
}

const makers: Record<Limit["maker"], string> = {
  replaces: "The code defers to the listing: the maker's figure stands in its place, more or less.",
  tightens: "The maker's figure binds beside it; the stricter of the two counts.",
};

function limitSection(limit: Limit): string {
  return blocks(
    `### ${limit.title}`,
    `${code(limit.id)}. ${senses[limit.sense]}. ${makers[limit.maker]}`,
    limit.values.length === 0
      ? "No text that dryfit knows sets it; only a local amendment or the maker does."
      : limitTables(limit),
  );
}

function basisLine(basis: CitedBasis): string {
  const force = basis.force === "practice" ? "" : `, ${forces[basis.force]}`;
  const publisher = basis.publisher === "" ? "" : ` (${basis.publisher})`;
  return `- ${basis.citation}${publisher}${force}${basis.note === undefined ? "" : `: ${basis.note}`}`;
}

const keyOf = ({ citation, note }: CitedBasis): string => `${citation}\n${note ?? ""}`;

/** Citations that the limits of an entry can give. */
function limitCitations(limits: readonly Limit[]): Set<string> {
  return new Set(
    limits.flatMap(({ values }) =>
      values.flatMap((value) =>
        (value.text === "practice" ? [0] : editionsOf(value.text)).map((edition) =>
          keyOf(cited(basisOf(value, edition))),
        ),
      ),
    ),
  );
}

/** The bases of an entry beside its limits: its own, and those its examples came to rest on. */
function plainBases(
  entry: CatalogueEntry,
  reached: readonly CitedBasis[],
): { always: CitedBasis[]; sometimes: CitedBasis[] } {
  const fromLimits = limitCitations(entry.limits);
  const always = entry.basis.map(cited);
  const seen = new Set(always.map(keyOf));
  const sometimes: CitedBasis[] = [];
  for (const basis of reached) {
    const key = keyOf(basis);
    if (basis.confirmed === "stated" || seen.has(key) || fromLimits.has(key)) continue;
    seen.add(key);
    sometimes.push(basis);
  }
  return { always, sometimes };
}

/** The whole basis part of a page. */
export function basisPart(entry: CatalogueEntry, reached: readonly CitedBasis[]): string {
  const { always, sometimes } = plainBases(entry, reached);
  return blocks(
    entry.limits.length > 0 &&
      "Which value governs depends on the place: a local amendment stands in place of the text it amends; then the maker's figure, as said at each limit; then the texts that bind in their adopted editions, the stricter of two; common practice last. The finding names the one that governs and those set aside.",
    ...entry.limits.map(limitSection),
    (always.length > 0 || sometimes.length > 0) && (entry.limits.length > 0 ? "### Beside its limits" : ""),
    always.map(basisLine).join("\n"),
    sometimes.length > 0 && `In the cases that call for it, also:\n\n${sometimes.map(basisLine).join("\n")}`,
  );
}

/** One place in a document, with what it sets here and the entries that rest on it. */
interface Place {
  readonly document: string;
  readonly edition: string;
  readonly section: string;
  readonly sets: string;
  readonly confirmed: Confirmed;
  readonly entries: CatalogueEntry[];
}

/** Every section that the catalogue rests on, by document and edition. */
export function placesOf(
  entries: readonly CatalogueEntry[],
  reachedBy: (entry: CatalogueEntry) => readonly CitedBasis[],
): Place[] {
  const places = new Map<string, Place>();
  const add = (basis: Basis, sets: string, entry: CatalogueEntry): void => {
    if (basis.section === "" && basis.edition === "") return;
    const { document, edition, section, confirmed } = basis;
    const key = JSON.stringify([document, edition, section, sets]);
    const known = places.get(key);
    if (!known) places.set(key, { document, edition, section, sets, confirmed, entries: [entry] });
    else if (!known.entries.includes(entry)) known.entries.push(entry);
  };
  for (const entry of entries) {
    for (const limit of entry.limits) {
      for (const value of limit.values) {
        if (value.text === "practice") continue;
        for (const edition of editionsOf(value.text).filter((year) => coversEdition(value, year))) {
          add(basisOf(value, edition), limit.title, entry);
        }
      }
    }
    const { always, sometimes } = plainBases(entry, reachedBy(entry));
    for (const basis of [...always, ...sometimes]) add(basis, basis.note ?? entry.title, entry);
  }
  return [...places.values()];
}

/** One difference between two editions of a text. */
export interface EditionChange {
  readonly text: Text;
  readonly from: number;
  readonly to: number;
  readonly limit: Limit;
  readonly before: string;
  readonly now: string;
  readonly section: string;
  readonly confirmed: string;
}

const inEdition = (limit: Limit, text: Text, edition: number): DatedValue[] =>
  limit.values.filter((value) => value.text === text && coversEdition(value, edition));

/** All cases of a limit in one edition, on one line. */
function valuesText(values: readonly DatedValue[]): string {
  if (values.length === 0) return "none known";
  return values.map((value) => [caseText(value), printed(value)].filter(Boolean).join(": ")).join("; ");
}

const sectionsText = (values: readonly DatedValue[]): string =>
  [...new Set(values.map(({ section }) => section))].join(", ");

/** What differs between consecutive editions of each text, among some limits. A new number of a section counts. */
export function editionChanges(limits: readonly Limit[]): EditionChange[] {
  const texts = [...new Set(limits.flatMap(({ values }) => values.map(({ text }) => text)))].filter(
    (text): text is Text => text !== "practice",
  );
  return texts.flatMap((text) => {
    const editions = editionsOf(text);
    return editions.slice(1).flatMap((to, i) => {
      const from = editions[i]!;
      return limits.flatMap((limit): EditionChange[] => {
        const before = inEdition(limit, text, from);
        const now = inEdition(limit, text, to);
        const sameValues = valuesText(before) === valuesText(now);
        const [oldSection, newSection] = [sectionsText(before), sectionsText(now)];
        if (sameValues && oldSection === newSection) return [];
        const changed = changedCases(before, now);
        const confirmed = [...new Set([...before, ...now].map((value) => confirmations[value.confirmed]))].join("; ");
        return [
          {
            text,
            from,
            to,
            limit,
            before: sameValues ? "the same" : valuesText(changed.before),
            now: sameValues ? "the same" : valuesText(changed.now),
            section:
              oldSection === newSection || oldSection === ""
                ? newSection || "none"
                : `${oldSection}, now ${newSection || "none known"}`,
            confirmed,
          },
        ];
      });
    });
  });
}

/** The cases of two editions that are not the same in both. */
function changedCases(before: readonly DatedValue[], now: readonly DatedValue[]) {
  const key = (value: DatedValue): string => `${caseText(value)}=${printed(value)}`;
  const [old, current] = [new Set(before.map(key)), new Set(now.map(key))];
  return {
    before: before.filter((value) => !current.has(key(value))),
    now: now.filter((value) => !old.has(key(value))),
  };
}

/** A basis as a citation without its caveat, for tables with a column for that. */
export const plainCitation = (basis: Basis): string => cite({ ...basis, confirmed: "seen" });
export { confirmations };
