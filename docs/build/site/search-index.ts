/** The pages taken apart at their headings, as an index that a browser can load. */
import type MarkdownIt from "markdown-it";
import MiniSearch from "minisearch";
import { type Entry, indexOptions } from "./terms.js";

type Tokens = ReturnType<InstanceType<typeof MarkdownIt>["parse"]>;

/** A page as the index takes it. */
export interface Indexed {
  readonly path: string;
  readonly title: string;
  readonly tokens: Tokens;
}

/** The parts of one page: what stands under each heading. */
function* partsOf({ path, title, tokens }: Indexed): Generator<Omit<Entry, "id">> {
  let at = path;
  let heading = "";
  let text: string[] = [];
  const part = () => ({ at, title, heading, text: text.join(" · ").replace(/\s+/g, " ") });
  let inHeading = false;
  for (const token of tokens) {
    if (token.type === "heading_open") {
      if (text.length > 0) yield part();
      inHeading = true;
      at = `${path}#${token.attrGet("id")}`;
      text = [];
    } else if (token.type === "heading_close") inHeading = false;
    else if (token.type === "fence") text.push(token.content);
    else if (token.type === "inline") {
      const said = (token.children ?? [])
        .map(({ type, content }) => (type === "softbreak" || type === "hardbreak" ? " " : content))
        .join("");
      if (inHeading) heading = said;
      else text.push(said);
    }
  }
  if (text.length > 0) yield part();
}

/** A script that puts the index of some pages where the search page looks for it. */
export function searchIndex(pages: readonly Indexed[]): string {
  const index = new MiniSearch<Entry>(indexOptions);
  let id = 0;
  for (const page of pages) for (const part of partsOf(page)) index.add({ id: id++, ...part });
  return `globalThis.searchIndex=${JSON.stringify(index)};\n`;
}
