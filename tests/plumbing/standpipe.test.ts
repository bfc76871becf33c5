import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { standpipe } from "../../src/plumbing/index.js";
import { reference } from "../references.js";
import { printedIn, valueIn } from "./governing.js";

const { rows } = reference("plumbing/standpipe.csv");
const good = {
  kind: "washer",
  height: "28 in",
  trapHeight: "10 in",
  size: "2 in",
  trapped: true,
  airBreak: true,
  insertion: "5 in",
  crest: "38 in",
} as const;
const check = (change: object, at?: Parameters<typeof standpipe>[1]) => standpipe({ ...good, ...change }, at);
const under = (document: "irc" | "upc", edition: 2006 | 2021 | 2024) => ({
  jurisdiction: { adopted: { [document]: edition } },
});

describe("plumbing/standpipe", () => {
  test.each(rows)("$limit $document $edition: $value $unit", (row) => {
    const printed = printedIn(row);
    const value = valueIn(standpipe.limits, row);
    if (printed === undefined) expect(value).toBeUndefined();
    // Half a millimetre: the sources print whole millimetres.
    else expect(Math.abs(value! - printed)).toBeLessThanOrEqual(5e-4);
  });

  test("exactly on both ends passes, in the unit of the source", () => {
    for (const height of ["18 in", "42 in"]) expect(check({ height }).verdict).toBe("pass");
    for (const height of ["18 in", "30 in"]) expect(check({ height }, under("upc", 2024)).verdict).toBe("pass");
    expect(check({ height: "17 15/16 in" })).toMatchObject({ verdict: "fail", messageId: "tooLow" });
    expect(check({ height: "42 1/16 in" })).toMatchObject({ verdict: "fail", messageId: "tooHigh" });
  });

  test("trap: 36 in is right under one code family and a foot's worth too tall under the other", () => {
    expect(check({ height: "36 in" }, under("irc", 2021)).verdict).toBe("pass");
    expect(check({ height: "36 in" }, under("upc", 2021))).toMatchObject({ verdict: "fail", messageId: "tooHigh" });
  });

  test("trap: a trap under the floor is a fault of the uniform code only", () => {
    expect(check({ trapHeight: "-4 in" }, under("irc", 2021)).verdict).toBe("pass");
    expect(check({ trapHeight: "-4 in" }, under("upc", 2024)).messageId).toBe("trapTooLow");
  });

  test("trap: a low hose siphons the tub although the standpipe is right", () => {
    expect(check({ crest: "26 in" })).toMatchObject({ verdict: "fail", messageId: "crestTooLow" });
    expect(check({ airBreak: false })).toMatchObject({ verdict: "fail", messageId: "sealed" });
  });

  test("an old standpipe gets every fault named, the limit cited and one remedy that mends all", () => {
    const finding = check({ height: "14 in", size: "1.5 in" });
    expect(finding.message).toBe(
      "The standpipe stands only 14 in above the trap weir; 18 in is asked for, or it overflows. Trap and standpipe are 1 1/2 in; 2 in is asked for.",
    );
    expect(finding.workings.map(({ text }) => text)).toEqual([
      "14 in at least 18 in: does not hold",
      "14 in at most 3 ft 6 in: holds",
      "1 1/2 in at least 2 in: does not hold",
      "5 in at most 6 in: holds",
      "3 ft 2 in at least 30 in: holds",
      "3 ft 2 in at most 8 ft: holds",
    ]);
    expect(finding.basis[0]).toMatchObject({ document: "IRC", edition: "2021", section: "P2706.1.2" });
    expect(finding.remedies).toHaveLength(1);
  });

  test("trap: a standpipe high enough for a washer is too low once a tray drains into it", () => {
    expect(check({ height: "24 in" }).verdict).toBe("pass");
    expect(check({ height: "24 in", tray: true, trayAway: "30 in" })).toMatchObject({
      verdict: "fail",
      messageId: "trayLow",
    });
    expect(check({ height: "30 in", tray: true, trayAway: "30 in" }).verdict).toBe("pass");
    expect(check({ height: "30 in", tray: true, trayAway: "31 in" }).messageId).toBe("trayFar");
    expect(check({ tray: true, trayAway: "1 ft" }, under("upc", 2024)).messageId).toBe("trayNotNamed");
  });

  test("a local amendment of the height governs", () => {
    const local = [{ limit: "plumbing/standpipe.height-most", value: "30 in", citation: { document: "Ordinance 7" } }];
    expect(check({ height: "36 in" }, { jurisdiction: { adopted: { irc: 2021 }, local } }).verdict).toBe("fail");
  });

  test("asks for a closer measurement when the tolerance lies across the limit", () => {
    const finding = check({ height: "18 in ± 2 in" });
    expect(finding).toMatchObject({ verdict: "review", messageId: "tooCloseToCall" });
    expect(finding.missing[0]).toMatchObject({ path: ["height"] });
  });

  test("points at what was not measured and at what cannot be read", () => {
    expect(standpipe({ kind: "washer" }).missing.map(({ path }) => path[0])).toEqual([
      "height",
      "size",
      "trapped",
      "airBreak",
      "insertion",
      "crest",
    ]);
    expect(standpipe.try({ ...good, crest: 38 }).fault?.issues[0]).toMatchObject({ path: ["crest"], code: "noUnit" });
  });

  test("law: there is one band of heights that passes, and nothing outside it", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 900 }), (tenths) => {
        const inches = tenths / 10;
        const { verdict } = check({ height: { value: inches, unit: "in" } }, under("upc", 2021));
        expect(verdict).toBe(inches >= 18 && inches <= 30 ? "pass" : "fail");
      }),
      { numRuns: 60 },
    );
  });
});
