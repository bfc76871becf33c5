/** The reports in a real browser: no fault of access, nothing fetched, nothing cut, on a phone, a desk and paper. */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { expect, test } from "vitest";
import { batchHtml, recordHtml, siteHtml } from "../../src/report/index.js";
import { assessSite, orderOfWork, recordOf, type Survey, takeOff } from "../../src/survey/index.js";

const CHROMIUM = "/usr/bin/chromium";
const site = (name: string): Survey =>
  JSON.parse(readFileSync(new URL(`../../examples/sites/${name}.json`, import.meta.url), "utf8")) as Survey;

interface AxeResult {
  readonly violations: readonly { readonly id: string; readonly nodes: readonly { readonly html: string }[] }[];
}
declare const axe: { run(context: unknown, options: unknown): Promise<AxeResult> };
declare const document: {
  readonly documentElement: { readonly scrollWidth: number; readonly clientWidth: number };
  querySelectorAll(selector: string): Iterable<{
    readonly scrollWidth: number;
    readonly clientWidth: number;
    readonly outerHTML: string;
    getBoundingClientRect(): { readonly right: number };
  }>;
};

test.skipIf(!existsSync(CHROMIUM))(
  "reports pass the accessibility checker and fit phone, desk and paper (needs Chromium at /usr/bin/chromium)",
  async () => {
    const { chromium } = await import("playwright-core");
    const checker = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
    const folder = mkdtempSync(join(tmpdir(), "dryfit-report-"));
    const surveys = ["alder-row-05", "larch-hill-3"].map(site);
    const pages = [
      ...surveys.map((survey) =>
        siteHtml(assessSite(survey), { survey, parts: takeOff(survey), order: orderOfWork(survey) }),
      ),
      recordHtml(recordOf(surveys[0]!)),
      batchHtml(surveys.map((survey, i) => ({ ok: true, line: i + 1, assessment: assessSite(survey) }))),
    ].map((html, i) => {
      const path = join(folder, `${i}.html`);
      writeFileSync(path, html);
      return pathToFileURL(path).href;
    });
    const browser = await chromium.launch({
      executablePath: CHROMIUM,
      args: [
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
      ],
    });
    try {
      for (const address of pages) {
        for (const { width, colorScheme } of [
          { width: 360, colorScheme: "dark" },
          { width: 1280, colorScheme: "light" },
        ] as const) {
          const page = await browser.newPage({ viewport: { width, height: 800 }, colorScheme, bypassCSP: true });
          const asked: string[] = [];
          page.on("request", (request) => asked.push(request.url()));
          await page.goto(address);
          await page.evaluate(checker);
          const { violations } = await page.evaluate(() => axe.run(document, { resultTypes: ["violations"] }));
          expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]!.html}`)).toEqual([]);
          expect(asked).toEqual([address]);
          const wide = await page.evaluate(
            () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
          );
          expect(wide).toBe(0);

          // as wide as the print of an A4 sheet between its margins
          await page.emulateMedia({ media: "print" });
          await page.setViewportSize({ width: 695, height: 1000 });
          const cut = await page.evaluate(() =>
            [...document.querySelectorAll("table,article,figure,math,dl,p")]
              .filter((one) => one.getBoundingClientRect().right > 695.5)
              .map(({ outerHTML }) => outerHTML.slice(0, 200)),
          );
          expect(cut).toEqual([]);
          await page.close();
        }
      }
    } finally {
      await browser.close();
      rmSync(folder, { recursive: true });
    }
  },
  // a browser on a busy machine takes its time
  240_000,
);
