import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { si } from "../../src/core/quantity/index.js";
import { developedLength, ductLength } from "../../src/venting/index.js";
import { elbowRows } from "../../src/venting/tables/elbows.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("venting/duct-length.csv");

const elbow = (text: string) => {
  const [radius, angle, count] = text.split("/");
  return { radius: radius as "4 in mitred", angle: `${angle}°`, count: Number(count) };
};

describe("the fitting table", () => {
  test("is the printed one, transcribed a second time in inches", () => {
    const inches = elbowRows.map(({ radius, angle, feet }) => [radius, angle, Math.round(feet * 12)]);
    expect(inches).toEqual([
      ["4 in mitred", 45, 30],
      ["4 in mitred", 90, 60],
      ["6 in smooth", 45, 12],
      ["6 in smooth", 90, 21],
      ["8 in smooth", 45, 12],
      ["8 in smooth", 90, 19],
      ["10 in smooth", 45, 9],
      ["10 in smooth", 90, 18],
    ]);
  });
});

describe("venting/duct-length", () => {
  test.each(rows)("leaves $straight_left_ft ft of straight duct: $document $edition, $elbows", (row) => {
    const elbows = row.elbows === "" ? [] : row.elbows!.split(";").map(elbow);
    const at = { jurisdiction: { adopted: { [row.document!]: Number(row.edition) } } };
    const left = Number(row.straight_left_ft);
    const verdict = (feet: number) => ductLength({ fuel: "electric", straight: `${feet} ft`, elbows }, at).verdict;
    expect(verdict(left - tolerance)).toBe("pass");
    expect(verdict(left + tolerance)).toBe("fail");
  });

  test("passes a run exactly on its limit, given in feet and inches", () => {
    const finding = ductLength(
      { fuel: "electric", straight: "27 ft 6 in", elbows: [{ radius: "4 in mitred", angle: "45°", count: 3 }] },
      { jurisdiction: { adopted: { irc: 2015 } } },
    );
    expect(finding).toMatchObject({ verdict: "pass", messageId: "within", margin: { text: "0 in" } });
  });

  test("says by how much a run is too long and shows the step", () => {
    const finding = ductLength({
      fuel: "naturalGas",
      straight: "28 ft",
      elbows: [{ radius: "4 in mitred", angle: "90°", count: 3 }],
    });
    expect(finding.message).toBe("The duct's developed length of 43 ft is 8 ft more than the 35 ft allowed.");
    expect(finding.workings.map(({ text }) => text)).toEqual([
      "developed = straight + fittings: 28 ft + 15 ft = 43 ft",
      "43 ft at most 35 ft: does not hold",
    ]);
    expect(finding.basis[0]).toMatchObject({ document: "IRC", edition: "2021", section: "M1502.4.6.1" });
    expect(finding.setAside.map(({ basis }) => basis.section)).toContain("G2439.7.4.1");
  });

  test("offers only changes that make the run pass", () => {
    const input = { fuel: "electric", straight: "28 ft", elbows: [{ radius: "4 in mitred", angle: "90°", count: 3 }] };
    const { remedies } = ductLength.try(input).finding!;
    expect(remedies.map(({ message }) => message)).toEqual([
      "Use 6 in smooth elbows in place of tighter ones.",
      "Use 8 in smooth elbows in place of tighter ones.",
      "Use 10 in smooth elbows in place of tighter ones.",
    ]);
  });

  test("takes the maker's figure in place of the code's, more or less", () => {
    const input = { fuel: "electric" as const, straight: "50 ft", elbows: [] };
    const citation = { document: "Installation sheet of the machine", section: "exhaust chart" };
    const maker = (value: string) => ({ maker: [{ limit: "venting/duct-length.base", value, citation }] });
    expect(ductLength(input, maker("64 ft"))).toMatchObject({ verdict: "pass", limit: { text: "64 ft" } });
    expect(ductLength({ ...input, straight: "30 ft" }, maker("25 ft")).verdict).toBe("fail");
  });

  test("takes a local amendment in place of the text it amends and says what was set aside", () => {
    const finding = ductLength(
      { fuel: "electric", straight: "22 ft", elbows: [] },
      {
        jurisdiction: {
          adopted: { irc: 2018 },
          local: [{ limit: "venting/duct-length.base", value: "20 ft", citation: { document: "City ordinance 12" } }],
        },
      },
    );
    expect(finding).toMatchObject({ verdict: "fail", basis: [{ document: "City ordinance 12", force: "local" }] });
    expect(finding.setAside[0]!.reason).toBe("amended locally by City ordinance 12 (as stated by the caller)");
  });

  test("asks for a closer measurement when the tolerance lies across the limit", () => {
    const finding = ductLength({ fuel: "electric", straight: "35 ft 1 in ± 3 in", elbows: [] });
    expect(finding).toMatchObject({ verdict: "review", messageId: "tooCloseToCall" });
    expect(finding.missing).toMatchObject([{ path: ["straight"] }]);
    expect(finding.missing[0]!.what).toMatch(/measure again, to better than ± 1 in$/);
  });

  test("points at what was not measured and at what cannot be read", () => {
    expect(ductLength({ fuel: "electric", straight: "9 ft" })).toMatchObject({
      verdict: "review",
      missing: [{ path: ["elbows"] }],
    });
    const read = ductLength.try({
      fuel: "electric",
      straight: "9 ft",
      elbows: [{ radius: "4 in mitred", angle: 90, count: 1 }],
    });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["elbows", 0, "angle"], code: "noUnit" });
  });

  test("refuses a limit that does not exist, rather than dropping it", () => {
    const at = { maker: [{ limit: "venting/duct-lenght.base", value: "64 ft", citation: { document: "Sheet" } }] };
    expect(ductLength.try({ fuel: "electric" }, at).fault?.issues[0]).toMatchObject({ code: "unknownLimit" });
  });
});

describe("developedLength", () => {
  test("never shrinks when an elbow is added", () => {
    const feet = fc.double({ min: 0, max: 60, noNaN: true }).map((value) => si(value, "ft"));
    const deduction = fc.record({ each: feet, count: fc.integer({ min: 0, max: 9 }) });
    fc.assert(
      fc.property(feet, fc.array(deduction, { maxLength: 8 }), deduction, (straight, some, extra) => {
        expect(developedLength(straight, [...some, extra])).toBeGreaterThanOrEqual(developedLength(straight, some));
      }),
    );
  });
});
