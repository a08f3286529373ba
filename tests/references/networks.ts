/** Which networks are held against the general simulator. */
import { analyse } from "../../core/circuit/analyse.ts";
import { ElectricalSolver } from "../../core/circuit/electrical.ts";
import { NetworkMaker, TAME, vehicleNetwork, type ElectricalNetwork } from "../harness/electrical-networks.ts";
import { demonstrationNetworks, networksOf } from "./drawings.ts";
import { tug } from "./tug.ts";

/** Networks whose ports all draw their power: a port that is off stands for a decision, which a simulator does not take. */
function portsDraw(network: ElectricalNetwork): boolean {
  const { nodeCount, a, b, elements } = network;
  const { pieces } = new ElectricalSolver(nodeCount, Int32Array.from(a), Int32Array.from(b)).solve(elements);
  return elements.every((element, e) => element.type !== "power-port" || pieces[e] === 1);
}

function vehicles(): ElectricalNetwork[] {
  const networks: ElectricalNetwork[] = [];
  for (let seed = 1; networks.length < 24; seed++) {
    const network = vehicleNetwork(seed, 6 + (seed % 25), TAME, seed % 2 === 0);
    if (portsDraw(network)) networks.push(network);
  }
  return networks;
}

/** A circuit as on a bench; `build` strings elements between new nodes and the chassis. */
function circuit(title: string, build: (make: NetworkMaker, node: () => number) => void): ElectricalNetwork {
  const make = new NetworkMaker();
  build(make, () => make.node());
  return make.done(title);
}

function circuits(): ElectricalNetwork[] {
  const bridge = (emf: number): ElectricalNetwork =>
    circuit(`diode bridge on ${emf} V`, (make, node) => {
      const [p, q, plus] = [node(), node(), node()];
      make.source(p, q, emf, 0.1);
      make.diode(p, plus, 0.7, 0.02);
      make.diode(q, plus, 0.8, 0.02);
      make.diode(0, p, 0.7, 0.02);
      make.diode(0, q, 0.9, 0.02);
      make.resistance(plus, 0, 10, "load");
      for (const n of [p, q, plus]) make.resistance(n, 0, 1e5, "leak");
    });
  const limited = (ohms: number): ElectricalNetwork =>
    circuit(`limited source on ${ohms} ohm`, (make, node) => {
      const [plus, end] = [node(), node()];
      make.limited(plus, 0, 13.8, 0.02, 30, true);
      make.resistance(plus, end, 0.005);
      make.resistance(end, 0, ohms, "load");
    });
  const motor = (closed: boolean, current: number): ElectricalNetwork =>
    circuit(`motor ${closed ? "joined" : "open"}, ${current} A asked`, (make, node) => {
      const [plus, bus, end] = [node(), node(), node()];
      make.source(plus, 0, 96, 0.04);
      make.resistance(plus, bus, 0.002);
      make.contact(bus, end, closed, 0.15);
      make.draw(end, 0, current, 0.004, current < 0 ? 118 : undefined);
      make.resistance(end, 0, 1e5, "leak");
    });
  return [
    bridge(24),
    bridge(-24),
    limited(1),
    limited(0.1),
    motor(true, 200),
    motor(true, 900),
    motor(false, 200),
    motor(true, -80),
    motor(true, -400),
    circuit("zener and varistor on a stiff feed", (make, node) => {
      const [plus, k, m] = [node(), node(), node()];
      make.source(plus, 0, 60, 0.05);
      make.resistance(plus, k, 22, "resistor");
      make.clamp(k, 0, 15, 2, true);
      make.resistance(plus, m, 5, "resistor");
      make.clamp(0, m, 33, 1, false);
    }),
    circuit("three batteries of unlike charge in parallel", (make, node) => {
      const bar = node();
      for (const [emf, ohms] of [
        [12.9, 0.008],
        [12.4, 0.011],
        [11.8, 0.02],
      ] as const) {
        const plus = node();
        make.source(plus, 0, emf, ohms);
        make.resistance(plus, bar, 0.001);
      }
      make.resistance(bar, 0, 1.5, "load");
    }),
    circuit("constant power on a long lead", (make, node) => {
      const [plus, end] = [node(), node()];
      make.source(plus, 0, 48, 0.02);
      make.resistance(plus, end, 0.1);
      make.power(end, 0, 1500, 30);
    }),
    circuit("converter from a floating pack, its battery charging", (make, node) => {
      const [plus, minus, out, battery] = [node(), node(), node(), node()];
      make.source(plus, minus, 84, 0.05);
      make.resistance(plus, 0, 1e5, "leak");
      make.resistance(minus, 0, 2e5, "leak");
      make.limited(out, 0, 14.2, 0.01, 40, true, "output");
      make.following(plus, minus, "output", 0.9, 60);
      make.resistance(out, battery, 0.015);
      make.source(battery, 0, 12.3, 0.012);
      make.resistance(battery, 0, 2, "load");
    }),
  ];
}

/** `demonstrations`: the folder of the demonstration projects. */
export function referenceNetworks(demonstrations: string): ElectricalNetwork[] {
  const drawings = [...networksOf("tug", analyse(tug())), ...demonstrationNetworks(demonstrations)];
  return [...circuits(), ...vehicles(), ...drawings];
}
