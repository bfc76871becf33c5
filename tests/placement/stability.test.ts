import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { stability } from "../../src/placement/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("placement/stability.csv");

const washer = { kind: "washer" as const, body: { height: "38 in", depth: "30 in" }, mass: "200 lb" };

describe("placement/stability", () => {
  test.each(rows)("$id tips at $tips_lbf lbf and $angle_deg°", (row) => {
    const push = (force: number) =>
      stability({
        ...washer,
        body: { height: `${row.height_in} in`, depth: `${row.depth_in} in` },
        mass: `${row.mass_lb} lb`,
        push: { force: `${force} lbf`, height: `${row.push_height_in} in` },
      });
    const tips = Number(row.tips_lbf);
    expect(push(tips - tolerance).verdict).toBe("pass");
    expect(push(tips + tolerance).verdict).toBe("fail");
    const angle = push(1).parts[0]!.data.angle!.si! * (180 / Math.PI);
    expect(Math.abs(angle - Number(row.angle_deg))).toBeLessThanOrEqual(tolerance);
  });

  test("asks for exactly ten degrees", () => {
    // tan 10° = 0.1763270: half a depth of 17.6327 in under a centre at 50 in.
    const tall = (depth: string) => stability({ ...washer, body: { height: "100 in", depth } }).verdict;
    expect(tall("17.63271 in")).toBe("pass");
    expect(tall("17.6326 in")).toBe("fail");
  });

  test("a slope takes from one side what it gives the other", () => {
    const angle = (slope: string) => stability({ ...washer, slope }).parts[0]!.data.angle!.si!;
    expect(angle("0 %")).toBeGreaterThan(angle("2 %"));
    expect(angle("-2 %")).toBeGreaterThan(angle("0 %"));
    const fallen = stability({ ...washer, body: { height: "72 in", depth: "12 in" }, slope: "20 %" });
    expect(fallen).toMatchObject({ verdict: "fail", messageId: "topHeavy" });
    expect(fallen.message).toContain("0°");
  });

  test("says what tips it and shows the steps", () => {
    const finding = stability({ ...washer, doorLoad: { mass: "60 lb", reach: "60 in" } });
    expect(finding.message).toBe(
      "The load on its door pulls with 300 ft-lb, more than the 250 ft-lb that holds it: it tips forward.",
    );
    expect(finding.workings.map(({ text }) => text).slice(-3)).toEqual([
      "load = onDoor * reach: 60 lbf * 60 in = 300 ft-lb",
      "holds = weight * lever: 200 lbf * 15 in = 250 ft-lb",
      "300 ft-lb at most 250 ft-lb: does not hold",
    ]);
  });

  test("a range needs its device and a pair its kit, whatever else; fitting it is what helps", () => {
    const range = { kind: "range" as const, body: { height: "36 in", depth: "25 in" }, mass: "150 lb" };
    expect(stability({ ...range, antiTip: false }).remedies.map(({ changes }) => changes)).toEqual([
      [{ path: ["antiTip"], value: true }],
    ]);
    expect(stability({ ...range, antiTip: true, doorLoad: { mass: "250 lb", reach: "20 in" } }).verdict).toBe("pass");
    expect(stability({ ...range, antiTip: true, push: { force: "100 lbf", height: "36 in" } }).verdict).toBe("fail");
    expect(stability({ ...range }).missing).toMatchObject([{ path: ["antiTip"] }]);
    const pair = { kind: "stack" as const, body: { height: "75 in", depth: "27 in" } };
    expect(stability({ ...pair }).missing).toMatchObject([{ path: ["stackingKit"] }]);
    const noKit = { maker: [{ limit: "placement/stability.fixing", value: false, citation: { document: "Sheet" } }] };
    expect(stability({ ...pair }, noKit).verdict).toBe("pass");
  });

  test("cannot tell where a tolerance decides, asks for what is missing, points at the unreadable", () => {
    const near = stability({ ...washer, push: { force: "79 lbf ± 2 lbf", height: "38 in" } });
    expect(near).toMatchObject({ verdict: "review", missing: [{ path: ["push", "force"] }] });
    expect(stability({ kind: "washer", body: { depth: "30 in" } }).missing).toMatchObject([
      { path: ["body", "height"] },
    ]);
    const read = stability.try({ ...washer, push: { force: "60 lb", height: "38 in" } });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["push", "force"] });
  });

  test("a deeper machine never tips sooner", () => {
    const inches = fc.integer({ min: 5, max: 60 });
    fc.assert(
      fc.property(inches, inches, inches, (height, a, b) => {
        const angle = (depth: number) =>
          stability({ kind: "dryer", body: { height: `${height} in`, depth: `${depth} in` } }).parts[0]!.data.angle!
            .si!;
        expect(angle(Math.max(a, b))).toBeGreaterThanOrEqual(angle(Math.min(a, b)));
      }),
    );
  });
});
