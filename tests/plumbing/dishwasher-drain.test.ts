import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dishwasherDrain } from "../../src/plumbing/index.js";
import { underCounter_in } from "../../src/plumbing/tables/drain.js";
import { reference } from "../references.js";
import { printedIn, valueIn } from "./governing.js";

const { rows, tolerance } = reference("plumbing/dishwasher-drain.csv");
const loop = {
  kind: "dishwasher",
  airGap: false,
  loop: "32 in",
  inlet: "18 in",
  fastened: true,
  trap: "1.5 in",
  joins: "tailpieceWye",
} as const;
const uniform = { jurisdiction: { adopted: { upc: 2021 } } } as const;

describe("plumbing/dishwasher-drain", () => {
  test.each(rows)("$limit $document $edition: $value $unit", (row) => {
    expect(Math.abs(valueIn(dishwasherDrain.limits, row)! - printedIn(row)!)).toBeLessThanOrEqual(tolerance);
  });

  test("trap: a high loop passes under one code family and not under the other", () => {
    expect(dishwasherDrain(loop).verdict).toBe("pass");
    expect(dishwasherDrain(loop, uniform)).toMatchObject({ verdict: "fail", messageId: "gapCalledFor" });
    expect(dishwasherDrain({ ...loop, airGap: true }, uniform).verdict).toBe("pass");
  });

  test("exactly at the trade's height and at the joint passes", () => {
    expect(dishwasherDrain({ ...loop, loop: "20 in" }).verdict).toBe("pass");
    expect(dishwasherDrain({ ...loop, loop: "19 15/16 in" }).messageId).toBe("loopLow");
    expect(dishwasherDrain({ ...loop, loop: "24 in", inlet: "24 in" }).verdict).toBe("pass");
  });

  test("trap: a loop high above the floor but below the joint still lets the sink into the machine", () => {
    const finding = dishwasherDrain({ ...loop, loop: "22 in", inlet: "26 in" });
    expect(finding).toMatchObject({ verdict: "fail", messageId: "loopBelowInlet" });
    expect(finding.message).toBe(
      "The loop's top, 22 in, is below the 26 in where the hose joins: the sink drains into the machine.",
    );
    expect(finding.workings.map(({ text }) => text)).toEqual([
      "22 in at least 20 in: holds",
      "22 in at least 26 in: does not hold",
      "1 1/2 in at least 1 1/2 in: holds",
    ]);
    expect(finding.remedies.map(({ message }) => message)).toEqual([
      "Raise the hose to 33 in or more, right under the counter, and fasten it there.",
      "Fit a listed air-gap fitting beside the sink.",
    ]);
    expect(underCounter_in).toBe(33);
  });

  test("trap: the plug in a new disposer's port", () => {
    expect(dishwasherDrain({ ...loop, joins: "disposer", plugOut: false }).messageId).toBe("plugIn");
    expect(dishwasherDrain({ ...loop, joins: "disposer" })).toMatchObject({
      verdict: "review",
      missing: [{ path: ["plugOut"] }],
    });
  });

  test("asks for a closer measurement, and points at what cannot be read", () => {
    expect(dishwasherDrain({ ...loop, loop: "20 in ± 1 in" }).messageId).toBe("tooCloseToCall");
    expect(dishwasherDrain.try({ ...loop, loop: 32 }).fault?.issues[0]).toMatchObject({
      path: ["loop"],
      code: "noUnit",
    });
    expect(dishwasherDrain({ kind: "dishwasher" }).missing.map(({ path }) => path[0])).toEqual([
      "airGap",
      "trap",
      "joins",
    ]);
  });

  test("law: a higher loop never does worse", () => {
    const inches = fc.integer({ min: 0, max: 40 });
    fc.assert(
      fc.property(inches, fc.integer({ min: 0, max: 20 }), inches, (height, more, inlet) => {
        const at = (n: number) => dishwasherDrain({ ...loop, loop: `${n} in`, inlet: `${inlet} in` }).verdict;
        if (at(height) === "pass") expect(at(height + more)).toBe("pass");
      }),
      { numRuns: 40 },
    );
  });
});
