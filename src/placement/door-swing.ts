import * as z from "zod";
import { type Angle, brand, type Length, si } from "../core/quantity/index.js";
import { defineRule, machineFacts, type Outcome, type Proposal, quantity, type Read } from "../core/rule/index.js";
import { box } from "../physics/plane.js";
import { boxPolygon, type Polygon } from "../physics/polygon.js";
import { freeOpening, type Leaf, leafOutline } from "../physics/swing.js";
import { doorOpensFully, geometry, usualLeaf } from "./basis.js";
import { bodyInput, gapsInput } from "./body.js";
import { roomDoorOpening } from "./limits.js";
import { usualDoor } from "./tables/doors.js";

/** How far off a thing that is there for good reaches: further than any laundry [m]. */
const FAR = 50;

const distance = () => quantity("length", { max: [100, "ft"] });
const signed = () => quantity("length", { min: [-100, "ft"], max: [100, "ft"] });
const leafSize = () => quantity("length", { min: [4, "in"], max: [8, "ft"] });
const thickness = () => quantity("length", { max: [1, "ft"] });
const opening = () => quantity("angle", { min: [10, "deg"], max: [190, "deg"] });

/** The machine's own door. */
const machineDoorInput = z
  .strictObject({
    hinge: z
      .enum(["left", "right", "bottom", "lid"])
      .describe("Side of the hinge as you face the machine; bottom: drops down; lid: lifts from the front"),
    length: leafSize().describe("From the hinge pin to the far edge of the door, handle counted"),
    thickness: thickness().describe(
      "How thick the door is outwards from the hinge pin, glass bulge and handle counted",
    ),
    inset: thickness().describe("From the machine's side to the hinge pin; 0 where they are in line"),
    opens: opening().describe("How far the door opens with nothing in the way, from the sheet"),
    reversible: z.boolean().optional().describe("Whether the door can be hung on the other side"),
  })
  .optional()
  .describe("The door of the machine");

/** A thing on the floor near the machine. */
const thingInput = z.strictObject({
  what: z.string().min(1).max(60).describe("What it is, in a word or two"),
  right: signed().describe("From the machine's left side to the thing's left side; minus where it starts further left"),
  width: distance().describe("Its width from left to right, as you face the machine"),
  ahead: signed().describe("From the machine's face out to the near side of the thing; minus where it stands beside"),
  depth: distance().describe("Its depth, going away from the machine"),
});

/** The door of the room. */
const roomDoorInput = z
  .strictObject({
    opensInto: z.enum(["this room", "away"]).describe("Which way it opens"),
    wall: z
      .enum(["facing", "left", "right", "behind"])
      .describe("Wall it is in: the one facing the machine, left or right of it, or the one behind it"),
    hinge: z.enum(["left", "right"]).describe("Side of the hinge as you stand in the room and face the door"),
    right: signed().describe("From the machine's left side to the hinge pin; minus where it is further left"),
    ahead: signed().describe("From the machine's face out to the hinge pin; minus where it is further back"),
    length: leafSize().describe("Width of the leaf"),
    thickness: thickness().optional().describe("Thickness of the leaf"),
    opens: opening().optional().describe("How far it has to open; 90° where left out"),
  })
  .optional()
  .describe("The door of the room, as it stands to the machine");

export const doorSwingInput = z.strictObject({
  kind: machineFacts.kind,
  body: bodyInput,
  door: machineDoorInput,
  gaps: gapsInput,
  facing: distance()
    .optional()
    .describe("From the machine's face out to the wall, counter or machine facing it; closet doors open"),
  sideWallsEnd: distance()
    .optional()
    .describe("How far the side walls reach out past the machine's face; 0 where it stands flush or proud"),
  things: z
    .array(thingInput)
    .max(50)
    .optional()
    .describe("What else stands near the machine; an empty list for nothing"),
  roomDoor: roomDoorInput,
});

type Input = Read<z.output<typeof doorSwingInput>>;
type Door = NonNullable<Input["door"]>;
type RoomDoor = NonNullable<Input["roomDoor"]>;
type Thing = NonNullable<Input["things"]>[number];

interface Obstacle {
  readonly what: string;
  readonly outline: Polygon;
}

const len = (value: number): Length => brand<"length">(value);
const zero = len(0);

/*
 * Plan of the machine and what is round it: x to the right as you face it, from its left side; y out of its face towards
 * you. From above that is a mirror image, which changes no distance and no angle of opening.
 */
const solid = (what: string, left: number, front: number, width: number, depth: number): Obstacle => ({
  what,
  outline: boxPolygon(box(left, front, width, depth)),
});
const thingOutline = ({ what, right, ahead, width, depth }: Thing): Obstacle => solid(what, right, ahead, width, depth);

/** The machine's door as a leaf in plan, hung left or right. */
function sideLeaf({ hinge, length, thickness: thick, inset, opens }: Door, width: Length): Leaf {
  const left = hinge === "left";
  return {
    hinge: { x: len(left ? inset : width - inset), y: zero },
    closed: brand<"angle">(left ? 0 : Math.PI),
    way: left ? 1 : -1,
    length,
    ahead: thick,
    behind: zero,
    opening: opens,
  };
}

/** A drop-down door or a lid from the side: x out of the machine's face, y up, from the hinge pin. */
function uprightLeaf({ hinge, length, thickness: thick, opens }: Door): Leaf {
  const drops = hinge === "bottom";
  return {
    hinge: { x: zero, y: zero },
    closed: brand<"angle">(drops ? Math.PI / 2 : 0),
    way: drops ? -1 : 1,
    length,
    ahead: thick,
    behind: zero,
    opening: opens,
  };
}

/** Headings for someone in the room who faces a wall: which way the right hand points, and which way the wall is. */
const facings = {
  facing: { wall: [0, 1], right: [-1, 0] },
  right: { wall: [1, 0], right: [0, 1] },
  left: { wall: [-1, 0], right: [0, -1] },
  behind: { wall: [0, -1], right: [1, 0] },
} as const;

/** The room's door as a leaf in plan. Butt hinges have the leaf's thickness on the side away from the swing. */
function roomLeaf({ wall, hinge, right, ahead, length, opens }: RoomDoor, thick: Length, least: Angle): Leaf {
  const { wall: out, right: hand } = facings[wall];
  const [ux, uy] = hinge === "left" ? hand : [-hand[0], -hand[1]];
  return {
    hinge: { x: right, y: ahead },
    closed: brand<"angle">(Math.atan2(uy, ux)),
    // Opens away from the wall: the turn from along the leaf to into the room.
    way: ux * -out[1] - uy * -out[0] > 0 ? 1 : -1,
    length,
    ahead: zero,
    behind: thick,
    opening: opens ?? least,
  };
}

/** Widest step of a swept arc [rad]: the outline is then at most 0.4 mm outside the true one for a leaf of a metre. */
const STEP = (3 * Math.PI) / 180;

/**
 * What a leaf sweeps, as convex outlines that cover it: closely, and nowhere short.
 *
 * Sectors of at most half a turn of radius √(r² + t²), and the leaf itself closed and open.
 */
export function sweptOutlines(leaf: Leaf): Polygon[] {
  const radius = Math.hypot(leaf.length, Math.max(leaf.ahead, leaf.behind));
  const lead = Math.atan2(leaf.ahead, leaf.length);
  const lag = Math.atan2(leaf.behind, leaf.length);
  const sweep = leaf.opening + lead + lag;
  const start = leaf.closed - leaf.way * lag;
  const pieces = Math.ceil(sweep / Math.PI);
  const outlines: Polygon[] = [leafOutline(leaf, brand<"angle">(0)), leafOutline(leaf, leaf.opening)];
  for (let piece = 0; piece < pieces; piece++) {
    const from = (piece * sweep) / pieces;
    const steps = Math.max(1, Math.ceil(sweep / pieces / STEP));
    const step = sweep / pieces / steps;
    const outer = radius / Math.cos(step / 2);
    const points = Array.from({ length: steps + 2 }, (_, i) => {
      // The corners of an outline drawn round the arc; its two ends on the arc itself.
      const at = i === 0 ? 0 : i === steps + 1 ? steps * step : (i - 1 / 2) * step;
      const reach = i === 0 || i === steps + 1 ? radius : outer;
      const heading = start + leaf.way * (from + at);
      return { x: len(leaf.hinge.x + reach * Math.cos(heading)), y: len(leaf.hinge.y + reach * Math.sin(heading)) };
    });
    const outline = [leaf.hinge, ...points];
    outlines.push(leaf.way === 1 ? outline : outline.reverse());
  }
  return outlines;
}

/** How far a leaf opens among obstacles, and which of them stops it. */
function freeAmong(leaf: Leaf, obstacles: readonly Obstacle[]): { readonly free: Angle; readonly what: string } {
  return obstacles.reduce<{ free: Angle; what: string }>(
    (best, { what, outline }) => {
      const free = freeOpening(leaf, [outline]);
      return free < best.free ? { free, what } : best;
    },
    { free: leaf.opening, what: "nothing" },
  );
}

/**
 * How far a leaf as thick as it is opens towards a wall that runs along its closed line [rad]; its right angle or more
 * where it clears the wall.
 *
 * θ = asin(g/R) − atan(t/r), R = √(r² + t²): the far corner of the leaf meets the wall first, so a thin leaf opens
 * further than a thick one.
 *
 * @param wall - g, from the hinge line to the wall, above 0 [m]
 * @param length - r, from the pin to the far edge, above 0 [m]
 * @param thick - t, on the wall's side, at least 0 [m]
 * @returns the angle, or `undefined` where the leaf clears the wall
 * @example openingTowardsWall(si(26, "in"), si(28, "in"), si(1.375, "in")) // 1.138477
 */
export function openingTowardsWall(wall: Length, length: Length, thick: Length): Angle | undefined {
  const radius = Math.hypot(length, thick);
  if (wall >= radius) return undefined;
  return brand<"angle">(Math.max(0, Math.asin(wall / radius) - Math.atan2(thick, length)));
}

const remedies = {
  reverse: "Hang the machine's door on the {side:text}.",
  outward: "Hang the room's door so that it opens away from the machine.",
  otherJamb: "Hang the room's door on its other jamb.",
  reverseAndOutward: "Hang the machine's door on the {side:text}, and the room's door to open the other way.",
} as const;

/** The machine's door and the room's door open. A rule; its page is `docs/rules/placement/door-swing.md`. */
export const doorSwing = defineRule({
  id: "placement/door-swing",
  title: "The machine's door and the room's door open",
  since: "0.1.0",
  input: doorSwingInput,
  basis: [geometry],
  limits: [roomDoorOpening],
  messages: {
    pass: {
      opens: "The machine's door opens to its full {wanted:angle}.",
      roomDoorOpens: "The room's door opens to {wanted:angle}.",
      doorsPass: "The two doors do not meet.",
      roomDoorAway: "The room's door opens away from the machine.",
    },
    fail: {
      stops: "The machine's door opens only to {free:angle} of {wanted:angle}: {what:text} is in its way.",
      roomDoorStops: "The room's door opens only to {free:angle} of {wanted:angle}: {what:text} is in its way.",
      doorsMeet:
        "The two doors strike each other: with the {other:text} in use, the {one:text} opens only to {free:angle} of {wanted:angle}.",
    },
    review: {
      doorUnknown: "The machine's door was not described: its hinge side, length, thickness and how far it opens.",
      facingUnknown: "The distance to what faces the machine was not measured.",
      sideUnknown: "The free space on the hinge side, {side:text}, was not measured.",
      widthUnknown: "The width of the machine was not measured.",
      topUnknown: "The free space above the lid was not measured.",
      thingsUnknown: "What else stands near the machine was not listed; give an empty list where there is nothing.",
    },
    notApplicable: { noDoor: "This machine has no door that swings." },
  },
  remedies,
  cautions: ["tipOver", "deferral"],
  examples: [
    {
      title: "A dryer's door with room to open",
      input: {
        kind: "dryer",
        body: { width: "27 in", depth: "30 in" },
        door: { hinge: "left", length: "20 in", thickness: "3 in", inset: "3 in", opens: "110°" },
        gaps: { left: "12 in" },
        facing: "48 in",
        things: [],
      },
      gives: "opens",
    },
    {
      title: "A facing counter too near",
      input: {
        kind: "dryer",
        body: { width: "27 in", depth: "30 in" },
        door: { hinge: "left", length: "24 in", thickness: "3/4 in", inset: "1 in", opens: "90°" },
        gaps: { left: "12 in" },
        facing: "20 in",
        things: [],
      },
      gives: "stops",
    },
    {
      title: "A door that meets the other door",
      input: {
        kind: "washer",
        body: { width: "27 in", depth: "30 in" },
        door: { hinge: "right", length: "20 in", thickness: "3 in", inset: "3 in", opens: "110°", reversible: true },
        gaps: { left: "14 in", right: "30 in" },
        facing: "60 in",
        things: [],
        roomDoor: {
          opensInto: "this room",
          wall: "right",
          hinge: "right",
          right: "57 in",
          ahead: "34 in",
          length: "30 in",
        },
      },
      gives: "doorsMeet",
    },
    {
      title: "The room's door strikes the machine",
      input: {
        kind: "washer",
        body: { width: "27 in", depth: "30 in" },
        door: { hinge: "left", length: "20 in", thickness: "3 in", inset: "3 in", opens: "90°" },
        gaps: { left: "14 in" },
        facing: "40 in",
        things: [],
        roomDoor: {
          opensInto: "this room",
          wall: "facing",
          hinge: "left",
          right: "30 in",
          ahead: "26 in",
          length: "32 in",
        },
      },
      gives: "roomDoorStops",
    },
    {
      title: "A room door clear of everything",
      input: {
        kind: "dishwasher",
        body: { width: "24 in", depth: "24 in" },
        door: { hinge: "bottom", length: "28 in", thickness: "2 in", inset: "0 in", opens: "90°" },
        facing: "60 in",
        things: [],
        roomDoor: {
          opensInto: "this room",
          wall: "facing",
          hinge: "right",
          right: "-90 in",
          ahead: "60 in",
          length: "30 in",
        },
      },
      gives: "opens",
    },
    {
      title: "A room door that opens out",
      input: {
        kind: "oven",
        body: { width: "30 in", depth: "24 in" },
        door: { hinge: "bottom", length: "20 in", thickness: "2 in", inset: "0 in", opens: "90°" },
        facing: "44 in",
        things: [],
        roomDoor: { opensInto: "away", wall: "left", hinge: "right", right: "-30 in", ahead: "10 in", length: "30 in" },
      },
      gives: "opens",
    },
    { title: "The door was not described", input: { kind: "dryer" }, gives: "doorUnknown" },
    {
      title: "What faces the machine was not measured",
      input: {
        kind: "oven",
        door: { hinge: "bottom", length: "20 in", thickness: "2 in", inset: "0 in", opens: "90°" },
        things: [],
      },
      gives: "facingUnknown",
    },
    {
      title: "The hinge side was not measured",
      input: {
        kind: "dryer",
        body: { width: "27 in" },
        door: { hinge: "right", length: "20 in", thickness: "2 in", inset: "1 in", opens: "90°" },
        facing: "50 in",
        things: [],
      },
      gives: "sideUnknown",
    },
    {
      title: "The width was not measured",
      input: {
        kind: "dryer",
        door: { hinge: "right", length: "20 in", thickness: "2 in", inset: "1 in", opens: "90°" },
        facing: "50 in",
        things: [],
      },
      gives: "widthUnknown",
    },
    {
      title: "A lid under a shelf of unknown height",
      input: {
        kind: "washer",
        door: { hinge: "lid", length: "18 in", thickness: "1 in", inset: "0 in", opens: "95°" },
      },
      gives: "topUnknown",
    },
    {
      title: "What stands near was not listed",
      input: {
        kind: "dryer",
        body: { width: "27 in" },
        door: { hinge: "left", length: "20 in", thickness: "2 in", inset: "2 in", opens: "90°" },
        gaps: { left: "3 in" },
        facing: "50 in",
      },
      gives: "thingsUnknown",
    },
    { title: "A cooktop", input: { kind: "cooktop" }, gives: "noDoor" },
  ],
  check(input, { limit, judge, say, missing, all, rest, assume, formula }) {
    const { kind, body = {}, door, gaps = {}, facing, sideWallsEnd, things, roomDoor } = input;
    if (kind === "cooktop" || kind === "hood") return say("noDoor");
    if (door === undefined) return missing(["doorUnknown"], ["door"]);
    rest(doorOpensFully);
    const wanted = door.opens;
    const width = body.width;

    const verdict = (leaf: Leaf, obstacles: readonly Obstacle[]): Outcome => {
      const { free, what } = freeAmong(leaf, obstacles);
      return judge({
        kind: "angle",
        measured: free,
        limit: wanted,
        sense: "atLeast",
        pass: ["opens", { wanted }],
        fail: ["stops", { free, wanted, what }],
      });
    };

    if (door.hinge === "lid") {
      if (gaps.top === undefined) return missing(["topUnknown"], ["gaps", "top"]);
      return verdict(uprightLeaf(door), [solid("what is above", -FAR, gaps.top, 2 * FAR, FAR)]);
    }
    if (facing === undefined) return missing(["facingUnknown"], ["facing"]);
    if (things === undefined) return missing(["thingsUnknown"], ["things"]);
    const wallShown = openingTowardsWall(facing, door.length, door.thickness);
    if (wallShown !== undefined && wallShown > 0 && wallShown < Math.PI / 2) {
      const radius = len(Math.hypot(door.length, door.thickness));
      formula("{radius:inches} = sqrt({length:inches}^2 + {thickness:inches}^2)", {
        radius,
        length: door.length,
        thickness: door.thickness,
      });
      formula(
        "{towardsWall:angle} = asin({facing:inches} / {radius:inches}) - atan({thickness:inches} / {length:inches})",
        {
          towardsWall: wallShown,
          facing,
          radius,
          thickness: door.thickness,
          length: door.length,
        },
      );
    }

    const isSide = door.hinge === "left" || door.hinge === "right";
    const needsWidth = door.hinge === "right" || roomDoor?.opensInto === "this room" || things.length > 0;
    if (width === undefined && needsWidth) return missing(["widthUnknown"], ["body", "width"]);
    const wide = width ?? len(2 * door.inset + door.length);
    const ahead = solid("what faces the machine", -FAR, facing, 2 * FAR, FAR);

    let own: Outcome;
    if (isSide) {
      const beside = door.hinge === "left" ? gaps.left : gaps.right;
      if (beside === undefined) {
        return missing(["sideUnknown", { side: door.hinge as string }], ["gaps", door.hinge as string]);
      }
      if (sideWallsEnd === undefined)
        assume("How far the side walls reach out was not said: they are taken to go on past the machine's door.");
      const reach = sideWallsEnd ?? len(FAR);
      const walls: Obstacle[] = [];
      if (gaps.left !== undefined)
        walls.push(solid("what stands on the left", -gaps.left - FAR, -FAR, FAR, FAR + reach));
      if (gaps.right !== undefined)
        walls.push(solid("what stands on the right", wide + gaps.right, -FAR, FAR, FAR + reach));
      own = verdict(sideLeaf(door, wide), [...walls, ahead, ...things.map(thingOutline)]);
    } else {
      // From the side every thing in front of the machine's width is a wall at its distance.
      const inFront = things
        .filter(({ right, width: w, ahead: a, depth }) => right < wide && right + w > 0 && a + depth > 0)
        .map(({ what, ahead: a }) => solid(what, Math.max(0, a), -FAR, FAR, 2 * FAR));
      own = verdict(uprightLeaf(door), [solid("what faces the machine", facing, -FAR, FAR, 2 * FAR), ...inFront]);
    }
    if (roomDoor === undefined) return own;
    if (roomDoor.opensInto === "away") return all(own, say("roomDoorAway"));

    const least = brand<"angle">(limit(roomDoorOpening)!.value);
    // a town or a maker may ask nothing of the room's door
    if (least <= 0) return own;
    if (roomDoor.thickness === undefined) {
      rest(usualLeaf);
      assume("The thickness of the room's door was not measured: 1 3/8 in is assumed.");
    }
    const leaf = roomLeaf(roomDoor, roomDoor.thickness ?? si(usualDoor.insideLeaf, "in"), least);
    const deep = body.depth ?? len(FAR);
    const { free, what } = freeAmong(leaf, [solid("the machine", 0, -deep, wide, deep), ...things.map(thingOutline)]);
    const roomVerdict = judge({
      kind: "angle",
      measured: free,
      limit: leaf.opening,
      sense: "atLeast",
      pass: ["roomDoorOpens", { wanted: leaf.opening }],
      fail: ["roomDoorStops", { free, wanted: leaf.opening, what }],
    });

    // The one door open anywhere in its swing, how far does the other go?
    const other = isSide
      ? { leaf: sideLeaf(door, wide), swept: sweptOutlines(leaf) }
      : { leaf, swept: [boxPolygon(box(0, 0, wide, Math.hypot(door.length, door.thickness)))] };
    const apart = freeOpening(other.leaf, other.swept);
    const full = other.leaf.opening;
    const meeting = judge({
      kind: "angle",
      measured: apart,
      limit: full,
      sense: "atLeast",
      pass: ["doorsPass"],
      fail: [
        "doorsMeet",
        {
          one: isSide ? "machine's door" : "room's door",
          other: isSide ? "room's door" : "machine's door",
          free: apart,
          wanted: full,
        },
      ],
    });
    return all(own, roomVerdict, meeting);
  },
  mend({ door, roomDoor }) {
    const proposals: Proposal<typeof remedies>[] = [];
    const turn =
      door?.reversible === true && (door.hinge === "left" || door.hinge === "right")
        ? door.hinge === "left"
          ? "right"
          : "left"
        : undefined;
    if (turn !== undefined)
      proposals.push({ change: [{ path: ["door", "hinge"], value: turn }], say: ["reverse", { side: turn }] });
    if (roomDoor?.opensInto === "this room") {
      const { right: hand } = facings[roomDoor.wall];
      const towards = roomDoor.hinge === "left" ? 1 : -1;
      proposals.push({
        change: [
          { path: ["roomDoor", "hinge"], value: roomDoor.hinge === "left" ? "right" : "left" },
          {
            path: ["roomDoor", "right"],
            value: len(roomDoor.right + towards * hand[0] * roomDoor.length),
            unit: "in",
          },
          {
            path: ["roomDoor", "ahead"],
            value: len(roomDoor.ahead + towards * hand[1] * roomDoor.length),
            unit: "in",
          },
        ],
        say: ["otherJamb"],
      });
      const outward = { path: ["roomDoor", "opensInto"], value: "away" } as const;
      proposals.push({ change: [outward], say: ["outward"] });
      if (turn !== undefined)
        proposals.push({
          change: [{ path: ["door", "hinge"], value: turn }, outward],
          say: ["reverseAndOutward", { side: turn }],
        });
    }
    return proposals;
  },
});
