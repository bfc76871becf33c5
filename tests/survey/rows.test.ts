import { readFileSync } from "node:fs";
import { parse } from "csv-parse/sync";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { schemaAt } from "../../src/core/rule/index.js";
import {
  addTally,
  assessMany,
  causesOf,
  count,
  type Detail,
  newTally,
  surveyInput,
  type Tally,
} from "../../src/survey/index.js";
import { textReader } from "../../src/survey/rows/cell.js";
import { csvRows } from "../../src/survey/rows/csv.js";
import { jsonRows, ndjsonRows } from "../../src/survey/rows/json.js";
import { LONGEST_LINE, linesOf } from "../../src/survey/rows/lines.js";
import { RecordScanner } from "../../src/survey/rows/record.js";
import { type Row, refusalText } from "../../src/survey/rows/row.js";

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

/** The bytes of a text cut into pieces of some size, as a slow stream gives them. */
function* pieces(body: Uint8Array, size: number): Generator<Uint8Array> {
  for (let at = 0; at < body.length; at += size) yield body.slice(at, at + size);
}

async function all<T>(source: AsyncIterable<T>): Promise<T[]> {
  const found: T[] = [];
  for await (const one of source) found.push(one);
  return found;
}

const csv = (text: string | Uint8Array) => all(csvRows([typeof text === "string" ? bytes(text) : text]));
const ndjson = (text: string | Uint8Array) => all(ndjsonRows([typeof text === "string" ? bytes(text) : text]));
const json = (text: string | Uint8Array) => all(jsonRows([typeof text === "string" ? bytes(text) : text]));

const brief = (row: Row) => (row.ok ? row.value : row.issues.map(({ code, line, column }) => ({ code, line, column })));
const HEADER = "site.id,machine.kind,machine.fuel,venting.duct.straight [ft]";

describe("lines", () => {
  test("are the same however the bytes arrive", async () => {
    const body = bytes("\ufeffone\r\ntwo – ½\n\nfour");
    const whole = await all(linesOf([body]));
    expect(whole.map(({ text }) => text)).toEqual(["one", "two – ½", "", "four"]);
    for (const size of [1, 2, 3, 7]) expect(await all(linesOf(pieces(body, size)))).toEqual(whole);
  });

  test("that are too long are passed over in constant memory, and the next one is read", async () => {
    function* long(): Generator<Uint8Array> {
      for (let i = 0; i < 100; i++) yield new Uint8Array(LONGEST_LINE).fill(120);
      yield bytes("\nnext\n");
    }
    const lines = await all(linesOf(long()));
    expect(lines.map(({ line, fault, text }) => [line, fault, text])).toEqual([
      [1, "tooLong", null],
      [2, null, "next"],
    ]);
    expect(lines[0]!.shown.length).toBeLessThanOrEqual(200);
  });

  test("of exactly the longest length are read", async () => {
    const [line] = await all(linesOf([new Uint8Array(LONGEST_LINE).fill(120), bytes("\n")]));
    expect(line!.text?.length).toBe(LONGEST_LINE);
  });
});

describe("records of CSV", () => {
  test("are taken apart as a second reader takes them apart", () => {
    const cell = fc.oneof(fc.string(), fc.constantFrom('"', '""', "a,b", "x\ny", " lead", ""));
    fc.assert(
      fc.property(fc.array(cell, { minLength: 1, maxLength: 8 }), (cells) => {
        const clean = cells.map((one) => one.replace(/\r/g, ""));
        const text = clean.map((one) => `"${one.replaceAll('"', '""')}"`).join(",");
        const scanner = new RecordScanner();
        const fed = text.split("\n").map((line) => scanner.feed(line));
        expect(fed.at(-1)).toBe("whole");
        expect(scanner.cells).toEqual(clean);
        expect(parse(text)[0]).toEqual(scanner.cells);
      }),
    );
  });

  test("without quotes, and with quotes in the wrong place, agree with it too", () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom("a", '"', ",", " ", "1"), maxLength: 20 }), (text) => {
        const scanner = new RecordScanner();
        const fed = scanner.feed(text);
        let other: string[] | undefined;
        try {
          other = (parse(text, { relax_column_count: true }) as string[][])[0] ?? [""];
        } catch {
          other = undefined;
        }
        if (fed === "whole") expect(scanner.cells).toEqual(other);
        else expect(other).toBeUndefined();
      }),
    );
  });
});

describe("rows of CSV", () => {
  test("take the unit of their column, or their own, or none where the cell is empty", async () => {
    const rows = await csv(`${HEADER}\nA,dryer,electric,18\nB,dryer,electric,5.5 m\nC,dryer,electric,\n`);
    expect(rows.map(brief)).toEqual([
      { site: { id: "A" }, machine: { kind: "dryer", fuel: "electric" }, venting: { duct: { straight: "18 ft" } } },
      { site: { id: "B" }, machine: { kind: "dryer", fuel: "electric" }, venting: { duct: { straight: "5.5 m" } } },
      { site: { id: "C" }, machine: { kind: "dryer", fuel: "electric" } },
    ]);
  });

  test("give each part of a tolerance its unit", () => {
    const straight = textReader(schemaAt(surveyInput, ["venting", "duct", "straight"])!, "ft");
    expect(straight("18 1/2 ± 0.25")).toBe("18 1/2 ft ± 0.25 ft");
    expect(straight("18 ± 1/4 in")).toBe("18 ft ± 1/4 in");
    expect(straight("-2")).toBe("-2 ft");
    expect(straight("18½")).toBe("18½ ft");
    expect(straight("1,5")).toBe("1,5 ft");
    expect(straight("abc")).toBe("abc");
    expect(straight("18'")).toBe("18'");
  });

  test("of every kind that is broken are refused where they stand, and the others answered in order", async () => {
    const text = [
      HEADER,
      "A,dryer,electric,18",
      "B,dryer",
      "C,dryer,electric,18,more",
      '"D,dryer,electric,18',
      'E,dryer,electric,18 "',
      "F,dryer,electric,18",
      '"G, with',
      'a second line",dryer,electric,18',
      "H,dryer,electric,18",
    ].join("\n");
    const rows = await csv(text);
    expect(rows.map(({ line }) => line)).toEqual([2, 3, 4, 5, 6, 7, 8, 10]);
    expect(rows.map((row) => (row.ok ? "ok" : row.issues[0]!.code))).toEqual([
      "ok",
      "cellCount",
      "cellCount",
      "brokenCsv",
      "brokenCsv",
      "ok",
      "ok",
      "ok",
    ]);
    expect(brief(rows[1]!)).toEqual([{ code: "cellCount", line: 3, column: 3 }]);
    expect(rows[6]).toMatchObject({ value: { site: { id: "G, with\na second line" } } });
  });

  test("with an encoding of their own are refused alone", async () => {
    const body = new Uint8Array([
      ...bytes(`${HEADER}\nA,dryer,electric,1\nB`),
      0xff,
      ...bytes(",x,y,1\nC,dryer,electric,2"),
    ]);
    expect((await csv(body)).map((row) => (row.ok ? row.line : row.issues[0]!.code))).toEqual([2, "encoding", 4]);
  });

  test("under a header that cannot be used are each refused, the first with all that is wrong with it", async () => {
    const rows = await csv("site.id,colour,machine.kind [ft],venting.duct\nA,b,c,d\nB,b,c,d\n");
    expect(rows.map(({ line }) => line)).toEqual([2, 3]);
    expect(brief(rows[0]!)).toEqual([
      { code: "unknownColumn", line: 1, column: 2 },
      { code: "unknownColumn", line: 1, column: 3 },
      { code: "unknownColumn", line: 1, column: 4 },
    ]);
    expect(brief(rows[1]!)).toEqual([{ code: "badHeader", line: 3, column: null }]);
  });

  test.each([
    ["a name twice", "site.id,site.id", "twice"],
    ["a unit of another dimension", "venting.duct.straight [kg]", "unknownColumn"],
    ["a place in a list that no site has", "venting.duct.elbows.999999999.count", "unknownColumn"],
    ["a place in a list with a needless zero", "venting.duct.elbows.00.count", "unknownColumn"],
    ["the keys that objects inherit", "__proto__.x", "unknownColumn"],
    ["the constructor", "constructor.prototype", "unknownColumn"],
    ["cells parted by semicolons", "site.id;machine.kind", "unknownColumn"],
  ])("refuse a header with %s", async (_, header, code) => {
    expect((await csv(`${header}\n1\n`)).map((row) => row.ok || row.issues[0]!.code)).toEqual([code]);
  });

  test("with a list and an entry of it both filled are refused; with either alone they are read", async () => {
    const header = "venting.duct.elbows,venting.duct.elbows.0.count";
    const rows = await csv(`${header}\nnone,\n,2\nnone,2\n`);
    expect(rows.map(brief)).toEqual([
      { venting: { duct: { elbows: [] } } },
      { venting: { duct: { elbows: [{ count: 2 }] } } },
      [{ code: "twice", line: 4, column: 2 }],
    ]);
  });

  test("are never none: a file without any is refused", async () => {
    expect((await csv("")).map(brief)).toEqual([[{ code: "empty", line: 1, column: null }]]);
    expect((await csv(`${HEADER}\n\n`)).map(brief)).toEqual([[{ code: "noRows", line: 1, column: null }]]);
  });

  test("put a complaint of the schema in its column", async () => {
    const [row] = await csv(`${HEADER}\nA,dryer,electric,18\n`);
    if (!row?.ok) throw new Error("the row should be read");
    expect(row.placeOf(["venting", "duct", "straight"])).toEqual({ line: 2, column: 4 });
    expect(row.placeOf(["venting"])).toEqual({ line: 2, column: 4 });
    expect(row.placeOf(["placement"])).toEqual({ line: 2, column: null });
  });
});

describe("rows of NDJSON", () => {
  test("that are broken are refused with their column; blank lines are no rows", async () => {
    const rows = await ndjson('{"a":1}\n\n{"a":\n{"a":1,}\nnull\n{"a":1,"a":2}\n{"b":{"c":1,"c":1}}\n');
    expect(rows.map(({ line }) => line)).toEqual([1, 3, 4, 5, 6, 7]);
    expect(rows.map(brief)).toEqual([
      { a: 1 },
      [{ code: "brokenJson", line: 3, column: 6 }],
      [{ code: "brokenJson", line: 4, column: 8 }],
      null,
      [{ code: "twice", line: 6, column: 8 }],
      [{ code: "twice", line: 7, column: 13 }],
    ]);
  });

  test("may hold brackets and colons in their texts, and keys that objects inherit", async () => {
    const text = JSON.stringify({ notes: `${"[".repeat(100)} a: "b" \\`, x: "//", y: "/*" });
    expect((await ndjson(text)).map((row) => row.ok)).toEqual([true]);
    const [row] = await ndjson('{"__proto__":{"a":1}}');
    expect(row!.ok && Object.keys(row!.value as object)).toEqual(["__proto__"]);
  });

  test("nested too deep are refused before any parser sees them", async () => {
    const deep = "[".repeat(100_000);
    expect((await ndjson(`${deep}\n{}\n`)).map((row) => row.ok || row.issues[0]!.code)).toEqual(["tooDeep", true]);
    expect((await json(`/* " */ ${deep}`)).map((row) => row.ok || row.issues[0]!.code)).toEqual(["tooDeep"]);
  });

  test("of a UTF-16 file are one refusal that says so", async () => {
    const text = '{"site":1}\n{"site":2}\n';
    for (const mark of ["\ufeff", ""]) {
      const body = new Uint8Array(Buffer.from(mark + text, "utf16le"));
      for (const rows of [await ndjson(body), await json(body), await csv(body)]) {
        expect(rows.map((row) => row.ok || row.issues[0]!.code)).toEqual(["utf16"]);
      }
    }
  });

  test("are never none", async () => {
    for (const text of ["", "\n \n"]) {
      expect((await ndjson(text)).map(brief)).toEqual([[{ code: "empty", line: 1, column: null }]]);
      expect((await json(text)).map(brief)).toEqual([[{ code: "empty", line: 1, column: null }]]);
    }
    expect((await json("[]")).map((row) => row.ok)).toEqual([false]);
  });

  test("come out as many as lines that are not blank, whatever the lines hold", async () => {
    const line = fc.oneof(fc.string(), fc.json(), fc.constantFrom('{"a":1,"a":2}', "{", '"', "[[[", "\u0000"));
    await fc.assert(
      fc.asyncProperty(fc.array(line, { minLength: 1 }), async (given) => {
        const lines = given.map((one) => one.replace(/[\n\r]/g, " ")).filter((one) => one.trim() !== "");
        fc.pre(lines.length > 0 && !lines[0]!.includes("\u0000") && !lines[0]!.startsWith("\ufeff"));
        const rows = await ndjson(lines.join("\n"));
        expect(rows.map((row) => row.line)).toEqual(lines.map((_, i) => i + 1));
      }),
    );
  });
});

describe("rows of a JSON file", () => {
  test("are each of its list, with the lines and columns of the file", async () => {
    const text = '[\n  { "a": 1,\n    "b": [2, 3] },\n  { "a": 1, "a": 2 },\n  7\n]\n';
    const rows = await json(text);
    expect(rows.map(({ line }) => line)).toEqual([2, 4, 5]);
    expect(rows.map(brief)).toEqual([{ a: 1, b: [2, 3] }, [{ code: "twice", line: 4, column: 13 }], 7]);
    const [first] = rows;
    if (!first?.ok) throw new Error("the row should be read");
    expect(first.placeOf(["b", 1])).toEqual({ line: 3, column: 14 });
    expect(first.placeOf(["b", 9])).toEqual({ line: 3, column: 10 });
    expect(first.placeOf([])).toEqual({ line: 2, column: 3 });
  });

  test("may have comments and a last comma; a broken file is one refusal with its place", async () => {
    expect((await json('{ // a: b\n "a": 1, /* "x": 2 */ }')).map(brief)).toEqual([{ a: 1 }]);
    expect((await json('{\n "a": 1\n "b": 2 }')).map(brief)).toEqual([[{ code: "brokenJson", line: 3, column: 2 }]]);
  });

  test("keep keys that objects inherit as keys", async () => {
    const [row] = await json('{"__proto__": {"site": 1}}');
    expect(row!.ok && Object.keys(row!.value as object)).toEqual(["__proto__"]);
  });

  test("of a file in another encoding are refused with the line", async () => {
    const body = new Uint8Array([...bytes('{\n"a": "'), 0xe9, ...bytes('"}')]);
    expect((await json(body)).map(brief)).toEqual([[{ code: "encoding", line: 2, column: null }]]);
  });
});

test("a refusal reads as a place and a reason", async () => {
  const [short] = await csv(`${HEADER}\nA,dryer\n`);
  expect(short!.ok || short!.issues.map(refusalText)).toEqual([
    "line 2, column 3: the row has 2 cells, too few for 4 columns (got 2 cells)",
  ]);
  const [broken] = await ndjson("{");
  expect(broken!.ok || broken!.issues.map(refusalText)).toEqual([
    "line 1, column 2: this is not JSON (close brace expected)",
  ]);
});

describe("tallies", () => {
  const lines = [
    ...readFileSync(new URL("../../examples/co-op.ndjson", import.meta.url), "utf8").split("\n"),
    "not JSON",
    '{"site":{"id":"A"},"machine":{"kind":"dryer","fuel":"electric"},"venting":{"duct":{"straight":18}}}',
  ];
  const tallyOf = async (part: readonly string[], detail: Detail): Promise<Tally> => {
    const tally = newTally();
    for await (const answer of assessMany([bytes(part.join("\n"))], "ndjson", { detail })) count(tally, answer);
    return tally;
  };

  test("of parts add up to the tally of the whole, and survive being sent as JSON", async () => {
    const whole = await tallyOf(lines, "verdicts");
    const sum = newTally();
    for (const part of [lines.slice(0, 7), lines.slice(7, 8), lines.slice(8)]) {
      addTally(sum, JSON.parse(JSON.stringify(await tallyOf(part, "verdicts"))));
    }
    expect(sum).toEqual(whole);
    expect(whole.refusals["brokenJson"]).toBeGreaterThan(0);
    expect(Object.values(whole.refusals).reduce((all, one) => all + one, 0)).toBe(whole.refused);
  });

  test("name the same causes at every level of detail, the failing ones first and the frequent ones before the rare", async () => {
    const [verdictsOnly, brief] = [await tallyOf(lines, "verdicts"), await tallyOf(lines, "brief")];
    expect(causesOf(brief)).toEqual(causesOf(verdictsOnly));
    const causes = causesOf(brief);
    const failing = causes.filter(({ verdict }) => verdict === "fail");
    expect(causes.slice(0, failing.length)).toEqual(failing);
    expect(failing.length).toBeGreaterThan(1);
    expect(failing.map((cause) => cause.count)).toEqual(failing.map((cause) => cause.count).sort((a, b) => b - a));
  });
});
