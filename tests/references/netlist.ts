/** A network as a netlist for a general circuit simulator (ngspice): each element written from its definition. */
import type { Element } from "../../core/parts/element.ts";
import { curveLaw } from "../harness/curve-law.ts";
import type { ElectricalNetwork } from "../harness/electrical-networks.ts";

/** Tolerances far below what is compared (1e-6). */
const OPTIONS = ".options reltol=1e-8 abstol=1e-11 vntol=1e-10 gmin=1e-15 itl1=2000 itl6=200";

/** Which straight piece of its curve an element is written as, by element; null for those without corners. */
export type Held = readonly (number | null)[];

/**
 * `near`: volts to begin the simulator's search at, by node. Its plain Newton steps run in circles round some corners;
 * where it ends it has found by itself.
 * `held`: for networks with so many corners that it settles nowhere, each curve as one straight piece. The reader of
 * the results then has to see that every voltage found lies on its piece (`piecesHold`).
 */
export function netlist(network: ElectricalNetwork, near?: readonly number[], held?: Held): string {
  const lines = [`* ${network.title}`];
  near?.forEach((volts, node) => {
    if (node > 0) lines.push(`.nodeset v(${node})=${volts}`);
  });
  network.elements.forEach((element, e) => lines.push(...card(network, element, e, held?.[e] ?? null)));
  lines.push(OPTIONS, ".control", "set numdgt=15", "op", "print all", "quit", ".endc", ".end");
  return lines.join("\n") + "\n";
}

/** The piece on which each curved element stands at these volts. */
export function piecesAt({ a, b, elements }: ElectricalNetwork, volts: readonly number[]): Held {
  return elements.map((element, e) => {
    const law = curveLaw(element);
    if (law === undefined || law.length < 2) return null;
    const v = volts[a[e]!]! - volts[b[e]!]!;
    return law.findIndex(({ from, to }) => v >= from && v <= to);
  });
}

/** True where every voltage lies on the piece that its element was written as, to within `tolerance` volts. */
export function piecesHold(
  { a, b, elements }: ElectricalNetwork,
  held: Held,
  volts: readonly (number | null)[],
  tolerance: number,
): boolean {
  return elements.every((element, e) => {
    const piece = held[e] === null ? undefined : curveLaw(element)?.[held[e]!];
    const [plus, minus] = [volts[a[e]!], volts[b[e]!]];
    if (piece === undefined || plus === null || plus === undefined || minus === null || minus === undefined)
      return true;
    return plus - minus >= piece.from - tolerance && plus - minus <= piece.to + tolerance;
  });
}

function heldCard(element: Element, e: number, a: number, b: number, held: number): string[] {
  const piece = curveLaw(element)?.[held];
  if (piece === undefined) throw new RangeError(`"${element.name}" has no piece ${held}`);
  if (piece.ohms !== Infinity) return [`VP${e} y${e} ${b} ${piece.emf}`, `R${e} y${e} ${a} ${piece.ohms}`];
  return piece.amps === 0 ? [] : [`I${e} ${a} ${b} ${piece.amps}`];
}

function card(network: ElectricalNetwork, element: Element, e: number, held: number | null): string[] {
  const a = network.a[e]!;
  const b = network.b[e]!;
  if (a === b) return [];
  if (held !== null) return heldCard(element, e, a, b, held);
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
