/** What each stage of the job still lacks, in a few words; nothing where nothing is missing. */
import type { Project } from "../../core/project/document.ts";
import { SEVERITIES } from "../../core/checks/define.ts";
import type { CheckDocument } from "../../core/checks/report-json.ts";
import type { Stage } from "./editor-store.ts";

const counted = (count: number, one: string, many: string): string[] =>
  count === 0 ? [] : [`${String(count)} ${count === 1 ? one : many}`];

/** What somebody has to state before everything can be checked: each field once, however many checks ask for it. */
function plan(project: Project, checked: CheckDocument | null): string[] {
  if (project.parts.length === 0) return ["no part yet"];
  const fields = new Set(checked?.notChecked.flatMap(({ missing }) => missing) ?? []);
  return counted(fields.size, "value to state", "values to state");
}

function draw(project: Project): string[] {
  const loose = project.wires.flatMap(({ ends }) => ends.filter((end) => end === null)).length;
  const unplaced = project.parts.filter(({ views }) => views.length === 0).length;
  return [...counted(loose, "loose end", "loose ends"), ...counted(unplaced, "part not placed", "parts not placed")];
}

function build(project: Project): string[] {
  const sizeless = project.wires.filter(({ size }) => typeof size !== "string").length;
  const lengthless = project.wires.filter(({ length }) => typeof length !== "string").length;
  return [
    ...counted(sizeless, "wire without size", "wires without size"),
    ...counted(lengthless, "without length", "without length"),
  ];
}

function check(checked: CheckDocument | null): string[] {
  if (checked === null) return ["not looked at yet"];
  const { counts } = checked;
  const worst = SEVERITIES.find((severity) => counts[severity] > 0);
  return [
    ...(worst === undefined ? [] : [`${String(counts[worst])} ${worst}`]),
    ...(counts.notChecked === 0 ? [] : [`${String(counts.notChecked)} not checked`]),
  ];
}

/** Nothing is energised while a finding says that it kills. */
function energise(checked: CheckDocument | null): string[] {
  if (checked === null) return ["after the check"];
  const { DANGER } = checked.counts;
  return DANGER === 0 ? [] : [`not with ${String(DANGER)} DANGER`];
}

export function missingAt(stage: Stage, project: Project, checked: CheckDocument | null): string {
  const of: Readonly<Record<Stage, () => string[]>> = {
    plan: () => plan(project, checked),
    draw: () => draw(project),
    check: () => check(checked),
    build: () => build(project),
    energise: () => energise(checked),
  };
  return of[stage]().join(", ");
}
