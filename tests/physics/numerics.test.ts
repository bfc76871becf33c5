import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  brent,
  combined,
  combinedCorrelated,
  contributions,
  effectiveFreedom,
  fittedPlane,
  leastCost,
  leastSquares,
  leastValue,
  propagated,
  type SpotHeight,
  standardOfLimits,
  standardOfResolution,
} from "../../src/physics/index.js";
import { reference } from "../references.js";
import { expectPrinted } from "./published.js";

const finite = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });

describe("brent", () => {
  test.each([
    // Roots known in closed form.
    [(x: number) => x * x - 2, 0, 2, Math.SQRT2],
    [(x: number) => x * x - 2, 2, 0, Math.SQRT2],
    [Math.cos, 0, 3, Math.PI / 2],
    [(x: number) => Math.exp(x) - 10, -5, 50, Math.log(10)],
    [(x: number) => 1 / x - 3, 0, 10, 1 / 3],
    [(x: number) => x ** 3 - 2 * x - 5, 2, 3, 2.0945514815423265],
    [(x: number) => Math.log(x), 0, 5, 1],
    [(x: number) => (x < 0.3 ? -1 : 1), 0, 1, 0.3],
    [(x: number) => x - 4, 4, 9, 4],
    [(x: number) => x - 9, 4, 9, 9],
  ] as const)("finds root %#", (f, lo, hi, root) => {
    expect(Math.abs(brent(f, lo, hi) - root)).toBeLessThan(2e-15 * Math.max(1, root));
  });

  test("finds the root of any cubic with one root in the bracket", () => {
    fc.assert(
      fc.property(finite(-50, 50), finite(0.01, 10), finite(0, 100), finite(0, 100), (root, slope, below, above) => {
        const f = (x: number) => (x - root) ** 3 + slope * (x - root);
        const found = brent(f, root - below, root + above);
        expect(Math.abs(found - root)).toBeLessThan(1e-13);
      }),
    );
  });

  test("stays within a coarse tolerance with fewer calls", () => {
    let calls = 0;
    const f = (x: number) => {
      calls++;
      return Math.tanh(x - 1) + 1e-3 * (x - 1);
    };
    const fine = brent(f, -100, 200);
    const many = calls;
    calls = 0;
    const coarse = brent(f, -100, 200, 0.01);
    expect(Math.abs(fine - 1)).toBeLessThan(1e-14);
    expect(Math.abs(coarse - 1)).toBeLessThan(0.01);
    expect(calls).toBeLessThan(many);
  });

  // Calls that scipy 1.10.1 counts for the same brackets (optimize.brentq, xtol 1e-15, rtol 8.9e-16). One or two more are
  // a matter of the last bit; bisection alone would need about fifty.
  test.each<[name: string, f: (x: number) => number, lo: number, hi: number, calls: number]>([
    ["x² − 2", (x) => x * x - 2, 0, 2, 10],
    ["cos x − x", (x) => Math.cos(x) - x, 0, 1, 8],
    ["x³ − 2x − 5", (x) => x ** 3 - 2 * x - 5, 2, 3, 8],
    ["e^−x − x", (x) => Math.exp(-x) - x, 0, 1, 7],
    ["x³ − 0.001", (x) => x ** 3 - 1e-3, -1, 4, 24],
    ["arctan(x − 1)", (x) => Math.atan(x - 1), -3, 10, 10],
    ["ln x", Math.log, 0.1, 30, 12],
    ["x⁹ − 1", (x) => x ** 9 - 1, 0, 3, 14],
    ["(x − 1)·e^−9x + x⁹", (x) => (x - 1) * Math.exp(-9 * x) + x ** 9, 0, 1, 10],
  ])("closes in on the root of %s as fast as another Brent's method", (_, f, lo, hi, calls) => {
    let count = 0;
    brent(
      (x) => {
        count++;
        return f(x);
      },
      lo,
      hi,
    );
    expect(count).toBeLessThanOrEqual(calls + 2);
  });

  test.each([
    [() => brent((x) => x * x + 1, -1, 1), /no change of sign/],
    [() => brent((x) => x, 0.5, Number.POSITIVE_INFINITY), /not finite/],
    [() => brent((x) => x, -1, 1, -1), /tolerance/],
    [() => brent((x) => (x > 0.5 ? Number.NaN : x - 0.7), 0, 1), /not a number/],
  ])("refuses bad use %#", (call, message) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(message);
  });
});

describe("leastValue", () => {
  test("finds the lowest of several dips, at kinks and at ends", () => {
    expect(leastValue((x) => Math.abs(x - 0.3) + (x > 0.6 ? -0.5 * (x - 0.6) : 0), 0, 1)).toEqual({
      at: 0.3,
      value: 0,
    });
    expect(leastValue((x) => -x, 0, 1)).toEqual({ at: 1, value: -1 });
    // Two dips; the lower at the root −1.300839566 of 4x³ − 6x + 1 (by Newton steps apart).
    const { at, value } = leastValue((x) => x ** 4 - 3 * x * x + x, -3, 3);
    expect(Math.abs(4 * at ** 3 - 6 * at + 1)).toBeLessThan(1e-6);
    expect(value).toBeCloseTo(-3.513905038934789, 12);
  });

  test.each([
    [() => leastValue((x) => x, 1, 0), /range/],
    [() => leastValue((x) => x, 0, 1, 1), /too few/],
    [() => leastValue(() => Number.NaN, 0, 1), /not a number/],
  ])("refuses bad use %#", (call, message) => {
    expect(call).toThrow(message);
  });
});

describe("first-order propagation", () => {
  const { rows } = reference("physics/uncertainty.csv");
  test.each(rows)("agrees with the budget $id", (row) => {
    const list = (cell: string) => (cell === "" ? [] : cell.split(";").map(Number));
    const once = [...list(row["limits"]!).map((limit) => standardOfLimits(limit)), ...list(row["standard"]!)];
    const parts = Array.from({ length: Number(row["times"]) }, () => once).flat();
    expectPrinted(combined(parts, "rootSumSquare"), row["combined"]!);
    if (row["freedom_combined"] !== "") {
      expectPrinted(effectiveFreedom(parts, list(row["freedom"]!)), row["freedom_combined"]!);
    }
  });

  test("agrees with the analytic derivatives of a product and a quotient", () => {
    // Relative parts add in squares for x·y/z.
    const u = propagated(([x, y, z]) => (x! * y!) / z!, [3, 5, 7], [0.003, 0.01, 0.014]);
    const want = ((3 * 5) / 7) * Math.hypot(0.001, 0.002, 0.002);
    expect(Math.abs(u / want - 1)).toBeLessThan(1e-5);
  });

  test("is exact for a sum, never grows by leaving out a doubt, and is bounded by the worst case", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(finite(-5, 5), finite(0, 2)), { minLength: 1, maxLength: 6 }), (terms) => {
        const spreads = terms.map(([, s]) => s);
        const f = (x: readonly number[]) => x.reduce((sum, xi, i) => sum + terms[i]![0] * xi, 0);
        const values = terms.map((_, i) => i + 1);
        const square = propagated(f, values, spreads);
        const worst = propagated(f, values, spreads, "worstCase");
        expect(square).toBeCloseTo(Math.sqrt(terms.reduce((sum, [c, s]) => sum + (c * s) ** 2, 0)), 9);
        expect(worst).toBeGreaterThanOrEqual(square * (1 - 1e-12));
        expect(worst).toBeLessThanOrEqual(square * Math.sqrt(terms.length) * (1 + 1e-9) + 1e-12);
        expect(propagated(f, values, spreads.with(0, 0))).toBeLessThanOrEqual(square + 1e-12);
      }),
    );
  });

  test("a quantity known exactly adds nothing, even where the function is undefined beside it", () => {
    expect(contributions(([x, y]) => Math.sqrt(x!) + y!, [0, 1], [0, 0.5])).toEqual([0, 0.5]);
  });

  test("correlation: one tape's scale error cancels in a difference and doubles in a sum", () => {
    const same = [
      [1, 1],
      [1, 1],
    ];
    expect(combinedCorrelated([0.7, -0.7], same)).toBe(0);
    expect(combinedCorrelated([0.7, 0.7], same)).toBeCloseTo(1.4, 12);
    const none = [
      [1, 0],
      [0, 1],
    ];
    expect(combinedCorrelated([0.3, -0.4], none)).toBeCloseTo(combined([0.3, -0.4], "rootSumSquare"), 12);
  });

  test("limits: a rectangle is √2 wider than a triangle; a step is a rectangle of half its width", () => {
    expect(standardOfLimits(1)).toBeCloseTo(1 / Math.sqrt(3), 14);
    expect(standardOfLimits(1, "triangular")).toBeCloseTo(1 / Math.sqrt(6), 14);
    expect(standardOfResolution(2)).toBeCloseTo(standardOfLimits(1), 14);
  });

  test.each([
    [() => contributions((x) => x[0]!, [1, 2], [1]), /as many spreads/],
    [() => contributions((x) => x[0]!, [1], [-1]), /spread -1/],
    [() => contributions((x) => Math.sqrt(x[0]!), [0], [1]), /not finite/],
    [() => combined([Number.NaN], "worstCase"), /spread/],
    [() => combinedCorrelated([1], []), /rows/],
    [() => combinedCorrelated([1], [[1, 0]]), /row 0/],
    [
      () =>
        combinedCorrelated(
          [1, 1],
          [
            [1, 2],
            [2, 1],
          ],
        ),
      /coefficient 2/,
    ],
    [
      () =>
        combinedCorrelated(
          [1, -1, 1],
          [
            [1, 0.9, -0.9],
            [0.9, 1, 0.9],
            [-0.9, 0.9, 1],
          ],
        ),
      /square is negative/,
    ],
    [() => effectiveFreedom([1], [0]), /above 0/],
    [() => effectiveFreedom([0], [1]), /above 0/],
    [() => effectiveFreedom([1], []), /as many/],
  ])("refuses bad use %#", (call, message) => {
    expect(call).toThrow(message);
  });
});

describe("leastSquares", () => {
  const longley = reference("physics/longley.csv");
  test("reproduces the certified Longley regression", () => {
    const certified = [
      -3482258.63459582, 15.0618722713733, -0.035819179292591, -2.02022980381683, -1.03322686717359,
      -0.0511041056535807, 1829.15146461355,
    ];
    const { coefficients, residuals } = leastSquares(
      longley.rows.map((row) => [1, ...["x1", "x2", "x3", "x4", "x5", "x6"].map((x) => Number(row[x]))]),
      longley.rows.map((row) => Number(row["y"])),
    );
    for (const [i, value] of certified.entries()) {
      expect(Math.abs(coefficients[i]! / value - 1)).toBeLessThan(longley.tolerance);
    }
    const squares = residuals.reduce((sum, r) => sum + r * r, 0);
    expect(Math.abs(squares / 836424.055505915 - 1)).toBeLessThan(longley.tolerance);
  });

  test("leaves residuals square to every column", () => {
    const row = fc.tuple(finite(-10, 10), finite(-10, 10), finite(-10, 10));
    fc.assert(
      fc.property(fc.array(row, { minLength: 5, maxLength: 12 }), (data) => {
        // A fixed part keeps the columns apart whatever is drawn.
        const rows = data.map(([a, b], i) => [1, a + i, b + 3 * i * i]);
        const y = data.map(([, , c]) => c);
        let fit: ReturnType<typeof leastSquares>;
        try {
          fit = leastSquares(rows, y);
        } catch (fault) {
          expect(fault).toBeInstanceOf(RangeError);
          return;
        }
        for (let j = 0; j < 3; j++) {
          const dot = fit.residuals.reduce((sum, r, i) => sum + r * rows[i]![j]!, 0);
          const size = Math.hypot(...rows.map((r) => r[j]!)) * Math.hypot(...y);
          expect(Math.abs(dot)).toBeLessThanOrEqual(1e-9 * (size + 1));
        }
      }),
    );
  });

  test.each([
    [() => leastSquares([], []), /as many even rows/],
    [() => leastSquares([[1, 2]], [1]), /as many even rows/],
    [() => leastSquares([[1], [1, 2]], [1, 2]), /even rows/],
    [() => leastSquares([[1], [Number.NaN]], [1, 2]), /finite/],
    [
      () =>
        leastSquares(
          [
            [1, 2],
            [2, 4],
            [3, 6],
          ],
          [1, 2, 3],
        ),
      /column 1 depends/,
    ],
    [
      () =>
        leastSquares(
          [
            [1, 0],
            [2, 0],
          ],
          [1, 2],
        ),
      /column 1 depends/,
    ],
  ])("refuses bad use %#", (call, message) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(message);
  });
});

describe("fittedPlane", () => {
  const points = (list: readonly (readonly [number, number, number])[]) =>
    list.map(([x, y, z]) => ({ x, y, z })) as unknown as SpotHeight[];

  test("agrees with a linear-algebra exercise solved in fractions: z = 158/15 − (7/3)x + (56/15)y", () => {
    const fit = fittedPlane(
      points([
        [0, -3, 0],
        [4, 0, 0],
        [3, -1, 1],
        [1, -2, 1],
        [-1, -4, -3],
      ]),
    );
    expect(fit.height).toBeCloseTo(158 / 15, 12);
    expect(fit.across).toBeCloseTo(-7 / 3, 12);
    expect(fit.back).toBeCloseTo(56 / 15, 12);
  });

  test("is unchanged by moving the points, also far from the origin", () => {
    fc.assert(
      fc.property(finite(-1e4, 1e4), finite(-1e4, 1e4), finite(-0.1, 0.1), finite(-0.1, 0.1), (x, y, a, b) => {
        const at = (u: number, v: number) => [x + u, y + v, a * u + b * v] as const;
        const fit = fittedPlane(points([at(0, 0), at(0.6, 0), at(0.6, 0.5), at(0, 0.5)]));
        expect(Math.abs(fit.across - a)).toBeLessThan(1e-9);
        expect(Math.abs(fit.back - b)).toBeLessThan(1e-9);
        for (const r of fit.residuals) expect(Math.abs(r)).toBeLessThan(1e-9);
      }),
    );
  });

  test("refuses points that fix no plane", () => {
    expect(() =>
      fittedPlane(
        points([
          [0, 0, 0],
          [1, 1, 1],
        ]),
      ),
    ).toThrow(/three points/);
    expect(() =>
      fittedPlane(
        points([
          [0, 0, 0],
          [1, 1, 1],
          [2, 2, 5],
        ]),
      ),
    ).toThrow(/depends/);
  });
});

describe("leastCost", () => {
  test("solves the worked example of Introduction to Algorithms, section 29.3: 28 at (8, 4, 0)", () => {
    const x = leastCost(
      [-3, -1, -2],
      [
        { row: [1, 1, 3], most: 30 },
        { row: [2, 2, 5], most: 24 },
        { row: [4, 1, 2], most: 36 },
      ],
    );
    expect(x!.map((v) => Math.round(v * 1e9) / 1e9)).toEqual([8, 4, 0]);
  });

  test("says so when no point meets the conditions, and when there is no least", () => {
    expect(
      leastCost(
        [1],
        [
          { row: [1], most: 1 },
          { row: [-1], most: -2 },
        ],
      ),
    ).toBeUndefined();
    expect(() => leastCost([-1], [{ row: [-1], most: -2 }])).toThrow(/no least/);
    expect(() => leastCost([1, 1], [{ row: [1], most: 1 }])).toThrow(/2 coefficients/);
  });

  test("agrees with trying every corner of the region", () => {
    // Coefficients in quarters keep corners well apart, so rounding decides nothing.
    const part = (most: number) => fc.integer({ min: -most, max: most }).map((n) => n / 4);
    const row = fc.record({ row: fc.tuple(part(8), part(8)), most: part(6) });
    let empty = 0;
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 6 }), fc.tuple(part(8), part(8)), (drawn, cost) => {
        const conditions = [...drawn, { row: [1, 0], most: 3 }, { row: [0, 1], most: 3 }];
        const lines = [...conditions, { row: [-1, 0], most: 0 }, { row: [0, -1], most: 0 }];
        const meets = (x: number, y: number) => lines.every(({ row: [a, b], most }) => a! * x + b! * y <= most + 1e-9);
        const corners: number[] = [];
        for (const [i, p] of lines.entries()) {
          for (const q of lines.slice(i + 1)) {
            const det = p.row[0]! * q.row[1]! - p.row[1]! * q.row[0]!;
            if (det === 0) continue;
            const x = (p.most * q.row[1]! - p.row[1]! * q.most) / det;
            const y = (p.row[0]! * q.most - p.most * q.row[0]!) / det;
            if (meets(x, y)) corners.push(cost[0] * x + cost[1] * y);
          }
        }
        const found = leastCost(cost, conditions);
        if (corners.length === 0) {
          empty++;
          expect(found).toBeUndefined();
          return;
        }
        expect(meets(found![0]!, found![1]!)).toBe(true);
        expect(cost[0] * found![0]! + cost[1] * found![1]!).toBeCloseTo(Math.min(...corners), 9);
      }),
      { numRuns: 1000 },
    );
    expect(empty).toBeGreaterThan(50);
  });
});
