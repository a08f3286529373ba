/** The elements of parts, remembered: a part in the same position and state of a condition is asked only once. */
import type { Condition } from "../parts/condition.ts";
import type { PartContext, PartState } from "../parts/define.ts";
import type { Element } from "../parts/element.ts";
import type { NetworkPart } from "./network.ts";

type Context = Omit<PartContext, "values" | "wired">;
interface Remembered extends Context {
  readonly elements: readonly Element[];
}

/** Thrown by `elementsIn` where a kind breaks its promise; core/circuit turns it into a remark and opens the part. */
export class ElementsChanged extends Error {}

export class ElementMemo {
  readonly #wired: (part: string) => (terminal: string) => boolean;
  readonly #byCondition = new WeakMap<Condition, Map<NetworkPart, Remembered[]>>();
  readonly #byContent = new Map<string, Map<NetworkPart, Remembered[]>>();
  readonly #leakShares = new Map<NetworkPart, number>();

  constructor(wired: (part: string) => (terminal: string) => boolean) {
    this.#wired = wired;
  }

  /** Call before the first `elementsIn`: `part` is one of `blocks` wet blocks that share the leak of one string. */
  shareLeaks(part: NetworkPart, blocks: number): void {
    if (blocks > 1) this.#leakShares.set(part, blocks);
  }

  /** Parallel to the part's branches. */
  elementsIn(part: NetworkPart, context: Context): readonly Element[] {
    if (part.branchCount === 0) return [];
    const parts = this.#remembered(context.condition);
    let list = parts.get(part);
    if (list === undefined) parts.set(part, (list = []));
    const known = list.find(
      ({ position, state, motorCurrent, duty }) =>
        position === context.position &&
        motorCurrent === context.motorCurrent &&
        duty === context.duty &&
        sameState(state, context.state),
    );
    if (known !== undefined) return known.elements;
    const elements = this.#ask(part, context);
    list.push({ ...context, elements });
    return elements;
  }

  /** Conditions that differ in nothing but controls set by hand share one memory: those reach a part as its position. */
  #remembered(condition: Condition): Map<NetworkPart, Remembered[]> {
    const known = this.#byCondition.get(condition);
    if (known !== undefined) return known;
    const content = JSON.stringify({ ...condition, set: {} });
    const parts = this.#byContent.get(content) ?? new Map<NetworkPart, Remembered[]>();
    this.#byContent.set(content, parts);
    this.#byCondition.set(condition, parts);
    return parts;
  }

  #ask(part: NetworkPart, context: Context): readonly Element[] {
    const elements = part.kind.circuit({ ...context, values: part.values, wired: this.#wired(part.part.id) });
    if (elements.length !== part.branchCount) {
      throw new ElementsChanged(
        `${part.kind.kind} has ${elements.length} elements in ${context.condition.state}, elsewhere ${part.branchCount}`,
      );
    }
    for (const element of elements) {
      const broken = Object.entries(element).find(([, value]) => typeof value === "number" && Number.isNaN(value));
      if (broken !== undefined) throw new ElementsChanged(`${part.kind.kind}: ${element.name} has no ${broken[0]}`);
    }
    const share = this.#leakShares.get(part);
    if (share === undefined) return elements;
    return elements.map((element) =>
      element.type === "resistance" && element.shared !== undefined
        ? { ...element, resistance: element.resistance * share }
        : element,
    );
  }
}

/** Discrete states are compared by value. */
export function sameState(a: PartState, b: PartState): boolean {
  if (a === b) return true;
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((name) => a[name] === b[name]);
}
