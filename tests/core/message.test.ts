import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { si } from "../../src/core/quantity/index.js";
import { fill, formulaOf, showApart, shownData, showSlot, templateOf } from "../../src/core/rule/message.js";
import { setPath } from "../../src/core/rule/path.js";

const ft = (value: number) => si(value, "ft");

describe("texts with slots", () => {
  test("are taken apart once and keep what stands around the slots", () => {
    const text = "The {gap:inches} gap is {lack:inches} short.";
    expect(templateOf(text)).toEqual({
      pieces: [
        { before: "The ", name: "gap", kind: "inches" },
        { before: " gap is ", name: "lack", kind: "inches" },
      ],
      after: " short.",
    });
    expect(templateOf(text)).toBe(templateOf(text));
  });

  test("are filled in the reader's units", () => {
    const data = { gap: si(1.5, "in"), name: "left side", legs: 3, factor: 1.25 };
    const text = "{name:text}: {gap:inches}, {legs:count} legs, {factor:number}";
    expect(fill(text, data, "us")).toBe("left side: 1 1/2 in, 3 legs, 1.25");
    expect(fill(text, data, "si")).toBe("left side: 38.1 mm, 3 legs, 1.25");
  });

  test("become a formula with bare symbols", () => {
    expect(formulaOf("{need:length} = {route:length} * (1 + {share:ratio})")).toBe("need = route * (1 + share)");
  });
});

describe("never the same text for two different values", () => {
  test("35 ft and a hair more", () => {
    expect(fill("{a:length} exceeds {b:length}", { a: ft(35.0001), b: ft(35) }, "us")).toBe("35.0001 ft exceeds 35 ft");
    expect(fill("{a:length} exceeds {b:length}", { a: ft(35.0001), b: ft(35) }, "si")).toBe(
      "10.66803 m exceeds 10.668 m",
    );
  });

  test("nor for two kinds of the same dimension", () => {
    expect(
      showApart(
        [
          { value: si(1.00001, "ft"), kind: "length" },
          { value: si(12, "in"), kind: "inches" },
        ],
        "us",
      ),
    ).toEqual(["12.0001 in", "12 in"]);
  });

  test("the data of a message has the message's own texts", () => {
    const data = { a: ft(35.0001), b: ft(35) };
    expect(shownData("{a:length} exceeds {b:length}", data, "us")).toEqual({
      a: { si: 10.66803048, kind: "length", text: "35.0001 ft" },
      b: { si: 10.668, kind: "length", text: "35 ft" },
    });
  });

  test("values that agree within the slack of a comparison may look the same", () => {
    expect(fill("{a:length}, {b:length}", { a: ft(35), b: ft(35) * (1 + 1e-12) }, "us")).toBe("35 ft, 35 ft");
  });

  test("for any two values and kind", () => {
    const kind = fc.constantFrom(
      "length",
      "inches",
      "airPressure",
      "temperature",
      "voltage",
      "slope",
      "turns",
      "ratio",
    );
    const size = fc.double({ min: 0.001, max: 1000, noNaN: true });
    const nudge = fc.double({ min: -1e-3, max: 1e-3, noNaN: true }).filter((part) => Math.abs(part) > 1e-8);
    fc.assert(
      fc.property(kind, size, nudge, fc.constantFrom("us" as const, "si" as const), (of, value, part, units) => {
        const [a, b] = showApart(
          [
            { value, kind: of as "length" },
            { value: value * (1 + part), kind: of as "length" },
          ],
          units,
        );
        expect(a).not.toBe(b);
      }),
    );
  });
});

describe("one value as text", () => {
  test("a word is its own text and a count has no unit", () => {
    expect([showSlot("left", "text", "us"), showSlot(7, "count", "us"), showSlot(0.25, "ratio", "us")]).toEqual([
      "left",
      "7",
      "25 %",
    ]);
  });
});

describe("setPath", () => {
  test("changes one place, shares the rest and leaves the original", () => {
    const original = { a: [{ b: 1 }, { b: 2 }], c: { d: 3 } };
    const changed = setPath(original, ["a", 1, "b"], 9);
    expect(changed).toEqual({ a: [{ b: 1 }, { b: 9 }], c: { d: 3 } });
    expect(original.a[1]).toEqual({ b: 2 });
    expect(changed.c).toBe(original.c);
    expect(changed.a[0]).toBe(original.a[0]);
    expect(setPath(5, [], 6)).toBe(6);
    expect(setPath({}, ["new", "deep"], 1)).toEqual({ new: { deep: 1 } });
  });
});
