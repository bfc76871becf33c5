/** The report of one site as HTML: the verdict, what to fix, what to measure, the drawings, and every finding in full. */
import type { UnitSystem } from "../core/quantity/index.js";
import {
  type CalculatedValue,
  type Calculation,
  type CitedBasis,
  type Finding,
  type Missing,
  pathText,
  type SetAside,
  type ShownValue,
  type Step,
  type Verdict,
} from "../core/rule/index.js";
import type { Assessment, Survey, TakeOff, WorkOrder } from "../survey/index.js";
import { siteDrawings } from "./drawings.js";
import { Fields } from "./fields.js";
import { cell, code, facts, linesOf, list, mark, type PageSection, page, paragraph, table } from "./html-page.js";
import { type Content, element, idOf, type Markup, words } from "./markup.js";
import { formulaMarkup } from "./mathml.js";
import { orderDrawing } from "./svg/order.js";
import { supplyHeadings } from "./take-off.js";
import { countsText, verdictWords } from "./text.js";

/** How the report of a site is made. */
export interface SiteReportOptions {
  /** The survey that was assessed; without it there are no drawings, and no facts of place and machine. */
  readonly survey?: Survey;
  /** Its parts and tools, as `takeOff` lists them; no such section where left out. */
  readonly parts?: TakeOff;
  /** Its order of work, as `orderOfWork` gives it; no such section where left out. */
  readonly order?: WorkOrder;
  /** The reader's units, as the assessment was given them; US where left out. */
  readonly units?: UnitSystem;
  /** The decimal mark of the survey; the point where left out. */
  readonly decimal?: "." | ",";
}

const summaries: Readonly<Record<Verdict, string>> = {
  fail: "It does not go in as it was surveyed.",
  review: "It cannot be told yet: something has to be measured or settled first.",
  pass: "Every rule that applies holds, as it was surveyed.",
  notApplicable: "No rule applies to this survey.",
};

const findingId = (rule: string): string => idOf("finding", rule);
const ruleLink = (rule: string): Markup => element("a", { href: `#${findingId(rule)}` }, code(rule));
const citations = (basis: readonly CitedBasis[]): Content =>
  basis.length === 0 ? null : paragraph(`Rests on ${basis[0]!.citation}.`, "quiet");

const heading = (verdict: Verdict, title: string): Markup => element("h3", {}, mark(verdict), words(` ${title}`));

function toFix(findings: readonly Finding[]): Content {
  const failing = findings.filter(({ verdict }) => verdict === "fail");
  if (failing.length === 0) return null;
  return failing.map(({ rule, title, message, remedies, basis }) =>
    element(
      "article",
      { class: "fail" },
      heading("fail", title),
      paragraph(message),
      remedies.length === 0
        ? paragraph("No change of a single measure was found that would pass; see the workings.", "quiet")
        : [paragraph("Would pass, tried:"), list(remedies.map(({ message: change }) => linesOf(change)))],
      citations(basis),
      element("p", {}, words("In full: "), ruleLink(rule)),
    ),
  );
}

const missingField = ({ path }: Missing): Content => code(pathText(path));

function toMeasure({ toMeasure: waiting, findings }: Assessment<"full">): Content {
  const open = findings.filter(({ verdict, missing }) => verdict === "review" && missing.length === 0);
  if (waiting.length === 0 && open.length === 0) return null;
  return [
    waiting.length === 0
      ? null
      : table(
          "In the order of a walk through the site",
          ["Measure or find out", "Field of the survey", "For"],
          waiting.map((one) => [
            cell(linesOf(one.what)),
            cell(missingField(one)),
            cell(one.rules.map((rule, i) => [i === 0 ? null : words(", "), ruleLink(rule)])),
          ]),
        ),
    open.length === 0
      ? null
      : [
          element("h3", {}, words("Measured, and still not told")),
          list(open.map(({ rule, message }) => [linesOf(message), words(" "), ruleLink(rule)])),
        ],
  ];
}

function drawings(assessment: Assessment<"full">, { survey, units, decimal }: SiteReportOptions): Content {
  if (survey === undefined) return null;
  const made = siteDrawings(survey, assessment, {
    ...(units === undefined ? {} : { units }),
    ...(decimal === undefined ? {} : { decimal }),
  });
  if (made.length === 0) return null;
  return element(
    "div",
    { class: "drawings" },
    made.map(({ title, svg }) => element("figure", {}, element("figcaption", {}, words(title)), svg)),
  );
}

/** Parts and tools, what has to be brought first. */
function partsOf({ parts }: SiteReportOptions): Content {
  if (parts === undefined || parts.lines.length === 0) return null;
  return (["bring", "open", "there"] as const).map((supply) => {
    const lines = parts.lines.filter((one) => one.supply === supply);
    if (lines.length === 0) return null;
    return table(
      supplyHeadings[supply],
      ["Part or tool", "Count", "Why"],
      lines.map(({ what, size, count, why, open }) => [
        cell([words(what), size === null ? null : [words(", "), linesOf(size)]]),
        cell(words(count === null ? "?" : String(count)), "number"),
        cell([linesOf(why), open === null ? null : [words(" Measure "), code(open), words(".")]], "free"),
      ]),
    );
  });
}

/** The order of work: its drawing, then what to do at each step. */
function orderOf({ order }: SiteReportOptions): Content {
  if (order === undefined || order.steps.length === 0) return null;
  return [
    element(
      "div",
      { class: "drawings" },
      element("figure", {}, element("figcaption", {}, words("What waits for what")), orderDrawing(order)),
    ),
    list(
      order.steps.map(({ title, what, hold, obstacles }) => [
        element("strong", {}, words(`${title}. `)),
        linesOf(what),
        obstacles.map(({ rule, verdict, message }) => [
          element("br"),
          words(`${verdictWords[verdict]}: ${message} `),
          ruleLink(rule),
        ]),
        hold === null
          ? null
          : [element("br"), words(`Hold, ${hold.kind === "word" ? "until said" : "until measured"}: ${hold.what}`)],
      ]),
      "ol",
    ),
  ];
}

/** A step: its formula set, with its values below; else its text. */
function step({ formula, text, values }: Step): Content {
  if (formula !== null) {
    const texts = Object.fromEntries(Object.entries(values).map(([name, value]) => [name, value.text]));
    const set = formulaMarkup(formula, texts);
    if (set) return set;
  }
  return element("span", { class: formula === null ? undefined : "plain" }, linesOf(text));
}

const forces: Readonly<Record<CitedBasis["force"], string>> = {
  mandatory: "binding where adopted",
  advice: "advice",
  maker: "the maker's instruction",
  local: "local",
  practice: "practice",
};

const basisLine = ({ citation, force, note }: CitedBasis): Content => [
  words(citation),
  element("span", { class: "quiet" }, words(` (${forces[force]})`)),
  note === undefined ? null : words(`: ${note}`),
];

/** What was set aside, each line once: texts often say the same several times over. */
const setAsideLines = (entries: readonly SetAside[]): Content[] =>
  [...new Set(entries.map(({ value, reason, basis }) => `${basis.citation}: ${value.text}; ${reason}`))].map(words);

interface Grounds {
  readonly workings: readonly Step[];
  readonly setAside: readonly SetAside[];
  readonly basis: readonly CitedBasis[];
  readonly missing: readonly Missing[];
  readonly assumptions: readonly string[];
}

/** A short list under its name; nothing where it would be empty. */
const named = (name: string, items: readonly Content[]): Content =>
  items.length === 0 ? null : [element("h4", {}, words(name)), list(items)];

/** What an outcome rests on: workings, bases, what was missing and what was taken for granted. */
const grounds = ({ workings, setAside, basis, missing, assumptions }: Grounds): Content =>
  element(
    "div",
    { class: "grounds" },
    workings.length === 0
      ? null
      : element(
          "details",
          { open: "" },
          element("summary", {}, words("Workings")),
          list(workings.map(step), "ol", "steps"),
        ),
    named(
      "Not measured",
      missing.map((one) => [missingField(one), words(": "), linesOf(one.what)]),
    ),
    named("Taken for granted", assumptions.map(linesOf)),
    named("Basis", basis.map(basisLine)),
    named("Set aside", setAsideLines(setAside)),
  );

/** An article that is longer than this may break over pages in print. */
const LONG = 14;
const lengthClass = ({ workings, basis, missing, setAside }: Grounds): string =>
  workings.length * 2 + basis.length + missing.length + setAside.length > LONG ? " long" : "";

function findingArticle(finding: Finding): Markup {
  const { rule, title, verdict, message, parts, measured, tolerance, limit, margin, remedies } = finding;
  const compared: [string, Content][] = [];
  if (measured) compared.push(["Measured", words(measured.text + (tolerance ? ` ± ${tolerance.text}` : ""))]);
  if (limit) compared.push(["Limit", words(limit.text)]);
  if (margin) compared.push(["Margin", words(margin.text)]);
  return element(
    "article",
    { class: verdict + lengthClass(finding), id: findingId(rule) },
    heading(verdict, title),
    element("p", { class: "quiet" }, code(rule)),
    parts.length > 1
      ? list(
          parts.map((part) => [mark(part.verdict), words(" "), linesOf(part.message)]),
          "ul",
          "marks",
        )
      : paragraph(message),
    facts(compared),
    remedies.length === 0
      ? null
      : [
          paragraph("Would pass, tried:"),
          list(
            remedies.map(({ message: text, changes }) => [
              linesOf(text),
              element(
                "span",
                { class: "quiet" },
                words(` (${changes.map(({ path, value }) => `${pathText(path)}: ${changeText(value)}`).join("; ")})`),
              ),
            ]),
          ),
        ],
    grounds(finding),
  );
}

/** The value of a change: a quantity with its unit, else as JSON has it. */
function changeText(value: unknown): string {
  if (typeof value === "object" && value !== null && "value" in value && "unit" in value)
    return `${value.value} ${value.unit}`;
  return JSON.stringify(value);
}

const valueText = (value: ShownValue | null): string =>
  value === null ? "none" : value.text + (value.tolerance ? ` ± ${value.tolerance.text}` : "");

/** A name of the code as words: `naturalGas` reads "natural gas". */
const apartWords = (name: string): string => name.replace(/([a-z])([A-Z])/g, "$1 $2").toLowerCase();
const heldWords = (name: string): string => {
  const apart = apartWords(name);
  return apart.charAt(0).toUpperCase() + apart.slice(1);
};

type Records = readonly Readonly<Record<string, ShownValue | null>>[];
const isList = (value: CalculatedValue): value is Records => Array.isArray(value);

function recordsTable(name: string, records: Records): Content {
  const columns = Object.keys(records[0] ?? {});
  if (columns.length === 0) return null;
  return table(
    heldWords(name),
    columns.map(heldWords),
    records.map((record) => columns.map((column) => cell(words(valueText(record[column] ?? null))))),
  );
}

function calculationArticle(calculation: Calculation): Markup {
  const { calculator, title, status, message, values } = calculation;
  const entries = Object.entries(values);
  const single = entries.flatMap(([name, value]): [string, Content][] =>
    isList(value) || value === null ? [] : [[heldWords(name), words(valueText(value))]],
  );
  return element(
    "article",
    { id: findingId(calculator), class: lengthClass(calculation).trim() || undefined },
    element("h3", {}, words(title)),
    element("p", { class: "quiet" }, code(calculator)),
    status === "computed"
      ? [facts(single), entries.map(([name, value]) => (isList(value) ? recordsTable(name, value) : null))]
      : paragraph(`${status === "missing" ? "Waits for a measurement" : "No answer"}: ${message}`),
    grounds(calculation),
  );
}

/** Every basis once, with what rests on it. */
function allBases({ findings, values }: Assessment<"full">): Content {
  const known = new Map<string, { basis: CitedBasis; users: string[] }>();
  const add = (user: string, bases: readonly CitedBasis[]): void => {
    for (const basis of bases) {
      const key = `${basis.citation}\n${basis.note ?? ""}`;
      const entry = known.get(key) ?? { basis, users: [] };
      if (!entry.users.includes(user)) entry.users.push(user);
      known.set(key, entry);
    }
  };
  for (const { rule, verdict, basis } of findings) if (verdict !== "notApplicable") add(rule, basis);
  for (const { calculator, basis } of values) add(calculator, basis);
  if (known.size === 0) return null;
  const sorted = [...known.values()].sort((a, b) => (a.basis.citation < b.basis.citation ? -1 : 1));
  return table(
    "What the findings rest on",
    ["Document and section", "Publisher", "Force", "Used by"],
    sorted.map(({ basis, users }) => [
      cell(words(basis.note === undefined ? basis.citation : `${basis.citation}: ${basis.note}`)),
      cell(words(basis.publisher === "" ? "none" : basis.publisher), "free"),
      cell(words(forces[basis.force])),
      cell(users.map((rule, i) => [i === 0 ? null : words(", "), ruleLink(rule)])),
    ]),
  );
}

function siteFacts({ survey, decimal }: SiteReportOptions): Content {
  if (survey === undefined) return null;
  const fields = new Fields(survey, decimal);
  const said = (name: string, ...paths: string[]): [string, Content][] => {
    const texts = paths.flatMap((path) => fields.text(path) ?? []);
    return texts.length === 0 ? [] : [[name, linesOf(texts.join(", "))]];
  };
  const fuel = fields.text("machine.fuel");
  const kinds = [fields.text("machine.kind"), fuel === "none" ? undefined : fuel, fields.text("machine.exhaust")];
  const machine: [string, Content][] = [
    ["Machine", words(kinds.flatMap((one) => (one === undefined ? [] : apartWords(one))).join(", "))],
  ];
  return facts([
    ...said("Place", "site.place"),
    ...machine,
    ...said("Measured by", "measured.by", "measured.on"),
    ...said("Measured with", "measured.with"),
    ...said("Notes", "notes"),
  ]);
}

const listed = (texts: readonly string[]): Content => list(texts.map(linesOf));

/**
 * The report of one site as one HTML file: no script, no network, fit for screen and paper.
 *
 * @param assessment - with full detail
 * @throws RangeError where the survey is not the one that was assessed and a measure of it cannot be read
 */
export function siteHtml(assessment: Assessment<"full">, options: SiteReportOptions = {}): string {
  const { site, verdict, counts, findings, values } = assessment;
  const applying = findings.filter((finding) => finding.verdict !== "notApplicable");
  const resting = findings.filter((finding) => finding.verdict === "notApplicable");
  const sections: PageSection[] = [
    {
      id: "verdict",
      title: "Verdict",
      content: [
        element("p", { class: "verdict" }, mark(verdict), words(` ${summaries[verdict]}`)),
        paragraph(`Rules: ${countsText(counts)}.`),
      ],
    },
    { id: "fix", title: "What to fix", content: toFix(findings) },
    { id: "measure", title: "What to measure next", content: toMeasure(assessment) },
    { id: "drawings", title: "Drawings", content: drawings(assessment, options) },
    { id: "parts", title: "Parts and tools", content: partsOf(options) },
    { id: "order", title: "Order of work", content: orderOf(options) },
    { id: "findings", title: "Every finding", content: applying.length === 0 ? null : applying.map(findingArticle) },
    { id: "values", title: "Computed", content: values.length === 0 ? null : values.map(calculationArticle) },
    {
      id: "not-here",
      title: "Rules that do not apply here",
      content:
        resting.length === 0
          ? null
          : table(
              "With the reason",
              ["Rule", "Reason"],
              resting.map(({ rule, message }) => [cell(code(rule, findingId(rule))), cell(linesOf(message), "free")]),
            ),
    },
    { id: "assumptions", title: "Taken for granted", content: listed(assessment.assumptions) },
    { id: "bases", title: "Bases", content: allBases(assessment) },
    { id: "cautions", title: "Cautions", content: listed(assessment.cautions) },
  ];
  return page({ title: site, lead: siteFacts(options), sections });
}
