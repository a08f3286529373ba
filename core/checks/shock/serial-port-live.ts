import type { Analysis } from "../../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import { auxiliaryPacks, isOnPack, tractionPacks } from "../../studies/words/live.ts";
import { highestOf } from "../../studies/words/belongs.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

const PINS = ["serial-ground", "serial-tx", "serial-rx"] as const;
const METAL: readonly Role[] = ["conductor", "contact", "protection", "shunt", "source"];

/** A serial port whose ground is, or may be, the pack's minus. */
interface Port {
  readonly part: NetworkPart;
  readonly parameter: "serialIsolated" | "isolated";
  readonly wired: readonly string[];
}

function portsOf(analysis: Analysis): readonly Port[] {
  return analysis.network.parts.flatMap((part): Port[] => {
    const parameter = (["serialIsolated", "isolated"] as const).find((name) => name in part.kind.parameters);
    // A display's port looks the other way: it is the device.
    if (parameter === undefined || !part.nodes.has("serial-ground") || !part.nodes.has("B-")) return [];
    const wired = PINS.filter((pin) => analysis.network.wiresAt([part.part.id, pin]).length > 0);
    return [{ part, parameter, wired }];
  });
}

/** Parts other than busbars, splices and plugs on the nets of the port's wired pins. */
function devicesOn(analysis: Analysis, port: Port): readonly NetworkPart[] {
  const { network } = analysis;
  const found = new Set<NetworkPart>();
  for (const pin of port.wired) {
    const net = network.nets[network.netOfNode[port.part.nodes.get(pin) ?? -1] ?? -1];
    for (const [id] of net?.terminals ?? []) {
      const part = network.partById.get(id);
      if (part !== undefined && part !== port.part && part.kind.group !== "connecting") found.add(part);
    }
  }
  // A contact or fuse in a serial wire does not part the two: look beyond it.
  for (const pin of port.wired) {
    const node = port.part.nodes.get(pin);
    const state = analysis.states[0];
    if (node === undefined || state === undefined) continue;
    const own = ownBranches(port.part);
    for (const reached of analysis.reach(state, node, { through: METAL, contacts: "closed", without: own })) {
      const id = network.terminalOfNode[reached];
      const part = id === undefined ? undefined : network.partById.get(id[0]);
      if (id === undefined || part === undefined || part === port.part) continue;
      if ((PINS as readonly string[]).includes(id[1]) && part.kind.group !== "connecting") found.add(part);
    }
  }
  return [...found].filter((part) => part.kind.group !== "switching" && part.kind.group !== "protection");
}

const ownBranches = (part: NetworkPart): readonly number[] =>
  Array.from({ length: part.branchCount }, (_, index) => part.firstBranch + index);

interface Supply {
  readonly low: boolean;
  readonly missing: readonly MissingField[];
}

/** Does the device's supply reach a 12 V battery or the chassis, the port itself left out? */
function supplyOf(analysis: Analysis, port: Port, device: NetworkPart): Supply {
  const state = analysis.states[0];
  const starts = device.kind
    .supplyPairs(device.values)
    .filter(({ direction }) => direction === "input")
    .flatMap(({ plus, minus }) => [device.nodes.get(plus), device.nodes.get(minus)])
    .filter((node): node is NodeIndex => node !== undefined);
  if (state === undefined) return { low: false, missing: [] };
  const without = [...ownBranches(device), ...ownBranches(port.part)];
  const low = new Set<NodeIndex>([CHASSIS_NODE]);
  for (const { positive, negative } of auxiliaryPacks(analysis)) low.add(positive).add(negative);
  const missing: MissingField[] = [];
  for (const start of starts) {
    const reached = analysis.reach(state, start, { through: METAL, contacts: "closed", without });
    for (const node of reached) if (low.has(node)) return { low: true, missing: [] };
    for (const part of analysis.network.parts) {
      const out = part.nodes.get("out-");
      if (part.kind.traits.converter !== true || out === undefined || !reached.has(out)) continue;
      if (part.values.choice("isolated") === undefined) missing.push({ part: part.part.id, parameter: "isolated" });
    }
  }
  return { low: false, missing };
}

function look(analysis: Analysis, report: Report, port: Port): void {
  const { part, parameter } = port;
  const ground = terminalPlace(part, "serial-ground");
  const minus = part.nodes.get("B-");
  const packs = minus === undefined ? [] : tractionPacks(analysis).filter((pack) => isOnPack(analysis, pack, minus));
  const devices = port.wired.length === 0 ? [] : devicesOn(analysis, port);
  const volts = highestOf(packs);
  const declared = analysis.network.project.sharedNegative === true && volts <= CLASS_B_DC;
  if (packs.length === 0 || devices.length === 0 || declared) {
    report.doesNotApply(ground);
    return;
  }
  if (part.values.choice(parameter) === "yes") {
    report.passes(ground);
    return;
  }
  const missing: MissingField[] = [];
  for (const device of devices) {
    const barrier = "isolated" in device.kind.parameters ? device.values.choice("isolated") : "no";
    if (barrier === "yes") continue;
    const supply = supplyOf(analysis, port, device);
    missing.push(...supply.missing);
    if (!supply.low) continue;
    if (part.values.choice(parameter) === undefined) missing.push({ part: part.part.id, parameter });
    if (barrier === undefined) missing.push({ part: device.part.id, parameter: "isolated" });
    if (part.values.choice(parameter) === "no" && barrier === "no") {
      report.fails({
        message: "live",
        severity: "DANGER",
        facts: {
          port: { place: ground },
          device: { place: partPlace(device) },
          volts: { value: volts, dimension: "voltage" },
        },
        where: [ground, partPlace(device)],
        value: volts,
        limit: 0,
        unit: "V",
        touches: [partPlace(part)],
      });
      return;
    }
  }
  if (missing.length === 0) report.passes(ground);
  else
    report.notChecked({
      where: [ground],
      reason: "barrier",
      facts: { port: { place: ground }, devices: { places: devices.map(partPlace) } },
      missing,
    });
}

function run(analysis: Analysis, report: Report): void {
  for (const port of portsOf(analysis)) look(analysis, report, port);
}

export const serialPortLive = defineCheck({
  id: "serial-port-live",
  group: "shock",
  title: "Serial port puts the pack on a low-voltage device",
  about:
    "Looks at the serial ports of controllers and battery monitors whose ground is the pack's minus, and at what is wired to them. " +
    "A device fed from the 12 V side must be isolated, in the port or in itself. A device with no other connection is not judged.",
  severities: ["DANGER"],
  source: { text: "Common practice, no source", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    live: {
      title:
        "The serial port at {port} stands on the pack's minus and is joined to {device}, which is fed from the 12 V side: nothing parts up to {volts} from it.",
      why: "The thin serial ground becomes a bridge between pack and 12 V side; it can burn the port, the device and a computer on it, and put the pack on metal that people touch.",
      mend: "Put a serial isolator between {port} and {device}, or run the device from a supply of its own that touches nothing else.",
    },
  },
  reasons: {
    barrier: "Nobody stated whether the way from {port} to {devices} is isolated.",
  },
  run,
});
