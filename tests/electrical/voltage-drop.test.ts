import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type AwgSize, awgSizes, inUnit, si } from "../../src/core/quantity/index.js";
import {
  effectiveImpedance,
  formulaResistance,
  tableReactance,
  tableResistance,
  voltageDrop,
  voltageDropOf,
} from "../../src/electrical/index.js";
import { reactanceRows, resistanceRows } from "../../src/electrical/tables/resistance.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("electrical/voltage-drop.csv");
const value = (calculation: ReturnType<typeof voltageDrop>, name: string) =>
  (calculation.values[name] as { si: number } | null)?.si ?? null;
const hot = si(75, "degC");

/** R of copper in PVC as Table 9 prints it, Ω per 1000 ft. */
const printedR: Record<string, number> = {
  "14 AWG": 3.1,
  "12 AWG": 2,
  "10 AWG": 1.2,
  "8 AWG": 0.78,
  "6 AWG": 0.49,
  "4 AWG": 0.31,
  "3 AWG": 0.25,
  "2 AWG": 0.19,
  "1 AWG": 0.15,
  "1/0 AWG": 0.12,
  "2/0 AWG": 0.1,
  "3/0 AWG": 0.077,
  "4/0 AWG": 0.062,
};

describe("the resistance tables", () => {
  // the table's two columns differ by up to 0.42 % from rounding
  test("are the printed ones, transcribed a second time in Ω/km where the table prints them", () => {
    const perKm = (size: AwgSize, metal: "copper" | "aluminum", construction: "solid" | "stranded") =>
      inUnit(tableResistance(size, metal, construction, hot)!, "ohm/km");
    const copper = [26.1, 16.4, 10.3, 6.5, 4.07, 2.551, 1.608, 1.01, 0.802, 0.634, 0.505, 0.399, 0.317, 0.2512, 0.1996];
    const aluminum = [
      42.8, 26.9, 16.9, 10.69, 6.679, 4.204, 2.652, 1.666, 1.32, 1.045, 0.829, 0.66, 0.523, 0.413, 0.328,
    ];
    const solid = [25.5, 16, 10.1, 6.34, 3.984, 2.506];
    awgSizes.forEach((size, i) => {
      expect(Math.abs(perKm(size, "copper", "stranded") / copper[i]! - 1)).toBeLessThan(0.0043);
      expect(Math.abs(perKm(size, "aluminum", "stranded") / aluminum[i]! - 1)).toBeLessThan(0.0043);
      if (solid[i]) expect(Math.abs(perKm(size, "copper", "solid") / solid[i] - 1)).toBeLessThan(0.0043);
    });
  });

  test("agree with resistivity and area: solid within 0.45 %, stranded 1.4 to 2.8 % above", () => {
    for (const { size } of resistanceRows) {
      for (const metal of ["copper", "aluminum"] as const) {
        const byFormula = formulaResistance(size, metal, hot);
        const solid = tableResistance(size, metal, "solid", hot);
        if (solid) expect(Math.abs(solid / byFormula - 1)).toBeLessThan(0.0045);
        const above = tableResistance(size, metal, "stranded", hot)! / byFormula - 1;
        expect(above).toBeGreaterThan(0.014);
        expect(above).toBeLessThan(0.028);
      }
    }
  });

  test("fall with size; reactance is higher in steel", () => {
    for (let i = 1; i < awgSizes.length; i++) {
      for (const metal of ["copper", "aluminum"] as const) {
        const [a, b] = [awgSizes[i - 1]!, awgSizes[i]!].map((size) => tableResistance(size, metal, "stranded", hot)!);
        expect(b).toBeLessThan(a!);
      }
    }
    for (const { plain, steel } of reactanceRows) expect(steel / plain).toBeCloseTo(1.25, 1);
    const thousandths = (column: "plain" | "steel") =>
      reactanceRows.map((row) => Math.round(row[column] * 1000)).join(" ");
    expect(thousandths("plain")).toBe("58 54 50 52 51 48 47 45 46 44 43 42 41");
    expect(thousandths("steel")).toBe("73 68 63 65 64 60 59 57 57 55 54 52 51");
  });

  test.each(rows.filter(({ what }) => what === "impedance"))("effective impedance of $size: $value", (row) => {
    // the printed impedance comes from R of the same table, which has two digits
    const reactance = tableReactance(row.size as AwgSize, "cable or plastic")!;
    const got = inUnit(effectiveImpedance(si(printedR[row.size!]!, "ohm/kft"), reactance, 0.85), "ohm/kft");
    const digit = 10 ** -(row.value!.split(".")[1] ?? "").length;
    expect(Math.abs(got - Number(row.value))).toBeLessThanOrEqual(digit * 1.01);
  });

  test("effective impedance of the handbook's worked row: 0.073", () => {
    const z = effectiveImpedance(si(0.054, "ohm/kft"), si(0.052, "ohm/kft"), 0.85);
    expect(inUnit(z, "ohm/kft")).toBeCloseTo(0.073, 3);
  });
});

describe("electrical/voltage-drop", () => {
  const input = {
    plate: { voltage: "120 V" },
    system: "120/240 V",
    current: "20 A",
    circuit: { size: "12 AWG", metal: "copper", length: "100 ft" },
    run: { construction: "stranded" },
  } as const;

  test.each(rows.filter(({ what }) => what === "drop"))("120 V, 20 A, 100 ft of $size: $value V", (row) => {
    const circuit = { ...input.circuit, size: row.size as "12 AWG" };
    expect(Math.abs(value(voltageDrop({ ...input, circuit }), "drop")! - Number(row.value))).toBeLessThanOrEqual(
      tolerance,
    );
  });

  test("K = 12.9 is stranded copper, solid is 12.6", () => {
    const k = (construction: "solid" | "stranded") =>
      inUnit(tableResistance("12 AWG", "copper", construction, hot)!, "ohm/kft") * 6.53;
    expect([k("stranded"), k("solid")].map((each) => each.toFixed(1))).toEqual(["12.9", "12.6"]);
  });

  test("is a share of the circuit's own voltage: 240 V, not 120 V, for a 240 V machine; length one way", () => {
    const calculation = voltageDrop({ ...input, plate: { voltage: "240 V" } });
    expect(value(calculation, "drop")).toBeCloseTo(7.92, 2);
    expect(value(calculation, "share")).toBeCloseTo(0.033, 4);
  });

  test("shows its steps and what was taken for granted", () => {
    const { workings, assumptions } = voltageDrop(input);
    expect(workings.map(({ text }) => text)).toEqual([
      "impedance = resistance * powerFactor + reactance * sqrt(1 - powerFactor^2): 1.98 Ω/kft * 100 % + 0.054 Ω/kft * sqrt(1 - 100 %^2) = 1.98 Ω/kft",
      "drop = factor * impedance * length * current: 2 * 1.98 Ω/kft * 100 ft * 20 A = 7.92 V",
      "share = drop / nominal: 7.92 V / 120 V = 6.6 %",
    ]);
    expect(assumptions).toContain("The conductors are taken at 75 °C (167 °F), as the table has them.");
  });

  test("its longest run drops exactly the bound, and its smallest size keeps it while the next smaller does not", () => {
    const calculation = voltageDrop(input);
    const longest = value(calculation, "longest")!;
    const again = voltageDrop({ ...input, circuit: { ...input.circuit, length: { value: longest, unit: "m" } } });
    expect(value(again, "share")).toBeCloseTo(0.03, 9);
    const smallest = (calculation.values["smallest"] as { text: string }).text as "8 AWG";
    const share = (size: "8 AWG" | "10 AWG") =>
      value(voltageDrop({ ...input, circuit: { ...input.circuit, size } }), "share")!;
    expect(smallest).toBe("8 AWG");
    expect(share("8 AWG")).toBeLessThanOrEqual(0.03);
    expect(share("10 AWG")).toBeGreaterThan(0.03);
  });

  test("doubling the length doubles the drop; a larger conductor never loses more", () => {
    const size = fc.constantFrom(...awgSizes.slice(2, -1));
    fc.assert(
      fc.property(
        size,
        fc.double({ min: 1, max: 300, noNaN: true }),
        fc.double({ min: 1, max: 100, noNaN: true }),
        (one, feet, amps) => {
          const drop = (which: AwgSize, length: number) =>
            voltageDropOf(tableResistance(which, "copper", "stranded", hot)!, si(length, "ft"), si(amps, "A"), "one");
          expect(drop(one, 2 * feet)).toBeCloseTo(2 * drop(one, feet), 9);
          expect(drop(awgSizes[awgSizes.indexOf(one) + 1]!, feet)).toBeLessThanOrEqual(drop(one, feet));
        },
      ),
    );
  });

  test("warmer conductors lose more, by the table's own coefficient", () => {
    const at = (celsius: number) => tableResistance("10 AWG", "copper", "solid", si(celsius, "degC"))!;
    expect(at(50) / at(75)).toBeCloseTo(1 - 25 * 0.00323, 9);
  });

  test("on 230 V reckons with the resistance in service: 5.4 V, 2.35 %, for 10 A over 30 m of 2.5 mm²", () => {
    const metric = {
      plate: { voltage: "230 V", current: "10 A" },
      system: "230/400 V",
      circuit: { area: "2.5 mm2", metal: "copper", length: "30 m" },
    } as const;
    // 2 · 0.0225 / 2.5 · 30 · 10, by hand
    const calculation = voltageDrop(metric, { jurisdiction: { adopted: { iec60364: 2017 } } });
    expect(value(calculation, "drop")).toBeCloseTo(5.4, 9);
    expect(value(calculation, "share")).toBeCloseTo(5.4 / 230, 9);
    // 5 % of 230 V is 11.5 V
    expect(value(calculation, "longest")).toBeCloseTo((30 * 11.5) / 5.4, 6);
    expect(calculation.basis[0]).toMatchObject({ document: "IEC 60364", section: "Part 5-52, Table G.52.1" });
    expect(
      voltageDrop({ ...metric, circuit: { size: "12 AWG", metal: "copper", length: "30 m" } }).missing,
    ).toMatchObject([{ path: ["circuit", "area"] }]);
  });

  test("says what is missing and what cannot be read", () => {
    expect(voltageDrop({ ...input, circuit: { size: "12 AWG" } }).missing.map(({ path }) => path)).toEqual([
      ["circuit", "metal"],
      ["circuit", "length"],
    ]);
    expect(voltageDrop.try({ ...input, circuit: { ...input.circuit, length: "100" } }).fault?.issues[0]).toMatchObject({
      path: ["circuit", "length"],
      code: "noUnit",
    });
  });
});
