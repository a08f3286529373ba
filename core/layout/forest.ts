/**
 * What is fed from what: the views that are not in the traction loop, as trees that grow from their sources (DC-DC
 * converter, 12 V battery, a fuse on the traction plus) through switches to coils and lamps. Minus and chassis do
 * not count as a feed: nearly everything meets there.
 */
import type { Network } from "../network/network.ts";
import type { Role } from "../parts/element.ts";
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

  const bars = new Set(
    network.branches.flatMap(({ joins, part }) => (joins && part !== undefined ? [part.part.id] : [])),
  );
  const isBar = (cell: Cell): boolean => bars.has(cell.part.id);
  const neighbours = wireEnds(network);

  const branch = (cell: Cell, entry: string, feeder: string | undefined): Tree => {
    seen.add(cell.key);
    return { cell, entry, feeder, children: [] };
  };
  const unseen = (net: number, feeder: string | undefined): Tree[] =>
    (byNet.get(net) ?? []).flatMap(({ cell, terminal }) =>
      seen.has(cell.key) ? [] : [branch(cell, terminal, feeder)],
    );
  /** What hangs on a net, from a terminal of it: its busbar alone where it has one, for that hands on to the rest. */
  const children = (net: number, feeder: string | undefined): Tree[] => {
    const onNet = (byNet.get(net) ?? []).filter(({ cell }) => isBar(cell));
    if (onNet.length === 0) return unseen(net, feeder);
    const bar = onNet.find(({ cell }) => !seen.has(cell.key));
    return bar === undefined ? [] : [branch(bar.cell, bar.terminal, feeder)];
  };
  /** What hangs on a busbar: at each stud what is wired to it, at its last stud the rest of the net. */
  const onBar = (bar: Cell): Tree[] => {
    const pins = wired(bar);
    const direct = pins.flatMap(({ terminal, net }) =>
      (byNet.get(net) ?? [])
        .filter((other) => neighbours(bar.part.id, terminal).has(`${other.cell.part.id}:${other.terminal}`))
        .flatMap((other) => (seen.has(other.cell.key) ? [] : [branch(other.cell, other.terminal, terminal)])),
    );
    const last = pins.at(-1);
    return last === undefined ? direct : [...direct, ...unseen(last.net, last.terminal)];
  };
  const grow = (level: readonly Tree[]): void => {
    for (let now = level; now.length > 0; ) {
      const next: Tree[] = [];
      for (const tree of now) {
        const grown = isBar(tree.cell)
          ? onBar(tree.cell)
          : wired(tree.cell).flatMap(({ terminal, net }) =>
              terminal === tree.entry || !passes(network, tree, terminal) ? [] : children(net, terminal),
            );
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
  for (const bar of free) if (isBar(bar) && wired(bar).length > 0 && !seen.has(bar.key)) plant([root(bar)]);
  const mainPins = loop?.main.part.id;
  const controlCells = cells.filter((cell) => cell.part.id === mainPins && placed.has(cell.key));
  for (const cell of controlCells) for (const { net } of wired(cell)) plant(fedBy(net));
  const rest = free.filter((cell) => !seen.has(cell.key) && wired(cell).length > 0);
  for (const cell of rest.sort((a, b) => wired(b).length - wired(a).length))
    if (!seen.has(cell.key)) plant([root(cell)]);
  return { roots, grounds: free.filter((cell) => !seen.has(cell.key)) };
}

/** Terminals ("id:terminal") at the other ends of a terminal's wires. */
function wireEnds(network: Network): (part: string, terminal: string) => ReadonlySet<string> {
  const ends = new Map<string, Set<string>>();
  for (const { wire } of network.conductors) {
    const [a, b] = wire.ends.map((end) => (end === null ? "" : `${end[0]}:${end[1]}`));
    if (a === undefined || b === undefined) continue;
    ends.set(a, (ends.get(a) ?? new Set()).add(b));
    ends.set(b, (ends.get(b) ?? new Set()).add(a));
  }
  return (part, terminal) => ends.get(`${part}:${terminal}`) ?? new Set();
}

/** What hands on what it is fed with. */
const HANDS_ON: ReadonlySet<Role> = new Set<Role>(["contact", "protection", "conductor", "shunt", "resistor", "diode"]);

/** Whether a part hands on at this terminal what it is fed with; a root feeds wherever it is wired. */
function passes(network: Network, { cell, entry }: Tree, terminal: string): boolean {
  const part = network.partById.get(cell.part.id);
  if (part === undefined || entry === undefined) return true;
  const feeds = part.kind
    .supplyPairs(part.values)
    .some((pair) => pair.direction === "output" && pair.plus === terminal);
  if (feeds) return true;
  const [start, goal] = [part.nodes.get(entry), part.nodes.get(terminal)];
  const own = network.branches.slice(part.firstBranch, part.firstBranch + part.branchCount);
  const reached = new Set([start]);
  for (const node of reached)
    for (const { a, b, role } of own) {
      if (!HANDS_ON.has(role)) continue;
      if (a === node) reached.add(b);
      if (b === node) reached.add(a);
    }
  return goal !== undefined && reached.has(goal);
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
