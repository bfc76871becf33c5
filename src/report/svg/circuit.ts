/** The circuit from the panel to the machine as a one-line diagram, top to bottom. */
import type { Content, Markup } from "../markup.js";
import {
  arc,
  box,
  disc,
  drawing,
  label,
  line,
  type Point,
  paragraph,
  polyline,
  SMALL,
  type Stroke,
  TEXT,
  WIDTH,
} from "./draw.js";
import type { DrawingOptions } from "./options.js";

/** What stands in a circuit. */
export type CircuitSymbol = "panel" | "breaker" | "conductors" | "receptacle" | "cord" | "machine";

/** One thing of a circuit: its name, what is known of it, and what a rule says of it. */
export interface CircuitPiece {
  readonly symbol: CircuitSymbol;
  readonly name: string;
  /** What is known of it, one fact a line, with units. */
  readonly facts: readonly string[];
  /** What is wrong with it, in sentences. */
  readonly remarks?: readonly string[] | undefined;
}

/** What the one-line diagram shows. */
export interface CircuitData {
  /** From the panel to the machine. */
  readonly pieces: readonly CircuitPiece[];
}

const X = 40;
const TEXT_X = 84;
const SYMBOL = 44;

/** A symbol between two y, the line going through at x. */
function symbolMarkup(symbol: CircuitSymbol, y: number): Content {
  const end = y + SYMBOL;
  const middle = y + SYMBOL / 2;
  const through = (stroke: Stroke): Markup => line([X, y], [X, end], stroke);
  switch (symbol) {
    case "panel":
      return [
        box([X - 24, y], 48, SYMBOL - 12),
        line([X - 18, y + 12], [X + 18, y + 12], "heavy"),
        line([X, y + 12], [X, end]),
      ];
    case "breaker":
      return [
        line([X, y], [X, middle - 11]),
        disc([X, middle - 11], 2.5, null, "currentColor"),
        arc([X, middle], 11, -Math.PI / 2, Math.PI / 2),
        disc([X, middle + 11], 2.5, null, "currentColor"),
        line([X, middle + 11], [X, end]),
      ];
    case "conductors":
      return [
        through("plain"),
        [-7, 0, 7].map((up) => line([X - 8, middle + up + 5], [X + 8, middle + up - 5], "thin")),
      ];
    case "receptacle":
      return [
        line([X, y], [X, middle - 12]),
        arc([X, middle + 2], 14, -Math.PI, 0),
        line([X - 14, middle + 2], [X + 14, middle + 2]),
        [-7, 7].map((x) => line([X + x, middle + 2], [X + x, middle + 8], "heavy")),
        line([X, middle + 8], [X, end], "dotted"),
      ];
    case "cord": {
      const wave: Point[] = Array.from({ length: 25 }, (_, i) => [
        X + 9 * Math.sin((i / 24) * 4 * Math.PI),
        y + (i / 24) * SYMBOL,
      ]);
      return polyline(wave, "plain");
    }
    case "machine":
      return [
        line([X, y], [X, y + 6]),
        box([X - 24, y + 6], 48, SYMBOL - 12),
        disc([X, middle], 11),
        label([X, middle], "M", { anchor: "middle", size: SMALL, bold: true }),
      ];
  }
}

/**
 * The circuit as a one-line diagram: each thing with its facts beside it, and what is wrong with it in bold.
 *
 * @param data - pieces from the panel to the machine, their facts as texts with units
 */
export function circuitDrawing({ pieces }: CircuitData, { id = "circuit" }: DrawingOptions = {}): Markup {
  if (pieces.length === 0) throw new RangeError("a circuit has at least one piece");
  let y = 8;
  const body = pieces.map(({ symbol, name, facts, remarks = [] }, i) => {
    const top = y;
    let at = y + 2;
    const texts: Content[] = [];
    const add = (text: string, style: { bold?: boolean; size?: number }): void => {
      const placed = paragraph([TEXT_X, at], text, WIDTH - TEXT_X - 6, style);
      texts.push(placed.markup);
      at = placed.end;
    };
    add(name, { bold: true, size: TEXT });
    for (const fact of facts) add(fact, { size: SMALL });
    for (const remark of remarks) add(`→ ${remark}`, { size: SMALL, bold: true });
    y = Math.max(top + SYMBOL, at + 10);
    const last = i === pieces.length - 1;
    return [
      symbolMarkup(symbol, top),
      last ? null : line([X, top + SYMBOL], [X, y], symbol === "receptacle" ? "dotted" : "plain"),
      texts,
    ];
  });
  const spoken = pieces.map(({ name, facts, remarks = [] }) =>
    [`${[name, ...facts].join(", ")}.`, ...remarks].join(" "),
  );
  return drawing(
    {
      id,
      title: "The circuit on one line",
      description: `From the panel to the machine: ${spoken.join(" ")}`,
      height: y + 4,
    },
    body,
  );
}
