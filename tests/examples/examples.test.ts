import { execFile } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { describe, expect, test } from "vitest";
import { coOpCsv, coOpNdjson } from "../../examples/make-co-op.js";
import type { Verdict } from "../../src/core/rule/index.js";
import { siteDrawings } from "../../src/report/index.js";
import { type Answer, assessMany, assessSite, type Survey, tryAssess } from "../../src/survey/index.js";

const run = promisify(execFile);
const root = fileURLToPath(new URL("../..", import.meta.url));
const at = (path: string): string => `${root}examples/${path}`;

async function script(name: string): Promise<string[]> {
  const { stdout, stderr } = await run(process.execPath, ["--import", "tsx", at(name)], {
    cwd: root,
    maxBuffer: 2 ** 26,
  });
  expect(stderr).toBe("");
  return stdout.split("\n");
}

const siteNames = readdirSync(at("sites")).sort();
const siteOf = (name: string): unknown => JSON.parse(readFileSync(at(`sites/${name}`), "utf8"));

async function answers(bytes: Uint8Array, format: "csv" | "ndjson"): Promise<Answer<"verdicts">[]> {
  const found: Answer<"verdicts">[] = [];
  for await (const answer of assessMany([bytes], format, { detail: "verdicts" })) found.push(answer);
  return found;
}

const all: readonly Verdict[] = ["fail", "notApplicable", "pass", "review"];
const sorted = (verdicts: readonly Verdict[]): Verdict[] => [...new Set(verdicts)].sort();

describe("the single surveys", () => {
  test("are at least twelve, none refused, each with a sentence of notes", () => {
    expect(siteNames.length).toBeGreaterThanOrEqual(12);
    for (const name of siteNames) {
      const tried = tryAssess(siteOf(name));
      expect([name, tried.fault?.message]).toEqual([name, undefined]);
      expect((siteOf(name) as { notes: string }).notes).toMatch(/^[A-Z].*\.$/);
    }
  });

  test("bring every verdict in every trade, and let at least one site pass as a whole", () => {
    const found = siteNames.flatMap((name) => {
      const { assessment } = tryAssess(siteOf(name), { detail: "verdicts" });
      return assessment ? [assessment] : [];
    });
    for (const trade of ["electrical", "placement", "plumbing", "venting"]) {
      const verdicts = found.flatMap(({ findings }) =>
        findings.filter(({ rule }) => rule.startsWith(`${trade}/`)).map(({ verdict }) => verdict),
      );
      expect([trade, sorted(verdicts)]).toEqual([trade, all]);
    }
    expect(sorted(found.map(({ verdict }) => verdict))).toEqual(["fail", "pass", "review"]);
  });
});

describe("the effect that a single survey is there for", () => {
  const surveyOf = (name: string): Survey => siteOf(`${name}.json`) as Survey;
  const valuesOf = (survey: Survey, calculator: string) => {
    const found = assessSite(survey).values.find((one) => one.calculator === calculator)!;
    expect([calculator, found.status]).toEqual([calculator, "computed"]);
    return found.values as Record<string, { si: number; text: string } & Record<string, unknown>[]>;
  };

  test("Alder Row 20: rocks on one diagonal, and the feet say how to end it", () => {
    const survey = surveyOf("alder-row-20");
    expect(valuesOf(survey, "placement/rock")["gap"]!.si).toBeCloseTo(0.004, 9);
    expect(valuesOf(survey, "placement/level-feet")["feet"]).toHaveLength(4);
    expect(siteDrawings(survey, assessSite(survey)).map(({ shows }) => shows)).toContain("feet");
  });

  test("Alder Row 21: two stacks of shims, and feet for the rest", () => {
    const survey = surveyOf("alder-row-21");
    expect(valuesOf(survey, "placement/shims")["stacks"]).toHaveLength(2);
    expect(valuesOf(survey, "placement/rock")["gap"]!.si).toBeGreaterThan(0);
    expect(valuesOf(survey, "placement/level-feet")["feet"]).toHaveLength(4);
    expect(siteDrawings(survey, assessSite(survey)).map(({ shows }) => shows)).toContain("feet");
  });

  test("Larch Hill 6: less mass through the same run than at the sea", () => {
    const high = surveyOf("larch-hill-6");
    const low = { ...high, venting: { ...high.venting, air: { ...high.venting!.air, altitude: "0 ft" } } };
    const mass = (survey: Survey) => valuesOf(survey, "venting/duct-airflow")["massFlow"]!.si;
    expect(mass(high)).toBeLessThan(0.8 * mass(low));
  });

  test("Fern Court 8: water falls out in the cold attic", () => {
    expect(valuesOf(surveyOf("fern-court-8"), "venting/condensation")["water"]!.si).toBeGreaterThan(0);
  });

  const lengthOf = (survey: Survey) =>
    assessSite(survey).findings.find(({ rule }) => rule === "venting/duct-length")!.verdict;

  test("Alder Row 11: passes the table and chokes", () => {
    const survey = surveyOf("alder-row-11");
    expect(lengthOf(survey)).toBe("pass");
    expect(valuesOf(survey, "venting/duct-airflow")["margin"]!.si).toBeLessThan(0);
  });

  test("Alder Row 8: passes by the maker's chart, and fails by the table without it", () => {
    const survey = surveyOf("alder-row-08");
    const { exhaustChart, ...machine } = survey.machine as Record<string, unknown>;
    expect(exhaustChart).toBeDefined();
    expect([lengthOf(survey), lengthOf({ ...survey, machine } as Survey)]).toEqual(["pass", "fail"]);
  });
});

describe("the co-operative's files", () => {
  test("are what their script makes, byte for byte", () => {
    expect(Buffer.compare(readFileSync(at("co-op.csv")), coOpCsv())).toBe(0);
    expect(readFileSync(at("co-op.ndjson"), "utf8")).toBe(coOpNdjson());
  });

  test("answer or refuse every one of 200 rows, in order, with every verdict and every kind of fault", async () => {
    const found = await answers(readFileSync(at("co-op.csv")), "csv");
    expect(found.map(({ line }) => line)).toEqual(Array.from({ length: 200 }, (_, i) => i + 2));
    const verdicts = found.flatMap((answer) => (answer.ok ? [answer.assessment.verdict] : []));
    expect(sorted(verdicts)).toEqual(["fail", "pass", "review"]);
    const codes = found.flatMap((answer) => (answer.ok ? [] : answer.refusal.issues.map(({ code }) => code)));
    expect([...new Set(codes)].sort()).toEqual([
      "brokenCsv",
      "cellCount",
      "commaTwoWays",
      "encoding",
      "missing",
      "noUnit",
      "noValue",
      "notAccepted",
      "outOfRange",
      "unknownUnit",
      "wrongDimension",
      "wrongType",
    ]);
  });

  test("say the same as CSV and as JSON", async () => {
    const verdictsBySite = (found: readonly Answer<"verdicts">[]) =>
      new Map(found.flatMap((answer) => (answer.ok ? [[answer.assessment.site, answer.assessment.findings]] : [])));
    const csv = verdictsBySite(await answers(coOpCsv(), "csv"));
    const ndjsonAnswers = await answers(new TextEncoder().encode(coOpNdjson()), "ndjson");
    const ndjson = verdictsBySite(ndjsonAnswers);
    expect(ndjson.size).toBeGreaterThan(30);
    for (const [site, findings] of ndjson) expect([site, findings]).toEqual([site, csv.get(site)]);
    const codes = ndjsonAnswers.flatMap((answer) => (answer.ok ? [] : [answer.refusal.issues[0]!.code]));
    for (const code of ["brokenJson", "unknownField", "twice", "noUnit", "tooDeep", "wrongType"])
      expect(codes).toContain(code);
  });
});

describe("the scripts", () => {
  test("in an app: errors beside fields, a finding with its basis and remedies that pass", async () => {
    const lines = await script("in-an-app.ts");
    expect(lines[0]).toContain("straight: 'say the unit, for example \"28 ft\"'");
    expect(lines[1]).toBe("fail - The duct's developed length of 38 ft is 3 ft more than the 35 ft allowed.");
    expect(lines[2]).toContain("because of IRC 2021, M1502.4.6.1");
    expect(lines[3]).toMatch(/^would pass: /);
    expect(lines.join("\n")).toContain("Alder Row 3: fail");
    expect(lines.join("\n")).toContain("'machine.fuel'");
  });

  test("over a file: failing sites, refusals, and counts that add up", async () => {
    const lines = await script("over-a-file.ts");
    const sum = lines.at(-2)!.match(/\d+/g)!.map(Number);
    expect(sum[0]).toBe(200);
    expect(sum.slice(1).reduce((a, b) => a + b)).toBe(200);
    expect(lines.filter((line) => line.startsWith("refused line ")).length).toBeGreaterThanOrEqual(sum[5]!);
    expect(lines.filter((line) => line.startsWith("fails ")).length).toBe(sum[1]);
  });

  test("the demo: every verdict of every site with its basis, and counts that add up", async () => {
    const lines = await script("demo.ts");
    const sites = lines.filter((line) => /: \d+ fail, \d+ review, /.test(line) && !line.includes("read:"));
    const findings = lines.filter((line) => /^ {2}(FAIL|REVIEW|PASS) /.test(line));
    const idle = lines.filter((line) => line.startsWith("  N/A ")).flatMap((line) => line.slice(9).split(", "));
    const numbersOf = (line: string): number[] =>
      line
        .replace(/^.*: (?=\d+ fail)/, "")
        .match(/\d+/g)!
        .map(Number);
    const counted = sites.map(numbersOf).reduce((sum, counts) => sum.map((one, i) => one + counts[i]!), [0, 0, 0, 0]);
    for (const [i, word] of ["FAIL", "REVIEW", "PASS"].entries()) {
      expect(findings.filter((line) => line.startsWith(`  ${word} `)).length).toBe(counted[i]);
    }
    expect(idle.length).toBe(counted[3]);
    for (const line of findings) expect(line).toMatch(/ [a-z]+\/[\w-]+: .+ \[.+\]$/);
    for (const start of ["Single surveys: ", "co-op.csv: "]) {
      const counts = lines
        .find((line) => line.startsWith(start))!
        .slice(start.length)
        .match(/\d+/g)!
        .map(Number);
      const [read, answered, fail, review, pass, notApplicable, refused] = counts;
      expect(answered! + refused!).toBe(read);
      expect(fail! + review! + pass! + notApplicable!).toBe(answered);
    }
  });
});
