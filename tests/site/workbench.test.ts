/** The workbench of every rule's page in a real browser: it says what the library says in Node, and asks nobody. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { CatalogueEntry } from "../../src/core/rule/index.js";
import { catalogue } from "../../src/survey/index.js";
import { hasBrowser, openSite, type Site } from "./browser.js";

interface Shown {
  readonly title: string;
  readonly message: string;
}

describe.skipIf(!hasBrowser)("the workbench (needs Chromium at /usr/bin/chromium)", () => {
  let site: Site;
  const watched = { asked: [] as string[], wrong: [] as string[] };
  const newPage = async (): Promise<Page> => {
    const page = await site.browser.newPage();
    page.on("request", (request) => watched.asked.push(request.url()));
    page.on("console", (said) => watched.wrong.push(said.text()));
    page.on("pageerror", (error) => watched.wrong.push(error.message));
    return page;
  };
  beforeAll(async () => {
    site = await openSite();
  }, 60_000);
  afterAll(() => site?.close());

  test("every example of every entry gives, through its form, what it gives in Node", async () => {
    const { asked, wrong } = watched;
    const entries = catalogue().values();
    const readSome = async (): Promise<void> => {
      const page = await newPage();
      for (const entry of entries) await read(page, entry);
      await page.close();
    };
    const read = async (page: Page, entry: CatalogueEntry): Promise<void> => {
      await page.goto(site.address(`rules/${entry.id}.html`));
      const shown = await page.evaluate(() => {
        const chooser = document.querySelector<HTMLSelectElement>("[data-entry] select")!;
        const messageNow = (): string => document.querySelector(".message")!.textContent!.trim();
        const first = messageNow();
        const all = [...chooser.options].slice(0, -1).map(({ value, text }): Shown => {
          chooser.value = value;
          chooser.dispatchEvent(new Event("input"));
          return { title: text, message: messageNow() };
        });
        return { first, all };
      });
      const expected = entry.examples.map(({ title, input, at }) => ({ title, message: entry(input, at).message }));
      expect(shown.first).toBe(expected[0]!.message);
      expect(shown.all).toEqual(expected);
    };
    await Promise.all([readSome(), readSome(), readSome()]);
    expect(wrong).toEqual([]);
    expect(asked.filter((address) => !address.startsWith("file:"))).toEqual([]);
  }, 120_000);
});
