/** What the air meets on its way out: pressure along the run, and the fan's curve against the run's. */
import type { Markup } from "../markup.js";
import { type Axis, axis } from "./axis.js";
import { disc, drawing, label, line, lineSample, notes, numberSample, PAPER, SMALL } from "./draw.js";
import { type DrawingOptions, shower } from "./options.js";
import { axes, curve, type Plot, plotFrame, pointIn } from "./plot.js";

/** One piece of a run, in the order of the air. */
export interface RunPiece {
  readonly what: string;
  /** Where it begins, counted along the run from the machine [m]; it ends where the next begins. */
  readonly from: number;
  /** Pressure lost in it [Pa], 0 or more. */
  readonly loss: number;
  /** What is still to be lost after it [Pa]. */
  readonly left: number;
}

/** What the pressure profile shows. */
export interface ProfileData {
  /** From the machine to the hood, which is the last and takes no length. */
  readonly pieces: readonly RunPiece[];
  /** Lost in all [Pa]. */
  readonly total: number;
  /** Pressure that the machine's maker allows, where known [Pa]. */
  readonly allowed?: number | undefined;
  /** Air moved, where known [m³/s]. */
  readonly flow?: number | undefined;
}

/** An axis for values of which the largest may be none. */
const axisTo = (most: number, kind: "length" | "airPressure" | "volumeFlow", units: "us" | "si"): Axis =>
  axis(most > 0 ? most : 1, kind, units);

/** Room above the highest point of a curve, so that it does not run along the edge. */
const HEADROOM = 1.05;

/**
 * Pressure still to be lost along a run, from the machine to the hood: it falls along each straight piece and at once in
 * each fitting.
 *
 * @param data - pieces in the order of the air, SI
 * @throws RangeError where there is no piece, or a number is negative or goes back along the run
 */
export function profileDrawing(data: ProfileData, { id = "profile", units = "us" }: DrawingOptions = {}): Markup {
  const show = shower(units);
  const { pieces, total, allowed, flow } = data;
  const last = pieces.at(-1);
  if (last === undefined) throw new RangeError("a run has at least one piece");
  const endOf = (i: number): number => pieces[i + 1]?.from ?? last.from;
  pieces.forEach(({ what, from, loss, left }, i) => {
    if (!(from >= 0 && loss >= 0 && left >= 0 && endOf(i) >= from))
      throw new RangeError(`${what}: from ${from} m with a loss of ${loss} Pa cannot be drawn`);
  });
  const plot: Plot = {
    frame: plotFrame,
    x: axisTo(last.from, "length", units),
    y: axisTo(Math.max(total, allowed ?? 0) * HEADROOM, "airPressure", units),
  };
  const points: (readonly [number, number])[] = [[0, total], ...pieces.map(({ left }, i) => [endOf(i), left] as const)];
  const marked = pieces.map(({ from, left, loss }, i) => ({
    number: i + 1,
    at: [(from + endOf(i)) / 2, left + loss / 2] as const,
  }));
  let before = { x: Number.NEGATIVE_INFINITY, y: 0 };
  const marks = marked.map(({ number, at }) => {
    const [px, py] = pointIn(plot, ...at);
    // numbers keep clear of each other: the next one goes further up
    let y = py - 14;
    const x = px + 10;
    if (x - before.x < 17 && Math.abs(y - before.y) < 17) y = before.y - 17;
    if (y < plot.frame.top + 6) y = py + 16;
    before = { x, y };
    return [disc([x, y], 8, "thin", PAPER), label([x, y], String(number), { anchor: "middle", size: 11 })];
  });
  const lost = ({ what, loss }: RunPiece): string => `${what}: ${show(loss, "airPressure")}`;
  const list = notes(plot.frame.bottom + 48, [
    ...pieces.map((piece, i) => ({ mark: numberSample(String(i + 1)), text: lost(piece) })),
    ...(allowed === undefined
      ? []
      : [{ mark: lineSample("dashed"), text: `what the maker allows at the outlet: ${show(allowed, "airPressure")}` }]),
    {
      text: `In all ${show(total, "airPressure")}${flow === undefined ? "" : ` at ${show(flow, "volumeFlow")} of air`}.`,
    },
  ]);
  const first = pointIn(plot, 0, allowed ?? 0);
  return drawing(
    {
      id,
      title: "Pressure along the exhaust duct",
      description: `Pressure still to be lost, from the machine to the hood; ${show(total, "airPressure")} in all. ${pieces
        .map(lost)
        .join(
          "; ",
        )}.${allowed === undefined ? "" : ` The maker allows ${show(allowed, "airPressure")} at the outlet.`}`,
      height: list.end + 4,
    },
    axes(plot, "along the run", "pressure still to be lost"),
    allowed === undefined ? null : line(first, [plot.frame.right, first[1]], "dashed"),
    curve(plot, points, "heavy"),
    marks,
    list.markup,
  );
}

/** A pair of flow [m³/s] and pressure [Pa]. */
export interface FlowPoint {
  readonly flow: number;
  readonly pressure: number;
}

/** What the plot of fan against run shows. */
export interface FanRunData {
  /** The fan's curve, by rising flow. */
  readonly fan: readonly FlowPoint[];
  /** What the run takes, by rising flow. */
  readonly run: readonly FlowPoint[];
  /** What a run as short as can be takes, or one swept clean, for comparison. */
  readonly other?: { readonly what: string; readonly points: readonly FlowPoint[] } | undefined;
  /** Where the two meet. */
  readonly meets?: FlowPoint | undefined;
  /** The least flow that is wanted, where known [m³/s]. */
  readonly least?: number | undefined;
}

const pairs = (points: readonly FlowPoint[]): (readonly [number, number])[] =>
  points.map(({ flow, pressure }) => [flow, pressure]);

/** The part of a rising or falling curve that lies under a pressure, cut where it leaves. */
function under(points: readonly (readonly [number, number])[], most: number): (readonly [number, number])[] {
  const kept: (readonly [number, number])[] = [];
  points.forEach(([flow, pressure], i) => {
    const [lastFlow, lastPressure] = points[i - 1] ?? [flow, pressure];
    if (pressure > most !== lastPressure > most) {
      const share = (most - lastPressure) / (pressure - lastPressure);
      kept.push([lastFlow + share * (flow - lastFlow), most]);
    }
    if (pressure <= most) kept.push([flow, pressure]);
  });
  return kept;
}

/**
 * The fan's curve against the run's: they meet where the air settles.
 *
 * @param data - curves as points, SI
 * @throws RangeError where a curve has fewer than two points
 */
export function fanRunDrawing(data: FanRunData, { id = "fan-run", units = "us" }: DrawingOptions = {}): Markup {
  const show = shower(units);
  const { fan, run, other, meets, least } = data;
  for (const points of [fan, run]) if (points.length < 2) throw new RangeError("a curve needs two points or more");
  const top = Math.max(...fan.map(({ pressure }) => pressure), meets?.pressure ?? 0) * HEADROOM;
  const wide = Math.max(...fan.map(({ flow }) => flow), meets?.flow ?? 0, least ?? 0);
  const plot: Plot = { frame: plotFrame, x: axisTo(wide, "volumeFlow", units), y: axisTo(top, "airPressure", units) };
  const inside = (points: readonly FlowPoint[]) => under(pairs(points.filter(({ flow }) => flow <= wide)), top);
  const meeting = meets && pointIn(plot, meets.flow, meets.pressure);
  const least0 = least === undefined ? undefined : pointIn(plot, least, 0);
  const list = notes(plot.frame.bottom + 48, [
    { mark: lineSample("heavy"), text: "what the fan gives" },
    { mark: lineSample("dashed"), text: "what the run takes" },
    ...(other ? [{ mark: lineSample("dotted"), text: other.what }] : []),
    ...(least === undefined
      ? []
      : [{ mark: lineSample("chain"), text: `least air wanted: ${show(least, "volumeFlow")}` }]),
    ...(meets
      ? [
          {
            text: `They meet at ${show(meets.flow, "volumeFlow")} and ${show(meets.pressure, "airPressure")}.`,
          },
        ]
      : []),
  ]);
  return drawing(
    {
      id,
      title: "The fan against the run",
      description: `Pressure over air flow. ${
        meets
          ? `The fan's curve and the run's meet at ${show(meets.flow, "volumeFlow")} and ${show(meets.pressure, "airPressure")}.`
          : "Where the two curves meet is not known."
      }${least === undefined ? "" : ` At least ${show(least, "volumeFlow")} is wanted.`}`,
      height: list.end + 4,
    },
    axes(plot, "air", "pressure"),
    least0 ? line([least0[0], plot.frame.top], least0, "chain") : null,
    other ? curve(plot, inside(other.points), "dotted") : null,
    curve(plot, inside(run), "dashed"),
    curve(plot, inside(fan), "heavy"),
    meeting
      ? [
          line(meeting, [meeting[0], plot.frame.bottom], "dotted"),
          disc(meeting, 6, "plain", PAPER),
          disc(meeting, 2.5, null, "currentColor"),
          label([meeting[0] - 6, plot.frame.bottom - 10], show(meets!.flow, "volumeFlow"), {
            bold: true,
            size: SMALL,
            anchor: "end",
          }),
        ]
      : null,
    list.markup,
  );
}
