import * as z from "zod";
import { type Angle, brand, type Length } from "../core/quantity/index.js";
import { defineRule, type Proposal, quantity } from "../core/rule/index.js";
import { tiltedHeight, tooTallBetween } from "../physics/tilt.js";
import { geometry } from "./basis.js";
import { bodyInput } from "./body.js";

const tilt = () => quantity("angle", { min: [0, "deg"], max: [90, "deg"] });

export const tiltHeadroomInput = z.strictObject({
  body: bodyInput,
  headroom: quantity("length", { min: [1, "in"], max: [30, "ft"] })
    .optional()
    .describe(
      "Clear height where it is tipped: to the ceiling, lamp, door head or shelf, less what the truck lifts it",
    ),
  edge: z
    .enum(["front or back", "side"])
    .optional()
    .describe("Bottom edge it is tipped about: front or back, or a side; front or back where left out"),
  from: tilt().optional().describe("Tilt from upright at which it begins; upright where left out"),
  to: tilt()
    .optional()
    .describe("Tilt from upright at which it ends: 90° to lay it down or stand it up, where left out"),
});

/**
 * Greatest height of a box on its way from one tilt to another [m].
 *
 * h·cos a + d·sin a is greatest at a = atan(d/h), where it is the diagonal; on a way that does not pass there, at one of
 * its ends.
 *
 * @param height - h of the upright box [m]
 * @param depth - d in the plane of the tilt [m]
 * @param from - tilt at which it begins, 0 to a right angle [rad]
 * @param to - tilt at which it ends, 0 to a right angle [rad]
 * @example tallestBetween(si(38, "in"), si(30, "in"), si(0, "deg"), si(90, "deg")) // 1.229738
 */
export function tallestBetween(height: Length, depth: Length, from: Angle, to: Angle): Length {
  const peak = Math.atan2(depth, height);
  const [low, high] = from < to ? [from, to] : [to, from];
  if (low <= peak && peak <= high) return brand<"length">(Math.hypot(height, depth));
  return brand<"length">(Math.max(tiltedHeight(height, depth, low), tiltedHeight(height, depth, high)));
}

const remedies = {
  otherEdge: "Tip it about its {edge:text} instead.",
} as const;

/** The machine can be tipped under what is above it. A rule; its page is `docs/rules/placement/tilt-headroom.md`. */
export const tiltHeadroom = defineRule({
  id: "placement/tilt-headroom",
  title: "The machine can be tipped under what is above it",
  since: "0.1.0",
  input: tiltHeadroomInput,
  basis: [geometry],
  limits: [],
  messages: {
    pass: { clears: "Tipped, the machine stands {tallest:length} high at most, under {headroom:length}." },
    fail: {
      strikes:
        "Tipped, the machine stands {tallest:length} high, {over:length} more than the {headroom:length} there: it strikes between {first:angle} and {last:angle} from upright.",
    },
    review: {
      heightUnknown: "The height of the machine was not measured.",
      depthUnknown: "The side of the machine that is tipped, its {side:text}, was not measured.",
      headroomUnknown: "The clear height where it is tipped was not measured.",
    },
  },
  remedies,
  cautions: ["lifting", "tipOver"],
  examples: [
    {
      title: "A dryer laid down under a basement ceiling",
      input: { body: { height: "38 in", depth: "30 in" }, headroom: "80 in" },
      gives: "clears",
    },
    {
      title: "A refrigerator under a door head, where upright it clears",
      input: { body: { height: "77 in", depth: "27 in", width: "36 in" }, headroom: "80 in", to: "45°" },
      gives: "strikes",
    },
    { title: "Height unknown", input: { headroom: "80 in" }, gives: "heightUnknown" },
    { title: "Depth unknown", input: { body: { height: "38 in" }, headroom: "80 in" }, gives: "depthUnknown" },
    {
      title: "Headroom unknown",
      input: { body: { height: "38 in", depth: "30 in" } },
      gives: "headroomUnknown",
    },
  ],
  check({ body = {}, headroom, edge = "front or back", from, to }, { formula, judge, missing, assume }) {
    const { height } = body;
    const aside = edge === "side";
    const depth = aside ? body.width : body.depth;
    if (height === undefined) return missing(["heightUnknown"], ["body", "height"]);
    if (depth === undefined)
      return missing(["depthUnknown", { side: aside ? "width" : "depth" }], ["body", aside ? "width" : "depth"]);
    if (headroom === undefined) return missing(["headroomUnknown"], ["headroom"]);
    if (from === undefined && to === undefined) assume("It is laid down or stood up all the way, through every tilt.");
    const start = from ?? brand<"angle">(0);
    const end = to ?? brand<"angle">(Math.PI / 2);
    const tallest = tallestBetween(height, depth, start, end);
    const diagonal = brand<"length">(Math.hypot(height, depth));
    if (tallest === diagonal)
      formula("{tallest:length} = sqrt({height:length}^2 + {depth:length}^2)", { tallest, height, depth });
    else {
      const at = tiltedHeight(height, depth, end) >= tiltedHeight(height, depth, start) ? end : start;
      formula("{tallest:length} = {height:length} * cos({tilt:angle}) + {depth:length} * sin({tilt:angle})", {
        tallest,
        height,
        depth,
        tilt: at,
      });
    }
    const closed = tooTallBetween(height, depth, headroom) ?? { from: start, to: end };
    const low = Math.min(start, end);
    const high = Math.max(start, end);
    return judge({
      kind: "length",
      measured: tallest,
      limit: headroom,
      sense: "atMost",
      pass: ["clears", { tallest, headroom }],
      fail: [
        "strikes",
        {
          tallest,
          headroom,
          over: brand<"length">(tallest - headroom),
          first: brand<"angle">(Math.max(low, Math.min(high, closed.from))),
          last: brand<"angle">(Math.min(high, Math.max(low, closed.to))),
        },
      ],
    });
  },
  mend({ edge = "front or back" }) {
    const other = edge === "side" ? "front or back" : "side";
    const proposal: Proposal<typeof remedies> = {
      change: [{ path: ["edge"], value: other }],
      say: ["otherEdge", { edge: other === "side" ? "side" : "front or back edge" }],
    };
    return [proposal];
  },
});
