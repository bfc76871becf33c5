/** The cheapest way of a duct across a grid of framing. An exact search; numerics only. */

/** A plan: which cells may be crossed, where the run starts and ends. */
export interface Plan {
  readonly columns: number;
  readonly rows: number;
  /** By row and column, row by row. */
  readonly free: readonly boolean[];
  readonly start: number;
  readonly end: number;
}

/** What the steps and turns of a run cost, in one measure. */
export interface RouteCosts {
  /** One cell straight on. */
  readonly straight: number;
  /** One cell across the corner; left out where 45° runs are not wanted. */
  readonly diagonal?: number;
  /** One elbow of 45°. */
  readonly turn45: number;
  /** One elbow of 90°. */
  readonly turn90: number;
  /** Elbows of 90° that cost nothing. */
  readonly free90: number;
}

/** A way found: its cells in order, and what makes it up. */
export interface Route {
  readonly cells: readonly number[];
  readonly cost: number;
  readonly straights: number;
  readonly diagonals: number;
  readonly turns45: number;
  readonly turns90: number;
}

/** Eight directions, by 45°, starting to the right. */
const DIRECTIONS = [
  [1, 0],
  [1, 1],
  [0, 1],
  [-1, 1],
  [-1, 0],
  [-1, -1],
  [0, -1],
  [1, -1],
] as const;

/** The cell one step on, or `undefined` where the plan ends, something stands, or a corner would be cut. */
export function stepFrom({ columns, rows, free }: Plan, cell: number, direction: number): number | undefined {
  const [dx, dy] = DIRECTIONS[direction]!;
  const x = cell % columns;
  const y = (cell - x) / columns;
  const nx = x + dx;
  const ny = y + dy;
  if (nx < 0 || ny < 0 || nx >= columns || ny >= rows) return undefined;
  const next = ny * columns + nx;
  if (!free[next]) return undefined;
  if (dx !== 0 && dy !== 0 && !(free[y * columns + nx] && free[ny * columns + x])) return undefined;
  return next;
}

/** Turn between two directions in steps of 45°: 0, 1, 2 for a run, more for what no elbow does. */
export const turnOf = (from: number, to: number): number => {
  const apart = Math.abs(from - to) % 8;
  return Math.min(apart, 8 - apart);
};

interface Entry {
  readonly cost: number;
  readonly state: number;
}

/** A binary heap by cost. */
class Heap {
  readonly #items: Entry[] = [];
  get size(): number {
    return this.#items.length;
  }
  push(entry: Entry): void {
    const items = this.#items;
    let i = items.push(entry) - 1;
    while (i > 0) {
      const up = (i - 1) >> 1;
      if (items[up]!.cost <= entry.cost) break;
      items[i] = items[up]!;
      i = up;
    }
    items[i] = entry;
  }
  pop(): Entry {
    const items = this.#items;
    const top = items[0]!;
    const last = items.pop()!;
    if (items.length > 0) {
      let i = 0;
      for (;;) {
        let child = 2 * i + 1;
        if (child >= items.length) break;
        if (child + 1 < items.length && items[child + 1]!.cost < items[child]!.cost) child++;
        if (items[child]!.cost >= last.cost) break;
        items[i] = items[child]!;
        i = child;
      }
      items[i] = last;
    }
    return top;
  }
}

/**
 * The cheapest run across a plan, or `undefined` where none gets through.
 *
 * Dijkstra's search over cell, direction and elbows still free: exact where no cost is negative. The run may leave the
 * start in any direction; at a cell it goes straight on or turns by one elbow of 45° or 90°.
 *
 * @param plan - cells, start and end
 * @param costs - of steps and turns, none negative
 */
export function cheapestRoute(plan: Plan, costs: RouteCosts): Route | undefined {
  const levels = costs.free90 + 1;
  const total = plan.free.length * 8 * levels;
  const best = new Float64Array(total).fill(Number.POSITIVE_INFINITY);
  const before = new Int32Array(total).fill(-1);
  const heap = new Heap();
  const id = (cell: number, direction: number, level: number) => (cell * 8 + direction) * levels + level;
  const stepCost = (direction: number) => (direction % 2 === 0 ? costs.straight : costs.diagonal);
  const relax = (state: number, cost: number, from: number) => {
    if (cost >= best[state]!) return;
    best[state] = cost;
    before[state] = from;
    heap.push({ cost, state });
  };
  for (let direction = 0; direction < 8; direction++) {
    const cost = stepCost(direction);
    const next = stepFrom(plan, plan.start, direction);
    if (next !== undefined && cost !== undefined) relax(id(next, direction, 0), cost, -1);
  }
  while (heap.size > 0) {
    const { cost, state } = heap.pop();
    if (cost > best[state]!) continue;
    const level = state % levels;
    const direction = ((state - level) / levels) % 8;
    const cell = Math.floor(state / levels / 8);
    if (cell === plan.end) return trace(plan, before, state, levels, cost);
    for (let to = 0; to < 8; to++) {
      const turn = turnOf(direction, to);
      const step = stepCost(to);
      if (turn > 2 || step === undefined) continue;
      const next = stepFrom(plan, cell, to);
      if (next === undefined) continue;
      const isFree = turn === 2 && level < costs.free90;
      const elbow = turn === 0 ? 0 : turn === 1 ? costs.turn45 : isFree ? 0 : costs.turn90;
      relax(id(next, to, isFree ? level + 1 : level), cost + elbow + step, state);
    }
  }
  return undefined;
}

function trace(plan: Plan, before: Int32Array, last: number, levels: number, cost: number): Route {
  const cells: number[] = [];
  const directions: number[] = [];
  for (let state = last; state >= 0; state = before[state]!) {
    cells.push(Math.floor(state / levels / 8));
    directions.push(Math.floor(state / levels) % 8);
  }
  cells.push(plan.start);
  directions.reverse();
  let turns45 = 0;
  let turns90 = 0;
  directions.slice(1).forEach((direction, i) => {
    const turn = turnOf(directions[i]!, direction);
    if (turn === 1) turns45++;
    if (turn === 2) turns90++;
  });
  const diagonals = directions.filter((direction) => direction % 2 === 1).length;
  return { cells: cells.reverse(), cost, straights: directions.length - diagonals, diagonals, turns45, turns90 };
}
