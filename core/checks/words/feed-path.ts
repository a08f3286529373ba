/**
 * Where a feed stops: ways through the network that count how many contacts on them stand open, so that the way with
 * the fewest is the one that somebody meant.
 */
import type { Analysis, Pack, SolvedState } from "../../circuit/analysis.ts";
import { neighbours } from "../../circuit/paths.ts";
import type { Branch, NetworkPart, NodeIndex } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";

/** Conductors, contacts and devices: what a main current takes. */
export const MAIN: readonly Role[] = ["conductor", "contact", "protection", "shunt", "source"];
/** What a control current takes on its way from a source and back. */
const CONTROL: readonly Role[] = ["conductor", "contact", "protection", "shunt", "driver", "diode", "resistor"];

export interface Way {
  /** From the start to the end. */
  readonly branches: readonly Branch[];
  /** Of them, those that stand open in the state. */
  readonly open: readonly Branch[];
}

export interface Walk {
  readonly through: readonly Role[];
  /** The part that is to be fed: its own insides are no way to it. */
  readonly without?: NetworkPart;
}

/** The way with the fewest open contacts, of those the one with the fewest branches; undefined where there is none. */
export function fewestOpen(
  analysis: Analysis,
  state: SolvedState,
  from: NodeIndex,
  to: NodeIndex,
  walk: Walk,
): Way | undefined {
  const beside = neighbours(analysis.network);
  const roles = new Set(walk.through);
  const arrivedBy = new Map<NodeIndex, { readonly from: NodeIndex; readonly branch: Branch } | undefined>();
  arrivedBy.set(from, undefined);
  let [shell, next]: [NodeIndex[], NodeIndex[]] = [[from], []];
  const settled = new Set<NodeIndex>();
  while (shell.length > 0) {
    for (const at of shell) {
      if (settled.has(at)) continue;
      settled.add(at);
      for (const { to: far, branch } of beside(at)) {
        if (settled.has(far) || !roles.has(branch.role)) continue;
        if (isCharger(branch) || (branch.part !== undefined && branch.part === walk.without)) continue;
        // What lies straight across the two ends is what is to be fed, or stands beside it.
        if (branch.part !== undefined && (at === from ? far === to : at === to && far === from)) continue;
        const element = state.elements[branch.index];
        if (element === undefined || element.type === "clamp") continue;
        if (element.type === "diode" && branch.a !== at) continue;
        const isOpen = element.type === "contact" && !element.closed;
        if (isOpen) {
          if (!arrivedBy.has(far)) next.push(far);
        } else {
          shell.push(far);
        }
        if (!arrivedBy.has(far) || (!isOpen && next.includes(far))) arrivedBy.set(far, { from: at, branch });
      }
    }
    [shell, next] = [next, []];
  }
  if (!arrivedBy.has(to)) return undefined;
  const branches: Branch[] = [];
  for (let step = arrivedBy.get(to); step !== undefined; step = arrivedBy.get(step.from)) branches.push(step.branch);
  branches.reverse();
  return { branches, open: branches.filter(({ index }) => isOpenIn(state, index)) };
}

/** A charger is no supply of the vehicle, and no way through it either; through its inhibit contact the coil's feed goes. */
const isCharger = ({ part, role }: Branch): boolean => part?.kind.traits.charger === true && role !== "contact";

function isOpenIn(state: SolvedState, branch: number): boolean {
  const element = state.elements[branch];
  return element?.type === "contact" && !element.closed;
}

/** Feed from a source's plus to one terminal, and the way back from the other to the same source's minus, in this order. */
export function feedWay(
  analysis: Analysis,
  state: SolvedState,
  part: NetworkPart,
  plus: NodeIndex,
  minus: NodeIndex,
): Way | undefined {
  const best = [...analysis.packs, ...analysis.supplies]
    .flatMap((pack) => wayFrom(analysis, state, pack, part, plus, minus) ?? [])
    .reduce<
      Way | undefined
    >((least, way) => (least === undefined || way.open.length < least.open.length ? way : least), undefined);
  return best;
}

function wayFrom(
  analysis: Analysis,
  state: SolvedState,
  pack: Pack,
  part: NetworkPart,
  plus: NodeIndex,
  minus: NodeIndex,
): Way | undefined {
  const feed = fewestOpen(analysis, state, pack.positive, plus, { through: CONTROL, without: part });
  const back = fewestOpen(analysis, state, minus, pack.negative, { through: CONTROL, without: part });
  if (feed === undefined || back === undefined) return undefined;
  return { branches: [...feed.branches, ...back.branches], open: [...feed.open, ...back.open] };
}
