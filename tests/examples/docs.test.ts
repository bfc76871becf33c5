/** Every `ts` block of the README and the documents runs, and each `// => value` in it holds. */
import { readdirSync } from "node:fs";
import { transformSync } from "esbuild";
import { expect, test } from "vitest";
import { type Snippet, snippets } from "../../docs/build/snippets.js";
import { agrees } from "../contract/plain.js";

const packages: Readonly<Record<string, () => Promise<object>>> = {
  dryfit: () => import("dryfit"),
  "dryfit/electrical": () => import("dryfit/electrical"),
  "dryfit/venting": () => import("dryfit/venting"),
  "dryfit/plumbing": () => import("dryfit/plumbing"),
  "dryfit/placement": () => import("dryfit/placement"),
  "dryfit/survey": () => import("dryfit/survey"),
  "dryfit/report": () => import("dryfit/report"),
  zod: () => import("zod"),
};

const runnable = snippets();

/** The body of a function that runs a block: imports are loaded, each `expression; // => value` is compared. */
function bodyOf({ code }: Snippet): string {
  const compared = code
    .split("\n")
    .map((line, i) => {
      const [, expression, value] = /^(\S.*?);\s*\/\/ => (.+)$/.exec(line) ?? [];
      if (expression !== undefined) return `__compare(${i + 1}, await (${expression}), (${value}));`;
      if (line.includes("// =>")) throw new Error(`"${line}": "// =>" follows one expression that stands on its line`);
      return line;
    })
    .join("\n");
  const plain = transformSync(compared, {
    loader: "ts",
    format: "esm",
    target: "es2022",
    tsconfigRaw: { compilerOptions: { verbatimModuleSyntax: false } },
  }).code;
  return plain
    .replace(
      /^import \{([^}]*)\} from "([^"]+)";$/gm,
      (_, names: string, from: string) => `const {${names.replace(/ as /g, ": ")}} = await __load("${from}");`,
    )
    .replace(/^import \* as (\w+) from "([^"]+)";$/gm, 'const $1 = await __load("$2");');
}

const AsyncFunction = (async () => {}).constructor as new (
  ...parts: string[]
) => (...values: unknown[]) => Promise<void>;

test("there are some, in each guide", () => {
  const guides = [...new Set(runnable.map(({ file }) => file))].filter((file) => file.startsWith("docs/guide/"));
  expect(guides).toHaveLength(readdirSync(new URL("../../docs/guide/", import.meta.url)).length);
  for (const guide of ["README.md", ...guides]) {
    expect([guide, runnable.some(({ file, code }) => file === guide && code.includes("// =>"))]).toEqual([guide, true]);
  }
});

test.each(runnable)("$file:$line", async (block) => {
  const load = async (name: string): Promise<object> => {
    const from = packages[name];
    if (!from) throw new Error(`nobody who reads this can import "${name}"`);
    const names = await from();
    return names;
  };
  const compare = (line: number, got: unknown, want: unknown): void => {
    expect([`line ${block.line + line}`, agrees(got, want) ? want : got]).toEqual([`line ${block.line + line}`, want]);
  };
  await new AsyncFunction("__load", "__compare", `"use strict";\n${bodyOf(block)}`)(load, compare);
});
