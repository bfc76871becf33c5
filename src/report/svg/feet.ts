/** The four feet of a machine, seen from above: which way and how far to turn each. */
import type { Content, Markup } from "../markup.js";
import {
  arc,
  arrowHead,
  box,
  disc,
  drawing,
  hatched,
  hatchSample,
  label,
  notes,
  type Point,
  polar,
  SMALL,
  TEXT,
  WIDTH,
} from "./draw.js";
import { type DrawingOptions, shower } from "./options.js";

/** A corner of a machine, as you face it. */
export type Corner = "front left" | "front right" | "back right" | "back left";

/** What to do at one foot. */
export interface FootMove {
  readonly corner: Corner;
  /** How far to turn it, 0 or more [rad]. */
  readonly turn: number;
  /** How far it goes out and lifts its corner; minus where it goes in [m]. */
  readonly change: number;
  /** How far it is screwed out afterwards, where known [m]. */
  readonly extension?: number | undefined;
}

/** What the drawing of the feet shows. */
export interface FeetData {
  /** One for each corner. */
  readonly feet: readonly FootMove[];
  /** From the middle of one foot to the next, where known [m]. */
  readonly apart?: { readonly width?: number | undefined; readonly depth?: number | undefined } | undefined;
  /** Sentences to print below: how to finish, what slope is left. */
  readonly remarks?: readonly string[] | undefined;
}

const LEFT = 122;
const RIGHT = WIDTH - LEFT;
const TOP = 62;
const BOTTOM = 230;
const INSET = 24;

const places: Readonly<Record<Corner, Point>> = {
  "back left": [LEFT + INSET, TOP + INSET],
  "back right": [RIGHT - INSET, TOP + INSET],
  "front left": [LEFT + INSET, BOTTOM - INSET],
  "front right": [RIGHT - INSET, BOTTOM - INSET],
};

/** What a foot is to do, in lines. */
function linesFor({ turn, change, extension }: FootMove, show: ReturnType<typeof shower>): string[] {
  if (turn === 0) return ["leave", ...(extension === undefined ? [] : [`${show(extension)} out`])];
  const way = change > 0 ? "up" : "down";
  return [
    show(turn, "turns"),
    `${way} ${show(Math.abs(change))}`,
    ...(extension === undefined ? [] : [`then ${show(extension)} out`]),
  ];
}

function footMarkup(id: string, move: FootMove, show: ReturnType<typeof shower>): Content {
  const at = places[move.corner];
  const isLeft = move.corner.endsWith("left");
  const isBack = move.corner.startsWith("back");
  const anchor = isLeft ? "end" : "start";
  const x = isLeft ? LEFT - 10 : RIGHT + 10;
  const lines = linesFor(move, show);
  const from = at[1] - (isBack ? 14 : 4 + (lines.length - 1) * 8);
  const text = [
    label([x, from - 6], move.corner, { size: SMALL, anchor }),
    ...lines.map((one, i) =>
      label([x, from + 12 + i * 16], one, { anchor, bold: i === 0, size: i === 0 ? TEXT : SMALL }),
    ),
  ];
  const foot = disc(at, 10, "plain", move.turn === 0 ? "none" : hatched(id, move.change > 0 ? "slant" : "dots"));
  if (move.turn === 0) return [foot, text];
  // Seen from above, a foot turned clockwise goes out and its corner comes up.
  const way = move.change > 0 ? 1 : -1;
  const start = -Math.PI / 2 - way * 1.9;
  const end = -Math.PI / 2 + way * 1.9;
  return [
    foot,
    arc(at, 17, start, end - way * 0.25, "plain"),
    arrowHead(polar(at, end, 17), end + (way * Math.PI) / 2, 9),
    text,
  ];
}

const sentence = ({ corner, turn, change }: FootMove, show: ReturnType<typeof shower>): string =>
  turn === 0
    ? `${corner}: leave it.`
    : `${corner}: ${show(turn, "turns")} ${change > 0 ? "clockwise seen from above, the corner comes up" : "counter-clockwise seen from above, the corner comes down"} ${show(Math.abs(change))}.`;

/**
 * The four feet seen from above, with the turns of each.
 *
 * @param data - what to do at each corner, SI
 * @throws RangeError where the four corners are not there once each
 */
export function feetDrawing(data: FeetData, { id = "feet", units }: DrawingOptions = {}): Markup {
  const { feet, apart = {}, remarks = [] } = data;
  const corners = new Set(feet.map(({ corner }) => corner));
  if (feet.length !== 4 || corners.size !== 4) throw new RangeError("four feet are needed, one at each corner");
  const show = shower(units);
  const apartTexts = [
    ...(apart.width === undefined ? [] : [`${show(apart.width)} across`]),
    ...(apart.depth === undefined ? [] : [`${show(apart.depth)} deep`]),
  ];
  const below = notes(BOTTOM + 30, [
    { mark: hatchSample(id, "slant"), text: "goes out, its corner comes up: clockwise seen from above" },
    { mark: hatchSample(id, "dots"), text: "goes in, its corner comes down: counter-clockwise seen from above" },
    { text: "Seen from below, lying in front of the machine, each arrow runs the other way." },
    ...remarks.map((text) => ({ text })),
  ]);
  return drawing(
    {
      id,
      title: "Turns of the four feet",
      description:
        `Seen from above, the front at the bottom. ${feet.map((move) => sentence(move, show)).join(" ")} ${remarks.join(" ")}`.trim(),
      height: below.end + 4,
      hatches: ["slant", "dots"],
    },
    box([LEFT, TOP], RIGHT - LEFT, BOTTOM - TOP),
    label([WIDTH / 2, TOP - 12], "back", { anchor: "middle", size: SMALL }),
    label([WIDTH / 2, BOTTOM + 14], "front: you stand here", { anchor: "middle", size: SMALL }),
    label([4, 14], "Seen from above", { bold: true }),
    apartTexts.map((text, i) =>
      label([WIDTH / 2, (TOP + BOTTOM) / 2 + (i - (apartTexts.length - 1) / 2) * 16], text, {
        anchor: "middle",
        size: SMALL,
      }),
    ),
    feet.map((move) => footMarkup(id, move, show)),
    below.markup,
  );
}
