/**
 * Speed, as ratios taken in one run: surveys per second through `assessSite` at each level of detail, beside parsing
 * the same records and checking them against the schema; and the imports and the cold start of the command beside an empty process.
 * Run as `npm run bench`, which bundles it first: what runs is what the package ships.
 */
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { Bench } from "tinybench";
import { InputReader } from "../../src/core/rule/index.js";
import { assessUnknown, ndjsonRows, type Row, surveyInput } from "../../src/survey/index.js";

const root = `${process.cwd()}/`;

async function records(): Promise<string[]> {
  const texts: string[] = [];
  for await (const row of ndjsonRows([readFileSync(`${root}examples/co-op.ndjson`)]) as AsyncIterable<Row>) {
    if (row.ok && surveyInput.safeParse(row.value).success) texts.push(JSON.stringify(row.value));
  }
  return texts;
}

const texts = await records();
const values = texts.map((text) => JSON.parse(text) as unknown);
const reader = new InputReader(surveyInput);
let at = 0;
const next = <T>(list: readonly T[]): T => list[at++ % list.length]!;

const bench = new Bench({ time: 1500, warmupTime: 500 });
bench
  .add("JSON.parse", () => void JSON.parse(next(texts)))
  .add("schema check", () => void surveyInput.safeParse(next(values)))
  .add("schema check and reading quantities", () => void reader.read(next(values)))
  .add("assessSite, verdicts", () => void assessUnknown(next(values), { detail: "verdicts" }))
  .add("assessSite, brief", () => void assessUnknown(next(values), { detail: "brief" }))
  .add("assessSite, full", () => void assessUnknown(next(values), { detail: "full" }))
  .add("assessSite, full, as JSON text", () => void JSON.stringify(assessUnknown(next(values), { detail: "full" })));
await bench.run();
for (const task of bench.tasks) {
  if (task.result.state === "errored") throw task.result.error;
}

const medians = new Map(
  bench.tasks.map((task) => [task.name, (task.result as { latency: { p50: number } }).latency.p50]),
);
const parse = medians.get("JSON.parse")!;
const check = medians.get("schema check")!;
console.log(`${texts.length} surveys, ${Math.round(texts.join("").length / texts.length)} bytes each on average`);
console.log(`${"stage".padEnd(38)}${"per second".padStart(12)}${"x parse".padStart(10)}${"x check".padStart(10)}`);
for (const [name, median] of medians) {
  const cells = [
    Math.round(1000 / median).toLocaleString("en"),
    (median / parse).toFixed(1),
    (median / check).toFixed(2),
  ];
  console.log(`${name.padEnd(38)}${cells[0]!.padStart(12)}${cells[1]!.padStart(10)}${cells[2]!.padStart(10)}`);
}

const command = `${root}dist/cli/main.js`;
if (existsSync(command)) {
  const median = (args: string[]): number => {
    const times = Array.from({ length: 11 }, () => {
      const started = performance.now();
      execFileSync("node", args, { stdio: "ignore" });
      return performance.now() - started;
    });
    return times.sort((a, b) => a - b)[5]!;
  };
  const empty = median(["-e", ""]);
  const entries = ["venting", "survey", "report", "index"].map((entry) => {
    const file = JSON.stringify(`${root}dist/${entry}.js`);
    const time = median(["--input-type=module", "-e", `import ${file};`]);
    return `${entry} ${time.toFixed(0)} ms (${(time / empty).toFixed(2)} x)`;
  });
  console.log(`import in a process of its own: ${entries.join(", ")}`);
  const cold = median([command, "list"]);
  console.log(
    `cold start of the command: ${cold.toFixed(0)} ms, ${(cold / empty).toFixed(2)} x an empty process (${empty.toFixed(0)} ms)`,
  );
} else console.log("cold start of the command: build first (npm run build)");
