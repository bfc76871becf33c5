import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { makeupAir } from "../../src/venting/index.js";
import { reference } from "../references.js";

const { rows } = reference("venting/makeup-air.csv");

describe("venting/makeup-air", () => {
  test.each(rows)("$document $edition, $fuel, $exhaust_cfm cfm: $message", (row) => {
    const at = {
      jurisdiction: { adopted: { [row.document!]: Number(row.edition) }, building: row.building as "dwelling" },
    };
    const input = { fuel: row.fuel as "electric", exhaustRate: `${row.exhaust_cfm} cfm`, madeUp: false };
    expect(makeupAir(input, at).messageId).toBe(row.message);
  });

  test("trap: the model residential chapter has no 200 cfm; a local text can put it there", () => {
    const input = { fuel: "electric" as const, exhaustRate: "250 cfm", madeUp: false };
    expect(makeupAir(input).verdict).toBe("notApplicable");
    const local = [
      {
        limit: "venting/makeup-air.threshold",
        value: "200 cfm",
        citation: { document: "State code", section: "M1502.7" },
      },
    ];
    expect(makeupAir(input, { jurisdiction: { local } })).toMatchObject({ verdict: "fail", messageId: "starved" });
  });

  test("adds the dryers that run at once and shows the step", () => {
    const finding = makeupAir({ fuel: "naturalGas", exhaustRate: "150 cfm", dryers: 2, madeUp: false });
    expect(finding.message).toBe("The exhaust of 300 cfm is above 200 cfm: make-up air must come to the dryer.");
    expect(finding.workings.map(({ text }) => text)).toEqual([
      "total = dryers * each: 2 * 150 cfm = 300 cfm",
      "300 cfm at most 200 cfm: does not hold",
    ]);
    expect(finding.remedies.map(({ message }) => message)).toEqual([
      "Bring make-up air to the dryer, about as much as it exhausts.",
    ]);
  });

  test("more exhaust never needs make-up air less", () => {
    const needs = (cfm: number) =>
      makeupAir({ fuel: "propane", exhaustRate: `${cfm} cfm`, madeUp: false }).verdict === "fail";
    const cfm = fc.integer({ min: 0, max: 500 });
    fc.assert(
      fc.property(cfm, cfm, (a, b) => {
        if (needs(Math.min(a, b))) expect(needs(Math.max(a, b))).toBe(true);
      }),
      { numRuns: 50 },
    );
  });

  test("cannot tell across 200 cfm; points at what cannot be read", () => {
    expect(makeupAir({ fuel: "propane", exhaustRate: "200 cfm ± 5 cfm", madeUp: false }).messageId).toBe(
      "tooCloseToCall",
    );
    expect(makeupAir.try({ fuel: "propane", exhaustRate: 200 }).fault?.issues[0]).toMatchObject({
      path: ["exhaustRate"],
    });
  });
});
