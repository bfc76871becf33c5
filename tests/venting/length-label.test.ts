import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { lengthLabel } from "../../src/venting/index.js";
import { reference } from "../references.js";

const { rows } = reference("venting/length-label.csv");

describe("venting/length-label", () => {
  test.each(rows)("$document $edition, $straight_ft ft, concealed $concealed: needed $needed", (row) => {
    const at = { jurisdiction: { adopted: { [row.document!]: Number(row.edition) } } };
    const input = { fuel: "electric" as const, straight: `${row.straight_ft} ft`, elbows: [], fitted: false };
    const { verdict } = lengthLabel({ ...input, concealed: row.concealed === "yes" }, at);
    expect(verdict === "fail").toBe(row.needed === "yes");
  });

  test("trap: the trigger is the equivalent length; 30 ft of straight duct with two elbows is 40 ft, not 30", () => {
    const finding = lengthLabel({
      fuel: "electric",
      straight: "30 ft",
      elbows: [{ radius: "4 in mitred", angle: "90°", count: 2 }],
      fitted: false,
    });
    expect(finding.message).toBe("The equivalent length of 40 ft is above 35 ft: a permanent label must tell it.");
    expect(finding.workings.map(({ text }) => text)).toEqual([
      "developed = straight + fittings: 30 ft + 10 ft = 40 ft",
      "40 ft at most 35 ft: does not hold",
    ]);
    expect(finding.remedies).toHaveLength(1);
  });

  test("wants the label within 6 ft, 6 ft included", () => {
    const input = { fuel: "electric" as const, straight: "40 ft", elbows: [], fitted: true };
    expect(lengthLabel({ ...input, distance: "6 ft" }).verdict).toBe("pass");
    expect(lengthLabel({ ...input, distance: "6 ft 1 in" }).messageId).toBe("tooFar");
    expect(lengthLabel({ ...input, distance: "6 ft ± 2 in" }).messageId).toBe("tooCloseToCall");
  });

  test("a longer run never needs a label less", () => {
    const needs = (feet: number) =>
      lengthLabel({ fuel: "electric", straight: `${feet} ft`, elbows: [], fitted: false }).verdict === "fail";
    const feet = fc.integer({ min: 0, max: 80 });
    fc.assert(
      fc.property(feet, feet, (a, b) => {
        if (needs(Math.min(a, b))) expect(needs(Math.max(a, b))).toBe(true);
      }),
      { numRuns: 50 },
    );
  });

  test("cannot tell where the run lies across 35 ft; points at what cannot be read", () => {
    const near = lengthLabel({ fuel: "electric", straight: "35 ft ± 6 in", elbows: [], fitted: false });
    expect(near.messageId).toBe("tooCloseToCall");
    expect(lengthLabel.try({ fuel: "electric", distance: "9" }).fault?.issues[0]).toMatchObject({ path: ["distance"] });
  });
});
