import Flatten from "@flatten-js/core";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { clearanceEnvelope } from "../../src/placement/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("placement/clearance-envelope.csv");
const inches = (value: number) => `${value} in`;
const room = { width: "200 in", depth: "200 in" };

interface Plan {
  readonly left: number;
  readonly front: number;
  readonly width: number;
  readonly depth: number;
  readonly turned: number;
}
const thing = (what: string, { left, front, width, depth, turned }: Plan, more: object = {}) => ({
  what,
  fromLeft: inches(left),
  fromFront: inches(front),
  width: inches(width),
  depth: inches(depth),
  turned: `${turned}°`,
  use: "solid" as const,
  ...more,
});
const findingOf = (input: unknown) => clearanceEnvelope.try(input).finding!;

describe("placement/clearance-envelope", () => {
  test.each(rows.filter(({ kind }) => kind === "swing"))("$id: a leaf of $leaf_in in comes to $apart_in in", (row) => {
    const [left, front, right, back] = [row.left, row.front, row.right, row.back].map(Number) as [
      number,
      number,
      number,
      number,
    ];
    const finding = findingOf({
      room,
      things: [
        thing("cupboard", { left: left + 60, front: front + 60, width: right - left, depth: back - front, turned: 0 }),
      ],
      doors: [
        {
          what: "door",
          fromLeft: "60 in",
          fromFront: "60 in",
          length: inches(Number(row.leaf_in)),
          thickness: "0 in",
          closed: "0°",
          opens: "90°",
          way: "counter-clockwise",
        },
      ],
    });
    if (row.apart_in === "clash") expect(finding).toMatchObject({ verdict: "fail", messageId: "clash" });
    else {
      const gap = finding.parts[0]!.data.gap!.si! / 0.0254;
      expect(Math.abs(gap - Number(row.apart_in))).toBeLessThanOrEqual(tolerance);
    }
  });

  test.each(rows.filter(({ kind }) => kind === "panel"))("$id: $apart_in in", (row) => {
    const asked = Number(row.apart_in);
    const verdict = (by: number) => {
      const [depth, side, low] =
        row.id === "panel-depth"
          ? [asked + by, 0, 0]
          : row.id === "panel-width"
            ? [0, asked / 2 + by, 0]
            : [0, 0, asked + by];
      return findingOf({
        room,
        things: [
          {
            ...thing("shelf", { left: 100 + side, front: depth, width: 20, depth: 20, turned: 0 }),
            bottom: inches(low),
          },
        ],
        panels: [{ what: "panel", fromLeft: "100 in", fromFront: "0 in", width: "14 in", faces: "back" }],
      }).verdict;
    };
    expect(verdict(0)).toBe("pass");
    expect(verdict(-0.01)).toBe("fail");
  });

  // NEC 2017, 110.26(A): 36 in deep, 30 in wide, whichever way the panel faces
  test.each([
    ["back", 100, 0, { left: 90, front: 36 }, { left: 0, front: -1 }],
    ["front", 100, 200, { left: 90, front: 144 }, { left: 0, front: 1 }],
    ["right", 0, 100, { left: 36, front: 90 }, { left: -1, front: 0 }],
    ["left", 200, 100, { left: 144, front: 90 }, { left: 1, front: 0 }],
    ["right", 0, 100, { left: 10, front: 115 }, { left: 0, front: -1 }],
    ["left", 200, 100, { left: 170, front: 65 }, { left: 0, front: 1 }],
  ] as const)("the working space of a panel that faces %s ends where it should", (faces, left, front, free, into) => {
    const verdict = (by: number) =>
      findingOf({
        room,
        things: [
          thing("shelf", {
            left: free.left + by * into.left,
            front: free.front + by * into.front,
            width: 20,
            depth: 20,
            turned: 0,
          }),
        ],
        panels: [{ what: "panel", fromLeft: inches(left), fromFront: inches(front), width: "14 in", faces }],
      }).verdict;
    expect(verdict(0)).toBe("pass");
    expect(verdict(0.01)).toBe("fail");
  });

  test("nothing goes through the ceiling, where its height and the thing's are known", () => {
    const low = { left: 10, front: 10, width: 27, depth: 30, turned: 0 };
    const under = (height: string | undefined, top: string | undefined) =>
      findingOf({ room: { ...room, height }, things: [thing("pair", low, { top })] }).messageId;
    expect(under("80 in", "80 in")).not.toBe("throughWall");
    expect(under("80 in", "80 1/8 in")).toBe("throughWall");
    expect(under("80 in", undefined)).not.toBe("throughWall");
    expect(under(undefined, "80 1/8 in")).not.toBe("throughWall");
  });

  test("says that places are named for four movable things only where there are more", () => {
    const said = (count: number) =>
      findingOf({
        room,
        things: Array.from({ length: count }, (_, i) =>
          thing(`box ${i}`, { left: 20 * i, front: 0, width: 10, depth: 10, turned: 0 }, { movable: true }),
        ),
      }).assumptions.join();
    expect(said(4)).not.toMatch(/first four/);
    expect(said(5)).toMatch(/first four/);
  });

  test("a panel wider than the least width keeps all of its own clear", () => {
    const beside = (left: number) =>
      findingOf({
        room,
        things: [thing("dryer", { left, front: 10, width: 27, depth: 27, turned: 0 })],
        panels: [{ what: "panel", fromLeft: "100 in", fromFront: "0 in", width: "40 in", faces: "back" }],
      }).verdict;
    expect(beside(120)).toBe("pass");
    expect(beside(119)).toBe("fail");
  });

  test("lists every clash with its overlap, the deepest first, and offers a place that is free", () => {
    const washer = { left: 10, front: 10, width: 27, depth: 30, turned: 0 };
    const finding = findingOf({
      room: { width: "100 in", depth: "80 in" },
      things: [
        thing("washer", washer, { movable: true }),
        thing("sink", { ...washer, left: 30, width: 20 }),
        thing("shelf", { ...washer, left: 0, width: 12 }),
      ],
    });
    expect(finding.message).toBe("The washer and the sink overlap by 7 in. The shelf and the washer overlap by 2 in.");
    expect(finding.workings[0]!.text).toBe("-7 in at least 0 in: does not hold");
    expect(finding.remedies.length).toBeGreaterThan(0);
    expect(finding.remedies[0]!.message).toMatch(/^Move the washer so that it and what belongs to it begin/);
  });

  test("things may stand above each other, and clear spaces in each other", () => {
    const low = { left: 10, front: 10, width: 27, depth: 30, turned: 0 };
    const both = (a: object, b: object) =>
      findingOf({ room, things: [thing("one", low, a), thing("other", low, b)] }).verdict;
    expect(both({}, {})).toBe("fail");
    expect(both({ top: "39 in" }, { bottom: "39 in" })).toBe("pass");
    expect(both({ top: "39 in" }, { bottom: "38 15/16 in" })).toBe("fail");
    expect(both({ use: "keep clear" }, { use: "keep clear" })).toBe("pass");
    expect(both({ use: "keep clear" }, {})).toBe("fail");
    expect(both({ use: "keep clear" }, { belongsTo: "one" })).toBe("pass");
  });

  test("two doors clash, a door and a clear space do not", () => {
    const door = (what: string, fromLeft: number, closed: number, way: string, more: object = {}) => ({
      what,
      fromLeft: inches(fromLeft),
      fromFront: "0 in",
      length: "30 in",
      thickness: "1 in",
      closed: `${closed}°`,
      opens: "90°",
      way,
      ...more,
    });
    const doors = [door("one", 60, 0, "counter-clockwise"), door("other", 110, 180, "clockwise")];
    expect(findingOf({ room, things: [], doors })).toMatchObject({ verdict: "fail", messageId: "clash" });
    const apart = [door("one", 60, 0, "counter-clockwise"), door("other", 125, 180, "clockwise")];
    expect(findingOf({ room, things: [], doors: apart }).verdict).toBe("pass");
    const clear = thing("floor", { left: 60, front: 0, width: 30, depth: 30, turned: 0 }, { use: "keep clear" });
    expect(findingOf({ room, things: [clear], doors: doors.slice(0, 1) }).verdict).toBe("pass");
  });

  test("what touches does not overlap, also when it is given in other units", () => {
    const finding = findingOf({
      room: { width: "1000 mm", depth: "30 in" },
      things: [
        thing("washer", { left: 0, front: 0, width: 10, depth: 30, turned: 0 }),
        {
          ...thing("dryer", { left: 10, front: 0, width: 1, depth: 30, turned: 0 }),
          fromLeft: "254 mm",
          width: "746 mm",
        },
      ],
    });
    expect(finding).toMatchObject({ verdict: "pass", margin: { text: "0 in" } });
  });

  // Odd fractions, so that no two sides lie in one line by chance, which the library does not take well.
  const odd = (min: number, max: number) =>
    fc.integer({ min: min * 97, max: max * 97 }).map((value) => Number((value / 97 + 0.0131).toFixed(4)));
  const plan = fc.record({
    left: odd(40, 130),
    front: odd(40, 130),
    width: odd(5, 40),
    depth: odd(5, 40),
    turned: odd(0, 179),
  });
  const plans = fc.array(plan, { minLength: 2, maxLength: 5 });

  test("a clash is a real overlap, and what does not clash has none: by a general geometry library", () => {
    const polygon = ({ left, front, width, depth, turned }: Plan) =>
      new Flatten.Polygon(
        [
          [0, 0],
          [width, 0],
          [width, depth],
          [0, depth],
        ].map(([x, y]) => Flatten.point(left + x!, front + y!)),
      ).rotate((turned * Math.PI) / 180, Flatten.point(left + width / 2, front + depth / 2));
    const area = (a: Plan, b: Plan) => {
      const [one, other] = [polygon(a), polygon(b)];
      return Math.abs(Flatten.BooleanOperations.intersect(one, other).area());
    };
    fc.assert(
      fc.property(plans, (some) => {
        const { parts } = findingOf({ room, things: some.map((one, i) => thing(`thing ${i}`, one)) });
        const found = new Set(
          parts
            .filter(({ messageId }) => messageId === "clash")
            .map(({ data }) => [data.one!.text, data.other!.text].sort().join("+")),
        );
        some.forEach((a, i) => {
          some.slice(i + 1).forEach((b, k) => {
            const shared = area(a, b);
            // Where they only just touch the library's answer is not sure.
            if (shared > 0 && shared < 1e-3) return;
            expect(found.has([`thing ${i}`, `thing ${i + k + 1}`].sort().join("+"))).toBe(shared > 0);
          });
        });
      }),
      { numRuns: 60 },
    );
  });

  test("nothing changes when the room is turned by a quarter, mirrored, or everything is moved", () => {
    // Far from the walls, which are not what this is about.
    const wide = { width: "240 in", depth: "240 in" };
    const gapOf = (some: readonly Plan[]) =>
      findingOf({ room: wide, things: some.map((one, i) => thing(`thing ${i}`, one)) });
    const key = ({ verdict, measured }: ReturnType<typeof gapOf>) => [verdict, measured!.si!.toFixed(9)];
    fc.assert(
      fc.property(plans, (some) => {
        const here = key(gapOf(some));
        const quarter = some.map(({ left, front, width, depth, turned }) => ({
          left: 240 - front - depth,
          front: left,
          width: depth,
          depth: width,
          turned,
        }));
        const mirrored = some.map((one) => ({ ...one, left: 240 - one.left - one.width, turned: -one.turned }));
        const moved = some.map((one) => ({ ...one, left: one.left + 10, front: one.front + 7 }));
        expect(key(gapOf(quarter))).toEqual(here);
        expect(key(gapOf(mirrored))).toEqual(here);
        expect(key(gapOf(moved))).toEqual(here);
      }),
      { numRuns: 30 },
    );
  });

  test("a place called free is free, and just beyond its end is not", () => {
    const square = fc.record({
      left: fc.integer({ min: 0, max: 150 }),
      front: fc.integer({ min: 0, max: 150 }),
      width: fc.integer({ min: 5, max: 50 }),
      depth: fc.integer({ min: 5, max: 50 }),
      turned: fc.constant(0),
    });
    fc.assert(
      fc.property(fc.array(square, { minLength: 1, maxLength: 6 }), (others) => {
        const washer = { left: 80, front: 80, width: 27, depth: 30, turned: 0 };
        const stand = (one: Plan) =>
          findingOf({
            room,
            things: [thing("washer", one, { movable: true }), ...others.map((other, i) => thing(`other ${i}`, other))],
          });
        const hits = (one: Plan) =>
          stand(one).parts.some(
            ({ messageId, data }) =>
              messageId === "throughWall" ||
              (messageId === "clash" && [data.one!.text, data.other!.text].includes("washer")),
          );
        for (const { data } of stand(washer).parts.filter(({ messageId }) => messageId === "place")) {
          const wall = data.wall!.text;
          const put = (along: number): Plan => ({
            ...washer,
            left: wall === "left wall" ? 0 : wall === "right wall" ? 173 : along,
            front: wall === "front wall" ? 0 : wall === "back wall" ? 170 : along,
          });
          const [from, to] = [data.from!.si! / 0.0254, data.to!.si! / 0.0254];
          expect(hits(put(from))).toBe(false);
          expect(hits(put(to))).toBe(false);
          expect(hits(put((from + to) / 2))).toBe(false);
          expect(hits(put(to + 0.01))).toBe(true);
          expect(hits(put(from - 0.01))).toBe(true);
        }
      }),
      { numRuns: 15 },
    );
  });

  test("cannot tell where a tolerance decides, asks for what is missing, points at the unreadable", () => {
    const near = findingOf({
      room,
      things: [
        thing("washer", { left: 0, front: 0, width: 27, depth: 30, turned: 0 }),
        { ...thing("dryer", { left: 28, front: 0, width: 27, depth: 30, turned: 0 }), fromLeft: "27 1/16 in ± 1/8 in" },
      ],
    });
    expect(near).toMatchObject({ verdict: "review", messageId: "tooCloseToCall" });
    expect(near.missing).toMatchObject([{ path: ["things", 1, "fromLeft"] }]);
    expect(findingOf({ room }).missing).toMatchObject([{ path: ["things"] }]);
    const read = clearanceEnvelope.try({ room: { width: "5 ft", depth: 6 } });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["room", "depth"], code: "noUnit" });
  });
});
