/** A network with few nodes left gives the figures of the whole: at one moment, and through whole transitions. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import { ElectricalSolver } from "../../../core/circuit/electrical.ts";
import type { PassingSolution } from "../../../core/circuit/electrical.ts";
import { Sight } from "../../../core/circuit/reduced.ts";
import type { Reduced } from "../../../core/circuit/reduced.ts";
import { isPlain, Reduction } from "../../../core/circuit/reduction.ts";
import { Solved } from "../../../core/circuit/solved.ts";
import { Course } from "../../../core/circuit/transition/course.ts";
import { plansOf } from "../../../core/circuit/transition/plans.ts";
import type { Project } from "../../../core/project/document.ts";
import { demos } from "../../demos/demo-files.ts";
import { anyDrawing } from "../../harness/any-drawing.ts";
import { AS_DRAWN, seeded, TAME, vehicleNetwork } from "../../harness/electrical-networks.ts";
import type { ElectricalNetwork } from "../../harness/electrical-networks.ts";
import { largeVehicle } from "../../harness/large-vehicle.ts";

const largest = (figures: Float64Array): number =>
  figures.reduce((most, each) => (Number.isNaN(each) ? most : Math.max(most, Math.abs(each))), 1);

/** Solved with what elimination leaves on the last branches. */
function passed({ solver }: Reduction, { elements, siemens }: Reduced): PassingSolution {
  const first = elements.length - siemens.length;
  const places = Int32Array.from(siemens, (_, m) => first + m);
  return solver.pass(elements, undefined, { places, emf: new Float64Array(places.length), siemens });
}

function compare(network: ElectricalNetwork, also: (branch: number) => boolean): void {
  const { nodeCount, elements } = network;
  const [a, b] = [Int32Array.from(network.a), Int32Array.from(network.b)];
  const whole = new ElectricalSolver(nodeCount, a, b).solve(elements);
  const stays = Uint8Array.from(elements, (element, e) => (!isPlain(element) || also(e) ? 1 : 0));
  const reduction = new Reduction(nodeCount, a, b, stays, undefined);
  const reduced = reduction.load(elements);
  const kept = passed(reduction, reduced);
  const sight = new Sight(nodeCount).of(reduced, kept);
  const [volt, ampere] = [largest(whole.volts), largest(whole.currents)];
  for (let node = 0; node < nodeCount; node += 1) {
    const [expected, found] = [whole.volts[node]!, sight.voltsAt(node)];
    expect(Number.isNaN(found), `node ${String(node)} afloat`).toBe(Number.isNaN(expected));
    expect(reduced.voltsOf(node)(kept)).toSatisfy((each: number) => Object.is(each, NaN) || near(each, found, volt));
    if (!Number.isNaN(expected)) expect(near(found, expected, volt), `volts of node ${String(node)}`).toBe(true);
  }
  for (let branch = 0; branch < a.length; branch += 1) {
    const [expected, found] = [whole.currents[branch]!, sight.currentAt(branch)];
    // Of two nearly equal volts across a joint the difference is rounding, over as little as 1 uohm.
    const off = Math.abs(found - expected);
    expect(off, `current of branch ${String(branch)}`).toBeLessThan(1e-9 * ampere + (1e-14 * volt) / 1e-6);
    expect(Math.abs(reduced.currentOf(branch)(kept) - found)).toBeLessThan(1e-9 * ampere + (1e-14 * volt) / 1e-6);
  }
}

const near = (one: number, other: number, scale: number): boolean => Math.abs(one - other) <= 1e-9 * scale;

describe("a reduced network", () => {
  it.each([
    ["joints of a microohm beside leaks of gigaohms, islands", AS_DRAWN],
    ["figures that lie close together", TAME],
  ])("gives the volts and currents of the whole: %s", (_, range) => {
    fc.assert(
      fc.property(fc.nat(), fc.integer({ min: 5, max: 60 }), (seed, size) => {
        const random = seeded(seed);
        compare(vehicleNetwork(seed, size, range, false), () => random() < 0.1);
      }),
      { numRuns: 150, seed: 20261125 },
    );
  });

  it("leaves few nodes of a vehicle of 300 parts", () => {
    const { network } = analyse(largeVehicle());
    const [state] = analyse(largeVehicle()).states;
    const stays = Uint8Array.from(state!.elements, (element) => (isPlain(element) ? 0 : 1));
    const [a, b] = (["a", "b"] as const).map((side) => Int32Array.from(network.branches, (branch) => branch[side]));
    const reduction = new Reduction(network.nodeCount, a!, b!, stays, undefined);
    expect(passed(reduction, reduction.load(state!.elements)).volts.length).toBeLessThan(network.nodeCount / 5);
  });
});

/**
 * Times of events since the last control was moved: a driver who waits until nothing moves any more acts at the end of a
 * step, and steps are long by then.
 */
function sinceControls({ log: { events } }: Course): readonly number[] {
  let moved = 0;
  return events.map(({ what, time }) => {
    if (what === "control") moved = time;
    return time - moved;
  });
}

/** All transitions of a drawing, reduced and whole: the same things happen, and the figures agree. */
function compareTransitions(project: Project): void {
  const analysis = analyse(project);
  const { network } = analysis;
  const states = new Map(analysis.states.map((state) => [state.name, state]));
  const anyState = analysis.states[0];
  if (!(anyState instanceof Solved)) throw new Error("no state");
  for (const plan of plansOf(network, anyState.bench.sources)) {
    const start = states.get(plan.from);
    if (!(start instanceof Solved)) continue;
    const [few, all] = [new Course(start, plan), new Course(start, plan, true)];
    const events = ({ log }: Course): unknown[] =>
      log.events.map(({ what, part, branch }) => [what, part?.part.designation, branch]);
    expect(few.trouble, plan.name).toBe(all.trouble);
    // Which of them go round is told alike; after how many rounds hangs on the last digit.
    if (all.trouble !== undefined) continue;
    expect(events(few), plan.name).toEqual(events(all));
    const [times, expected] = [few, all].map(sinceControls);
    times!.forEach((time, k) => {
      expect(Math.abs(time - expected![k]!), `${plan.name}, event ${String(k)}`).toBeLessThan(
        1e-3 * expected![k]! + 1e-6,
      );
    });
    for (let node = 0; node < network.nodeCount; node += 1) {
      const [one, other] = [few, all].map(({ log: { traces } }) => traces.voltsAt(node, traces.last));
      if (network.terminalOfNode[node] === undefined) continue;
      if (Number.isNaN(one) || Number.isNaN(other)) expect(one, `${plan.name} ${String(node)}`).toBe(other);
      else expect(Math.abs(one! - other!), `${plan.name}, node ${String(node)}`).toBeLessThan(1e-2);
    }
    const later = Math.abs(few.stepper.time - all.stepper.time);
    for (const [branch, { energy, peakPower, power }] of all.log.pulses) {
      const found = few.log.pulses.get(branch)!;
      expect(Math.abs(found.energy - energy), plan.name).toBeLessThanOrEqual(1e-3 * energy + 2 * power * later + 1e-6);
      expect(Math.abs(found.peakPower - peakPower), plan.name).toBeLessThanOrEqual(1e-3 * peakPower + 1e-6);
    }
  }
}

describe("a transition of a reduced network", () => {
  it.each(demos)("is that of the whole: $name", ({ project }) => {
    compareTransitions(project);
  });

  it("is that of the whole on a vehicle with many relays", () => {
    compareTransitions(largeVehicle(12));
  });

  it("is that of the whole on any drawing", () => {
    fc.assert(fc.property(anyDrawing(), compareTransitions), { numRuns: 40, seed: 20261125 });
  }, 120_000);
});
