/** Single faults: 2,000 on a network of 600 nodes, solved again and by updates; the study and the diagnosis of a large vehicle. */
import { analyse } from "../../core/circuit/analyse.ts";
import { ElectricalSolver } from "../../core/circuit/electrical.ts";
import type { ElectricalSolution } from "../../core/circuit/electrical.ts";
import { singleFaults } from "../../core/circuit/faults.ts";
import type { Element } from "../../core/parts/element.ts";
import { CHASSIS_NODE } from "../../core/network/network.ts";
import { diagnose } from "../../core/studies/diagnose.ts";
import type { Points } from "../../core/studies/diagnose.ts";
import { faultMotion, singleFaultStudy } from "../../core/studies/single-faults.ts";
import { AS_DRAWN, seeded, vehicleNetwork, type ElectricalNetwork } from "../harness/electrical-networks.ts";
import { largeVehicle } from "../harness/large-vehicle.ts";
import { RankOne, type Fault } from "../harness/rank-one.ts";
import { median, timed, type Row } from "./row.ts";

const NODES = 600;
const FAULTS = 2000;
const NETWORKS = 7;
const BOLTED: Element = {
  type: "resistance",
  name: "short",
  a: "",
  b: "",
  role: "conductor",
  resistance: 1e-6,
};

/** Every wire open, and as many shorts as it takes: to chassis, and between neighbours (nodes made one after the other). */
export function faultsOf({ nodeCount, elements }: ElectricalNetwork, seed: number, count = FAULTS): Fault[] {
  const random = seeded(seed);
  const opens = elements.flatMap((element, open): Fault[] =>
    element.type === "resistance" && element.role !== "leak" ? [{ open }] : [],
  );
  const shorts = Array.from({ length: Math.max(0, count - opens.length) }, (_, index): Fault => {
    const node = 1 + Math.floor(random() * (nodeCount - 1));
    if (index % 2 === 0) return { short: [node, 0] };
    return { short: [node, node === nodeCount - 1 ? node - 1 : node + 1] };
  });
  return [...opens, ...shorts].slice(0, count);
}

/** As the product does it: an opened element in place, a short laid into the elimination at hand. */
export class SolvedAgain {
  readonly #network: ElectricalNetwork;
  readonly #a: Int32Array;
  readonly #b: Int32Array;
  readonly #solver: ElectricalSolver;
  readonly solved: ElectricalSolution;
  readonly #elements: Element[];
  readonly #shorted: readonly Element[];

  constructor(network: ElectricalNetwork) {
    this.#network = network;
    this.#a = Int32Array.from(network.a);
    this.#b = Int32Array.from(network.b);
    this.#solver = new ElectricalSolver(network.nodeCount, this.#a, this.#b);
    this.solved = this.#solver.solve(network.elements);
    this.#elements = [...network.elements];
    this.#shorted = [...network.elements, BOLTED];
  }

  solve(fault: Fault): ElectricalSolution {
    if ("open" in fault) {
      const element = this.#elements[fault.open]!;
      this.#elements[fault.open] = { ...element, type: "contact", closed: false, resistance: 1, movedBy: "none" };
      const solution = this.#solver.solve(this.#elements, this.solved.pieces);
      this.#elements[fault.open] = element;
      return solution;
    }
    const [from, to] = fault.short;
    const shorted = new ElectricalSolver(
      this.#network.nodeCount,
      joined(this.#a, from),
      joined(this.#b, to),
      undefined,
      this.#solver,
    );
    return shorted.solve(this.#shorted, this.solved.pieces);
  }
}

function joined(ends: Int32Array, end: number): Int32Array {
  const all = new Int32Array(ends.length + 1);
  all.set(ends);
  all[ends.length] = end;
  return all;
}

function sized(seed: number): ElectricalNetwork {
  let size = NODES;
  for (;;) {
    const network = vehicleNetwork(seed, size, AS_DRAWN, false);
    if (Math.abs(network.nodeCount - NODES) <= 2) return network;
    size -= network.nodeCount - NODES > 0 ? Math.max(1, Math.floor((network.nodeCount - NODES) / 2)) : -1;
  }
}

function clock(work: () => void): number {
  const begun = performance.now();
  work();
  return performance.now() - begun;
}

function numeric(): Row[] {
  const again: number[] = [];
  const updated: number[] = [];
  let refused = 0;
  let opens = 0;
  const openTimes: number[] = [];
  // Compiled as in a program that has been open for a while.
  const warm = new SolvedAgain(sized(1000));
  for (const fault of faultsOf(sized(1000), 1000)) warm.solve(fault);
  for (let seed = 1; seed <= NETWORKS; seed += 1) {
    const network = sized(seed);
    const faults = faultsOf(network, seed);
    const cut = faults.filter((fault) => "open" in fault);
    const solver = new SolvedAgain(network);
    again.push(clock(() => faults.forEach((fault) => void solver.solve(fault))));
    openTimes.push(clock(() => cut.forEach((fault) => void solver.solve(fault))));
    opens += cut.length;
    updated.push(
      clock(() => {
        const updates = new RankOne(network, solver.solved);
        for (const fault of faults) {
          if (updates.volts(fault) !== undefined) continue;
          refused += 1;
          solver.solve(fault);
        }
      }),
    );
  }
  return [
    timed(`${FAULTS} single faults, ${NODES} nodes: each solved again (as shipped)`, median(again), 200),
    timed(`  of these, the ${Math.round(opens / NETWORKS)} opened wires`, median(openTimes)),
    timed("the same by updates of rank one, those refused solved again", median(updated)),
    { what: "  refused: lost digits, or a curve left its piece", measured: `${Math.round(refused / NETWORKS)}` },
  ];
}

export function rows(): Row[] {
  const list = numeric();
  const project = largeVehicle(68, 1);
  const size = `${project.parts.length} parts, ${project.wires.length} wires`;
  const analysis = analyse(project);
  const faults = singleFaults(analysis);
  const moved = clock(() => faults.slice(0, 500).forEach((fault) => void faultMotion(analysis, fault)));
  const studied = clock(() => void singleFaultStudy(analysis));
  // Both poles of every battery and fuse to chassis, as a person begins.
  const points = analysis.network.parts
    .filter(({ kind }) => kind.traits.battery === true || kind.traits.device === "fuse")
    .flatMap(({ terminals, nodes }) => terminals.flatMap(({ id }): Points[] => [[nodes.get(id) ?? 0, CHASSIS_NODE]]))
    .slice(0, 40);
  const sets = ["parked", "ready"].map((state) => ({ state, points, volts: points.map(() => 12) }));
  const diagnosed = clock(() => void diagnose(analysis, sets));
  return [
    ...list,
    timed(`single-fault study, ${size}, ${faults.length} faults in every state`, studied),
    timed("motion alone of 500 of these faults", moved),
    timed(`diagnosis of ${2 * points.length} readings in two states, ${size}`, diagnosed),
  ];
}
