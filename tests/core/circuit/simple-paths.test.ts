/** Edges on simple paths, against walking every simple path of small random graphs. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { edgesBetween } from "../../../core/circuit/simple-paths.ts";
import type { Edge } from "../../../core/circuit/simple-paths.ts";

/** Walks all paths that pass no point twice. */
function byWalking(edges: readonly Edge[], from: number, to: number): Set<number> {
  const found = new Set<number>();
  const walk = (at: number, visited: ReadonlySet<number>, used: readonly number[]): void => {
    if (at === to) {
      for (const edge of used) found.add(edge);
      return;
    }
    edges.forEach(([a, b], edge) => {
      if (a === b) return;
      const next = a === at ? b : b === at ? a : undefined;
      if (next !== undefined && !visited.has(next)) walk(next, new Set([...visited, next]), [...used, edge]);
    });
  };
  if (from !== to) walk(from, new Set([from]), []);
  return found;
}

describe("edges between two points", () => {
  it("are those of all simple paths", () => {
    const point = fc.integer({ min: 0, max: 5 });
    fc.assert(
      fc.property(fc.array(fc.tuple(point, point), { maxLength: 9 }), point, point, (edges, from, to) => {
        expect([...edgesBetween(edges, from, to)].sort()).toEqual([...byWalking(edges, from, to)].sort());
      }),
      { numRuns: 2000, seed: 7 },
    );
  });

  it("leave out a battery that hangs on one point only", () => {
    // A string 0-1-2 across the points 0 and 2, and an edge 0-3 that only touches it.
    expect([
      ...edgesBetween(
        [
          [0, 1],
          [1, 2],
          [0, 3],
        ],
        0,
        2,
      ),
    ]).toEqual([0, 1]);
  });

  it("take a string of ten thousand blocks", () => {
    const string = Array.from({ length: 10_000 }, (_, index): Edge => [index, index + 1]);
    expect(edgesBetween(string, 0, 10_000).size).toBe(10_000);
  });
});
