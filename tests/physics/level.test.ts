import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Force, Length, Stiffness } from "../../src/core/quantity/dimension.js";
import { brand, si } from "../../src/core/quantity/si.js";
import {
  type BodySlope,
  carriedHeights,
  countedTurns,
  type FeetBase,
  type FootNumber,
  type FootTravel,
  type FourFeet,
  feetReactions,
  floorHeights,
  footPlane,
  levelStance,
  nearestShimStack,
  point,
  restStates,
  rockAngle,
  shimHeights,
  shimStack,
  slopedStance,
  twist,
} from "../../src/physics/index.js";
import { reference } from "../references.js";

const m = (value: number) => brand<"length">(value);
const degrees = (angle: number) => (angle * 180) / Math.PI;
const finite = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
const feet = (a: number, b: number, c: number, d: number) => [m(a), m(b), m(c), m(d)] as const;
const fourOf = (one: fc.Arbitrary<number>): fc.Arbitrary<FourFeet<Length>> =>
  fc.tuple(one, one, one, one).map(([a, b, c, d]) => feet(a, b, c, d));
const list = (cell: string | undefined) => {
  const [a, b, c, d] = cell!.split(";").map(Number);
  return feet(a!, b!, c!, d!);
};
const baseOf = fc
  .tuple(finite(0.3, 1), finite(0.3, 1))
  .map(([width, depth]): FeetBase => ({ width: m(width), depth: m(depth) }));
const slopeOf = (across: number, back: number): BodySlope => ({
  across: brand<"slope">(across),
  back: brand<"slope">(back),
});
const travelOf = (least: number, most: number): FootTravel => ({ least: m(least), most: m(most) });
const places = ({ width, depth }: FeetBase) =>
  [
    [-width / 2, -depth / 2],
    [width / 2, -depth / 2],
    [width / 2, depth / 2],
    [-width / 2, depth / 2],
  ] as const;

describe("twist, best plane and rock", () => {
  const { rows, tolerance } = reference("physics/four-feet.csv");
  test.each(rows)("agrees with the worked floor $id", (row) => {
    const heights = list(row["z"]);
    const base = { width: m(Number(row["width"])), depth: m(Number(row["depth"])) };
    const plane = footPlane(heights, base);
    expect(twist(heights)).toBeCloseTo(Number(row["twist"]), 12);
    expect(Math.abs(plane.across - Number(row["across"]))).toBeLessThanOrEqual(tolerance);
    expect(Math.abs(plane.back - Number(row["back"]))).toBeLessThanOrEqual(tolerance);
    for (const [i, sign] of [1, -1, 1, -1].entries()) {
      expect(plane.residuals[i]).toBeCloseTo(sign * Number(row["residual"]), 12);
    }
    expect(Math.abs(degrees(rockAngle(heights, base)) - Number(row["rock_deg"]))).toBeLessThan(6e-6);
    const small = Math.abs(twist(heights)) / ((base.width * base.depth) / Math.hypot(base.width, base.depth));
    expect(Math.abs(degrees(small) - Number(row["rock_small_deg"]))).toBeLessThan(6e-6);
  });

  test("adding a slope or a height to the floor changes neither twist nor residuals; turning once round flips the sign", () => {
    fc.assert(
      fc.property(
        fourOf(finite(-0.02, 0.02)),
        baseOf,
        finite(-0.1, 0.1),
        finite(-0.1, 0.1),
        finite(-1, 1),
        (z, base, a, b, c) => {
          const moved = places(base).map(([x, y], i) => z[i as 0]! + a * x + b * y + c);
          expect(twist(feet(moved[0]!, moved[1]!, moved[2]!, moved[3]!))).toBeCloseTo(twist(z), 12);
          expect(twist(feet(z[1], z[2], z[3], z[0]))).toBeCloseTo(-twist(z), 14);
          // Left and right changed over: 1 with 2, 4 with 3.
          const mirrored = footPlane(feet(z[1], z[0], z[3], z[2]), base);
          const plane = footPlane(z, base);
          expect(mirrored.across).toBeCloseTo(-plane.across, 14);
          expect(mirrored.back).toBeCloseTo(plane.back, 14);
        },
      ),
    );
  });

  test("each rest state lies on three of the heights and clears the fourth by the twist", () => {
    fc.assert(
      fc.property(fourOf(finite(-0.02, 0.02)), baseOf, (z, base) => {
        const { middle, residuals } = footPlane(z, base);
        expect(residuals[0]).toBeCloseTo(twist(z) / 4, 14);
        for (const { free, gap, across, back } of restStates(z, base)) {
          // The plane's height is fixed by the foot opposite the free one.
          const opposite = (free + 1) % 4;
          const [ox, oy] = places(base)[opposite]!;
          const height = z[opposite as 0] - across * ox - back * oy;
          for (const [i, [x, y]] of places(base).entries()) {
            const above = height + across * x + back * y - z[i as 0];
            expect(above).toBeCloseTo(i === free - 1 ? gap : 0, 12);
          }
          expect(Math.abs(height - middle)).toBeLessThanOrEqual(gap);
        }
      }),
    );
  });

  test("coplanar feet have no rest states and do not rock; bad sizes are refused", () => {
    const base = { width: m(0.5), depth: m(0.5) };
    expect(restStates(feet(0, 1, 2, 1), base)).toEqual([]);
    expect(rockAngle(feet(0, 1, 2, 1), base)).toBe(0);
    expect(() => twist(feet(0, Number.NaN, 0, 0))).toThrow(/finite/);
    expect(() => footPlane(feet(0, 0, 0, 0), { width: m(0), depth: m(1) })).toThrow(/no rectangle/);
  });
});

describe("from a level's readings to the feet", () => {
  const base: FeetBase = { width: m(0.6), depth: m(0.5) };

  test("right side high by 6 mm and back high by 5 mm: the front left is lowest, the back right highest", () => {
    const s = carriedHeights(base, slopeOf(0.01, 0.01));
    expect(s.map((h) => Math.round(h * 1e6) / 1e3)).toEqual([-5.5, 0.5, 5.5, -0.5]);
  });

  test("setting the feet as told makes the body level and stops the rock, whatever was read", () => {
    const foot = fc.constantFrom<FootNumber>(1, 2, 3, 4);
    fc.assert(
      fc.property(
        baseOf,
        finite(-0.03, 0.03),
        finite(-0.03, 0.03),
        foot,
        finite(0, 0.01),
        fc.constantFrom("lowest", "leastTurn", "fewestFeet"),
        (feetBase, a, b, free, gap, aim) => {
          const extensions = feet(0.02, 0.025, 0.03, 0.022);
          const carried = carriedHeights(feetBase, slopeOf(a, b), { foot: free, gap: m(gap) });
          expect(Math.abs(twist(carried))).toBeCloseTo(gap, 12);
          const floor = floorHeights(carried, extensions);
          const stance = levelStance(floor, extensions, travelOf(0.002, 0.2), aim)!;
          for (const [i, change] of stance.changes.entries()) {
            expect(carried[i as 0] + change).toBeCloseTo(stance.height, 12);
            expect(stance.extensions[i as 0]).toBeGreaterThanOrEqual(0.002 - 1e-12);
          }
        },
      ),
    );
  });

  test("a floor that is high at a foot needs that foot in: sign of the change", () => {
    const stance = levelStance(feet(0, 0, 0.004, 0), feet(0.01, 0.01, 0.01, 0.01), travelOf(0, 0.03), "leastTurn")!;
    expect(stance.changes.map((c) => Math.round(c * 1e6) / 1e3)).toEqual([2, 2, -2, 2]);
  });

  test("refuses readings that are none", () => {
    expect(() => carriedHeights(base, slopeOf(Number.NaN, 0))).toThrow(/slope/);
    expect(() => carriedHeights(base, slopeOf(0, 0), { foot: 1, gap: m(-0.001) })).toThrow(/gap/);
    expect(() => levelStance(feet(0, 0, 0, 0), feet(0, 0, 0, 0), travelOf(0.02, 0.01), "lowest")).toThrow(/travel/);
  });
});

describe("levelStance", () => {
  const { rows, tolerance } = reference("physics/level-height.csv");
  test.each(rows)("agrees with the worked case $id", (row) => {
    const stance = levelStance(
      list(row["floor"]),
      list(row["extensions"]),
      travelOf(Number(row["least"]), Number(row["most"])),
      "leastTurn",
    );
    if (row["height"] === "none") {
      expect(stance).toBeUndefined();
      return;
    }
    expect(Math.abs(stance!.height - Number(row["height"]))).toBeLessThanOrEqual(tolerance);
    expect(Math.abs(stance!.largest - Number(row["largest"]))).toBeLessThanOrEqual(tolerance);
    for (const [i, change] of list(row["changes"]).entries()) {
      expect(Math.abs(stance!.changes[i as 0] - change)).toBeLessThanOrEqual(tolerance);
    }
  });

  test("lowest is the least height that works, least turn no turn beats, fewest feet keeps the most", () => {
    const extension = finite(0.005, 0.02);
    fc.assert(
      fc.property(fourOf(finite(0, 0.02)), fourOf(extension), finite(0, 1), (floor, extensions, share) => {
        const travel = travelOf(0.003, 0.025);
        const lowest = levelStance(floor, extensions, travel, "lowest")!;
        const least = levelStance(floor, extensions, travel, "leastTurn")!;
        const fewest = levelStance(floor, extensions, travel, "fewestFeet")!;
        const range = Math.max(...floor) - Math.min(...floor);
        expect(range <= 0.022 ? lowest : undefined).toBe(lowest);
        // Any other possible height.
        const other = lowest.height + share * (0.022 - range);
        const changes = floor.map((f, i) => other - f - extensions[i as 0]);
        const worst = Math.max(...changes.map(Math.abs));
        expect(least.largest).toBeLessThanOrEqual(worst + 1e-12);
        expect(lowest.height).toBeLessThanOrEqual(Math.min(least.height, fewest.height, other) + 1e-12);
        const kept = (list: readonly number[]) => list.filter((c) => Math.abs(c) < 1e-9).length;
        expect(kept(fewest.changes)).toBeGreaterThanOrEqual(Math.max(kept(changes), kept(least.changes)));
      }),
    );
  });

  test("raising the whole floor changes no turn; a higher stance limit never makes the turn larger", () => {
    fc.assert(
      fc.property(
        fourOf(finite(0, 0.01)),
        fourOf(finite(0.005, 0.02)),
        finite(-2, 2),
        finite(0, 0.02),
        (floor, extensions, up, more) => {
          const one = levelStance(floor, extensions, travelOf(0, 0.02), "leastTurn")!;
          const raised = levelStance(
            feet(floor[0] + up, floor[1] + up, floor[2] + up, floor[3] + up),
            extensions,
            travelOf(0, 0.02),
            "leastTurn",
          )!;
          for (const i of [0, 1, 2, 3] as const) expect(raised.changes[i]).toBeCloseTo(one.changes[i], 12);
          const longer = levelStance(floor, extensions, travelOf(0, 0.02 + more), "leastTurn")!;
          expect(longer.largest).toBeLessThanOrEqual(one.largest + 1e-12);
        },
      ),
    );
  });

  test("a floor whose range is exactly the travel, given in inches, can be levelled", () => {
    const inch = (value: number) => si(value, "in");
    const floor = [inch(0), inch(0.3), inch(0.7), inch(0.1)] as const;
    const stance = levelStance(
      floor,
      [inch(0.2), inch(0.2), inch(0.2), inch(0.2)],
      { least: inch(0.1), most: inch(0.8) },
      "leastTurn",
    );
    expect(stance!.extensions[2]).toBeCloseTo(inch(0.1), 12);
    expect(stance!.extensions[0]).toBeCloseTo(inch(0.8), 12);
  });
});

describe("slopedStance", () => {
  const inch = (value: number) => si(value, "in");
  const base: FeetBase = { width: inch(24), depth: inch(22) };
  const equal = [inch(0.25), inch(0.25), inch(0.25), inch(0.25)] as const;

  test("agrees with the linear program of a worked case (scipy, 1/8 in per 24 in): largest 0.0677083 in", () => {
    const floor = [inch(0), inch(0.25), inch(0.375), inch(0.125)] as const;
    const stance = slopedStance(
      floor,
      equal,
      { least: inch(0), most: inch(1) },
      base,
      slopeOf(0.125 / 24, 0.125 / 24),
    )!;
    expect(Math.abs(stance.largest / inch(0.0677083) - 1)).toBeLessThan(1e-6);
    expect(stance.across).toBeCloseTo(0.0052083, 7);
    expect(stance.back).toBeCloseTo(0.0052083, 7);
    // The worked plane starts at foot 1; here the height is that of the middle.
    expect(Math.abs(stance.height / inch(0.3177083 + 0.0052083333 * 23) - 1)).toBeLessThan(1e-6);
  });

  test("with no slope allowed it is the level stance; with any slope allowed a quarter of the twist is left", () => {
    fc.assert(
      fc.property(fourOf(finite(0, 0.01)), fourOf(finite(0.01, 0.02)), baseOf, (floor, extensions, feetBase) => {
        const travel = travelOf(0, 0.05);
        const flat = slopedStance(floor, extensions, travel, feetBase, slopeOf(0, 0))!;
        expect(flat.largest).toBeCloseTo(levelStance(floor, extensions, travel, "leastTurn")!.largest, 10);
        const free = slopedStance(floor, extensions, travel, feetBase, slopeOf(1, 1))!;
        const carried = feet(
          floor[0] + extensions[0],
          floor[1] + extensions[1],
          floor[2] + extensions[2],
          floor[3] + extensions[3],
        );
        expect(free.largest).toBeCloseTo(Math.abs(twist(carried)) / 4, 10);
      }),
    );
  });

  test("keeps every limit and is beaten by no setting drawn at random", () => {
    fc.assert(
      fc.property(
        fourOf(finite(0, 0.015)),
        fourOf(finite(0, 0.02)),
        baseOf,
        fc.array(fc.tuple(finite(-1, 1), finite(-1, 1), finite(-0.01, 0.05)), { minLength: 30, maxLength: 30 }),
        (floor, extensions, feetBase, drawn) => {
          const limit = slopeOf(0.004, 0.006);
          const travel = travelOf(0.002, 0.02);
          const stance = slopedStance(floor, extensions, travel, feetBase, limit);
          const largestOf = (a: number, b: number, c: number) => {
            let largest = 0;
            for (const [i, [x, y]] of places(feetBase).entries()) {
              const extension = a * x + b * y + c - floor[i as 0];
              if (extension < travel.least || extension > travel.most) return undefined;
              largest = Math.max(largest, Math.abs(extension - extensions[i as 0]));
            }
            return largest;
          };
          for (const [u, v, c] of drawn) {
            const largest = largestOf(u * limit.across, v * limit.back, c);
            if (largest === undefined) continue;
            expect(stance).toBeDefined();
            expect(stance!.largest).toBeLessThanOrEqual(largest + 1e-10);
          }
          if (stance === undefined) return;
          expect(Math.abs(stance.across)).toBeLessThanOrEqual(limit.across + 1e-10);
          expect(Math.abs(stance.back)).toBeLessThanOrEqual(limit.back + 1e-10);
          for (const e of stance.extensions) {
            expect(e).toBeGreaterThanOrEqual(travel.least - 1e-10);
            expect(e).toBeLessThanOrEqual(travel.most + 1e-10);
          }
          expect(Math.max(...stance.changes.map(Math.abs))).toBeCloseTo(stance.largest, 10);
        },
      ),
      { numRuns: 300 },
    );
  });

  test("says so when a slope within the limit is not enough", () => {
    const floor = [inch(0), inch(0.5), inch(0.75), inch(0.25)] as const;
    expect(
      slopedStance(floor, equal, { least: inch(0), most: inch(0.4) }, base, slopeOf(0.001, 0.001)),
    ).toBeUndefined();
    expect(() => slopedStance(floor, equal, travelOf(0, 0.01), base, slopeOf(-1, 0))).toThrow(/limit/);
  });
});

describe("countedTurns", () => {
  /** The same choice by trying every count within five steps of the nearest, with formulas of its own. */
  function bruteForce(
    carried: FourFeet<Length>,
    changes: FourFeet<Length>,
    { width, depth }: FeetBase,
    q: number,
    range?: { extensions: FourFeet<Length>; travel: FootTravel },
  ) {
    const reach = 5;
    let best: { rock: number; rise: number; off: number } | undefined;
    const near = changes.map((c) => Math.round(c / q));
    const inside = (i: number, n: number) => {
      if (range === undefined) return true;
      const e = range.extensions[i as 0] + n * q;
      return e >= range.travel.least - 1e-9 && e <= range.travel.most + 1e-9;
    };
    const counts = near.map((n, i) =>
      Array.from({ length: 2 * reach + 1 }, (_, j) => n - reach + j).filter((c) => inside(i, c)),
    );
    for (const a of counts[0]!)
      for (const b of counts[1]!)
        for (const c of counts[2]!)
          for (const d of counts[3]!) {
            const z = [carried[0] + a * q, carried[1] + b * q, carried[2] + c * q, carried[3] + d * q] as const;
            const k = z[0] + z[2] - z[1] - z[3];
            const rock = Math.abs(k);
            if (best !== undefined && rock > best.rock + 1e-9) continue;
            // Across and back along the two sides that meet at each of the feet that can hang.
            const states =
              k > 0
                ? [
                    [z[2] - z[3], z[3] - z[0]],
                    [z[1] - z[0], z[2] - z[1]],
                  ]
                : [
                    [z[2] - z[3], z[2] - z[1]],
                    [z[1] - z[0], z[3] - z[0]],
                  ];
            const rise =
              Math.max(...states.map(([x, y]) => Math.hypot(x! / width, y! / depth))) * Math.max(width, depth);
            const off = Math.max(...[a, b, c, d].map((n, i) => Math.abs(n * q - changes[i as 0])));
            const better =
              best === undefined ||
              rock < best.rock - 1e-9 ||
              rise < best.rise - 1e-9 ||
              (rise < best.rise + 1e-9 && off < best.off - 1e-9);
            if (better) best = { rock, rise, off };
          }
    return best;
  }

  const lead = si(1 / 18, "in");
  const q = lead / 4;

  test("finds what trying every count finds, with and without the ends of the travel", () => {
    fc.assert(
      fc.property(
        baseOf,
        fourOf(finite(-0.006, 0.006)),
        fourOf(finite(0.004, 0.02)),
        fc.boolean(),
        fc.constantFrom("lowest", "leastTurn"),
        (base, carried, extensions, bounded, aim) => {
          const travel = travelOf(0.004, 0.03);
          const stance = levelStance(floorHeights(carried, extensions), extensions, travel, aim);
          if (stance === undefined) return;
          const range = bounded ? { extensions, travel } : undefined;
          const found = countedTurns(carried, stance.changes, base, lead, 1 / 4, range);
          const wanted = bruteForce(carried, stance.changes, base, q, range);
          expect(found === undefined).toBe(wanted === undefined);
          if (found === undefined) return;
          expect(found.rock).toBeCloseTo(wanted!.rock, 8);
          expect(found.tilt * Math.max(base.width, base.depth)).toBeCloseTo(wanted!.rise, 8);
          const off = Math.max(...found.steps.map((n, i) => Math.abs(n * q - stance.changes[i as 0])));
          expect(Math.abs(off - wanted!.off)).toBeLessThan(3e-9);
        },
      ),
      { numRuns: 60 },
    );
  });

  test("never leaves more rock than half a step, where rounding each foot on its own leaves up to two steps", () => {
    let worstAlone = 0;
    fc.assert(
      fc.property(baseOf, fourOf(fc.integer({ min: -10_000, max: 10_000 }).map((n) => n * 1e-6)), (base, carried) => {
        const changes = feet(-carried[0], -carried[1], -carried[2], -carried[3]);
        const { rock, light, tilt, steps, turns } = countedTurns(carried, changes, base, lead)!;
        expect(rock).toBeLessThanOrEqual(q / 2 + 1e-9);
        expect(light).toHaveLength(rock <= 1e-9 ? 0 : 2);
        for (const [i, turn] of turns.entries()) expect(turn).toBe(steps[i as 0] / 4);
        // Two feet that differ by a step over the shorter side, on both axes.
        expect(tilt).toBeLessThanOrEqual(Math.hypot(q / base.width, q / base.depth) + 1e-9);
        const alone = carried.map((s, i) => s + Math.round(changes[i as 0] / q) * q);
        worstAlone = Math.max(worstAlone, Math.abs(alone[0]! - alone[1]! + alone[2]! - alone[3]!));
      }),
      { numRuns: 500 },
    );
    expect(worstAlone).toBeGreaterThan(q);
  });

  test("whole steps are kept as they are", () => {
    const carried = feet(0, -2 * q, -3 * q, -q);
    const { steps, rock, tilt } = countedTurns(
      carried,
      feet(0, 2 * q, 3 * q, q),
      { width: m(0.6), depth: m(0.5) },
      lead,
    )!;
    expect(steps).toEqual([0, 2, 3, 1]);
    expect(rock).toBeLessThan(1e-12);
    expect(tilt).toBeLessThan(1e-12);
  });

  test("refuses a screw that moves nothing; finds nothing where the travel holds no whole step", () => {
    const level = feet(0, 0, 0, 0);
    const base = { width: m(0.6), depth: m(0.5) };
    expect(() => countedTurns(level, level, base, m(0))).toThrow(/moves no foot/);
    const range = { extensions: feet(0.01, 0.01, 0.01, 0.01), travel: travelOf(0.0101, 0.0102) };
    expect(countedTurns(level, feet(1e-4, 1e-4, 1e-4, 1e-4), base, lead, 1 / 4, range)).toBeUndefined();
  });
});

describe("feetReactions", () => {
  const { rows, tolerance } = reference("physics/feet-load.csv");
  test.each(rows)("agrees with the least spring energy in case $id", (row) => {
    const n = (name: string) => Number(row[name]);
    const forces = feetReactions(
      brand<"force">(n("weight_lbf")),
      point(n("x_in"), n("y_in")),
      { width: m(n("width_in")), depth: m(n("depth_in")) },
      brand<"stiffness">(n("stiffness_lbf_per_in")),
      list(row["heights_in"]),
    )!;
    for (const [i, force] of list(row["reactions_lbf"]).entries()) {
      expect(Math.abs(forces[i as 0] - force)).toBeLessThanOrEqual(tolerance);
    }
  });

  const weight = brand<"force">(900) as Force;
  const stiffness = brand<"stiffness">(2e5) as Stiffness;
  const cases = fc.tuple(baseOf, finite(-1, 1), finite(-1, 1), fourOf(finite(-0.008, 0.008)));

  test("balances the weight and its moments, and never pulls", () => {
    fc.assert(
      fc.property(cases, ([base, u, v, heights]) => {
        const centre = point((u * base.width) / 2, (v * base.depth) / 2);
        const forces = feetReactions(weight, centre, base, stiffness, heights)!;
        let [sum, mx, my] = [0, 0, 0];
        for (const [i, [x, y]] of places(base).entries()) {
          const force = forces[i as 0];
          expect(force).toBeGreaterThanOrEqual(0);
          sum += force;
          mx += force * x;
          my += force * y;
        }
        expect(Math.abs(sum - weight)).toBeLessThan(1e-5);
        expect(Math.abs(mx - weight * centre.x)).toBeLessThan(1e-5);
        expect(Math.abs(my - weight * centre.y)).toBeLessThan(1e-5);
      }),
      { numRuns: 500 },
    );
  });

  test("is the least energy of one-sided springs: Newton's method apart finds the same forces", () => {
    fc.assert(
      fc.property(cases, ([base, u, v, heights]) => {
        const centre = point((u * base.width) / 2, (v * base.depth) / 2);
        const forces = feetReactions(weight, centre, base, stiffness, heights)!;
        expect(energyForces(base, centre, heights)).toSatisfy((other: number[]) =>
          other.every((f, i) => Math.abs(f - forces[i as 0]) < 0.01),
        );
      }),
      { numRuns: 300 },
    );
  });

  function energyForces(base: FeetBase, centre: { x: number; y: number }, heights: FourFeet<Length>): number[] {
    // Unknown body plane h = c + a·x + b·y, scaled; energy ½·k·Σ max(0, s − h)² + W·h(centre), made strictly convex by a
    // trace of a spring that pulls too.
    const unit = 1e-3;
    const at = places(base).map(([x, y]) => [1, (2 * x) / base.width, (2 * y) / base.depth]);
    const w = [1, (2 * centre.x) / base.width, (2 * centre.y) / base.depth];
    const trace = 1e-9;
    const gap = (p: number[], i: number) => heights[i as 0] / unit - p.reduce((sum, pj, j) => sum + pj * at[i]![j]!, 0);
    const k = (stiffness * unit) / weight;
    const energy = (p: number[]) =>
      at.reduce((sum, _, i) => sum + (k / 2) * (gap(p, i) > 0 ? 1 : trace) * gap(p, i) ** 2, 0) +
      p.reduce((sum, pj, j) => sum + pj * w[j]!, 0);
    // Start with every spring pressed.
    let p = [-100, 0, 0];
    for (let count = 0; count < 200; count++) {
      const g = w.map((wj, j) =>
        at.reduce((sum, row, i) => sum - k * (gap(p, i) > 0 ? 1 : trace) * gap(p, i) * row[j]!, wj),
      );
      const h = w.map((_, r) =>
        w.map((__, c) => at.reduce((sum, row, i) => sum + k * (gap(p, i) > 0 ? 1 : trace) * row[r]! * row[c]!, 0)),
      );
      const det = (a: number[][]) =>
        a[0]![0]! * (a[1]![1]! * a[2]![2]! - a[1]![2]! * a[2]![1]!) -
        a[0]![1]! * (a[1]![0]! * a[2]![2]! - a[1]![2]! * a[2]![0]!) +
        a[0]![2]! * (a[1]![0]! * a[2]![1]! - a[1]![1]! * a[2]![0]!);
      const whole = det(h);
      const step = w.map((_, j) => det(h.map((row, r) => row.map((value, c) => (c === j ? -g[r]! : value)))) / whole);
      let share = 1;
      const now = energy(p);
      while (share > 1e-12 && energy(p.map((pj, j) => pj + share * step[j]!)) > now) share /= 2;
      const next = p.map((pj, j) => pj + share * step[j]!);
      const done = Math.max(...next.map((value, j) => Math.abs(value - p[j]!))) < 1e-14;
      p = next;
      if (done) break;
    }
    return at.map((_, i) => Math.max(0, gap(p, i)) * k * weight);
  }

  test("mirrored, the forces are mirrored; stiffer feet never make a centred machine share its weight better", () => {
    fc.assert(
      fc.property(cases, ([base, u, v, z]) => {
        const forces = feetReactions(weight, point((u * base.width) / 2, (v * base.depth) / 2), base, stiffness, z)!;
        const mirrored = feetReactions(
          weight,
          point((-u * base.width) / 2, (v * base.depth) / 2),
          base,
          stiffness,
          feet(z[1], z[0], z[3], z[2]),
        )!;
        for (const [i, j] of [
          [0, 1],
          [1, 0],
          [2, 3],
          [3, 2],
        ] as const)
          expect(Math.abs(mirrored[i] - forces[j])).toBeLessThan(1e-5);
        const [soft, stiffer] = [stiffness, brand<"stiffness">(2 * stiffness)].map(
          (k) => feetReactions(weight, point(0, 0), base, k, z)!,
        );
        expect(Math.min(...stiffer!)).toBeLessThanOrEqual(Math.min(...soft!) + 1e-5);
      }),
    );
  });

  test("a centre beyond the feet falls over; on the edge it stands on that edge", () => {
    const base = { width: m(0.6), depth: m(0.5) };
    const flat = feet(0, 0, 0, 0);
    expect(feetReactions(weight, point(0.31, 0), base, stiffness, flat)).toBeUndefined();
    const edge = feetReactions(weight, point(0.3, 0), base, stiffness, flat)!;
    expect(edge.map((f) => Math.round(f * 1e6) / 1e6)).toEqual([0, 450, 450, 0]);
    expect(() => feetReactions(brand<"force">(0), point(0, 0), base, stiffness, flat)).toThrow(/weight/);
    expect(() => feetReactions(weight, point(0, 0), base, brand<"stiffness">(0), flat)).toThrow(/stiffness/);
    expect(() => feetReactions(weight, point(Number.NaN, 0), base, stiffness, flat)).toThrow(/centre/);
    expect(() => feetReactions(weight, point(0, 0), { width: m(0), depth: m(1) }, stiffness, flat)).toThrow(
      /rectangle/,
    );
  });
});

describe("shims", () => {
  const { rows } = reference("physics/shim-heights.csv");
  test.each(rows)("reachable heights with at most $most pieces of 1/32, 1/16, 1/8 and 1/4 in", (row) => {
    const heights = shimHeights([1, 2, 4, 8], Number(row["most"]));
    expect(heights).toHaveLength(Number(row["count"]));
    expect(heights.at(-1)).toBe(Number(row["greatest"]));
    const missing = Array.from({ length: Number(row["greatest"]) }, (_, i) => i).filter((h) => !heights.includes(h));
    expect(missing.join(";")).toBe(row["missing"]);
  });

  test("has the fewest pieces of all stacks listed one by one", () => {
    const sizes = fc.uniqueArray(fc.integer({ min: 1, max: 12 }), { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(sizes, fc.integer({ min: 0, max: 5 }), fc.integer({ min: 0, max: 40 }), (set, most, height) => {
        // Every multiset of at most five pieces.
        const fewest = new Map<number, number>([[0, 0]]);
        let layer = [0];
        for (let pieces = 1; pieces <= most; pieces++) {
          layer = layer.flatMap((h) => set.map((s) => h + s));
          for (const h of layer) if (!fewest.has(h)) fewest.set(h, pieces);
        }
        const stack = shimStack(height, set, most);
        expect(stack?.pieces).toBe(fewest.get(height));
        expect([...fewest.keys()].sort((a, b) => a - b)).toEqual(shimHeights(set, most));
        if (stack === undefined) return;
        expect(stack.counts.reduce((sum, n, i) => sum + n * set[i]!, 0)).toBe(height);
        expect(stack.counts.reduce((sum, n) => sum + n, 0)).toBe(stack.pieces);
      }),
    );
  });

  test("the nearest stack is nearer than any other, the lower of two", () => {
    expect(nearestShimStack(6.5, [1, 2, 4, 8], 4).height).toBe(6);
    expect(nearestShimStack(7.2, [1, 2, 4, 8], 2)).toEqual({ height: 8, counts: [0, 0, 0, 1], pieces: 1 });
    expect(nearestShimStack(99, [1, 2, 4, 8], 2).height).toBe(16);
    expect(nearestShimStack(0.4, [1], 3).pieces).toBe(0);
  });

  test.each([
    [() => shimStack(1.5, [1], 2), /not whole/],
    [() => shimStack(1, [0.5], 2), /whole numbers/],
    [() => shimStack(1, [], 2), /whole numbers/],
    [() => shimStack(1, [1], 1.5), /most pieces/],
    [() => shimHeights([1_000_000], 9), /not counted/],
    [() => nearestShimStack(-1, [1], 1), /gap/],
  ])("refuses bad use %#", (call, message) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(message);
  });
});
