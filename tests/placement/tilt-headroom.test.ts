import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brand, si } from "../../src/core/quantity/index.js";
import { tallestBetween, tiltHeadroom } from "../../src/placement/index.js";
import { reference } from "../references.js";

const { rows, tolerance } = reference("placement/tilt-headroom.csv");
const angle = (degrees: number) => si(degrees, "deg");

describe("tallestBetween", () => {
  test.each(rows.filter(({ tallest }) => tallest !== ""))(
    "$id: $height by $depth stands $tallest tall on its way",
    (row) => {
      const tallest = tallestBetween(
        brand<"length">(Number(row.height)),
        brand<"length">(Number(row.depth)),
        angle(0),
        angle(90),
      );
      expect(Math.abs(tallest - Number(row.tallest))).toBeLessThanOrEqual(tolerance);
    },
  );

  test("is the greatest of many heights on the way, whichever way it goes", () => {
    const side = fc.double({ min: 0.1, max: 2, noNaN: true });
    const tilt = fc.double({ min: 0, max: Math.PI / 2, noNaN: true });
    fc.assert(
      fc.property(side, side, tilt, tilt, (h, d, a, b) => {
        const tallest = tallestBetween(brand<"length">(h), brand<"length">(d), brand<"angle">(a), brand<"angle">(b));
        let most = 0;
        for (let i = 0; i <= 2000; i++) {
          const at = a + ((b - a) * i) / 2000;
          most = Math.max(most, h * Math.cos(at) + d * Math.sin(at));
        }
        expect(tallest).toBeGreaterThanOrEqual(most - 1e-12);
        expect(tallest).toBeLessThanOrEqual(most + 1e-5);
      }),
    );
  });
});

describe("placement/tilt-headroom", () => {
  test.each(rows.filter(({ headroom }) => headroom !== ""))("$id: strikes from $from_deg° to $to_deg°", (row) => {
    const { parts } = tiltHeadroom({
      body: { height: `${row.height} in`, depth: `${row.depth} in` },
      headroom: `${row.headroom} in`,
    });
    const degrees = (name: string) => parts[0]!.data[name]!.si! * (180 / Math.PI);
    expect(Math.abs(degrees("first") - Number(row.from_deg))).toBeLessThanOrEqual(tolerance);
    expect(Math.abs(degrees("last") - Number(row.to_deg))).toBeLessThanOrEqual(tolerance);
  });

  test("clears a ceiling exactly as high as the diagonal: 30 and 40 in under 50 in", () => {
    const finding = tiltHeadroom({ body: { height: "40 in", depth: "30 in" }, headroom: "1.27 m" });
    expect(finding).toMatchObject({ verdict: "pass", margin: { text: "0 in" } });
    expect(tiltHeadroom({ body: { height: "40 in", depth: "30 in" }, headroom: "1.2699 m" }).verdict).toBe("fail");
  });

  test("says where it strikes, shows the step, and offers the other edge where that helps", () => {
    const finding = tiltHeadroom({
      body: { height: "77 in", depth: "27 in", width: "16 in" },
      headroom: "80 in",
      to: "45°",
    });
    expect(finding.message).toBe(
      "Tipped, the machine stands 6 ft 9 5/8 in high, 1.6 in more than the 6 ft 8 in there: it strikes between 7.97° and 30.7° from upright.",
    );
    expect(finding.workings[0]!.text).toBe(
      "tallest = sqrt(height^2 + depth^2): sqrt(6 ft 5 in^2 + 27 in^2) = 6 ft 9 5/8 in",
    );
    expect(finding.remedies.map(({ message }) => message)).toEqual(["Tip it about its side instead."]);
  });

  test("a short lean does not reach the diagonal", () => {
    const lean = (to: string) =>
      tiltHeadroom({ body: { height: "77 in", depth: "27 in" }, headroom: "80 in", to }).verdict;
    expect(lean("7.9°")).toBe("pass");
    expect(lean("8.1°")).toBe("fail");
    expect(tiltHeadroom({ body: { height: "80 in", depth: "30 in" }, headroom: "78 in", from: "45°" }).verdict).toBe(
      "pass",
    );
  });

  test("cannot tell where a tolerance decides, asks for what is missing, points at what cannot be read", () => {
    const near = tiltHeadroom({ body: { height: "40 in", depth: "30 in" }, headroom: "50 1/16 in ± 1/8 in" });
    expect(near).toMatchObject({ verdict: "review", missing: [{ path: ["headroom"] }] });
    expect(tiltHeadroom({ body: { height: "40 in" }, edge: "side", headroom: "80 in" }).missing).toMatchObject([
      { path: ["body", "width"] },
    ]);
    expect(tiltHeadroom.try({ headroom: "80" }).fault?.issues[0]).toMatchObject({ path: ["headroom"], code: "noUnit" });
  });
});

describe("which side, which way, and what is assumed", () => {
  const body = { height: "40 in", depth: "30 in", width: "9 in" };
  const finding = (change: object) => tiltHeadroom.try({ body, headroom: "60 in", ...change }).finding!;

  test("takes the side that is tipped: 30 in deep makes 50 in, 9 in wide makes 41 in", () => {
    expect(finding({}).measured!.si).toBeCloseTo(50 * 0.0254, 9);
    expect(finding({ edge: "side" }).measured!.si).toBeCloseTo(41 * 0.0254, 9);
    const asked = (edge: string, one: object) => {
      const { missing, message } = finding({ edge, body: { height: "40 in", ...one } });
      return [missing.map(({ path }) => path.join(".")), message];
    };
    expect(asked("side", { depth: "30 in" })).toEqual([["body.width"], expect.stringContaining("its width")]);
    expect(asked("front or back", { width: "9 in" })).toEqual([["body.depth"], expect.stringContaining("its depth")]);
  });

  test("says that it goes all the way only where neither end was given", () => {
    const assumed = (change: object) => finding(change).assumptions.join();
    expect(assumed({})).toMatch(/all the way/);
    expect(assumed({ from: "10°" })).not.toMatch(/all the way/);
    expect(assumed({ to: "80°" })).not.toMatch(/all the way/);
    expect(assumed({ from: "10°", to: "80°" })).not.toMatch(/all the way/);
  });

  test("shows the diagonal where the way passes it, and otherwise the higher end of the way", () => {
    const step = (change: object) => finding(change).workings[0]!.text;
    expect(step({})).toMatch(/^tallest = sqrt\(height\^2 \+ depth\^2\)/);
    // the diagonal stands at atan(30/40) = 36.87°: before it the later end is the higher, after it the earlier
    expect(step({ to: "20°" })).toMatch(/^tallest = height \* cos\(tilt\) \+ depth \* sin\(tilt\): .*20°/);
    expect(step({ from: "60°" })).toMatch(/^tallest = height \* cos\(tilt\) \+ depth \* sin\(tilt\): .*60°/);
    expect(step({ from: "20°", to: "5°" })).toMatch(/cos\(tilt\).*20°/);
  });
});
