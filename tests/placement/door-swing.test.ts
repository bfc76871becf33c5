import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { si } from "../../src/core/quantity/index.js";
import { doorSwing, openingTowardsWall } from "../../src/placement/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("placement/door-swing.csv");

const dryer = {
  kind: "dryer" as const,
  body: { width: "27 in", depth: "30 in" },
  door: { hinge: "left" as const, length: "20 in", thickness: "3 in", inset: "3 in", opens: "110°" },
  gaps: { left: "12 in", right: "40 in" },
  facing: "60 in",
  things: [],
};

/** The angle a finding says is free, in degrees; the wanted one where it opens fully. */
const free = (input: unknown): number => {
  const { parts } = doorSwing.try(input).finding!;
  return (parts[0]!.data.free?.si ?? parts[0]!.data.wanted!.si!) * (180 / Math.PI);
};

describe("openingTowardsWall", () => {
  test.each(rows)("$wall_in in to the wall, leaf $length_in by $thickness_in in: $opening_deg°", (row) => {
    const wall = si(Number(row.wall_in), "in");
    const angle = openingTowardsWall(wall, si(Number(row.length_in), "in"), si(Number(row.thickness_in), "in"));
    if (row.opening_deg === "free") expect(angle).toBeUndefined();
    else {
      const degrees = angle! * (180 / Math.PI);
      expect(Math.abs(degrees - Number(row.opening_deg))).toBeLessThanOrEqual(tolerance);
      // The thin leaf's answer is wrong by degrees.
      expect(Math.abs(degrees - Number(row.thin_deg))).toBeGreaterThan(1);
    }
  });
});

describe("placement/door-swing", () => {
  test.each(rows.filter((row) => row.opening_deg !== "free"))(
    "a drop-down or side-hung door stops at $opening_deg°",
    (row) => {
      for (const hinge of ["left", "right", "bottom"]) {
        const door = {
          hinge,
          length: `${row.length_in} in`,
          thickness: `${row.thickness_in} in`,
          inset: "4 in",
          opens: "90°",
        };
        const gaps = { left: "100 in", right: "100 in" };
        expect(free({ ...dryer, door, gaps, facing: `${row.wall_in} in` })).toBeCloseTo(Number(row.opening_deg), 3);
      }
    },
  );

  test("a wall on the hinge side stops a door past its right angle by its thickness", () => {
    // Open by 90°, the leaf's outer face stands its thickness outside the pin: 3 in of inset and no gap just let it.
    const against = (inset: string, left: string, opens: string) =>
      doorSwing({ ...dryer, door: { ...dryer.door, inset, opens }, gaps: { left } }).verdict;
    expect(against("3 in", "0 in", "90°")).toBe("pass");
    expect(against("2 15/16 in", "0 in", "90°")).toBe("fail");
    expect(against("3 in", "0 in", "91°")).toBe("fail");
    // At 110° the far outer corner reaches 20·sin 20° + 3·cos 20° = 9.6595 in to the left of the pin.
    expect(against("3 in", "6.66 in", "110°")).toBe("pass");
    expect(against("3 in", "6.65 in", "110°")).toBe("fail");
  });

  test("a machine that stands proud of short side walls is not stopped by them", () => {
    const input = { ...dryer, gaps: { left: "1/4 in" } };
    expect(doorSwing(input).verdict).toBe("fail");
    expect(doorSwing({ ...input, sideWallsEnd: "0 in" }).verdict).toBe("pass");
    expect(doorSwing({ ...input, sideWallsEnd: "0 in" }).assumptions).toEqual([]);
  });

  test("a lid needs its length above it less what its angle saves", () => {
    const lid = { hinge: "lid" as const, length: "18 in", thickness: "1 in", inset: "0 in", opens: "80°" };
    // Highest corner at 80°: 18·sin 80° + 1·cos 80° = 17.9002 in.
    const under = (top: string) => doorSwing({ kind: "washer", door: lid, gaps: { top } }).verdict;
    expect(under("17.91 in")).toBe("pass");
    expect(under("17.89 in")).toBe("fail");
  });

  test("names what is in the way, says how far the door opens and shows the steps", () => {
    const finding = doorSwing({
      ...dryer,
      door: { ...dryer.door, length: "24 in", thickness: "3/4 in", opens: "90°" },
      facing: "20 in",
    });
    expect(finding.message).toBe(
      "The machine's door opens only to 54.6° of 90°: what faces the machine is in its way.",
    );
    expect(finding.workings.map(({ text }) => text)).toEqual([
      "radius = sqrt(length^2 + thickness^2): sqrt(24 in^2 + 3/4 in^2) = 24 in",
      "towardsWall = asin(facing / radius) - atan(thickness / length): asin(20 in / 24.01 in) - atan(3/4 in / 24 in) = 54.6°",
      "54.6° at least 90°: does not hold",
    ]);
    const shelf = { what: "the shelf", right: "10 in", width: "20 in", ahead: "12 in", depth: "10 in" };
    expect(doorSwing({ ...dryer, things: [shelf] }).message).toContain("the shelf is in its way");
  });

  test("a thing beside the machine does not stop a drop-down door, one in front does", () => {
    const door = { hinge: "bottom" as const, length: "28 in", thickness: "2 in", inset: "0 in", opens: "90°" };
    const cabinet = { what: "the cabinet", right: "27 in", width: "20 in", ahead: "6 in", depth: "20 in" };
    expect(doorSwing({ ...dryer, door, things: [cabinet] }).verdict).toBe("pass");
    expect(doorSwing({ ...dryer, door, things: [{ ...cabinet, right: "26 in" }] }).verdict).toBe("fail");
  });

  test("finds two doors that strike each other and offers the hangings that part them", () => {
    const input = doorSwing.examples.find(({ gives }) => gives === "doorsMeet")!.input;
    const finding = doorSwing(input);
    expect(finding.message).toMatch(/with the room's door in use, the machine's door opens only to/);
    expect(finding.remedies.map(({ message }) => message)[0]).toBe("Hang the machine's door on the left.");
    for (const { changes } of finding.remedies) expect(changes.length).toBeGreaterThan(0);
  });

  test("the hinge side of a room door is the one seen from inside the room, in each of the four walls", () => {
    // A machine 20 by 20 in with a room door of 30 in: the pin 5 in beyond a corner strikes only when it swings over it.
    const strikes = (wall: string, hinge: string, right: number, ahead: number) =>
      doorSwing.try({
        ...dryer,
        body: { width: "20 in", depth: "20 in" },
        gaps: { left: "100 in", right: "100 in" },
        facing: "100 in",
        door: { ...dryer.door, length: "10 in", thickness: "1 in", opens: "90°" },
        roomDoor: {
          opensInto: "this room",
          wall,
          hinge,
          right: `${right} in`,
          ahead: `${ahead} in`,
          length: "30 in",
        },
      }).finding!.parts[1]!.verdict;
    // Facing wall 10 in off, pin 25 in to the right: hung left the leaf runs over to the machine, hung right away from it.
    expect(strikes("facing", "left", 25, 10)).toBe("fail");
    expect(strikes("facing", "right", 25, 10)).toBe("pass");
    // Right wall 30 in from the left side, pin 25 in ahead: hung right it runs back towards the machine's side.
    expect(strikes("right", "right", 30, 25)).toBe("fail");
    expect(strikes("right", "left", 30, 25)).toBe("pass");
    // Left wall 10 in off: mirrored.
    expect(strikes("left", "left", -10, 25)).toBe("fail");
    expect(strikes("left", "right", -10, 25)).toBe("pass");
    // Wall behind, pin 10 in to the left: hung left the leaf runs right, behind the machine, and swings into it.
    expect(strikes("behind", "left", -10, -30)).toBe("fail");
    expect(strikes("behind", "right", -10, -30)).toBe("pass");
  });

  test("cannot tell where the tolerance of a distance decides", () => {
    const near = { ...dryer, door: { ...dryer.door, opens: "110°" }, gaps: { left: "6.6595 in ± 1/8 in" } };
    const finding = doorSwing(near);
    expect(finding).toMatchObject({ verdict: "review", messageId: "tooCloseToCall" });
    expect(finding.missing[0]).toMatchObject({ path: ["gaps", "left"] });
  });

  test("points at what cannot be read", () => {
    const read = doorSwing.try({ ...dryer, door: { ...dryer.door, length: "20" } });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["door", "length"], code: "noUnit" });
  });

  test("nothing changes in the mirror", () => {
    const inches = (min: number, max: number) =>
      fc.integer({ min: min * 8, max: max * 8 }).map((eighths) => eighths / 8);
    const thing = fc.record({
      right: inches(-40, 60),
      width: inches(1, 30),
      ahead: inches(-30, 40),
      depth: inches(1, 30),
    });
    fc.assert(
      fc.property(
        inches(14, 30),
        inches(0, 4),
        inches(0, 30),
        inches(5, 60),
        fc.array(thing, { maxLength: 3 }),
        (r, t, gap, facing, things) => {
          const door = { length: `${r} in`, thickness: `${t} in`, inset: "1 in", opens: "120°" };
          const text = (value: number) => `${value} in`;
          const named = things.map((one, i) => ({ what: `thing ${i}`, ...one }));
          const here = free({
            ...dryer,
            facing: text(facing),
            gaps: { left: text(gap) },
            door: { ...door, hinge: "left" },
            things: named.map(({ what, right, width, ahead, depth }) => ({
              what,
              right: text(right),
              width: text(width),
              ahead: text(ahead),
              depth: text(depth),
            })),
          });
          const mirrored = free({
            ...dryer,
            facing: text(facing),
            gaps: { right: text(gap) },
            door: { ...door, hinge: "right" },
            things: named.map(({ what, right, width, ahead, depth }) => ({
              what,
              right: text(27 - right - width),
              width: text(width),
              ahead: text(ahead),
              depth: text(depth),
            })),
          });
          expect(mirrored).toBeCloseTo(here, 6);
        },
      ),
    );
  });
});
