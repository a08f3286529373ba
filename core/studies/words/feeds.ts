/**
 * Feeds: what can drive a fault current. A pack (all its blocks together), or one output that limits its current
 * (converter, charger, dc source), walked apart because its limit may lie within what the wires carry.
 */
import type { Analysis, Pack, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart, NodeIndex } from "../../network/network.ts";
import type { Ampere, Volt } from "../../quantity/kinds.ts";
import type { MissingField } from "../missing-field.ts";
import { belongingAt } from "./belongs.ts";

export type Side = "plus" | "minus" | "middle";

export interface Feed {
  readonly duty: "traction" | "auxiliary";
  readonly pack: Pack | undefined;
  readonly parts: readonly NetworkPart[];
  /** Its sources: EMF from b to a. */
  readonly sources: readonly Branch[];
  readonly storage: boolean;
  /** The current that an output does not exceed; undefined for a battery, and for an output of unstated limit. */
  readonly limit: Ampere | undefined;
  readonly limitField: MissingField | undefined;
}

const remembered = new WeakMap<Analysis, readonly Feed[]>();

export function feeds(analysis: Analysis): readonly Feed[] {
  let all = remembered.get(analysis);
  if (all === undefined) remembered.set(analysis, (all = find(analysis)));
  return all;
}

function find(analysis: Analysis): readonly Feed[] {
  const { network } = analysis;
  const state = analysis.states[0];
  if (state === undefined) return [];
  const sources = network.branches.filter(({ role, part }) => role === "source" && part !== undefined);
  const packs = analysis.packs.map((pack): Feed => {
    const members = new Set(pack.blocks);
    const own = sources.filter(({ part, index }) => {
      const type = state.elements[index]?.type;
      return part !== undefined && members.has(part) && type === "source";
    });
    return {
      duty: pack.duty,
      pack,
      parts: pack.blocks,
      sources: own,
      storage: true,
      limit: undefined,
      limitField: undefined,
    };
  });
  const outputs = sources.flatMap((branch): Feed[] => {
    const { part } = branch;
    if (part === undefined || state.elements[branch.index]?.type !== "limited-source") return [];
    const rated = part.kind
      .limits(part.values)
      .find(({ kind, element }) => kind === "current-through" && element === branch.name);
    const traction = belongingAt(analysis, branch.b).traction.length > 0;
    return [
      {
        duty: traction ? "traction" : "auxiliary",
        pack: undefined,
        parts: [part],
        sources: [branch],
        storage: false,
        limit: rated === undefined ? undefined : part.values.number(rated.parameter),
        limitField: rated === undefined ? undefined : { part: part.part.id, parameter: rated.parameter },
      },
    ];
  });
  return [...packs, ...outputs];
}

/** Terminals of a feed's sources and on which side they stand in a state: by voltage, never by name. */
export function poles(feed: Feed, state: SolvedState): ReadonlyMap<NodeIndex, Side> {
  const sides = new Map<NodeIndex, Side>();
  const live = feed.sources.filter(({ index }) => emfOf(state, index) > 0);
  const nodes = [...new Set(live.flatMap(({ a, b }) => [a, b]))];
  const volts = new Map(nodes.map((node) => [node, state.volts[node] ?? Number.NaN]));
  const known = [...volts.values()].filter((value) => !Number.isNaN(value));
  if (known.length === 0) return sides;
  const [least, most] = [Math.min(...known), Math.max(...known)];
  // Two ends on one side differ by a drop in wires, two ends of one block by about its EMF.
  const near: Volt = 0.4 * Math.min(...live.map(({ index }) => emfOf(state, index)));
  const single = live.length === 1 ? live[0] : undefined;
  for (const [node, value] of volts) {
    if (single !== undefined) sides.set(node, node === single.a ? "plus" : "minus");
    else if (Number.isNaN(value)) continue;
    else sides.set(node, value <= least + near ? "minus" : value >= most - near ? "plus" : "middle");
  }
  return sides;
}

function emfOf(state: SolvedState, index: number): Volt {
  const element = state.elements[index];
  return element?.type === "source" || (element?.type === "limited-source" && element.limit > 0) ? element.emf : 0;
}
