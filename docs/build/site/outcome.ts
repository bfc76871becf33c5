/** A finding or a calculation on the page: what it says first, what it rests on below. */
import {
  type CalculatedValue,
  type Calculation,
  type CatalogueEntry,
  type Finding,
  pathText,
  type ShownValue,
  type Step,
} from "../../../src/core/rule/index.js";
import type { SiteDrawing } from "../../../src/report/drawings.js";
import { formulaMarkup } from "../../../src/report/mathml.js";
import { verdictWords } from "../../../src/report/text.js";
import { button, make, setMarkup } from "./dom.js";
import type { Path } from "./form.js";

type Result = Finding | Calculation;
const isFinding = (result: Result): result is Finding => "rule" in result;

/** What a reader may do from a result. */
export interface Actions {
  readonly goTo: (path: Path) => void;
  readonly apply: (changes: Finding["remedies"][number]["changes"]) => void;
}

const statusWords = { computed: "COMPUTED", missing: "WAITING", impossible: "NO ANSWER" } as const;

/** The word that a result begins with, and the kind that it is shown as. */
export const headOf = (result: Result): { readonly word: string; readonly kind: string } =>
  isFinding(result)
    ? { word: verdictWords[result.verdict], kind: result.verdict }
    : {
        word: statusWords[result.status],
        kind: { computed: "pass", missing: "review", impossible: "fail" }[result.status],
      };

const section = (title: string, ...content: readonly (Node | null)[]): HTMLElement =>
  make("section", {}, make("h4", {}, title), ...content);

const listed = (title: string, items: readonly (Node | string)[]): HTMLElement | null =>
  items.length === 0 ? null : section(title, make("ul", {}, ...items.map((item) => make("li", {}, item))));

function facts(pairs: readonly (readonly [string, string])[]): HTMLElement | null {
  if (pairs.length === 0) return null;
  return make("dl", {}, ...pairs.flatMap(([name, value]) => [make("dt", {}, name), make("dd", {}, value)]));
}

function step({ formula, text, values }: Step): HTMLElement {
  const texts = Object.fromEntries(Object.entries(values).map(([name, value]) => [name, value.text]));
  const set = formula === null ? undefined : formulaMarkup(formula, texts);
  return set ? setMarkup(make("li"), set) : make("li", {}, text);
}

const workings = (steps: readonly Step[]): HTMLElement | null =>
  steps.length === 0 ? null : section("Workings", make("ol", { class: "steps" }, ...steps.map(step)));

function compared({ measured, tolerance, limit, margin }: Finding): HTMLElement | null {
  const pairs: [string, string][] = [];
  if (measured) pairs.push(["Measured", measured.text + (tolerance ? ` ± ${tolerance.text}` : "")]);
  if (limit) pairs.push(["Limit", limit.text]);
  if (margin) pairs.push(["Margin", margin.text]);
  return facts(pairs);
}

const said = (value: ShownValue | null): string =>
  value === null ? "none" : value.text + (value.tolerance ? ` ± ${value.tolerance.text}` : "");

type Records = readonly Readonly<Record<string, ShownValue | null>>[];
const isList = (value: CalculatedValue): value is Records => Array.isArray(value);

function records(name: string, rows: Records): HTMLElement | null {
  const columns = Object.keys(rows[0] ?? {});
  if (columns.length === 0) return null;
  const line = (cell: "th" | "td", texts: readonly string[]) =>
    make("tr", {}, ...texts.map((text) => make(cell, cell === "th" ? { scope: "col" } : {}, text)));
  return make(
    "div",
    { class: "scroll", tabindex: "0", role: "group", "aria-label": name },
    make(
      "table",
      {},
      make("caption", {}, name),
      make("thead", {}, line("th", columns)),
      make(
        "tbody",
        {},
        ...rows.map((row) =>
          line(
            "td",
            columns.map((column) => said(row[column] ?? null)),
          ),
        ),
      ),
    ),
  );
}

function values(entry: CatalogueEntry, calculation: Calculation): (Node | null)[] {
  if (entry.kind !== "calculator" || calculation.status !== "computed") return [];
  const all = Object.entries(calculation.values);
  const single = all.flatMap(([name, value]): [string, string][] =>
    isList(value) ? [] : [[entry.outputs[name]!.what, said(value)]],
  );
  return [
    facts(single),
    ...all.map(([name, value]) => (isList(value) ? records(entry.outputs[name]!.what, value) : null)),
  ];
}

/** Everything of a result below its message. */
export function outcomeNodes(
  entry: CatalogueEntry,
  result: Result,
  pictures: readonly SiteDrawing[],
  { goTo, apply }: Actions,
): Node[] {
  const remedies = isFinding(result) ? result.remedies : [];
  const nodes: (Node | null)[] = [
    isFinding(result) && result.parts.length > 1
      ? make(
          "ul",
          { class: "parts" },
          ...result.parts.map(({ verdict, message }) =>
            make("li", {}, make("span", { class: `mark ${verdict}` }, verdictWords[verdict]), ` ${message}`),
          ),
        )
      : null,
    ...(isFinding(result) ? [compared(result)] : values(entry, result)),
    listed(
      "To find out",
      result.missing.map(({ path, what }) =>
        make(
          "span",
          {},
          button(pathText(path), () => goTo(path), { class: "link" }),
          `: ${what}`,
        ),
      ),
    ),
    listed(
      "Would pass, tried",
      remedies.map(({ message, changes }) =>
        make(
          "span",
          {},
          `${message} `,
          button("Fill in", () => apply(changes), { "aria-label": `Fill in: ${message}` }),
        ),
      ),
    ),
    ...pictures.map(({ title, svg }) => make("figure", {}, make("figcaption", {}, title), setMarkup(make("div"), svg))),
    listed(
      "Rests on",
      result.basis.map(({ citation, note }) => (note === undefined ? citation : `${citation}: ${note}`)),
    ),
    listed("Set aside", [
      ...new Set(result.setAside.map(({ value, reason, basis }) => `${basis.citation}: ${value.text}; ${reason}`)),
    ]),
    listed("Taken for granted", result.assumptions),
    listed("Cautions", result.cautions),
    workings(result.workings),
  ];
  return nodes.filter((node) => node !== null);
}
