/** The pages in a folder, and a real browser to read them with. */
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser } from "playwright-core";
import { writeSite } from "../../docs/build/site.js";

const CHROMIUM = "/usr/bin/chromium";
export const hasBrowser = existsSync(CHROMIUM);

export interface Site {
  readonly browser: Browser;
  readonly address: (path: string) => string;
  readonly close: () => Promise<void>;
}

export async function openSite(): Promise<Site> {
  const folder = mkdtempSync(join(tmpdir(), "dryfit-site-"));
  await writeSite(folder);
  const { chromium } = await import("playwright-core");
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
  return {
    browser,
    address: (path) => pathToFileURL(join(folder, path)).href,
    close: async () => {
      await browser.close();
      rmSync(folder, { recursive: true });
    },
  };
}
