/** An assessment, a finding or a calculation as plain text or Markdown. A view only: nothing is computed here. */
import {
  type CalculatedValue,
  type Calculation,
  cautions,
  type Finding,
  pathText,
  type SetAside,
  type ShownValue,
  type Step,
  type Verdict,
} from "../core/rule/index.js";
import type { Assessment, Detail, FindingOf, Tally, ToMeasure, VerdictCounts } from "../survey/index.js";

/** What a piece of text stands for, for those who colour it. The words say the same without colour. */
export type Role = Verdict | "quiet" | "strong";
/** Adds colour to a piece of text. */
export type Paint = (text: string, role: Role) => string;

/** How a text is laid out. */
export interface TextOptions {
  /** Columns to wrap at; lines are left long where left out. */
  readonly width?: number;
  /** Colour; none where left out. */
  readonly paint?: Paint;
}

/** Verdicts as people read them. */
export const verdictWords: Readonly<Record<Verdict, string>> = {
  fail: "FAIL",
  review: "REVIEW",
  pass: "PASS",
  notApplicable: "N/A",
};
const WORD_WIDTH = 6;

/**
 * A text without characters that steer a terminal or turn its direction. Survey texts are other people's: a name may
 * hold an escape sequence. Each such character becomes the replacement character.
 */
export const cleanText = (text: string): string => text.replace(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu, "\ufffd");

const plainPaint: Paint = (text) => text;

/** Lines of a text at a width, each after the first set in like it. */
function wrapped(text: string, first: string, rest: string, width: number | undefined): string[] {
  const clean = cleanText(text);
  if (width === undefined || first.length + clean.length <= width) return [first + clean];
  const lines: string[] = [];
  let line = first;
  let empty = true;
  for (const word of clean.split(" ")) {
    if (!empty && line.length + 1 + word.length > width) {
      lines.push(line);
      line = rest + word;
    } else {
      line += empty ? word : ` ${word}`;
      empty = false;
    }
  }
  return [...lines, line];
}

class Page {
  readonly lines: string[] = [];
  readonly #width: number | undefined;
  readonly #paint: Paint;
  constructor({ width, paint = plainPaint }: TextOptions) {
    this.#width = width === undefined ? undefined : Math.max(40, width);
    this.#paint = paint;
  }
  /** A text set in by some columns, its further lines set in a little more. */
  add(text: string, indent: number, role?: Role, hang = 0): void {
    const lines = wrapped(text, " ".repeat(indent), " ".repeat(indent + hang), this.#width);
    this.lines.push(...(role ? lines.map((line) => this.#paint(line, role)) : lines));
  }
  /** A verdict's word and what follows it. */
  addVerdict(verdict: Verdict, text: string, indent: number): void {
    const word = verdictWords[verdict];
    const start = " ".repeat(indent) + word.padEnd(WORD_WIDTH + 1);
    const [first = "", ...rest] = wrapped(text, start, " ".repeat(start.length), this.#width);
    this.lines.push(" ".repeat(indent) + this.#paint(word, verdict) + first.slice(indent + word.length), ...rest);
  }
  toString(): string {
    return `${this.lines.join("\n")}\n`;
  }
}

/** Counts by verdict as a phrase: `1 fail, 2 review, 9 pass, 4 not applicable`. */
export function countsText({ fail, review, pass, notApplicable }: VerdictCounts): string {
  return `${fail} fail, ${review} review, ${pass} pass, ${notApplicable} not applicable`;
}

/** The counts over many rows; they add up to the rows read. */
export function tallyText({ rows, refused, byVerdict }: Pick<Tally, "rows" | "refused" | "byVerdict">): string {
  const answered = rows - refused;
  const sites = `${answered} answered (${countsText(byVerdict)}), ${refused} refused`;
  return `${rows} ${rows === 1 ? "row" : "rows"} read: ${sites}`;
}

type AnyFinding = FindingOf<Detail>;
const isFinding = (finding: AnyFinding): finding is FindingOf<"brief"> => "message" in finding;
const isFull = (finding: AnyFinding): finding is Finding => "workings" in finding;

/** A finding's message with what it rests on first, in brackets; what does not apply rests on nothing. */
function messageWithBasis({ rule, verdict, message, basis: [first] }: FindingOf<"brief">): string {
  const basis = first?.citation ?? (verdict === "notApplicable" ? "" : "no basis cited");
  return `${rule}: ${message}${basis === "" ? "" : ` [${basis}]`}`;
}

/**
 * One finding on one line: verdict, rule, message, the basis it rests on.
 * For example `FAIL   venting/duct-length: The duct's developed length of 43 ft ... [IRC 2021, M1502.4.6.1]`.
 */
export function findingLine(finding: FindingOf<"brief">, options: TextOptions = {}): string {
  const page = new Page(options);
  page.addVerdict(finding.verdict, messageWithBasis(finding), 0);
  return page.lines.join("\n");
}

function addRemedies(page: Page, remedies: Finding["remedies"], indent: number): void {
  for (const { message } of remedies) page.add(`Would pass: ${message}`, indent, undefined, 2);
}

function addMissing(page: Page, missing: Finding["missing"], indent: number): void {
  for (const { path, what } of missing) page.add(`Measure ${pathText(path)}: ${what}`, indent, undefined, 2);
}

function addWorkings(page: Page, workings: readonly Step[], setAside: readonly SetAside[], indent: number): void {
  for (const { text } of workings) page.add(text, indent, undefined, 2);
  for (const { value, reason, basis } of setAside) {
    page.add(`Set aside: ${value.text} of ${basis.citation}: ${reason}.`, indent, "quiet", 2);
  }
}

function addFinding(page: Page, finding: AnyFinding, indent: number): void {
  const inner = indent + WORD_WIDTH + 1;
  if (!isFinding(finding)) {
    page.addVerdict(finding.verdict, `${finding.rule}: ${finding.messageId}`, indent);
    return;
  }
  page.addVerdict(finding.verdict, messageWithBasis(finding), indent);
  addRemedies(page, finding.remedies, inner);
  if (!isFull(finding)) return;
  const { measured, limit, margin, tolerance } = finding;
  if (measured && limit && margin) {
    const spread = tolerance ? ` ± ${tolerance.text}` : "";
    page.add(`Measured ${measured.text}${spread}, limit ${limit.text}, room ${margin.text}`, inner);
  }
  addWorkings(page, finding.workings, finding.setAside, inner);
  for (const { citation, note } of finding.basis) {
    page.add(`Basis: ${citation}${note === undefined ? "" : `: ${note}`}`, inner, "quiet", 2);
  }
}

function addToMeasure(page: Page, missing: readonly ToMeasure[], indent: number): void {
  if (missing.length === 0) return;
  page.add("Measure next, in the order of a walk through the site:", indent);
  for (const { path, what } of missing) page.add(`${pathText(path)}: ${what}`, indent + 2, undefined, 2);
}

function addList(page: Page, title: string, texts: readonly string[], indent: number): void {
  if (texts.length === 0) return;
  page.add(title, indent);
  for (const text of texts) page.add(text, indent + 2, undefined, 2);
}

const isListOfRecords = (value: CalculatedValue): value is Exclude<CalculatedValue, ShownValue | null> =>
  Array.isArray(value);

const valueText = (value: ShownValue | null): string =>
  value === null ? "none" : value.text + (value.tolerance ? ` ± ${value.tolerance.text}` : "");

function addValues(page: Page, values: Calculation["values"], indent: number): void {
  for (const [name, value] of Object.entries(values)) {
    if (!isListOfRecords(value)) page.add(`${name}: ${valueText(value)}`, indent, undefined, 2);
    else {
      value.forEach((record, i) => {
        const fields = Object.entries(record).map(([key, field]) => `${key} ${valueText(field)}`);
        page.add(`${name}[${i}]: ${fields.join(", ")}`, indent, undefined, 2);
      });
    }
  }
}

const statusWords: Readonly<Record<Calculation["status"], string>> = {
  computed: "Computed",
  missing: "Waits for a measurement",
  impossible: "No answer",
};

function addCalculation(page: Page, calculation: Calculation, indent: number): void {
  const { calculator, title, status, message, values, workings, setAside, basis, missing } = calculation;
  page.add(`${calculator}: ${title}`, indent, "strong");
  if (status === "computed") addValues(page, values, indent + 2);
  else page.add(`${statusWords[status]}: ${message}`, indent + 2);
  addMissing(page, missing, indent + 2);
  addWorkings(page, workings, setAside, indent + 2);
  for (const { citation, note } of basis) {
    page.add(`Basis: ${citation}${note === undefined ? "" : `: ${note}`}`, indent + 2, "quiet", 2);
  }
}

/** One site as plain text: its verdict and counts, its findings worst first, what to measure next. */
export function assessmentText(assessment: Assessment<Detail>, options: TextOptions = {}): string {
  const page = new Page(options);
  const { site, verdict, counts, findings, values, toMeasure } = assessment;
  page.addVerdict(verdict, `${site}: ${countsText(counts)}`, 0);
  for (const finding of findings) addFinding(page, finding, 2);
  for (const value of values) addCalculation(page, value, 2);
  addToMeasure(page, toMeasure, 2);
  addList(page, "Taken for granted:", assessment.assumptions, 2);
  if (findings.some(isFull)) addList(page, "Cautions:", assessment.cautions, 2);
  return page.toString();
}

/** One finding as plain text, with its workings. */
export function findingText(finding: Finding, options: TextOptions = {}): string {
  const page = new Page(options);
  page.add(finding.title, 0, "strong");
  addFinding(page, finding, 0);
  addMissing(page, finding.missing, 0);
  addList(page, "Taken for granted:", finding.assumptions, 0);
  addList(page, "Cautions:", finding.cautions, 0);
  return page.toString();
}

/** One calculation as plain text, with its workings. */
export function calculationText(calculation: Calculation, options: TextOptions = {}): string {
  const page = new Page(options);
  addCalculation(page, calculation, 0);
  addList(page, "Taken for granted:", calculation.assumptions, 0);
  addList(page, "Cautions:", calculation.cautions, 0);
  return page.toString();
}

/** The sentence under every list of verdicts. */
export const deferralText: string = cautions.deferral;

/** Other people's text inside Markdown: no markup, no HTML, no cell of a table closed early. */
export const markdownText = (text: string): string =>
  cleanText(text).replace(/[\\`*_{}[\]<>()#+!|~&-]/g, (mark) =>
    mark === "<" ? "&lt;" : mark === "&" ? "&amp;" : `\\${mark}`,
  );

const bullets = (texts: readonly string[]): string[] => texts.map((text) => `- ${markdownText(text)}`);
const section = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : ["", `## ${title}`, "", ...lines];

/** One site as Markdown: a table of findings, then remedies, what to measure, values, assumptions, cautions. */
export function assessmentMarkdown(assessment: Assessment<"brief" | "full">): string {
  const { site, verdict, counts, findings, values, toMeasure, assumptions } = assessment;
  const rows = findings.map(
    (finding) =>
      `| ${verdictWords[finding.verdict]} | ${finding.rule} | ${markdownText(finding.message)} | ${markdownText(
        finding.basis.map(({ citation }) => citation).join("; "),
      )} |`,
  );
  const remedies = findings.flatMap(({ rule, remedies: offered }) =>
    offered.map(({ message }) => `- ${rule}: ${markdownText(message)}`),
  );
  const computed = values.flatMap(({ calculator, status, message }) =>
    status === "computed" ? [`- ${calculator}: ${markdownText(message)}`] : [],
  );
  const measure = toMeasure.map(
    ({ path, what }) => `- \`${cleanText(pathText(path)).replaceAll("`", "'")}\`: ${markdownText(what)}`,
  );
  return [
    `# ${markdownText(site)}`,
    "",
    `**${verdictWords[verdict]}**: ${countsText(counts)}`,
    "",
    "| Verdict | Rule | Finding | Basis |",
    "| --- | --- | --- | --- |",
    ...rows,
    ...section("What would pass", remedies),
    ...section("Measure next", measure),
    ...section("Computed", computed),
    ...section("Taken for granted", bullets(assumptions)),
    ...section("Cautions", bullets(assessment.cautions)),
    "",
    deferralText,
    "",
  ].join("\n");
}
