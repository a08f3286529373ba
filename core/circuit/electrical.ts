/**
 * Voltages and currents of a network whose contacts stand still: ohmic branches, sources, and elements whose curve has
 * corners (see pieces.ts). The corners are found by iteration from the pieces of the predecessor state, each step an
 * elimination (see elimination.ts).
 */
import type { Element } from "../parts/element.ts";
import type { Ohm } from "../quantity/kinds.ts";
import { addExactly, Elimination, type LinearSolver } from "./elimination.ts";
import { Curves, LEAST_RESISTANCE } from "./pieces.ts";
import { Settling } from "./settling.ts";
import { ShortedElimination } from "./shorted.ts";
import { Supply } from "./supply.ts";

export interface ElectricalSolution {
  /** By node, to chassis; NaN = island without path to chassis. */
  readonly volts: Float64Array;
  /** By branch, a to b; for source and limited-source positive when it delivers out of a. */
  readonly currents: Float64Array;
  /** By branch, numbered as in pieces.ts; the start of the next state. */
  readonly pieces: Int8Array;
  /** By branch: 1 where it conducts (closed, on, ohmic, delivering). */
  readonly conducting: Uint8Array;
  /** Eliminations and substitutions taken. */
  readonly iterations: number;
  /** False if no fixed point was found within the bound; the figures are then those of the last step. */
  readonly converged: boolean;
}

export interface PassingSolution extends ElectricalSolution {
  /** As volts, with figures that the currents agree with where those are NaN. */
  readonly potentials: Float64Array;
}

/** Branches that are an EMF behind a conductance, by figures that change too often for elements. */
export interface Given {
  readonly places: Int32Array;
  readonly emf: Float64Array;
  readonly siemens: Float64Array;
}

/** What resistance questions need of a solution: small-signal conductances, with EMFs zero and pieces held. */
interface Held {
  readonly elements: readonly Element[];
  readonly capacitorVolts: ReadonlyMap<number, number> | undefined;
  /** Branch and conductance where the held piece does not tell it. */
  readonly others: readonly (readonly [number, number])[];
  conductance: Float64Array | undefined;
  diagonal: Float64Array | undefined;
}

/** Branches that may be added behind those of a network without new arrays. */
const SPARE = 8;

export class ElectricalSolver {
  private readonly branchCount: number;
  private readonly a: Int32Array;
  private readonly b: Int32Array;
  private readonly partOf: Int32Array | undefined;
  private readonly nodeCount: number;
  private readonly held = new WeakMap<ElectricalSolution, Held>();
  private readonly base: ElectricalSolver | undefined;
  private work: Work | undefined;
  private elimination: LinearSolver | undefined;

  /**
   * Topology only; ordering and pattern are found at the first question. `a[i]`, `b[i]` = ends of branch i; node 0 =
   * chassis. `partOf` (part number of each branch, -1 for wires) says which element a `follows` means; without it the
   * nearest branch of that name is taken. `base`: solver of the same network without its last few branches, whose order
   * and arrays are used again.
   */
  constructor(nodeCount: number, a: Int32Array, b: Int32Array, partOf?: Int32Array, base?: ElectricalSolver) {
    this.base = base !== undefined && a.length - base.branchCount <= SPARE ? base : undefined;
    this.nodeCount = nodeCount;
    this.branchCount = a.length;
    this.a = a;
    this.b = b;
    this.partOf = partOf ?? base?.partOf;
  }

  /**
   * Solves the network. `elements` are parallel to the branches; contacts, drivers and enables stand as given.
   * `start`: pieces of the predecessor state. Capacitors are open unless `capacitorVolts` gives their voltage (by branch).
   * `instead`: an earlier solution of this solver that nobody needs any more, whose arrays are written over.
   */
  solve(
    elements: readonly Element[],
    start?: Int8Array,
    capacitorVolts?: ReadonlyMap<number, number>,
    instead?: ElectricalSolution,
  ): ElectricalSolution {
    const solution = this.settled(elements, start, capacitorVolts, undefined, instead);
    const { curves, settling } = this.arrays();
    const others = this.smallSignal(elements, curves, settling);
    this.held.set(solution, { elements, capacitorVolts, others, conductance: undefined, diagonal: undefined });
    return solution;
  }

  /**
   * As `solve`, for a moment in passing of which no resistance will be asked; with potentials. `given`: what some of the
   * sources and resistances among the elements are instead.
   */
  pass(elements: readonly Element[], start?: Int8Array, given?: Given, instead?: PassingSolution): PassingSolution {
    const solution = this.settled(elements, start, undefined, given, instead);
    const potentials = instead?.potentials ?? new Float64Array(this.nodeCount);
    const { position } = this.solver();
    const { standing } = this.arrays().settling;
    for (let n = 0; n < potentials.length; n++) potentials[n] = standing[position[n]!]!;
    return { ...solution, potentials };
  }

  private settled(
    elements: readonly Element[],
    start: Int8Array | undefined,
    capacitorVolts: ReadonlyMap<number, number> | undefined,
    given: Given | undefined,
    instead: ElectricalSolution | undefined,
  ): ElectricalSolution {
    const { curves, settling, supply } = this.arrays();
    const elimination = this.solver();
    curves.load(elements, start, capacitorVolts);
    if (given !== undefined) {
      const { places, emf, siemens } = given;
      for (let at = 0; at < places.length; at++) curves.give(places[at]!, emf[at]!, siemens[at]!);
    }
    settling.begin(elimination);
    let converged = curves.portCount === 0 ? settling.settle() : supply.settle(elements);

    const currents = instead?.currents ?? new Float64Array(this.branchCount);
    const plainly = given !== undefined;
    let x = settling.finish(currents, curves.portCount > 0, plainly);
    if (settling.release(currents)) {
      converged = settling.settle() && converged;
      x = settling.finish(currents, false, plainly);
    }
    const volts = this.byNode(elimination, x, instead?.volts ?? new Float64Array(this.nodeCount));
    const pieces = instead?.pieces ?? new Int8Array(this.branchCount);
    pieces.set(curves.piece.subarray(0, this.branchCount));
    const conducting = this.conducting(curves, instead?.conducting ?? new Uint8Array(this.branchCount));
    const { delivers } = curves;
    for (let e = 0; e < currents.length; e++) if (delivers[e] === 1) currents[e] = 0 - currents[e]!;
    return { volts, currents, pieces, conducting, iterations: settling.iterations, converged };
  }

  private arrays(): Work {
    return (this.work ??=
      this.base?.arrays() ??
      new Work(new Elimination(this.nodeCount, this.a, this.b), this.branchCount + SPARE, this.partOf));
  }

  private solver(): LinearSolver {
    const { elimination } = this.arrays();
    return (this.elimination ??=
      this.base === undefined ? elimination : new ShortedElimination(elimination, this.nodeCount, this.a, this.b));
  }

  private byNode({ position, grounded }: LinearSolver, x: Float64Array, volts: Float64Array): Float64Array {
    for (let n = 0; n < volts.length; n++) {
      const k = position[n]!;
      volts[n] = x[k]!;
      if (grounded[k] === 0) volts[n] = NaN;
    }
    return volts;
  }

  private conducting({ conductance, current }: Curves, conducting: Uint8Array): Uint8Array {
    for (let e = 0; e < conducting.length; e++) conducting[e] = conductance[e]! > 0 || current[e] !== 0 ? 1 : 0;
    return conducting;
  }

  /**
   * Conductances for resistance questions, where they are not those of the pieces held: where the held piece is flat, a
   * source at its limit counts with its own resistance, a port that draws current with what it draws per volt.
   */
  private smallSignal(
    elements: readonly Element[],
    { current, bent, bentCount, ports, portCount }: Curves,
    settling: Settling,
  ): (readonly [number, number])[] {
    const instead: (readonly [number, number])[] = [];
    for (let at = 0; at < bentCount + portCount; at++) {
      const e = at < bentCount ? bent[at]! : ports[at - bentCount]!;
      const amps = current[e]!;
      if (amps === 0) continue;
      const element = elements[e]!;
      if (element.type === "limited-source" || (element.type === "current-port" && amps < 0)) {
        instead.push([e, 1 / Math.max(element.resistance, LEAST_RESISTANCE)]);
      } else {
        const v = settling.voltsAcross(e);
        instead.push([e, v * amps > 0 ? amps / v : 0]);
      }
    }
    return instead;
  }

  private ask(solution: ElectricalSolution): { held: Held; elimination: Elimination } {
    const held = this.held.get(solution);
    if (held === undefined) throw new RangeError("the solution belongs to another solver");
    if (held.conductance === undefined) {
      const { curves } = this.arrays();
      curves.load(held.elements, solution.pieces, held.capacitorVolts);
      held.conductance = curves.conductance.slice(0, this.branchCount);
      for (const [e, siemens] of held.others) held.conductance[e] = siemens;
    }
    return { held, elimination: this.solver().complete(held.conductance) };
  }

  /** Two-point resistance with EMFs zero and pieces held; Infinity where nothing joins the two. */
  resistanceBetween(solution: ElectricalSolution, a: number, b: number): Ohm {
    const { elimination } = this.ask(solution);
    const { high, low, x } = this.work!.scratch();
    const i = elimination.position[a]!;
    const j = elimination.position[b]!;
    if (elimination.island[i] !== elimination.island[j]) return Infinity;
    if (i === j) return 0;
    addExactly(high, low, i, 1);
    addExactly(high, low, j, -1);
    elimination.solve(high, low, x, 0);
    return x[i]! - x[j]!;
  }

  /**
   * Two-point resistance from node `s` to every node, by node; Infinity where nothing joins them. One substitution,
   * plus the diagonal of the inverse once per solution. Right to 1e-14 of the resistance from `s` to chassis.
   */
  resistancesFrom(solution: ElectricalSolution, s: number): Float64Array {
    const { held, elimination } = this.ask(solution);
    held.diagonal ??= elimination.inverseDiagonal();
    const { high, low, x } = this.work!.scratch();
    const i = elimination.position[s]!;
    addExactly(high, low, i, 1);
    elimination.solve(high, low, x, 0);
    const result = new Float64Array(this.nodeCount);
    for (let n = 0; n < this.nodeCount; n++) {
      const k = elimination.position[n]!;
      const joined = elimination.island[k] === elimination.island[i];
      result[n] = joined ? Math.max(held.diagonal[i]! + held.diagonal[k]! - 2 * x[k]!, 0) : Infinity;
    }
    result[s] = 0;
    return result;
  }
}

/** Arrays that live as long as the topology. */
class Work {
  readonly curves: Curves;
  readonly settling: Settling;
  readonly supply: Supply;
  readonly elimination: Elimination;
  readonly high: Float64Array;
  readonly low: Float64Array;
  readonly x: Float64Array;

  constructor(elimination: Elimination, branchCount: number, partOf: Int32Array | undefined) {
    this.elimination = elimination;
    this.curves = new Curves(branchCount);
    this.settling = new Settling(elimination, this.curves);
    this.supply = new Supply(this.curves, this.settling, partOf);
    this.high = new Float64Array(elimination.size + 1);
    this.low = new Float64Array(elimination.size + 1);
    this.x = new Float64Array(elimination.size + 1);
  }

  /** The three arrays, emptied, for a question about resistance. */
  scratch(): Pick<this, "high" | "low" | "x"> {
    this.high.fill(0);
    this.low.fill(0);
    this.x.fill(0);
    return this;
  }
}
