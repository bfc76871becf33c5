import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { hoodExhaust } from "../../src/venting/index.js";
import { reference } from "../references.js";

const { rows } = reference("venting/hood-exhaust.csv");
const good = {
  kind: "hood" as const,
  exhaustRate: "300 cfm",
  recirculates: false,
  place: "outdoors" as const,
  material: "galvanized steel" as const,
  tight: true,
  broiler: false,
};

describe("venting/hood-exhaust", () => {
  test.each(rows)("IRC $edition, $rate_cfm cfm, open flue $open_flue: $message", (row) => {
    const at = { jurisdiction: { adopted: { irc: Number(row.edition) as 2021 } } };
    const input = {
      ...good,
      exhaustRate: `${row.rate_cfm} cfm`,
      openFlue: row.open_flue === "yes",
      makeup: "none" as const,
    };
    expect(hoodExhaust(input, at).parts.map(({ messageId }) => messageId)).toContain(row.message);
  });

  test("trap: exactly 400 cfm does not call for make-up air; taking 400 for a limit to stay below is wrong", () => {
    const input = { ...good, openFlue: true, makeup: "none" as const };
    expect(hoodExhaust({ ...input, exhaustRate: "400 cfm" }).verdict).toBe("pass");
    expect(hoodExhaust({ ...input, exhaustRate: "400.1 cfm" }).verdict).toBe("fail");
  });

  test("trap: since 2018 a sealed house is exempt, before it is not", () => {
    const input = { ...good, exhaustRate: "900 cfm", openFlue: false, makeup: "none" as const };
    expect(hoodExhaust(input, { jurisdiction: { adopted: { irc: 2018 } } }).verdict).toBe("pass");
    expect(hoodExhaust(input, { jurisdiction: { adopted: { irc: 2015 } } }).verdict).toBe("fail");
  });

  test("says it with the step and the change that helps", () => {
    const finding = hoodExhaust({ ...good, exhaustRate: "600 cfm", openFlue: true, makeup: "none" });
    expect(finding.message).toBe(
      "The hood exhausts 600 cfm, more than 400 cfm: make-up air must come in with the fan.",
    );
    expect(finding.workings.map(({ text }) => text)).toEqual(["600 cfm at most 400 cfm: does not hold"]);
    expect(finding.remedies.map(({ message }) => message)).toEqual([
      "Bring make-up air in through a damper that opens with the fan.",
    ]);
  });

  test("a stronger hood is never judged better", () => {
    const bad = (cfm: number) =>
      hoodExhaust({ ...good, exhaustRate: `${cfm} cfm`, openFlue: true, makeup: "none" }).verdict === "fail";
    const cfm = fc.integer({ min: 50, max: 1500 });
    fc.assert(
      fc.property(cfm, cfm, (a, b) => {
        if (bad(Math.min(a, b))) expect(bad(Math.max(a, b))).toBe(true);
      }),
      { numRuns: 50 },
    );
  });

  test("asks for what decides, cannot tell across the limit, points at what cannot be read", () => {
    const { tight: _, ...unknown } = good;
    expect(hoodExhaust(unknown).missing.map(({ path }) => path[0])).toEqual(["tight"]);
    const near = { ...good, exhaustRate: "400 cfm ± 10 cfm", openFlue: true, makeup: "none" as const };
    expect(hoodExhaust(near).messageId).toBe("tooCloseToCall");
    expect(hoodExhaust.try({ ...good, exhaustRate: 400 }).fault?.issues[0]).toMatchObject({ path: ["exhaustRate"] });
  });
});
