import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { hoseCondition, hoseDamages } from "../../src/plumbing/index.js";
import { reference } from "../references.js";

const { rows } = reference("plumbing/hose-condition.csv");
const good = {
  kind: "washer",
  make: "braided",
  age: "2 yr",
  rating: "150 psi",
  staticPressure: "62 psi",
  damage: [],
} as const;
const check = (change: object) => hoseCondition({ ...good, damage: [], ...change });

describe("plumbing/hose-condition", () => {
  test.each(rows)("$age_yr years: $verdict", ({ age_yr, verdict }) => {
    expect(check({ age: `${age_yr} yr` }).verdict).toBe(verdict);
  });

  test("exactly at its rating passes", () => {
    expect(check({ staticPressure: "150 psi" }).verdict).toBe("pass");
    expect(check({ staticPressure: "151 psi" })).toMatchObject({ verdict: "fail", messageId: "underRated" });
  });

  test("says what is wrong, age and pressure included, and that only a new hose mends it", () => {
    const finding = check({ age: "11 yr", damage: ["rust", "bulge"] });
    expect(finding.message).toBe(
      "The hose has a bulge and rust at the crimp or in the braid; it must not be used. The hose is 11 yr old; it should be replaced at 5 yr.",
    );
    expect(finding.workings.map(({ text }) => text)).toEqual([
      "11 yr at most 5 yr: does not hold",
      "62 psi at most 150 psi: holds",
    ]);
    expect(finding.remedies.map(({ message }) => message)).toEqual(["Fit a new braided hose, with new washers."]);
  });

  test("trap: the burst pressure is not the rating; a hose that was not read is not a pass", () => {
    // Asked of the working pressure, never passed on silence.
    expect(check({ rating: undefined })).toMatchObject({ verdict: "review", missing: [{ path: ["rating"] }] });
    expect(hoseCondition.input.shape.rating.description).toMatch(/not its burst pressure/);
  });

  test("trap: an undated hose is not a new one", () => {
    expect(check({ age: undefined })).toMatchObject({ verdict: "review", messageId: "ageUnknown" });
  });

  test("the maker's age stands in place of the trade's", () => {
    const maker = [{ limit: "plumbing/hose-condition.age", value: "10 yr", citation: { document: "Hose sheet" } }];
    expect(hoseCondition({ ...good, damage: [], age: "8 yr" }, { maker })).toMatchObject({ verdict: "pass" });
  });

  test("asks for the age more closely where its tolerance decides", () => {
    expect(check({ age: "4.5 yr ± 1 yr" })).toMatchObject({ verdict: "review", messageId: "tooCloseToCall" });
  });

  test("points at what cannot be read", () => {
    expect(hoseCondition.try({ ...good, age: 3 }).fault?.issues[0]).toMatchObject({ path: ["age"], code: "noUnit" });
    expect(hoseCondition.try({ ...good, damage: ["burst"] }).fault?.issues[0]).toMatchObject({ path: ["damage", 0] });
  });

  test("laws: more age, more pressure or any damage never turns a fail into a pass", () => {
    const years = fc.integer({ min: 0, max: 30 });
    const rank = { pass: 0, notApplicable: 0, review: 1, fail: 2 } as const;
    fc.assert(
      fc.property(years, years, fc.subarray([...hoseDamages]), (age, more, damage) => {
        const young = check({ age: { value: age, unit: "yr" } });
        const old = check({ age: { value: age + more, unit: "yr" }, damage });
        expect(rank[old.verdict]).toBeGreaterThanOrEqual(rank[young.verdict]);
      }),
      { numRuns: 40 },
    );
  });
});
