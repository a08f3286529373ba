/** What is written beside a part or wire because the two pictures differ in it: "Suppression: none". */
import { kindOf } from "../../core/parts/catalogue.ts";
import type { Part, Wire } from "../../core/project/document.ts";
import { enclosureName, zoneName } from "./differences.ts";
import type { Keyed } from "./differences.ts";

export interface Statement {
  /** Name of the field. */
  readonly field: string;
  readonly text: string;
}

const NOT_STATED = "not stated";
/** The sheet's own labels show these. */
const WRITTEN_ANYWAY: ReadonlySet<string> = new Set(["size", "colour", "number"]);

export function partStatements(of: Keyed, part: Part, fields?: ReadonlySet<string>): readonly Statement[] {
  const kind = kindOf(part.kind);
  const parameters = Object.entries(part.parameters)
    .filter(([field]) => !isCurve(part, field))
    .map(([field, value]) => ({
      field,
      text: `${kind?.parameters[field]?.title ?? field}: ${value ?? "not known"}`,
    }));
  const wanted = [...(fields ?? [])].filter(
    (field) => kind?.parameters[field] !== undefined && !(field in part.parameters),
  );
  const zone = zoneName(of.project, part.zone);
  const enclosure = enclosureName(of.project, part);
  return [
    ...parameters,
    ...wanted.map((field) => ({ field, text: `${kind?.parameters[field]?.title ?? field}: ${NOT_STATED}` })),
    ...(zone === undefined ? [] : [{ field: "zone", text: `in: ${zone}` }]),
    ...(enclosure === undefined ? [] : [{ field: "enclosure", text: `inside: ${enclosure}` }]),
    ...enclosureStatements(of, part),
    ...(part.face === undefined ? [] : [{ field: "face", text: nearestTerminals(part.face) }]),
    ...(part.panel === undefined
      ? []
      : [{ field: "panel", text: `at ${String(part.panel.x)}, ${String(part.panel.y)} mm` }]),
    ...(part.covers === undefined || part.covers.length === 0
      ? []
      : [{ field: "covers", text: `cover over ${part.covers.join(", ")}` }]),
  ];
}

/** A curve is too long for a picture. */
const isCurve = (part: Part, field: string): boolean => {
  const spec = kindOf(part.kind)?.parameters[field];
  return spec !== undefined && "curve" in spec;
};

function enclosureStatements(of: Keyed, part: Part): readonly Statement[] {
  const enclosure = of.project.enclosures.find(({ id }) => id === part.enclosure);
  if (enclosure === undefined) return [];
  const fields: readonly (readonly [string, string, boolean | null | undefined])[] = [
    ["toolClosed", "opens only with a tool", enclosure.toolClosed],
    ["voltageSign", "high-voltage sign", enclosure.voltageSign],
    ["conductive", "of metal", enclosure.conductive],
  ];
  return fields.map(([field, what, value]) => ({
    field,
    text: `${enclosure.name} ${what}: ${value === undefined ? NOT_STATED : yes(value)}`,
  }));
}

/** The two terminals of a part that lie closest to each other. */
function nearestTerminals(face: NonNullable<Part["face"]>): string {
  const places = Object.entries(face);
  const pairs = places.flatMap(([a, [ax, ay]], index) =>
    places.slice(index + 1).map(([b, [bx, by]]) => ({ names: `${a} and ${b}`, apart: Math.hypot(ax - bx, ay - by) })),
  );
  const [nearest] = pairs.toSorted((p, q) => p.apart - q.apart);
  return nearest === undefined ? "" : `${nearest.names} ${String(Math.round(nearest.apart * 10) / 10)} mm apart`;
}

const yes = (value: boolean | null): string => (value === null ? "not known" : value ? "yes" : "no");

export function wireStatements(of: Keyed, wire: Wire, fields?: ReadonlySet<string>): readonly Statement[] {
  const { insulation, zones, lugs, boots } = wire;
  const cable = of.project.cables.find(({ id }) => id === wire.cable)?.name;
  const lines: readonly (readonly [string, string | undefined])[] = [
    ["length", wire.length === undefined ? undefined : `${wire.length ?? "? m"} long`],
    ["volts", insulation?.volts === undefined ? undefined : `insulation ${insulation.volts ?? "? V"}`],
    [
      "temperature",
      insulation?.temperature === undefined ? undefined : `insulation ${insulation.temperature ?? "? °C"}`,
    ],
    ["material", insulation?.material],
    ["cable", cable === undefined ? undefined : `in cable ${cable}`],
    ["sheath", wire.sheath === undefined ? undefined : `sheathed: ${yes(wire.sheath)}`],
    ["lugs", lugs === undefined ? undefined : `lugs ${lugs.map((hole) => hole ?? "?").join(", ")}`],
    ["boots", boots === undefined ? undefined : `boots: ${boots.map(yes).join(", ")}`],
    [
      "zones",
      zones === undefined || zones.length === 0
        ? undefined
        : `through ${zones.map((id) => zoneName(of.project, id) ?? id).join(", ")}`,
    ],
    ["conduit", wire.conduit === undefined ? undefined : `conduit ${wire.conduit ?? "?"}`],
    ["grommets", wire.grommets === undefined ? undefined : `grommets: ${yes(wire.grommets)}`],
    ["size", wire.size === undefined || wire.size === null ? undefined : wire.size.replace(/mm2/, "mm²")],
    ["colour", wire.colour ?? undefined],
    ["number", wire.number === "" ? "no number" : wire.number],
  ];
  return lines.flatMap(([field, text]) => {
    if (text !== undefined) return [{ field, text }];
    return fields?.has(field) === true ? [{ field, text: `${field} ${NOT_STATED}` }] : [];
  });
}

/** Of one side's statements those that the other side does not make, unless the sheet writes them anyway. */
export function differing(own: readonly Statement[], other: readonly Statement[]): readonly Statement[] {
  const there = new Set(other.map(({ field, text }) => `${field} ${text}`));
  return own.filter(({ field, text }) => text !== "" && !WRITTEN_ANYWAY.has(field) && !there.has(`${field} ${text}`));
}
