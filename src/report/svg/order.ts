/** The order of work: one step below the other, with a line from each to those that wait for it. */
import type { WorkOrder } from "../../survey/index.js";
import { type Content, element, join, type Markup } from "../markup.js";
import { verdictWords } from "../text.js";
import { arrowHead, disc, drawing, label, line, PAPER, type Point, paragraph, SMALL, stroked, WIDTH } from "./draw.js";
import type { DrawingOptions } from "./options.js";

const X = 74;
const NODE = 10;
const TEXT_X = X + 20;
const FARTHEST = X - NODE - 2;

/** A line that leaves the column of steps to the left and comes back to it, the farther out the more it passes. */
function bow(from: number, to: number, passed: number): Markup {
  const out = Math.min(FARTHEST, 10 + passed * 7);
  const [x, start, end] = [X - NODE, from, to];
  const control: Point = [x - 2 * out, (start + end) / 2];
  const heading = Math.atan2(end - control[1], x - control[0]);
  return join(
    element("path", {
      d: `M${x} ${start.toFixed(1)}Q${control[0]} ${control[1].toFixed(1)} ${x} ${end.toFixed(1)}`,
      ...stroked("thin"),
    }),
    arrowHead([x, end], heading, 6),
  );
}

/**
 * The order of work as a drawing: numbered steps from top to bottom, lines to the steps that wait for them, hold points
 * as a ring around the number, and in bold what stands against a step.
 *
 * @param order - as `orderOfWork` gives it
 * @throws RangeError where it has no steps
 */
export function orderDrawing(
  { site, steps }: Pick<WorkOrder, "site" | "steps">,
  { id = "order" }: DrawingOptions = {},
): Markup {
  if (steps.length === 0) throw new RangeError("an order of work has at least one step");
  const centres: number[] = [];
  let y = 6;
  const texts = steps.map(({ title, hold, obstacles }) => {
    const pieces: Content[] = [];
    centres.push(y + NODE + 1);
    let at = y + 2;
    const add = (text: string, style: { bold?: boolean; size?: number }): void => {
      const placed = paragraph([TEXT_X, at], text, WIDTH - TEXT_X - 6, style);
      pieces.push(placed.markup);
      at = placed.end;
    };
    add(title, { bold: true });
    for (const { rule, verdict } of obstacles) add(`→ ${verdictWords[verdict]} ${rule}`, { size: SMALL, bold: true });
    if (hold !== null) add(`Hold: ${hold.what}`, { size: SMALL });
    y = Math.max(y + 2 * NODE + 8, at + 8);
    return pieces;
  });
  const place = new Map(steps.map((step, i) => [step.id, i]));
  const lines = steps.flatMap(({ after }, to) =>
    after.map((one) => {
      const from = place.get(one)!;
      const [start, end] = [centres[from]!, centres[to]!];
      if (to - from > 1) return bow(start + 3, end - 3, to - from);
      return [line([X, start + NODE], [X, end - NODE], "plain"), arrowHead([X, end - NODE], Math.PI / 2, 7)];
    }),
  );
  const nodes = steps.map(({ hold, obstacles }, i) => {
    const centre: Point = [X, centres[i]!];
    return [
      hold === null ? null : disc(centre, NODE + 3, "thin", PAPER),
      disc(centre, NODE, obstacles.length > 0 ? "heavy" : "plain", PAPER),
      label(centre, String(i + 1), { size: 11, anchor: "middle", bold: obstacles.length > 0 }),
    ];
  });
  const spoken = steps.map(({ title, after, hold }, i) => {
    const numbers = after.map((one) => place.get(one)! + 1);
    const comes = numbers.length === 0 ? "" : `, after ${numbers.join(", ")}`;
    return `${i + 1}: ${title}${comes}.${hold === null ? "" : ` Hold: ${hold.what}`}`;
  });
  return drawing(
    { id, title: "The order of work", description: `${site}. ${spoken.join(" ")}`, height: y + 4 },
    lines,
    nodes,
    texts,
  );
}
