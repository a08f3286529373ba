/** What is missing, as the window leads to it: the groups of core/documents/missing-groups.ts with what to select. */
import type { MissingField } from "../../core/checks/define.ts";
import type { CheckDocument } from "../../core/checks/report-json.ts";
import { missingGroups as coreGroups } from "../../core/documents/missing-groups.ts";
import type { MissingGroup as CoreGroup, MissingItem, Unfounded } from "../../core/documents/missing-groups.ts";
import type { Project } from "../../core/project/document.ts";
import { fieldOf } from "../draw/facts/ask-for-field.ts";

interface Stated {
  readonly select: { readonly parts?: readonly string[]; readonly wires?: readonly string[] };
  /** Name of the field in the facts. */
  readonly field: string;
}

/** One field of one thing. */
export interface MissingAt extends Omit<MissingItem, "field">, Stated {}

interface MissingGroup extends Omit<CoreGroup, "items"> {
  readonly items: readonly MissingAt[];
}

/** Where a missing value is stated. */
export function placeOf(field: MissingField): Stated {
  if ("part" in field) return { select: { parts: [field.part] }, field: field.parameter };
  if ("wire" in field) return { select: { wires: [field.wire] }, field: field.field };
  if ("enclosure" in field) return { select: {}, field: fieldOf(field.enclosure, field.field) };
  if ("zone" in field) return { select: {}, field: fieldOf(field.zone, field.field) };
  return { select: {}, field: field.title };
}

export function missingGroups(
  project: Project,
  document: CheckDocument | null,
): { readonly groups: readonly MissingGroup[]; readonly unfounded: readonly Unfounded[] } {
  const { groups, unfounded } = coreGroups(project, document?.notChecked ?? []);
  return {
    groups: groups.map(({ title, items }) => ({
      title,
      items: items.map(({ field, ...item }) => ({ ...item, ...placeOf(field) })),
    })),
    unfounded,
  };
}
