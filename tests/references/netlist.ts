/** A network as a netlist for a general circuit simulator (ngspice): each element written from its definition. */
import type { Element } from "../../core/parts/element.ts";
import type { ElectricalNetwork } from "../harness/electrical-networks.ts";

/** Tolerances far below what is compared (1e-6). */
const OPTIONS = ".options reltol=1e-8 abstol=1e-11 vntol=1e-10 gmin=1e-15 itl1=2000 itl6=200";

/**
 * `near`: volts to begin the simulator's search at, by node. Its plain Newton steps run in circles round some corners;
 * where it ends it has found by itself.
 */
export function netlist(network: ElectricalNetwork, near?: readonly number[]): string {
  const lines = [`* ${network.title}`];
  near?.forEach((volts, node) => {
    if (node > 0) lines.push(`.nodeset v(${node})=${volts}`);
  });
  network.elements.forEach((element, e) => lines.push(...card(network, element, e)));
  lines.push(OPTIONS, ".control", "set numdgt=15", "op", "print all", "quit", ".endc", ".end");
  return lines.join("\n") + "\n";
}

function card(network: ElectricalNetwork, element: Element, e: number): string[] {
  const a = network.a[e]!;
  const b = network.b[e]!;
  if (a === b) return [];
  const v = a === 0 ? `(-v(${b}))` : b === 0 ? `v(${a})` : `(v(${a})-v(${b}))`;
  const curve = (amps: string): string[] => [`B${e} ${a} ${b} I=${amps}`];
  switch (element.type) {
    case "resistance":
    case "coil":
      return [`R${e} ${a} ${b} ${element.resistance}`];
    case "contact":
      return element.closed ? [`R${e} ${a} ${b} ${element.resistance}`] : [];
    case "capacitor":
      return [];
    case "source":
      return [`V${e} x${e} ${b} ${element.emf}`, `R${e} x${e} ${a} ${element.resistance}`];
    case "diode":
      return curve(`max(0,(${v}-${element.drop})/${element.resistance})`);
    case "clamp": {
      const back = element.oneWay ? 0.7 : element.clamp;
      const { clamp, resistance } = element;
      return curve(`max(0,(${v}-${clamp})/${resistance})+min(0,(${v}+${back})/${resistance})`);
    }
    case "limited-source": {
      const out = `min(${element.limit},(${element.emf}-${v})/${element.resistance})`;
      return curve(element.oneWay ? `-max(0,${out})` : `-(${out})`);
    }
    case "current-port":
      if (element.current >= 0) return curve(`min(${element.current},${v}/${element.resistance})`);
      return curve(`max(${element.current},min(0,(${v}-${element.ceiling ?? 0})/${element.resistance}))`);
    case "power-port":
      // Below its minimum a port would be off; kept networks have none there, and this keeps the simulator's steps bounded.
      return curve(`(${powerOf(network, element)})/max(${v},${element.minimum})`);
  }
}

function powerOf(network: ElectricalNetwork, port: Element & { type: "power-port" }): string {
  if (port.follows === undefined) return String(port.power ?? 0);
  const f = network.elements.findIndex((element) => element.name === port.follows);
  const output = network.elements[f];
  if (output?.type !== "limited-source") throw new RangeError(`"${port.name}" follows no limited source`);
  const v = `(v(${network.a[f]!})-v(${network.b[f]!}))`.replace(/v\(0\)/g, "0");
  const out = `min(${output.limit},(${output.emf}-${v})/${output.resistance})`;
  return `${v}*${output.oneWay ? `max(0,${out})` : out}/${port.efficiency}`;
}
