import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { si } from "../../src/core/quantity/index.js";
import { cutList, cutStock, legPieces } from "../../src/venting/index.js";
import { reference } from "../references.js";

const { rows } = reference("venting/cut-list.csv");

/** The least number of lengths by looking at every way, for few pieces. */
function bruteForce(sizes: readonly number[], stock: number): number {
  let best = sizes.length;
  const bins: number[] = [];
  const place = (k: number) => {
    if (bins.length >= best) return;
    if (k === sizes.length) {
      best = bins.length;
      return;
    }
    for (let b = 0; b < bins.length; b++) {
      if (bins[b]! + sizes[k]! > stock) continue;
      bins[b] = bins[b]! + sizes[k]!;
      place(k + 1);
      bins[b] = bins[b]! - sizes[k]!;
    }
    bins.push(sizes[k]!);
    place(k + 1);
    bins.pop();
  };
  place(0);
  return best;
}

describe("cutStock", () => {
  test.each(rows)("cuts $sizes from $stock with $least", ({ stock, sizes, least }) => {
    const { stock: cuttings, isLeast } = cutStock(sizes!.split(";").map(Number), Number(stock));
    expect([cuttings.length, isLeast]).toEqual([Number(least), true]);
  });

  test("never needs more than looking at every way", () => {
    const size = fc.integer({ min: 1, max: 20 });
    fc.assert(
      fc.property(fc.array(size, { minLength: 1, maxLength: 8 }), (sizes) => {
        const { stock, isLeast } = cutStock(sizes, 20);
        expect(isLeast).toBe(true);
        expect(stock.length).toBe(bruteForce(sizes, 20));
      }),
      { numRuns: 300 },
    );
  });

  test("uses every piece once and never cuts more than a length holds, for up to 40 pieces", () => {
    const size = fc.integer({ min: 1, max: 60 });
    fc.assert(
      fc.property(fc.array(size, { minLength: 1, maxLength: 40 }), (sizes) => {
        const { stock } = cutStock(sizes, 60);
        expect(stock.flatMap(({ pieces }) => pieces).sort((a, b) => a - b)).toEqual(sizes.map((_, i) => i));
        for (const { pieces, left } of stock) {
          const used = pieces.reduce((sum, i) => sum + sizes[i]!, 0);
          expect(used + left).toBeCloseTo(60, 9);
        }
        expect(stock.length).toBeGreaterThanOrEqual(Math.ceil(sizes.reduce((sum, one) => sum + one, 0) / 60));
      }),
      { numRuns: 60 },
    );
  });

  test("refuses a piece longer than the stock", () => {
    expect(() => cutStock([6], 5)).toThrow(RangeError);
  });
});

describe("legPieces", () => {
  test("laps inside a leg: 9 ft from 5 ft sections with 1 1/2 in laps is 5 ft and 4 ft 1 1/2 in", () => {
    const pieces = legPieces(si(9, "ft"), si(5, "ft"), si(1.5, "in"));
    expect(pieces.map((piece) => piece / 0.0254)).toEqual([60, expect.closeTo(49.5, 9)]);
  });

  test("covers the leg: pieces less laps are the leg, none longer than a section", () => {
    const feet = fc.double({ min: 0.2, max: 40, noNaN: true });
    const inches = fc.double({ min: 0, max: 4, noNaN: true });
    fc.assert(
      fc.property(feet, inches, (leg, lap) => {
        const pieces = legPieces(si(leg, "ft"), si(5, "ft"), si(lap, "in"));
        const sum = pieces.reduce<number>((total, piece) => total + piece, 0);
        expect(sum - (pieces.length - 1) * si(lap, "in")).toBeCloseTo(si(leg, "ft"), 9);
        for (const piece of pieces) {
          expect(piece).toBeGreaterThan(0);
          expect(piece).toBeLessThanOrEqual(si(5, "ft") * (1 + 1e-9));
        }
      }),
    );
  });
});

describe("venting/cut-list", () => {
  const input = {
    fuel: "electric" as const,
    legs: ["8 ft", "8 ft", "9 ft"],
    elbows: [{ radius: "4 in mitred" as const, angle: "90°", count: 2 }],
  };
  const value = (name: string, more: object = {}, at = {}) =>
    (cutList({ ...input, ...more }, at).values[name] as { si: number }).si;

  test("lists sections, joints and parts, and shows the waste", () => {
    expect(cutList(input).workings.map(({ text }) => text)).toEqual([
      "bought = sections * stock: 6 * 5 ft = 30 ft",
      "waste = bought - used: 30 ft - 25 ft 4 1/2 in = 4 ft 7 1/2 in",
    ]);
    expect([value("sections"), value("joints"), value("clamps"), value("elbows")]).toEqual([6, 9, 2, 2]);
    // one turn of tape a joint, a quarter over: 9 · 1.25 · π · 4 in
    expect(value("tape") / 0.0254).toBeCloseTo(9 * 1.25 * Math.PI * 4, 6);
  });

  test("spaces supports by the text that binds: 12 ft for electric, 4 ft for gas", () => {
    expect(value("supports")).toBe(3);
    expect(value("supports", { fuel: "naturalGas" })).toBe(7);
  });

  test("asks for legs and elbows; points at what cannot be read", () => {
    expect(cutList({ fuel: "electric" }).missing.map(({ path }) => path[0])).toEqual(["legs", "elbows"]);
    expect(cutList.try({ ...input, legs: ["8"] }).fault?.issues[0]).toMatchObject({ path: ["legs", 0] });
  });
});
