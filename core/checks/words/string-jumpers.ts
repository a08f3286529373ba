/** The wires between the blocks of a string, through whatever fuse or contact stands among them. */
import type { Analysis } from "../../circuit/analysis.ts";
import { neighbours, wayTo } from "../../circuit/paths.ts";
import type { Arrival } from "../../circuit/paths.ts";
import type { Branch, Conductor, NodeIndex } from "../../network/network.ts";
import { PACK_ROLES } from "../../network/strings.ts";
import type { Feed } from "../../studies/words/feeds.ts";

/** The wires between a plus and the minus that follows it, string by string. */
export function stringsOf(analysis: Analysis, feed: Feed): readonly (readonly Conductor[])[] {
  const strings: { readonly blocks: Set<number>; readonly jumpers: Set<Conductor> }[] = [];
  const minusAt = new Map(feed.sources.map(({ b, index }) => [b, index]));
  const poles = new Set(feed.sources.flatMap(({ a, b }) => [a, b]));
  for (const source of feed.sources) {
    for (const { to, way } of waysFrom(analysis, source.a, minusAt, poles)) {
      // A wire from plus to minus of one block shorts it.
      if (to === source.index) continue;
      const conductors = way.flatMap(({ conductor }) => conductor ?? []);
      const touched = strings.filter(({ blocks }) => blocks.has(source.index) || blocks.has(to));
      const into = touched[0] ?? { blocks: new Set<number>(), jumpers: new Set<Conductor>() };
      if (touched.length === 0) strings.push(into);
      for (const other of touched.slice(1)) {
        for (const block of other.blocks) into.blocks.add(block);
        for (const jumper of other.jumpers) into.jumpers.add(jumper);
        strings.splice(strings.indexOf(other), 1);
      }
      into.blocks.add(source.index).add(to);
      for (const conductor of conductors) into.jumpers.add(conductor);
    }
  }
  return strings.map(({ jumpers }) => [...jumpers]);
}

/** Shortest ways from a plus to the minus of other blocks, past no other pole. */
function waysFrom(
  analysis: Analysis,
  from: NodeIndex,
  minusAt: ReadonlyMap<NodeIndex, number>,
  poles: ReadonlySet<NodeIndex>,
): readonly { readonly to: number; readonly way: readonly Branch[] }[] {
  const beside = neighbours(analysis.network);
  const by = new Map<NodeIndex, Arrival>();
  const seen = new Set([from]);
  const queue = [from];
  const found: { readonly to: number; readonly way: readonly Branch[] }[] = [];
  for (let head = 0; head < queue.length; head += 1) {
    const at = queue[head] ?? from;
    if (at !== from && poles.has(at)) {
      const to = minusAt.get(at);
      if (to !== undefined) found.push({ to, way: wayTo(by, at) });
      continue;
    }
    for (const { to, branch } of beside(at)) {
      if (seen.has(to) || !PACK_ROLES.has(branch.role)) continue;
      seen.add(to);
      by.set(to, { from: at, branch });
      queue.push(to);
    }
  }
  return found;
}
