import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { si } from "../../src/core/quantity/index.js";
import { floor, padPressure, separation, weightForJoists } from "../../src/placement/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("placement/floor.csv");
const byKind = (kind: string) =>
  rows
    .filter((row) => row.kind === kind)
    .map(({ a, b, c, d, value }) => ({ a: Number(a), b: Number(b), c: Number(c), d: Number(d), value: Number(value) }));
const near = (value: number, wanted: number) => expect(Math.abs(value / wanted - 1)).toBeLessThanOrEqual(tolerance);

const washer = {
  kind: "washer" as const,
  floor: "joists" as const,
  mass: "200 lb",
  contents: "100 lb",
  joists: { span: "12 ft", spacing: "16 in", count: 2, sag: "0.05 in" },
  spin: { speed: "1400 rpm" },
};

describe("kernels", () => {
  test.each(byKind("joists"))(
    "$a psf, $b in apart, $c ft long, $d joists carry $value lbf",
    ({ a, b, c, d, value }) => {
      near(weightForJoists(si(a, "psf"), si(b, "in"), si(c, "ft"), d) / si(1, "lbf"), value);
    },
  );

  test.each(byKind("pad"))("$a lbf on four pads of $b in press with $value psi", ({ a, b, value }) => {
    near(padPressure(si(a, "lbf"), si(b, "in")) / si(1, "psi"), value);
  });

  test("separation does not care which of the two is faster, and is 1 in step", () => {
    const speed = fc.double({ min: 0.1, max: 100, noNaN: true }).map((value) => si(value, "Hz"));
    fc.assert(
      fc.property(speed, speed, (a, b) => {
        expect(separation(a, b)).toBe(separation(b, a));
        expect(separation(a, b)).toBeGreaterThanOrEqual(1);
        expect(separation(a, a)).toBe(1);
      }),
    );
  });
});

describe("placement/floor", () => {
  test.each(byKind("frequency"))("joists that sag $a in answer at $value Hz", ({ a, value }) => {
    const { workings } = floor({ ...washer, joists: { ...washer.joists, sag: `${a} in` } });
    near(workings.find(({ formula }) => formula?.startsWith("own"))!.values.own!.si!, value);
  });

  test.each(byKind("unbalance"))("$a kg at $b m and $c rpm pull with $value N", ({ a, b, c, value }) => {
    const spin = { speed: `${c} rpm`, unbalance: `${a} kg`, radius: `${b} m` };
    const { parts } = floor({ ...washer, spin });
    near(parts.find(({ messageId }) => messageId === "unbalance")!.data.force!.si!, value);
  });

  test("a footprint above the design load is no failure by itself", () => {
    // 250 lb on 27 by 30 in are 44 psf, more than the 40 psf of the room, and still light for two joists.
    expect(floor({ ...washer, mass: "250 lb", contents: "0 lb" }).verdict).toBe("pass");
  });

  test("passes exactly what the joists are designed for: 640 lbf in SI", () => {
    const at = (mass: string) => floor({ ...washer, mass, contents: "0 lb" }).parts[0]!.verdict;
    expect(at("290.2991168 kg")).toBe("pass");
    expect(at("290.31 kg")).toBe("fail");
  });

  test("says what is too much, shows the sum, and offers more joists only where they help", () => {
    const one = { ...washer, joists: { span: "13 ft", spacing: "16 in", count: 1, sag: "0.05 in" } };
    const finding = floor({ ...one, room: "sleeping", spin: { speed: "1400 rpm" } });
    expect(finding.message).toBe(
      "The full machine weighs 300 lbf, 40 lbf more than the 260 lbf these joists are designed for at this spot.",
    );
    expect(finding.workings[0]!.text).toBe(
      "allowed = load * spacing * span * joists / 2: 30 psf * 16 in * 13 ft * 1 / 2 = 260 lbf",
    );
    expect(finding.remedies.map(({ message }) => message)).toEqual([
      "Set it on a stiff platform that reaches 2 joists.",
      "Set it on a stiff platform that reaches 3 joists.",
    ]);
  });

  test("finds a spin near the floor's own rhythm, above and below it, and offers a calmer one", () => {
    const at = (speed: string) => floor({ ...washer, spin: { speed } });
    expect(at("1340 rpm").verdict).toBe("fail");
    expect(at("1350 rpm").verdict).toBe("pass");
    expect(at("680 rpm").verdict).toBe("fail");
    expect(at("670 rpm").verdict).toBe("pass");
    expect(at("1000 rpm").remedies.map(({ message }) => message)).toEqual(["Spin at 671 rpm at most."]);
  });

  test("a machine that does not spin and a slab are not asked for a rhythm", () => {
    expect(floor({ ...washer, kind: "dryer", spin: {} }).verdict).toBe("pass");
    expect(floor({ kind: "washer", floor: "slab on ground" }).verdict).toBe("pass");
  });

  test("the feet have to take up the slope of the floor the way it runs", () => {
    const slope = (runs: "front to back" | "side to side", travel: string) =>
      floor({
        kind: "washer",
        floor: "slab on ground",
        slope: "1/4 in per ft",
        runs,
        feet: { width: "24 in", depth: "27 in" },
        travel,
      }).verdict;
    // 1/4 in in a foot over 27 in are 0.5625 in, over 24 in half an inch.
    expect(slope("front to back", "9/16 in")).toBe("pass");
    expect(slope("front to back", "0.56 in")).toBe("fail");
    expect(slope("side to side", "1/2 in")).toBe("pass");
  });

  test("cannot tell where the tolerance of a mass decides, asks for what is missing, points at the unreadable", () => {
    const mass = floor({ ...washer, mass: "630 lb ± 20 lb", contents: "0 lb" });
    expect(mass).toMatchObject({ verdict: "review", messageId: "tooCloseToCall" });
    expect(floor({ ...washer, joists: { span: "12 ft" } }).missing.map(({ path }) => path.join("."))).toEqual([
      "joists.spacing",
      "joists.count",
      "joists.sag",
    ]);
    expect(floor.try({ ...washer, mass: "200" }).fault?.issues[0]).toMatchObject({ path: ["mass"], code: "noUnit" });
  });

  test("more weight never makes it better", () => {
    const pounds = fc.integer({ min: 20, max: 1200 });
    fc.assert(
      fc.property(pounds, pounds, (a, b) => {
        const load = (mass: number) => floor({ ...washer, mass: `${mass} lb` }).parts[0]!.verdict;
        if (load(Math.max(a, b)) === "pass") expect(load(Math.min(a, b))).toBe("pass");
      }),
    );
  });
});

describe("what is not known, and what is assumed instead", () => {
  const finding = (change: object) => floor.try({ ...washer, contents: "100 lb", room: "other", ...change }).finding!;
  const asked = (change: object) => finding(change).missing.map(({ path }) => path.join("."));
  const { joists } = washer;

  test.each<[object, string[]]>([
    [{ joists: { spacing: "16 in", count: 2, sag: "0.05 in" } }, ["joists.span"]],
    [{ joists: { span: "12 ft", count: 2, sag: "0.05 in" } }, ["joists.spacing"]],
    [{ joists: { span: "12 ft", spacing: "16 in", sag: "0.05 in" } }, ["joists.count"]],
    [{ joists: { sag: "0.05 in" } }, ["joists.span", "joists.spacing", "joists.count"]],
    [{ joists: { ...joists, sag: undefined } }, ["joists.sag"]],
    [{ spin: {} }, ["spin.speed"]],
    [{ mass: undefined }, ["mass"]],
    [{ mass: undefined, floor: "slab on ground", covering: "10 psi", pad: "2 in" }, ["mass"]],
    [{ covering: "10 psi" }, ["pad"]],
    [{ slope: "1 %" }, ["runs", "feet.depth", "travel"]],
    [{ slope: "1 %", runs: "side to side" }, ["feet.width", "travel"]],
    [{ slope: "1 %", runs: "front to back", travel: "1 in" }, ["feet.depth"]],
    [{ slope: "1 %", runs: "front to back", feet: { depth: "24 in" } }, ["travel"]],
    [{ slope: "1 %", runs: "side to side", feet: { depth: "24 in" }, travel: "1 in" }, ["feet.width"]],
  ])("%o asks for %j", (change, paths) => {
    expect(finding(change).verdict).toBe("review");
    expect(asked(change)).toEqual(paths);
  });

  test("says that water and laundry were not counted, and which room is taken, only where that is so", () => {
    expect(finding({ contents: undefined }).assumptions.join()).toMatch(/Water and laundry .* not counted/);
    expect(finding({}).assumptions.join()).not.toMatch(/not counted/);
    expect(finding({ room: undefined }).assumptions.join()).toMatch(/room was not named/);
    expect(finding({}).assumptions.join()).not.toMatch(/not named/);
  });

  test("shows each sum: pads, the pull of the load, the drop of the floor", () => {
    const texts = finding({
      covering: "40 psi",
      pad: "2 in",
      spin: { speed: "1400 rpm", unbalance: "2 lb", radius: "10 in" },
      slope: "2 %",
      runs: "front to back",
      feet: { depth: "25 in" },
      travel: "1 in",
    }).workings.map(({ text }) => text);
    // 300 lbf on four pads of 2 in: 300/4/π = 23.87 psi; 2 % of 25 in is 1/2 in
    expect(texts.find((text) => text.startsWith("pressure ="))).toMatch(/300 lbf \/ 4 \/ .* = 23\.9 psi$/);
    expect(texts.find((text) => text.startsWith("force ="))).toMatch(/^force = unbalance \* radius \* /);
    expect(texts.find((text) => text.startsWith("drop ="))).toBe("drop = slope * feet: 0.24 in/ft * 25 in = 1/2 in");
  });

  test("says by how much the feet are short", () => {
    const { parts } = finding({
      slope: "4 %",
      runs: "side to side",
      feet: { width: "25 in", depth: "10 in" },
      travel: "3/4 in",
    });
    const short = parts.find(({ messageId }) => messageId === "feetShort")!;
    expect(short.data).toMatchObject({ drop: { text: "1 in" }, lack: { text: "1/4 in" } });
  });

  test("a girder that sags makes the floor slower, and a load without its radius gives no pull", () => {
    const own = (change: object) =>
      finding({ joists: { ...joists, ...change } }).workings.find(({ formula }) => formula?.startsWith("own"))!.values
        .own!.si!;
    // 0.18·√(g/Δ): three times the sag more makes four times the sag, half the frequency
    expect(own({}) / own({ girderSag: "0.15 in" })).toBeCloseTo(2, 9);
    const pulls = (spin: object) =>
      finding({ spin: { speed: "1400 rpm", ...spin } }).parts.some(({ messageId }) => messageId === "unbalance");
    expect(pulls({ unbalance: "2 lb", radius: "10 in" })).toBe(true);
    expect(pulls({ unbalance: "2 lb" })).toBe(false);
    expect(pulls({ radius: "10 in" })).toBe(false);
  });
});
