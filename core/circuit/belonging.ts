/**
 * Traction and auxiliary are computed, not named: a net belongs to each source that reaches it, in some state, through
 * less than 100 ohm per volt of that source (UN R100 draws the same line between connected and isolated).
 */
import type { NetIndex, NodeIndex } from "../network/network.ts";
import { CHASSIS_NODE } from "../network/network.ts";
import type { Element } from "../parts/element.ts";
import type { Ohm } from "../quantity/kinds.ts";
import type { Belonging, Pack } from "./analysis.ts";
import type { ElectricalSolution } from "./electrical.ts";
import type { Solved } from "./solved.ts";

export const OHMS_PER_VOLT = 100;

/** Stated leaks count in isolation-low, not here: for this question none is lower than the harmless 10 MOhm. */
const HARMLESS_LEAK: Ohm = 10e6;

export class Belongings {
  readonly #nets: readonly Belonging[];

  constructor(states: readonly Solved[], packs: readonly Pack[]) {
    const network = states[0]?.bench.network;
    const nets = network?.nets ?? [];
    const reachedBy = nets.map(() => new Set<Pack>());
    const onChassis = nets.map(({ chassis }) => chassis);
    for (const state of states) {
      const resistances = resistanceQuestions(state);
      const fromChassis = resistances(CHASSIS_NODE);
      const seen = packs.map((pack) => nearer(resistances(pack.positive), resistances(pack.negative)));
      for (const net of nets) {
        const node = net.nodes[0] ?? CHASSIS_NODE;
        packs.forEach((pack, index) => {
          const limit = OHMS_PER_VOLT * Math.abs(pack.rest);
          if ((seen[index]?.[node] ?? Infinity) >= limit) return;
          reachedBy[net.index]?.add(pack);
          if ((fromChassis[node] ?? Infinity) < limit) onChassis[net.index] = true;
        });
      }
    }
    this.#nets = nets.map((net): Belonging => {
      const reached = packs.filter((pack) => reachedBy[net.index]?.has(pack));
      return {
        traction: reached.filter(({ duty }) => duty === "traction"),
        auxiliary: reached.filter(({ duty }) => duty === "auxiliary"),
        chassis: onChassis[net.index] ?? false,
      };
    });
  }

  of(net: NetIndex): Belonging {
    return this.#nets[net] ?? { traction: [], auxiliary: [], chassis: false };
  }
}

function nearer(a: Float64Array, b: Float64Array): Float64Array {
  return a.map((value, node) => Math.min(value, b[node] ?? Infinity));
}

/** Two-point resistances in this state's settled network, its leaks taken as harmless. */
function resistanceQuestions(state: Solved): (from: NodeIndex) => Float64Array {
  const low = (element: Element): boolean =>
    element.type === "resistance" && element.role === "leak" && element.resistance < HARMLESS_LEAK;
  if (!state.elements.some(low)) return (from) => state.resistancesFrom(from);
  const { solver } = state.bench;
  const { solution: settled, held } = state.settled;
  const elements = state.elements.map((element) =>
    low(element) ? ({ ...element, resistance: HARMLESS_LEAK } as Element) : element,
  );
  const solution: ElectricalSolution = solver.solve(elements, settled.pieces, held);
  return (from) => solver.resistancesFrom(solution, from);
}
