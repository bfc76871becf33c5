/** The order of work as a drawing, and parts and order as sections of a site's report. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { orderDrawing, siteHtml } from "../../src/report/index.js";
import { assessSite, orderOfWork, type Survey, takeOff } from "../../src/survey/index.js";
import { tagsOf } from "./markup.js";

const survey = JSON.parse(
  readFileSync(new URL("../../examples/sites/alder-row-05.json", import.meta.url), "utf8"),
) as Survey;
const order = orderOfWork(survey);

describe("the drawing", () => {
  const svg = orderDrawing(order);
  const tags = tagsOf(svg);

  test("has a number for every step, and a ring for every hold", () => {
    const numbers = tags
      .filter(({ name, text }) => name === "text" && /^\d+$/.test(text))
      .map(({ text }) => Number(text));
    expect(numbers).toEqual(order.steps.map((_, i) => i + 1));
    const rings = tags.filter(({ name }) => name === "circle").length - order.steps.length;
    expect(rings).toBe(order.steps.filter(({ hold }) => hold !== null).length);
  });

  test("has an arrow for every line from a step to one that waits for it", () => {
    const arrows = tags.filter(({ name }) => name === "polygon").length;
    expect(arrows).toBe(order.steps.reduce((sum, { after }) => sum + after.length, 0));
  });

  test("says all of it to those who do not see it", () => {
    const spoken = tags.find(({ name }) => name === "desc")!.text;
    for (const { title, hold } of order.steps) {
      expect(spoken).toContain(title);
      if (hold) expect(spoken).toContain(hold.what);
    }
  });

  test("keeps within its width", () => {
    for (const { name, attributes } of tags.filter(({ name: one }) => one === "text" || one === "circle")) {
      const x = Number(attributes.get(name === "text" ? "x" : "cx"));
      expect(x).toBeGreaterThan(0);
      expect(x).toBeLessThan(360);
    }
    for (const d of tags.flatMap(({ attributes }) => attributes.get("d") ?? []))
      for (const number of d.match(/-?\d+(?:\.\d+)?/g)!) expect(Number(number)).toBeGreaterThanOrEqual(-80);
  });

  test("of nothing is refused, and a name stays text", () => {
    expect(() => orderDrawing({ site: "A", steps: [] })).toThrow(RangeError);
    const hostile = tagsOf(orderDrawing({ ...order, site: "<script>x</script>" }));
    expect(hostile.map(({ name }) => name)).not.toContain("script");
  });
});

describe("a site's report", () => {
  const html = (more: object) => tagsOf(siteHtml(assessSite(survey), { survey, ...more }));
  const sections = (more: object) =>
    html(more).flatMap(({ name, attributes }) => (name === "section" ? [attributes.get("id")] : []));

  test("has parts and order where they are given, before every finding", () => {
    expect(sections({})).not.toContain("parts");
    const ids = sections({ parts: takeOff(survey), order });
    expect(ids.indexOf("parts")).toBeLessThan(ids.indexOf("findings"));
    expect(ids.indexOf("order")).toBe(ids.indexOf("parts") + 1);
  });

  test("has a line for each part and each step, and leads from what stands against a step to its finding", () => {
    const tags = html({ parts: takeOff(survey), order });
    const rows = tags.filter(({ name, within }) => name === "tr" && within.includes("tbody")).map(({ text }) => text);
    for (const { what } of takeOff(survey).lines) expect(rows.some((row) => row.includes(what))).toBe(true);
    const items = tags.filter(({ name, within }) => name === "li" && within.includes("ol")).map(({ text }) => text);
    for (const { title } of order.steps) expect(items.some((item) => item.startsWith(title))).toBe(true);
  });
});
