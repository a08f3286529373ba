/** Disjoint sets of nodes (union by size, path halving): what is joined to what. */
export class DisjointSets {
  readonly #parent: Int32Array;
  readonly #size: Int32Array;

  /** Each of `count` members by itself, or joined as in `like`. */
  constructor(count: number, like?: DisjointSets) {
    this.#parent = like === undefined ? new Int32Array(count) : like.#parent.slice();
    this.#size = like === undefined ? new Int32Array(count).fill(1) : like.#size.slice();
    if (like === undefined) for (let member = 0; member < count; member++) this.#parent[member] = member;
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
    let [x, y] = [this.find(a), this.find(b)];
    if (x === y) return false;
    const [sizeX, sizeY] = [this.#size[x] ?? 1, this.#size[y] ?? 1];
    if (sizeX < sizeY) [x, y] = [y, x];
    this.#parent[y] = x;
    this.#size[x] = sizeX + sizeY;
    return true;
  }

  together(a: number, b: number): boolean {
    return this.find(a) === this.find(b);
  }
}
