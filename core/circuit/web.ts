/** Which branches meet at a node, kept flat, and walks along them. */

export class Web {
  readonly #a: Int32Array;
  readonly #b: Int32Array;
  readonly #start: Int32Array;
  readonly #branches: Int32Array;
  readonly #seen: Int32Array;
  readonly #queue: Int32Array;
  #walk = 0;

  /** `a[i]`, `b[i]`: ends of branch i. */
  constructor(nodeCount: number, a: Int32Array, b: Int32Array) {
    this.#a = a;
    this.#b = b;
    const start = new Int32Array(nodeCount + 1);
    for (const ends of [a, b]) for (const node of ends) start[node + 1] = (start[node + 1] ?? 0) + 1;
    for (let node = 0; node < nodeCount; node++) start[node + 1]! += start[node]!;
    const next = start.slice();
    this.#branches = new Int32Array(2 * a.length);
    for (const ends of [a, b]) {
      for (let e = 0; e < ends.length; e++) this.#branches[next[ends[e]!]!++] = e;
    }
    this.#start = start;
    this.#seen = new Int32Array(nodeCount);
    this.#queue = new Int32Array(nodeCount);
  }

  /** Do branches of which `crossing` holds lead from one node to the other? */
  joined(from: number, to: number, crossing: (branch: number) => boolean): boolean {
    if (from === to) return true;
    const seen = this.#seen;
    const queue = this.#queue;
    const walk = ++this.#walk;
    seen[from] = walk;
    queue[0] = from;
    let count = 1;
    for (let at = 0; at < count; at++) {
      const node = queue[at]!;
      for (let p = this.#start[node]!; p < this.#start[node + 1]!; p++) {
        const branch = this.#branches[p]!;
        const other = this.#a[branch] === node ? this.#b[branch]! : this.#a[branch]!;
        if (seen[other] === walk || !crossing(branch)) continue;
        if (other === to) return true;
        seen[other] = walk;
        queue[count++] = other;
      }
    }
    return false;
  }
}
