import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { si } from "../../src/core/quantity/index.js";
import { connectionDepth, connectionsBehind } from "../../src/placement/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("placement/connections-behind.csv");
const inches = (value: number) => si(value, "in");

const vent = { what: "vent connection" as const, onWall: "1/2 in", fitting: "4 1/2 in", bend: "0 in" };
const cord = { what: "power cord" as const, onWall: "1/4 in", fitting: "1 1/2 in", bend: "1 in" };
const dryer = { kind: "dryer" as const, fuel: "electric" as const };

describe("connectionDepth", () => {
  test.each(rows)("$on_wall_in + $fitting_in + $bend_in less $recess_in: $need_in in", (row) => {
    const need = connectionDepth(
      inches(Number(row.on_wall_in)),
      inches(Number(row.fitting_in)),
      inches(Number(row.bend_in)),
      inches(Number(row.recess_in)),
    );
    expect(Math.abs(need / 0.0254 - Number(row.need_in))).toBeLessThanOrEqual(tolerance);
  });

  test("never grows with a deeper recess, never goes below 0", () => {
    const length = fc.double({ min: 0, max: 1, noNaN: true }).map((value) => si(value, "m"));
    fc.assert(
      fc.property(length, length, length, length, length, (a, b, c, recess, more) => {
        const shallow = connectionDepth(a, b, c, recess);
        const deep = connectionDepth(a, b, c, si(recess + more, "m"));
        expect(deep).toBeLessThanOrEqual(shallow);
        expect(deep).toBeGreaterThanOrEqual(0);
      }),
    );
  });
});

describe("placement/connections-behind", () => {
  test("says what would be crushed and by how much, shows the sums, and offers a recess that helps", () => {
    const finding = connectionsBehind({ ...dryer, body: { depth: "30 in" }, depth: "35 in", lines: [cord, vent] });
    expect(finding.message).toBe(
      "Room behind for the vent connection: 5 in needed, 4 in there, 1 in too little; pushed in regardless, it is crushed.",
    );
    expect(finding.workings[0]!.text).toBe("behind = depth - body - front: 35 in - 30 in - 1 in = 4 in");
    expect(finding.remedies.map(({ message }) => message)).toEqual([
      "Let the boxes and valves of what is too deep into the wall, by 1 in for the vent connection.",
    ]);
    const shallow = connectionsBehind({ ...dryer, gaps: { behind: "1 in" }, lines: [vent] });
    expect(shallow.remedies).toEqual([]);
  });

  test("speaks of the deepest, whatever the order, and of every one that is crushed", () => {
    const hoses = { what: "water hoses" as const, onWall: "2 in", fitting: "1 in", bend: "2 1/2 in" };
    for (const lines of [
      [cord, vent, hoses],
      [hoses, cord, vent],
    ]) {
      expect(connectionsBehind({ ...dryer, gaps: { behind: "6 in" }, lines }).message).toMatch(
        /^Room behind for the water hoses: 5 1\/2 in/,
      );
      expect(connectionsBehind({ ...dryer, gaps: { behind: "4 in" }, lines }).message).toMatch(
        /water hoses: 5.* vent connection: 5/,
      );
    }
  });

  test("passes a gap of exactly what is needed, given in millimetres", () => {
    const finding = connectionsBehind({ ...dryer, gaps: { behind: "127 mm" }, lines: [vent] });
    expect(finding).toMatchObject({ verdict: "pass", margin: { text: "0 in" } });
  });

  test("cannot tell where the tolerance of the gap decides", () => {
    const finding = connectionsBehind({ ...dryer, gaps: { behind: "5 1/16 in ± 1/8 in" }, lines: [vent] });
    expect(finding).toMatchObject({ verdict: "review", missing: [{ path: ["gaps", "behind"] }] });
  });

  test("asks for what it needs and points at what cannot be read", () => {
    expect(connectionsBehind({ ...dryer, lines: [cord], depth: "35 in" }).missing.map(({ path }) => path)).toEqual([
      ["gaps", "behind"],
      ["body", "depth"],
    ]);
    const read = connectionsBehind.try({ ...dryer, lines: [{ ...cord, bend: "2" }] });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["lines", 0, "bend"], code: "noUnit" });
  });
});

describe("sums and what is left", () => {
  const texts = (change: object) =>
    connectionsBehind.try({ ...dryer, gaps: { behind: "6 in" }, lines: [vent], ...change }).finding!;

  test("shows what a connection takes, but not of one that the wall takes in", () => {
    const steps = (change: object) =>
      texts(change)
        .workings.map(({ text }) => text)
        .filter((text) => text.startsWith("need"));
    expect(steps({})).toEqual(["need = onWall + fitting + bend - recess: 1/2 in + 4 1/2 in + 0 in - 0 in = 5 in"]);
    expect(steps({ lines: [{ ...vent, recess: "3 in" }] })).toEqual([
      "need = onWall + fitting + bend - recess: 1/2 in + 4 1/2 in + 0 in - 3 in = 2 in",
    ]);
    expect(steps({ lines: [{ ...vent, recess: "5 in" }] })).toEqual([]);
    expect(steps({ lines: [{ ...vent, recess: "6 in" }] })).toEqual([]);
  });

  test("says how much is left, and keeps no room in front where no text asks for it", () => {
    expect(texts({}).parts[0]!.data).toMatchObject({ left: { text: "1 in" } });
    const fridge = texts({ kind: "refrigerator", fuel: "none", gaps: {}, body: { depth: "30 in" }, depth: "35 in" });
    expect(fridge.workings[0]!.text).toBe("behind = depth - body - front: 35 in - 30 in - 0 in = 5 in");
  });

  test("asks for the closet's depth or the machine's only where that one is absent", () => {
    const asked = (change: object) => texts({ gaps: {}, ...change }).missing.map(({ path }) => path.join("."));
    expect(asked({})).toEqual(["gaps.behind", "depth", "body.depth"]);
    expect(asked({ body: { depth: "30 in" } })).toEqual(["gaps.behind", "depth"]);
    expect(asked({ depth: "35 in" })).toEqual(["gaps.behind", "body.depth"]);
  });
});
