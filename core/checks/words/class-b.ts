/**
 * Class B: what works above 60 V direct voltage. Judged by the pack that metal, contacts, resistors, coils and loads
 * join to a node, at its highest (on charge); a pack of unstated chemistry may lie on either side of the
 * limit. What is reached only by way of the chassis, of another source or of a part without isolation is not of
 * the traction circuit: that the two are joined is a finding of its own.
 */
import type { Analysis, Pack } from "../../circuit/analysis.ts";
import { neighbours } from "../../circuit/paths.ts";
import type { Branch, Network, NetworkPart, NodeIndex } from "../../network/network.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Volt } from "../../quantity/kinds.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import type { MissingField } from "../define.ts";
import { JOINING } from "./joining-roles.ts";
import { chemistryRange } from "./chemistry-range.ts";
import { tractionPacks } from "../../studies/words/live.ts";

export interface WorkingVoltage {
  /** "none": no traction pack stands here; "unstated": either side of the limit, as `missing` would tell. */
  readonly voltageClass: "none" | "A" | "B" | "unstated";
  readonly volts: Volt;
  readonly packs: readonly Pack[];
  readonly missing: readonly MissingField[];
}

const NONE: WorkingVoltage = { voltageClass: "none", volts: 0, packs: [], missing: [] };

const kept = new WeakMap<Analysis, ReadonlyMap<NodeIndex, WorkingVoltage>>();

/** A tie inside a part that leads on: of what only connects, and between the studs of a controller or motor. */
function leadsOn(network: Network, { part, role, a, b }: Branch): boolean {
  if (part === undefined || role !== "conductor" || part.kind.group === "connecting") return true;
  const isStud = (node: NodeIndex): boolean =>
    part.terminals.find(({ id }) => id === network.terminalOfNode[node]?.[1])?.form === "stud";
  return isStud(a) && isStud(b);
}

/** Diodes and clamps that conduct in some state. */
function conductsEver(analysis: Analysis, { index }: Branch): boolean {
  return analysis.states.some(({ conducting }) => conducting[index] === 1);
}

/**
 * Nodes that the pack's own terminals reach without crossing the chassis, every contact taken as closed: one of which
 * nobody stated what moves it may close as well.
 */
function reachedBy(analysis: Analysis, pack: Pack): ReadonlySet<NodeIndex> {
  const { netOfNode } = analysis.network;
  const [state] = analysis.states;
  const beside = neighbours(analysis.network);
  const seen = new Set(pack.blocks.flatMap((block) => block.terminals.flatMap(({ id }) => block.nodes.get(id) ?? [])));
  const queue = [...seen];
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    for (const { to, branch } of beside(at)) {
      if (netOfNode[to] === netOfNode[CHASSIS_NODE] || seen.has(to)) continue;
      if (!JOINING.has(branch.role) || !leadsOn(analysis.network, branch)) continue;
      const type = state?.elements[branch.index]?.type;
      if ((type === "diode" || type === "clamp") && !conductsEver(analysis, branch)) continue;
      seen.add(to);
      queue.push(to);
    }
  }
  return seen;
}

function find(analysis: Analysis): ReadonlyMap<NodeIndex, WorkingVoltage> {
  const packsAt = new Map<NodeIndex, Set<Pack>>();
  for (const pack of tractionPacks(analysis)) {
    for (const node of reachedBy(analysis, pack)) {
      const packs = packsAt.get(node);
      if (packs === undefined) packsAt.set(node, new Set([pack]));
      else packs.add(pack);
    }
  }
  const known = new Map<string, WorkingVoltage>();
  const voltages = new Map<NodeIndex, WorkingVoltage>();
  for (const [node, packs] of packsAt) {
    const key = [...packs].map(({ index }) => index).join(" ");
    let working = known.get(key);
    if (working === undefined) known.set(key, (working = workingOf([...packs])));
    voltages.set(node, working);
  }
  return voltages;
}

function workingOf(packs: readonly Pack[]): WorkingVoltage {
  const { least, most, missing } = chemistryRange(packs);
  const voltageClass = least > CLASS_B_DC ? "B" : most > CLASS_B_DC ? "unstated" : "A";
  const volts = packs.reduce((highest, pack) => Math.max(highest, pack.highest), 0);
  return { voltageClass, volts, packs, missing: voltageClass === "unstated" ? missing : [] };
}

/** What may stand at a node. */
export function workingAt(analysis: Analysis, node: NodeIndex): WorkingVoltage {
  let voltages = kept.get(analysis);
  if (voltages === undefined) kept.set(analysis, (voltages = find(analysis)));
  return voltages.get(node) ?? NONE;
}

/** The highest that stands at any terminal of a part. */
export function workingOfPart(analysis: Analysis, part: NetworkPart): WorkingVoltage {
  return part.terminals.reduce((worst, { id }) => {
    const node = part.nodes.get(id);
    const here = node === undefined ? NONE : workingAt(analysis, node);
    return RANK[here.voltageClass] > RANK[worst.voltageClass] ||
      (here.voltageClass === worst.voltageClass && here.volts > worst.volts)
      ? here
      : worst;
  }, NONE);
}

const RANK: Readonly<Record<WorkingVoltage["voltageClass"], number>> = { none: 0, A: 1, unstated: 2, B: 3 };
