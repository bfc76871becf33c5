/** Elements for the pages' scripts. Text only ever goes in as text. */
import type { Markup } from "../../../src/report/markup.js";

/** What an element may be told: attributes, with `true` for one that has no value. */
export type Attributes = Readonly<Record<string, string | number | boolean | undefined>>;

/** An element; a string child is text, never markup. */
export function make<K extends keyof HTMLElementTagNameMap>(
  name: K,
  attributes: Attributes = {},
  ...children: readonly (Node | string | null)[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) continue;
    made.setAttribute(key, value === true ? "" : String(value));
  }
  made.append(...children.filter((child) => child !== null));
  return made;
}

/** A button that does something to the page. */
export function button(text: string, does: () => void, attributes: Attributes = {}): HTMLButtonElement {
  const made = make("button", { type: "button", ...attributes }, text);
  made.addEventListener("click", does);
  return made;
}

/** Markup of the reports, whose maker has escaped every word in it. */
export function setMarkup<E extends Element>(holder: E, markup: Markup): E {
  holder.innerHTML = markup;
  return holder;
}

let last = 0;
/** An id that no other element of the page has. */
export const nextId = (): string => `w${++last}`;
