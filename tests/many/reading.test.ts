/** Files as they come: packed, broken, with other people's column names. */
import { gzipSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import type { Io } from "../../src/cli/io.js";
import { progressLine } from "../../src/cli/many/progress.js";
import { run } from "../../src/cli/run.js";
import { type Format, type Reading, rowsOf } from "../../src/survey/index.js";
import { dryfit, type Surroundings } from "../cli/harness.js";
import { csvFile, ndjsonFile } from "./generate.js";

const assess = (args: readonly string[], surroundings: Surroundings = {}) =>
  dryfit(["assess", ...args, "--ndjson", "--detail", "verdicts"], surroundings);
const survey = (id: string): string => JSON.stringify({ site: { id }, machine: { kind: "dryer", fuel: "electric" } });
const many = Array.from({ length: 2000 }, (_, i) => `${survey(`Alder Row ${i}`)}\n`).join("");
const CSV = "site.id,machine.kind,machine.fuel\nAlder Row 1,dryer,electric\nAlder Row 2,dryer,electric\n";

describe("a gzip file", () => {
  test("is read as what it holds, in one member or several, by its bytes and not by its name", async () => {
    const { out } = await assess(["a.ndjson"], { files: { "a.ndjson": many } });
    const half = Math.floor(many.length / 2);
    const members = Buffer.concat([gzipSync(many.slice(0, half)), gzipSync(many.slice(half)), Buffer.alloc(512)]);
    for (const body of [gzipSync(many), members]) {
      const packed = await assess(["a.ndjson"], { files: { "a.ndjson": body } });
      expect(packed).toMatchObject({ code: 2, out });
    }
  });

  test("tells its format by the extension before .gz, and comes through a pipe", async () => {
    const plain = await assess(["a.csv"], { files: { "a.csv": CSV } });
    expect(plain.out.trim().split("\n").length).toBe(2);
    const named = await assess(["a.csv.gz"], { files: { "a.csv.gz": gzipSync(CSV) } });
    expect(named.out).toBe(plain.out.replaceAll('"a.csv"', '"a.csv.gz"'));
    const piped = await assess(["-", "--format", "csv"], { stdin: gzipSync(CSV) });
    expect(piped.out).toBe(plain.out.replaceAll('"a.csv"', '"-"'));
  });

  test.each([
    ["is cut short", gzipSync(many).subarray(0, -20), "unexpected end of file"],
    ["has a wrong check sum", flipped(gzipSync(many), -6), "incorrect data check"],
    [
      "is followed by something else",
      Buffer.concat([gzipSync(CSV), Buffer.from("something else")]),
      "incorrect header",
    ],
    ["is its first two bytes", Buffer.from([0x1f, 0x8b]), "unexpected end of file"],
  ])("that %s is said to be broken, and the next file is read", async (_, body, why) => {
    const files = { "a.ndjson": body, "b.csv": CSV };
    const { code, out, err } = await assess(["a.ndjson", "b.csv"], { files });
    expect(code).toBe(3);
    expect(err).toContain(`dryfit: a.ndjson: it is a broken gzip file (${why}`);
    expect(err).toContain("; 1 file not read\n");
    expect(out.match(/"b\.csv"/g)?.length).toBe(2);
  });

  test("is unpacked for the other verbs too", async () => {
    const files = { "a.json": survey("Alder Row 1"), "b.json": gzipSync(survey("Alder Row 1")) };
    expect((await dryfit(["order", "b.json"], { files })).out).toBe((await dryfit(["order", "a.json"], { files })).out);
  });

  test("that holds more than memory is read in pieces", async () => {
    const body = gzipSync(Buffer.alloc(100_000_000, 32));
    const { code, out } = await assess(["a.ndjson"], { files: { "a.ndjson": body } });
    expect(code).toBe(3);
    expect(JSON.parse(out).refusal.issues[0].code).toBe("tooLong");
  });
});

describe("--mapping", () => {
  const mapping = {
    Flat: "site.id",
    "Kind; of machine": "machine.kind",
    Fuel: "machine.fuel",
    "Run (ft)": "venting.duct.straight [ft]",
    Remark: null,
  };
  const text =
    "Remark,Flat,Kind; of machine,Fuel,Run (ft)\nloose,A,dryer,electric,43\n,B,dryer,electric,forty\n,C,dryer,electric,18\n";
  const mapped = (map: unknown, body = text) =>
    assess(["a.csv", "--mapping", "m.json"], {
      files: { "a.csv": body, "m.json": typeof map === "string" ? map : JSON.stringify(map) },
    });
  const refused = (out: string) =>
    out
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line))
      .flatMap(({ refusal }) => refusal?.issues ?? []);

  test("gives a file with any column names the answers of ours; places stay those of the file", async () => {
    const ours =
      "site.id,machine.kind,machine.fuel,venting.duct.straight [ft]\nA,dryer,electric,43\nB,dryer,electric,forty\nC,dryer,electric,18\n";
    const want = (await assess(["a.csv"], { files: { "a.csv": ours } })).out
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line));
    const { code, out } = await mapped(mapping);
    const got = out
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line));
    expect(code).toBe(3);
    expect([got[0], got[2]]).toEqual([want[0], want[2]]);
    expect(refused(out)).toMatchObject([{ line: 3, column: 5, received: '"forty"' }]);
  });

  test("leaves columns that it does not name as they are, ours or refused", async () => {
    const { Remark: _, ...rest } = mapping;
    expect(refused((await mapped(rest)).out)[0]).toMatchObject({ code: "unknownColumn", line: 1, column: 1 });
    const { code } = await mapped({ Flat: "site.id" }, "Flat,machine.kind,machine.fuel\nA,dryer,electric\n");
    expect(code).toBe(2);
  });

  test.each([
    ["names no field of ours", { ...mapping, "Run (ft)": "venting.run" }, "unknownColumn", 5],
    ["names one twice", { ...mapping, Remark: "site.id" }, "twice", 2],
    ["names a column that is not there", { ...mapping, Height: "venting.outlet.height [in]" }, "missingColumn", null],
  ])("that %s is refused in the header, in the user's own words", async (_, map, code, column) => {
    const { out } = await mapped(map);
    expect(refused(out)[0]).toMatchObject({ code, line: 1, column });
  });

  test.each([
    ["is not there", undefined, "there is no such file"],
    ["is no JSON", "{", "this is not JSON"],
    ["is a list", "[1]", "a mapping is one JSON object"],
    ["names a column twice", '{"A":"site.id","A":null}', "is written twice"],
    ["gives a number", '{"A":1}', 'the column "A" must be given'],
  ])("that %s is said, and nothing is answered", async (_, map, why) => {
    const files = { "a.csv": text, ...(map === undefined ? {} : { "m.json": map }) };
    const { code, out, err } = await assess(["a.csv", "--mapping", "m.json"], { files });
    expect([code, out]).toEqual([3, ""]);
    expect(err).toMatch(/^dryfit: m\.json: /);
    expect(err).toContain(why);
  });

  test("may name what objects inherit", async () => {
    const { code } = await mapped(
      { __proto__: null, Flat: "site.id" },
      "__proto__,Flat,machine.kind,machine.fuel\nx,A,dryer,electric\n",
    );
    expect(code).toBe(3);
    const asText = '{"__proto__":null,"Flat":"site.id"}';
    expect((await mapped(asText, "__proto__,Flat,machine.kind,machine.fuel\nx,A,dryer,electric\n")).code).toBe(2);
  });
});

describe("parts of a file", () => {
  const bytes = (body: string | Uint8Array): Uint8Array => (typeof body === "string" ? Buffer.from(body) : body);
  async function rows(body: string | Uint8Array, format: Format, reading: Reading = {}) {
    const found: unknown[] = [];
    // memory that is filled anew for each piece, as some readers do
    const memory = Buffer.alloc(64);
    async function* pieces(): AsyncGenerator<Uint8Array> {
      for (let at = 0; at < body.length; at += 64) {
        const length = Buffer.from(bytes(body).subarray(at, at + 64)).copy(memory);
        yield memory.subarray(0, length);
      }
    }
    for await (const row of rowsOf(pieces(), format, reading)) {
      found.push(row.ok ? [row.line, row.value, row.placeOf(["site", "id"])] : [row.line, row.issues]);
    }
    return found;
  }

  test("cut at any line end give the rows of the whole, in memory that is used again", async () => {
    for (const [format, wanted] of [
      [
        "ndjson",
        Buffer.concat([
          ...ndjsonFile({ rows: 12, seed: 3, faults: { encoding: 2, noUnit: 1, brokenJson: 1 }, blankAfter: 3 }),
        ]),
      ],
      ["csv", Buffer.concat([...csvFile({ rows: 12, seed: 3, faults: { encoding: 2, cellCount: 1 }, blankAfter: 3 })])],
    ] as const) {
      const whole = await rows(wanted, format);
      expect(whole.length).toBe(12);
      const header = format === "csv" ? { header: wanted.toString().split("\n")[0]! } : {};
      let line = 1;
      for (let cut = wanted.indexOf(10) + 1; cut > 0 && cut < wanted.length; cut = wanted.indexOf(10, cut) + 1) {
        line++;
        const before = await rows(wanted.subarray(0, cut), format, { part: { line: 1 } });
        const after = await rows(wanted.subarray(cut), format, { part: { line, ...header } });
        expect([...before, ...after]).toEqual(whole);
      }
    }
  });
});

describe("the progress of a run", () => {
  const before = { rows: 0, bytes: 0 };
  test("is a bar with rows, rate and time left, as far as they are known", () => {
    expect(progressLine({ rows: 3000, bytes: 250 }, 1000, 2, before)).toBe(
      "[######..................] 25%  3,000 rows, 1,500 rows/s, 0:06 left",
    );
    expect(progressLine({ rows: 10, bytes: 0 }, null, 4, before)).toBe("10 rows, 3 rows/s");
    expect(progressLine({ rows: 500, bytes: 600 }, 4_000_600, 1, { rows: 400, bytes: 500 })).toMatch(
      /100 rows\/s, 11:06:40 left$/,
    );
  });

  test("is drawn on a terminal that the answers do not go to, and taken away", async () => {
    const said = { out: "", err: "" };
    const sink = (name: "out" | "err", isTerminal: boolean) => ({
      write: async (text: string | Uint8Array) => {
        said[name] += typeof text === "string" ? text : Buffer.from(text).toString();
      },
      isTerminal,
      columns: 60,
    });
    async function* some(): AsyncGenerator<Uint8Array> {
      yield Buffer.from(many.split("\n").slice(0, 100).join("\n"));
    }
    const io = (isTerminal: boolean): Io => ({
      stdin: some(),
      stdout: sink("out", false),
      stderr: sink("err", isTerminal),
      env: {},
      open: some,
    });
    const args = ["assess", "-", "--format", "ndjson", "--ndjson", "--detail", "verdicts"];
    await run(args, io(true));
    const [nothing, ...lines] = said.err.split("\r\u001b[K");
    expect(nothing).toBe("");
    expect(lines[0]).toMatch(/^[\d,]+ rows, [\d,]+ rows\/s$/);
    expect(lines.at(-1)).toMatch(/^100 rows read: .*\n$/);
    said.err = "";
    await run(args, io(false));
    expect(said.err).toMatch(/^100 rows read: /);
  });
});

function flipped(body: Buffer, at: number): Buffer {
  body[body.length + at]! ^= 255;
  return body;
}
