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

  // NFPA 54 / IFGC 304.5: 50 ft³ a 1000 Btu/h; by air change 21 ft³ (others) and 15 ft³ (fan-assisted) over the changes.
  const mixed = {
    kind: "dryer" as const,
    fuel: "electric" as const,
    others: [heater("40000 Btu/h"), heater("20000 Btu/h", "fan-assisted"), heater("90000 Btu/h", "direct-vent")],
  };

  test("adds open and fan-assisted burners once each, and leaves out what takes its air from outdoors", () => {
    const plain = combustionAir({ ...mixed, volume: "1 ft3" });
    expect(plain.limit).toMatchObject({ text: "3,000 ft3" }); // 50 · (40 + 20)
    expect(plain.workings[0]!.text).toMatch(/^need = each \* input .*50 ft3 \* 60,000 Btu\/h/);
    expect(plain.assumptions.join()).toMatch(/ordinary tightness/);
    const changed = combustionAir({ ...mixed, volume: "1 ft3", airChange: 0.5 });
    expect(changed.limit).toMatchObject({ text: "2,280 ft3" }); // (21 · 40 + 15 · 20) / 0.5
    expect(changed.workings).toHaveLength(2);
    expect(changed.workings[0]!.text).toMatch(/21 ft3 \* 40,000 Btu\/h \+ 15 ft3 \* 20,000 Btu\/h/);
    expect(changed.assumptions.join()).not.toMatch(/ordinary tightness/);
    // more by air change than by the plain rule: 1140 / 0.4 = 2850 is less than 3000, so it is shown; 0.35 must be shown
    expect(combustionAir({ ...mixed, volume: "1 ft3", airChange: 0.4 }).limit).toMatchObject({ text: "2,850 ft3" });
    const all = { ...mixed, others: [heater("60000 Btu/h")], volume: "1 ft3", airChange: 0.41 };
    const plainer = combustionAir(all); // 21 · 60 / 0.41 = 3073 ft³ is more than the plain 3000 ft³
    expect(plainer.limit).toMatchObject({ text: "3,000 ft3" });
    expect(plainer.workings).toHaveLength(2);
    expect(plainer.workings[0]!.text).toMatch(/^need = each/);
  });

  test("says that no more than 0.60 changes are counted only where there are more, and cites the bounds", () => {
    const at = (airChange: number) => combustionAir({ ...mixed, volume: "1 ft3", airChange });
    expect(at(0.6).assumptions.join()).not.toMatch(/are counted/);
    expect(at(0.61).assumptions.join()).toMatch(/No more than 0.6 air changes an hour are counted/);
    expect(at(0.61).limit).toMatchObject({ text: "1,900 ft3" }); // 1140 / 0.60
    const cites = (finding: ReturnType<typeof combustionAir>) =>
      finding.basis.some(({ document, section }) => document === "NFPA 54" && section === "9.3.2");
    expect(cites(at(0.5))).toBe(true);
    expect(cites(combustionAir({ ...mixed, volume: "1 ft3" }))).toBe(false);
  });

  test("a range is never left out for its make-up air, nor a dryer without any", () => {
    const left = (input: object) =>
      combustionAir.try({ fuel: "naturalGas", heatInput: "22000 Btu/h", others: [heater("40000 Btu/h")], ...input })
        .finding!;
    const range = left({ kind: "range", madeUp: true, volume: "1 ft3" });
    expect(range.limit).toMatchObject({ text: "3,100 ft3" });
    expect(range.basis.map(({ section }) => section)).not.toContain("304.1, exception");
    const dryer = left({ kind: "dryer", madeUp: false, volume: "1 ft3" });
    expect(dryer.basis.map(({ section }) => section)).not.toContain("304.1, exception");
  });

  test("where air is brought in, a room large enough for itself passes all the same, and only then", () => {
    const openings = { ...mixed, way: "one opening outdoors" as const, freeArea: "1 in2", connectors: "7 in2" };
    expect(combustionAir({ ...openings, volume: "3000 ft3" })).toMatchObject({ verdict: "pass", messageId: "roomy" });
    expect(combustionAir({ ...openings, volume: "2999 ft3" })).toMatchObject({
      verdict: "fail",
      messageId: "tooTight",
    });
    expect(combustionAir(openings)).toMatchObject({ verdict: "fail", messageId: "tooTight" });
  });

  test("shows how the area and the supply come about", () => {
    const area = combustionAir({ ...mixed, way: "two level ducts outdoors", freeArea: "30 in2" });
    // 1 in² for 2000 Btu/h: 60,000 Btu/h want 30 in²
    expect(area).toMatchObject({ verdict: "pass", limit: { text: "30 in2" }, margin: { text: "0 in2" } });
    expect(area.workings[0]!.text).toMatch(/^need = each \* input \/ \(1000 BTU \/ hour\): 0\.5 in2 \* 60,000 Btu\/h/);
    // 0.35 cfm for 1000 Btu/h: 21 cfm
    const supply = combustionAir({ ...mixed, way: "mechanical supply", supply: "21 cfm" });
    expect(supply).toMatchObject({ verdict: "pass", limit: { text: "21 cfm" } });
    expect(supply.workings[0]!.text).toMatch(/^need = each \* input .*0\.35 cfm \* 60,000 Btu\/h/);
    expect(combustionAir({ ...mixed, way: "mechanical supply", supply: "20.9 cfm" }).verdict).toBe("fail");
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
