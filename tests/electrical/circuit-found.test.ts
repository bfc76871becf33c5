import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type AwgSize, awgSizes, si } from "../../src/core/quantity/index.js";
import {
  ambientEquation,
  bundleFactor,
  circuitFound,
  conductorAmpacity,
  mostOvercurrent,
  ratingAbove,
  tableAmpacity,
} from "../../src/electrical/index.js";
import { ambientRows, ampacityRows, standardRatings } from "../../src/electrical/tables/ampacity.js";
import { reference } from "../references.js";

const { rows } = reference("electrical/circuit-found.csv");

describe("the ampacity tables", () => {
  test("are the printed ones, transcribed a second time by column", () => {
    const column = (metal: "copper_A" | "aluminum_A", i: number) => ampacityRows.map((row) => row[metal]?.[i] ?? "-");
    expect(ampacityRows.map(({ size }) => size)).toEqual(awgSizes.slice(2));
    expect(column("copper_A", 0).join(" ")).toBe("15 20 30 40 55 70 85 95 110 125 145 165 195");
    expect(column("copper_A", 1).join(" ")).toBe("20 25 35 50 65 85 100 115 130 150 175 200 230");
    expect(column("copper_A", 2).join(" ")).toBe("25 30 40 55 75 95 115 130 145 170 195 225 260");
    expect(column("aluminum_A", 0).join(" ")).toBe("- 15 25 35 40 55 65 75 85 100 115 130 150");
    expect(column("aluminum_A", 1).join(" ")).toBe("- 20 30 40 50 65 75 90 100 120 135 155 180");
    expect(column("aluminum_A", 2).join(" ")).toBe("- 25 35 45 55 75 85 100 115 135 150 175 205");
  });

  test("rise with size and with temperature, aluminum below copper", () => {
    ampacityRows.forEach((row, i) => {
      const next = ampacityRows[i + 1];
      for (const c of [0, 1, 2] as const) {
        if (c > 0) expect(row.copper_A[c]).toBeGreaterThan(row.copper_A[c - 1]!);
        if (next) expect(next.copper_A[c]).toBeGreaterThan(row.copper_A[c]);
        if (row.aluminum_A) expect(row.aluminum_A[c]).toBeLessThan(row.copper_A[c]);
      }
    });
  });

  test("correct for heat as the code's equation does at the top of each band, to two decimals", () => {
    for (const { upTo_C, factors } of ambientRows) {
      ([60, 75, 90] as const).forEach((column, c) => {
        const factor = factors[c];
        if (factor !== null) expect(factor).toBeCloseTo(ambientEquation(si(upTo_C, "degC"), column), 2);
        else expect(upTo_C).toBeGreaterThanOrEqual(column === 60 ? 60 : 75);
      });
    }
  });

  test("have the standard ratings, none between 50 and 60 A, 10 A only since 2023", () => {
    expect(standardRatings).toHaveLength(37);
    expect(standardRatings.reduce((sum, rating) => sum + rating, 0)).toBe(32_295);
    expect(ratingAbove(si(50.1, "A"), 2020)).toBe(60);
    expect(ratingAbove(si(9, "A"), 2020)).toBe(15);
    expect(ratingAbove(si(9, "A"), 2023)).toBe(10);
  });
});

describe("conductorAmpacity", () => {
  const nm = {
    size: "12 AWG",
    metal: "copper",
    wiring: "NM-B",
    ambient: si(30, "degC"),
    carrying: 2,
    terminals: 75,
    inInsulation: false,
    edition: 2020,
  } as const;

  test("derates NM cable from 90 °C and caps it at 60 °C: 20 A for four cables, 15 A for five, not 14 A and 10 A", () => {
    expect(conductorAmpacity({ ...nm, carrying: 8 })).toMatchObject({ ampacity: 20, governs: "cable" });
    expect(conductorAmpacity({ ...nm, carrying: 10 })).toMatchObject({ ampacity: 15, governs: "insulation" });
  });

  test("starts from the insulation and ends no higher than the terminals: 50 A for 8 AWG THHN, not 55 A", () => {
    const run = { ...nm, size: "8 AWG", wiring: "THHN" } as const;
    expect(conductorAmpacity(run)).toMatchObject({ table: 55, ampacity: 50, governs: "terminals" });
    expect(conductorAmpacity({ ...run, terminals: 60 })).toMatchObject({ ampacity: 40 });
  });

  test("caps SE cable in insulation at 60 °C for 10 AWG and smaller", () => {
    const run = { ...nm, wiring: "SE", inInsulation: true } as const;
    expect(conductorAmpacity({ ...run, size: "10 AWG" })).toMatchObject({ ampacity: 30 });
    expect(conductorAmpacity({ ...run, size: "8 AWG" })).toMatchObject({ ampacity: 50 });
    expect(conductorAmpacity({ ...run, size: "8 AWG", edition: 2014 })).toMatchObject({ ampacity: 40 });
  });

  test("never rises with heat or company, never falls with size", () => {
    const size = fc.constantFrom(...(awgSizes.slice(2) as AwgSize[]));
    const wiring = fc.constantFrom("NM-B", "SE", "TW", "THWN", "THHN" as const);
    const ambient = fc.integer({ min: -20, max: 55 });
    fc.assert(
      fc.property(
        size,
        wiring,
        ambient,
        fc.integer({ min: 0, max: 25 }),
        fc.integer({ min: 1, max: 50 }),
        (...drawn) => {
          const [one, kind, degrees, hotter, carrying] = drawn;
          const amps = (over: object) =>
            conductorAmpacity({ ...nm, size: one, wiring: kind, ambient: si(degrees, "degC"), carrying, ...over })
              ?.ampacity ?? 0;
          const base = amps({});
          expect(amps({ ambient: si(degrees + hotter, "degC") })).toBeLessThanOrEqual(base);
          expect(amps({ carrying: carrying + hotter })).toBeLessThanOrEqual(base);
          const larger = awgSizes[awgSizes.indexOf(one) + 1];
          if (larger) expect(amps({ size: larger })).toBeGreaterThanOrEqual(base);
        },
      ),
    );
    expect(bundleFactor(3)).toBe(1);
  });
});

describe("mostOvercurrent", () => {
  test.each(rows)("protects $size $metal at 60 °C with at most $most_A A", ({ size, metal, most_A }) => {
    const amps = tableAmpacity(size as AwgSize, metal as "copper", 60)!;
    expect(mostOvercurrent(amps, size as AwgSize, metal as "copper", true, 2017)).toBe(Number(most_A));
  });

  test("does not round up where several receptacles feed portable loads", () => {
    expect(mostOvercurrent(si(55, "A"), "6 AWG", "copper", false, 2020)).toBe(55);
  });
});

describe("electrical/circuit-found", () => {
  const circuit = {
    overcurrent: "30 A",
    device: "2-pole breaker",
    individual: true,
    size: "10 AWG",
    metal: "copper",
    wiring: "NM-B",
  } as const;
  const input = {
    kind: "dryer",
    plate: { voltage: "240 V", neutral: true, current: "23 A" },
    system: "120/240 V",
    circuit,
    receptacle: { configuration: "14-30", count: "single" },
  } as const;

  test("passes a dryer that draws exactly what breaker and wire are good for", () => {
    expect(circuitFound({ ...input, plate: { ...input.plate, current: "30 A" } }).verdict).toBe("pass");
    expect(circuitFound({ ...input, plate: { ...input.plate, current: "30.1 A" } }).verdict).toBe("fail");
  });

  test("names an over-fused circuit and offers only what makes it right", () => {
    const finding = circuitFound({
      ...input,
      plate: { ...input.plate, current: "18 A" },
      circuit: { ...circuit, size: "12 AWG" },
    });
    expect(finding.message).toBe(
      "The 30 A device does not protect the 12 AWG copper conductors, which may have at most 20 A. Do not use this circuit until it is put right.",
    );
    expect(finding.workings.map(({ text }) => text)).toContain(
      "corrected = table * ambient * bundle: 30 A * 100 % * 100 % = 30 A",
    );
    expect(finding.remedies.map(({ message }) => message)).toContain("Have the run replaced with 10 AWG copper.");
    // a 20 A breaker alone would leave a 30 A receptacle, which is allowed on a single-receptacle circuit
    expect(finding.remedies.every(({ changes }) => changes.length > 0)).toBe(true);
  });

  test("sizes a small dryer's circuit from its plate, not from the 5000 VA of the feeder rule", () => {
    const compact = { voltage: "240 V", neutral: false, power: "3 kW" };
    const finding = circuitFound({
      ...input,
      plate: compact,
      circuit: { ...circuit, overcurrent: "15 A", size: "14 AWG" },
      receptacle: { configuration: "6-15", count: "single" },
    });
    expect(finding.verdict).toBe("pass");
    expect(finding.workings[0]!.text).toBe("load = power / voltage: 3 kW / 240 V = 12.5 A");
  });

  test("takes a range at its demand and a lone oven at its plate", () => {
    const plate = { voltage: "240 V", neutral: true, power: "11.5 kW" };
    const forty = { ...circuit, overcurrent: "40 A", size: "8 AWG" } as const;
    const range = circuitFound({
      ...input,
      kind: "range",
      plate,
      circuit: forty,
      receptacle: { configuration: "14-50", count: "single" },
    });
    expect(range).toMatchObject({ verdict: "pass", message: "The 40 A circuit serves the machine's 33.3 A." });
    expect(circuitFound({ ...input, kind: "oven", plate, circuit: forty, hardWired: true }).messageId).toBe("tooSmall");
  });

  test("lets a maker's sheet set the largest breaker of an oven", () => {
    const oven = {
      ...input,
      kind: "oven",
      plate: { voltage: "240 V", neutral: true, current: "14 A" },
      circuit: { ...circuit, overcurrent: "30 A" },
      hardWired: true,
    } as const;
    expect(circuitFound(oven)).toMatchObject({ verdict: "fail", messageId: "aboveMost", limit: { text: "25 A" } });
    expect(circuitFound({ ...oven, plate: { ...oven.plate, mostOvercurrent: "30 A" } }).verdict).toBe("pass");
  });

  test("a larger conductor never makes a finding worse", () => {
    const order = ["fail", "review", "pass"];
    const sizes = awgSizes.slice(2) as (typeof circuit.size)[];
    fc.assert(
      fc.property(fc.integer({ min: 0, max: sizes.length - 2 }), fc.constantFrom(15, 20, 25, 30, 40, 50), (i, amps) => {
        const verdict = (size: (typeof sizes)[number]) =>
          circuitFound({ ...input, circuit: { ...circuit, size, overcurrent: `${amps} A` } }).verdict;
        expect(order.indexOf(verdict(sizes[i + 1]!))).toBeGreaterThanOrEqual(order.indexOf(verdict(sizes[i]!)));
      }),
      { numRuns: 40 },
    );
  });

  test("every remedy passes when it is applied", () => {
    for (const example of circuitFound.examples) {
      const { remedies, verdict } = circuitFound(example.input, example.at);
      if (verdict !== "fail") continue;
      for (const { changes } of remedies) {
        const changed = structuredClone(example.input) as Record<string, unknown>;
        for (const { path, value } of changes) {
          const [group, field] = path as [string, string];
          (changed[group] as Record<string, unknown>)[field] = value;
        }
        expect(circuitFound.try(changed, example.at).finding?.verdict).toBe("pass");
      }
    }
  });

  test("says what was taken for granted and what was not looked at", () => {
    expect(circuitFound(input).assumptions).toContain("The terminals are taken as marked for 60 °C.");
    const { receptacle: _without, ...rest } = input;
    expect(circuitFound(rest)).toMatchObject({
      verdict: "review",
      missing: [{ path: ["receptacle", "configuration"] }],
    });
    const near = { ...circuit, size: "10 AWG", wiring: "THHN", ambient: "50 °C ± 2 °C" } as const;
    expect(circuitFound({ ...input, circuit: { ...near, carrying: 6 } }).verdict).not.toBe("pass");
    expect(circuitFound.try({ ...input, circuit: { ...circuit, overcurrent: 30 } }).fault?.issues[0]).toMatchObject({
      path: ["circuit", "overcurrent"],
      code: "noUnit",
    });
  });
});

describe("what is not known, and what a finding rests on", () => {
  const dryer = {
    kind: "dryer",
    plate: { voltage: "240 V", neutral: true, current: "23 A" },
    system: "120/240 V",
    circuit: {
      overcurrent: "30 A",
      device: "2-pole breaker",
      individual: true,
      size: "10 AWG",
      metal: "copper",
      wiring: "NM-B",
    },
    receptacle: { configuration: "14-30", count: "single" },
  };
  const finding = (change: object, at?: object) => circuitFound.try({ ...dryer, ...change }, at as never).finding!;
  const without = (key: string) =>
    Object.fromEntries(Object.entries(dryer.circuit).filter(([name]) => name !== key)) as object;
  const sections = (change: object, at?: object) => finding(change, at).basis.map(({ section }) => section);
  const ids = (change: object, at?: object) => finding(change, at).parts.map(({ messageId }) => messageId);

  test.each<[object, string[]]>([
    [{ plate: undefined }, ["plate.voltage", "plate.current"]],
    [{ plate: {} }, ["plate.voltage", "plate.current"]],
    [{ plate: { voltage: "240 V" } }, ["plate.current"]],
    [{ plate: { current: "23 A" } }, ["plate.voltage"]],
    [{ system: undefined }, ["system"]],
    [{ circuit: without("overcurrent") }, ["circuit.overcurrent"]],
    [{ circuit: without("device") }, ["circuit.device"]],
    [{ circuit: without("size") }, ["circuit.size"]],
    [{ circuit: without("metal") }, ["circuit.metal"]],
    [{ circuit: without("wiring") }, ["circuit.wiring"]],
    [{ circuit: without("individual") }, ["circuit.individual"]],
    [{ receptacle: undefined }, ["receptacle.configuration"]],
    [{ circuit: { ...dryer.circuit, metal: "aluminum", size: "8 AWG" } }, ["receptacle.aluminumRated"]],
  ])("%o asks for %j", (change, paths) => {
    const { verdict, missing } = finding(change);
    expect(verdict).toBe("review");
    expect(missing.map(({ path }) => path.join("."))).toEqual(paths);
  });

  test("cites the ampacity table under the number of its edition, and what may protect a conductor", () => {
    const adopted = (nec: number) => ({ jurisdiction: { adopted: { nec } } });
    expect(sections({}, adopted(2020))).toEqual(expect.arrayContaining(["Table 310.16", "240.4(B), 240.4(D)"]));
    expect(sections({}, adopted(2017))).toContain("Table 310.15(B)(16)");
    expect(sections({}, adopted(2017))).not.toContain("Table 310.16");
  });

  test("holds the circuit to the least ampacity on the plate, where that is more than the current", () => {
    const plate = { ...dryer.plate, current: "16 A" };
    const small = { ...dryer.circuit, overcurrent: "20 A", size: "10 AWG" };
    expect(ids({ plate, circuit: small })[0]).not.toBe("tooSmall");
    const asked = finding({ plate: { ...plate, leastCircuit: "25 A" }, circuit: small });
    expect(asked.parts.map(({ messageId, data }) => [messageId, data.need?.text])).toContainEqual(["tooSmall", "25 A"]);
  });

  // NEC 210.21(B)(1) and Table 210.21(B)(3): a 15 A receptacle may stand on a 20 A circuit only beside others.
  test("a 15 A receptacle belongs on a 20 A circuit with others, not alone on it", () => {
    const washer = {
      kind: "refrigerator",
      plate: { voltage: "120 V", current: "6 A" },
      circuit: {
        ...dryer.circuit,
        overcurrent: "20 A",
        device: "1-pole breaker",
        size: "12 AWG",
      },
    };
    const outlet = (count: string, individual = true, overcurrent = "20 A") =>
      ids({
        ...washer,
        circuit: { ...washer.circuit, individual, overcurrent },
        receptacle: { configuration: "5-15", count },
      }).filter((id) => id.startsWith("receptacle"));
    expect(outlet("single")).toEqual(["receptacleSmall"]);
    expect(outlet("duplex")).toEqual(["receptacleFits"]);
    expect(outlet("several")).toEqual(["receptacleFits"]);
    expect(outlet("single", false)).toEqual(["receptacleFits"]);
    expect(outlet("several", true, "30 A")).toEqual(["receptacleSmall"]);
    expect(outlet("single", true, "15 A")).toEqual(["receptacleFits"]);
  });

  test("two breakers that open one at a time, or one alone, are wrong for both lines; three lines want three poles", () => {
    const device = (name: string, more: object = {}) =>
      ids({ circuit: { ...dryer.circuit, device: name }, ...more }).filter((id) => /Pole|notTied|Phase/.test(id));
    expect(device("2-pole breaker")).toEqual([]);
    expect(device("two 1-pole breakers, not tied")).toEqual(["notTied"]);
    expect(device("1-pole breaker")).toEqual(["onePole"]);
    expect(device("1 fuse")).toEqual(["onePole"]);
    const three = { plate: { voltage: "208 V", current: "20 A", phases: "three" }, system: "208Y/120 V" };
    expect(device("2-pole breaker", three)).toEqual(["notThreePole"]);
    expect(device("3-pole breaker", three)).toEqual([]);
    expect(device("3-pole breaker", { ...three, system: "120/240 V" })).toEqual(["noThreePhase"]);
    const tied = finding({ circuit: { ...dryer.circuit, device: "two 1-pole breakers, not tied" } });
    expect(tied.remedies[0]!.message).toMatch(/^Have the two breakers replaced by one two-pole breaker/);
  });
});
