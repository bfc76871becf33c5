/** The generated pages say what the catalogue says. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { pagesOf, stalePages } from "../../docs/build/pages.js";
import { filledPage } from "../../docs/build/render.js";
import { entries, exportName, root } from "./catalogue.js";

const pages = pagesOf(entries);

test("no page is stale or missing; npm run pages makes them", () => {
  expect(stalePages(pages)).toEqual([]);
});

// what is not written yet is named above
const written = entries.filter(({ id }) => pages.get(`docs/rules/${id}.md`) !== undefined);

describe.each(written.map((entry) => [entry.id, entry] as const))("the page of %s", (id, entry) => {
  const page = pages.get(`docs/rules/${id}.md`)!;

  test("has its parts in order and text of its own where it is written", () => {
    expect(page.split("\n").filter((line) => /^#{1,2} /.test(line))).toEqual([
      `# ${id}`,
      "## Why it matters",
      "## When it does not apply",
      "## Inputs",
      "## Basis",
      "## Worked example",
      "## History",
    ]);
    const written = page.replace(/<!-- made:\w+ -->[\s\S]*?<!-- \/made -->/g, "").split(/^## .*$/m);
    expect(written[1]!.trim().length).toBeGreaterThan(120);
    expect(written[2]!.trim().length).toBeGreaterThan(20);
    expect(written.at(-1)).toContain(`- ${entry.since}: added`);
  });

  test("shows a call that gives what the page says", () => {
    const call = /```ts\nimport \{ (\w+) \} from "dryfit\/(\w+)";\n\n\1\(([\s\S]*?)\);\n```/.exec(page)!;
    expect([call[1], call[2]]).toEqual([exportName(id), id.split("/")[0]]);
    const [input, at] = new Function(`return [${call[3]}]`)() as [unknown, undefined];
    const tried = entry.try(input, at) as { finding?: { message: string }; calculation?: { message: string } };
    const message = (tried.finding ?? tried.calculation)?.message;
    expect(page).toContain(`> ${message}\n`);
    const json = /echo '(.*)' \| dryfit calc/.exec(page)![1]!.replaceAll("'\\''", "'");
    expect(JSON.parse(json)).toEqual(input);
  });

  test("names every message, field and limit", () => {
    const json = entry.jsonSchema() as { properties: Record<string, unknown> };
    const names = [
      ...Object.values(entry.messages as Record<string, object>).flatMap((byId) => Object.keys(byId)),
      ...Object.keys(json.properties),
      ...entry.limits.map((limit) => limit.id),
    ];
    expect(names.filter((name) => !page.includes(`\`${name}\``))).toEqual([]);
  });
});

test("a page without its markers is refused", () => {
  const [entry] = entries;
  expect(() => filledPage(entry!, "# no markers\n")).toThrow(/needs the marked parts/);
  expect(() => filledPage(entry!, "<!-- made:nonsense -->\n<!-- /made -->\n")).toThrow(/no part called/);
});

test("links between the pages lead somewhere", () => {
  const broken = [...pages].flatMap(([path, text]) =>
    [...(text ?? "").matchAll(/\]\(([^)#:]+)(?:#[^)]*)?\)/g)].flatMap(([, target]) => {
      try {
        readFileSync(new URL(target!, `file://${root}${path}`));
        return [];
      } catch {
        return [`${path} links to ${target}`];
      }
    }),
  );
  expect(broken).toEqual([]);
});
