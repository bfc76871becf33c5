import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inUnit, si } from "../../src/core/quantity/index.js";
import { combustionAir, volumeAtChange } from "../../src/venting/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("venting/combustion-air.csv");
const each = { natural: si(21, "ft3"), fan: si(15, "ft3") };
const heater = (input: string, draught: "natural" | "fan-assisted" | "direct-vent" = "natural") => ({
  what: "water heater",
  input,
  draught,
});

describe("venting/combustion-air", () => {
  test.each(rows)("$natural_btuh + $fan_btuh Btu/h at $air_changes changes need $volume_ft3 ft³", (row) => {
    const btu = (text: string) => si(Number(text), "Btu/h");
    if (row.air_changes !== "") {
      const need = volumeAtChange(btu(row.natural_btuh!), btu(row.fan_btuh!), Number(row.air_changes), each);
      expect(Math.abs(inUnit(need, "ft3") - Number(row.volume_ft3))).toBeLessThanOrEqual(tolerance);
      return;
    }
    const others = [heater(`${row.natural_btuh} Btu/h`), heater(`${row.fan_btuh} Btu/h`, "fan-assisted")];
    const finding = combustionAir({ kind: "dryer", fuel: "electric", others, volume: "1 ft3" });
    expect(Math.abs(inUnit(finding.limit!.si as never, "ft3") - Number(row.volume_ft3))).toBeLessThanOrEqual(tolerance);
  });

  test("from 0.40 changes on either method may be used, so the lesser volume is asked for", () => {
    const input = {
      kind: "dryer" as const,
      fuel: "electric" as const,
      others: [heater("30000 Btu/h")],
      volume: "1 ft3",
    };
    const need = (airChange: number) => inUnit(combustionAir({ ...input, airChange }).limit!.si as never, "ft3");
    expect(need(0.4)).toBeCloseTo(1500, 6);
    expect(need(0.39)).toBeCloseTo((21 / 0.39) * 30, 6);
  });

  test("trap: a household dryer with make-up air is left out; adding its 22,000 Btu/h gives 3100 ft³, the answer is 2000 ft³", () => {
    const input = {
      kind: "dryer" as const,
      fuel: "naturalGas" as const,
      heatInput: "22000 Btu/h",
      others: [heater("40000 Btu/h")],
      volume: "2000 ft3",
    };
    const apart = combustionAir({ ...input, madeUp: true });
    expect(apart).toMatchObject({ verdict: "pass", limit: { text: "2,000 ft3" } });
    expect(apart.basis.map(({ section }) => section)).toContain("304.1, exception");
    expect(combustionAir({ ...input, madeUp: false })).toMatchObject({ verdict: "fail", limit: { text: "3,100 ft3" } });
  });

  test("trap: no more than 0.60 changes are counted, and below 0.40 the plain 50 ft³ may not be used", () => {
    const input = {
      kind: "dryer" as const,
      fuel: "electric" as const,
      others: [heater("30000 Btu/h")],
      volume: "1 ft3",
    };
    const need = (airChange: number) => inUnit(combustionAir({ ...input, airChange }).limit!.si as never, "ft3");
    expect(need(1.2)).toBeCloseTo(1050, 6);
    expect(need(0.35)).toBeCloseTo(1800, 6);
    expect(need(0.35)).toBeGreaterThan(50 * 30);
  });

  test("trap: level ducts take 1 in² per 2000 Btu/h, upright ones 1 in² per 4000; one figure for both is wrong", () => {
    const input = { kind: "dryer" as const, fuel: "electric" as const, others: [heater("40000 Btu/h")] };
    const upright = { ...input, way: "two openings outdoors or upright ducts" as const };
    const level = { ...input, way: "two level ducts outdoors" as const };
    expect(combustionAir({ ...upright, freeArea: "10 in2" }).verdict).toBe("pass");
    expect(combustionAir({ ...level, freeArea: "10 in2" }).verdict).toBe("fail");
    expect(combustionAir({ ...level, freeArea: "20 in2" }).verdict).toBe("pass");
  });

  test("the metric figure is the same: 4.83 m³ a kilowatt", () => {
    const finding = combustionAir({ kind: "dryer", fuel: "electric", others: [heater("1 kW")], volume: "1 m3" });
    expect(finding.limit!.si).toBeCloseTo(4.83, 2);
  });

  test("shows the step and says what is lacking", () => {
    const finding = combustionAir({
      kind: "range",
      fuel: "propane",
      heatInput: "60000 Btu/h",
      others: [],
      volume: "2500 ft3",
    });
    expect(finding.message).toBe(
      "The space of 2,500 ft3 is less than the 3,000 ft3 that 60,000 Btu/h need; bring air in.",
    );
    expect(finding.workings.map(({ text }) => text)).toEqual([
      "need = each * input / (1000 BTU / hour): 50 ft3 * 60,000 Btu/h / (1000 BTU / hour) = 3,000 ft3",
      "2,500 ft3 at least 3,000 ft3: does not hold",
    ]);
    expect(finding.cautions.join()).toMatch(/carbon monoxide/);
  });

  test("more input never needs less room, more air changes never more", () => {
    const power = fc.integer({ min: 0, max: 200_000 });
    const changes = fc.double({ min: 0.05, max: 2, noNaN: true });
    fc.assert(
      fc.property(power, power, changes, changes, (a, b, n, m) => {
        const need = (input: number, change: number) =>
          volumeAtChange(si(input, "Btu/h"), si(0, "Btu/h"), change, each);
        expect(need(Math.max(a, b), n)).toBeGreaterThanOrEqual(need(Math.min(a, b), n));
        expect(need(a, Math.max(n, m))).toBeLessThanOrEqual(need(a, Math.min(n, m)) * (1 + 1e-12));
      }),
    );
  });

  test("cannot tell across the limit; points at what cannot be read", () => {
    const input = { kind: "range" as const, fuel: "propane" as const, heatInput: "60000 Btu/h", others: [] };
    expect(combustionAir({ ...input, volume: "3000 ft3 ± 50 ft3" }).messageId).toBe("tooCloseToCall");
    const read = combustionAir.try({ ...input, others: [{ ...heater("40 MBH"), input: 40 }] });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["others", 0, "input"] });
  });
});
