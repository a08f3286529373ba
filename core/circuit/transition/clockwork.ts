/**
 * Discrete parts in time: at each moment they are asked what the voltages make of them; what they wish is carried out
 * after its delay, key by key of their state, unless the wish is withdrawn before.
 */
import { sameState } from "../../network/elements.ts";
import type { NetworkPart } from "../../network/network.ts";
import type { Condition } from "../../parts/condition.ts";
import type { PartContext, PartState, Told } from "../../parts/define.ts";
import type { Element } from "../../parts/element.ts";
import type { Second, Volt } from "../../quantity/kinds.ts";
import type { Bench } from "../bench.ts";
import type { Figures } from "../reduced.ts";
import { SolvedSenses } from "../settle.ts";

interface Pending {
  readonly place: number;
  readonly key: string;
  readonly value: string | number | boolean;
  readonly due: Second;
}

export type Tell = (part: NetworkPart, told: Told) => void;

/**
 * A part whose state changes more often than this within the time goes round in a circle, though no contact may move:
 * electronics that restart at once, or every third of a second (a flasher changes twice a second).
 */
const RESTLESS: readonly (readonly [changes: number, within: Second])[] = [
  [50, 1.5],
  [150, 60],
];
/** Moments closer than this are one. */
const TOGETHER: Second = 1e-9;

export class Clockwork {
  /** By part. */
  readonly states: PartState[];
  readonly #bench: Bench;
  readonly #tell: Tell;
  readonly #bounce: boolean;
  #pending: Pending[] = [];
  /** Parts whose electronics are starting up, by place: until when. */
  readonly #starting = new Map<number, Second>();
  readonly #changes: { readonly time: Second; readonly part: NetworkPart }[] = [];
  /** By place in `bench.settling`: what it wished for when last asked. */
  #wishes: PartState[] = [];
  /** By place: what the part was asked with last, and what it sees with. */
  readonly #contexts: (PartContext | undefined)[] = [];
  readonly #senses: (SensesInTime | undefined)[] = [];

  constructor(bench: Bench, states: readonly PartState[], bounce: boolean, tell: Tell) {
    this.#bench = bench;
    this.states = states.slice();
    this.#bounce = bounce;
    this.#tell = tell;
  }

  /** When the next delay is over; Infinity where none runs. */
  get next(): Second {
    let next = Infinity;
    for (const { due } of this.#pending) next = Math.min(next, due);
    for (const until of this.#starting.values()) next = Math.min(next, until);
    return next;
  }

  /** Parts that go round in a circle of their own. */
  restless(time: Second): readonly NetworkPart[] {
    return RESTLESS.flatMap(([changes, within]) => {
      const counts = new Map<NetworkPart, number>();
      for (let k = this.#changes.length - 1; k >= 0 && this.#changes[k]!.time > time - within; k -= 1) {
        const { part } = this.#changes[k]!;
        counts.set(part, (counts.get(part) ?? 0) + 1);
      }
      return [...counts].filter(([, count]) => count > changes).map(([part]) => part);
    }).filter((part, k, all) => all.indexOf(part) === k);
  }

  /** Places whose wish is another than when last asked; `among`: only these are asked. */
  changed(moment: Moment, among?: readonly number[]): readonly number[] {
    const { settling } = this.#bench;
    const changed: number[] = [];
    const count = among === undefined ? settling.length : among.length;
    for (let each = 0; each < count; each += 1) {
      const place = among === undefined ? each : among[each]!;
      if (this.#starting.has(place)) continue;
      if (this.#wish(moment, place) !== this.#wishes[place]) changed.push(place);
    }
    return changed;
  }

  /** Asks all parts; changes without delay are carried out, delays begin or are called off. Returns the parts that changed. */
  ask(moment: Moment, one = false): readonly NetworkPart[] {
    const { settling } = this.#bench;
    const moved: NetworkPart[] = [];
    const wishes = settling.map((_, place) => this.#wish(moment, place));
    for (let place = 0; place < settling.length; place += 1) {
      const part = settling[place]!;
      if (this.#starting.has(place) || (one && moved.length > 0)) continue;
      if (this.#follow(moment, place, part, wishes[place]!)) moved.push(part);
    }
    this.#wishes = wishes;
    return moved;
  }

  /** Carries out what is due. Returns the parts that changed. */
  carryOut(moment: Moment): readonly NetworkPart[] {
    for (const [place, until] of this.#starting) {
      if (until <= moment.time + TOGETHER) this.#starting.delete(place);
    }
    const due = this.#pending.filter((each) => each.due <= moment.time + TOGETHER);
    this.#pending = this.#pending.filter((each) => !due.includes(each));
    const moved: NetworkPart[] = [];
    for (const place of new Set(due.map((each) => each.place))) {
      const part = this.#bench.settling[place]!;
      const next: Record<string, string | number | boolean> = { ...this.states[part.index] };
      for (const each of due) if (each.place === place) next[each.key] = each.value;
      this.#become(moment, part, next);
      moved.push(part);
    }
    return moved;
  }

  #follow(moment: Moment, place: number, part: NetworkPart, wish: PartState): boolean {
    const state = this.states[part.index] ?? {};
    const own = this.#pending.filter((each) => each.place === place);
    if (own.length === 0 && sameState(wish, state)) return false;
    const context = this.#context(moment, place, state);
    const starting = this.#bounce ? part.kind.inTime?.starting?.(context, wish) : undefined;
    if (starting !== undefined) {
      this.#starting.set(place, moment.time + starting.lasts);
      this.#become(moment, part, starting.state);
      return true;
    }
    if (wish !== this.#wishes[place]) {
      const told = part.kind.inTime?.wished?.(context, wish, this.#see(moment, place));
      if (told !== undefined) this.#tell(part, told);
    }
    const delays = part.kind.inTime?.delays(context, wish) ?? {};
    const next: Record<string, string | number | boolean> = { ...state };
    const keep: Pending[] = [];
    for (const key of new Set([...Object.keys(state), ...Object.keys(wish)])) {
      const value = wish[key];
      if (value === state[key]) continue;
      const delay = delays[key] ?? 0;
      if (value === undefined) delete next[key];
      else if (delay <= 0) next[key] = value;
      else {
        const running = own.find((each) => each.key === key && each.value === value);
        keep.push(running ?? { place, key, value, due: moment.time + delay });
      }
    }
    if (own.length > 0 || keep.length > 0) {
      this.#pending = [...this.#pending.filter((each) => each.place !== place), ...keep];
    }
    if (sameState(next, state)) return false;
    this.#become(moment, part, next);
    return true;
  }

  #become(moment: Moment, part: NetworkPart, next: PartState): void {
    const state = this.states[part.index] ?? {};
    const told = part.kind.inTime?.done?.(moment.context(part, state), next);
    if (told !== undefined) this.#tell(part, told);
    this.states[part.index] = this.#bench.intern(part, next);
    this.#changes.push({ time: moment.time, part });
  }

  #wish(moment: Moment, place: number): PartState {
    const part = this.#bench.settling[place]!;
    const state = this.states[part.index] ?? {};
    if (part.kind.settle === undefined || moment.troubles.has(part)) return state;
    const wish = part.kind.settle(this.#context(moment, place, state), this.#see(moment, place));
    const last = this.#wishes[place];
    return last !== undefined && sameState(wish, last) ? last : this.#bench.intern(part, wish);
  }

  #context(moment: Moment, place: number, state: PartState): PartContext {
    const known = this.#contexts[place];
    if (known?.state === state && known.condition === moment.condition) return known;
    return (this.#contexts[place] = moment.context(this.#bench.settling[place]!, state));
  }

  #see(moment: Moment, place: number): SensesInTime {
    return (this.#senses[place] ??= new SensesInTime(this.#bench, this.#bench.settling[place]!)).at(moment);
  }
}

/** What parts can see at one moment. */
export class Moment {
  readonly time: Second;
  readonly condition: Condition;
  readonly figures: Figures;
  /** As they are stepped: a coil pulls with its current, through the resistance it now has. */
  readonly elements: readonly Element[];
  readonly troubles: ReadonlyMap<NetworkPart, string>;
  readonly #bench: Bench;

  constructor(
    bench: Bench,
    condition: Condition,
    time: Second,
    figures: Figures,
    elements: readonly Element[],
    troubles: ReadonlyMap<NetworkPart, string>,
  ) {
    this.#bench = bench;
    this.condition = condition;
    this.time = time;
    this.figures = figures;
    this.elements = elements;
    this.troubles = troubles;
  }

  context(part: NetworkPart, state: PartState): PartContext {
    return this.#bench.context(part, this.condition, state);
  }
}

const NOTHING_SEEN: Figures = { voltsAt: () => 0, currentAt: () => 0 };

class SensesInTime extends SolvedSenses {
  readonly #part: NetworkPart;
  #elements: readonly Element[] = [];

  constructor(bench: Bench, part: NetworkPart) {
    super(bench, part, NOTHING_SEEN, bench.wiredOf(part));
    this.#part = part;
  }

  /** Sees this moment from now on. */
  at({ figures, elements }: Moment): this {
    this.figures = figures;
    this.#elements = elements;
    return this;
  }

  coilVolts(name: string): Volt {
    const { firstBranch, branchCount } = this.#part;
    for (let branch = firstBranch; branch < firstBranch + branchCount; branch += 1) {
      const element = this.#elements[branch];
      if (element?.type === "coil" && element.name === name) return this.figures.currentAt(branch) * element.resistance;
    }
    return 0;
  }
}
