import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { gasPressure } from "../../src/plumbing/index.js";
import { reference } from "../references.js";
import { printedIn, valueIn } from "./governing.js";

const { rows, tolerance } = reference("plumbing/gas-pressure.csv");
const good = {
  fuel: "naturalGas",
  supplied: "naturalGas",
  staticPressure: "7.2 in w.c.",
  flowPressure: "6.5 in w.c.",
  manifoldPressure: "3.5 in w.c.",
  plateManifold: "3.5 in w.c.",
} as const;
const check = (change: object, at?: Parameters<typeof gasPressure>[1]) => gasPressure({ ...good, ...change }, at);

describe("plumbing/gas-pressure", () => {
  test.each(rows)("$limit $when: $value $unit", (row) => {
    expect(Math.abs(valueIn(gasPressure.limits, row)! - printedIn(row)!)).toBeLessThanOrEqual(tolerance);
  });

  test("exactly on the limits passes, in inches of water", () => {
    expect(check({ flowPressure: "5 in w.c." }).verdict).toBe("pass");
    expect(check({ flowPressure: "4.9 in w.c." })).toMatchObject({ verdict: "fail", messageId: "tooLow" });
    expect(check({ staticPressure: "14 in w.c." }).verdict).toBe("pass");
    expect(check({ manifoldPressure: "3.8 in w.c." }).verdict).toBe("pass");
    expect(check({ manifoldPressure: "3.1 in w.c." }).messageId).toBe("manifoldOffPlate");
  });

  test("says what a small branch does, with the steps", () => {
    const finding = check({ flowPressure: "4.1 in w.c.", manifoldPressure: "2.9 in w.c." });
    expect(finding.message).toBe(
      "Burning full, the inlet has only 4.1 inH2O; 5 inH2O is asked for. The manifold has 2.9 inH2O, the plate says 3.5 inH2O: 0.6 inH2O apart, where 0.3 inH2O is the most.",
    );
    expect(finding.workings.map(({ text }) => text)).toEqual([
      "7.2 inH2O at most 14 inH2O: holds",
      "4.1 inH2O at least 5 inH2O: does not hold",
      "4.1 inH2O at most 7.2 inH2O: holds",
      "off = abs(manifold - plate): abs(2.9 inH2O - 3.5 inH2O) = 0.6 inH2O",
      "0.6 inH2O at most 0.3 inH2O: does not hold",
    ]);
  });

  test("trap: pressure that would suit propane does not make a natural-gas machine fit for it", () => {
    const finding = check({ supplied: "propane", staticPressure: "11.5 in w.c.", flowPressure: "11 in w.c." });
    expect(finding).toMatchObject({ verdict: "fail", messageId: "wrongGas", remedies: [] });
    expect(finding.message).toMatch(/a qualified person must convert it with the maker's kit/);
  });

  test("trap: half a pound is 13.85 in w.c., so 14 in w.c. is not 1/2 psi to the digit", () => {
    expect(check({ staticPressure: "0.5 psi" }).verdict).toBe("pass");
    expect(check({ staticPressure: "0.51 psi" }).messageId).toBe("tooHigh");
  });

  test("trap: a good pressure at rest says nothing of the pressure when all burns", () => {
    expect(check({ flowPressure: undefined })).toMatchObject({
      verdict: "review",
      missing: [{ path: ["flowPressure"] }],
    });
  });

  test("the maker's figures stand in place of the usual ones", () => {
    const maker = [{ limit: "plumbing/gas-pressure.inlet-least", value: "4 in w.c.", citation: { document: "Sheet" } }];
    expect(check({ flowPressure: "4.2 in w.c." }).verdict).toBe("fail");
    expect(check({ flowPressure: "4.2 in w.c." }, { maker }).verdict).toBe("pass");
  });

  test("asks for a closer reading, and points at what cannot be read", () => {
    expect(check({ flowPressure: "5.1 in w.c. ± 0.3 in w.c." }).messageId).toBe("tooCloseToCall");
    expect(gasPressure.try({ ...good, flowPressure: 6.5 }).fault?.issues[0]).toMatchObject({
      path: ["flowPressure"],
      code: "noUnit",
    });
  });

  test("law: more pressure while burning, below the one at rest, never does worse", () => {
    const tenths = fc.integer({ min: 0, max: 72 });
    fc.assert(
      fc.property(tenths, tenths, (a, b) => {
        const at = (n: number) => check({ flowPressure: `${n / 10} in w.c.` }).verdict;
        if (at(Math.min(a, b)) === "pass") expect(at(Math.max(a, b))).toBe("pass");
      }),
      { numRuns: 40 },
    );
  });
});
