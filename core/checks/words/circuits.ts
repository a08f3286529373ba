/**
 * Which consumers lie in a circuit with a source at all, every contact taken as closed: a consumer is fed from both
 * sides exactly where some loop through it, that passes no point twice, holds a source. Blocks of the graph of islands
 * (nodes joined through conductors, contacts, protection and shunts) by the lowest-point method (Hopcroft and Tarjan
 * 1973), without recursion.
 */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import { DisjointSets } from "../../network/sets.ts";
import { closedIslands } from "../../network/strings.ts";
import type { Role } from "../../parts/element.ts";

/** What carries a working current. Leaks, meters and capacitors do not. */
const CARRYING: ReadonlySet<Role> = new Set<Role>(["source", "load", "coil", "resistor", "diode", "driver"]);
/** What joins a feed to what it feeds without being a consumer itself. */
const PASSING: ReadonlySet<Role> = new Set<Role>(["resistor", "diode", "driver"]);

export interface Consumer {
  readonly part: NetworkPart;
  readonly plus: string;
  readonly minus: string;
}

export interface Circuits {
  readonly islandOf: (node: number) => number;
  /** A loop through the consumer holds a source. True also where both its ends are one island. */
  isServed(consumer: Consumer): boolean;
  /** Islands that the island reaches without crossing a consumer or a source, by one representative. */
  regionOf(island: number): number;
  /** Source branches with their positive (a) or either end in this region. */
  sourcesAt(region: number, end: "plus" | "any"): readonly Branch[];
}

/** Pairs that consume: supply inputs and coils, each once. */
export function consumers({ network }: Analysis): readonly Consumer[] {
  return network.parts.flatMap((part) => {
    if (part.kind.traits.load !== true && part.kind.coils === undefined) return [];
    const pairs = [
      ...part.kind.supplyPairs(part.values).filter(({ direction }) => direction === "input"),
      ...(part.kind.coils?.(part.values) ?? []),
    ];
    const seen = new Set<string>();
    return pairs.flatMap(({ plus, minus }): Consumer[] => {
      const key = `${plus} ${minus}`;
      if (seen.has(key)) return [];
      seen.add(key);
      return [{ part, plus, minus }];
    });
  });
}

/** Body diodes, bleeders and output stages of a consumer lie across what it consumes with: they are no way to feed it. */
function isInside({ part, a, b }: Branch): boolean {
  const main = part?.kind.supplyPairs(part.values).find((pair) => pair.main);
  if (part === undefined || main === undefined) return false;
  const ends = [part.nodes.get(main.plus), part.nodes.get(main.minus)];
  return ends.includes(a) || ends.includes(b);
}

const remembered = new WeakMap<Analysis, Circuits>();

export function circuits(analysis: Analysis): Circuits {
  const known = remembered.get(analysis);
  if (known !== undefined) return known;
  const made = make(analysis);
  remembered.set(analysis, made);
  return made;
}

function make(analysis: Analysis): Circuits {
  const { network } = analysis;
  const islands = closedIslands(network.nodeCount, network.branches);
  const islandOf = (node: number): number => islands[node] ?? node;
  const regions = new DisjointSets(network.nodeCount);
  const edges: Edge[] = [];
  const sources: Branch[] = [];
  for (const branch of network.branches) {
    const isMains = branch.role === "driver" && branch.part?.kind.traits.inlet === true;
    if (!CARRYING.has(branch.role)) continue;
    const [a, b] = [islandOf(branch.a), islandOf(branch.b)];
    const isSource = branch.role === "source" || isMains;
    if (isSource) sources.push(branch);
    else if (PASSING.has(branch.role) && !isInside(branch)) regions.join(a, b);
    edges.push({ a, b, isSource });
  }
  const pairs = consumers(analysis);
  const keyOf = ({ part, plus, minus }: Consumer): string => `${part.part.id} ${plus} ${minus}`;
  const firstPair = edges.length;
  for (const { part, plus, minus } of pairs) {
    edges.push({ a: islandOf(part.nodes.get(plus) ?? 0), b: islandOf(part.nodes.get(minus) ?? 0), isSource: false });
  }
  const live = edgesInLiveBlocks(edges, network.nodeCount);
  const served = new Set(
    pairs.flatMap((consumer, index) => {
      const edge = edges[firstPair + index];
      return edge === undefined || edge.a === edge.b || live.has(firstPair + index) ? [keyOf(consumer)] : [];
    }),
  );
  const regionOf = (island: number): number => regions.find(island);
  const atPlus = new Map<number, Branch[]>();
  const atAny = new Map<number, Branch[]>();
  const put = (map: Map<number, Branch[]>, node: number, branch: Branch): void => {
    const region = regionOf(islandOf(node));
    map.set(region, [...(map.get(region) ?? []), branch]);
  };
  for (const branch of sources) {
    put(atPlus, branch.a, branch);
    put(atAny, branch.a, branch);
    put(atAny, branch.b, branch);
  }
  return {
    islandOf,
    isServed: (consumer) => served.has(keyOf(consumer)),
    regionOf,
    sourcesAt: (region, end) => (end === "plus" ? atPlus : atAny).get(region) ?? [],
  };
}

interface Edge {
  readonly a: number;
  readonly b: number;
  readonly isSource: boolean;
}

/** Indices of the edges whose block (biconnected component of more than one edge) holds or touches a source. */
function edgesInLiveBlocks(edges: readonly Edge[], points: number): ReadonlySet<number> {
  const beside: { readonly to: number; readonly edge: number }[][] = Array.from({ length: points }, () => []);
  edges.forEach(({ a, b }, edge) => {
    if (a === b) return;
    beside[a]?.push({ to: b, edge });
    beside[b]?.push({ to: a, edge });
  });
  const live = new Set<number>();
  // Contacts that never close together can make one island of both poles of a source: a loop through it may be fed.
  const shorted = new Set(edges.flatMap(({ a, b, isSource }) => (isSource && a === b ? [a] : [])));
  const isFed = (index: number): boolean => {
    const edge = edges[index];
    return edge !== undefined && (edge.isSource || shorted.has(edge.a) || shorted.has(edge.b));
  };
  const depth = new Int32Array(points).fill(-1);
  const low = new Int32Array(points);
  const used = new Uint8Array(edges.length);
  const pile: number[] = [];
  const close = (from: number): void => {
    const block = pile.splice(pile.lastIndexOf(from));
    if (block.length > 1 && block.some(isFed)) {
      for (const edge of block) live.add(edge);
    }
  };
  for (let root = 0; root < points; root += 1) {
    if (depth[root] !== -1) continue;
    depth[root] = 0;
    const walk = [{ at: root, entry: -1, tried: 0 }];
    for (let top = walk[walk.length - 1]; top !== undefined; top = walk[walk.length - 1]) {
      const next = beside[top.at]?.[top.tried];
      if (next === undefined) {
        walk.pop();
        const below = walk[walk.length - 1];
        if (below === undefined) break;
        low[below.at] = Math.min(low[below.at] ?? 0, low[top.at] ?? 0);
        if ((low[top.at] ?? 0) >= (depth[below.at] ?? 0)) close(top.entry);
        continue;
      }
      top.tried += 1;
      if (used[next.edge] === 1) continue;
      used[next.edge] = 1;
      pile.push(next.edge);
      if (depth[next.to] === -1) {
        depth[next.to] = walk.length;
        low[next.to] = walk.length;
        walk.push({ at: next.to, entry: next.edge, tried: 0 });
      } else {
        low[top.at] = Math.min(low[top.at] ?? 0, depth[next.to] ?? 0);
      }
    }
  }
  return live;
}
