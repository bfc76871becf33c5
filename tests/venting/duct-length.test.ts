import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { si } from "../../src/core/quantity/index.js";
import { codeLength, developedLength, ductLength, furtherElbows, hydraulicLength } from "../../src/venting/index.js";
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
      "Use 6 in smooth elbows in place of the others.",
      "Use 8 in smooth elbows in place of the others.",
      "Use 10 in smooth elbows in place of the others.",
      "Shorten the straight duct to 20 ft.",
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
    expect(finding.missing[0]!.what).toMatch(/measure again, to better than ± 1 in, with a tape pulled tight$/);
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

  test("takes the maker's chart in place of the table, more or less", () => {
    const chart = [
      { elbows: 0, straight: "64 ft" },
      { elbows: 2, straight: "44 ft" },
      { elbows: 4, straight: "27 ft" },
    ];
    const run = (straight: string, elbows: number, angle = "90°") =>
      ductLength({ fuel: "electric", straight, elbows: [{ radius: "4 in mitred", angle, count: elbows }], chart });
    expect(run("44 ft", 2)).toMatchObject({ verdict: "pass", messageId: "withinChart" });
    expect(run("44 ft 1 in", 2)).toMatchObject({ verdict: "fail", messageId: "overChart" });
    // a count between two rows takes the stricter one
    expect(run("27 ft", 3)).toMatchObject({ verdict: "pass", limit: { text: "27 ft" } });
    expect(run("28 ft", 3).verdict).toBe("fail");
    expect(run("1 ft", 5)).toMatchObject({ verdict: "fail", messageId: "beyondChart" });
    expect(run("44 ft", 4, "45°").messageId).toBe("withinChart");
  });

  test("counts two elbows up to 45° of a chart as one, an odd one as a whole, whatever the order of its rows", () => {
    const chart = [
      { elbows: 2, straight: "44 ft" },
      { elbows: 0, straight: "64 ft" },
      { elbows: 1, straight: "54 ft" },
    ];
    const allowed = (...counts: [angle: string, count: number][]) =>
      ductLength({
        fuel: "electric",
        straight: "10 ft",
        elbows: counts.map(([angle, count]) => ({ radius: "4 in mitred" as const, angle, count })),
        chart,
      }).limit?.text;
    expect(allowed()).toBe("64 ft");
    expect(allowed(["45°", 1])).toBe("54 ft");
    expect(allowed(["45°", 2])).toBe("54 ft");
    expect(allowed(["90°", 1], ["45°", 1])).toBe("44 ft");
    expect(allowed(["90°", 1], ["45°", 2])).toBe("44 ft");
    expect(allowed(["90°", 1], ["45°", 3])).toBeUndefined();
  });

  test("says by how much a run passes the chart, ends at the chart's last row, and cites how elbows are counted", () => {
    const run = (straight: string, count: number) =>
      ductLength({
        fuel: "electric",
        straight,
        elbows: [{ radius: "4 in mitred", angle: "90°", count }],
        chart: [
          { elbows: 2, straight: "20 ft" },
          { elbows: 1, straight: "30 ft" },
        ],
      });
    expect(run("24 ft", 2).message).toBe(
      "The 24 ft of straight duct with 2 elbows is 4 ft more than the 20 ft of the dryer maker's chart.",
    );
    expect(run("9 ft", 3).message).toBe("The dryer maker's chart ends at 2 elbows; this run has 3.");
    const bare = ductLength({ fuel: "electric", straight: "9 ft", elbows: [] });
    expect(run("9 ft", 1).basis.map(({ force }) => force)).toContain("practice");
    expect(bare.basis.map(({ force }) => force)).not.toContain("practice");
    expect(run("24 ft", 2).remedies.map(({ message }) => message)).toEqual([
      "Take out one 90° elbow.",
      "Shorten the straight duct to 20 ft.",
    ]);
  });

  test("keeps a local length beside the maker's chart", () => {
    const local = [
      { limit: "venting/duct-length.base", value: "20 ft", citation: { document: "City ordinance 12" } },
    ] as const;
    const input = {
      fuel: "electric" as const,
      straight: "30 ft",
      elbows: [],
      chart: [{ elbows: 0, straight: "64 ft" }],
    };
    expect(ductLength(input, { jurisdiction: { local: [...local] } })).toMatchObject({
      verdict: "fail",
      messageId: "tooLong",
    });
  });

  test("lets a listed power ventilator set the length where the text has the rule", () => {
    const input = {
      fuel: "electric" as const,
      straight: "60 ft",
      elbows: [{ radius: "4 in mitred" as const, angle: "90°", count: 2 }],
      ventilator: { listed: true, longest: "70 ft" },
    };
    expect(ductLength(input)).toMatchObject({ verdict: "pass", messageId: "withinVentilator" });
    const before = ductLength(input, { jurisdiction: { adopted: { irc: 2012 } } });
    expect(before).toMatchObject({ verdict: "fail", messageId: "tooLong" });
    expect(before.assumptions.join()).toMatch(/no rule for power ventilators/);
  });

  test("asks for what is not known of a power ventilator, each by its own path", () => {
    const asked = (ventilator: object) => {
      const { finding } = ductLength.try({ fuel: "electric", straight: "60 ft", elbows: [], ventilator });
      expect(finding).toMatchObject({ verdict: "review", messageId: "ventilatorUnknown" });
      return finding!.missing.map(({ path }) => path.join("."));
    };
    expect(asked({})).toEqual(["ventilator.listed", "ventilator.longest"]);
    expect(asked({ listed: true })).toEqual(["ventilator.longest"]);
    expect(asked({ longest: "70 ft" })).toEqual(["ventilator.listed"]);
  });

  test("says by how much a run passes the ventilator's length, and on which sheet that rests", () => {
    const run = (straight: string) =>
      ductLength({ fuel: "electric", straight, elbows: [], ventilator: { listed: true, longest: "120 ft" } });
    expect(run("140 ft").message).toMatch(/of 140 ft is 20 ft more than the 120 ft/);
    expect(run("120 ft")).toMatchObject({ verdict: "pass", messageId: "withinVentilator" });
    const plain = ductLength({ fuel: "electric", straight: "9 ft", elbows: [] });
    expect(run("60 ft").basis.map(({ force }) => force)).toContain("maker");
    expect(plain.basis.map(({ force }) => force)).not.toContain("maker");
    // what is assumed of a ventilator or of an approval is not said where there is none
    expect(plain.assumptions.join()).not.toMatch(/ventilator|approval/);
    expect(run("60 ft").assumptions.join()).not.toMatch(/no rule for power ventilators/);
  });

  test("says nothing of room where none is left, nor of elbows where none fits", () => {
    const said = (straight: string) =>
      ductLength({ fuel: "electric", straight, elbows: [] }).parts.map(({ messageId }) => messageId);
    expect(said("35 ft")).toEqual(["within"]);
    expect(said("34 ft 9 in")).toEqual(["within"]); // 3 in is less than any fitting of the table
    expect(said("34 ft 3 in")).toEqual(["within", "room"]); // 9 in is one 45° elbow of 10 in radius
    expect(said("36 ft")).toEqual(["tooLong"]);
  });

  test("shortens to the whole inch below, in feet or in metres, and takes out an elbow where there are two", () => {
    const elbows = [
      { radius: "10 in smooth" as const, angle: "45°", count: 3 },
      { radius: "10 in smooth" as const, angle: "90°", count: 2 },
    ];
    // 3 · 9 in + 2 · 18 in = 63 in of fittings leave 29 ft 9 in of 35 ft
    const remedies = (straight: string, units: "us" | "si" = "us") =>
      ductLength({ fuel: "electric", straight, elbows }, { units }).remedies;
    expect(remedies("30 ft").map(({ message }) => message)).toEqual([
      "Take out one 90° elbow.",
      "Shorten the straight duct to 29 ft 9 in.",
    ]);
    expect(remedies("30 ft")[0]!.changes).toEqual([{ path: ["elbows", 1, "count"], value: 1 }]);
    const { value, unit } = remedies("9.2 m", "si").at(-1)!.changes[0]!.value as { value: number; unit: string };
    expect(unit).toBe("m");
    expect(value).toBeCloseTo(29.75 * 0.3048, 9);
  });

  test("says how many more elbows of each kind fit", () => {
    const { parts } = ductLength({
      fuel: "electric",
      straight: "18 ft",
      elbows: [{ radius: "4 in mitred", angle: "90°", count: 2 }],
    });
    expect(parts[1]!.message).toBe(
      "Left over: 7 ft, enough for one of these: 1 of 4 in mitred 90°, or 2 of 4 in mitred 45°, or 4 of 6 in smooth 90°, or 7 of 6 in smooth 45°, or 4 of 8 in smooth 90°, or 7 of 8 in smooth 45°, or 4 of 10 in smooth 90°, or 9 of 10 in smooth 45°.",
    );
  });

  test("deducts another angle as the next larger and says that this is habit", () => {
    const finding = ductLength({
      fuel: "electric",
      straight: "30 ft",
      elbows: [{ radius: "4 in mitred", angle: "60°", count: 1 }],
    });
    expect(finding).toMatchObject({ verdict: "pass", measured: { text: "35 ft" } });
    expect(finding.basis.map(({ force }) => force)).toContain("practice");
  });

  test("assumes the authority's approval for a maker's length under the uniform code", () => {
    const finding = ductLength(
      { fuel: "electric", straight: "30 ft", elbows: [] },
      {
        jurisdiction: { adopted: { umc: 2021 } },
        maker: [{ limit: "venting/duct-length.base", value: "40 ft", citation: { document: "Sheet" } }],
      },
    );
    expect(finding.verdict).toBe("pass");
    expect(finding.assumptions.join()).toMatch(/approval is assumed/);
  });

  test("refuses a limit that does not exist, rather than dropping it", () => {
    const at = { maker: [{ limit: "venting/duct-lenght.base", value: "64 ft", citation: { document: "Sheet" } }] };
    expect(ductLength.try({ fuel: "electric" }, at).fault?.issues[0]).toMatchObject({ code: "unknownLimit" });
  });
});

describe("developedLength", () => {
  test("never shrinks when an elbow is added", () => {
    const feet = fc.double({ min: 0, max: 60, noNaN: true }).map((value) => si(value, "ft"));
    const deduction = fc.record({ each: feet.map(codeLength), count: fc.integer({ min: 0, max: 9 }) });
    fc.assert(
      fc.property(feet, fc.array(deduction, { maxLength: 8 }), deduction, (straight, some, extra) => {
        expect(developedLength(straight, [...some, extra])).toBeGreaterThanOrEqual(developedLength(straight, some));
      }),
    );
  });
});

describe("traps", () => {
  const run = (straight: string, count: number, at: Parameters<typeof ductLength>[1]) =>
    ductLength({ fuel: "electric", straight, elbows: [{ radius: "4 in mitred", angle: "90°", count }] }, at);

  test("the uniform code's 14 ft has two elbows in it: taking 2 ft for each of four gives 6 ft, the answer is 10 ft", () => {
    const at = { jurisdiction: { adopted: { umc: 2012 } } } as const;
    expect(run("10 ft", 4, at).verdict).toBe("pass");
    expect(run("10 ft 1 in", 4, at).verdict).toBe("fail");
  });

  test("the flat 5 ft and 2.5 ft are the rule of 2006 only: 35 − 3·5 = 20 ft is wrong for long-radius elbows in 2021", () => {
    const smooth = { fuel: "electric" as const, elbows: [{ radius: "6 in smooth" as const, angle: "90°", count: 3 }] };
    const later = ductLength({ ...smooth, straight: "29 ft 9 in" }, { jurisdiction: { adopted: { irc: 2021 } } });
    expect(later).toMatchObject({ verdict: "pass", margin: { text: "0 in" } });
    const early = ductLength({ ...smooth, straight: "10 ft 1 in" }, { jurisdiction: { adopted: { irc: 2006 } } });
    expect(early.verdict).toBe("fail");
  });

  test("the base length goes by text and edition: 25, 35 or 14 ft, never one constant", () => {
    const base = (adopted: Record<string, number>) => run("5 ft", 1, { jurisdiction: { adopted } }).limit!.text;
    expect([base({ irc: 2006 }), base({ irc: 2021 }), base({ umc: 2009 })]).toEqual(["25 ft", "35 ft", "14 ft"]);
  });

  test("the code's 5 ft is not what the air feels: a single mitre is 17 ft of duct at 150 cfm", () => {
    // K 1.2 in a 4 in duct, roughness 0.09 mm, standard air, 150 cfm: 17.262 ft
    const felt = hydraulicLength(1.2, si(4, "in"), 0.023172);
    expect(felt / 0.3048).toBeCloseTo(17.262, 2);
    expect(felt / 0.3048).toBeGreaterThan(3 * 5);
  });
});

describe("furtherElbows", () => {
  test("fills what is left and never more", () => {
    const metres = fc.double({ min: 0.01, max: 60, noNaN: true });
    fc.assert(
      fc.property(metres, metres, (left, each) => {
        const count = furtherElbows(codeLength(si(left, "m")), codeLength(si(each, "m")));
        expect(count * each).toBeLessThanOrEqual(left * (1 + 1e-8));
        expect((count + 1) * each).toBeGreaterThan(left * (1 - 1e-8));
      }),
    );
    expect(furtherElbows(codeLength(si(-1, "m")), codeLength(si(1, "m")))).toBe(0);
  });
});
