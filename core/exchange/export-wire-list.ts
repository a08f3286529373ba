/** The drawing as a wire list: the two tables that the importer reads. What the tables have no column for stays behind. */
import type { Part, Project, Wire, WireEnd } from "../project/document.ts";
import { cableById, enclosureById, partById, zoneById } from "../project/lookup.ts";
import { writeCsv } from "./csv.ts";
import { PART_COLUMNS, WIRE_COLUMNS } from "./wire-list-columns.ts";
import type { PartColumn, WireColumn } from "./wire-list-columns.ts";

export interface WireList {
  readonly wires: string;
  readonly parts: string;
  /** What could not be written, in sentences: wires with a loose end, which the list cannot hold. */
  readonly leftOut: readonly string[];
}

/** Writes both tables, every column, parts and wires in the order of the document. */
export function exportWireList(project: Project): WireList {
  const whole = project.wires.filter((wire) => wire.ends.every((end) => end !== null));
  const loose = project.wires.filter((wire) => wire.ends.some((end) => end === null));
  const parts = project.parts.map((part) => {
    const cells = partCells(project, part);
    return PART_COLUMNS.map((column) => cells[column] ?? "");
  });
  const wires = whole.map((wire) => {
    const cells = wireCells(project, wire);
    return WIRE_COLUMNS.map((column) => cells[column] ?? "");
  });
  return {
    wires: writeCsv([WIRE_COLUMNS, ...wires]),
    parts: writeCsv([PART_COLUMNS, ...parts]),
    leftOut: loose.map(
      ({ id, number }) => `Wire ${number === "" ? id : number} has a loose end and is not in the list.`,
    ),
  };
}

type Cells<Column extends string> = Partial<Record<Column, string | undefined>>;

/** The kind, which checks read; a name only where there is no kind to lose. */
function zoneText(project: Project, id: string): string {
  const zone = zoneById(project, id);
  if (zone === undefined) return "";
  return zone.kind === "other" ? (zone.name ?? zone.kind) : zone.kind;
}

function partCells(project: Project, part: Part): Cells<PartColumn> {
  const stated = Object.entries(part.parameters).filter(([, value]) => value !== null);
  return {
    designation: part.designation,
    kind: part.kind,
    parameters: stated.map(([name, value]) => `${name}=${value ?? ""}`).join("; "),
    zone: part.zone === undefined ? undefined : zoneText(project, part.zone),
    enclosure: part.enclosure === undefined ? undefined : enclosureById(project, part.enclosure)?.name,
    x: part.panel?.x.toString(),
    y: part.panel?.y.toString(),
  };
}

function yesNo(value: boolean | null | undefined): string | undefined {
  return value === true ? "yes" : value === false ? "no" : undefined;
}

function wireCells(project: Project, wire: Wire): Cells<WireColumn> {
  const end = (at: WireEnd | null): string =>
    at === null ? "" : `${partById(project, at[0])?.designation ?? ""}:${at[1]}`;
  const { material, volts, temperature } = wire.insulation ?? {};
  return {
    from: end(wire.ends[0]),
    to: end(wire.ends[1]),
    number: wire.number,
    size: wire.size ?? undefined,
    length: wire.length ?? undefined,
    colour: wire.colour ?? undefined,
    insulation: [material, volts, temperature].filter((text) => typeof text === "string").join(" "),
    cable: wire.cable === undefined ? undefined : cableById(project, wire.cable)?.name,
    core: wire.core,
    sheath: yesNo(wire.sheath),
    zone: (wire.zones ?? []).map((id) => zoneText(project, id)).join("; "),
    conduit: wire.conduit ?? undefined,
    "lug-from": wire.lugs?.[0] ?? undefined,
    "lug-to": wire.lugs?.[1] ?? undefined,
    "boot-from": yesNo(wire.boots?.[0]),
    "boot-to": yesNo(wire.boots?.[1]),
    note: wire.note,
  };
}
