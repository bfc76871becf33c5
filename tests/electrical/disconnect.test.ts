import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { si } from "../../src/core/quantity/index.js";
import { disconnect, ratedVoltAmperes } from "../../src/electrical/disconnect.js";
import { reference } from "../references.js";

const { rows } = reference("electrical/disconnect.csv");

const oven = { kind: "oven", hardWired: true, plate: { voltage: "240 V", power: "4800 W" } } as const;
const apart = { lockable: false, visible: false } as const;

describe("electrical/disconnect", () => {
  test.each(rows)("$case: $verdict", (row) => {
    const finding = disconnect({
      hardWired: true,
      plate: { voltage: "240 V", power: { value: Number(row.load_VA), unit: "VA" } },
      breaker: {
        lockable: row.lockable === "yes",
        visible: row.visible === "yes",
        ...(row.distance_ft ? { distance: `${row.distance_ft} ft` } : {}),
      },
      unitSwitch: "none",
    });
    expect(finding.verdict).toBe(row.verdict);
  });

  test("passes a breaker exactly at the end of sight, given in metres too", () => {
    const at = (distance: string) => disconnect({ ...oven, breaker: { lockable: false, visible: true, distance } });
    expect(at("50 ft")).toMatchObject({ verdict: "pass", messageId: "bySight", margin: { text: "0 in" } });
    expect(at("15.24 m").verdict).toBe("pass");
    expect(at("15.3 m").verdict).toBe("fail");
  });

  test("says what is wrong, shows the step and offers the lock", () => {
    const finding = disconnect({ ...oven, breaker: { lockable: false, visible: true, distance: "64 ft" } });
    expect(finding.message).toBe(
      "The breaker can be seen, but 64 ft away; in sight ends at 50 ft, and no lock can hold it.",
    );
    expect(finding.workings.map(({ text }) => text)).toEqual([
      "4,800 VA at most 300 VA: does not hold".replace("4,800 VA", "4.8 kVA"),
      "64 ft at most 50 ft: does not hold",
    ]);
    expect(finding.remedies).toMatchObject([{ changes: [{ path: ["breaker", "lockable"], value: true }] }]);
    expect(finding.basis[0]).toMatchObject({ document: "NEC", edition: "2020" });
  });

  test("asks for what was not looked at, in the order in which it helps", () => {
    const first = (input: object) => disconnect({ ...oven, ...input }).missing[0]?.path.join(".");
    expect(disconnect({}).missing).toMatchObject([{ path: ["hardWired"] }]);
    expect(first({})).toBe("breaker.lockable");
    expect(first({ breaker: { lockable: false } })).toBe("breaker.visible");
    expect(first({ breaker: { lockable: false, visible: true } })).toBe("breaker.distance");
    const tolerant = { lockable: false, visible: true, distance: "50 ft ± 3 ft" };
    expect(disconnect({ ...oven, breaker: tolerant })).toMatchObject({
      verdict: "review",
      messageId: "tooCloseToCall",
    });
  });

  test("points at a distance that cannot be read", () => {
    const read = disconnect.try({ ...oven, breaker: { visible: true, distance: 12 } });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["breaker", "distance"], code: "noUnit" });
  });

  test("a unit switch counts in a house, and in a block only with the panel near by", () => {
    const own = { ...oven, unitSwitch: "opens all lines, marked off", breaker: { ...apart, near: false } } as const;
    expect(disconnect(own)).toMatchObject({ verdict: "pass", messageId: "bySwitch" });
    const block = { jurisdiction: { building: "multifamily" } } as const;
    expect(disconnect(own, block)).toMatchObject({ verdict: "fail", messageId: "switchAlone" });
    expect(disconnect({ ...own, breaker: { ...apart, near: true } }, block).verdict).toBe("pass");
  });

  test("cites no section of a code that is not adopted", () => {
    const at = { jurisdiction: { adopted: { iec60364: 2017 } } } as const;
    const plugged = disconnect({ hardWired: false, plugReachable: true }, at);
    expect(plugged).toMatchObject({ verdict: "pass", basis: [{ force: "practice" }] });
    expect(disconnect({ ...oven, breaker: { lockable: true } }, at)).toMatchObject({ verdict: "review", basis: [] });
  });

  test("a lock that can be put on never makes things worse", () => {
    const flag = fc.option(fc.boolean(), { nil: undefined });
    const place = fc.record(
      { visible: flag, near: flag, distance: fc.constantFrom("5 ft", "49 ft", "80 ft") },
      { requiredKeys: [] },
    );
    const order = ["fail", "review", "pass"];
    fc.assert(
      fc.property(
        place,
        fc.constantFrom("opens some lines", "none", "opens all lines, marked off"),
        (breaker, unitSwitch) => {
          const verdict = (lockable: boolean) =>
            disconnect.try({ ...oven, breaker: { ...JSON.parse(JSON.stringify(breaker)), lockable }, unitSwitch })
              .finding!.verdict;
          expect(order.indexOf(verdict(true))).toBeGreaterThanOrEqual(order.indexOf(verdict(false)));
          expect(verdict(true)).toBe("pass");
        },
      ),
    );
  });

  test("rests on the plate where its load decides, and not where it was not read", () => {
    const documents = (input: object) =>
      disconnect.try({ ...oven, breaker: { lockable: true }, ...input }).finding!.basis.map(({ document }) => document);
    expect(documents({})).toContain("Machine's rating plate");
    expect(documents({ plate: undefined })).not.toContain("Machine's rating plate");
  });

  test("reads the volt-amperes of the plate, three phases with their root", () => {
    expect(ratedVoltAmperes({ current: si(10, "A"), voltage: si(208, "V"), phases: "three" })).toBeCloseTo(3602.666, 3);
    expect(ratedVoltAmperes({ current: si(10, "A") })).toBeUndefined();
  });
});

describe("traps", () => {
  test("near is not in sight: 10 ft behind a wall fails, and so does a breaker in sight that no one can see", () => {
    expect(disconnect({ ...oven, breaker: { ...apart, distance: "10 ft" }, unitSwitch: "none" }).verdict).toBe("fail");
  });

  test("a plug behind a built-in machine is no means of disconnecting", () => {
    const built = { kind: "dishwasher", hardWired: false, plugReachable: false } as const;
    expect(disconnect({ ...built, breaker: apart, unitSwitch: "none" }).verdict).toBe("fail");
  });

  test("the 300 VA are for wired-in machines: a small machine whose plug is out of reach still needs a means", () => {
    const small = { plate: { voltage: "120 V", current: "1 A" }, breaker: apart, unitSwitch: "none" } as const;
    expect(disconnect({ ...small, hardWired: true }).verdict).toBe("pass");
    expect(disconnect({ ...small, hardWired: false, plugReachable: false }).verdict).toBe("fail");
  });
});
