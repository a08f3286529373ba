/**
 * The network of a drawing while it is carried forward: few of its nodes are stepped (../reduction.ts), and all of it can
 * be looked at, now and in the step that is tried.
 */
import type { BranchIndex } from "../../network/network.ts";
import type { Element } from "../../parts/element.ts";
import type { Ampere, Volt } from "../../quantity/kinds.ts";
import type { Bench } from "../bench.ts";
import type { ElectricalSolution } from "../electrical.ts";
import { Sight } from "../reduced.ts";
import type { Figures, Reduced } from "../reduced.ts";
import { isPlain } from "../reduction.ts";
import type { Reduction } from "../reduction.ts";
import { GAMMA, Stepper } from "./stepper.ts";
import type { Step } from "./stepper.ts";

/** A contact that carries less when it parts draws no arc: far less than holds any coil (common practice, no source). */
const NO_ARC: Ampere = 1e-6;

export class Circuit {
  readonly stepper: Stepper;
  readonly #bench: Bench;
  /** What is stepped while no arc burns, and what is stepped now. */
  readonly #quiet: Reduction;
  #reduction: Reduction;
  #reduced: Reduced;
  #now: Sight;
  readonly #middle: Sight;
  #end: Sight;

  /**
   * `elements` by branch, capacitors at `volts` and coils at `amps`. `whole`: nothing is eliminated beforehand, every step
   * solves all of the network.
   */
  constructor(
    bench: Bench,
    elements: readonly Element[],
    volts: ReadonlyMap<BranchIndex, Volt>,
    amps: ReadonlyMap<BranchIndex, Ampere>,
    pieces: Int8Array,
    whole: boolean,
  ) {
    const { nodeCount } = bench.network;
    const reduction = bench.reduced(whole ? new Uint8Array(elements.length).fill(1) : staying(bench, elements));
    this.#bench = bench;
    this.#quiet = reduction;
    this.#reduction = reduction;
    this.#reduced = reduction.load(elements);
    [this.#now, this.#middle, this.#end] = [new Sight(nodeCount), new Sight(nodeCount), new Sight(nodeCount)];
    const { elements: few, siemens } = this.#reduced;
    const { solver, branches } = reduction;
    this.stepper = new Stepper(solver, few, volts, amps, reduction.piecesOf(pieces), branches, siemens);
  }

  /** What the figures of all nodes and branches follow with from those that are stepped. */
  get reduced(): Reduced {
    return this.#reduced;
  }

  now(): Figures {
    return this.#now.of(this.#reduced, this.stepper.now);
  }

  after({ end }: Step): Figures {
    return this.#end.of(this.#reduced, end);
  }

  /** Figures at a part of the step, 0 to 1: on the parabola through what stands at 0, GAMMA and 1. */
  within(step: Step): (part: number) => Figures {
    const [start, middle, end] = [this.now(), this.#middle.of(this.#reduced, step.middle), this.after(step)];
    return (part) => {
      const a = ((part - GAMMA) * (part - 1)) / GAMMA;
      const b = (part * (part - 1)) / (GAMMA * (GAMMA - 1));
      const c = (part * (part - GAMMA)) / (1 - GAMMA);
      return {
        voltsAt: (node) => a * start.voltsAt(node) + b * middle.voltsAt(node) + c * end.voltsAt(node),
        currentAt: (branch) => a * start.currentAt(branch) + b * middle.currentAt(branch) + c * end.currentAt(branch),
      };
    };
  }

  take(step: Step): void {
    this.stepper.take(step);
    [this.#now, this.#end] = [this.#end, this.#now];
  }

  /** Would an arc burn if this contact parted now? */
  mayArc(branch: BranchIndex): boolean {
    return Math.abs(this.now().currentAt(branch)) > NO_ARC;
  }

  /** Current of a branch that is stepped, in a solution of the stepper: an arc, a store, a resistor. */
  currentIn({ currents }: ElectricalSolution, branch: BranchIndex): Ampere {
    return currents[this.#reduction.place[branch]!] ?? 0;
  }

  /** Does an arc still burn? */
  isConducting(branch: BranchIndex): boolean {
    return this.stepper.now.conducting[this.#reduction.place[branch]!] === 1;
  }

  /** As `change`, where no voltage and no current changes with it. */
  exchange(branch: BranchIndex, element: Element): void {
    this.stepper.exchange(this.#reduction.place[branch]!, element);
  }

  /**
   * Goes on with these elements. Where some have to stay that were eliminated, because a contact parts, so have for a while
   * all contacts that carry a current: when one opens, others often follow.
   */
  change(elements: readonly Element[]): void {
    if (this.#quiet.fits(elements)) this.#goOn(this.#quiet, elements);
    else if (this.#reduction.fits(elements)) this.#goOn(this.#reduction, elements);
    else {
      const stays = staying(this.#bench, elements);
      for (const branch of this.#reduction.branches) stays[branch] = 1;
      elements.forEach((element, branch) => {
        if (element.type === "contact" && element.movedBy !== "none" && this.mayArc(branch)) stays[branch] = 1;
      });
      this.#goOn(this.#bench.reduced(stays), elements);
    }
  }

  /** The last arc is gone: with these elements nothing changes but what is stepped. */
  calm(elements: readonly Element[]): void {
    if (this.#reduction !== this.#quiet && this.#quiet.fits(elements)) this.#goOn(this.#quiet, elements);
  }

  #goOn(reduction: Reduction, elements: readonly Element[]): void {
    const { stepper } = this;
    const before = this.#reduction;
    this.#reduction = reduction;
    this.#reduced = reduction.load(elements);
    const { elements: few, siemens } = this.#reduced;
    if (reduction === before) {
      stepper.change(few, siemens);
      return;
    }
    const pieces = new Int8Array(elements.length);
    before.branches.forEach((branch, r) => (pieces[branch] = stepper.now.pieces[r]!));
    stepper.changeTo(reduction.solver, few, siemens, reduction.place, reduction.piecesOf(pieces));
  }
}

/** Which branches cannot be eliminated (1 by branch); those of resistors are looked at in the middle of steps. */
function staying({ network: { branches } }: Bench, elements: readonly Element[]): Uint8Array {
  const stays = new Uint8Array(elements.length);
  elements.forEach((element, e) => {
    if (!isPlain(element) || element.role === "resistor") stays[e] = 1;
    if (element.type !== "power-port") return;
    // It may follow another element of its part.
    const part = branches[e]?.part;
    if (part !== undefined) stays.fill(1, part.firstBranch, part.firstBranch + part.branchCount);
  });
  return stays;
}
