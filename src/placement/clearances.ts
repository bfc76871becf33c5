import * as z from "zod";
import { type Governing, type Limit, printedSi } from "../core/basis/index.js";
import { brand, type Length } from "../core/quantity/index.js";
import {
  defineRule,
  machineFacts,
  type Outcome,
  type Path,
  type Proposal,
  quantity,
  type Read,
} from "../core/rule/index.js";
import { smallestOpening } from "./basis.js";
import { bodyInput, gapsInput } from "./body.js";
import { behindClearance, closetDoorOpen, closetFront, sideClearance, topClearance, workingSpace } from "./limits.js";

/** What may stand between a machine and the wall behind it. */
export const connectionKinds = [
  "vent connection",
  "power cord",
  "water hoses",
  "drain hose",
  "gas connector",
  "outlet box",
] as const;

const opening = () => quantity("length", { max: [100, "ft"] }).optional();

export const clearancesInput = z.strictObject({
  kind: machineFacts.kind,
  fuel: machineFacts.fuel,
  place: z
    .enum(["closet", "alcove", "room"])
    .optional()
    .describe("closet: a door closes in front of it; alcove: walls on three sides, open in front; room: neither"),
  body: bodyInput,
  opening: z
    .strictObject({
      width: opening().describe("Clear width of the place: measure low, middle and high and take the smallest"),
      depth: opening().describe("Clear depth from the wall behind to the closed door in front, baseboards counted"),
      height: opening().describe("Clear height from the floor to the lowest thing above"),
    })
    .optional()
    .describe("Clear sizes of the place, before the machine stands in it"),
  gaps: gapsInput,
  connections: z
    .array(
      z.strictObject({
        what: z.enum(connectionKinds).describe("What stands out behind the machine"),
        takes: quantity("length", { max: [4, "ft"] }).describe(
          "How much room it needs from the wall, connected and bent as it will stay",
        ),
      }),
    )
    .max(20)
    .optional()
    .describe("What stands between the machine's back and the wall; an empty list where there is nothing"),
  overhead: z
    .enum(["combustible", "protected"])
    .optional()
    .describe("What is above a cooking top: bare combustible material or cabinet, or one protected as the code says"),
  closetDoor: z
    .enum(["louvred", "top and bottom", "solid", "none"])
    .optional()
    .describe("How the closet door lets air through: louvres, openings top and bottom, not at all, or no door fitted"),
  workingSpace: z
    .strictObject({
      depth: opening().describe("Level floor free in front of the controls, outwards from the machine, doors open"),
      width: opening().describe("Level floor free in front of the controls, from side to side"),
    })
    .optional()
    .describe("Level floor in front of the machine for whoever services it"),
});

type Input = Read<z.output<typeof clearancesInput>>;
type Connection = NonNullable<Input["connections"]>[number];

/** The connection that stands out furthest, if any. */
function deepest(connections: readonly Connection[] = []): Connection | undefined {
  return connections.reduce<Connection | undefined>(
    (most, one) => (most === undefined || one.takes > most.takes ? one : most),
    undefined,
  );
}

/**
 * Size that a place needs for a machine and the free space before and after it [m].
 *
 * need = body + one + other, all in the same direction. Joining kits and feet belong to the body.
 *
 * @param body - size of the machine [m]
 * @param one - free space on one side [m]
 * @param other - free space on the other side [m]
 * @example openingNeeded(si(27, "in"), si(1, "in"), si(1, "in")) // 0.7366
 */
export function openingNeeded(body: Length, one: Length, other: Length): Length {
  return brand<"length">(body + one + other);
}

const remedies = {
  shallower:
    "Bring the {what:text} down to {takes:inches} behind the machine: recess the box, use an offset elbow or turn the outlet.",
  louvredDoor: "Fit a louvred door, or cut openings at top and bottom.",
  shallowerAndLouvred: "Fit a louvred door, and bring the {what:text} down to {takes:inches} behind the machine.",
} as const;

/**
 * The machine has its free space on every side, everything connected.
 *
 * A rule; its page is `docs/rules/placement/clearances.md`.
 */
export const clearances = defineRule({
  id: "placement/clearances",
  title: "The machine has its free space on every side, everything connected",
  since: "0.1.0",
  input: clearancesInput,
  basis: [],
  limits: [sideClearance, topClearance, behindClearance, closetFront, closetDoorOpen, workingSpace],
  messages: {
    pass: {
      clear: "{gap:inches} is free {side:text}; {need:inches} is needed.",
      fits: "The opening's {way:text} of {opening:inches} takes the machine and its free space: {need:inches} is needed.",
      doorBreathes: "The closet door lets air through.",
      canBeServiced: "{free:inches} of level floor is free in front of it, {way:text}; {need:inches} is needed.",
    },
    fail: {
      tight: "Only {gap:inches} is free {side:text}, {lack:inches} less than the {need:inches} needed{why:text}.",
      tooSmall:
        "The opening's {way:text} of {opening:inches} is {lack:inches} short: the machine and its free space need {need:inches}{why:text}.",
      doorSolid: "The closet door lets no air through.",
      noRoomToService:
        "Only {free:inches} of level floor is free in front of it, {way:text}: {lack:inches} less than the {need:inches} needed.",
    },
    review: {
      placeUnknown: "Whether the machine stands in a closet, an alcove or open in a room was not said.",
      notMeasured: "The free space {side:text} was not measured, nor can it be worked out; {need:inches} is needed.",
      noFigure: "No text adopted here says how much space this machine needs {side:text}; use the maker's sheet.",
      doorUnknown: "Whether the closet door lets air through was not noted.",
      serviceUnknown: "The level floor in front of the machine, {way:text}, is not known; {need:inches} is needed.",
    },
    notApplicable: { hangs: "A hood hangs above the range; how high is a matter of venting." },
  },
  remedies,
  cautions: ["movingConnected", "lifting", "fire", "deferral"],
  examples: [
    {
      title: "A dryer in a closet with louvred door",
      input: {
        kind: "dryer",
        fuel: "electric",
        place: "closet",
        body: { width: "27 in", depth: "30 in", height: "39 in" },
        opening: { width: "30 in", depth: "36 1/2 in", height: "84 in" },
        connections: [
          { what: "vent connection", takes: "4 1/2 in" },
          { what: "power cord", takes: "3 in" },
        ],
        closetDoor: "louvred",
        workingSpace: { depth: "36 in", width: "40 in" },
      },
      gives: "fits",
    },
    {
      title: "A closet an inch too shallow",
      input: {
        kind: "dryer",
        fuel: "electric",
        place: "closet",
        body: { width: "27 in", depth: "30 in", height: "39 in" },
        opening: { width: "30 in", depth: "35 in", height: "84 in" },
        connections: [
          { what: "vent connection", takes: "5 in" },
          { what: "power cord", takes: "3 in" },
        ],
        closetDoor: "louvred",
        workingSpace: { depth: "36 in", width: "40 in" },
      },
      gives: "tooSmall",
    },
    {
      title: "A washer standing in a room, a hand too near the wall",
      input: {
        kind: "washer",
        fuel: "none",
        place: "room",
        gaps: { left: "1/2 in", right: "20 in", top: "50 in", behind: "6 in" },
        workingSpace: { depth: "48 in", width: "40 in" },
      },
      gives: "tight",
    },
    {
      title: "A washer standing in a room",
      input: {
        kind: "washer",
        fuel: "none",
        place: "room",
        gaps: { left: "1 in", right: "20 in", top: "50 in", behind: "6 in" },
        workingSpace: { depth: "48 in", width: "40 in" },
      },
      gives: "clear",
    },
    {
      title: "A closet behind a solid door",
      input: {
        kind: "stack",
        fuel: "electric",
        place: "closet",
        gaps: { left: "1 in", right: "1 in", top: "12 in", behind: "5 in", front: "2 in" },
        closetDoor: "solid",
        workingSpace: { depth: "36 in", width: "40 in" },
      },
      gives: "doorSolid",
    },
    {
      title: "The closet door was not noted",
      input: {
        kind: "stack",
        fuel: "electric",
        place: "closet",
        gaps: { left: "1 in", right: "1 in", top: "12 in", behind: "5 in", front: "2 in" },
        workingSpace: { depth: "36 in", width: "40 in" },
      },
      gives: "doorUnknown",
    },
    {
      title: "A narrow corridor in front",
      input: {
        kind: "dryer",
        fuel: "electric",
        place: "alcove",
        gaps: { left: "1 in", right: "1 in", top: "12 in", behind: "5 in" },
        workingSpace: { depth: "28 in", width: "40 in" },
      },
      gives: "noRoomToService",
    },
    { title: "Only the kind of machine is known", input: { kind: "dryer", fuel: "electric" }, gives: "placeUnknown" },
    {
      title: "The back was not measured",
      input: {
        kind: "dryer",
        fuel: "electric",
        place: "room",
        gaps: { left: "1 in", right: "1 in", top: "12 in" },
        workingSpace: { depth: "36 in", width: "40 in" },
      },
      gives: "notMeasured",
    },
    {
      title: "A refrigerator, for which the texts give no figures",
      input: { kind: "refrigerator", fuel: "none", place: "room", workingSpace: { depth: "40 in", width: "40 in" } },
      gives: "noFigure",
    },
    {
      title: "The floor in front was not measured",
      input: {
        kind: "dryer",
        fuel: "electric",
        place: "room",
        gaps: { left: "1 in", right: "1 in", top: "12 in", behind: "5 in" },
      },
      gives: "serviceUnknown",
    },
    { title: "A range hood", input: { kind: "hood", fuel: "none" }, gives: "hangs" },
  ],
  check(input, { limit, formula, judge, say, missing, all, rest, assume }) {
    const { kind, fuel, place, body = {}, opening = {}, gaps = {}, connections, closetDoor } = input;
    if (kind === "hood") return say("hangs");
    if (place === undefined) return missing(["placeUnknown"], ["place"]);

    if ((kind === "range" || kind === "cooktop") && input.overhead === undefined)
      assume("What is above the cooking top was not said: bare combustible material is assumed.");
    const overhead = input.overhead ?? "combustible";
    if (connections === undefined && (kind === "dryer" || kind === "washer" || kind === "stack"))
      assume("What stands behind the machine was not listed: the customary allowance for it is taken.");
    const ask = (one: Limit): Governing | undefined =>
      limit(one, fuel, { kind, overhead, connections: connections === undefined ? "assumed" : "measured" });

    const side = ask(sideClearance);
    const top = ask(topClearance);
    const rear = ask(behindClearance);
    const front = place === "closet" ? ask(closetFront) : undefined;
    const outermost = deepest(connections);
    const behind = Math.max(rear?.value ?? 0, outermost?.takes ?? 0);
    // Behind, the wider of what the texts ask and what the connections take; only a connection list or a text makes a need.
    const behindKnown = rear !== undefined || outermost !== undefined;
    const forWhat = outermost !== undefined && outermost.takes >= behind ? ` for the ${outermost.what}` : "";

    const alone = (gap: Length, needed: number, words: string, why = "", governing?: Governing): Outcome => {
      const need = brand<"length">(needed);
      return judge({
        kind: "inches",
        measured: gap,
        limit: governing ?? need,
        sense: "atLeast",
        pass: ["clear", { gap, side: words, need }],
        fail: ["tight", { gap, side: words, need, lack: brand<"length">(need - gap), why }],
      });
    };
    const within = (way: string, size: Length, need: Length, why = ""): Outcome => {
      rest(smallestOpening);
      return judge({
        kind: "inches",
        measured: size,
        limit: need,
        sense: "atLeast",
        pass: ["fits", { way, opening: size, need }],
        fail: ["tooSmall", { way, opening: size, need, lack: brand<"length">(need - size), why }],
      });
    };
    const unknown = (words: string, needed: number, ...paths: Path[]): Outcome =>
      missing(["notMeasured", { side: words, need: brand<"length">(needed) }], ...paths);

    const acrossNeed = (): Outcome => {
      if (!side) return say("noFigure", { side: "at its sides" });
      const each = brand<"length">(side.value);
      if (gaps.left !== undefined || gaps.right !== undefined) {
        return all(
          gaps.left === undefined
            ? unknown("on the left", each, ["gaps", "left"])
            : alone(gaps.left, each, "on the left", "", side),
          gaps.right === undefined
            ? unknown("on the right", each, ["gaps", "right"])
            : alone(gaps.right, each, "on the right", "", side),
        );
      }
      if (body.width === undefined) return unknown("at the sides", each, ["body", "width"]);
      if (opening.width === undefined) return unknown("at the sides", each, ["opening", "width"]);
      const need = openingNeeded(body.width, each, each);
      formula("{need:inches} = {body:inches} + 2 * {side:inches}", { need, body: body.width, side: each });
      return within("width", opening.width, need);
    };

    const upNeed = (): Outcome => {
      if (!top) return say("noFigure", { side: "above it" });
      const over = brand<"length">(top.value);
      if (gaps.top !== undefined) return alone(gaps.top, over, "above", "", top);
      if (body.height === undefined) return unknown("above", over, ["body", "height"]);
      if (opening.height === undefined) return unknown("above", over, ["opening", "height"]);
      const need = openingNeeded(body.height, over, brand<"length">(0));
      formula("{need:inches} = {body:inches} + {top:inches}", { need, body: body.height, top: over });
      return within("height", opening.height, need);
    };

    const depthNeed = (): Outcome => {
      if (!behindKnown) return say("noFigure", { side: "behind it" });
      const back = brand<"length">(behind);
      const governing = rear !== undefined && rear.value >= behind ? rear : undefined;
      if (gaps.behind !== undefined) return alone(gaps.behind, back, "behind", forWhat, governing);
      if (place !== "closet") return unknown("behind", back, ["gaps", "behind"]);
      if (body.depth === undefined) return unknown("behind", back, ["body", "depth"]);
      if (opening.depth === undefined) return unknown("behind", back, ["opening", "depth"]);
      const ahead = brand<"length">(front?.value ?? 0);
      const need = openingNeeded(body.depth, back, ahead);
      formula("{need:inches} = {front:inches} + {body:inches} + {behind:inches}", {
        need,
        front: ahead,
        body: body.depth,
        behind: back,
      });
      return within("depth", opening.depth, need, forWhat === "" ? "" : `, with the ${outermost!.what} behind`);
    };

    const doorNeed = (): Outcome | undefined => {
      const wanted = ask(closetDoorOpen);
      if (place !== "closet" || !wanted || wanted.value === 0) return undefined;
      if (closetDoor === undefined) return missing(["doorUnknown"], ["closetDoor"]);
      return say(closetDoor === "solid" ? "doorSolid" : "doorBreathes");
    };

    const frontGap =
      front !== undefined && gaps.front !== undefined
        ? alone(gaps.front, front.value, "in front of the knobs", "", front)
        : undefined;

    const serviceNeed = (way: string, free: Length | undefined, field: "depth" | "width"): Outcome | undefined => {
      const governing = ask(workingSpace);
      if (!governing) return undefined;
      const need = brand<"length">(governing.value);
      if (free === undefined) return missing(["serviceUnknown", { way, need }], ["workingSpace", field]);
      return judge({
        kind: "inches",
        measured: free,
        limit: governing,
        pass: ["canBeServiced", { free, way, need }],
        fail: ["noRoomToService", { free, way, need, lack: brand<"length">(need - free) }],
      });
    };

    return all(
      depthNeed(),
      acrossNeed(),
      upNeed(),
      frontGap,
      doorNeed(),
      serviceNeed("measured outwards", input.workingSpace?.depth, "depth"),
      serviceNeed("measured from side to side", input.workingSpace?.width, "width"),
    );
  },
  mend({ kind, place, body = {}, opening = {}, gaps = {}, connections = [], closetDoor }) {
    const proposals: Proposal<typeof remedies>[] = [];
    const most = deepest(connections);
    const ahead = place === "closet" && gaps.behind === undefined ? printedSi(closetFront.values[0]!.value) : 0;
    const takes =
      gaps.behind ??
      (opening.depth !== undefined && body.depth !== undefined
        ? brand<"length">(opening.depth - body.depth - ahead)
        : undefined);
    const shallower =
      takes === undefined
        ? []
        : connections.flatMap(({ takes: now }, i) =>
            now > takes ? [{ path: ["connections", i, "takes"], value: takes, unit: "in" } as const] : [],
          );
    const louvred = [{ path: ["closetDoor"], value: "louvred" }];
    const fitting = shallower.length > 0 && most !== undefined && takes !== undefined && takes > 0;
    if (fitting) proposals.push({ change: shallower, say: ["shallower", { what: most.what, takes }] });
    if (closetDoor === "solid" && kind !== "washer") {
      proposals.push({ change: louvred, say: ["louvredDoor"] });
      if (fitting)
        proposals.push({
          change: [...shallower, ...louvred],
          say: ["shallowerAndLouvred", { what: most.what, takes }],
        });
    }
    return proposals;
  },
});
