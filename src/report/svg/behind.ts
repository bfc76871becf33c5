/** Side view of a machine before its wall, with what the connections take of the depth behind it. */
import type { Content, Markup } from "../markup.js";
import {
  box,
  dimension,
  drawing,
  type Hatch,
  hatched,
  hatchSample,
  label,
  line,
  lineSample,
  notes,
  polygon,
  SMALL,
  WIDTH,
} from "./draw.js";
import { type DrawingOptions, shower } from "./options.js";

/** One connection, straight out from the wall. */
export interface BehindLine {
  readonly what: string;
  /** What it is made of, from the wall on [m]. */
  readonly pieces: readonly { readonly what: string; readonly length: number }[];
  /** How deep its box is let into the wall [m]; 0 where it is not. */
  readonly recess?: number | undefined;
  /** What it needs in all, where a rule has said so [m]. */
  readonly need?: number | undefined;
}

/** What the side view shows. */
export interface BehindData {
  /** What the machine is, in a word. */
  readonly machine: string;
  /** Room between the machine's back and the wall, where known [m]. */
  readonly gap?: number | undefined;
  readonly lines: readonly BehindLine[];
  /** The depth from the wall to the front, and what it is made of, where known [m]. */
  readonly depth?:
    | {
        readonly place?: number | undefined;
        readonly machine: number;
        readonly front?: number | undefined;
      }
    | undefined;
}

const WALL = 330;
const WALL_THICK = 22;
const BACK_LEAST = 96;
const ROW = 48;
const BAR = 16;
/** Less than this is nothing to draw [m]. */
const THIN = 1e-4;

const looks: readonly Hatch[] = ["cross", "back", "dots", "bars"];

/** The whole machine from the side, small, with the chain of depths under it. */
function overview(id: string, data: BehindData, show: ReturnType<typeof shower>): { markup: Content; end: number } {
  const { depth, gap, machine } = data;
  if (depth === undefined) return { markup: null, end: 30 };
  const front = depth.front ?? 0;
  const behind = gap ?? 0;
  const whole = Math.max(front + depth.machine + behind, depth.place ?? 0);
  const scale = (WALL - 40) / whole;
  const back = WALL - behind * scale;
  const face = back - depth.machine * scale;
  const top = 66;
  const floor = 164;
  const chainY = floor + 26;
  const placeX = depth.place === undefined ? undefined : WALL - depth.place * scale;
  const short = (x: number): number => Math.min(Math.max(x, 30), WIDTH - 40);
  return {
    markup: [
      box([WALL, 54], WALL_THICK, floor - 54, null, hatched(id, "slant")),
      line([WALL, 54], [WALL, floor], "heavy"),
      line([8, floor], [WALL + WALL_THICK, floor], "heavy"),
      box([face, top], back - face, floor - top - 8),
      [face + 12, back - 12].map((x) => box([x - 5, floor - 8], 10, 8)),
      label([(face + back) / 2, (top + floor) / 2 - 12], machine, { anchor: "middle" }),
      label([(face + back) / 2, (top + floor) / 2 + 8], show(depth.machine), { anchor: "middle", bold: true }),
      placeX === undefined
        ? null
        : [
            line([placeX, 54], [placeX, floor], "dashed"),
            dimension([placeX, 46], [WALL, 46]),
            label([(placeX + WALL) / 2, 32], `${show(depth.place!)} to the front of the place`, {
              anchor: "middle",
              size: SMALL,
            }),
          ],
      depth.front === undefined || depth.front === 0
        ? null
        : [
            dimension([face - front * scale, chainY], [face, chainY]),
            label([short(face - (front * scale) / 2), chainY + 16], `${show(front)} in front`, {
              anchor: "start",
              size: SMALL,
            }),
          ],
      gap === undefined
        ? null
        : [
            dimension([back, chainY], [WALL, chainY]),
            label([WALL + 16, chainY + 16], `${show(gap)} behind`, { anchor: "end", size: SMALL }),
          ],
    ],
    end: chainY + 40,
  };
}

const sentence = ({ what, need, recess = 0 }: BehindLine, show: ReturnType<typeof shower>): string =>
  `${what}${need === undefined ? "" : ` needs ${show(need)}`}${recess > 0 ? `, let ${show(recess)} into the wall` : ""}.`;

/**
 * Side view with the depth budget behind a machine: what each connection takes from the wall on, against the room there
 * is. A connection that needs more reaches over the line of the machine's back.
 *
 * @param data - lengths in SI
 */
export function behindDrawing(data: BehindData, { id = "behind", units }: DrawingOptions = {}): Markup {
  const show = shower(units);
  const { gap, lines, machine } = data;
  const whole = overview(id, data, show);
  const lengthOf = ({ pieces }: BehindLine): number => pieces.reduce((sum, { length }) => sum + length, 0);
  const deepest = Math.max(gap ?? 0, ...lines.map((one) => lengthOf(one) - (one.recess ?? 0)));
  const recessed = Math.max(0, ...lines.map(({ recess = 0 }) => recess));
  const wall = WALL - (recessed > 0 ? 30 : 0);
  const scale = deepest > THIN ? (wall - BACK_LEAST) / deepest : 0;
  const back = gap === undefined ? undefined : wall - gap * scale;
  const top = whole.end + 34;
  const bottom = top + 8 + Math.max(1, lines.length) * ROW;
  const names = [...new Set(lines.flatMap(({ pieces }) => pieces.map(({ what }) => what)))];
  const lookOf = (what: string): Hatch => looks[names.indexOf(what) % looks.length]!;

  const rows = lines.map((one, row) => {
    const y = top + 12 + row * ROW;
    const over = back !== undefined && wall - (lengthOf(one) - (one.recess ?? 0)) * scale < back - 0.01;
    let x = wall + Math.min((one.recess ?? 0) * scale, WIDTH - wall - 4);
    const bars = one.pieces.map(({ what, length }) => {
      const width = length * scale;
      x -= width;
      return width > 0 ? box([x, y + 18], width, BAR, "plain", hatched(id, lookOf(what))) : null;
    });
    const need = one.need === undefined ? "" : `: ${show(one.need)}${over ? ", too deep" : ""}`;
    const text = `${one.what}${need}`;
    return [bars, label([wall - 6, y + 8], text, { anchor: "end", bold: over, size: SMALL })];
  });

  const list = notes(bottom + 14, [
    ...names.map((what) => ({ mark: hatchSample(id, lookOf(what)), text: what })),
    ...(back === undefined
      ? [{ text: "The room behind the machine was not measured: no back is drawn." }]
      : [{ mark: lineSample("dashed"), text: `back of the ${machine}; what reaches over it would be crushed` }]),
    ...(recessed > 0 ? [{ text: "Behind the line of the wall: what is let into it." }] : []),
    ...lines.flatMap(({ what, pieces, recess = 0 }) => {
      const parts = pieces
        .filter(({ length }) => length > 0)
        .map(({ what: name, length }) => `${name} ${show(length)}`);
      if (pieces.length < 2 && recess === 0) return [];
      return [{ text: `${what}: ${parts.join(", ")}${recess > 0 ? `, less ${show(recess)} in the wall` : ""}` }];
    }),
  ]);

  return drawing(
    {
      id,
      title: "Side view: the depth behind the machine",
      description: `The ${machine} from the side, the wall on the right.${
        gap === undefined ? "" : ` ${show(gap)} is free behind it.`
      } ${lines.map((one) => sentence(one, show)).join(" ")}`.trim(),
      height: list.end + 4,
      hatches: [...new Set<Hatch>(["slant", ...names.map(lookOf)])],
    },
    label([4, 10], data.depth === undefined ? "" : "From the side", { bold: true }),
    whole.markup,
    label([4, top - 24], "Behind it, larger", { bold: true }),
    box([wall, top - 4], WALL + WALL_THICK - wall, bottom - top + 4, null, hatched(id, "slant")),
    line([wall, top - 4], [wall, bottom], "heavy"),
    back === undefined
      ? null
      : [
          line([back, top - 4], [back, bottom], "dashed"),
          polygon(
            [
              [back, top - 4],
              [8, top - 4],
              [8, bottom],
              [back, bottom],
            ],
            null,
            "none",
          ),
          dimension([back, top - 10], [wall, top - 10]),
          label([wall - 4, top - 24], `${show(gap!)} free`, { anchor: "end", bold: true }),
        ],
    rows,
    list.markup,
  );
}
