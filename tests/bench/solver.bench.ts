/** The numeric solver on networks of 600 nodes, and a general circuit simulator beside it. */
import { ElectricalSolver } from "../../core/circuit/electrical.ts";
import type { Element } from "../../core/parts/element.ts";
import { AS_DRAWN, TAME, vehicleNetwork, type ElectricalNetwork } from "../harness/electrical-networks.ts";
import { netlist } from "../references/netlist.ts";
import { runSimulator, simulate, simulatorVersion } from "../references/simulator.ts";
import { median, timed, type Row } from "./row.ts";

const NODES = 600;
const DOCUMENTS = 30;
const POINTS = 1000;

function sized(seed: number, range: typeof AS_DRAWN): ElectricalNetwork {
  let size = NODES;
  for (;;) {
    const network = vehicleNetwork(seed, size, range, false);
    if (Math.abs(network.nodeCount - NODES) <= 2) return network;
    size -= network.nodeCount - NODES > 0 ? Math.max(1, Math.floor((network.nodeCount - NODES) / 2)) : -1;
  }
}

function fresh({ nodeCount, a, b }: ElectricalNetwork): ElectricalSolver {
  return new ElectricalSolver(nodeCount, Int32Array.from(a), Int32Array.from(b));
}

/** The same network with one element exchanged. */
function exchanged(elements: readonly Element[], change: (element: Element) => Element | undefined): Element[] {
  const list = [...elements];
  for (let e = 0; e < list.length; e++) {
    const other = change(list[e]!);
    if (other === undefined) continue;
    list[e] = other;
    break;
  }
  return list;
}

const longer = (element: Element, times: number): Element | undefined =>
  element.type === "resistance" && element.role === "conductor"
    ? { ...element, resistance: element.resistance * (1 + times / 100) }
    : undefined;

const moved = (element: Element): Element | undefined =>
  element.type === "contact" ? { ...element, closed: !element.closed } : undefined;

/** The same network with all wires warmed up. */
function warmed(elements: readonly Element[], by: number): Element[] {
  return elements.map((element) =>
    element.type === "resistance" && element.role === "conductor"
      ? { ...element, resistance: element.resistance * (1 + by) }
      : element,
  );
}

function clock(work: () => void): number {
  const begun = performance.now();
  work();
  return performance.now() - begun;
}

/** Milliseconds of the simulator's own work for each operating point: a long run less a short one. */
function simulatorTime(network: ElectricalNetwork): number | undefined {
  if (simulate(netlist(network), network.nodeCount) === undefined) return undefined;
  const repeated = (times: number): string =>
    netlist(network).replace("op\nprint all", `repeat ${times}\nop\ndestroy all\nend`);
  const [short, long] = [repeated(1), repeated(POINTS + 1)].map((text) =>
    clock(() => void runSimulator(text, 300_000)),
  );
  return (long! - short!) / POINTS;
}

export function rows(): Row[] {
  // Compiled as in a program that has been open for a while: many documents, solved anew and again.
  for (let seed = 1000; seed < 1040; seed++) {
    const network = sized(seed, AS_DRAWN);
    for (let k = 0; k < 5; k++) {
      const solver = fresh(network);
      solver.solve(network.elements);
      solver.solve(warmed(network.elements, k / 100));
    }
  }
  const first: number[] = [];
  const again: number[] = [];
  const contact: number[] = [];
  const wires: number[] = [];
  const held: number[] = [];
  const all: number[] = [];
  let steps = 0;
  for (let seed = 1; seed <= DOCUMENTS; seed++) {
    const network = sized(seed, AS_DRAWN);
    const [a, b] = [Int32Array.from(network.a), Int32Array.from(network.b)];
    let solver!: ElectricalSolver;
    let solution!: ReturnType<ElectricalSolver["solve"]>;
    first.push(
      clock(() => {
        solver = new ElectricalSolver(network.nodeCount, a, b);
        solution = solver.solve(network.elements);
      }),
    );
    steps += solution.iterations;
    for (const [times, change] of [
      [again, longer],
      [contact, moved],
      [wires, undefined],
    ] as const) {
      const own: number[] = [];
      for (let k = 1; k <= 5; k++) {
        const elements =
          change === undefined
            ? warmed(network.elements, k / 100)
            : exchanged(network.elements, (element) => change(element, k));
        own.push(clock(() => void (solution = solver.solve(elements, solution.pieces))));
        solution = solver.solve(network.elements, solution.pieces);
      }
      times.push(median(own));
    }
    held.push(clock(() => void solver.resistanceBetween(solution, 1, 2)));
    all.push(clock(() => void solver.resistancesFrom(solution, 1)));
  }
  const list = [
    timed(`new topology, ${NODES} nodes: ordering, pattern and solution (median of ${DOCUMENTS})`, median(first), 1),
    { what: "  eliminations it took, mean", measured: (steps / DOCUMENTS).toFixed(1) },
    timed("known topology, one resistance changed: elimination and solution", median(again), 0.1),
    timed("known topology, contactor moved, pieces found anew", median(contact)),
    timed("known topology, all resistances changed", median(wires)),
    timed("resistance between two nodes, first of a solution", median(held)),
    timed("resistances from one node to all, first of a solution", median(all)),
  ];
  return [...list, ...beside()];
}

function beside(): Row[] {
  const what = `${simulatorVersion() ?? "general simulator"}, own time per operating point (${POINTS} in one process)`;
  if (simulatorVersion() === undefined) return [{ what, measured: "not run: simulator absent" }];
  for (let seed = 1; seed < 20; seed++) {
    const network = sized(seed, TAME);
    const theirs = simulatorTime(network);
    if (theirs === undefined) continue;
    const solver = fresh(network);
    let pieces = solver.solve(network.elements).pieces;
    const ours: number[] = [];
    for (let k = 0; k < POINTS; k++) {
      // From scratch, as the simulator does it: no pieces to start from.
      const elements = warmed(network.elements, k / POINTS);
      ours.push(clock(() => void (pieces = solver.solve(elements).pieces)));
    }
    const known = pieces.length === network.elements.length;
    if (!known) throw new Error("the solution lacks branches");
    return [
      timed(what, theirs),
      timed("  the same network here, pieces not known either", median(ours)),
      { what: "  ratio", measured: `${(theirs / median(ours)).toFixed(0)} times` },
    ];
  }
  return [{ what, measured: "not run: the simulator settled none of the networks" }];
}
