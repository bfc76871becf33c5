import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brand, inUnit, si } from "../../src/core/quantity/index.js";
import { drainFlow } from "../../src/physics/index.js";
import { drainCapacity, standpipeVolume } from "../../src/plumbing/index.js";
import { type DrainSize, drainSizes } from "../../src/plumbing/limits-drain.js";
import { drainBores_in, drainNominal_in, drainRoughness } from "../../src/plumbing/tables/drain.js";
import { reference } from "../references.js";
import { printedIn, valueIn } from "./governing.js";

const { rows, tolerance } = reference("plumbing/drain-capacity.csv");
const good = {
  kind: "washer",
  pump: "14 gpm",
  pumpTime: "60 s",
  pipe: "2",
  material: "plastic",
  slope: "1/4 in/ft",
  standpipeHeight: "28 in",
  standpipePipe: "2",
  arm: "5 ft",
  armPipe: "2",
  otherUnits: 2,
} as const;
const check = (change: object, at?: Parameters<typeof drainCapacity>[1]) => drainCapacity({ ...good, ...change }, at);

/** Flow by Manning [gpm] of a nominal size at so many inches a foot. */
const gpm = (size: DrainSize, perFoot: number, roughness: number, depth: number) =>
  inUnit(
    drainFlow(
      { diameter: si(drainBores_in[size], "in"), slope: brand<"slope">(perFoot / 12), roughness },
      brand<"ratio">(depth),
    ),
    "gpm",
  );

describe("plumbing/drain-capacity", () => {
  test.each(rows)("$limit $document $edition $when: $value $unit", (row) => {
    const when = row.when!.replace("size=", "");
    const limits = drainCapacity.limits;
    const limit = limits.find(({ id }) => id.endsWith(`.${row.limit}`))!;
    const exact = { ...row, limit: limit.id, when: "" };
    // Sizes are words, not numbers: "2" stays a text.
    const sized = { ...limit, values: limit.values.filter((value) => !value.when || value.when["size"] === when) };
    const plain = { ...sized, values: sized.values.map(({ when: _, ...value }) => value) };
    const printed = printedIn(row)!;
    expect(Math.abs(valueIn([plain], exact)! - printed)).toBeLessThanOrEqual(tolerance * printed);
  });

  test("half full and full flows are the library's", () => {
    // fluids 1.0.22 V_Manning: half and full, gpm.
    for (const [size, fall, roughness, half, full] of [
      ["2", 0.25, 0.009, 15.31, 30.62],
      ["2", 0.25, 0.013, 10.6, 21.2],
      ["1-1/2", 0.25, 0.009, 7.86, 15.73],
      ["3", 0.25, 0.009, 43.89, 87.78],
      ["3", 0.125, 0.009, 31.03, 62.07],
      ["4", 0.125, 0.013, 44.35, 88.69],
    ] as const) {
      expect(Math.abs(gpm(size, fall, roughness, 0.5) / half - 1)).toBeLessThan(0.001);
      expect(Math.abs(gpm(size, fall, roughness, 1) / full - 1)).toBeLessThan(0.001);
    }
    // A published practice problem: 0.5 ft pipe, 5 %, n 0.02, 0.82 ft³/s with R^(2/3) rounded to 0.25; 0.8155 exactly.
    const flow = drainFlow(
      { diameter: si(0.5, "ft"), slope: brand<"slope">(0.05), roughness: 0.02 },
      brand<"ratio">(1),
    );
    expect(Math.abs(flow / si(1, "ft3") - 0.8155)).toBeLessThan(0.001);
  });

  test("its own figures are the printed ones, transcribed a second time", () => {
    expect(drainSizes.map((size) => (25.4 * drainBores_in[size]).toFixed(2))).toEqual([
      "35.05",
      "40.89",
      "52.50",
      "62.71",
      "77.93",
      "102.26",
    ]);
    expect(drainSizes.map((size) => 4 * drainNominal_in[size])).toEqual([5, 6, 8, 10, 12, 16]);
    expect(Object.entries(drainRoughness).flat()).toEqual(["plastic", 0.009, "copper", 0.011, "castIron", 0.013]);
  });

  test("a 2 in standpipe holds 0.174 US gal a foot, 2.165 L a metre", () => {
    expect(inUnit(standpipeVolume("2", si(1, "ft")), "galUS")).toBeCloseTo(0.174, 3);
    expect(inUnit(standpipeVolume("2", si(1, "m")), "L")).toBeCloseTo(2.165, 3);
    // 24 in above the weir is 2 s at 10 gpm surplus.
    expect(inUnit(standpipeVolume("2", si(24, "in")), "galUS") / (10 / 60)).toBeCloseTo(2.1, 1);
  });

  test("trap: an old 1 1/2 in drain takes an old pump and overflows with a new one", () => {
    const old = { pipe: "1-1/2", standpipePipe: "1-1/2", standpipeHeight: "24 in", otherUnits: 0 } as const;
    expect(check({ ...old, pump: "10 gpm" }).verdict).toBe("pass");
    const finding = check({ ...old, pump: "17 gpm" });
    expect(finding.message).toBe(
      "The pump gives 1.27 US gal more than the drain carries meanwhile, and the standpipe holds only 0.212 US gal: it overflows.",
    );
    expect(finding.workings.slice(1, 4).map(({ text }) => text)).toEqual([
      "room = pi / 4 * bore^2 * height: pi / 4 * 1.61 in^2 * 24 in = 0.212 US gal",
      "surplus = (pump - full) * time: (17 gpm - 15.7 gpm) * 60 s = 1.27 US gal",
      "1.27 US gal at most 0.212 US gal: does not hold",
    ]);
    expect(finding.remedies[0]!.message).toBe("Have the drain made of 2 in pipe.");
    // For three seconds the standpipe holds it.
    expect(check({ ...old, pump: "17 gpm", pumpTime: "3 s" }).messageId).toBe("held");
  });

  test("trap: half full is half the full flow, not half the pipe's best", () => {
    expect(gpm("2", 0.25, 0.009, 0.5) / gpm("2", 0.25, 0.009, 1)).toBeCloseTo(0.5, 9);
    expect(gpm("2", 0.25, 0.009, 0.938) / gpm("2", 0.25, 0.009, 1)).toBeCloseTo(1.0757, 4);
  });

  test("exactly on the trap arm and its fall passes; a steeper drain can siphon the trap", () => {
    expect(check({ arm: "8 ft" }).verdict).toBe("pass");
    expect(check({ arm: "8 ft 1/16 in" })).toMatchObject({ verdict: "fail", messageId: "armLong" });
    expect(check({ arm: "6 ft", slope: "1/2 in/ft" }).messageId).toBe("armSteep");
    expect(check({ arm: "4 ft", slope: "1/2 in/ft" }).verdict).toBe("pass");
  });

  test("trap: the code families differ on the arm, the washer's units and the branch", () => {
    const upc = { jurisdiction: { adopted: { upc: 2021 as const } } };
    expect(check({ arm: "7 ft" }).verdict).toBe("pass");
    expect(check({ arm: "7 ft" }, upc)).toMatchObject({ verdict: "fail", messageId: "armLong" });
    expect(check({ otherUnits: 4.5 })).toMatchObject({ verdict: "fail", messageId: "unitsOver" });
    expect(check({ otherUnits: 4.5 }, upc).verdict).toBe("pass");
  });

  test("asks for what is missing or too close, and points at what cannot be read", () => {
    expect(drainCapacity({ kind: "washer" }).missing.map(({ path }) => path[0])).toEqual([
      "pump",
      "pipe",
      "material",
      "slope",
      "arm",
      "armPipe",
      "otherUnits",
    ]);
    expect(check({ slope: "0.25 in/ft ± 0.05 in/ft" }).messageId).toBe("tooCloseToCall");
    expect(drainCapacity.try({ ...good, pump: 14 }).fault?.issues[0]).toMatchObject({ path: ["pump"], code: "noUnit" });
  });

  test("laws: a wider, steeper or smoother drain never carries less", () => {
    const fall = fc.double({ min: 0.02, max: 2, noNaN: true });
    const size = fc.integer({ min: 0, max: drainSizes.length - 2 });
    fc.assert(
      fc.property(fall, fall, size, fc.double({ min: 0.05, max: 0.9, noNaN: true }), (slope, more, pick, depth) => {
        const [pipe, wider] = [drainSizes[pick]!, drainSizes[pick + 1]!];
        const here = gpm(pipe, slope, 0.013, depth);
        expect(gpm(wider, slope, 0.013, depth)).toBeGreaterThan(here);
        expect(gpm(pipe, slope + more, 0.013, depth)).toBeGreaterThan(here);
        expect(gpm(pipe, slope, 0.009, depth)).toBeGreaterThan(here);
      }),
    );
  });
});
