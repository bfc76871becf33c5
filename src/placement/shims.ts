import * as z from "zod";
import { brand, type Length, si } from "../core/quantity/index.js";
import { defineCalculator, quantity } from "../core/rule/index.js";
import { nearestShimStack, shimStack } from "../physics/shims.js";
import { usualShims, wholeContact } from "./basis.js";
import { corners } from "./body.js";
import { fourOf, padInput } from "./feet.js";
import { shimUnits, usualShimSizes } from "./tables/shims.js";

export const shimsInput = z.strictObject({
  lifts: fourOf((corner) =>
    quantity("length", { max: [4, "in"] })
      .optional()
      .describe(`How much is wanted under the ${corner} foot; none where left out`),
  )
    .optional()
    .describe("How much each foot is to be lifted"),
  sizes: z
    .array(quantity("length", { min: [0.1, "mm"], max: [2, "in"] }))
    .min(1)
    .max(20)
    .optional()
    .describe("Thicknesses at hand, as many pieces of each as needed; 1/32, 1/16, 1/8 and 1/4 in where left out"),
  mostPieces: z.int().min(1).max(10).optional().describe("Most pieces in one stack; three where left out"),
  pad: padInput,
  piece: quantity("length", { max: [12, "in"] })
    .optional()
    .describe("Shorter side of a shim"),
});

/** Sizes and a wish in whole units of the first unit that measures them all; none where none does. */
function inWholeUnits(sizes: readonly Length[]): { readonly unit: number; readonly counts: number[] } | undefined {
  for (const { value, in: name } of shimUnits) {
    const unit = si(value, name);
    const counts = sizes.map((size) => Math.round(size / unit));
    if (counts.every((count, i) => count > 0 && Math.abs(count * unit - sizes[i]!) <= 1e-6 * unit))
      return { unit, counts };
  }
  return undefined;
}

/**
 * Stacks of shims under the feet, with the fewest pieces.
 *
 * A calculator; its page is `docs/rules/placement/shims.md`.
 */
export const shims = defineCalculator({
  id: "placement/shims",
  title: "Stacks of shims under the feet, with the fewest pieces",
  since: "0.1.0",
  input: shimsInput,
  basis: [wholeContact],
  limits: [],
  outputs: {
    pieces: {
      what: "Which pieces under which foot",
      list: {
        foot: { kind: "text", what: "Which foot, as you face the machine" },
        count: { kind: "count", what: "How many pieces" },
        thickness: { kind: "inches", what: "Thickness of each" },
      },
    },
    stacks: {
      what: "What each stack comes to",
      list: {
        foot: { kind: "text", what: "Which foot, as you face the machine" },
        height: { kind: "inches", what: "Height of the stack" },
        left: { kind: "inches", what: "What is left to do with the foot's own screw; minus where the stack is higher" },
      },
    },
    total: { kind: "count", what: "Pieces in all" },
    fit: { kind: "text", what: "How they fit" },
  },
  messages: {
    missing: { liftsUnknown: "How much each foot is to be lifted is not known: see the turns of the feet." },
    impossible: {
      noCommonUnit:
        "The thicknesses are no whole number of one small unit; round them to 1/64 in, a thousandth, or 0.05 mm.",
      tooHigh:
        "The {foot:text} foot needs {lift:inches}, and {most:count} pieces of the thickest come to {height:inches}: build a platform instead.",
      padOverhangs:
        "The pad of {pad:inches} hangs over a shim of {piece:inches}; use pieces at least as wide as the pad.",
    },
  },
  cautions: ["movingConnected", "lifting", "tipOver"],
  examples: [
    {
      title: "Feet out of thread, saved by two shims",
      input: { lifts: { frontLeft: "5/16 in", backLeft: "5/16 in" }, pad: "1 1/2 in", piece: "2 in" },
      gives: "computed",
    },
    {
      title: "Thicknesses where the thickest first takes more pieces",
      input: {
        lifts: { frontRight: "6 mm" },
        sizes: ["1 mm", "3 mm", "4 mm"],
        pad: "40 mm",
        piece: "50 mm",
      },
      gives: "computed",
    },
    { title: "Nothing to lift", input: {}, gives: "liftsUnknown" },
    {
      title: "Odd thicknesses",
      input: { lifts: { frontLeft: "1/4 in" }, sizes: ["0.0333 in", "1.7321 mm"] },
      gives: "noCommonUnit",
    },
    { title: "Too high for shims", input: { lifts: { backRight: "2 in" } }, gives: "tooHigh" },
    {
      title: "A pad wider than the shims",
      input: { lifts: { frontLeft: "1/4 in" }, pad: "2 in", piece: "1 1/2 in" },
      gives: "padOverhangs",
    },
  ],
  compute({ lifts, sizes, mostPieces, pad, piece }, { missing, impossible, assume, rest, formula }) {
    if (lifts === undefined || Object.values(lifts).every((lift) => lift === undefined))
      return missing(["liftsUnknown"], ["lifts"]);
    if (sizes === undefined) {
      rest(usualShims);
      assume("The shims at hand were not listed: 1/32, 1/16, 1/8 and 1/4 in are assumed.");
    }
    if (mostPieces === undefined) assume("No limit to a stack was given: three pieces are taken.");
    const most = mostPieces ?? usualShimSizes.mostPieces;
    const at = sizes ?? usualShimSizes.inches.map((inches) => si(inches, "in"));
    const whole = inWholeUnits(at);
    if (whole === undefined) return impossible(["noCommonUnit"]);
    if (pad !== undefined && piece !== undefined && piece < pad * (1 - 1e-9))
      return impossible(["padOverhangs", { pad, piece }]);
    const { unit, counts } = whole;
    const highest = brand<"length">(Math.max(...counts) * most * unit);

    const pieces: { foot: string; count: number; thickness: Length }[] = [];
    const stacks: { foot: string; height: Length; left: Length }[] = [];
    let total = 0;
    const four = [lifts.frontLeft, lifts.frontRight, lifts.backRight, lifts.backLeft];
    for (const [i, lift] of four.entries()) {
      if (lift === undefined || lift === 0) continue;
      const foot = corners[i]!;
      if (lift > highest * (1 + 1e-9)) return impossible(["tooHigh", { foot, lift, most, height: highest }]);
      const wanted = lift / unit;
      const near = Math.round(wanted);
      const exact = Math.abs(wanted - near) < 1e-6 ? shimStack(near, counts, most) : undefined;
      const stack = exact ?? nearestShimStack(wanted, counts, most);
      const height = brand<"length">(stack.height * unit);
      stack.counts.forEach((count, size) => {
        if (count > 0) pieces.push({ foot, count, thickness: brand<"length">(counts[size]! * unit) });
      });
      const left = brand<"length">(exact === undefined ? lift - height : 0);
      formula("{left:inches} = {lift:inches} - {stack:inches}", { left, lift, stack: height });
      stacks.push({ foot, height, left });
      total += stack.pieces;
    }
    const contact =
      pad === undefined || piece === undefined
        ? "see that the whole pad rests on each piece: pad and shims were not both measured"
        : "the whole pad rests on each piece";
    const inPlace = total === 0 ? "no shim is needed" : `${contact}; glue or pin the stack so that it cannot creep out`;
    return { pieces, stacks, total, fit: inPlace };
  },
});
