/** What a transition writes down as it goes: samples, events, contacts that moved, what resistors took. */
import { positionOf } from "../../network/build.ts";
import type { BranchIndex, NetworkPart, NodeIndex } from "../../network/network.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Condition } from "../../parts/condition.ts";
import type { PartState, Told } from "../../parts/define.ts";
import type { Element } from "../../parts/element.ts";
import type { Ampere, Joule, Second, Watt } from "../../quantity/kinds.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import type { Bench } from "../bench.ts";
import type { Circuit } from "./circuit.ts";
import { QUADRATURE } from "./stepper.ts";
import type { Step, Stepper } from "./stepper.ts";
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

/** What a resistor took so far, and takes now. */
interface Pulse {
  energy: Joule;
  peakPower: Watt;
  power: Watt;
}

/** What moves more often than this within the time goes on switching: a buzzing relay does it 30 times a second. */
const MOST_FLIPS = 24;
const FLIPS_WITHIN: Second = 1.5;
const FLIPS_TOGETHER = 6;

export class Log {
  readonly traces: Traces;
  readonly events: TransitionEvent[] = [];
  readonly flips: Flip[] = [];
  /** Every movement, those of drivers and other electronics included. */
  readonly #movements: { readonly time: Second; readonly branch: BranchIndex }[] = [];
  readonly stretches: Stretch[] = [];
  readonly pulses = new Map<BranchIndex, Pulse>();
  readonly #bench: Bench;
  readonly #circuit: Circuit;
  readonly #stepper: Stepper;
  /** Contacts that have moved since the last sample, and which way first. */
  readonly #moved = new Map<BranchIndex, { part: NetworkPart; closed: boolean; electronic: boolean }>();

  constructor(bench: Bench, circuit: Circuit, elements: readonly Element[]) {
    this.#bench = bench;
    this.#circuit = circuit;
    this.#stepper = circuit.stepper;
    this.traces = new Traces(bench.network.nodeCount);
    for (const [branch, element] of elements.entries()) {
      if (element.role === "resistor" && element.type === "resistance") {
        this.pulses.set(branch, { energy: 0, peakPower: 0, power: 0 });
      }
    }
  }

  sample(): void {
    this.traces.record(this.#stepper.time, this.#circuit.reduced, this.#stepper.now);
  }

  /** The moment just after something changed; `before`: the last sample before it. */
  jumped(before: number, elements: readonly Element[], stretch: Omit<Stretch, "sample">): void {
    this.sample();
    const sample = this.traces.last;
    this.stretches.push({ ...stretch, sample });
    this.#keepFlips(before, elements);
    for (const [branch, pulse] of this.pulses) {
      pulse.power = power(elements[branch], this.#circuit.currentIn(this.#stepper.now, branch));
      pulse.peakPower = Math.max(pulse.peakPower, pulse.power);
    }
  }

  /** A step that is about to be taken. */
  stepped(step: Step, elements: readonly Element[]): void {
    const { length, middle, end } = step;
    for (const [branch, pulse] of this.pulses) {
      const inner = power(elements[branch], this.#circuit.currentIn(middle, branch));
      const last = power(elements[branch], this.#circuit.currentIn(end, branch));
      pulse.energy += length * (QUADRATURE.first * pulse.power + QUADRATURE.middle * inner + QUADRATURE.last * last);
      pulse.power = last;
      pulse.peakPower = Math.max(pulse.peakPower, last);
    }
    this.#lookFor60(step);
  }

  tell(event: Partial<TransitionEvent> & Pick<TransitionEvent, "what" | "reason">): void {
    const nothing = { part: undefined, branch: undefined, value: undefined, limit: undefined, unit: undefined };
    this.events.push({ time: this.#stepper.time, ...nothing, ...event });
  }

  told(part: NetworkPart, { element, value, limit, unit, what, reason }: Told): void {
    const own = this.#bench.network.branches.slice(part.firstBranch, part.firstBranch + part.branchCount);
    const branch = element === undefined ? undefined : own.find(({ name }) => name === element)?.index;
    this.tell({ part, what, branch, value, limit, unit, reason });
  }

  controls(from: Condition, to: Condition, says: string): void {
    this.tell({ what: "control", reason: says });
    for (const part of this.#bench.network.parts) {
      if (part.kind.control === undefined) continue;
      const position = positionOf(part, to);
      if (position === positionOf(part, from)) continue;
      this.tell({ part, what: "control", reason: `${part.part.designation} goes to ${position}` });
    }
  }

  /** A contact, or the switch of something electronic, moves. One at which nothing is connected is left out. */
  contact(branch: BranchIndex, element: Element): void {
    const { part, role } = this.#bench.network.branches[branch]!;
    if (element.type !== "contact" || part === undefined || !this.#isWired(branch)) return;
    const { closed, movedBy } = element;
    const electronic = role === "driver" || this.#isInside(branch);
    if (!this.#moved.has(branch)) this.#moved.set(branch, { part, closed, electronic });
    const what = electronic ? (closed ? "starts" : "stops") : closed ? "closes" : "opens";
    this.tell({ part, what, branch, reason: REASONS[movedBy](closed) });
  }

  /** Parts that go on opening and closing; empty where none do. */
  chatter(): readonly NetworkPart[] {
    const since = this.#stepper.time - FLIPS_WITHIN;
    const counts = new Map<BranchIndex, number>();
    for (let k = this.#movements.length - 1; k >= 0 && this.#movements[k]!.time > since; k -= 1) {
      const { branch } = this.#movements[k]!;
      counts.set(branch, (counts.get(branch) ?? 0) + 1);
    }
    if (![...counts.values()].some((count) => count > MOST_FLIPS)) return [];
    const { branches } = this.#bench.network;
    const together = [...counts].filter(([, count]) => count >= FLIPS_TOGETHER);
    const parts = new Set(together.flatMap(([branch]) => branches[branch]?.part ?? []));
    return [...parts].sort((one, other) => one.index - other.index);
  }

  /** What has moved since the sample `before`; a contact that came back at once has not. */
  #keepFlips(before: number, elements: readonly Element[]): void {
    const { time } = this.#stepper;
    for (const [branch, { part, closed, electronic }] of this.#moved) {
      const element = elements[branch];
      if (element?.type === "contact" && element.closed === closed) {
        this.#movements.push({ time, branch });
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

  /** Capacitors that fall below 60 V within the step: by the cubic through volts and rates at both its ends. */
  #lookFor60({ length, values, rates }: Step): void {
    const stepper = this.#stepper;
    for (let s = 0; s < stepper.stores.length; s += 1) {
      const { branch, coil } = stepper.stores[s]!;
      if (coil) continue;
      const [from, to] = [Math.abs(stepper.values[s]!), Math.abs(values[s]!)];
      if (from < CLASS_B_DC || to >= CLASS_B_DC) continue;
      const sign = Math.sign(stepper.values[s]!);
      const cubic = (x: number): number =>
        from * (1 + 2 * x) * (1 - x) ** 2 +
        sign * values[s]! * x * x * (3 - 2 * x) +
        length * sign * (stepper.rates[s]! * x * (1 - x) ** 2 + rates[s]! * x * x * (x - 1));
      let [low, high] = [0, 1];
      for (let k = 0; k < 40; k += 1) {
        const middle = (low + high) / 2;
        if (cubic(middle) > CLASS_B_DC) low = middle;
        else high = middle;
      }
      const part = this.#bench.network.branches[branch]?.part;
      const time = stepper.time + high * length;
      const reason = "the capacitor falls below 60 V";
      this.tell({ part, what: "below-60", branch, value: CLASS_B_DC, limit: CLASS_B_DC, unit: "V", reason, time });
    }
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
}

function power(element: Element | undefined, current: Ampere): Watt {
  return element?.type === "resistance" ? current * current * element.resistance : 0;
}

const REASONS = {
  coil: (closed: boolean) => (closed ? "its coil has pulled it in" : "its coil has let it go"),
  control: (closed: boolean) => (closed ? "moved to closed" : "moved to open"),
  logic: (closed: boolean) => (closed ? "switched on" : "switched off"),
  none: (closed: boolean) => (closed ? "closed" : "opened"),
} as const;

const MOVEMENTS: ReadonlySet<string> = new Set(["closes", "opens", "starts", "stops"]);
