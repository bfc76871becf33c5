import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brand, inUnit, si } from "../../src/core/quantity/index.js";
import {
  axialTravel,
  fittingTurns,
  gentModulus,
  logModulus,
  threadFactor,
  washerForce,
  washerSqueeze,
} from "../../src/plumbing/index.js";
import { flareTorqueRows, turnHabits } from "../../src/plumbing/tables/joint-turns.js";
import { type ThreadId, threadIds, threadOf, threadRows } from "../../src/plumbing/tables/threads.js";
import { blockFactorRows } from "../../src/plumbing/tables/washer.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("plumbing/fitting-turns.csv");
const hosePitch = si(1 / 11.5, "in");

/** What the code has for a row of the reference. */
const computed: Record<string, (row: Readonly<Record<string, string>>) => number> = {
  travel_mm: ({ key, turns }) =>
    inUnit(axialTravel(si(1 / threadOf(key as ThreadId).threadsPerInch, "in"), si(Number(turns), "turn")), "mm"),
  squeeze_percent: ({ turns, thickness_mm }) =>
    100 * washerSqueeze(axialTravel(hosePitch, si(Number(turns), "turn")), si(Number(thickness_mm), "mm")),
  gent_MPa: ({ key }) => inUnit(gentModulus(Number(key)), "MPa"),
  log_MPa: ({ key }) => inUnit(logModulus(Number(key)), "MPa"),
  thread_factor: ({ key }) => threadFactor(si(1.0625, "in"), si(1.006, "in"), hosePitch, Number(key), si(60, "deg")),
  force_low_N: ({ key }) =>
    washerForce(brand<"ratio">(Number(key)), si(25.4, "mm"), si(15.9, "mm"), si(3.2, "mm"), 70).low,
};

describe("the thread table", () => {
  test("has one row for every name, and its second transcription agrees", () => {
    expect(threadRows.map(({ id }) => id)).toEqual([...threadIds]);
    // Pitch in mm to three decimals, major diameter in mm to two, transcribed from the metric columns of the sources.
    const pitches = threadRows.map(({ threadsPerInch, major_mm }) => [
      (25.4 / threadsPerInch).toFixed(3),
      major_mm.toFixed(2),
    ]);
    expect(pitches).toEqual([
      ["2.209", "26.99"],
      ["3.175", "34.92"],
      ["1.411", "13.72"],
      ["1.411", "17.14"],
      ["1.814", "21.34"],
      ["1.814", "26.67"],
      ["1.337", "13.16"],
      ["1.337", "16.66"],
      ["1.814", "20.95"],
      ["1.814", "26.44"],
      ["1.337", "13.16"],
      ["1.337", "16.66"],
      ["1.814", "20.95"],
      ["1.814", "26.44"],
      ["1.058", "11.11"],
      ["1.058", "14.29"],
      ["1.270", "17.46"],
      ["1.411", "20.64"],
      ["1.270", "11.11"],
      ["1.411", "15.88"],
      ["1.587", "19.05"],
      ["1.814", "22.22"],
      ["1.270", "11.11"],
      ["1.411", "14.29"],
      ["1.587", "19.05"],
      ["1.814", "22.22"],
      ["1.587", "23.81"],
    ]);
  });

  test("other tables are the printed ones, transcribed a second time", () => {
    expect(blockFactorRows.map(([, k]) => k)).toEqual([0.93, 0.85, 0.73, 0.57, 0.53, 0.52]);
    expect(flareTorqueRows.map((row) => Object.values(row).join("/"))).toEqual([
      "1/4/9/12/12/3",
      "3/8/18/18/26/5",
      "1/2/34/37/37/5",
      "5/8/46/48/48/5",
    ]);
    expect(Object.entries(turnHabits).map(([joint, { low, high }]) => [joint, 12 * low, 12 * high])).toEqual([
      ["hoseWasher", 3, 8],
      ["brassFerrule", 6, 12],
      ["twoFerrule", 15, 15],
      ["flare45", 2, 4],
      ["flare37", 2, 4],
      ["taperThread", 24, 36],
      ["pushFit", 0, 0],
    ]);
  });
});

describe("plumbing/fitting-turns", () => {
  test.each(rows)("agrees with $check $key $turns $thickness_mm: $value", (row) => {
    const value = Number(row.value);
    expect(Math.abs(computed[row.check!]!(row) - value)).toBeLessThanOrEqual(tolerance * value);
  });

  test("gives the squeezes of the washer example: bonded and large strain", () => {
    const washer = [si(25.4, "mm"), si(15.9, "mm"), si(3.2, "mm")] as const;
    const area = (Math.PI / 4) * (25.4 ** 2 - 15.9 ** 2);
    expect(area).toBeCloseTo(308.2, 1);
    // Reference example, Gent's modulus throughout: 539 N held faces at small strain, 432 N free faces at large strain.
    expect(gentModulus(70) * area * 1e-6 * 0.2 * (1 + 2 * 0.53 * 0.742 ** 2)).toBeCloseTo(539, 0);
    expect(((gentModulus(70) * area * 1e-6) / 3) * (1 / 0.64 - 0.8)).toBeCloseTo(432, 0);
    const { low, high } = washerForce(brand<"ratio">(0.2), ...washer, 70);
    // All three lie inside the range given, whose ends differ by the honest factor of three and more.
    expect(low).toBeLessThan(432);
    expect(high).toBeGreaterThan(539);
    expect(high / low).toBeGreaterThan(3);
  });

  test("shows both the habit and the handbook on a 1/8 in washer, and what decides", () => {
    const { values, assumptions } = fittingTurns({ joint: "hoseWasher", washerThickness: "3.2 mm" });
    expect(values).toMatchObject({
      habitLow: { text: "1/4 turn" },
      habitHigh: { text: "0.667 turns" },
      squeezeLow: { text: "17.3 %" },
      squeezeHigh: { text: "46 %" },
      windowHigh: { text: "0.435 turns" },
    });
    // 20 % on 3.2 mm takes 104 degrees.
    expect(axialTravel(hosePitch, si(104.3, "deg"))).toBeCloseTo(0.2 * 0.0032, 6);
    expect((values["decides"] as { text: string }).text).toMatch(/^The habit's upper end crushes this washer/);
    expect(assumptions).toHaveLength(3);
  });

  test("trap: two thirds of a turn is not within the handbook's squeeze unless the washer is near 5 mm thick", () => {
    const decides = (mm: number) =>
      (fittingTurns({ joint: "hoseWasher", washerThickness: `${mm} mm` }).values["decides"] as { text: string }).text;
    for (const mm of [2.5, 3, 3.2, 4, 4.9]) expect(decides(mm)).not.toMatch(/agree/);
    expect(decides(5)).toMatch(/^The habit stops short/);
  });

  test("trap: the handbook's constant 0.625 for the collar overstates a hose coupling's face", () => {
    const { values, workings } = fittingTurns({ joint: "hoseWasher", washerThickness: "3.2 mm" });
    const step = workings.find(({ formula }) => formula?.startsWith("torque ="))!;
    const { force, factor, major, friction, mean } = step.values as Record<string, { si: number }>;
    const wrong = force!.si * (factor!.si + 0.625 * friction!.si) * major!.si;
    expect(mean!.si / (2 * major!.si)).toBeCloseTo(0.382, 2);
    expect(wrong).toBeGreaterThan(1.2 * (values["torqueLow"] as { si: number }).si);
  });

  test("the thread part gives two handbook examples (Shigley, 8-1 and 8-4, from memory)", () => {
    // Square double thread: 32 mm, mean diameter 30 mm, lead 8 mm, f = fc = 0.08, collar 40 mm, 6.4 kN: 26.18 N·m.
    const screw = threadFactor(si(32, "mm"), si(30, "mm"), si(8, "mm"), 0.08, si(0, "deg"));
    expect(6400 * (0.032 * screw + (0.08 * 0.04) / 2)).toBeCloseTo(26.18, 2);
    // 3/4-16 UNF, 25 kip, f = fc = 0.15, d2 0.7094 in, collar 1.25 d: 3,551 lbf·in against 3,750 by K 0.2.
    const bolt = threadFactor(si(0.75, "in"), si(0.7094, "in"), si(1 / 16, "in"), 0.15, si(60, "deg"));
    expect(Math.abs(25_000 * 0.75 * (bolt + 0.625 * 0.15) - 3551)).toBeLessThan(2);
    expect(25_000 * 0.75 * 0.2).toBe(3750);
  });

  test("halves the flare torque for brass, which a manual for steel does not say", () => {
    const at = (metal: "brass" | "steel") =>
      fittingTurns({ joint: "flare45", thread: "5/8-18 flare 45°", metal }).values["torqueHigh"] as { si: number };
    expect(at("steel").si).toBeCloseTo(si(31, "ftlbf"), 9);
    expect(at("brass").si).toBeCloseTo(si(15.5, "ftlbf"), 9);
  });

  test("gives no torque for the gas flare nut, whose chart nobody has shown", () => {
    const { values } = fittingTurns({ joint: "flare45", thread: "15/16-16 gas flare" });
    expect(values).toMatchObject({ torqueLow: null, torqueHigh: null });
  });

  test("carries the tolerance of the washer into the window", () => {
    const { values } = fittingTurns({ joint: "hoseWasher", washerThickness: "3.2 mm ± 0.2 mm" });
    const window = values["windowHigh"] as { tolerance: { si: number } };
    expect(window.tolerance.si).toBeCloseTo(si((0.3 * 0.2) / 2.2087, "turn"), 4);
  });

  test("points at what cannot be read", () => {
    const { fault } = fittingTurns.try({ joint: "hoseWasher", washerThickness: 3.2 });
    expect(fault?.issues[0]).toMatchObject({ path: ["washerThickness"], code: "noUnit" });
    expect(fittingTurns.try({ joint: "hoseWasher", washerThickness: "0.1 mm" }).fault?.issues[0]).toMatchObject({
      code: "outOfRange",
    });
  });

  test("laws: more turn squeezes more, a thicker washer less, the window undoes the squeeze", () => {
    const mm = fc.double({ min: 1.5, max: 8, noNaN: true });
    fc.assert(
      fc.property(mm, mm, fc.double({ min: 0.01, max: 1, noNaN: true }), (thin, more, turns) => {
        const travel = axialTravel(hosePitch, si(turns, "turn"));
        expect(washerSqueeze(travel, si(thin + more, "mm"))).toBeLessThan(washerSqueeze(travel, si(thin, "mm")));
        const window = fittingTurns({ joint: "hoseWasher", washerThickness: { value: thin, unit: "mm" } }).values[
          "windowHigh"
        ] as { si: number };
        const squeeze = washerSqueeze(axialTravel(hosePitch, brand<"angle">(window.si)), si(thin, "mm"));
        expect(squeeze).toBeCloseTo(0.3, 9);
      }),
      { numRuns: 40 },
    );
  });
});
