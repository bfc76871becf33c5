/** Every `@example expression // value` of the doc comments, run with the names a reader of that file has at hand. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { entries, examplesOf, modules, root } from "./catalogue.js";
import { agrees } from "./plain.js";

type Names = Readonly<Record<string, unknown>>;
const load = (path: string): Promise<Names> => import(new URL(`../../src/${path}`, import.meta.url).href);

interface Example {
  readonly file: string;
  readonly line: number;
  readonly code: string;
  readonly value: string;
}

const files = readdirSync(`${root}src`, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".ts"))
  .sort();

const found: Example[] = [];
const malformed: string[] = [];
for (const file of files) {
  readFileSync(`${root}src/${file}`, "utf8")
    .split("\n")
    .forEach((text, index) => {
      const tag = /@example\b\s*(.*)$/.exec(text);
      if (!tag) return;
      const line = index + 1;
      const [, code, value] = /^(.+?) \/\/ (.+?)\s*(?:\*\/)?$/.exec(tag[1]!) ?? [];
      if (code === undefined || value === undefined) malformed.push(`src/${file}:${line}: ${tag[1]}`);
      else found.push({ file, line, code, value });
    });
}

const shared: Names = { ...(await load("core/quantity/index.ts")), ...(await load("core/basis/index.ts")) };

/** What the examples of the report speak of: a duct that is too long. */
const ductLength = entries.find(({ id }) => id === "venting/duct-length");
const finding = ductLength && examplesOf(ductLength).find(({ gives }) => gives === "tooLong")?.result;
const samples: Names = { finding };

/** The folder's public names, and the file's own. */
async function namesFor(file: string): Promise<Names> {
  const folder = file
    .split("/")
    .slice(0, file.startsWith("core/") ? 2 : 1)
    .join("/");
  const front = existsSync(`${root}src/${folder}/index.ts`) ? await load(`${folder}/index.ts`) : {};
  return { ...(folder === "report" ? samples : {}), ...shared, ...front, ...(await load(file)) };
}

const AsyncFunction = (async () => {}).constructor as new (
  ...parts: string[]
) => (...values: unknown[]) => Promise<unknown>;

async function run(code: string, names: Names): Promise<unknown> {
  const known = Object.entries(names).filter(([name]) => /^[A-Za-z_$][\w$]*$/.test(name) && name !== "default");
  const body = new AsyncFunction(...known.map(([name]) => name), `"use strict"; return (${code});`);
  return body(...known.map(([, value]) => value));
}

describe("examples in the doc comments", () => {
  test("are written as an expression and its value", () => expect(malformed).toEqual([]));

  test("are there for core, physics and each trade", () => {
    for (const folder of ["core", "physics", ...modules.keys()]) {
      expect([folder, found.some(({ file }) => file.startsWith(`${folder}/`))]).toEqual([folder, true]);
    }
  });

  test.each(found)("src/$file:$line: $code", async ({ file, code, value }) => {
    const names = await namesFor(file);
    const got = await run(code, names);
    const want = await run(value, names);
    expect(agrees(got, want) ? want : got).toEqual(want);
  });
});

test("numbers are held to the digits printed", () => {
  expect(agrees(8.53440001, 8.5344)).toBe(true);
  expect(agrees(8.5346, 8.5344)).toBe(false);
  expect(agrees(3.30877294e-6, 3.3087729e-6)).toBe(true);
  expect(agrees(3.31e-6, 3.3087729e-6)).toBe(false);
  expect(agrees(4, 5)).toBe(false);
  expect(agrees(5.4, 5)).toBe(true);
  expect(agrees(5.6, 5)).toBe(false);
  expect(agrees([1, { a: 2.04 }], [1, { a: 2 }])).toBe(true);
  expect(agrees([1, { a: 2.04 }], [1, { a: 2.1 }])).toBe(false);
  expect(agrees([1, 2], [1])).toBe(false);
  expect(agrees({ a: 1, b: 2 }, { a: 1 })).toBe(false);
  expect(agrees("5 in", "5.1 in")).toBe(false);
  expect(agrees(null, undefined)).toBe(false);
});
