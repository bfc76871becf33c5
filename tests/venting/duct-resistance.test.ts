import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brand, inUnit, si } from "../../src/core/quantity/index.js";
import {
  backPressure,
  compressionFactor,
  type DuctAir,
  ductResistance,
  elbowLoss,
  hydraulicLength,
  type Piece,
  pieceLoss,
  runLoss,
} from "../../src/venting/index.js";
import { wallRoughness } from "../../src/venting/tables/roughness.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("venting/duct-resistance.csv");
const air: DuctAir = { density: si(1.2041, "kg/m3"), viscosity: si(1.813e-5, "Pa*s") };

const straight = (feet: number, mm = 0.09): Piece => ({
  piece: "straight",
  length: si(feet, "ft"),
  roughness: si(mm, "mm"),
});
const hood = (loss: number): Piece => ({ piece: "hood", loss });
const right = si(90, "deg");

describe("runLoss", () => {
  test.each(rows)("takes what the reference library computes: $id", (row) => {
    const run = [straight(Number(row.length_ft), Number(row.roughness_mm)), hood(Number(row.sum_k))];
    for (const cfm of [100, 150, 200]) {
      const loss = inUnit(runLoss(run, si(Number(row.diameter_in), "in"), air, si(cfm, "cfm")), "inH2O");
      expect(Math.abs(loss - Number(row[`at${cfm}`]))).toBeLessThanOrEqual(tolerance);
    }
  });

  const piece = fc.oneof(
    fc.record({
      piece: fc.constant("straight" as const),
      length: fc.double({ min: 0.01, max: 20, noNaN: true }).map((m) => si(m, "m")),
      roughness: fc.double({ min: 0, max: 3, noNaN: true }).map((mm) => si(mm, "mm")),
    }),
    fc.record({
      piece: fc.constant("elbow" as const),
      make: fc.constantFrom("single mitre" as const, "adjustable" as const, "smooth" as const),
      angle: fc.double({ min: 1, max: 90, noNaN: true }).map((degrees) => si(degrees, "deg")),
      radius: fc.double({ min: 4, max: 10, noNaN: true }).map((inches) => si(inches, "in")),
    }),
    fc.record({
      piece: fc.constant("flat" as const),
      length: fc.double({ min: 0.01, max: 1, noNaN: true }).map((m) => si(m, "m")),
      heightLeft: fc.double({ min: 0.2, max: 1, noNaN: true }).map((share) => brand<"ratio">(share)),
      roughness: fc.constant(si(3, "mm")),
    }),
    fc.record({
      piece: fc.constant("obstruction" as const),
      open: fc.double({ min: 0.2, max: 1, noNaN: true }).map((share) => brand<"ratio">(share)),
    }),
  );
  const run = fc.array(piece, { minLength: 1, maxLength: 8 });
  const cfm = fc.double({ min: 20, max: 300, noNaN: true });

  test("never falls with more flow, a longer run, one more piece or a narrower bore", () => {
    fc.assert(
      fc.property(run, piece, cfm, cfm, (pieces, extra, a, b) => {
        const d = si(4, "in");
        const loss = (some: readonly Piece[], flow: number, bore = d) => runLoss(some, bore, air, si(flow, "cfm"));
        expect(loss(pieces, Math.max(a, b))).toBeGreaterThanOrEqual(loss(pieces, Math.min(a, b)) * (1 - 1e-12));
        expect(loss([...pieces, extra], a)).toBeGreaterThanOrEqual(loss(pieces, a));
        expect(loss(pieces, a, si(3.5, "in"))).toBeGreaterThanOrEqual(loss(pieces, a));
      }),
    );
  });

  test("never falls with a rougher wall", () => {
    const mm = fc.double({ min: 0, max: 3, noNaN: true });
    fc.assert(
      fc.property(mm, mm, cfm, (a, b, flow) => {
        const loss = (roughness: number) => runLoss([straight(20, roughness)], si(4, "in"), air, si(flow, "cfm"));
        expect(loss(Math.max(a, b))).toBeGreaterThanOrEqual(loss(Math.min(a, b)) * (1 - 1e-12));
      }),
    );
  });

  test("is nothing at rest, and finite at the ends of the domain", () => {
    fc.assert(
      fc.property(
        run,
        fc.double({ min: 1, max: 24, noNaN: true }),
        fc.double({ min: 0, max: 3000, noNaN: true }),
        (pieces, inches, flow) => {
          const loss = runLoss(pieces, si(inches, "in"), air, si(flow, "cfm"));
          expect(Number.isFinite(loss)).toBe(true);
          expect(runLoss(pieces, si(inches, "in"), air, si(0, "cfm"))).toBe(0);
        },
      ),
    );
  });
});

describe("traps", () => {
  const d = si(4, "in");
  const flow = si(150, "cfm");

  test("the exit is counted once: adding 1.0 to a hood whose 2 has it in gives 3 velocity pressures, the answer is 2", () => {
    const pv = pieceLoss(hood(1), d, air, flow).loss;
    expect(runLoss([hood(2)], d, air, flow) / pv).toBeCloseTo(2, 12);
    // a gauge at the outlet reads the loss less the velocity pressure that the air carries
    expect(backPressure([hood(2)], d, air, flow) / pv).toBeCloseTo(1, 12);
  });

  test("a 45° elbow is 0.6 of a 90°, not one half: the formula for smooth bends says so at r/D 1.5", () => {
    const k = (degrees: number) => elbowLoss("smooth", si(degrees, "deg"), brand<"ratio">(1.5), 5e4, 0.023704);
    // Pipe Flow (Wiley 2012) as in fluids 1.0.22: 0.19240 and 0.27442
    expect(k(45)).toBeCloseTo(0.1924, 4);
    expect(k(90)).toBeCloseTo(0.27442, 4);
    expect(k(45) / k(90)).toBeGreaterThan(0.6);
  });

  test("the make of an elbow matters more than one elbow more: a single mitre costs over twice an adjustable one", () => {
    const k = (make: "single mitre" | "adjustable" | "smooth") =>
      elbowLoss(make, right, brand<"ratio">(1.5), 6e4, 0.0232);
    expect(k("single mitre")).toBeGreaterThan(2 * k("adjustable"));
    expect(k("adjustable")).toBeGreaterThan(k("smooth"));
    // handbook's pleated 90° elbow at 100 mm: 0.57; three mitres stand within a fifth of it
    expect(Math.abs(k("adjustable") / 0.57 - 1)).toBeLessThan(0.2);
  });

  test("the velocity pressure (V/4005)² holds in standard air only: at 60 °C and 1524 m it reads 36 % high", () => {
    const hot: DuctAir = { density: si(0.88166, "kg/m3"), viscosity: si(1.99882e-5, "Pa*s") };
    const pv = inUnit(pieceLoss(hood(1), d, hot, flow).loss, "inH2O");
    const rule = (1718.9 / 4005) ** 2;
    expect(rule / pv).toBeCloseTo(1.362, 2);
  });

  test("a wider duct cuts the loss but the speed as well: 6 in takes a seventh of the friction at under half the speed", () => {
    const one = pieceLoss(straight(1), d, air, flow);
    const wide = pieceLoss(straight(1), si(6, "in"), air, flow);
    expect(one.loss / wide.loss).toBeGreaterThan(7);
    expect(wide.speed / one.speed).toBeCloseTo((4 / 6) ** 2, 12);
  });

  test("walls are stored in millimetres, not by words that changed their meaning", () => {
    expect(wallRoughness).toEqual({
      "new galvanized": 0.09,
      "new aluminium": 0.06,
      "linted metal": 0.9,
      "semi-rigid metal": 2,
      "foil flexible": 3,
    });
  });

  test("an equivalent length hangs on the flow: K 0.57 is 7.73 ft at 100 cfm and 8.50 ft at 200 cfm", () => {
    expect(hydraulicLength(0.57, d, 0.024581) / 0.3048).toBeCloseTo(7.73, 2);
    expect(hydraulicLength(0.57, d, 0.022359) / 0.3048).toBeCloseTo(8.498, 2);
  });

  test("a duct flattened to half its height loses a quarter of its area, and more than twice the friction", () => {
    const flat: Piece = {
      piece: "flat",
      length: si(1, "m"),
      heightLeft: brand<"ratio">(0.5),
      roughness: si(0.09, "mm"),
    };
    const round: Piece = { piece: "straight", length: si(1, "m"), roughness: si(0.09, "mm") };
    expect(pieceLoss(flat, d, air, flow).loss / pieceLoss(round, d, air, flow).loss).toBeGreaterThan(2.3);
    expect(pieceLoss(flat, d, air, flow).speed / pieceLoss(round, d, air, flow).speed).toBeCloseTo(1 / 0.75, 12);
  });
});

describe("compressionFactor", () => {
  test.each([
    [4, 2.41],
    [15, 6.3],
    [30, 11.6],
  ])("%i %% of compression in a 100 mm duct is × %d", (percent, factor) => {
    expect(compressionFactor(brand<"ratio">(percent / 100), si(100, "mm"))).toBeCloseTo(factor, 1);
  });
});

describe("venting/duct-resistance", () => {
  const input = {
    exhaustRate: "150 cfm",
    diameter: "4 in",
    straight: "25 ft",
    elbows: [{ radius: "4 in mitred" as const, angle: "90°", count: 2 }],
  };

  test("its profile sums to the total and ends at nothing", () => {
    const { values } = ductResistance(input);
    const profile = values.profile as unknown as readonly { loss: { si: number }; left: { si: number } }[];
    const total = (values.total as { si: number }).si;
    expect(profile.reduce((sum, { loss }) => sum + loss.si, 0)).toBeCloseTo(total, 8);
    expect(profile.at(-1)!.left.si).toBe(0);
    profile.slice(1).forEach(({ left, loss }, i) => {
      expect(profile[i]!.left.si - left.si).toBeCloseTo(loss.si, 8);
    });
  });

  test("shows its steps", () => {
    expect(ductResistance(input).workings.map(({ text }) => text)).toEqual([
      "speed = flow / (pi / 4 * diameter^2): 150 cfm / (pi / 4 * 4 in^2) = 1,719 fpm",
      "pv = density * speed^2 / 2: 0.0666 lb/ft3 * 1,719 fpm^2 / 2 = 0.163 inH2O",
      "re = density * speed * diameter / viscosity: 0.0666 lb/ft3 * 1,719 fpm * 4 in / 0.0195 mPa·s = 48,464",
      "total = along + fittings: 0.292 inH2O + 0.495 inH2O = 0.786 inH2O",
      "atMachine = total - pv: 0.786 inH2O - 0.163 inH2O = 0.623 inH2O",
    ]);
  });

  test("carries a tolerance through to first order: twice the relative error of the flow", () => {
    const { values } = ductResistance({ ...input, exhaustRate: "150 cfm ± 3 cfm" });
    const { si: total, tolerance: spread } = values.total as { si: number; tolerance: { si: number } };
    expect(spread.si / total).toBeGreaterThan(1.8 * 0.02);
    expect(spread.si / total).toBeLessThan(2 * 0.02);
  });

  test("asks for what is missing and points at what cannot be read", () => {
    expect(ductResistance({ diameter: "4 in" }).missing.map(({ path }) => path[0])).toEqual(["straight", "elbows"]);
    const read = ductResistance.try({ pieces: [{ piece: "straight", length: 4, wall: "new galvanized" }] });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["pieces", 0, "length"] });
  });
});
