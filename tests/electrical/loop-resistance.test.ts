import { describe, expect, test } from "vitest";
import { loopResistance } from "../../src/electrical/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("electrical/loop-resistance.csv");
const value = (calculation: ReturnType<typeof loopResistance>, name: string) =>
  (calculation.values[name] as { si: number } | null)?.si ?? null;

const input = {
  noLoad: "242 V",
  loaded: "221 V",
  load: "21 A",
  circuit: { size: "10 AWG", metal: "copper", length: "45 ft" },
} as const;

describe("electrical/loop-resistance", () => {
  test.each(rows)("$size, $length_ft ft, $no_load_V V to $loaded_V V at $load_A A", (row) => {
    const calculation = loopResistance({
      noLoad: `${row.no_load_V} V`,
      loaded: `${row.loaded_V} V`,
      load: `${row.load_A} A`,
      circuit: { size: row.size as "10 AWG", metal: "copper", length: `${row.length_ft} ft` },
    });
    for (const name of ["loop", "wire", "left"]) {
      expect(Math.abs(value(calculation, name)! - Number(row[`${name}_ohm`]))).toBeLessThanOrEqual(tolerance);
    }
    expect(value(calculation, "heat")).toBeCloseTo(Number(row.heat_W), 1);
  });

  test("shows how two readings find a joint of most of an ohm, and the heat in it", () => {
    const { workings, assumptions } = loopResistance({ ...input, panelNoLoad: "243 V", panelLoaded: "240 V" });
    expect(workings.map(({ text }) => text)).toEqual([
      "drop = noLoad - loaded: 242 V - 221 V = 21 V",
      "loop = drop / load: 21 V / 21 A = 1 Ω",
      "fall = panelNoLoad - panelLoaded: 243 V - 240 V = 3 V",
      "source = fall / load: 3 V / 21 A = 143 mΩ",
      "wire = factor * impedance * length: 2 * 1.21 Ω/kft * 45 ft = 109 mΩ",
      "left = loop - known - wire: 1 Ω - 143 mΩ - 109 mΩ = 748 mΩ",
      "heat = load^2 * left: 21 A^2 * 748 mΩ = 330 W",
    ]);
    expect(assumptions).not.toContain(
      "Nothing was read at the panel, so what is not explained has the supply up to the panel in it.",
    );
  });

  test("a longer run explains more and leaves less; never a negative heat", () => {
    const left = (feet: number) =>
      value(loopResistance({ ...input, circuit: { ...input.circuit, length: `${feet} ft` } }), "left")!;
    expect(left(90)).toBeLessThan(left(45));
    const long = loopResistance({ ...input, circuit: { ...input.circuit, length: "900 ft" } });
    expect(value(long, "left")).toBeLessThan(0);
    expect(value(long, "heat")).toBeNull();
    expect(long.assumptions.join(" ")).toMatch(/explains more than was lost/);
  });

  test("carries the meter's tolerance to what is left over", () => {
    const { values } = loopResistance({ ...input, noLoad: "242 V ± 0.5 V", loaded: "221 V ± 0.5 V" });
    const { tolerance: spread } = values["left"] as { tolerance: { si: number } };
    expect(spread.si).toBeCloseTo(Math.SQRT2 * (0.5 / 21), 6);
  });

  test("says what is missing, what cannot be, and what cannot be read", () => {
    expect(loopResistance({ noLoad: "240 V" }).missing.map(({ path }) => path)).toEqual([["loaded"], ["load"]]);
    expect(loopResistance({ noLoad: "230 V", loaded: "231 V", load: "10 A" }).messageId).toBe("rises");
    expect(loopResistance.try({ noLoad: "240 V", loaded: "230", load: "20 A" }).fault?.issues[0]).toMatchObject({
      path: ["loaded"],
    });
  });
});
