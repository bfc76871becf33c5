import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { si } from "../../src/core/quantity/index.js";
import { elementPower, supplyVoltage } from "../../src/electrical/index.js";
import { voltageRanges } from "../../src/electrical/tables/voltage-ranges.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("electrical/supply-voltage.csv");
const volts = (value: number) => `${value} V`;
const iec = { jurisdiction: { adopted: { iec60364: 2017 } } } as const;

describe("the voltage ranges", () => {
  test("are one row times 2 and times √3, to the whole volt", () => {
    for (const row of voltageRanges) {
      const base = voltageRanges.find(({ nominal_V, range }) => nominal_V === 120 && range === row.range)!;
      const factor = row.nominal_V === 120 ? 1 : row.nominal_V === 240 ? 2 : Math.sqrt(3);
      for (const column of ["serviceLeast_V", "serviceMost_V", "utilizationLeast_V"] as const) {
        expect(Math.abs(row[column] - base[column] * factor)).toBeLessThanOrEqual(0.5);
      }
    }
  });

  test("are the table's 120 V rows, transcribed a second time", () => {
    const base = voltageRanges.filter(({ nominal_V }) => nominal_V === 120);
    expect(base.map((row) => [row.range, row.serviceLeast_V, row.serviceMost_V, row.utilizationLeast_V])).toEqual([
      ["A", 114, 126, 108],
      ["B", 110, 127, 104],
    ]);
  });
});

describe("electrical/supply-voltage", () => {
  test.each(rows)("fails beyond $low_V V and $high_V V: $system $rated_V V $reading", (row) => {
    const at = row.system === "230/400 V" ? iec : {};
    const messageAt = (value: number) =>
      supplyVoltage(
        {
          plate: { voltage: volts(Number(row.rated_V)) },
          system: row.system as "120/240 V",
          noLoad: volts(row.reading === "idle" ? value : Number(row.rated_V)),
          loaded: volts(row.reading === "idle" ? Number(row.rated_V) : value),
        },
        at,
      ).parts.map(({ messageId }) => messageId);
    const beyond = [row.reading === "idle" ? "idleLow" : "runningLow", "idleHigh"];
    expect(messageAt(Number(row.low_V) - tolerance)).toContain(beyond[0]);
    expect(messageAt(Number(row.low_V))).not.toContain(beyond[0]);
    if (row.high_V === "") return;
    expect(messageAt(Number(row.high_V) + tolerance)).toContain(beyond[1]);
    expect(messageAt(Number(row.high_V))).not.toContain(beyond[1]);
  });

  test("says what a bad joint costs, with the step", () => {
    const finding = supplyVoltage({
      plate: { voltage: "240 V" },
      system: "120/240 V",
      noLoad: "242 V",
      loaded: "221 V",
    });
    expect(finding.message).toBe(
      "The voltage falls by 21 V when the machine runs, 8.75 % of 240 V; it should be at most 5 %. Look for a loose joint or a run too thin for its length.",
    );
    expect(finding.workings.map(({ text }) => text)).toContain(
      "share = (noLoad - loaded) / nominal: (242 V - 221 V) / 240 V = 8.75 %",
    );
    expect(finding.basis[0]).toMatchObject({ document: "NEC", edition: "2020", force: "advice" });
  });

  test("finds a loose neutral in the legs, though line to line all is well", () => {
    const input = { plate: { voltage: "240 V" }, system: "120/240 V", noLoad: "242 V", loaded: "238 V" } as const;
    const ids = (one: string, two: string) =>
      supplyVoltage({ ...input, legs: { one, two } }).parts.filter(({ verdict }) => verdict === "fail");
    expect(ids("110 V", "127 V")).toEqual([]);
    expect(ids("109.9 V", "127.1 V").map(({ messageId }) => messageId)).toEqual(["legLow", "legHigh"]);
  });

  test("takes the maker's own range in place of the usual ten per cent", () => {
    const input = { plate: { voltage: "240 V" }, system: "208Y/120 V", noLoad: "209 V", loaded: "205 V" } as const;
    const maker = [
      { limit: "electrical/supply-voltage.machine-least", value: "85 %", citation: { document: "Installation sheet" } },
    ];
    expect(supplyVoltage(input).verdict).toBe("fail");
    expect(supplyVoltage(input, { maker }).verdict).toBe("pass");
  });

  test("cannot tell where the meter's tolerance lies across the bound", () => {
    const finding = supplyVoltage({
      plate: { voltage: "240 V" },
      system: "120/240 V",
      noLoad: "220.5 V ± 2 V",
      loaded: "219 V",
    });
    expect(finding).toMatchObject({ verdict: "review", messageId: "tooCloseToCall" });
    expect(finding.missing).toMatchObject([{ path: ["noLoad"] }]);
  });

  test("points at what was not measured and at what cannot be read", () => {
    expect(supplyVoltage({ plate: { voltage: "240 V" }, system: "120/240 V", noLoad: "240 V" })).toMatchObject({
      verdict: "review",
      missing: [{ path: ["loaded"] }],
    });
    const read = supplyVoltage.try({ plate: { voltage: "240 V" }, system: "120/240 V", noLoad: "240 A" });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["noLoad"] });
  });

  test("never gets better when the running voltage falls", () => {
    const order = ["fail", "review", "pass"];
    fc.assert(
      fc.property(fc.integer({ min: 180, max: 240 }), fc.integer({ min: 1, max: 40 }), (loaded, less) => {
        const verdict = (value: number) =>
          supplyVoltage({ plate: { voltage: "240 V" }, system: "120/240 V", noLoad: "240 V", loaded: volts(value) })
            .verdict;
        expect(order.indexOf(verdict(loaded - less))).toBeLessThanOrEqual(order.indexOf(verdict(loaded)));
      }),
      { numRuns: 40 },
    );
  });
});

describe("elementPower", () => {
  test("never rises when the supply falls, and is three quarters at 208 V", () => {
    expect(elementPower(si(1, "W"), si(208, "V"), si(240, "V"))).toBeCloseTo(0.7511, 4);
    const v = fc.double({ min: 0, max: 500, noNaN: true });
    fc.assert(
      fc.property(v, v, (a, b) => {
        const power = (value: number) => elementPower(si(5000, "W"), si(value, "V"), si(240, "V"));
        expect(power(Math.min(a, b))).toBeLessThanOrEqual(power(Math.max(a, b)));
      }),
    );
  });
});
