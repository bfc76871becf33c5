import { describe, expect, test } from "vitest";
import { ampacity } from "../../src/electrical/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("electrical/ampacity.csv");
type Input = NonNullable<Parameters<typeof ampacity>[0]["circuit"]>;
const si = (calculation: ReturnType<typeof ampacity>, name: string) =>
  (calculation.values[name] as { si: number } | null)?.si ?? null;

describe("electrical/ampacity", () => {
  test.each(rows)("$size $metal $wiring at $ambient_C °C, $carrying together: $ampacity_A A", (row) => {
    const circuit = {
      size: row.size,
      metal: row.metal,
      wiring: row.wiring,
      terminals: `${row.terminals} °C`,
      ambient: `${row.ambient_C} °C`,
      carrying: Number(row.carrying),
    } as Input;
    const got = si(ampacity({ circuit }), "ampacity")!;
    expect(Math.abs(got - Number(row.ampacity_A))).toBeLessThanOrEqual(tolerance);
  });

  const nm = { size: "12 AWG", metal: "copper", wiring: "NM-B" } as const;

  test("NM cable: derates from 90 °C, caps at 60 °C, then the small conductor's own limit: 20 A, not 25 A", () => {
    const calculation = ampacity({ circuit: { ...nm, terminals: "75 °C", carrying: 2 } });
    expect([si(calculation, "table"), si(calculation, "atCable"), si(calculation, "most")]).toEqual([30, 20, 20]);
    expect(calculation.workings[0]!.text).toBe("corrected = table * ambient * bundle: 30 A * 100 % * 100 % = 30 A");
  });

  test("shows the equation beside the table inside a band: 0.87, not 0.82, at 36 °C for 60 °C wire", () => {
    const calculation = ampacity({ circuit: { ...nm, wiring: "TW", ambient: "36 °C" } });
    expect(si(calculation, "ambient")).toBe(0.82);
    expect(si(calculation, "equation")).toBeCloseTo(0.894, 3);
  });

  test("cites the section of the adopted edition", () => {
    const sections = (nec: 2017 | 2023) =>
      ampacity({ circuit: nm }, { jurisdiction: { adopted: { nec } } }).basis.map(({ section }) => section);
    expect(sections(2017)).toContain("Table 310.15(B)(16)");
    expect(sections(2023)).toContain("Table 310.16");
  });

  test("tells what is missing, what has no value, and what cannot be read", () => {
    expect(ampacity({ circuit: { size: "10 AWG" } }).missing.map(({ path }) => path)).toEqual([
      ["circuit", "metal"],
      ["circuit", "wiring"],
    ]);
    expect(ampacity({ circuit: { size: "14 AWG", metal: "aluminum", wiring: "TW" } }).messageId).toBe("noAmpacity");
    expect(ampacity.try({ circuit: { ...nm, ambient: 40 } }).fault?.issues[0]).toMatchObject({
      path: ["circuit", "ambient"],
    });
  });

  test("does not round up for several receptacles", () => {
    const six = { size: "6 AWG", metal: "copper", wiring: "TW" } as const;
    expect(si(ampacity({ circuit: { ...six, individual: true } }), "most")).toBe(60);
    expect(si(ampacity({ circuit: { ...six, individual: false } }), "most")).toBe(55);
  });
});
