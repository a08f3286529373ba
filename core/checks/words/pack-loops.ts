/**
 * Which contacts break a pack: those that lie on some loop of the pack, contacts and a load, whatever position they
 * are in. A contact on a battery of 12 V is in no such loop, even where both batteries share their minus.
 */
import type { Analysis, Pack } from "../../circuit/analysis.ts";
import { edgesBetween } from "../../circuit/simple-paths.ts";
import type { Branch, BranchIndex } from "../../network/network.ts";
import { DisjointSets } from "../../network/sets.ts";
import type { Role } from "../../parts/element.ts";

const METAL: ReadonlySet<Role> = new Set<Role>(["conductor", "protection", "shunt"]);
const LOADS: ReadonlySet<Role> = new Set<Role>(["contact", "load", "coil", "driver", "diode"]);

/** Branches on the loops of a pack; with `resistors` also those that a resistor closes, such as a pre-charge path. */
export function packLoops(analysis: Analysis, pack: Pack, resistors: boolean): ReadonlySet<BranchIndex> {
  const { network } = analysis;
  const joined = new DisjointSets(network.nodeCount);
  const blocks = new Set(pack.blocks);
  const sources: Branch[] = [];
  const others: Branch[] = [];
  for (const branch of network.branches) {
    const { role, part } = branch;
    if (METAL.has(role)) joined.join(branch.a, branch.b);
    else if (role === "source" && part !== undefined && blocks.has(part)) sources.push(branch);
    else if (LOADS.has(role) || (role === "source" && part?.kind.traits.charger === true)) others.push(branch);
    else if (role === "resistor" && resistors && part?.kind.traits.load !== true) others.push(branch);
  }
  const listed = [...sources, ...others];
  const edges = listed.map(({ a, b }) => [joined.find(a), joined.find(b)] as const);
  const found = new Set<BranchIndex>();
  sources.forEach((source, place) => {
    const [from, to] = edges[place] ?? [0, 0];
    if (found.has(source.index) || from === to) return;
    // What lies between its two ends besides itself closes a loop through it.
    const rest = edges.map((edge, index) => (index === place ? ([from, from] as const) : edge));
    const loop = edgesBetween(rest, from, to);
    if (loop.size === 0) return;
    found.add(source.index);
    for (const index of loop) {
      const branch = listed[index];
      if (branch !== undefined) found.add(branch.index);
    }
  });
  return found;
}
