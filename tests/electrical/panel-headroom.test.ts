import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { si } from "../../src/core/quantity/index.js";
import { cookingDemand, generalLoad, lightingDemand, panelHeadroom, tieredDemand } from "../../src/electrical/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("electrical/panel-headroom.csv");
const value = (calculation: ReturnType<typeof panelHeadroom>, name: string) =>
  (calculation.values[name] as { si: number } | null)?.si ?? null;

const dwelling = {
  service: "100 A",
  floor: "1000 ft2",
  kitchenCircuits: 2,
  laundryCircuits: 1,
  appliances: [
    { rating: "8 kW", count: 1 },
    { rating: "1 kW", count: 1 },
  ],
  heatOrCooling: "0 W",
};
const input = { plate: { voltage: "240 V", power: "5 kW" }, system: "120/240 V", dwelling } as const;

describe("the kernels", () => {
  test.each(rows)("$what of $load_VA VA is $answer_VA VA", ({ what, load_VA, first_VA, answer_VA }) => {
    const load = si(Number(load_VA), "VA");
    const got = what === "tier" ? tieredDemand(load, si(Number(first_VA), "VA"), 0.4) : lightingDemand(load);
    expect(Math.abs(got - Number(answer_VA))).toBeLessThanOrEqual(tolerance);
  });

  test("Annex D, example D1(a): 18,600 VA, 78 A; neutral 14,550 VA, 61 A", () => {
    const general = lightingDemand(generalLoad(si(1500, "ft2"), 3, 2017));
    const range = cookingDemand([{ rating: si(12, "kW"), count: 1 }]).demand;
    const total = general + range + 5500;
    expect([general, range, total]).toEqual([5100, 8000, 18_600]);
    expect(Math.ceil(total / 240)).toBe(78);
    expect(general + 0.7 * range + 0.7 * 5500).toBeCloseTo(14_550, 9);
  });

  test("Annex D, example D2(a): 29,700 VA come to 17,880 VA", () => {
    const connected = generalLoad(si(1500, "ft2"), 3, 2017) + 12_000 + 2500 + 1200 + 5000;
    expect(connected).toBe(29_700);
    expect(tieredDemand(si(connected, "VA"), si(10, "kVA"), 0.4) + 0.4 * 9000).toBe(21_480);
    // its neutral: lighting, range and dryer in part, dishwasher
    expect(5100 + 5600 + 3500 + 1200).toBe(15_400);
  });

  test("lighting tiers part at 3000 and at 120,000 VA", () => {
    expect(lightingDemand(si(3000, "VA"))).toBe(3000);
    expect(lightingDemand(si(120_000, "VA"))).toBeCloseTo(43_950, 6);
    expect(lightingDemand(si(124_000, "VA"))).toBeCloseTo(44_950, 6);
  });
});

describe("electrical/panel-headroom", () => {
  test("the householder's calculation, with the dryer as the new machine: 21,500 VA come to 13,400 VA, 55 A", () => {
    // 3000 + 4500 VA general, 8000 range, 1000 disposal, 5000 dryer
    const calculation = panelHeadroom(input);
    expect(value(calculation, "connected")).toBeCloseTo(21_500, 6);
    expect(value(calculation, "calculated")).toBeCloseTo(13_400, 6);
    expect(Math.floor(value(calculation, "calculatedCurrent")!)).toBe(55);
    expect(value(calculation, "calculatedRoom")).toBeCloseTo(44.17, 2);
    expect(calculation.workings.map(({ text }) => text)).toEqual([
      "connected = general + fixed + heating + machine: 7.5 kVA + 9 kVA + 0 VA + 5 kVA = 21.5 kVA",
      "demand = first + share * (connected - first): 8 kVA + 40 % * (21.5 kVA - 8 kVA) = 13.4 kVA",
    ]);
  });

  test("by metering: 125 % of the highest demand, then the machine in full", () => {
    const metered = { service: "100 A", measured: "8 kW", metering: "one year", generates: false } as const;
    const calculation = panelHeadroom({ ...input, dwelling: metered });
    expect(value(calculation, "metered")).toBe(15_000);
    expect(value(calculation, "meteredCurrent")).toBe(62.5);
    expect(value(calculation, "calculated")).toBeNull();
    const hidden = panelHeadroom({ ...input, dwelling: { ...dwelling, ...metered, generates: true } });
    expect(value(hidden, "metered")).toBeNull();
  });

  test("the edition of 2026 counts less for lighting", () => {
    const later = panelHeadroom(input, { jurisdiction: { adopted: { nec: 2026 } } });
    expect(value(later, "connected")).toBeCloseTo(20_500, 6);
  });

  test("adding a load never adds room", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 40 }), (some, more) => {
        const room = (kilowatts: number) =>
          value(panelHeadroom({ ...input, plate: { voltage: "240 V", power: `${kilowatts} kW` } }), "calculatedRoom")!;
        expect(room(Math.min(50, some + more))).toBeLessThanOrEqual(room(some));
      }),
      { numRuns: 30 },
    );
  });

  test("says what is missing and what cannot be read", () => {
    expect(panelHeadroom({ plate: input.plate, system: "120/240 V" })).toMatchObject({
      status: "missing",
      missing: [],
    });
    const { heatOrCooling: _without, ...rest } = dwelling;
    expect(panelHeadroom({ ...input, dwelling: rest }).missing).toMatchObject([
      { path: ["dwelling", "heatOrCooling"] },
    ]);
    const read = panelHeadroom.try({ ...input, dwelling: { ...dwelling, floor: "1000" } });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["dwelling", "floor"], code: "noUnit" });
  });
});
