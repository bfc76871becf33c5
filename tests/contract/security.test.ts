/** What a survey brings cannot act: not as markup, not as a key of every object, not as a formula, not by its length. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readCompound } from "../../src/core/quantity/compound.js";
import { isReadingProblem, readQuantity } from "../../src/core/quantity/index.js";
import { InputFault } from "../../src/core/rule/index.js";
import { assessmentMarkdown, assessmentText, batchHtml, siteHtml } from "../../src/report/index.js";
import { answerRow, assessMany, assessUnknown, type Survey } from "../../src/survey/index.js";
import { csvRows } from "../../src/survey/rows/csv.js";
import { jsonRow } from "../../src/survey/rows/json.js";
import { tagsOf } from "../report/markup.js";

const folder = new URL("../../examples/sites/", import.meta.url);
const surveys = readdirSync(folder)
  .sort()
  .map((name) => JSON.parse(readFileSync(new URL(name, folder), "utf8")) as Survey);

const hostile = "<script>alert(1)</script><img src=x onerror=alert(1)>";
const acting = ["script", "img", "iframe", "object", "form", "base", "link"];

type Path = readonly string[];

/** Every text of a value, by its path. */
function textsOf(value: unknown, path: Path = []): Path[] {
  if (typeof value === "string") return [path];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => textsOf(inner, [...path, key]));
}

function replaced(survey: Survey, path: Path, text: string): unknown {
  const copy = structuredClone(survey) as unknown as Record<string, unknown>;
  let at = copy;
  for (const key of path.slice(0, -1)) at = at[key] as Record<string, unknown>;
  at[path.at(-1)!] = text;
  return copy;
}

/** One survey for each text field that any of them fills; list places count as one. */
const fields = new Map<string, { readonly survey: Survey; readonly path: Path }>();
for (const survey of surveys) {
  for (const path of textsOf(survey)) {
    const name = path.map((key) => (/^\d+$/.test(key) ? "0" : key)).join(".");
    if (!fields.has(name)) fields.set(name, { survey, path });
  }
}

describe("markup in any text", () => {
  test("there are many texts to try", () => expect(fields.size).toBeGreaterThan(150));

  test.each([...fields])("%s stays text, taken or refused", (_name, { survey, path }) => {
    const input = replaced(survey, path, hostile);
    const answer = answerRow({
      ok: true,
      line: 1,
      text: hostile,
      value: input,
      placeOf: () => ({ line: 1, column: 1 }),
    });
    const pages = [batchHtml([answer])];
    if (answer.ok) {
      pages.push(siteHtml(answer.assessment, { survey: input as Survey }));
      const markdown = assessmentMarkdown(answer.assessment);
      expect(markdown).not.toMatch(/(?<!\\)<(?:script|img)/);
    }
    for (const page of pages) {
      const names = tagsOf(page).map(({ name }) => name);
      for (const name of acting) expect(names).not.toContain(name);
    }
  });

  test("a Markdown link, image, heading, table cell and code of a survey's texts are none", () => {
    const said = "![x](http://a.invalid) [y](javascript:alert(1)) `c` | # h\n\n# h";
    const input = { ...surveys[0]!, site: { ...surveys[0]!.site, id: said.replaceAll("\n", " ") } };
    const markdown = assessmentMarkdown(assessUnknown(input));
    expect(markdown).not.toMatch(/(?<!\\)\]\(/);
    expect(markdown.split("\n")[0]).toMatch(/^# /);
    expect(markdown.match(/^# /gm)).toHaveLength(1);
  });

  test("no sequence of a terminal, and no turn of the writing's direction, is printed", () => {
    const input = { ...surveys[0]!, site: { id: "A\u001b]0;x\u0007\u001b[2J\u202eB\r\nC" } };
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
    expect(assessmentText(assessUnknown(input))).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/);
  });
});

describe("keys that every object has", () => {
  const base = '"site":{"id":"A"},"machine":{"kind":"dryer","fuel":"electric"';
  const lines = [
    `{"__proto__":{"polluted":true},${base}}}`,
    `{${base},"__proto__":{"polluted":true}}}`,
    `{"constructor":{"prototype":{"polluted":true}},${base}}}`,
    `{${base}},"venting":{"__proto__":{"polluted":true}}}`,
    `{${base}},"jurisdiction":{"adopted":{"__proto__":{"irc":1}}}}`,
    `{${base}},"maker":[{"limit":"__proto__","value":"1 ft","citation":{"document":"x"}}]}`,
    `{${base}},"maker":[{"limit":"venting/duct-length.length","value":"1 ft","when":{"__proto__":{"polluted":true}},"citation":{"document":"x"}}]}`,
  ];

  test.each(lines)("%s is refused and changes nothing", (text) => {
    const answer = answerRow(jsonRow(text, 1));
    expect(answer.ok).toBe(false);
    expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
    expect(Object.getPrototypeOf({})).toBe(Object.prototype);
  });

  test.each(["__proto__.polluted", "constructor.prototype.polluted", "machine.__proto__.polluted", "site.constructor"])(
    "%s is no column",
    async (column) => {
      const bytes = new TextEncoder().encode(`site.id,machine.kind,machine.fuel,${column}\nA,dryer,electric,yes\n`);
      const rows = [];
      for await (const row of csvRows([bytes])) rows.push(row);
      expect(rows.map(({ ok }) => ok)).toEqual([false]);
      expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
    },
  );

  test("a whole file of them is refused as well", async () => {
    const bytes = new TextEncoder().encode(`[${lines.join(",")}]`);
    const answers = [];
    for await (const answer of assessMany([bytes], "json")) answers.push(answer);
    expect(answers.map(({ ok }) => ok)).toEqual(lines.map(() => false));
    expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
  });
});

describe("texts of quantities", () => {
  const shapes: readonly ((n: number) => string)[] = [
    (n) => `${"1".repeat(n)} ft`,
    (n) => `1${" ".repeat(n)}ft`,
    (n) => `1 ${"ft ".repeat(n)}`,
    (n) => `1 ft${"/s".repeat(n)}`,
    (n) => `${"1 ft 6 in ".repeat(n)}`,
    (n) => `1${",000".repeat(n)} ft`,
    (n) => `${"± ".repeat(n)}1 ft`,
    (n) => `1 ${"(".repeat(n)}ft${")".repeat(n)}`,
    (n) => `1 ${"1/".repeat(n)}2 in`,
  ];

  test.each(shapes)("%s: a longer one is refused before it is taken apart", (shape) => {
    // millions of characters would take minutes were each looked at more than a few times
    for (const length of [40, 101, 1_000_000]) {
      const read = readQuantity(shape(length), "length");
      if (shape(length).length > 100) {
        expect(isReadingProblem(read) && read.message).toContain("at most 100 characters");
      }
    }
  });

  test("up to the longest, none takes more than its share: the shapes by the hundred thousand", () => {
    const texts = shapes.flatMap((shape) => [8, 20, 40].map((n) => shape(n).slice(0, 100)));
    let read = 0;
    for (let i = 0; i < 100_000; i++) if (isReadingProblem(readQuantity(texts[i % texts.length]!, "length"))) read++;
    expect(read).toBeGreaterThan(50_000);
  });

  test.each([
    "import({pi:3},{override:true})",
    '1 ft; createUnit("x")',
    '1 createUnit("x")',
    "1 f(x)=x",
    "1 (1).constructor",
    "1 ft.constructor",
    '1 parse("1")',
    '1 evaluate("1")',
    "1 ft^(99^99)",
    "1 a=b",
  ])("%s is no unit and is not evaluated", async (text) => {
    expect(isReadingProblem(readQuantity(text, "length"))).toBe(true);
    await expect(readCompound(text, "length")).rejects.toThrow(RangeError);
  });

  test("a formula in a survey's field is refused with its path", () => {
    const input = { ...surveys[0]!, venting: { duct: { straight: "=1+1 ft" } } };
    const attempt = (): unknown => assessUnknown(input);
    expect(attempt).toThrow(InputFault);
    expect(attempt).toThrow(/venting\.duct\.straight/);
  });
});
