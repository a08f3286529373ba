/** One solved state as plain figures: the document of `solve --json`. SI units; null = no figure (a floating island, a loose wire). */
import type { Analysis, SolvedState } from "../../core/circuit/analysis.ts";
import { compareTerminals } from "../../core/network/natural-order.ts";
import { CHASSIS_NODE } from "../../core/network/network.ts";
import type { Branch, Net, NetworkPart, NodeIndex } from "../../core/network/network.ts";
import type { Role } from "../../core/parts/element.ts";
import { Names } from "../../core/checks/text.ts";

export interface SolvedNet {
  readonly name: string;
  readonly terminals: readonly string[];
  /** To chassis, at the net's first terminal in natural order. Of a floating net: what the leaks alone make of it. */
  readonly volts: number | null;
  readonly voltsToPackNegative: number | null;
  readonly floating: boolean;
}

export interface SolveDocument {
  readonly state: string;
  readonly nets: readonly SolvedNet[];
  /** From end A to end B. */
  readonly wires: readonly { readonly wire: string; readonly id: string; readonly amps: number | null }[];
  /** Through and across the element that makes the part what it is, from its a to its b. */
  readonly parts: readonly {
    readonly part: string;
    readonly id: string;
    readonly closed?: boolean;
    readonly amps: number | null;
    readonly volts: number | null;
  }[];
  readonly approximate: readonly { readonly wire: string; readonly id: string; readonly assumed: readonly string[] }[];
}

/** Every role, in the order in which an element stands for a part of several: what it is for, before how it is driven, before what it leaks. */
const STANDS_FOR_PART: readonly Role[] = [
  "contact",
  "protection",
  "source",
  "load",
  "shunt",
  "coil",
  "resistor",
  "diode",
  "capacitor",
  "driver",
  "conductor",
  "sense",
  "leak",
];

function figure(value: number | undefined): number | null {
  // Adding zero turns -0 into 0, which is what a reader expects of a dead wire.
  return value === undefined || !Number.isFinite(value) ? null : value + 0;
}

function mainBranch(part: NetworkPart, branches: readonly Branch[]): Branch | undefined {
  const own = branches.slice(part.firstBranch, part.firstBranch + part.branchCount);
  return own.reduce<Branch | undefined>(
    (best, branch) =>
      best === undefined || STANDS_FOR_PART.indexOf(branch.role) < STANDS_FOR_PART.indexOf(best.role) ? branch : best,
    undefined,
  );
}

function solvedNet(analysis: Analysis, state: SolvedState, net: Net): SolvedNet {
  const { network } = analysis;
  const designation = (id: string): string => network.partById.get(id)?.part.designation ?? id;
  const terminals = [...net.terminals].sort(compareTerminals(designation));
  const first = terminals[0];
  const node = first === undefined ? net.nodes[0] : network.nodeOf(first);
  const between = (reference: NodeIndex): number | null =>
    node === undefined ? null : figure(state.between(node, reference));
  const belonging = analysis.belonging(net.index);
  const pack = belonging.traction[0] ?? analysis.packs.find(({ duty }) => duty === "traction");
  return {
    name: net.name,
    terminals: terminals.map((end) => network.label(end)),
    volts: between(CHASSIS_NODE),
    voltsToPackNegative: pack === undefined ? null : between(pack.negative),
    floating: node === undefined ? true : state.floating(node),
  };
}

/** The figures of one state, parts and wires in the order of the document. */
export function solveJson(analysis: Analysis, state: SolvedState): SolveDocument {
  const { network } = analysis;
  const names = new Names(network.project);
  return {
    state: state.name,
    nets: network.nets.filter((net) => net.terminals.length > 0).map((net) => solvedNet(analysis, state, net)),
    wires: network.project.wires.map(({ id, number }) => {
      const conductor = network.conductorByWire.get(id);
      return { wire: number, id, amps: conductor === undefined ? null : figure(state.currents[conductor.branch]) };
    }),
    parts: network.parts.map((part) => {
      const { designation, id } = part.part;
      const branch = mainBranch(part, network.branches);
      if (branch === undefined) return { part: designation, id, amps: null, volts: null };
      const opens = branch.role === "contact" || branch.role === "protection";
      return {
        part: designation,
        id,
        ...(opens ? { closed: state.conducting[branch.index] === 1 } : {}),
        amps: figure(state.currents[branch.index]),
        volts: figure(state.between(branch.a, branch.b)),
      };
    }),
    approximate: analysis.approximate.map(({ wire, assumed }) => ({ wire: names.wire(wire), id: wire, assumed })),
  };
}
