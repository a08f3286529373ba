/** How high each island of metal stands in its string of batteries, by EMF alone, in one state: what tells a tap from an end. */
import type { Analysis, Pack, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, NodeIndex } from "../../network/network.ts";
import type { Volt } from "../../quantity/kinds.ts";
import { closedFeed, packsOf, sourceBranches } from "./closed-feed.ts";
import type { ClosedFeed } from "./closed-feed.ts";

/** The islands of one pack that hang together: two strings that nothing joins are two. */
interface Ladder {
  readonly sources: readonly Branch[];
  readonly volts: ReadonlyMap<number, Volt>;
  readonly lowest: Volt;
  readonly highest: Volt;
}

export class StringHeights {
  readonly #feed: ClosedFeed;
  readonly #ladders: readonly Ladder[];
  /** The smallest EMF of a battery: two heights nearer than half of it are one. */
  readonly #step: Volt;

  constructor(analysis: Analysis, state: SolvedState, feed: ClosedFeed = closedFeed(analysis, state)) {
    this.#feed = feed;
    this.#ladders = packsOf(analysis).flatMap((pack) => laddersOf(analysis, state, feed, pack));
    const emfs = sourceBranches(analysis).flatMap(({ index }) => {
      const element = state.elements[index];
      return element?.type === "source" && element.emf > 0 ? [element.emf] : [];
    });
    this.#step = Math.min(...emfs);
  }

  #standing(node: NodeIndex): readonly (readonly [Ladder, Volt])[] {
    const island = this.#feed.island(node);
    return this.#ladders.flatMap((ladder) => {
      const volts = ladder.volts.get(island);
      return volts === undefined ? [] : [[ladder, volts] as const];
    });
  }

  /** Volts between two nodes of one string and of the whole of it, where that is more; undefined where they are no part of it. */
  part(plus: NodeIndex, minus: NodeIndex): { readonly volts: Volt; readonly whole: Volt } | undefined {
    const others = new Map(this.#standing(minus));
    const near = this.#step / 2;
    const parts = this.#standing(plus).flatMap(([ladder, here]) => {
      const there = others.get(ladder);
      return there === undefined ? [] : [{ volts: Math.abs(here - there), whole: ladder.highest - ladder.lowest }];
    });
    // Two packs that share an end: one of them may be whole between these two.
    if (parts.some(({ volts, whole }) => volts > whole - near)) return undefined;
    return parts.find(({ volts }) => volts > near);
  }

  /** Batteries of the strings between two nodes, at any height. */
  around(plus: NodeIndex, minus: NodeIndex): readonly Branch[] {
    const others = new Map(this.#standing(minus));
    return this.#standing(plus).flatMap(([ladder]) => (others.has(ladder) ? ladder.sources : []));
  }

  /** Of these, those that stand between the two nodes. */
  between(plus: NodeIndex, minus: NodeIndex): readonly Branch[] {
    const others = new Map(this.#standing(minus));
    const near = this.#step / 2;
    return this.#standing(plus).flatMap(([ladder, here]) => {
      const there = others.get(ladder);
      if (there === undefined) return [];
      const [low, high] = [Math.min(here, there) - near, Math.max(here, there) + near];
      const isWithin = (node: NodeIndex): boolean => {
        const volts = ladder.volts.get(this.#feed.island(node));
        return volts !== undefined && volts > low && volts < high;
      };
      return ladder.sources.filter(({ a, b }) => isWithin(a) && isWithin(b));
    });
  }

  /** Between the ends of its string. */
  isInner(node: NodeIndex): boolean {
    const near = this.#step / 2;
    return this.#standing(node).some(([{ lowest, highest }, volts]) => volts > lowest + near && volts < highest - near);
  }
}

function laddersOf(analysis: Analysis, state: SolvedState, feed: ClosedFeed, pack: Pack): readonly Ladder[] {
  const beside = new Map<number, { readonly to: number; readonly rise: Volt }[]>();
  const sources: Branch[] = [];
  const link = (from: number, to: number, rise: Volt): void => {
    const list = beside.get(from);
    if (list === undefined) beside.set(from, [{ to, rise }]);
    else list.push({ to, rise });
  };
  for (const source of sourceBranches(analysis)) {
    const { index, a, b, part } = source;
    const element = state.elements[index];
    if (part === undefined || !pack.blocks.includes(part) || element?.type !== "source") continue;
    const [plus, minus] = [feed.island(a), feed.island(b)];
    if (plus === minus) continue;
    sources.push(source);
    link(minus, plus, element.emf);
    link(plus, minus, -element.emf);
  }
  const ladders: Ladder[] = [];
  const seen = new Set<number>();
  for (const start of beside.keys()) {
    if (seen.has(start)) continue;
    const volts = new Map([[start, 0]]);
    const queue = [start];
    for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
      seen.add(at);
      for (const { to, rise } of beside.get(at) ?? []) {
        if (volts.has(to)) continue;
        volts.set(to, (volts.get(at) ?? 0) + rise);
        queue.push(to);
      }
    }
    const own = sources.filter(({ a }) => volts.has(feed.island(a)));
    ladders.push({ sources: own, volts, lowest: Math.min(...volts.values()), highest: Math.max(...volts.values()) });
  }
  return ladders;
}
