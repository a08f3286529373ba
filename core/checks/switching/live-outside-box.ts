import type { Analysis, Pack, SolvedState } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import type { ZoneKind } from "../../project/document.ts";
import { compareNatural } from "../../project/designation.ts";
import { reachedBy, tractionPacks } from "../../studies/words/live.ts";
import { defineCheck } from "../define.ts";
import type { Failure, MissingField, Place, Report } from "../define.ts";
import { placeId } from "../finding.ts";
import { partPlace } from "../words/places.ts";

export const liveOutsideBox = defineCheck({
  id: "live-outside-box",
  group: "switching",
  title: "Live outside the battery box with the disconnect out",
  about:
    "Lists the parts outside the battery box that are still joined to a traction pack in *stored*, when every disconnect is out: through metal, closed contacts, fuses, resistors and loads. A drawing without a disconnect has no such state. Meters and leaks do not count.",
  severities: ["NOTICE"],
  source: { text: "Common practice, no source", known: "none" },
  reads: "states",
  withstands: {
    splice: "The part that is put into the wire is in no zone.",
    busbar: "The part that is put into the wire is in no zone.",
    connector: "The part that is put into the wire is in no zone.",
    contact: "The part that is put into the wire is in no zone.",
    rename: true,
  },
  without: {},
  messages: {
    live: {
      title: "With the disconnect out, the pack ({volts}) still reaches {parts} outside the battery box.",
      why: "Whoever pulls the disconnect takes everything outside the box for dead, in the workshop as after a crash.",
      mend: "Take their feed from behind the disconnect, or put them and their fuse into the battery box.",
    },
  },
  reasons: { zone: "In which zone {part} is, which stays on the pack with the disconnect out, is not stated." },
  foldsUnder: ["charger-live-at-disconnect", "precharge-bypasses-switch", "disconnect-missing"],
  run(analysis, report) {
    const stored = analysis.state("stored");
    // What joins a string in its middle makes two packs of it that reach the same parts: told once, at the higher voltage.
    const found = new Map<string, Failure>();
    for (const pack of tractionPacks(analysis)) {
      if (stored === undefined) report.doesNotApply(...pack.blocks.slice(0, 1).map(partPlace));
      else {
        const failure = look(analysis, pack, stored, report);
        const key = (failure?.where ?? []).map(placeId).join(" ");
        if (failure !== undefined && (failure.value ?? 0) > (found.get(key)?.value ?? 0)) found.set(key, failure);
      }
    }
    for (const failure of found.values()) report.fails(failure);
  },
});

function look(analysis: Analysis, pack: Pack, stored: SolvedState, report: Report): Failure | undefined {
  const { withLoads } = reachedBy(analysis, pack, stored);
  const live = analysis.network.parts.filter(
    (part) =>
      !pack.blocks.includes(part) &&
      part.terminals.some(({ id }) => {
        const node = part.nodes.get(id);
        return node !== undefined && withLoads.has(node) && analysis.network.wiresAt([part.part.id, id]).length > 0;
      }),
  );
  const zoned = live.map((part) => ({ part, zone: zoneOf(analysis, part) }));
  const outside = zoned
    .filter(({ zone }) => zone !== undefined && zone !== "battery-box")
    .map(({ part }) => part)
    .sort((a, b) => compareNatural(a.part.id, b.part.id));
  const untold = zoned.filter(({ zone }) => zone === undefined).map(({ part }) => part);
  for (const part of untold) {
    const missing: readonly MissingField[] = [{ part: part.part.id, parameter: "zone" }];
    report.notChecked({
      where: [partPlace(part)],
      reason: "zone",
      facts: { part: { place: partPlace(part) } },
      missing,
    });
  }
  if (outside.length > 0) {
    const parts = outside.map(partPlace);
    const volts = pack.rest;
    return {
      message: "live",
      facts: { parts: { places: parts }, volts: { value: volts, dimension: "voltage" } },
      severity: "NOTICE",
      where: parts,
      states: ["stored"],
      value: volts,
      unit: "V",
      touches: pack.blocks.map((block): Place => partPlace(block)),
    };
  }
  if (untold.length === 0) report.passes(...pack.blocks.slice(0, 1).map(partPlace));
  return undefined;
}

/** Its own zone, or that of the box it is in. */
function zoneOf({ network: { project } }: Analysis, { part }: NetworkPart): ZoneKind | undefined {
  const id = part.zone ?? project.enclosures.find((box) => box.id === part.enclosure)?.zone;
  return project.zones.find((zone) => zone.id === id)?.kind;
}
