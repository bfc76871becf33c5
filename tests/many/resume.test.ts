/** A run that is killed at any moment and gone on with gives the whole output, no row twice. */
import {
  appendFileSync,
  existsSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { gunzipSync } from "node:zlib";
import { afterAll, beforeAll, expect, test } from "vitest";
import { Command, type Ran } from "./command.js";
import { ndjsonFile, randomOf } from "./generate.js";

const faults = { brokenJson: 100, unknownField: 100, encoding: 100, noUnit: 200 };
let command: Command;
let whole: { readonly out: Buffer; readonly refusals: Buffer; readonly ran: Ran };
const body = (name: string): Buffer => readFileSync(command.path(name));
const left = (): string[] => readdirSync(command.folder).filter((name) => /\.(part|journal|new)$/.test(name));
const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

beforeAll(async () => {
  command = await Command.built();
  command.write("in.ndjson", ndjsonFile({ rows: 3000, seed: 8, faults }));
  const ran = await command.assess(...flags("whole.json", "wholer.ndjson").filter((flag) => flag !== "--resume"));
  whole = { out: body("whole.json"), refusals: body("wholer.ndjson"), ran };
}, 60_000);
afterAll(() => command.remove());

const flags = (out: string, refusals: string, ...more: string[]): string[] => [
  "in.ndjson",
  ...["--out", out, "--refusals", refusals, "--detail", "verdicts", "--resume", ...more],
];

/** Lines of a journal: its heading and the points that are noted. */
const points = (name: string): number =>
  existsSync(command.path(name)) ? body(name).toString().split("\n").length - 2 : 0;

/** Kills a run once it has noted a point more, and a random while after. */
async function killed(args: readonly string[], journal: string, random: () => number): Promise<boolean> {
  const before = points(journal);
  const child = command.start("assess", ...args);
  const ended = command.ended(child);
  let isOver = false;
  void ended.then(() => {
    isOver = true;
  });
  while (!isOver && points(journal) <= before) await wait(5);
  await wait(random() * 300);
  child.kill("SIGKILL");
  return (await ended).signal === "SIGKILL";
}

test.each([
  ["one thread", []],
  ["two threads", ["--workers", "2"]],
])("killed at random moments, on %s", async (_, more) => {
  const random = randomOf(more.length + 9);
  const args = flags("a.json", "ar.ndjson", ...more);
  let kills = 0;
  for (let i = 0; i < 3; i++) kills += (await killed(args, "a.json.journal", random)) ? 1 : 0;
  expect(kills).toBeGreaterThan(0);
  const ran = await command.assess(...args);
  expect(ran).toEqual(whole.ran);
  expect(body("a.json").equals(whole.out)).toBe(true);
  expect(body("ar.ndjson").equals(whole.refusals)).toBe(true);
  expect(left()).toEqual([]);
});

test("what was finished is kept, what was not is done again; torn and false ends are not believed", async () => {
  const args = flags("b.json", "br.ndjson");
  expect(await killed(args, "b.json.journal", () => 0)).toBe(true);
  // a point cut short by the kill, and rows that no point vouches for
  appendFileSync(command.path("b.json.journal"), '0123456789abcdef {"pieces":9999,');
  appendFileSync(command.path("b.json.part"), "rows that nothing vouches for");
  appendFileSync(command.path("br.ndjson.part"), "and refusals");
  // a mark in what is finished, to see that it stays
  const marked = body("b.json.part");
  marked[0] = 88;
  writeFileSync(command.path("b.json.part"), marked);
  expect(await command.assess(...args)).toEqual(whole.ran);
  const made = body("b.json");
  expect(made[0]).toBe(88);
  expect(made.subarray(1).equals(whole.out.subarray(1))).toBe(true);
  expect(body("br.ndjson").equals(whole.refusals)).toBe(true);
});

test("a part that is shorter than its journal says is begun anew", async () => {
  const args = flags("c.json", "cr.ndjson");
  expect(await killed(args, "c.json.journal", () => 0)).toBe(true);
  truncateSync(command.path("c.json.part"), 10);
  expect(await command.assess(...args)).toEqual(whole.ran);
  expect(body("c.json").equals(whole.out)).toBe(true);
});

test("packed output is gone on with between members", async () => {
  const args = flags("d.json.gz", "dr.ndjson.gz");
  expect(await killed(args, "d.json.gz.journal", () => 0.1)).toBe(true);
  expect((await command.assess(...args)).code).toBe(3);
  expect(gunzipSync(body("d.json.gz")).equals(whole.out)).toBe(true);
  expect(gunzipSync(body("dr.ndjson.gz")).equals(whole.refusals)).toBe(true);
});

test("other options and a changed file are refused, and nothing is lost by it", async () => {
  const args = flags("e.json", "er.ndjson");
  expect(await killed(args, "e.json.journal", () => 0)).toBe(true);
  const part = body("e.json.part");
  const refused = async (given: readonly string[], why: string): Promise<void> => {
    const { code, err } = await command.assess(...given);
    expect([code, err]).toEqual([4, expect.stringContaining(`dryfit: e.json.journal was begun ${why}`)]);
    expect(body("e.json.part").equals(part)).toBe(true);
  };
  await refused([...args, "--units", "si"], "with other options");
  await refused([...args.slice(0, 1), "in.ndjson", ...args.slice(1)], "from other files");
  await refused(flags("e.json", "other.ndjson"), "to another output");
  utimesSync(command.path("in.ndjson"), new Date(0), new Date(0));
  await refused(args, "from other files, or they have changed since");
});

test("standard input and a device are refused", async () => {
  const piped = await command.assess("-", "--format", "ndjson", "--out", "f.json", "--resume");
  expect([piped.code, piped.err]).toEqual([4, expect.stringContaining("--resume wants files that can be read again")]);
  symlinkSync("/dev/null", command.path("g.json"));
  const device = await command.assess("in.ndjson", "--out", "g.json", "--resume");
  expect([device.code, device.err]).toEqual([4, expect.stringContaining("--resume wants an ordinary file")]);
  expect(left().filter((name) => name.startsWith("f.") || name.startsWith("g."))).toEqual([]);
});
