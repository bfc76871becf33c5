import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type AwgSize, awgSizes, inUnit, si } from "../../src/core/quantity/index.js";
import { gaugeNumber } from "../../src/electrical/gauge.js";
import { terminalTorque, toolShare } from "../../src/electrical/terminal-torque.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("electrical/terminal-torque.csv");

const screws = {
  "slotted No. 10": "slotted, No. 10 or larger",
  small: "slotted, smaller than No. 10",
  "split-bolt": "hexagon, split-bolt",
  hexagon: "hexagon",
  socket: "recessed hexagon or square",
} as const;

const inches = (text: string | undefined) => (text ? { value: Number(text), unit: "in" } : undefined);
const given = (fields: Record<string, unknown>) =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined && value !== ""));

type Torque = { values: Record<string, { si: number; text: string }> };
const run = (input: Record<string, unknown>, at?: object): Torque & ReturnType<typeof terminalTorque> =>
  terminalTorque.try(input, at as never).calculation as never;

describe("electrical/terminal-torque", () => {
  test.each(rows)("agrees with the printed tables: $screw $wire $slot_width_in $slot_length_in $flats", (row) => {
    const { values } = run(
      given({
        screw: screws[row.screw as keyof typeof screws],
        wire: row.wire,
        slotWidth: inches(row.slot_width_in),
        slotLength: inches(row.slot_length_in),
        flats: row.flats,
      }),
    );
    expect(values["inchPounds"]!.si).toBeCloseTo(Number(row.inch_pounds), 9);
    expect(Math.abs(values["newtonMetres"]!.si - Number(row.newton_metres))).toBeLessThanOrEqual(tolerance);
  });

  test("shows the look-up, the tool's tolerance and both units", () => {
    const slot = { slotWidth: "0.04 in", slotLength: "1/4 in" };
    const result = run({ wire: "10 AWG", screw: "slotted, No. 10 or larger", ...slot });
    expect(result.message).toBe(
      "Torque: 20 in-lb; In inch-pounds: 20; In newton-metres: 2.26; Least with a tool in tolerance: 18.8 in-lb; Most with a tool in tolerance: 21.2 in-lb; Stated by: the table, since the maker states none; Reached with: An approved means: a torque tool, or a bolt that shears at the torque.",
    );
    expect(result.workings.map(({ text }) => text)).toEqual([
      "Slotted screw No. 10 or larger with a narrow slot, by gauge (1/0 is 0, 4/0 is -3), at 10: 20 in-lb",
      "least = torque * (1 - share): 20 in-lb * (1 - 6 %) = 18.8 in-lb",
      "most = torque * (1 + share): 20 in-lb * (1 + 6 %) = 21.2 in-lb",
    ]);
    expect(result.basis.map(({ section }) => section)).toContain("Informative Annex I, Table I.1");
  });

  test("takes the maker's figure before any table, anywhere", () => {
    const stated = { stated: "36 in-lb", wire: "10 AWG", screw: "hexagon" };
    expect(run(stated).values["inchPounds"]!.si).toBeCloseTo(36, 9);
    const abroad = run(stated, { jurisdiction: { adopted: { iec60364: 2017 } } });
    expect(abroad.values["inchPounds"]!.si).toBeCloseTo(36, 9);
    expect(abroad.basis[0]).toMatchObject({ force: "maker", confirmed: "stated" });
  });

  test("asks for what it needs, and no table reaches a site under another code", () => {
    expect(run({}).missing).toMatchObject([{ path: ["screw"] }]);
    expect(run({ screw: "hexagon" }).missing).toMatchObject([{ path: ["wire"] }]);
    expect(run({ screw: "slotted, No. 10 or larger", wire: "8 AWG" }).missing).toMatchObject([
      { path: ["slotWidth"] },
      { path: ["slotLength"] },
    ]);
    const abroad = run({ screw: "hexagon", wire: "8 AWG" }, { jurisdiction: { adopted: { iec60364: 2017 } } });
    expect(abroad).toMatchObject({ status: "missing", missing: [{ path: ["stated"] }] });
  });

  test("points at a torque that cannot be read", () => {
    const { fault } = terminalTorque.try({ stated: "36", wire: "10 AWG" });
    expect(fault?.issues[0]).toMatchObject({ path: ["stated"], code: "noUnit" });
  });

  test("says by edition how a stated torque must be reached", () => {
    const means = (nec: number) =>
      run({ stated: "36 in-lb" }, { jurisdiction: { adopted: { nec } } }).values["means"]!.text;
    expect(means(2014)).toMatch(/no text here asks for it/);
    expect(means(2017)).toMatch(/^A calibrated torque tool/);
    expect(means(2020)).toMatch(/^An approved means/);
  });

  test("carries the tolerance of a stated torque", () => {
    expect(run({ stated: "36 in-lb ± 2 in-lb" }).values["torque"]).toMatchObject({ tolerance: { text: "2 in-lb" } });
  });

  test("a larger conductor never takes a smaller torque, and the tool's limits lie on both sides", () => {
    const size = fc.integer({ min: 0, max: awgSizes.length - 2 });
    const screw = fc.constantFrom("hexagon", "hexagon, split-bolt", "slotted, No. 10 or larger");
    fc.assert(
      fc.property(size, screw, fc.constantFrom("0.04 in", "0.06 in"), (i, kind, slotWidth) => {
        const of = (wire: AwgSize) => run({ wire, screw: kind, slotWidth, slotLength: "0.2 in" });
        const [a, b] = [of(awgSizes[i]!), of(awgSizes[i + 1]!)];
        if (a.status === "impossible" || b.status === "impossible") return;
        const value = (one: Torque, name: string) => one.values[name]!.si;
        expect(value(b, "torque")).toBeGreaterThanOrEqual(value(a, "torque"));
        expect(value(a, "least")).toBeLessThan(value(a, "torque"));
        expect(value(a, "most")).toBeGreaterThan(value(a, "torque"));
      }),
    );
  });

  test("the tool's share changes at 10 N·m, the bound itself in the wider one", () => {
    expect([9.99, 10, 10.01].map((value) => toolShare(si(value, "N*m")))).toEqual([0.06, 0.06, 0.04]);
  });
});

describe("traps", () => {
  test("165 in-lb is 18.64 N·m: the 18.5 of one print turned back would give 164", () => {
    const { values } = run({ wire: "4 AWG", screw: "hexagon, split-bolt" });
    expect(values["inchPounds"]!.si).toBeCloseTo(165, 9);
    expect(Math.round(inUnit(si(18.5, "N*m"), "inlbf"))).toBe(164);
  });

  test("a slot between two rows takes the shorter one: 7 in-lb at 0.24 in, not 9", () => {
    const input = {
      wire: "12 AWG",
      screw: "slotted, smaller than No. 10",
      slotWidth: "0.04 in",
      slotLength: "0.24 in",
    };
    expect(run(input).values["inchPounds"]!.si).toBeCloseTo(7, 9);
  });

  test("1/0 is gauge 0, not 1: its split bolt takes 385 in-lb, not 275", () => {
    expect((["1 AWG", "1/0 AWG", "2/0 AWG", "4/0 AWG"] as const).map(gaugeNumber)).toEqual([1, 0, -1, -3]);
    expect(run({ wire: "1/0 AWG", screw: "hexagon, split-bolt" }).values["inchPounds"]!.si).toBeCloseTo(385, 9);
  });
});
