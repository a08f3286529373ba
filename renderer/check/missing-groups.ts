/** What was not checked, by the field that is missing: one statement often opens several checks. */
import type { MissingField } from "../../core/checks/define.ts";
import type { CheckDocument, JsonPlace } from "../../core/checks/report-json.ts";
import { KINDS } from "../../core/parts/catalogue.ts";
import type { Project } from "../../core/project/document.ts";
import { compareNatural } from "../../core/project/designation.ts";
import { enclosureById, knownPart, partById, zoneById } from "../../core/project/lookup.ts";
import { parameterSpec } from "../../core/project/normalise.ts";
import { fieldOf } from "../draw/facts/ask-for-field.ts";
import { fieldKey } from "../draw/facts/asked.ts";
import { WIRE_WORDS } from "../draw/facts/wire-fields.ts";

/** One field of one thing. */
export interface MissingAt {
  readonly key: string;
  /** What it belongs to, as people call it. */
  readonly thing: string;
  readonly select: { readonly parts?: readonly string[]; readonly wires?: readonly string[] };
  /** Name of the field in the facts. */
  readonly field: string;
  /** Ids of the checks that wait for it. */
  readonly checks: readonly string[];
}

export interface MissingGroup {
  readonly title: string;
  readonly items: readonly MissingAt[];
}

/** Without a field to fill in: a check that broke, or one that lacks more than a statement. */
export interface Unfounded {
  readonly check: string;
  readonly why: string;
  readonly where: readonly JsonPlace[];
}

const OF_PART: Readonly<Record<string, string>> = {
  zone: "Zone",
  enclosure: "Enclosure",
  face: "Face of the part",
  panel: "Place on its panel",
  covers: "Fixed covers",
};
const OF_ENCLOSURE: Readonly<Record<string, string>> = {
  toolClosed: "Opens only with a tool",
  conductive: "Of conductive material",
  voltageSign: "Bears the voltage sign",
};

function titleOf(project: Project, field: MissingField): string {
  if ("part" in field) {
    const part = partById(project, field.part);
    const known = part === undefined ? undefined : knownPart(part, KINDS);
    const spec = known && parameterSpec(known.kind, field.parameter, known.terminalIds);
    return spec?.title ?? OF_PART[field.parameter] ?? field.parameter;
  }
  if ("wire" in field) return `${WIRE_WORDS[field.field]?.title ?? field.field} of wires`;
  if ("enclosure" in field) return `${OF_ENCLOSURE[field.field] ?? field.field}, of an enclosure`;
  if ("zone" in field) return field.field === "ambient" ? "Hottest air of a zone" : `${field.field}, of a zone`;
  return `Title block: ${field.title}`;
}

/** Where a missing value is stated. */
export function placeOf(project: Project, field: MissingField): Omit<MissingAt, "key" | "checks"> {
  if ("part" in field) {
    const thing = partById(project, field.part)?.designation ?? field.part;
    return { thing, select: { parts: [field.part] }, field: field.parameter };
  }
  if ("wire" in field) {
    const thing = project.wires.find(({ id }) => id === field.wire)?.number ?? field.wire;
    return { thing, select: { wires: [field.wire] }, field: field.field };
  }
  if ("enclosure" in field)
    return {
      thing: enclosureById(project, field.enclosure)?.name ?? field.enclosure,
      select: {},
      field: fieldOf(field.enclosure, field.field),
    };
  if ("zone" in field) {
    const zone = zoneById(project, field.zone);
    return { thing: zone?.name ?? zone?.kind ?? field.zone, select: {}, field: fieldOf(field.zone, field.field) };
  }
  return { thing: "Title block", select: {}, field: field.title };
}

export function missingGroups(
  project: Project,
  document: CheckDocument | null,
): { readonly groups: readonly MissingGroup[]; readonly unfounded: readonly Unfounded[] } {
  const groups = new Map<string, Map<string, MissingAt>>();
  const unfounded: Unfounded[] = [];
  for (const { check, fields, why, where } of document?.notChecked ?? []) {
    if (fields.length === 0) unfounded.push({ check, why, where });
    for (const field of fields) {
      const title = titleOf(project, field);
      const items = groups.get(title) ?? new Map<string, MissingAt>();
      groups.set(title, items);
      const key = fieldKey(field);
      const already = items.get(key);
      const checks = new Set([...(already?.checks ?? []), check]);
      items.set(key, { ...(already ?? placeOf(project, field)), key, checks: [...checks] });
    }
  }
  return {
    groups: [...groups].map(([title, items]) => ({
      title,
      items: [...items.values()].sort((a, b) => compareNatural(a.thing, b.thing)),
    })),
    unfounded,
  };
}
