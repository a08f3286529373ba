/** The solver on circuits small enough to work out on paper; the working stands beside each. */
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

describe("ohmic networks", () => {
  it("battery, fuse, lamp: 12 V over 0.1 + 0.02 + 2.88 ohm are 4 A", () => {
    const make = new NetworkMaker();
    const [plus, lamp] = nodes(make, 2) as [number, number];
    const battery = make.source(plus, 0, 12, 0.1);
    const fuse = make.resistance(plus, lamp, 0.02, "protection");
    make.resistance(lamp, 0, 2.88, "load");
    const { volts, currents } = solve(make);
    expect(currents[battery]).toBeCloseTo(4, 13);
    expect(currents[fuse]).toBeCloseTo(4, 13);
    expect(volts[plus]).toBeCloseTo(11.6, 13);
    expect(volts[lamp]).toBeCloseTo(11.52, 13);
  });

  it("two batteries of 12.8 V and 12.4 V side by side exchange 0.4 V / 20 mohm = 20 A", () => {
    const make = new NetworkMaker();
    const [p, q] = nodes(make, 2) as [number, number];
    const strong = make.source(p, 0, 12.8, 0.0095);
    const weak = make.source(q, 0, 12.4, 0.0095);
    make.resistance(p, q, 0.001);
    const { currents } = solve(make);
    expect(currents[strong]).toBeCloseTo(20, 11);
    expect(currents[weak]).toBeCloseTo(-20, 11);
  });

  it("a floating 96 V pack settles where its leaks divide it: 3 Mohm below, 1 Mohm above", () => {
    const make = new NetworkMaker();
    const [plus, minus] = nodes(make, 2) as [number, number];
    make.source(plus, minus, 96, 0.01);
    make.resistance(plus, 0, 1e6, "leak");
    make.resistance(minus, 0, 3e6, "leak");
    const { volts } = solve(make);
    expect(volts[plus]).toBeCloseTo(24, 6);
    expect(volts[minus]).toBeCloseTo(-72, 6);
  });

  it("an island keeps its currents, has no volts to chassis, and leaves the rest alone", () => {
    const make = new NetworkMaker();
    const [p, q, other] = nodes(make, 3) as [number, number, number];
    const cell = make.source(p, q, 9, 1);
    const lamp = make.resistance(p, q, 8, "load");
    make.contact(q, other, false, 1e-3);
    make.source(other, 0, 12, 0.1);
    const { volts, currents } = solve(make);
    expect([volts[p], volts[q]]).toEqual([NaN, NaN]);
    expect(currents[cell]).toBeCloseTo(1, 13);
    expect(currents[lamp]).toBeCloseTo(1, 13);
    expect(volts[other]).toBe(12);
  });

  it("an open capacitor lets nothing through; with a voltage given it drives a current through 1 mohm", () => {
    const make = new NetworkMaker();
    const [bus] = nodes(make, 1) as [number];
    make.resistance(bus, 0, 0.999, "load");
    const network = make.done("capacitor");
    const elements = [
      ...network.elements,
      { type: "capacitor", name: "c", a: "", b: "", role: "capacitor", capacitance: 1e-3 } as const,
    ];
    const solver = new ElectricalSolver(2, Int32Array.of(bus, bus), Int32Array.of(0, 0));
    expect(solver.solve(elements).currents[0]).toBe(0);
    expect(solver.solve(elements, undefined, new Map([[1, 50]])).currents[0]).toBeCloseTo(50, 11);
  });
});

describe("elements with corners", () => {
  /** 24 V either way round into a bridge of diodes 0.7 V + 10 mohm with 22.58 ohm: (24 - 1.4) / (22.58 + 0.02) = 1 A. */
  it.each([24, -24])("a diode bridge fed with %d V lets 1 A through its load, always the same way", (emf) => {
    const make = new NetworkMaker();
    const [p, q, plus] = nodes(make, 3) as [number, number, number];
    make.source(p, q, emf, 1e-6);
    const bridge = [make.diode(p, plus, 0.7, 0.01), make.diode(q, plus, 0.7, 0.01)];
    bridge.push(make.diode(0, p, 0.7, 0.01), make.diode(0, q, 0.7, 0.01));
    const load = make.resistance(plus, 0, 22.58 - 1e-6, "load");
    const { currents, pieces, conducting } = solve(make);
    expect(currents[load]).toBeCloseTo(1, 12);
    const on = emf > 0 ? [1, 0, 0, 1] : [0, 1, 1, 0];
    expect(bridge.map((e) => pieces[e])).toEqual(on);
    expect(bridge.map((e) => conducting[e])).toEqual(on);
  });

  /** 24 V through 10 ohm into a 15 V zener of 2 ohm: i = 9 / 12 = 0.75 A, 16.5 V. Turned: (24 - 0.7) / 12. */
  it("a zener clamps one way and conducts the other", () => {
    const zener = (emf: number): { volts: number; current: number } => {
      const make = new NetworkMaker();
      const [plus, k] = nodes(make, 2) as [number, number];
      make.source(plus, 0, emf, 1e-6);
      const series = make.resistance(plus, k, 10 - 1e-6, "resistor");
      make.clamp(k, 0, 15, 2, true);
      const { volts, currents } = solve(make);
      return { volts: volts[k]!, current: currents[series]! };
    };
    expect(zener(24).current).toBeCloseTo(0.75, 12);
    expect(zener(24).volts).toBeCloseTo(16.5, 11);
    expect(zener(-24).current).toBeCloseTo(-23.3 / 12, 12);
    expect(zener(14).current).toBe(0);
  });

  it("a varistor clamps both ways", () => {
    for (const emf of [100, -100]) {
      const make = new NetworkMaker();
      const [plus] = nodes(make, 1) as [number];
      make.source(plus, 0, emf, 5);
      const varistor = make.clamp(plus, 0, 60, 3, false);
      expect(solve(make).currents[varistor]).toBeCloseTo(Math.sign(emf) * 5, 12);
    }
  });

  /** 13.8 V behind 20 mohm, at most 30 A: 1 ohm draws 13.8 / 1.02 A; 0.1 ohm would draw 115 A, gets 30 A and 3 V. */
  it("a limited source holds its voltage, then its current", () => {
    const limited = (ohms: number): ElectricalSolution => {
      const make = new NetworkMaker();
      const [plus] = nodes(make, 1) as [number];
      make.limited(plus, 0, 13.8, 0.02, 30, true);
      make.resistance(plus, 0, ohms, "load");
      return solve(make);
    };
    expect(limited(1).currents[0]).toBeCloseTo(13.8 / 1.02, 12);
    expect(limited(1).pieces[0]).toBe(1);
    expect(limited(0.1).currents[0]).toBeCloseTo(30, 12);
    expect(limited(0.1).volts[1]).toBeCloseTo(3, 12);
    expect(limited(0.1).pieces[0]).toBe(0);
  });

  it("a one-way source takes nothing back; another takes (14.4 - 13.8) V / 30 mohm = 20 A", () => {
    for (const [oneWay, expected] of [
      [true, 0],
      [false, -20],
    ] as const) {
      const make = new NetworkMaker();
      const [plus] = nodes(make, 1) as [number];
      const converter = make.limited(plus, 0, 13.8, 0.02, 60, oneWay);
      make.source(plus, 0, 14.4, 0.01);
      const { currents, pieces } = solve(make);
      expect(currents[converter]).toBeCloseTo(expected, 11);
      expect(pieces[converter]).toBe(oneWay ? 2 : 1);
    }
  });

  /** 100 A motor current through 0.2 ohm from 48 V behind 10 mohm: 47 V at the bus, 27 V left for the transistors. */
  it("a current port draws its current, and with its motor open nothing", () => {
    const port = (closed: boolean): ElectricalSolution => {
      const make = new NetworkMaker();
      const [plus, motor] = nodes(make, 2) as [number, number];
      make.source(plus, 0, 48, 0.01);
      make.contact(plus, motor, closed, 0.2);
      make.draw(motor, 0, 100, 0.005);
      return solve(make);
    };
    const running = port(true);
    expect(running.currents[2]).toBeCloseTo(100, 11);
    expect(running.volts[2]).toBeCloseTo(27, 11);
    expect(running.pieces[2]).toBe(1);
    const open = port(false);
    expect(open.currents[2]).toBeCloseTo(0, 12);
    expect(open.volts[2]).toBeCloseTo(0, 12);
    expect(open.pieces[2]).toBe(0);
  });

  it("a current port that asks for too much is a transistor fully on: 48 V / (0.2 + 0.01 + 0.03) ohm = 200 A", () => {
    const make = new NetworkMaker();
    const [plus, motor] = nodes(make, 2) as [number, number];
    make.source(plus, 0, 48, 0.01);
    make.resistance(plus, motor, 0.2, "load");
    const port = make.draw(motor, 0, 300, 0.03);
    const { currents, pieces } = solve(make);
    expect(currents[port]).toBeCloseTo(200, 11);
    expect(pieces[port]).toBe(0);
  });

  /** 80 A into 48 V behind 50 mohm lifts it to 52 V; a ceiling of 50 V behind 50 mohm leaves (50 - 48) / 0.1 = 20 A. */
  it("regeneration pushes its current up to the ceiling, and nothing into an open circuit", () => {
    const push = (ceiling: number, closed: boolean): ElectricalSolution => {
      const make = new NetworkMaker();
      const [plus, bus] = nodes(make, 2) as [number, number];
      make.source(plus, 0, 48, 0.04);
      make.contact(plus, bus, closed, 0.01);
      make.draw(bus, 0, -80, 0.05, ceiling);
      return solve(make);
    };
    expect(push(60, true).currents[2]).toBeCloseTo(-80, 11);
    expect(push(60, true).volts[1]).toBeCloseTo(51.2, 11);
    expect(push(50, true).currents[2]).toBeCloseTo(-20, 11);
    expect(push(50, false).currents[2]).toBeCloseTo(0, 12);
    expect(push(50, false).volts[2]).toBeCloseTo(50, 11);
  });

  it("two current ports in series: the larger gives way to the smaller", () => {
    const make = new NetworkMaker();
    const [plus, middle] = nodes(make, 2) as [number, number];
    make.source(plus, 0, 48, 0.01);
    make.draw(plus, middle, 20, 0.1);
    make.draw(middle, 0, 50, 0.1);
    const { currents, volts, pieces } = solve(make);
    expect(currents[1]).toBeCloseTo(20, 12);
    expect(currents[2]).toBeCloseTo(20, 12);
    expect(volts[middle]).toBeCloseTo(2, 12);
    expect([pieces[1], pieces[2]]).toEqual([1, 0]);
  });

  it("a dead end behind two diodes stands at the higher feed, from wherever the search starts", () => {
    for (const start of [undefined, Int8Array.of(0, 0, 1, 1), Int8Array.of(0, 0, 1, 0), Int8Array.of(0, 0, 0, 1)]) {
      const make = new NetworkMaker();
      const [low, high, end] = nodes(make, 3) as [number, number, number];
      make.source(low, 0, 12, 0.01);
      make.source(high, 0, 96, 0.01);
      make.diode(low, end, 0.7, 0.01);
      make.diode(high, end, 0.7, 0.01);
      const { volts, currents } = solve(make, start);
      expect(volts[end]).toBeCloseTo(95.3, 11);
      expect(Math.abs(currents[3]!)).toBeLessThan(1e-12);
    }
  });
});

describe("what it refuses", () => {
  it("an element without resistance, by name", () => {
    const make = new NetworkMaker();
    make.resistance(make.node(), 0, NaN);
    const network = make.done("nothing stated");
    expect(() => solverOf(network).solve(network.elements)).toThrow('element "r0" has no resistance');
  });

  it("a question about another solver's solution", () => {
    const make = new NetworkMaker();
    make.resistance(make.node(), 0, 1);
    const network = make.done("one");
    const solution = solverOf(network).solve(network.elements);
    expect(() => solverOf(network).resistancesFrom(solution, 1)).toThrow("another solver");
  });
});

describe("resistance between nodes", () => {
  const make = new NetworkMaker();
  const [p, q, r, afloat] = nodes(make, 4) as [number, number, number, number];
  make.source(p, q, 96, 0.01);
  make.resistance(p, r, 2);
  make.resistance(r, q, 3);
  make.resistance(q, 0, 1e6, "leak");
  make.diode(r, afloat, 0.7, 0.01);
  const network = make.done("resistances");
  const solver = solverOf(network);
  const solution = solver.solve([...network.elements.slice(0, 4), network.elements[4]!]);

  it("between two: 2 ohm beside 3.01 ohm, with EMFs zero", () => {
    expect(solver.resistanceBetween(solution, p, r)).toBeCloseTo((2 * 3.01) / 5.01, 12);
    expect(solver.resistanceBetween(solution, p, q)).toBeCloseTo(0.05 / 5.01, 13);
    expect(solver.resistanceBetween(solution, q, 0)).toBeCloseTo(1e6, 6);
  });

  it("from one to all, equal to the pairs; Infinity to what is not joined", () => {
    const from = solver.resistancesFrom(solution, p);
    for (const n of [0, q, r]) expect(from[n]).toBeCloseTo(solver.resistanceBetween(solution, p, n), 7);
    expect(from[p]).toBe(0);
    const open = new ElectricalSolver(3, Int32Array.of(1), Int32Array.of(0));
    const lone = open.solve([network.elements[1]!]);
    expect(Array.from(open.resistancesFrom(lone, 1))).toEqual([2, 0, Infinity]);
    expect(open.resistanceBetween(lone, 1, 2)).toBe(Infinity);
  });

  it("counts a source at its limit with its own resistance, a port that draws with its volts per ampere", () => {
    const sketch = new NetworkMaker();
    const [out, bus] = nodes(sketch, 2) as [number, number];
    sketch.limited(out, 0, 13.8, 0.02, 30, true);
    sketch.resistance(out, 0, 0.1, "load");
    sketch.source(bus, 0, 48, 0.05);
    sketch.draw(bus, 0, 160, 0.01);
    const drawn = sketch.done("flat pieces");
    const own = solverOf(drawn);
    const found = own.solve(drawn.elements);
    expect(found.pieces[0]).toBe(0);
    expect(own.resistanceBetween(found, out, 0)).toBeCloseTo((0.02 * 0.1) / 0.12, 13);
    // 160 A at 48 - 8 = 40 V: 0.25 ohm beside 0.05 ohm.
    expect(own.resistanceBetween(found, bus, 0)).toBeCloseTo((0.25 * 0.05) / 0.3, 13);
  });

  it("stays right for an older solution after a newer one", () => {
    const cut = network.elements.map((element, e) =>
      e === 1 ? { ...element, resistance: 1e9 } : element,
    ) as typeof network.elements;
    const before = solver.resistanceBetween(solution, p, r);
    const newer = solver.solve(cut);
    expect(solver.resistanceBetween(newer, p, r)).toBeCloseTo(3.01, 7);
    expect(solver.resistanceBetween(solution, p, r)).toBe(before);
    expect(solver.solve(network.elements).volts).toEqual(solution.volts);
  });
});
