/**
 * The long run: a file of many surveys measured in full, a tenth of its rows with a fault, answered by the command as it
 * ships, on one thread and on two. Run as `npm run many`, or `npm run many -- 100000`. It fails where a count is wrong,
 * where the outputs differ, where memory grows past its bound, or where two threads gain too little. Two separate runs
 * over a half each say what the machine has to give: two cores that share a cache or a host give less than twice one.
 *
 * Needs a Linux machine for the peak of memory, which it reads from the process's own account (VmHWM).
 */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { closeSync, createReadStream, openSync, readFileSync, statSync, writeSync } from "node:fs";
import { cpus, loadavg } from "node:os";
import { argv } from "node:process";
import { createInterface } from "node:readline";
import { Command } from "./command.js";
import { faultsIn, ndjsonFile } from "./generate.js";

/** Peak of resident memory that is allowed, in MB: it must not depend on the number of rows. */
const MOST_MB = 300;
/** What two threads must gain over one. */
const LEAST_GAIN = 1.7;

const rows = Number(argv[2] ?? 1_000_000);
const tenth = Math.floor(rows / 10);
const share = Math.floor(tenth / 6);
const faults = {
  brokenJson: share,
  unknownField: share,
  noUnit: share,
  twice: share,
  tooDeep: share,
  encoding: tenth - 5 * share,
};

async function hashOf(path: string): Promise<string> {
  const hash = createHash("sha256");
  for await (const chunk of createReadStream(path)) hash.update(chunk as Uint8Array);
  return hash.digest("hex");
}

/** Seconds to read the file and parse each line that is JSON, and nothing else: what any reader needs. */
async function secondsToParse(path: string): Promise<number> {
  const started = performance.now();
  let parsed = 0;
  for await (const line of createInterface({ input: createReadStream(path), crlfDelay: Number.POSITIVE_INFINITY })) {
    try {
      JSON.parse(line);
      parsed++;
    } catch {
      // the rows that are to be refused
    }
  }
  if (parsed === 0) throw new Error("nothing was parsed");
  return (performance.now() - started) / 1000;
}

let failed = 0;
function check(what: string, holds: boolean): void {
  console.log(`${holds ? "ok" : "NOT SO"}: ${what}`);
  if (!holds) failed++;
}

const command = await Command.built();
try {
  const file = openSync(command.path("in.ndjson"), "w");
  for (const line of ndjsonFile({ rows, seed: 1959, faults, isFull: true })) writeSync(file, line);
  closeSync(file);
  const megabytes = statSync(command.path("in.ndjson")).size / 1e6;
  console.log(`${rows} rows, ${megabytes.toFixed(0)} MB, ${faultsIn(faults)} of them with a fault`);
  console.log(`${cpus().length} cores, load ${loadavg()[0]!.toFixed(1)} at the start`);

  const parse = await secondsToParse(command.path("in.ndjson"));
  console.log(`reading and JSON.parse alone: ${parse.toFixed(1)} s`);

  const seconds: number[] = [];
  const hashes: string[] = [];
  for (const workers of [1, 2]) {
    const [out, refusals] = [`${workers}.json`, `${workers}r.ndjson`];
    const args = ["in.ndjson", "--out", out, "--refusals", refusals, "--detail", "verdicts"];
    const started = performance.now();
    const child = command.start("assess", ...args, "--workers", String(workers));
    let peak = 0;
    const watch = setInterval(() => {
      try {
        const [, found] = /VmHWM:\s*(\d+)/.exec(readFileSync(`/proc/${child.pid}/status`, "utf8")) ?? [];
        peak = Math.max(peak, (Number(found ?? 0) * 1024) / 1e6);
      } catch {
        // it has just ended
      }
    }, 100);
    const { code, err } = await command.ended(child);
    clearInterval(watch);
    seconds.push((performance.now() - started) / 1000);
    const time = seconds.at(-1)!;
    console.log(
      `${workers} ${workers === 1 ? "thread" : "threads"}: ${time.toFixed(1)} s, ${Math.round(rows / time)} rows/s, ` +
        `peak ${peak.toFixed(0)} MB, ${(time / parse).toFixed(1)} x reading and parsing, load ${loadavg()[0]!.toFixed(1)}`,
    );
    check("it ends with code 3 and says nothing else", code === 3 && err === "");
    check(`its memory stays under ${MOST_MB} MB`, peak > 0 && peak < MOST_MB);
    const summary = execFileSync("tail", ["-n", "1", command.path(out)], { encoding: "utf8" });
    const counts = JSON.parse(`{${summary}`).summary;
    const wanted = JSON.stringify(Object.entries(faults).sort());
    check(`all ${rows} rows are counted`, counts.rows === rows && counts.refused === faultsIn(faults));
    check(
      "each kind of fault is refused as often as it was made",
      JSON.stringify(Object.entries(counts.refusals).sort()) === wanted,
    );
    const lines = Number(execFileSync("wc", ["-l", command.path(refusals)], { encoding: "utf8" }).split(" ")[0]);
    check(`${lines} refusals are written`, lines === faultsIn(faults));
    hashes.push(`${await hashOf(command.path(out))} ${await hashOf(command.path(refusals))}`);
  }
  check("two threads give the same bytes as one", hashes[0] === hashes[1]);

  const half = Math.ceil(rows / 2);
  execFileSync("split", ["-l", String(half), "-d", "-a", "1", "in.ndjson", "half"], { cwd: command.folder });
  const started = performance.now();
  const separate = ["half0", "half1"].map((name) => {
    const files = ["--out", `${name}.json`, "--refusals", `${name}r.ndjson`];
    return command.ended(command.start("assess", name, "--format", "ndjson", ...files, "--detail", "verdicts"));
  });
  check(
    "two separate runs end with code 3",
    (await Promise.all(separate)).every(({ code }) => code === 3),
  );
  const apart = seconds[0]! / ((performance.now() - started) / 1000);
  const gain = seconds[0]! / seconds[1]!;
  check(
    `two threads gain ${gain.toFixed(2)} x, at least ${LEAST_GAIN}; two separate runs gain ${apart.toFixed(2)} x`,
    gain >= LEAST_GAIN,
  );
} finally {
  command.remove();
}
process.exitCode = failed === 0 ? 0 : 1;
