import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { drainPan } from "../../src/plumbing/index.js";
import { stockPan } from "../../src/plumbing/tables/drain.js";
import { reference } from "../references.js";
import { printedIn, valueIn } from "./governing.js";

const { rows, tolerance } = reference("plumbing/drain-pan.csv");
const good = {
  kind: "washer",
  roomBelow: true,
  pan: true,
  depth: "2.5 in",
  outlet: "1 in",
  ends: "floorDrain",
} as const;

describe("plumbing/drain-pan", () => {
  test.each(rows)("$limit $document $edition $when: $value $unit", (row) => {
    expect(Math.abs(valueIn(drainPan.limits, row)! - printedIn(row)!)).toBeLessThanOrEqual(tolerance);
  });

  test("exactly on the usual depth and outlet passes", () => {
    expect(drainPan({ ...good, depth: "2 in" })).toMatchObject({ verdict: "pass" });
    expect(drainPan({ ...good, depth: "1 15/16 in" })).toMatchObject({ verdict: "fail", messageId: "tooShallow" });
    expect(drainPan({ ...good, outlet: "3/4 in" })).toMatchObject({ verdict: "fail", messageId: "outletNarrow" });
    expect(stockPan).toEqual({ depth_in: 2.5, outlet_in: 1 });
  });

  test("trap: the code's water-heater pan, 1 1/2 in deep with a 3/4 in outlet, is not a washer's", () => {
    const finding = drainPan({ ...good, depth: "1.5 in", outlet: "0.75 in" });
    expect(finding.message).toBe(
      "The pan is 1 1/2 in deep; 2 in or more is usual. The pan's outlet is 3/4 in; 1 in or more is usual.",
    );
    expect(finding.workings.map(({ text }) => text)).toEqual([
      "1 1/2 in at least 2 in: does not hold",
      "3/4 in at least 1 in: does not hold",
    ]);
    expect(finding.basis[0]).toMatchObject({ force: "practice", confirmed: "practice" });
    expect(finding.remedies).toHaveLength(1);
  });

  test("a local amendment asks for a pan on a slab too", () => {
    const local = [{ limit: "plumbing/drain-pan.required", value: true, citation: { document: "Ordinance 3" } }];
    const input = { kind: "washer", roomBelow: false, pan: false } as const;
    expect(drainPan(input).verdict).toBe("pass");
    expect(drainPan(input, { jurisdiction: { local } })).toMatchObject({ verdict: "fail", messageId: "panCalledFor" });
  });

  test("asks for what was not looked at or not measured closely enough", () => {
    expect(drainPan({ kind: "washer", roomBelow: true, pan: true }).missing.map(({ path }) => path[0])).toEqual([
      "depth",
      "outlet",
      "ends",
    ]);
    expect(drainPan({ ...good, depth: "2 in ± 1/4 in" })).toMatchObject({
      verdict: "review",
      messageId: "tooCloseToCall",
    });
    expect(drainPan.try({ ...good, depth: 2 }).fault?.issues[0]).toMatchObject({ path: ["depth"], code: "noUnit" });
  });

  test("law: a deeper pan never does worse", () => {
    const sixteenths = fc.integer({ min: 1, max: 90 });
    const verdict = (n: number) => drainPan({ ...good, depth: `${n}/16 in` }).verdict;
    fc.assert(
      fc.property(sixteenths, sixteenths, (n, more) => {
        if (verdict(n) === "pass") expect(verdict(n + more)).toBe("pass");
      }),
      { numRuns: 40 },
    );
  });
});
