/**
 * The course of a transition: the drawing is carried forward from a solved state while its plan moves the controls.
 * Between events the network is stepped; an event is found to a thousandth of the step in which it lies.
 */
import type { BranchIndex, NetworkPart } from "../../network/network.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Condition } from "../../parts/condition.ts";
import type { PartState } from "../../parts/define.ts";
import { ASSUMED_COIL_TIME } from "../../parts/coil-drive.ts";
import type { Element } from "../../parts/element.ts";
import type { Second, Volt } from "../../quantity/kinds.ts";
import { plainNumber } from "../../quantity/print.ts";
import type { Assembled, Bench } from "../bench.ts";
import type { Figures } from "../reduced.ts";
import type { Solved } from "../solved.ts";
import { breakdown, parting } from "./arc.ts";
import { Circuit } from "./circuit.ts";
import { Clockwork, Moment } from "./clockwork.ts";
import { Log } from "./log.ts";
import { Melting } from "./melting.ts";
import type { Link } from "./melting.ts";
import type { Move, Plan } from "./plans.ts";
import { SHORTEST } from "./stepper.ts";
import type { Step, Stepper } from "./stepper.ts";

const MOST_STEPS = 20_000;
/** Rounds in which parts without delay may answer each other at one moment; from the first number on one at a time. */
const ROUNDS_TOGETHER = 20;
const MOST_ROUNDS = 80;
/** Nothing moves any more: what is left changes less than this part of the largest figure in the time left. */
const STILL = 2e-3;
/** Watched at least, after the last event. */
const LEAST_WATCHED: Second = 0.25;
/** An event is found to this part of the step in which it lies, and to this at the least. */
const FOUND_TO = 1e-3;
const FOUND_TO_LEAST: Second = 1e-7;

export class Course {
  readonly plan: Plan;
  readonly start: Solved;
  readonly log: Log;
  readonly coils: readonly BranchIndex[];
  chatter: readonly NetworkPart[] = [];
  trouble: string | undefined;
  /** Elements with contacts as they really stand; those that are stepped have arcs and inductances filled in. */
  drawn: readonly Element[];
  readonly stepper: Stepper;
  #bench: Bench;
  #condition: Condition;
  #like: Assembled;
  #acting: Element[];
  readonly #clock: Clockwork;
  readonly #circuit: Circuit;
  readonly #arcs = new Set<BranchIndex>();
  readonly #gap: Volt;
  readonly #inductance = new Map<BranchIndex, number>();
  readonly #lost = new Set<BranchIndex>();
  readonly #moves: Move[];
  readonly #melting: Melting;
  #blown: readonly Link[] = [];
  #lastMove: Second = 0;
  #lastJump: Second = 0;
  #length: Second;
  /** Whether some part wished for something else at the end of the step that was tried. */
  #isWished = false;

  /** `whole`: nothing of the network is eliminated beforehand, every step solves all of it. */
  constructor(start: Solved, plan: Plan, whole = false) {
    const { bench, settled } = start;
    this.plan = plan;
    this.start = start;
    this.#bench = bench;
    this.#moves = plan.moves.slice();
    this.#condition = { ...settled.condition, timers: "by-circuit" };
    this.#like = { bench, settled };
    this.drawn = settled.elements;
    this.coils = this.drawn.flatMap((element, branch) => (element.type === "coil" ? [branch] : []));
    this.#assumeInductances();
    this.#acting = this.drawn.map((element, branch) => this.#act(element, branch));
    this.#gap = breakdown(this.drawn);
    this.#melting = new Melting(bench);
    const across = (branch: BranchIndex): Volt => {
      const volts = start.between(bench.a[branch] ?? CHASSIS_NODE, bench.b[branch] ?? CHASSIS_NODE);
      return Number.isNaN(volts) ? 0 : volts;
    };
    this.#circuit = new Circuit(
      bench,
      this.#acting,
      new Map(bench.capacitors.map((branch) => [branch, across(branch)])),
      new Map(this.coils.map((branch) => [branch, start.currents[branch] ?? 0])),
      settled.solution.pieces,
      whole,
    );
    this.stepper = this.#circuit.stepper;
    this.log = new Log(bench, this.#circuit, this.drawn);
    this.#clock = new Clockwork(bench, settled.partStates, plan.bounce === true, (part, told) => {
      this.log.told(part, told);
    });
    this.log.sample();
    this.#length = this.stepper.firstLength();
    this.#run();
  }

  get bench(): Bench {
    return this.#bench;
  }

  get condition(): Condition {
    return this.#condition;
  }

  get partStates(): readonly PartState[] {
    return this.#clock.states;
  }

  get troubles(): ReadonlyMap<NetworkPart, string> {
    return this.#like.settled.troubles;
  }

  #run(): void {
    this.#jump();
    for (let steps = 0; this.trouble === undefined; steps += 1) {
      if (steps > MOST_STEPS) {
        this.trouble = `something changes without end ${seconds(this.stepper.time)} after the start`;
        return;
      }
      const event = this.#nextEvent();
      const left = event - this.stepper.time;
      if (left <= 0) {
        if (!this.#happen()) return;
        continue;
      }
      const step = this.#step(left);
      if (step === undefined) continue;
      this.#afterStep(step);
    }
  }

  /** The moment at which something is bound to happen: a control, a delay, the end. */
  #nextEvent(): Second {
    const { time } = this.stepper;
    const move = this.#moves[0];
    let next = this.#clock.next;
    if (move === undefined) {
      const end = this.#lastMove + this.plan.watch;
      const soonest = Math.min(this.#lastJump + LEAST_WATCHED, end);
      next = Math.min(next, time < soonest ? soonest : this.#isOver(end - time) ? time : end);
    } else {
      const waits = time >= move.at && !this.#isQuiet(move.quiet ?? 0);
      next = Math.min(next, waits ? move.at + (move.quiet ?? 0) : Math.max(move.at, time));
    }
    return next;
  }

  #isQuiet(left: Second): boolean {
    if (this.#clock.next < Infinity) return false;
    const { rates, stores } = this.stepper;
    return stores.every((_, s) => Math.abs(rates[s]!) * left <= STILL * this.stepper.scale(s));
  }

  /** Quiet, and no fuse is on its way to blowing. */
  #isOver(left: Second): boolean {
    return this.#isQuiet(left) && !this.#melting.isUnderWay(this.#circuit.now());
  }

  /** Something is due now. False at the end. */
  #happen(): boolean {
    const { time } = this.stepper;
    if (this.#clock.next <= time) {
      this.#reassemble(this.#clock.carryOut(this.#moment()));
      this.#jump();
      return true;
    }
    const move = this.#moves.shift();
    if (move === undefined) return false;
    this.#lastMove = time;
    this.log.controls(this.#condition, move.condition, move.says);
    this.#condition = move.condition;
    if (move.lost !== undefined) this.#lose(move.lost);
    this.#reassemble(undefined);
    this.#jump();
    return true;
  }

  /** Branches that are open from now on: sources lost, fuses blown. */
  #lose(branches: readonly BranchIndex[]): void {
    for (const branch of branches) this.#lost.add(branch);
    this.#bench = this.start.bench.changed({ open: [...this.#lost] });
  }

  /** Everything that answers at once does so; then it is the moment just after. */
  #jump(): void {
    this.#circuit.change(this.#acting);
    const before = this.log.traces.last;
    for (let round = 0; ; round += 1) {
      const moved = this.#clock.ask(this.#moment(), round >= ROUNDS_TOGETHER);
      if (moved.length === 0) break;
      if (round >= MOST_ROUNDS) {
        this.chatter = moved;
        this.trouble = `${names(moved)} ${moved.length === 1 ? "answers itself" : "answer each other"} without end`;
        break;
      }
      this.#reassemble(moved);
      this.#circuit.change(this.#acting);
    }
    const stretch = { bench: this.#bench, condition: this.#condition, partStates: this.#clock.states.slice() };
    this.log.jumped(before, this.drawn, stretch);
    this.#length = this.stepper.firstLength();
    this.#lastJump = this.stepper.time;
    const switching = this.log.chatter();
    const chatter = switching.length > 0 ? switching : this.#clock.restless(this.stepper.time);
    if (chatter.length === 0) return;
    this.chatter = chatter;
    this.trouble = `${names(chatter)} ${chatter.length === 1 ? "goes" : "go"} on switching on and off`;
  }

  /** One step, no longer than `left`; undefined where it has to be tried again, shorter. */
  #step(left: Second): Step | undefined {
    const { stepper } = this;
    const length = this.#length >= left ? left : this.#length > left / 2 ? left / 2 : this.#length;
    let step = stepper.attempt(length);
    this.#length = stepper.nextLength(step);
    if ((step.error > 1 || !step.end.converged) && length > SHORTEST) {
      if (!step.end.converged) this.#length = Math.min(this.#length, length / 4);
      return undefined;
    }
    const places = this.#clock.changed(this.#momentAfter(step));
    this.#isWished = places.length > 0;
    if (places.length > 0) step = this.#upTo(places, step);
    const part = this.#melting.until(this.#circuit.now(), step.length, this.#circuit.after(step));
    if (part < 1) {
      step = stepper.attempt(Math.max(part * step.length, SHORTEST));
      this.#isWished = true;
    }
    this.#blown = this.#melting.add(this.#circuit.now(), step.length, this.#circuit.after(step));
    this.log.stepped(step, this.drawn);
    const whole = step.length === left;
    const end = stepper.time + left;
    this.#circuit.take(step);
    if (whole) stepper.time = end;
    return step;
  }

  /**
   * The step cut to where these parts first wish for something else. The moment is looked for on the parabolas through
   * volts and currents at the start, the middle stage and the end, then tried.
   */
  #upTo(places: readonly number[], step: Step): Step {
    const { length } = step;
    const between = this.#circuit.within(step);
    let [early, late] = [0, length];
    while (late - early > Math.max(FOUND_TO * length, FOUND_TO_LEAST)) {
      const half = (early + late) / 2;
      const moment = this.#momentAt(this.stepper.time + half, between(half / length));
      if (this.#clock.changed(moment, places).length > 0) late = half;
      else early = half;
    }
    for (let more = Math.max(FOUND_TO * length, FOUND_TO_LEAST); late < length; late += more, more *= 2) {
      const tried = this.stepper.attempt(late);
      if (this.#clock.changed(this.#momentAfter(tried), places).length > 0) return tried;
    }
    return this.stepper.attempt(length);
  }

  #afterStep(step: Step): void {
    this.log.sample();
    for (const branch of this.#arcs) {
      if (this.#circuit.isConducting(branch)) continue;
      this.#arcs.delete(branch);
      this.#circuit.exchange(branch, (this.#acting[branch] = this.#act(this.drawn[branch]!, branch)));
    }
    if (this.#arcs.size === 0) this.#circuit.calm(this.#acting);
    if (!step.end.converged) this.trouble = `the circuit finds no rest ${seconds(this.stepper.time)} after the start`;
    if (this.#blown.length > 0) {
      for (const { branch, part, rating } of this.#blown) {
        const value = Math.abs(this.#circuit.now().currentAt(branch));
        const reason = `its time is over at ${plainNumber(value, 3)} A on ${plainNumber(rating, 3)} A`;
        this.log.tell({ part, what: "blows", branch, value, limit: rating, unit: "A", reason });
      }
      this.#lose(this.#blown.map(({ branch }) => branch));
      this.#reassemble(undefined);
      this.#jump();
      return;
    }
    if (!this.#isWished || this.#clock.changed(this.#moment()).length === 0) return;
    // What the end of the step leads to counts, even where the moment after would see it otherwise by a hair.
    const moved = this.#clock.ask(this.#moment());
    if (moved.length === 0) return;
    this.#reassemble(moved);
    this.#jump();
  }

  /** Elements anew, after some parts changed their state; `undefined`: after the condition changed. */
  #reassemble(moved: readonly NetworkPart[] | undefined): void {
    if (moved?.length === 0) return;
    const partStates = this.#clock.states.slice();
    const condition = this.#condition;
    const like = moved === undefined ? undefined : this.#like;
    const { elements, troubles } = this.#bench.assemble(condition, partStates, like);
    const before = this.drawn;
    this.drawn = elements;
    this.#like = { bench: this.#bench, settled: { condition, elements, partStates, troubles } };
    for (let branch = 0; branch < elements.length; branch += 1) {
      const element = elements[branch]!;
      const earlier = before[branch]!;
      if (element === earlier) continue;
      this.#acting[branch] = this.#act(element, branch);
      this.#arcs.delete(branch);
      if (element.type === "contact" && earlier.type === "contact" && element.closed !== earlier.closed) {
        this.log.contact(branch, element);
        if (!element.closed && this.#circuit.mayArc(branch)) {
          this.#acting[branch] = parting(element, this.#gap);
          this.#arcs.add(branch);
        }
      }
    }
  }

  /** An element as it is stepped: a coil of unstated inductance with the usual one. */
  #act(element: Element, branch: BranchIndex): Element {
    if (element.type !== "coil" || element.inductance !== undefined) return element;
    return { ...element, inductance: this.#inductance.get(branch) ?? ASSUMED_COIL_TIME * element.resistance };
  }

  /** By the resistance at full current, as it stands before anything was ever energised. */
  #assumeInductances(): void {
    const { elements } = this.#bench.assemble(this.#condition, this.#bench.initial());
    for (const branch of this.coils) {
      const element = elements[branch];
      if (element?.type === "coil") this.#inductance.set(branch, ASSUMED_COIL_TIME * element.resistance);
    }
  }

  #moment(): Moment {
    return this.#momentAt(this.stepper.time, this.#circuit.now());
  }

  #momentAfter(step: Step): Moment {
    return this.#momentAt(this.stepper.time + step.length, this.#circuit.after(step));
  }

  #momentAt(time: Second, figures: Figures): Moment {
    return new Moment(this.#bench, this.#condition, time, figures, this.#acting, this.troubles);
  }
}

const names = (parts: readonly NetworkPart[]): string => parts.map(({ part }) => part.designation).join(", ");

const seconds = (time: Second): string => `${String(Number(time.toPrecision(3)))} s`;
