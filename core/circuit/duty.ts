/** What each source is for: traction or auxiliary, found from what it reaches and never from its name. */
import type { Branch, Network, NetworkPart, NodeIndex } from "../network/network.ts";
import { CHASSIS_NODE } from "../network/network.ts";
import { closedIslands, stringsOf } from "../network/strings.ts";
import type { Element } from "../parts/element.ts";
import type { Pack } from "./analysis.ts";
import { edgesBetween } from "./simple-paths.ts";

export type Duty = Pack["duty"];

/** A source between two islands: a battery's EMF, or the output of a converter or of a dc source. */
export interface SourceEdge {
  readonly branch: Branch;
  readonly part: NetworkPart;
  readonly storage: boolean;
  /** Islands of its ends, and the part's own terminals there. */
  readonly plus: number;
  readonly minus: number;
  readonly plusNode: NodeIndex;
  readonly minusNode: NodeIndex;
}

export interface Sources {
  readonly edges: readonly SourceEdge[];
  /** Parallel to `edges`. */
  readonly duties: readonly Duty[];
  /** Duty of each part that is a source. */
  readonly dutyOf: ReadonlyMap<NetworkPart, Duty>;
  readonly chassisIsland: number;
}

/** Every battery, converter output and dc source with its duty. `elementOf`: what a branch is in any condition. */
export function findSources(network: Network, elementOf: (branch: Branch) => Element | undefined): Sources {
  const islands = closedIslands(network.nodeCount, network.branches);
  const edges = sourceEdges(network, elementOf, islands);
  const chassisIsland = islands[CHASSIS_NODE] ?? CHASSIS_NODE;
  const ends = edges.map(({ plus, minus }) => [minus, plus] as const);
  const duties = dutiesOf(network, edges, ends, islands, chassisIsland);
  const dutyOf = new Map<NetworkPart, Duty>();
  edges.forEach(({ part }, index) => dutyOf.set(part, duties[index] ?? "auxiliary"));
  return { edges, duties, dutyOf, chassisIsland };
}

function sourceEdges(
  network: Network,
  elementOf: (branch: Branch) => Element | undefined,
  islands: Int32Array,
): readonly SourceEdge[] {
  return network.branches.flatMap((branch): SourceEdge[] => {
    if (branch.role !== "source") return [];
    const element = elementOf(branch);
    const { part } = branch;
    // A charger is no supply of the vehicle: it is on the bus only while plugged in.
    if (part === undefined || element === undefined || part.kind.traits.charger === true) return [];
    if (element.type !== "source" && element.type !== "limited-source") return [];
    const storage = element.type === "source" && element.storage;
    const [plusNode, minusNode] = [terminalAt(part, branch.a, islands), terminalAt(part, branch.b, islands)];
    return [
      {
        branch,
        part,
        storage,
        plusNode,
        minusNode,
        plus: islands[branch.a] ?? branch.a,
        minus: islands[branch.b] ?? branch.b,
      },
    ];
  });
}

/** The terminal that an inner node leads to (through a fuse inside the case), or the node itself. */
function terminalAt(part: NetworkPart, node: NodeIndex, islands: Int32Array): NodeIndex {
  const nodes = part.terminals.flatMap(({ id }) => part.nodes.get(id) ?? []);
  return nodes.includes(node) ? node : (nodes.find((candidate) => islands[candidate] === islands[node]) ?? node);
}

/**
 * What each source is for: as stated, else traction if it lies on a path between the main supply terminals of a
 * controller or between those of a motor, through other sources, conductors, contacts, protection and shunts. Where
 * nothing yet closes that path (a jumper still missing), strings that reach one of a controller's terminals count.
 */
function dutiesOf(
  network: Network,
  edges: readonly SourceEdge[],
  ends: readonly (readonly [number, number])[],
  islands: Int32Array,
  chassis: number,
): readonly Duty[] {
  const traction = new Set<number>();
  const controllers = network.parts.filter(({ kind }) => kind.traits.controller === true);
  const motors = network.parts.filter(({ kind }) => kind.traits.motor === true);
  for (const part of [...controllers, ...motors]) {
    for (const [plus, minus] of mainIslands(part, islands)) {
      for (const index of edgesBetween(ends, plus, minus)) traction.add(index);
    }
  }
  if (traction.size === 0) {
    const reached = new Set(
      (controllers.length > 0 ? controllers : motors).flatMap((part) => mainIslands(part, islands).flat()),
    );
    reached.delete(chassis);
    for (const string of stringsOf(ends, chassis)) {
      const touches = string.some((index) => (ends[index] ?? []).some((island) => reached.has(island)));
      if (touches) for (const index of string) traction.add(index);
    }
  }
  return edges.map(({ part }, index) => {
    const stated = part.values.choice("duty");
    if (stated === "traction" || stated === "auxiliary") return stated;
    return traction.has(index) ? "traction" : "auxiliary";
  });
}

function mainIslands(part: NetworkPart, islands: Int32Array): readonly (readonly [number, number])[] {
  return part.kind
    .supplyPairs(part.values)
    .filter(({ main }) => main)
    .flatMap(({ plus, minus }) => {
      const [a, b] = [part.nodes.get(plus), part.nodes.get(minus)];
      return a === undefined || b === undefined ? [] : [[islands[a] ?? a, islands[b] ?? b] as const];
    });
}
