import type { Analysis, Pack, SolvedState } from "../../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Ohm, Volt } from "../../quantity/kinds.ts";
import {
  ISOLATION_AC,
  ISOLATION_DC,
  ISOLATION_SOURCE,
  isolationFromReadings,
  readingResistor,
} from "../../standards/isolation.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import { belongingAt } from "../../studies/words/belongs.ts";
import { isFedBy, isLive, tractionPacks } from "../../studies/words/live.ts";
import { partPlace } from "../words/places.ts";

/** A leak of stated size between a node of the traction circuit and the chassis. */
interface Leak {
  readonly part: NetworkPart;
  readonly node: NodeIndex;
  readonly ohms: Ohm;
}

/** The parameter that states what a part leaks: a source's, load's or converter's isolation, a monitor's own resistance. */
function leakParameter(part: NetworkPart): string | undefined {
  if ("isolation" in part.kind.parameters) return "isolation";
  return "internalResistance" in part.kind.parameters ? "internalResistance" : undefined;
}

function leaksOf(analysis: Analysis, part: NetworkPart, state: SolvedState): readonly Leak[] {
  return analysis.network.branches
    .slice(part.firstBranch, part.firstBranch + part.branchCount)
    .flatMap(({ a, b, index, role }): Leak[] => {
      const element = state.elements[index];
      if (element?.type !== "resistance" || (role !== "leak" && role !== "sense")) return [];
      const toChassis = (node: NodeIndex): boolean => belongingAt(analysis, node).chassis;
      if (toChassis(a) === toChassis(b)) return [];
      return [{ part, node: toChassis(a) ? b : a, ohms: element.resistance }];
    });
}

/**
 * What the two-reading method gives for the stated leaks alone. A high-ohm meter from each pole to chassis reads where
 * the leaks put the chassis between the poles; with a resistor between the larger reading's pole and chassis that
 * reading falls to V Ro / (Ro + R), R being all leaks in parallel.
 */
function isolation(pack: Pack, state: SolvedState, leaks: readonly Leak[]): Ohm {
  const volts = Math.abs(state.between(pack.positive, pack.negative));
  const siemens = leaks.reduce((sum, { ohms }) => sum + 1 / ohms, 0);
  const negative: Volt =
    leaks.reduce((sum, { node, ohms }) => sum + state.between(node, pack.negative) / ohms, 0) / siemens;
  const positive = volts - negative;
  const resistor = readingResistor(ISOLATION_AC, volts);
  const unloaded = Math.max(Math.abs(negative), Math.abs(positive));
  const loaded = (unloaded * resistor) / (resistor + 1 / siemens);
  return isolationFromReadings({
    pack: volts,
    negative: Math.abs(negative),
    positive: Math.abs(positive),
    loaded,
    resistor,
  });
}

interface Measured {
  readonly ohms: Ohm;
  readonly states: readonly string[];
  readonly leaks: readonly Leak[];
}

function lowest(analysis: Analysis, pack: Pack, stated: readonly NetworkPart[]): Measured | undefined {
  let worst: Measured | undefined;
  for (const state of analysis.states) {
    // A pack that a contact has open in its middle has no two poles to measure between.
    if (!isFedBy(analysis, pack, state, pack.positive)) continue;
    const leaks = stated.flatMap((part) =>
      leaksOf(analysis, part, state).filter(({ node }) => isLive(analysis, pack, state, node)),
    );
    if (leaks.length === 0) continue;
    const ohms = isolation(pack, state, leaks);
    if (!Number.isFinite(ohms)) continue;
    if (worst === undefined || ohms < worst.ohms * (1 - 1e-3)) worst = { ohms, states: [state.name], leaks };
    else if (ohms < worst.ohms * (1 + 1e-3)) worst = { ...worst, states: [...worst.states, state.name] };
  }
  return worst;
}

/** A controller with three phases makes an AC circuit that is one metal with the pack. */
function hasAcDrive(parts: readonly NetworkPart[]): boolean {
  return parts.some(
    ({ kind, nodes }) => kind.traits.controller === true && nodes.has("U") && nodes.has("V") && nodes.has("W"),
  );
}

function run(analysis: Analysis, report: Report): void {
  for (const pack of tractionPacks(analysis)) {
    const first = pack.blocks[0];
    if (first === undefined) continue;
    if (belongingAt(analysis, CHASSIS_NODE).traction.includes(pack)) {
      report.doesNotApply(partPlace(first));
      continue;
    }
    const onPack = analysis.network.parts.filter((part) =>
      [...part.nodes.values()].some(
        (node) => node !== CHASSIS_NODE && analysis.states.some((state) => isLive(analysis, pack, state, node)),
      ),
    );
    const leaking = onPack.filter((part) => leakParameter(part) !== undefined);
    const isStated = (part: NetworkPart): boolean => part.values.stated(leakParameter(part) ?? "") === "confirmed";
    const missing = leaking
      .filter((part) => !isStated(part))
      .map((part): MissingField => ({ part: part.part.id, parameter: leakParameter(part) ?? "" }));
    const measured = lowest(analysis, pack, leaking.filter(isStated));
    const ac = hasAcDrive(onPack);
    const perVolt = measured === undefined ? Infinity : measured.ohms / pack.highest;
    if (measured !== undefined && perVolt < ISOLATION_AC) {
      const smallest = measured.leaks.reduce((least, leak) => (leak.ohms < least.ohms ? leak : least));
      const warning = ac || perVolt < ISOLATION_DC;
      const limit = warning && !ac ? ISOLATION_DC : ISOLATION_AC;
      report.fails({
        message: ac ? "ac" : warning ? "low" : "falling",
        severity: warning ? "WARNING" : "NOTICE",
        facts: {
          part: { place: partPlace(smallest.part) },
          ohms: { value: measured.ohms, dimension: "resistance" },
          perVolt: { value: perVolt, dimension: "resistance-per-volt" },
          limit: { value: limit, dimension: "resistance-per-volt" },
          volts: { value: pack.highest, dimension: "voltage" },
        },
        where: [partPlace(smallest.part)],
        states: measured.states,
        value: perVolt,
        limit,
        unit: "ohm/V",
      });
      continue;
    }
    if (missing.length > 0) {
      report.notChecked({
        where: [partPlace(first)],
        reason: "unstated",
        facts: { pack: { place: partPlace(first) } },
        missing,
      });
    } else report.passes(partPlace(first));
  }
}

export const isolationLow = defineCheck({
  id: "isolation-low",
  group: "shock",
  title: "Isolation from the chassis too low",
  about:
    "Works out what the two-reading method would give between the traction circuit and the chassis, from the isolation stated on each part and the resistance of isolation monitors. " +
    "It passes only where every part on the pack states its isolation; a pack that is bolted to the chassis is traction-on-chassis's.",
  severities: ["WARNING", "NOTICE"],
  source: ISOLATION_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    low: {
      title:
        "Between the traction circuit and the chassis there are {ohms}, that is {perVolt} of {volts}, below {limit}; the largest leak is in {part}.",
      why: "Enough current can pass from the vehicle's metal through a person to the pack's other side to injure, and a second leak becomes a short circuit.",
      mend: "Clean and dry {part} and its surroundings, look for chafed cables, and measure again before anyone drives.",
    },
    falling: {
      title:
        "Between the traction circuit and the chassis there are {ohms}, that is {perVolt} of {volts}, below the {limit} that a sound one has; the largest leak is in {part}.",
      why: "It still holds the limit for direct current, but dirt, acid film or damp is building a path that trips earth-leakage devices while charging and will get worse.",
      mend: "Clean and dry {part}, and measure again.",
    },
    ac: {
      title:
        "Between the traction circuit with its three-phase drive and the chassis there are {ohms}, that is {perVolt} of {volts}, below {limit}; the largest leak is in {part}.",
      why: "The phases of the motor carry alternating current on the same metal as the pack, which injures at smaller currents, so that the stricter limit holds.",
      mend: "Clean and dry {part} and its surroundings, look for chafed cables and a damp motor, and measure again before anyone drives.",
    },
  },
  reasons: {
    unstated:
      "Not every part on the pack of {pack} states its isolation from the chassis, so that the whole is not known.",
  },
  foldsUnder: ["traction-on-chassis", "traction-on-auxiliary"],
  run,
});
