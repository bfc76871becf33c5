/** What changed between two assessments: flips, the room gained or lost, and why. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { comparisonMarkdown, comparisonText } from "../../src/report/index.js";
import { assessSite, compareAssessments, type Survey } from "../../src/survey/index.js";
import { dryfit } from "../cli/harness.js";

const folder = new URL("../../examples/sites/", import.meta.url);
const surveys = readdirSync(folder)
  .sort()
  .map((name) => JSON.parse(readFileSync(new URL(name, folder), "utf8")) as Survey);

const dryer = (straight: string | undefined, irc: 2006 | 2021): Survey => ({
  site: { id: "A" },
  jurisdiction: { adopted: { irc } },
  machine: { kind: "dryer", fuel: "electric" },
  venting: { duct: { ...(straight === undefined ? {} : { straight }), elbows: [] } },
});
const changeOf = (before: Survey, after: Survey, units: "us" | "si" = "us") =>
  compareAssessments(assessSite(before, { units }), assessSite(after, { units }), { units }).changes.find(
    ({ rule }) => rule === "venting/duct-length",
  );

describe("two editions over one survey", () => {
  // IRC 2006 M1502.6 allows 25 ft and IRC 2021 M1502.4.6.1 allows 35 ft: 28 ft flips, and loses ten feet of room
  const change = changeOf(dryer("28 ft", 2021), dryer("28 ft", 2006))!;

  test("the verdict flips, for the worse", () => {
    expect([change.flips, change.direction]).toEqual([true, "worse"]);
    expect([change.before?.verdict, change.after?.verdict]).toEqual(["pass", "fail"]);
  });

  test("by the difference of the limits, since the duct is the same", () => {
    expect(change.by?.si).toBeCloseTo(-10 * 0.3048, 10);
    expect(change.by?.text).toBe("-10 ft");
  });

  test("because of the limit, and the edition it stands in", () => {
    expect(change.why).toEqual([
      "Limit: 25 ft, 35 ft before.",
      expect.stringMatching(/^It rests on IRC 2006, M1502\.6 .*instead of IRC 2021, M1502\.4\.6\.1/),
    ]);
  });

  test("the other way round it gets better by as much", () => {
    const back = changeOf(dryer("28 ft", 2006), dryer("28 ft", 2021))!;
    expect([back.direction, back.by?.text]).toEqual(["better", "10 ft"]);
  });

  test("in SI where asked for", () =>
    expect(changeOf(dryer("28 ft", 2021), dryer("28 ft", 2006), "si")?.by?.text).toBe("-3.05 m"));
});

describe("before and after the work", () => {
  test("a shorter duct gains what was taken off", () => {
    const change = changeOf(dryer("40 ft", 2021), dryer("30 ft", 2021))!;
    expect([change.direction, change.by?.text]).toEqual(["better", "10 ft"]);
    expect(change.why).toEqual(["Measured: 30 ft, 40 ft before."]);
  });

  test("what was measured meanwhile is named", () => {
    const change = changeOf(dryer(undefined, 2021), dryer("30 ft", 2021))!;
    expect(change.why).toContain("venting.duct.straight is settled now.");
    expect(change.direction).toBe("better");
    const back = changeOf(dryer("30 ft", 2021), dryer(undefined, 2021))!;
    expect(back.why).toContain("venting.duct.straight is not settled any more.");
    expect(back.direction).toBe("worse");
  });

  test("a change that flips nothing is told after those that do", () => {
    const before = assessSite(surveys[0]!);
    const { changes } = compareAssessments(before, assessSite(surveys[2]!));
    const flips = changes.map((change) => change.flips);
    expect(flips.indexOf(false)).toBeGreaterThan(0);
    expect(flips.lastIndexOf(true)).toBeLessThan(flips.indexOf(false));
  });

  test("a rule that one side has not is told as such", () => {
    const whole = assessSite(surveys[0]!);
    const part = { ...whole, findings: whole.findings.slice(1) };
    const [gone] = compareAssessments(whole, part).changes;
    expect([gone?.after, gone?.direction, gone?.by]).toEqual([null, "other", null]);
    expect(gone?.why).toEqual(["The rule is not asked any more."]);
    expect(compareAssessments(part, whole).changes[0]?.why).toEqual(["The rule was not asked before."]);
  });
});

describe("laws", () => {
  test("nothing changes between a site and itself, and all rules are counted", () => {
    for (const survey of surveys) {
      const assessment = assessSite(survey);
      const { changes, unchanged } = compareAssessments(assessment, assessSite(survey));
      expect([changes, unchanged]).toEqual([[], assessment.findings.length]);
    }
  });

  test("there and back again is the same change with the sign turned", () => {
    const assessed = surveys.map((survey) => assessSite(survey));
    for (let i = 1; i < assessed.length; i++) {
      const there = compareAssessments(assessed[i - 1]!, assessed[i]!);
      const back = new Map(compareAssessments(assessed[i]!, assessed[i - 1]!).changes.map((one) => [one.rule, one]));
      expect(back.size).toBe(there.changes.length);
      for (const { rule, flips, by, before, after } of there.changes) {
        const other = back.get(rule)!;
        expect([other.flips, other.before, other.after]).toEqual([flips, after, before]);
        expect(other.by?.si ?? 0).toBeCloseTo(-(by?.si ?? 0), 9);
      }
    }
  });
});

describe("texts", () => {
  const comparison = compareAssessments(assessSite(dryer("28 ft", 2021)), assessSite(dryer("28 ft", 2006)));

  test("say what flips first, by how much, and why", () => {
    const lines = comparisonText(comparison).split("\n");
    expect(lines[0]).toMatch(/^A: REVIEW before, FAIL after; \d+ of \d+ verdicts change$/);
    expect(lines.slice(1, 4)).toEqual([
      "  PASS -> FAIL  venting/duct-length: The duct's developed length of 28 ft is 3 ft more than the 25 ft allowed.",
      "         room changes by -10 ft",
      "         Limit: 25 ft, 35 ft before.",
    ]);
  });

  test("a table in Markdown, in which a site's name stays a name", () => {
    const named = { ...comparison, before: { ...comparison.before, site: "<b>|x" } };
    const text = comparisonMarkdown(named);
    expect(text.split("\n")[0]).not.toMatch(/(?<!\\)[<|]/);
    expect(text).toContain("| PASS | FAIL | venting/duct-length | \\-10 ft |");
  });
});

describe("dryfit compare", () => {
  const file = (survey: Survey) => JSON.stringify(survey);

  test("of two editions ends with 1 where a verdict flips", async () => {
    const ran = await dryfit(["compare", "a.json", "--adopt", "irc=2006"], {
      files: { "a.json": file(dryer("28 ft", 2021)) },
    });
    expect([ran.code, ran.err]).toEqual([1, ""]);
    expect(ran.out).toContain("PASS -> FAIL  venting/duct-length");
  });

  test("of a survey with itself ends with 0", async () => {
    const files = { "a.json": file(dryer("28 ft", 2021)) };
    const ran = await dryfit(["compare", "a.json", "a.json", "--format", "json"], { files });
    expect(ran.code).toBe(0);
    expect(JSON.parse(ran.out).changes).toEqual([]);
  });

  test.each([
    [["compare", "a.json"], 4, /name a second survey/],
    [["compare", "a.json", "--adopt", "irc"], 4, /such as irc=2021/],
    [["compare", "a.json", "--adopt", "xyz=2021"], 4, /the texts are/],
    [["compare", "a.json", "--adopt", "irc=1901"], 3, /jurisdiction\.adopted\.irc/],
    [["compare", "a.json", "b.json"], 3, /b\.json/],
    [["compare", "a.json", "two.json"], 3, /2 surveys/],
    [["compare", "broken.json", "a.json"], 3, /line 1/],
  ] as const)("%j ends with %i", async (args, code, message) => {
    const files = {
      "a.json": file(dryer("28 ft", 2021)),
      "two.json": `[${file(surveys[0]!)},${file(surveys[1]!)}]`,
      "broken.json": "{",
    };
    const ran = await dryfit(args, { files });
    expect([ran.code, ran.out]).toEqual([code, ""]);
    expect(ran.err).toMatch(message);
  });
});
