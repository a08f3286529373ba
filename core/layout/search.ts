/**
 * The cheapest orthogonal way between two nodes of the routing grid (A*, Hart, Nilsson and Raphael 1968). What is
 * cheap is what reads well: short, few bends, few crossings, never along or touching another net's line, not close
 * to parts, texts and parallel lines.
 */
import type { RouteGrid } from "./grid.ts";

/** Prices in mm of line. Found by looking at sheets: common practice, no source. */
const PRICE = {
  bend: 20,
  crossing: 6,
  /** Running along another net, a mm. */
  shared: 40,
  /** Touching another net at a bend or an end: reads as a join. */
  touching: 150,
  /** A fourth line at a join of one net. */
  fourWay: 90,
  /** Next to another net's line, a mm. */
  parallel: 0.6,
  /** Along a line of the same net, a mm: no more than fresh line. */
  ownTrack: 0.9,
} as const;

/** Nodes that one router may look at before it gives up on what is left: some seconds, whatever the machine. */
const MOST_STEPS = 25_000_000;

const ACROSS = 0;
const DOWN = 1;
export type Axis = typeof ACROSS | typeof DOWN;
const WEST = 1;
const EAST = 2;
const NORTH = 4;
const SOUTH = 8;
const ALL = 15;

export class RouteSearch {
  readonly #grid: RouteGrid;
  readonly #cost: Float64Array;
  readonly #from: Int32Array;
  readonly #seen: Int32Array;
  #stamp = 0;
  #keys = new Float64Array(1024);
  #states = new Int32Array(1024);
  #size = 0;
  #steps = 0;

  constructor(grid: RouteGrid) {
    this.#grid = grid;
    const states = 2 * grid.columns * grid.rows;
    this.#cost = new Float64Array(states);
    this.#from = new Int32Array(states);
    this.#seen = new Int32Array(states);
  }

  /**
   * Nodes from start to goal, both included, every grid node on the way; undefined if there is no way within
   * `margin` mm of the rectangle that the two span.
   */
  find(
    start: { readonly node: number; readonly axis: Axis | undefined; readonly came: number },
    goal: { readonly node: number; readonly axis: Axis | undefined },
    net: number,
    margin: number,
  ): { readonly nodes: readonly number[]; readonly cost: number } | undefined {
    const grid = this.#grid;
    const { xs, ys, columns, rows } = grid;
    const goalColumn = goal.node % columns;
    const goalRow = Math.floor(goal.node / columns);
    const goalX = xs[goalColumn] ?? 0;
    const goalY = ys[goalRow] ?? 0;
    const startX = grid.x(start.node);
    const startY = grid.y(start.node);
    const left = Math.min(startX, goalX) - margin;
    const right = Math.max(startX, goalX) + margin;
    const top = Math.min(startY, goalY) - margin;
    const bottom = Math.max(startY, goalY) + margin;
    const stamp = ++this.#stamp;
    this.#size = 0;
    const guess = (column: number, row: number): number =>
      PRICE.ownTrack * (Math.abs((xs[column] ?? 0) - goalX) + Math.abs((ys[row] ?? 0) - goalY)) +
      (column !== goalColumn && row !== goalRow ? PRICE.bend : 0);
    const relax = (state: number, cost: number, from: number, estimate: number): void => {
      if (this.#seen[state] === stamp && (this.#cost[state] ?? 0) <= cost) return;
      this.#seen[state] = stamp;
      this.#cost[state] = cost;
      this.#from[state] = from;
      this.#push(cost + estimate, state);
    };
    for (const axis of start.axis === undefined ? ([ACROSS, DOWN] as const) : [start.axis])
      relax(start.node * 2 + axis, 0, -1, guess(start.node % columns, Math.floor(start.node / columns)));
    while (this.#size > 0 && this.#steps < MOST_STEPS) {
      this.#steps += 1;
      const key = this.#keys[0] ?? 0;
      const state = this.#pop();
      const node = state >> 1;
      const axis: Axis = (state & 1) === 0 ? ACROSS : DOWN;
      const column = node % columns;
      const row = (node - column) / columns;
      const cost = this.#cost[state] ?? 0;
      if (key > cost + guess(column, row) + 1e-9) continue;
      if (node === goal.node) {
        if (goal.axis === undefined || goal.axis === axis) return { nodes: this.#trace(state), cost };
        relax(node * 2 + goal.axis, cost + PRICE.bend, state, 0);
        continue;
      }
      const before = this.#from[state] ?? -1;
      const came = before >= 0 ? before >> 1 : start.came;
      for (let direction = 0; direction < 4; direction += 1) {
        const nextAxis: Axis = direction < 2 ? ACROSS : DOWN;
        const forward = (direction & 1) === 0 ? 1 : -1;
        const nextColumn = nextAxis === ACROSS ? column + forward : column;
        const nextRow = nextAxis === DOWN ? row + forward : row;
        if (nextColumn < 0 || nextRow < 0 || nextColumn >= columns || nextRow >= rows) continue;
        if (nextRow * columns + nextColumn === came) continue;
        const x = xs[nextColumn] ?? 0;
        const y = ys[nextRow] ?? 0;
        if (x < left || x > right || y < top || y > bottom) continue;
        const next = nextRow * columns + nextColumn;
        if (grid.blocked[next] === 1 && next !== goal.node) continue;
        const length = Math.abs(x - (xs[column] ?? 0)) + Math.abs(y - (ys[row] ?? 0));
        const passing = this.#at(node, came, next, net);
        const step = this.#along(nextAxis, forward > 0 ? node : next, length, net);
        const turn = axis === nextAxis ? 0 : PRICE.bend;
        relax(
          next * 2 + nextAxis,
          cost + step + turn + passing + (grid.dear[next] ?? 0),
          state,
          guess(nextColumn, nextRow),
        );
      }
    }
    return undefined;
  }

  /** Price of an edge: fresh, along its own net, beside another, or (dear) along another. */
  #along(axis: Axis, edge: number, length: number, net: number): number {
    const { across, down, columns } = this.#grid;
    const owners = axis === ACROSS ? across : down;
    const beside = axis === ACROSS ? columns : 1;
    const owner = owners[edge] ?? 0;
    if (owner === net) return length * PRICE.ownTrack;
    if (owner !== 0) return length * PRICE.shared;
    const before = owners[edge - beside] ?? 0;
    const after = owners[edge + beside] ?? 0;
    const close = (before !== 0 && before !== net) || (after !== 0 && after !== net);
    return close ? length * (1 + PRICE.parallel) : length;
  }

  /** Price of going through a node: plain crossings, touching, four-way joins. `came` and `goes` are its neighbours. */
  #at(node: number, came: number, goes: number, net: number): number {
    const { across, down, columns } = this.#grid;
    const west = across[node - 1] ?? 0;
    const east = across[node] ?? 0;
    const north = down[node - columns] ?? 0;
    const south = down[node] ?? 0;
    if (west === 0 && east === 0 && north === 0 && south === 0) return 0;
    const used = this.#edgeBit(node, came) | this.#edgeBit(node, goes);
    const own =
      used |
      (west === net ? WEST : 0) |
      (east === net ? EAST : 0) |
      (north === net ? NORTH : 0) |
      (south === net ? SOUTH : 0);
    const foreign =
      (west !== 0 && west !== net ? WEST : 0) |
      (east !== 0 && east !== net ? EAST : 0) |
      (north !== 0 && north !== net ? NORTH : 0) |
      (south !== 0 && south !== net ? SOUTH : 0);
    let price = own === ALL ? PRICE.fourWay : 0;
    if (foreign !== 0) {
      const level = used === (WEST | EAST);
      const upright = used === (NORTH | SOUTH);
      const plain =
        (level && foreign === (NORTH | SOUTH) && north === south) ||
        (upright && foreign === (WEST | EAST) && west === east);
      const along = (level || upright) && foreign === used;
      price += plain ? PRICE.crossing : along ? 0 : PRICE.touching;
    }
    return price;
  }

  #edgeBit(node: number, neighbour: number): number {
    if (neighbour < 0 || neighbour === node) return 0;
    if (neighbour === node - 1) return WEST;
    if (neighbour === node + 1) return EAST;
    return neighbour < node ? NORTH : SOUTH;
  }

  #trace(last: number): readonly number[] {
    const nodes: number[] = [];
    for (let state = last; state >= 0; state = this.#from[state] ?? -1) {
      const node = state >> 1;
      if (nodes[nodes.length - 1] !== node) nodes.push(node);
    }
    return nodes.reverse();
  }

  #push(key: number, state: number): void {
    if (this.#size >= this.#keys.length) {
      const keys = new Float64Array(this.#size * 2);
      keys.set(this.#keys);
      const states = new Int32Array(this.#size * 2);
      states.set(this.#states);
      this.#keys = keys;
      this.#states = states;
    }
    const keys = this.#keys;
    const states = this.#states;
    let at = this.#size++;
    while (at > 0) {
      const parent = (at - 1) >> 1;
      if ((keys[parent] ?? 0) <= key) break;
      keys[at] = keys[parent] ?? 0;
      states[at] = states[parent] ?? 0;
      at = parent;
    }
    keys[at] = key;
    states[at] = state;
  }

  #pop(): number {
    const keys = this.#keys;
    const states = this.#states;
    const first = states[0] ?? 0;
    const size = --this.#size;
    const key = keys[size] ?? 0;
    const state = states[size] ?? 0;
    let at = 0;
    for (;;) {
      let child = 2 * at + 1;
      if (child >= size) break;
      if (child + 1 < size && (keys[child + 1] ?? 0) < (keys[child] ?? 0)) child += 1;
      if ((keys[child] ?? 0) >= key) break;
      keys[at] = keys[child] ?? 0;
      states[at] = states[child] ?? 0;
      at = child;
    }
    keys[at] = key;
    states[at] = state;
    return first;
  }
}
