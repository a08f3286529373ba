/**
 * The motor loop of a DC controller: from its positive side through the motor into its own output stud. What lies in it
 * carries motor current, which at part speed is more than the battery's.
 */
import type { Analysis } from "../../circuit/analysis.ts";
import { neighbours } from "../../circuit/paths.ts";
import type { Branch, NetworkPart, NodeIndex } from "../../network/network.ts";
import { PACK_ROLES } from "../../network/strings.ts";

const remembered = new WeakMap<Analysis, ReadonlyMap<NetworkPart, readonly Branch[]>>();

/** Branches in series with each controller's motor as it drives forward; a controller without a motor is left out. */
export function motorLoops(analysis: Analysis): ReadonlyMap<NetworkPart, readonly Branch[]> {
  let loops = remembered.get(analysis);
  if (loops === undefined) {
    loops = new Map(
      analysis.network.parts.flatMap((part): [NetworkPart, readonly Branch[]][] => {
        const loop = part.kind.traits.controller === true ? loopOf(analysis, part) : undefined;
        return loop === undefined ? [] : [[part, loop]];
      }),
    );
    remembered.set(analysis, loops);
  }
  return loops;
}

/** The current port of its output stage leads from its stud to the negative pole; an AC drive's goes from pole to pole. */
export function outputStage(analysis: Analysis, controller: NetworkPart): Branch | undefined {
  const { firstBranch, branchCount } = controller;
  const stages = analysis.network.branches
    .slice(firstBranch, firstBranch + branchCount)
    .filter(({ name }) => name === "output-stage");
  return stages.length === 1 ? stages[0] : undefined;
}

function loopOf(analysis: Analysis, controller: NetworkPart): readonly Branch[] | undefined {
  const driving = analysis.state("driving");
  const stage = outputStage(analysis, controller);
  const main = controller.kind.supplyPairs(controller.values).find((pair) => pair.main);
  const positive = main === undefined ? undefined : controller.nodes.get(main.plus);
  if (driving === undefined || stage === undefined || positive === undefined) return undefined;
  const stud = stage.a;
  if (stud === positive || analysis.network.terminalOfNode[stud] === undefined) return undefined;
  const own = analysis.network.branches
    .slice(controller.firstBranch, controller.firstBranch + controller.branchCount)
    .flatMap(({ role, index }) => (role === "conductor" ? [] : [index]));
  return wayThroughMotor(analysis, stud, positive, new Set(own));
}

/** Shortest way from the stud to the positive side through windings, metal and contacts closed while driving. */
function wayThroughMotor(
  analysis: Analysis,
  from: NodeIndex,
  to: NodeIndex,
  without: ReadonlySet<number>,
): readonly Branch[] | undefined {
  const driving = analysis.state("driving");
  const beside = neighbours(analysis.network);
  const by = new Map<NodeIndex, { readonly at: NodeIndex; readonly branch: Branch }>();
  const seen = new Set([from]);
  const queue = [from];
  for (let head = 0; head < queue.length && !seen.has(to); head += 1) {
    const at = queue[head] ?? from;
    for (const { to: next, branch } of beside(at)) {
      if (seen.has(next) || without.has(branch.index) || !leads(branch)) continue;
      const element = driving?.elements[branch.index];
      if (element?.type === "contact" && !element.closed) continue;
      seen.add(next);
      by.set(next, { at, branch });
      queue.push(next);
    }
  }
  if (!seen.has(to)) return undefined;
  const way: Branch[] = [];
  for (let step = by.get(to); step !== undefined; step = by.get(step.at)) way.push(step.branch);
  return way;
}

function leads({ role, part }: Branch): boolean {
  return PACK_ROLES.has(role) || (role === "load" && part?.kind.traits.motor === true);
}
