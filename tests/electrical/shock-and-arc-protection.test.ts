import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { places } from "../../src/electrical/limits-protection.js";
import { shockAndArcProtection } from "../../src/electrical/shock-and-arc-protection.js";
import { reference } from "../references.js";

const { rows } = reference("electrical/shock-and-arc-protection.csv");

type Given = Record<string, unknown>;
const run = (input: Given, at: object = {}) => shockAndArcProtection.try(input, at as never).finding!;
const edition = (nec: number) => ({ jurisdiction: { adopted: { nec } } });
const parts = (input: Given, at: object = {}) => run(input, at).parts.map(({ messageId }) => messageId);

const washer = {
  kind: "washer",
  fuel: "none",
  plate: { voltage: "120 V", current: "10 A" },
  system: "120/240 V",
  circuit: { overcurrent: "20 A", isNew: true },
  hardWired: false,
  place: "laundry area",
  gfci: true,
  afci: true,
};
const range = {
  ...washer,
  kind: "range",
  fuel: "electric",
  plate: { voltage: "240 V", neutral: true, power: "9600 W" },
  circuit: { overcurrent: "40 A", isNew: true },
  place: "kitchen",
  gfci: false,
  afci: false,
};

describe("electrical/shock-and-arc-protection", () => {
  test.each(rows)("$edition: $kind of $volts V, wired $wired, $place, sink $sink_ft ft", (row) => {
    const input = {
      kind: row.kind,
      fuel: "electric",
      plate: { voltage: `${row.volts} V`, power: "1000 W" },
      system: "120/240 V",
      circuit: { overcurrent: `${row.amps} A`, isNew: true },
      hardWired: row.wired === "yes",
      place: row.place,
      ...(row.sink_ft ? { sinkDistance: `${row.sink_ft} ft` } : { noSink: true }),
      gfci: false,
      afci: false,
    };
    const { parts: said } = run(input, edition(Number(row.edition)));
    const failed = said.filter(({ verdict }) => verdict === "fail").map(({ messageId }) => messageId);
    const called = {
      shock: failed.some((id) => ["shockMissing", "sinkNear", "machineListed"].includes(id)) ? "yes" : "no",
      arc: failed.includes("arcMissing") ? "yes" : "no",
    };
    expect(called).toEqual({ shock: row.shock, arc: row.arc });
    // with both fitted nothing is left to say against it
    expect(run({ ...input, gfci: true, afci: true }, edition(Number(row.edition))).verdict).toBe("pass");
  });

  test("counts a receptacle exactly 6 ft from the sink as within, and one beyond as not", () => {
    const at = (sinkDistance: string) => parts({ ...range, sinkDistance })[0];
    expect([at("6 ft"), at("1.8288 m"), at("6 ft 1/16 in")]).toEqual(["sinkNear", "sinkNear", "sinkFar"]);
    expect(run({ ...range, sinkDistance: "6 ft ± 2 in" })).toMatchObject({
      verdict: "review",
      messageId: "tooCloseToCall",
    });
  });

  test("says which item binds, cites it, and offers one breaker for both", () => {
    const finding = run({ ...washer, gfci: false, afci: false });
    expect(finding.message).toBe(
      "GFCI protection is called for and not fitted: a receptacle in a laundry area. AFCI protection is called for and not fitted: a 120 V circuit with an outlet in a laundry area.",
    );
    expect(finding.basis.map(({ citation }) => citation)).toEqual(
      expect.arrayContaining([
        "NEC 2020, 210.8(A)(10) (seen in a secondary source only)",
        "NEC 2020, 210.12(A) (seen in a secondary source only)",
      ]),
    );
    expect(finding.remedies.map(({ message }) => message)).toEqual(["Fit a breaker that is GFCI and AFCI in one."]);
    const beside = run({ ...range, sinkDistance: "4 ft" });
    expect(beside.remedies.map(({ message }) => message)).toEqual([
      "Fit a GFCI breaker, or a GFCI receptacle of the circuit's rating.",
    ]);
    expect(beside.workings.map(({ text }) => text)).toEqual(["4 ft at least 6 ft: does not hold"]);
  });

  test("leaves old work alone, but not a receptacle that is replaced", () => {
    const old = { ...washer, circuit: { overcurrent: "20 A", isNew: false }, gfci: false, afci: false };
    expect(run({ ...old, replaced: false })).toMatchObject({ verdict: "notApplicable", messageId: "unchanged" });
    expect(parts({ ...old, replaced: true })).toEqual(["shockMissing", "arcMissing"]);
    expect(run(old)).toMatchObject({ verdict: "review", missing: [{ path: ["replaced"] }] });
  });

  test("asks for what it needs and does not take it for none", () => {
    const without = (...names: string[]) =>
      Object.fromEntries(Object.entries({ ...range }).filter(([name]) => !names.includes(name)));
    expect(run(without("gfci")).missing).toMatchObject([{ path: ["noSink"] }, { path: ["sinkDistance"] }]);
    expect(run({ ...without("gfci"), sinkDistance: "3 ft" })).toMatchObject({
      verdict: "review",
      messageId: "shockUnknown",
      missing: [{ path: ["gfci"] }],
    });
    expect(run(without("plate", "system")).missing).toMatchObject([
      { path: ["plate", "voltage"] },
      { path: ["system"] },
    ]);
    expect(run(without("fuel"), edition(2023)).assumptions.join()).toMatch(/heat by electricity/);
  });

  test("points at a distance that cannot be read", () => {
    const { fault } = shockAndArcProtection.try({ ...range, sinkDistance: 4 });
    expect(fault?.issues[0]).toMatchObject({ path: ["sinkDistance"], code: "noUnit" });
  });

  test("takes a state's deletion of laundries from the arc list", () => {
    const local = ["laundry area", "kitchen"].map((place) => ({
      limit: "electrical/shock-and-arc-protection.arc",
      value: false,
      when: { place },
      citation: { document: "State amendment to 210.12" },
    }));
    const at = { jurisdiction: { adopted: { nec: 2017 }, local } };
    expect(parts({ ...washer, afci: false }, at)).toEqual(["shockFitted", "arcNotListed"]);
  });

  test("knows residual-current devices by edition, and says where it does not know", () => {
    const socket = { ...washer, system: "230/400 V", plate: { voltage: "230 V" }, gfci: false };
    const at = (iec60364: number) => ({ jurisdiction: { adopted: { iec60364 } } });
    const rated = (overcurrent: string) => ({ ...socket, circuit: { overcurrent, isNew: true } });
    expect(parts(rated("25 A"), at(2017))).toEqual(["rcdMissing"]);
    expect(parts(rated("25 A"), at(2005))).toEqual(["rcdLarger"]);
    expect(parts(rated("32 A"), at(2017))).toEqual(["rcdMissing"]);
    expect(run({ ...rated("16 A"), hardWired: true }, at(2017)).verdict).toBe("review");
  });

  test("a later edition never asks for less, and fitting a device never hurts", () => {
    const kinds = ["washer", "dryer", "range", "oven", "cooktop", "dishwasher", "refrigerator"] as const;
    const called = (input: Given, nec: number) =>
      run({ ...input, gfci: false, afci: true }, edition(nec)).verdict === "fail";
    fc.assert(
      fc.property(
        fc.constantFrom(...kinds),
        fc.constantFrom(...places),
        fc.boolean(),
        fc.constantFrom(["120 V", "20 A"], ["240 V", "30 A"], ["240 V", "50 A"]),
        fc.constantFrom("2 ft", "12 ft"),
        (kind, place, hardWired, [voltage, overcurrent], sinkDistance) => {
          const input = {
            ...range,
            kind,
            place,
            hardWired,
            plate: { voltage },
            circuit: { overcurrent, isNew: true },
            sinkDistance,
          };
          const calls = [2014, 2017, 2020, 2023].map((nec) => called(input, nec));
          expect(calls.slice(1).filter((later, i) => calls[i] && !later)).toEqual([]);
          expect(run({ ...input, gfci: true, afci: true }).verdict).toBe("pass");
        },
      ),
    );
  });
});

describe("traps", () => {
  test("2020 follows the receptacle, 2023 adds the machine: wiring a dryer in avoids it in 2020 and not in 2023", () => {
    const dryer = { ...range, kind: "dryer", place: "laundry area", circuit: { overcurrent: "30 A", isNew: true } };
    const verdicts = [2020, 2023].map((nec) => run({ ...dryer, hardWired: true }, edition(nec)).verdict);
    expect(verdicts).toEqual(["pass", "fail"]);
    expect(run(dryer, edition(2020)).verdict).toBe("fail");
  });

  test("a 240 V machine never needs AFCI, nor does one of 120/240 V", () => {
    expect(parts({ ...range, sinkDistance: "9 ft" })).toEqual(["sinkFar", "arcNotListed"]);
  });

  test("a gas range is no electric range: on a cord across the kitchen it is not on the list of machines", () => {
    const gas = { ...washer, kind: "range", fuel: "naturalGas", place: "living space", noSink: true, gfci: false };
    expect(parts(gas, edition(2023))[0]).toBe("shockNotListed");
    expect(parts({ ...gas, fuel: "electric" }, edition(2023))[0]).toBe("machineListed");
  });

  test("a system above 150 V to ground is outside the lists", () => {
    expect(parts({ ...range, system: "230/400 V", plate: { voltage: "230 V" } }, edition(2023))[0]).toBe(
      "shockNotListed",
    );
  });
});
