import type { Analysis, Pack } from "../../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";
import { clearance, ratedImpulse } from "../../standards/clearance.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { PRACTICE_SOURCE } from "../../standards/working-distances.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place, Report, Source } from "../define.ts";
import { belongingAt, highestOf, isLowVoltageTerminal } from "../../studies/words/belongs.ts";
import { isLive } from "../../studies/words/live.ts";
import { loosePlugs } from "../../studies/words/loose-plugs.ts";
import { distance, missingCover, panels, spotsOf } from "../../studies/words/panel.ts";
import type { Spot } from "../../studies/words/panel.ts";
import { terminalPlace } from "../words/places.ts";

/** A low-voltage contact and how far it reaches (mm): a plug as far as its lead, a fixed terminal the least clearance. */
interface Threat {
  readonly place: Place;
  readonly nodes: readonly NodeIndex[];
  readonly at: NetworkPart;
  readonly x: number;
  readonly y: number;
  readonly reach: number;
  readonly loose: boolean;
  readonly bare: boolean | undefined;
  readonly unstated: MissingField;
}

const METAL: readonly Role[] = ["conductor", "contact", "protection", "shunt", "source"];

function loose(analysis: Analysis, among: ReadonlySet<NetworkPart>): readonly Threat[] {
  return loosePlugs(analysis, among).map(({ lead, part, ...plug }) => ({
    ...plug,
    reach: lead,
    loose: true,
    unstated: { part: part.part.id, parameter: "touchSafe" },
  }));
}

/** Fixed terminals: a distance below the clearance for the pack's voltage, on a dirty vehicle, is none. */
function fixed(analysis: Analysis, spot: Spot, packs: readonly Pack[]): Threat | undefined {
  const node = spot.part.nodes.get(spot.terminal.id);
  if (node === undefined || spot.terminal.form === "pin") return undefined;
  if (!isLowVoltageTerminal(analysis, spot.part, spot.terminal.id)) return undefined;
  const impulse = ratedImpulse(highestOf(packs), 2);
  const least = impulse === undefined ? undefined : clearance(impulse, 3);
  if (least === undefined) return undefined;
  return {
    place: terminalPlace(spot.part, spot.terminal.id),
    nodes: [node],
    at: spot.part,
    x: spot.x,
    y: spot.y,
    reach: least.length * 1000,
    loose: false,
    bare: spot.cover === "unstated" ? undefined : spot.cover === "bare",
    unstated: missingCover(analysis.network.project, spot.part, spot.terminal.id),
  };
}

const CLEARANCE_SOURCE: Source = { text: "IEC 60664-1, tables F.1 and F.2", known: "memory" };

/** The loop that a touch closes: does it lead through a fuse or breaker? undefined: nothing closes it yet. */
function loopDevice(
  analysis: Analysis,
  spot: NodeIndex,
  threat: Threat,
  states: readonly string[],
): boolean | undefined {
  let device: boolean | undefined;
  for (const name of states) {
    const state = analysis.state(name);
    if (state === undefined) continue;
    for (const node of threat.nodes) {
      const way = analysis.path(state, spot, node, { through: METAL });
      if (way === undefined) continue;
      const here = way.some(({ role }) => role === "protection");
      device = device === undefined ? here : device && here;
    }
  }
  return device;
}

function look(analysis: Analysis, report: Report, spot: Spot, threats: readonly Threat[]): void {
  const { network } = analysis;
  const node = spot.part.nodes.get(spot.terminal.id) ?? -1;
  const packs = belongingAt(analysis, node).traction;
  const states = analysis.states
    .filter((state) => packs.some((pack) => isLive(analysis, pack, state, node)))
    .map(({ name }) => name);
  const near = threats
    .filter((threat) => !threat.nodes.some((other) => network.netOfNode[other] === network.netOfNode[node]))
    .map((threat) => ({ threat, apart: distance(spot, threat) }))
    .filter(({ threat, apart }) => apart <= threat.reach);
  const here = terminalPlace(spot.part, spot.terminal.id);
  if (near.length === 0 || spot.cover === "covered" || states.length === 0) {
    report.passes(here);
    return;
  }
  const known = near.filter(({ threat }) => threat.bare === true);
  const [first, ...more] = known;
  if (spot.cover === "bare" && first !== undefined) {
    const { threat, apart } = more.reduce((least, each) => (each.apart < least.apart - 1e-9 ? each : least), first);
    const volts = highestOf(packs);
    const device = loopDevice(analysis, node, threat, states);
    const danger = volts > CLASS_B_DC || device === false;
    report.fails({
      message: threat.loose ? "plug" : "fixed",
      severity: danger ? "DANGER" : "WARNING",
      facts: {
        terminal: { place: here },
        low: { place: threat.place },
        apart: { value: apart / 1000, dimension: "length" },
        reach: { value: threat.reach / 1000, dimension: "length" },
        volts: { value: volts, dimension: "voltage" },
      },
      where: [here, threat.place],
      states,
      value: apart / 1000,
      limit: threat.reach / 1000,
      unit: "m",
      source: threat.loose ? PRACTICE_SOURCE : CLEARANCE_SOURCE,
    });
    return;
  }
  const missing: MissingField[] = [];
  if (spot.cover === "unstated") missing.push(missingCover(network.project, spot.part, spot.terminal.id));
  for (const { threat } of near) {
    if (threat.bare !== undefined) continue;
    if (!missing.some((field) => JSON.stringify(field) === JSON.stringify(threat.unstated)))
      missing.push(threat.unstated);
  }
  if (missing.length === 0) report.passes(here);
  else {
    const low = near[0]?.threat.place ?? here;
    report.notChecked({
      where: [here],
      reason: "cover",
      facts: { terminal: { place: here }, low: { place: low } },
      missing,
    });
  }
}

/** A place of a busbar or strip that is there only because nobody stated how many it has. */
function isAssumed(analysis: Analysis, part: NetworkPart, terminal: string): boolean {
  if (!("positions" in part.kind.parameters) || part.values.stated("positions") === "confirmed") return false;
  return analysis.network.wiresAt([part.part.id, terminal]).length === 0;
}

function run(analysis: Analysis, report: Report): void {
  const reached = (part: NetworkPart): boolean =>
    [...part.nodes.values()].some((node) => belongingAt(analysis, node).traction.length > 0);
  const groups = panels(analysis.network.parts).filter((parts) => parts.some(reached));
  const plugs = loose(analysis, new Set(groups.flat()));
  for (const parts of groups) {
    const here = new Set(parts);
    const spots = parts.flatMap((part) => spotsOf(analysis.network.project, part));
    const traction = spots.filter(({ part, terminal }) => {
      const node = part.nodes.get(terminal.id);
      if (terminal.form === "pin" || node === undefined || isAssumed(analysis, part, terminal.id)) return false;
      return belongingAt(analysis, node).traction.length > 0;
    });
    if (traction.length === 0) continue;
    const packs = [
      ...new Set(
        traction.flatMap(({ part, terminal }) => belongingAt(analysis, part.nodes.get(terminal.id) ?? -1).traction),
      ),
    ];
    const threats = [
      ...plugs.filter(({ at }) => here.has(at)),
      ...spots.flatMap((spot) => fixed(analysis, spot, packs) ?? []),
    ];
    if (threats.length === 0) continue;
    for (const spot of traction) look(analysis, report, spot, threats);
  }
}

export const exposedBesideLowVoltage = defineCheck({
  id: "exposed-beside-low-voltage",
  group: "shock",
  title: "Bare traction terminal within reach of a low-voltage plug",
  about:
    "Looks for bare terminals of the traction circuit that a low-voltage plug touches when it comes off and swings on its lead, or beside which a fixed low-voltage terminal stands closer than the clearance for that voltage. " +
    "It measures on the face of each part and, where both places are stated, between parts on one panel.",
  severities: ["DANGER", "WARNING"],
  source: PRACTICE_SOURCE,
  reads: "states",
  withstands: {
    splice: true,
    busbar: true,
    connector: true,
    contact:
      "a contact in a plug's lead is a part of its own that holds the lead, so that the plug no longer swings from the terminal beyond it",
    rename: true,
  },
  without: {},
  messages: {
    plug: {
      title:
        "The bare terminal {terminal} is {apart} from where the low-voltage plug of {low} hangs, which reaches {reach} on its lead; the pack has up to {volts}.",
      why: "A plug that brushes the terminal while it is pulled off or hangs loose puts the pack on thin signal wires and on everything behind them.",
      mend: "Cover {terminal} with a boot or a fixed cover, shorten or tie down the plug's lead, and disconnect the pack before the plug is touched.",
    },
    fixed: {
      title:
        "The bare terminal {terminal} is only {apart} from the low-voltage terminal {low}, where air must part them by {reach} for up to {volts}.",
      why: "Dirt, damp or one loose strand bridges so small a gap and puts the pack on the 12 V side.",
      mend: "Move the two apart, or cover {terminal} with a boot or a fixed cover.",
    },
  },
  reasons: {
    cover: "{terminal} is within reach of {low}, but nobody stated whether one of them is covered or safe to touch.",
  },
  run,
});
