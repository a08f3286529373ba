/** Drawings as reference networks: every state of every demonstration project, as solved. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import * as path from "node:path";
import type { Analysis, SolvedState } from "../../core/circuit/analysis.ts";
import { analyse } from "../../core/circuit/analyse.ts";
import { ElectricalSolver } from "../../core/circuit/electrical.ts";
import type { Element } from "../../core/parts/element.ts";
import { readProject } from "../../core/project/read.ts";
import type { ElectricalNetwork } from "../harness/electrical-networks.ts";

/** A general simulator loses leaks beside joints: for the comparison joints are at least this, leaks at most that. */
const JOINT = 1e-3;
const LEAK = 1e5;

/** Every state of a drawing as a network: element names made unique, figures within the simulator's reach. */
export function networksOf(title: string, { network, states }: Analysis): ElectricalNetwork[] {
  const a = network.branches.map((branch) => branch.a);
  const b = network.branches.map((branch) => branch.b);
  return states.map((state) => {
    const elements = state.elements.map((element, e) =>
      within(named(element, network.branches[e]?.part?.index), state, e),
    );
    return anchored({ title: `${title} ${state.name}`, nodeCount: network.nodeCount, a, b, elements });
  });
}

function named(element: Element, part: number | undefined): Element {
  const prefix = part === undefined ? "w" : `p${part}`;
  const name = `${prefix}:${element.name}`;
  if (element.type !== "power-port" || element.follows === undefined) return { ...element, name };
  return { ...element, name, follows: `${prefix}:${element.follows}` };
}

function within(element: Element, state: SolvedState, e: number): Element {
  const { name, a, b, role } = element;
  if (element.type === "capacitor" || (element.type === "power-port" && state.currents[e] === 0)) {
    return { name, a, b, role, type: "contact", closed: false, resistance: JOINT, movedBy: "none" };
  }
  if (!("resistance" in element)) return element;
  const most = element.type === "resistance" ? LEAK : Infinity;
  return { ...element, resistance: Math.min(Math.max(element.resistance, JOINT), most) };
}

/** With a leak to chassis wherever the volts would be anyone's guess: open ends, dead ends behind a diode. */
function anchored(network: ElectricalNetwork): ElectricalNetwork {
  const { nodeCount, title } = network;
  const a = [...network.a];
  const b = [...network.b];
  const elements = [...network.elements];
  for (;;) {
    const solver = new ElectricalSolver(nodeCount, Int32Array.from(a), Int32Array.from(b));
    const blocked = elements.map((element) =>
      element.type === "diode" || element.type === "clamp" ? open(element) : element,
    );
    const [shut, standing] = [solver.solve(blocked).volts, solver.solve(elements).volts];
    const afloat = shut.findIndex((volts, node) => Number.isNaN(volts) || Number.isNaN(standing[node]));
    if (afloat < 0) return { title, nodeCount, a, b, elements: withoutIdlePorts(elements, solver) };
    a.push(afloat);
    b.push(0);
    elements.push({ type: "resistance", name: `anchor${afloat}`, a: "", b: "", role: "leak", resistance: LEAK });
  }
}

/** A port that is off stands for a decision, which a simulator does not take. */
function withoutIdlePorts(elements: readonly Element[], solver: ElectricalSolver): Element[] {
  const { pieces } = solver.solve(elements);
  return elements.map((element, e) => (element.type === "power-port" && pieces[e] !== 1 ? open(element) : element));
}

function open({ name, a, b, role }: Element): Element {
  return { name, a, b, role, type: "contact", closed: false, resistance: JOINT, movedBy: "none" };
}

/** The demonstration projects that there are, in every state. */
export function demonstrationNetworks(folder: string): ElectricalNetwork[] {
  const networks: ElectricalNetwork[] = [];
  for (const name of readdirSync(folder).sort()) {
    const file = path.join(folder, name, `${name}.loomwright`);
    if (!existsSync(file)) continue;
    const result = readProject(readFileSync(file, "utf8"));
    if (!result.ok) throw new Error(`${name}: ${result.problems.join("; ")}`);
    networks.push(...networksOf(name, analyse(result.project)));
  }
  return networks;
}
