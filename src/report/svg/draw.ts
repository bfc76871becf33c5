/**
 * Line drawings as SVG text: shapes, hatching, wrapped text, dimension lines. One unit is about one CSS pixel where a
 * drawing is as wide as a phone, so that text stays legible there; on paper it is then some 9 points.
 *
 * Ink is `currentColor`, so that a drawing follows the page into the dark; nothing is told by colour alone.
 */
import { type Attributes, type Content, element, join, type Markup, words } from "../markup.js";

/** A point: x to the right, y down. */
export type Point = readonly [x: number, y: number];

/** Width of every drawing. */
export const WIDTH = 360;
/** Size of text, and of lesser text. */
export const TEXT = 13;
export const SMALL = 12;
const LINE_HEIGHT = 1.3;

/** Ways to draw a line, by what it stands for. */
export type Stroke = "heavy" | "plain" | "thin" | "dashed" | "dotted" | "chain";
const strokes: Readonly<Record<Stroke, Attributes>> = {
  heavy: { "stroke-width": 2.5 },
  plain: { "stroke-width": 1.5 },
  thin: { "stroke-width": 0.75 },
  dashed: { "stroke-width": 1.5, "stroke-dasharray": "6 4" },
  dotted: { "stroke-width": 1.5, "stroke-dasharray": "1.5 3.5", "stroke-linecap": "round" },
  chain: { "stroke-width": 1.25, "stroke-dasharray": "10 3 2 3" },
};

/** Attributes of a line; its inside stays empty. */
export const stroked = (stroke: Stroke): Attributes => ({ stroke: "currentColor", fill: "none", ...strokes[stroke] });

/** Ways to fill an area. */
export type Hatch = "slant" | "back" | "cross" | "dots" | "bars";
const hatchLines: Readonly<Record<Hatch, Markup>> = {
  slant: element("path", { d: "M-2 2L2 -2M0 8L8 0M6 10L10 6", ...stroked("thin") }),
  back: element("path", { d: "M-2 6L2 10M0 0L8 8M6 -2L10 2", ...stroked("thin") }),
  cross: element("path", { d: "M0 8L8 0M0 0L8 8", ...stroked("thin") }),
  dots: element("circle", { cx: 2, cy: 2, r: 0.9, fill: "currentColor" }),
  bars: element("path", { d: "M2 0V8M6 0V8", ...stroked("thin") }),
};
const hatchSizes: Readonly<Record<Hatch, number>> = { slant: 8, back: 8, cross: 8, dots: 5, bars: 8 };

/** What a drawing is called and says to those who do not see it. */
export interface DrawingFacts {
  /** Tells this drawing from the others of a page. */
  readonly id: string;
  readonly title: string;
  /** What the drawing shows, in words, with its figures. */
  readonly description: string;
  readonly height: number;
  readonly hatches?: readonly Hatch[];
}

/** A whole drawing. */
export function drawing({ id, title, description, height, hatches = [] }: DrawingFacts, ...body: Content[]): Markup {
  const patterns = hatches.map((hatch) => {
    const size = hatchSizes[hatch];
    const facts = { id: `${id}-${hatch}`, width: size, height: size, patternUnits: "userSpaceOnUse" };
    return element("pattern", facts, hatchLines[hatch]);
  });
  return element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `0 0 ${WIDTH} ${Math.ceil(height)}`,
      role: "img",
      "aria-labelledby": `${id}-title ${id}-description`,
      "font-family": "system-ui, sans-serif",
      "font-size": TEXT,
    },
    element("title", { id: `${id}-title` }, words(title)),
    element("desc", { id: `${id}-description` }, words(description)),
    patterns.length === 0 ? null : element("defs", {}, patterns),
    body,
  );
}

/** The fill of a hatching that the drawing declared. */
export const hatched = (id: string, hatch: Hatch): string => `url(#${id}-${hatch})`;

export const line = ([x1, y1]: Point, [x2, y2]: Point, stroke: Stroke = "plain"): Markup =>
  element("line", { x1, y1, x2, y2, ...stroked(stroke) });

const pathNumber = (value: number): string => {
  if (!Number.isFinite(value)) throw new RangeError(`${value} cannot be drawn`);
  return String(Number(value.toFixed(2)) + 0);
};

const pointList = (points: readonly Point[]): string =>
  points.map(([x, y]) => `${pathNumber(x)},${pathNumber(y)}`).join(" ");

export const polyline = (points: readonly Point[], stroke: Stroke = "plain"): Markup =>
  element("polyline", { points: pointList(points), "stroke-linejoin": "round", ...stroked(stroke) });

/** The fill of what covers the lines under it: what the page says its paper is, else white. */
export const PAPER = "#fff";
const fillOf = (fill: string): Attributes => ({
  fill,
  style: fill === PAPER ? `fill:var(--paper,${PAPER})` : undefined,
});

export const polygon = (points: readonly Point[], stroke: Stroke | null, fill = "none"): Markup =>
  element("polygon", { points: pointList(points), ...(stroke === null ? {} : stroked(stroke)), ...fillOf(fill) });

export const box = (
  [x, y]: Point,
  width: number,
  height: number,
  stroke: Stroke | null = "plain",
  fill = "none",
): Markup => element("rect", { x, y, width, height, ...(stroke === null ? {} : stroked(stroke)), ...fillOf(fill) });

export const disc = ([cx, cy]: Point, r: number, stroke: Stroke | null = "plain", fill = "none"): Markup =>
  element("circle", { cx, cy, r, ...(stroke === null ? {} : stroked(stroke)), ...fillOf(fill) });

/** The point at a heading, clockwise on the page from the right [rad], and a distance. */
export const polar = ([x, y]: Point, heading: number, distance: number): Point => [
  x + distance * Math.cos(heading),
  y + distance * Math.sin(heading),
];

/** Part of a circle, from one heading to another, clockwise on the page where `to` is the greater. */
export function arc(centre: Point, radius: number, from: number, to: number, stroke: Stroke = "plain"): Markup {
  const [x1, y1] = polar(centre, from, radius);
  const [x2, y2] = polar(centre, to, radius);
  const large = Math.abs(to - from) > Math.PI ? 1 : 0;
  const r = pathNumber(radius);
  const d = `M${pathNumber(x1)} ${pathNumber(y1)}A${r} ${r} 0 ${large} ${to > from ? 1 : 0} ${pathNumber(x2)} ${pathNumber(y2)}`;
  return element("path", { d, ...stroked(stroke) });
}

/** The head of an arrow that ends at a point, going along a heading. */
export function arrowHead(tip: Point, heading: number, size = 7): Markup {
  const left = polar(tip, heading + Math.PI - 0.4, size);
  const right = polar(tip, heading + Math.PI + 0.4, size);
  return polygon([tip, left, right], null, "currentColor");
}

/**
 * About how wide a text is [em]: letters by three classes, so that a line is rather taken too wide than too narrow. The
 * reader's own font decides; no drawing relies on more than this.
 */
export function textWidth(text: string, size = TEXT): number {
  let em = 0;
  for (const letter of text) em += /[ijl.,:;'|!() \u00a0]/.test(letter) ? 0.31 : /[mwMW@%—]/.test(letter) ? 0.9 : 0.6;
  return em * size;
}

/**
 * A text broken into lines that are about as wide as asked, never between a number and its unit. A word longer than that
 * stands alone.
 */
export function brokenText(text: string, width: number, size = TEXT): string[] {
  const lines: string[] = [];
  let current = "";
  for (const word of text.replace(/(?<=\d) (?=\S)/g, "\u00a0").split(" ")) {
    const longer = current === "" ? word : `${current} ${word}`;
    if (current !== "" && textWidth(longer, size) > width) {
      lines.push(current);
      current = word;
    } else current = longer;
  }
  return [...lines, current];
}

/** How a text is set. */
export interface TextStyle {
  readonly size?: number;
  readonly anchor?: "start" | "middle" | "end";
  readonly bold?: boolean;
}

/** Paper behind letters that cross lines: what the page says its paper is, else white. */
const overLines = "stroke:var(--paper,#fff);stroke-width:4px;stroke-linejoin:round;paint-order:stroke";

/** A line of text; `y` is the middle of its height. */
export const label = ([x, y]: Point, text: string, { size = TEXT, anchor = "start", bold }: TextStyle = {}): Markup =>
  element(
    "text",
    {
      x,
      y: y + size * 0.35,
      "font-size": size === TEXT ? undefined : size,
      "text-anchor": anchor === "start" ? undefined : anchor,
      "font-weight": bold ? 600 : undefined,
      fill: "currentColor",
      style: overLines,
    },
    words(text),
  );

/** Text that takes several lines, and where it ends. */
export interface Placed {
  readonly markup: Markup;
  /** First free y below. */
  readonly end: number;
}

/** A text over several lines; `y` is its top. */
export function paragraph([x, y]: Point, text: string, width: number, style: TextStyle = {}): Placed {
  const { size = TEXT } = style;
  const step = size * LINE_HEIGHT;
  const lines = brokenText(text, width, size);
  return {
    markup: join(lines.map((one, i) => label([x, y + (i + 0.5) * step], one, style))),
    end: y + lines.length * step,
  };
}

/** Paragraphs one below the other, each with a small mark before it, or none. */
export function notes(
  y: number,
  texts: readonly { readonly mark?: Markup | undefined; readonly text: string }[],
): Placed {
  let end = y;
  const pieces = texts.map(({ mark, text }) => {
    const placed = paragraph([mark ? 30 : 4, end], text, WIDTH - (mark ? 34 : 8), { size: SMALL });
    const piece = mark ? element("g", { transform: `translate(4 ${pathNumber(end + 1)})` }, mark) : null;
    end = placed.end + 3;
    return [piece, placed.markup];
  });
  return { markup: join(pieces), end };
}

/** A sample of a hatching or a line, to stand before a note. */
export const hatchSample = (id: string, hatch: Hatch): Markup => box([0, 0], 20, 12, "thin", hatched(id, hatch));
export const lineSample = (stroke: Stroke): Markup => line([0, 7], [20, 7], stroke);
export const numberSample = (text: string): Markup =>
  join(disc([8, 7], 8, "thin", "none"), label([8, 7], text, { size: 11, anchor: "middle" }));

const SHORT = 22;

/** A dimension line from left to right or from top to bottom, arrows outside where it is short; without its text. */
export function dimension(from: Point, to: Point): Markup {
  const heading = Math.atan2(to[1] - from[1], to[0] - from[0]);
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const tick = (at: Point): Markup =>
    line(polar(at, heading + Math.PI / 2, 5), polar(at, heading - Math.PI / 2, 5), "thin");
  if (length >= SHORT) {
    return join(
      line(from, to, "thin"),
      tick(from),
      tick(to),
      arrowHead(from, heading + Math.PI, 6),
      arrowHead(to, heading, 6),
    );
  }
  return join(
    line(polar(from, heading, -10), polar(to, heading, 10), "thin"),
    tick(from),
    tick(to),
    arrowHead(from, heading, 5),
    arrowHead(to, heading + Math.PI, 5),
  );
}
