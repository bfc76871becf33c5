/** Plan of a machine in its place: gaps, the free space that is asked for, and how the doors swing. */
import type { Content, Markup } from "../markup.js";
import {
  arc,
  box,
  dimension,
  disc,
  drawing,
  type Hatch,
  hatched,
  hatchSample,
  label,
  line,
  lineSample,
  notes,
  numberSample,
  PAPER,
  type Point,
  polar,
  polygon,
  SMALL,
  textWidth,
  WIDTH,
} from "./draw.js";
import { type DrawingOptions, shower } from "./options.js";

/** Distances on the four sides of a machine, as you face it [m]. */
export interface Sides {
  readonly left?: number | undefined;
  readonly right?: number | undefined;
  readonly behind?: number | undefined;
  readonly front?: number | undefined;
}

/** The door of a machine that swings in plan, or drops to the front. */
export interface PlanDoor {
  readonly hinge: "left" | "right" | "bottom";
  /** From the hinge pin to the far edge, and outwards from the pin [m]. */
  readonly length: number;
  readonly thickness: number;
  /** From the machine's side to the pin [m]. */
  readonly inset: number;
  /** How far it opens by itself, and how far it can here, where known [rad]. */
  readonly opens: number;
  readonly free?: number | undefined;
}

/** The door of the room; its hinge counted from the machine's left side and face [m]. */
export interface PlanRoomDoor {
  readonly opensInto: "this room" | "away";
  readonly wall: "facing" | "left" | "right" | "behind";
  readonly hinge: "left" | "right";
  readonly right: number;
  readonly ahead: number;
  readonly length: number;
  /** How far it has to open, and how far it can, where known [rad]. */
  readonly opens?: number | undefined;
  readonly free?: number | undefined;
}

/** A thing near the machine; from the machine's left side and face [m]. */
export interface PlanThing {
  readonly what: string;
  readonly right: number;
  readonly width: number;
  readonly ahead: number;
  readonly depth: number;
}

/** What the plan shows. */
export interface PlanData {
  /** What the machine is, in a word. */
  readonly machine: string;
  readonly width: number;
  readonly depth: number;
  /** Free distances as they are. */
  readonly gaps?: Sides | undefined;
  /** Free distances as they must be. */
  readonly needed?: Sides | undefined;
  /** Clear size of the place, where the gaps are not known. */
  readonly opening?: { readonly width?: number | undefined; readonly depth?: number | undefined } | undefined;
  /** From the machine's face to what stands opposite. */
  readonly facing?: number | undefined;
  /** How far the side walls reach past the machine's face. */
  readonly sideWallsEnd?: number | undefined;
  readonly door?: PlanDoor | undefined;
  readonly roomDoor?: PlanRoomDoor | undefined;
  readonly things?: readonly PlanThing[] | undefined;
  /** What does not go, in sentences. */
  readonly remarks?: readonly string[] | undefined;
}

/** Left of the plan, beside the texts there. */
const MARGIN_LEFT = 40;
const MARGIN_RIGHT = 18;
const FRONT = "front: you stand here";
const MARGIN_TOP = 82;
const TALLEST = 340;
/** What stands opposite further off than so many sizes of the machine is said in words, not drawn. */
const OPPOSITE = 1.4;
const WALL = 12;

/** Which way the wall and one's right hand lie, for someone in the room who faces that wall; x right, y out. */
const facings = {
  facing: { right: [-1, 0] },
  right: { right: [0, 1] },
  left: { right: [0, -1] },
  behind: { right: [1, 0] },
} as const;
const outward = { facing: [0, 1], right: [1, 0], left: [-1, 0], behind: [0, -1] } as const;

/** A leaf in plan: its pin, the heading of its closed line, and which way it turns (1: clockwise on the page). */
interface Leaf {
  readonly pin: Point;
  readonly closed: number;
  readonly way: 1 | -1;
  readonly length: number;
}

function machineLeaf({ hinge, inset, length }: PlanDoor, width: number): Leaf {
  const left = hinge === "left";
  return { pin: [left ? inset : width - inset, 0], closed: left ? 0 : Math.PI, way: left ? 1 : -1, length };
}

function roomLeaf({ wall, hinge, right, ahead, length }: PlanRoomDoor): Leaf {
  const [hx, hy] = facings[wall].right;
  const [ux, uy] = hinge === "left" ? [hx, hy] : [-hx, -hy];
  const [ox, oy] = outward[wall];
  return { pin: [right, ahead], closed: Math.atan2(uy, ux), way: ux * -oy - uy * -ox > 0 ? 1 : -1, length };
}

/** Points that a swing reaches, near enough to fit it on the page. */
const sweep = ({ pin, closed, way, length }: Leaf, opens: number): Point[] =>
  Array.from({ length: 9 }, (_, i) => polar(pin, closed + (way * opens * i) / 8, length));

/** What lies on the page, in metres, and how far away a thing may be to be drawn. */
interface Extent {
  readonly left: number;
  readonly right: number;
  readonly back: number;
  readonly front: number;
}

const within = (value: number, least: number, most: number): number => Math.min(Math.max(value, least), most);

function extentOf(data: PlanData, sides: Sides): Extent {
  const { width, depth, facing, door, roomDoor, things = [], needed = {} } = data;
  const size = Math.max(width, depth);
  const bounds = { left: -size, right: width + size, back: -depth - size / 2, front: 2.2 * size };
  const near = 0.12 * size;
  const points: Point[] = [
    [-within(sides.left ?? near, 0, size / 2), 0],
    [width + within(sides.right ?? near, 0, size / 2), 0],
    [0, -depth - within(sides.behind ?? near, 0, size / 2)],
    [-(needed.left ?? 0), -depth - (needed.behind ?? 0)],
    [width + (needed.right ?? 0), needed.front ?? 0],
    [0, within(sides.front ?? 0, 0, size) + near],
  ];
  if (facing !== undefined && facing <= OPPOSITE * size) points.push([0, facing + near / 2]);
  if (door)
    points.push(
      ...(door.hinge === "bottom" ? [[0, door.length] as Point] : sweep(machineLeaf(door, width), door.opens)),
    );
  if (roomDoor)
    points.push([roomDoor.right, roomDoor.ahead], ...sweep(roomLeaf(roomDoor), roomDoor.opens ?? Math.PI / 2));
  for (const { right, width: w, ahead, depth: d } of things) points.push([right, ahead], [right + w, ahead + d]);
  const xs = points.map(([x]) => within(x, bounds.left, bounds.right));
  const ys = points.map(([, y]) => within(y, bounds.back, bounds.front));
  return { left: Math.min(...xs), right: Math.max(...xs), back: Math.min(...ys), front: Math.max(...ys) };
}

/** The gaps as drawn: those known, else what an opening leaves, shared out evenly. */
function sidesOf({ gaps = {}, opening = {}, width }: PlanData): { readonly sides: Sides; readonly shared: boolean } {
  const shared = gaps.left === undefined && gaps.right === undefined && opening.width !== undefined;
  const each = shared ? Math.max(0, (opening.width! - width) / 2) : undefined;
  return { sides: { ...gaps, left: gaps.left ?? each, right: gaps.right ?? each }, shared };
}

/**
 * Plan with the machine, its gaps, the free space asked for, and the swings of its door and the room's.
 *
 * @param data - lengths and angles in SI
 */
export function planDrawing(data: PlanData, { id = "plan", units }: DrawingOptions = {}): Markup {
  const show = shower(units);
  const {
    machine,
    width,
    depth,
    gaps = {},
    needed,
    opening = {},
    facing,
    door,
    roomDoor,
    things = [],
    remarks = [],
  } = data;
  const { sides, shared } = sidesOf(data);
  const extent = extentOf(data, sides);
  const ahead = sides.front ?? facing;
  const downTexts = [gaps.behind, depth, ahead].map((size) => (size === undefined ? "" : show(size)));
  const marginLeft = MARGIN_LEFT + Math.max(...downTexts.map((text) => textWidth(text, SMALL)));
  const scale = Math.min(
    (WIDTH - marginLeft - MARGIN_RIGHT) / (extent.right - extent.left),
    TALLEST / (extent.front - extent.back),
  );
  const spare = WIDTH - marginLeft - MARGIN_RIGHT - (extent.right - extent.left) * scale;
  const x = (value: number): number => marginLeft + spare / 2 + (value - extent.left) * scale;
  const y = (value: number): number => MARGIN_TOP + (value - extent.back) * scale;
  const at = ([px, py]: Point): Point => [x(px), y(py)];
  const edge = { left: x(extent.left), right: x(extent.right), top: y(extent.back), bottom: y(extent.front) };
  const used = new Set<Hatch>();
  const fill = (hatch: Hatch): string => {
    used.add(hatch);
    return hatched(id, hatch);
  };
  /** A stretch of wall, cut to the page. */
  const solid = (x1: number, y1: number, x2: number, y2: number, hatch: Hatch): Content => {
    const [l, r] = [within(x1, edge.left - WALL, edge.right + WALL), within(x2, edge.left - WALL, edge.right + WALL)];
    const [t, b] = [within(y1, edge.top - WALL, edge.bottom + WALL), within(y2, edge.top - WALL, edge.bottom + WALL)];
    return r > l && b > t ? box([l, t], r - l, b - t, "thin", fill(hatch)) : null;
  };

  const onPage = (value: number): boolean => value >= extent.left - 1e-9 && value <= extent.right + 1e-9;
  const wallLeft = sides.left !== undefined && onPage(-sides.left) ? x(-sides.left) : undefined;
  const wallRight = sides.right !== undefined && onPage(width + sides.right) ? x(width + sides.right) : undefined;
  const wallBehind =
    sides.behind !== undefined && -depth - sides.behind >= extent.back - 1e-9 ? y(-depth - sides.behind) : undefined;
  const wallsEnd = y(data.sideWallsEnd ?? sides.front ?? 0);
  const wallsStart = wallBehind ?? y(-depth);
  const walls: Content[] = [
    wallBehind === undefined
      ? null
      : solid((wallLeft ?? edge.left) - WALL, wallBehind - WALL, (wallRight ?? edge.right) + WALL, wallBehind, "slant"),
    wallLeft === undefined ? null : solid(wallLeft - WALL, wallsStart, wallLeft, wallsEnd, "slant"),
    wallRight === undefined ? null : solid(wallRight, wallsStart, wallRight + WALL, wallsEnd, "slant"),
    facing !== undefined && facing <= extent.front
      ? solid(edge.left - WALL, y(facing), edge.right + WALL, y(facing) + WALL, "slant")
      : null,
  ];

  const envelope = needed && [
    box(
      [x(-(needed.left ?? 0)), y(-depth - (needed.behind ?? 0))],
      (width + (needed.left ?? 0) + (needed.right ?? 0)) * scale,
      (depth + (needed.behind ?? 0) + (needed.front ?? 0)) * scale,
      "dashed",
    ),
  ];

  const swing = (
    leaf: Leaf,
    opens: number,
    free: number | undefined,
    thick: number,
    stroke: "plain" | "thin",
  ): Content => {
    const open = Math.min(opens, free ?? opens);
    const pin = at(leaf.pin);
    const r = leaf.length * scale;
    const heading = leaf.closed + leaf.way * open;
    const far = polar(pin, heading, r);
    const side = heading + (leaf.way * Math.PI) / 2;
    const t = thick * scale;
    const outline = [pin, far, polar(far, side, t), polar(pin, side, t)];
    return [
      arc(pin, r, leaf.closed, heading, stroke),
      open < opens ? arc(pin, r, heading, leaf.closed + leaf.way * opens, "dotted") : null,
      t > 2.5 ? polygon(outline, "plain", PAPER) : line(pin, far, "heavy"),
      disc(pin, 3, null, "currentColor"),
    ];
  };
  const doors: Content[] = [];
  if (door?.hinge === "bottom") {
    doors.push(box([x(door.inset), y(0)], (width - 2 * door.inset) * scale, door.length * scale, "dotted"));
  } else if (door) {
    doors.push(swing(machineLeaf(door, width), door.opens, door.free, door.thickness, "plain"));
  }
  if (roomDoor) {
    const leaf = roomLeaf(roomDoor);
    const shut = [at(leaf.pin), at(polar(leaf.pin, leaf.closed, leaf.length))] as const;
    doors.push(line(...shut, "chain"));
    if (roomDoor.opensInto === "this room")
      doors.push(swing(leaf, roomDoor.opens ?? Math.PI / 2, roomDoor.free, 0, "thin"));
    else doors.push(disc(shut[0], 3, null, "currentColor"));
  }

  const boxes = things.map((thing, i) => {
    const shape = solid(
      x(thing.right),
      y(thing.ahead),
      x(thing.right + thing.width),
      y(thing.ahead + thing.depth),
      "dots",
    );
    if (shape === null) return null;
    const centre: Point = [
      within(x(thing.right + thing.width / 2), edge.left, edge.right),
      within(y(thing.ahead + thing.depth / 2), edge.top, edge.bottom),
    ];
    return [shape, disc(centre, 9, "thin", PAPER), label(centre, String(i + 1), { anchor: "middle", size: 11 })];
  });

  // Across, above the plan: gap, width, gap. A gap's text goes a row up where it would meet the width's.
  const chainY = edge.top - WALL - 12;
  const middleX = x(width / 2);
  const widthText = show(width);
  const above = (from: number, to: number, text: string, gap: boolean): Content => {
    const half = textWidth(text, SMALL) / 2;
    const centre = within((from + to) / 2, 4 + half, WIDTH - 4 - half);
    const meets = gap && Math.abs(centre - middleX) < half + textWidth(widthText, SMALL) / 2 + 6;
    return [
      dimension([from, chainY], [to, chainY]),
      label([centre, chainY - (meets ? 28 : 12)], text, { anchor: "middle", size: SMALL }),
    ];
  };
  const frontHalf = textWidth(FRONT, SMALL) / 2 + 2;
  const across: Content[] = [above(x(0), x(width), widthText, false)];
  if (gaps.left !== undefined) across.push(above(wallLeft ?? edge.left, x(0), show(gaps.left), true));
  if (gaps.right !== undefined) across.push(above(x(width), wallRight ?? edge.right, show(gaps.right), true));

  // Down, left of the plan: behind, depth, what is in front. Texts keep a line apart.
  const chainX = Math.min(edge.left, wallLeft ?? edge.left) - WALL - 10;
  const spans: { from: number; to: number; text: string }[] = [];
  if (gaps.behind !== undefined) spans.push({ from: wallBehind ?? edge.top, to: y(-depth), text: show(gaps.behind) });
  spans.push({ from: y(-depth), to: y(0), text: show(depth) });
  if (ahead !== undefined) spans.push({ from: y(0), to: Math.min(y(ahead), edge.bottom), text: show(ahead) });
  let lowest = Number.NEGATIVE_INFINITY;
  const down = spans.map(({ from, to, text }) => {
    const middle = Math.max((from + to) / 2, lowest + 15);
    lowest = middle;
    return [dimension([chainX, from], [chainX, to]), label([chainX - 9, middle], text, { anchor: "end", size: SMALL })];
  });

  const asked = needed
    ? (["left", "right", "behind", "front"] as const)
        .filter((side) => needed[side] !== undefined)
        .map((side) => `${side === "front" ? "in front" : side} ${show(needed[side]!)}`)
    : [];
  const degrees = (value: number): string => show(value, "angle");
  const doorText = ({ opens, free }: { opens: number; free?: number | undefined }): string =>
    `${degrees(opens)}${free !== undefined && free < opens ? `, stopped at ${degrees(free)} here` : ""}`;
  const texts = [
    ...(envelope ? [{ mark: lineSample("dashed"), text: `free space asked for: ${asked.join(", ")}` }] : []),
    ...(opening.width !== undefined || opening.depth !== undefined
      ? [
          {
            text: `The place is ${[
              ...(opening.width === undefined ? [] : [`${show(opening.width)} wide`]),
              ...(opening.depth === undefined ? [] : [`${show(opening.depth)} deep`]),
            ].join(" and ")}${shared ? "; the machine is drawn in the middle" : ""}.`,
          },
        ]
      : []),
    ...(sides.front === undefined || facing === undefined
      ? []
      : [{ text: `${show(facing)} to what stands opposite.` }]),
    ...(door
      ? [
          {
            mark: lineSample(door.hinge === "bottom" ? "dotted" : "plain"),
            text: `the machine's door, ${
              door.hinge === "bottom" ? `dropped ${show(door.length)} to the front` : `opening to ${doorText(door)}`
            }`,
          },
        ]
      : []),
    ...(roomDoor
      ? [
          {
            mark: lineSample("chain"),
            text: `the room's door, ${
              roomDoor.opensInto === "away"
                ? "opening away"
                : `opening to ${doorText({ opens: Math.PI / 2, ...definedOpens(roomDoor) })}`
            }`,
          },
        ]
      : []),
    ...things.map(({ what }, i) => ({ mark: numberSample(String(i + 1)), text: what })),
    ...remarks.map((text) => ({ text: `→ ${text}` })),
  ];
  const list = notes(edge.bottom + WALL + 36, [...texts]);
  const sampled = used.has("slant")
    ? notes(list.end, [{ mark: hatchSample(id, "slant"), text: "wall, or the nearest thing on that side" }])
    : { markup: null, end: list.end };

  const described = [
    `The ${machine} from above, you stand at the bottom: ${show(width)} wide, ${show(depth)} deep.`,
    ...(["left", "right", "behind", "front"] as const)
      .filter((side) => gaps[side] !== undefined)
      .map((side) => `${show(gaps[side]!)} is free ${sideWords[side]}.`),
    ...(asked.length > 0 ? [`Asked for: ${asked.join(", ")}.`] : []),
    ...(door && door.hinge !== "bottom" ? [`Its door, hinged ${door.hinge}, opens to ${doorText(door)}.`] : []),
    ...things.map(({ what }) => `Near it: ${what}.`),
    ...remarks,
  ];
  return drawing(
    {
      id,
      title: "Plan: the machine in its place",
      description: described.join(" "),
      height: sampled.end + 4,
      hatches: [...used],
    },
    label([4, 10], "Seen from above", { bold: true }),
    walls,
    sides.front !== undefined && y(sides.front) <= edge.bottom
      ? line([wallLeft ?? edge.left, y(sides.front)], [wallRight ?? edge.right, y(sides.front)], "chain")
      : null,
    boxes,
    envelope ?? null,
    box([x(0), y(-depth)], width * scale, depth * scale, "heavy"),
    label([middleX, y(-depth / 2)], machine, { anchor: "middle" }),
    doors,
    across,
    down,
    label([within(middleX, frontHalf, WIDTH - frontHalf), edge.bottom + WALL + 16], FRONT, {
      anchor: "middle",
      size: SMALL,
    }),
    list.markup,
    sampled.markup,
  );
}

const sideWords = { left: "on the left", right: "on the right", behind: "behind", front: "in front" } as const;

const definedOpens = ({ opens, free }: PlanRoomDoor): { opens?: number; free?: number } => ({
  ...(opens === undefined ? {} : { opens }),
  ...(free === undefined ? {} : { free }),
});
