/** The solver against elimination in 64-digit decimals, on networks as drawings hold them. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ElectricalSolver, type ElectricalSolution } from "../../../core/circuit/electrical.ts";
import { curveLaw } from "../../harness/curve-law.ts";
import { decimalElimination, type DecimalSolution, type LinearBranch } from "../../harness/decimal-elimination.ts";
import {
  AS_DRAWN,
  NetworkMaker,
  seeded,
  vehicleNetwork,
  type ElectricalNetwork,
} from "../../harness/electrical-networks.ts";

function solverOf(network: ElectricalNetwork): ElectricalSolver {
  return new ElectricalSolver(network.nodeCount, Int32Array.from(network.a), Int32Array.from(network.b));
}

/** The network in the pieces that the solver found, solved exactly. */
function exactly(network: ElectricalNetwork, solution: ElectricalSolution): DecimalSolution {
  const branches = network.elements.map((element, e): LinearBranch => {
    const ends = { a: network.a[e]!, b: network.b[e]! };
    const law = curveLaw(element);
    if (law === undefined) return { ...ends, ohms: Infinity, emf: 0, amps: solution.currents[e]! };
    return { ...ends, ...law[solution.pieces[e]!]! };
  });
  return decimalElimination(network.nodeCount, branches);
}

interface Distance {
  /** Of the largest EMF. */
  volts: number;
  /** Of the largest current. */
  currents: number;
  /** Current that a node lacks, of the largest current. */
  kirchhoff: number;
  /** Volts by which an element lies outside the piece it was given, of the largest EMF. */
  pieces: number;
  /** Of the power of a port. */
  power: number;
}

function distance(network: ElectricalNetwork, solution: ElectricalSolution): Distance {
  const exact = exactly(network, solution);
  const { elements, a, b } = network;
  const emf = Math.max(...elements.map((element) => ("emf" in element ? Math.abs(element.emf) : 0)));
  const through = Array.from(solution.currents, (i, e) =>
    elements[e]!.type === "source" || elements[e]!.type === "limited-source" ? -i : i,
  );
  const amps = Math.max(...through.map(Math.abs), 1e-9);
  const found: Distance = { volts: 0, currents: 0, kirchhoff: 0, pieces: 0, power: 0 };
  exact.volts.forEach((value, n) => {
    expect(Number.isNaN(solution.volts[n]!), `node ${n} afloat`).toBe(value === undefined);
    if (value !== undefined)
      found.volts = Math.max(found.volts, Math.abs(value.sub(solution.volts[n]!).toNumber()) / emf);
  });
  const lacking = new Float64Array(network.nodeCount);
  elements.forEach((element, e) => {
    found.currents = Math.max(found.currents, Math.abs(exact.currents[e]!.sub(through[e]!).toNumber()) / amps);
    lacking[a[e]!]! -= through[e]!;
    lacking[b[e]!]! += through[e]!;
    const from = exact.volts[a[e]!];
    const to = exact.volts[b[e]!];
    if (from === undefined || to === undefined) return;
    const v = from.sub(to).toNumber();
    const piece = curveLaw(element)?.[solution.pieces[e]!];
    if (piece !== undefined) found.pieces = Math.max(found.pieces, (piece.from - v) / emf, (v - piece.to) / emf);
    if (element.type === "power-port" && solution.pieces[e] === 1) {
      let power = element.power ?? 0;
      if (element.follows !== undefined) {
        const f = elements.findIndex((other) => other.name === element.follows);
        const delivered = (solution.volts[a[f]!]! - solution.volts[b[f]!]!) * solution.currents[f]!;
        power = Math.max(delivered, 0) / element.efficiency;
      }
      found.power = Math.max(found.power, Math.abs(v * through[e]! - power) / Math.max(power, 1));
    }
  });
  found.kirchhoff = Math.max(...lacking.map(Math.abs)) / amps;
  return found;
}

function expectExact(network: ElectricalNetwork): void {
  const solution = solverOf(network).solve(network.elements);
  expect(solution.converged, network.title).toBe(true);
  const found = distance(network, solution);
  expect(found.volts, `${network.title}: volts`).toBeLessThan(1e-13);
  expect(found.currents, `${network.title}: currents`).toBeLessThan(1e-13);
  expect(found.kirchhoff, `${network.title}: sum of currents at a node`).toBeLessThan(1e-14);
  expect(found.pieces, `${network.title}: pieces`).toBeLessThan(1e-13);
  expect(found.power, `${network.title}: power of a port`).toBeLessThan(1e-12);
}

describe("against 64-digit decimals", () => {
  for (let seed = 1; seed <= 24; seed++) {
    it(`vehicle ${seed}`, () => {
      expectExact(vehicleNetwork(seed, 20 + seed, AS_DRAWN, seed % 2 === 0));
    });
  }

  it("any vehicle", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 100, max: 1_000_000 }),
        fc.integer({ min: 3, max: 30 }),
        fc.boolean(),
        (seed, size, ports) => {
          expectExact(vehicleNetwork(seed, size, AS_DRAWN, ports));
        },
      ),
      { seed: 20261125, numRuns: 25 },
    );
  });

  it("300 A across a floating string whose only way to chassis is 10 Gohm", () => {
    const make = new NetworkMaker();
    const bottom = make.node();
    let top = bottom;
    for (let k = 0; k < 12; k++) {
      const plus = make.node();
      make.source(plus, top, 33.3, 1e-6);
      top = make.node();
      make.resistance(plus, top, 1e-6);
    }
    make.resistance(top, bottom, 1.3, "load");
    make.resistance(top, 0, 1e10, "leak");
    make.resistance(bottom, 0, 3e10, "leak");
    expectExact(make.done("string on 10 Gohm"));
  });

  it("conductances drawn from 1e-10 to 1e6 siemens, in any shape", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1_000_000 }), fc.integer({ min: 3, max: 25 }), (seed, nodes) => {
        const random = seeded(seed);
        const make = new NetworkMaker();
        for (let n = 1; n < nodes; n++) make.node();
        const end = (): number => Math.floor(random() * nodes);
        make.source(1, 0, 48, 1e-3);
        for (let k = 0; k < 2 * nodes; k++) {
          const ohms = 10 ** (16 * random() - 6);
          if (random() < 0.15) make.source(end(), end(), 100 * random(), Math.min(ohms, 1));
          else make.resistance(end(), end(), ohms);
        }
        const network = make.done(`shape ${seed}`);
        const solution = solverOf(network).solve(network.elements);
        const found = distance(network, solution);
        expect(found.volts).toBeLessThan(1e-13);
        expect(found.currents).toBeLessThan(1e-12);
      }),
      { seed: 7, numRuns: 150 },
    );
  });
});
