/** One operating state, or one moment of a transition, solved. Types only. */
import type { NetworkPart, NodeIndex } from "../network/network.ts";
import type { Condition, StateName } from "../parts/condition.ts";
import type { PartState } from "../parts/define.ts";
import type { Element } from "../parts/element.ts";
import type { Volt } from "../quantity/kinds.ts";

export interface SolvedState {
  readonly name: StateName;
  readonly condition: Condition;
  /** By node, to chassis. NaN = floating island without any path to chassis. */
  readonly volts: Float64Array;
  /** By branch, from a to b (for a source: positive when it delivers, i.e. current leaves at a). */
  readonly currents: Float64Array;
  readonly elements: readonly Element[];
  readonly partStates: readonly PartState[];
  /** Branches that conduct: closed contacts, diodes and clamps in their conducting piece, everything ohmic. */
  readonly conducting: Uint8Array;
  /** Parts that found no stable position, if any (relay-chatter). */
  readonly chatter: readonly NetworkPart[];
  /** Parts of which the state says something in words, e.g. a converter that cannot start on its feed. */
  readonly remarks: readonly { readonly part: NetworkPart; readonly remark: string }[];
  /** False where the bends of the curves found no resting place: the figures are then those of the last step. */
  readonly converged: boolean;
  /** Volts of a minus volts of b. */
  between(a: NodeIndex, b: NodeIndex): Volt;
  /** No source and no chassis reaches it except through leaks. */
  floating(node: NodeIndex): boolean;
}
