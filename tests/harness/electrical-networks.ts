/** Random networks wired like a vehicle: a string of batteries afloat, a 12 V side on the chassis, what joins the two. */
import type { Element } from "../../core/parts/element.ts";

export interface ElectricalNetwork {
  readonly title: string;
  readonly nodeCount: number;
  readonly a: readonly number[];
  readonly b: readonly number[];
  readonly elements: readonly Element[];
}

export interface Range {
  /** Least resistance of a joint or wire, ohm. */
  readonly joint: number;
  /** Resistances that leaks to chassis are drawn from, ohm. */
  readonly leaks: readonly number[];
  /** Whether nodes may stand without any path to chassis. */
  readonly islands: boolean;
}

/** What drawings hold: bolted joints beside good insulation. */
export const AS_DRAWN: Range = { joint: 1e-6, leaks: [1e7, 1e10], islands: true };
/** What a general simulator resolves, with full pivoting but no care for leaks. */
export const TAME: Range = { joint: 1e-3, leaks: [1e5], islands: false };

/** mulberry32, public domain (Tommy Ettinger's construction): 0 <= r < 1. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export class NetworkMaker {
  nodeCount = 1;
  readonly a: number[] = [];
  readonly b: number[] = [];
  readonly elements: Element[] = [];

  node(): number {
    return this.nodeCount++;
  }

  add(a: number, b: number, element: Element): number {
    this.a.push(a);
    this.b.push(b);
    this.elements.push(element);
    return this.elements.length - 1;
  }

  resistance(a: number, b: number, resistance: number, role: Element["role"] = "conductor"): number {
    return this.add(a, b, { ...END, type: "resistance", name: `r${this.elements.length}`, role, resistance });
  }

  source(a: number, b: number, emf: number, resistance: number): number {
    const name = `v${this.elements.length}`;
    return this.add(a, b, { ...END, type: "source", name, role: "source", emf, resistance, storage: true });
  }

  contact(a: number, b: number, closed: boolean, resistance: number): number {
    const name = `k${this.elements.length}`;
    return this.add(a, b, { ...END, type: "contact", name, role: "contact", closed, resistance, movedBy: "coil" });
  }

  diode(a: number, b: number, drop: number, resistance: number): number {
    return this.add(a, b, { ...END, type: "diode", name: `d${this.elements.length}`, role: "diode", drop, resistance });
  }

  clamp(a: number, b: number, clamp: number, resistance: number, oneWay: boolean): number {
    const name = `z${this.elements.length}`;
    return this.add(a, b, { ...END, type: "clamp", name, role: "diode", clamp, resistance, oneWay });
  }

  limited(
    a: number,
    b: number,
    emf: number,
    resistance: number,
    limit: number,
    oneWay: boolean,
    name?: string,
  ): number {
    const given = name ?? `l${this.elements.length}`;
    return this.add(a, b, {
      ...END,
      type: "limited-source",
      name: given,
      role: "source",
      emf,
      resistance,
      limit,
      oneWay,
    });
  }

  draw(a: number, b: number, current: number, resistance: number, ceiling?: number): number {
    const element = {
      ...END,
      type: "current-port",
      name: `i${this.elements.length}`,
      role: "load",
      current,
      resistance,
    } as const;
    return this.add(a, b, ceiling === undefined ? element : { ...element, ceiling });
  }

  power(a: number, b: number, power: number, minimum: number): number {
    const name = `p${this.elements.length}`;
    return this.add(a, b, { ...END, type: "power-port", name, role: "load", power, efficiency: 1, minimum });
  }

  following(a: number, b: number, follows: string, efficiency: number, minimum: number): number {
    const name = `p${this.elements.length}`;
    return this.add(a, b, {
      ...END,
      type: "power-port",
      name,
      role: "load",
      power: undefined,
      follows,
      efficiency,
      minimum,
    });
  }

  capacitor(a: number, b: number, capacitance: number): number {
    const name = `c${this.elements.length}`;
    return this.add(a, b, { ...END, type: "capacitor", name, role: "capacitor", capacitance });
  }

  coil(a: number, b: number, resistance: number, inductance: number): number {
    const name = `w${this.elements.length}`;
    return this.add(a, b, { ...END, type: "coil", name, role: "coil", resistance, inductance });
  }

  done(title: string): ElectricalNetwork {
    return { title, nodeCount: this.nodeCount, a: this.a, b: this.b, elements: this.elements };
  }
}

const END = { a: "", b: "" };

/** A whole vehicle; `size` = about how many nodes its 12 V harness has. */
export function vehicleNetwork(seed: number, size: number, range: Range, ports: boolean): ElectricalNetwork {
  const random = seeded(seed);
  const between = (low: number, high: number): number => Math.exp(Math.log(low) + random() * Math.log(high / low));
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  const make = new NetworkMaker();
  const wire = (): number =>
    random() < 0.3 ? range.joint : between(range.joint * 10, Math.max(5e-2, range.joint * 50));
  const leak = (node: number): void => void make.resistance(node, 0, pick(range.leaks) * (1 + random()), "leak");

  // The traction string: blocks behind their own resistance, joined by links.
  const blocks = 8 + Math.floor(random() * 5);
  const emf = pick([6.3, 12.7, 25.6, 33]);
  const packNegative = make.node();
  let top = packNegative;
  for (let k = 0; k < blocks; k++) {
    const plus = make.node();
    make.source(plus, top, emf * (1 + 0.02 * random()), between(2e-3, 1e-2));
    const terminal = make.node();
    make.resistance(plus, terminal, wire());
    if (random() < 0.4) leak(terminal);
    top = terminal;
  }
  leak(top);
  if (!range.islands || random() < 0.8) leak(packNegative);
  const pack = blocks * emf;

  // Fuse, contactor with its pre-charge, motor controller, motor.
  const fused = make.node();
  make.resistance(top, fused, Math.max(range.joint, 4e-4), "protection");
  const bus = make.node();
  make.contact(fused, bus, random() < 0.8, Math.max(range.joint, 3e-4));
  make.resistance(fused, bus, between(100, 2000), "resistor");
  const motor = make.node();
  make.resistance(bus, motor, between(0.05, 0.5), "load");
  make.draw(motor, packNegative, between(5, 400), between(1e-3, 1e-2));
  make.diode(motor, bus, 0.8, between(1e-3, 1e-2));
  make.clamp(bus, packNegative, pack * (0.9 + 0.4 * random()), between(0.1, 5), random() < 0.5);
  leak(bus);

  // The 12 V side: battery on the chassis, a tree of wires with a few loops, lamps, coils with their diodes.
  const battery = make.node();
  make.source(battery, 0, 12.6, between(4e-3, 2e-2));
  const harness = [battery];
  for (let k = 1; k < size; k++) {
    const node = make.node();
    make.resistance(pick(harness.slice(-8)), node, wire());
    harness.push(node);
    if (random() < 0.35) make.resistance(node, 0, between(2, 1000), "load");
    if (random() < 0.15) make.diode(0, node, 0.7, between(1e-3, 0.1));
    if (random() < 0.1) make.resistance(node, pick(harness), wire());
    if (random() < 0.1) leak(node);
    if (random() < 0.1) {
      const far = make.node();
      make.diode(node, far, 0.6, between(1e-3, 0.1));
      make.resistance(far, 0, between(5, 200), "coil");
      make.clamp(far, 0, 9 + 10 * random(), between(0.5, 5), true);
    }
  }

  // Converter from the pack to 12 V, its output at the limit or holding.
  const outPlus = pick(harness);
  const limit = between(1, 60);
  make.limited(outPlus, 0, 13.8, between(range.joint * 10, 0.05), limit, random() < 0.5, "output");
  if (ports) make.following(bus, packNegative, "output", 0.9, pack * 0.6);
  if (ports) make.power(pick(harness), 0, between(5, 60), 8);
  if (range.islands && random() < 0.5) {
    const p = make.node();
    const q = make.node();
    make.source(p, q, 9.6, 0.1);
    make.resistance(p, q, 50, "load");
    if (random() < 0.5) make.contact(q, pick(harness), false, 0.01);
  }
  return make.done(`vehicle ${seed}`);
}
