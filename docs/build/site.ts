/** The documents as a folder of pages that opens from a disk or any web server; a link that leads nowhere stops it. */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join, posix } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import MarkdownIt from "markdown-it";

const docs = fileURLToPath(new URL("../", import.meta.url));

const STYLE = `:root{color-scheme:light dark}
body{max-width:46rem;margin:0 auto;padding:1rem;font:1rem/1.5 Georgia,serif;background:Canvas;color:CanvasText}
a{color:LinkText;overflow-wrap:anywhere}pre,.scroll{overflow-x:auto}pre{border:1px solid;padding:.6rem}
code{overflow-wrap:anywhere}table{border-collapse:collapse}th,td{border:1px solid;padding:.2rem .5rem;text-align:start;vertical-align:top}
@media print{nav{display:none}body{max-width:none}pre{white-space:pre-wrap}}`;

/** One page made from one document. */
export interface Page {
  /** Path inside the folder, with forward slashes. */
  readonly path: string;
  readonly html: string;
}

/** A heading's name in an address: lower case, words joined by hyphens. */
const slug = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\s_-]/gu, "")
    .trim()
    .replace(/\s/g, "-");

/** One document as a page. Tags written in it are shown as text. */
export function pageOf(path: string, markdown: string): Page {
  const md = new MarkdownIt({ html: false });
  const tokens = md.parse(markdown, {});
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
  md.renderer.rules["fence"] = (list, i) =>
    `<pre tabindex="0"><code>${md.utils.escapeHtml(list[i]!.content)}</code></pre>\n`;
  const up = "../".repeat(path.split("/").length - 1);
  const nav = [
    ["index.html", "Start"],
    ["rules/index.html", "Rules"],
    ["index-of-sections.html", "Sections"],
    ["changes.html", "Changes"],
  ].map(([to, label]) => `<a href="${up}${to}">${label}</a>`);
  const html = `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1">
<title>${md.utils.escapeHtml(title)}</title><style>${STYLE}</style></head>
<body><nav aria-label="Documents">${nav.join(" · ")}</nav><main>
${md.renderer.render(tokens, md.options, {})}</main></body></html>
`;
  return { path: path.replace(/\.md$/, ".html"), html };
}

/** Every document of the project as a page. */
export function pages(): Page[] {
  return readdirSync(docs, { recursive: true, encoding: "utf8" })
    .map((name) => name.replaceAll("\\", "/"))
    .filter((name) => name.endsWith(".md"))
    .sort()
    .map((name) => pageOf(name, readFileSync(docs + name, "utf8")));
}

/** Links between pages whose page or heading is not there, one line each. */
export function brokenLinks(made: readonly Page[]): string[] {
  const ids = new Map(
    made.map(({ path, html }) => [path, new Set([...html.matchAll(/ id="([^"]*)"/g)].map((m) => m[1]!))]),
  );
  return made.flatMap(({ path, html }) =>
    [...html.matchAll(/<a href="([^"]*)"/g)].flatMap(([, href]) => {
      if (/^[a-z]+:/i.test(href!)) return [];
      const [file, anchor] = href!.split("#");
      const target = ids.get(file ? posix.join(posix.dirname(path), file) : path);
      return target && (!anchor || target.has(decodeURIComponent(anchor))) ? [] : [`${path}: ${href} leads nowhere`];
    }),
  );
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const out = process.argv[2] ?? ".site";
  const made = pages();
  const faults = brokenLinks(made);
  for (const fault of faults) console.error(fault);
  for (const { path, html } of made) {
    mkdirSync(dirname(join(out, path)), { recursive: true });
    writeFileSync(join(out, path), html);
  }
  console.log(`${made.length} pages, ${faults.length} broken links.`);
  process.exitCode = faults.length > 0 ? 1 : 0;
}
