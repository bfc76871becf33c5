import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { transitionDuct } from "../../src/venting/index.js";
import { reference } from "../references.js";

const { rows } = reference("venting/transition-duct.csv");
const good = { fuel: "electric", pieces: 1, length: "5 ft", listed: true, concealed: false, crushed: false } as const;

describe("venting/transition-duct", () => {
  test.each(rows)("allows $longest_ft ft in $document $edition", ({ document, edition, longest_ft }) => {
    const building = document === "imc" ? "multifamily" : "dwelling";
    const at = { jurisdiction: { adopted: { [document!]: Number(edition) }, building } } as const;
    expect(transitionDuct({ ...good, length: `${longest_ft} ft` }, at).verdict).toBe("pass");
    expect(transitionDuct({ ...good, length: `${longest_ft} ft 1 in` }, at)).toMatchObject({
      verdict: "fail",
      messageId: "tooLong",
    });
  });

  test("trap: 8 ft is not the figure of the uniform code", () => {
    const at = { jurisdiction: { adopted: { umc: 2012 } } } as const;
    expect(transitionDuct({ ...good, length: "8 ft" }, at)).toMatchObject({ verdict: "fail", limit: { text: "6 ft" } });
  });

  test("says what is wrong, all of it, and what to fit instead", () => {
    const finding = transitionDuct({ ...good, length: "9 ft", listed: false, crushed: true });
    expect(finding.message).toBe(
      "The 9 ft transition duct is 12 in longer than the 8 ft allowed. The transition duct must be listed and labelled for dryers (UL 2158A). The transition duct is crushed or kinked; lint gathers there and the machine runs hot.",
    );
    expect(finding.workings[0]!.text).toBe("9 ft at most 8 ft: does not hold");
    expect(finding.remedies.map(({ message }) => message)).toEqual([
      "Fit one listed length of at most 8 ft, in the open, without a kink.",
    ]);
  });

  test("a longer duct is never judged better", () => {
    const order = ["pass", "fail"];
    const verdict = (inches: number) => order.indexOf(transitionDuct({ ...good, length: `${inches} in` }).verdict);
    const inches = fc.integer({ min: 1, max: 300 });
    fc.assert(
      fc.property(inches, inches, (a, b) => {
        expect(verdict(Math.max(a, b))).toBeGreaterThanOrEqual(verdict(Math.min(a, b)));
      }),
      { numRuns: 50 },
    );
  });

  test("cannot tell across the limit, and asks for what was not looked at", () => {
    expect(transitionDuct({ ...good, length: "8 ft ± 2 in" }).messageId).toBe("tooCloseToCall");
    expect(transitionDuct({ fuel: "electric", pieces: 1 }).missing.map(({ path }) => path[0])).toEqual([
      "length",
      "listed",
      "concealed",
      "crushed",
    ]);
  });

  test("points at what cannot be read", () => {
    expect(transitionDuct.try({ ...good, length: "8" }).fault?.issues[0]).toMatchObject({ path: ["length"] });
  });
});
