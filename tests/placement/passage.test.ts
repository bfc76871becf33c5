import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brand, si } from "../../src/core/quantity/index.js";
import { passage, stairNeedTilted } from "../../src/placement/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("placement/passage.csv");
const byKind = (kind: string) => rows.filter((row) => row.kind === kind);
const inches = (value: number) => `${value.toFixed(6)} in`;

const washer = { width: "27 in", depth: "30 in", height: "39 in" };
const doorOf = (leaf: number, thickness: number, place: string) => ({
  kind: "doorway",
  name: "door",
  leaf: { width: inches(leaf), thickness: inches(thickness), stop: thickness > 1.5 ? "5/8 in" : "1/2 in", place },
  height: "80 in",
});
const verdictOf = (input: unknown) => passage.try(input).finding!.verdict;

describe("placement/passage", () => {
  test.each(byKind("corner"))("$id: $length by $width in round $first and $second in $value", (row) => {
    const corner = { kind: "corner", name: "corner", first: `${row.first} in`, second: `${row.second} in` };
    const body = { width: `${row.width} in`, depth: `${row.length} in`, height: "30 in" };
    expect(verdictOf({ body, way: [corner] })).toBe(row.value === "passes" ? "pass" : "fail");
  });

  test.each(byKind("longest"))("$id: at most $value in long of $width in round $first and $second in", (row) => {
    const corner = {
      kind: "corner",
      name: "corner",
      first: `${row.first} in`,
      second: `${row.second} in`,
      ...(row.angle_deg === "" ? {} : { angle: `${row.angle_deg}°` }),
    };
    const verdict = (length: number) =>
      verdictOf({ body: { width: `${row.width} in`, depth: inches(length), height: "30 in" }, way: [corner] });
    expect(verdict(Number(row.value) - tolerance)).toBe("pass");
    expect(verdict(Number(row.value) + tolerance)).toBe("fail");
  });

  test.each(byKind("stairs"))("$id: takes $value in of headroom at 7 3/4 in 10", (row) => {
    const verdict = (headroom: number) =>
      verdictOf({
        // Laid on its side its length goes along, its width stands across the pitch.
        body:
          row.lying === ""
            ? { width: `${row.width} in`, depth: `${row.length} in`, height: `${row.height} in` }
            : { width: `${row.width} in`, depth: "90 in", height: `${row.length} in` },
        ...(row.lying === "" ? {} : { lying: row.lying }),
        way: [
          {
            kind: "stairs",
            name: "stairs",
            width: "99 in",
            headroom: inches(headroom),
            riser: "7 3/4 in",
            tread: "10 in",
          },
        ],
      });
    expect(verdict(Number(row.value) + tolerance)).toBe("pass");
    expect(verdict(Number(row.value) - tolerance)).toBe("fail");
  });

  test.each(byKind("door"))("$id: a leaf of $first by $second in, $lying, leaves $value in", (row) => {
    const door = doorOf(Number(row.first), Number(row.second), row.lying!);
    const verdict = (wide: number) =>
      verdictOf({ body: { width: inches(wide), depth: "60 in", height: "39 in" }, way: [door] });
    expect(verdict(Number(row.value))).toBe("pass");
    expect(verdict(Number(row.value) + tolerance)).toBe("fail");
    // The leaf's nominal width is not the clear width.
    expect(verdict(Number(row.first))).toBe("fail");
  });

  test("names the tightest spot and its margin, whatever its place on the way", () => {
    const spots = [
      { kind: "corridor", name: "hall", width: "38 in" },
      { kind: "doorway", name: "laundry door", clear: "28 in", height: "79 in" },
      { kind: "corridor", name: "gangway", width: "29 in" },
    ];
    for (const way of [spots, spots.toReversed()]) {
      const finding = passage.try({ body: washer, way }).finding!;
      expect(finding.message).toBe(
        "The tightest spot is the laundry door: upright the machine takes 27 in of 28 in of width, 1 in to spare.",
      );
      expect(finding.margin).toMatchObject({ text: "1 in" });
      expect(finding.parts).toHaveLength(3);
    }
  });

  test("a corner only a bare machine gets round, and what to do about it", () => {
    const example = passage.examples.find(({ title }) => title.startsWith("A corner only"))!;
    const finding = passage(example.input);
    expect(finding.message).toBe(
      "At the turn to the laundry the machine does not pass: upright, which is its best, it needs 30 in of width as it turns, and 27 15/16 in is there, 2 1/16 in too little.",
    );
    expect(finding.remedies).toEqual([
      { message: "Take it out of its carton before it goes in.", changes: [{ path: ["inCarton"], value: false }] },
    ]);
  });

  test("shows how the clear width comes about and offers the leaf off only where it helps", () => {
    const wide = (width: string) =>
      passage.try({ body: { ...washer, width, depth: "34 in" }, way: [doorOf(30, 1.375, "square")] }).finding!;
    expect(wide("29 in").workings[0]!.text).toBe(
      "clear = leaf + gap - thickness - stop: 30 in + 1/8 in - 1 3/8 in - 1/2 in = 28 1/4 in",
    );
    expect(wide("29 in").remedies.map(({ message }) => message)).toEqual(["Lift the door off its hinges: door."]);
    expect(wide("29 5/16 in").remedies).toEqual([]);
  });

  test("takes several doors off, or the feet too, where one thing alone does not help", () => {
    const way = [doorOf(30, 1.375, "square"), { ...doorOf(30, 1.375, "square"), name: "second door", height: "38 in" }];
    const finding = passage.try({
      body: { width: "29 in", depth: "34 in", height: "39 in" },
      feetHeight: "1 1/4 in",
      way,
    }).finding!;
    expect(finding.remedies.map(({ message }) => message)).toEqual([
      "Do several things: screw its feet off, lift the doors off their hinges.",
    ]);
  });

  test("a machine that clears upright can strike while it leans on the truck, and is then held the better way", () => {
    const fridge = { width: "36 in", depth: "27 in", height: "77 in" };
    const head = { kind: "doorway", name: "kitchen door", clear: "40 in", height: "80 in" };
    const leaning = passage.try({ body: fridge, truckTilt: "20°", way: [head] }).finding!;
    expect(leaning.message).toContain("upright");
    const low = passage.try({ body: fridge, truckTilt: "45°", way: [{ ...head, height: "76 in" }] }).finding!;
    expect(low.message).toContain("leaning on the hand truck");
  });

  test("lies down only where the maker lets it", () => {
    const way = [{ kind: "corridor", name: "crawl way", width: "40 in", height: "36 in" }];
    expect(verdictOf({ body: washer, way })).toBe("fail");
    expect(verdictOf({ body: washer, lying: "on its back", way })).toBe("pass");
    expect(passage.try({ body: washer, way }).finding!.assumptions[0]).toContain("laid down");
  });

  test("laid down it may be lifted at one end where it turns", () => {
    const body = { width: "20 in", depth: "20 in", height: "70 in" };
    const corner = { kind: "corner", name: "corner", first: "34 in", second: "34 in" };
    const turning = (height: string) => verdictOf({ body, lying: "on its back", way: [{ ...corner, height }] });
    expect(turning("24 in")).toBe("fail");
    expect(turning("69 1/2 in")).toBe("pass");
  });

  test("counts hands on both sides, and the corridor from which it turns in", () => {
    const way = [{ kind: "corridor", name: "hall", width: "30 in" }];
    expect(verdictOf({ body: washer, hands: "1 1/2 in", way })).toBe("pass");
    expect(verdictOf({ body: washer, hands: "1 9/16 in", way })).toBe("fail");
    // Longer than the door is wide: 72 by 28 in through 32 in needs a corridor of 63.0329 in (a corridor as door).
    const long = { width: "28 in", depth: "72 in", height: "30 in" };
    const from = (corridor: string) =>
      verdictOf({
        body: long,
        way: [{ kind: "doorway", name: "side door", clear: "32 in", height: "80 in", corridor }],
      });
    expect(from("63.04 in")).toBe("pass");
    expect(from("63.02 in")).toBe("fail");
  });

  test("a door exactly as wide passes, in other units, and a tolerance across it cannot be told", () => {
    const door = (clear: string) => ({
      body: washer,
      way: [{ kind: "doorway" as const, name: "door", clear, height: "2 m" }],
    });
    expect(passage(door("685.8 mm"))).toMatchObject({ verdict: "pass", margin: { text: "0 in" } });
    const near = passage(door("27 1/16 in ± 1/8 in"));
    expect(near).toMatchObject({ verdict: "review", messageId: "tooCloseToCall" });
    expect(near.missing).toMatchObject([{ path: ["way", 0, "clear"] }]);
  });

  test("does not call a way it does not know clear, and points at what cannot be read", () => {
    const way = [{ kind: "doorway" as const, name: "door", height: "80 in" }];
    expect(passage({ body: washer, way })).toMatchObject({
      verdict: "review",
      missing: [{ path: ["way", 0, "clear"] }],
    });
    const read = passage.try({ body: washer, way: [{ kind: "corridor", name: "hall", width: 38 }] });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["way", 0, "width"], code: "noUnit" });
  });

  test("a smaller machine always gets where a larger one does", () => {
    const side = fc.integer({ min: 160, max: 400 }).map((tenths) => tenths / 10);
    const shrink = fc.integer({ min: 0, max: 40 }).map((tenths) => tenths / 10);
    const spot = fc.oneof(
      fc.record({ kind: fc.constant("doorway"), name: fc.constant("door"), clear: side, height: side }),
      fc.record({ kind: fc.constant("corner"), name: fc.constant("corner"), first: side, second: side }),
      fc.record({ kind: fc.constant("landing"), name: fc.constant("landing"), width: side, depth: side, height: side }),
    );
    fc.assert(
      fc.property(side, side, side, shrink, fc.array(spot, { minLength: 1, maxLength: 3 }), (w, d, h, less, spots) => {
        const way = spots.map((one) =>
          Object.fromEntries(Object.entries(one).map(([key, v]) => [key, typeof v === "number" ? inches(v + 4) : v])),
        );
        const goes = (by: number) =>
          verdictOf({ body: { width: inches(w - by), depth: inches(d - by), height: inches(h - by) }, way });
        if (goes(0) === "pass") expect(goes(less)).toBe("pass");
      }),
      { numRuns: 60 },
    );
  });
});

describe("stairNeedTilted", () => {
  test("is the upright need at no tilt, and the need along the stairs when laid into them", () => {
    const pitch = brand<"angle">(Math.atan2(7.75, 10));
    const [h, d] = [si(38, "in"), si(27, "in")];
    expect(stairNeedTilted(h, d, si(0, "deg"), pitch)).toBeCloseTo(h + d * Math.tan(pitch), 12);
    const into = brand<"angle">(Math.PI / 2 - pitch);
    expect(stairNeedTilted(h, d, into, pitch)).toBeCloseTo(d / Math.cos(pitch), 12);
  });
});

describe("what is not known, what is assumed instead, and what is held which way", () => {
  const finding = (change: object) =>
    passage.try({ body: washer, hands: "0 in", lying: "upright only", ...change }).finding!;
  const assumed = (change: object) => finding(change).assumptions.join();
  const hall = { kind: "corridor", name: "hall", width: "60 in", height: "90 in" };
  const square = doorOf(36, 1.375, "square");

  test("says what it assumes of laying down and of hands only where that was not said", () => {
    const way = [hall];
    expect(assumed({ way })).toBe("");
    expect(assumed({ way, hands: undefined })).toMatch(/hands or straps/);
    expect(assumed({ way, lying: undefined })).toMatch(/laid down was not said/);
  });

  test("takes a ceiling for out of reach where a corridor, a corner or a landing has no height, and says so", () => {
    const corner = { kind: "corner", name: "corner", first: "60 in", second: "60 in" };
    const landing = { kind: "landing", name: "landing", width: "60 in", depth: "60 in" };
    const { height: _, ...low } = hall;
    for (const spot of [low, corner, landing]) {
      expect(assumed({ way: [spot] })).toMatch(/out of reach/);
      expect(assumed({ way: [{ ...spot, height: "90 in" }] })).not.toMatch(/out of reach/);
    }
    expect(assumed({ way: [{ kind: "doorway", name: "door", clear: "36 in", height: "80 in" }] })).not.toMatch(
      /out of reach/,
    );
  });

  test("takes the usual gap and stop of a frame for what was not measured of it, and says so", () => {
    const frame = (leaf: object) =>
      finding({ way: [{ ...square, leaf: { width: "36 in", thickness: "1 3/8 in", place: "square", ...leaf } }] });
    const habit = (leaf: object) => [
      /gap and stop/i.test(frame(leaf).assumptions.join()),
      frame(leaf).basis.some(({ force }) => force === "practice"),
    ];
    expect(habit({})).toEqual([true, true]);
    expect(habit({ gap: "1/8 in" })).toEqual([true, true]);
    expect(habit({ stop: "1/2 in" })).toEqual([true, true]);
    expect(habit({ gap: "1/8 in", stop: "1/2 in" })).toEqual([false, false]);
    // what was measured is used: 36 + 1/4 − 1 3/8 − 3/4
    const own = frame({ gap: "1/4 in", stop: "3/4 in" });
    expect(own.measured!.si).toBeCloseTo(34.125 * 0.0254, 9);
    expect(own.workings[0]!.text).toMatch(/^clear = .*36 in \+ 1\/4 in - 1 3\/8 in - 3\/4 in = 34 1\/8 in/);
  });

  test("shows no sum for a door whose clear width was measured, nor for one off its hinges", () => {
    const formulas = (spot: object) =>
      finding({ way: [spot] }).workings.filter(({ text }) => text.startsWith("clear ="));
    expect(formulas(square)).toHaveLength(1);
    expect(formulas({ kind: "doorway", name: "door", clear: "36 in", height: "80 in" })).toHaveLength(0);
    expect(formulas(doorOf(36, 1.375, "off"))).toHaveLength(0);
  });

  test("shows what stairs take of an upright machine: its height and its depth up the pitch", () => {
    const stairs = { kind: "stairs", name: "stairs", width: "99 in", headroom: "70 in", riser: "7 in", tread: "10 in" };
    // 39 in + 27 in · 7/10 = 57.9 in, held sideways; 39 + 30 · 7/10 = 60 in the other way
    const step = finding({ way: [stairs] }).workings[0]!.text;
    expect(step).toMatch(/^headroom = height \+ depth \* riser \/ tread: 39 in \+ 27 in \* 7 in \/ 10 in = 57/);
    expect(finding({ way: [hall] }).workings.some(({ text }) => text.startsWith("headroom"))).toBe(false);
  });

  test("asks for the sizes it does not have, of the machine or of its carton", () => {
    const asked = (change: object) => finding({ way: [hall], ...change }).missing.map(({ path }) => path.join("."));
    expect(asked({ body: { depth: "30 in", height: "39 in" } })).toEqual(["body.width"]);
    expect(asked({ body: { width: "27 in", height: "39 in" } })).toEqual(["body.depth"]);
    expect(asked({ body: { width: "27 in", depth: "30 in" } })).toEqual(["body.height"]);
    expect(asked({ inCarton: true })).toEqual(["carton"]);
  });

  test("leaning on the truck it is lower and longer: a lift asks for both", () => {
    // 77 by 27 in leaning 60°: 77·cos 60° + 27·sin 60° = 61.883 in high, 27·cos 60° + 77·sin 60° = 80.184 in long
    const fridge = { width: "36 in", depth: "27 in", height: "77 in" };
    const lift = (depth: string, doorHeight: string, height = "99 in") => ({
      kind: "lift",
      name: "lift",
      doorWidth: "40 in",
      width: "60 in",
      doorHeight,
      height,
      depth,
    });
    const verdict = (spot: object) => finding({ body: fridge, truckTilt: "60°", way: [spot] }).verdict;
    expect(verdict(lift("80.2 in", "61.9 in"))).toBe("pass");
    expect(verdict(lift("80.1 in", "61.9 in"))).toBe("fail");
    expect(verdict(lift("80.2 in", "61.8 in"))).toBe("fail");
    expect(verdict(lift("80.2 in", "99 in", "61.8 in"))).toBe("fail");
  });

  test("the narrower of a lift's door and its cabin counts", () => {
    const lift = (doorWidth: string, width: string) =>
      finding({
        way: [{ kind: "lift", name: "lift", doorWidth, width, doorHeight: "80 in", height: "90 in", depth: "40 in" }],
      }).verdict;
    expect([lift("28 in", "28 in"), lift("26 in", "40 in"), lift("40 in", "26 in")]).toEqual(["pass", "fail", "fail"]);
  });

  test("a leaf folded right back leaves more than one that stands square, and less than none", () => {
    // 30 + 2·1/8 − 2·1/2 = 29 1/4 in clear of stops; square 30 + 1/8 − 1 3/8 − 1/2 = 28 1/4 in
    const clear = (place: string) =>
      finding({ body: { ...washer, depth: "34 in" }, way: [doorOf(30, 1.375, place)] }).measured!.si! / 0.0254;
    expect(clear("square")).toBeCloseTo(28.25, 9);
    expect(clear("folded back")).toBeCloseTo(29.25, 9);
    expect(clear("off")).toBeCloseTo(29.25, 9);
  });
});
