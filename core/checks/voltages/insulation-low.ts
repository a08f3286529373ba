import { netOf } from "../../circuit/questions.ts";
import type { Analysis } from "../../circuit/analysis.ts";
import type { Net, NodeIndex } from "../../network/network.ts";
import { parseQuantity } from "../../quantity/parse.ts";
import type { Volt } from "../../quantity/kinds.ts";
import { defineCheck } from "../define.ts";
import { insulateFor } from "../remedies/state-wire.ts";
import type { Place, Report } from "../define.ts";
import { unstatedChemistry } from "../../studies/words/highest.ts";
import { partPlace } from "../words/places.ts";

/** Volts of a net against any other that its wires may lie against: the highest of the sources that reach it. */
function workingVoltage(analysis: Analysis, net: Net, mains: ReadonlyMap<number, Volt>): Volt {
  const { traction, auxiliary } = analysis.belonging(net.index);
  return Math.max(mains.get(net.index) ?? 0, ...[...traction, ...auxiliary].map((pack) => pack.highest));
}

/** The blocks of packs that are joined to the 12 V side here: what ties this wire's finding to the join. */
function joinedPacks(analysis: Analysis, net: Net): readonly Place[] {
  const { traction, auxiliary } = analysis.belonging(net.index);
  return auxiliary.length === 0 ? [] : traction.flatMap(({ blocks }) => blocks.map(partPlace));
}

/** Nets of mains conductors: what an inlet or a charger takes in. */
function mainsNets(analysis: Analysis): ReadonlyMap<number, Volt> {
  const { network } = analysis;
  const found = new Map<number, Volt>();
  for (const part of network.parts) {
    if (part.kind.traits.charger !== true && part.kind.traits.inlet !== true) continue;
    const volts = part.values.number("inputVoltage") ?? 0;
    for (const id of ["L", "N"]) {
      const node: NodeIndex | undefined = part.nodes.get(id);
      const net = node === undefined ? undefined : network.netOfNode[node];
      if (net !== undefined) found.set(net, Math.max(found.get(net) ?? 0, volts));
    }
  }
  return found;
}

function run(analysis: Analysis, report: Report): void {
  const { network } = analysis;
  const mains = mainsNets(analysis);
  const working = new Map<number, Volt>();
  for (const { wire, a } of network.conductors) {
    const net = netOf(network, a);
    if (net === undefined) continue;
    let volts = working.get(net.index);
    if (volts === undefined) working.set(net.index, (volts = workingVoltage(analysis, net, mains)));
    const place = { wire: wire.id };
    const text = wire.insulation?.volts;
    if (volts === 0 || net.chassis) {
      report.doesNotApply(place);
      continue;
    }
    const reading = typeof text === "string" ? parseQuantity(text, "voltage") : undefined;
    if (reading?.ok !== true) {
      report.notChecked({
        where: [place],
        reason: "unstated",
        facts: { wire: { place } },
        missing: [{ wire: wire.id, field: "insulation.volts" }],
      });
      continue;
    }
    if (reading.value < volts) {
      report.fails({
        message: "low",
        severity: "WARNING",
        facts: {
          wire: { place },
          limit: { value: reading.value, dimension: "voltage" },
          volts: { value: volts, dimension: "voltage" },
        },
        where: [place],
        value: volts,
        limit: reading.value,
        unit: "V",
        touches: joinedPacks(analysis, net),
        remedies: [insulateFor([wire], volts)],
      });
      continue;
    }
    const unknown = unstatedChemistry(analysis.belonging(net.index).traction);
    if (unknown.length === 0) report.passes(place);
    else report.notChecked({ where: [place], reason: "chemistry", facts: { wire: { place } }, missing: unknown });
  }
}

export const insulationLow = defineCheck({
  id: "insulation-low",
  group: "voltages",
  title: "Insulation of a wire too weak for its voltage",
  about:
    "Compares the voltage stated for each wire's insulation with the highest voltage of the sources that reach the wire, as it may lie against any other. " +
    "Wires of the chassis itself need none. It cannot see chafed or cooked insulation.",
  severities: ["WARNING"],
  source: {
    text: "the cable's own rating against the working voltage (UN R100, 2: highest voltage in normal operation)",
    known: "memory",
  },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    low: {
      title: "The insulation of {wire} is made for {limit}, but up to {volts} can stand on it.",
      why: "Where it lies against metal or another wire it breaks down sooner or later, and the pack is then on whatever it touches.",
      mend: "Use wire with an insulation for more than {volts} there.",
    },
  },
  reasons: {
    unstated: "Nobody stated for what voltage the insulation of {wire} is made.",
    chemistry: "The chemistry of the pack that feeds {wire} is unstated, so that its highest voltage is not known.",
  },
  foldsUnder: ["traction-on-chassis", "traction-on-auxiliary"],
  run,
});
