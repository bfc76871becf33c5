import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inUnit, si } from "../../src/core/quantity/index.js";
import { closetAir, freeArea, louvreFace, louvreShares, type OpeningCover } from "../../src/venting/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("venting/closet-air.csv");

describe("freeArea", () => {
  test.each(rows)("$face_in2 in² of $cover lets $free_in2 in² through", ({ cover, face_in2, free_in2 }) => {
    const free = freeArea({ face: si(Number(face_in2), "in2"), cover: cover as OpeningCover });
    expect(Math.abs(inUnit(free!, "in2") - Number(free_in2))).toBeLessThanOrEqual(tolerance);
  });

  test("the shares are the printed ones", () => expect(louvreShares).toEqual({ wood: 0.25, metal: 0.75 }));

  test("trap: the share divides what is needed; multiplying gives 25 in² of wood louvre, the answer is 400 in²", () => {
    expect(inUnit(louvreFace(si(100, "in2"), "wood"), "in2")).toBeCloseTo(400, 9);
    expect(inUnit(louvreFace(si(100, "in2"), "metal"), "in2")).toBeCloseTo(133.333, 2);
  });

  test("trap: a known free area is taken as it is, not cut down again", () => {
    expect(freeArea({ face: si(200, "in2"), cover: "metal louvre", free: si(110, "in2") })).toBe(si(110, "in2"));
  });

  test("is never more than the face where the free area is not known, and grows with it", () => {
    const area = fc.double({ min: 0, max: 1, noNaN: true }).map((value) => si(value, "m2"));
    const cover = fc.constantFrom("nothing" as const, "wood louvre" as const, "metal louvre" as const);
    fc.assert(
      fc.property(area, area, cover, (a, b, kind) => {
        const small = freeArea({ face: si(Math.min(a, b), "m2"), cover: kind })!;
        const great = freeArea({ face: si(Math.max(a, b), "m2"), cover: kind })!;
        expect(small).toBeLessThanOrEqual(great);
        expect(great).toBeLessThanOrEqual(Math.max(a, b));
      }),
    );
  });
});

describe("venting/closet-air", () => {
  const closet = { fuel: "naturalGas" as const, closet: true };

  test("passes exactly the printed area, and the face that gives it", () => {
    expect(closetAir({ ...closet, openings: [{ face: "100 in2", cover: "nothing" }] }).verdict).toBe("pass");
    expect(closetAir({ ...closet, openings: [{ face: "400 in2", cover: "wood louvre" }] }).verdict).toBe("pass");
    expect(closetAir({ ...closet, openings: [{ face: "399 in2", cover: "wood louvre" }] }).verdict).toBe("fail");
  });

  test("says what is lacking, shows the step and what to cut", () => {
    const finding = closetAir({
      ...closet,
      openings: [
        { face: "24 in2", cover: "nothing" },
        { face: "200 in2", cover: "wood louvre" },
      ],
    });
    expect(finding.message).toBe("The closet's openings let air through 74 in2, 26 in2 less than the 100 in2 needed.");
    expect(finding.workings.map(({ text }) => text)).toEqual([
      "free = share * face: 25 % * 200 in2 = 50 in2",
      "74 in2 at least 100 in2: does not hold",
    ]);
    expect(finding.remedies.map(({ message }) => message)).toEqual([
      "Cut a plain opening of 26 in2 more into the door, half high and half low.",
      "Fit a wood louvre with a face of 104 in2 more.",
    ]);
  });

  test("stands on the texts for gas and on habit for an electric dryer in a house", () => {
    const openings = [{ face: "90 in2", cover: "nothing" as const }];
    expect(closetAir({ ...closet, openings }).basis[0]!.section).toBe("G2439.5.1");
    expect(closetAir({ ...closet, fuel: "electric", openings }).basis[0]!.force).toBe("practice");
  });

  test("cannot tell across the limit, nor with a grille nobody knows; points at what cannot be read", () => {
    const cut = closetAir({ ...closet, openings: [{ face: "100 in2 ± 5 in2", cover: "nothing" }] });
    expect(cut.messageId).toBe("tooCloseToCall");
    const grille = closetAir({ ...closet, openings: [{ face: "300 in2", cover: "other grille" }] });
    expect(grille).toMatchObject({ verdict: "review", missing: [{ path: ["openings", 0, "free"] }] });
    const read = closetAir.try({ ...closet, openings: [{ face: "100 in", cover: "nothing" }] });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["openings", 0, "face"] });
  });
});
