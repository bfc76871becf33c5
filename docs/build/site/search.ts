/** The search page: what is typed is looked up in the index that came with it. */
import MiniSearch, { type AsPlainObject } from "minisearch";
import { make } from "./dom.js";
import { type Entry, indexOptions, termsOf } from "./terms.js";

/** Parts of pages shown at most. */
const MOST = 40;
/** Letters shown before and after what was found. */
const AROUND = 90;
/** How long after the last key the answer is made anew [ms]. */
const PAUSE = 150;

const index = MiniSearch.loadJS<Entry>(
  (globalThis as unknown as { searchIndex: AsPlainObject }).searchIndex,
  indexOptions,
);

/** The words of a text that lead to any of some terms, as where they begin and end. */
function foundIn(text: string, terms: ReadonlySet<string>): [number, number][] {
  const words = [...text.matchAll(/\S+/g)];
  return words.flatMap((word, i): [number, number][] => {
    const next = words[i + 1];
    if (termsOf(word[0]).some((term) => terms.has(term))) return [[word.index, word.index + word[0].length]];
    if (!next || !termsOf(`${word[0]} ${next[0]}`).some((term) => terms.has(term) && /^\d/.test(term))) return [];
    return termsOf(next[0]).some((term) => terms.has(term)) ? [] : [[word.index, next.index + next[0].length]];
  });
}

/** The stretch of a text round what was found first, with all that was found in it marked. */
function excerpt(text: string, terms: ReadonlySet<string>): HTMLElement {
  const found = foundIn(text, terms);
  const first = found[0]?.[0] ?? 0;
  const from = first <= AROUND ? 0 : text.indexOf(" ", first - AROUND) + 1;
  const to = Math.min(text.length, (found[0]?.[1] ?? 0) + 2 * AROUND);
  const line = make("p", {}, from > 0 ? "… " : null);
  let at = from;
  for (const [start, end] of found) {
    if (start < at || end > to) continue;
    line.append(text.slice(at, start), make("mark", {}, text.slice(start, end)));
    at = end;
  }
  line.append(text.slice(at, to), to < text.length ? " …" : "");
  return line;
}

const box = document.querySelector<HTMLInputElement>("main input[type=search]")!;
const status = document.querySelector<HTMLElement>("main [role=status]")!;
const list = document.querySelector<HTMLElement>("main ol")!;

function answer(): void {
  const asked = box.value.trim();
  const results = asked === "" ? [] : index.search(asked);
  const shown = results.slice(0, MOST);
  list.replaceChildren(
    ...shown.map(({ at, title, heading, text, terms }) =>
      make(
        "li",
        {},
        make("a", { href: String(at) }, heading === title ? String(title) : `${title}: ${heading}`),
        excerpt(String(text), new Set(terms)),
      ),
    ),
  );
  const count = `${results.length} ${results.length === 1 ? "place" : "places"} found`;
  status.textContent =
    asked === ""
      ? ""
      : results.length === 0
        ? "Nothing found. Every word must be in one place; try fewer."
        : results.length > MOST
          ? `${count}; the first ${MOST} are shown.`
          : `${count}.`;
}

let timer = 0;
box.addEventListener("input", () => {
  clearTimeout(timer);
  timer = setTimeout(answer, PAUSE) as unknown as number;
});
box.form!.addEventListener("submit", (event) => {
  event.preventDefault();
  clearTimeout(timer);
  const address = new URL(location.href);
  address.searchParams.set("q", box.value);
  history.replaceState(null, "", address);
  answer();
});
// somebody may have begun to type while the index was read
if (box.value === "") box.value = new URLSearchParams(location.search).get("q") ?? "";
answer();
