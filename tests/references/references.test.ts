/** The solver against a general circuit simulator (ngspice): its results as kept, and run again where it is installed. */
import * as path from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { ElectricalSolver } from "../../core/circuit/electrical.ts";
import { readKept, type Kept } from "./kept.ts";
import { netlist, piecesHold } from "./netlist.ts";
import { simulate, simulatorVersion, type Reading } from "./simulator.ts";

const KEPT = readKept(path.join(path.dirname(fileURLToPath(import.meta.url)), "kept"));
/** Of the largest EMF, or of the largest source current. */
const WITHIN = 1e-6;

function expectAlike(kept: Kept, reading: Reading): void {
  const { nodeCount, a, b, elements } = kept.network;
  const solver = new ElectricalSolver(nodeCount, Int32Array.from(a), Int32Array.from(b));
  const { volts, currents, converged } = solver.solve(elements);
  expect(converged).toBe(true);
  if (kept.held !== undefined) expect(piecesHold(kept.network, kept.held, reading.volts, WITHIN), "pieces").toBe(true);
  const emf = Math.max(...elements.map((element) => ("emf" in element ? Math.abs(element.emf) : 0)));
  reading.volts.forEach((simulated, n) => {
    if (simulated === null) return;
    expect(Math.abs(volts[n]! - simulated), `node ${n}`).toBeLessThan(WITHIN * emf);
  });
  const amps = Math.max(1, ...Object.values(reading.sources).map(Math.abs));
  for (const [e, simulated] of Object.entries(reading.sources)) {
    expect(Math.abs(currents[Number(e)]! - simulated), `source ${e}`).toBeLessThan(WITHIN * amps);
  }
}

describe("results kept from a general simulator", () => {
  it("are there, of at least 30 networks", () => {
    expect(KEPT.length).toBeGreaterThanOrEqual(30);
    for (const { reading, network } of KEPT) {
      const read = reading.volts.filter((v) => v !== null).length;
      expect(read, network.title).toBeGreaterThan(network.nodeCount / 2);
    }
  });

  for (const kept of KEPT) {
    it(kept.network.title, () => {
      expect(
        netlist(kept.network, kept.near, kept.held),
        "netlist: run `npm run references` where ngspice is installed",
      ).toBe(kept.netlist);
      expectAlike(kept, kept.reading);
    });
  }
});

describe("the simulator run again", () => {
  const version = simulatorVersion();
  it("agrees on every network", (context) => {
    if (version === undefined) context.skip("ngspice is not installed here; the results kept from it were compared");
    for (const kept of KEPT) {
      const reading = simulate(kept.netlist, kept.network.nodeCount);
      expect(reading, `${kept.name}: ${version} found no operating point`).toBeDefined();
      expectAlike(kept, reading!);
    }
  }, 120_000);
});
