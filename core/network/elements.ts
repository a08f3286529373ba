/** The elements of parts, remembered: a part in the same position and state is asked only once. */
import type { Condition } from "../parts/condition.ts";
import type { PartContext, PartState } from "../parts/define.ts";
import type { Element } from "../parts/element.ts";
import type { NetworkPart } from "./network.ts";
import { whileSolving } from "./solver-values.ts";

type Context = Omit<PartContext, "values" | "wired">;
interface Remembered extends Context {
  readonly elements: readonly Element[];
}

/** Thrown by `elementsIn` where a kind breaks its promise; core/circuit turns it into a remark and opens the part. */
export class ElementsChanged extends Error {}

/** Fields that must be a number wherever an element has them. */
const FIGURES = ["resistance", "emf", "drop", "limit", "current", "clamp", "minimum", "efficiency"] as const;

/** A part whose state holds figures answers otherwise after every edit: what it has answered is not piled up. */
const MOST_TAKEN = 24;

export class ElementMemo {
  readonly #wired: (part: string) => (terminal: string) => boolean;
  /** By part index: answers for which the kind did not look at the condition. They hold in every condition. */
  readonly #always: Remembered[][] = [];
  readonly #byCondition = new WeakMap<Condition, Remembered[][]>();
  readonly #byContent = new Map<string, Remembered[][]>();
  readonly #leakShares = new Map<NetworkPart, number>();

  constructor(wired: (part: string) => (terminal: string) => boolean) {
    this.#wired = wired;
  }

  /** Call before the first `elementsIn`: `part` is one of `blocks` wet blocks that share the leak of one string. */
  shareLeaks(part: NetworkPart, blocks: number): void {
    if (blocks > 1) this.#leakShares.set(part, blocks);
  }

  /**
   * Takes over what another memory has of parts that are the same, for a network of the same branches. Call after the
   * leaks have been shared.
   */
  takeOver(before: ElementMemo, isSame: (part: number) => boolean): void {
    const shares = (memo: ElementMemo): ReadonlyMap<number, number> =>
      new Map([...memo.#leakShares].map(([part, share]) => [part.index, share]));
    const [was, is] = [shares(before), shares(this)];
    const take = (from: readonly Remembered[][], into: Remembered[][]): void => {
      from.forEach((answers, part) => {
        if (answers.length > MOST_TAKEN || !isSame(part) || was.get(part) !== is.get(part)) return;
        into[part] = answers.slice();
      });
    };
    take(before.#always, this.#always);
    for (const [content, lists] of before.#byContent) {
      const into: Remembered[][] = [];
      take(lists, into);
      this.#byContent.set(content, into);
    }
  }

  /** Parallel to the part's branches. */
  elementsIn(part: NetworkPart, context: Context): readonly Element[] {
    if (part.branchCount === 0) return [];
    const here = this.#remembered(context.condition);
    const known = find(this.#always[part.index], context) ?? find(here[part.index], context);
    if (known !== undefined) return known.elements;
    const { elements, looked } = whileSolving(() => this.#ask(part, context));
    const lists = looked ? here : this.#always;
    (lists[part.index] ??= []).push({ ...context, elements });
    return elements;
  }

  /** Conditions that differ in nothing but controls set by hand share one memory: those reach a part as its position. */
  #remembered(condition: Condition): Remembered[][] {
    const known = this.#byCondition.get(condition);
    if (known !== undefined) return known;
    const content = JSON.stringify({ ...condition, set: {} });
    const lists = this.#byContent.get(content) ?? [];
    this.#byContent.set(content, lists);
    this.#byCondition.set(condition, lists);
    return lists;
  }

  #ask(part: NetworkPart, context: Context): { elements: readonly Element[]; looked: boolean } {
    let looked = false;
    const elements = part.kind.circuit({
      ...context,
      values: part.values,
      wired: this.#wired(part.part.id),
      get condition() {
        looked = true;
        return context.condition;
      },
    });
    if (elements.length !== part.branchCount) {
      const { state } = context.condition;
      const count = `${elements.length} elements in ${state}, elsewhere ${part.branchCount}`;
      throw new ElementsChanged(`${part.kind.kind} has ${count}`);
    }
    for (const element of elements) {
      const missing = FIGURES.find((name) => Number.isNaN((element as Partial<Record<typeof name, number>>)[name]));
      if (missing !== undefined) throw new ElementsChanged(`${part.kind.kind}: ${element.name} has no ${missing}`);
    }
    const share = this.#leakShares.get(part);
    if (share === undefined) return { elements, looked };
    const shared = elements.map((element) =>
      element.type === "resistance" && element.shared !== undefined
        ? { ...element, resistance: element.resistance * share }
        : element,
    );
    return { elements: shared, looked };
  }
}

function find(list: readonly Remembered[] | undefined, context: Context): Remembered | undefined {
  return list?.find(
    ({ position, state, motorCurrent, duty }) =>
      position === context.position &&
      motorCurrent === context.motorCurrent &&
      duty === context.duty &&
      sameState(state, context.state),
  );
}

/** Discrete states are compared by value. */
export function sameState(a: PartState, b: PartState): boolean {
  if (a === b) return true;
  let balance = 0;
  for (const name in a) {
    if (a[name] !== b[name]) return false;
    balance += 1;
  }
  for (const _ in b) balance -= 1;
  return balance === 0;
}
