import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ElectricalSolver } from "../../../core/circuit/electrical.ts";
import type { Element } from "../../../core/parts/element.ts";
import { AS_DRAWN, seeded, vehicleNetwork } from "../../harness/electrical-networks.ts";

const BOLTED: Element = { type: "resistance", name: "short", a: "", b: "", role: "conductor", resistance: 1e-6 };

function joined(ends: readonly number[], more: readonly number[]): Int32Array {
  return Int32Array.from([...ends, ...more]);
}

function farthest(a: Float64Array, b: Float64Array): number {
  return a.reduce((worst, value, index) => Math.max(worst, Math.abs(value - b[index]!) || 0), 0);
}

describe("shorts laid in", () => {
  it("come to the volts, currents and resistances of a network that has them as branches", () => {
    let badlyJoined = 0;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1_000_000 }), fc.integer({ min: 1, max: 3 }), (seed, count) => {
        const { nodeCount, a, b, elements } = vehicleNetwork(seed, 60, AS_DRAWN, seed % 4 === 0);
        const random = seeded(seed);
        const node = (): number => Math.floor(random() * nodeCount);
        const shorts = Array.from({ length: count }, () => [node(), node()] as const);
        const base = new ElectricalSolver(nodeCount, Int32Array.from(a), Int32Array.from(b));
        const before = base.solve(elements);
        const ends = [
          joined(
            a,
            shorts.map(([from]) => from),
          ),
          joined(
            b,
            shorts.map(([, to]) => to),
          ),
        ] as const;
        const all = [...elements, ...shorts.map(() => BOLTED)];
        const laidIn = new ElectricalSolver(nodeCount, ...ends, undefined, base);
        const branches = new ElectricalSolver(nodeCount, ...ends);
        const [found, wanted] = [laidIn.solve(all, before.pieces), branches.solve(all, before.pieces)];
        if (!wanted.converged) return;
        const [first] = shorts;
        if (first !== undefined && base.resistanceBetween(before, ...first) > 1000) badlyJoined += 1;
        const emf = Math.max(...elements.map((element) => ("emf" in element ? Math.abs(element.emf) : 0)));
        const most = Math.max(...wanted.currents.map(Math.abs));
        expect([...found.volts].map(Number.isNaN)).toEqual([...wanted.volts].map(Number.isNaN));
        expect(farthest(found.volts, wanted.volts) / emf).toBeLessThan(1e-12);
        expect(farthest(found.currents, wanted.currents) / most).toBeLessThan(1e-11);
        expect(found.conducting).toEqual(wanted.conducting);
        const [from, to] = [node(), node()];
        const [ohms, otherwise] = [laidIn, branches].map((solver, at) =>
          solver.resistanceBetween(at === 0 ? found : wanted, from, to),
        );
        if (otherwise === Infinity || otherwise === 0) expect(ohms).toBe(otherwise);
        else expect(ohms! / otherwise!).toBeCloseTo(1, 9);
        // The network without the shorts is as it was.
        expect(base.solve(elements)).toEqual(before);
      }),
      { seed: 17, numRuns: 200 },
    );
    expect(badlyJoined).toBeGreaterThan(10);
  }, 60_000);
});
