/** The files that the pages share: their look, and their scripts as one plain script each, so that they run from a disk. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = fileURLToPath(new URL("./", import.meta.url));

/** One script with everything that it needs. mathjs is asked for by no page. */
async function bundled(name: string): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [`${here}${name}.ts`],
    bundle: true,
    minify: true,
    platform: "browser",
    format: "iife",
    target: "es2022",
    charset: "utf8",
    external: ["mathjs"],
    write: false,
    logLevel: "error",
  });
  return outputFiles[0]!.text;
}

/** The shared files by name. */
export async function assets(): Promise<ReadonlyMap<string, string>> {
  return new Map([
    ["look.css", readFileSync(`${here}look.css`, "utf8")],
    ["workbench.js", await bundled("workbench")],
    ["search.js", await bundled("search")],
  ]);
}
