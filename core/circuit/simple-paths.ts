/**
 * Which edges of a graph lie on some path between two points that passes no point twice: those in one biconnected
 * component with an edge drawn between the two. Lowest-point method (Hopcroft and Tarjan 1973), without recursion, so
 * that a string of ten thousand blocks does no harm.
 */
export type Edge = readonly [from: number, to: number];

/** Indices into `edges`. Parallel edges are allowed; edges from a point to itself are on no path. */
export function edgesBetween(edges: readonly Edge[], from: number, to: number): ReadonlySet<number> {
  if (from === to) return new Set();
  const closing = edges.length;
  const beside = new Map<number, { readonly to: number; readonly edge: number }[]>();
  const add = (a: number, b: number, edge: number): void => {
    const list = beside.get(a);
    if (list === undefined) beside.set(a, [{ to: b, edge }]);
    else list.push({ to: b, edge });
  };
  [...edges, [from, to] as const].forEach(([a, b], edge) => {
    if (a === b) return;
    add(a, b, edge);
    add(b, a, edge);
  });

  const depth = new Map<number, number>([[from, 0]]);
  const low = new Map<number, number>([[from, 0]]);
  const used = new Set<number>();
  const pile: number[] = [];
  const walk = [{ at: from, entry: 0, tried: 0 }];
  for (let top = walk[walk.length - 1]; top !== undefined; top = walk[walk.length - 1]) {
    const next = beside.get(top.at)?.[top.tried];
    if (next === undefined) {
      walk.pop();
      const below = walk[walk.length - 1];
      if (below === undefined) break;
      const [mine, its] = [low.get(top.at) ?? 0, low.get(below.at) ?? 0];
      low.set(below.at, Math.min(its, mine));
      if (mine >= (depth.get(below.at) ?? 0)) {
        // Everything piled since the edge into `top` is one biconnected component.
        const component = pile.splice(pile.lastIndexOf(top.entry));
        if (component.includes(closing)) return new Set(component.filter((edge) => edge !== closing));
      }
      continue;
    }
    top.tried += 1;
    if (used.has(next.edge)) continue;
    used.add(next.edge);
    pile.push(next.edge);
    const seen = depth.get(next.to);
    if (seen === undefined) {
      depth.set(next.to, walk.length);
      low.set(next.to, walk.length);
      walk.push({ at: next.to, entry: next.edge, tried: 0 });
    } else {
      low.set(top.at, Math.min(low.get(top.at) ?? 0, seen));
    }
  }
  return new Set();
}
