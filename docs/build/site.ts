/** The documents as a folder of pages that opens from a disk or any web server; a link that leads nowhere stops it. */
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join, posix } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import MarkdownIt from "markdown-it";
import { assets } from "./site/assets.js";
import { type Indexed, searchIndex } from "./site/search-index.js";

const docs = fileURLToPath(new URL("../", import.meta.url));

/** Scripts and styles come from the folder itself, and a page asks nobody for anything; drawings say their own fills. */
const POLICY =
  "default-src 'none'; script-src 'self'; style-src 'self'; style-src-attr 'unsafe-inline'; base-uri 'none'";

/** Where the pages made from the source lie. */
const API = "api/";

/** One page. */
export interface Page {
  /** Path inside the folder, with forward slashes. */
  readonly path: string;
  readonly html: string;
  /** What the search finds of it; nothing for a page that holds no document. */
  readonly indexed?: Indexed;
}

/** A heading's name in an address: lower case, words joined by hyphens. */
const slug = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\s_-]/gu, "")
    .trim()
    .replace(/\s/g, "-");

const toWorkbench = '<p><a href="#workbench">Try it with your own measurements</a></p>\n';

/** Where the form of a rule's page goes. */
const workbench = (id: string): string => `<section class="workbench" data-entry="${id}" aria-labelledby="workbench">
<h2 id="workbench">Try it</h2>
<p>What is written here stays in this page. Local code, the maker's instructions and licensed people decide.</p>
<noscript><p>The form needs scripts; the command line does the same without.</p></noscript>
</section>
`;

const { escapeHtml } = new MarkdownIt().utils;

/** Where every page leads: its name in the folder, and what the link says. */
const places = [
  ["index.html", "Start"],
  ["rules/index.html", "Rules"],
  ["index-of-sections.html", "Sections"],
  ["changes.html", "Changes"],
  ["search.html", "Search"],
  [`${API}index.html`, "API"],
] as const;

/** What every page has round its content. */
function framed(path: string, title: string, content: string, scripts: readonly string[] = []): string {
  const up = "../".repeat(path.split("/").length - 1);
  const links = places.map(([to, label]) => `<a href="${up}${to}">${label}</a>`).join(" ");
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<title>${escapeHtml(title)}</title><link rel="stylesheet" href="${up}look.css"></head>
<body><nav aria-label="Documents">${links}</nav><main>
${content}</main>${scripts.map((name) => `<script src="${up}${name}"></script>`).join("")}</body></html>
`;
}

/** One document as a page. Its front matter and comments are left out; tags written in it are shown as text. */
export function pageOf(source: string, markdown: string): Page {
  const md = new MarkdownIt({ html: false });
  const tokens = md.parse(markdown.replace(/^---\n[\s\S]*?\n---\n/, "").replace(/^<!--[\s\S]*?-->$/gm, ""), {});
  const taken = new Map<string, number>();
  let title = "dryfit";
  for (const [i, token] of tokens.entries()) {
    if (token.type === "heading_open") {
      const text = tokens[i + 1]?.children?.map(({ content }) => content).join("") ?? "";
      const count = taken.get(slug(text)) ?? 0;
      taken.set(slug(text), count + 1);
      token.attrSet("id", count === 0 ? slug(text) : `${slug(text)}-${count}`);
      if (token.tag === "h1") title = text;
    }
    for (const child of token.children ?? []) {
      const href = String((child.type === "link_open" && child.attrGet("href")) || "");
      if (href && !/^[a-z]+:/i.test(href)) child.attrSet("href", href.replace(/\.md(?=#|$)/, ".html"));
    }
  }
  md.renderer.rules["table_open"] = () => '<div class="scroll" tabindex="0" role="group" aria-label="Table"><table>\n';
  md.renderer.rules["table_close"] = () => "</table></div>\n";
  md.renderer.rules["fence"] = (list, i) => `<pre tabindex="0"><code>${escapeHtml(list[i]!.content)}</code></pre>\n`;
  const path = source.replace(/\.md$/, ".html");
  const content = md.renderer.render(tokens, md.options, {});
  const id = /^rules\/(\w+\/[\w-]+)\.md$/.exec(source)?.[1];
  const html =
    id === undefined
      ? framed(path, title, content)
      : framed(path, title, content.replace("</h1>\n", `</h1>\n${toWorkbench}`) + workbench(id), ["workbench.js"]);
  return { path, html, indexed: { path, title, tokens } };
}

/** The page that looks things up. */
function searchPage(): Page {
  const path = "search.html";
  const content = `<h1>Search</h1>
<form role="search"><p class="field"><label for="asked">A section, a number with its unit, or words</label>
<input type="search" id="asked" name="q" autocomplete="off" spellcheck="false" aria-describedby="asked-help"></p>
<p id="asked-help" class="help">As M1502.4.6.1, 1502.4, 35 ft, or transition duct. Every word must be in one place.</p>
<button>Search</button></form>
<noscript><p>The search needs scripts; every section that is cited stands in the list of sections.</p></noscript>
<p role="status"></p>
<ol class="found"></ol>
`;
  return { path, html: framed(path, "Search", content, ["search-index.js", "search.js"]) };
}

/** Every document of the project as a page. */
export function pages(): Page[] {
  return readdirSync(docs, { recursive: true, encoding: "utf8" })
    .map((name) => name.replaceAll("\\", "/"))
    .filter((name) => name.endsWith(".md"))
    .sort()
    .map((name) => pageOf(name, readFileSync(docs + name, "utf8")))
    .concat(searchPage());
}

/** The list of sections says again what the rules' pages say of each section; finding both would double every answer. */
const isListed = ({ path }: Indexed): boolean => path !== "index-of-sections.html";

/** Links between pages whose page or heading is not there, one line each; the API's own pages are checked by its maker. */
export function brokenLinks(made: readonly Page[]): string[] {
  const ids = new Map(
    made.map(({ path, html }) => [path, new Set([...html.matchAll(/ id="([^"]*)"/g)].map((m) => m[1]!))]),
  );
  return made.flatMap(({ path, html }) =>
    [...html.matchAll(/<a href="([^"]*)"/g)].flatMap(([, href]) => {
      if (/^[a-z]+:/i.test(href!)) return [];
      const [file, anchor] = href!.split("#");
      const to = file ? posix.join(posix.dirname(path), file) : path;
      if (to === `${API}index.html`) return [];
      const target = ids.get(to);
      return target && (!anchor || target.has(decodeURIComponent(anchor))) ? [] : [`${path}: ${href} leads nowhere`];
    }),
  );
}

/**
 * Writes the pages and what they share into a folder.
 *
 * @returns how many pages there are, and the links that lead nowhere
 */
export async function writeSite(out: string): Promise<{ readonly count: number; readonly broken: readonly string[] }> {
  const made = pages();
  for (const { path, html } of made) {
    mkdirSync(dirname(join(out, path)), { recursive: true });
    writeFileSync(join(out, path), html);
  }
  const indexed = made.flatMap((page) => page.indexed ?? []).filter(isListed);
  writeFileSync(join(out, "search-index.js"), searchIndex(indexed));
  for (const [name, text] of await assets()) writeFileSync(join(out, name), text);
  return { count: made.length, broken: brokenLinks(made) };
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const out = process.argv[2] ?? ".site";
  const { count, broken } = await writeSite(out);
  const faults = existsSync(join(out, `${API}index.html`))
    ? broken
    : [...broken, `${API} is not made: run npm run docs`];
  for (const fault of faults) console.error(fault);
  console.log(`${count} pages, ${faults.length} broken links.`);
  process.exitCode = faults.length > 0 ? 1 : 0;
}
