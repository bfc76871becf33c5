/** The record of a job: whole, repeatable, and changed by nobody unseen. */
import { readdirSync, readFileSync } from "node:fs";
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import { describe, expect, test } from "vitest";
import { InputFault } from "../../src/core/rule/index.js";
import { recordHtml, recordMarkdown, recordText } from "../../src/report/index.js";
import { canonicalJson } from "../../src/survey/canonical.js";
import { assessSite, changesOf, checkRecord, type JobRecord, recordOf, type Survey } from "../../src/survey/index.js";
import { dryfit } from "../cli/harness.js";
import { tagsOf } from "../report/markup.js";

const folder = new URL("../../examples/sites/", import.meta.url);
const surveys = readdirSync(folder)
  .sort()
  .map((name) => JSON.parse(readFileSync(new URL(name, folder), "utf8")) as Survey);

const found: Survey = {
  site: { id: "A" },
  measured: { by: "The works team", on: "2026-03-09" },
  machine: { kind: "dryer", fuel: "naturalGas" },
  venting: { duct: { straight: "40 ft", elbows: [] } },
};
const left: Survey = { ...found, venting: { duct: { straight: { value: 30, unit: "ft" }, elbows: [] } } };
const record = recordOf(found, left);

describe("canonical JSON", () => {
  test("is that of RFC 8785, section 3.2.2 (the sample of numbers, texts and literals)", () => {
    const value = JSON.parse(
      '{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],"string":"\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/","literals":[null,true,false]}',
    );
    expect(canonicalJson(value)).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    );
  });

  test("sorts names by UTF-16 units (RFC 8785, section 3.2.3)", () => {
    const names = { "\u20ac": 1, "\r": 2, "\ufb33": 3, "1": 4, "\ud83d\ude00": 5, "\u0080": 6, "\u00f6": 7 };
    expect(Object.values(JSON.parse(canonicalJson(names)) as object).length).toBe(7);
    expect([...canonicalJson(names).matchAll(/:(\d)/g)].map(([, place]) => place).join("")).toBe("2467153");
  });

  test("has no spelling for what is no JSON", () => {
    for (const value of [undefined, Number.NaN, Number.POSITIVE_INFINITY, { a: undefined }])
      expect(() => canonicalJson(value)).toThrow(TypeError);
  });

  test("the hash is SHA-256 (FIPS 180-4, examples of one and two blocks)", () => {
    const hex = (text: string) => bytesToHex(sha256(utf8ToBytes(text)));
    expect(hex("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    expect(hex("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")).toBe(
      "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
    );
  });
});

describe("a record", () => {
  test("has what was found beside what was left, and marks the change", () => {
    expect(record.fields.find(({ field }) => field === "venting.duct.straight")).toEqual({
      field: "venting.duct.straight",
      asFound: "40 ft",
      asLeft: "30 ft",
      changed: true,
    });
    expect(record.fields.filter(({ changed }) => changed)).toHaveLength(1);
  });

  test("has every rule with its verdict before and after, and its bases", () => {
    const rule = record.rules.find((one) => one.rule === "venting/duct-length")!;
    expect([rule.asFound.verdict, rule.asLeft.verdict]).toEqual(["fail", "pass"]);
    expect(rule.asFound.message).toContain("40 ft");
    for (const { basis } of [rule.asFound, rule.asLeft]) expect(basis[0]).toContain("IRC 2021");
    expect(record.rules).toHaveLength(assessSite(found).findings.length);
  });

  test("names the editions that stood at their default", () => {
    const { asFound, asLeft } = record.inForce;
    expect([asLeft.editions.irc, asLeft.building]).toEqual([2021, "dwelling"]);
    expect(record.surveys.asLeft.jurisdiction?.adopted?.nec).toBe(2020);
    expect(asLeft.assumed).toEqual(expect.arrayContaining(["irc", "nec", "building"]));
    expect(asFound).toEqual(asLeft);
    expect(recordText(record)).toContain("IRC 2021 (assumed)");
  });

  test("names the editions of either survey, and assumes nothing that was said", () => {
    const under = (irc: number, survey: Survey): Survey =>
      ({ ...survey, jurisdiction: { adopted: { irc }, building: "dwelling" } }) as Survey;
    const two = recordOf(under(2006, found), under(2021, left));
    expect([two.inForce.asFound.editions.irc, two.inForce.asLeft.editions.irc]).toEqual([2006, 2021]);
    expect(two.inForce.asLeft.assumed).not.toContain("irc");
    expect(two.inForce.asLeft.assumed).not.toContain("building");
    expect(checkRecord(JSON.parse(JSON.stringify(two)))).toEqual({ intact: true, reproduced: true, differs: [] });
    expect(recordText(two)).toMatch(/In force: as found IRC 2006.*\nIn force: as left IRC 2021/);
  });

  test("leaves signatures blank, with a line for whoever is licensed for gas", () => {
    expect(record.signatures.map(({ role }) => role)).toEqual([
      "Installed by",
      "Handed over to",
      "Gas work by (licensed)",
    ]);
    for (const { name, date, signature } of record.signatures) expect([name, date, signature]).toEqual(["", "", ""]);
    const converted = recordOf(found, { ...left, machine: { kind: "dryer", fuel: "electric" } });
    expect(converted.signatures.map(({ role }) => role)).toContain("Gas work by (licensed)");
    const electric = recordOf({ ...found, machine: { kind: "dryer", fuel: "electric" } });
    expect(electric.signatures).toHaveLength(2);
  });

  test("tells what the work changed", () => {
    const [change] = changesOf(record).changes;
    expect([change?.rule, change?.direction]).toEqual(["venting/duct-length", "better"]);
  });

  test("of two sites is refused", () => {
    expect(() => recordOf(found, { ...left, site: { id: "B" } })).toThrow(InputFault);
  });

  test.each(surveys.map((survey) => [survey.site.id, survey] as const))(
    "of %s comes back from JSON whole and says the same again",
    (_id, survey) => {
      const back = JSON.parse(JSON.stringify(recordOf(survey))) as unknown;
      expect(checkRecord(back)).toEqual({ intact: true, reproduced: true, differs: [] });
    },
  );

  test("repeats the verdicts of an assessment with the same editions", () => {
    for (const survey of surveys.slice(0, 6)) {
      const { findings } = assessSite(survey);
      const { rules } = recordOf(survey);
      expect(rules.map(({ rule, asLeft: { verdict, message } }) => [rule, verdict, message])).toEqual(
        findings.map(({ rule, verdict, message }) => [rule, verdict, message]),
      );
    }
  });
});

describe("a changed record", () => {
  /** Every place of a value that holds no other. */
  const leaves = (value: unknown, path: (string | number)[] = []): (string | number)[][] =>
    typeof value === "object" && value !== null
      ? Object.entries(value).flatMap(([key, inner]) => leaves(inner, [...path, key]))
      : [path];

  test("does not fit its hash, whichever value was changed", () => {
    const places = leaves(record).filter(
      ([part, ...rest]) => part !== "hash" && part !== "surveys" && (rest.length > 0 || part === "site"),
    );
    expect(places.length).toBeGreaterThan(100);
    for (const place of places.filter((_, i) => i % 3 === 0)) {
      const copy = structuredClone(record) as unknown as Record<string, unknown>;
      let at = copy;
      for (const key of place.slice(0, -1)) at = at[key] as Record<string, unknown>;
      const last = place.at(-1)!;
      at[last] = typeof at[last] === "boolean" ? !at[last] : `${String(at[last])}.`;
      const { intact, reproduced, differs } = checkRecord(copy);
      // what was assumed stands in the record alone: only the hash tells of it
      const known = place.includes("assumed");
      expect([place.join("."), intact, reproduced]).toEqual([place.join("."), false, known]);
      expect(differs).toEqual(known ? [] : [place[0]]);
    }
  });

  test("with a part that no record has, hashed anew, differs in it", () => {
    const { hash: _hash, ...content } = { ...record, approved: true };
    const hashed = { ...content, hash: bytesToHex(sha256(utf8ToBytes(canonicalJson(content)))) };
    expect(checkRecord(hashed)).toEqual({ intact: true, reproduced: false, differs: ["approved"] });
  });

  test("that is nested without end, or holds what JSON does not, is a fault", () => {
    let deep: unknown = {};
    for (let i = 0; i < 20_000; i++) deep = { deep };
    for (const notes of [deep, undefined, 1n, Number.NaN, () => 1])
      expect(() => checkRecord({ ...record, notes })).toThrow(InputFault);
  });

  test("with a survey changed and hashed anew still differs in what follows from it", () => {
    const other = recordOf(found, { ...left, venting: { duct: { straight: "20 ft", elbows: [] } } });
    const forged = { ...record, surveys: other.surveys } as JobRecord;
    const { hash: _hash, ...content } = forged;
    const hashed = { ...content, hash: bytesToHex(sha256(utf8ToBytes(canonicalJson(content)))) };
    const { intact, reproduced, differs } = checkRecord(hashed);
    expect([intact, reproduced]).toEqual([true, false]);
    expect(differs).toContain("fields");
  });

  test.each([
    null,
    7,
    "x",
    [],
    {},
    { record: 2 },
    { ...record, hash: "x" },
    { ...record, surveys: { asFound: 1, asLeft: 1 } },
  ])("that is none is a fault: %j", (value) => {
    expect(() => checkRecord(value)).toThrow(InputFault);
  });
});

describe("on paper", () => {
  test("the text marks what was changed and ends with lines to sign and the hash", () => {
    const lines = recordText(record).trimEnd().split("\n");
    expect(lines[0]).toBe("Record of A: as found FAIL, as left REVIEW");
    expect(lines).toContain("  * venting.duct.straight: 40 ft -> 30 ft");
    expect(lines.filter((line) => line.includes("Signature: ____"))).toHaveLength(3);
    expect(lines.at(-1)).toBe(`  ${record.hash}`);
  });

  test("Markdown has the same parts, and what a survey says stays text", () => {
    const titles = (text: string) => text.split("\n").filter((line) => line.startsWith("## ")).length;
    expect(titles(recordMarkdown(record))).toBeGreaterThan(5);
    const hostile = recordMarkdown(recordOf({ ...found, site: { id: "<b>" }, notes: "[x](javascript:1)" }));
    expect(hostile).not.toMatch(/(?<!\\)<b/);
    expect(hostile).not.toMatch(/(?<!\\)\]\(/);
  });

  test("the sheet holds what a survey says as text only", () => {
    const hostile = "<script>alert(1)</script>";
    const html = recordHtml(recordOf({ ...found, site: { id: hostile }, notes: hostile }));
    const tags = tagsOf(html);
    expect(tags.map(({ name }) => name)).not.toContain("script");
    expect(tags.find(({ name }) => name === "h1")?.text).toContain(hostile);
    expect(html).toContain("Gas work by (licensed)");
  });
});

describe("dryfit record", () => {
  const files = { "found.json": JSON.stringify(found), "left.json": JSON.stringify(left) };

  test("makes a record that its check takes", async () => {
    const made = await dryfit(["record", "found.json", "--as-left", "left.json"], { files });
    expect([made.code, made.err]).toEqual([2, ""]);
    expect(JSON.parse(made.out)).toEqual(JSON.parse(JSON.stringify(record)));
    const checked = await dryfit(["record", "job.json", "--check"], { files: { "job.json": made.out } });
    expect(checked).toEqual({
      code: 0,
      out: "The content fits its hash.\nMade again today it says the same.\n",
      err: "",
    });
    const changed = made.out.replace("30 ft", "31 ft");
    expect((await dryfit(["record", "job.json", "--check"], { files: { "job.json": changed } })).code).toBe(1);
  });

  test.each([
    [["record", "none.json"], 3],
    [["record", "found.json", "--check"], 3],
    [["record", "found.json", "--check", "--as-left", "left.json"], 4],
    [["record", "found.json", "--as-left", "other.json"], 3],
  ] as const)("%j ends with %i and prints nothing", async (args, code) => {
    const other = JSON.stringify({ ...left, site: { id: "B" } });
    const ran = await dryfit(args, { files: { ...files, "other.json": other } });
    expect([ran.code, ran.out]).toEqual([code, ""]);
    expect(ran.err).not.toBe("");
  });

  test("a fault is told of the file that it stands in", async () => {
    const bad = JSON.stringify({ ...found, venting: { duct: { straight: "40" } } });
    const ran = await dryfit(["record", "bad.json", "--as-left", "left.json"], {
      files: { ...files, "bad.json": bad },
    });
    expect([ran.code, ran.out]).toEqual([3, ""]);
    expect(ran.err).toMatch(/^bad\.json: .*venting\.duct\.straight/);
  });

  test.each([["text"], ["markdown"], ["html"]])("as %s", async (format) => {
    const { out } = await dryfit(["record", "found.json", "--format", format], { files });
    expect(out).toContain("Record of A");
  });
});
