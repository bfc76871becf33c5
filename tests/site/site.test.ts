/** The documents as pages: links hold, what leads nowhere is named, tags in a document stay text. */
import { expect, test } from "vitest";
import { brokenLinks, pageOf, pages } from "../../docs/build/site.js";

test("every link and heading between the documents resolves", () => {
  const made = pages();
  expect(made.map(({ path }) => path)).toContain("rules/venting/duct-length.html");
  expect(brokenLinks(made)).toEqual([]);
});

test("a link to a missing page or heading is named", () => {
  const home = ["index.md", "rules/index.md", "index-of-sections.md", "changes.md", "search.md"].map((path) =>
    pageOf(path, "# A b\n"),
  );
  expect(brokenLinks(home)).toEqual([]);
  const page = pageOf("x.md", "# X\n\n[a](gone.md) [b](index.md#gone) [c](index.md#a-b)");
  expect(brokenLinks([...home, page])).toEqual([
    "x.html: gone.html leads nowhere",
    "x.html: index.html#gone leads nowhere",
  ]);
});

test("front matter and comments are not shown", () => {
  const { html } = pageOf("x.md", "---\ntitle: y\n---\n\n<!-- made:z -->\n\n# X\n");
  expect(html).not.toMatch(/title: y|made:z/);
  expect(pages().filter((page) => page.html.includes("&lt;!--"))).toEqual([]);
});

test("a tag in a document stays text", () => {
  expect(pageOf("x.md", "# <script>x()</script>\n\n<img src=x onerror=x()>").html).not.toMatch(/<(script|img)/);
});
