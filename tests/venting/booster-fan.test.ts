import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { boosterFan } from "../../src/venting/index.js";
import { reference } from "../references.js";

const { rows } = reference("venting/booster-fan.csv");

describe("venting/booster-fan", () => {
  test.each(rows)("$document $edition says $message of a booster fan", ({ document, edition, building, message }) => {
    const at = {
      jurisdiction: { adopted: { [document!]: Number(edition) }, building: building as "dwelling" },
    };
    expect(boosterFan({ fuel: "electric", fan: "booster fan" }, at).messageId).toBe(message);
  });

  test("says why, where from, and what helps", () => {
    const finding = boosterFan({ fuel: "naturalGas", fan: "booster fan" });
    expect(finding.message).toBe(
      "A booster fan must not be in a dryer's duct: lint stops it, and then it stops the air.",
    );
    expect(finding.basis[0]).toMatchObject({ document: "IRC", section: "M1502.4.5" });
    expect(finding.remedies.map(({ changes }) => changes[0]!.value)).toEqual(["none", "power ventilator"]);
    expect(finding.workings).toEqual([]);
  });

  test("an unlisted or wrongly fitted ventilator never passes, whatever else is known", () => {
    const yesNo = fc.option(fc.boolean(), { nil: undefined });
    fc.assert(
      fc.property(yesNo, yesNo, fc.constantFrom(2009, 2015, 2021, 2024), (listed, asInstructed, irc) => {
        const { verdict } = boosterFan.try(
          { fuel: "electric", fan: "power ventilator", listed, asInstructed },
          { jurisdiction: { adopted: { irc } } },
        ).finding!;
        if (listed === false || asInstructed === false) expect(verdict).toBe("fail");
        else expect(verdict === "pass").toBe(listed === true && asInstructed === true && irc >= 2015);
      }),
    );
  });

  test("asks where nobody looked; points at what is not accepted", () => {
    expect(boosterFan({ fuel: "electric" }).missing).toMatchObject([{ path: ["fan"] }]);
    expect(boosterFan.try({ fuel: "electric", fan: "fan" }).fault?.issues[0]).toMatchObject({ path: ["fan"] });
  });
});
