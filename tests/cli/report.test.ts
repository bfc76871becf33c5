/** The page of HTML that the command makes: of one site, of a batch, and of what cannot be read. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { siteHtml } from "../../src/report/index.js";
import { assessSite, orderOfWork, type Survey, takeOff } from "../../src/survey/index.js";
import { tagsOf } from "../report/markup.js";
import { dryfit } from "./harness.js";

const path = new URL("../../examples/sites/alder-row-01.json", import.meta.url);
const text = readFileSync(path, "utf8");
const survey = JSON.parse(text) as Survey;

describe("dryfit report", () => {
  test("of one survey is the site's report with its drawings, and ends with the site's code", async () => {
    const { code, out, err } = await dryfit(["report", "one.json"], { files: { "one.json": text } });
    expect([code, err]).toEqual([0, ""]);
    expect(out).toBe(siteHtml(assessSite(survey), { survey, parts: takeOff(survey), order: orderOfWork(survey) }));
    expect(tagsOf(out).filter(({ name }) => name === "svg").length).toBeGreaterThan(0);
  });

  test("in SI where asked for", async () => {
    const { out } = await dryfit(["report", "one.json", "--units", "si"], { files: { "one.json": text } });
    const si = { units: "si" } as const;
    const [parts, order] = [takeOff(survey, si), orderOfWork(survey, si)];
    expect(out).toBe(siteHtml(assessSite(survey, si), { survey, parts, order, ...si }));
  });

  test("of several is the report of a batch, with refused rows in it and on standard error", async () => {
    const file = `${JSON.stringify(survey)}\n{"site":{"id":"B"}}\n`;
    const { code, out, err } = await dryfit(["report", "-", "--format", "ndjson", "--title", "West wing"], {
      stdin: file,
    });
    expect(code).toBe(3);
    expect(err).toMatch(/^standard input: line 2, column 1: machine/);
    const tags = tagsOf(out);
    expect(tags.find(({ name }) => name === "title")?.text).toContain("West wing");
    expect(out).toContain("Alder Row 1");
  });

  test("of what is not there says so and writes no page", async () => {
    const { code, out, err } = await dryfit(["report", "none.json"]);
    expect([code, out]).toEqual([3, ""]);
    expect(err).toContain("none.json");
  });

  test("of a file whose writing cannot be told is a wrong call", async () => {
    expect((await dryfit(["report", "site.txt"])).code).toBe(4);
  });
});
