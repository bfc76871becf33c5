/** Answers in files: in every form, whole or not at all, and the outputs that cannot be written. */
import { spawn } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";
import { parse } from "csv-parse/sync";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { Command } from "./command.js";
import { faultsIn, ndjsonFile } from "./generate.js";

const ROWS = 600;
const faults = { brokenJson: 10, unknownField: 10, noUnit: 10, twice: 10, tooDeep: 10, encoding: 9, tooLong: 1 };
let command: Command;
/** Verdicts alone are answered fastest; what is tested here does not depend on the texts. */
const assess = (...args: string[]) => command.assess(...args, "--detail", "verdicts");
const text = (name: string): string => readFileSync(command.path(name), "utf8");
const jsonLines = (body: string) =>
  body
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line));
const left = (): string[] => readdirSync(command.folder).filter((name) => /\.(part|journal|new)$/.test(name));

beforeAll(async () => {
  command = await Command.built();
  command.write("in.ndjson", ndjsonFile({ rows: ROWS, seed: 1, faults, blankAfter: 50 }));
  command.write("one.ndjson", '{"site":{"id":"=1+1"},"machine":{"kind":"dryer","fuel":"electric"}}\n{"site":\n');
}, 60_000);
afterAll(() => command.remove());

describe("--out", () => {
  test("writes what standard output would have, and the counts to standard output", async () => {
    const [shown, kept] = await Promise.all([
      assess("in.ndjson", "--ndjson"),
      assess("in.ndjson", "--out", "a.ndjson"),
    ]);
    expect(text("a.ndjson")).toBe(shown.out);
    expect(kept).toMatchObject({ code: 3, err: "" });
    expect(kept.out).toContain(`${ROWS} rows read: ${ROWS - faultsIn(faults)} answered`);
    for (const [code, count] of Object.entries(faults)) {
      if (count === 10) expect(kept.out).toMatch(new RegExp(`^ +${count} {2}REFUSED ${code}$`, "m"));
    }
    expect(left()).toEqual([]);
  });

  test("writes one JSON value, packed where the name says so", async () => {
    const [shown] = await Promise.all([assess("in.ndjson", "--json"), assess("in.ndjson", "--out", "a.json.gz")]);
    const body = gunzipSync(readFileSync(command.path("a.json.gz"))).toString();
    expect(body).toBe(shown.out);
    const { rows, summary } = JSON.parse(body);
    expect([rows.length, summary.rows, summary.refusals]).toEqual([ROWS, ROWS, faults]);
  });

  test("writes CSV that a second reader reads, with a row for every site and every fault", async () => {
    const { out } = await assess("in.ndjson", "--ndjson");
    await assess("in.ndjson", "--out", "a.csv");
    const rows = parse(text("a.csv"), { columns: true }) as Record<string, string>[];
    const expected = jsonLines(out).flatMap(({ ok, line, assessment, refusal }) =>
      ok
        ? (assessment.findings.length > 0 ? assessment.findings : [{}]).map(({ rule = "", messageId = "" }) => [
            String(line),
            assessment.verdict,
            rule,
            messageId,
          ])
        : refusal.issues.map(({ code }: { code: string }) => [String(line), "refused", "", code]),
    );
    expect(rows.map(({ line, siteVerdict, rule, messageId }) => [line, siteVerdict, rule, messageId])).toEqual(
      expected,
    );
  });

  test("gives a passing site its row, and makes safe what a spreadsheet would run", async () => {
    const passing = readFileSync(new URL("../../examples/co-op.ndjson", import.meta.url), "utf8").split("\n")[0]!;
    command.write("pass.ndjson", `${passing}\n`);
    expect((await command.assess("pass.ndjson", "--out", "pass.csv")).code).toBe(0);
    expect(text("pass.csv").split("\r\n").slice(1)).toEqual(["pass.ndjson,1,Alder Row 100,pass,,,,,", ""]);
    await command.assess("one.ndjson", "--out", "one.csv");
    expect(text("one.csv")).toContain("one.ndjson,1,'=1+1,review,");
  });

  test("leads through a link to the file behind it", async () => {
    writeFileSync(command.path("behind.ndjson"), "old");
    symlinkSync(command.path("behind.ndjson"), command.path("link.ndjson"));
    await command.assess("one.ndjson", "--out", "link.ndjson");
    expect(jsonLines(text("behind.ndjson")).length).toBe(2);
  });

  test.each([
    ["a name that does not say how it is written", ["--out", "a.txt"]],
    ["a form beside it", ["--out", "b.ndjson", "--ndjson"]],
    ["the input", ["--out", "./one.ndjson"]],
    ["one file for answers and refusals", ["--out", "b.ndjson", "--refusals", "./b.ndjson"]],
    ["to go on with nothing", ["--resume"]],
    ["no worker", ["--workers", "0"]],
    ["half a worker", ["--workers", "1.5"]],
  ])("refuses %s", async (_, args) => {
    const before = text("one.ndjson");
    const { code, out, err } = await command.assess("one.ndjson", ...args);
    expect([code, out]).toEqual([4, ""]);
    expect(err).toMatch(/^(dryfit|error): /);
    expect(text("one.ndjson")).toBe(before);
    expect(existsSync(command.path("b.ndjson"))).toBe(false);
  });
});

test("--refusals has one row a refusal, with file, place, reasons and the row itself", async () => {
  const { err, out } = await assess("in.ndjson", "--refusals", "r.ndjson");
  expect(err).toBe("");
  expect(out).toContain(`${faultsIn(faults)} refused`);
  const refused = jsonLines(text("r.ndjson"));
  expect(refused.length).toBe(faultsIn(faults));
  const lines = readFileSync(command.path("in.ndjson")).toString().split("\n");
  for (const { file, line, column, messages, text: row } of refused) {
    expect([file, messages.length > 0, column === null || column >= 1]).toEqual(["in.ndjson", true, true]);
    expect(messages[0]).toMatch(new RegExp(`^line ${line}[,:]`));
    expect(lines[line - 1]!.startsWith(row.slice(0, 150))).toBe(true);
  }
});

describe("an output that cannot be written", () => {
  test.each([
    ["in no folder", ["--out", "none/a.ndjson"], "none/a.ndjson cannot be written: there is no such folder"],
    ["where a folder is", ["--out", "folder.ndjson"], "folder.ndjson cannot be written: this is a directory"],
    ["on a full disk", ["--out", "full.ndjson"], "full.ndjson cannot be written: the disk is full"],
    ["on a full disk, packed", ["--out", "full.csv.gz"], "full.csv.gz cannot be written: the disk is full"],
    ["beside one that can", ["--out", "b.json", "--refusals", "full.ndjson"], "full.ndjson cannot be written"],
  ])("%s ends with its own message and code 3, and leaves nothing", async (_, args, message) => {
    mkdirSync(command.path("folder.ndjson"), { recursive: true });
    for (const name of ["full.ndjson", "full.csv.gz"]) {
      if (!existsSync(command.path(name))) symlinkSync("/dev/full", command.path(name));
    }
    const { code, err } = await assess("in.ndjson", ...args);
    expect(code).toBe(3);
    expect(err).toContain(`dryfit: ${message}`);
    expect(err.trim().split("\n").length).toBe(1);
    expect(left()).toEqual([]);
    expect(existsSync(command.path("b.json"))).toBe(false);
  });

  test("is also standard output", async () => {
    const child = spawn("sh", ["-c", `"${process.execPath}" "${command.main}" assess in.ndjson --ndjson > /dev/full`], {
      cwd: command.folder,
    });
    const { code, err } = await command.ended(child);
    expect(code).toBe(3);
    expect(err).toBe("dryfit: standard output cannot be written: the disk is full\n");
  });

  test("by a signal in the middle leaves nothing either", async () => {
    command.write("long.ndjson", ndjsonFile({ rows: 4000, seed: 2, faults: {} }));
    const child = command.start("assess", "long.ndjson", "--out", "c.ndjson");
    const ended = command.ended(child);
    while (left().length === 0) await new Promise((resolve) => setTimeout(resolve, 10));
    child.kill("SIGTERM");
    expect((await ended).signal).toBe("SIGTERM");
    expect([left(), existsSync(command.path("c.ndjson"))]).toEqual([[], false]);
  });
});

test("a reader that closes the pipe early ends a run on several threads quietly", async () => {
  command.write("wide.ndjson", ndjsonFile({ rows: 4000, seed: 3, faults: {} }));
  const child = command.start("assess", "wide.ndjson", "--ndjson", "--detail", "verdicts", "--workers", "2");
  let err = "";
  child.stderr!.setEncoding("utf8").on("data", (piece) => (err += piece));
  child.stdout!.once("data", () => child.stdout!.destroy());
  const code = await new Promise((resolve) => child.on("exit", resolve));
  expect(err).toBe("");
  expect([1, 2]).toContain(code);
});
