import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inUnit, si } from "../../src/core/quantity/index.js";
import { type Branch, flowSplit, splitFlow } from "../../src/plumbing/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("plumbing/flow-split.csv");
const near = (value: number, want: number) => expect(Math.abs(value / want - 1)).toBeLessThanOrEqual(tolerance);
const branch = (gpm: number, psi: number, length = 5, hose: Branch["hose"] = "hose 3/8"): Branch => ({
  hose,
  length: si(length, "ft"),
  ratedFlow: si(gpm, "gpm"),
  ratedPressure: si(psi, "psi"),
});
const tap = (rest: number, flowing: number, gpm: number) => ({
  atRest: si(rest, "psi"),
  flowing: si(flowing, "psi"),
  flow: si(gpm, "gpm"),
});
const shared = {
  kind: "washer",
  isShared: true,
  staticPressure: "60 psi",
  tapPressure: "45 psi",
  tapFlow: "5 gpm",
} as const;
const valve = { hose: "hose 3/8", length: "5 ft", ratedFlow: "2.5 gpm", ratedPressure: "20 psi" } as const;
const two = () => [{ ...valve }, { ...valve }];

describe("plumbing/flow-split", () => {
  test.each(rows)("$rest_psi/$flowing_psi psi at $tap_gpm gpm, valves $rated1_gpm and $rated2_gpm gpm", (row) => {
    const number = (name: string) => Number(row[name]);
    const branches = [number("rated1_gpm"), number("rated2_gpm")].map((gpm) =>
      branch(gpm, number("rated_psi"), 0.5, "hose 1/2"),
    );
    const { atY, flows } = splitFlow(tap(number("rest_psi"), number("flowing_psi"), number("tap_gpm")), branches);
    near(inUnit(atY, "psi"), number("atY_psi"));
    near(inUnit(flows[0]!, "gpm"), number("q1_gpm"));
    near(inUnit(flows[1]!, "gpm"), number("q2_gpm"));
  });

  test("a steam dryer beside a washer: what each gets, alone and together, with the steps", () => {
    const finding = flowSplit({ ...shared, branches: [{ ...valve }, { ...valve, ratedFlow: "0.25 gpm" }] });
    expect(finding.verdict).toBe("pass");
    expect(finding.parts.map(({ message }) => message).slice(0, 2)).toEqual([
      "With both filling, machine 1 gets 3.8 gpm at 46.3 psi; 20 psi is needed (alone it gets 3.86 gpm).",
      "With both filling, machine 2 gets 0.393 gpm at 49.4 psi; 20 psi is needed (alone it gets 0.432 gpm).",
    ]);
    expect(finding.workings.filter(({ kind }) => kind === "formula")).toHaveLength(4);
  });

  test("trap: each machine fills well alone and neither does together", () => {
    const weak = { ...shared, staticPressure: "45 psi", tapPressure: "12 psi", tapFlow: "4 gpm" } as const;
    const finding = flowSplit({ ...weak, branches: two() });
    expect(finding).toMatchObject({ verdict: "fail", messageId: "starved" });
    // Alone: the same valve on the same tap.
    const alone = splitFlow(tap(45, 12, 4), [branch(2.5, 20)]);
    expect(inUnit(alone.atValves[0]!, "psi")).toBeGreaterThan(20);
  });

  test("trap: the flow is not simply halved", () => {
    const at = tap(60, 45, 5);
    const [one] = splitFlow(at, [branch(2.5, 20)]).flows;
    const [first] = splitFlow(at, [branch(2.5, 20), branch(2.5, 20)]).flows;
    expect(first! / one!).toBeGreaterThan(0.6);
    expect(first!).toBeLessThan(one!);
  });

  test("exactly at the machine's least pressure passes", () => {
    const atValve = inUnit(splitFlow(tap(60, 45, 5), [branch(2.5, 20), branch(2.5, 20)]).atValves[0]!, "psi");
    const with_ = (value: string) =>
      flowSplit(
        { ...shared, branches: two() },
        { maker: [{ limit: "plumbing/supply-pressure.machine-least", value, citation: { document: "Sheet" } }] },
      ).verdict;
    expect(with_(`${atValve} psi`)).toBe("pass");
    expect(with_(`${atValve + 0.01} psi`)).toBe("fail");
  });

  test("asks for what is missing or too close, and points at what cannot be read", () => {
    expect(flowSplit({ kind: "washer", isShared: true }).missing.map(({ path }) => path[0])).toEqual([
      "staticPressure",
      "tapPressure",
      "tapFlow",
    ]);
    expect(flowSplit({ ...shared, branches: [{ ...valve }] }).messageId).toBe("branchesUnknown");
    const close = flowSplit({ ...shared, staticPressure: "36 psi", tapPressure: "22 psi ± 2 psi", branches: two() });
    expect(close.messageId).toBe("tooCloseToCall");
    const { fault } = flowSplit.try({ ...shared, branches: [{ ...valve, ratedFlow: 2.5 }] });
    expect(fault?.issues[0]).toMatchObject({ path: ["branches", 0, "ratedFlow"], code: "noUnit" });
  });

  test("laws: flow is conserved at the Y; a longer or narrower hose never gives more", () => {
    const gpm = fc.double({ min: 0.2, max: 6, noNaN: true });
    const feet = fc.double({ min: 1, max: 30, noNaN: true });
    fc.assert(
      fc.property(
        gpm,
        gpm,
        feet,
        feet,
        fc.double({ min: 0.1, max: 0.95, noNaN: true }),
        (a, b, length, more, share) => {
          const at = tap(60, 60 * share, 5);
          const here = splitFlow(at, [branch(a, 20, length), branch(b, 20, 5)]);
          const total = here.flows[0]! + here.flows[1]!;
          // What the supply gives at the pressure at the Y is what the two take.
          const supplied = si(5, "gpm") * Math.sqrt((si(60, "psi") - here.atY) / (si(60, "psi") * (1 - share)));
          expect(Math.abs(supplied / total - 1)).toBeLessThan(1e-6);
          const longer = splitFlow(at, [branch(a, 20, length + more), branch(b, 20, 5)]);
          expect(longer.flows[0]!).toBeLessThan(here.flows[0]! * (1 + 1e-9));
          const wider = splitFlow(at, [branch(a, 20, length, "hose 1/2"), branch(b, 20, 5)]);
          expect(wider.flows[0]!).toBeGreaterThan(here.flows[0]! * (1 - 1e-9));
        },
      ),
      { numRuns: 60 },
    );
  });
});
