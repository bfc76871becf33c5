import * as z from "zod";
import { type Angle, brand, type Length, si } from "../core/quantity/index.js";
import { defineRule, type Outcome, type Proposal, quantity, type Read } from "../core/rule/index.js";
import { cornerClearance } from "../physics/corner.js";
import { corridorForDoorway, doorClearWidth } from "../physics/doorway.js";
import { shortestCarry, tiltedHeight } from "../physics/tilt.js";
import { geometry, usualFrame } from "./basis.js";
import { bodyInput } from "./body.js";
import { usualDoor } from "./tables/doors.js";

const clear = () => quantity("length", { min: [1, "in"], max: [100, "ft"] });
const size = () => quantity("length", { min: [1, "in"], max: [12, "ft"] });
const name = (example: string) => z.string().min(1).max(60).describe(`What to call it, for example "${example}"`);
const height = () => clear().optional().describe("Clear height there, to the lowest lamp, beam or door head");

/** One spot of the way in. */
const spotInput = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("doorway"),
    name: name("front door"),
    clear: clear()
      .optional()
      .describe("Clear width, from the face of the open leaf to the stop opposite, where measured"),
    leaf: z
      .strictObject({
        width: size().describe("Width of the leaf"),
        thickness: quantity("length", { max: [6, "in"] }).describe("Thickness of the leaf"),
        gap: quantity("length", { max: [2, "in"] })
          .optional()
          .describe("Gap between leaf and frame at each side"),
        stop: quantity("length", { max: [3, "in"] })
          .optional()
          .describe("How far the stop stands out from the frame"),
        place: z
          .enum(["square", "folded back", "off"])
          .describe("Leaf open at a right angle, folded back against the wall, or lifted off its hinges"),
      })
      .optional()
      .describe("The door, where its clear width was not measured"),
    height: clear().describe("Clear height from threshold to head"),
    corridor: clear()
      .optional()
      .describe("Width of the corridor one turns from into this doorway; leave out where one comes straight on"),
  }),
  z.strictObject({
    kind: z.literal("corridor"),
    name: name("hall"),
    width: clear().describe("Clear width at the narrowest: rails, radiators and trim counted"),
    height: height(),
  }),
  z.strictObject({
    kind: z.literal("corner"),
    name: name("turn to the laundry"),
    first: clear().describe("Clear width of the corridor before the corner"),
    second: clear().describe("Clear width of the corridor after it"),
    angle: quantity("angle", { min: [30, "deg"], max: [170, "deg"] })
      .optional()
      .describe("Angle between the outer walls: 90° for a square corner, more for a gentler one; 90° where left out"),
    height: height(),
  }),
  z.strictObject({
    kind: z.literal("stairs"),
    name: name("basement stairs"),
    width: clear().describe("Clear width between wall or rail and the other side"),
    headroom: clear().describe("Clear height straight up from the line of the nosings, at the lowest"),
    riser: quantity("length", { min: [1, "in"], max: [20, "in"] }).describe("Height of a step"),
    tread: quantity("length", { min: [3, "in"], max: [4, "ft"] }).describe("Depth of a step, nosing to nosing"),
  }),
  z.strictObject({
    kind: z.literal("landing"),
    name: name("landing"),
    width: clear().describe("Clear width of the stairs that meet it"),
    depth: clear().describe("Depth of the landing, from the last step to the wall"),
    height: height(),
  }),
  z.strictObject({
    kind: z.literal("lift"),
    name: name("lift"),
    doorWidth: clear().describe("Clear width of its door"),
    doorHeight: clear().describe("Clear height of its door"),
    width: clear().describe("Inside width of the cab"),
    depth: clear().describe("Inside depth of the cab, from door to back"),
    height: clear().describe("Inside height of the cab"),
  }),
]);

const boxed = z.strictObject({
  width: size().describe("Width of the carton"),
  depth: size().describe("Depth of the carton"),
  height: size().describe("Height of the carton with its pallet"),
});

export const passageInput = z.strictObject({
  body: bodyInput,
  carton: boxed.optional().describe("Outside sizes of its carton"),
  inCarton: z.boolean().optional().describe("Whether it is brought in in its carton; bare where left out"),
  feetHeight: quantity("length", { max: [12, "in"] })
    .optional()
    .describe("How much lower the bare machine is with its feet screwed off"),
  feetOff: z.boolean().optional().describe("Whether the feet are off on the way in"),
  lying: z
    .enum(["upright only", "on its back", "on its side", "on back or side"])
    .optional()
    .describe("How the maker lets it be carried; upright only where left out"),
  truckTilt: quantity("angle", { min: [0, "deg"], max: [80, "deg"] })
    .optional()
    .describe("How far it leans back on the hand truck, from upright, where one is used"),
  hands: quantity("length", { max: [12, "in"] })
    .optional()
    .describe("Room for hands or straps on each side of the machine"),
  way: z
    .array(spotInput)
    .max(60)
    .optional()
    .describe("Every spot of the way in, in order, from the street to its place"),
});

type Input = Read<z.output<typeof passageInput>>;
type Spot = NonNullable<Input["way"]>[number];

/** One way to hold the machine: its outline in plan and its height, moving along its length. */
interface Hold {
  readonly how: string;
  readonly along: Length;
  readonly across: Length;
  readonly height: Length;
  /** Headroom it takes on stairs of a pitch. */
  readonly onStairs: (pitch: Angle) => Length;
  /** Laid down, it may be lifted at one end where it has to turn. */
  readonly lifts: boolean;
}

/** Something a spot asks of one hold. */
interface Check {
  readonly what: string;
  readonly have: Length;
  readonly need: Length;
}

const len = (value: number): Length => brand<"length">(value);

/**
 * Headroom that a box leaning uphill by a tilt takes on stairs, straight up from the line of the nosings [m].
 *
 * (h·cos(t + φ) + d·sin(t + φ))/cos φ: upright h + d·tan φ, along the stairs d/cos φ. Add what the truck's wheels lift it.
 *
 * @param height - h of the upright box [m]
 * @param depth - d along the travel [m]
 * @param tilt - t from upright, uphill [rad]
 * @param pitch - φ of the stairs, below a right angle [rad]
 * @example stairNeedTilted(si(38, "in"), si(27, "in"), si(0, "deg"), brand(Math.atan(7.75 / 10))) // 1.496695
 */
export function stairNeedTilted(height: Length, depth: Length, tilt: Angle, pitch: Angle): Length {
  const lean = brand<"angle">(Math.min(Math.PI / 2, tilt + pitch));
  return len(tiltedHeight(height, depth, lean) / Math.cos(pitch));
}

function holdsOf(sizes: { width: Length; depth: Length; height: Length }, lying: string, truckTilt?: Angle): Hold[] {
  const { width: w, depth: d, height: h } = sizes;
  const upright = brand<"angle">(0);
  const stand = (how: string, along: Length, across: Length): Hold => ({
    how,
    along,
    across,
    height: h,
    onStairs: (pitch) => stairNeedTilted(h, along, upright, pitch),
    lifts: false,
  });
  const lay = (how: string, across: Length, thick: Length): Hold => ({
    how,
    along: h,
    across,
    height: thick,
    onStairs: (pitch) => len(thick / Math.cos(pitch)),
    lifts: true,
  });
  const holds = [stand("upright", d, w), stand("upright and sideways", w, d)];
  if (truckTilt !== undefined && truckTilt > 0) {
    holds.push({
      how: "leaning on the hand truck",
      along: len(d * Math.cos(truckTilt) + h * Math.sin(truckTilt)),
      across: w,
      height: tiltedHeight(h, d, truckTilt),
      onStairs: (pitch) => stairNeedTilted(h, d, truckTilt, pitch),
      lifts: false,
    });
  }
  if (lying === "on its back" || lying === "on back or side") holds.push(lay("on its back", w, d));
  if (lying === "on its side" || lying === "on back or side") holds.push(lay("on its side", d, w));
  return holds;
}

const doorWidth = (leaf: NonNullable<Extract<Spot, { kind: "doorway" }>["leaf"]>): Length =>
  doorClearWidth(
    {
      leaf: leaf.width,
      thickness: leaf.thickness,
      gap: leaf.gap ?? si(usualDoor.gap, "in"),
      stop: leaf.stop ?? si(usualDoor.insideStop, "in"),
    },
    leaf.place === "folded back" ? "foldedBack" : leaf.place,
  );

/** What a spot asks of a hold, hands counted on both sides. */
function checksOf(spot: Spot, hold: Hold, hands: Length): Check[] {
  const across = len(hold.across + 2 * hands);
  const wide = (have: Length): Check => ({ what: "of width", have, need: across });
  const high = (have: Length | undefined): Check[] =>
    have === undefined ? [] : [{ what: "of height", have, need: hold.height }];
  const turn = (first: Length, second: Length, angle: Angle | undefined, room: Length | undefined): Check[] => {
    // Laid down it may be lifted at one end as far as the ceiling lets it, which makes it shorter in plan.
    const lifted =
      hold.lifts && room !== undefined && hold.height <= room
        ? shortestCarry(hold.along, hold.height, room)?.plan
        : undefined;
    const outline = { length: lifted ?? hold.along, width: across };
    const spare = cornerClearance({ first, second, ...(angle === undefined ? {} : { angle }) }, outline);
    return [{ what: "of width as it turns", have: len(across + spare), need: across }, ...high(room)];
  };
  switch (spot.kind) {
    case "doorway": {
      const have = spot.clear ?? doorWidth(spot.leaf!);
      const from = spot.corridor;
      const turns =
        from === undefined || have <= 0 ? undefined : corridorForDoorway(have, { length: hold.along, width: across });
      return [
        wide(have),
        ...high(spot.height),
        ...(from === undefined || turns === undefined
          ? []
          : [{ what: "of corridor to turn in from", have: from, need: turns.thickWall }]),
      ];
    }
    case "corridor":
      return [wide(spot.width), ...high(spot.height)];
    case "corner":
      return turn(spot.first, spot.second, spot.angle, spot.height);
    case "landing":
      return turn(spot.width, spot.depth, undefined, spot.height);
    case "stairs": {
      const pitch = brand<"angle">(Math.atan2(spot.riser, spot.tread));
      return [wide(spot.width), { what: "of headroom", have: spot.headroom, need: hold.onStairs(pitch) }];
    }
    case "lift":
      return [
        wide(len(Math.min(spot.doorWidth, spot.width))),
        ...high(len(Math.min(spot.doorHeight, spot.height))),
        { what: "of depth", have: spot.depth, need: hold.along },
      ];
  }
}

const room = ({ have, need }: Check): number => have - need;
const tightest = (checks: readonly Check[]): Check =>
  checks.reduce((tight, check) => (room(check) < room(tight) ? check : tight));

/** The hold that leaves a spot most room, and its tightest measure there. */
function bestAt(spot: Spot, holds: readonly Hold[], hands: Length): { readonly hold: Hold; readonly check: Check } {
  return holds
    .map((hold) => ({ hold, check: tightest(checksOf(spot, hold, hands)) }))
    .reduce((best, one) => (room(one.check) > room(best.check) + 1e-12 ? one : best));
}

const remedies = {
  bare: "Take it out of its carton before it goes in.",
  feetOff: "Screw its feet off for the way in.",
  doorOff: "Lift the door off its hinges: {doors:text}.",
  several: "Do several things: {what:text}.",
} as const;

/** The machine gets through every spot of the way in. A rule; its page is `docs/rules/placement/passage.md`. */
export const passage = defineRule({
  id: "placement/passage",
  title: "The machine gets through every spot of the way in",
  since: "0.1.0",
  input: passageInput,
  basis: [geometry],
  limits: [],
  messages: {
    pass: {
      tightest:
        "The tightest spot is the {spot:text}: {how:text} the machine takes {need:inches} of {have:inches} {what:text}, {left:inches} to spare.",
      passes:
        "At the {spot:text}, {how:text}, the machine takes {need:inches} of {have:inches} {what:text}, {left:inches} to spare.",
      noSpots: "There is nothing on the way in.",
    },
    fail: {
      stuck:
        "At the {spot:text} the machine does not pass: {how:text}, which is its best, it needs {need:inches} {what:text}, and {have:inches} is there, {lack:inches} too little.",
    },
    review: {
      wayUnknown: "The way in was not measured.",
      sizeUnknown: "The sizes of the machine as it is brought in were not all measured.",
      doorUnknown: "The doorway {spot:text} was not measured: neither its clear width nor its leaf.",
    },
  },
  remedies,
  cautions: ["lifting", "tipOver", "movingConnected"],
  examples: [
    {
      title: "A washer through a front door, a hall and down the stairs",
      input: {
        body: { width: "27 in", depth: "30 in", height: "39 in" },
        way: [
          { kind: "doorway", name: "front door", clear: "33 in", height: "79 in" },
          { kind: "corridor", name: "hall", width: "38 in" },
          { kind: "corner", name: "turn to the stairs", first: "38 in", second: "36 in" },
          {
            kind: "stairs",
            name: "basement stairs",
            width: "34 in",
            headroom: "78 in",
            riser: "7 3/4 in",
            tread: "10 in",
          },
          { kind: "landing", name: "bottom landing", width: "34 in", depth: "38 in", height: "80 in" },
          {
            kind: "lift",
            name: "lift",
            doorWidth: "36 in",
            doorHeight: "84 in",
            width: "50 in",
            depth: "55 in",
            height: "88 in",
          },
        ],
      },
      gives: "tightest",
    },
    {
      title: "A corner only a bare machine gets round",
      input: {
        body: { width: "27 in", depth: "33 in", height: "43 in" },
        carton: { width: "30 in", depth: "36 in", height: "47 in" },
        inCarton: true,
        way: [{ kind: "corner", name: "turn to the laundry", first: "33 in", second: "32 in" }],
      },
      gives: "stuck",
    },
    {
      title: "A door whose leaf takes the room",
      input: {
        body: { width: "29 in", depth: "32 in", height: "39 in" },
        way: [
          {
            kind: "doorway",
            name: "laundry door",
            leaf: { width: "30 in", thickness: "1 3/8 in", place: "square" },
            height: "79 in",
          },
        ],
      },
      gives: "stuck",
    },
    {
      title: "A machine that stands near the door",
      input: { body: { width: "27 in", depth: "30 in", height: "39 in" }, way: [] },
      gives: "noSpots",
    },
    { title: "The way was not measured", input: { body: { width: "27 in" } }, gives: "wayUnknown" },
    {
      title: "The machine was not measured",
      input: { body: { width: "27 in" }, way: [{ kind: "corridor", name: "hall", width: "38 in" }] },
      gives: "sizeUnknown",
    },
    {
      title: "A doorway was not measured",
      input: {
        body: { width: "27 in", depth: "30 in", height: "39 in" },
        way: [{ kind: "doorway", name: "laundry door", height: "79 in" }],
      },
      gives: "doorUnknown",
    },
  ],
  check(input, { judge, say, missing, all, assume, rest, formula }) {
    const { body = {}, carton, inCarton = false, feetHeight, feetOff = false, lying, truckTilt, way } = input;
    if (way === undefined) return missing(["wayUnknown"], ["way"]);
    if (way.length === 0) return say("noSpots");
    const box = inCarton ? (carton ?? {}) : body;
    const { width, depth } = box;
    const off = !inCarton && feetOff && feetHeight !== undefined ? feetHeight : 0;
    const tall = box.height === undefined ? undefined : len(Math.max(box.height - off, 0.01));
    if (width === undefined || depth === undefined || tall === undefined) {
      if (inCarton) return missing(["sizeUnknown"], ["carton"]);
      const unknown = (["width", "depth", "height"] as const).filter((side) => body[side] === undefined);
      return missing(["sizeUnknown"], ...unknown.map((side) => ["body", side]));
    }
    if (lying === undefined) assume("Whether the maker lets it be laid down was not said: it stays upright.");
    if (input.hands === undefined) assume("No room for hands or straps is counted.");
    const hands = input.hands ?? len(0);
    const holds = holdsOf({ width, depth, height: tall }, lying ?? "upright only", truckTilt);

    const known: { spot: Spot; hold: Hold; check: Check }[] = [];
    const unknown: Outcome[] = [];
    for (const [i, spot] of way.entries()) {
      if (spot.kind === "doorway" && spot.clear === undefined) {
        if (spot.leaf === undefined) {
          unknown.push(missing(["doorUnknown", { spot: spot.name }], ["way", i, "clear"]));
          continue;
        }
        if (spot.leaf.gap === undefined || spot.leaf.stop === undefined) {
          rest(usualFrame);
          assume("Gap and stop of a door frame that were not measured: 1/8 in and 1/2 in are assumed.");
        }
      }
      if ((spot.kind === "corridor" || spot.kind === "corner" || spot.kind === "landing") && spot.height === undefined)
        assume("Where no height was given the ceiling is taken to be out of reach.");
      known.push({ spot, ...bestAt(spot, holds, hands) });
    }
    const least = Math.min(...known.map(({ check }) => room(check)));
    const judged = known.map(({ spot, hold, check }) => {
      const { what, have, need } = check;
      if (spot.kind === "stairs" && what === "of headroom" && hold.how.startsWith("upright"))
        formula("{headroom:inches} = {height:inches} + {depth:inches} * {riser:inches} / {tread:inches}", {
          headroom: need,
          height: hold.height,
          depth: hold.along,
          riser: spot.riser,
          tread: spot.tread,
        });
      if (spot.kind === "doorway" && spot.clear === undefined && spot.leaf?.place === "square" && what === "of width")
        formula("{clear:inches} = {leaf:inches} + {gap:inches} - {thickness:inches} - {stop:inches}", {
          clear: have,
          leaf: spot.leaf.width,
          gap: spot.leaf.gap ?? si(usualDoor.gap, "in"),
          thickness: spot.leaf.thickness,
          stop: spot.leaf.stop ?? si(usualDoor.insideStop, "in"),
        });
      const outcome = judge({
        kind: "inches",
        measured: have,
        limit: need,
        sense: "atLeast",
        pass: [
          room(check) === least ? "tightest" : "passes",
          { spot: spot.name, how: hold.how, what, need, have, left: len(have - need) },
        ],
        fail: ["stuck", { spot: spot.name, how: hold.how, what, need, have, lack: len(need - have) }],
      });
      return { left: room(check), outcome };
    });
    // The tightest first, so that it is the one the finding speaks of.
    return all(...judged.toSorted((a, b) => a.left - b.left).map(({ outcome }) => outcome), ...unknown);
  },
  mend({ inCarton, feetHeight, feetOff, way = [] }) {
    type Step = { readonly words: string; readonly change: { path: (string | number)[]; value: unknown }[] };
    const doors = way.flatMap((spot, i): Step[] =>
      spot.kind === "doorway" && spot.clear === undefined && spot.leaf !== undefined && spot.leaf.place !== "off"
        ? [{ words: spot.name, change: [{ path: ["way", i, "leaf", "place"], value: "off" }] }]
        : [],
    );
    const bare: Step = { words: "take it out of its carton", change: [{ path: ["inCarton"], value: false }] };
    const feet: Step = { words: "screw its feet off", change: [{ path: ["feetOff"], value: true }] };
    const proposals: Proposal<typeof remedies>[] = [];
    const list = (steps: readonly Step[]) => steps.map(({ words }) => words).join(", ");
    for (const door of doors) proposals.push({ change: door.change, say: ["doorOff", { doors: door.words }] });
    const allDoors = doors.flatMap(({ change }) => change);
    if (doors.length > 1) proposals.push({ change: allDoors, say: ["doorOff", { doors: list(doors) }] });
    const canBare = inCarton === true;
    const canFeet = feetOff !== true && feetHeight !== undefined && !canBare;
    if (canBare) proposals.push({ change: bare.change, say: ["bare"] });
    if (canFeet) proposals.push({ change: feet.change, say: ["feetOff"] });
    const off: Step = { words: "lift the doors off their hinges", change: allDoors };
    const together = [
      ...(canBare && doors.length > 0 ? [[bare, off]] : []),
      ...(canFeet && doors.length > 0 ? [[feet, off]] : []),
      ...(canBare && feetHeight !== undefined ? [[bare, feet]] : []),
      ...(canBare && feetHeight !== undefined && doors.length > 0 ? [[bare, feet, off]] : []),
    ];
    for (const steps of together)
      proposals.push({ change: steps.flatMap(({ change }) => change), say: ["several", { what: list(steps) }] });
    return proposals;
  },
});
