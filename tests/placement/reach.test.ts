import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { reach } from "../../src/placement/index.js";
import { accessFigures } from "../../src/placement/tables/reach.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("placement/reach.csv");

const good = {
  kind: "washer" as const,
  standard: "ADA 2010" as const,
  loads: "front" as const,
  openings: ["20 in"],
  controls: { lowest: "20 in", highest: "40 in" },
  floor: { across: "60 in", out: "60 in" },
  force: "4 lbf",
};

describe("the table of figures", () => {
  test("is the printed one, transcribed a second time", () => {
    const printed = (standard: keyof typeof accessFigures) =>
      Object.values(accessFigures[standard]).flatMap((figure) => (typeof figure === "string" ? [] : [figure.printed]));
    expect(printed("ADA 2010")).toEqual([36, 15, 36, 15, 48, 46, 30, 48, 5]);
    expect(printed("A117.1-2009")).toEqual([36, 15, 34, 15, 48, 46, 30, 48, 5]);
  });
});

describe("placement/reach", () => {
  test.each(rows)("$standard, $what: from $least to $most", (row) => {
    const verdict = (value: number) => {
      const inches = `${value} in`;
      const changed = {
        top: { loads: "top", openings: [inches] },
        front: { openings: [inches] },
        controls: { controls: { lowest: inches, highest: inches } },
        over: { over: "20 in", controls: { lowest: "20 in", highest: inches } },
        across: { floor: { across: inches, out: "60 in" } },
        out: { floor: { across: "60 in", out: inches } },
        force: { force: `${value} lbf` },
      }[row.what!];
      return reach.try({ ...good, standard: row.standard, ...changed }).finding!.verdict;
    };
    if (row.most !== "") {
      expect(verdict(Number(row.most))).toBe("pass");
      expect(verdict(Number(row.most) + tolerance)).toBe("fail");
    }
    if (row.least !== "") {
      expect(verdict(Number(row.least))).toBe("pass");
      expect(verdict(Number(row.least) - tolerance)).toBe("fail");
    }
  });

  test("says which edition it went by, and where sources of one disagree", () => {
    const finding = reach({ ...good, standard: "A117.1-2009", openings: ["35 in"] });
    expect(finding.message).toBe("Bottom of the opening: 35 in, 1 in above the 34 in asked.");
    const basis = finding.basis.find(({ section, note }) => section === "611.4" && note !== undefined)!;
    expect(basis).toMatchObject({ document: "ICC A117.1", edition: "2009", confirmed: "memory" });
    expect(reach({ ...good, openings: ["35 in"] }).verdict).toBe("pass");
  });

  test("a pedestal helps where the opening is too low, and is offered only where the controls stay in reach", () => {
    const low = reach({ ...good, openings: ["13 in"] });
    expect(low.remedies.map(({ message }) => message)).toEqual(["Set the machine on a pedestal of 2 in."]);
    expect(reach({ ...good, openings: ["13 in"], controls: { lowest: "20 in", highest: "47 in" } }).remedies).toEqual(
      [],
    );
  });

  test("less may be reached over something deep, and nothing beyond 24 in", () => {
    const over = (depth: string, highest: string) =>
      reach({ ...good, over: depth, controls: { lowest: "20 in", highest } }).verdict;
    expect(over("10 in", "48 in")).toBe("pass");
    expect(over("10 1/16 in", "48 in")).toBe("fail");
    expect(over("24 in", "46 in")).toBe("pass");
    expect(over("24 1/16 in", "40 in")).toBe("fail");
  });

  test("does not apply where no document asks for it", () => {
    const { standard: _none, ...asked } = good;
    expect(reach(asked).verdict).toBe("notApplicable");
  });

  test("cannot tell where a tolerance decides, asks for what is missing, points at the unreadable", () => {
    expect(reach({ ...good, force: "4.9 lbf ± 0.5 lbf" })).toMatchObject({
      verdict: "review",
      missing: [{ path: ["force"] }],
    });
    expect(reach({ kind: "range", standard: "ADA 2010" }).missing.map(({ path }) => path)).toEqual([
      ["controls"],
      ["floor"],
      ["force"],
    ]);
    const read = reach.try({ ...good, openings: ["20 in", "36"] });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["openings", 1], code: "noUnit" });
  });

  test("an opening between two that pass passes", () => {
    const tenths = fc.integer({ min: 0, max: 600 });
    fc.assert(
      fc.property(tenths, tenths, fc.double({ min: 0, max: 1, noNaN: true }), (a, b, share) => {
        const verdict = (value: number) => reach({ ...good, openings: [`${value.toFixed(4)} in`] }).verdict;
        if (verdict(a / 10) === "pass" && verdict(b / 10) === "pass")
          expect(verdict((a + share * (b - a)) / 10)).toBe("pass");
      }),
    );
  });
});
