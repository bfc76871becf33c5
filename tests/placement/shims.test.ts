import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { ShownValue } from "../../src/core/rule/index.js";
import { shims } from "../../src/placement/index.js";
import { reference } from "../references.js";

const { rows } = reference("placement/shims.csv");

/** Height, rest and number of pieces of the stack under the front left foot, in inches. */
const stack = (lift: string, sizes?: readonly string[], mostPieces?: number) => {
  const { values } = shims({
    lifts: { frontLeft: lift },
    ...(sizes ? { sizes: [...sizes] } : {}),
    ...(mostPieces ? { mostPieces } : {}),
  });
  const [one] = values.stacks as unknown as Record<string, ShownValue>[];
  return {
    height: one!.height!.si! / 0.0254,
    left: one!.left!.si! / 0.0254,
    total: (values.total as unknown as ShownValue).si!,
  };
};

describe("placement/shims", () => {
  test.each(rows)("reaches $reachable_incl_0 heights with at most $most_pieces pieces", (row) => {
    const most = Number(row.most_pieces);
    const highest = Number(row.highest_32nds);
    const missed: number[] = [];
    for (let height = 1; height <= highest; height++) {
      if (Math.abs(stack(`${height}/32 in`, undefined, most).left) > 1e-9) missed.push(height);
    }
    expect(missed).toEqual(row.not_reachable_32nds!.split(";").map(Number));
    expect(highest + 1 - missed.length).toBe(Number(row.reachable_incl_0));
  });

  test("takes two pieces of 3 mm for 6 mm, where the thickest first takes three", () => {
    expect(stack("6 mm", ["1 mm", "3 mm", "4 mm"]).total).toBe(2);
  });

  test("mixes inches and millimetres where one small unit measures both", () => {
    expect(stack("12.7 mm", ["1/4 in", "12.7 mm"]).total).toBe(1);
    expect(stack("25.4 mm", ["1/2 in", "1/8 in"], 3)).toMatchObject({ total: 2 });
  });

  test("says which pieces go under which foot, what is left for the screw, and shows the step", () => {
    const { message, values, workings } = shims({
      lifts: { frontLeft: "7/32 in", backRight: "0 in" },
      mostPieces: 2,
      pad: "1 1/2 in",
      piece: "2 in",
    });
    expect(message).toMatch(/front left, 1, 1\/16 in; front left, 1, 1\/8 in; front left, 3\/16 in/);
    expect(values.stacks).toMatchObject([{ foot: { text: "front left" } }]);
    expect(workings.map(({ text }) => text)).toEqual(["left = lift - stack: 0.219 in - 3/16 in = 0.0313 in"]);
  });

  test("fewest pieces and nearest height, against trying every combination", () => {
    const size = fc.integer({ min: 1, max: 12 });
    fc.assert(
      fc.property(
        fc.uniqueArray(size, { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 1, max: 3 }),
        fc.integer({ min: 1, max: 36 }),
        (sizes, most, lift) => {
          if (lift > Math.max(...sizes) * most) return;
          let combinations: number[][] = [[]];
          const all: number[][] = [[]];
          for (let piece = 0; piece < most; piece++) {
            combinations = combinations.flatMap((taken) => sizes.map((one) => [...taken, one]));
            all.push(...combinations);
          }
          const sum = (taken: number[]) => taken.reduce((total, one) => total + one, 0);
          const off = Math.min(...all.map((taken) => Math.abs(sum(taken) - lift)));
          const { height, total } = stack(
            `${lift} mm`,
            sizes.map((one) => `${one} mm`),
            most,
          );
          const millimetres = height * 25.4;
          expect(Math.abs(millimetres - lift)).toBeCloseTo(off, 9);
          const fewest = Math.min(
            ...all.filter((taken) => Math.abs(sum(taken) - millimetres) < 1e-6).map(({ length }) => length),
          );
          expect(total).toBe(fewest);
        },
      ),
      { numRuns: 200 },
    );
  });

  test("refuses what cannot be: too high, too small a piece, no common unit", () => {
    expect(shims({ lifts: { frontLeft: "1 in" } }).messageId).toBe("tooHigh");
    expect(shims({ lifts: { frontLeft: "1/4 in" }, pad: "50 mm", piece: "50 mm" }).status).toBe("computed");
    expect(shims({ lifts: { frontLeft: "1/4 in" }, pad: "50.1 mm", piece: "50 mm" }).messageId).toBe("padOverhangs");
    expect(shims({ lifts: { frontLeft: "1/4 in" }, sizes: ["1/32 in", "0.7071 mm"] }).messageId).toBe("noCommonUnit");
  });

  test("does not answer without a lift, and points at what cannot be read", () => {
    expect(shims({})).toMatchObject({ status: "missing", missing: [{ path: ["lifts"] }] });
    const read = shims.try({ lifts: { frontLeft: 0.25 } });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["lifts", "frontLeft"], code: "noUnit" });
  });
});
