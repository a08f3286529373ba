/** What holds in every network: Kirchhoff's laws, energy, one solution whatever the search starts from. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ElectricalSolver, type ElectricalSolution } from "../../../core/circuit/electrical.ts";
import { curveLaw } from "../../harness/curve-law.ts";
import {
  AS_DRAWN,
  NetworkMaker,
  seeded,
  vehicleNetwork,
  type ElectricalNetwork,
} from "../../harness/electrical-networks.ts";

/** Elements of every kind strewn between few nodes; in every third network with round figures, so that corners meet. */
function tangle(seed: number): ElectricalNetwork {
  const random = seeded(seed);
  const make = new NetworkMaker();
  const nodes = 3 + Math.floor(random() * 25);
  for (let n = 1; n < nodes; n++) make.node();
  const round = random() < 0.3;
  const end = (): number => Math.floor(random() * nodes);
  const amount = (value: number): number => (round ? Math.round(value) : value);
  const ohms = (low: number, high: number): number => {
    const exponent = Math.log10(low) + random() * Math.log10(high / low);
    return 10 ** (round ? Math.round(exponent) : exponent);
  };
  make.source(1, 0, 48, 1e-2);
  for (let k = 0; k < nodes * 2.5; k++) {
    const a = end();
    const b = end();
    const kind = random();
    if (kind < 0.1) make.source(a, b, amount(100 * random()), ohms(1e-4, 1));
    else if (kind < 0.45) make.resistance(a, b, ohms(1e-6, 1e10));
    else if (kind < 0.65) make.diode(a, b, amount(random()), ohms(1e-6, 1));
    else if (kind < 0.75) make.clamp(a, b, amount(60 * random()), ohms(1e-6, 1), random() < 0.5);
    else if (kind < 0.87)
      make.limited(a, b, amount(60 * random()), ohms(1e-6, 1), amount(100 * random()), random() < 0.5);
    else if (kind < 0.94) make.draw(a, b, amount(300 * random()), ohms(1e-6, 1));
    else make.draw(a, b, -amount(300 * random()), ohms(1e-6, 1), amount(100 * random()));
  }
  return make.done(`tangle ${seed}`);
}

/** Feeds of all strengths with ports of constant power on them, some of which follow a converter's output. */
function supplied(seed: number): ElectricalNetwork {
  const random = seeded(seed);
  const make = new NetworkMaker();
  const nodes = 4 + Math.floor(random() * 20);
  for (let n = 1; n < nodes; n++) make.node();
  const end = (): number => Math.floor(random() * nodes);
  const between = (low: number, high: number): number => low * (high / low) ** random();
  make.source(1, 0, 48, between(1e-3, 1));
  make.source(2, 3, between(12, 96), between(1e-3, 0.5));
  for (let n = 1; n < nodes; n++) {
    make.resistance(n, Math.floor(random() * n), random() < 0.8 ? between(1e-4, 1) : between(10, 1e7));
  }
  for (let k = 0; k < nodes; k++) {
    if (random() < 0.3) make.diode(end(), end(), random(), between(1e-4, 0.1));
    else if (random() < 0.3) make.draw(end(), end(), between(1, 100), between(1e-3, 1));
    else make.resistance(end(), end(), between(1, 100));
  }
  for (let k = 0; k < 1 + random() * 3; k++) {
    if (random() < 0.5) {
      make.power(1, 0, between(1, 1000), between(1, 40));
      make.power(end(), end(), between(1, 1000), between(1, 40));
    } else {
      make.limited(end(), end(), 13.8, 0.01, between(1, 60), random() < 0.7, `output ${k}`);
      make.following(end(), end(), `output ${k}`, 0.9, between(1, 40));
    }
  }
  return make.done(`supplied ${seed}`);
}

function solverOf({ nodeCount, a, b }: ElectricalNetwork): ElectricalSolver {
  return new ElectricalSolver(nodeCount, Int32Array.from(a), Int32Array.from(b));
}

/** Currents from a to b, sources too. */
function through(network: ElectricalNetwork, solution: ElectricalSolution): number[] {
  return network.elements.map(({ type }, e) => {
    const current = solution.currents[e]!;
    return type === "source" || type === "limited-source" ? -current : current;
  });
}

function largest(list: readonly number[]): number {
  return Math.max(...list.map(Math.abs), 1e-9);
}

const tangles = fc.integer({ min: 1, max: 2_000_000_000 }).map(tangle);
const vehicles = fc
  .tuple(fc.integer({ min: 1, max: 2_000_000_000 }), fc.integer({ min: 3, max: 120 }), fc.boolean())
  .map(([seed, size, ports]) => vehicleNetwork(seed, size, AS_DRAWN, ports));

describe("every network", () => {
  it("finds its fixed point within 60 steps", () => {
    fc.assert(
      fc.property(fc.oneof(tangles, vehicles), (network) => {
        const { converged, iterations } = solverOf(network).solve(network.elements);
        expect(converged).toBe(true);
        expect(iterations).toBeLessThan(60);
      }),
      { seed: 11, numRuns: 1500 },
    );
  });

  it("brings together at each node as much current as it takes away", () => {
    fc.assert(
      fc.property(fc.oneof(tangles, vehicles), (network) => {
        const currents = through(network, solverOf(network).solve(network.elements));
        const lacking = new Float64Array(network.nodeCount);
        currents.forEach((current, e) => {
          lacking[network.a[e]!]! -= current;
          lacking[network.b[e]!]! += current;
        });
        const most = largest(currents);
        for (const lack of lacking) expect(Math.abs(lack) / most).toBeLessThan(1e-14);
      }),
      { seed: 12, numRuns: 500 },
    );
  });

  it("keeps every element on its curve", () => {
    fc.assert(
      fc.property(fc.oneof(tangles, vehicles), (network) => {
        const solution = solverOf(network).solve(network.elements);
        const currents = through(network, solution);
        const emf = largest(network.elements.map((element) => ("emf" in element ? element.emf : 0)));
        const amps = largest(currents);
        network.elements.forEach((element, e) => {
          const v = solution.volts[network.a[e]!]! - solution.volts[network.b[e]!]!;
          const piece = curveLaw(element)?.[solution.pieces[e]!];
          if (piece === undefined || Number.isNaN(v)) return;
          expect(v, `${element.name} below its piece`).toBeGreaterThan(piece.from - 1e-10 * emf);
          expect(v, `${element.name} above its piece`).toBeLessThan(piece.to + 1e-10 * emf);
          const expected = piece.ohms < Infinity ? (v - piece.emf) / piece.ohms + piece.amps : piece.amps;
          // Recomputed from the volts, a current through little resistance has lost digits; the solver's has not.
          const lost = (1e-13 * emf) / Math.max(piece.ohms, 1e-6);
          expect(Math.abs(currents[e]! - expected), element.name).toBeLessThan(lost + 1e-12 * amps);
        });
      }),
      { seed: 13, numRuns: 500 },
    );
  });

  it("takes in as much power as it gives out", () => {
    fc.assert(
      fc.property(vehicles, (network) => {
        const solution = solverOf(network).solve(network.elements);
        let sum = 0;
        let all = 0;
        through(network, solution).forEach((current, e) => {
          const v = solution.volts[network.a[e]!]! - solution.volts[network.b[e]!]!;
          if (Number.isNaN(v)) return;
          sum += v * current;
          all += Math.abs(v * current);
        });
        expect(Math.abs(sum)).toBeLessThan(1e-13 * all + 1e-12);
      }),
      { seed: 14, numRuns: 200 },
    );
  });

  it("gives each constant-power port its power above its minimum, or nothing", () => {
    let drawing = 0;
    let off = 0;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2_000_000_000 }).map(supplied), (network) => {
        const solution = solverOf(network).solve(network.elements);
        expect(solution.converged).toBe(true);
        const across = (e: number): number => solution.volts[network.a[e]!]! - solution.volts[network.b[e]!]!;
        network.elements.forEach((element, e) => {
          if (element.type !== "power-port") return;
          if (solution.pieces[e] !== 1) {
            off += 1;
            expect(solution.currents[e]).toBe(0);
            return;
          }
          drawing += 1;
          const output = network.elements.findIndex(({ name }) => name === element.follows);
          const delivered = output < 0 ? 0 : Math.max(across(output) * solution.currents[output]!, 0);
          const power = element.power ?? delivered / element.efficiency;
          expect(across(e)).toBeGreaterThan(element.minimum * (1 - 1e-9));
          expect(Math.abs(across(e) * solution.currents[e]! - power)).toBeLessThan(1e-9 * (1 + power));
        });
      }),
      { seed: 17, numRuns: 1000 },
    );
    expect(drawing).toBeGreaterThan(100);
    expect(off).toBeGreaterThan(100);
  });

  it("comes to the same currents from any pieces", () => {
    fc.assert(
      fc.property(fc.oneof(tangles, vehicles), fc.integer(), (network, seed) => {
        const random = seeded(seed);
        const solver = solverOf(network);
        const first = solver.solve(network.elements);
        const second = solver.solve(
          network.elements,
          Int8Array.from(network.elements, () => Math.floor(random() * 3)),
        );
        expect(second.converged).toBe(true);
        const amps = largest(Array.from(first.currents));
        first.currents.forEach((current, e) =>
          expect(Math.abs(current - second.currents[e]!)).toBeLessThan(1e-9 * amps),
        );
      }),
      { seed: 15, numRuns: 500 },
    );
  });

  it("gives the same figures to the last bit for the same question", () => {
    fc.assert(
      fc.property(vehicles, (network) => {
        const solver = solverOf(network);
        const first = solver.solve(network.elements);
        solver.resistancesFrom(first, 1);
        const second = solver.solve(network.elements);
        const fresh = solverOf(network).solve(network.elements);
        for (const other of [second, fresh]) {
          expect(other.volts).toEqual(first.volts);
          expect(other.currents).toEqual(first.currents);
        }
      }),
      { seed: 16, numRuns: 50 },
    );
  });
});
