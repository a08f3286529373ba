/** Disjoint sets of nodes in which each node has a height above the others of its set: union-find with offsets. */
import type { NodeIndex } from "../../network/network.ts";
import type { Volt } from "../../quantity/kinds.ts";

export class Heights {
  readonly #parent: Int32Array;
  /** Height above the parent. */
  readonly #offset: Float64Array;

  constructor(count: number) {
    this.#parent = Int32Array.from({ length: count }, (_, node) => node);
    this.#offset = new Float64Array(count);
  }

  #find(node: NodeIndex): { readonly root: NodeIndex; readonly height: Volt } {
    let [root, height] = [node, 0];
    for (let up = this.#parent[root] ?? root; up !== root; up = this.#parent[root] ?? root) {
      height += this.#offset[root] ?? 0;
      root = up;
    }
    // Straight to the root from now on.
    this.#parent[node] = root;
    this.#offset[node] = root === node ? 0 : height;
    return { root, height };
  }

  same(a: NodeIndex, b: NodeIndex): boolean {
    return this.#find(a).root === this.#find(b).root;
  }

  /**
   * Says that a stands `rise` above b.
   * @returns by how much that contradicts what was known of two nodes of one set; 0 where they were apart
   */
  join(a: NodeIndex, b: NodeIndex, rise: Volt): Volt {
    const [upper, lower] = [this.#find(a), this.#find(b)];
    if (upper.root === lower.root) return upper.height - lower.height - rise;
    this.#parent[upper.root] = lower.root;
    this.#offset[upper.root] = lower.height + rise - upper.height;
    return 0;
  }
}
