/** The search finds by section, quantity and word; its page and the others pass the accessibility checker. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import MiniSearch from "minisearch";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { searchIndex } from "../../docs/build/site/search-index.js";
import { type Entry, indexOptions, termsAsked, termsOf } from "../../docs/build/site/terms.js";
import { pages } from "../../docs/build/site.js";
import { hasBrowser, openSite, type Site } from "./browser.js";

describe("what a text is found by", () => {
  test("a section with and without its letter, and by its first number", () => {
    expect(termsOf("Table M1502.4.6.1")).toEqual(["table", "m1502.4.6.1", "1502.4.6.1", "m1502"]);
    expect(termsOf("210.8(D), 5 ft (1.5 m)")).toEqual(["210.8(d)", "210.8", "5", "ft", "5ft", "1.5", "m", "1.5m"]);
    expect(termsAsked("210.8(D)")).toEqual(["210.8(d)"]);
  });

  test("a quantity in any spelling is one and the same", () => {
    for (const asked of ["35 ft", "35 feet", "35ft", "35'", "35 FT"]) {
      expect(termsAsked(asked), asked).toEqual(["35ft"]);
      expect(termsOf(`within the ${asked} allowed`), asked).toContain("35ft");
    }
    expect(termsAsked("35 elbows")).toEqual(["35", "elbows"]);
  });

  test("a joined word also by its halves", () => {
    expect(termsOf("anti-tip")).toEqual(["anti-tip", "anti", "tip"]);
    expect(termsAsked("anti-tip")).toEqual(["anti", "tip"]);
  });
});

describe("the index", () => {
  const script = searchIndex(pages().flatMap((page) => page.indexed ?? []));
  const index = MiniSearch.loadJSON<Entry>(
    script.slice(script.indexOf("{"), script.lastIndexOf("}") + 1),
    indexOptions,
  );
  const found = (asked: string): string[] => index.search(asked).map(({ at }) => String(at));

  test.each([
    ["M1502.4.6.1", /^rules\/venting\/duct-length\.html/],
    ["1502.4.6.1", /^rules\/venting\/duct-length\.html/],
    ["504.9.4.1", /^rules\/venting\/duct-length\.html/],
    ["35 ft", /^rules\/venting\/duct-length\.html/],
    ["standpipe 18 in", /^rules\/plumbing\/standpipe\.html/],
    ["transition du", /^rules\/venting\/transition-duct\.html/],
  ])("%s leads first to the rule that rests on it", (asked, rule) => {
    expect(found(asked)[0]).toMatch(rule);
  });

  test("a section leads to those below it, a quantity only to itself", () => {
    const below = found("1502.4");
    for (const at of found("M1502.4.6.1")) expect(below).toContain(at);
    for (const { text, heading } of index.search("35 ft")) {
      expect(`${heading} ${text}`).toMatch(/\b35 ?(ft|feet)/i);
    }
  });

  test("every place that can be found is there", () => {
    const anchors = new Map(pages().map(({ path, html }) => [path, html]));
    for (const { at } of index.search(MiniSearch.wildcard)) {
      const [path, heading] = String(at).split("#");
      expect(anchors.get(path!), at).toContain(heading === undefined ? "<main>" : ` id="${heading}"`);
    }
  });
});

interface AxeResult {
  readonly violations: readonly { readonly id: string; readonly nodes: readonly { readonly html: string }[] }[];
}
declare const axe: { run(context: unknown, options: unknown): Promise<AxeResult> };

describe.skipIf(!hasBrowser)("the pages in a browser (needs Chromium at /usr/bin/chromium)", () => {
  let site: Site;
  const checker = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
  const asked: string[] = [];
  const wrong: string[] = [];
  const newPage = async (options = {}): Promise<Page> => {
    const page = await site.browser.newPage(options);
    page.on("request", (request) => asked.push(request.url()));
    page.on("console", (said) => wrong.push(said.text()));
    page.on("pageerror", (error) => wrong.push(error.message));
    return page;
  };
  beforeAll(async () => {
    site = await openSite();
  }, 60_000);
  afterAll(async () => {
    await site?.close();
    expect(wrong).toEqual([]);
    expect(asked.filter((address) => !address.startsWith("file:"))).toEqual([]);
  });

  test("the search works by keyboard alone, and says how much it found", async () => {
    const page = await newPage();
    await page.goto(site.address("index.html"));
    await page.getByRole("link", { name: "Search" }).press("Enter");
    await page.getByRole("searchbox").focus();
    await page.keyboard.type("m1502.4.6.1");
    const status = page.getByRole("status");
    await status.getByText(/^\d+ places found\.$/).waitFor();
    const links = page.locator("ol.found a");
    expect(await status.textContent()).toBe(`${await links.count()} places found.`);
    expect(await page.locator("ol.found mark").first().textContent()).toMatch(/^M1502\.4\.6\.1/);
    await page.keyboard.press("Enter");
    expect(page.url()).toMatch(/\?q=m1502\.4\.6\.1$/);
    await page.keyboard.press("Tab");
    await page.keyboard.press("Tab");
    expect(await links.first().evaluate((link) => link === document.activeElement)).toBe(true);
    await page.keyboard.press("Enter");
    await page.waitForURL(/rules\/venting\/duct-length\.html#/);

    await page.goto(`${site.address("search.html")}?q=${encodeURIComponent("<img src=x onerror=console.log(1)>")}`);
    expect(await status.textContent()).toMatch(/^Nothing found/);
    expect(await page.locator("img").count()).toBe(0);
    await page.close();
  });

  test.each([
    ["phone", 360, "dark"],
    ["desk", 1280, "light"],
  ] as const)(
    "no fault of access and nothing cut on a %s of %i px, %s",
    async (_, width, colorScheme) => {
      const page = await newPage({ viewport: { width, height: 800 }, colorScheme, bypassCSP: true });
      for (const [path, act] of [
        ["index.html"],
        ["guide/in-an-app.html"],
        ["rules/venting/duct-length.html", () => page.getByLabel("straight", { exact: true }).fill("18")],
        ["rules/plumbing/gas-pipe.html"],
        ["search.html?q=35+ft"],
      ] as [string, (() => Promise<void>)?][]) {
        const [file, query] = path.split("?");
        await page.goto(site.address(file!) + (query === undefined ? "" : `?${query}`));
        await page.locator("details").evaluateAll((all) => {
          for (const one of all) (one as HTMLDetailsElement).open = true;
        });
        await act?.();
        if (act) await page.getByText("NOT READ").waitFor();
        await page.evaluate(checker);
        const { violations } = await page.evaluate(() =>
          axe.run(document, { resultTypes: ["violations"], preload: false }),
        );
        expect(violations.map(({ id, nodes }) => `${path} ${id}: ${nodes[0]!.html}`)).toEqual([]);
        const wide = await page.evaluate(
          () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
        );
        expect(wide, path).toBe(0);
      }
      await page.close();
    },
    60_000,
  );
});
