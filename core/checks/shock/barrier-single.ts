import type { Analysis } from "../../circuit/analysis.ts";
import { barriersOf } from "../../circuit/barriers.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";
import { compareNatural } from "../../project/designation.ts";
import { PRACTICE_SOURCE } from "../../standards/working-distances.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import { chemistryRange } from "../words/chemistry-range.ts";
import { workingAt } from "../words/class-b.ts";
import { joinedIn, METAL } from "../words/joined.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

interface Held {
  readonly part: NetworkPart;
  /** Wired terminals of the side that the pack does not stand on. */
  readonly far: readonly string[];
  readonly near: readonly string[];
}

/** Barriers of converters, chargers and serial ports that hold the pack back from something else. */
function heldBarriers(analysis: Analysis, part: NetworkPart): readonly Held[] {
  const { converter, charger } = part.kind.traits;
  const isWired = (id: string): boolean => analysis.network.wiresAt([part.part.id, id]).length > 0;
  const isLive = (id: string): boolean => {
    const node = part.nodes.get(id);
    return node !== undefined && workingAt(analysis, node).voltageClass !== "none";
  };
  return barriersOf(part).flatMap(({ parameter, joined, sides }): Held[] => {
    if (converter !== true && charger !== true && parameter !== "serialIsolated") return [];
    const choice = part.values.choice(parameter);
    if ((choice === undefined && joined.length > 0) || (choice !== undefined && joined.includes(choice))) return [];
    const [a, b] = sides.map((side) => side.filter((id) => part.nodes.has(id) && isWired(id)));
    if (a === undefined || b === undefined || a.some(isLive) === b.some(isLive)) return [];
    return [b.some(isLive) ? { part, far: a, near: b } : { part, far: b, near: a }];
  });
}

/** The 12 V battery lies in the way to the devices at its plus. */
const THROUGH_BATTERIES: ReadonlySet<Role> = new Set<Role>([...METAL, "source"]);

/** Nodes that metal, closed contacts and batteries join to the far side in some state. */
function beyond(analysis: Analysis, { part, far }: Held): ReadonlySet<NodeIndex> {
  const starts = far.flatMap((id) => part.nodes.get(id) ?? []);
  const nodes = new Set<NodeIndex>();
  for (const state of analysis.states) {
    const metal = joinedIn(analysis, state, THROUGH_BATTERIES);
    const islands = new Set(starts.map((node) => metal.find(node)));
    for (let node = 0; node < analysis.network.nodeCount; node += 1) if (islands.has(metal.find(node))) nodes.add(node);
  }
  return nodes;
}

/** A clamp from one end of the far side to another takes a breakthrough up until its fuse has blown. */
function isClamped(analysis: Analysis, held: Held, nodes: ReadonlySet<NodeIndex>): boolean {
  const [state] = analysis.states;
  return analysis.network.branches.some(({ a, b, index, part }) => {
    if (part === held.part || state?.elements[index]?.type !== "clamp") return false;
    // Driver outputs clamp their own coils and nothing else.
    return part?.kind.group === "protection" && nodes.has(a) && nodes.has(b);
  });
}

function look(analysis: Analysis, report: Report, held: Held): void {
  const { part, near, far } = held;
  const place = terminalPlace(part, far[0] ?? "");
  const packs = near.flatMap((id) => {
    const node = part.nodes.get(id);
    return node === undefined ? [] : workingAt(analysis, node).packs;
  });
  const { least, most, missing } = chemistryRange([...new Set(packs)]);
  const nodes = beyond(analysis, held);
  const isBeyond = (node: NodeIndex): boolean => nodes.has(node) && workingAt(analysis, node).voltageClass === "none";
  const devices = analysis.network.parts
    .filter(({ kind }) => kind.traits.device !== undefined)
    .filter((device) => device.terminals.some(({ id }) => isBeyond(device.nodes.get(id) ?? -1)))
    .sort((one, other) => compareNatural(one.part.id, other.part.id));
  const ratingOf = (device: NetworkPart): number | undefined => device.values.number("voltageDc");
  const weak = devices.filter((device) => (ratingOf(device) ?? Infinity) < least);
  const unrated = devices.filter((device) => ratingOf(device) === undefined);
  const unsure = devices.filter((device) => (ratingOf(device) ?? Infinity) < most);
  const facts = {
    part: { place: partPlace(part) },
    devices: { places: weak.map(partPlace) },
    volts: { value: least, dimension: "voltage" },
  } as const;
  if (devices.length === 0 || isClamped(analysis, held, nodes)) report.passes(place);
  else if (weak.length > 0) {
    const limit = weak.reduce((lowest, device) => Math.min(lowest, ratingOf(device) ?? lowest), Infinity);
    report.fails({
      message: "single",
      severity: "NOTICE",
      facts: { ...facts, limit: { value: limit, dimension: "voltage" } },
      where: [place, ...weak.map(partPlace)],
      value: least,
      limit,
      unit: "V",
    });
  } else if (unrated.length > 0) {
    const fields = unrated.map((device): MissingField => ({ part: device.part.id, parameter: "voltageDc" }));
    report.notChecked({ where: [place], reason: "rating", facts, missing: fields });
  } else if (unsure.length > 0) report.notChecked({ where: [place], reason: "chemistry", facts, missing });
  else report.passes(place);
}

export const barrierSingle = defineCheck({
  id: "barrier-single",
  group: "shock",
  title: "One barrier between pack and 12 V side",
  about:
    "Looks at the insulation inside converters, chargers and serial ports that alone keeps the traction pack away from the 12 V side: if it fails, the pack's voltage comes onto that side, and the fuses and breakers there have to stand it when they open. " +
    "A suppressor across the low-voltage side counts as a second means. Batteries that burst and lamps that burn before a fuse opens are not looked at.",
  severities: ["NOTICE"],
  source: PRACTICE_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    single: {
      title:
        "Only the insulation inside {part} keeps up to {volts} off the 12 V side, whose devices ({devices}) are made for as little as {limit}.",
      why: "If that insulation fails, the fuses on the 12 V side cannot break the pack's voltage: the arc inside them goes on, and wires and battery burn.",
      mend: "Fuse the pack's side of {part} as small as it allows, and fit a suppressor across its low-voltage side or fuses there that are made for the pack's voltage.",
    },
  },
  reasons: {
    rating: "What direct voltage the devices on the low-voltage side of {part} can break is not stated.",
    chemistry:
      "Whether the devices on the low-voltage side of {part} stand the pack's voltage cannot be told while the chemistry of the battery is not stated.",
  },
  run(analysis, report) {
    for (const part of analysis.network.parts) {
      const held = heldBarriers(analysis, part);
      for (const each of held) look(analysis, report, each);
      if (held.length === 0 && barriersOf(part).length > 0) report.doesNotApply(partPlace(part));
    }
  },
});
