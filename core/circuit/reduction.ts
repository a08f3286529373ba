/**
 * A network with few of its nodes left: those at the ends of what has a memory, an EMF or corners, and joints of many. All
 * the others lie among plain resistances; each is eliminated by the star-mesh step, which leaves equal conductances
 * between those that stay (Kron's reduction; Doerfler and Bullo, IEEE Trans. Circuits Syst. I 60, 2013). A step in time so
 * solves the few, and the many follow from them by one substitution where somebody looks (reduced.ts).
 */
import type { Element } from "../parts/element.ts";
import { ElectricalSolver } from "./electrical.ts";
import { minimumDegreeOrder } from "./ordering.ts";
import { NO_ENTRY, Reduced } from "./reduced.ts";
import type { Pattern } from "./reduced.ts";

/** Has the element no memory, no EMF and no corners, so that the nodes around it may be eliminated? */
export function isPlain({ type }: Element): boolean {
  return type === "resistance" || type === "contact";
}

/** A node joined with more than this many others stays: a busbar would leave a conductance between any two of its taps. */
const MOST_JOINED = 3;
/** Stands for what is left between nodes that stay; its conductance is given by number. */
const EQUAL: Element = { type: "resistance", name: "", a: "", b: "", role: "conductor", resistance: Infinity };

export class Reduction {
  /** Solves what stays: nodes in ascending order, chassis first; branches that stay, then the equal conductances. */
  readonly solver: ElectricalSolver;
  readonly #pattern: Pattern;
  readonly #elements: Element[];

  /** `stays[i]` 1: branch i is left as it is, both its ends stay. `partOf` as for `ElectricalSolver`. */
  constructor(nodeCount: number, a: Int32Array, b: Int32Array, stays: Uint8Array, partOf: Int32Array | undefined) {
    const pattern = patternOf(nodeCount, a, b, stays);
    const { branches, pairs, earths, position, size } = pattern;
    this.#pattern = pattern;
    const node = (k: number): number => (k === nodeCount - 1 ? 0 : k - size + 1);
    const low = [...pairs.map(([i]) => i), ...earths].map(node);
    const high = [...pairs.map(([, j]) => j), ...earths.map(() => nodeCount - 1)].map(node);
    const kept = (side: Int32Array): number[] => Array.from(branches, (e) => node(position[side[e]!]!));
    const parts = Int32Array.from([...Array.from(branches, (e) => partOf?.[e] ?? -1), ...low.map(() => -1)]);
    this.solver = new ElectricalSolver(
      pattern.nodes.length,
      Int32Array.from([...kept(a), ...low]),
      Int32Array.from([...kept(b), ...high]),
      partOf === undefined ? undefined : parts,
    );
    this.#elements = new Array<Element>(branches.length + low.length).fill(EQUAL);
  }

  /** Branches that stay, ascending. */
  get branches(): Int32Array {
    return this.#pattern.branches;
  }

  /** By branch: its place in `branches`, or -1. */
  get place(): Int32Array {
    return this.#pattern.place;
  }

  /** Do these elements leave only plain ones to be eliminated? */
  fits(elements: readonly Element[]): boolean {
    const { plain } = this.#pattern;
    for (let at = 0; at < plain.length; at++) if (!isPlain(elements[plain[at]!]!)) return false;
    return true;
  }

  /** Eliminates: `elements` are parallel to the branches. `elements` of what comes back is written over with the next call. */
  load(elements: readonly Element[]): Reduced {
    const { branches } = this.#pattern;
    for (let r = 0; r < branches.length; r++) this.#elements[r] = elements[branches[r]!]!;
    return new Reduced(this.#pattern, elements, this.#elements);
  }

  /** Pieces of the branches that stay, from those of all. */
  piecesOf(pieces: Int8Array): Int8Array {
    const few = new Int8Array(this.#elements.length);
    this.branches.forEach((branch, r) => (few[r] = pieces[branch]!));
    return few;
  }
}

function patternOf(nodeCount: number, a: Int32Array, b: Int32Array, stays: Uint8Array): Pattern {
  const place = new Int32Array(a.length).fill(-1);
  const plainPlace = new Int32Array(a.length).fill(-1);
  const [branches, plain]: [number[], number[]] = [[], []];
  const nodeStays = new Uint8Array(nodeCount);
  for (let e = 0; e < a.length; e++) {
    if (stays[e] !== 1) {
      plainPlace[e] = plain.push(e) - 1;
      continue;
    }
    place[e] = branches.push(e) - 1;
    nodeStays[a[e]!] = 1;
    nodeStays[b[e]!] = 1;
  }
  nodeStays[0] = 0;
  const ends = [a, b].map((side) => Int32Array.from(plain, (e) => side[e]!)) as [Int32Array, Int32Array];
  const { order, columns, lengths } = minimumDegreeOrder(nodeCount, ...ends, nodeStays, MOST_JOINED);
  const size = order.length;
  const chassis = nodeCount - 1;
  const position = new Int32Array(nodeCount).fill(-1);
  position[0] = chassis;
  for (let k = 0; k < size; k++) position[order[k]!] = k;
  const nodes = [0];
  for (let n = 1; n < nodeCount; n++) if (position[n] === -1) position[n] = size + nodes.push(n) - 2;

  const start = new Int32Array(size + 1);
  for (let k = 0; k < size; k++) start[k + 1] = start[k]! + lengths[k]!;
  const row = new Int32Array(start[size]!);
  for (let k = 0; k < size; k++) {
    for (let p = 0; p < lengths[k]!; p++) row[start[k]! + p] = position[columns[k]![p]!]!;
    row.subarray(start[k], start[k + 1]).sort();
  }
  const pairs: (readonly [number, number])[] = [];
  const pairAt = new Map<number, number>();
  const entry = (i: number, j: number): number => {
    const [low, high] = i < j ? [i, j] : [j, i];
    if (low < size) {
      let p = start[low]!;
      while (row[p] !== high) p++;
      return p;
    }
    const key = low * nodeCount + high;
    let at = pairAt.get(key);
    if (at === undefined) pairAt.set(key, (at = pairs.push([low, high]) - 1));
    return row.length + at;
  };
  const earthed = new Uint8Array(nodeCount);
  const from = ends[0].map((n) => position[n]!);
  const to = ends[1].map((n) => position[n]!);
  const slot = from.map((i, at) => {
    const j = to[at]!;
    if (i === j) return NO_ENTRY;
    if (i < chassis && j < chassis) return entry(i, j);
    earthed[Math.min(i, j)] = 1;
    return -1 - Math.min(i, j);
  });
  const target: number[] = [];
  for (let k = 0; k < size; k++) {
    for (let p = start[k]!; p < start[k + 1]!; p++) {
      if (earthed[k] === 1) earthed[row[p]!] = 1;
      for (let q = p + 1; q < start[k + 1]!; q++) target.push(entry(row[p]!, row[q]!));
    }
  }
  const earths: number[] = [];
  for (let k = size; k < chassis; k++) if (earthed[k] === 1) earths.push(k);
  return {
    size,
    nodes: Int32Array.from(nodes),
    position,
    branches: Int32Array.from(branches),
    place,
    plain: Int32Array.from(plain),
    plainPlace,
    from,
    to,
    slot,
    start,
    row,
    target: Int32Array.from(target),
    pairs,
    earths,
    ground: new Float64Array(nodeCount),
    weight: new Float64Array(nodeCount),
  };
}
