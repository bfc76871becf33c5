/**
 * `npm run mutants -- src/physics`: puts small faults into the source, one at a time, and counts those that the tests of
 * that folder notice. Prints the score by file and in all, and the faults that lived. Exits 1 under the floor.
 *
 * Options: `--tests <folder or file>` (repeat) in place of the tests of the same folder; `--sample 0.5` a seeded part of the
 * faults, `--seed 7` another part; `--floor 85` the least score [%]; `--judged` only rules that compare, without what
 * proposes their remedies (each remedy is proved by the rule itself before it is offered);
 * `--no-reload` leaves out the faults that act while files load, which need a run of their own each.
 */
import { type ChildProcess, spawn } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { type Mutant, mutate } from "./mutate.js";
import { FOLDER, FROM_START, note, notes, type Plan } from "./plan.js";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** A fault that hangs where no loop of ours turns is given up after this long [ms]. */
const HANGS = 90_000;

/** How often a run may be taken up again after a fault that hung or spoilt it. */
const MOST_ROUNDS = 60;

const { values: options, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    tests: { type: "string", multiple: true },
    sample: { type: "string", default: "1" },
    seed: { type: "string", default: "1" },
    floor: { type: "string", default: "85" },
    judged: { type: "boolean", default: false },
    "no-reload": { type: "boolean", default: false },
  },
});

function die(text: string): never {
  console.error(text);
  process.exit(2);
}

const share = Number(options.sample);
const floor = Number(options.floor);
if (!(share > 0 && share <= 1)) die(`--sample: say a part from 0 to 1, for example 0.5 (got ${options.sample})`);
if (!(floor >= 0 && floor <= 100)) die(`--floor: say a percentage, for example 85 (got ${options.floor})`);
if (positionals.length === 0) die("say a folder or file under src, for example: npm run mutants -- src/physics");

/** Source files of an argument; tables and lists of numbers have nothing to get wrong but their numbers. */
function sources(argument: string): string[] {
  const path = `${root}${argument}`;
  const all = statSync(path, { throwIfNoEntry: false })?.isDirectory()
    ? readdirSync(path, { recursive: true, encoding: "utf8" }).map((file) => `${argument.replace(/\/$/, "")}/${file}`)
    : [argument];
  return all.filter((file) => file.endsWith(".ts") && !/\/(tables\/|index\.ts$)/.test(file)).sort();
}

/** A number from 0 to 1 that goes on from a seed (mulberry32). */
function drawer(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

const mutants: Mutant[] = [];
const code: Record<string, string> = {};
let possible = 0;
for (const file of [...new Set(positionals.flatMap(sources))]) {
  const source = readFileSync(`${root}${file}`, "utf8");
  if (options.judged && !source.includes("judge(")) continue;
  const draw = drawer(
    Number(options.seed) + [...file].reduce((sum, letter) => (sum * 31 + letter.charCodeAt(0)) | 0, 7),
  );
  const takes = () => {
    possible++;
    return share === 1 || draw() < share;
  };
  const mutated = mutate(file, source, mutants.length + 1, takes, options.judged ? ["mend"] : []);
  if (mutated.mutants.length === 0) continue;
  mutants.push(...mutated.mutants);
  code[`${root}${file}`] = mutated.code;
}
if (mutants.length === 0) die("no faults to put in there");

const folderOf = (file: string) => file.split("/")[1]!;
/** The tests of a folder of source; for a trade the examples of its entries and the fuzz of all too. */
const testsOf = (folder: string) =>
  ["core", "physics", "survey", "report", "cli"].includes(folder)
    ? [`tests/${folder}`]
    : [`tests/${folder}`, "tests/mutation/examples.ts", "tests/contract/fuzz.test.ts"];
const tests = (options.tests ?? [...new Set(mutants.flatMap(({ file }) => testsOf(folderOf(file))))]).map((path) =>
  path.endsWith(".ts") ? path : `${path.replace(/\/$/, "")}/**/*.test.ts`,
);

const folder = `${root}.out/mutation/${process.pid}`;
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
writeFileSync(`${folder}/notes.jsonl`, "");

/** Whether a test fails without any fault; nothing can be told then. */
const isBroken = () => notes(folder).some(([what]) => what === "broken");

const ids = (...kinds: string[]) =>
  new Set(notes(folder).flatMap((one) => (kinds.includes(one[0]) ? [one[1] as number] : [])));

/** One run of the tests; answers once it has ended, or with the fault that hung. */
function run(plan: Plan, from = 0): Promise<number | undefined> {
  writeFileSync(`${folder}/plan.json`, JSON.stringify(plan));
  const bail = from === 0 ? [] : ["--bail=1"];
  const child: ChildProcess = spawn(
    process.execPath,
    ["node_modules/vitest/vitest.mjs", "run", "--config", "tests/mutation/vitest.config.ts", ...bail],
    {
      cwd: root,
      env: { ...process.env, [FOLDER]: folder, ...(from === 0 ? {} : { [FROM_START]: String(from) }) },
      stdio: ["ignore", from === 0 && process.stdout.isTTY ? "inherit" : "ignore", "ignore"],
    },
  );
  // Broken off by hand, the run must not leave its tests behind.
  const stop = () => {
    child.kill("SIGKILL");
    rmSync(folder, { recursive: true, force: true });
    process.exit(130);
  };
  process.once("SIGINT", stop).once("SIGTERM", stop);
  return new Promise((resolve) => {
    let hung: number | undefined;
    const began = Date.now();
    const watch = setInterval(() => {
      if (from !== 0 && Date.now() - began > HANGS) hung = from;
      for (const name of readdirSync(folder).filter((name) => name.startsWith("now-"))) {
        const [id = 0, since = 0] = readFileSync(`${folder}/${name}`, "utf8").split(" ").map(Number);
        if (id !== 0 && Date.now() - since > HANGS) hung = id;
      }
      if (hung !== undefined || isBroken()) child.kill("SIGKILL");
    }, 2000);
    child.on("exit", (status) => {
      // Awake from the start it may keep a file from loading at all, before any test could say so.
      if (from !== 0 && hung === undefined && status !== 0) note(folder, ["killed", from, "while loading"]);
      clearInterval(watch);
      process.off("SIGINT", stop).off("SIGTERM", stop);
      for (const name of readdirSync(folder).filter((name) => name.startsWith("now-"))) rmSync(`${folder}/${name}`);
      resolve(hung);
    });
  });
}

const began = Date.now();
let plan: Plan = { tests, done: [], apart: [], mutants, code };
let rounds = 0;
for (;;) {
  const hung = await run(plan);
  if (hung !== undefined) note(folder, ["timedOut", hung, "hung"]);
  const apart = [...ids("apart")];
  if (isBroken() || (hung === undefined && apart.length === plan.apart.length)) break;
  if (++rounds > MOST_ROUNDS) die(`faults spoilt ${MOST_ROUNDS} runs: ${apart.length} must be tried apart`);
  plan = { ...plan, apart, done: notes(folder).flatMap((one) => (one[0] === "done" ? [one[1]] : [])) };
}

const broken = notes(folder).filter(([what]) => what === "broken");
if (broken.length > 0) {
  for (const [, test, why] of broken) console.error(`fails without any fault: ${test}: ${why}`);
  process.exit(2);
}
if (!notes(folder).some(([what]) => what === "done")) die("no test ran: see npm test");

const reached = ids("reached");
const atLoad = [...ids("loaded")].filter((id) => !reached.has(id));
const single = [...ids("apart"), ...(options["no-reload"] ? [] : atLoad)];
for (const id of single) {
  if ((await run({ ...plan, done: [] }, id)) !== undefined) note(folder, ["timedOut", id, "hung"]);
}

const dead = ids("killed", "timedOut");
const outOfTime = ids("timedOut");
const untried = new Set(options["no-reload"] ? atLoad : []);
const tried = mutants.filter(({ id }) => !untried.has(id));
const percent = (killed: number, all: number) => `${((100 * killed) / all).toFixed(1)} %`.padStart(8);
const lived = tried.filter(({ id }) => !dead.has(id));

console.log("\nFaults that lived:");
for (const { id, file, line, kind, from, to } of lived) {
  const unseen = reached.has(id) || atLoad.includes(id) ? "" : " [no test reaches it]";
  console.log(`  ${file}:${line} ${kind}${unseen}: ${from}  =>  ${to}`);
}
console.log("\nScore by file:");
for (const file of new Set(tried.map((one) => one.file))) {
  const of = tried.filter((one) => one.file === file);
  const killed = of.filter(({ id }) => dead.has(id)).length;
  console.log(`  ${percent(killed, of.length)}  ${killed} of ${of.length}  ${file}`);
}
const killed = tried.length - lived.length;
const score = (100 * killed) / tried.length;
console.log(
  `\n${percent(killed, tried.length).trim()}: ${killed} of ${tried.length} faults killed (${[...outOfTime].length} by running out of time); ` +
    `${share === 1 ? "all" : `a sample of ${tried.length}, seed ${options.seed},`} of ${possible} there are; ` +
    `${ids("apart").size} tried apart; ${untried.size} that act only while files load were left out; ${Math.round((Date.now() - began) / 1000)} s`,
);
rmSync(folder, { recursive: true, force: true });
if (score < floor) {
  console.log(`under the floor of ${floor} %`);
  process.exitCode = 1;
}
