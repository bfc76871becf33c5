/**
 * Checks the package as others get it: packed, installed into an empty project, imported by ESM, required by CJS,
 * type-checked in both module systems, bundled for the browser, and its command run.
 */
import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const root = fileURLToPath(new URL("../..", import.meta.url));
const place = mkdtempSync(join(tmpdir(), "dryfit-package-"));
const run = (command: string, args: string[], cwd = place): string =>
  execFileSync(command, args, { cwd, encoding: "utf8", stdio: ["ignore", "pipe", "inherit"] });

let passed = 0;
function check(what: string, holds: boolean): void {
  if (!holds) throw new Error(`not so: ${what}`);
  passed++;
  console.log(`ok: ${what}`);
}

const program = (get: string) => `
${get}
const found = assessSite({ site: { id: "A-1" }, machine: { kind: "dryer", fuel: "electric" }, venting: { duct: { straight: "43 ft", elbows: [] } } });
const finding = ductLength({ fuel: "electric", straight: "43 ft", elbows: [] });
if (found.verdict !== "fail" || finding.verdict !== "fail" || finding.basis.length === 0) throw new Error("wrong verdict");
if (!(electrical && plumbing && placement && report)) throw new Error("an entry is empty");
console.log("works");
`;

try {
  run("npm", ["pack", "--silent", "--pack-destination", place], root);
  const tarball = readdirSync(place).find((name) => name.endsWith(".tgz"))!;
  const size = statSync(join(place, tarball)).size;
  writeFileSync(join(place, "package.json"), JSON.stringify({ name: "empty", private: true, version: "1.0.0" }));
  run("npm", ["install", "--no-audit", "--no-fund", "--silent", "--ignore-scripts", `./${tarball}`]);
  check(`the packed file (${(size / 1024).toFixed(0)} KiB) installs into an empty project`, true);

  const esm = program(`
import { assessSite } from "dryfit";
import { ductLength } from "dryfit/venting";
import * as electrical from "dryfit/electrical";
import * as plumbing from "dryfit/plumbing";
import * as placement from "dryfit/placement";
import * as report from "dryfit/report";
import { assessMany } from "dryfit/survey";
if (!assessMany) throw new Error("no assessMany");`);
  writeFileSync(join(place, "esm.mjs"), esm);
  check("it can be imported", run("node", ["esm.mjs"]).trim() === "works");

  writeFileSync(
    join(place, "cjs.cjs"),
    program(`
const { assessSite } = require("dryfit");
const { ductLength } = require("dryfit/venting");
const [electrical, plumbing, placement, report] = ["electrical", "plumbing", "placement", "report"].map((name) => require("dryfit/" + name));`),
  );
  check("it can be required", run("node", ["cjs.cjs"]).trim() === "works");

  const tsc = join(root, "node_modules/typescript/bin/tsc");
  writeFileSync(join(place, "typed.mts"), esm);
  writeFileSync(join(place, "typed.cts"), esm);
  writeFileSync(
    join(place, "wrong.mts"),
    `import { ductLength } from "dryfit/venting";\nductLength({ fuel: "steamEngine" });\nductLength({ fuel: "electric", straight: 43 });\n`,
  );
  const typeCheck = (file: string): string =>
    run("node", [
      tsc,
      "--noEmit",
      "--strict",
      "--target",
      "es2022",
      "--module",
      "nodenext",
      "--lib",
      "es2023,dom",
      file,
    ]);
  typeCheck("typed.mts");
  typeCheck("typed.cts");
  check("its types hold for ESM and for CJS", true);
  let complaints = "";
  try {
    typeCheck("wrong.mts");
  } catch (error) {
    complaints = String((error as { stdout?: unknown }).stdout);
  }
  check(
    "its types refuse a wrong fuel and a bare number",
    complaints.includes("wrong.mts(2,") && complaints.includes("wrong.mts(3,"),
  );

  for (const entry of [
    "dryfit",
    "dryfit/electrical",
    "dryfit/venting",
    "dryfit/plumbing",
    "dryfit/placement",
    "dryfit/survey",
    "dryfit/report",
  ]) {
    const bundle = await build({
      stdin: { contents: `import * as all from "${entry}"; globalThis.all = all;`, resolveDir: place },
      bundle: true,
      platform: "browser",
      format: "esm",
      write: false,
      metafile: true,
      splitting: true,
      outdir: join(place, "out"),
      logLevel: "error",
    });
    const first = Object.values(bundle.metafile.outputs).find((output) => output.entryPoint !== undefined)!;
    const inputs = Object.keys(first.inputs);
    check(
      `${entry} bundles for the browser without mathjs`,
      !inputs.some((path) => path.includes("node_modules/mathjs/")),
    );
  }

  const list = run("node", [join(place, "node_modules/.bin/dryfit"), "list"]);
  check("its command runs", list.includes("venting/duct-length"));
  check("it carries its licence", readFileSync(join(place, "node_modules/dryfit/LICENSE"), "utf8").startsWith("MIT"));
  console.log(`${passed} package checks hold`);
} finally {
  rmSync(place, { recursive: true, force: true });
}
