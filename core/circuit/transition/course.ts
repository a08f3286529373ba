/**
 * The course of a transition: the drawing is carried forward from a solved state while its plan moves the controls.
 * Between events the network is stepped; an event is found to a thousandth of the step in which it lies.
 */
import { positionOf } from "../../network/build.ts";
import type { BranchIndex, NetworkPart, NodeIndex } from "../../network/network.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Condition } from "../../parts/condition.ts";
import type { PartState } from "../../parts/define.ts";
import { ASSUMED_COIL_TIME } from "../../parts/coil-drive.ts";
import type { Element } from "../../parts/element.ts";
import type { Joule, Second, Volt, Watt } from "../../quantity/kinds.ts";
import type { Assembled, Bench } from "../bench.ts";
import type { Solved } from "../solved.ts";
import { breakdown, parting } from "./arc.ts";
import { Clockwork, Moment } from "./clockwork.ts";
import type { Move, Plan } from "./plans.ts";
import { QUADRATURE, SHORTEST, Stepper } from "./stepper.ts";
import type { Step } from "./stepper.ts";
import { Traces } from "./traces.ts";
import type { TransitionEvent } from "./transition.ts";

/** A contact that moved, and the samples just before and just after. */
export interface Flip {
  readonly time: Second;
  readonly part: NetworkPart;
  readonly branch: BranchIndex;
  readonly closed: boolean;
  readonly before: number;
  readonly after: number;
}

/** How everything discrete stands from a sample on. */
export interface Stretch {
  readonly sample: number;
  readonly bench: Bench;
  readonly condition: Condition;
  readonly partStates: readonly PartState[];
}

export interface Pulse {
  energy: Joule;
  peakPower: Watt;
  power: Watt;
}

const MOST_STEPS = 20_000;
/** Rounds in which parts without delay may answer each other at one moment; from the first number on one at a time. */
const ROUNDS_TOGETHER = 20;
const MOST_ROUNDS = 80;
/** A contact that moves more often than this within the time goes on opening and closing: a buzzing relay does it 30 times a second. */
const MOST_FLIPS = 24;
const FLIPS_WITHIN: Second = 1.5;
const FLIPS_TOGETHER = 6;
/** Nothing moves any more: what is left changes less than this part of the largest figure in the time left. */
const STILL = 2e-3;
/** Watched at least, after the last event. */
const LEAST_WATCHED: Second = 0.25;
/** An event is found to this part of the step in which it lies, and to this at the least. */
const FOUND_TO = 1e-3;
const FOUND_TO_LEAST: Second = 1e-7;
const TOUCH_VOLTS: Volt = 60;

export class Course {
  readonly plan: Plan;
  readonly start: Solved;
  readonly traces: Traces;
  readonly events: TransitionEvent[] = [];
  readonly flips: Flip[] = [];
  readonly stretches: Stretch[] = [];
  readonly pulses = new Map<BranchIndex, Pulse>();
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
  readonly #arcs = new Set<BranchIndex>();
  readonly #gap: Volt;
  readonly #inductance = new Map<BranchIndex, number>();
  readonly #lost = new Set<BranchIndex>();
  /** Contacts that have moved since the last sample, and which way first. */
  readonly #moved = new Map<BranchIndex, { part: NetworkPart; closed: boolean; electronic: boolean }>();
  readonly #moves: Move[];
  #lastMove: Second = 0;
  #lastJump: Second = 0;
  #length: Second;

  constructor(start: Solved, plan: Plan) {
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
    this.#clock = new Clockwork(bench, settled.partStates, plan.bounce === true, (part, told) => {
      const { what, element, value, limit, unit, reason } = told;
      const branch = element === undefined ? undefined : branchOf(bench, part, element);
      this.#tell({ part, what, branch, value, limit, unit, reason });
    });
    const across = (branch: BranchIndex): Volt => {
      const volts = start.between(bench.a[branch] ?? CHASSIS_NODE, bench.b[branch] ?? CHASSIS_NODE);
      return Number.isNaN(volts) ? 0 : volts;
    };
    this.stepper = new Stepper(
      bench.solver,
      this.#acting,
      new Map(bench.capacitors.map((branch) => [branch, across(branch)])),
      new Map(this.coils.map((branch) => [branch, start.currents[branch] ?? 0])),
      settled.solution.pieces,
    );
    this.traces = new Traces(bench.network.nodeCount, bench.a.length);
    for (const [branch, element] of this.drawn.entries()) {
      if (element.role === "resistor" && element.type === "resistance") {
        this.pulses.set(branch, { energy: 0, peakPower: 0, power: 0 });
      }
    }
    this.#record();
    this.#keepStretch();
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
      next = Math.min(next, time < soonest ? soonest : this.#isQuiet(end - time) ? time : end);
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
    this.#tell({ what: "control", reason: move.says });
    this.#tellControls(move.condition);
    this.#condition = move.condition;
    if (move.lost !== undefined) {
      for (const branch of move.lost) this.#lost.add(branch);
      this.#bench = this.start.bench.changed({ open: [...this.#lost] });
    }
    this.#reassemble(undefined);
    this.#jump();
    return true;
  }

  /** Everything that answers at once does so; then it is the moment just after. */
  #jump(): void {
    this.stepper.change(this.#acting);
    const before = this.traces.last;
    for (let round = 0; ; round += 1) {
      const moved = this.#clock.ask(this.#moment(), round >= ROUNDS_TOGETHER);
      if (moved.length === 0) break;
      if (round >= MOST_ROUNDS) {
        this.chatter = moved;
        this.trouble = `${names(moved)} ${moved.length === 1 ? "answers itself" : "answer each other"} without end`;
        break;
      }
      this.#reassemble(moved);
      this.stepper.change(this.#acting);
    }
    this.#record();
    this.#keepStretch();
    this.#keepFlips(before);
    for (const [branch, pulse] of this.pulses) {
      pulse.power = this.#power(branch, this.stepper.now);
      pulse.peakPower = Math.max(pulse.peakPower, pulse.power);
    }
    this.#length = this.stepper.firstLength();
    this.#lastJump = this.stepper.time;
    this.#lookForChatter();
  }

  /** What has moved since the sample `before`; a contact that came back at once has not. */
  #keepFlips(before: number): void {
    const { time } = this.stepper;
    for (const [branch, { part, closed, electronic }] of this.#moved) {
      if (isClosed(this.drawn[branch]) === closed) {
        if (!electronic) this.flips.push({ time, part, branch, closed, before, after: this.traces.last });
        continue;
      }
      for (let k = this.events.length - 1; k >= 0 && this.events[k]!.time >= time; k -= 1) {
        const event = this.events[k]!;
        if (event.branch === branch && MOVEMENTS.has(event.what)) this.events.splice(k, 1);
      }
    }
    this.#moved.clear();
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
    if (places.length > 0) {
      let [early, late] = [0, length];
      while (late - early > Math.max(FOUND_TO * length, FOUND_TO_LEAST)) {
        const middle = (early + late) / 2;
        step = stepper.attempt(middle);
        if (this.#clock.changed(this.#momentAfter(step), places).length > 0) late = middle;
        else early = middle;
      }
      step = stepper.attempt(late);
    }
    this.#addEnergies(step);
    this.#lookFor60(step);
    const whole = step.length === left;
    const end = stepper.time + left;
    stepper.take(step);
    if (whole) stepper.time = end;
    return step;
  }

  #afterStep(step: Step): void {
    this.#record();
    for (const branch of this.#arcs) {
      if (this.stepper.now.conducting[branch] === 1) continue;
      this.#arcs.delete(branch);
      this.stepper.exchange(branch, (this.#acting[branch] = this.#act(this.drawn[branch]!, branch)));
    }
    if (!step.end.converged) this.trouble = `the circuit finds no rest ${seconds(this.stepper.time)} after the start`;
    if (this.#clock.changed(this.#moment()).length === 0) return;
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
        this.#flip(branch, element.closed);
        if (!element.closed) {
          this.#acting[branch] = parting(element, this.#gap);
          this.#arcs.add(branch);
        }
      }
    }
  }

  #flip(branch: BranchIndex, closed: boolean): void {
    const { part, role } = this.#bench.network.branches[branch]!;
    if (part === undefined || !this.#isWired(branch)) return;
    const electronic = role === "driver" || this.#isInside(branch);
    if (!this.#moved.has(branch)) this.#moved.set(branch, { part, closed, electronic });
    const element = this.drawn[branch];
    const movedBy = element?.type === "contact" ? element.movedBy : "none";
    const what = electronic ? (closed ? "starts" : "stops") : closed ? "closes" : "opens";
    this.#tell({ part, what, branch, reason: REASONS[movedBy](closed) });
  }

  /** Both ends are terminals that carry a wire, or nodes inside the part. */
  #isWired(branch: BranchIndex): boolean {
    return this.#ends(branch).every((node) => {
      const end = this.#bench.network.terminalOfNode[node];
      return end === undefined || this.#bench.network.wiresAt(end).length > 0;
    });
  }

  #isInside(branch: BranchIndex): boolean {
    const { terminalOfNode } = this.#bench.network;
    return this.#ends(branch).some((node) => node !== CHASSIS_NODE && terminalOfNode[node] === undefined);
  }

  #ends(branch: BranchIndex): readonly [NodeIndex, NodeIndex] {
    return [this.#bench.a[branch] ?? CHASSIS_NODE, this.#bench.b[branch] ?? CHASSIS_NODE];
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
    return new Moment(this.#bench, this.#condition, this.stepper.time, this.stepper.now, this.#acting, this.troubles);
  }

  #momentAfter({ end, length }: Step): Moment {
    return new Moment(this.#bench, this.#condition, this.stepper.time + length, end, this.#acting, this.troubles);
  }

  #record(): void {
    this.traces.record(this.stepper.time, this.stepper.now);
  }

  #keepStretch(): void {
    this.stretches.push({
      sample: this.traces.last,
      bench: this.#bench,
      condition: this.#condition,
      partStates: this.#clock.states.slice(),
    });
  }

  #lookForChatter(): void {
    const since = this.stepper.time - FLIPS_WITHIN;
    const counts = new Map<BranchIndex, number>();
    for (let k = this.flips.length - 1; k >= 0 && this.flips[k]!.time > since; k -= 1) {
      const { branch } = this.flips[k]!;
      counts.set(branch, (counts.get(branch) ?? 0) + 1);
    }
    if (![...counts.values()].some((count) => count > MOST_FLIPS)) return;
    const { branches } = this.#bench.network;
    const parts = [...counts].flatMap(([branch, count]) =>
      count >= FLIPS_TOGETHER ? (branches[branch]?.part ?? []) : [],
    );
    this.chatter = [...new Set(parts)].sort((one, other) => one.index - other.index);
    this.trouble = `${names(this.chatter)} ${this.chatter.length === 1 ? "goes" : "go"} on opening and closing`;
  }

  #addEnergies({ length, middle, end }: Step): void {
    for (const [branch, pulse] of this.pulses) {
      const [inner, last] = [this.#power(branch, middle), this.#power(branch, end)];
      pulse.energy += length * (QUADRATURE.first * pulse.power + QUADRATURE.middle * inner + QUADRATURE.last * last);
      pulse.power = last;
      pulse.peakPower = Math.max(pulse.peakPower, last);
    }
  }

  #power(branch: BranchIndex, { currents }: { readonly currents: Float64Array }): Watt {
    const element = this.drawn[branch];
    const current = currents[branch] ?? 0;
    return element?.type === "resistance" ? current * current * element.resistance : 0;
  }

  /** Capacitors that fall below 60 V within the step: by the cubic through volts and rates at both its ends. */
  #lookFor60({ length, values, rates }: Step): void {
    const { stepper } = this;
    stepper.stores.forEach(({ branch, coil }, s) => {
      const [from, to] = [Math.abs(stepper.values[s]!), Math.abs(values[s]!)];
      if (coil || from < TOUCH_VOLTS || to >= TOUCH_VOLTS) return;
      const sign = Math.sign(stepper.values[s]!);
      const cubic = (x: number): number =>
        from * (1 + 2 * x) * (1 - x) ** 2 +
        sign * values[s]! * x * x * (3 - 2 * x) +
        length * sign * (stepper.rates[s]! * x * (1 - x) ** 2 + rates[s]! * x * x * (x - 1));
      let [low, high] = [0, 1];
      for (let k = 0; k < 40; k += 1) {
        const middle = (low + high) / 2;
        if (cubic(middle) > TOUCH_VOLTS) low = middle;
        else high = middle;
      }
      const part = this.#bench.network.branches[branch]?.part;
      const time = stepper.time + high * length;
      const reason = "the capacitor falls below 60 V";
      this.#tell({ part, what: "below-60", branch, value: TOUCH_VOLTS, limit: TOUCH_VOLTS, unit: "V", reason, time });
    });
  }

  #tellControls(to: Condition): void {
    for (const part of this.#bench.network.parts) {
      if (part.kind.control === undefined) continue;
      const position = positionOf(part, to);
      if (position === positionOf(part, this.#condition)) continue;
      this.#tell({ part, what: "control", reason: `${part.part.designation} goes to ${position}` });
    }
  }

  #tell(event: Partial<TransitionEvent> & Pick<TransitionEvent, "what" | "reason">): void {
    const nothing = { part: undefined, branch: undefined, value: undefined, limit: undefined, unit: undefined };
    this.events.push({ time: this.stepper.time, ...nothing, ...event });
  }
}

const REASONS = {
  coil: (closed: boolean) => (closed ? "its coil has pulled it in" : "its coil has let it go"),
  control: (closed: boolean) => (closed ? "moved to closed" : "moved to open"),
  logic: (closed: boolean) => (closed ? "switched on" : "switched off"),
  none: (closed: boolean) => (closed ? "closed" : "opened"),
} as const;

const MOVEMENTS: ReadonlySet<string> = new Set(["closes", "opens", "starts", "stops"]);

const isClosed = (element: Element | undefined): boolean => element?.type === "contact" && element.closed;

function branchOf({ network }: Bench, part: NetworkPart, name: string): BranchIndex | undefined {
  const own = network.branches.slice(part.firstBranch, part.firstBranch + part.branchCount);
  return own.find((branch) => branch.name === name)?.index;
}

const names = (parts: readonly NetworkPart[]): string => parts.map(({ part }) => part.designation).join(", ");

const seconds = (time: Second): string => `${String(Number(time.toPrecision(3)))} s`;
