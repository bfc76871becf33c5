import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { commonPractice } from "../../src/core/basis/index.js";
import { type Between, type Beyond, defineTable, lookUp, type Table } from "../../src/core/table/index.js";

const table = (between: Between, below: Beyond = "refuse", above: Beyond = "refuse"): Table =>
  defineTable({
    id: "bench",
    title: "Bench table",
    basis: commonPractice,
    between,
    below,
    above,
    rows: [
      [0, 1],
      [15, 20],
      [20, 25],
      [30, 40],
    ],
  });

describe("looking up", () => {
  test("gives a row its value, whatever happens between rows", () => {
    for (const between of ["exact", "next", "previous", "linear"] as const) {
      expect([0, 15, 20, 30].map((key) => lookUp(table(between), key))).toEqual([1, 20, 25, 40]);
    }
  });

  test("between rows does what the name says", () => {
    const at16 = (between: Between) => lookUp(table(between), 16);
    expect(at16("exact")).toBeUndefined();
    expect(at16("next")).toBe(25);
    expect(at16("previous")).toBe(20);
    expect(at16("linear")).toBeCloseTo(21, 12);
  });

  test("takes a key that missed its row in the last bits for the row", () => {
    expect(lookUp(table("exact"), 15 * (1 + 1e-12))).toBe(20);
    expect(lookUp(table("next"), 15 * (1 + 1e-12))).toBe(20);
    expect(lookUp(table("previous"), 20 * (1 - 1e-12))).toBe(25);
    expect(lookUp(table("exact"), 30 * (1 + 1e-12))).toBe(40);
    expect(lookUp(table("exact"), 15 * (1 + 1e-6))).toBeUndefined();
  });

  test("beyond the ends refuses or keeps the end row", () => {
    expect([-1, 31].map((key) => lookUp(table("linear"), key))).toEqual([undefined, undefined]);
    expect([-1, 31].map((key) => lookUp(table("linear", "hold", "hold"), key))).toEqual([1, 40]);
    expect(lookUp(table("linear", "hold", "refuse"), 31)).toBeUndefined();
  });

  test("has no value for a number that is none", () => {
    expect([Number.NaN, Number.POSITIVE_INFINITY].map((key) => lookUp(table("next", "hold", "hold"), key))).toEqual([
      undefined,
      undefined,
    ]);
  });

  test("rises with the key where the rows do, and stays within its neighbours", () => {
    const key = fc.double({ min: 0, max: 30, noNaN: true });
    fc.assert(
      fc.property(key, key, fc.constantFrom<Between>("next", "previous", "linear"), (a, b, between) => {
        const [low, high] = a <= b ? [a, b] : [b, a];
        expect(lookUp(table(between), low)!).toBeLessThanOrEqual(lookUp(table(between), high)! + 1e-12);
        expect(lookUp(table("previous"), a)!).toBeLessThanOrEqual(lookUp(table("linear"), a)! + 1e-12);
        expect(lookUp(table("linear"), a)!).toBeLessThanOrEqual(lookUp(table("next"), a)! + 1e-12);
      }),
    );
  });
});
