import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Adopted, govern } from "../../src/core/basis/index.js";
import { brand, inUnit, si } from "../../src/core/quantity/index.js";
import { pressureAtHeight, supplyPressure, takesWater } from "../../src/plumbing/index.js";
import { flowLeast, machineLeast, machineMost, staticLeast, staticMost } from "../../src/plumbing/limits.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("plumbing/supply-pressure.csv");
const limits = [staticMost, staticLeast, flowLeast, machineLeast, machineMost];
const atPlace = (document?: string, edition?: string) => ({
  adopted: (document ? { [document]: Number(edition) } : {}) as Adopted,
  building: document === "ipc" ? ("multifamily" as const) : ("dwelling" as const),
  local: [],
  maker: [],
});
const open = { kind: "washer", rise: "0 in", regulator: false, checkValve: false } as const;

describe("plumbing/supply-pressure", () => {
  test.each(rows)("$what $document $edition $outlet: $value $unit", (row) => {
    const value = Number(row.value);
    if (row.what === "psi-per-foot") {
      const fall = si(60, "psi") - pressureAtHeight(si(60, "psi"), si(1, "ft"));
      expect(Math.abs(inUnit(brand<"pressure">(fall), "psi") - value)).toBeLessThanOrEqual(tolerance * value);
      return;
    }
    const limit = limits.find(({ id }) => id.endsWith(`.${row.what}`))!;
    const conditions = row.outlet === "" ? {} : { outlet: row.outlet! };
    const governing = govern(limit, atPlace(row.document, row.edition), "none", conditions)!;
    const kPa = inUnit(brand<"pressure">(governing.value), "kPa");
    expect(Math.abs(kPa - value)).toBeLessThanOrEqual(tolerance * value);
  });

  test("the residential code names no least static pressure from 2012 on", () => {
    expect(govern(staticLeast, atPlace("irc", "2012"), "none")).toBeUndefined();
    expect(govern(staticLeast, atPlace("irc", "2009"), "none")?.value).toBeCloseTo(si(40, "psi"), 6);
    const at = (irc: 2009 | 2012) => ({ jurisdiction: { adopted: { irc } } });
    const input = { ...open, staticPressure: "37 psi", flowPressure: "25 psi" } as const;
    expect(supplyPressure(input, at(2009))).toMatchObject({ verdict: "fail", messageId: "staticTooLow" });
    expect(supplyPressure(input, at(2012)).verdict).toBe("pass");
  });

  test("exactly on the limit passes, in psi and in kPa", () => {
    const at = (staticPressure: string) => supplyPressure({ ...open, staticPressure, flowPressure: "50 psi" });
    expect(at("80 psi")).toMatchObject({ verdict: "pass", margin: { text: "0 psi" } });
    expect(at("80.1 psi").verdict).toBe("fail");
    const machine = (flowPressure: string) => supplyPressure({ ...open, staticPressure: "50 psi", flowPressure });
    expect(machine("20 psi").verdict).toBe("pass");
    expect(machine("19.9 psi")).toMatchObject({ verdict: "fail", messageId: "valveStarved" });
  });

  test("says how far over, shows the step and what to do", () => {
    const finding = supplyPressure({
      ...open,
      rise: "-10 ft",
      staticPressure: "105 psi",
      flowPressure: "70 psi",
    });
    expect(finding.message).toBe(
      "The static pressure of 109 psi is over the 80 psi allowed: a pressure-reducing valve is called for, and thermal expansion control with it.",
    );
    expect(finding.workings[0]!.text).toBe(
      "there = pressure - water * gravity * (1 m/s^2) * up: 105 psi - 62.4 lb/ft3 * 9.81 * (1 m/s^2) * -10 ft = 109 psi",
    );
    expect(finding.remedies).toHaveLength(1);
    expect(finding.remedies[0]!.changes).toContainEqual({ path: ["regulator"], value: true });
    expect(finding.basis[0]).toMatchObject({ document: "IRC", section: "P2903.3.2", confirmed: "secondary" });
  });

  test("trap: height counts, and with its sign", () => {
    const base = { ...open, staticPressure: "48 psi", flowPressure: "30 psi" };
    // Unsigned or forgotten, 30 psi at the gauge would fill any valve.
    expect(supplyPressure({ ...base, rise: "0 ft" }).verdict).toBe("pass");
    expect(supplyPressure({ ...base, rise: "36 ft" })).toMatchObject({ verdict: "fail", messageId: "valveStarved" });
    expect(supplyPressure({ ...base, rise: "-36 ft" }).verdict).toBe("pass");
  });

  test("trap: a regulator closes the system; a regulator without expansion control is not a pass", () => {
    const base = { kind: "washer", rise: "0 in", staticPressure: "60 psi", flowPressure: "45 psi" } as const;
    expect(supplyPressure({ ...base, regulator: true, expansionControl: false }).messageId).toBe("noExpansionControl");
    expect(supplyPressure({ ...base, regulator: true })).toMatchObject({
      verdict: "review",
      missing: [{ path: ["expansionControl"] }],
    });
    expect(supplyPressure({ ...base, checkValve: true, expansionControl: true }).verdict).toBe("pass");
    expect(supplyPressure({ ...base, regulator: true, expansionControl: false, storageHeater: false }).verdict).toBe(
      "pass",
    );
  });

  test("the maker's range stands in place of the trade's", () => {
    const maker = [
      { limit: "plumbing/supply-pressure.machine-least", value: "10 psi", citation: { document: "Sheet" } },
    ];
    const input = { ...open, staticPressure: "40 psi", flowPressure: "12 psi" } as const;
    expect(supplyPressure(input).verdict).toBe("fail");
    expect(supplyPressure(input, { maker }).verdict).toBe("pass");
  });

  test("asks for a closer reading when the gauge's tolerance lies across the limit", () => {
    const finding = supplyPressure({ ...open, staticPressure: "79 psi ± 3 psi", flowPressure: "60 psi" });
    expect(finding).toMatchObject({ verdict: "review", messageId: "tooCloseToCall" });
    expect(finding.missing).toMatchObject([{ path: ["staticPressure"] }]);
  });

  test("points at what cannot be read", () => {
    expect(supplyPressure.try({ kind: "washer", staticPressure: 60 }).fault?.issues[0]).toMatchObject({
      path: ["staticPressure"],
      code: "noUnit",
    });
  });

  test("knows which machines take water, and which have to be asked", () => {
    expect(takesWater({ kind: "dryer" })).toBeUndefined();
    expect(takesWater({ kind: "dryer", steam: true })).toBe(true);
    expect(takesWater({ kind: "dryer", supply: "none", steam: true })).toBe(false);
    expect(takesWater({ kind: "cooktop" })).toBe(false);
  });

  test("laws: higher up never has more; up and down again is where it was", () => {
    const psi = fc.double({ min: 0, max: 200, noNaN: true }).map((value) => si(value, "psi"));
    const feet = fc.double({ min: 0, max: 100, noNaN: true }).map((value) => si(value, "ft"));
    fc.assert(
      fc.property(psi, feet, (pressure, up) => {
        const there = pressureAtHeight(pressure, up);
        expect(there).toBeLessThanOrEqual(pressure);
        expect(pressureAtHeight(there, brand<"length">(-up))).toBeCloseTo(pressure, 6);
      }),
    );
  });
});

describe("what is not known, and what is assumed instead", () => {
  const full = { ...open, staticPressure: "60 psi", flowPressure: "40 psi", storageHeater: true };
  const finding = (change: object, at?: object) => supplyPressure.try({ ...full, ...change }, at as never).finding!;
  const ids = (change: object, at?: object) => finding(change, at).parts.map(({ messageId }) => messageId);

  test.each<[object, string[]]>([
    [{ staticPressure: undefined }, ["staticPressure"]],
    [{ rise: undefined }, ["rise"]],
    [{ staticPressure: undefined, rise: undefined }, ["staticPressure", "rise"]],
    [{ flowPressure: undefined }, ["flowPressure"]],
    [{ regulator: undefined }, ["regulator"]],
    [{ checkValve: undefined }, ["checkValve"]],
    [{ regulator: undefined, checkValve: undefined }, ["regulator", "checkValve"]],
    [{ regulator: true }, ["expansionControl"]],
    [{ checkValve: true, regulator: undefined }, ["expansionControl"]],
  ])("%o asks for %j", (change, paths) => {
    expect(finding(change).verdict).toBe("review");
    expect(finding(change).missing.map(({ path }) => path.join("."))).toEqual(paths);
  });

  test("a system is closed by either valve, and only a tank of hot water makes that matter", () => {
    for (const closed of [{ regulator: true }, { checkValve: true }]) {
      expect(ids({ ...closed, expansionControl: false })).toContain("noExpansionControl");
      expect(ids({ ...closed, expansionControl: true })).toContain("expansionControlled");
      expect(ids({ ...closed, storageHeater: false })).not.toContain("noExpansionControl");
      const assumed = (storageHeater?: boolean) =>
        finding({ ...closed, expansionControl: true, storageHeater }).assumptions.join();
      expect(assumed()).toMatch(/water heater with a tank/);
      expect(assumed(true)).not.toMatch(/water heater/);
    }
  });

  test("shows the height of water once where there is none, twice where it counts for both readings", () => {
    const steps = (rise: string) => finding({ rise }).workings.filter(({ text }) => text.startsWith("there =")).length;
    expect(steps("0 in")).toBe(1);
    expect(steps("10 ft")).toBe(2);
  });

  test("says that the laundry tray's row stands for a laundry machine, where the code has such a table", () => {
    const flats = { jurisdiction: { building: "multifamily" } };
    const assumed = (change: object) => finding(change, flats).assumptions.join();
    expect(assumed({})).toMatch(/laundry tray row is used/);
    expect(assumed({ kind: "dishwasher" })).not.toMatch(/laundry tray/);
    expect(ids({ kind: "refrigerator", supply: "cold" }, flats)).not.toContain("flowEnough");
  });
});
