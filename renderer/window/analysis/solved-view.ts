/** An analysis as plain arrays: what crosses from the worker to the window. */
import type { Analysis, SolvedState } from "../../../core/circuit/analysis.ts";
import { CHASSIS_NODE } from "../../../core/network/network.ts";
import type { NodeIndex } from "../../../core/network/network.ts";
import { tractionWires } from "../../../core/circuit/questions.ts";
import type { Role } from "../../../core/parts/element.ts";
import type { Volt } from "../../../core/quantity/kinds.ts";
import { contactKey, POTENTIALS } from "./protocol.ts";
import type { Potential, SolvedView, StateView } from "./protocol.ts";

/** What carries a potential on: everything but insulation, meters and capacitors. */
const CARRIES: readonly Role[] = [
  "conductor",
  "contact",
  "protection",
  "shunt",
  "source",
  "load",
  "coil",
  "resistor",
  "diode",
  "driver",
];

const code = (potential: Potential): number => POTENTIALS.indexOf(potential);

/** Below this an output gives nothing: leaks alone hold it there. */
const LEAST_OUTPUT: Volt = 1;

/** Positive nodes of the converters that deliver in this state: a vehicle may have no 12 V battery. */
function runningOutputs({ network }: Analysis, state: SolvedState): readonly NodeIndex[] {
  return network.parts.flatMap(({ kind, values, nodes }) => {
    if (kind.traits.converter !== true) return [];
    return kind.supplyPairs(values).flatMap(({ plus, minus, direction }) => {
      const [at, from] = [nodes.get(plus), nodes.get(minus)];
      if (direction !== "output" || at === undefined || from === undefined) return [];
      return (state.volts[at] ?? 0) - (state.volts[from] ?? 0) >= LEAST_OUTPUT ? [at] : [];
    });
  });
}

/** Potential by node. Traction wins over auxiliary, and both over the chassis they may be joined to. */
function potentials(analysis: Analysis, state: SolvedState): Uint8Array {
  const { network } = analysis;
  const result = new Uint8Array(network.nodeCount);
  const paint = (from: NodeIndex, potential: Potential): void => {
    for (const node of analysis.reach(state, from, { through: CARRIES })) result[node] = code(potential);
  };
  for (const node of analysis.reach(state, CHASSIS_NODE, { through: ["conductor"] })) result[node] = code("chassis");
  const auxiliary = analysis.packs.filter(({ duty }) => duty === "auxiliary");
  for (const pack of auxiliary) paint(pack.positive, "auxiliary");
  for (const plus of runningOutputs(analysis, state)) paint(plus, "auxiliary");
  for (const node of analysis.reach(state, CHASSIS_NODE, { through: ["conductor"] })) result[node] = code("chassis");
  for (const pack of analysis.packs.filter(({ duty }) => duty === "traction")) {
    paint(pack.positive, "traction");
    paint(pack.negative, "traction");
  }
  return result;
}

function stateView(analysis: Analysis, state: SolvedState, nodes: Int32Array, wires: readonly string[]): StateView {
  const { network } = analysis;
  const byNode = potentials(analysis, state);
  const volts = new Float64Array(nodes.length);
  const potential = new Uint8Array(nodes.length);
  nodes.forEach((node, index) => {
    const floating = byNode[node] === code("dead") && state.floating(node);
    volts[index] = floating ? Number.NaN : (state.volts[node] ?? Number.NaN);
    potential[index] = floating ? code("floating") : (byNode[node] ?? 0);
  });
  const amps = Float64Array.from(wires, (id) => {
    const conductor = network.conductorByWire.get(id);
    return conductor === undefined ? Number.NaN : (state.currents[conductor.branch] ?? Number.NaN);
  });
  const closed = network.parts.flatMap(({ part, firstBranch, branchCount }) =>
    state.elements
      .slice(firstBranch, firstBranch + branchCount)
      .flatMap((element) => (element.type === "contact" && element.closed ? [contactKey(part.id, element)] : [])),
  );
  const liveNets = (wanted: Potential): number =>
    network.nets.filter((net) => net.terminals.length > 0 && byNode[net.nodes[0] ?? 0] === code(wanted)).length;
  return {
    name: state.name,
    volts,
    potential,
    amps,
    closed,
    live: { traction: liveNets("traction"), auxiliary: liveNets("auxiliary") },
    remarks: [
      ...state.remarks.map(({ part, remark }) => ({ part: part.part.id, remark })),
      ...state.chatter.map((part) => ({
        part: part.part.id,
        remark: "finds no rest: it pulls in and drops out without end",
      })),
    ],
  };
}

export function solvedView(revision: number, analysis: Analysis): SolvedView {
  const { network } = analysis;
  const ends = network.parts.flatMap((part) =>
    part.terminals.map(({ id }) => ({ part: part.part.id, id, node: part.nodes.get(id) })),
  );
  const known = ends.filter((end) => end.node !== undefined);
  const nodes = Int32Array.from(known, ({ node }) => node ?? 0);
  const wires = network.project.wires.map(({ id }) => id);
  const pack = analysis.packs.find(({ duty }) => duty === "traction");
  return {
    revision,
    terminals: known.map(({ part, id }) => `${part}:${id}`),
    netOfTerminal: nodes.map((node) => network.netOfNode[node] ?? -1),
    nets: network.nets.map(({ name, terminals }) => ({
      name,
      terminals: terminals.map(([part, id]) => `${part}:${id}`),
    })),
    wires,
    packNegative: pack === undefined ? -1 : nodes.indexOf(pack.negative),
    tractionWires: [...tractionWires(analysis)],
    states: analysis.states.map((state) => stateView(analysis, state, nodes, wires)),
    transitions: analysis.transitionNames,
  };
}

/** One more state of a drawing, in the same order of terminals and wires as its solved view. */
export function furtherState(analysis: Analysis, state: SolvedState): StateView {
  const nodes = analysis.network.parts.flatMap((part) => part.terminals.flatMap(({ id }) => part.nodes.get(id) ?? []));
  const wires = analysis.network.project.wires.map(({ id }) => id);
  return stateView(analysis, state, Int32Array.from(nodes), wires);
}
