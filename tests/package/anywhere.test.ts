/** The same input gives the same bytes in Node, in a worker, where no Node global exists, and in a real browser. */
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import vm from "node:vm";
import { Worker } from "node:worker_threads";
import { build } from "esbuild";
import { beforeAll, describe, expect, test } from "vitest";

const CHROMIUM = "/usr/bin/chromium";

/** Every example of the catalogue, and one site, as one text. */
const program = `
import { assessSite, catalogue } from "./src/survey/index.ts";
const answers = catalogue().flatMap((entry) => entry.examples.map(({ input, at }) => entry(input, at)));
const site = assessSite({ site: { id: "A" }, machine: { kind: "dryer", fuel: "electric" }, venting: { duct: { straight: "30 ft ± 2 in" } } });
globalThis.answer = JSON.stringify([answers, site]);
`;

let code = "";
let inNode = "";

beforeAll(async () => {
  const { outputFiles } = await build({
    stdin: { contents: program, resolveDir: fileURLToPath(new URL("../..", import.meta.url)), loader: "ts" },
    bundle: true,
    platform: "browser",
    format: "iife",
    write: false,
    external: ["mathjs"],
    logLevel: "error",
  });
  code = outputFiles[0]!.text;
  const here: { answer?: string } = {};
  new Function("globalThis", code)(here);
  inNode = here.answer!;
}, 60_000);

describe("the library", () => {
  test("answers at length", () => {
    expect(inNode.length).toBeGreaterThan(100_000);
    expect(inNode).not.toMatch(/NaN|Infinity/);
  });

  test("gives the same bytes twice", () => {
    const again: { answer?: string } = {};
    new Function("globalThis", code)(again);
    expect(again.answer).toBe(inNode);
  });

  test("gives the same bytes in a worker", async () => {
    const worker = new Worker(`${code}; require("node:worker_threads").parentPort.postMessage(globalThis.answer);`, {
      eval: true,
    });
    const answer = await new Promise((resolve, reject) => {
      worker.once("message", resolve);
      worker.once("error", reject);
    });
    await worker.terminate();
    expect(answer === inNode).toBe(true);
  });

  test("gives the same bytes where no Node global exists", () => {
    const bare: Record<string, unknown> = { TextDecoder, TextEncoder };
    bare["globalThis"] = bare;
    vm.runInNewContext(code, bare, { timeout: 50_000 });
    expect(bare["answer"] === inNode).toBe(true);
  });

  test.skipIf(!existsSync(CHROMIUM))("gives the same bytes in a real browser (needs Chromium)", async () => {
    const { chromium } = await import("playwright-core");
    const quiet = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"];
    const args = [...quiet, "--disable-background-networking", "--disable-component-update", "--disable-sync"];
    const browser = await chromium.launch({ executablePath: CHROMIUM, args });
    try {
      const page = await browser.newPage();
      await page.setContent("<!doctype html><title>dryfit</title>");
      await page.addScriptTag({ content: code });
      const answer = await page.evaluate(() => (globalThis as unknown as { answer: string }).answer);
      expect(answer === inNode).toBe(true);
    } finally {
      await browser.close();
    }
  });
});
