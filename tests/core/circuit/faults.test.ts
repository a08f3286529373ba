/** Which single faults a drawing has, and that a faulted state is what a solver that knows nothing finds for it. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import type { Analysis } from "../../../core/circuit/analysis.ts";
import { ElectricalSolver } from "../../../core/circuit/electrical.ts";
import { singleFaults } from "../../../core/circuit/faults.ts";
import type { SingleFault } from "../../../core/circuit/faults.ts";
import { Solved } from "../../../core/circuit/solved.ts";
import { demos } from "../../demos/demo-files.ts";
import { anyDrawing } from "../../harness/any-drawing.ts";
import { drawing } from "../../harness/drawing.ts";
import { AS_DRAWN, vehicleNetwork } from "../../harness/electrical-networks.ts";
import { RankOne } from "../../harness/rank-one.ts";

/** Part of the largest EMF. */
const VOLTS = 1e-9;

/** The same elements on a network drawn with the fault, eliminated from nothing, pieces not known. */
function cold(state: Solved): Float64Array {
  const { bench, settled } = state;
  const { branches, nodeCount } = bench.network;
  const partOf = Int32Array.from(bench.a, (_, index) => branches[index]?.part?.index ?? -1);
  const solver = new ElectricalSolver(nodeCount, bench.a, bench.b, partOf);
  const { elements } = bench.assemble(settled.condition, settled.partStates);
  return solver.solve(elements, undefined, settled.held.size > 0 ? settled.held : undefined).volts;
}

/** The largest difference, as a part of the largest EMF. */
function apart(analysis: Analysis, fault: SingleFault, name: string): number {
  const before = analysis.state(name);
  if (before === undefined) return 0;
  const state = analysis.solveChanged(before, fault.change);
  if (!(state instanceof Solved)) throw new TypeError("not a state of this solver");
  if (!state.converged) return 0;
  const emf = Math.max(1, ...state.elements.map((element) => ("emf" in element ? Math.abs(element.emf) : 0)));
  const fresh = cold(state);
  let worst = 0;
  for (let node = 0; node < fresh.length; node += 1) {
    const [one, other] = [state.volts[node] ?? NaN, fresh[node] ?? NaN];
    // What is cut off altogether has no voltage; an inner node behind a diode that carries nothing may or may not be.
    if (analysis.network.terminalOfNode[node] !== undefined) expect(Number.isNaN(one)).toBe(Number.isNaN(other));
    worst = Math.max(worst, Math.abs(one - other) || 0);
  }
  return worst / emf;
}

function pump() {
  return drawing()
    .part("G1", "battery-block", { chemistry: "flooded-lead" })
    .part("F1", "fuse", { rating: "10 A" })
    .part("S1", "switch")
    .part("M1", "pump", { power: "60 W" })
    .part("X1", "connector", { positions: "3" })
    .part("X2", "chassis-point", { structure: "body" })
    .wire("G1:+", "F1:1")
    .wire("F1:2", "S1:common")
    .wire("S1:out", "X1:1a")
    .wire("X1:1b", "M1:+")
    .wire("M1:-", "X1:2b")
    .wire("X1:2a", "X2:stud")
    .wire("G1:-", "X2:stud");
}

const keys = (analysis: Analysis, kind: string): readonly string[] =>
  singleFaults(analysis)
    .filter((fault) => fault.kind === kind)
    .map(({ key }) => key);

describe("single faults of a small drawing", () => {
  const analysis = analyse(pump().build());

  it("opens every wire, and rubs every wire through that is not chassis itself", () => {
    expect(keys(analysis, "wire-open")).toEqual([1, 2, 3, 4, 5, 6, 7].map((n) => `wire-open w${n}`));
    expect(keys(analysis, "conductor-to-chassis")).toEqual([1, 2, 3, 4].map((n) => `conductor-to-chassis w${n}`));
  });

  it("blows the fuse, sticks the switch both ways, pulls the plug", () => {
    expect(keys(analysis, "fuse-blown")).toEqual(["fuse-blown p2 link"]);
    expect(keys(analysis, "contact-welded")).toEqual(["contact-welded p3 contact"]);
    expect(keys(analysis, "contact-stuck-open")).toEqual(["contact-stuck-open p3 contact"]);
    expect(keys(analysis, "connector-unplugged")).toEqual(["connector-unplugged p5"]);
  });

  it("bridges consecutive pins of a row, one apart and no further, and only where something is connected", () => {
    expect(keys(analysis, "terminals-bridged").filter((key) => key.includes(" p5 "))).toEqual([
      "terminals-bridged p5 1a 2a",
      "terminals-bridged p5 2a 3a",
      "terminals-bridged p5 1b 2b",
      "terminals-bridged p5 2b 3b",
    ]);
  });

  it("changes the circuit as it says", () => {
    const parked = analysis.state("ready")!;
    const pumpVolts = (key: string): number => {
      const fault = singleFaults(analysis).find((each) => each.key === key)!;
      const state = analysis.solveChanged(parked, fault.change);
      return state.between(analysis.network.nodeOf(["p4", "+"]), analysis.network.nodeOf(["p4", "-"]));
    };
    const drawn = parked.between(analysis.network.nodeOf(["p4", "+"]), analysis.network.nodeOf(["p4", "-"]));
    expect(pumpVolts("wire-open w3")).toBeCloseTo(0, 3);
    expect(pumpVolts("connector-unplugged p5")).toBeCloseTo(0, 3);
    expect(pumpVolts("fuse-blown p2 link")).toBeCloseTo(0, 3);
    expect(Math.abs(drawn - pumpVolts("contact-welded p3 contact"))).toBeLessThan(13);
    expect(pumpVolts("terminals-bridged p5 1a 2a")).toBeLessThan(1);
  });

  it("names every fault once", () => {
    const all = singleFaults(analysis).map(({ key }) => key);
    expect(new Set(all).size).toBe(all.length);
    expect(singleFaults(analysis)).toBe(singleFaults(analysis));
  });
});

describe("which terminals are neighbours", () => {
  const bridged = (finish: string, away: number): readonly string[] =>
    keys(
      analyse(
        drawing()
          .part("G1", "battery-block", { finish })
          .part("F1", "fuse", { finish }, { face: { "1": [0, 0], "2": [away, 0] } })
          .part("R1", "resistor", { resistance: "10 ohm" })
          .wire("G1:+", "F1:1")
          .wire("F1:2", "R1:1")
          .wire("R1:2", "G1:-")
          .build(),
      ),
      "terminals-bridged",
    ).filter((key) => key.includes(" p2 "));

  it("are those up to 35 mm apart on the part's own face", () => {
    expect(bridged("bare", 35)).toEqual(["terminals-bridged p2 1 2"]);
    expect(bridged("bare", 36)).toEqual([]);
  });

  it("are none where both wear a boot", () => {
    expect(bridged("booted", 20)).toEqual([]);
  });
});

describe("a changeover contact", () => {
  it("welded to one side never closes to the other: one blade serves both", () => {
    const analysis = analyse(
      drawing()
        .part("G1", "battery-block", {})
        .part("S1", "micro-switch", { actuator: "throttle-pedal" })
        .part("P1", "lamp", { voltage: "12 V", power: "20 W" })
        .part("P2", "lamp", { voltage: "12 V", power: "20 W" })
        .wires({}, "G1:+ - S1:common", "S1:no - P1:+", "S1:nc - P2:+", "P1:- - G1:-", "P2:- - G1:-")
        .build(),
    );
    const welded = singleFaults(analysis).find(({ key }) => key === "contact-welded p2 no");
    const volts = (part: string, state: string): number => {
      const solved = analysis.solveChanged(analysis.state(state)!, welded!.change);
      const node = (terminal: string): number => analysis.network.nodeOf([part, terminal]);
      return solved.between(node("+"), node("-"));
    };
    for (const state of ["parked", "driving"]) {
      expect(volts("p3", state)).toBeGreaterThan(11);
      expect(Math.abs(volts("p4", state))).toBeLessThan(0.01);
    }
  });

  it("leaves the positions of a key alone, of which several are closed at once", () => {
    const analysis = analyse(
      drawing()
        .part("G1", "battery-block", {})
        .part("S1", "key-switch", {})
        .part("P1", "lamp", { voltage: "12 V", power: "20 W" })
        .part("P2", "lamp", { voltage: "12 V", power: "20 W" })
        .wires({}, "G1:+ - S1:battery", "S1:accessory - P1:+", "S1:ignition - P2:+", "P1:- - G1:-", "P2:- - G1:-")
        .build(),
    );
    const welded = singleFaults(analysis).find(({ key }) => key === "contact-welded p2 ignition");
    expect(welded?.change.open).toBeUndefined();
  });
});

describe("barriers and outputs", () => {
  const converter = (isolated: string | null) =>
    keys(
      analyse(
        drawing()
          .part("G1", "battery-pack", { blocks: "8", internalFuseRating: "100 A" })
          .part("T1", "dc-dc-converter", isolated === null ? {} : { isolated })
          .part("R1", "resistor", { resistance: "10 ohm" })
          .wires({}, "G1:+ - T1:in+", "G1:- - T1:in-", "T1:out+ - R1:1", "T1:out- - R1:2")
          .build(),
      ),
      "barrier-broken",
    );

  it("break through at an isolated part, or one of which nobody knows", () => {
    const both = ["barrier-broken p2 in- out-", "barrier-broken p2 in+ out-"];
    expect(converter("yes")).toEqual(both);
    expect(converter(null)).toEqual(both);
    expect(converter("no")).toEqual([]);
  });

  it("short the output stage of a controller", () => {
    const sketch = drawing()
      .part("G1", "battery-pack", { blocks: "8", internalFuseRating: "100 A" })
      .part("T1", "dc-controller")
      .part("M1", "motor-permanent-magnet")
      .wires({}, "G1:+ - T1:B+", "G1:- - T1:B-", "M1:+ - T1:M+", "M1:- - T1:M-");
    const analysis = analyse(sketch.build());
    expect(keys(analysis, "output-shorted")).toEqual(["output-shorted p2 output-stage"]);
    expect(keys(analysis, "fuse-blown")).toEqual(["fuse-blown p1 fuse"]);
  });
});

describe("updates of rank one, which the bench compares", () => {
  it("agree with a solve of the network with the fault wherever they do not refuse", () => {
    let [agreed, refused] = [0, 0];
    for (let seed = 1; seed <= 12; seed += 1) {
      const network = vehicleNetwork(seed, 60, AS_DRAWN, false);
      const { nodeCount, a, b, elements } = network;
      const solved = new ElectricalSolver(nodeCount, Int32Array.from(a), Int32Array.from(b)).solve(elements);
      const updates = new RankOne(network, solved);
      const emf = Math.max(...elements.map((element) => ("emf" in element ? Math.abs(element.emf) : 0)));
      elements.forEach((element, open) => {
        if (element.type !== "resistance") return;
        const volts = updates.volts({ open });
        if (volts === undefined) {
          refused += 1;
          return;
        }
        const without = elements.filter((_, index) => index !== open);
        const cut = (ends: readonly number[]): Int32Array => Int32Array.from(ends.filter((_, index) => index !== open));
        const fresh = new ElectricalSolver(nodeCount, cut(a), cut(b)).solve(without);
        const apart = volts.map((value, node) => Math.abs(value - (fresh.volts[node] ?? NaN)) || 0);
        // Ten digits are lost at most; the rest is what subtracting costs beside joints of 1 uohm.
        expect(Math.max(...apart) / emf).toBeLessThan(1e-6);
        agreed += 1;
      });
    }
    expect(agreed).toBeGreaterThan(100);
    expect(refused).toBeGreaterThan(100);
  });
});

describe("a faulted state", () => {
  it("is what a cold solve of the network with the fault finds, on any drawing", () => {
    let looked = 0;
    fc.assert(
      fc.property(anyDrawing(), fc.infiniteStream(fc.nat(1e6)), (project, pick) => {
        const analysis = analyse(project);
        const all = singleFaults(analysis);
        for (const state of analysis.states) {
          const fault = all[(pick.next().value ?? 0) % Math.max(1, all.length)];
          if (fault === undefined) continue;
          looked += 1;
          expect(apart(analysis, fault, state.name)).toBeLessThan(VOLTS);
        }
      }),
      { numRuns: 60, seed: 11 },
    );
    expect(looked).toBeGreaterThan(100);
  }, 60_000);

  it.each(demos.map((demo) => [demo.name, demo] as const))(
    "is what a cold solve finds, on the demo %s",
    (_, { project }) => {
      const analysis = analyse(project);
      const step = process.env["LOOMWRIGHT_LONG"] === undefined ? 7 : 1;
      singleFaults(analysis).forEach((fault, index) => {
        for (const [place, { name }] of analysis.states.entries()) {
          if ((index + place) % step === 0) expect(apart(analysis, fault, name)).toBeLessThan(VOLTS);
        }
      });
    },
    120_000,
  );

  it("never throws on a drawing that is not finished", () => {
    fc.assert(
      fc.property(anyDrawing(), (project) => {
        const wires = project.wires.map((wire, index) =>
          index % 3 === 0 ? { ...wire, ends: [wire.ends[0], null] as const } : wire,
        );
        const analysis = analyse({ ...project, wires });
        expect(singleFaults(analysis).every(({ key }) => key !== "")).toBe(true);
      }),
      { numRuns: 40, seed: 3 },
    );
  });
});
