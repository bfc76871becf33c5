import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { ShownValue } from "../../src/core/rule/index.js";
import { levelFeet, pitchOf, threadNames } from "../../src/placement/index.js";
import { reference } from "../references.js";
import { answeredFloors, corners, type Foot } from "./floors.js";

const { rows, tolerance } = reference("placement/level-feet.csv");

/** Turns of the four feet, out counted as plus. */
const turnsOf = (input: unknown): number[] | string => {
  const { status, messageId, values } = levelFeet.try(input).calculation!;
  if (status !== "computed") return messageId!;
  return (values.feet as unknown as Foot[]).map(({ turns, change }) => {
    // Results carry twelve digits; a quarter turn is exact far below that.
    const count = Number((turns!.si! / (2 * Math.PI)).toFixed(9));
    return count === 0 ? 0 : Math.sign(change!.si!) * count;
  });
};

const feet = { width: "24 in", depth: "22 in" };

describe("the table of threads", () => {
  test("is the printed one, transcribed a second time as millimetres in a turn", () => {
    const millimetres = [1.27, 1.41111, 1.5875, 1.95385, 1.25, 1.5, 1.75];
    threadNames.forEach((name, i) => {
      expect(pitchOf(name) * 1000).toBeCloseTo(millimetres[i]!, 5);
    });
  });
});

describe("placement/level-feet", () => {
  test.each(rows)("$id: turns $turns", (row) => {
    const list = (cell: string) => cell.split(";").map(Number);
    const text = (value: number) => `${value} ${row.unit}`;
    const drops = list(row.floor!).map((height) => text(40 - height));
    const extended = list(row.extended!).map(text);
    const turns = turnsOf({
      feet,
      reading: { by: "drops", ...Object.fromEntries(corners.map((key, i) => [key, drops[i]])) },
      extended: Object.fromEntries(corners.map((key, i) => [key, extended[i]])),
      lead: text(Number(row.lead)),
      screw: { length: text(Number(row.travel)), engagement: "0 in" },
      aim: "leastTurn",
    });
    if (row.turns === "none") expect(turns).toBe("tooUneven");
    else {
      list(row.turns!).forEach((wanted, i) => {
        expect(Math.abs((turns as number[])[i]! - wanted)).toBeLessThanOrEqual(tolerance);
      });
    }
  });

  test("says which way each foot turns as the installer sees it, and shows the steps", () => {
    const { values, workings, assumptions } = levelFeet({
      feet,
      reading: { by: "rise", over: "24 in", across: "1/8 in", back: "0 in", accuracy: "1/32 in" },
      thread: "5/16-18",
    });
    const [frontLeft, frontRight] = values.feet as unknown as Foot[];
    expect(frontLeft).toMatchObject({
      foot: { text: "front left" },
      turns: { text: "2 1/4 turns" },
      way: { text: "counter-clockwise seen from below, clockwise seen from above: the corner comes up" },
      change: { text: "1/8 in" },
    });
    expect(frontRight).toMatchObject({ turns: { text: "0 turns" }, way: { text: "leave as it is" } });
    expect(workings.map(({ text }) => text)).toContain(
      "frontLeftTurns = (level - frontLeft) / lead: (1/16 in - -1/16 in) / 0.0556 in = 2.25",
    );
    expect(assumptions).toHaveLength(2);
  });

  test("brings a high corner down, clockwise from below, where the feet are out far enough", () => {
    const { values } = levelFeet({
      feet,
      reading: { by: "slope", across: "1/16 in per ft", back: "0 in per ft" },
      thread: "3/8-16",
      extended: { frontLeft: "1/2 in", frontRight: "1/2 in", backRight: "1/2 in", backLeft: "1/2 in" },
      aim: "leastTurn",
    });
    const right = (values.feet as unknown as Foot[])[1]!;
    expect(right.way!.text).toBe("clockwise seen from below, counter-clockwise seen from above: the corner comes down");
    expect(right.change!.si).toBeLessThan(0);
  });

  test("gives the same turns for one slope in any unit, and for the floor that makes it", () => {
    const slope = (across: string, back: string) =>
      turnsOf({ feet, reading: { by: "slope", across, back }, thread: "1/4-20" });
    const wanted = slope("1/8 in per ft", "-1/16 in per ft");
    expect(slope("10.41666666667 mm/m", "-5.20833333333 mm/m")).toEqual(wanted);
    expect(slope("1.041666666667 %", "-0.520833333333 %")).toEqual(wanted);
    expect(slope("0.596813°", "-0.298414°")).toEqual(wanted);
    const bubble = { by: "bubble", across: 2, back: -1, division: "1/16 in per ft" };
    expect(turnsOf({ feet, reading: bubble, thread: "1/4-20" })).toEqual(wanted);
    // Rising 1/4 in over 24 in to the right, falling 0.114583 in over 22 in to the back.
    const drops = {
      by: "drops",
      frontLeft: "10 in",
      frontRight: "9.75 in",
      backRight: "9.8645833333 in",
      backLeft: "10.1145833333 in",
    };
    expect(turnsOf({ feet, reading: drops, thread: "1/4-20" })).toEqual(wanted);
  });

  test("takes out the level's own error when it is turned end for end", () => {
    const reading = (more: object) => turnsOf({ feet, reading: { by: "slope", back: "0 %", ...more }, lead: "1 mm" });
    expect(reading({ across: "0.6 %", acrossTurned: "-0.6 %" })).toEqual([0, 0, 0, 0]);
    expect(reading({ across: "0.8 %", acrossTurned: "0.4 %" })).toEqual(reading({ across: "0.6 %" }));
  });

  test("turns the free foot of a machine that rocks, not its neighbour", () => {
    const rocking = (foot: string) =>
      turnsOf({
        feet,
        reading: { by: "slope", across: "0 %", back: "0 %" },
        rocks: { foot, gap: "4 mm" },
        lead: "1 mm",
      });
    expect(rocking("front right")).toEqual([0, 4, 0, 0]);
    expect(rocking("back left")).toEqual([0, 0, 0, 4]);
  });

  test("a level reading alone hides rock: least squares sees a quarter of it", () => {
    const { values } = levelFeet({
      feet: { width: "600 mm", depth: "550 mm" },
      reading: { by: "drops", frontLeft: "100 mm", frontRight: "97 mm", backRight: "99 mm", backLeft: "98 mm" },
      lead: "1 mm",
    });
    const after = (values.feet as unknown as Foot[]).map(({ change }, i) => change!.si! * 1000 - [100, 97, 99, 98][i]!);
    expect(after.every((height) => Math.abs(height - after[0]!) < 1e-9)).toBe(true);
  });

  test("is sure only where the measurement itself may not hide half a degree", () => {
    const sure = (accuracy: string | undefined) =>
      levelFeet({
        feet,
        reading: { by: "slope", across: "1 %", back: "0 %", ...(accuracy === undefined ? {} : { accuracy }) },
        thread: "M8 x 1.25",
      }).values.sure as unknown as ShownValue;
    expect(sure("0.1°").text).toMatch(/^yes/);
    expect(sure("0.4°").text).toMatch(/^only if the measurement is right/);
    expect(sure(undefined).text).toMatch(/^not known/);
  });

  test("carries the tolerance of a reading to the turns", () => {
    const { values } = levelFeet({
      feet,
      reading: { by: "slope", across: "1 % ± 0.5 %", back: "0 %" },
      thread: "M8 x 1.25",
    });
    const [frontLeft] = values.feet as unknown as Foot[];
    expect(frontLeft!.change!.tolerance!.si).toBeGreaterThan(0.002);
  });

  test("does not answer without what it needs, and says what", () => {
    expect(levelFeet({ thread: "5/16-18" }).missing.map(({ path }) => path)).toEqual([
      ["feet", "width"],
      ["feet", "depth"],
    ]);
    const read = levelFeet.try({ feet, reading: { by: "slope", across: 1, back: "0 %" } });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["reading", "across"], code: "noUnit" });
  });

  test("on 50,000 random floors: inside the travel, level and without rock but for the rounding, none lower", () => {
    expect(answeredFloors(20240607, 50_000)).toBeGreaterThan(15_000);
  });

  test("nothing but the corners change places in the mirror", () => {
    const slope = fc.integer({ min: -40, max: 40 });
    fc.assert(
      fc.property(slope, slope, (across, back) => {
        const turn = (a: number) =>
          turnsOf({
            feet,
            reading: { by: "slope", across: `${a / 10} %`, back: `${back / 10} %` },
            lead: "1.5 mm",
          }) as number[];
        const [frontLeft, frontRight, backRight, backLeft] = turn(across);
        const mirrored = turn(-across);
        expect([mirrored[1], mirrored[0], mirrored[3], mirrored[2]]).toEqual([
          frontLeft,
          frontRight,
          backRight,
          backLeft,
        ]);
      }),
      { numRuns: 50 },
    );
  });
});
