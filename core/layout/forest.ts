/**
 * What is fed from what: the views that are not in the traction loop, as trees that grow from their sources (DC-DC
 * converter, 12 V battery, a fuse on the traction plus) through switches to coils and lamps. Minus and chassis do
 * not count as a feed: nearly everything meets there.
 */
import type { Network } from "../network/network.ts";
import type { Cell } from "./cell.ts";
import type { PowerLoop } from "./power-loop.ts";

export interface Tree {
  readonly cell: Cell;
  /** Terminal through which it is fed; undefined for a root. */
  readonly entry: string | undefined;
  /** Terminal of the parent that feeds it. */
  readonly feeder: string | undefined;
  readonly children: Tree[];
  /** A root's net, where the traction loop feeds it. */
  readonly net?: number;
}

interface Forest {
  readonly roots: readonly Tree[];
  /** Views that hang on minus or chassis alone: chassis points, minus busbars. */
  readonly grounds: readonly Cell[];
}

export function growForest(
  network: Network,
  cells: readonly Cell[],
  placed: ReadonlySet<string>,
  loop: PowerLoop | undefined,
): Forest {
  const netsOf = (cell: Cell, terminal: string): number | undefined => {
    const node = network.partById.get(cell.part.id)?.nodes.get(terminal);
    return node === undefined ? undefined : network.netOfNode[node];
  };
  const minus = minusNets(network, loop, placed);
  const wired = (cell: Cell): readonly { terminal: string; net: number }[] =>
    cell.view.pins.flatMap((pin) => {
      const net = netsOf(cell, pin.terminal);
      const alone = net === undefined || (network.nets[net]?.terminals.length ?? 0) < 2;
      return alone || minus.has(net) ? [] : [{ terminal: pin.terminal, net }];
    });
  const free = cells.filter((cell) => !placed.has(cell.key));
  const byNet = new Map<number, { cell: Cell; terminal: string }[]>();
  for (const cell of free)
    for (const { terminal, net } of wired(cell)) byNet.set(net, [...(byNet.get(net) ?? []), { cell, terminal }]);
  const seen = new Set<string>();
  const roots: Tree[] = [];

  const children = (net: number, feeder: string | undefined): Tree[] =>
    (byNet.get(net) ?? []).flatMap(({ cell, terminal }) => {
      if (seen.has(cell.key)) return [];
      seen.add(cell.key);
      return [{ cell, entry: terminal, feeder, children: [] }];
    });
  const grow = (level: readonly Tree[]): void => {
    for (let now = level; now.length > 0; ) {
      const next: Tree[] = [];
      for (const tree of now)
        for (const { terminal, net } of wired(tree.cell)) {
          if (terminal === tree.entry) continue;
          const grown = children(net, terminal);
          tree.children.push(...grown);
          next.push(...grown);
        }
      now = next;
    }
  };
  const plant = (trees: readonly Tree[]): void => {
    roots.push(...trees);
    grow(trees);
  };
  const root = (cell: Cell): Tree => {
    seen.add(cell.key);
    return { cell, entry: undefined, feeder: undefined, children: [] };
  };

  const fedBy = (net: number): Tree[] => children(net, undefined).map((tree) => ({ ...tree, net }));
  const isSource = (cell: Cell): boolean => cell.known.kind.group === "sources" && wired(cell).length > 0;
  const fed = [...new Set(loop?.plusNets ?? [])].flatMap((net) => fedBy(net));
  const batteries = free.filter((cell) => cell.known.kind.traits.battery === true && !seen.has(cell.key)).map(root);
  plant([...fed, ...batteries]);
  plant(free.filter((cell) => isSource(cell) && !seen.has(cell.key)).map(root));
  const mainPins = loop?.main.part.id;
  const controlCells = cells.filter((cell) => cell.part.id === mainPins && placed.has(cell.key));
  for (const cell of controlCells) for (const { net } of wired(cell)) plant(fedBy(net));
  const rest = free.filter((cell) => !seen.has(cell.key) && wired(cell).length > 0);
  for (const cell of rest.sort((a, b) => wired(b).length - wired(a).length))
    if (!seen.has(cell.key)) plant([root(cell)]);
  return { roots, grounds: free.filter((cell) => !seen.has(cell.key)) };
}

/** Chassis, the traction minus, and the minus of every battery and converter output outside the traction loop. */
function minusNets(network: Network, loop: PowerLoop | undefined, placed: ReadonlySet<string>): ReadonlySet<number> {
  const nets = new Set<number>(loop?.minusNets ?? []);
  network.nets.forEach((net) => {
    if (net.chassis) nets.add(net.index);
  });
  for (const part of network.parts) {
    const inLoop = [...placed].some((key) => key.startsWith(`${part.part.id} `));
    const pairs = part.kind.supplyPairs(part.values);
    const minus = pairs.filter((pair) => pair.direction === "output").map((pair) => pair.minus);
    if (part.kind.traits.battery === true && !inLoop) minus.push("-");
    for (const terminal of minus) {
      const node = part.nodes.get(terminal);
      const net = node === undefined ? undefined : network.netOfNode[node];
      if (net !== undefined && !(loop?.plusNets ?? []).includes(net)) nets.add(net);
    }
  }
  return nets;
}
