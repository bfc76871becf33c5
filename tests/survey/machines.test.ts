/** Every kind of machine: which trades have something to say of it follows from its description, and the others say why not. */
import { describe, expect, test } from "vitest";
import { fuels } from "../../src/core/basis/index.js";
import { type MachineKind, machineKinds } from "../../src/core/rule/index.js";
import { assessSite, type Survey } from "../../src/survey/index.js";

const survey = (machine: Survey["machine"]): Survey => ({ site: { id: "A" }, machine });
const asked = (machine: Survey["machine"]) => {
  const { findings } = assessSite(survey(machine));
  return {
    idle: findings.filter(({ verdict }) => verdict === "notApplicable"),
    applying: new Set(findings.filter(({ verdict }) => verdict !== "notApplicable").map(({ rule }) => rule)),
  };
};

const described = machineKinds.flatMap((kind) =>
  fuels.flatMap((fuel) =>
    (["vented", "ventless"] as const).flatMap((exhaust) =>
      [true, false].map((steam) => [kind, fuel, exhaust, steam] as const),
    ),
  ),
);

describe("a rule that does not apply says why", () => {
  test.each(described)("%s, %s, %s, steam %s", (kind, fuel, exhaust, steam) => {
    const { idle, applying } = asked({ kind, fuel, exhaust, steam });
    expect(applying.size).toBeGreaterThan(5);
    for (const { rule, message, limit, missing } of idle) {
      // a sentence of its own, and nothing asked for
      expect([rule, message]).toEqual([rule, expect.stringMatching(/^\p{Lu}.{8,}\.$/u)]);
      expect([rule, limit, missing]).toEqual([rule, null, []]);
    }
  });
});

describe("what applies follows from the description", () => {
  const rulesOf = (kind: MachineKind, fuel: Survey["machine"]["fuel"], more: Partial<Survey["machine"]> = {}) =>
    asked({ kind, fuel, ...more }).applying;

  test.each([
    ["venting/duct-length", "dryer", "electric", { exhaust: "vented" }, true],
    ["venting/duct-length", "dryer", "electric", { exhaust: "ventless" }, false],
    ["venting/duct-length", "washer", "none", {}, false],
    ["venting/duct-length", "stack", "electric", { exhaust: "vented" }, true],
    ["venting/hood-exhaust", "hood", "none", {}, true],
    ["venting/hood-exhaust", "dryer", "electric", {}, false],
    ["plumbing/gas-connector", "dryer", "naturalGas", {}, true],
    ["plumbing/gas-connector", "cooktop", "propane", {}, true],
    ["plumbing/gas-connector", "range", "electric", {}, false],
    ["plumbing/standpipe", "washer", "none", {}, true],
    ["plumbing/standpipe", "stack", "electric", {}, true],
    ["plumbing/standpipe", "dryer", "electric", {}, false],
    ["plumbing/dishwasher-drain", "dishwasher", "none", {}, true],
    ["plumbing/dishwasher-drain", "washer", "none", {}, false],
    ["plumbing/supply-pressure", "washer", "none", {}, true],
    ["plumbing/supply-pressure", "dryer", "electric", { steam: true }, true],
    ["plumbing/supply-pressure", "dryer", "electric", { steam: false }, false],
    ["placement/passage", "refrigerator", "none", {}, true],
    ["electrical/circuit-found", "oven", "electric", {}, true],
  ] as const)("%s for a %s, %s, %j: %s", (rule, kind, fuel, more, applies) => {
    expect(rulesOf(kind, fuel, more).has(rule)).toBe(applies);
  });
});
