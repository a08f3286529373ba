import type { Analysis } from "../../circuit/analysis.ts";
import type { Wire, ZoneKind } from "../../project/document.ts";
import { defineCheck } from "../define.ts";
import { fitGrommets } from "../remedies/state-wire.ts";
import type { MissingField, Report } from "../define.ts";

/** Rooms with walls all round, and who shares them. Engine space, underfloor and outside are open to each other. */
const ROOMS: Readonly<Partial<Record<ZoneKind, string>>> = {
  passenger: "cabin",
  luggage: "cabin",
  "battery-box": "battery box",
};

type Passing = "passes" | "stays" | "unstated";

export const conductorUnprotectedThroughWall = defineCheck({
  id: "conductor-unprotected-through-wall",
  group: "conductors",
  title: "Wire through a wall without grommet or conduit",
  about:
    "Looks at every wire that leaves or enters the cabin or the battery box, or goes through the side of a box of conductive material, and asks for a conduit or for grommets at the walls. It goes by the zones stated for the wire and by where its two ends are.",
  severities: ["CAUTION"],
  source: { text: "Common practice, no source", known: "none" },
  reads: "document",
  withstands: {
    splice: "The part that is put into the wire stands on one side of the wall.",
    busbar: "The part that is put into the wire stands on one side of the wall.",
    connector: "The part that is put into the wire stands on one side of the wall.",
    contact: "The part that is put into the wire stands on one side of the wall.",
    rename: true,
  },
  without: {},
  messages: {
    bare: {
      title: "{wire} passes a wall with neither a grommet nor a conduit.",
      why: "The edge of a hole in sheet metal saws through insulation as the vehicle shakes, and the wire then lies on the chassis.",
      mend: "Fit a grommet or a gland into each hole that it passes, or lead it through the wall in a conduit.",
    },
  },
  reasons: {
    unstated: "{wire} passes a wall, and neither a conduit nor grommets are stated for it.",
    where: "Whether {wire} passes a wall is not known: neither its own zones nor those of its ends say so.",
  },
  run(analysis, report) {
    for (const { wire } of analysis.network.conductors) look(analysis, wire, report);
  },
});

function look(analysis: Analysis, wire: Wire, report: Report): void {
  const place = { wire: wire.id };
  const passing = passesWall(analysis, wire);
  const cable = analysis.network.project.cables.find(({ id }) => id === wire.cable);
  const covered = [wire.conduit, cable?.conduit].some((conduit) => conduit != null && conduit !== "");
  if (passing.how === "stays") report.doesNotApply(place);
  else if (covered || wire.grommets === true) {
    // Whatever it passes, it is protected there.
    if (passing.how === "passes") report.passes(place);
    else report.doesNotApply(place);
  } else if (passing.how === "unstated") {
    report.notChecked({ where: [place], reason: "where", facts: { wire: { place } }, missing: passing.missing });
  } else if (wire.grommets === false) {
    report.fails({
      message: "bare",
      facts: { wire: { place } },
      severity: "CAUTION",
      where: [place],
      remedies: [fitGrommets(wire)],
    });
  } else {
    const missing = ["grommets", "conduit"].map((field): MissingField => ({ wire: wire.id, field }));
    report.notChecked({ where: [place], reason: "unstated", facts: { wire: { place } }, missing });
  }
}

/** By the zones of the wire and of its ends, and by the boxes that its ends are in. */
function passesWall(
  analysis: Analysis,
  wire: Wire,
): { readonly how: Passing; readonly missing: readonly MissingField[] } {
  const { project, partById } = analysis.network;
  const ends = wire.ends.flatMap((end) => (end === null ? [] : (partById.get(end[0])?.part ?? [])));
  const boxes = ends.map(({ enclosure }) => project.enclosures.find(({ id }) => id === enclosure));
  const kindOf = (id: string | undefined): ZoneKind | undefined => project.zones.find((zone) => zone.id === id)?.kind;
  const kinds = [...(wire.zones ?? []), ...ends.flatMap(({ zone }, at) => zone ?? boxes[at]?.zone ?? [])].flatMap(
    (id) => kindOf(id) ?? [],
  );
  const rooms = new Set(kinds.map((kind) => ROOMS[kind] ?? "open"));
  if (rooms.size > 1) return { how: "passes", missing: [] };
  const [a, b] = boxes;
  if (a !== b && [a, b].some((box) => box?.conductive === true)) return { how: "passes", missing: [] };
  if (kinds.length === 0) return { how: "unstated", missing: [{ wire: wire.id, field: "zones" }] };
  const untold = a === b ? [] : [a, b].filter((box) => box !== undefined && typeof box.conductive !== "boolean");
  const missing = untold.flatMap((box): MissingField[] =>
    box === undefined ? [] : [{ enclosure: box.id, field: "conductive" }],
  );
  return { how: missing.length > 0 ? "unstated" : "stays", missing };
}
