import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addExactly, Elimination } from "../../../core/circuit/elimination.ts";
import { minimumDegreeOrder } from "../../../core/circuit/ordering.ts";
import { seeded } from "../../harness/electrical-networks.ts";

function voltsFor(
  nodeCount: number,
  branches: readonly (readonly [number, number, number])[],
  injected: readonly (readonly [number, number])[],
): number[] {
  const elimination = new Elimination(
    nodeCount,
    Int32Array.from(branches, ([a]) => a),
    Int32Array.from(branches, ([, b]) => b),
  );
  elimination.factor(Float64Array.from(branches, ([, , ohms]) => 1 / ohms));
  const high = new Float64Array(nodeCount);
  const low = new Float64Array(nodeCount);
  const x = new Float64Array(nodeCount);
  for (const [node, amps] of injected) addExactly(high, low, elimination.position[node]!, amps);
  elimination.solve(high, low, x, 0);
  return Array.from({ length: nodeCount }, (_, n) => x[elimination.position[n]!]!);
}

describe("elimination", () => {
  it("divides a current by Ohm's law along a chain", () => {
    const volts = voltsFor(
      4,
      [
        [1, 2, 3],
        [2, 3, 5],
        [3, 0, 2],
      ],
      [[1, 1]],
    );
    expect(volts[0]).toBe(0);
    expect(volts[3]).toBeCloseTo(2, 14);
    expect(volts[2]).toBeCloseTo(7, 14);
    expect(volts[1]).toBeCloseTo(10, 14);
  });

  it("finds the resistance of the Wheatstone bridge 1, 2, 3, 4 ohm with 5 ohm across", () => {
    // Two node equations for 1 V across the bridge, u and v the volts of its middle nodes:
    // u(1 + 1/3 + 1/5) - v/5 = 1, v(1/2 + 1/4 + 1/5) - u/5 = 1/2; current = (1 - u) + (1 - v)/2.
    const u = (0.95 + 0.1) / ((23 / 15) * 0.95 - 0.04);
    const v = (0.5 + u / 5) / 0.95;
    const current = 1 - u + (1 - v) / 2;
    const volts = voltsFor(
      4,
      [
        [1, 2, 1],
        [1, 3, 2],
        [2, 0, 3],
        [3, 0, 4],
        [2, 3, 5],
      ],
      [[1, 1]],
    );
    expect(volts[1]).toBeCloseTo(1 / current, 13);
  });

  it("lets no current get lost: 300 A across joints of 1 uohm, 10 Gohm from chassis", () => {
    const volts = voltsFor(
      4,
      [
        [1, 2, 1e-6],
        [2, 3, 1e-6],
        [1, 0, 1e10],
        [3, 0, 1e10],
      ],
      [
        [1, 300],
        [3, -300],
      ],
    );
    expect(Math.abs(volts[1]! - 3e-4)).toBeLessThan(1e-18);
    expect(Math.abs(volts[3]! + 3e-4)).toBeLessThan(1e-18);
    expect(Math.abs(volts[2]!)).toBeLessThan(1e-18);
  });

  it("tells islands from what is joined to chassis, and parallel and closed-on-itself branches from loops", () => {
    const elimination = new Elimination(5, Int32Array.of(1, 1, 2, 3, 3, 4), Int32Array.of(0, 0, 1, 3, 4, 0));
    elimination.factor(Float64Array.of(1, 1, 1, 1, 1, 0));
    const grounded = [1, 2, 3, 4].map((n) => elimination.grounded[elimination.position[n]!]);
    expect(grounded).toEqual([1, 1, 0, 0]);
    expect(elimination.island[elimination.position[3]!]).toBe(elimination.island[elimination.position[4]!]);
    elimination.factor(Float64Array.of(1, 1, 1, 1, 1, 1));
    expect(elimination.grounded[elimination.position[3]!]).toBe(1);
  });

  it("holds the diagonal of the inverse: the resistance of each node to chassis", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100_000 }), fc.integer({ min: 3, max: 20 }), (seed, nodes) => {
        const random = seeded(seed);
        const branches: [number, number, number][] = [];
        for (let n = 1; n < nodes; n++) branches.push([n, Math.floor(random() * n), 10 ** (4 * random() - 2)]);
        for (let k = 0; k < nodes; k++) {
          branches.push([Math.floor(random() * nodes), Math.floor(random() * nodes), 10 ** (4 * random() - 2)]);
        }
        const elimination = new Elimination(
          nodes,
          Int32Array.from(branches, ([a]) => a),
          Int32Array.from(branches, ([, b]) => b),
        );
        elimination.factor(Float64Array.from(branches, ([, , ohms]) => 1 / ohms));
        const diagonal = elimination.inverseDiagonal();
        for (let n = 1; n < nodes; n++) {
          const ohms = voltsFor(nodes, branches, [[n, 1]])[n]!;
          expect(Math.abs(diagonal[elimination.position[n]!]! / ohms - 1)).toBeLessThan(1e-13);
        }
      }),
      { seed: 3, numRuns: 60 },
    );
  });

  it("gives the same figures to the last bit when some conductances are taken anew", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100_000 }), fc.integer({ min: 20, max: 80 }), (seed, nodes) => {
        const random = seeded(seed);
        const drawn = (): number => (random() < 0.2 ? 0 : 10 ** (10 * random() - 5));
        const ends: [number, number][] = [];
        for (let n = 1; n < nodes; n++) ends.push([n, Math.floor(random() * n)]);
        for (let k = 0; k < nodes / 3; k++) ends.push([Math.floor(random() * nodes), Math.floor(random() * nodes)]);
        const [a, b] = [Int32Array.from(ends, ([from]) => from), Int32Array.from(ends, ([, to]) => to)];
        const conductance = Float64Array.from(ends, drawn);
        const again = new Elimination(nodes, a, b);
        again.factor(conductance);
        for (let step = 0; step < 6; step++) {
          for (let k = 0; k < 1 + (step % 3); k++) conductance[Math.floor(random() * ends.length)] = drawn();
          again.factor(conductance);
          const anew = new Elimination(nodes, a, b);
          anew.factor(conductance);
          expect(again.island).toEqual(anew.island);
          expect(again.grounded).toEqual(anew.grounded);
          const solved = [again, anew].map((elimination) => {
            const [high, low, x] = [new Float64Array(nodes), new Float64Array(nodes), new Float64Array(nodes)];
            addExactly(high, low, 0, 1);
            addExactly(high, low, nodes >> 1, -1);
            elimination.solve(high, low, x, 0);
            return x;
          });
          expect(solved[0]).toEqual(solved[1]);
        }
      }),
      { seed: 4, numRuns: 200 },
    );
  });

  it("orders a tree from its leaves inwards, without any new entries", () => {
    const random = seeded(5);
    const nodes = 400;
    const a = Int32Array.from({ length: nodes - 2 }, (_, k) => k + 2);
    const b = Int32Array.from(a, (n) => 1 + Math.floor(random() * (n - 1)));
    const { order, lengths } = minimumDegreeOrder(nodes, a, b);
    expect(new Set(order).size).toBe(nodes - 1);
    expect(lengths.reduce((sum, length) => sum + length, 0)).toBe(nodes - 2);
  });
});
