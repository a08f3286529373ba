/**
 * What is brought up to date is held to what is done anew: the parts asked again to all parts asked, the columns
 * eliminated again to all of them, the shorts laid in to a network that has them as branches.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import type { Change } from "../../../core/circuit/analysis.ts";
import { ElectricalSolver } from "../../../core/circuit/electrical.ts";
import { Solved } from "../../../core/circuit/solved.ts";
import { anyDrawing } from "../../harness/any-drawing.ts";
import { largeVehicle } from "../../harness/large-vehicle.ts";

/** Parts of the largest EMF and of the largest current. */
const VOLTS = 1e-9;
const AMPERES = 1e-9;

/** The same elements (held as they stand), put together from nothing and solved from nothing but the pieces. */
function anew(state: Solved, start: Int8Array) {
  const { bench, settled } = state;
  const { branches } = bench.network;
  const partOf = Int32Array.from(bench.a, (_, index) => branches[index]?.part?.index ?? -1);
  const solver = new ElectricalSolver(bench.network.nodeCount, bench.a, bench.b, partOf);
  const { elements } = bench.assemble(settled.condition, settled.partStates);
  return { elements, ...solver.solve(elements, start, settled.held.size > 0 ? settled.held : undefined) };
}

function expectSame(state: Solved, start: Int8Array): void {
  const fresh = anew(state, start);
  expect(state.elements).toEqual(fresh.elements);
  const emf = Math.max(1, ...state.elements.map((element) => ("emf" in element ? Math.abs(element.emf) : 0)));
  const most = Math.max(1e-6, ...fresh.currents.map(Math.abs));
  const apart = (a: Float64Array, b: Float64Array): number =>
    a.reduce((worst, value, index) => Math.max(worst, Math.abs(value - b[index]!) || 0), 0);
  expect([...state.volts].map(Number.isNaN)).toEqual([...fresh.volts].map(Number.isNaN));
  expect(apart(state.volts, fresh.volts) / emf).toBeLessThan(VOLTS);
  expect(apart(state.currents, fresh.currents) / most).toBeLessThan(AMPERES);
}

function solved(state: unknown): Solved {
  if (!(state instanceof Solved)) throw new TypeError("not a state of this solver");
  return state;
}

describe("solved again", () => {
  it("gives a vehicle with one control moved the same figures to the last bit", () => {
    const analysis = analyse(largeVehicle(40));
    expect(analysis.flipped.length).toBeGreaterThan(80);
    for (const flipped of analysis.flipped.map(solved)) {
      const fresh = anew(flipped, flipped.settled.solution.pieces);
      expect(flipped.elements.every((element, index) => element === fresh.elements[index])).toBe(true);
      expect(flipped.volts).toEqual(fresh.volts);
      expect(flipped.currents).toEqual(fresh.currents);
    }
  });

  it("gives any drawing with one control moved the figures of that drawing solved anew", () => {
    fc.assert(
      fc.property(anyDrawing(), (project) => {
        for (const flipped of analyse(project).flipped.slice(0, 12).map(solved)) {
          expectSame(flipped, flipped.settled.solution.pieces);
        }
      }),
      { numRuns: 60, seed: 7 },
    );
  }, 60_000);

  it("gives any drawing with shorts laid in the figures of a network that has them", () => {
    const changes = fc.record({
      ends: fc.array(fc.tuple(fc.nat(999), fc.nat(999)), { minLength: 1, maxLength: 3 }),
      resistances: fc.constantFrom("nominal", "lowest", "highest", "hot"),
      open: fc.array(fc.nat(999), { maxLength: 2 }),
    });
    let laidIn = 0;
    fc.assert(
      fc.property(anyDrawing(), changes, (project, { ends, resistances, open }) => {
        const analysis = analyse(project);
        const { nodeCount, branches } = analysis.network;
        const change: Change = {
          shorts: ends.map(([a, b]) => [a % nodeCount, b % nodeCount] as const),
          ...(branches.length === 0 ? {} : { open: open.map((at) => at % branches.length) }),
          resistances,
          hold: true,
        };
        for (const state of analysis.states.slice(0, 4).map(solved)) {
          // Twice, since the second time finds the first one's elimination at hand.
          for (const changed of [analysis.solveChanged(state, change), analysis.solveChanged(state, change)]) {
            const short = solved(changed);
            if (!short.converged) continue;
            expectSame(short, state.settled.solution.pieces);
            laidIn += short.shortCurrents.filter((current) => Math.abs(current) > 1e-3).length;
          }
        }
      }),
      { numRuns: 120, seed: 11 },
    );
    expect(laidIn).toBeGreaterThan(20);
  }, 60_000);

  it("gives the short-circuit current of a battery by Ohm's law, and the resistances of what is left", () => {
    const analysis = analyse(largeVehicle(2));
    const parked = solved(analysis.state("parked"));
    const block = analysis.network.parts.find(({ part }) => part.designation === "G20")!;
    const [plus, minus] = [block.nodes.get("+")!, block.nodes.get("-")!];
    const changed = solved(analysis.solveChanged(parked, { shorts: [[plus, minus]], hold: true }));
    const cell =
      block.firstBranch +
      analysis.network.branches
        .slice(block.firstBranch, block.firstBranch + block.branchCount)
        .findIndex(({ role }) => role === "source");
    const source = changed.elements[cell]!;
    if (source.type !== "source") throw new TypeError("a block is a source");
    // 1 uohm of the short in series with the block: what hangs on it takes no more than a millionth of that.
    const current = source.emf / (source.resistance + 1e-6);
    expect(Math.abs(changed.shortCurrents[0]! / current)).toBeCloseTo(1, 5);
    expect(changed.resistanceBetween(plus, minus)).toBeCloseTo(1 / (1e6 + 1 / source.resistance), 9);
  });
});
