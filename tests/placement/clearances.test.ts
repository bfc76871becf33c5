import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { si } from "../../src/core/quantity/index.js";
import { clearances, openingNeeded } from "../../src/placement/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("placement/clearances.csv");

/** Plenty of room on every side. */
const roomy = {
  place: "closet" as const,
  gaps: { left: "40 in", right: "40 in", top: "90 in", behind: "40 in", front: "40 in" },
  closetDoor: "louvred" as const,
  workingSpace: { depth: "60 in", width: "60 in" },
};

const closet = {
  kind: "dryer" as const,
  fuel: "electric" as const,
  place: "closet" as const,
  body: { width: "27 in", depth: "30 in", height: "39 in" },
  opening: { width: "30 in", depth: "35 in", height: "84 in" },
  connections: [
    { what: "vent connection" as const, takes: "5 in" },
    { what: "power cord" as const, takes: "3 in" },
  ],
  closetDoor: "louvred" as const,
  workingSpace: { depth: "36 in", width: "40 in" },
};

describe("placement/clearances", () => {
  test.each(rows)("asks $needed_in in of $side for a $kind: $document $edition", (row) => {
    const at = { jurisdiction: { adopted: { [row.document!]: Number(row.edition) } } };
    const verdict = (inches: number) => {
      const size = `${inches} in`;
      const gaps = row.side!.startsWith("working") ? roomy.gaps : { ...roomy.gaps, [row.side!]: size };
      const workingSpace = {
        ...roomy.workingSpace,
        ...(row.side === "workingDepth" ? { depth: size } : row.side === "workingWidth" ? { width: size } : {}),
      };
      const found = clearances.try(
        {
          kind: row.kind,
          fuel: row.fuel,
          ...roomy,
          gaps,
          workingSpace,
          ...(row.overhead ? { overhead: row.overhead } : {}),
        },
        at,
      ).finding!;
      return found.parts.some((part) => part.verdict === "fail") ? "fail" : "pass";
    };
    const needed = Number(row.needed_in);
    expect(verdict(needed)).toBe("pass");
    expect(verdict(needed - tolerance)).toBe("fail");
  });

  test("says by how much a closet is too shallow, shows the sum, and offers what helps", () => {
    const finding = clearances(closet);
    expect(finding.message).toBe(
      "The opening's depth of 35 in is 1 in short: the machine and its free space need 36 in, with the vent connection behind.",
    );
    expect(finding.workings.map(({ text }) => text).slice(0, 2)).toEqual([
      "need = front + body + behind: 1 in + 30 in + 5 in = 36 in",
      "35 in at least 36 in: does not hold",
    ]);
    expect(finding.margin).toMatchObject({ text: "-1 in" });
    expect(finding.remedies.map(({ message }) => message)).toEqual([
      "Bring the vent connection down to 4 in behind the machine: recess the box, use an offset elbow or turn the outlet.",
    ]);
    expect(finding.remedies[0]!.changes).toEqual([
      { path: ["connections", 0, "takes"], value: { value: 4, unit: "in" } },
    ]);
  });

  test("passes an opening of exactly the needed size, given in other units", () => {
    const finding = clearances({ ...closet, opening: { width: "736.6 mm", depth: "3 ft", height: "3 ft 4 in" } });
    expect(finding).toMatchObject({ verdict: "pass", margin: { text: "0 in" } });
  });

  test("counts the deepest thing behind, not the sum, and never less than the texts ask", () => {
    const behind = (takes: readonly string[]) =>
      clearances({
        ...closet,
        opening: { ...closet.opening, depth: "48 in" },
        connections: takes.map((one) => ({ what: "water hoses" as const, takes: one })),
      }).workings[0]!.text;
    expect(behind(["3 in", "6 in", "2 in"])).toContain("6 in = 37 in");
    expect(behind([])).toContain("1 in = 32 in");
    expect(behind(["1/4 in"])).toContain("1 in = 32 in");
  });

  test("takes the maker's figure in place of habit and code, more or less, and keeps the code's working space", () => {
    const citation = { document: "Installation sheet of the machine" };
    const side = (value: string) => ({ maker: [{ limit: "placement/clearances.side", value, citation }] });
    const beside = { kind: "dryer" as const, fuel: "electric" as const, ...roomy };
    const tight = { ...beside, gaps: { ...roomy.gaps, left: "1/2 in" } };
    expect(clearances(tight, side("0 in")).verdict).toBe("pass");
    expect(clearances(tight, side("3 in"))).toMatchObject({ verdict: "fail", limit: { text: "3 in" } });
    const work = { maker: [{ limit: "placement/clearances.working-space", value: "20 in", citation }] };
    expect(clearances({ ...beside, workingSpace: { depth: "25 in", width: "60 in" } }, work).verdict).toBe("fail");
  });

  test("cannot tell a gap of 1 in ± 1/16 in from the 1 in needed", () => {
    const gaps = { ...roomy.gaps, left: "1 in ± 1/16 in" };
    const finding = clearances({ kind: "washer", fuel: "none", ...roomy, gaps });
    expect(finding).toMatchObject({ verdict: "review", messageId: "tooCloseToCall" });
    expect(finding.missing).toMatchObject([{ path: ["gaps", "left"] }]);
    const near = clearances({ kind: "washer", fuel: "none", ...roomy, gaps: { ...gaps, left: "1 1/32 in ± 1/16 in" } });
    expect(near.missing[0]!.what).toContain("to better than ± 0.0312 in");
  });

  test("adds the tolerances of opening and body as the root of the sum of squares", () => {
    const width = (opening: string, body: string) =>
      clearances({
        ...closet,
        opening: { width: opening, depth: "48 in", height: "84 in" },
        body: { ...closet.body, width: body },
      }).verdict;
    expect(width("29.06 in ± 0.03 in", "27 in ± 0.04 in")).toBe("pass");
    expect(width("29.04 in ± 0.03 in", "27 in ± 0.04 in")).toBe("review");
  });

  test("never calls a side it does not know clear", () => {
    const finding = clearances({ kind: "dryer", fuel: "electric", place: "room" });
    expect(finding.verdict).toBe("review");
    expect(finding.missing.map(({ path }) => path.join("."))).toEqual([
      "gaps.behind",
      "body.width",
      "body.height",
      "workingSpace.depth",
      "workingSpace.width",
    ]);
  });

  test("points at a value that cannot be read", () => {
    const read = clearances.try({ kind: "dryer", fuel: "electric", connections: [{ what: "power cord", takes: 3 }] });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["connections", 0, "takes"], code: "noUnit" });
  });

  test("more room never makes it worse", () => {
    const inches = fc.double({ min: 0, max: 8, noNaN: true });
    const rank = { fail: 0, review: 1, pass: 2, notApplicable: 2 };
    fc.assert(
      fc.property(inches, inches, inches, fc.double({ min: 0, max: 4, noNaN: true }), (left, top, behind, more) => {
        const verdict = (extra: number) =>
          clearances({
            kind: "dryer",
            fuel: "electric",
            ...roomy,
            gaps: {
              ...roomy.gaps,
              left: `${(left + extra).toFixed(4)} in`,
              top: `${(top + extra).toFixed(4)} in`,
              behind: `${(behind + extra).toFixed(4)} in`,
            },
          }).verdict;
        expect(rank[verdict(more)]).toBeGreaterThanOrEqual(rank[verdict(0)]);
      }),
    );
  });
});

describe("openingNeeded", () => {
  test("is body and both spaces", () => {
    expect(openingNeeded(si(27, "in"), si(1, "in"), si(2, "in"))).toBeCloseTo(si(30, "in"), 12);
  });
});
