/** Bare networks in time against closed formulas: each names where its formula or its worked example is published. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { simulate } from "../../../../core/circuit/transition/simulate.ts";
import type { BareNetwork, Simulation } from "../../../../core/circuit/transition/simulate.ts";
import { NetworkMaker, seeded } from "../../../harness/electrical-networks.ts";

type Rest = Partial<Omit<BareNetwork, "nodeCount" | "a" | "b" | "elements">> & { readonly duration: number };

function run(build: (make: NetworkMaker) => Rest): Simulation {
  const make = new NetworkMaker();
  const rest = build(make);
  return simulate({ ...make.done(""), ...rest });
}

/** When a curve first crosses a level, by straight lines between its samples. */
function crossing(times: Float64Array, curve: Float64Array, level: number): number {
  for (let k = 1; k < curve.length; k += 1) {
    const [before, after] = [curve[k - 1]! - level, curve[k]! - level];
    if (before * after > 0 || before === after) continue;
    return times[k - 1]! + ((times[k]! - times[k - 1]!) * before) / (before - after);
  }
  return NaN;
}

const most = (curve: Float64Array): number => curve.reduce((high, value) => Math.max(high, value), -Infinity);
const last = (curve: Float64Array): number => curve.at(-1) ?? NaN;
const within = (value: number, wanted: number, share: number): void => {
  expect(Math.abs(value / wanted - 1), `${String(value)} beside ${String(wanted)}`).toBeLessThan(share);
};

/** A source, a resistor, a capacitor that starts empty. */
function precharge(emf: number, ohms: number, farads: number, duration: number, load = 0): Simulation {
  return run((make) => {
    const [plus, bus] = [make.node(), make.node()];
    make.source(plus, 0, emf, 1e-6);
    make.resistance(plus, bus, ohms, "resistor");
    make.capacitor(bus, 0, farads);
    if (load > 0) make.draw(bus, 0, load, 0.1);
    return { duration };
  });
}

describe("pre-charge", () => {
  // Published pre-charge calculator, its default example: 800 V, 47 ohm, 1000 uF gives 47.0 ms, 141 ms to 95 %
  // (three time constants), 216.4 ms to 99 %, 17.0 A, 13 617 W, 320 J (seen).
  it("agrees with a published calculator's example", () => {
    const found = precharge(800, 47, 1e-3, 1);
    const bus = found.volts(2);
    within(crossing(found.times, bus, 0.95 * 800), 0.1408, 2e-3);
    within(crossing(found.times, bus, 0.99 * 800), 0.2164, 2e-3);
    within(most(found.currents(1)), 17.02, 1e-3);
    within(most(found.currents(1)) ** 2 * 47, 13617, 1e-3);
    within(found.energies[1]!, 320, 1e-3);
    within(found.energies[2]!, 320, 1e-3);
  });

  // V(t) = V0 (1 - exp(-t / RC)) (published reference design of a pre-charge circuit; seen): 144 V, 10 mF, 100 ohm.
  it("reaches each share of the pack when the exponential says", () => {
    const found = precharge(144, 100, 0.01, 5);
    const bus = found.volts(2);
    for (const share of [0.5, 0.632, 0.9, 0.95, 0.99]) {
      within(crossing(found.times, bus, share * 144), -Math.log(1 - share), 2e-3);
    }
  });

  // A constant load leaves V - I R (circuit theory): 144 V, 750 ohm, 20 mA ends at 129.0 V, 89.6 %.
  it("never gets there past a load that the resistor cannot carry", () => {
    const found = precharge(144, 750, 0.01, 120, 0.02);
    within(last(found.volts(2)), 129, 1e-4);
    expect(most(found.volts(2)) / 144).toBeLessThan(0.9);
  });

  // V / R at the moment of touching, with whatever the wiring has (published calculator: I0 = V / R; seen).
  it("lets the full inrush through a contact that closes onto an empty bus, and little onto a charged one", () => {
    const closing = (start: number): Simulation =>
      run((make) => {
        const [plus, bus] = [make.node(), make.node()];
        make.source(plus, 0, 96, 0.04);
        const main = make.contact(plus, bus, false, 0.01);
        const bank = make.capacitor(bus, 0, 0.005);
        make.resistance(bus, 0, 1e4, "load");
        return { duration: 0.01, volts: { [bank]: start }, moves: [{ time: 0.001, branch: main, closed: true }] };
      });
    within(most(closing(0).currents(1)), 96 / 0.05, 1e-3);
    within(most(closing(95).currents(1)), 1 / 0.05, 2e-2);
  });
});

describe("discharge", () => {
  // t = R C ln(V0 / V) (circuit theory): 144 V, 10 mF, 1 kohm to 60 V in 8.755 s; 400 V, 1 mF, 2635.6 ohm in 5 s.
  it.each([
    [144, 0.01, 1000, 8.755],
    [400, 0.001, 2635.6, 5],
  ])("of %s V, %s F through %s ohm takes %s s to 60 V", (volts, farads, ohms, seconds) => {
    const found = run((make) => {
      const bus = make.node();
      const bank = make.capacitor(bus, 0, farads);
      make.resistance(bus, 0, ohms, "resistor");
      return { duration: 2 * seconds, volts: { [bank]: volts } };
    });
    within(crossing(found.times, found.volts(1), 60), seconds, 1e-3);
  });

  // Charge is kept, half of C1 C2 / (C1 + C2) dV^2 turns into heat whatever the resistance (the two-capacitor problem
  // of physics textbooks).
  it.each([0.001, 0.01, 1])("between two capacitors keeps the charge and loses the energy, %s ohm", (ohms) => {
    const [one, other] = [0.004, 0.002];
    const found = run((make) => {
      const [left, right] = [make.node(), make.node()];
      const a = make.capacitor(left, 0, one);
      const b = make.capacitor(right, 0, other);
      const joint = make.contact(left, right, false, ohms);
      return {
        duration: 0.001 + 20 * ohms * 0.00134,
        volts: { [a]: 100, [b]: 20 },
        moves: [{ time: 0.001, branch: joint, closed: true }],
      };
    });
    const end = (one * 100 + other * 20) / (one + other);
    within(last(found.volts(1)), end, 1e-4);
    within(last(found.volts(2)), end, 1e-4);
    within(found.energies[2]!, (0.5 * one * other * 80 ** 2) / (one + other), 1e-3);
  });
});

describe("coil", () => {
  const switchedOff = (quench: (make: NetworkMaker, plus: number, minus: number) => void, wait = 0.1): Simulation =>
    run((make) => {
      const [plus, minus] = [make.node(), make.node()];
      make.source(plus, 0, 12, 1e-6);
      const coil = make.coil(plus, minus, 36, 0.5);
      const switched = make.contact(minus, 0, true, 1e-3);
      make.resistance(plus, 0, 1e6, "leak");
      make.resistance(minus, 0, 1e6, "leak");
      quench(make, plus, minus);
      return { duration: wait, amps: { [coil]: 12 / 36 }, moves: [{ time: 0.01, branch: switched, closed: false }] };
    });

  it("rises by i = V / R (1 - exp(-t R / L)) (circuit theory)", () => {
    const found = run((make) => {
      const plus = make.node();
      make.source(plus, 0, 12, 1e-6);
      make.coil(plus, 0, 36, 0.5);
      return { duration: 0.1 };
    });
    for (const share of [0.3, 0.7, 0.95]) {
      within(crossing(found.times, found.currents(1), (share * 12) / 36), (-0.5 / 36) * Math.log(1 - share), 2e-3);
    }
  });

  // t = (L / R) ln(I0 / I) with the diode's drop neglected (standard formula): 0.5 H, 36 ohm to 10 % in 31.98 ms.
  it("lingers over an ideal diode for L / R ln 10", () => {
    const found = switchedOff((make, plus, minus) => void make.diode(minus, plus, 0, 1e-6));
    within(crossing(found.times, found.currents(1), 0.1 / 3) - 0.01, 0.03198, 2e-3);
    expect(most(found.volts(2))).toBeLessThan(12.1);
  });

  // With a drop U the current falls towards -U / R: t = (L / R) ln((I0 + U / R) / (I + U / R)) (circuit theory).
  it("lets go sooner over a zener, and the voltage rises by it", () => {
    const found = switchedOff((make, plus, minus) => void make.diode(minus, plus, 12.7, 1e-3));
    const drop = 12.7 / 36;
    const wanted = (0.5 / 36) * Math.log((1 / 3 + drop) / (1 / 30 + drop));
    within(crossing(found.times, found.currents(1), 0.1 / 3) - 0.01, wanted, 2e-3);
    within(most(found.volts(2)), 24.7, 1e-3);
  });

  it("without anything across it strikes an arc at the gap's breakdown, and the current ends", () => {
    const found = switchedOff(() => undefined);
    // 327 V, the minimum of Paschen's curve for air (handbooks, from memory), and the 12 V of the supply.
    within(most(found.volts(2)), 339, 1e-3);
    expect(Math.abs(last(found.currents(1)))).toBeLessThan(1e-4);
    // L i / U as long as the voltage stands (circuit theory), a little less for the winding's own resistance.
    const gone = crossing(found.times, found.currents(1), 1e-3) - 0.01;
    expect(gone).toBeGreaterThan(0.0004);
    expect(gone).toBeLessThan(0.00051);
  });
});

describe("energy", () => {
  /** A tree of resistors with sources, capacitors, ideal coils, diodes and contacts that move. */
  function network(seed: number): { network: BareNetwork; stores: readonly (readonly [number, number])[] } {
    const random = seeded(seed);
    const between = (low: number, high: number): number => low * (high / low) ** random();
    const make = new NetworkMaker();
    const nodes = [0];
    const any = (): number => nodes[Math.floor(random() * nodes.length)]!;
    const stores: (readonly [number, number])[] = [];
    const volts: Record<number, number> = {};
    const moves: { time: number; branch: number; closed: boolean }[] = [];
    const count = 5 + Math.floor(random() * 10);
    for (let k = 0; k < count; k += 1) {
      const node = make.node();
      make.resistance(any(), node, between(0.01, 100), "resistor");
      make.resistance(node, 0, 1e5, "leak");
      const kind = Math.floor(random() * 6);
      if (kind === 0) make.source(node, any(), between(5, 200), between(0.01, 1));
      if (kind === 1) {
        const farads = between(1e-6, 1e-2);
        const branch = make.capacitor(node, any(), farads);
        stores.push([branch, farads]);
        volts[branch] = 100 * random() - 50;
      }
      if (kind === 2) {
        const henry = between(1e-4, 1);
        stores.push([make.coil(node, any(), 0, henry), henry]);
      }
      if (kind === 3) make.diode(node, any(), 0.7, 0.01);
      if (kind === 4) make.draw(node, any(), between(0.1, 20), 0.05);
      if (kind === 5) {
        const branch = make.contact(node, any(), random() < 0.5, 0.01);
        moves.push({ time: 0.05 * random(), branch, closed: random() < 0.5 });
      }
      nodes.push(node);
    }
    moves.sort((one, other) => one.time - other.time);
    return { network: { ...make.done(""), duration: 0.1, volts, moves }, stores };
  }

  it("that flows into capacitors and coils is what they hold afterwards, to a thousandth of what flowed", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), (seed) => {
        const { network: bare, stores } = network(seed);
        const found = simulate(bare);
        const flowed = found.energies.reduce((sum, energy) => sum + Math.abs(energy), 0);
        for (const [branch, size] of stores) {
          const coil = bare.elements[branch]!.type === "coil";
          const across = found.volts(bare.a[branch]!).map((v, k) => v - found.volts(bare.b[branch]!)[k]!);
          const figure = coil ? found.currents(branch) : across;
          const start = coil ? 0 : (bare.volts?.[branch] ?? 0);
          const held = (size * (last(figure) ** 2 - start ** 2)) / 2;
          expect(Math.abs(found.energies[branch]! - held)).toBeLessThan(1e-3 * flowed + 1e-9);
        }
        // And nothing is left over in the sum of all branches (Tellegen's theorem).
        const balance = found.energies.reduce((sum, energy) => sum + energy, 0);
        expect(Math.abs(balance)).toBeLessThan(1e-6 * flowed + 1e-9);
      }),
      { numRuns: 150, seed: 20261125 },
    );
  }, 60_000);
});
