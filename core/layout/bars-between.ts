/** Busbars and splices that a current passes on its way through wires: which, by which terminal in and out. */
import type { Network, NodeIndex } from "../network/network.ts";
import type { WireEnd } from "../project/document.ts";

interface Passed {
  readonly part: string;
  readonly from: string;
  readonly to: string;
}

/** The shortest way along wires and joints from one terminal of a net to another. */
export class BarsBetween {
  readonly #network: Network;
  /** Neighbours by wire or by a part that joins its terminals. */
  readonly #next = new Map<NodeIndex, NodeIndex[]>();

  constructor(network: Network) {
    this.#network = network;
    const join = (a: NodeIndex, b: NodeIndex): void => {
      for (const [from, to] of [
        [a, b],
        [b, a],
      ] as const)
        this.#next.set(from, [...(this.#next.get(from) ?? []), to]);
    };
    for (const { a, b } of network.conductors) join(a, b);
    for (const branch of network.branches) if (branch.joins) join(branch.a, branch.b);
  }

  /** In the order in which they are passed; empty where one wire does it, or where there is no way. */
  between([a, p]: WireEnd, [b, q]: WireEnd): readonly Passed[] {
    const start = this.#network.partById.get(a)?.nodes.get(p);
    const goal = this.#network.partById.get(b)?.nodes.get(q);
    if (start === undefined || goal === undefined) return [];
    const came = new Map<NodeIndex, NodeIndex | undefined>([[start, undefined]]);
    for (const node of came.keys()) {
      if (node === goal) break;
      for (const next of this.#next.get(node) ?? []) if (!came.has(next)) came.set(next, node);
    }
    if (!came.has(goal)) return [];
    const ends: WireEnd[] = [];
    for (let at = came.get(goal); at !== undefined && at !== start; at = came.get(at)) {
      const end = this.#network.terminalOfNode[at];
      if (end !== undefined) ends.unshift(end);
    }
    const passed: Passed[] = [];
    for (const [part, terminal] of ends) {
      const last = passed.at(-1);
      if (last?.part === part) passed[passed.length - 1] = { ...last, to: terminal };
      else passed.push({ part, from: terminal, to: terminal });
    }
    return passed;
  }
}
