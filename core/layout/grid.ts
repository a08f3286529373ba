/**
 * The routing grid: lines every 2.5 mm (fewer where a drawing spreads far beyond its paper), what stands on them and
 * which nets already run along them. Edges are named by their left or upper node.
 */
import type { Box } from "../geometry/display.ts";
import { GRID } from "../geometry/points.ts";
import type { Millimetre } from "../quantity/kinds.ts";

/** A grid with more nodes keeps only the lines near parts, as many as fit; in the last resort those of the paper. */
const MOST_NODES = 1_500_000;
const NEAR_LINES: readonly number[] = [6, 3, 1];
/** An edge that several nets run along. */
const MIXED = -1;

export class RouteGrid {
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  readonly columns: number;
  readonly rows: number;
  /** 1: inside a part or outside the frame. */
  readonly blocked: Uint8Array;
  /** Extra cost of passing a node, mm: texts, closeness to parts. */
  readonly dear: Float32Array;
  /** Net along the edge to the right / down of a node; 0 none, -1 several. */
  readonly across: Int32Array;
  readonly down: Int32Array;
  readonly #acrossCount: Uint16Array;
  readonly #downCount: Uint16Array;
  readonly #column = new Map<Millimetre, number>();
  readonly #row = new Map<Millimetre, number>();

  /** `paper` is what must be covered, `area` what should be, `wanted` the places that matter beyond the paper. */
  constructor(paper: Box, area: Box, wanted: readonly { readonly x: Millimetre; readonly y: Millimetre }[]) {
    const [xs, ys] = gridLines(paper, area, wanted);
    this.xs = Float64Array.from(xs);
    this.ys = Float64Array.from(ys);
    this.columns = this.xs.length;
    this.rows = this.ys.length;
    this.xs.forEach((x, index) => this.#column.set(x, index));
    this.ys.forEach((y, index) => this.#row.set(y, index));
    const nodes = this.columns * this.rows;
    this.blocked = new Uint8Array(nodes);
    this.dear = new Float32Array(nodes);
    this.across = new Int32Array(nodes);
    this.down = new Int32Array(nodes);
    this.#acrossCount = new Uint16Array(nodes);
    this.#downCount = new Uint16Array(nodes);
  }

  /** The node at a place; undefined off the grid. */
  node(x: Millimetre, y: Millimetre): number | undefined {
    const column = this.#column.get(x);
    const row = this.#row.get(y);
    return column === undefined || row === undefined ? undefined : row * this.columns + column;
  }

  x(node: number): Millimetre {
    return this.xs[node % this.columns] ?? 0;
  }

  y(node: number): Millimetre {
    return this.ys[Math.floor(node / this.columns)] ?? 0;
  }

  /** Nodes strictly inside the box. */
  block(box: Box): void {
    this.#within(box, -0.01, (node) => {
      this.blocked[node] = 1;
    });
  }

  /** Makes every node within `reach` of the box dearer. */
  avoid(box: Box, reach: Millimetre, cost: number): void {
    this.#within(box, reach, (node) => {
      this.dear[node] = Math.max(this.dear[node] ?? 0, cost);
    });
  }

  /** Notes (or, with `times` = -1, forgets) that a net runs along these nodes, neighbours being on one grid line. */
  occupy(nodes: readonly number[], net: number, times: 1 | -1 = 1): void {
    for (let index = 1; index < nodes.length; index += 1) {
      const a = Math.min(nodes[index - 1] ?? 0, nodes[index] ?? 0);
      const b = Math.max(nodes[index - 1] ?? 0, nodes[index] ?? 0);
      const level = Math.floor(a / this.columns) === Math.floor(b / this.columns);
      const step = level ? 1 : this.columns;
      for (let edge = a; edge < b; edge += step) {
        if (level) this.#count(this.across, this.#acrossCount, edge, net, times);
        else this.#count(this.down, this.#downCount, edge, net, times);
      }
    }
  }

  /** True where a line of another net passes, bends or ends. */
  isForeign(node: number, net: number): boolean {
    return [this.across[node], this.across[node - 1], this.down[node], this.down[node - this.columns]].some(
      (owner) => owner !== undefined && owner !== 0 && owner !== net,
    );
  }

  /** True if a line of whatever net runs through the box. */
  isCrossed(box: Box): boolean {
    let crossed = false;
    this.#within(box, 0, (node) => {
      crossed ||= this.isForeign(node, 0);
    });
    return crossed;
  }

  #count(owner: Int32Array, count: Uint16Array, edge: number, net: number, times: 1 | -1): void {
    const now = (count[edge] ?? 0) + times;
    count[edge] = Math.max(0, now);
    if (now <= 0) owner[edge] = 0;
    else if (times > 0) owner[edge] = owner[edge] === 0 || owner[edge] === net ? net : MIXED;
  }

  #within(box: Box, reach: Millimetre, visit: (node: number) => void): void {
    const left = firstAbove(this.xs, box.x - reach);
    const right = firstAbove(this.xs, box.x + box.width + reach);
    const top = firstAbove(this.ys, box.y - reach);
    const bottom = firstAbove(this.ys, box.y + box.height + reach);
    for (let row = top; row < bottom; row += 1)
      for (let column = left; column < right; column += 1) visit(row * this.columns + column);
  }
}

function lines(from: Millimetre, to: Millimetre): Millimetre[] {
  const first = Math.ceil(from / GRID);
  const count = Math.max(1, Math.floor(to / GRID) - first + 1);
  return Array.from({ length: Math.min(count, MOST_NODES) }, (_, index) => (first + index) * GRID);
}

function gridLines(
  paper: Box,
  area: Box,
  wanted: readonly { readonly x: Millimetre; readonly y: Millimetre }[],
): readonly [readonly Millimetre[], readonly Millimetre[]] {
  const all = [lines(area.x, area.x + area.width), lines(area.y, area.y + area.height)] as const;
  if (all[0].length * all[1].length <= MOST_NODES) return all;
  for (const reach of NEAR_LINES) {
    const some = [
      near(
        wanted.map(({ x }) => x),
        reach,
      ),
      near(
        wanted.map(({ y }) => y),
        reach,
      ),
    ] as const;
    if (some[0].length * some[1].length <= MOST_NODES) return some;
  }
  return [lines(paper.x, paper.x + paper.width), lines(paper.y, paper.y + paper.height)];
}

/** So many grid lines on each side of every place that matters. */
function near(places: readonly Millimetre[], reach: number): Millimetre[] {
  const kept = new Set<Millimetre>();
  for (const place of places)
    for (let step = -reach; step <= reach; step += 1) kept.add(Math.round(place / GRID) * GRID + step * GRID);
  return [...kept].sort((a, b) => a - b);
}

/** Index of the first line above `value`. */
function firstAbove(values: Float64Array, value: number): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((values[middle] ?? 0) <= value) low = middle + 1;
    else high = middle;
  }
  return low;
}
