/**
 * Sources as a graph: its points are *islands* (nodes joined through conductors, contacts, protection and shunts with
 * everything closed), its edges the sources between them. Strings, packs and what a source is for follow from it.
 */
import type { Role } from "../parts/element.ts";
import type { Branch } from "./network.ts";
import { CHASSIS_NODE } from "./network.ts";
import { DisjointSets } from "./sets.ts";

/** What a pack is joined through, every disconnect, breaker and contactor taken as closed. */
export const PACK_ROLES: ReadonlySet<Role> = new Set<Role>(["conductor", "contact", "protection", "shunt"]);

/** The island of each node. */
export function closedIslands(nodeCount: number, branches: readonly Branch[]): Int32Array {
  const sets = new DisjointSets(nodeCount);
  for (const branch of branches) if (PACK_ROLES.has(branch.role)) sets.join(branch.a, branch.b);
  return Int32Array.from({ length: nodeCount }, (_, node) => sets.find(node));
}

/**
 * Groups of sources that touch: the string of each edge, as lists of indices into `edges`. The chassis joins no
 * strings: a traction pack and a 12 V battery that both sit on it are two.
 */
export function stringsOf(
  edges: readonly (readonly [island: number, island: number])[],
  chassisIsland: number,
): readonly (readonly number[])[] {
  const sets = new DisjointSets(edges.length);
  const firstAt = new Map<number, number>();
  edges.forEach((ends, index) => {
    for (const island of ends) {
      if (island === chassisIsland) continue;
      const first = firstAt.get(island);
      if (first === undefined) firstAt.set(island, index);
      else sets.join(first, index);
    }
  });
  const groups = new Map<number, number[]>();
  edges.forEach((_, index) => {
    const root = sets.find(index);
    const group = groups.get(root);
    if (group === undefined) groups.set(root, [index]);
    else group.push(index);
  });
  return [...groups.values()];
}

/** The sources that are storage (batteries), as edges between islands. */
export function storageEdges(
  branches: readonly Branch[],
  isStorage: (branch: Branch) => boolean,
  islands: Int32Array,
): { branches: readonly Branch[]; edges: readonly (readonly [number, number])[]; chassisIsland: number } {
  const storage = branches.filter(isStorage);
  return {
    branches: storage,
    edges: storage.map(({ a, b }) => [islands[a] ?? a, islands[b] ?? b]),
    chassisIsland: islands[CHASSIS_NODE] ?? CHASSIS_NODE,
  };
}
