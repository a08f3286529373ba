/** What was not checked, by the field that is missing: one statement often opens several checks. */
import type { MissingField } from "../checks/define.ts";
import type { CheckDocument, JsonPlace } from "../checks/report-json.ts";
import { KINDS } from "../parts/catalogue.ts";
import { compareNatural } from "../project/designation.ts";
import type { Project } from "../project/document.ts";
import { fieldTitle } from "../project/field-titles.ts";
import { enclosureById, knownPart, partById, zoneById } from "../project/lookup.ts";
import { parameterSpec } from "../project/normalise.ts";

/** One field of one thing. */
export interface MissingItem {
  readonly key: string;
  readonly field: MissingField;
  /** What it belongs to, as people call it. */
  readonly thing: string;
  /** Ids of the checks that wait for it. */
  readonly checks: readonly string[];
}

export interface MissingGroup<Item extends MissingItem = MissingItem> {
  readonly title: string;
  readonly items: readonly Item[];
}

/** Without a field to fill in: a check that broke, or one that lacks more than a statement. */
export interface Unfounded {
  readonly check: string;
  readonly why: string;
  readonly where: readonly JsonPlace[];
}

/** One text for one field of one thing. */
export function fieldKey(field: MissingField): string {
  if ("part" in field) return `${field.part} ${field.parameter}`;
  if ("wire" in field) return `${field.wire} ${field.field}`;
  if ("enclosure" in field) return `${field.enclosure} ${field.field}`;
  if ("zone" in field) return `${field.zone} ${field.field}`;
  return `title ${field.title}`;
}

function titleOf(project: Project, field: MissingField): string {
  if ("part" in field) {
    const part = partById(project, field.part);
    const known = part === undefined ? undefined : knownPart(part, KINDS);
    const spec = known && parameterSpec(known.kind, field.parameter, known.terminalIds);
    return spec?.title ?? fieldTitle("part", field.parameter);
  }
  if ("wire" in field) return `${fieldTitle("wire", field.field)} of wires`;
  if ("enclosure" in field) return `${fieldTitle("enclosure", field.field)}, of an enclosure`;
  if ("zone" in field) return `${fieldTitle("zone", field.field)} of a zone`;
  return `Title block: ${field.title}`;
}

/** The part, wire, enclosure or zone that a field belongs to, as people call it. */
export function thingOf(project: Project, field: MissingField): string {
  if ("part" in field) return partById(project, field.part)?.designation ?? field.part;
  if ("wire" in field) return project.wires.find(({ id }) => id === field.wire)?.number ?? field.wire;
  if ("enclosure" in field) return enclosureById(project, field.enclosure)?.name ?? field.enclosure;
  if ("zone" in field) {
    const zone = zoneById(project, field.zone);
    return zone?.name ?? zone?.kind ?? field.zone;
  }
  return "Title block";
}

export function missingGroups(
  project: Project,
  notChecked: CheckDocument["notChecked"],
): { readonly groups: readonly MissingGroup[]; readonly unfounded: readonly Unfounded[] } {
  const groups = new Map<string, Map<string, MissingItem>>();
  const unfounded: Unfounded[] = [];
  for (const { check, fields, why, where } of notChecked) {
    if (fields.length === 0) unfounded.push({ check, why, where });
    for (const field of fields) {
      const title = titleOf(project, field);
      const items = groups.get(title) ?? new Map<string, MissingItem>();
      groups.set(title, items);
      const key = fieldKey(field);
      const checks = new Set([...(items.get(key)?.checks ?? []), check]);
      items.set(key, { key, field, thing: thingOf(project, field), checks: [...checks] });
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
