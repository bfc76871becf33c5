/** The workbench of every rule's page in a real browser: it says what the library says in Node, and asks nobody. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { apart } from "../../docs/build/site/form.js";
import { picturesOf } from "../../docs/build/site/pictures.js";
import type { CatalogueEntry } from "../../src/core/rule/index.js";
import { clearances } from "../../src/placement/index.js";
import { catalogue } from "../../src/survey/index.js";
import { ductLength } from "../../src/venting/index.js";
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
      await page.goto(site.address(`rules/${entry.id}.html`), { waitUntil: "domcontentloaded" });
      const shown = await page.evaluate(() => {
        const chooser = document.querySelector<HTMLSelectElement>("[data-entry] select")!;
        const messageNow = (): string => document.querySelector(".message")!.textContent!.trim();
        const first = messageNow();
        const all = [...chooser.options].slice(0, -1).map(({ value, text }): Shown => {
          chooser.value = value;
          chooser.dispatchEvent(new Event("input"));
          return { title: text, message: messageNow() };
        });
        // every group, list and kind of record of the form opens
        const form = document.querySelector("[data-entry] form")!;
        const opened = new Set<Element>();
        const closed = (): HTMLElement[] =>
          [...form.querySelectorAll<HTMLElement>("input[type=checkbox]:not(:checked), button:not([data-drop])")].filter(
            (one) => !opened.has(one),
          );
        let some: HTMLElement[];
        do {
          for (const select of form.querySelectorAll("select")) {
            for (let i = 1; i < select.options.length && !opened.has(select); i++) {
              select.selectedIndex = i;
              select.dispatchEvent(new Event("input"));
            }
            opened.add(select);
          }
          some = closed();
          for (const one of some) {
            opened.add(one);
            one.click();
          }
        } while (some.length > 0);
        return {
          first,
          all,
          names: [...form.querySelectorAll("label, legend")].map((name) => name.firstChild!.textContent),
        };
      });
      const expected = entry.examples.map(({ title, input, at }) => ({ title, message: entry(input, at).message }));
      expect(shown.first).toBe(expected[0]!.message);
      expect(shown.all).toEqual(expected);
      const { properties } = entry.jsonSchema() as { properties: object };
      expect(shown.names).toEqual(expect.arrayContaining(Object.keys(properties).map(apart)));
    };
    await Promise.all([readSome(), readSome(), readSome()]);
    expect(wrong).toEqual([]);
    expect(asked.filter((address) => !address.startsWith("file:"))).toEqual([]);
  }, 120_000);

  const verdict = (page: Page) => page.locator("[role=status]");

  test("a fault stands beside its field and goes when the field is put right", async () => {
    const page = await newPage();
    await page.goto(site.address("rules/venting/duct-length.html"));
    const tried = ductLength.try({
      fuel: "electric",
      straight: "18",
      elbows: [{ radius: "4 in mitred", angle: "90°" }],
    });
    const [straight, count] = tried.fault!.issues;
    await page.getByLabel("straight", { exact: true }).fill("18");
    await page.getByLabel("count").fill("");
    await verdict(page).getByText("2 fields cannot be used.").waitFor();
    const field = page.getByLabel("straight", { exact: true });
    expect(await field.getAttribute("aria-invalid")).toBe("true");
    const described = (await field.getAttribute("aria-describedby"))!.split(" ");
    expect(await page.locator(`[id="${described[0]}"]`).textContent()).toBe(straight!.message);
    await page.getByRole("button", { name: "elbows[0].count" }).click();
    const beside = page.locator(".field", { has: page.locator(":focus") }).locator(".fault");
    expect(await beside.textContent()).toBe(count!.message);

    await field.fill("30 ft");
    await page.getByLabel("count").fill("1");
    await verdict(page).getByText("35 ft").waitFor();
    expect(await verdict(page).textContent()).toBe(
      `PASS ${ductLength({ fuel: "electric", straight: "30 ft", elbows: [{ radius: "4 in mitred", angle: "90°", count: 1 }] }).message}`,
    );
    expect(await page.locator(".fault, [aria-invalid]").count()).toBe(0);
    expect(await field.getAttribute("aria-describedby")).toBe(described[1]);
    await page.close();
  });

  test("lists grow and shrink, and a list with nothing in it is not the same as no list", async () => {
    const page = await newPage();
    await page.goto(site.address("rules/venting/duct-length.html"));
    const program = page.locator(".answer pre code").first();
    await page.getByRole("button", { name: "Add to elbows" }).click();
    expect(
      await page.locator(":focus").evaluate((one) => one.closest("fieldset")!.querySelector("legend")!.textContent),
    ).toBe("elbows 2");
    await verdict(page).getByText("NOT READ").waitFor();
    await page.getByRole("button", { name: "Remove elbows 2" }).click();
    await page.getByRole("button", { name: "Remove elbows 1" }).click();
    await verdict(page).getByText("18 ft").waitFor();
    expect(await program.textContent()).toContain('{ fuel: "electric", straight: "18 ft", elbows: [] }');
    await page.getByLabel("Say something of elbows").uncheck();
    await verdict(page).getByText("REVIEW").waitFor();
    expect(await program.textContent()).toContain('{ fuel: "electric", straight: "18 ft" }');
    await page.getByRole("button", { name: "elbows", exact: true }).click();
    expect(await page.locator(":focus").getAttribute("type")).toBe("checkbox");
    await page.close();
  });

  test("a remedy fills the form in, and the rule then passes", async () => {
    const page = await newPage();
    await page.goto(site.address("rules/placement/connections-behind.html"));
    await page.getByLabel("Start from an example").selectOption("A closet an inch too shallow");
    await verdict(page).getByText("FAIL").waitFor();
    await page
      .getByRole("button", { name: /^Fill in/ })
      .first()
      .click();
    expect(await verdict(page).textContent()).toMatch(/^PASS/);
    expect(await verdict(page).evaluate((one) => one === document.activeElement)).toBe(true);
    await page.close();
  });

  test("what is written stays text, and a local amendment governs", async () => {
    const page = await newPage();
    await page.goto(site.address("rules/venting/duct-length.html"));
    await page.getByText("Where, what the maker says, units").click();
    await page.getByLabel("Say something of local").check();
    await page.getByRole("button", { name: "Add to local" }).click();
    await page.getByLabel("limit (needed)").selectOption("venting/duct-length.base");
    await page.getByLabel("value (needed)").fill("20 ft");
    const said = "<img src=x onerror=console.log(1)>";
    await page.getByLabel("document (needed)").fill(said);
    await verdict(page).getByText("FAIL").waitFor();
    expect(await page.locator(".answer li").allTextContents()).toContainEqual(expect.stringContaining(said));
    expect(await page.locator("img").count()).toBe(0);
    expect(watched.wrong).toEqual([]);
    await page.close();
  });

  test("a check that has a drawing shows it, in the reader's units, and draws it anew", async () => {
    const page = await newPage();
    await page.goto(site.address("rules/placement/clearances.html"));
    await page.getByLabel("Start from an example").selectOption("A closet an inch too shallow");
    const plan = page.locator("figure", { has: page.getByText("Plan", { exact: true }) });
    const { input, at } = clearances.examples.find(({ title }) => title === "A closet an inch too shallow")!;
    const width = /\d+(?: \d+\/\d+)? in/;
    expect(await plan.locator("svg").textContent()).toMatch(width);
    const inNode = picturesOf(clearances, input, clearances(input, at), at ?? {}).map(({ shows }) => shows);
    expect(inNode).toContain("plan");
    expect(await page.locator("figure svg").count()).toBe(inNode.length);
    await page.getByText("Where, what the maker says, units").click();
    await page.getByLabel("units", { exact: true }).selectOption("si");
    await plan
      .locator("svg")
      .getByText(/\d mm|\d cm|\d m/)
      .first()
      .waitFor({ state: "attached" });
    expect(await plan.locator("svg").textContent()).not.toMatch(width);
    await page.close();
  });
});
