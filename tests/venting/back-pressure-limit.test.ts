import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { backPressureLimit } from "../../src/venting/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("venting/back-pressure-limit.csv");

/** The reference curve p = 0.9 (1 - (Q/230)²) inH2O as the thirty points a sheet may give. */
const blower = Array.from({ length: 30 }, (_, i) => {
  const flow = (230 * i) / 29;
  return { flow: `${flow} cfm`, pressure: `${Math.max(0, 0.9 * (1 - (flow / 230) ** 2))} inH2O` };
});
const still = { airTemperature: "20 °C", airHumidity: "0 %", outdoorTemperature: "20 °C" } as const;
const short = { fuel: "electric", diameter: "4 in", straight: "12 ft", elbows: [] } as const;

describe("venting/back-pressure-limit", () => {
  test.each(rows)("agrees with the library's operating point: $id", (row) => {
    const verdict = (limit: number) =>
      backPressureLimit({
        fuel: "electric",
        diameter: `${row.diameter_in} in`,
        straight: `${row.length_ft} ft`,
        elbows: [],
        // the printed sum is of the static pressure's losses; the hood's own coefficient has the exit's velocity head in it
        hoodLoss: Number(row.sum_k) + 1,
        blower,
        ...still,
        backPressureLimit: `${limit} inH2O`,
      }).verdict;
    const printed = Number(row.pressure_inH2O);
    expect(verdict(printed + tolerance)).toBe("pass");
    expect(verdict(printed - tolerance)).toBe("fail");
  });

  test("passes a manometer reading exactly on the limit", () => {
    const finding = backPressureLimit({
      fuel: "electric",
      backPressure: "0.6 inH2O",
      backPressureLimit: "0.6 in w.c.",
    });
    expect(finding).toMatchObject({ verdict: "pass", messageId: "measuredWithin", margin: { si: 0 } });
  });

  test("trap: a run that passes the table by its last inch chokes the machine all the same", () => {
    const finding = backPressureLimit({
      fuel: "electric",
      diameter: "4 in",
      straight: "10 ft",
      elbows: [{ radius: "4 in mitred", angle: "90°", count: 5 }],
      blower,
      backPressureLimit: "0.5 inH2O",
    });
    expect(finding.message).toMatch(
      /^The run takes 0\.\d+ inH2O at \d+ cfm, over the 0\.5 inH2O that the maker allows: it chokes the machine, whatever the code's table says\.$/,
    );
    expect(finding.workings.at(-1)!.text).toMatch(/inH2O at most 0\.5 inH2O: does not hold$/);
    expect(finding.basis[0]).toMatchObject({ force: "maker", confirmed: "stated" });
    expect(finding.cautions.join(" ")).toMatch(/Lint burns/);
  });

  test("lets a generic blower decide nothing, however clear the figures", () => {
    for (const limit of ["0.05 inH2O", "5 inH2O"]) {
      const finding = backPressureLimit({ ...short, backPressureLimit: limit });
      expect(finding).toMatchObject({
        verdict: "review",
        messageId: "genericBlower",
        missing: [{ path: ["backPressure"] }],
      });
      expect(finding.assumptions.join(" ")).toMatch(/no product's/);
    }
  });

  test("believes the manometer before the arithmetic", () => {
    const finding = backPressureLimit({ ...short, blower, backPressure: "2 inH2O", backPressureLimit: "0.8 inH2O" });
    expect(finding.messageId).toBe("measuredOver");
  });

  test("asks for a closer reading when its tolerance lies across the limit", () => {
    const finding = backPressureLimit({
      fuel: "electric",
      backPressure: "0.58 inH2O ± 0.05 inH2O",
      backPressureLimit: "0.6 inH2O",
    });
    expect(finding).toMatchObject({ verdict: "review", messageId: "tooCloseToCall" });
  });

  test("points at what is missing and at what cannot be read", () => {
    expect(
      backPressureLimit({ fuel: "electric", backPressureLimit: "0.6 inH2O" }).missing.map(({ path }) => path),
    ).toEqual([["diameter"], ["straight"], ["elbows"]]);
    const read = backPressureLimit.try({ fuel: "electric", backPressureLimit: "0.6" });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["backPressureLimit"], code: "noUnit" });
  });

  test("a longer run never turns a fail into a pass", () => {
    const feet = fc.integer({ min: 1, max: 90 });
    const verdict = (length: number) =>
      backPressureLimit({ ...short, straight: `${length} ft`, blower, backPressureLimit: "0.5 inH2O" }).verdict;
    fc.assert(
      fc.property(feet, feet, (a, b) => {
        if (verdict(Math.min(a, b)) === "fail") expect(verdict(Math.max(a, b))).toBe("fail");
      }),
      { numRuns: 40 },
    );
  });
});
