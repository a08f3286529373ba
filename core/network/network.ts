/**
 * The network: a drawing as nodes, nets and branches. Every terminal is a node of its own (a wire has a
 * resistance); node 0 is the chassis, present even where nobody drew it. Types only; build.ts makes one.
 */
import type { PartKind, PartContext, TerminalSpec, Values } from "../parts/define.ts";
import type { Condition } from "../parts/condition.ts";
import type { Element } from "../parts/element.ts";
import type { Part, Project, Wire, WireEnd } from "../project/document.ts";
import type { Ohm, SquareMetre } from "../quantity/kinds.ts";

export type NodeIndex = number;
export type BranchIndex = number;
export type NetIndex = number;
export const CHASSIS_NODE: NodeIndex = 0;

export interface NetworkPart {
  readonly index: number;
  readonly part: Part;
  readonly kind: PartKind;
  readonly values: Values;
  readonly terminals: readonly TerminalSpec[];
  /** Node of each terminal and inner node, by id. */
  readonly nodes: ReadonlyMap<string, NodeIndex>;
  /** First branch of this part and how many it has: the same in every condition. */
  readonly firstBranch: BranchIndex;
  readonly branchCount: number;
  /** Set where the kind could not say what this part is electrically: it is treated as open. */
  readonly trouble?: string;
}

/** One wire between two terminals. Joints (50 uohm each end) are included. */
export interface Conductor {
  readonly wire: Wire;
  readonly branch: BranchIndex;
  readonly a: NodeIndex;
  readonly b: NodeIndex;
  readonly area: SquareMetre | undefined;
  /** At 20 C, and at the insulation's limit (70 C if unstated). */
  readonly cold: Ohm;
  readonly hot: Ohm;
  /** What was assumed for want of data: figures that depend on this wire are approximate. */
  readonly assumed: readonly ("length" | "size")[];
}

/** A branch of the network: a wire, a part's element, or a leak that the network adds. */
export interface Branch {
  readonly index: BranchIndex;
  readonly a: NodeIndex;
  readonly b: NodeIndex;
  readonly part?: NetworkPart;
  readonly conductor?: Conductor;
  /** Role and name; `element` in a given condition comes from `elementsIn`. */
  readonly role: Element["role"];
  readonly name: string;
  readonly joins: boolean;
}

/** Terminals joined by wires, busbars, splices and mated connectors. */
export interface Net {
  readonly index: NetIndex;
  /** The user's name, else its first terminal in natural order, e.g. "F1:1". */
  readonly name: string;
  readonly nodes: readonly NodeIndex[];
  readonly terminals: readonly WireEnd[];
  readonly chassis: boolean;
}

export interface Network {
  readonly project: Project;
  readonly parts: readonly NetworkPart[];
  readonly partById: ReadonlyMap<string, NetworkPart>;
  readonly conductors: readonly Conductor[];
  readonly conductorByWire: ReadonlyMap<string, Conductor>;
  readonly nodeCount: number;
  readonly branches: readonly Branch[];
  readonly nets: readonly Net[];
  /** Net of each node (node 0 included); inner nodes are nets of their own without terminals. */
  readonly netOfNode: Int32Array;
  /** The terminal at a node, or undefined for chassis and inner nodes. */
  readonly terminalOfNode: readonly (WireEnd | undefined)[];
  nodeOf(end: WireEnd): NodeIndex;
  /** Wires at a terminal. */
  wiresAt(end: WireEnd): readonly Wire[];
  /** "F1:1" */
  label(end: WireEnd): string;
  /** Elements of one part in a condition and discrete state; parallel to its branches. */
  elementsIn(part: NetworkPart, context: Omit<PartContext, "values" | "wired">): readonly Element[];
}

/** The controls of a condition, for a part. */
export type PositionOf = (part: NetworkPart, condition: Condition) => string;
