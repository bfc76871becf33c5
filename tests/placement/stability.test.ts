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

describe("what is not known, and what is assumed instead", () => {
  const finding = (change: object) => stability.try({ ...washer, ...change }).finding!;
  const asked = (change: object) => finding(change).missing.map(({ path }) => path.join("."));

  test.each<[object, string[]]>([
    [{ body: { depth: "30 in" } }, ["body.height"]],
    [{ body: { height: "38 in" } }, ["body.depth"]],
    [{ body: {} }, ["body.height", "body.depth"]],
    [{ body: {}, centreHeight: "19 in" }, ["body.depth"]],
    [{ body: {}, lever: "15 in" }, ["body.height"]],
    [{ mass: undefined, push: { force: "1 lbf", height: "30 in" } }, ["mass"]],
    [{ mass: undefined, doorLoad: { mass: "5 lb", reach: "20 in" } }, ["mass"]],
  ])("%o asks for %j", (change, paths) => {
    expect(finding(change).verdict).toBe("review");
    expect(asked(change)).toEqual(paths);
  });

  test("takes the middle only for what was not given, and says so", () => {
    const assumed = (change: object) => finding(change).assumptions.join();
    expect(assumed({})).toMatch(/middle of the machine/);
    expect(assumed({ centreHeight: "20 in" })).toMatch(/middle of the machine/);
    expect(assumed({ lever: "15 in" })).toMatch(/middle of the machine/);
    expect(assumed({ centreHeight: "20 in", lever: "15 in" })).not.toMatch(/middle/);
    // atan(10/20) and atan(10/19): what was given is used, not half the body
    const degrees = (change: object) => finding(change).parts[0]!.data.angle!.si! * (180 / Math.PI);
    expect(degrees({ centreHeight: "20 in", lever: "10 in" })).toBeCloseTo(26.565, 3);
    expect(degrees({ lever: "10 in" })).toBeCloseTo(27.7585, 3);
  });

  test("shows lever, angle and push; no lever where the slope has used it up", () => {
    const texts = (change: object) => finding(change).workings.map(({ text }) => text);
    const pushed = texts({ push: { force: "10 lbf", height: "30 in" }, slope: "10 %" });
    // 15 in − 19 in · 0.1 = 13.1 in, shown to the eighth; 200 lbf · 13.1 in / 30 in = 87.3 lbf
    expect(pushed[0]).toBe("lever = level - centre * slope: 15 in - 19 in * 1.2 in/ft = 13 1/8 in");
    expect(pushed[1]).toMatch(/^angle = atan\(lever \/ centre\): .* = 34\.6°$/);
    expect(pushed.find((text) => text.startsWith("tips"))).toMatch(
      /^tips = weight \* lever \/ height: .* = 87\.3 lbf$/,
    );
    const over = texts({ body: { height: "72 in", depth: "12 in" }, slope: "20 %" });
    expect(over.some((text) => text.startsWith("lever"))).toBe(false);
  });

  test("a device at the rear answers for the door of a range, not for a push, and for nothing else than a range", () => {
    const range = { kind: "range" as const, body: { height: "36 in", depth: "25 in" }, mass: "150 lb", antiTip: true };
    const ids = (change: object) =>
      stability.try({ ...range, ...change }).finding!.parts.map(({ messageId }) => messageId);
    const door = { doorLoad: { mass: "250 lb", reach: "20 in" } };
    expect(ids(door)).toContain("held");
    expect(ids({ ...door, push: { force: "1 lbf", height: "36 in" } })).toEqual(
      expect.arrayContaining(["held", "pushHeld"]),
    );
    expect(ids({ push: { force: "1 lbf", height: "36 in" } })).not.toContain("held");
    expect(ids({ ...door, kind: "washer" })).not.toContain("held");
    expect(ids({ ...door, antiTip: false })).toContain("doorTips");
    expect(ids({ ...door, mass: undefined })).toContain("held");
  });
});
