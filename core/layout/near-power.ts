/**
 * What belongs with the traction circuit: of the trees that other sources feed, those branches that have more wires to
 * it than to the rest (key chain, coils, pedals). They are cut off and stand on its sheet.
 */
import type { Network } from "../network/network.ts";
import type { Cell } from "./cell.ts";
import type { Tree } from "./forest.ts";

export type Wiring = ReadonlyMap<string, readonly string[]>;

/** For each view the views at the other ends of its wires. */
export function wiringOf(network: Network, cells: readonly Cell[]): Wiring {
  const cellAt = new Map<string, string>();
  for (const cell of cells) for (const pin of cell.view.pins) cellAt.set(`${cell.part.id}:${pin.terminal}`, cell.key);
  const wiring = new Map<string, string[]>();
  for (const { wire } of network.conductors) {
    const [a, b] = wire.ends.map((end) => (end === null ? undefined : cellAt.get(`${end[0]}:${end[1]}`)));
    if (a === undefined || b === undefined || a === b) continue;
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const)
      wiring.set(from, [...(wiring.get(from) ?? []), to]);
  }
  return wiring;
}

export function keysOf(tree: Tree): readonly string[] {
  return [tree.cell.key, ...tree.children.flatMap(keysOf)];
}

/** The roots that stay with what is `placed`, then the others; branches change hands within the trees given. */
export function splitRoots(
  roots: readonly Tree[],
  wiring: Wiring,
  placed: ReadonlySet<string>,
): { readonly near: readonly Tree[]; readonly far: readonly Tree[] } {
  const near = roots.filter((tree) => tree.net !== undefined);
  const far = roots.filter((tree) => tree.net === undefined);
  const there = new Set([...placed, ...near.flatMap(keysOf)]);
  if (placed.size === 0) return { near, far };
  for (;;) {
    const best = strongest(far, wiring, there);
    if (best === undefined) return { near, far };
    const siblings = best.parent?.children ?? far;
    siblings.splice(siblings.indexOf(best.tree), 1);
    near.push(best.tree);
    for (const key of keysOf(best.tree)) there.add(key);
  }
}

interface Branch {
  readonly tree: Tree;
  readonly parent: Tree | undefined;
}

/** The branch that gains most wires by going; the larger one where two gain alike. */
function strongest(roots: readonly Tree[], wiring: Wiring, there: ReadonlySet<string>): Branch | undefined {
  let best: Branch | undefined;
  let most = 0;
  const visit = (tree: Tree, parent: Tree | undefined): void => {
    const own = new Set(keysOf(tree));
    let gain = 0;
    for (const key of own)
      for (const other of wiring.get(key) ?? []) if (!own.has(other)) gain += there.has(other) ? 1 : -1;
    if (gain > most) [best, most] = [{ tree, parent }, gain];
    for (const child of tree.children) visit(child, tree);
  };
  for (const root of roots) visit(root, undefined);
  return best;
}

/**
 * The views without the chassis points that one wire alone goes to, from a terminal that looks down (a metal case):
 * those go with the view that they belong to.
 */
export function withEarths(network: Network, cells: readonly Cell[]): readonly Cell[] {
  const wiring = wiringOf(network, cells);
  const taken = new Set<string>();
  const hosts = new Map<string, NonNullable<Cell["earth"]>>();
  for (const point of cells) {
    const [host, ...others] = wiring.get(point.key) ?? [];
    if (host === undefined || others.length > 0 || hosts.has(host) || !standsAlone(point)) continue;
    const cell = cells.find(({ key }) => key === host);
    const wire = network.conductors.find(({ wire: { ends } }) => ends.some((end) => end?.[0] === point.part.id))?.wire;
    const terminal = wire?.ends.find((end) => end !== null && end[0] !== point.part.id)?.[1] ?? "";
    const down = cell?.view.pins.filter((pin) => pin.side === "down") ?? [];
    if (cell === undefined || down.length !== 1 || down[0]?.terminal !== terminal) continue;
    taken.add(point.key);
    hosts.set(host, { cell: point, terminal });
  }
  return cells.flatMap((cell): Cell[] => {
    const earth = hosts.get(cell.key);
    if (taken.has(cell.key)) return [];
    return [earth === undefined ? cell : { ...cell, earth }];
  });
}

const standsAlone = ({ known, view }: Cell): boolean =>
  known.kind.traits.chassisPoint === true && known.views.length === 1 && view.pins[0]?.side === "up";
