import Flatten from "@flatten-js/core";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brand, si } from "../../src/core/quantity/si.js";
import {
  type Box,
  box,
  boxPolygon,
  clashes,
  convexPolygon,
  freeOpening,
  freePlaces,
  freeSpans,
  type Leaf,
  leafEnvelope,
  leafOutline,
  leftOf,
  nearestOnSegment,
  overlappingBoxes,
  type Point,
  type Polygon,
  penetration,
  point,
  pointDistance,
  pointSegmentDistance,
  polygonArea,
  polygonContains,
  polygonDistance,
  polygonSides,
  polygonsOverlap,
  type Sector,
  sectorArea,
  sectorPointDistance,
  sectorPolygonDistance,
  sectorSharedArea,
  sectorsMeet,
  segmentDistance,
  segmentsMeet,
  sharedArea,
  swingsFree,
  turnedRectangle,
  turnOf,
} from "../../src/physics/index.js";
import { reference } from "../references.js";

const m = (value: number) => brand<"length">(value);
const a = (value: number) => brand<"angle">(value);
const deg = (angle: number) => (angle * 180) / Math.PI;
// Coordinates in millimetres keep drawn shapes clear of rounding.
const mm = (min: number, max: number) => fc.integer({ min, max }).map((n) => n / 1000);
const anyPoint = fc.tuple(mm(-1200, 1200), mm(-1200, 1200)).map(([x, y]) => point(x, y));
const anyRectangle = fc
  .tuple(anyPoint, mm(50, 1500), mm(50, 1500), mm(-3142, 3142))
  .map(([middle, w, d, heading]) => turnedRectangle(middle, m(w), m(d), a(heading)));

/** The outside library counts lengths below 1e-6 as nothing, so its distances can be off by as much. */
const THEIR_TOLERANCE = 2e-6;

const flat = (p: Point) => new Flatten.Point(p.x, p.y);
const flatPolygon = (polygon: Polygon) => new Flatten.Polygon(polygon.map(flat));
const flatSegment = ({ from, to }: { from: Point; to: Point }) => new Flatten.Segment(flat(from), flat(to));

const turnedBy = (p: Point, angle: number, x = 0, y = 0): Point =>
  point(p.x * Math.cos(angle) - p.y * Math.sin(angle) + x, p.x * Math.sin(angle) + p.y * Math.cos(angle) + y);

describe("points and segments", () => {
  test("distances agree with an outside geometry library", () => {
    fc.assert(
      fc.property(anyPoint, anyPoint, anyPoint, anyPoint, (p, q, r, s) => {
        fc.pre(pointDistance(p, q) > 0.01 && pointDistance(r, s) > 0.01);
        expect(pointDistance(p, q)).toBeCloseTo(flat(p).distanceTo(flat(q))[0], 9);
        expect(pointSegmentDistance(p, { from: r, to: s })).toBeCloseTo(
          flat(p).distanceTo(flatSegment({ from: r, to: s }))[0],
          9,
        );
        const [one, two] = [
          { from: p, to: q },
          { from: r, to: s },
        ];
        const [theirs] = flatSegment(one).distanceTo(flatSegment(two));
        expect(Math.abs(segmentDistance(one, two) - theirs)).toBeLessThan(THEIR_TOLERANCE);
        if (theirs > 1e-5) expect(segmentsMeet(one, two)).toBe(false);
      }),
      { numRuns: 500 },
    );
  });

  test("segments that touch at an end, lie in each other or have no length", () => {
    const [o, e, n] = [point(0, 0), point(2, 0), point(2, 3)];
    expect(segmentsMeet({ from: o, to: e }, { from: e, to: n })).toBe(true);
    expect(segmentsMeet({ from: o, to: e }, { from: point(1, 0), to: point(5, 0) })).toBe(true);
    expect(segmentsMeet({ from: o, to: e }, { from: point(3, 0), to: point(5, 0) })).toBe(false);
    expect(segmentDistance({ from: o, to: e }, { from: point(3, 0), to: point(5, 0) })).toBe(1);
    expect(pointSegmentDistance(n, { from: o, to: o })).toBeCloseTo(Math.hypot(2, 3), 12);
    expect(nearestOnSegment(n, { from: o, to: e })).toEqual(e);
    expect(turnOf(o, e, n)).toBe(6);
  });
});

describe("convex polygons", () => {
  test("area, containment, distance and shared area agree with an outside geometry library", () => {
    let overlapping = 0;
    fc.assert(
      fc.property(anyRectangle, anyRectangle, anyPoint, (one, two, p) => {
        const [f, g] = [flatPolygon(one), flatPolygon(two)];
        expect(polygonArea(one)).toBeCloseTo(f.area(), 8);
        if (f.distanceTo(flat(p))[0] > 1e-6) expect(polygonContains(one, p)).toBe(f.contains(flat(p)));
        const shared = sharedArea(one, two);
        const deep = penetration(one, two);
        if (Math.abs(deep) < 1e-6) return;
        const theirs = Flatten.BooleanOperations.intersect(f, g).area();
        expect(Math.abs(shared - theirs)).toBeLessThan(1e-5);
        expect(sharedArea(two, one)).toBeCloseTo(shared, 9);
        expect(polygonsOverlap(one, two)).toBe(theirs > 0);
        if (deep > 0) overlapping++;
        else expect(Math.abs(polygonDistance(one, two) - f.distanceTo(g)[0])).toBeLessThan(THEIR_TOLERANCE);
      }),
      { numRuns: 400 },
    );
    expect(overlapping).toBeGreaterThan(40);
  });

  test("the penetration is the least shift that parts them", () => {
    fc.assert(
      fc.property(
        anyRectangle,
        anyRectangle,
        fc.array(mm(-3142, 3142), { minLength: 20, maxLength: 20 }),
        (one, two, headings) => {
          const deep = penetration(one, two);
          fc.pre(deep > 1e-6);
          const shifted = (heading: number, by: number) =>
            two.map((p) => point(p.x + by * Math.cos(heading), p.y + by * Math.sin(heading)));
          // No shift a little shorter parts them ...
          for (const heading of headings) expect(penetration(one, shifted(heading, 0.999 * deep))).toBeGreaterThan(0);
          // ... and one along some side's normal does.
          const normals = [...polygonSides(one), ...polygonSides(two)].map(({ from, to }) =>
            Math.atan2(to.x - from.x, from.y - to.y),
          );
          const parts = normals
            .flatMap((h) => [h, h + Math.PI])
            .some((h) => penetration(one, shifted(h, deep * (1 + 1e-9))) <= 1e-9);
          expect(parts).toBe(true);
        },
      ),
    );
  });

  test("nothing changes when all is moved, turned and mirrored", () => {
    fc.assert(
      fc.property(anyRectangle, anyRectangle, mm(-3142, 3142), mm(-5000, 5000), (one, two, angle, x) => {
        const move = (polygon: Polygon) => polygon.map((p) => turnedBy(p, angle, x, -x));
        const mirror = (polygon: Polygon) => convexPolygon(polygon.map((p) => point(-p.x, p.y)));
        for (const change of [move, mirror]) {
          expect(penetration(change(one), change(two))).toBeCloseTo(penetration(one, two), 9);
          expect(polygonDistance(change(one), change(two))).toBeCloseTo(polygonDistance(one, two), 9);
          expect(sharedArea(change(one), change(two))).toBeCloseTo(sharedArea(one, two), 8);
        }
        expect(penetration(two, one)).toBeCloseTo(penetration(one, two), 12);
      }),
    );
  });

  test("a machine exactly as wide as its gap touches and does not overlap, in inches", () => {
    const inch = (value: number) => si(value, "in");
    const left = boxPolygon(box(0, 0, inch(7), inch(30)));
    const machine = boxPolygon(box(inch(7), 0, inch(27), inch(30)));
    const right = boxPolygon(box(inch(34), 0, inch(3), inch(30)));
    expect(polygonsOverlap(left, machine)).toBe(false);
    expect(polygonsOverlap(machine, right)).toBe(false);
    expect(polygonsOverlap(machine, boxPolygon(box(inch(33.99), 0, inch(3), inch(30))))).toBe(true);
  });

  test("clipping keeps the left side; half-planes that miss leave nothing or all", () => {
    const square = boxPolygon(box(0, 0, 2, 2));
    expect(polygonArea(leftOf(square, { from: point(0, 0), to: point(2, 2) }))).toBe(2);
    expect(leftOf(square, { from: point(3, 0), to: point(3, -1) })).toEqual([]);
    expect(polygonArea(leftOf(square, { from: point(3, 0), to: point(3, 1) }))).toBe(4);
    expect(polygonArea([])).toBe(0);
  });

  test.each([
    [() => convexPolygon([point(0, 0), point(1, 0)]), /three corners/],
    [() => convexPolygon([point(0, 0), point(1, 0), point(2, 0)]), /one line/],
    [() => convexPolygon([point(0, 0), point(2, 0), point(0.5, 0.5), point(0, 2)]), /not convex/],
    [() => convexPolygon([point(0, 0), point(Number.NaN, 0), point(0, 1)]), /not finite/],
    [
      () =>
        convexPolygon(
          [0, 2, 4, 1, 3].map((i) => point(Math.cos((i * 2 * Math.PI) / 5), Math.sin((i * 2 * Math.PI) / 5))),
        ),
      /more than once/,
    ],
    [() => box(0, 0, -1, 1), /none/],
    [() => turnedRectangle(point(0, 0), m(0), m(1), a(0)), /none/],
  ])("refuses bad use %#", (call, message) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(message);
  });
});

describe("sectors", () => {
  const quarter = (radius: number): Sector => ({
    centre: point(0, 0),
    radius: m(radius),
    from: a(0),
    sweep: a(Math.PI / 2),
  });
  const worked = reference("physics/sector.csv");
  test.each(worked.rows)("distance and shared area of a swing and a rectangle, case $id", (row) => {
    const n = (name: string) => Number(row[name]);
    const rectangle = boxPolygon(box(n("left"), n("front"), n("right") - n("left"), n("back") - n("front")));
    expect(Math.abs(sectorPolygonDistance(quarter(n("radius")), rectangle) - n("distance"))).toBeLessThanOrEqual(
      worked.tolerance,
    );
    expect(Math.abs(sectorSharedArea(quarter(n("radius")), rectangle) - n("area"))).toBeLessThanOrEqual(6e-4);
  });

  const anySector = fc
    .tuple(anyPoint, mm(100, 1500), mm(-3142, 3142), mm(10, 3141))
    .map(([centre, radius, from, sweep]): Sector => ({ centre, radius: m(radius), from: a(from), sweep: a(sweep) }));
  /** A polygon inside the sector whose sides are within 2 µm of the arc. */
  const polygonOf = ({ centre, radius, from, sweep }: Sector, sides = 1000): Point[] => [
    centre,
    ...Array.from({ length: sides + 1 }, (_, i) => {
      const heading = from + (sweep * i) / sides;
      return point(centre.x + radius * Math.cos(heading), centre.y + radius * Math.sin(heading));
    }),
  ];

  test("distance and shared area agree with a polygon of 1000 sides", () => {
    let touching = 0;
    fc.assert(
      fc.property(anySector, anyRectangle, (sector, rectangle) => {
        const many = polygonOf(sector);
        const distance = sectorPolygonDistance(sector, rectangle);
        expect(Math.abs(distance - polygonDistance(many, rectangle))).toBeLessThan(5e-6);
        expect(Math.abs(sectorSharedArea(sector, rectangle) - sharedArea(many, rectangle))).toBeLessThan(2e-5);
        expect(sectorSharedArea(sector, rectangle)).toBeLessThanOrEqual(
          Math.min(sectorArea(sector), polygonArea(rectangle)) + 1e-12,
        );
        if (distance === 0) touching++;
      }),
      { numRuns: 100 },
    );
    expect(touching).toBeGreaterThan(10);
  });

  test("whether two swings meet agrees with polygons of many sides", () => {
    let apart = 0;
    fc.assert(
      fc.property(anySector, anySector, (one, two) => {
        const deep = penetration(polygonOf(one, 300), polygonOf(two, 300));
        if (Math.abs(deep) < 1e-4) return;
        expect(sectorsMeet(one, two)).toBe(deep > 0);
        expect(sectorsMeet(two, one)).toBe(deep > 0);
        if (deep < 0) apart++;
      }),
      { numRuns: 100 },
    );
    expect(apart).toBeGreaterThan(5);
  });

  test("radii that reach each other are needed for two doors to clash, but not enough", () => {
    const left = quarter(0.8);
    const away: Sector = { centre: point(1.2, 0), radius: m(0.8), from: a(0), sweep: a(1.5) };
    const towards: Sector = { ...away, from: a(Math.PI / 2) };
    expect(sectorsMeet(left, away)).toBe(false);
    expect(sectorsMeet(left, towards)).toBe(true);
    // Arcs only: neither edge reaches the other sector.
    const facing: Sector = { centre: point(1.1, 1.1), radius: m(0.8), from: a(Math.PI), sweep: a(Math.PI / 2) };
    expect(sectorsMeet(left, facing)).toBe(true);
    expect(sectorsMeet(left, { ...facing, centre: point(1.2, 1.2) })).toBe(false);
  });

  test("areas and points by hand; an obstacle round the hinge; bad sectors", () => {
    expect(sectorArea(quarter(30))).toBeCloseTo(706.8583, 4);
    expect(sectorPointDistance(quarter(5), point(0, 0))).toBe(0);
    expect(sectorPointDistance(quarter(5), point(3, -4))).toBe(4);
    expect(sectorPolygonDistance(quarter(1), boxPolygon(box(-5, -5, 10, 10)))).toBe(0);
    expect(sectorSharedArea(quarter(1), boxPolygon(box(-5, -5, 10, 10)))).toBeCloseTo(Math.PI / 4, 12);
    expect(() => sectorArea({ ...quarter(1), sweep: a(3.2) })).toThrow(/sweep/);
    expect(() => sectorArea(quarter(0))).toThrow(/radius/);
  });
});

describe("a leaf of real thickness", () => {
  const leaf = (length: number, ahead: number, behind: number, opening: number, more: Partial<Leaf> = {}): Leaf => ({
    hinge: point(0, 0),
    closed: a(0),
    way: 1,
    length: m(length),
    ahead: m(ahead),
    behind: m(behind),
    opening: a(opening),
    ...more,
  });

  const walls = reference("physics/wall-swing.csv");
  test.each(walls.rows)("opens to a wall, case $id", (row) => {
    const n = (name: string) => Number(row[name]);
    const wall = boxPolygon(box(-100, n("gap"), 200, 10));
    const opening = Math.PI / 2;
    const free = freeOpening(leaf(n("length"), n("thickness"), 0, opening), [wall]);
    const thin = freeOpening(leaf(n("length"), 0, 0, opening), [wall]);
    if (row["opening_deg"] === "free") {
      expect(free).toBe(opening);
      expect(thin).toBe(opening);
      return;
    }
    expect(Math.abs(deg(free) - Number(row["opening_deg"]))).toBeLessThanOrEqual(walls.tolerance);
    expect(Math.abs(deg(thin) - n("thin_deg"))).toBeLessThanOrEqual(walls.tolerance);
  });

  const anyLeaf = fc
    .tuple(anyPoint, mm(-3142, 3142), fc.constantFrom<1 | -1>(1, -1), mm(300, 900), mm(0, 60), mm(0, 60), mm(200, 3000))
    .map(
      ([hinge, closed, way, length, ahead, behind, opening]): Leaf => ({
        hinge,
        closed: a(closed),
        way,
        length: m(length),
        ahead: m(ahead),
        behind: m(behind),
        opening: a(opening),
      }),
    );

  test("agrees with opening it in small steps among drawn obstacles", () => {
    let struck = 0;
    let free = 0;
    fc.assert(
      fc.property(anyLeaf, fc.array(anyRectangle, { minLength: 1, maxLength: 2 }), (door, obstacles) => {
        const strike = freeOpening(door, obstacles);
        const deepest = (opened: number) =>
          Math.max(...obstacles.map((o) => penetration(leafOutline(door, a(opened)), o)));
        const steps = 800;
        for (let i = 0; i <= steps; i++) {
          const opened = (door.opening * i) / steps;
          if (opened >= strike) break;
          expect(deepest(opened)).toBeLessThan(2e-6);
        }
        if (strike === door.opening) {
          free++;
          expect(swingsFree(door, obstacles)).toBe(true);
          return;
        }
        struck++;
        expect(swingsFree(door, obstacles)).toBe(false);
        // Soon beyond, it is inside something: a corner that slips in at a slant gains depth slowly.
        const soon = [1e-5, 1e-4, 1e-3, 3e-3].map((more) => deepest(Math.min(door.opening, strike + more)));
        expect(Math.max(...soon)).toBeGreaterThan(0);
      }),
      { numRuns: 100 },
    );
    expect(struck).toBeGreaterThan(10);
    expect(free).toBeGreaterThan(10);
  });

  test("moved, turned and mirrored with its obstacles it opens as far", () => {
    fc.assert(
      fc.property(anyLeaf, anyRectangle, mm(-3142, 3142), mm(-3000, 3000), (door, obstacle, angle, x) => {
        const one = freeOpening(door, [obstacle]);
        const hinge = turnedBy(door.hinge, angle, x, x);
        const moved = freeOpening({ ...door, hinge, closed: a(door.closed + angle) }, [
          obstacle.map((p) => turnedBy(p, angle, x, x)),
        ]);
        const mirrored = freeOpening(
          {
            ...door,
            hinge: point(-door.hinge.x, door.hinge.y),
            closed: a(Math.PI - door.closed),
            way: door.way === 1 ? -1 : 1,
          },
          [convexPolygon(obstacle.map((p) => point(-p.x, p.y)))],
        );
        // A touch may be counted either way within the nanometre that is allowed.
        if (Math.abs(moved - one) > 1e-7 || Math.abs(mirrored - one) > 1e-7) {
          const grazing = (opened: number) => Math.abs(penetration(leafOutline(door, a(opened)), obstacle));
          expect(grazing(Math.min(one, moved, mirrored) + 1e-9)).toBeLessThan(3e-9);
        }
      }),
    );
  });

  test("thicker or longer leaves never open farther; more obstacles never help", () => {
    fc.assert(
      fc.property(anyLeaf, anyRectangle, anyRectangle, mm(1, 100), (door, one, two, more) => {
        const now = freeOpening(door, [one]);
        expect(freeOpening({ ...door, ahead: m(door.ahead + more) }, [one])).toBeLessThanOrEqual(now + 1e-9);
        expect(freeOpening({ ...door, behind: m(door.behind + more) }, [one])).toBeLessThanOrEqual(now + 1e-9);
        expect(freeOpening({ ...door, length: m(door.length + more) }, [one])).toBeLessThanOrEqual(now + 1e-9);
        expect(freeOpening(door, [one, two])).toBe(Math.min(now, freeOpening(door, [two])));
      }),
    );
  });

  test("the envelope holds every corner at every opening, and what it clears the leaf clears", () => {
    fc.assert(
      fc.property(anyLeaf, mm(0, 1000), anyRectangle, (door, share, obstacle) => {
        fc.pre(door.opening + Math.atan(door.ahead / door.length) + Math.atan(door.behind / door.length) < Math.PI);
        const envelope = leafEnvelope(door);
        // Beside the pin the thickness stands out behind it, so the hinge end of the outline is left aside.
        const far = leafOutline(door, a(share * door.opening)).slice(1, 3);
        for (const p of far) expect(sectorPointDistance(envelope, p)).toBeLessThan(1e-9);
        const thick = Math.hypot(door.ahead, door.behind);
        if (sectorPolygonDistance(envelope, obstacle) > thick) expect(swingsFree(door, [obstacle])).toBe(true);
      }),
    );
    expect(() => leafEnvelope(leaf(1, 0, 0.04, 3.14))).toThrow(/half a turn/);
  });

  test("a leaf exactly as long as the gap, in inches, swings past; touching from the start is no strike", () => {
    const inch = (value: number) => si(value, "in");
    const door = leaf(inch(28), 0, inch(1.375), Math.PI / 2);
    expect(swingsFree(leaf(inch(28), 0, 0, Math.PI / 2), [boxPolygon(box(inch(28), 0, 1, 1))])).toBe(true);
    // A thick one strikes with its lagging corner, which is farther from the pin: R = √(28² + 1.375²) = 28.034.
    expect(swingsFree(door, [boxPolygon(box(inch(28), 0, 1, 1))])).toBe(false);
    expect(swingsFree(door, [boxPolygon(box(inch(28.034), 0, 1, 1))])).toBe(true);
    expect(swingsFree(door, [boxPolygon(box(0, -inch(1.375) - 0.1, 1, 0.1))])).toBe(true);
    expect(freeOpening(door, [boxPolygon(box(0, -inch(1.3), 1, inch(1)))])).toBe(0);
    expect(() => freeOpening({ ...door, opening: a(7) }, [])).toThrow(/opening/);
    expect(() => leafOutline({ ...door, length: m(0) }, a(0))).toThrow(/leaf/);
  });
});

describe("clashes of many", () => {
  const anyBox = fc.tuple(mm(0, 5000), mm(0, 5000), mm(0, 1500), mm(0, 1500)).map(([x, y, w, d]) => box(x, y, w, d));

  test("the sweep finds what comparing all pairs finds", () => {
    fc.assert(
      fc.property(fc.array(anyBox, { maxLength: 40 }), (boxes) => {
        const all: [number, number][] = [];
        for (const [i, p] of boxes.entries())
          for (const [j, q] of boxes.entries())
            if (
              i < j &&
              Math.min(p.right, q.right) - Math.max(p.left, q.left) > 1e-9 &&
              Math.min(p.back, q.back) - Math.max(p.front, q.front) > 1e-9
            )
              all.push([i, j]);
        expect(overlappingBoxes(boxes)).toEqual(all);
      }),
    );
  });

  test("turned rectangles: pairs and depths as one by one", () => {
    fc.assert(
      fc.property(fc.array(anyRectangle, { maxLength: 15 }), (list) => {
        const all = [];
        for (const [i, p] of list.entries())
          for (const [j, q] of list.entries())
            if (i < j && penetration(p, q) > 1e-9) all.push({ one: i, other: j, depth: penetration(p, q) });
        expect(clashes(list)).toEqual(all);
      }),
    );
  });

  test("5000 boxes of a long row take far less than all pairs", () => {
    const boxes = Array.from({ length: 5000 }, (_, i) => box(i * 0.5, 0, 0.6, 0.6));
    const start = performance.now();
    expect(overlappingBoxes(boxes)).toHaveLength(4999);
    expect(performance.now() - start).toBeLessThan(1000);
    expect(() => overlappingBoxes([{ left: m(1), right: m(0), front: m(0), back: m(1) }])).toThrow(/inside out/);
  });
});

describe("free positions", () => {
  const anySpan = fc.tuple(mm(0, 4000), mm(0, 1200)).map(([from, length]) => ({ from: m(from), to: m(from + length) }));

  test("along a line: a place is in the answer exactly when nothing is in the way there", () => {
    fc.assert(
      fc.property(mm(100, 1500), fc.array(anySpan, { maxLength: 6 }), mm(-200, 4200), (size, blocked, at) => {
        const room = { from: m(0), to: m(4) };
        const spans = freeSpans(m(size), room, blocked);
        const inside = spans.some(({ from, to }) => at >= from - 1e-9 && at <= to + 1e-9);
        const fits =
          at >= -1e-9 &&
          at + size <= 4 + 1e-9 &&
          blocked.every(({ from, to }) =>
            to - from === 0
              ? !(at < from - 1e-9 && at + size > to + 1e-9)
              : at + size <= from + 1e-9 || at >= to - 1e-9,
          );
        expect(inside).toBe(fits);
        for (const [i, span] of spans.entries()) {
          expect(span.to).toBeGreaterThanOrEqual(span.from);
          if (i > 0) expect(span.from).toBeGreaterThan(spans[i - 1]!.to);
        }
      }),
      { numRuns: 500 },
    );
  });

  test("exact fits, in inches: one place between two machines, none a hair wider", () => {
    const inch = (value: number) => si(value, "in");
    const room = { from: inch(0), to: inch(81.3) };
    const blocked = [
      { from: inch(0), to: inch(27.1) },
      { from: inch(54.2), to: inch(81.3) },
    ];
    const spans = freeSpans(inch(27.1), room, blocked);
    expect(spans).toHaveLength(1);
    expect(spans[0]!.from).toBeCloseTo(inch(27.1), 12);
    expect(spans[0]!.to).toBe(spans[0]!.from);
    expect(freeSpans(inch(27.11), room, blocked)).toEqual([]);
  });

  const anyBox = fc
    .tuple(mm(-200, 3000), mm(-200, 3000), mm(1, 1500), mm(1, 1500))
    .map(([x, y, w, d]) => box(x, y, w, d));

  test("in a plan: a place is in the answer exactly when nothing is in the way there, and every box is as large as can be", () => {
    const room = box(0, 0, 3, 2.5);
    fc.assert(
      fc.property(
        mm(200, 1500),
        mm(200, 1500),
        fc.array(anyBox, { maxLength: 6 }),
        fc.array(fc.tuple(mm(0, 3000), mm(0, 2500)), { minLength: 25, maxLength: 25 }),
        (w, d, blocked, drawn) => {
          const places = freePlaces(m(w), m(d), room, blocked);
          const fits = (x: number, y: number) =>
            x >= -1e-9 &&
            y >= -1e-9 &&
            x + w <= 3 + 1e-9 &&
            y + d <= 2.5 + 1e-9 &&
            blocked.every(
              (b) => x + w <= b.left + 1e-9 || x >= b.right - 1e-9 || y + d <= b.front + 1e-9 || y >= b.back - 1e-9,
            );
          const within = (p: Box, x: number, y: number) =>
            x >= p.left - 1e-9 && x <= p.right + 1e-9 && y >= p.front - 1e-9 && y <= p.back + 1e-9;
          // Places worth trying: drawn ones, and against every wall and obstacle.
          const xs = [0, 3 - w, ...blocked.flatMap((b) => [b.left - w, b.right])];
          const ys = [0, 2.5 - d, ...blocked.flatMap((b) => [b.front - d, b.back])];
          for (const [x, y] of [...drawn, ...xs.flatMap((x) => ys.map((y) => [x, y] as const))]) {
            expect(places.some((p) => within(p, x, y))).toBe(fits(x, y));
          }
          for (const p of places) {
            expect(fits((p.left + p.right) / 2, (p.front + p.back) / 2)).toBe(true);
            expect(places.filter((q) => within(q, p.left, p.front) && within(q, p.right, p.back))).toHaveLength(1);
          }
        },
      ),
      { numRuns: 200 },
    );
  });

  test("a ring round one obstacle, in a room that leaves no play", () => {
    expect(freePlaces(m(1), m(1), box(0, 0, 3, 3), [box(1, 1, 1, 1)])).toHaveLength(4);
    expect(freePlaces(m(1), m(3.1), box(0, 0, 3, 3), [])).toEqual([]);
    expect(freePlaces(m(3), m(3), box(0, 0, 3, 3), [])).toEqual([{ left: 0, right: 0, front: 0, back: 0 }]);
    expect(() => freePlaces(m(0), m(1), box(0, 0, 1, 1), [])).toThrow(/size/);
    expect(() => freePlaces(m(1), m(1), { left: m(1), right: m(0), front: m(0), back: m(0) }, [])).toThrow(
      /inside out/,
    );
    expect(() => freeSpans(m(-1), { from: m(0), to: m(1) }, [])).toThrow(/size/);
    expect(() => freeSpans(m(1), { from: m(1), to: m(0) }, [])).toThrow(/span/);
  });
});
