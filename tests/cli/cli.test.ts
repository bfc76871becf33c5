import { type ChildProcess, spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { flagOf } from "../../src/cli/calc.js";
import { exitCodes } from "../../src/cli/exit.js";
import { jsonText } from "../../src/cli/json.js";
import { inputOf } from "../../src/core/rule/index.js";
import { surveyForm } from "../../src/survey/form.js";
import { assessSite, catalogue } from "../../src/survey/index.js";
import { dryfit, type Surroundings } from "./harness.js";

const survey = (id: string, more: object = {}) =>
  JSON.stringify({ site: { id }, machine: { kind: "dryer", fuel: "electric" }, ...more });
const HEADER = "site.id,machine.kind,machine.fuel,venting.duct.straight [ft],venting.duct.elbows";
const LONG = "Long,dryer,electric,60,none";
const SHORT = "Short,dryer,electric,18,none";
// a range hood needs nothing of what a survey of these fields could say
const NOTHING = "Nothing,dryer,electric,,";

const assess = (args: readonly string[], surroundings: Surroundings = {}) => dryfit(["assess", ...args], surroundings);

describe("help", () => {
  test.each([
    [],
    ["assess"],
    ["calc"],
    ["basis"],
    ["list"],
    ["form"],
    ["report"],
    ["compare"],
    ["record"],
    ["order"],
    ["parts"],
  ])("of %j ends well and fits its lines", async (...verb) => {
    const { code, out, err } = await dryfit([...verb.flat(), "--help"]);
    expect([code, err]).toEqual([0, ""]);
    expect(out).toContain("Usage: dryfit");
    expect(Math.max(...out.split("\n").map((line) => line.length))).toBeLessThanOrEqual(120);
  });

  test("documents every exit code", async () => {
    const { out } = await dryfit(["--help"]);
    for (const code of Object.values(exitCodes)) expect(out).toMatch(new RegExp(`^ {2}${code} {2}\\w`, "m"));
  });

  test("of every entry lists its fields, each beside the options, not in place of one", async () => {
    for (const entry of catalogue()) {
      const { code, out } = await dryfit(["calc", entry.id, "--help"]);
      expect(code).toBe(0);
      const { shape } = inputOf(entry) as unknown as { shape: Record<string, unknown> };
      for (const field of Object.keys(shape)) {
        expect(out).toContain(`${flagOf(field)} <value>`);
      }
    }
  });

  test("and the version come out on standard output", async () => {
    expect(await dryfit(["--version"])).toEqual({ code: 0, out: "0.1.0\n", err: "" });
  });
});

describe("exit codes", () => {
  test.each([
    ["fails", LONG, 1],
    ["needs review", NOTHING, 2],
    ["fails, with another that needs review", `${NOTHING}\n${LONG}`, 1],
    ["is refused beside one that fails", `${LONG}\nX,dryer,steam,18,none`, 3],
  ])("a file in which one row %s", async (_, rows, code) => {
    const ran = await assess(["-", "--format", "csv"], { stdin: `${HEADER}\n${rows}\n` });
    expect(ran.code).toBe(code);
  });

  test("a single rule that passes, fails, needs review, or is given what it cannot use", async () => {
    const id = "venting/duct-length";
    const codes = [
      ["--straight", "18 ft", "--elbows", "none"],
      ["--straight", "60 ft", "--elbows", "none"],
      ["--straight", "60 ft"],
      ["--straight", "35 ft ± 1 ft", "--elbows", "none"],
      ["--straight", "60"],
    ].map(async (flags) => (await dryfit(["calc", id, "--fuel", "electric", ...flags])).code);
    expect(await Promise.all(codes)).toEqual([0, 1, 2, 2, 3]);
  });

  test.each([
    [["assess"]],
    [["assess", "file.txt"]],
    [["assess", "-"]],
    [["assess", "a.json", "--detail", "some"]],
    [["assess", "a.json", "--json", "--ndjson"]],
    [["assess", "-", "-", "--format", "csv"]],
    [["calc"]],
    [["calc", "venting/nothing"]],
    [["calc", "venting/duct-length", "--nothing", "1"]],
    [["basis"]],
    [["nothing"]],
    [[]],
  ])("wrong usage: %j", async (args) => {
    const { code, out, err } = await dryfit(args);
    expect([code, out]).toEqual([4, ""]);
    expect(err).not.toBe("");
  });
});

describe("assess", () => {
  test("answers and refuses every row, in order, and its counts add up", async () => {
    const rows = [
      SHORT,
      "Wrong unit,dryer,electric,18 kg,none",
      LONG,
      "Short row,dryer",
      NOTHING,
      '"Open,dryer,electric,1,none',
    ];
    const stdin = `${HEADER}\n${rows.join("\n")}\n`;
    const { code, out, err } = await assess(["-", "--format", "csv", "--ndjson", "--detail", "verdicts"], { stdin });
    expect(code).toBe(3);
    const answers = out
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line));
    expect(answers.map(({ line, ok }) => [line, ok])).toEqual([
      [2, true],
      [3, false],
      [4, true],
      [5, false],
      [6, true],
      [7, false],
    ]);
    expect(answers[1].refusal.issues[0]).toMatchObject({
      line: 3,
      column: 4,
      code: "wrongDimension",
      received: '"18 kg"',
    });
    expect(err).toBe("6 rows read: 3 answered (1 fail, 2 review, 0 pass, 0 not applicable), 3 refused\n");
  });

  test("gives as JSON what the library gives", async () => {
    const text = survey("A");
    const { out } = await assess(["a.json", "--json", "--detail", "full"], { files: { "a.json": text } });
    const { rows, summary } = JSON.parse(out);
    expect(rows).toEqual([
      { file: "a.json", ok: true, line: 1, assessment: JSON.parse(JSON.stringify(assessSite(JSON.parse(text)))) },
    ]);
    const { causes, ...counts } = summary;
    expect(counts).toEqual({
      rows: 1,
      refused: 0,
      byVerdict: { fail: 0, review: 1, pass: 0, notApplicable: 0 },
      refusals: {},
      filesNotRead: 0,
    });
    const reviews = rows[0].assessment.findings.filter(({ verdict }: { verdict: string }) => verdict === "review");
    expect(causes.map(({ rule }: { rule: string }) => rule).sort()).toEqual(
      reviews.map(({ rule }: { rule: string }) => rule).sort(),
    );
  });

  test("prints for people what fails, on which basis, what would pass and what to measure", async () => {
    const { out } = await assess(["-", "--format", "csv"], { stdin: `${HEADER}\n${LONG}\n` });
    expect(out).toMatch(/^FAIL {3}Long: 1 fail, \d+ review, \d+ pass, \d+ not applicable$/m);
    expect(out).toMatch(/^ {2}FAIL {3}venting\/duct-length: .*60 ft.*\[IRC 2021, M1502\.4\.6\.1/m);
    expect(out).toMatch(/^ {9}Would pass: /m);
    expect(out).toMatch(/^ {4}venting\.outlet\.place: /m);
    expect(out).toContain("1 row read: 1 answered (1 fail, 0 review, 0 pass, 0 not applicable), 0 refused\n");
  });

  test("says line, column, reason and text of a refused row on standard error, and goes on", async () => {
    const { out, err } = await assess(["a.ndjson", "b.ndjson"], {
      files: { "a.ndjson": `${survey("A")}\n{"site":\n`, "b.ndjson": survey("B", { colour: "red" }) },
    });
    expect(err).toContain("a.ndjson: line 2, column 9: this is not JSON");
    expect(err).toContain('  refused: {"site":\n');
    expect(err).toMatch(/^b\.ndjson: line 1, column \d+: colour: there is no such field; write one of site, /m);
    expect(out).toContain("3 rows read: 1 answered");
  });

  test("does the other files where one cannot be read", async () => {
    const { code, out, err } = await assess(["none.json", "a.json"], { files: { "a.json": survey("A") } });
    expect(code).toBe(3);
    expect(err).toBe("dryfit: none.json: there is no such file\n");
    expect(out).toContain("; 1 file not read\n");
  });

  test.each([
    ["units", "si", "m"],
    ["units", "us", "ft"],
  ])("shows lengths with --%s %s", async (_, units, unit) => {
    const { out } = await assess(["-", "--format", "csv", "--units", units], { stdin: `${HEADER}\n${LONG}\n` });
    expect(out).toMatch(new RegExp(`duct-length: .*\\d ${unit}\\b`));
  });

  test("takes the decimal comma and simple acceptance where told", async () => {
    const stdin = `site.id,machine.kind,machine.fuel,venting.duct.straight [m],venting.duct.elbows\nA,dryer,electric,"5,5",none\nB,dryer,electric,"10,6 ± 0,2",none\n`;
    const verdictsOf = async (...flags: string[]) => {
      const { out } = await assess(["-", "--format", "csv", "--ndjson", "--detail", "verdicts", ...flags], { stdin });
      return out
        .trim()
        .split("\n")
        .map((line) => {
          const { ok, assessment } = JSON.parse(line);
          return ok && assessment.findings.find(({ rule }: { rule: string }) => rule === "venting/duct-length").verdict;
        });
    };
    expect(await verdictsOf()).toEqual([false, false]);
    expect(await verdictsOf("--decimal", ",")).toEqual(["pass", "review"]);
    expect(await verdictsOf("--decimal", ",", "--decision", "simple")).toEqual(["pass", "pass"]);
  });

  test("refuses a line of 100 MB and answers the one after it", async () => {
    async function* long(): AsyncGenerator<Uint8Array> {
      for (let i = 0; i < 100; i++) yield new Uint8Array(1_048_576).fill(32);
      yield new TextEncoder().encode(`x\n${survey("A")}\n`);
    }
    const { assessMany } = await import("../../src/survey/index.js");
    const codes: unknown[] = [];
    for await (const answer of assessMany(long(), "ndjson", { detail: "verdicts" })) {
      codes.push(answer.ok ? answer.assessment.site : answer.refusal.issues[0]!.code);
    }
    expect(codes).toEqual(["tooLong", "A"]);
  });

  test("writes a Markdown page without markup from the survey", async () => {
    const { out } = await assess(["a.json", "--markdown"], {
      files: { "a.json": survey("<script>|*x*", { placement: {} }) },
    });
    expect(out).toMatch(/^# &lt;script\\>\\\|\\\*x\\\*$/m);
    expect(out).toContain("| Verdict | Rule | Finding | Basis |");
  });

  test("accepts the empty form as it is, in each format", async () => {
    for (const format of ["json", "csv"] as const) {
      const { code, out } = await assess(["-", "--format", format], { stdin: surveyForm(format) });
      expect(code).toBe(2);
      expect(out).toContain("1 row read: 1 answered");
    }
  });
});

describe("what reaches a terminal", () => {
  const hostile = "A\u001b[31m\u009b31m\u202e\u2066\u0000B";

  test("is clean of characters that steer it, wherever they stand", async () => {
    const files = {
      "a.ndjson": `${survey(hostile)}\n${JSON.stringify({ site: { id: 1 }, [hostile]: hostile })}\n{"${hostile}\n`,
      "b.csv": `site.id,${hostile}\n${hostile},x\n`,
      "c.csv": `${HEADER}\n${hostile},${hostile},${hostile},${hostile},${hostile}\n`,
    };
    const runs = [
      await assess(["a.ndjson", "b.csv", "c.csv", `${hostile}.json`], { files }),
      await assess(["a.ndjson", "b.csv", "c.csv", "--json"], { files }),
      await assess(["a.ndjson", "--markdown"], { files }),
      await dryfit(["calc", hostile]),
      await dryfit(["calc", "venting/duct-length", "--fuel", hostile, "--straight", hostile]),
      await dryfit(["basis", hostile]),
      await dryfit([hostile]),
      await dryfit(["assess", "a.json", "--format", hostile]),
    ];
    for (const { out, err } of runs) expect((out + err).replaceAll("\n", "")).not.toMatch(/[\p{Cc}\p{Cf}]/u);
  });

  test("keeps its values when written as JSON", () => {
    expect(jsonText({ a: hostile, b: "é😀" })).toContain("é😀");
    expect(JSON.parse(jsonText({ a: hostile, "\u{e0001}": "\u2028" }))).toEqual({ a: hostile, "\u{e0001}": "\u2028" });
  });

  test("has colour only there, only where it is not declined, and says the same without", async () => {
    const stdin = `${HEADER}\n${LONG}\n`;
    const colour = (surroundings: Surroundings, ...flags: string[]) =>
      assess(["-", "--format", "csv", ...flags], { stdin, ...surroundings });
    const plain = await colour({});
    const painted = await colour({ isTerminal: true });
    expect(plain.out).not.toContain("\u001b");
    expect(painted.out).toContain("\u001b[1;31mFAIL\u001b[0m");
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the colours themselves
    expect(painted.out.replace(/\u001b\[[\d;]*m/g, "")).toBe(plain.out);
    expect((await colour({ isTerminal: true, env: { NO_COLOR: "1" } })).out).toBe(plain.out);
    expect((await colour({ isTerminal: true, env: { TERM: "dumb" } })).out).toBe(plain.out);
    expect((await colour({ isTerminal: true }, "--no-color")).out).toBe(plain.out);
  });

  test("is wrapped to its width", async () => {
    const { out } = await assess(["-", "--format", "csv"], {
      stdin: `${HEADER}\n${LONG}\n`,
      isTerminal: true,
      columns: 60,
      env: { NO_COLOR: "1" },
    });
    const lines = out.slice(0, out.indexOf("1 row read")).split("\n");
    expect(lines.filter((line) => line.length > 60 && line.trim().split(" ").length > 2)).toEqual([]);
  });
});

describe("calc", () => {
  test("runs the first example of every entry from its own help line", async () => {
    for (const entry of catalogue()) {
      const [example] = entry.examples;
      const input = JSON.stringify(example!.input);
      const files = { "in.json": input, "at.json": JSON.stringify(example!.at ?? {}) };
      const { code, out, err } = await dryfit(["calc", entry.id, "in.json", "--at", "at.json", "--json"], { files });
      expect([entry.id, err]).toEqual([entry.id, ""]);
      expect([0, 1, 2]).toContain(code);
      const { messageId, status } = JSON.parse(out);
      expect(status === "computed" ? "computed" : messageId).toBe(example!.gives);
      const flags = Object.entries(example!.input as Record<string, unknown>).flatMap(([field, value]) => [
        flagOf(field),
        typeof value === "string" ? value : JSON.stringify(value),
      ]);
      expect((await dryfit(["calc", entry.id, ...flags, "--at", "at.json", "--json"], { files })).out).toBe(out);
    }
  });

  test("takes a file from standard input, with flags over it", async () => {
    const stdin = JSON.stringify({ fuel: "electric", straight: "60 ft", elbows: [] });
    const { code, out } = await dryfit(["calc", "venting/duct-length", "-", "--straight", "18 ft"], { stdin });
    expect(code).toBe(0);
    expect(out).toMatch(/^PASS {3}venting\/duct-length: .*18 ft.*\[IRC 2021, M1502/m);
  });

  test.each([
    ["[1]", "in.json: it must hold one JSON object"],
    ["{", "in.json: it is not JSON"],
    [new Uint8Array([0xff]), "in.json: it is not UTF-8"],
  ])("refuses the file %j", async (body, reason) => {
    const { code, err } = await dryfit(["calc", "venting/duct-length", "in.json"], { files: { "in.json": body } });
    expect(code).toBe(3);
    expect(err).toContain(reason);
  });
});

describe("basis", () => {
  test.each([
    ["35 ft", "35 ft: IRC 2021, M1502.4.6.1"],
    ["M1502.4.6.1", "venting/duct-length.base"],
    ["504.9", "IMC 2021, 504.9.4.1"],
    ["duct length", "venting/duct-length: "],
    ["10.668 m", "35 ft: IRC 2021, M1502.4.6.1"],
    ["35 imc 2015", "35 ft: IMC 2015 to 2018, 504.8.4.1"],
    ["venting/duct-length", "Example: "],
  ])("finds %s", async (words, line) => {
    const { code, out } = await dryfit(["basis", ...words.split(" ")]);
    expect(code).toBe(0);
    expect(out).toContain(line);
    expect(JSON.parse((await dryfit(["basis", words, "--json"])).out)).toHaveProperty("limits");
  });

  test("finds no section that only ends alike, and says where it finds nothing", async () => {
    expect((await dryfit(["basis", "02.4.6.1"])).out).not.toContain("    35 ft: IRC 2021");
    const { code, out, err } = await dryfit(["basis", "xyzzy"]);
    expect([code, out]).toEqual([3, ""]);
    expect(err).toContain("nothing");
  });
});

describe("list and form", () => {
  test("list every entry", async () => {
    const { out } = await dryfit(["list"]);
    const facts = JSON.parse((await dryfit(["list", "--json"])).out);
    for (const { id, title } of catalogue()) expect(out).toMatch(new RegExp(`^ {2}${id} .*${title.slice(0, 10)}`, "m"));
    expect(facts.map(({ id }: { id: string }) => id)).toEqual(catalogue().map(({ id }) => id));
  });

  test("print the form in each format", async () => {
    expect((await dryfit(["form"])).out).toContain("site.id (needed)\n    Name or number");
    for (const format of ["text", "json", "csv"] as const) {
      expect((await dryfit(["form", "--format", format])).out).toBe(surveyForm(format));
    }
  });
});

test("a reader that goes away is no error, and the code is that of the rows answered so far", async () => {
  const stdin = `${HEADER}\n${`${LONG}\n`.repeat(200)}`;
  const { code, err } = await assess(["-", "--format", "csv"], { stdin, closesAfter: 1 });
  expect([code, err]).toEqual([1, ""]);
  expect((await dryfit(["list"], { closesAfter: 0 })).code).toBe(0);
});

describe("any bytes", () => {
  const runs = Number(process.env["FUZZ"] ?? 300);
  const words = fc.constantFrom(
    ...'{ } [ ] " , : \n \r\n site.id machine.kind machine.fuel "site" "id" "machine" dryer electric 18 ft NaN 1e999 -0'.split(
      " ",
    ),
    HEADER,
    SHORT,
    survey("A"),
    "\u0000",
    "\ufeff",
    '"__proto__"',
  );
  const body = fc.oneof(
    fc.uint8Array({ maxLength: 400 }),
    fc.array(words, { maxLength: 60 }).map((list) => new TextEncoder().encode(list.join(""))),
    fc
      .string({ unit: "binary", maxLength: 200 })
      .map((text) => new TextEncoder().encode(`${HEADER}\n${SHORT}\n${text}`)),
  );

  test(`as a file end with a documented code and without a number that is none (${runs} files)`, {
    timeout: 600_000,
  }, async () => {
    const documented = [0, 1, 2, 3];
    await fc.assert(
      fc.asyncProperty(
        body,
        fc.constantFrom("json", "ndjson", "csv"),
        fc.constantFrom("--ndjson", "--no-color"),
        async (stdin, format, output) => {
          const { code, out, err } = await assess(["-", "--format", format, output, "--detail", "brief"], { stdin });
          expect(documented).toContain(code);
          expect(err).not.toContain("a fault in dryfit itself");
          // a refusal repeats what came, so only a file without these words can tell
          const notNumbers = /NaN|Infinity|undefined/;
          if (!notNumbers.test(new TextDecoder().decode(stdin))) expect(out).not.toMatch(notNumbers);
          if (output === "--ndjson") {
            const answers = out
              .split("\n")
              .filter(Boolean)
              .map((line) => JSON.parse(line));
            expect(answers.length).toBe(Number(/^(\d+) rows? read/m.exec(err)![1]));
          }
        },
      ),
      { numRuns: runs },
    );
  });
});

describe("the built command", () => {
  const folder = mkdtempSync(join(tmpdir(), "dryfit-"));
  const main = join(folder, "main.mjs");
  const root = fileURLToPath(new URL("../..", import.meta.url));

  beforeAll(async () => {
    await build({
      entryPoints: [join(root, "src/cli/main.ts")],
      outfile: main,
      bundle: true,
      platform: "node",
      format: "esm",
      target: "node20",
      mainFields: ["module", "main"],
      banner: {
        js: 'import { createRequire as makeRequire } from "node:module"; const require = makeRequire(import.meta.url);',
      },
    });
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  const start = (...args: string[]): ChildProcess => spawn(process.execPath, [main, ...args], { cwd: folder });
  async function ended(
    child: ChildProcess,
    stdin?: string,
  ): Promise<{ code: number | null; out: string; err: string }> {
    const texts = { out: "", err: "" };
    child.stdout!.setEncoding("utf8").on("data", (text) => (texts.out += text));
    child.stderr!.setEncoding("utf8").on("data", (text) => (texts.err += text));
    child.stdin!.on("error", () => {});
    if (stdin !== undefined) child.stdin!.end(stdin);
    const code = await new Promise<number | null>((resolve) => child.on("close", resolve));
    return { code, ...texts };
  }

  test("works in a pipe, whole output through a slow reader", async () => {
    const rows = 2000;
    const { code, out, err } = await ended(
      start("assess", "-", "--format", "csv", "--ndjson", "--detail", "verdicts"),
      `${HEADER}\n${`${LONG}\n`.repeat(rows)}`,
    );
    expect(code).toBe(1);
    expect(out.trim().split("\n").length).toBe(rows);
    expect(err).toBe(
      `${rows} rows read: ${rows} answered (${rows} fail, 0 review, 0 pass, 0 not applicable), 0 refused\n`,
    );
  });

  test("ends quietly where the reader closes the pipe and the writer keeps its end open", async () => {
    const child = start("assess", "-", "--format", "csv");
    child.stdin!.on("error", () => {});
    child.stdin!.write(`${HEADER}\n${`${LONG}\n`.repeat(3000)}`);
    child.stdout!.once("data", () => child.stdout!.destroy());
    let err = "";
    child.stderr!.setEncoding("utf8").on("data", (text) => (err += text));
    const code = await new Promise((resolve) => child.on("exit", resolve));
    expect([code, err]).toEqual([1, ""]);
    child.stdin!.destroy();
  });

  test("says what is wrong with a file it cannot use", async () => {
    mkdirSync(join(folder, "folder.csv"));
    writeFileSync(join(folder, "empty.csv"), "");
    writeFileSync(join(folder, "nul.ndjson"), new Uint8Array(1000));
    writeFileSync(join(folder, "utf16.csv"), Buffer.from(`\ufeff${HEADER}\n${SHORT}\n`, "utf16le"));
    writeFileSync(join(folder, "picture.json"), Buffer.from("89504e470d0a1a0a0000000d49484452", "hex"));
    const { code, err } = await ended(
      start("assess", "none.csv", "folder.csv", "empty.csv", "nul.ndjson", "utf16.csv", "picture.json"),
    );
    expect(code).toBe(3);
    expect(err.split("\n").filter((line) => !line.startsWith("  ") && line !== "")).toEqual([
      "dryfit: none.csv: there is no such file",
      "dryfit: folder.csv: this is a directory",
      "empty.csv: line 1: the file is empty; its first row must name survey fields",
      expect.stringContaining("nul.ndjson: line 1"),
      "utf16.csv: line 1: the file is UTF-16; save it as UTF-8",
      "picture.json: line 1: the row is not valid UTF-8; save the file as UTF-8",
    ]);
  });

  test("gives each verb its exit code", async () => {
    const codes = await Promise.all(
      [
        ["list"],
        ["form"],
        ["basis", "xyzzy"],
        ["calc", "nothing"],
        ["calc", "venting/duct-length", "--fuel", "electric"],
      ].map(async (args) => (await ended(start(...args), "")).code),
    );
    expect(codes).toEqual([0, 0, 3, 4, 2]);
  });
});
