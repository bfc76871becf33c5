import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inUnit, si } from "../../src/core/quantity/index.js";
import { joukowsky, wavePeriod } from "../../src/physics/index.js";
import { arresterFor, closingSurge, surge, waveSpeedIn } from "../../src/plumbing/index.js";
import { arresterRules, arresterSizes, arresterUnits } from "../../src/plumbing/tables/arresters.js";
import { usualWater, type WaterPipe, waterPipes } from "../../src/plumbing/tables/water-pipe.js";
import { reference } from "../references.js";
import { printedIn, valueIn } from "./governing.js";

const { rows, tolerance } = reference("plumbing/surge.csv");
const near = (value: number, want: number) => expect(Math.abs(value / want - 1)).toBeLessThanOrEqual(tolerance);
const density = si(usualWater.density_kg_m3, "kg/m3");
const run = { pipe: "copper L 1/2", length: si(50, "ft"), stopped: si(1.677, "m/s") } as const;
const hammering = {
  kind: "washer",
  arrester: "none",
  staticPressure: "60 psi",
  runs: [{ pipe: "copper L 1/2", length: "50 ft" }],
  flow: "4 gpm",
  closing: "20 ms",
} as const;
const waived = {
  jurisdiction: { local: [{ limit: "plumbing/surge.arrester", value: false, citation: { document: "Ordinance 12" } }] },
};
const check = (change: object, at?: Parameters<typeof surge>[1]) =>
  surge({ ...hammering, runs: [...hammering.runs], ...change }, at);

describe("plumbing/surge", () => {
  test.each(rows)("$pipe: wave $wave_m_s m/s", (row) => {
    const speed = waveSpeedIn(row.pipe as WaterPipe);
    near(speed, Number(row.wave_m_s));
    near(inUnit(joukowsky(density, speed, si(1, "m/s")), "kPa"), Number(row.kPa_per_m_s));
    near(1000 * wavePeriod(si(10, "m"), speed), Number(row.ms_per_10_m));
  });

  test("its limits and the arrester table are the printed ones, transcribed a second time", () => {
    const row = (limit: string, document: string, edition: string, value: string, unit = "") =>
      ({ limit, document, edition, when: "", value, unit }) as const;
    for (const one of [
      row("surge.arrester", "irc", "2009", "required"),
      row("surge.arrester", "upc", "2012", "required"),
      row("surge.arrester", "ipc", "2018", "required"),
      row("surge.peak", "", "", "150", "psi"),
    ]) {
      expect(valueIn(surge.limits, one)).toBeCloseTo(printedIn(one)!, 6);
    }
    expect(arresterSizes.map((size) => `${size} ${arresterUnits[size]}`).join(", ")).toBe(
      "AA 3, A 11, B 32, C 60, D 113, E 154, F 330",
    );
    expect(arresterRules).toEqual({ nextAbove_psi: 65, twoAbove_ft: 20 });
  });

  test("4 gpm stopped at once in 1/2 in copper: 2,217 kPa", () => {
    const { rise, isFast } = closingSurge([run], si(10, "ms"));
    expect(isFast).toBe(true);
    near(inUnit(rise, "kPa"), 2217);
    near(inUnit(rise, "psi"), 321.5);
  });

  test("the US rule of 53.9 and 60.6 psi per ft/s at 4,000 and 4,500 ft/s", () => {
    // w a V/(144 g) with w 62.4 lb/ft³, and the same as ρ a V.
    const at = (feet: number) => inUnit(joukowsky(si(62.4, "lb/ft3"), si(feet, "ft/s"), si(1, "ft/s")), "psi");
    expect(at(4000)).toBeCloseTo(53.9, 1);
    expect(at(4500)).toBeCloseTo(60.6, 1);
  });

  test("the handbook's penstock: 884 psi", () => {
    // 5,000 ft of 18 in pipe, 2 in wall, E 2.8e7 psi, K 3.2e5 psi, 25 ft³/s, 1.4 s: composite modulus 2.90e5 psi.
    const composite = 1 / (1 / 3.2e5 + 18 / (2.8e7 * 2));
    expect(composite / 1e5).toBeCloseTo(2.9, 2);
    const speed = Math.sqrt((composite * 144) / 1.94);
    expect(Math.abs(speed - 4640)).toBeLessThan(10);
    const velocity = 25 / ((Math.PI / 4) * 1.5 ** 2);
    const psi = (1.94 * speed * velocity) / 144;
    expect(Math.abs(psi / 884 - 1)).toBeLessThan(0.002);
    expect((2 * 5000) / speed).toBeGreaterThan(1.4);
  });

  test("trap: a formula passed round on the web is 2.6 times Michaud's bound", () => {
    // Δp = 0.070 V L/t psi, V ft/s, L ft, t s.
    const { slow } = closingSurge([{ ...run, stopped: si(1, "ft/s") }], si(1, "s"));
    const wrong = 0.07 * 1 * 50;
    expect(wrong / inUnit(slow, "psi")).toBeCloseTo(2.6, 1);
  });

  test("trap: a long copper run hammers where a plastic one of the same length does not", () => {
    const rise = (pipe: WaterPipe) => closingSurge([{ ...run, pipe }], si(20, "ms")).rise;
    expect(rise("copper L 1/2") / rise("PEX 1/2")).toBeGreaterThan(3.9);
    // By the closing time alone both would be called slow or fast alike.
    expect(closingSurge([{ ...run, length: si(5, "ft") }], si(20, "ms")).isFast).toBe(false);
    expect(closingSurge([{ ...run, pipe: "PEX 1/2" }], si(20, "ms")).isFast).toBe(true);
  });

  test("says what the pressure reaches, that an arrester is called for, and its size", () => {
    const finding = check({ units: 1.4, branch: "15 ft" });
    expect(finding.message).toBe(
      "The machine's valves shut quickly and no arrester is fitted: one is called for. Without an arrester the pressure reaches 382 psi when the valve shuts; 150 psi is the most.",
    );
    expect(finding.workings.map(({ text }) => text.split(":")[0])).toEqual([
      "stopped = 4 * flow / (pi * bore^2)",
      "wave = sqrt(bulk / density) / sqrt(1 + bulk / stiff * bore / wall)",
      "atOnce = density * wave * stopped",
      "slow = 2 * density * length * stopped / time",
      "peak = rest + min(atOnce, slow)",
      "382 psi at most 150 psi",
    ]);
    expect(finding.remedies.map(({ message }) => message)).toEqual([
      "Fit a listed water-hammer arrester of size AA right at the machine's valve.",
    ]);
  });

  test("exactly at the greatest pressure passes where no arrester is asked for", () => {
    const peak = 60 + inUnit(closingSurge([{ ...run, stopped: si(1.676762495812, "m/s") }], si(20, "ms")).rise, "psi");
    const at = (value: string) => ({
      ...waived,
      maker: [{ limit: "plumbing/surge.peak", value, citation: { document: "Sheet" } }],
    });
    expect(check({}, at(`${peak * (1 + 1e-10)} psi`)).verdict).toBe("pass");
    expect(check({}, at(`${peak - 0.1} psi`)).messageId).toBe("peakOver");
    expect(check({ hoseRating: "150 psi" }, at("500 psi")).messageId).toBe("hoseOver");
  });

  test("trap: over 65 psi the next larger arrester, over 20 ft two", () => {
    expect(arresterFor(3, si(65, "psi"))).toBe("AA");
    expect(arresterFor(3, si(66, "psi"))).toBe("A");
    expect(arresterFor(4, si(60, "psi"))).toBe("A");
    expect(arresterFor(331, si(60, "psi"))).toBeUndefined();
    const fitted = { arrester: "A", arresters: 1, units: 10, staticPressure: "60 psi" };
    expect(check({ ...fitted, branch: "20 ft" }).verdict).toBe("pass");
    expect(check({ ...fitted, branch: "21 ft" })).toMatchObject({ verdict: "fail", messageId: "tooFew" });
    expect(check({ ...fitted, branch: "15 ft", staticPressure: "70 psi" }).messageId).toBe("tooSmall");
    expect(check({ ...fitted, branch: "15 ft", staticPressure: "65 psi ± 3 psi" }).messageId).toBe("tooCloseToCall");
  });

  test("asks for what is missing, and points at what cannot be read", () => {
    expect(check({ arrester: undefined }).missing).toMatchObject([{ path: ["arrester"] }]);
    expect(check({ flow: undefined, closing: undefined }).missing.map(({ path }) => path[0])).toEqual([
      "flow",
      "closing",
    ]);
    expect(surge.try({ ...hammering, closing: 20 }).fault?.issues[0]).toMatchObject({
      path: ["closing"],
      code: "noUnit",
    });
  });

  test("laws: slower closing never gives more surge; faster water or a longer pipe never less", () => {
    const seconds = fc.double({ min: 0.001, max: 2, noNaN: true });
    const feet = fc.double({ min: 0.5, max: 200, noNaN: true });
    const speed = fc.double({ min: 0.01, max: 4, noNaN: true });
    fc.assert(
      fc.property(
        seconds,
        seconds,
        feet,
        feet,
        speed,
        speed,
        fc.constantFrom(...waterPipes),
        (t, u, l, m, v, w, pipe) => {
          const at = (time: number, length: number, metres: number) =>
            closingSurge([{ pipe, length: si(length, "ft"), stopped: si(metres, "m/s") }], si(time, "s")).rise;
          const here = at(t, l, v);
          expect(at(t + u, l, v)).toBeLessThanOrEqual(here * (1 + 1e-12));
          expect(at(t, l + m, v)).toBeGreaterThanOrEqual(here * (1 - 1e-12));
          expect(at(t, l, v + w)).toBeGreaterThanOrEqual(here);
        },
      ),
    );
  });
});
