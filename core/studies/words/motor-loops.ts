/**
 * What carries motor current: the loop of a DC controller (from its stud through the motor to its positive side, where
 * the current also circulates while the transistors are off) and the leads of an AC drive. At part speed motor current
 * is more than the battery's.
 */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { neighbours, wayTo } from "../../circuit/paths.ts";
import type { Arrival } from "../../circuit/paths.ts";
import type { Branch, Conductor, NetworkPart, NodeIndex } from "../../network/network.ts";
import { PACK_ROLES } from "../../network/strings.ts";
import type { Ampere } from "../../quantity/kinds.ts";

/** States in which a direction contact may stand differently. */
const STATES = ["driving", "reversing"] as const;

const remembered = new WeakMap<Analysis, ReadonlyMap<NetworkPart, readonly Branch[]>>();

/** Branches in series with each DC controller's motor as it drives forward; a controller without a motor is left out. */
export function motorLoops(analysis: Analysis): ReadonlyMap<NetworkPart, readonly Branch[]> {
  let loops = remembered.get(analysis);
  if (loops === undefined) {
    loops = new Map(
      controllers(analysis).flatMap((part): [NetworkPart, readonly Branch[]][] => {
        const loop = loopOf(analysis, part, analysis.state("driving"));
        return loop === undefined ? [] : [[part, loop]];
      }),
    );
    remembered.set(analysis, loops);
  }
  return loops;
}

export interface MotorCircuit {
  readonly controller: NetworkPart;
  /** Forward and in reverse; of an AC drive its phases. */
  readonly branches: readonly Branch[];
}

/** All that carries the motor current of each controller. */
export function motorCircuits(analysis: Analysis): readonly MotorCircuit[] {
  return controllers(analysis).flatMap((controller): MotorCircuit[] => {
    const states = STATES.flatMap((name) => analysis.state(name) ?? []);
    const loops = states.flatMap((state) => loopOf(analysis, controller, state) ?? []);
    const branches = [...new Set([...loops, ...phasesOf(analysis, controller)])];
    return branches.length === 0 ? [] : [{ controller, branches }];
  });
}

export function controllers(analysis: Analysis): readonly NetworkPart[] {
  return analysis.network.parts.filter(({ kind }) => kind.traits.controller === true);
}

function mainPair({ kind, values, nodes }: NetworkPart) {
  const main = kind.supplyPairs(values).find((pair) => pair.main);
  const [plus, minus] = main === undefined ? [] : [nodes.get(main.plus), nodes.get(main.minus)];
  return plus === undefined || minus === undefined ? undefined : { plus, minus };
}

function ownBranches(analysis: Analysis, { firstBranch, branchCount }: NetworkPart): readonly Branch[] {
  return analysis.network.branches.slice(firstBranch, firstBranch + branchCount);
}

/** A DC controller's output stage leads from its stud to the negative pole; an AC drive's goes from pole to pole. */
function loopOf(
  analysis: Analysis,
  controller: NetworkPart,
  state: SolvedState | undefined,
): readonly Branch[] | undefined {
  const own = ownBranches(analysis, controller);
  const stage = outputStage(analysis, controller);
  const main = mainPair(controller);
  if (stage === undefined || main === undefined || stage.a === main.plus) return undefined;
  const without = new Set(own.filter(({ role }) => role !== "conductor"));
  return (
    way(analysis, { from: stage.a, to: new Set([main.plus]), without, state }) ??
    way(analysis, { from: stage.a, to: new Set([main.plus]), without, state: undefined })
  );
}

/** Between the output studs of an AC drive and its motor's terminals. */
function phasesOf(analysis: Analysis, controller: NetworkPart): readonly Branch[] {
  const { network } = analysis;
  const own = ownBranches(analysis, controller);
  const main = mainPair(controller);
  const stage = outputStage(analysis, controller);
  if (main === undefined || stage?.a !== main.plus) return [];
  const windings = new Set<NodeIndex>();
  for (const { kind, terminals, nodes } of network.parts) {
    if (kind.traits.motor !== true) continue;
    for (const { id, form } of terminals) {
      const node = nodes.get(id);
      if (node !== undefined && id !== "case" && form !== "pin") windings.add(node);
    }
  }
  const without = new Set(own);
  return controller.terminals.flatMap(({ id, form }) => {
    const node = controller.nodes.get(id);
    if (form !== "stud" || id === "case" || node === undefined || node === main.plus || node === main.minus) return [];
    return way(analysis, { from: node, to: windings, without, state: undefined }) ?? [];
  });
}

/** Wires between the output studs of an AC drive and its motor; none of a DC drive. */
export function phaseLeads(analysis: Analysis, controller: NetworkPart): readonly Conductor[] {
  return phasesOf(analysis, controller).flatMap(({ conductor }) => conductor ?? []);
}

/** The branch whose current each phase of an AC drive carries, and each lead of a DC drive's motor. */
export function outputStage(analysis: Analysis, controller: NetworkPart): Branch | undefined {
  return ownBranches(analysis, controller).find(({ name }) => name === "output-stage");
}

export function stageCurrent(analysis: Analysis, state: SolvedState, controller: NetworkPart): Ampere {
  return Math.abs(state.currents[outputStage(analysis, controller)?.index ?? -1] ?? 0);
}

interface Way {
  readonly from: NodeIndex;
  readonly to: ReadonlySet<NodeIndex>;
  readonly without: ReadonlySet<Branch>;
  /** Contacts as they stand in it; all closed where there is none. */
  readonly state: SolvedState | undefined;
}

/** Shortest way through windings, metal and contacts. */
function way(analysis: Analysis, { from, to, without, state }: Way): readonly Branch[] | undefined {
  const beside = neighbours(analysis.network);
  const by = new Map<NodeIndex, Arrival>();
  const seen = new Set([from]);
  const queue = [from];
  for (let head = 0; head < queue.length; head += 1) {
    const at = queue[head] ?? from;
    if (to.has(at)) return wayTo(by, at);
    for (const { to: next, branch } of beside(at)) {
      if (seen.has(next) || without.has(branch) || !leads(branch)) continue;
      const element = state?.elements[branch.index];
      if (element?.type === "contact" && !element.closed) continue;
      seen.add(next);
      by.set(next, { from: at, branch });
      queue.push(next);
    }
  }
  return undefined;
}

function leads({ role, part }: Branch): boolean {
  return PACK_ROLES.has(role) || (role === "load" && part?.kind.traits.motor === true);
}
