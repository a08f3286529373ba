/** Disjoint sets of nodes (the lowest member stands for its set, path halving): what is joined to what. */
export class DisjointSets {
  /** Small numbers where they do: sets are kept for hundreds of states. */
  readonly #parent: Uint16Array | Uint32Array;

  /** Each of `count` members by itself, or joined as in `like`. */
  constructor(count: number, like?: DisjointSets) {
    if (like !== undefined) {
      this.#parent = like.#parent.slice();
      return;
    }
    this.#parent = count <= 0x10000 ? new Uint16Array(count) : new Uint32Array(count);
    for (let member = 0; member < count; member++) this.#parent[member] = member;
  }

  /** The same sets, to be joined further by themselves. */
  copy(): DisjointSets {
    return new DisjointSets(this.#parent.length, this);
  }

  find(member: number): number {
    const parent = this.#parent;
    let at = member;
    for (let up = parent[at] ?? at; up !== at; up = parent[at] ?? at) {
      const above = parent[up] ?? up;
      parent[at] = above;
      at = above;
    }
    return at;
  }

  /** False if both were in one set already. */
  join(a: number, b: number): boolean {
    const [x, y] = [this.find(a), this.find(b)];
    if (x === y) return false;
    this.#parent[Math.max(x, y)] = Math.min(x, y);
    return true;
  }

  together(a: number, b: number): boolean {
    return this.find(a) === this.find(b);
  }
}
