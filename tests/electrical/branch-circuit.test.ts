import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type ConductorSize, conductorSizes, si } from "../../src/core/quantity/index.js";
import { branchCircuit, circuitFound, enlargedGround, groundFor, printedArea } from "../../src/electrical/index.js";
import { groundRows } from "../../src/electrical/tables/grounding.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("electrical/branch-circuit.csv");
type Calculation = ReturnType<typeof branchCircuit>;
const value = (calculation: Calculation, name: string) =>
  (calculation.values[name] as { si: number } | null)?.si ?? null;
const text = (calculation: Calculation, name: string) => (calculation.values[name] as { text: string }).text;

const dryer = {
  kind: "dryer",
  plate: { voltage: "240 V", neutral: true, power: "5.6 kW" },
  system: "120/240 V",
  circuit: { metal: "copper", wiring: "NM-B" },
} as const;
const at = (nec: 2014 | 2017 | 2020 | 2023) => ({ jurisdiction: { adopted: { nec } } });

describe("equipment grounds", () => {
  test("are the printed table, transcribed a second time", () => {
    expect(groundRows.map(({ upTo_A, copper, aluminum }) => `${upTo_A} ${copper} ${aluminum}`)).toEqual([
      "15 14 AWG 12 AWG",
      "20 12 AWG 10 AWG",
      "60 10 AWG 8 AWG",
      "100 8 AWG 6 AWG",
      "200 6 AWG 4 AWG",
      "300 4 AWG 2 AWG",
      "400 3 AWG 1 AWG",
      "500 2 AWG 1/0 AWG",
      "600 1 AWG 2/0 AWG",
      "800 1/0 AWG 3/0 AWG",
      "1000 2/0 AWG 4/0 AWG",
      "1200 3/0 AWG 250 kcmil",
    ]);
    expect(groundFor(si(1201, "A"), "copper")).toBeUndefined();
    for (const { copper, aluminum } of groundRows) expect(printedArea(copper)).toBeLessThan(printedArea(aluminum));
  });

  test.each(rows.filter(({ what }) => what === "ground"))("$a grows from $b to $c: $answer", (row) => {
    expect(enlargedGround(row.a as ConductorSize, row.b as ConductorSize, row.c as ConductorSize)).toBe(row.answer);
  });

  test("ratios are not rounded first, and a tie of the printed areas goes to the larger size: 4 AWG, not 6 AWG", () => {
    expect(enlargedGround("10 AWG", "8 AWG", "4 AWG")).toBe("4 AWG");
  });

  test("never shrink, and never exceed the lines", () => {
    const gauge = conductorSizes.filter((size) => size.endsWith("AWG") || size.endsWith("kcmil"));
    const index = fc.integer({ min: 2, max: gauge.length - 1 });
    fc.assert(
      fc.property(index, index, index, (a, b, c) => {
        const [table, least, installed] = [a, b, c].sort((x, y) => x - y).map((i) => gauge[i]!) as [
          ConductorSize,
          ConductorSize,
          ConductorSize,
        ];
        const ground = enlargedGround(table, least, installed);
        expect(printedArea(ground)).toBeGreaterThanOrEqual(printedArea(table));
        expect(printedArea(ground)).toBeLessThanOrEqual(printedArea(installed));
      }),
    );
  });
});

describe("electrical/branch-circuit", () => {
  test.each(rows.filter(({ what }) => what !== "ground"))("$what of $a W, $b: $answer", (row) => {
    const calculation = branchCircuit({
      ...dryer,
      kind: row.b === "range" ? "range" : "washer",
      plate: { voltage: "240 V", neutral: row.b === "range", power: `${row.a} W` },
      continuous: row.b === "continuous",
    });
    const name = row.what === "rating" ? "overcurrent" : row.what!;
    expect(Math.abs(value(calculation, name)! - Number(row.answer))).toBeLessThanOrEqual(tolerance);
  });

  test("the unmarked heating appliance of 5500 W may have 35 A at most", () => {
    const calculation = branchCircuit({
      ...dryer,
      kind: "cooktop",
      plate: { voltage: "240 V", neutral: false, power: "5.5 kW" },
    });
    expect(value(calculation, "most")).toBe(35);
  });

  test("an oven and a cooktop on one circuit count as one range: 14.05 kW, 8.8 kW, 36.7 A, 40 A", () => {
    const calculation = branchCircuit({
      ...dryer,
      kind: "range",
      plate: { voltage: "240 V", neutral: true, power: "14.05 kW" },
    });
    expect(value(calculation, "load")).toBeCloseTo(36.7, 1);
    expect(value(calculation, "overcurrent")).toBe(40);
  });

  test("Annex D, examples D4(b) and D5(b): an 8 kW range draws 26.7 A on 240 V and 30.8 A on 208 V, 10 and 8 AWG", () => {
    const range = (voltage: string, system: "120/240 V" | "208Y/120 V") =>
      branchCircuit({ ...dryer, kind: "range", plate: { voltage, neutral: true, power: "8 kW" }, system });
    const on240 = range("240 V", "120/240 V");
    expect([value(on240, "load")!.toFixed(1), text(on240, "size")]).toEqual(["26.7", "10 AWG copper"]);
    // the example prints 30.7, cut off rather than rounded
    const on208 = range("208 V", "208Y/120 V");
    expect([value(on208, "load")!.toFixed(1), text(on208, "size")]).toEqual(["30.8", "8 AWG copper"]);
  });

  test("a lone oven takes no reduction", () => {
    const oven = branchCircuit({ ...dryer, kind: "oven", plate: { voltage: "240 V", neutral: true, power: "12 kW" } });
    expect(value(oven, "load")).toBe(50);
  });

  test("a dryer's neutral is not reduced; a range's may be, to 70 % and 10 AWG", () => {
    expect(text(branchCircuit(dryer), "neutral")).toBe("10 AWG copper");
    const range = branchCircuit({
      ...dryer,
      kind: "range",
      plate: { voltage: "240 V", neutral: true, power: "12 kW" },
    });
    expect([text(range, "size"), text(range, "neutral")]).toEqual(["8 AWG copper", "10 AWG copper at least"]);
  });

  test("a compact dryer's circuit follows its plate, not 5000 VA and not the usual 30 A", () => {
    const calculation = branchCircuit({ ...dryer, plate: { voltage: "240 V", neutral: false, power: "3 kW" } });
    expect([value(calculation, "overcurrent"), text(calculation, "receptacle")]).toEqual([15, "6-15"]);
  });

  test("a full-size dryer gets its usual 30 A and 14-30, unless its plate allows less", () => {
    expect([value(branchCircuit(dryer), "overcurrent"), text(branchCircuit(dryer), "receptacle")]).toEqual([
      30,
      "14-30",
    ]);
    const less = branchCircuit({ ...dryer, plate: { ...dryer.plate, mostOvercurrent: "25 A" } });
    expect(value(less, "overcurrent")).toBe(25);
  });

  test("a long run gets a larger conductor, and its ground grows with it", () => {
    const calculation = branchCircuit({ ...dryer, circuit: { ...dryer.circuit, length: "165 ft" } });
    expect(text(calculation, "size")).toBe("8 AWG copper");
    expect(text(calculation, "governs")).toBe("the voltage lost over the length");
    expect(text(calculation, "ground")).toBe("8 AWG copper");
    expect(value(calculation, "share")).toBeLessThanOrEqual(0.03);
    expect(calculation.workings.map((step) => step.text)).toEqual([
      "need = factor * load: 100 % * 23.3 A = 23.3 A",
      "corrected = table * ambient * bundle: 55 A * 100 % * 100 % = 55 A",
      "share = drop / nominal: 5.99 V / 240 V = 2.5 %",
    ]);
  });

  test("what makes the ground grow depends on the edition: heat and company do in 2017 as read here, not in 2020", () => {
    const hot = { ...dryer, circuit: { metal: "copper", wiring: "THHN", ambient: "50 °C", carrying: 8 } } as const;
    expect(text(branchCircuit(hot, at(2020)), "size")).toBe("8 AWG copper");
    expect(text(branchCircuit(hot, at(2020)), "ground")).toBe("10 AWG copper");
    expect(text(branchCircuit(hot, at(2014)), "ground")).toBe("10 AWG copper");
    expect(text(branchCircuit(hot, at(2017)), "ground")).toBe("8 AWG copper");
    expect(branchCircuit(hot, at(2017)).assumptions.join(" ")).toMatch(/Sources disagree/);
  });

  test("10 A breakers of 2023 are not for appliances", () => {
    const small = { ...dryer, kind: "hood", plate: { voltage: "120 V", current: "2 A" } } as const;
    expect(value(branchCircuit(small, at(2023)), "overcurrent")).toBe(15);
  });

  test("the circuit that comes out is one that the rule for found circuits passes", () => {
    const kinds = fc.constantFrom("dryer", "range", "oven", "washer", "dishwasher" as const);
    const wiring = fc.constantFrom("NM-B", "TW", "THWN-2", "SE" as const);
    fc.assert(
      fc.property(kinds, wiring, fc.integer({ min: 500, max: 11_000 }), fc.boolean(), (kind, cable, watts, hot) => {
        const low = kind === "washer" || kind === "dishwasher";
        const plate = low
          ? { voltage: "120 V", power: `${Math.min(1900, watts)} W` }
          : { voltage: "240 V", neutral: true, power: `${watts} W` };
        const circuit = { metal: "copper", wiring: cable, ambient: hot ? "45 °C" : "25 °C" } as const;
        const made = branchCircuit({ kind, plate, system: "120/240 V", circuit });
        expect(made.status).toBe("computed");
        const found = circuitFound({
          kind,
          plate,
          system: "120/240 V",
          circuit: {
            ...circuit,
            isNew: true,
            individual: true,
            device: low ? "1-pole breaker" : "2-pole breaker",
            overcurrent: { value: value(made, "overcurrent")!, unit: "A" },
            size: text(made, "size").replace(" copper", "") as "10 AWG",
          },
          receptacle: { configuration: text(made, "receptacle") as "14-30", count: "single" },
        });
        expect([kind, watts, found.message, found.verdict]).toEqual([kind, watts, found.message, "pass"]);
      }),
      { numRuns: 60 },
    );
  });

  test("heat and company never make the conductor smaller", () => {
    const sizes = conductorSizes.map(String);
    fc.assert(
      fc.property(
        fc.integer({ min: 10, max: 40 }),
        fc.integer({ min: 0, max: 10 }),
        fc.integer({ min: 1, max: 9 }),
        (t, more, n) => {
          const size = (celsius: number, carrying: number) =>
            sizes.indexOf(
              text(
                branchCircuit({
                  ...dryer,
                  circuit: { metal: "copper", wiring: "THHN", ambient: `${celsius} °C`, carrying },
                }),
                "size",
              ).replace(" copper", ""),
            );
          expect(size(t + more, n + more)).toBeGreaterThanOrEqual(size(t, n));
        },
      ),
      { numRuns: 30 },
    );
  });

  test("says what is missing and what cannot be read", () => {
    expect(branchCircuit({ ...dryer, circuit: {} }).missing).toMatchObject([{ path: ["circuit", "wiring"] }]);
    expect(branchCircuit.try({ ...dryer, circuit: { wiring: "romex" } }).fault?.issues[0]).toMatchObject({
      path: ["circuit", "wiring"],
      code: "notAccepted",
    });
  });
});
