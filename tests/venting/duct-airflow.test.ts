import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brand, inUnit, si } from "../../src/core/quantity/index.js";
import { fanCurve, fanPressure, operatingPoint } from "../../src/physics/index.js";
import { genericCurve, inAir, meet, needed } from "../../src/venting/blower.js";
import { type DuctAir, ductAirflow, ductLength, type Piece, runLoss } from "../../src/venting/index.js";
import { standardDensity } from "../../src/venting/tables/blower.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("venting/duct-airflow.csv");

/** The test curve of the reference cases on many straight pieces, at a density. */
const testCurve = (density: number) =>
  fanCurve(
    Array.from({ length: 2301 }, (_, i) => ({
      flow: si(i / 10, "cfm"),
      pressure: brand<"pressure">(si(0.9 * Math.max(0, 1 - (i / 2300) ** 2), "inH2O") * (density / 1.2041)),
    })),
  );

describe("the operating point", () => {
  test.each(rows)("is where the reference library finds it: $id", (row) => {
    const air = { density: si(Number(row.density), "kg/m3"), viscosity: si(Number(row.viscosity), "Pa*s") };
    const pieces: Piece[] = [
      { piece: "straight", length: si(Number(row.length_ft), "ft"), roughness: si(Number(row.roughness_mm), "mm") },
      { piece: "hood", loss: Number(row.sum_k) },
    ];
    // the cases take the curve for total pressure
    const point = operatingPoint(testCurve(air.density), (q) =>
      runLoss(pieces, si(Number(row.diameter_in), "in"), air, q),
    );
    expect(Math.abs(inUnit(point.flow, "cfm") - Number(row.flow_cfm))).toBeLessThanOrEqual(tolerance);
    if (row.pressure_inH2O !== "") expect(inUnit(point.pressure, "inH2O")).toBeCloseTo(Number(row.pressure_inH2O), 4);
  });

  test("trap: thinner air moves nearly the same volume and less mass; scaling the flow with density is wrong", () => {
    const [sea, , , , , , , , high] = rows;
    expect(Number(high!.flow_cfm) / Number(sea!.flow_cfm)).toBeGreaterThan(0.98);
    expect(Number(high!.density) / Number(sea!.density)).toBeLessThan(0.75);
  });

  const air: DuctAir = { density: si(1.07, "kg/m3"), viscosity: si(1.95e-5, "Pa*s") };
  const calm = { stack: si(0, "Pa"), wind: si(0, "Pa") };
  const run = (feet: number, elbows: number): Piece[] => [
    { piece: "straight", length: si(feet, "ft"), roughness: si(0.09, "mm") },
    ...Array.from(
      { length: elbows },
      (): Piece => ({ piece: "elbow", make: "adjustable", angle: si(90, "deg"), radius: si(4, "in") }),
    ),
    { piece: "hood", loss: 2 },
  ];
  const feet = fc.double({ min: 1, max: 120, noNaN: true });
  const elbows = fc.integer({ min: 0, max: 8 });

  test("lies on both curves to 1e-9", () => {
    fc.assert(
      fc.property(feet, elbows, (length, count) => {
        const meeting = {
          curve: inAir(genericCurve(), air.density),
          pieces: run(length, count),
          diameter: si(4, "in"),
          air,
          driving: calm,
        };
        const point = meet(meeting);
        expect(point.place).toBe("crossing");
        expect(Math.abs(fanPressure(meeting.curve, point.flow) / point.pressure - 1)).toBeLessThan(1e-9);
        expect(Math.abs(needed(meeting, point.flow) / point.pressure - 1)).toBeLessThan(1e-9);
      }),
    );
  });

  test("never gives more flow for a longer run, one more elbow, a narrower bore or a rougher wall", () => {
    const flow = (length: number, count: number, inches = 4, mm = 0.09) =>
      meet({
        curve: inAir(genericCurve(), air.density),
        pieces: run(length, count).map((piece) =>
          "roughness" in piece ? { ...piece, roughness: si(mm, "mm") } : piece,
        ),
        diameter: si(inches, "in"),
        air,
        driving: calm,
      }).flow;
    fc.assert(
      fc.property(feet, feet, elbows, (a, b, count) => {
        expect(flow(Math.max(a, b), count)).toBeLessThanOrEqual(flow(Math.min(a, b), count) * (1 + 1e-12));
        expect(flow(a, count + 1)).toBeLessThan(flow(a, count));
        expect(flow(a, count, 3.5)).toBeLessThan(flow(a, count));
        expect(flow(a, count, 4, 0.9)).toBeLessThan(flow(a, count));
      }),
      { numRuns: 40 },
    );
  });

  test("follows the fan laws where friction does not change: a density alone leaves the flow", () => {
    const fitting: Piece[] = [{ piece: "hood", loss: 8 }];
    const at = (density: number) => {
      const some = { density: si(density, "kg/m3"), viscosity: air.viscosity };
      return meet({
        curve: inAir(genericCurve(), some.density),
        pieces: fitting,
        diameter: si(4, "in"),
        air: some,
        driving: calm,
      });
    };
    fc.assert(
      fc.property(fc.double({ min: 0.6, max: 1.3, noNaN: true }), (density) => {
        expect(at(density).flow).toBeCloseTo(at(standardDensity).flow, 10);
        expect(at(density).pressure / density).toBeCloseTo(at(standardDensity).pressure / standardDensity, 6);
      }),
    );
  });

  test("gains from a lift and loses from a wind against it", () => {
    const flow = (stack: number, wind: number) =>
      meet({
        curve: inAir(genericCurve(), air.density),
        pieces: run(30, 2),
        diameter: si(4, "in"),
        air,
        driving: { stack: si(stack, "Pa"), wind: si(wind, "Pa") },
      }).flow;
    expect(flow(5, 0)).toBeGreaterThan(flow(0, 0));
    expect(flow(0, 5)).toBeLessThan(flow(0, 0));
    expect(flow(5, 5)).toBeCloseTo(flow(0, 0), 12);
  });
});

describe("venting/duct-airflow", () => {
  const number = (value: unknown) => (value as { si: number }).si;

  test("one run passes the table and chokes, another fails the table and breathes", () => {
    const bad = ductAirflow({
      diameter: "4 in",
      pieces: [
        { piece: "flexible", length: "8 ft", wall: "foil flexible", compression: "30 %" },
        { piece: "straight", length: "20 ft", wall: "linted metal" },
        { piece: "elbow", make: "single mitre", angle: "90°" },
        { piece: "elbow", make: "single mitre", angle: "90°" },
      ],
      backPressureLimit: "0.6 inH2O",
    });
    const table = (straight: string, radius: "4 in mitred" | "10 in smooth", count: number) =>
      ductLength({ fuel: "electric", straight, elbows: [{ radius, angle: "90°", count }] }).verdict;
    expect(table("20 ft", "4 in mitred", 2)).toBe("pass");
    expect(number(bad.values.margin)).toBeLessThan(0);
    const good = ductAirflow({
      diameter: "4 in",
      straight: "34 ft",
      elbows: [{ radius: "10 in smooth", angle: "90°", count: 1 }],
      backPressureLimit: "0.6 inH2O",
    });
    expect(table("34 ft", "10 in smooth", 1)).toBe("fail");
    expect(number(good.values.margin)).toBeGreaterThan(0);
    expect((good.values.reading as { text: string }).text).toMatch(/breathes/);
  });

  test("a mountain site moves less mass through the same run", () => {
    const input = { diameter: "4 in", straight: "25 ft", elbows: [] };
    const low = ductAirflow(input).values;
    const high = ductAirflow({ ...input, altitude: "9000 ft" }).values;
    expect(number(high.massFlow) / number(low.massFlow)).toBeLessThan(0.75);
    expect(number(high.flow) / number(low.flow)).toBeGreaterThan(0.97);
  });

  test("says that a generic blower is an assumption, and takes the maker's points in its place", () => {
    const input = { diameter: "4 in", straight: "25 ft", elbows: [] };
    expect(ductAirflow(input).assumptions.join()).toMatch(/generic blower/);
    const stated = ductAirflow({
      ...input,
      blower: [
        { flow: "0 cfm", pressure: "0.9 inH2O" },
        { flow: "230 cfm", pressure: "0 inH2O" },
      ],
    });
    expect(stated.assumptions.join()).not.toMatch(/generic blower/);
    expect(number(stated.values.flow)).toBeLessThan(number(ductAirflow(input).values.flow));
  });

  describe("the curve", () => {
    type Row = Record<"flow" | "blower" | "run", { si: number } | null>;
    const read = (input: Parameters<typeof ductAirflow>[0]) => {
      const { status, values } = ductAirflow(input);
      const rows = values.curve as unknown as Row[];
      return { status, at: status === "computed" ? number(values.flow) : null, rows };
    };

    test.each([
      ["a generic blower", { diameter: "4 in", straight: "25 ft", elbows: [], rise: "20 ft" }],
      [
        "the maker's points, from no flow",
        {
          diameter: "4 in",
          straight: "40 ft",
          elbows: [{ radius: "4 in mitred", angle: "90°", count: 2 }],
          windSpeed: "15 mph",
          blower: [
            { flow: "0 cfm", pressure: "1 inH2O" },
            { flow: "120 cfm", pressure: "0.7 inH2O" },
            { flow: "220 cfm", pressure: "0 inH2O" },
          ],
        },
      ],
    ] as const)("crosses once, at the operating point: %s", (_, input) => {
      const { at, rows } = read(input as Parameters<typeof ductAirflow>[0]);
      expect(rows).toHaveLength(26);
      expect(rows[0]!.flow!.si).toBe(0);
      const where = rows.findIndex(({ flow }) => flow!.si === at);
      expect(where).toBeGreaterThan(0);
      expect(where).toBeLessThan(rows.length - 1);
      expect(rows[where]!.run!.si).toBeCloseTo(rows[where]!.blower!.si, 7);
      rows.forEach(({ flow, blower, run }, i) => {
        if (i > 0) expect(flow!.si).toBeGreaterThan(rows[i - 1]!.flow!.si);
        if (i < where) expect(blower!.si).toBeGreaterThan(run!.si);
        if (i > where) expect(blower!.si).toBeLessThan(run!.si);
      });
    });

    test("does not know the blower below the maker's first point, and is empty without an answer", () => {
      const blower = [
        { flow: "60 cfm", pressure: "0.9 inH2O" },
        { flow: "230 cfm", pressure: "0 inH2O" },
      ];
      const { rows } = read({ diameter: "4 in", straight: "25 ft", elbows: [], blower });
      for (const { flow, blower, run } of rows) {
        expect(blower === null).toBe(flow!.si < si(60, "cfm"));
        expect(run).not.toBeNull();
      }
      expect(rows.filter(({ blower }) => blower === null).length).toBeGreaterThan(3);
      expect(read({}).rows).toEqual([]);
    });
  });

  test("points at what cannot be read", () => {
    const read = ductAirflow.try({
      blower: [
        { flow: "0 cfm", pressure: "1 inH2O" },
        { flow: 200, pressure: "0 inH2O" },
      ],
    });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["blower", 1, "flow"] });
  });
});
