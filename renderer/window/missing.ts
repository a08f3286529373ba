/** What each stage of the job still lacks, in a few words; nothing where nothing is missing. */
import { KINDS } from "../../core/parts/catalogue.ts";
import type { Project } from "../../core/project/document.ts";
import { SEVERITIES } from "../../core/checks/define.ts";
import type { Counts } from "../../core/checks/finding.ts";
import type { Stage } from "./editor-store.ts";

const counted = (count: number, one: string, many: string): string[] =>
  count === 0 ? [] : [`${String(count)} ${count === 1 ? one : many}`];

/** Parameters that have no default and that nobody has stated. */
function unstated(project: Project): number {
  let count = 0;
  for (const part of project.parts) {
    const parameters = KINDS.get(part.kind)?.parameters ?? {};
    for (const [name, spec] of Object.entries(parameters))
      if (spec.default === undefined && part.parameters[name] === undefined) count += 1;
  }
  return count;
}

function plan(project: Project): string[] {
  if (project.parts.length === 0) return ["no part yet"];
  return counted(unstated(project), "value to state", "values to state");
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

function check(counts: Counts | null): string[] {
  if (counts === null) return ["not looked at yet"];
  const worst = SEVERITIES.find((severity) => counts[severity] > 0);
  return [
    ...(worst === undefined ? [] : [`${String(counts[worst])} ${worst}`]),
    ...(counts.notChecked === 0 ? [] : [`${String(counts.notChecked)} not checked`]),
  ];
}

/** Nothing is energised while a finding says that it kills. */
function energise(counts: Counts | null): string[] {
  if (counts === null) return ["after the check"];
  return counts.DANGER === 0 ? [] : [`not with ${String(counts.DANGER)} DANGER`];
}

export function missingAt(stage: Stage, project: Project, counts: Counts | null): string {
  const of: Readonly<Record<Stage, () => string[]>> = {
    plan: () => plan(project),
    draw: () => draw(project),
    check: () => check(counts),
    build: () => build(project),
    energise: () => energise(counts),
  };
  return of[stage]().join(", ");
}
