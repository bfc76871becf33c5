import { parse } from "jsonc-parser";
import { describe, expect, test } from "vitest";
import { inputOf, schemaAt } from "../../src/core/rule/index.js";
import {
  assessmentMarkdown,
  assessmentText,
  basisText,
  cleanText,
  findingLine,
  tallyText,
} from "../../src/report/index.js";
import { acceptedBy, csvHeader, formFields, surveyForm } from "../../src/survey/form.js";
import {
  assessSite,
  catalogue,
  csvRows,
  lookUpBasis,
  newTally,
  surveyFields,
  surveyInput,
} from "../../src/survey/index.js";

describe("the empty survey", () => {
  test("has a line of help and an accepted example for every field", () => {
    for (const { path, help, example, accepts } of formFields()) {
      const schema = schemaAt(surveyInput, path.split("."))!;
      expect([path, help]).not.toEqual([path, ""]);
      expect(accepts).not.toBe("");
      const { success } = (schema as unknown as { safeParse: (value: unknown) => { success: boolean } }).safeParse(
        example,
      );
      expect([path, example, success]).toEqual([path, example, true]);
    }
  });

  test("has an accepted example for every field of every rule and calculator", () => {
    for (const entry of catalogue()) {
      const { shape } = inputOf(entry) as unknown as {
        shape: Record<string, { safeParse: (v: unknown) => { success: boolean } }>;
      };
      for (const [field, schema] of Object.entries(shape)) {
        const { example } = acceptedBy(schema as never);
        expect([entry.id, field, example, schema.safeParse(example).success]).toEqual([entry.id, field, example, true]);
      }
    }
  });

  test("as JSON holds every field, and is still accepted with any one of them brought in", () => {
    const form = surveyForm("json");
    const lines = form.split("\n");
    for (const { path } of surveyFields()) expect(form).toContain(`"${path.at(-1)}": `);
    // a line of a field that stands alone and may be left out
    const optional = lines.flatMap((line, i) => (/^ +\/\/ "\w+": .*,$/.test(line) ? [i] : []));
    expect(optional.length).toBeGreaterThan(50);
    for (const i of optional) {
      const brought = lines.map((line, j) => (i === j ? line.replace("// ", "") : line)).join("\n");
      const { success } = surveyInput.safeParse(parse(brought, [], { allowTrailingComma: true }));
      expect([lines[i], success]).toEqual([lines[i], true]);
    }
  });

  test("as JSON, with everything brought in, is JSON with no field that the survey does not know", () => {
    const brought = surveyForm("json").replace(/^( *)\/\/ (?=["{}[\] ])/gm, "$1");
    const errors: never[] = [];
    const all = parse(brought, errors, { allowTrailingComma: true });
    expect(errors).toEqual([]);
    // examples of fields that hang together need not fit each other; all else must
    const issues = surveyInput.safeParse(all).error?.issues ?? [];
    expect(issues.filter(({ code }) => code !== "custom")).toEqual([]);
  });

  test("as CSV names every field, and its row is accepted", async () => {
    expect(csvHeader().map((column) => column.split(" ")[0])).toEqual(surveyFields().map(({ path }) => path.join(".")));
    const rows = [];
    for await (const row of csvRows([new TextEncoder().encode(surveyForm("csv"))])) rows.push(row);
    expect(rows.map(({ ok }) => ok)).toEqual([true]);
  });
});

describe("texts", () => {
  const assessment = assessSite({
    site: { id: "Alder \u001b[1m3" },
    machine: { kind: "dryer", fuel: "electric", exhaust: "vented" },
    venting: { duct: { straight: "60 ft", elbows: [] } },
  });
  const finding = assessment.findings.find(({ rule }) => rule === "venting/duct-length")!;

  test("name verdict, rule, message and basis on one line", () => {
    expect(findingLine(finding)).toMatch(/^FAIL {3}venting\/duct-length: .+60 ft.+\[IRC 2021, M1502\.4\.6\.1/);
  });

  test("hold every finding, remedy, measurement, assumption and caution of an assessment", () => {
    const text = assessmentText(assessment);
    const page = assessmentMarkdown(assessment);
    for (const { rule, message, remedies } of assessment.findings) {
      expect(text).toContain(`${rule}: ${cleanText(message)}`);
      expect(page).toContain(rule);
      for (const remedy of remedies) expect(text).toContain(`Would pass: ${remedy.message}`);
    }
    for (const { what } of assessment.toMeasure) expect(text).toContain(what);
    for (const line of [...assessment.assumptions, ...assessment.cautions]) expect(text).toContain(line);
    expect(text + page).not.toContain("\u001b");
  });

  test("wrap to a width without losing a word", () => {
    const wide = assessmentText(assessment);
    const narrow = assessmentText(assessment, { width: 72 });
    expect(narrow.split(/\s+/)).toEqual(wide.split(/\s+/));
    expect(Math.max(...narrow.split("\n").map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  test("count", () => {
    expect(tallyText({ ...newTally(), rows: 1, byVerdict: { fail: 1, review: 0, pass: 0, notApplicable: 0 } })).toBe(
      "1 row read: 1 answered (1 fail, 0 review, 0 pass, 0 not applicable), 0 refused",
    );
  });
});

describe("looking up a basis", () => {
  test("finds every limit by its id, and every section by itself", () => {
    for (const { limits } of catalogue()) {
      for (const limit of limits) {
        expect(lookUpBasis(limit.id).limits.map((found) => found.limit.id)).toContain(limit.id);
      }
    }
    const found = lookUpBasis("M1502.4.6.1").limits.flatMap(({ values }) => values);
    expect(found.length).toBeGreaterThan(0);
    for (const { section } of found) expect(section).toContain("M1502.4.6.1");
  });

  test("takes a number in any unit of its dimension, and no other dimension", () => {
    const byFeet = lookUpBasis("35 ft");
    expect(byFeet.limits.map(({ limit }) => limit.id)).toContain("venting/duct-length.base");
    expect(lookUpBasis("10.668 m").limits).toEqual(byFeet.limits);
    expect(lookUpBasis("35 psi").limits.map(({ limit }) => limit.id)).not.toContain("venting/duct-length.base");
  });

  test("shows everything of one entry by its id", () => {
    for (const entry of catalogue()) {
      const found = lookUpBasis(entry.id);
      expect(found.entries).toEqual([entry]);
      expect(found.limits.map(({ limit }) => limit.id).sort()).toEqual(
        entry.limits.map(({ id }: { id: string }) => id).sort(),
      );
      expect(basisText(found)).not.toMatch(/undefined|NaN/);
    }
  });

  test("finds nothing for nothing", () => {
    expect(basisText(lookUpBasis("  "))).toBe("");
    expect(basisText(lookUpBasis("xyzzy"))).toBe("");
  });
});
