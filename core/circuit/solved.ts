/** A solved state as the checks see it. */
import type { NetworkPart, NodeIndex } from "../network/network.ts";
import { CHASSIS_NODE } from "../network/network.ts";
import { DisjointSets } from "../network/sets.ts";
import type { Condition, StateName } from "../parts/condition.ts";
import type { PartState } from "../parts/define.ts";
import type { Element } from "../parts/element.ts";
import type { Ampere, Ohm, Volt } from "../quantity/kinds.ts";
import type { ChangedState } from "./analysis.ts";
import type { Bench } from "./bench.ts";
import type { Settled, Start } from "./settle.ts";

export class Solved implements ChangedState {
  readonly name: StateName;
  readonly condition: Condition;
  readonly volts: Float64Array;
  readonly currents: Float64Array;
  readonly elements: readonly Element[];
  readonly partStates: readonly PartState[];
  readonly conducting: Uint8Array;
  readonly chatter: readonly NetworkPart[];
  readonly converged: boolean;
  readonly shortCurrents: readonly Ampere[];
  readonly bench: Bench;
  readonly settled: Settled;
  #remarks: readonly { readonly part: NetworkPart; readonly remark: string }[] | undefined;
  #reached: { readonly sets: DisjointSets; readonly alive: ReadonlySet<number> } | undefined;

  constructor(name: StateName, bench: Bench, settled: Settled) {
    const { solution } = settled;
    this.name = name;
    this.bench = bench;
    this.settled = settled;
    this.condition = settled.condition;
    this.volts = solution.volts;
    this.currents = solution.currents;
    this.elements = settled.elements;
    this.partStates = settled.partStates;
    this.conducting = solution.conducting;
    this.converged = solution.converged;
    this.chatter = settled.chatter;
    this.shortCurrents =
      bench.a.length > bench.network.branches.length ? [...solution.currents.slice(bench.network.branches.length)] : [];
  }

  get remarks(): readonly { readonly part: NetworkPart; readonly remark: string }[] {
    const { bench, settled } = this;
    return (this.#remarks ??= [
      ...[...settled.troubles].map(([part, remark]) => ({ part, remark })),
      ...bench.settling.flatMap((part) => {
        const remark = settled.partStates[part.index]?.["remark"];
        return typeof remark === "string" && remark !== "" ? [{ part, remark }] : [];
      }),
    ]);
  }

  /** Where the next state starts from. */
  get start(): Start {
    const { settled, bench } = this;
    return { partStates: settled.partStates, pieces: settled.solution.pieces, like: { bench, settled } };
  }

  between(a: NodeIndex, b: NodeIndex): Volt {
    return (this.volts[a] ?? NaN) - (this.volts[b] ?? NaN);
  }

  resistanceBetween(a: NodeIndex, b: NodeIndex): Ohm {
    return this.bench.solver.resistanceBetween(this.settled.solution, a, b);
  }

  resistancesFrom(node: NodeIndex): Float64Array {
    return this.bench.solver.resistancesFrom(this.settled.solution, node);
  }

  floating(node: NodeIndex): boolean {
    this.#reached ??= this.#reach();
    return !this.#reached.alive.has(this.#reached.sets.find(node));
  }

  /** Groups of nodes joined by anything that conducts except leaks, and those that hold a source or the chassis. */
  #reach(): { readonly sets: DisjointSets; readonly alive: ReadonlySet<number> } {
    const { a, b, network } = this.bench;
    const sets = new DisjointSets(network.nodeCount);
    const sources: number[] = [CHASSIS_NODE];
    this.elements.forEach((element, index) => {
      if (element.role === "leak") return;
      const [from, to] = [a[index] ?? CHASSIS_NODE, b[index] ?? CHASSIS_NODE];
      if (element.type === "source") sources.push(from);
      if (this.conducting[index] !== 1) return;
      if (element.type === "limited-source") sources.push(from);
      sets.join(from, to);
    });
    return { sets, alive: new Set(sources.map((node) => sets.find(node))) };
  }
}
