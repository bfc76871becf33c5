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
