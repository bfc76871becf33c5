/** Markup that cannot be made from other people's text without escaping it: for HTML, SVG and MathML alike. */
import { cleanText } from "./text.js";

declare const escaped: unique symbol;

/** Text that is safe to put into a page: made by `words` or `element` only. */
export type Markup = string & { readonly [escaped]: true };

/** What an element can hold. Nothing at all is a fine content. */
export type Content = Markup | null | readonly Content[];

/** Attributes by name; those left `undefined` are not written. */
export type Attributes = Readonly<Record<string, string | number | undefined>>;

const references: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** Two code points that no XML document may hold, beside those that {@link cleanText} takes out. */
const notXml = /[\ufffe\uffff]/g;

const escapeText = (text: string): string =>
  cleanText(text)
    .replace(notXml, "\ufffd")
    .replace(/[&<>"']/g, (mark) => references[mark]!);

/**
 * Anybody's text as markup: it shows as it was written and does nothing.
 *
 * @example words("a < b") // "a &lt; b"
 */
export const words = (text: string): Markup => escapeText(text) as Markup;

/** HTML elements without an end tag, and shapes that hold nothing. */
const empty = new Set([
  "meta",
  "br",
  "wbr",
  "hr",
  "col",
  "path",
  "rect",
  "circle",
  "line",
  "polyline",
  "polygon",
  "mspace",
]);
const html = new Set(["meta", "br", "wbr", "hr", "col"]);

/** A number as attributes write it: a hundredth of a unit is finer than any screen or printer shows. */
const attributeNumber = (value: number): string => {
  if (!Number.isFinite(value)) throw new RangeError(`${value} cannot be drawn`);
  return String(Number(value.toFixed(2)) + 0);
};

const flat = (content: Content): string =>
  content === null ? "" : typeof content === "string" ? content : content.map(flat).join("");

/** Several pieces as one. */
export const join = (...pieces: readonly Content[]): Markup => flat(pieces) as Markup;

/**
 * An element. Names are constants of the code; values and text are escaped.
 *
 * @example element("p", { class: "note" }, words("A & B")) // '<p class="note">A &amp; B</p>'
 */
export function element(name: string, attributes: Attributes = {}, ...children: readonly Content[]): Markup {
  let tag = `<${name}`;
  for (const [key, value] of Object.entries(attributes)) {
    if (value === undefined) continue;
    tag += ` ${key}="${typeof value === "number" ? attributeNumber(value) : escapeText(value)}"`;
  }
  if (empty.has(name)) return `${tag}${html.has(name) ? ">" : "/>"}` as Markup;
  return `${tag}>${flat(children)}</${name}>` as Markup;
}

/**
 * An id for an element, made of letters, digits and hyphens only.
 *
 * @example idOf("finding", "placement/door-swing") // "finding-placement-door-swing"
 */
export const idOf = (...parts: readonly string[]): string =>
  parts
    .join("-")
    .replace(/[^A-Za-z0-9]+/g, "-")
    .replace(/^-|-$/g, "");
