/** A file shared out among threads, or among processes by another engine, comes out as from one process. */
import { spawn, spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { gunzipSync, gzipSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { Command } from "./command.js";
import { csvFile, faultsIn, ndjsonFile } from "./generate.js";

const ROWS = 5000;
/** A tenth of the rows. */
const faults = { brokenJson: 80, unknownField: 80, noUnit: 80, twice: 80, tooDeep: 80, encoding: 97, tooLong: 3 };
const CSV_ROWS = 1500;
const csvFaults = { cellCount: 60, wrongDimension: 60, encoding: 30 };
let command: Command;
const assess = (...args: string[]) => command.assess(...args, "--detail", "verdicts");
const body = (name: string): Buffer => readFileSync(command.path(name));

beforeAll(async () => {
  command = await Command.built();
  command.write("in.ndjson", ndjsonFile({ rows: ROWS, seed: 4, faults, blankAfter: 100 }));
  command.write("in.csv", csvFile({ rows: CSV_ROWS, seed: 5, faults: csvFaults, blankAfter: 100 }));
  command.write("few.ndjson", ndjsonFile({ rows: 1000, seed: 6, faults: { noUnit: 50, encoding: 50 } }));
}, 60_000);
afterAll(() => command.remove());

describe.each([
  ["in.ndjson", ROWS, faults],
  ["in.csv", CSV_ROWS, csvFaults],
])("%s", (name, count, made) => {
  test("is answered by two threads as by one: the same bytes, refusals, counts and code", async () => {
    const one = await assess(name, "--out", "1.json", "--refusals", "1r.ndjson");
    const two = await assess(name, "--out", "2.json", "--refusals", "2r.ndjson", "--workers", "2");
    expect(two).toEqual(one);
    expect(one).toMatchObject({ code: 3, err: "" });
    expect(body("2.json").equals(body("1.json"))).toBe(true);
    expect(body("2r.ndjson").equals(body("1r.ndjson"))).toBe(true);
    const { rows, summary } = JSON.parse(body("1.json").toString());
    expect([rows.length, summary.refusals]).toEqual([count, made]);
    expect(body("1r.ndjson").toString().trim().split("\n").length).toBe(faultsIn(made));
  });
});

test("texts and refusals come in one order on both outputs, whatever the threads", async () => {
  const one = await assess("few.ndjson", "in.csv");
  expect(await assess("few.ndjson", "in.csv", "--workers", "3")).toEqual(one);
  expect(one.err.match(/^few\.ndjson: line /gm)?.length).toBe(100);
});

describe("a file that cannot be shared out", () => {
  const given: readonly [string, string, string | Buffer][] = [
    ["quoted.csv", "it has quotes", 'site.id,machine.kind,machine.fuel\n"A, B",dryer,electric\n'],
    ["header.csv", "its header cannot be used", "site.id,colour\nA,red\n"],
    [
      "late.csv",
      "its header comes late",
      `${"\n".repeat(140_000)}site.id,machine.kind,machine.fuel\nA,dryer,electric\n`,
    ],
    ["empty.ndjson", "it has no rows", "\n \n"],
    ["only.csv", "it has no rows", "site.id\n"],
    ["utf16.ndjson", "it is UTF-16", Buffer.from('{"site":1}\n', "utf16le")],
    ["packed.csv", "it is packed", gzipSync("site.id,machine.kind,machine.fuel\nA,dryer,electric\n")],
    ["list.json", "it is JSON", '[{"site":{"id":"A"},"machine":{"kind":"dryer","fuel":"electric"}}]'],
  ];

  test("is read by one worker, which is said with the reason", async () => {
    for (const [name, , content] of given) command.write(name, typeof content === "string" ? content : [content]);
    const names = given.map(([name]) => name);
    const one = await assess(...names, "--json");
    const two = await assess(...names, "--json", "--workers", "2");
    expect(two).toMatchObject({ code: one.code, out: one.out });
    for (const [name, why] of given) expect(two.err).toContain(`dryfit: ${name}: one worker reads it: ${why}`);
    const rows: readonly { file: string; ok: boolean }[] = JSON.parse(two.out).rows;
    expect(rows.map(({ file, ok }) => [file, ok])).toEqual([
      ["quoted.csv", true],
      ["header.csv", false],
      ["late.csv", true],
      ["empty.ndjson", false],
      ["only.csv", false],
      ["utf16.ndjson", false],
      ["packed.csv", true],
      ["list.json", true],
    ]);
  });

  test("or not be read is said to be so, and the others are answered", async () => {
    const { code, out, err } = await assess("none.ndjson", "in.csv", "--ndjson", "--workers", "2");
    expect([code, out.trim().split("\n").length]).toEqual([3, CSV_ROWS]);
    expect(err).toContain("dryfit: none.ndjson: there is no such file\n");
  });

  test("because a line has 100 MB holds it neither in a worker nor in the middle of others", async () => {
    const [first, second] = body("in.csv").toString("latin1").split("\n");
    const row = Buffer.from(`${second}\n`, "latin1");
    const long = Buffer.alloc(100_000_001, 120);
    long[100_000_000] = 10;
    command.write("long.csv", [Buffer.from(`${first}\n`), row, long, row]);
    const two = await assess("long.csv", "--json", "--workers", "2");
    const codes = JSON.parse(two.out).rows.map(({ ok, line, refusal }: never) =>
      ok ? line : (refusal as { issues: { code: string }[] }).issues[0]!.code,
    );
    expect(codes).toEqual([2, "tooLong", 4]);
    expect(two.out).toBe((await assess("long.csv", "--json")).out);
  });
});

test("rows of 1 MiB with as many values as fit are refused within the memory of a thread", async () => {
  const dense = (start: string, value: string): string => {
    const times = Math.floor((1_048_570 - start.length) / value.length);
    return `${start}${value.repeat(times).slice(0, -1)}]}\n`;
  };
  const site = '{"site":{"id":"A"},"machine":{"kind":"dryer","fuel":"electric"}';
  const rows = ["0,", "[],", '{"a":0},'].map((value) => dense(`${site},"x":[`, value));
  const twice = dense(`${site},"site":[`, '{"":0},');
  command.write(
    "dense.ndjson",
    [...rows, twice, ...rows, twice].map((row) => Buffer.from(row)),
  );
  const two = await assess("dense.ndjson", "--json", "--workers", "2");
  expect(two).toEqual(await assess("dense.ndjson", "--json"));
  const { refused, refusals } = JSON.parse(two.out).summary;
  expect([refused, refusals]).toEqual([8, { unknownField: 6, twice: 2 }]);
});

test("packed output of threads unpacks to the same", async () => {
  await assess("in.csv", "--out", "3.ndjson");
  await assess("in.csv", "--out", "3.ndjson.gz", "--workers", "2");
  expect(gunzipSync(body("3.ndjson.gz")).equals(body("3.ndjson"))).toBe(true);
});

const hasParallel = spawnSync("parallel", ["--version"]).status === 0;

test.skipIf(!hasParallel)("an engine that feeds blocks of lines to processes gets what one process gives", async () => {
  const feed = `parallel --pipepart -a few.ndjson --block 100k -k "${process.execPath}" "${command.main}" assess - --format ndjson --ndjson --detail verdicts`;
  const child = spawn("sh", ["-c", feed], { cwd: command.folder, env: { ...process.env, HOME: command.folder } });
  const { out } = await command.ended(child);
  const one = await assess("few.ndjson", "--ndjson");
  // a process that is fed blocks knows neither the file nor where in it a block begins
  const placeless = (text: string): string =>
    text.replace(/"file":"[^"]*"|"line":\d+|line \d+/g, (found) => found.replace(/:.*|\d+/, ""));
  expect(out.split("\n").length).toBe(1001);
  expect(placeless(out) === placeless(one.out)).toBe(true);
});
