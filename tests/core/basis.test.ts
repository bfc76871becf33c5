import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type Adopted,
  adoptable,
  basisOf,
  bindingTexts,
  buildings,
  burns,
  cite,
  codeBasis,
  commonPractice,
  coversEdition,
  type DatedValue,
  defineLimit,
  documentOf,
  type Fuel,
  faultsOfLimit,
  fuels,
  type Governing,
  govern,
  type Limit,
  type LimitSpec,
  type Place,
  printedSi,
  type StatedValue,
} from "../../src/core/basis/index.js";

const FOOT = 0.3048;

/** A made-up limit: no text sets it. */
const run = (values: readonly DatedValue[], more: Partial<LimitSpec> = {}): Limit =>
  defineLimit({
    id: "venting/bench.run",
    title: "Longest run on the bench",
    subject: "mechanical",
    kind: "length",
    sense: "atMost",
    maker: "replaces",
    values,
    ...more,
  });

const value = (text: DatedValue["text"], feet: number, more: Partial<DatedValue> = {}): DatedValue => ({
  text,
  section: "1.2",
  value: [feet, "ft"],
  confirmed: "seen",
  ...more,
});

const place = (adopted: Adopted, more: Partial<Place> = {}): Place => ({
  adopted,
  building: "dwelling",
  local: [],
  maker: [],
  ...more,
});

const stated = (feet: number, document: string, more: Partial<StatedValue> = {}): StatedValue => ({
  limit: "venting/bench.run",
  value: feet * FOOT,
  basis: { document, publisher: "", edition: "", section: "", force: "local", confirmed: "stated" },
  ...more,
});

const summary = (governing: Governing | undefined) =>
  governing && {
    feet: Math.round((governing.value / FOOT) * 1e6) / 1e6,
    origin: governing.origin,
    document: governing.basis.document,
    setAside: governing.setAside.map(({ candidate, reason }) => `${candidate.basis.document}: ${reason}`),
  };

describe("which texts bind", () => {
  const cases: [string, Adopted, Parameters<typeof bindingTexts>[1], (typeof buildings)[number], Fuel, string[]][] = [
    ["an electric dryer in a house", { irc: 2021 }, "mechanical", "dwelling", "electric", ["irc"]],
    ["a gas dryer in a house", { irc: 2021, ifgc: 2021 }, "mechanical", "dwelling", "propane", ["irc", "ircFuelGas"]],
    [
      "a gas dryer in flats",
      { irc: 2021, imc: 2021, ifgc: 2021 },
      "mechanical",
      "multifamily",
      "naturalGas",
      ["imc", "ifgc"],
    ],
    ["a shop without a fuel-gas code", { imc: 2021 }, "mechanical", "commercial", "naturalGas", ["imc"]],
    ["the uniform code in a house", { irc: 2021, umc: 2021 }, "mechanical", "dwelling", "naturalGas", ["umc"]],
    ["gas piping in a house", { irc: 2021, ifgc: 2021 }, "fuelGas", "dwelling", "naturalGas", ["ircFuelGas"]],
    ["gas piping under the uniform code", { upc: 2021 }, "fuelGas", "commercial", "naturalGas", ["upc"]],
    ["water in a house", { irc: 2021, ipc: 2021 }, "plumbing", "dwelling", "none", ["irc"]],
    ["water in flats", { irc: 2021, ipc: 2021 }, "plumbing", "multifamily", "none", ["ipc"]],
    ["water under the uniform code", { irc: 2021, upc: 2021 }, "plumbing", "dwelling", "none", ["upc"]],
    ["power", { nec: 2020, irc: 2021 }, "electrical", "dwelling", "electric", ["nec"]],
    [
      "power where two texts are adopted",
      { nec: 2020, iec60364: 2009 },
      "electrical",
      "commercial",
      "none",
      ["nec", "iec60364"],
    ],
    ["nothing adopted", {}, "mechanical", "dwelling", "naturalGas", []],
  ];
  test.each(cases)("%s", (_, adopted, subject, building, fuel, texts) => {
    expect(bindingTexts(adopted, subject, building, fuel)).toEqual(texts);
  });

  test("never a text of a document that was not adopted", () => {
    const adopted = fc.dictionary(
      fc.constantFrom(...(Object.keys(adoptable) as (keyof typeof adoptable)[])),
      fc.constant(2021),
    );
    const subject = fc.constantFrom("electrical", "mechanical", "plumbing", "fuelGas");
    fc.assert(
      fc.property(adopted, subject, fc.constantFrom(...buildings), fc.constantFrom(...fuels), (a, s, b, f) => {
        for (const text of bindingTexts(a, s as "mechanical", b, f)) expect(a).toHaveProperty(documentOf(text));
      }),
    );
  });

  test("gas burns, electricity does not", () => {
    expect(fuels.filter(burns)).toEqual(["naturalGas", "propane"]);
  });
});

describe("which limit governs", () => {
  const both = run([value("irc", 35), value("ircFuelGas", 30)]);

  test("of two texts that bind, the stricter, and the other is set aside", () => {
    expect(summary(govern(both, place({ irc: 2021 }), "naturalGas"))).toEqual({
      feet: 30,
      origin: "code",
      document: "IRC",
      setAside: ["IRC: it is less strict"],
    });
    expect(govern(both, place({ irc: 2021 }), "electric")).toMatchObject({ value: 35 * FOOT, setAside: [] });
  });

  test("the stricter is the larger where the limit is a least", () => {
    const least = run([value("irc", 35), value("ircFuelGas", 30)], { sense: "atLeast" });
    expect(summary(govern(least, place({ irc: 2021 }), "naturalGas"))).toMatchObject({ feet: 35 });
  });

  test("a requirement of either text binds", () => {
    const asked = run([value("irc", 0, { value: false }), value("ircFuelGas", 0, { value: true })], {
      kind: "requirement",
      sense: "required",
    });
    expect(govern(asked, place({ irc: 2021 }), "propane")).toMatchObject({ value: 1, text: "ircFuelGas" });
  });

  test("two that say the same: the first governs, and the other is said to say the same", () => {
    const same = run([value("irc", 35), value("ircFuelGas", 35)]);
    expect(govern(same, place({ irc: 2021 }), "propane")).toMatchObject({
      text: "irc",
      setAside: [{ reason: "it says the same" }],
    });
    const metric = run([value("irc", 3), value("ircFuelGas", 0, { value: [0.9144, "m"] })]);
    expect(govern(metric, place({ irc: 2021 }), "propane")).toMatchObject({
      setAside: [{ reason: "it says the same" }],
    });
  });

  test("a local amendment stands in place of every text, though it is less strict", () => {
    const local = [stated(40, "Ordinance 7")];
    expect(summary(govern(both, place({ irc: 2021 }, { local }), "naturalGas"))).toEqual({
      feet: 40,
      origin: "local",
      document: "Ordinance 7",
      setAside: [
        "IRC: amended locally by Ordinance 7 (as stated by the caller)",
        "IRC: amended locally by Ordinance 7 (as stated by the caller)",
      ],
    });
  });

  test("a local amendment of one text leaves the other", () => {
    const local = [stated(40, "Ordinance 7", { amends: "irc" })];
    expect(summary(govern(both, place({ irc: 2021 }, { local }), "naturalGas"))).toMatchObject({
      feet: 30,
      document: "IRC",
      setAside: ["IRC: amended locally by Ordinance 7 (as stated by the caller)", "Ordinance 7: it is less strict"],
    });
  });

  test("two amendments of the same text both bind", () => {
    const local = [stated(40, "Ordinance 7", { amends: "irc" }), stated(20, "Ordinance 8", { amends: "irc" })];
    expect(summary(govern(both, place({ irc: 2021 }, { local }), "naturalGas"))).toMatchObject({
      feet: 20,
      document: "Ordinance 8",
    });
  });

  test("an amendment of a text that does not bind is set aside, also where no text says anything", () => {
    const local = [stated(10, "Ordinance 7", { amends: "imc" })];
    expect(summary(govern(both, place({ irc: 2021 }, { local }), "electric"))).toMatchObject({
      feet: 35,
      setAside: ["Ordinance 7: it amends a text that does not bind here"],
    });
    expect(govern(run([]), place({ irc: 2021 }, { local }), "electric")).toBeUndefined();
  });

  test("an amendment speaks where the text it amends is silent", () => {
    const local = [stated(10, "Ordinance 7", { amends: "irc" })];
    expect(summary(govern(run([]), place({ irc: 2021 }, { local }), "electric"))).toMatchObject({
      feet: 10,
      origin: "local",
    });
  });

  test("the maker stands in place of the code where the code defers to the listing, more or less", () => {
    for (const feet of [64, 12]) {
      const maker = [stated(feet, "Sheet")];
      expect(summary(govern(both, place({ irc: 2021 }, { maker }), "naturalGas"))).toEqual({
        feet,
        origin: "maker",
        document: "Sheet",
        setAside: [
          "IRC: the code defers to the maker's instructions",
          "IRC: the code defers to the maker's instructions",
        ],
      });
    }
  });

  test("the maker can only tighten where the code does not defer", () => {
    const firm = run([value("irc", 35)], { maker: "tightens" });
    const with_ = (feet: number) => govern(firm, place({ irc: 2021 }, { maker: [stated(feet, "Sheet")] }), "electric");
    expect(summary(with_(64))).toMatchObject({ feet: 35, origin: "code", setAside: ["Sheet: it is less strict"] });
    expect(summary(with_(12))).toMatchObject({ feet: 12, origin: "maker", setAside: ["IRC: it is less strict"] });
  });

  test("the maker does not undo a local amendment: both bind", () => {
    const at = (makerFeet: number) =>
      place({ irc: 2021 }, { local: [stated(20, "Ordinance 7")], maker: [stated(makerFeet, "Sheet")] });
    expect(summary(govern(both, at(64), "electric"))).toMatchObject({ feet: 20, origin: "local" });
    expect(summary(govern(both, at(12), "electric"))).toMatchObject({ feet: 12, origin: "maker" });
  });

  test("common practice speaks last", () => {
    const limit = run([value("practice", 25, { confirmed: "practice" }), value("irc", 35, { from: 2021 })]);
    expect(summary(govern(limit, place({ irc: 2018 }), "electric"))).toMatchObject({
      feet: 25,
      origin: "practice",
      document: "Common practice",
    });
    expect(summary(govern(limit, place({ irc: 2021 }), "electric"))).toMatchObject({
      feet: 35,
      setAside: ["Common practice: a code, a local amendment or the maker speaks"],
    });
  });

  test("only values whose facts are so", () => {
    const limit = run([value("irc", 5, { when: { angle: 90 } }), value("irc", 2.5, { when: { angle: 45 } })]);
    const at = place({ irc: 2021 }, { local: [stated(7, "Ordinance 7", { when: { angle: 90 } })] });
    expect(summary(govern(limit, place({ irc: 2021 }), "electric", { angle: 45 }))).toMatchObject({ feet: 2.5 });
    expect(summary(govern(limit, at, "electric", { angle: 45 }))).toMatchObject({ feet: 2.5 });
    expect(summary(govern(limit, at, "electric", { angle: 90 }))).toMatchObject({ feet: 7 });
    expect(govern(limit, place({ irc: 2021 }), "electric", {})).toBeUndefined();
    expect(govern(limit, place({ irc: 2021 }), "electric", { angle: "90" })).toBeUndefined();
  });

  test("only values of the adopted edition", () => {
    const limit = run([value("irc", 25, { from: 2006, to: 2006 }), value("irc", 35, { from: 2009 })]);
    const feet = (edition: number) => summary(govern(limit, place({ irc: edition }), "electric"))?.feet;
    expect([2006, 2009, 2024].map(feet)).toEqual([25, 35, 35]);
    expect(govern(limit, place({ irc: 2012 }), "electric")?.basis.edition).toBe("2012");
  });

  test("a stated value of another limit does not count", () => {
    const local = [stated(1, "Ordinance 7", { limit: "venting/bench.other" })];
    expect(summary(govern(both, place({ irc: 2021 }, { local, maker: local }), "electric"))).toMatchObject({
      feet: 35,
    });
  });

  test("never less strict than any binding candidate, whatever binds", () => {
    const feet = fc.integer({ min: 1, max: 99 });
    fc.assert(
      fc.property(feet, feet, feet, fc.constantFrom("atMost", "atLeast"), (irc, gas, sheet, sense) => {
        const limit = run([value("irc", irc), value("ircFuelGas", gas)], {
          maker: "tightens",
          sense: sense as "atMost",
        });
        const found = govern(limit, place({ irc: 2021 }, { maker: [stated(sheet, "Sheet")] }), "naturalGas")!;
        const all = [irc, gas, sheet];
        expect(found.value / FOOT).toBeCloseTo(sense === "atMost" ? Math.min(...all) : Math.max(...all), 9);
        expect(found.setAside).toHaveLength(2);
      }),
    );
  });
});

describe("citations", () => {
  test("name document, edition and section, and say where the value was not seen", () => {
    expect(cite(codeBasis("irc", 2021, "M1502.4.6.1", "seen"))).toBe("IRC 2021, M1502.4.6.1");
    expect(cite(codeBasis("ircFuelGas", 2021, "G2439.7", "memory"))).toBe(
      "IRC 2021, G2439.7 (from memory, not yet seen in a published copy)",
    );
    expect(cite(codeBasis("nec", 2020, "210.23", "secondary"))).toBe(
      "NEC 2020, 210.23 (seen in a secondary source only)",
    );
    expect(cite(codeBasis("nec", 2020, "210.23", "computed"))).toBe("NEC 2020, 210.23 (computed)");
    expect(cite(commonPractice)).toBe("Common practice (no source)");
  });

  test("of a dated value carry its force and note", () => {
    const noted = value("umc", 14, { force: "advice", note: "Counts elbows only.", confirmed: "secondary" });
    expect(basisOf(noted, 2018)).toEqual({
      document: "UMC",
      publisher: "IAPMO",
      edition: "2018",
      section: "1.2",
      force: "advice",
      confirmed: "secondary",
      note: "Counts elbows only.",
    });
    expect(basisOf(value("irc", 35), 2018)).toMatchObject({ force: "mandatory" });
    expect(basisOf(value("practice", 1, { note: "Habit." }), 0)).toEqual({ ...commonPractice, note: "Habit." });
  });
});

describe("dated values", () => {
  test("in SI: the printed unit, a count, a requirement", () => {
    expect(printedSi([35, "ft"])).toBeCloseTo(10.668, 12);
    expect(printedSi([32, "degF"])).toBeCloseTo(273.15, 9);
    expect([printedSi(2), printedSi(true), printedSi(false)]).toEqual([2, 1, 0]);
  });

  test("cover their span of editions and no other", () => {
    const dated = value("irc", 1, { from: 2009, to: 2015 });
    expect([2006, 2009, 2012, 2015, 2018].filter((edition) => coversEdition(dated, edition))).toEqual([
      2009, 2012, 2015,
    ]);
    expect(coversEdition(value("irc", 1), 2006)).toBe(true);
  });

  test("with faults are told apart, each with its complaint", () => {
    expect(faultsOfLimit(run([value("irc", 35, { from: 2006, to: 2006 }), value("irc", 25, { from: 2009 })]))).toEqual(
      [],
    );
    const faults = (values: DatedValue[], more?: Partial<LimitSpec>) => faultsOfLimit(run(values, more)).join("; ");
    expect(faults([value("irc", 35, { from: 2010 })])).toBe("venting/bench.run: irc has no 2010 edition");
    expect(faults([{ text: "irc", value: [35, "ft"], confirmed: "seen" }])).toMatch(/names no section/);
    expect(faults([value("irc", 35, { value: [35, "psi"] })])).toMatch(/psi is not a length/);
    expect(faults([value("irc", 35, { value: 35 })])).toMatch(/does not fit its kind/);
    expect(faults([value("irc", 35, { value: true })])).toMatch(/only a requirement is true or false/);
    expect(faults([value("irc", 35, { value: 2 })], { kind: "requirement" })).toMatch(/only a requirement/);
    expect(faults([value("irc", 35, { value: [2, "ft"] })], { kind: "count" })).toMatch(/does not fit its kind/);
    expect(faults([value("irc", 35, { from: 2015, to: 2009 })])).toMatch(/is no span/);
    expect(faults([value("irc", 35), value("irc", 25, { when: { angle: 45 } })])).toBe(
      'venting/bench.run: irc first to last {"angle":45} is hidden by irc first to last',
    );
    expect(faults([value("irc", 25, { when: { angle: 45 } }), value("irc", 35)])).toBe("");
    expect(faults([value("irc", 25, { from: 2006, to: 2012 }), value("irc", 35, { from: 2012 })])).toMatch(
      /is hidden by/,
    );
  });
});
