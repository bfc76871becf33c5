import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { backflow } from "../../src/plumbing/index.js";
import { reference } from "../references.js";
import { printedIn, valueIn } from "./governing.js";

const { rows, tolerance } = reference("plumbing/backflow.csv");
const gap = { kind: "dishwasher", device: "airGap", openHose: false } as const;
const check = (opening: string, height: string, nearWall: boolean) =>
  backflow({ ...gap, opening, gap: height, nearWall });

describe("plumbing/backflow", () => {
  test.each(rows)("$limit $document $edition $when: $value $unit", (row) => {
    expect(Math.abs(valueIn(backflow.limits, row)! - printedIn(row)!)).toBeLessThanOrEqual(tolerance);
  });

  test("exactly on the printed gap passes; between rows the next larger opening counts", () => {
    expect(check("0.5 in", "1 in", false).verdict).toBe("pass");
    expect(check("0.5 in", "15/16 in", false).verdict).toBe("fail");
    expect(check("0.6 in", "1.5 in", false).verdict).toBe("pass");
    expect(check("0.6 in", "1.25 in", false).verdict).toBe("fail");
  });

  test("above the last row two openings, near a wall three, with the step", () => {
    const finding = check("1.25 in", "3 in", true);
    expect(finding.message).toBe("The air gap is 3 in; 3 3/4 in is asked for.");
    expect(finding.workings.map(({ text }) => text)).toEqual([
      "least = times * opening: 3 * 1 1/4 in = 3 3/4 in",
      "3 in at least 3 3/4 in: does not hold",
    ]);
    expect(check("1.25 in", "2.5 in", false).verdict).toBe("pass");
  });

  test("trap: two openings is not enough for the smallest ones, which have a floor of 1 in", () => {
    // Twice a 3/8 in opening would be 3/4 in.
    expect(check("0.375 in", "0.75 in", false).verdict).toBe("fail");
    expect(check("0.375 in", "1 in", false).verdict).toBe("pass");
  });

  test("trap: the machine's own protection does not cover a loose hose on the same tap", () => {
    expect(backflow({ kind: "washer", device: "integral", openHose: true }).messageId).toBe("looseHose");
    expect(backflow({ kind: "washer", device: "hoseVacuumBreaker", openHose: true }).verdict).toBe("pass");
  });

  test("trap: a valve past an atmospheric vacuum breaker defeats it however high it stands", () => {
    const base = { kind: "dishwasher", device: "atmosphericVacuumBreaker", openHose: false } as const;
    expect(backflow({ ...base, breakerRise: "6 in", valvePast: false }).verdict).toBe("pass");
    expect(backflow({ ...base, breakerRise: "5.9 in", valvePast: false }).messageId).toBe("breakerLow");
    expect(backflow({ ...base, breakerRise: "30 in", valvePast: true }).messageId).toBe("breakerShut");
  });

  test("asks for what is missing or too close, and points at what cannot be read", () => {
    expect(backflow(gap).missing.map(({ path }) => path[0])).toEqual(["opening", "gap", "nearWall"]);
    expect(check("0.5 in", "1 in ± 1/8 in", false).messageId).toBe("tooCloseToCall");
    expect(backflow.try({ ...gap, gap: 1 }).fault?.issues[0]).toMatchObject({ path: ["gap"], code: "noUnit" });
  });

  test("laws: a larger gap never does worse, a larger opening or a wall never better", () => {
    const tenths = fc.integer({ min: 1, max: 20 });
    const rank = { pass: 0, notApplicable: 0, review: 1, fail: 2 } as const;
    const at = (opening: number, height: number, wall: boolean) =>
      rank[check(`${opening / 10} in`, `${height / 10} in`, wall).verdict];
    fc.assert(
      fc.property(tenths, tenths, tenths, (opening, height, more) => {
        expect(at(opening, height + more, false)).toBeLessThanOrEqual(at(opening, height, false));
        expect(at(opening + more, height, false)).toBeGreaterThanOrEqual(at(opening, height, false));
        expect(at(opening, height, true)).toBeGreaterThanOrEqual(at(opening, height, false));
      }),
      { numRuns: 40 },
    );
  });
});
