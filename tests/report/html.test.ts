/** The HTML reports: their order, their structure for readers and screen readers, and that nothing a survey brings acts. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { batchHtml, siteDrawings, siteHtml } from "../../src/report/index.js";
import { formulaMarkup } from "../../src/report/mathml.js";
import { plotFrame } from "../../src/report/svg/plot.js";
import { type Answer, assessSite, assessUnknown, type Refusal, type Survey } from "../../src/survey/index.js";
import { entries, examplesOf } from "../contract/catalogue.js";
import { tagsOf } from "./markup.js";

const folder = new URL("../../examples/sites/", import.meta.url);
const surveys = readdirSync(folder)
  .sort()
  .map((name) => JSON.parse(readFileSync(new URL(name, folder), "utf8")) as Survey);
const reports = surveys.map((survey) => siteHtml(assessSite(survey), { survey }));

const hostile = `"><img src=x onerror=alert(1)><script>alert(1)</script></style>'&\u202e`;
const spoken = `"><img src=x onerror=alert(1)><script>alert(1)</script></style>'&\ufffd`;

const fitted: Survey = {
  site: { id: hostile, place: hostile },
  measured: { by: hostile, with: hostile },
  jurisdiction: {
    local: [
      {
        limit: "placement/clearances.side",
        value: "3 in",
        citation: { document: hostile, publisher: hostile, edition: hostile, section: hostile },
      },
    ],
  },
  machine: {
    kind: "washer",
    fuel: "none",
    body: { width: "27 in", depth: "30 in", height: "38 in" },
    door: { hinge: "left", length: "20 in", thickness: "2 in", inset: "3 in", opens: "110°" },
    feet: { width: "24 in", depth: "22 in" },
    foot: { thread: "5/16-18" },
  },
  placement: {
    place: "alcove",
    gaps: { left: "1 in", right: "4 in", top: "20 in", behind: "5 in" },
    facing: "30 in",
    things: [{ what: hostile.slice(0, 60), right: "5 in", width: "20 in", ahead: "10 in", depth: "20 in" }],
    level: { reading: { by: "slope", across: "1/8 in per ft", back: "1/16 in per ft" } },
  },
  notes: hostile,
} as Survey;

/** The limit that a local text may amend is looked up, so that the test does not lean on its name. */
const withLocal = (): Survey => {
  const side = entries
    .find(({ id }) => id === "placement/clearances")!
    .limits.find(({ title, dimension }) => dimension === "length" && /side/i.test(title))!;
  const local = fitted.jurisdiction!.local!.map((one) => ({ ...one, limit: side.id }));
  return { ...fitted, jurisdiction: { ...fitted.jurisdiction, local } };
};

describe("the report of a site", () => {
  test.each(reports.map((html, i) => [surveys[i]!.site.id, html] as const))(
    "%s is well-formed and in order",
    (_, html) => {
      const tags = tagsOf(html);
      const titles = tags.filter(({ name }) => name === "h2").map(({ text }) => text);
      expect(titles[0]).toBe("Verdict");
      const wanted = ["Verdict", "What to fix", "What to measure next", "Drawings", "Every finding", "Computed"];
      expect(titles.filter((title) => wanted.includes(title))).toEqual(
        wanted.filter((title) => titles.includes(title)),
      );

      const levels = tags.flatMap(({ name }) => (/^h[1-6]$/.test(name) ? [Number(name[1])] : []));
      expect(levels[0]).toBe(1);
      expect(levels.filter((level) => level === 1)).toHaveLength(1);
      levels.forEach((level, i) => {
        expect(level).toBeLessThanOrEqual((levels[i - 1] ?? 0) + 1);
      });

      const ids = tags.flatMap(({ attributes }) => attributes.get("id") ?? []);
      expect(new Set(ids).size).toBe(ids.length);
      for (const { name, attributes, within } of tags) {
        if (name === "a") expect(ids).toContain(attributes.get("href")!.slice(1));
        if (name === "th") expect(["col", "row"]).toContain(attributes.get("scope"));
        if (name === "table") expect(within).toContain("main");
        expect(attributes.has("src")).toBe(false);
      }
      expect(tags.filter(({ name }) => name === "table")).toHaveLength(
        tags.filter(({ name }) => name === "caption").length,
      );
      expect(
        tags.filter(({ name }) => ["header", "nav", "main", "footer"].includes(name)).map(({ name }) => name),
      ).toEqual(["header", "nav", "main", "footer"]);
    },
  );

  test("needs no script and no network", () => {
    for (const html of reports) {
      expect(html).toContain("default-src 'none'".replaceAll("'", "&#39;"));
      expect(html.replaceAll('xmlns="http://www.w3.org/2000/svg"', "")).not.toMatch(
        /https?:|url\((?!#)|@import|<script/,
      );
    }
  });

  test("gives every finding and value of the assessment with its workings and bases", () => {
    for (const [i, survey] of surveys.entries()) {
      const { findings, values } = assessSite(survey);
      const text = tagsOf(reports[i]!).find(({ name }) => name === "main")!.text;
      for (const finding of findings) {
        expect(text).toContain(finding.rule);
        if (finding.verdict === "notApplicable") continue;
        expect(text).toContain(finding.title);
        for (const { message } of finding.parts) expect(text).toContain(message);
        for (const { citation } of finding.basis) expect(text).toContain(citation);
        for (const { text: step, formula } of finding.workings) if (formula === null) expect(text).toContain(step);
      }
      for (const { title, status, message } of values) {
        expect(text).toContain(title);
        if (status !== "computed") expect(text).toContain(message);
      }
    }
  });

  test("says first what fails, with what would pass", () => {
    const failing = surveys.findIndex((survey) =>
      assessSite(survey).findings.some(({ remedies }) => remedies.length > 0),
    );
    const { findings } = assessSite(surveys[failing]!);
    const { remedies } = findings.find((finding) => finding.remedies.length > 0)!;
    const fix = tagsOf(reports[failing]!).find(({ attributes }) => attributes.get("id") === "fix")!;
    expect(fix.text).toContain(remedies[0]!.message);
  });

  test("lists what to measure in the order of the walk", () => {
    const survey: Survey = { site: { id: "A-1" }, machine: { kind: "dryer", fuel: "electric" } };
    const assessment = assessSite(survey);
    const measure = tagsOf(siteHtml(assessment)).find(({ attributes }) => attributes.get("id") === "measure")!;
    const places = assessment.toMeasure.map(({ what }) => measure.text.indexOf(what));
    expect(places.every((place) => place >= 0)).toBe(true);
    expect(assessment.toMeasure.length).toBeGreaterThan(5);
  });

  test("takes other people's words as words, wherever they stand", () => {
    const survey = withLocal();
    const html = siteHtml(assessUnknown(survey), { survey });
    const tags = tagsOf(html);
    const names = new Set(tags.map(({ name }) => name));
    for (const name of ["script", "img", "iframe", "object", "form", "base", "link"]) expect(names).not.toContain(name);
    for (const { attributes } of tags) for (const key of attributes.keys()) expect(key).not.toMatch(/^on/i);
    expect(html).not.toContain("\u202e");
    expect(tags.find(({ name }) => name === "title")!.text).toBe(spoken);
    const text = tags.find(({ name }) => name === "body")!.text;
    // title, place, who, with what, notes, the local text's citation
    expect(text.split(spoken).length - 1).toBeGreaterThanOrEqual(6);
    expect(text).toContain(spoken.slice(0, 60));
  });

  test("stays whole where every text of an assessment is hostile", () => {
    const poison = (value: unknown, key = ""): unknown => {
      if (typeof value === "string")
        return ["verdict", "status", "kind", "force", "formula"].includes(key) ? value : hostile;
      if (Array.isArray(value)) return value.map((one) => poison(one, key));
      if (typeof value !== "object" || value === null) return value;
      return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, poison(one, name)]));
    };
    const clean = assessSite(surveys[0]!);
    const names = new Set(tagsOf(siteHtml(poison(clean) as typeof clean)).map(({ name }) => name));
    for (const name of ["script", "img", "style" + "x"]) expect(names).not.toContain(name);
  });

  test("keeps the line breaks of notes", () => {
    const survey: Survey = {
      site: { id: "A-1" },
      machine: { kind: "washer", fuel: "none" },
      notes: "one\ntwo\r\nthree",
    };
    expect(siteHtml(assessSite(survey), { survey })).toContain("one<br>two<br>three");
  });

  test("refuses a survey that is not the one assessed", () => {
    const survey = { ...surveys[0]!, machine: { ...surveys[0]!.machine, body: { width: "wide", depth: "30 in" } } };
    expect(() => siteHtml(assessSite(surveys[0]!), { survey })).toThrow("machine.body.width cannot be read");
  });
});

describe("the drawings of a site", () => {
  test("show what was measured and what the rules said of it", () => {
    const survey = withLocal();
    const drawn = siteDrawings(survey, assessUnknown(survey));
    expect(drawn.map(({ shows }) => shows)).toEqual(["plan", "feet"]);
    const words = tagsOf(drawn[0]!.svg)[0]!.text.replaceAll("\u00a0", " ");
    expect(words).toContain("free space asked for: left 3 in, right 3 in");
    expect(words).toMatch(/opening to 110°,\s*stopped\s*at\s*[\d.]+°\s*here/);
    expect(tagsOf(drawn[1]!.svg)[0]!.text).toContain("turns clockwise seen from above");
  });

  test("plot the blower against the run where the air was worked out, and mark where they meet", () => {
    const survey: Survey = {
      site: { id: "A-1" },
      machine: { kind: "dryer", fuel: "electric", exhaust: "vented" },
      venting: { duct: { diameter: "4 in", straight: "25 ft", elbows: [] } },
    };
    const drawnOf = (one: Survey) => {
      const assessment = assessSite(one);
      const shown = assessment.values.find(({ calculator }) => calculator === "venting/duct-airflow")!.values;
      return { plot: siteDrawings(one, assessment).find(({ shows }) => shows === "fanRun"), shown };
    };
    const { plot, shown } = drawnOf(survey);
    const text = (name: string) => (shown[name] as { text: string }).text;
    const words = tagsOf(plot!.svg)[0]!.text.replaceAll("\u00a0", " ");
    expect(words).toContain(`They meet at ${text("flow")} and ${text("atMachine")}.`);
    // A warm riser in the cold lifts by itself at small flows, where the run takes less than nothing: not on the plot.
    const riser = drawnOf({
      ...survey,
      venting: { ...survey.venting, run: { rise: "30 ft" }, air: { outdoorTemperature: "-20 °C" } },
    });
    expect((riser.shown["curve"] as unknown as { run: { si: number } }[])[0]!.run.si).toBeLessThan(0);
    const lines = tagsOf(riser.plot!.svg).filter(({ name }) => name === "path" || name === "polyline");
    const heights = lines.flatMap(({ attributes }) =>
      [...(attributes.get("d") ?? attributes.get("points"))!.matchAll(/[\d.-]+[ ,]([\d.-]+)/g)].map(([, y]) =>
        Number(y),
      ),
    );
    expect(heights.length).toBeGreaterThan(40);
    expect(Math.max(...heights)).toBeLessThanOrEqual(plotFrame.bottom);
    expect(drawnOf({ ...survey, venting: {} }).plot).toBeUndefined();
  });

  test("are left out where nothing was measured", () => {
    const survey: Survey = { site: { id: "A-1" }, machine: { kind: "dryer", fuel: "electric" } };
    expect(siteDrawings(survey, assessSite(survey))).toEqual([]);
  });

  test("come out for the sample sites in both systems of units", () => {
    const shown = new Set<string>();
    for (const survey of surveys) {
      for (const units of ["us", "si"] as const) {
        for (const { shows, svg } of siteDrawings(survey, assessSite(survey, { units }), { units })) {
          shown.add(shows);
          tagsOf(svg);
        }
      }
    }
    expect([...shown].sort()).toEqual(expect.arrayContaining(["behind", "circuit", "plan"]));
  });
});

describe("the report of many sites", () => {
  const refusal: Refusal = {
    line: 7,
    text: hostile,
    issues: [
      { line: 7, column: 3, path: ["site", "id"], code: "x", message: hostile, expected: hostile, received: hostile },
    ],
  };
  const answers: Answer<"full">[] = [
    ...surveys.map((survey, i) => ({ ok: true as const, line: i + 1, assessment: assessSite(survey) })),
    { ok: true, line: 90, assessment: assessUnknown(withLocal()) },
    { ok: false, line: 7, refusal },
  ];
  const tags = tagsOf(batchHtml(answers, { title: "Alder Row" }));
  const rowsOf = (id: string) => {
    const section = tags.findIndex(({ attributes }) => attributes.get("id") === id);
    const next = tags.findIndex(({ name }, i) => i > section && name === "section");
    return tags
      .slice(section, next < 0 ? undefined : next)
      .filter(({ name, within }) => name === "tr" && within.includes("tbody"));
  };

  test("counts add up to the rows read", () => {
    const counts = tags.find(({ attributes }) => attributes.get("id") === "counts")!.text;
    expect(counts).toContain(`${answers.length} rows read: ${answers.length - 1} answered`);
    const byVerdict = rowsOf("counts").map(({ text }) => Number(/\d+$/.exec(text)![0]));
    expect(byVerdict.reduce((sum, one) => sum + one, 0)).toBe(answers.length - 1);
  });

  test("has one row for each site and each refusal", () => {
    expect(rowsOf("sites")).toHaveLength(answers.length - 1);
    expect(rowsOf("refusals")).toHaveLength(1);
    expect(rowsOf("refusals")[0]!.text).toContain("line 7, column 3");
  });

  test("counts each cause over the sites that have it", () => {
    const failures = new Map<string, number>();
    for (const answer of answers) {
      if (!answer.ok) continue;
      for (const { rule, verdict, messageId } of answer.assessment.findings) {
        if (verdict === "fail") failures.set(`${rule} ${messageId}`, (failures.get(`${rule} ${messageId}`) ?? 0) + 1);
      }
    }
    const rows = rowsOf("causes").filter(({ text }) => text.includes("FAIL"));
    expect(rows).toHaveLength(failures.size);
    const total = [...failures.values()].reduce((sum, one) => sum + one, 0);
    expect(rows.reduce((sum, { text }) => sum + Number(/FAIL(\d+)/.exec(text)![1]), 0)).toBe(total);
  });

  test("takes other people's words as words", () => {
    expect(tags.map(({ name }) => name)).not.toContain("script");
    expect(tags.map(({ name }) => name)).not.toContain("img");
    expect(rowsOf("refusals")[0]!.text).toContain(spoken);
  });

  test("works from verdicts alone, and says so of nothing", () => {
    const short = batchHtml([{ ok: true, line: 1, assessment: assessSite(surveys[0]!, { detail: "verdicts" }) }]);
    expect(tagsOf(short).map(({ name }) => name)).toContain("main");
    expect(batchHtml([])).toContain("0 rows read");
  });
});

describe("formulas", () => {
  test("of every worked example are set as mathematics", () => {
    const plain: string[] = [];
    let count = 0;
    for (const entry of entries) {
      for (const { result } of examplesOf(entry)) {
        for (const { formula, values } of result.workings) {
          if (formula === null) continue;
          count++;
          const texts = Object.fromEntries(Object.entries(values).map(([name, { text }]) => [name, text]));
          const set = formulaMarkup(formula, texts);
          if (set === undefined) plain.push(formula);
          else tagsOf(set);
        }
      }
    }
    expect(count).toBeGreaterThan(100);
    expect(plain).toEqual([]);
  });

  const flat = (formula: string, values: Record<string, string> = {}): string =>
    tagsOf(formulaMarkup(formula, values)!)
      .filter(({ name }) => name === "div")
      .map(({ text }) => text.replace(/\s+/g, " ").trim())
      .join(" | ");

  test.each([
    [
      "need = body + 2 * side",
      { need: "29 in", body: "27 in", side: "1 in" },
      "need=body +2·side | =27 in +2·1 in =29 in",
    ],
    ["a = b - (c - d)", {}, "a=b −(c−d) | =b −(c−d)"],
    ["a = (b + c) * d", {}, "a=(b+c) ·d | =(b+c) ·d"],
    ["a = -b + c", {}, "a=−b +c | =−b +c"],
    ["a = b * -c", {}, "a=b ·(−c) | =b ·(−c)"],
    ["a = b - c", { a: "3 in", b: "1 in", c: "-2 in" }, "a=b −c | =1 in −(-2 in) =3 in"],
    ["a = riseAcross^2", { riseAcross: "8 in" }, "a=rise across2 | =(8 in)2"],
    ["a = pi * b", {}, "a=π ·b | =π ·b"],
    ["a = max(b, c)", {}, "a=max(b,c) | =max(b,c)"],
    ["a = abs(b)", {}, "a=|b| | =|b|"],
    ["a = b * (1 m/s^2)", {}, "a=b ·1 m/s² | =b ·1 m/s²"],
  ])("%s", (formula, values, expected) => {
    expect(flat(formula, values as Record<string, string>)).toBe(expected);
  });

  test("fractions, roots and powers are built as such", () => {
    const names = tagsOf(formulaMarkup("a = sqrt(b^2) / (c - 1)", {})!).map(({ name }) => name);
    expect(names).toEqual(expect.arrayContaining(["mfrac", "msqrt", "msup"]));
  });

  test.each([
    "a + b",
    "a",
    "a = b ? c : d",
    "a = [1, 2]",
    "a = b = c",
    "a = (b",
    "2 = a",
    "a = b $ c",
    "",
    `a = ${"(".repeat(200)}`,
  ])("%s is left as it is written", (formula) => {
    expect(formulaMarkup(formula, {})).toBeUndefined();
  });

  test("a name that every object has is no value", () => {
    expect(flat("a = constructor * 2", {})).toBe("a=constructor ·2 | =constructor ·2");
  });
});
