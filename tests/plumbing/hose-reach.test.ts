import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brand, inUnit, si } from "../../src/core/quantity/index.js";
import { hoseNeeded, hoseReach, tightestLeg } from "../../src/plumbing/index.js";
import { stockHoses_ft } from "../../src/plumbing/tables/supply.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("plumbing/hose-reach.csv");
const legsOf = (text: string) => text.split(";").map((inches) => si(Number(inches), "in"));

describe("plumbing/hose-reach", () => {
  test.each(rows)("route $legs_in in and $pull_in in forward need $need_in in", (row) => {
    const legs = legsOf(row.legs_in!);
    expect(inUnit(hoseNeeded(legs, si(Number(row.pull_in), "in")), "in")).toBeCloseTo(Number(row.need_in), 9);
    if (row.room_in !== "") {
      expect(Math.abs(inUnit(tightestLeg(legs).room, "in") - Number(row.room_in))).toBeLessThanOrEqual(tolerance);
    }
    // What rounding the corners leaves as slack is never negative, so the sum of the legs errs to the long side.
    const corners = legs.length - 1;
    expect(Math.abs(corners * (2 - Math.PI / 2) * 3 - Number(row.spare_at_3_in_radius_in))).toBeLessThanOrEqual(
      tolerance,
    );
  });

  test("a hose exactly as long as its way passes; an eighth of an inch less fails and names the lack", () => {
    const input = { kind: "washer", legs: ["2 ft", "18 in"], pullOut: "18 in", bendRadius: "3 in" } as const;
    expect(hoseReach({ ...input, legs: [...input.legs], hose: "5 ft" })).toMatchObject({
      verdict: "pass",
      margin: { text: "0 in" },
    });
    const finding = hoseReach({ ...input, legs: [...input.legs], hose: "4 ft 11 7/8 in" });
    expect(finding.message).toBe("The 4 ft 11 7/8 in hose is 1/8 in short of the 5 ft needed.");
    expect(finding.workings.map(({ text }) => text)).toEqual([
      "need = route + pullOut: 3 ft 6 in + 18 in = 5 ft",
      "4 ft 11 7/8 in at least 5 ft: does not hold",
      "room = leg / bends: 18 in / 1 = 18 in",
      "18 in at least 3 in: holds",
    ]);
    expect(finding.remedies.map(({ message }) => message)).toEqual([
      "Fit a hose of 5 ft in one piece; do not join two.",
    ]);
  });

  test("a bend exactly as wide as its room passes", () => {
    const at = (bendRadius: string) =>
      hoseReach({ kind: "washer", legs: ["1 ft", "6 in", "3 ft"], hose: "8 ft", pullOut: "0 in", bendRadius });
    expect(at("3 in").verdict).toBe("pass");
    expect(at("3.05 in")).toMatchObject({ verdict: "fail", messageId: "kinks", remedies: [] });
  });

  test("trap: an inner leg must hold two bends, so half its length is the room, not the whole", () => {
    const { leg, bends, room } = tightestLeg([si(1, "ft"), si(6, "in"), si(3, "ft")]);
    const wrong = si(6, "in");
    expect(room).toBeCloseTo(si(3, "in"), 12);
    expect([leg, bends]).toEqual([wrong, 2]);
    const input = { kind: "washer", legs: ["1 ft", "6 in", "3 ft"], hose: "8 ft", pullOut: "0 in" } as const;
    expect(hoseReach({ ...input, legs: [...input.legs], bendRadius: "5 in" }).verdict).toBe("fail");
  });

  test("trap: a hose that just reaches the pushed-in machine is too short to draw it out", () => {
    const input = { kind: "washer", legs: ["3 ft"], hose: "4 ft" } as const;
    expect(hoseReach({ ...input, legs: [...input.legs], pullOut: "0 in" }).verdict).toBe("pass");
    expect(hoseReach({ ...input, legs: [...input.legs], pullOut: "18 in" }).verdict).toBe("fail");
    expect(hoseReach({ ...input, legs: [...input.legs] })).toMatchObject({
      verdict: "review",
      missing: [{ path: ["pullOut"] }],
    });
  });

  test("asks for a closer measurement when the tolerance lies across the need", () => {
    const finding = hoseReach({ kind: "washer", legs: ["3 ft ± 2 in"], hose: "4 ft", pullOut: "11 in" });
    expect(finding).toMatchObject({ verdict: "review", messageId: "tooCloseToCall" });
    expect(finding.missing[0]).toMatchObject({ path: ["legs", 0] });
  });

  test("points at what cannot be read, and asks a dryer whether it makes steam", () => {
    expect(hoseReach.try({ kind: "washer", legs: ["3 ft", 12] }).fault?.issues[0]).toMatchObject({
      path: ["legs", 1],
      code: "noUnit",
    });
    expect(hoseReach({ kind: "dryer" }).missing[0]).toMatchObject({ path: ["steam"] });
    expect(hoseReach({ kind: "refrigerator" }).missing[0]).toMatchObject({ path: ["supply"] });
    expect(hoseReach({ kind: "washer", supply: "none" }).verdict).toBe("notApplicable");
  });

  test("offers the shortest stock hose, and none where the longest is too short", () => {
    expect(stockHoses_ft).toEqual([4, 5, 6, 8, 10, 12]);
    const far = hoseReach({ kind: "washer", legs: ["20 ft"], hose: "5 ft", pullOut: "1 ft" });
    expect(far).toMatchObject({ verdict: "fail", remedies: [] });
  });

  test("laws: a longer leg never needs less hose nor leaves less room", () => {
    const length = fc.double({ min: 0.02, max: 10, noNaN: true }).map((metres) => brand<"length">(metres));
    const some = fc.array(length, { minLength: 2, maxLength: 8 });
    fc.assert(
      fc.property(some, length, fc.nat(), (legs, extra, pick) => {
        const at = pick % legs.length;
        const longer = legs.map((leg, i) => (i === at ? brand<"length">(leg + extra) : leg));
        const zero = brand<"length">(0);
        expect(hoseNeeded(longer, zero)).toBeGreaterThan(hoseNeeded(legs, zero));
        expect(tightestLeg(longer).room).toBeGreaterThanOrEqual(tightestLeg(legs).room);
      }),
    );
  });
});
