/** The drawings: well-formed, in ink alone, within their edges, in the reader's units, and safe from what they are told. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  behindDrawing,
  type Corner,
  circuitDrawing,
  type DrawingOptions,
  fanRunDrawing,
  feetDrawing,
  planDrawing,
  profileDrawing,
} from "../../src/report/index.js";
import { axis } from "../../src/report/svg/axis.js";
import { brokenText, textWidth, WIDTH } from "../../src/report/svg/draw.js";
import { tagsOf } from "./markup.js";

const inch = (value: number): number => value * 0.0254;
const degrees = (value: number): number => (value * Math.PI) / 180;
const hostile = `</text><script>alert(1)</script>"'&\u202e\u0000`;

const feet = [
  { corner: "front left", turn: 2.75 * 2 * Math.PI, change: inch(0.155), extension: inch(0.4) },
  { corner: "front right", turn: 0.25 * 2 * Math.PI, change: inch(-0.0139), extension: inch(0.1) },
  { corner: "back right", turn: 0, change: 0, extension: inch(0.25) },
  { corner: "back left", turn: 1.5 * 2 * Math.PI, change: inch(0.083) },
] as const;

const washer = {
  machine: "washer",
  width: inch(27),
  depth: inch(30),
  gaps: { left: inch(1), right: inch(14), behind: inch(4.5) },
  needed: { left: inch(1), right: inch(1), behind: inch(5) },
  facing: inch(60),
  door: {
    hinge: "right",
    length: inch(20),
    thickness: inch(3),
    inset: inch(3),
    opens: degrees(110),
    free: degrees(85),
  },
  roomDoor: {
    opensInto: "this room",
    wall: "right",
    hinge: "right",
    right: inch(57),
    ahead: inch(34),
    length: inch(30),
  },
  things: [{ what: "laundry sink", right: inch(-24), width: inch(22), ahead: inch(-20), depth: inch(24) }],
  remarks: ["Only 4 1/2 in is free behind."],
} as const;

const lines = [
  {
    what: "vent connection",
    pieces: [
      { what: "box", length: inch(0.5) },
      { what: "fitting", length: inch(4.5) },
      { what: "bend", length: 0 },
    ],
    need: inch(5),
  },
  { what: "water hoses", pieces: [{ what: "fitting", length: inch(2) }], recess: inch(1), need: inch(1) },
];

const run = [
  { what: "transition duct", from: 0, loss: 22, left: 55 },
  { what: "elbow", from: 1.8, loss: 8, left: 47 },
  { what: "straight", from: 1.8, loss: 22, left: 25 },
  { what: "hood", from: 6, loss: 25, left: 0 },
];
const fan = [
  { flow: 0, pressure: 200 },
  { flow: 0.06, pressure: 160 },
  { flow: 0.11, pressure: 0 },
];
const taken = Array.from({ length: 12 }, (_, i) => ({ flow: i * 0.01, pressure: 21_000 * (i * 0.01) ** 2 }));
const pieces = [
  { symbol: "panel", name: "Panel", facts: ["120/240 V"] },
  { symbol: "breaker", name: "2-pole breaker", facts: ["30 A"] },
  { symbol: "conductors", name: "Conductors", facts: ["10 AWG copper"] },
  { symbol: "receptacle", name: "Receptacle 14-30", facts: [], remarks: ["The plug does not fit it."] },
  { symbol: "cord", name: "Cord", facts: ["4 ft"] },
  { symbol: "machine", name: "Dryer", facts: ["240 V, 24 A"] },
] as const;

const every: Readonly<Record<string, (options: DrawingOptions) => string>> = {
  feet: (options) => feetDrawing({ feet, apart: { width: inch(24), depth: inch(22) }, remarks: [hostile] }, options),
  behind: (options) =>
    behindDrawing(
      { machine: "dryer", gap: inch(4.5), lines, depth: { machine: inch(30), place: inch(35), front: inch(1) } },
      options,
    ),
  plan: (options) => planDrawing(washer, options),
  profile: (options) => profileDrawing({ pieces: run, total: 77, allowed: 150, flow: 0.07 }, options),
  fanRun: (options) =>
    fanRunDrawing({ fan, run: taken, meets: { flow: 0.0757, pressure: 120 }, least: 0.047 }, options),
  circuit: (options) => circuitDrawing({ pieces }, options),
};

/** Texts that would be cut at an edge, by the drawing's own estimate of widths. */
function cutTexts(svg: string): string[] {
  const tags = tagsOf(svg);
  const [, , , height] = tags[0]!.attributes.get("viewBox")!.split(" ").map(Number);
  return tags
    .filter(({ name, within }) => name === "text" && !within.includes("g"))
    .filter(({ attributes, text }) => {
      const size = Number(attributes.get("font-size") ?? 13);
      const width = textWidth(text, size);
      const anchor = attributes.get("text-anchor");
      const x = Number(attributes.get("x"));
      const left = anchor === "end" ? x - width : anchor === "middle" ? x - width / 2 : x;
      const y = Number(attributes.get("y"));
      return left < 0 || left + width > WIDTH || y - size < -2 || y > height!;
    })
    .map(({ text }) => text);
}

describe.each(Object.entries(every))("the drawing of %s", (_, draw) => {
  test("is a well-formed picture with a title and a description for those who do not see it", () => {
    const [svg, ...rest] = tagsOf(draw({ id: "one" }));
    expect(svg!.attributes.get("role")).toBe("img");
    const spoken = svg!.attributes.get("aria-labelledby")!.split(" ");
    expect(rest.filter((tag) => spoken.includes(tag.attributes.get("id") ?? "")).map(({ name }) => name)).toEqual([
      "title",
      "desc",
    ]);
    expect(rest.find(({ name }) => name === "desc")!.text.length).toBeGreaterThan(30);
  });

  test("keeps its ids apart from another drawing's", () => {
    const ids = (id: string) => tagsOf(draw({ id })).flatMap((tag) => tag.attributes.get("id") ?? []);
    expect(ids("one").length).toBeGreaterThanOrEqual(2);
    expect(new Set([...ids("one"), ...ids("two")]).size).toBe(2 * ids("one").length);
  });

  test("is drawn in the page's own ink and paper", () => {
    for (const { attributes } of tagsOf(draw({ id: "one" }))) {
      for (const name of ["fill", "stroke"]) {
        expect(attributes.get(name) ?? "none").toMatch(/^(?:none|currentColor|#fff|url\(#one-\w+\))$/);
      }
    }
  });

  test.each(["us", "si"] as const)("cuts no text at its edges in %s units", (units) => {
    expect(cutTexts(draw({ units }))).toEqual([]);
  });

  test("is the same every time", () => {
    expect(draw({})).toBe(draw({}));
  });
});

describe("dimensions", () => {
  const textsOf = (svg: string): string[] =>
    tagsOf(svg)
      .filter(({ name }) => name === "text")
      .map(({ text }) => text.replaceAll("\u00a0", " "));

  test("are printed on the plan in the reader's units", () => {
    expect(textsOf(planDrawing(washer))).toEqual(
      expect.arrayContaining(["1 in", "27 in", "14 in", "4 1/2 in", "30 in"]),
    );
    expect(textsOf(planDrawing(washer, { units: "si" }))).toEqual(
      expect.arrayContaining(["25.4 mm", "686 mm", "356 mm", "114 mm", "762 mm"]),
    );
  });

  test("are printed on the side view, and what is too deep is said", () => {
    const texts = textsOf(every["behind"]!({}));
    expect(texts).toEqual(
      expect.arrayContaining(["4 1/2 in free", "vent connection: 5 in, too deep", "water hoses: 1 in", "30 in"]),
    );
  });

  test("are printed at the feet, with the way each goes", () => {
    const texts = textsOf(feetDrawing({ feet }));
    expect(texts).toEqual(
      expect.arrayContaining(["2 3/4 turns", "up 0.155 in", "1/4 turn", "down 0.0139 in", "leave"]),
    );
    const spoken = tagsOf(feetDrawing({ feet })).find(({ name }) => name === "desc")!.text;
    expect(spoken).toContain("front left: 2 3/4 turns clockwise seen from above, the corner comes up 0.155 in.");
    expect(spoken).toContain(
      "front right: 1/4 turn counter-clockwise seen from above, the corner comes down 0.0139 in.",
    );
    expect(spoken).toContain("back right: leave it.");
  });

  test("stand on the plots with their units", () => {
    expect(textsOf(every["profile"]!({}))).toContain("pressure still to be lost [inH2O]");
    expect(textsOf(every["profile"]!({ units: "si" }))).toEqual(
      expect.arrayContaining(["along the run [m]", "pressure still to be lost [Pa]", "hood: 25 Pa"]),
    );
    expect(textsOf(every["fanRun"]!({}))).toContain("They meet at 160 cfm and 0.482 inH2O.");
  });
});

/** Where an arrow head's tip lies seen from the centre of its foot, and the way it points there. */
test("arrows run clockwise, seen from above, where a corner comes up", () => {
  const turned = (change: number): number => {
    const all = (["front left", "front right", "back right", "back left"] as Corner[]).map((corner) => ({
      corner,
      turn: corner === "front left" ? Math.PI : 0,
      change: corner === "front left" ? change : 0,
    }));
    const tags = tagsOf(feetDrawing({ feet: all }));
    const arcs = tags.filter(({ name, attributes }) => name === "path" && attributes.get("d")!.includes("A17"));
    expect(arcs).toHaveLength(1);
    // the sweep flag of the arc: 1 runs clockwise on the page
    return Number(/A17 17 0 \d (\d)/.exec(arcs[0]!.attributes.get("d")!)![1]);
  };
  expect(turned(0.001)).toBe(1);
  expect(turned(-0.001)).toBe(0);
});

test("the machine's door and the room's door turn as the rule on door swing has them", () => {
  const arcsOf = (svg: string) =>
    tagsOf(svg).flatMap(({ name, attributes }) => {
      const found = name === "path" ? /A[\d.]+ [\d.]+ 0 \d (\d)/.exec(attributes.get("d") ?? "") : null;
      return found ? [Number(found[1])] : [];
    });
  const plain = { machine: "washer", width: 0.7, depth: 0.7 };
  const door = { length: 0.5, thickness: 0.05, inset: 0.05, opens: degrees(90) };
  // y runs out of the machine's face and down the page, so that a door hung on the left opens clockwise
  expect(arcsOf(planDrawing({ ...plain, door: { ...door, hinge: "left" } }))).toEqual([1]);
  expect(arcsOf(planDrawing({ ...plain, door: { ...door, hinge: "right" } }))).toEqual([0]);
  const room = { opensInto: "this room", right: 0.2, ahead: 1, length: 0.8, opens: degrees(90) } as const;
  expect(arcsOf(planDrawing({ ...plain, roomDoor: { ...room, wall: "facing", hinge: "left" } }))).toEqual([1]);
  expect(arcsOf(planDrawing({ ...plain, roomDoor: { ...room, wall: "right", hinge: "right" } }))).toEqual([0]);
});

describe("drawings of any size", () => {
  /** Lengths to a tenth of a millimetre, as finely as anybody measures [m]. */
  const metres = (min: number, max: number) => fc.integer({ min: min * 1e4, max: max * 1e4 }).map((n) => n / 1e4);
  const size = metres(0.3, 2.5);
  const gap = fc.option(metres(0, 20), { nil: undefined });
  const signed = metres(-10, 10);
  const units = fc.constantFrom("us" as const, "si" as const);

  test("the plan stays on its page", () => {
    fc.assert(
      fc.property(
        fc.record({
          machine: fc.constantFrom("dryer", "refrigerator"),
          width: size,
          depth: size,
          gaps: fc.record({ left: gap, right: gap, behind: gap, front: gap }),
          facing: gap,
          things: fc.array(
            fc.record({ what: fc.constant("sink"), right: signed, width: size, ahead: signed, depth: size }),
            {
              maxLength: 3,
            },
          ),
        }),
        units,
        (data, system) => {
          const svg = planDrawing(data, { units: system });
          expect(cutTexts(svg)).toEqual([]);
          for (const { name, attributes } of tagsOf(svg)) {
            if (name !== "rect") continue;
            const x = Number(attributes.get("x"));
            expect(x).toBeGreaterThanOrEqual(0);
            expect(x + Number(attributes.get("width"))).toBeLessThanOrEqual(WIDTH);
          }
        },
      ),
      { numRuns: 150 },
    );
  });

  test("the side view stays on its page", () => {
    const piece = fc.record({
      what: fc.constantFrom("box", "fitting", "bend"),
      length: metres(0, 0.9),
    });
    fc.assert(
      fc.property(
        fc.record({
          machine: fc.constant("dryer"),
          gap,
          lines: fc.array(
            fc.record({
              what: fc.constantFrom("vent connection", "power cord"),
              pieces: fc.array(piece, { minLength: 1, maxLength: 3 }),
              recess: fc.option(metres(0, 0.9), { nil: undefined }),
            }),
            { maxLength: 5 },
          ),
        }),
        units,
        (data, system) => {
          const svg = behindDrawing(data, { units: system });
          expect(cutTexts(svg)).toEqual([]);
          for (const { name, attributes } of tagsOf(svg)) {
            if (name !== "rect") continue;
            expect(Number(attributes.get("x")) + Number(attributes.get("width"))).toBeLessThanOrEqual(WIDTH + 0.01);
          }
        },
      ),
      { numRuns: 150 },
    );
  });

  test("an axis has four to nine round marks that reach as far as it must", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e4, noNaN: true }), units, (most, system) => {
        const { marks, shareOf } = axis(most, "airPressure", system);
        expect(marks.length).toBeGreaterThanOrEqual(4);
        expect(marks.length).toBeLessThanOrEqual(9);
        expect(shareOf(most)).toBeLessThanOrEqual(1 + 1e-9);
        expect(shareOf(most)).toBeGreaterThan(0.5);
        expect(new Set(marks.map(({ text }) => text)).size).toBe(marks.length);
      }),
    );
  });
});

describe("what cannot be drawn is refused", () => {
  test("feet that are not four", () => {
    expect(() => feetDrawing({ feet: feet.slice(1) })).toThrow("four feet");
    expect(() => feetDrawing({ feet: [...feet.slice(1), feet[1]] })).toThrow("one at each corner");
  });
  test("a run of nothing, one that runs back, a loss below nothing", () => {
    expect(() => profileDrawing({ pieces: [], total: 0 })).toThrow("at least one piece");
    expect(() => profileDrawing({ pieces: [run[2]!, run[0]!], total: 77 })).toThrow("cannot be drawn");
    expect(() => profileDrawing({ pieces: [{ ...run[3]!, loss: -1 }], total: 77 })).toThrow("cannot be drawn");
  });
  test("a curve of one point, a circuit of nothing", () => {
    expect(() => fanRunDrawing({ fan: fan.slice(1, 2), run: taken })).toThrow("two points");
    expect(() => circuitDrawing({ pieces: [] })).toThrow("at least one piece");
  });
  test("a number that is none", () => {
    expect(() => planDrawing({ ...washer, gaps: { behind: Number.NaN } })).toThrow(RangeError);
    expect(() => behindDrawing({ machine: "dryer", lines: [], gap: Number.POSITIVE_INFINITY })).toThrow(RangeError);
  });
  test("an axis of nothing, or of a kind that has none", () => {
    expect(() => axis(0, "length", "us")).toThrow("cannot end at 0");
    expect(() => axis(1, "torque", "us")).toThrow("no unit");
  });
});

test("other people's words stay words", () => {
  const drawings = [
    feetDrawing({ feet, remarks: [hostile] }),
    behindDrawing({
      machine: hostile,
      gap: 0.1,
      lines: [
        {
          what: hostile,
          pieces: [
            { what: hostile, length: 0.05 },
            { what: "b", length: 0.01 },
          ],
        },
      ],
    }),
    planDrawing({ ...washer, machine: hostile, things: [{ ...washer.things[0], what: hostile }], remarks: [hostile] }),
    profileDrawing({ pieces: [{ what: hostile, from: 0, loss: 3, left: 0 }], total: 3 }),
    fanRunDrawing({ fan, run: taken, other: { what: hostile, points: taken } }),
    circuitDrawing({ pieces: [{ symbol: "panel", name: hostile, facts: [hostile], remarks: [hostile] }] }),
  ];
  for (const svg of drawings) {
    const tags = tagsOf(svg);
    expect(tags.map(({ name }) => name)).not.toContain("script");
    for (const mark of ["\u202e", "\u0000"]) expect(svg).not.toContain(mark);
    expect(tags[0]!.text).toContain("<script>alert(1)</script>");
  }
});

test("lines break between words, never between a number and its unit", () => {
  expect(brokenText("free space asked for behind 4 1/2 in", 150).map((one) => one.replaceAll("\u00a0", "_"))).toEqual([
    "free space asked for",
    "behind 4_1/2_in",
  ]);
  expect(brokenText("", 100)).toEqual([""]);
  expect(brokenText("unbreakablewordthatistoolong", 10)).toEqual(["unbreakablewordthatistoolong"]);
});
