import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brand, si } from "../../src/core/quantity/si.js";
import {
  cornerClearance,
  corridorForDoorway,
  doorClearWidth,
  doorwaySlant,
  type LeafPlace,
  longestTurning,
  shortestCarry,
  stairNeedAlong,
  stairNeedUpright,
  tiltedHeight,
  tooTallBetween,
} from "../../src/physics/index.js";
import { reference } from "../references.js";
import { expectPrinted } from "./published.js";

const m = (value: number) => brand<"length">(value);
const rad = (degrees: number) => brand<"angle">((degrees * Math.PI) / 180);
const deg = (angle: number) => (angle * 180) / Math.PI;
const finite = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
const corner = (first: number, second: number, degrees?: number) =>
  degrees === undefined
    ? { first: m(first), second: m(second) }
    : { first: m(first), second: m(second), angle: rad(degrees) };
const size = (length: number, width: number) => ({ length: m(length), width: m(width) });

/** A small generator of repeatable random numbers (Park and Miller's minimal standard). */
function randomFrom(seed: number): (min: number, max: number) => number {
  let state = seed;
  return (min, max) => {
    state = (state * 48271) % 2147483647;
    return min + ((max - min) * state) / 2147483647;
  };
}

describe("round a corner", () => {
  const turning = reference("physics/corner-turn.csv");
  test.each(turning.rows)("longest that turns, case $id", (row) => {
    const n = (name: string) => Number(row[name]);
    const { length, angle } = longestTurning(corner(n("first"), n("second"), n("corner_deg")), m(n("width")))!;
    expect(Math.abs(length - n("length"))).toBeLessThanOrEqual(turning.tolerance);
    if (row["angle_deg"] !== "") expect(Math.abs(deg(angle) - n("angle_deg"))).toBeLessThan(6e-5);
    expect(
      Math.abs(cornerClearance(corner(n("first"), n("second"), n("corner_deg")), size(length - 1e-6, n("width")))),
    ).toBeLessThan(
      // Case 4 is shorter than wide and slides; every other one has nothing to spare.
      row["id"] === "4" ? 2.001 : 1e-5,
    );
  });

  test.each(reference("physics/corner-pass.csv").rows)(
    "$length by $width in $first and $second: passes $passes",
    (row) => {
      const n = (name: string) => Number(row[name]);
      const place = corner(n("first"), n("second"));
      expect(cornerClearance(place, size(n("length"), n("width"))) >= 0).toBe(row["passes"] === "yes");
      const long = Math.max(n("length"), n("width"));
      const short = Math.min(n("length"), n("width"));
      const longest = longestTurning(place, m(short));
      expect(longest !== undefined && long <= longest.length).toBe(row["turns"] === "yes");
    },
  );

  test("closed forms: a thin ladder, and equal corridors", () => {
    fc.assert(
      fc.property(finite(0.5, 3), finite(0.5, 3), finite(0, 1), (w1, w2, share) => {
        expect(longestTurning(corner(w1, w2), m(0))!.length).toBeCloseTo((w1 ** (2 / 3) + w2 ** (2 / 3)) ** 1.5, 10);
        const b = share * w1;
        expect(longestTurning(corner(w1, w1), m(b))!.length).toBeCloseTo(2 * (Math.SQRT2 * w1 - b), 10);
        // A wide angle with equal corridors, by symmetry at half the turn.
        const half = Math.PI / 6;
        const wide = (2 * (w1 - b * Math.cos(half))) / Math.sin(half);
        expect(longestTurning(corner(w1, w1, 120), m(b))!.length).toBeCloseTo(wide, 10);
      }),
    );
  });

  test("a turned rectangle covers at most the square of the corridor (Hammersley and Gerver bound the sofa at 2.2)", () => {
    let most = 0;
    for (let b = 0.01; b <= 1; b += 0.01) most = Math.max(most, b * longestTurning(corner(1, 1), m(b))!.length);
    expect(most).toBeLessThanOrEqual(1);
    expect(most).toBeGreaterThan(0.999);
  });

  test("the same from either side and at any scale; a wider corridor never shortens it; a gentler corner never a thin one", () => {
    fc.assert(
      fc.property(
        finite(0.6, 2),
        finite(0.6, 2),
        finite(0, 1),
        finite(0, 1),
        finite(70, 150),
        (w1, w2, share, more, angle) => {
          const b = share * Math.min(w1, w2);
          const one = longestTurning(corner(w1, w2, angle), m(b))!.length;
          expect(Math.abs(longestTurning(corner(w2, w1, angle), m(b))!.length - one)).toBeLessThan(1e-7);
          expect(longestTurning(corner(w1 + more, w2, angle), m(b))!.length).toBeGreaterThanOrEqual(one - 1e-7);
          // A wide box can be the shorter for it: 2·(w − b·cos h)/sin h at half the turn h falls with h only for b < w·cos h.
          expect(longestTurning(corner(w1, w2, angle + 5), m(0))!.length).toBeGreaterThanOrEqual(
            longestTurning(corner(w1, w2, angle), m(0))!.length - 1e-7,
          );
          expect(longestTurning(corner(10 * w1, 10 * w2, angle), m(10 * b))!.length / 10).toBeCloseTo(one, 6);
        },
      ),
      { numRuns: 40 },
    );
  });

  /**
   * The motion played through, apart from the library: at each heading the box is pushed against both outer walls (its own
   * corners are moved until they touch) and its outline is cut down to what lies beyond both inner walls; the part left, if
   * any, is where it strikes. Millimetres. `turns` false as soon as a heading strikes.
   */
  function playsThrough(
    w1: number,
    w2: number,
    l: number,
    b: number,
    steps: number,
    from = 0,
    to = Math.PI / 2,
  ): { clear: boolean; tight: number } {
    let clear = true;
    let tight = from;
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i <= steps; i++) {
      const t = from + ((to - from) * i) / steps;
      const [c, s] = [Math.cos(t), Math.sin(t)];
      // Long side sloping down to the right, at t from the wall along x.
      const xs = [0, l * c, l * c + b * s, b * s];
      const ys = [0, -l * s, -l * s + b * c, b * c];
      const [x0, y0] = [Math.min(...xs), Math.min(...ys)];
      // What is beyond x = w1 of the outline: its corners there and where sides cross x = w1.
      let highest = Number.NEGATIVE_INFINITY;
      for (let j = 0; j < 4; j++) {
        const k = (j + 1) % 4;
        const [ax, ay, bx, by] = [xs[j]! - x0, ys[j]! - y0, xs[k]! - x0, ys[k]! - y0];
        if (ax > w1) highest = Math.max(highest, ay);
        if (ax > w1 !== bx > w1) highest = Math.max(highest, ay + ((w1 - ax) / (bx - ax)) * (by - ay));
      }
      const room = w2 - highest;
      if (room < 0) clear = false;
      if (room < least) {
        least = room;
        tight = t;
      }
    }
    return { clear, tight };
  }

  test("2500 random cases: 0.1 mm shorter plays through, 0.1 mm longer strikes", () => {
    const random = randomFrom(20_240_611);
    for (let count = 0; count < 2500; count++) {
      const [w1, w2] = [random(600, 2000), random(600, 2000)];
      const b = random(0, Math.min(w1, w2));
      const length = longestTurning(corner(w1 / 1000, w2 / 1000), m(b / 1000))!.length * 1000;
      const shorter = playsThrough(w1, w2, length - 0.1, b, 300);
      expect(shorter.clear, `${w1} ${w2} ${b} ${length}`).toBe(true);
      // Finer round the tightest heading, where it must not strike either.
      const near = Math.PI / 600;
      expect(playsThrough(w1, w2, length - 0.1, b, 100, shorter.tight - near, shorter.tight + near).clear).toBe(true);
      const longer = playsThrough(w1, w2, length + 0.1, b, 300);
      const closer = playsThrough(w1, w2, length + 0.1, b, 200, longer.tight - near, longer.tight + near);
      expect(closer.clear, `${w1} ${w2} ${b} ${length}`).toBe(false);
    }
  });

  test("passing or not: 2000 random boxes agree with the played motion or with sliding sideways", () => {
    const random = randomFrom(77_003);
    let [passed, slid] = [0, 0];
    for (let count = 0; count < 2000; count++) {
      const [w1, w2] = [random(600, 1500), random(600, 1500)];
      // Every third one nearly square and nearly as wide as a corridor, to slide if at all.
      const [l, b] =
        count % 3 === 0 ? [random(0.85, 1.01) * w1, random(0.85, 1.01) * w2] : [random(300, 2200), random(300, 1200)];
      const clearance = cornerClearance(corner(w1 / 1000, w2 / 1000), size(l / 1000, b / 1000)) * 1000;
      if (Math.abs(clearance) < 0.1) continue;
      const slides = (b <= w1 && l <= w2) || (l <= w1 && b <= w2);
      const [long, short] = [Math.max(l, b), Math.min(l, b)];
      const turns = short <= Math.min(w1, w2) && playsThrough(w1, w2, long, short, 600).clear;
      expect(clearance > 0, `${w1} ${w2} ${l} ${b}: ${clearance}`).toBe(slides || turns);
      if (clearance > 0) passed++;
      if (slides && !turns) slid++;
    }
    expect(passed).toBeGreaterThan(300);
    expect(slid).toBeGreaterThan(15);
  });

  test("any corner angle: 120 random cases against a motion played with turned walls", () => {
    const random = randomFrom(91);
    for (let count = 0; count < 120; count++) {
      const alpha = random(50, 150) * (Math.PI / 180);
      const [w1, w2] = [random(700, 1500), random(700, 1500)];
      const b = random(0, 0.9 * Math.min(w1, w2));
      const place = { first: m(w1 / 1000), second: m(w2 / 1000), angle: brand<"angle">(alpha) };
      const longest = longestTurning(place, m(b / 1000))!;
      const [length, tight] = [longest.length * 1000, longest.angle];
      for (const [extra, clear] of [
        [-0.1, true],
        [0.1, false],
      ] as const) {
        let strikes = false;
        const steps = 1000;
        for (let i = 0; i <= steps && !strikes; i++) {
          strikes = strikesWedge(alpha, w1, w2, length + extra, b, alpha + ((Math.PI - alpha) * i) / steps);
        }
        // Closer where the library says that it is tightest: there it must strike, or not, by itself.
        for (let i = -200; i <= 200 && !strikes; i++) {
          const t = Math.min(Math.PI, Math.max(alpha, Math.PI - tight + i * 1e-5));
          strikes = strikesWedge(alpha, w1, w2, length + extra, b, t);
        }
        expect(strikes, `${deg(alpha)} ${w1} ${w2} ${b} ${length} ${extra}`).toBe(!clear);
      }
    }
  });

  /** Whether a box pushed into a corner of angle alpha at heading t reaches beyond both inner walls; by clipping. */
  function strikesWedge(alpha: number, w1: number, w2: number, l: number, b: number, t: number): boolean {
    const [c, s] = [Math.cos(t), Math.sin(t)];
    const box = [
      [0, 0],
      [l * c, l * s],
      [l * c - b * s, l * s + b * c],
      [-b * s, b * c],
    ] as const;
    const [sin, cos] = [Math.sin(alpha), Math.cos(alpha)];
    const wall1 = ([, y]: readonly [number, number]) => y;
    const wall2 = ([x, y]: readonly [number, number]) => x * sin - y * cos;
    // Distances from both walls, moved so that the nearest corner touches each.
    const least1 = Math.min(...box.map(wall1));
    const least2 = Math.min(...box.map(wall2));
    let outline = box.map((p) => [wall1(p) - least1 - w1, wall2(p) - least2 - w2]);
    // In these coordinates the inner solid is where both are above 0; a straight side stays straight.
    for (const axis of [0, 1] as const) {
      outline = outline.flatMap((p, i) => {
        const q = outline[(i + 1) % outline.length]!;
        const cut = p[axis]! > 0 !== q[axis]! > 0;
        const share = p[axis]! / (p[axis]! - q[axis]!);
        const crossing = [[p[0]! + share * (q[0]! - p[0]!), p[1]! + share * (q[1]! - p[1]!)]];
        return [...(p[axis]! > 0 ? [p] : []), ...(cut ? crossing : [])];
      });
    }
    // What is left is convex, so its mean corner is inside it; all corners can be on the inner walls.
    const mean = (axis: 0 | 1) => outline.reduce((sum, p) => sum + p[axis]!, 0) / outline.length;
    return outline.length > 0 && mean(0) > 1e-6 && mean(1) > 1e-6;
  }

  test("clearance falls as the box grows, and rises with either corridor", () => {
    fc.assert(
      fc.property(
        finite(0.6, 1.5),
        finite(0.6, 1.5),
        finite(0.3, 1.8),
        finite(0.3, 1),
        finite(0.01, 0.3),
        finite(60, 140),
        (w1, w2, l, b, more, angle) => {
          const now = cornerClearance(corner(w1, w2, angle), size(l, b));
          expect(cornerClearance(corner(w1, w2, angle), size(l + more, b))).toBeLessThanOrEqual(now + 1e-9);
          expect(cornerClearance(corner(w1, w2, angle), size(l, b + more))).toBeLessThanOrEqual(now + 1e-9);
          expect(cornerClearance(corner(w1 + more, w2, angle), size(l, b))).toBeGreaterThanOrEqual(now - 1e-9);
          expect(cornerClearance(corner(w1, w2, angle), size(b, l))).toBeCloseTo(now, 9);
          expect(cornerClearance(corner(w2, w1, angle), size(l, b))).toBeCloseTo(now, 9);
        },
      ),
      { numRuns: 60 },
    );
  });

  test("exactly as wide as the corridor, in inches, still passes", () => {
    const inch = (value: number) => si(value, "in");
    const place = { first: inch(36), second: inch(36) };
    expect(cornerClearance(place, { length: inch(36), width: inch(36) })).toBeCloseTo(0, 12);
    expect(longestTurning(place, inch(36.1))).toBeUndefined();
    expect(longestTurning(place, inch(36))!.length).toBeCloseTo(inch(72 * (Math.SQRT2 - 1)), 9);
  });

  test.each([
    [() => longestTurning(corner(0, 1), m(0)), /corridors/],
    [() => longestTurning(corner(1, 1, 180), m(0)), /corner/],
    [() => longestTurning(corner(1, 1), m(-1)), /negative/],
    [() => cornerClearance(corner(1, 1), size(0, 1)), /box/],
  ])("refuses bad use %#", (call, message) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(message);
  });
});

describe("through a doorway", () => {
  const slants = reference("physics/doorway-slant.csv");
  test.each(slants.rows)("greatest slant, case $id", (row) => {
    const [c, t, b] = [m(Number(row["clear"])), m(Number(row["wall"])), m(Number(row["width"]))];
    const slant = doorwaySlant(c, t, b)!;
    expectPrinted(deg(slant), row["slant_deg"]!);
    expect(Math.abs(deg(slant) - Number(row["slant_shapely_deg"]))).toBeLessThanOrEqual(slants.tolerance);
    // The law itself.
    expect(b + t * Math.sin(slant) - c * Math.cos(slant)).toBeCloseTo(0, 9);
  });

  test("a doorway exactly as wide as the box takes it square only; a narrower one not at all", () => {
    expect(doorwaySlant(si(30, "in"), m(0.1), si(30, "in"))).toBe(0);
    expect(doorwaySlant(m(0.7), m(0.1), m(0.71))).toBeUndefined();
    expect(() => doorwaySlant(m(0), m(0.1), m(0.5))).toThrow(/doorway/);
  });

  const corridors = reference("physics/doorway-corridor.csv");
  test.each(corridors.rows)("least corridor in front, case $id", (row) => {
    const n = (name: string) => Number(row[name]);
    const { thinWall, thickWall } = corridorForDoorway(m(n("clear")), size(n("length"), n("width")))!;
    expect(Math.abs(thinWall - n("thin"))).toBeLessThanOrEqual(corridors.tolerance);
    expect(Math.abs(thickWall - n("thick"))).toBeLessThanOrEqual(corridors.tolerance);
    expect(thickWall).toBeLessThan(n("grid_high"));
    expect(thinWall).toBeGreaterThan(n("grid_low") - 0.6);
    // The thick wall is the corner of two corridors.
    expect(cornerClearance(corner(thickWall + 1e-6, n("clear")), size(n("length"), n("width")))).toBeGreaterThanOrEqual(
      0,
    );
    expect(cornerClearance(corner(thickWall - 1e-3, n("clear")), size(n("length"), n("width")))).toBeLessThan(0);
  });

  test("thin is never above thick, neither above the length of the box; wider doors never need more", () => {
    fc.assert(
      fc.property(finite(0.6, 1), finite(0.3, 2.2), finite(0.3, 1), finite(0, 0.3), (c, l, b, more) => {
        const need = corridorForDoorway(m(c), size(l, b));
        if (Math.min(l, b) > c + 1e-9) {
          expect(need).toBeUndefined();
          return;
        }
        expect(need!.thinWall).toBeLessThanOrEqual(need!.thickWall + 1e-9);
        expect(need!.thickWall).toBeLessThanOrEqual(Math.max(l, b) + 1e-9);
        expect(need!.thinWall).toBeGreaterThanOrEqual(Math.min(l, b) - 1e-9);
        const wider = corridorForDoorway(m(c + more), size(l, b))!;
        expect(wider.thinWall).toBeLessThanOrEqual(need!.thinWall + 1e-9);
        expect(wider.thickWall).toBeLessThanOrEqual(need!.thickWall + 1e-9);
      }),
    );
    expect(() => corridorForDoorway(m(0), size(1, 1))).toThrow(/doorway/);
  });

  test.each(reference("physics/door-clear.csv").rows)("clear width of a $leaf_in in leaf, $place", (row) => {
    const inch = (name: string) => si(Number(row[name]), "in");
    const door = {
      leaf: inch("leaf_in"),
      thickness: inch("thickness_in"),
      gap: si(1 / 8, "in"),
      stop: inch("stop_in"),
    };
    expect(doorClearWidth(door, row["place"] as LeafPlace)).toBeCloseTo(inch("clear_in"), 12);
    expect(doorClearWidth(door, "foldedBack")).toBe(doorClearWidth(door, "off"));
    expect(() => doorClearWidth({ ...door, gap: m(-1) }, "off")).toThrow(/negative/);
  });
});

describe("tilted", () => {
  const tilts = reference("physics/tilt.csv");
  test.each(tilts.rows)("$quantity of $height by $depth, case $id", (row) => {
    const [h, d] = [m(Number(row["height"])), m(Number(row["depth"]))];
    const quantity = row["quantity"]!;
    const peak = brand<"angle">(Math.atan2(d, h));
    const value = {
      diagonal: () => tiltedHeight(h, d, peak),
      peak_deg: () => {
        // The tallest tilt is found by looking, not by its formula.
        let best = 0;
        for (let i = 0; i <= 90_000; i++)
          if (tiltedHeight(h, d, rad(i / 1000)) > tiltedHeight(h, d, rad(best))) best = i / 1000;
        return best;
      },
      from_deg: () => deg(tooTallBetween(h, d, m(Number(row["headroom"])))!.from),
      to_deg: () => deg(tooTallBetween(h, d, m(Number(row["headroom"])))!.to),
    }[quantity]!();
    expect(Math.abs(value - Number(row["value"]))).toBeLessThanOrEqual(
      quantity === "peak_deg" ? 1.1e-3 : tilts.tolerance,
    );
  });

  test("the window is where the tilted height is above the headroom, and nowhere else", () => {
    fc.assert(
      fc.property(
        finite(0.5, 2.2),
        finite(0.5, 1),
        finite(0.4, 2.6),
        finite(0, Math.PI / 2),
        (h, d, headroom, tilt) => {
          const window = tooTallBetween(m(h), m(d), m(headroom));
          const height = tiltedHeight(m(h), m(d), brand<"angle">(tilt));
          if (Math.abs(height - headroom) < 1e-6) return;
          const inside = window !== undefined && tilt >= window.from && tilt <= window.to;
          expect(inside).toBe(height > headroom);
        },
      ),
      { numRuns: 1000 },
    );
  });

  test("a box as tall as its header clears it at every tilt up to the diagonal, given in inches", () => {
    const inch = (value: number) => si(value, "in");
    expect(tooTallBetween(inch(3), inch(4), inch(5))).toBeUndefined();
    expect(tooTallBetween(inch(3), inch(4), inch(4.9))).toBeDefined();
  });

  test("no possible tilt is shorter in plan than the shortest carry, and the stick formula is its thin limit", () => {
    fc.assert(
      fc.property(
        finite(0.5, 2.2),
        finite(0.2, 1),
        finite(0.5, 2.6),
        finite(0, Math.PI / 2),
        (l, h, headroom, tilt) => {
          const carry = shortestCarry(m(l), m(h), m(headroom));
          const possible = l * Math.sin(tilt) + h * Math.cos(tilt) <= headroom;
          if (carry === undefined) {
            expect(possible).toBe(false);
            return;
          }
          if (possible) expect(carry.plan).toBeLessThanOrEqual(l * Math.cos(tilt) + h * Math.sin(tilt) + 1e-9);
          expect(l * Math.sin(carry.tilt) + h * Math.cos(carry.tilt)).toBeLessThanOrEqual(headroom + 2e-9);
        },
      ),
      { numRuns: 1000 },
    );
    // Textbook exercise "turning a corner with a pole": halls of 3 and 4 ft under 8 ft take a stick of 12.7016 ft.
    const stick = shortestCarry(m(12.701626), m(1e-9), m(8))!;
    expect(stick.plan).toBeCloseTo(9.865663, 5);
    expect(shortestCarry(m(1), m(1), m(0.5))).toBeUndefined();
  });

  const stairs = reference("physics/stair.csv");
  test.each(stairs.rows)("headroom on the stair, case $id", (row) => {
    const pitch = brand<"angle">(Math.atan(7.75 / 10));
    const d = m(Number(row["depth"]));
    const need =
      row["carry"] === "along" ? stairNeedAlong(d, pitch) : stairNeedUpright(m(Number(row["height"])), d, pitch);
    expect(Math.abs(need - Number(row["need"]))).toBeLessThanOrEqual(stairs.tolerance);
  });

  test.each([
    [() => tiltedHeight(m(1), m(1), rad(91)), /tilt/],
    [() => tiltedHeight(m(0), m(1), rad(1)), /box/],
    [() => tooTallBetween(m(1), m(1), m(0)), /headroom/],
    [() => stairNeedAlong(m(1), rad(90)), /pitch/],
  ])("refuses bad use %#", (call, message) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(message);
  });
});
