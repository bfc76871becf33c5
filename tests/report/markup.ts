/** Reading markup back in tests: tags with their attributes, text unescaped, and whether every tag is closed. */

export interface Tag {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  /** Names of the elements it stands in, outermost first. */
  readonly within: readonly string[];
  /** Its own text and that of everything in it. */
  text: string;
}

const plainText = (text: string): string =>
  text
    .replace(/&lt;/g, "<")
    .replace(/&gt;/g, ">")
    .replace(/&quot;/g, '"')
    .replace(/&#39;/g, "'")
    .replace(/&amp;/g, "&");

const htmlVoid = new Set(["meta", "br", "wbr"]);
const TOKEN = /<!doctype html>|<(\/?)([A-Za-z][A-Za-z0-9]*)((?:\s+[\w:-]+="[^"<>]*")*)(\/?)>|([^<]+)|(<)/g;

/**
 * Every element in order.
 *
 * @throws Error where a tag is malformed, closed wrongly or not at all, or where a bare `&` stands in a text
 */
export function tagsOf(markup: string): Tag[] {
  const tags: Tag[] = [];
  const open: Tag[] = [];
  for (const [whole, closing, name, attributes, alone, text, stray] of markup.matchAll(TOKEN)) {
    if (stray !== undefined) throw new Error("a < stands where no tag is");
    if (text !== undefined) {
      const inStyle = open.at(-1)?.name === "style";
      if (!inStyle && /&(?!(?:lt|gt|quot|amp|#39);)/.test(text)) throw new Error(`a bare & in ${text}`);
      for (const tag of open) tag.text += inStyle ? text : plainText(text);
      continue;
    }
    if (name === undefined) continue;
    if (closing === "/") {
      const last = open.pop();
      if (last?.name !== name) throw new Error(`${whole} closes ${last?.name}`);
      continue;
    }
    const tag: Tag = {
      name,
      attributes: new Map(
        [...attributes!.matchAll(/([\w:-]+)="([^"]*)"/g)].map(([, key, value]) => [key!, plainText(value!)]),
      ),
      within: open.map((one) => one.name),
      text: "",
    };
    tags.push(tag);
    if (alone !== "/" && !htmlVoid.has(name)) open.push(tag);
  }
  if (open.length > 0) throw new Error(`${open.map((tag) => tag.name).join(", ")} stays open`);
  return tags;
}
