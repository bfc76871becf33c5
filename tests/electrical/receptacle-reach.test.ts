import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inUnit, si } from "../../src/core/quantity/index.js";
import { cordNeeded, receptacleReach } from "../../src/electrical/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("electrical/receptacle-reach.csv");

describe("cordNeeded", () => {
  test.each(rows)("adds up by hand: $path_in", ({ path_in, pull_out_in, need_in }) => {
    const path = path_in!.split(";").map((piece) => si(Number(piece), "in"));
    const need = cordNeeded(path, si(Number(pull_out_in), "in"), si(6, "in"));
    expect(Math.abs(inUnit(need, "in") - Number(need_in))).toBeLessThanOrEqual(tolerance);
  });

  test("never shrinks when a piece is added", () => {
    const piece = fc.double({ min: 0, max: 10, noNaN: true }).map((value) => si(value, "m"));
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 8 }), piece, (path, extra) => {
        const need = (pieces: typeof path) => cordNeeded(pieces, si(0, "m"), si(0, "m"));
        expect(need([...path, extra])).toBeGreaterThanOrEqual(need(path));
      }),
    );
  });
});

describe("electrical/receptacle-reach", () => {
  const input = { distance: "6 ft", path: ["30 in", "16 in"], cord: "6 ft", pullOut: "20 in" };

  test("passes a receptacle exactly 6 ft away and a cord of exactly the length needed", () => {
    const finding = receptacleReach(input);
    expect(finding.verdict).toBe("pass");
    expect(finding.parts.map(({ messageId }) => messageId)).toEqual(["near", "reaches"]);
    expect(receptacleReach({ ...input, distance: "6 ft 1/16 in" }).messageId).toBe("tooFar");
    expect(receptacleReach({ ...input, cord: "71 15/16 in" }).messageId).toBe("tooShort");
  });

  test("says by how much a cord is short, shows the step and offers one that reaches", () => {
    const finding = receptacleReach({ ...input, cord: "4 ft" });
    expect(finding.message).toBe("The 4 ft cord is 24 in short of the 6 ft needed. An extension cord is not a remedy.");
    expect(finding.workings.map(({ text }) => text)).toContain(
      "need = pieces + pullOut + slack: 3 ft 10 in + 20 in + 6 in = 6 ft",
    );
    expect(finding.remedies.map(({ changes }) => changes[0]!.value)).toEqual([
      { value: 6, unit: "ft" },
      { value: 8, unit: "ft" },
      { value: 10, unit: "ft" },
    ]);
  });

  test("sets the habit of 2 ft aside where the code speaks", () => {
    const { setAside, basis } = receptacleReach(input);
    expect(basis[0]).toMatchObject({ document: "NEC", section: "210.50(C)" });
    expect(setAside.map(({ value }) => value.text)).toContain("24 in");
    const elsewhere = receptacleReach(input, { jurisdiction: { adopted: { iec60364: 2017 } } });
    expect(elsewhere.messageId).toBe("tooFar");
  });

  test("asks for a closer measurement, for what is missing, and names what cannot be read", () => {
    expect(receptacleReach({ ...input, cord: "6 ft ± 1 in" })).toMatchObject({ messageId: "tooCloseToCall" });
    expect(receptacleReach({ distance: "2 ft", path: ["30 in"], cord: "5 ft" })).toMatchObject({
      verdict: "review",
      missing: [{ path: ["pullOut"] }],
    });
    expect(receptacleReach.try({ ...input, path: ["30 in", 16] }).fault?.issues[0]).toMatchObject({
      path: ["path", 1],
    });
  });
});
