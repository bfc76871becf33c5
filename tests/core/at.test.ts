import { describe, expect, test } from "vitest";
import { defineLimit, type Limit, type LimitSpec } from "../../src/core/basis/index.js";
import { withStated } from "../../src/core/rule/at.js";
import { type AtInput, checkNamedLimits, InputFault, type InputIssue, readAt } from "../../src/core/rule/index.js";

const limit = (name: string, more: Partial<LimitSpec> = {}): Limit =>
  defineLimit({
    id: `venting/bench.${name}`,
    title: `Bench ${name}`,
    subject: "mechanical",
    kind: "length",
    sense: "atMost",
    maker: "replaces",
    values: [{ text: "irc", section: "1.2", value: [35, "ft"], confirmed: "seen", when: { angle: 45 } }],
    ...more,
  });
const run = limit("run");
const count = limit("count", { kind: "count", values: [] });
const asked = limit("asked", { kind: "requirement", sense: "required", values: [] });
const share = limit("share", { kind: "ratio", values: [] });
const all = [run, count, asked, share];
const citation = { document: "Sheet" };

function faults(body: () => unknown): readonly InputIssue[] {
  try {
    body();
  } catch (error) {
    if (error instanceof InputFault) return error.issues;
    throw error;
  }
  throw new Error("nothing was refused");
}
const refused = (at: unknown): readonly InputIssue[] => faults(() => readAt(at as AtInput));
const stated = (id: string, value: unknown, more: object = {}) =>
  readAt({ maker: [{ limit: `venting/bench.${id}`, value: value as string, citation, ...more }] });

describe("what surrounds a check", () => {
  test("has stated defaults", () => {
    const at = readAt();
    expect(at).toMatchObject({
      adopted: { nec: 2020, irc: 2021 },
      building: "dwelling",
      units: "us",
      decision: "guarded",
      decimal: ".",
    });
    expect([...at.assumed].sort()).toEqual(["irc", "nec"]);
    expect(at.buildingAssumed).toBe(true);
    expect(readAt({})).toMatchObject({ adopted: at.adopted });
  });

  test.each<[string, AtInput["jurisdiction"], object, string[]]>([
    ["a house with its code named", { adopted: { irc: 2015 } }, { irc: 2015, nec: 2020 }, ["nec"]],
    [
      "flats with nothing named",
      { building: "multifamily" },
      { imc: 2021, ifgc: 2021, ipc: 2021, nec: 2020 },
      ["ifgc", "imc", "ipc", "nec"],
    ],
    [
      "a house under the uniform codes",
      { adopted: { umc: 2021, upc: 2021 } },
      { umc: 2021, upc: 2021, nec: 2020 },
      ["nec"],
    ],
    [
      "a house under the mechanical code alone",
      { adopted: { imc: 2018 } },
      { imc: 2018, ifgc: 2021, ipc: 2021, nec: 2020 },
      ["ifgc", "ipc", "nec"],
    ],
    [
      "flats in a town that adopted the residential code only",
      { building: "multifamily", adopted: { irc: 2018 } },
      { irc: 2018, imc: 2021, ifgc: 2021, ipc: 2021, nec: 2020 },
      ["ifgc", "imc", "ipc", "nec"],
    ],
    ["another electrical text", { adopted: { iec60364: 2009, irc: 2021 } }, { iec60364: 2009, irc: 2021 }, []],
  ])("assumes only what nothing adopted speaks for: %s", (_, jurisdiction, adopted, assumed) => {
    const at = readAt({ jurisdiction });
    expect(at.adopted).toEqual(adopted);
    expect([...at.assumed].sort()).toEqual(assumed);
  });

  test("refuses an edition that the document does not have, with the list", () => {
    expect(refused({ jurisdiction: { adopted: { irc: 2016 } } })[0]).toMatchObject({
      path: ["jurisdiction", "adopted", "irc"],
      code: "notAccepted",
      message: "write one of 2006, 2009, 2012, 2015, 2018, 2021, 2024",
      received: "2016",
    });
    expect(refused({ jurisdiction: { adopted: { nec: "2020" } } })[0]).toMatchObject({ received: '"2020"' });
    expect(refused({ jurisdiction: { adopted: { ircc: 2021 } } })[0]).toMatchObject({ code: "unknownField" });
  });

  test("refuses what it does not know", () => {
    expect(refused({ jurisdiction: { building: "castle" } })[0]).toMatchObject({
      message: 'write one of "dwelling", "multifamily", "commercial"',
    });
    expect(refused({ units: "metric" })[0]).toMatchObject({ path: ["units"] });
    expect(refused({ makers: [] })[0]).toMatchObject({ path: ["makers"], code: "unknownField" });
    expect(refused({ maker: [{ limit: "x", value: "1 ft" }] })[0]).toMatchObject({
      path: ["maker", 0, "citation"],
      code: "missing",
    });
    expect(refused({ maker: [{ limit: "x", value: ["1 ft"], citation }] })[0]).toMatchObject({
      path: ["maker", 0, "value"],
      message: "Quantity with its unit; a bare number for a count; true or false for a requirement",
    });
    expect(refused(null)[0]).toMatchObject({ path: [] });
  });
});

describe("stated limits", () => {
  test("are read in the limit's dimension, with their citation", () => {
    const at = readAt({
      jurisdiction: {
        local: [
          {
            limit: run.id,
            value: "20 ft",
            amends: "irc",
            when: { angle: 45 },
            citation: { document: "Ordinance 7", publisher: "Town", edition: "2025", section: "3" },
          },
        ],
      },
      maker: [{ limit: run.id, value: { value: 64, unit: "ft" }, citation }],
    });
    expect(at.stated(run)).toEqual({
      local: [
        {
          limit: run.id,
          value: expect.closeTo(6.096, 12),
          amends: "irc",
          when: { angle: 45 },
          basis: {
            document: "Ordinance 7",
            publisher: "Town",
            edition: "2025",
            section: "3",
            force: "local",
            confirmed: "stated",
          },
        },
      ],
      maker: [
        {
          limit: run.id,
          value: expect.closeTo(19.5072, 12),
          basis: { document: "Sheet", publisher: "", edition: "", section: "", force: "maker", confirmed: "stated" },
        },
      ],
    });
    expect(at.stated(run)).toBe(at.stated(run));
    expect(at.stated(count)).toEqual({ local: [], maker: [] });
  });

  test("are counts, requirements and shares by the limit's kind", () => {
    const value = (id: string, given: unknown, of: Limit) => stated(id, given).stated(of).maker[0]!.value;
    expect([value("count", 2, count), value("asked", true, asked), value("asked", false, asked)]).toEqual([2, 1, 0]);
    expect(value("share", "125 %", share)).toBeCloseTo(1.25, 12);
  });

  test("with the decimal comma where the caller says so", () => {
    const at = readAt({ decimal: ",", maker: [{ limit: run.id, value: "1,5 m", citation }] });
    expect(at.stated(run).maker[0]!.value).toBe(1.5);
  });

  test.each<[string, string, unknown, Limit, RegExp]>([
    ["a bare number for a length", "run", 64, run, /say the unit, for example "64 ft"/],
    ["another dimension", "run", "64 psi", run, /is a unit of pressure/],
    ["a tolerance", "run", "64 ft ± 1 in", run, /a limit has no tolerance/],
    ["less than nothing", "run", "-1 ft", run, /no limit is as small or as large/],
    ["nearly nothing", "run", "1e-30 ft", run, /no limit is as small or as large/],
    ["more than anything", "run", "1e30 ft", run, /no limit is as small or as large/],
    ["a truth for a length", "run", true, run, /write a length with its unit/],
    ["a text for a count", "count", "2 ft", count, /whole number, 0 or more/],
    ["a broken count", "count", 1.5, count, /whole number, 0 or more/],
    ["a negative count", "count", -1, count, /whole number, 0 or more/],
    ["a number for a requirement", "asked", 1, asked, /true or false/],
  ])("are refused, not guessed: %s", (_, id, value, of, message) => {
    const at = stated(id, value);
    expect(faults(() => at.stated(of))[0]).toMatchObject({
      path: ["maker", 0, "value"],
      code: "notAccepted",
      message: expect.stringMatching(message),
    });
    expect(faults(() => checkNamedLimits(at, all))[0]!.message).toMatch(message);
  });

  test("are refused at the place of the amendment too", () => {
    const at = readAt({ jurisdiction: { local: [{ limit: run.id, value: 64, citation }] } });
    expect(faults(() => at.stated(run))[0]).toMatchObject({ path: ["jurisdiction", "local", 0, "value"] });
  });

  test("for limits that nothing knows are refused with the ids, all at once", () => {
    const at = readAt({
      jurisdiction: { local: [{ limit: "venting/bench.rum", value: "1 ft", citation }] },
      maker: [{ limit: "venting/bench", value: 1, citation }],
    });
    const issues = faults(() => checkNamedLimits(at, all));
    expect(issues.map(({ path }) => path)).toEqual([
      ["jurisdiction", "local", 0, "limit"],
      ["maker", 0, "limit"],
    ]);
    expect(issues[0]).toMatchObject({ code: "unknownLimit", received: '"venting/bench.rum"' });
    expect(issues[0]!.message).toContain("venting/bench.run, venting/bench.count");
    expect(faults(() => checkNamedLimits(at, []))[0]!.message).toContain("no limit can be amended here");
  });

  test("for facts that the limit does not depend on are refused: they could never hold", () => {
    expect(checkNamedLimits(stated("run", "1 ft", { when: { angle: 90 } }), all)).toBeUndefined();
    expect(faults(() => checkNamedLimits(stated("run", "1 ft", { when: { angel: 90 } }), all))[0]).toMatchObject({
      path: ["maker", 0, "when", "angel"],
      code: "unknownField",
      message: "this limit does not depend on such a fact; write one of angle",
    });
    expect(faults(() => checkNamedLimits(stated("count", 1, { when: { angle: 90 } }), all))[0]!.message).toContain(
      "the same in every case",
    );
  });
});

describe("a stated figure that no formula holds for", () => {
  const citation = { document: "A sheet" };
  const at = readAt({ maker: [{ limit: "plumbing/gas-pipe.drop", value: "0 Pa", citation }] });
  const fails = (): never => {
    throw new RangeError("pressure drop must be above 0 and finite (got 0)");
  };

  test("is a fault that names the statement", () => {
    expect(() => withStated(at, fails)).toThrow(/maker\[0\]\.value: with the limits stated here .* pressure drop/);
  });

  test("while the same error with nothing stated is our own, and is not dressed up", () => {
    expect(() => withStated(readAt(), fails)).toThrow(RangeError);
  });

  test("and any other error goes through", () => {
    expect(() => withStated(at, () => JSON.parse("{"))).toThrow(SyntaxError);
  });
});
