/** Makes the generated pages, and the generated parts of the written ones, from the catalogue. */
import { adoptable } from "../../src/core/basis/index.js";
import {
  type Calculation,
  type CatalogueEntry,
  type CitedBasis,
  cautions,
  type Finding,
  inputOf,
  limitsOf,
  tradeOf,
} from "../../src/core/rule/index.js";
import { basisPart, confirmations, editionChanges, placesOf, textTitle } from "./basis.js";
import { inputRows } from "./inputs.js";
import { blocks, code, literal, table } from "./markdown.js";
import { exportOf } from "./site/commands.js";

type Result = Finding | Calculation;
const isFinding = (result: Result): result is Finding => "rule" in result;

const known = new Map<CatalogueEntry, readonly Result[]>();

/** What the examples of an entry give. */
function resultsOf(entry: CatalogueEntry): readonly Result[] {
  let results = known.get(entry);
  if (!results) {
    results = entry.examples.map(({ input, at }) => entry(input, at));
    known.set(entry, results);
  }
  return results;
}

const reachedBy = (entry: CatalogueEntry): CitedBasis[] => resultsOf(entry).flatMap(({ basis }) => [...basis]);

/** A message with its slots in italics. */
const spoken = (template: string): string =>
  template.replace(/\{([A-Za-z]\w*):\w+\}/g, (_, name: string) => `*${name}*`);

const meanings: Readonly<Record<string, string>> = {
  pass: "passes",
  fail: "fails",
  review: "needs review",
  notApplicable: "does not apply",
  missing: "something is needed first",
  impossible: "no answer",
};

function outputsTable(entry: CatalogueEntry): string {
  if (entry.kind === "rule") return "";
  const rows = Object.entries(entry.outputs).flatMap(([name, output]) =>
    "list" in output
      ? [
          [code(`${name}[]`), output.what, "list"],
          ...Object.entries(output.list).map(([field, { what, kind }]) => [code(`${name}[].${field}`), what, kind]),
        ]
      : [[code(name), output.what, output.kind]],
  );
  return `It gives:\n\n${table(["value", "what it is", "kind"], rows)}`;
}

function whatPart(entry: CatalogueEntry): string {
  const messages = Object.entries(entry.messages as Record<string, Record<string, string>>).flatMap(([verdict, byId]) =>
    Object.entries(byId).map(([id, text]) => [meanings[verdict] ?? verdict, code(id), spoken(text)]),
  );
  const remedies = entry.kind === "rule" ? Object.values(entry.remedies) : [];
  return blocks(
    `**${entry.title}.** A ${entry.kind} of ${code(`dryfit/${tradeOf(entry)}`)}, since ${entry.since}.`,
    outputsTable(entry),
    table([entry.kind === "rule" ? "verdict" : "status", "message", "what it says"], messages),
    remedies.length > 0 &&
      `Where it fails it may offer, each tried before it is offered:\n\n${remedies.map((text) => `- ${spoken(text)}`).join("\n")}`,
    `Cautions:\n\n${entry.cautions.map((name) => `- ${cautions[name]}`).join("\n")}`,
  );
}

const inputsPart = (entry: CatalogueEntry): string =>
  table(["field", "what it is", "form", "between", "needed"], inputRows(inputOf(entry)));

/** Text in single quotes for a shell. */
const quoted = (text: string): string => `'${text.replaceAll("'", "'\\''")}'`;

function examplePart(entry: CatalogueEntry): string {
  const [example] = entry.examples;
  const [result] = resultsOf(entry);
  const name = exportOf(entry.id);
  const at = example!.at === undefined ? "" : `, ${literal(example!.at, 96)}`;
  const call = `${name}(${literal(example!.input)}${at})`;
  const place = example!.at === undefined ? "" : " --at place.json";
  const outcome = isFinding(result!) ? meanings[result.verdict] : result!.status;
  return blocks(
    `${example!.title}:`,
    `\`\`\`ts\nimport { ${name} } from "dryfit/${tradeOf(entry)}";\n\n${call};\n\`\`\``,
    "or, as a command,",
    `\`\`\`sh\necho ${quoted(JSON.stringify(example!.input))} | dryfit calc ${entry.id} -${place}\n\`\`\``,
    example!.at !== undefined &&
      `with, in \`place.json\`,\n\n\`\`\`json\n${JSON.stringify(example!.at, null, 2)}\n\`\`\``,
    `It ${outcome === "computed" ? "gives" : `${outcome}:`}`,
    `> ${result!.message}`,
    result!.workings.length > 0 && `Workings:\n\n${result!.workings.map(({ text }) => `1. ${text}`).join("\n")}`,
    result!.assumptions.length > 0 && `Assumed:\n\n${result!.assumptions.map((text) => `- ${text}`).join("\n")}`,
    result!.basis.length > 0 &&
      `It rests on:\n\n${result!.basis.map(({ citation, note }) => `- ${citation}${note === undefined ? "" : `: ${note}`}`).join("\n")}`,
  );
}

const parts: Readonly<Record<string, (entry: CatalogueEntry) => string>> = {
  what: whatPart,
  inputs: inputsPart,
  basis: (entry) => basisPart(entry, reachedBy(entry)),
  example: examplePart,
};

/** Where the page of an entry lies, from the root of the project. */
export const pageOf = ({ id }: CatalogueEntry): string => `docs/rules/${id}.md`;

/**
 * A page with its marked parts made anew.
 *
 * @throws RangeError where a marker is missing, twice there or not known
 */
export function filledPage(entry: CatalogueEntry, page: string): string {
  const seen: string[] = [];
  const filled = page.replace(/^<!-- made:(\w+) -->\n[\s\S]*?^<!-- \/made -->$/gm, (_, name: string) => {
    const make = parts[name];
    if (!make) throw new RangeError(`${pageOf(entry)}: there is no part called "${name}"`);
    seen.push(name);
    return `<!-- made:${name} -->\n\n${make(entry)}\n\n<!-- /made -->`;
  });
  if (seen.join() !== Object.keys(parts).join()) {
    throw new RangeError(`${pageOf(entry)} needs the marked parts ${Object.keys(parts)}, once each and in this order`);
  }
  return filled;
}

const generated = "<!-- This page is made by `npm run pages`. -->";

/** Front matter that puts pages below this one in the site. */
const frontMatter = (title: string, children: readonly string[]): string =>
  [
    "---",
    `title: ${JSON.stringify(title)}`,
    ...(children.length === 0 ? [] : ["children:", ...children.map((path) => `  - ${path}`)]),
    "---",
  ].join("\n");

const linkTo = (entry: CatalogueEntry, from: string): string => `[${entry.id}](${from}${entry.id}.md)`;

const tradesOf = (entries: readonly CatalogueEntry[]): string[] => [...new Set(entries.map(tradeOf))];

function rulesIndex(entries: readonly CatalogueEntry[]): string {
  return blocks(
    frontMatter(
      "Rules and calculators",
      entries.map(({ id }) => `./${id}.md`),
    ),
    generated,
    "# Rules and calculators",
    "A rule compares and gives a finding with a verdict; a calculator gives values. Each page says what it checks, why, when it does not apply, what it needs, what it rests on in each edition, and one worked example.",
    ...tradesOf(entries).map((trade) =>
      blocks(
        `## ${trade}`,
        table(
          ["id", "what holds, or what is computed", "kind", "since"],
          entries
            .filter((entry) => tradeOf(entry) === trade)
            .map((entry) => [linkTo(entry, ""), entry.title, entry.kind, entry.since]),
        ),
      ),
    ),
  );
}

/** Sections in the order a reader turns the pages: numbers by value, not by letter. */
const inOrder = new Intl.Collator("en", { numeric: true }).compare;

function sectionsIndex(entries: readonly CatalogueEntry[]): string {
  const places = placesOf(entries, reachedBy);
  const documents = [...new Set(places.map(({ document }) => document))].sort(inOrder);
  const full = (short: string): string => {
    const found = Object.values(adoptable).find((document) => document.short === short);
    return found ? `${found.title}, ${found.publisher}` : "";
  };
  return blocks(
    frontMatter("From section to rule", []),
    generated,
    "# From section to rule",
    "Which rules rest on a section: document, edition, section, rule. The last column says how the value was confirmed; look it up in your own copy before you rely on it.",
    ...documents.flatMap((document) => {
      const own = places.filter((place) => place.document === document);
      const editions = [...new Set(own.map(({ edition }) => edition))].sort(inOrder).reverse();
      return [
        `## ${document}`,
        full(document),
        ...editions.flatMap((edition) => [
          edition === "" ? "" : `### ${document} ${edition}`,
          table(
            ["section", "what it sets here", "rules", "confirmed"],
            own
              .filter((place) => place.edition === edition)
              .sort((a, b) => inOrder(a.section, b.section) || inOrder(a.sets, b.sets))
              .map(({ section, sets, entries: by, confirmed }) => [
                section,
                sets,
                by.map((entry) => linkTo(entry, "rules/")).join(", "),
                confirmations[confirmed],
              ]),
          ),
        ]),
      ];
    }),
  );
}

function editionsPage(trade: string, entries: readonly CatalogueEntry[]): string {
  const own = entries.filter((entry) => tradeOf(entry) === trade);
  const changes = editionChanges(limitsOf(own));
  const texts = [...new Set(changes.map(({ text }) => text))];
  return blocks(
    frontMatter(`Editions: ${trade}`, []),
    generated,
    `# ${trade}: what differs from the edition before`,
    'Only what these rules use. A row with a new section number and the same value is a renumbering. "None known" means that these tables hold no figure for that edition; the text may still have one.',
    ...texts.flatMap((text) => [
      `## ${textTitle(text)}`,
      table(
        ["edition", "limit", "before", "now", "section", "confirmed"],
        changes
          .filter((change) => change.text === text)
          .map(({ from, to, limit, before, now, section, confirmed }) => [
            `${to} (from ${from})`,
            limit.title,
            before,
            now,
            section,
            confirmed,
          ]),
      ),
    ]),
    changes.length === 0 && "No limit of these rules differs between the editions that dryfit knows.",
  );
}

/** Every page that is made whole, by its path from the root of the project. */
export function wholePages(entries: readonly CatalogueEntry[]): Map<string, string> {
  return new Map(
    [
      ["docs/rules/index.md", rulesIndex(entries)] as const,
      ["docs/index-of-sections.md", sectionsIndex(entries)] as const,
      ...tradesOf(entries).map((trade) => [`docs/editions/${trade}.md`, editionsPage(trade, entries)] as const),
    ].map(([path, text]) => [path, `${text}\n`]),
  );
}
