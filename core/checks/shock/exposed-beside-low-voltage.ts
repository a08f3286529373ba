import type { Analysis } from "../../circuit/analysis.ts";
import type { NodeIndex } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { PRACTICE_SOURCE } from "../../standards/working-distances.ts";
import { lowVoltageReaches } from "../../studies/reach.ts";
import type { LowVoltageReach, Threat } from "../../studies/reach.ts";
import { highestOf } from "../../studies/words/belongs.ts";
import { missingCover } from "../../studies/words/panel.ts";
import { defineCheck } from "../define.ts";
import { fitBoots } from "../remedies/cover-terminals.ts";
import type { MissingField, Report, Source } from "../define.ts";
import { terminalPlace } from "../words/places.ts";

const METAL: readonly Role[] = ["conductor", "contact", "protection", "shunt", "source"];

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

function look(analysis: Analysis, report: Report, { spot, node, packs, states, near }: LowVoltageReach): void {
  const { network } = analysis;
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
      remedies: fitBoots([{ part: spot.part, terminal: spot.terminal.id }]),
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

function run(analysis: Analysis, report: Report): void {
  for (const reach of lowVoltageReaches(analysis)) look(analysis, report, reach);
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
