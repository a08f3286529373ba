/**
 * Main contactors that close in no state, looked at as if they were closed: on a reversed or shorted pack a controller
 * refuses to close them, which hides the mistake until somebody overrides it.
 */
import type { Analysis, ChangedState, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart, NodeIndex } from "../../network/network.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { everyState } from "./every-state.ts";
import { supplyPairs } from "../../studies/words/supply-pairs.ts";

export interface ClosedAnyway {
  readonly state: ChangedState;
  /** "driving with Q1 closed" in the words of the drawing. */
  readonly name: string;
  /** The contacts that were bridged, with the current that each would carry from its end a to b. */
  readonly joints: readonly { readonly branch: Branch; readonly current: Ampere }[];
}

/** More contactors that never close than this are an unfinished drawing, not a mistake to be looked for. */
const MOST = 12;

const remembered = new WeakMap<Analysis, readonly ClosedAnyway[]>();

/** Each such contactor by itself, and those that lie on the way to one main supply pair together. */
export function closedAnyway(analysis: Analysis): readonly ClosedAnyway[] {
  let all = remembered.get(analysis);
  if (all === undefined) {
    all = find(analysis);
    remembered.set(analysis, all);
  }
  return all;
}

function find(analysis: Analysis): readonly ClosedAnyway[] {
  const base = analysis.state("driving");
  if (base === undefined) return [];
  const never = new Map(
    analysis.network.parts.flatMap((part): [NetworkPart, readonly Branch[]][] => {
      if (part.kind.traits.contactor !== true) return [];
      const contacts = powerContacts(analysis, part);
      return contacts.length === 0 || everClosed(analysis, contacts) ? [] : [[part, contacts]];
    }),
  );
  if (never.size === 0 || never.size > MOST) return [];
  const sets = new Map<string, readonly NetworkPart[]>();
  const add = (parts: readonly NetworkPart[]): void => {
    const sorted = [...parts].sort((a, b) => a.index - b.index);
    if (sorted.length > 0) sets.set(sorted.map(({ index }) => index).join(" "), sorted);
  };
  for (const part of never.keys()) add([part]);
  for (const { pair, plus, minus } of supplyPairs(analysis.network)) {
    if (!pair.main || !pair.polarised) continue;
    const onTheWay = [plus, minus].flatMap((node) => contactorsTowards(analysis, base, node, never));
    add([...new Set(onTheWay)]);
  }
  return [...sets.values()].map((parts): ClosedAnyway => {
    const contacts = parts.flatMap((part) => never.get(part) ?? []);
    const state = analysis.solveChanged(base, { shorts: contacts.map(({ a, b }) => [a, b] as const), hold: true });
    return {
      state,
      name: `${base.name} with ${parts.map(({ part }) => part.designation).join(" and ")} closed`,
      joints: contacts.map((branch, index) => ({ branch, current: state.shortCurrents[index] ?? 0 })),
    };
  });
}

/** Contacts of a contactor that are wired at both ends and open at rest (an auxiliary contact may be of either kind). */
function powerContacts(analysis: Analysis, part: NetworkPart): readonly Branch[] {
  const { network } = analysis;
  const specs = part.kind.contacts?.(part.values) ?? [];
  return specs.flatMap(({ element, a, b }) => {
    const wired = [a, b].every((terminal) => network.wiresAt([part.part.id, terminal]).length > 0);
    const branch = network.branches
      .slice(part.firstBranch, part.firstBranch + part.branchCount)
      .find(({ name }) => name === element);
    return wired && branch !== undefined ? [branch] : [];
  });
}

function everClosed(analysis: Analysis, contacts: readonly Branch[]): boolean {
  return everyState(analysis).some((state) =>
    contacts.some(({ index }) => {
      const element = state.elements[index];
      return element?.type === "contact" && element.closed;
    }),
  );
}

/** Contactors that never close on the shortest way from a node to either pole of any pack. */
function contactorsTowards(
  analysis: Analysis,
  state: SolvedState,
  node: NodeIndex,
  never: ReadonlyMap<NetworkPart, readonly Branch[]>,
): readonly NetworkPart[] {
  const poles = analysis.packs.flatMap(({ duty, positive, negative }) =>
    duty === "traction" ? [positive, negative] : [],
  );
  return poles.flatMap((pole) => {
    const way = analysis.path(state, node, pole, {
      through: ["conductor", "contact", "protection", "shunt"],
      contacts: "closed",
    });
    return (way ?? []).flatMap(({ part }) => (part !== undefined && never.has(part) ? [part] : []));
  });
}
