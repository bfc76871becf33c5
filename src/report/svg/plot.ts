/** Line plots on two axes with units. */
import type { Content, Markup } from "../markup.js";
import type { Axis } from "./axis.js";
import { label, line, type Point, polyline, SMALL, type Stroke, WIDTH } from "./draw.js";

/** The inside of a plot on the page. */
export interface Frame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Both axes of a plot, and where its inside lies. */
export interface Plot {
  readonly frame: Frame;
  readonly x: Axis;
  readonly y: Axis;
}

export const plotFrame: Frame = { left: 54, right: WIDTH - 14, top: 34, bottom: 236 };

/** A value pair as a point of the page. */
export const pointIn = ({ frame, x, y }: Plot, along: number, up: number): Point => [
  frame.left + x.shareOf(along) * (frame.right - frame.left),
  frame.bottom - y.shareOf(up) * (frame.bottom - frame.top),
];

/** The axes with their marks, units and names. */
export function axes({ frame, x, y }: Plot, xName: string, yName: string): Content {
  const { left, right, top, bottom } = frame;
  return [
    x.marks.map(({ share, text }) => {
      const at = left + share * (right - left);
      return [
        line([at, top], [at, bottom + 4], "thin"),
        label([at, bottom + 14], text, { anchor: "middle", size: SMALL }),
      ];
    }),
    y.marks.map(({ share, text }) => {
      const at = bottom - share * (bottom - top);
      return [line([left - 4, at], [right, at], "thin"), label([left - 7, at], text, { anchor: "end", size: SMALL })];
    }),
    line([left, top], [left, bottom]),
    line([left, bottom], [right, bottom]),
    label([(left + right) / 2, bottom + 32], `${xName} [${x.unit}]`, { anchor: "middle", size: SMALL }),
    label([4, top - 20], `${yName} [${y.unit}]`, { size: SMALL }),
  ];
}

/** A curve through value pairs. */
export const curve = (plot: Plot, points: readonly (readonly [number, number])[], stroke: Stroke): Markup =>
  polyline(
    points.map(([along, up]) => pointIn(plot, along, up)),
    stroke,
  );
