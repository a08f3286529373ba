/** Lines of wires between paths in millimetres and nodes of the routing grid, and those that a new routing may keep. */
import type { Side } from "../geometry/placements.ts";
import type { WireId } from "../project/document.ts";
import type { Millimetre } from "../quantity/kinds.ts";
import { stubTexts, type Leaving, type Stub } from "./crossing-sheets.ts";
import type { RouteGrid } from "./grid.ts";
import type { PlacedPin } from "./placed-view.ts";

export type Path = readonly (readonly [x: Millimetre, y: Millimetre])[];

/** Without the points between two ends of one straight piece. */
export function straightened(points: Path): Path {
  const kept: (readonly [Millimetre, Millimetre])[] = [];
  for (const point of points) {
    const last = kept.at(-1);
    const before = kept.at(-2);
    if (last !== undefined && last[0] === point[0] && last[1] === point[1]) continue;
    const inLine =
      last !== undefined &&
      before !== undefined &&
      ((before[0] === last[0] && last[0] === point[0]) || (before[1] === last[1] && last[1] === point[1]));
    if (inLine) kept[kept.length - 1] = point;
    else kept.push(point);
  }
  return kept;
}

export const OUTWARDS: Readonly<Record<Side, readonly [number, number]>> = {
  left: [-1, 0],
  right: [1, 0],
  up: [0, -1],
  down: [0, 1],
};

/** A wire that is to run from one lead to another (pin first, free node last), through the points a person fixed. */
interface Wanted {
  readonly net: number;
  readonly from: readonly number[];
  readonly to: readonly number[];
  readonly through: readonly { readonly x: Millimetre; readonly y: Millimetre }[];
}

/** Nodes of a line as it was, if it still fits: from lead to lead, through what is free, along no other net. */
export function keptNodes(grid: RouteGrid, wanted: Wanted, line: Path | undefined): readonly number[] | undefined {
  const nodes = line === undefined ? undefined : nodesAlong(grid, line);
  if (nodes === undefined) return undefined;
  const { from, to, through, net } = wanted;
  const begins = from.every((node, index) => nodes[index] === node);
  const ends = to.every((node, index) => nodes[nodes.length - 1 - index] === node);
  if (!begins || !ends) return undefined;
  const passed = new Set(nodes);
  if (through.some(({ x, y }) => !passed.has(grid.node(x, y) ?? -1))) return undefined;
  const between = nodes.slice(from.length, nodes.length - to.length);
  if (between.some((node) => grid.blocked[node] === 1) || !runsAlone(grid, nodes, net)) return undefined;
  return nodes;
}

/** Every node of the grid on the line; undefined where a corner lies off the grid. */
function nodesAlong(grid: RouteGrid, line: Path): readonly number[] | undefined {
  const nodes: number[] = [];
  for (const [x, y] of line) {
    const corner = grid.node(x, y);
    if (corner === undefined) return undefined;
    const last = nodes.at(-1);
    if (last === undefined) {
      nodes.push(corner);
      continue;
    }
    const level = Math.floor(last / grid.columns) === Math.floor(corner / grid.columns);
    if (!level && last % grid.columns !== corner % grid.columns) return undefined;
    const step = Math.sign(corner - last) * (level ? 1 : grid.columns);
    for (let node = last; node !== corner; ) nodes.push((node += step));
  }
  return nodes;
}

function runsAlone(grid: RouteGrid, nodes: readonly number[], net: number): boolean {
  for (let index = 1; index < nodes.length; index += 1) {
    const [a, b] = [nodes[index - 1] ?? 0, nodes[index] ?? 0];
    const owners = Math.abs(a - b) === 1 ? grid.across : grid.down;
    const owner = owners[Math.min(a, b)] ?? 0;
    if (owner !== 0 && owner !== net) return false;
  }
  return true;
}

/** The stub that stood at this pin, if it goes the same way, out of every part, and tells of the same wires still. */
export function keptStub(
  grid: RouteGrid,
  stubs: readonly Stub[],
  pin: PlacedPin,
  leaving: readonly Leaving[],
): Stub | undefined {
  const wanted = stubTexts(leaving);
  const same = (texts: readonly { readonly wire: WireId; readonly text: string }[]): boolean =>
    texts.length === wanted.length &&
    texts.every(({ wire, text }, index) => wire === leaving[index]?.wire && text === wanted[index]);
  return stubs.find(({ path, texts }) => {
    const [first, second] = path;
    if (first === undefined || second === undefined || first[0] !== pin.x || first[1] !== pin.y) return false;
    const [dx, dy] = OUTWARDS[pin.side];
    const outwards = Math.sign(second[0] - first[0]) === dx && Math.sign(second[1] - first[1]) === dy;
    const clear = path.slice(1).every(([x, y]) => grid.blocked[grid.node(x, y) ?? -1] === 0);
    return outwards && clear && same(texts);
  });
}
