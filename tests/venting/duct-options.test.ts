import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cheapestRoute, ductOptions, type Plan, type RouteCosts } from "../../src/venting/index.js";
import { stepFrom, turnOf } from "../../src/venting/routing.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("venting/duct-options.csv");

const planOf = (text: string): Plan => {
  const lines = text.split("|");
  const all = lines.join("");
  return {
    columns: lines[0]!.length,
    rows: lines.length,
    free: [...all].map((letter) => letter !== "#"),
    start: all.indexOf("S"),
    end: all.indexOf("E"),
  };
};

/** The cheapest run by trying every run that crosses no cell twice. */
function bruteForce(plan: Plan, costs: RouteCosts): number {
  let best = Number.POSITIVE_INFINITY;
  const seen = new Set([plan.start]);
  const go = (cell: number, direction: number | undefined, used: number, cost: number) => {
    if (cost >= best) return;
    if (cell === plan.end) {
      best = cost;
      return;
    }
    for (let to = 0; to < 8; to++) {
      const turn = direction === undefined ? 0 : turnOf(direction, to);
      const step = to % 2 === 0 ? costs.straight : costs.diagonal;
      const next = stepFrom(plan, cell, to);
      if (turn > 2 || step === undefined || next === undefined || seen.has(next)) continue;
      const isFree = turn === 2 && used < costs.free90;
      const elbow = turn === 0 ? 0 : turn === 1 ? costs.turn45 : isFree ? 0 : costs.turn90;
      seen.add(next);
      go(next, to, used + (isFree ? 1 : 0), cost + elbow + step);
      seen.delete(next);
    }
  };
  go(plan.start, undefined, 0, 0);
  return best;
}

describe("cheapestRoute", () => {
  test.each(rows)("crosses $plan for $cost_ft", ({ plan, diagonals, cost_ft }) => {
    const costs = {
      straight: 1,
      turn45: 2.5,
      turn90: 5,
      free90: 0,
      ...(diagonals === "yes" ? { diagonal: Math.SQRT2 } : {}),
    };
    const route = cheapestRoute(planOf(plan!), costs);
    if (Number(cost_ft) === 0) expect(route).toBeUndefined();
    else expect(Math.abs(route!.cost - Number(cost_ft))).toBeLessThanOrEqual(tolerance);
  });

  test("never loses to brute force on small plans", () => {
    const plan = fc
      .record({ columns: fc.integer({ min: 2, max: 4 }), rows: fc.integer({ min: 1, max: 3 }) })
      .chain(({ columns, rows: count }) =>
        fc
          .tuple(
            fc.array(fc.boolean(), { minLength: columns * count, maxLength: columns * count }),
            fc.integer({ min: 0, max: columns * count - 1 }),
            fc.integer({ min: 0, max: columns * count - 1 }),
          )
          .filter(([, start, end]) => start !== end)
          .map(
            ([some, start, end]): Plan => ({
              columns,
              rows: count,
              free: some.map((isFree, i) => isFree || i === start || i === end),
              start,
              end,
            }),
          ),
      );
    const cost = fc.double({ min: 0.1, max: 6, noNaN: true });
    const costs = fc.record({
      straight: cost,
      diagonal: cost,
      turn45: cost,
      turn90: cost,
      free90: fc.integer({ min: 0, max: 2 }),
    });
    fc.assert(
      fc.property(plan, costs, (some, price) => {
        const route = cheapestRoute(some, price);
        const least = bruteForce(some, price);
        if (route === undefined) expect(least).toBe(Number.POSITIVE_INFINITY);
        else expect(route.cost).toBeLessThanOrEqual(least * (1 + 1e-12));
      }),
      { numRuns: 300 },
    );
  });

  test("its parts add up to its cost and its cells join", () => {
    const plan = planOf("S.........|....####..|....####..|.........E");
    const costs = { straight: 1, diagonal: Math.SQRT2, turn45: 2.5, turn90: 5, free90: 0 };
    const route = cheapestRoute(plan, costs)!;
    const { straights, diagonals, turns45, turns90 } = route;
    expect(straights + Math.SQRT2 * diagonals + 2.5 * turns45 + 5 * turns90).toBeCloseTo(route.cost, 9);
    expect(route.cells).toHaveLength(straights + diagonals + 1);
    expect([route.cells[0], route.cells.at(-1)]).toEqual([plan.start, plan.end]);
    for (const cell of route.cells) expect(plan.free[cell]).toBe(true);
  });
});

describe("venting/duct-options", () => {
  const options = (input: object, at = {}) =>
    ductOptions({ fuel: "electric", diameter: "4 in", ...input }, at).values.options as unknown as readonly {
      name: { text: string };
      developed: { si: number };
      resistance: { si: number };
    }[];

  test("shows the ways by resistance, and names the least by each measure", () => {
    const plan = { cell: "16 in", plan: ["S.........", "....####..", "....####..", ".........E"] };
    const list = options(plan);
    expect(list.length).toBeGreaterThan(1);
    list.slice(1).forEach(({ resistance }, i) => {
      expect(resistance.si).toBeGreaterThanOrEqual(list[i]!.resistance.si);
    });
    const { values } = ductOptions({ fuel: "electric", diameter: "4 in", ...plan });
    expect((values.bestByAir as { text: string }).text).toBe(list[0]!.name.text);
  });

  test("a long radius beats a mitre by either measure on the same way", () => {
    const layouts = (["4 in mitred", "10 in smooth"] as const).map((radius) => ({
      name: radius,
      straight: "15 ft",
      elbows: [{ radius, angle: "90°", count: 3 }],
    }));
    expect(options({ layouts }).map(({ name }) => name.text)).toEqual(["10 in smooth", "4 in mitred"]);
  });

  test("two 45s cost the code no less than a 90, and the air more room to turn in", () => {
    const layouts = [
      { name: "one 90", straight: "15 ft", elbows: [{ radius: "4 in mitred" as const, angle: "90°", count: 1 }] },
      { name: "two 45s", straight: "15 ft", elbows: [{ radius: "4 in mitred" as const, angle: "45°", count: 2 }] },
    ];
    const [first, second] = options({ layouts });
    expect(first!.name.text).toBe("two 45s");
    expect(first!.developed.si).toBeCloseTo(second!.developed.si, 9);
  });

  test("knows the elbows that the uniform code has in its length", () => {
    const layouts = [{ name: "two", straight: "12 ft", elbows: [{ radius: "4 in mitred", angle: "90°", count: 2 }] }];
    const uniform = options({ layouts }, { jurisdiction: { adopted: { umc: 2012 } } });
    expect(uniform[0]!.developed.si).toBeCloseTo(12 * 0.3048, 9);
  });

  test("asks for what is missing; points at what cannot be read", () => {
    expect(ductOptions({ fuel: "electric", diameter: "4 in", plan: ["SE"] }).missing).toMatchObject([
      { path: ["cell"] },
    ]);
    const read = ductOptions.try({ fuel: "electric", layouts: [{ name: "a", straight: "12", elbows: [] }] });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["layouts", 0, "straight"] });
  });
});
