/**
 * Where a traction pack is joined to the chassis or to the 12 V side, and by what: the path of least resistance from
 * the pack's own terminals, and on it the place whose removal parts the two.
 */
import type { Analysis, Pack, SolvedState } from "../../circuit/analysis.ts";
import { neighbours } from "../../circuit/paths.ts";
import type { Branch, NodeIndex } from "../../network/network.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Ohm } from "../../quantity/kinds.ts";
import { ISOLATION_DC } from "../../standards/isolation.ts";
import type { Place } from "../define.ts";
import { auxiliaryPacks } from "../../studies/words/live.ts";
import { branchPlace, branchPlaces } from "./places.ts";

export interface Join {
  readonly states: readonly string[];
  /** Without what makes the join the two are apart. */
  readonly sole: boolean;
  /** From the pack outwards. */
  readonly path: readonly Branch[];
  /** Of the path. */
  readonly ohms: Ohm;
  /** The wire or part that makes the join, and everything on the path. */
  readonly place: Place;
  readonly places: readonly Place[];
  /** The path leaves the pack at its lowest terminal. */
  readonly atNegative: boolean;
  /** The branch that makes the join leads straight onto the chassis. */
  readonly ontoChassis: boolean;
}

/** What a branch opposes to a small current in this state; Infinity for what is open, charges up, or only leaks. */
function ohmsOf(state: SolvedState, branch: Branch): Ohm {
  const element = state.elements[branch.index];
  if (element === undefined || branch.role === "leak") return Infinity;
  const drawn = Math.abs(state.between(branch.a, branch.b) / (state.currents[branch.index] ?? 0));
  switch (element.type) {
    case "capacitor":
      return Infinity;
    case "contact":
      return element.closed ? element.resistance : Infinity;
    case "diode":
    case "clamp":
      return state.conducting[branch.index] === 1 ? element.resistance : Infinity;
    case "current-port":
      return Number.isFinite(drawn) ? Math.max(drawn, element.resistance) : element.resistance;
    case "power-port":
      return Number.isFinite(drawn) && drawn > 0 ? drawn : Infinity;
    default:
      return element.resistance;
  }
}

interface Arrival {
  readonly ohms: Ohm;
  readonly from: NodeIndex;
  readonly branch: Branch | undefined;
}

/** Dijkstra's method from several starting points; stops at the first target. */
function leastResistance(
  analysis: Analysis,
  state: SolvedState,
  starts: readonly NodeIndex[],
  targets: ReadonlySet<NodeIndex>,
  limit: Ohm,
): { readonly path: readonly Branch[]; readonly start: NodeIndex; readonly ohms: Ohm } | undefined {
  const beside = neighbours(analysis.network);
  const best = new Map<NodeIndex, Arrival>();
  const open = new Set<NodeIndex>(starts);
  const done = new Set<NodeIndex>();
  for (const start of starts) best.set(start, { ohms: 0, from: start, branch: undefined });
  while (open.size > 0) {
    let at: NodeIndex = -1;
    for (const node of open) {
      if (at < 0 || (best.get(node)?.ohms ?? Infinity) < (best.get(at)?.ohms ?? Infinity)) at = node;
    }
    open.delete(at);
    done.add(at);
    const here = best.get(at);
    if (here === undefined || here.ohms > limit) return undefined;
    if (targets.has(at)) {
      const path: Branch[] = [];
      let step = here;
      let start = at;
      while (step.branch !== undefined) {
        path.push(step.branch);
        start = step.from;
        step = best.get(step.from) ?? { ohms: 0, from: start, branch: undefined };
      }
      return { path: path.reverse(), start, ohms: here.ohms };
    }
    for (const { to, branch } of beside(at)) {
      if (done.has(to)) continue;
      const ohms = here.ohms + ohmsOf(state, branch);
      if (ohms < (best.get(to)?.ohms ?? Infinity)) {
        best.set(to, { ohms, from: at, branch });
        open.add(to);
      }
    }
  }
  return undefined;
}

/** With this branch gone, does the pack's side still reach the chassis or a 12 V battery? */
function stillReaches(
  analysis: Analysis,
  state: SolvedState,
  from: NodeIndex,
  without: Branch,
  far: ReadonlySet<NodeIndex>,
  limit: Ohm,
): boolean {
  const beside = neighbours(analysis.network);
  const seen = new Set([from]);
  const queue = [from];
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    if (far.has(at)) return true;
    for (const { to, branch } of beside(at)) {
      if (branch === without || seen.has(to) || ohmsOf(state, branch) >= limit) continue;
      seen.add(to);
      queue.push(to);
    }
  }
  return false;
}

/** More ways side by side than this do not occur on a vehicle. */
const MANY_WAYS = 20;

/** The join between a pack and one of the targets, or undefined where no state joins them. */
export function joinOf(analysis: Analysis, pack: Pack, targets: ReadonlySet<NodeIndex>): Join | undefined {
  const limit = ISOLATION_DC * Math.abs(pack.rest);
  const starts = pack.blocks.flatMap((block) => block.terminals.flatMap(({ id }) => block.nodes.get(id) ?? []));
  const ways = analysis.states.flatMap((state) => {
    const way = leastResistance(analysis, state, starts, targets, MANY_WAYS * limit);
    return way === undefined || way.path.length === 0 ? [] : [{ state, ...way }];
  });
  // Several ways side by side may join what none of them joins alone: then the best of them is named.
  const alone = ways.filter(({ ohms }) => ohms < limit);
  const found = alone.length > 0 ? alone : ways;
  const best = found.reduce<(typeof found)[number] | undefined>(
    (least, way) => (least === undefined || way.ohms < least.ohms - 1e-9 ? way : least),
    undefined,
  );
  if (best === undefined) return undefined;
  const { path, start } = best;
  const far = new Set<NodeIndex>([CHASSIS_NODE]);
  for (const { positive, negative } of auxiliaryPacks(analysis)) far.add(positive).add(negative);
  const nodes = nodesAlong(path, start);
  let maker = path.length - 1;
  let sole = false;
  for (let index = path.length - 1; index >= 0; index -= 1) {
    const [branch, near] = [path[index], nodes[index]];
    if (branch === undefined || near === undefined || branchPlace(branch) === undefined) continue;
    // A busbar or a chassis point only holds what is bolted to it.
    if (branch.part?.kind.group === "connecting") continue;
    if (found.some((other) => stillReaches(analysis, other.state, near, branch, far, limit))) continue;
    maker = index;
    sole = true;
    break;
  }
  const making = path[maker];
  const place = making === undefined ? undefined : branchPlace(making);
  if (place === undefined) return undefined;
  const netOf = (node: NodeIndex | undefined): number | undefined =>
    node === undefined ? undefined : analysis.network.netOfNode[node];
  return {
    states: found.map(({ state: { name } }) => name),
    sole,
    path,
    ohms: best.ohms,
    place,
    places: branchPlaces(path),
    atNegative: netOf(start) === netOf(pack.negative),
    ontoChassis: making?.conductor !== undefined && netOf(nodes[maker + 1]) === netOf(CHASSIS_NODE),
  };
}

/** The nodes before each branch of a path, and the last one. */
function nodesAlong(path: readonly Branch[], start: NodeIndex): readonly NodeIndex[] {
  const nodes = [start];
  let at = start;
  for (const { a, b } of path) {
    at = a === at ? b : a;
    nodes.push(at);
  }
  return nodes;
}

/** Of two packs joined at one place (a join in the middle makes two of one string), the one that says more. */
export function isGraver(
  one: { readonly pack: Pack; readonly join: Join },
  other: { readonly pack: Pack; readonly join: Join },
): boolean {
  if (one.join.atNegative !== other.join.atNegative) return !one.join.atNegative;
  return one.pack.highest > other.pack.highest;
}
