/** Constant power drawn from feeds of every strength, worked by hand. */
import { describe, expect, it } from "vitest";
import { ElectricalSolver, type ElectricalSolution } from "../../../core/circuit/electrical.ts";
import { NetworkMaker, type ElectricalNetwork } from "../../harness/electrical-networks.ts";

function solverOf({ nodeCount, a, b }: ElectricalNetwork): ElectricalSolver {
  return new ElectricalSolver(nodeCount, Int32Array.from(a), Int32Array.from(b));
}

function solve(make: NetworkMaker, start?: Int8Array): ElectricalSolution {
  const network = make.done("by hand");
  const solution = solverOf(network).solve(network.elements, start);
  expect(solution.converged).toBe(true);
  return solution;
}

function nodes(make: NetworkMaker, count: number): number[] {
  return Array.from({ length: count }, () => make.node());
}

describe("constant power", () => {
  const fed = (power: number, minimum: number): ElectricalSolution => {
    const make = new NetworkMaker();
    const [plus] = nodes(make, 1) as [number];
    make.source(plus, 0, 12, 0.1);
    make.power(plus, 0, power, minimum);
    return solve(make);
  };

  /** v = (12 + sqrt(144 - 0.4 P)) / 2: 110 W at 11 V and 10 A, 320 W at 8 V and 40 A. */
  it("takes the upper of its two operating points", () => {
    expect(fed(110, 9).volts[1]).toBeCloseTo(11, 12);
    expect(fed(110, 9).currents[1]).toBeCloseTo(10, 12);
    expect(fed(320, 7).volts[1]).toBeCloseTo(8, 12);
    expect(fed(320, 7).currents[1]).toBeCloseTo(40, 12);
    expect(fed(320, 7).pieces[1]).toBe(1);
  });

  it("draws nothing from a feed that cannot carry it: more than 12 V ^2 / 0.4 ohm = 360 W", () => {
    expect(fed(359.9, 5).pieces[1]).toBe(1);
    for (const weak of [fed(360.1, 5), fed(320, 8.1)]) {
      expect(weak.pieces[1]).toBe(2);
      expect(weak.volts[1]).toBe(12);
      expect(weak.currents[1]).toBe(0);
    }
    expect(fed(100, 12.1).pieces[1]).toBe(0);
    expect(fed(100, 12.1).currents[1]).toBe(0);
  });

  /** Two of 110 W on one feed of 50 mohm: the feed sees 220 W, v = (12 + sqrt(144 - 44)) / 2 = 11 V. */
  it("shares a feed between several", () => {
    const make = new NetworkMaker();
    const [plus] = nodes(make, 1) as [number];
    make.source(plus, 0, 12, 0.05);
    make.power(plus, 0, 110, 9);
    make.power(plus, 0, 110, 9);
    const { volts, currents } = solve(make);
    expect(volts[plus]).toBeCloseTo(11, 12);
    expect(currents[1]).toBeCloseTo(10, 11);
    expect(currents[2]).toBeCloseTo(10, 11);
  });

  /** Output 13.8 V behind 20 mohm into 1.36 ohm: 10 A at 13.6 V, 136 W; at 0.85 efficiency 160 W from the pack. */
  it("follows what a converter delivers", () => {
    const make = new NetworkMaker();
    const [plus, minus, out] = nodes(make, 3) as [number, number, number];
    make.source(plus, minus, 84, 1);
    make.resistance(minus, 0, 1e7, "leak");
    make.limited(out, 0, 13.8, 0.02, 30, true, "output");
    make.resistance(out, 0, 1.36, "load");
    const input = make.following(plus, minus, "output", 0.85, 60);
    const { currents, volts } = solve(make);
    expect(currents[2]).toBeCloseTo(10, 12);
    const v = (84 + Math.sqrt(84 * 84 - 4 * 160)) / 2;
    expect(volts[plus]! - volts[minus]!).toBeCloseTo(v, 10);
    expect(currents[input]! * v).toBeCloseTo(160, 10);
  });

  it("of two that share a weak feed only one is switched off, always the same", () => {
    const make = new NetworkMaker();
    const [plus] = nodes(make, 1) as [number];
    make.source(plus, 0, 12, 0.1);
    make.power(plus, 0, 200, 6);
    make.power(plus, 0, 250, 6);
    const network = make.done("weak");
    const results = Array.from({ length: 3 }, () => solverOf(network).solve(network.elements));
    for (const { pieces, volts, converged } of results) {
      expect(converged).toBe(true);
      expect([pieces[1], pieces[2]]).toEqual(Array.from(results[0]!.pieces).slice(1));
      const power = pieces[1] === 1 ? 200 : 250;
      expect(Number(pieces[1] === 1) + Number(pieces[2] === 1)).toBe(1);
      expect(volts[plus]).toBeCloseTo((12 + Math.sqrt(144 - 0.4 * power)) / 2, 11);
    }
  });

  it("means the converter that it is part of", () => {
    const make = new NetworkMaker();
    const [p, q, pack] = nodes(make, 3) as [number, number, number];
    make.source(pack, 0, 96, 0.1);
    make.limited(p, 0, 12, 1e-6, 100, true, "output");
    const first = make.following(pack, 0, "output", 1, 50);
    make.limited(q, 0, 24, 1e-6, 100, true, "output");
    make.following(pack, 0, "output", 1, 50);
    make.resistance(p, 0, 1.44, "load");
    make.resistance(q, 0, 1, "load");
    const { nodeCount, a, b, elements } = make.done("two converters");
    const solver = new ElectricalSolver(
      nodeCount,
      Int32Array.from(a),
      Int32Array.from(b),
      Int32Array.of(-1, 1, 1, 2, 2, -1, -1),
    );
    const { currents, volts } = solver.solve(elements);
    expect(currents[first]! * volts[pack]!).toBeCloseTo(100, 2);
    expect(currents[4]! * volts[pack]!).toBeCloseTo(576, 2);
  });
});
