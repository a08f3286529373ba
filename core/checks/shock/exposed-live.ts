import type { Analysis } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import { terminalCover } from "../../project/cover.ts";
import type { Cover } from "../../project/cover.ts";
import { compareNatural } from "../../project/designation.ts";
import { probeFor, PROBE_SOURCE } from "../../standards/contact-protection.ts";
import type { Probe } from "../../standards/contact-protection.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { missingCover } from "../../studies/words/panel.ts";
import { defineCheck } from "../define.ts";
import { fitBoots } from "../remedies/cover-terminals.ts";
import type { MissingField, Report } from "../define.ts";
import { workingAt } from "../words/class-b.ts";
import type { WorkingVoltage } from "../words/class-b.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

interface Live {
  readonly part: NetworkPart;
  readonly terminal: string;
  readonly working: WorkingVoltage;
  readonly cover: Cover;
  readonly missing: MissingField;
}

/** A plug's contacts lie inside it; they can be touched when it is apart, unless it is stated to be safe then. */
function coverOf(analysis: Analysis, part: NetworkPart, terminal: string): Pick<Live, "cover" | "missing"> {
  const { project } = analysis.network;
  const cover = terminalCover(project, part.part, terminal);
  if (part.kind.traits.connector !== true) return { cover, missing: missingCover(project, part, terminal) };
  const missing = { part: part.part.id, parameter: "touchSafe" };
  const enclosure = project.enclosures.find(({ id }) => id === part.part.enclosure);
  if (enclosure?.toolClosed === true) return { cover: "covered", missing };
  const safe = part.values.choice("touchSafe");
  return { cover: safe === undefined ? "unstated" : safe === "yes" ? "covered" : "bare", missing };
}

/** Terminals on which class B stands; pins of other parts' plugs lie inside a housing, spare places of a bar do not count. */
function liveTerminals(analysis: Analysis, part: NetworkPart): readonly Live[] {
  const isConnector = part.kind.traits.connector === true;
  const isCounted = part.kind.parameters["positions"] !== undefined;
  return part.terminals.flatMap(({ id, form }): Live[] => {
    const node = part.nodes.get(id);
    if (node === undefined || (form === "pin" && !isConnector)) return [];
    if (isCounted && analysis.network.wiresAt([part.part.id, id]).length === 0) return [];
    const working = workingAt(analysis, node);
    if (working.voltageClass !== "B" && working.voltageClass !== "unstated") return [];
    return [{ part, terminal: id, working, ...coverOf(analysis, part, id) }];
  });
}

const PROBES: Readonly<Record<Probe, string>> = {
  IPXXB: "a finger 12 mm thick (IPXXB)",
  IPXXD: "a wire 1 mm thick (IPXXD)",
};

function fail(analysis: Analysis, report: Report, bare: readonly Live[], enclosure: string): void {
  const { project } = analysis.network;
  const zoneOf = ({ part }: Live): string => {
    const zone = part.part.zone ?? project.enclosures.find(({ id }) => id === part.part.enclosure)?.zone;
    return project.zones.find(({ id }) => id === zone)?.kind ?? "other";
  };
  const isInside = bare.some((each) => probeFor(zoneOf(each)) === "IPXXD");
  const where = bare.map(({ part, terminal }) => terminalPlace(part, terminal));
  const volts = bare.reduce((most, { working }) => Math.max(most, working.volts), 0);
  report.fails({
    message: "bare",
    severity: "DANGER",
    facts: {
      terminals: { places: where },
      volts: { value: volts, dimension: "voltage" },
      limit: { value: CLASS_B_DC, dimension: "voltage" },
      probe: PROBES[isInside ? "IPXXD" : "IPXXB"],
    },
    where,
    value: volts,
    limit: CLASS_B_DC,
    unit: "V",
    variant: enclosure,
    remedies: fitBoots(bare),
  });
}

function lookAtPart(report: Report, part: NetworkPart, live: readonly Live[]): readonly Live[] {
  const place = partPlace(part);
  if (live.length === 0) {
    report.doesNotApply(place);
    return [];
  }
  const open = live.filter(({ cover }) => cover !== "covered");
  const bare = open.filter(({ cover, working }) => cover === "bare" && working.voltageClass === "B");
  if (bare.length > 0) return bare;
  if (open.length === 0) {
    // Covered, and it may not even have to be.
    if (live.some(({ working }) => working.voltageClass === "B")) report.passes(place);
    else report.doesNotApply(place);
    return [];
  }
  const unstated = open.filter(({ cover }) => cover === "unstated");
  const missing = unstated.length > 0 ? unstated.map((each) => each.missing) : open.flatMap((o) => o.working.missing);
  report.notChecked({
    where: [place],
    reason: unstated.length > 0 ? "cover" : "voltage",
    facts: { part: { place } },
    missing: [...new Map(missing.map((field) => [JSON.stringify(field), field])).values()],
  });
  return [];
}

function run(analysis: Analysis, report: Report): void {
  const byEnclosure = new Map<string, Live[]>();
  for (const part of analysis.network.parts) {
    const bare = lookAtPart(report, part, liveTerminals(analysis, part));
    const enclosure = part.part.enclosure ?? "";
    byEnclosure.set(enclosure, [...(byEnclosure.get(enclosure) ?? []), ...bare]);
  }
  for (const [enclosure, bare] of byEnclosure) {
    if (bare.length === 0) continue;
    bare.sort((a, b) => compareNatural(a.part.part.id, b.part.part.id) || compareNatural(a.terminal, b.terminal));
    fail(analysis, report, bare, enclosure);
  }
}

export const exposedLive = defineCheck({
  id: "exposed-live",
  group: "shock",
  title: "Live terminal that can be touched",
  about:
    "Looks at every terminal on which a traction pack of more than 60 V stands in some operating state: it needs a boot, a fixed cover or an enclosure that opens with a tool only, and a connector must be safe to touch when it is apart. " +
    "It takes the drawing's word for a boot or cover: whether a finger (in passenger and luggage spaces a wire) gets past it must be tried on the vehicle. Pins of plugs count as covered.",
  severities: ["DANGER"],
  source: PROBE_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    bare: {
      title:
        "Bare and within reach of a hand: {terminals}, with up to {volts}; above {limit} no live part may be reached by {probe}.",
      why: "Whoever touches such a terminal and the other pole, or the vehicle's metal while something leaks, gets a shock that can kill, and a dropped tool makes an arc.",
      mend: "Fit boots or a fixed cover over the bare metal, or put the parts into an enclosure that opens with a tool only; use a connector that is safe to touch when it is apart.",
    },
  },
  reasons: {
    cover: "The traction circuit stands on {part}, and nobody stated whether its terminals are covered.",
    voltage:
      "{part} has bare terminals; whether more than 60 V stand on them cannot be told while the chemistry of the battery is not stated.",
  },
  foldsUnder: ["exposed-beside-low-voltage"],
  run,
});
