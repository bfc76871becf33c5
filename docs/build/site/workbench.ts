/** The workbench of a rule's page: a form, and what the library makes of it, all in the reader's browser. */
import * as z from "zod";
import { type CatalogueEntry, type InputIssue, issueText, pathText } from "../../../src/core/rule/index.js";
import { entryWithId } from "../../../src/survey/catalogue.js";
import { commandText, programText } from "./commands.js";
import { button, make, nextId } from "./dom.js";
import { calm, complain, type Field, formOf, type Path, type Schema } from "./form.js";
import { headOf, outcomeNodes } from "./outcome.js";
import { picturesOf } from "./pictures.js";
import { placeSchema } from "./place.js";

// the pages forbid scripts made from text, which zod would try to make
z.config({ jitless: true });

/** How long after the last key the answer is made anew [ms]. */
const PAUSE = 200;

type Values = Readonly<Record<string, unknown>>;

/** A value with one place in it changed; what is needed to get there is made. */
function withChange(root: unknown, [key, ...rest]: Path, value: unknown): unknown {
  if (key === undefined) return value;
  const copy: unknown[] | Record<string, unknown> = Array.isArray(root) ? [...root] : { ...(root as object) };
  (copy as Record<string | number, unknown>)[key] = withChange(
    (copy as Record<string | number, unknown>)[key],
    rest,
    value,
  );
  return copy;
}

function open(holder: HTMLElement, entry: CatalogueEntry): void {
  const form = formOf(entry.jsonSchema() as Schema, { "aria-label": "Inputs" });
  const place = formOf(placeSchema(entry), { "aria-label": "Where, and what the maker says" });
  const surroundings = make("details", {}, make("summary", {}, "Where, what the maker says, units"), place.node);

  const word = make("span", { class: "mark" });
  const message = make("span", { class: "message" });
  const rest = make("div", { class: "rest" });
  const program = make("code");
  const command = make("code");
  const code = (title: string, inside: HTMLElement) => [
    make("p", {}, title),
    make("pre", { tabindex: "0", role: "group", "aria-label": title }, inside),
  ];

  /** Tells the answer; one that is told already is not told again to those who listen. */
  const tell = (kind: string, verdict: string, text: string): void => {
    word.className = `mark ${kind}`;
    if (word.textContent !== verdict) word.textContent = verdict;
    if (message.textContent !== text) message.textContent = text;
  };

  /** The form that an issue is about: a field of the place, unless the input has one of that name. */
  const fieldAt = ([first, ...more]: Path): Field => {
    if (first === undefined) return form;
    const inInput = form.at([first]);
    if (inInput !== form) return form.at([first, ...more]);
    return place.at([first]) === place ? form : place.at([first, ...more]);
  };
  const goTo = (path: Path): void => {
    const field = fieldAt(path);
    if (place.node.contains(field.node)) surroundings.open = true;
    field.control.focus();
  };

  const refuse = (issues: readonly InputIssue[]): void => {
    tell("fault", "NOT READ", ` ${issues.length === 1 ? "One field" : `${issues.length} fields`} cannot be used.`);
    for (const { path, message: text, received } of issues) {
      const field = fieldAt(path);
      complain(
        field,
        field === form || field === place ? issueText({ path, message: text, received } as InputIssue) : text,
      );
    }
    rest.replaceChildren(
      make(
        "ul",
        {},
        ...issues.map((issue) =>
          make(
            "li",
            {},
            button(pathText(issue.path) || "inputs", () => goTo(issue.path), { class: "link" }),
            `: ${issue.message}`,
          ),
        ),
      ),
    );
  };

  const answer = (): void => {
    clearTimeout(timer);
    calm(form.node);
    calm(place.node);
    const input = form.read() as Values;
    const at = place.read() as Values;
    program.textContent = programText(entry.id, input, at);
    command.textContent = commandText(entry.id, input, at);
    const tried = entry.try(input, at);
    if (!tried.ok) {
      refuse(tried.fault.issues);
      return;
    }
    const result = "finding" in tried ? tried.finding : tried.calculation;
    const { word: text, kind } = headOf(result);
    tell(kind, text, ` ${result.message}`);
    const apply = (changes: readonly { readonly path: Path; readonly value: unknown }[]): void => {
      form.write(changes.reduce<unknown>((value, change) => withChange(value, change.path, change.value), form.read()));
      answer();
      word.parentElement!.focus();
    };
    rest.replaceChildren(...outcomeNodes(entry, result, picturesOf(entry, input, result, at), { goTo, apply }));
  };
  let timer = 0;
  for (const { node } of [form, place]) {
    node.addEventListener("input", () => {
      clearTimeout(timer);
      timer = setTimeout(answer, PAUSE) as unknown as number;
    });
  }

  const id = nextId();
  const chooser = make(
    "select",
    { id },
    ...entry.examples.map(({ title }, i) => make("option", { value: i }, title)),
    make("option", { value: "" }, "Nothing filled in"),
  );
  const choose = (): void => {
    const example = chooser.value === "" ? undefined : entry.examples[Number(chooser.value)];
    form.write(example?.input ?? {});
    place.write(example?.at ?? {});
    surroundings.open = example?.at !== undefined;
    answer();
  };
  chooser.addEventListener("input", choose);

  holder.append(
    make("p", { class: "field" }, make("label", { for: id }, "Start from an example"), chooser),
    make(
      "div",
      { class: "bench" },
      make("div", {}, make("h3", {}, "What was found"), form.node, surroundings),
      make(
        "div",
        { class: "answer" },
        make("h3", {}, "What follows"),
        make("div", { role: "status", tabindex: "-1", class: "verdict" }, word, message),
        rest,
        make(
          "details",
          {},
          make("summary", {}, "The same in a program or a shell"),
          ...code("TypeScript", program),
          ...code("A POSIX shell", command),
        ),
      ),
    ),
  );
  choose();
}

for (const holder of document.querySelectorAll<HTMLElement>("[data-entry]")) {
  const entry = entryWithId(holder.dataset["entry"]!);
  if (entry) open(holder, entry);
}
