import * as z from "zod";
import { printedSi } from "../core/basis/index.js";
import { brand, type Length, si } from "../core/quantity/index.js";
import { defineRule, machineFacts, type Outcome, type Proposal, quantity, type Read } from "../core/rule/index.js";
import { sideBySide } from "./basis.js";
import { bodyInput, gapsInput } from "./body.js";
import { connectionKinds } from "./clearances.js";
import { closetFront } from "./limits.js";
import { usualWall } from "./tables/doors.js";

const piece = () => quantity("length", { max: [3, "ft"] });

export const connectionsBehindInput = z.strictObject({
  kind: machineFacts.kind,
  fuel: machineFacts.fuel,
  body: bodyInput,
  depth: quantity("length", { max: [100, "ft"] })
    .optional()
    .describe("Clear depth of the place from the wall behind to the closed door or edge in front"),
  gaps: gapsInput,
  lines: z
    .array(
      z.strictObject({
        what: z.enum(connectionKinds).describe("Which connection"),
        onWall: piece().describe("How far its box, plate or valve stands out from the wall; 0 where flush"),
        fitting: piece().describe("What is plugged, pushed or screwed on: how far it stands out further"),
        bend: piece().describe("What the bend needs beyond that: cord, hose or duct, as tight as it may be bent"),
        recess: piece().optional().describe("How deep its box is let into the wall; none where left out"),
      }),
    )
    .max(20)
    .optional()
    .describe("Everything that connects behind the machine, each as one line straight out from the wall"),
});

/**
 * Room that one connection takes between wall and machine [m]; none where it sits wholly in its recess.
 *
 * need = max(0, on the wall + fitting + bend − recess).
 *
 * @param onWall - how far box, plate or valve stands out [m]
 * @param fitting - plug, elbow or coupling beyond that [m]
 * @param bend - what cord, hose or duct needs beyond that [m]
 * @param recess - depth of the recess in the wall [m]
 * @example connectionDepth(si(1, "in"), si(2, "in"), si(1.5, "in"), si(0, "in")) // 0.1143
 */
export function connectionDepth(onWall: Length, fitting: Length, bend: Length, recess: Length): Length {
  return brand<"length">(Math.max(0, onWall + fitting + bend - recess));
}

type Input = Read<z.output<typeof connectionsBehindInput>>;
type Line = NonNullable<Input["lines"]>[number];
const zero = brand<"length">(0);
const depthOf = ({ onWall, fitting, bend, recess = zero }: Line): Length =>
  connectionDepth(onWall, fitting, bend, recess);

const remedies = {
  recess: "Let the boxes and valves of what is too deep into the wall, by {recess:inches} for the {what:text}.",
} as const;

/**
 * What connects behind the machine fits between it and the wall.
 *
 * A rule; its page is `docs/rules/placement/connections-behind.md`.
 */
export const connectionsBehind = defineRule({
  id: "placement/connections-behind",
  title: "What connects behind the machine fits between it and the wall",
  since: "0.1.0",
  input: connectionsBehindInput,
  basis: [sideBySide],
  limits: [closetFront],
  messages: {
    pass: {
      fits: "Room behind for the {what:text}: {need:inches} needed, {gap:inches} there, {left:inches} left.",
      nothing: "Nothing connects behind the machine.",
    },
    fail: {
      crushed:
        "Room behind for the {what:text}: {need:inches} needed, {gap:inches} there, {lack:inches} too little; pushed in regardless, it is crushed.",
    },
    review: {
      linesUnknown: "What connects behind the machine was not listed.",
      gapUnknown:
        "The space behind the machine is not known: measure it, or the depth of the place and of the machine.",
    },
  },
  remedies,
  cautions: ["movingConnected", "fire", "water", "mains", "deferral"],
  examples: [
    {
      title: "Vent, cord and hoses in 5 in",
      input: {
        kind: "stack",
        fuel: "electric",
        gaps: { behind: "5 in" },
        lines: [
          { what: "vent connection", onWall: "0 in", fitting: "4 1/2 in", bend: "0 in" },
          { what: "power cord", onWall: "1/4 in", fitting: "1 1/2 in", bend: "1 in" },
          { what: "water hoses", onWall: "1 1/2 in", fitting: "3/4 in", bend: "2 in" },
        ],
      },
      gives: "fits",
    },
    {
      title: "A closet an inch too shallow",
      input: {
        kind: "dryer",
        fuel: "electric",
        body: { depth: "30 in" },
        depth: "35 in",
        lines: [
          { what: "vent connection", onWall: "1/2 in", fitting: "4 1/2 in", bend: "0 in" },
          { what: "power cord", onWall: "1/4 in", fitting: "1 1/2 in", bend: "1 in" },
        ],
      },
      gives: "crushed",
    },
    {
      title: "Nothing behind",
      input: { kind: "refrigerator", fuel: "none", gaps: { behind: "1 in" }, lines: [] },
      gives: "nothing",
    },
    {
      title: "Connections not listed",
      input: { kind: "dryer", fuel: "electric", gaps: { behind: "5 in" } },
      gives: "linesUnknown",
    },
    {
      title: "Space behind not measured",
      input: {
        kind: "dryer",
        fuel: "electric",
        lines: [{ what: "power cord", onWall: "1/4 in", fitting: "1 1/2 in", bend: "1 in" }],
      },
      gives: "gapUnknown",
    },
  ],
  check({ kind, fuel, body = {}, depth, gaps = {}, lines }, { limit, formula, judge, say, missing, all }) {
    if (lines === undefined) return missing(["linesUnknown"], ["lines"]);
    if (lines.length === 0) return say("nothing");
    const gap = ((): Length | undefined => {
      if (gaps.behind !== undefined) return gaps.behind;
      if (depth === undefined || body.depth === undefined) return undefined;
      const front = brand<"length">(limit(closetFront, fuel, { kind })?.value ?? 0);
      const left = brand<"length">(depth - body.depth - front);
      formula("{behind:inches} = {depth:inches} - {body:inches} - {front:inches}", {
        behind: left,
        depth,
        body: body.depth,
        front,
      });
      return left;
    })();
    if (gap === undefined) {
      const paths = [
        ...(depth === undefined ? [["depth"]] : []),
        ...(body.depth === undefined ? [["body", "depth"]] : []),
      ];
      return missing(["gapUnknown"], ["gaps", "behind"], ...paths);
    }
    const outcomes = lines.map((line): { need: Length; outcome: Outcome } => {
      const need = depthOf(line);
      const { what, onWall, fitting, bend, recess = zero } = line;
      if (need > 0)
        formula("{need:inches} = {onWall:inches} + {fitting:inches} + {bend:inches} - {recess:inches}", {
          need,
          onWall,
          fitting,
          bend,
          recess,
        });
      const outcome = judge({
        kind: "inches",
        measured: gap,
        limit: need,
        sense: "atLeast",
        pass: ["fits", { what, need, gap, left: brand<"length">(gap - need) }],
        fail: ["crushed", { what, need, gap, lack: brand<"length">(need - gap) }],
      });
      return { need, outcome };
    });
    // The deepest first, so that it is the one the finding speaks of.
    return all(...outcomes.toSorted((a, b) => b.need - a.need).map(({ outcome }) => outcome));
  },
  mend({ kind, body = {}, depth, gaps = {}, lines = [] }) {
    const front = printedSi(closetFront.values[0]!.value);
    const isLaundry = kind === "dryer" || kind === "washer" || kind === "stack";
    const gap =
      gaps.behind ??
      (depth === undefined || body.depth === undefined
        ? undefined
        : brand<"length">(depth - body.depth - (isLaundry ? front : 0)));
    if (gap === undefined || gap < 0) return [];
    const deep = lines.flatMap((line, i) => {
      const over = depthOf(line) - gap;
      return over > 0 ? [{ i, what: line.what, recess: brand<"length">((line.recess ?? 0) + over) }] : [];
    });
    const worst = deep.toSorted((a, b) => b.recess - a.recess)[0];
    if (worst === undefined || worst.recess > si(usualWall.studDepth, "in")) return [];
    const proposal: Proposal<typeof remedies> = {
      change: deep.map(({ i, recess }) => ({ path: ["lines", i, "recess"], value: recess, unit: "in" })),
      say: ["recess", { what: worst.what, recess: worst.recess }],
    };
    return [proposal];
  },
});
