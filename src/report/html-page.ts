/** One HTML page that needs nothing else: no script, no network. Its look, and the pieces that every report has. */
import { cautions, type Verdict } from "../core/rule/index.js";
import { type Content, element, join, type Markup, words } from "./markup.js";
import { verdictWords } from "./text.js";

/*
 * Ink on paper, one weight of rule, no colour that means anything: verdicts are told apart by word and by frame. Every
 * pair of ink and paper has a contrast of 7 or more. Lengths are in rem, so that the reader's own size of text counts.
 */
const look = `
:root{color-scheme:light dark;--paper:#fbfaf6;--ink:#1c1f22;--quiet:#4c5257;--rule:#a8a498;--tint:#f0eee6;--link:#0a4a57}
@media screen and (prefers-color-scheme:dark){:root{--paper:#16181a;--ink:#eae8e2;--quiet:#b4b8bb;--rule:#5d6266;--tint:#202427;--link:#9ad4df}}
*{box-sizing:border-box}
html{background:var(--paper);color:var(--ink);font:100%/1.5 system-ui,sans-serif;-webkit-text-size-adjust:100%}
body{margin:0 auto;padding:1rem 1rem 3rem;max-width:62rem;overflow-wrap:anywhere}
h1,h2,h3{line-height:1.25;margin:0 0 .5rem}
h1{font-size:1.6rem}h2{font-size:1.25rem;margin-top:2.5rem;padding-top:.6rem;border-top:2px solid var(--ink)}h3{font-size:1rem}
p,ul,ol,dl,table,figure{margin:0 0 .75rem}
ul,ol{padding-left:1.4rem}li{margin-bottom:.3rem}
a{color:var(--link)}a:focus-visible,summary:focus-visible,[tabindex]:focus-visible{outline:3px solid var(--link);outline-offset:2px}
code{font:.9em/1.4 ui-monospace,monospace}
.quiet{color:var(--quiet)}
.skip{position:absolute;left:-200rem}.skip:focus{position:static}
nav ul{list-style:none;padding:0;display:flex;flex-wrap:wrap;gap:.3rem 1.2rem}nav li{margin:0}nav a{display:inline-block;padding:.25rem 0}
.mark{display:inline-block;font-weight:700;font-size:.8rem;line-height:1.2;letter-spacing:.03em;padding:.12rem .45rem;border:2px solid currentColor;white-space:nowrap}
.mark.fail{background:var(--ink);color:var(--paper);border-color:var(--ink);-webkit-print-color-adjust:exact;print-color-adjust:exact}
.mark.review{border-style:dashed}.mark.notApplicable{border:1px dotted currentColor;font-weight:400}
.verdict{font-size:1.15rem}.verdict .mark{font-size:1.4rem;padding:.25rem .9rem;margin-right:.5rem}
.facts{display:grid;grid-template-columns:max-content 1fr;gap:.1rem 1rem}.facts dt{color:var(--quiet)}.facts dd{margin:0}
table{border-collapse:collapse;width:100%}
caption{text-align:left;color:var(--quiet);padding-bottom:.3rem}
th,td{text-align:left;vertical-align:top;padding:.3rem .7rem .3rem 0;border-bottom:1px solid var(--rule)}
thead th{border-bottom:2px solid var(--ink)}th,td{overflow-wrap:break-word}th[scope=row],td.free{overflow-wrap:anywhere}th[scope=row]{font-weight:400;min-width:11rem}table.small{width:auto}.number{text-align:right;font-variant-numeric:tabular-nums}
.wide{overflow-x:auto}
article{border-left:3px solid var(--rule);padding:0 0 0 .9rem;margin:0 0 1.6rem}
article.fail{border-left:6px solid var(--ink)}article.review{border-left:6px double var(--ink)}
article h3 .mark{margin-right:.4rem}article>p{margin-bottom:.4rem}
article .marks{list-style:none;padding:0}.marks li{margin-bottom:.2rem}.marks .mark{font-size:.7rem;border-width:1.5px;padding:.05rem .35rem}
.grounds{font-size:.92rem}h4{font-size:1em;margin:.5rem 0 .1rem;color:var(--quiet);font-weight:600}.grounds li{margin-bottom:.15rem}.grounds ul,.grounds ol{margin-bottom:.4rem}
details{margin:0 0 .75rem}summary{cursor:pointer;padding:.15rem 0}
.steps{padding-left:2.2rem}.steps li{margin-bottom:.5rem}.steps div{margin:.35rem 0;line-height:1.8}.steps math{font-size:1.05rem}
.plain{font-family:ui-monospace,monospace;font-size:.9em}
.drawings{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,21rem),1fr));gap:1.5rem;align-items:start}
.drawings figure{margin:0;border:1px solid var(--rule);padding:.6rem}
.drawings figcaption{font-weight:700;margin-bottom:.5rem}
.drawings svg{display:block;width:100%;max-width:30rem;margin:0 auto;height:auto}
footer{margin-top:2.5rem;border-top:2px solid var(--ink);padding-top:.6rem}
@media (max-width:34rem){.steps{padding-left:1.6rem}.steps math{font-size:.95rem}.stack thead{position:absolute;left:-200rem}.stack tr{display:block;border-bottom:1px solid var(--rule);padding:.4rem 0}.stack th,.stack td{display:block;border:0;padding:.1rem 0;text-align:left}.stack td[data-of]::before{content:attr(data-of) ": ";color:var(--quiet)}}
@page{margin:14mm 13mm}
@media print{:root{color-scheme:only light;--paper:#fff;--ink:#000;--quiet:#333;--rule:#888;--tint:#fff;--link:#000}
html{font-size:10pt}body{max-width:none;padding:0}nav,.skip{display:none}a{text-decoration:none}
h2{margin-top:1.4rem}h1,h2,h3,h4,caption,summary{break-after:avoid}
article,tr,li,figure,dl{break-inside:avoid}article.long{break-inside:auto}thead{display:table-header-group}p{orphans:3;widows:3}
.wide{overflow:visible}summary{list-style:none}summary::-webkit-details-marker{display:none}
.drawings{grid-template-columns:1fr 1fr;gap:6mm}}
`;

/** A part of a page that the list of contents leads to. */
export interface PageSection {
  readonly id: string;
  readonly title: string;
  readonly content: Content;
}

/** What a page is made of. */
export interface PageParts {
  readonly title: string;
  /** Below the title, before the list of contents. */
  readonly lead: Content;
  readonly sections: readonly PageSection[];
}

/** Anybody's text, its line breaks kept. */
export const linesOf = (text: string): Content =>
  text.split(/\r\n|\n|\r/).map((line, i) => [i === 0 ? null : element("br"), words(line)]);

export const paragraph = (text: string, kind?: string): Markup => element("p", { class: kind }, linesOf(text));

/** A list, or nothing where it would be empty. */
export const list = (items: readonly Content[], name: "ul" | "ol" = "ul", kind?: string): Content =>
  items.length === 0
    ? null
    : element(
        name,
        { class: kind },
        items.map((item) => element("li", {}, item)),
      );

/** A verdict as a framed word. */
export const mark = (verdict: Verdict): Markup =>
  element("span", { class: `mark ${verdict}` }, words(verdictWords[verdict]));

/** Names with values. */
export const facts = (pairs: readonly (readonly [string, Content])[]): Content =>
  pairs.length === 0
    ? null
    : element(
        "dl",
        { class: "facts" },
        pairs.map(([name, value]) => [element("dt", {}, words(name)), element("dd", {}, value)]),
      );

/** One cell: a number stands to the right, and anybody's free text may break anywhere. */
export interface Cell {
  readonly content: Content;
  readonly holds?: "number" | "free";
}
export const cell = (content: Content, holds?: "number" | "free"): Cell =>
  holds === undefined ? { content } : { content, holds };

/** A path or an id as code; it may break after its dots and strokes. */
export const code = (text: string, id?: string): Markup =>
  element(
    "code",
    { id },
    text.split(/(?<=[./])/).map((piece, i) => [i === 0 ? null : element("wbr"), words(piece)]),
  );

/** A table whose first column names its rows. On a narrow page each row stands as a block. */
export function table(
  caption: string,
  head: readonly string[],
  rows: readonly (readonly Cell[])[],
  isSmall = false,
): Markup {
  return element(
    "table",
    { class: isSmall ? "small" : "stack" },
    element("caption", {}, words(caption)),
    element(
      "thead",
      {},
      element(
        "tr",
        {},
        head.map((name, i) =>
          element("th", { scope: "col", class: rows[0]?.[i]?.holds === "number" ? "number" : undefined }, words(name)),
        ),
      ),
    ),
    element(
      "tbody",
      {},
      rows.map((cells) =>
        element(
          "tr",
          {},
          cells.map(({ content, holds }, i) =>
            i === 0
              ? element("th", { scope: "row" }, content)
              : element("td", { class: holds, "data-of": head[i] }, content),
          ),
        ),
      ),
    ),
  );
}

/** A whole page. */
export function page({ title, lead, sections }: PageParts): string {
  const shown = sections.filter(({ content }) => content !== null);
  return join(
    "<!doctype html>\n" as Markup,
    element(
      "html",
      { lang: "en" },
      element(
        "head",
        {},
        element("meta", { charset: "utf-8" }),
        element("meta", { name: "viewport", content: "width=device-width, initial-scale=1" }),
        // nothing is loaded and nothing runs, whatever a survey brings
        element("meta", {
          "http-equiv": "Content-Security-Policy",
          content: "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'",
        }),
        element("title", {}, words(title)),
        element("style", {}, look as Markup),
      ),
      element(
        "body",
        {},
        element("a", { class: "skip", href: "#main" }, words("Skip to the report")),
        element("header", {}, element("h1", {}, words(title)), lead),
        element(
          "nav",
          { "aria-label": "On this page" },
          list(shown.map((one) => element("a", { href: `#${one.id}` }, words(one.title)))),
        ),
        element(
          "main",
          { id: "main" },
          shown.map(({ id, title: name, content }) =>
            element(
              "section",
              { id, "aria-labelledby": `${id}-title` },
              element("h2", { id: `${id}-title` }, words(name)),
              content,
            ),
          ),
        ),
        element("footer", {}, paragraph(cautions.deferral)),
      ),
    ),
    "\n" as Markup,
  );
}
