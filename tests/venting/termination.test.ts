import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { termination } from "../../src/venting/index.js";
import { reference } from "../references.js";

const { rows } = reference("venting/termination.csv");
const good = {
  fuel: "electric" as const,
  place: "outdoors" as const,
  height: "16 in",
  nearby: [],
  damper: true,
  screen: false,
  openArea: "12.57 in2",
  facing: "down" as const,
};

describe("venting/termination", () => {
  test.each(rows)("keeps $least_ft ft to a $what in $document $edition", (row) => {
    const at = { jurisdiction: { adopted: { [row.document!]: Number(row.edition) } } };
    const input = { ...good, fuel: row.fuel as "electric" };
    const near = (distance: string) => [{ what: row.what as "window", distance }];
    expect(termination({ ...input, nearby: near(`${row.least_ft} ft`) }, at).verdict).toBe("pass");
    const inches = Number(row.least_ft) * 12 - 1;
    expect(termination({ ...input, nearby: near(`${inches} in`) }, at).verdict).toBe("fail");
    if (row.open_area_in2 === "") return;
    expect(termination({ ...input, openArea: `${row.open_area_in2} in2` }, at).verdict).toBe("pass");
    expect(termination({ ...input, openArea: `${Number(row.open_area_in2) - 0.1} in2` }, at).messageId).toBe(
      "throttled",
    );
  });

  test("trap: 3 ft is a default where the maker is silent, not a floor under the maker's figure", () => {
    const input = { ...good, nearby: [{ what: "window" as const, distance: "2 ft" }] };
    const maker = [{ limit: "venting/termination.opening", value: "18 in", citation: { document: "Sheet" } }];
    expect(termination(input, { maker }).verdict).toBe("pass");
    expect(termination(input).verdict).toBe("fail");
    // the 2006 text asked for it always
    expect(termination(input, { maker, jurisdiction: { adopted: { irc: 2006 } } }).verdict).toBe("fail");
  });

  test("trap: a 4 in circle has 12.57 in², so a grille that leaves 90 % of it does not pass", () => {
    expect(termination({ ...good, openArea: "11.3 in2" })).toMatchObject({ verdict: "fail", messageId: "throttled" });
    expect(termination({ ...good, openArea: "12.566 in2" }).verdict).toBe("pass");
  });

  test("counts the vented soffit by the text since 2021 and by habit before", () => {
    const input = { ...good, nearby: [{ what: "vented soffit" as const, distance: "2 ft" }] };
    const force = (irc: 2018 | 2021) => termination(input, { jurisdiction: { adopted: { irc } } }).basis[0]!.force;
    expect([force(2021), force(2018)]).toEqual(["mandatory", "practice"]);
  });

  test("an outlet indoors fails whatever else is right", () => {
    for (const place of ["attic", "crawl space", "soffit", "garage", "room", "chimney"] as const) {
      expect(termination({ ...good, place })).toMatchObject({ verdict: "fail", messageId: "indoors" });
    }
  });

  test("shows what it compared and says it in one line", () => {
    const finding = termination({ ...good, nearby: [{ what: "window", distance: "2 ft 6 in" }] });
    expect(finding.message).toBe("The window is 30 in from the hood; it must be at least 3 ft away.");
    expect(finding.workings.map(({ text }) => text)).toContain("30 in at least 3 ft: does not hold");
    expect(finding.cautions.join()).toMatch(/carbon monoxide/);
  });

  test("moving an opening away never makes it worse", () => {
    const distance = fc.integer({ min: 0, max: 200 });
    const bad = (inches: number) =>
      termination({ ...good, nearby: [{ what: "door", distance: `${inches} in` }] }).verdict === "fail";
    fc.assert(
      fc.property(distance, distance, (a, b) => {
        if (bad(Math.max(a, b))) expect(bad(Math.min(a, b))).toBe(true);
      }),
      { numRuns: 50 },
    );
  });

  test("cannot tell across the limit; asks for what is missing; points at what cannot be read", () => {
    expect(termination({ ...good, height: "12 in ± 1 in" }).messageId).toBe("tooCloseToCall");
    expect(termination({ fuel: "electric", place: "outdoors" }).missing.map(({ path }) => path[0])).toContain("nearby");
    const read = termination.try({ ...good, nearby: [{ what: "window", distance: 3 }] });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["nearby", 0, "distance"] });
  });

  test("offers a proper hood for what a hood can mend", () => {
    const { remedies } = termination({ ...good, screen: true, openArea: "9 in2" });
    expect(remedies.map(({ message }) => message)).toEqual([
      "Fit a hood for dryers: without a screen, with the duct's full area free.",
    ]);
  });
});
