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

describe("what is not known, and what is assumed instead", () => {
  const { workingSpace: _, closetDoor: _d, opening: _o, body: _b, ...closetOnly } = closet;
  const finding = (change: object) =>
    clearances.try({ ...closetOnly, closetDoor: "louvred", workingSpace: closet.workingSpace, ...change }).finding!;
  const asked = (change: object) => finding(change).missing.map(({ path }) => path.join("."));

  // One measurement left out at a time: the finding asks for that one, by its path, and for nothing else.
  test.each([
    [{ opening: { ...closet.opening, depth: "37 in" }, body: { depth: "30 in", height: "39 in" } }, ["body.width"]],
    [{ opening: { ...closet.opening, depth: "37 in" }, body: { depth: "30 in", width: "27 in" } }, ["body.height"]],
    [{ opening: { ...closet.opening, depth: "37 in" }, body: { width: "27 in", height: "39 in" } }, ["body.depth"]],
    [{ body: closet.body, opening: { depth: "37 in", height: "84 in" } }, ["opening.width"]],
    [{ body: closet.body, opening: { depth: "37 in", width: "30 in" } }, ["opening.height"]],
    [{ body: closet.body, opening: { width: "30 in", height: "84 in" } }, ["opening.depth"]],
    [{ gaps: { left: "5 in", top: "15 in", behind: "6 in" } }, ["gaps.right"]],
    [{ gaps: { right: "5 in", top: "15 in", behind: "6 in" } }, ["gaps.left"]],
    [{ gaps: { left: "5 in", right: "5 in", behind: "6 in" }, body: closet.body }, ["opening.height"]],
    [{ place: "room", gaps: { left: "5 in", right: "5 in", top: "15 in" } }, ["gaps.behind"]],
  ])("%o asks for %j", (change, paths) => {
    expect(finding(change).verdict).toBe("review");
    expect(asked(change)).toEqual(paths);
  });

  test("says what it assumes of things behind the machine, for laundry machines and only where none were listed", () => {
    const assumed = (kind: string, connections?: object[]) =>
      clearances
        .try({ ...roomy, kind, fuel: "electric", ...(connections ? { connections } : {}) })
        .finding!.assumptions.join();
    for (const kind of ["dryer", "washer", "stack"]) {
      expect([kind, assumed(kind)]).toEqual([kind, expect.stringMatching(/customary allowance/)]);
      expect([kind, assumed(kind, [])]).toEqual([kind, expect.not.stringMatching(/customary allowance/)]);
    }
    expect(assumed("range")).not.toMatch(/customary allowance/);
    expect(assumed("refrigerator")).not.toMatch(/customary allowance/);
  });

  test("says what it assumes above a cooking top, and only there", () => {
    const assumed = (kind: string, overhead?: string) =>
      clearances
        .try({ ...roomy, kind, fuel: "electric", ...(overhead ? { overhead } : {}) })
        .finding!.assumptions.join();
    for (const kind of ["range", "cooktop"]) {
      expect(assumed(kind)).toMatch(/bare combustible material is assumed/);
      expect(assumed(kind, "protected")).not.toMatch(/bare combustible/);
    }
    expect(assumed("dryer")).not.toMatch(/bare combustible/);
  });

  test("shows the sum across and upwards: the body, twice the side, the top", () => {
    const texts = clearances(closet).workings.map(({ text }) => text);
    const side = clearances({ ...closet, gaps: { left: "0 in", right: "0 in" } }).parts.find(
      ({ data }) => data.side?.text === "on the left",
    )!.data.need!.text;
    const each = Number.parseFloat(side);
    expect(texts).toContain(`need = body + 2 * side: 27 in + 2 * ${side} = ${27 + 2 * each} in`);
    const top = clearances({ ...closet, gaps: { top: "0 in" } }).parts.find(({ data }) => data.side?.text === "above")!
      .data.need!.text;
    expect(texts.some((text) => text.startsWith(`need = body + top: 39 in + ${top} = `))).toBe(true);
  });

  test("names the connection that needs the room behind only where it needs more than the text", () => {
    const tight = (takes: string) =>
      clearances({
        ...closet,
        gaps: { behind: "1/4 in" },
        connections: [{ what: "vent connection", takes }],
      }).parts.find(({ messageId, data }) => messageId === "tight" && data.side?.text === "behind")!.message;
    expect(tight("5 in")).toBe(
      "Only 1/4 in is free behind, 4 3/4 in less than the 5 in needed for the vent connection.",
    );
    const space = clearances({ ...closet, workingSpace: { depth: "20 in", width: "40 in" } });
    expect(space.parts.map(({ message }) => message)).toContain(
      "Only 20 in of level floor is free in front of it, measured outwards: 10 in less than the 30 in needed.",
    );
  });
});
