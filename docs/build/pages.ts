/**
 * Fills the marked parts of the rule pages and makes the index pages from the catalogue.
 * `--check` changes nothing; it lists what is stale and exits with 1.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import type { CatalogueEntry } from "../../src/core/rule/index.js";
import { filledPage, pageOf, wholePages } from "./render.js";

const root = fileURLToPath(new URL("../../", import.meta.url));

/** Pages as they should be, by path; `undefined` for the page of an entry that nobody has written yet. */
export function pagesOf(entries: readonly CatalogueEntry[]): Map<string, string | undefined> {
  // the indexes link to pages that are there; one that is not is told by itself
  const pages = new Map<string, string | undefined>(
    wholePages(entries.filter((entry) => existsSync(root + pageOf(entry)))),
  );
  for (const entry of entries) {
    const path = pageOf(entry);
    pages.set(path, existsSync(root + path) ? filledPage(entry, readFileSync(root + path, "utf8")) : undefined);
  }
  return pages;
}

/** Paths of the pages that are not as they should be, each with what is wrong. */
export function stalePages(pages: ReadonlyMap<string, string | undefined>): string[] {
  return [...pages].flatMap(([path, text]) => {
    if (text === undefined) return [`${path} is not written`];
    if (!existsSync(root + path)) return [`${path} is missing`];
    return readFileSync(root + path, "utf8") === text ? [] : [`${path} is stale`];
  });
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const { catalogue } = await import("../../src/survey/index.js");
  const pages = pagesOf(catalogue());
  const stale = stalePages(pages);
  if (process.argv.includes("--check")) {
    for (const line of stale) console.error(line);
    if (stale.length > 0) console.error("Run npm run pages.");
    process.exitCode = stale.length > 0 ? 1 : 0;
  } else {
    for (const [path, text] of pages) {
      if (text === undefined) continue;
      mkdirSync(dirname(root + path), { recursive: true });
      writeFileSync(root + path, text);
    }
    console.log(`${pages.size} pages, ${stale.length} of them changed or not written.`);
  }
}
