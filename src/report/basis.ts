/** What was found for a look-up of bases, as plain text. */
import { adoptable, type DatedValue, documentOf, type Limit, type LimitSense } from "../core/basis/index.js";
import { unitFacts } from "../core/quantity/index.js";
import type { CatalogueEntry } from "../core/rule/index.js";
import type { Found } from "../survey/index.js";
import { cleanText } from "./text.js";

const senses: Readonly<Record<LimitSense, string>> = { atMost: "at most", atLeast: "at least", required: "required" };

const confirmations: Readonly<Record<DatedValue["confirmed"], string>> = {
  seen: "seen in a published copy",
  secondary: "seen in a secondary source only",
  computed: "computed",
  practice: "no source",
  memory: "from memory, not yet seen",
  stated: "as stated by the caller",
};

function printedText({ value }: DatedValue): string {
  if (typeof value === "boolean") return value ? "required" : "not required";
  if (typeof value === "number") return String(value);
  return `${Number(value[0].toPrecision(5))} ${unitFacts(value[1]).spellings[0]}`;
}

function whereText({ text, from, to, section = "" }: DatedValue): string {
  if (text === "practice") return "Common practice";
  const { short, editions } = adoptable[documentOf(text)];
  const first = from ?? editions[0]!;
  const last = to ?? editions.at(-1)!;
  return `${short} ${first === last ? first : `${first} to ${last}`}, ${section}`;
}

function valueLine(value: DatedValue): string {
  const when = Object.entries(value.when ?? {}).map(([key, wanted]) => `${key} ${wanted}`);
  const condition = when.length === 0 ? "" : ` where ${when.join(", ")}`;
  const note = value.note === undefined ? "" : ` ${value.note}`;
  return `    ${printedText(value)}${condition}: ${whereText(value)} (${confirmations[value.confirmed]}).${note}`;
}

const overrides: Readonly<Record<Limit["maker"], string>> = {
  replaces: "A local amendment overrides it, and so does the maker's own figure.",
  tightens: "A local amendment overrides it; the maker's own figure counts where it is stricter.",
};

function limitLines(limit: Limit, values: readonly DatedValue[], usedBy: readonly string[]): string[] {
  const sense = limit.sense === "required" ? "" : ` (${senses[limit.sense]})`;
  return [
    `${limit.id}: ${limit.title}${sense}`,
    ...values.map(valueLine),
    `    ${overrides[limit.maker]} Asked for by ${usedBy.join(", ")}.`,
  ];
}

/** The first worked example of an entry, step by step. */
function exampleLines(entry: CatalogueEntry): string[] {
  const [example] = entry.examples;
  if (!example) return [];
  const { message, workings } = entry(example.input, example.at);
  return [
    `    Example: ${example.title}`,
    ...workings.map(({ text }) => `      ${text}`),
    ...message.split("\n").map((line) => `      ${line}`),
  ];
}

const group = (title: string, blocks: readonly (readonly string[])[]): string[] =>
  blocks.length === 0 ? [] : [title, ...blocks.flatMap((block) => block.map((line) => `  ${line}`)), ""];

/** What was found, as plain text; says so where it is nothing. */
export function basisText({ entries, limits, bases, tables }: Found): string {
  const lines = [
    ...group(
      "Rules and calculators",
      entries.map((entry) => [`${entry.id}: ${entry.title}`, ...(entries.length === 1 ? exampleLines(entry) : [])]),
    ),
    ...group(
      "Limits",
      limits.map(({ limit, values, usedBy }) => limitLines(limit, values, usedBy)),
    ),
    ...group(
      "Bases",
      bases.map(({ basis: { citation, note }, usedBy }) => [
        `${citation}${note === undefined ? "" : `: ${note}`}`,
        `    Used by ${usedBy.join(", ")}.`,
      ]),
    ),
    ...group(
      "Tables, as the worked examples look into them",
      tables.map(({ table, lookups, usedBy }) => [
        `${table}, used by ${usedBy.join(", ")}`,
        ...lookups.map((lookup) => `    ${lookup}`),
      ]),
    ),
  ];
  return lines.length === 0 ? "" : `${lines.map(cleanText).join("\n").trimEnd()}\n`;
}
