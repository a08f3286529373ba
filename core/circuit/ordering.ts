/** Minimum-degree ordering: which node of a network to eliminate next so that few new entries appear. */

export interface Ordering {
  /** Nodes (1..nodeCount-1, the chassis is never eliminated) in order of elimination. */
  readonly order: Int32Array;
  /** For each step, the nodes that are still there and joined to the node eliminated: the first `lengths` of a list. */
  readonly columns: readonly (readonly number[])[];
  readonly lengths: Int32Array;
}

/**
 * Ties go to the node touched last, then to the lowest number: the order depends on the input alone. `stays[node]` 1: the
 * node is not eliminated, nor is one joined with more than `most` others; the order ends before them.
 */
export function minimumDegreeOrder(
  nodeCount: number,
  a: Int32Array,
  b: Int32Array,
  stays?: Uint8Array,
  most = Infinity,
): Ordering {
  // Lists keep their own length beside them: cutting an array short is slow.
  const adjacent: number[][] = new Array<number[]>(nodeCount);
  for (let i = 0; i < nodeCount; i++) adjacent[i] = [];
  const length = new Int32Array(nodeCount);
  for (let e = 0; e < a.length; e++) {
    const i = a[e]!;
    const j = b[e]!;
    if (i === 0 || j === 0 || i === j) continue;
    adjacent[i]![length[i]!++] = j;
    adjacent[j]![length[j]!++] = i;
  }
  const mark = new Int32Array(nodeCount);
  let stamp = 0;
  for (let i = 1; i < nodeCount; i++) {
    const list = adjacent[i]!;
    const all = length[i]!;
    stamp++;
    let kept = 0;
    for (let p = 0; p < all; p++) {
      const j = list[p]!;
      if (mark[j] === stamp) continue;
      mark[j] = stamp;
      list[kept++] = j;
    }
    length[i] = kept;
  }

  // Nodes wait in chains by degree; a node moves to another chain as its degree changes.
  const head = new Int32Array(nodeCount + 1).fill(-1);
  const next = new Int32Array(nodeCount).fill(-1);
  const previous = new Int32Array(nodeCount).fill(-1);
  const degree = new Int32Array(nodeCount);
  const insert = (node: number): void => {
    if (stays?.[node] === 1) return;
    const d = length[node]!;
    degree[node] = d;
    const first = head[d]!;
    next[node] = first;
    previous[node] = -1;
    if (first >= 0) previous[first] = node;
    head[d] = node;
  };
  const remove = (node: number): void => {
    if (stays?.[node] === 1) return;
    const before = previous[node]!;
    const after = next[node]!;
    if (before >= 0) next[before] = after;
    else head[degree[node]!] = after;
    if (after >= 0) previous[after] = before;
  };
  for (let i = nodeCount - 1; i >= 1; i--) insert(i);

  let steps = nodeCount - 1;
  if (stays !== undefined) for (let i = 1; i < nodeCount; i++) steps -= stays[i]!;
  const order = new Int32Array(steps);
  const columns: number[][] = new Array<number[]>(steps);
  const lengths = new Int32Array(steps);
  let lowest = 0;
  for (let k = 0; k < steps; k++) {
    while (head[lowest]! < 0) lowest++;
    if (lowest > most) return { order: order.slice(0, k), columns: columns.slice(0, k), lengths: lengths.slice(0, k) };
    const node = head[lowest]!;
    remove(node);
    order[k] = node;
    const neighbours = adjacent[node]!;
    const count = length[node]!;
    columns[k] = neighbours;
    lengths[k] = count;
    for (let n = 0; n < count; n++) {
      const i = neighbours[n]!;
      remove(i);
      const list = adjacent[i]!;
      const all = length[i]!;
      stamp++;
      mark[i] = stamp;
      let kept = 0;
      for (let p = 0; p < all; p++) {
        const j = list[p]!;
        if (j === node) continue;
        mark[j] = stamp;
        list[kept++] = j;
      }
      for (let p = 0; p < count; p++) {
        const j = neighbours[p]!;
        if (mark[j] !== stamp) list[kept++] = j;
      }
      length[i] = kept;
      insert(i);
      if (stays?.[i] !== 1) lowest = Math.min(lowest, degree[i]!);
    }
  }
  return { order, columns, lengths };
}

/** The pattern of an order that is given: `position` of each node in it, the chassis last. */
export function givenOrder(position: Int32Array, a: Int32Array, b: Int32Array): Ordering {
  const size = position.length - 1;
  const order = new Int32Array(size);
  for (let node = 1; node <= size; node++) order[position[node]!] = node;
  const columns: number[][] = Array.from({ length: size }, () => []);
  for (let e = 0; e < a.length; e++) {
    const [i, j] = [position[a[e]!]!, position[b[e]!]!];
    if (i === size || j === size || i === j) continue;
    columns[Math.min(i, j)]!.push(Math.max(i, j));
  }
  const lengths = new Int32Array(size);
  const mark = new Int32Array(size).fill(-1);
  for (let k = 0; k < size; k++) {
    const column = columns[k]!;
    let kept = 0;
    let next = size;
    for (let p = 0; p < column.length; p++) {
      const j = column[p]!;
      if (mark[j] === k) continue;
      mark[j] = k;
      column[kept++] = j;
      if (j < next) next = j;
    }
    lengths[k] = kept;
    // What a column is joined with, its first neighbour is joined with once it is gone.
    if (next < size) for (let p = 0; p < kept; p++) if (column[p] !== next) columns[next]!.push(column[p]!);
  }
  for (let k = 0; k < size; k++) {
    const column = columns[k]!;
    for (let p = 0; p < lengths[k]!; p++) column[p] = order[column[p]!]!;
  }
  return { order, columns, lengths };
}
