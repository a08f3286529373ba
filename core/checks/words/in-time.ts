/** Transitions as checks ask of them: which ones could be followed, and how each is told in a sentence. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Transition, TransitionName } from "../../circuit/transition/transition.ts";
import type { Branch, BranchIndex, NetworkPart } from "../../network/network.ts";
import type { ContactSpec } from "../../parts/define.ts";
import type { MissingField, Place } from "../define.ts";
import { partPlace } from "./places.ts";

/** A clause that ends a sentence: "Q1 has to break 400 A when the key goes off while driving." */
const WHEN: Readonly<Record<TransitionName, string>> = {
  "key-on": "when the key goes on",
  drive: "when the pedal goes down",
  "key-off": "when the key goes off while driving",
  "key-off-on": "when the key goes off and on again at once",
  "emergency-stop": "when the emergency stop is pressed at full load",
  "plug-in": "when the charging plug goes in",
  unplug: "when the charging plug is pulled",
  disconnect: "when the disconnect is pulled",
  "supply-lost": "when the 12 V supply is lost",
  "output-bounce": "while outputs start up after the key goes on",
};

/** A fact: the clauses of these transitions, each once. */
export function whenFact(transitions: readonly Transition[]): { readonly states: readonly string[] } {
  return { states: [...new Set(transitions.map(({ name }) => WHEN[name]))] };
}

/** Operating states in which these transitions end. */
export function endStates(transitions: readonly Transition[]): readonly string[] {
  return [...new Set(transitions.map(({ to }) => to))];
}

export interface Followed {
  /** Followed to their end. */
  readonly whole: readonly Transition[];
  /** Broken off: what they would have come to is not known. */
  readonly broken: readonly Transition[];
}

/** Those of these transitions that the drawing has. */
export function followed(analysis: Analysis, names: readonly TransitionName[]): Followed {
  const all = names.flatMap((name) => analysis.transition(name) ?? []);
  return {
    whole: all.filter(({ trouble }) => trouble === undefined),
    broken: all.filter(({ trouble }) => trouble !== undefined),
  };
}

/** Where transitions broke off: parts that went on switching, else `others`. */
export function brokenPlaces(broken: readonly Transition[], others: readonly NetworkPart[]): readonly Place[] {
  const restless = [...new Set(broken.flatMap(({ chatter }) => chatter))];
  return (restless.length > 0 ? restless : [...new Set(others)]).map(partPlace);
}

/** What was assumed of this dimension ("inductance", "capacitance"), as fields to fill in. */
export function assumedOf(
  transitions: readonly Transition[],
  dimension: string,
): ReadonlyMap<NetworkPart, MissingField> {
  const found = new Map<NetworkPart, MissingField>();
  for (const { assumed } of transitions) {
    for (const { part, parameter } of assumed) {
      const spec = part.kind.parameters[parameter];
      if (spec !== undefined && "dimension" in spec && spec.dimension === dimension)
        found.set(part, { part: part.part.id, parameter });
    }
  }
  return found;
}

/** The rated contact that a branch is; undefined for fuses, pins and outputs. */
export function ratedContact(analysis: Analysis, part: NetworkPart, branch: BranchIndex): ContactSpec | undefined {
  const { name } = analysis.network.branches[branch] ?? {};
  return part.kind.contacts?.(part.values).find(({ element }) => element === name);
}

const moments = new WeakMap<Transition, Map<number, SolvedState>>();

/** The circuit at a moment of a transition; asked of once, as many contacts and coils move at one time. */
export function momentOf(transition: Transition, time: number): SolvedState {
  let known = moments.get(transition);
  if (known === undefined) moments.set(transition, (known = new Map<number, SolvedState>()));
  let moment = known.get(time);
  if (moment === undefined) known.set(time, (moment = transition.at(time)));
  return moment;
}

/** Number of the last sample before a moment: of two samples at one time the first one. */
export function sampleBefore({ times }: Transition, time: number): number {
  let low = 0;
  let high = times.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((times[middle] ?? 0) < time) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Volts across a branch, a minus b, by sample; 0 where an end is afloat. */
export function voltsAcross(transition: Transition, { a, b }: Pick<Branch, "a" | "b">): Float64Array {
  const minus = transition.volts(b);
  return transition.volts(a).map((volts, k) => volts - (minus[k] ?? 0) || 0);
}
