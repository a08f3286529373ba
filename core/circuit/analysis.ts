/**
 * What the rest of the program reads: the solved states of a drawing and the questions one may ask of them.
 * Types only; `analyse` in analyse.ts makes one. Everything lazy is computed once and kept.
 */
import type { Branch, BranchIndex, NetIndex, Network, NetworkPart, NodeIndex } from "../network/network.ts";
import type { StateName } from "../parts/condition.ts";
import type { Role } from "../parts/element.ts";
import type { Ampere, Ohm, Volt } from "../quantity/kinds.ts";
import type { SolvedState } from "./solved-state.ts";
import type { Transition, TransitionName } from "./transition/transition.ts";
export type { SolvedState } from "./solved-state.ts";

/** Traction pack or auxiliary battery: sources joined through conductors, contacts, protection and shunts, all taken as closed. */
export interface Pack {
  readonly index: number;
  readonly duty: "traction" | "auxiliary";
  readonly blocks: readonly NetworkPart[];
  readonly positive: NodeIndex;
  readonly negative: NodeIndex;
  /** By EMF alone: at rest full, at 10 % state of charge, absorption voltage by chemistry, equalising if any. */
  readonly rest: Volt;
  readonly lowest: Volt;
  readonly highest: Volt;
  readonly equalising: Volt | undefined;
  /** Wet or sealed, cells of one chemistry; undefined = mixed or unstated. */
  readonly chemistry: string | undefined;
}

export interface Belonging {
  /** Packs that reach this net in some state through less than 100 ohm per volt (core definition, see README of circuit). */
  readonly traction: readonly Pack[];
  readonly auxiliary: readonly Pack[];
  readonly chassis: boolean;
}

/** A change to the circuit: a bolted short, an opened branch, a control flipped. */
export interface Change {
  readonly shorts?: readonly (readonly [NodeIndex, NodeIndex])[];
  readonly open?: readonly BranchIndex[];
  readonly set?: Readonly<Record<string, string>>;
  /** Let relays, drivers and controllers settle again (default), or hold them where they are. */
  readonly hold?: boolean;
  /** Resistance figures: as drawn at 20 C, hot (insulation limit), or the lowest/highest end of each known range. */
  readonly resistances?: "nominal" | "lowest" | "highest" | "hot";
}

export interface ChangedState extends SolvedState {
  /** Current through each inserted short, in the order given. */
  readonly shortCurrents: readonly Ampere[];
}

export interface PathQuery {
  /** Roles that may be crossed. */
  readonly through: readonly Role[];
  /** Contacts count as they stand in the state ("as-is", default), or all closed. */
  readonly contacts?: "as-is" | "closed";
  readonly without?: readonly BranchIndex[];
}

export interface Analysis {
  readonly network: Network;
  /** The states that the drawing has, in the order of the design. */
  readonly states: readonly SolvedState[];
  state(name: StateName): SolvedState | undefined;
  /** `parked` reached from `driving` by key-off (beside `parked` from all open). */
  readonly parkedAfterDriving: SolvedState | undefined;
  /** driving while plugged, stored while plugged: for single checks. */
  readonly plugged: readonly SolvedState[];
  /** Every two-position control flipped once (and every selector position), in *parked*, *driving* and *charging*. Lazy. */
  readonly flipped: readonly SolvedState[];
  /** This state solved again with its capacitors fully settled (for pre-charge checks). */
  settledCapacitors(state: SolvedState): SolvedState;
  solveChanged(state: SolvedState, change: Change): ChangedState;
  /** Transitions that the drawing has the controls for, in the order of `TRANSITIONS`. */
  readonly transitionNames: readonly TransitionName[];
  /** What happens in time; undefined where the drawing lacks the controls for it. Worked out when first asked, and kept. */
  transition(name: TransitionName): Transition | undefined;
  /**
   * Volts across a coil, without sign, in the first instant after branches opened in a state: coils still drive the current
   * that they had there, capacitors have their voltage. No arc is counted.
   */
  kick(state: SolvedState, open: readonly BranchIndex[], coil: BranchIndex): Volt;
  readonly packs: readonly Pack[];
  /** Converter outputs and dc sources that stand on no battery: sources for belonging, but no packs. */
  readonly supplies: readonly Pack[];
  belonging(net: NetIndex): Belonging;
  /** Two-point resistance, EMFs zero, conducting diodes closed. */
  resistanceBetween(state: SolvedState, a: NodeIndex, b: NodeIndex): Ohm;
  /** The same from one node to every node, by node; Infinity where nothing joins them. */
  resistancesFrom(state: SolvedState, from: NodeIndex): Float64Array;
  /** Nodes reachable from `from` in a state. */
  reach(state: SolvedState, from: NodeIndex, query: PathQuery): ReadonlySet<NodeIndex>;
  /** A shortest path as branches, or undefined. */
  path(state: SolvedState, from: NodeIndex, to: NodeIndex, query: PathQuery): readonly Branch[] | undefined;
  /** Figures that rest on an assumed wire length or size, by branch: the current or voltage depends on it noticeably. */
  readonly approximate: readonly { readonly wire: string; readonly assumed: readonly ("length" | "size")[] }[];
}
