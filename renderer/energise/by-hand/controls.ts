/** Where every control of the drawing stands in a state, and what setting one by hand leads to. */
import { CONDITIONS, isBuiltIn } from "../../../core/circuit/conditions.ts";
import { positionOf } from "../../../core/network/build.ts";
import { KINDS } from "../../../core/parts/catalogue.ts";
import type { Condition, StateName } from "../../../core/parts/condition.ts";
import { addState } from "../../../core/project/commands/add-state.ts";
import { changeState } from "../../../core/project/commands/change-state.ts";
import { compareNatural } from "../../../core/project/designation.ts";
import type { Project, UserState } from "../../../core/project/document.ts";
import { knownPart } from "../../../core/project/lookup.ts";
import type { EditorStore } from "../../window/editor-store.ts";

export interface ControlRow {
  readonly part: string;
  readonly designation: string;
  /** "Key switch" */
  readonly title: string;
  readonly positions: readonly string[];
  readonly position: string;
  /** Where it stands in the built-in state. */
  readonly built: string;
}

export const ownState = (project: Project, name: StateName): UserState | undefined =>
  project.states.find((state) => state.name === name);

/** By designation; none for a state that the drawing does not know. */
export function controlsIn(project: Project, name: StateName): readonly ControlRow[] {
  const own = ownState(project, name);
  const from = own?.from ?? name;
  if (!isBuiltIn(from)) return [];
  const built: Condition = CONDITIONS[from];
  const now: Condition = own === undefined ? built : { ...built, set: { ...built.set, ...own.set } };
  const rows = project.parts.flatMap((part): ControlRow[] => {
    const known = knownPart(part, KINDS);
    const positions = known?.kind.control?.positions(known.values) ?? [];
    if (known === undefined || positions.length < 2) return [];
    const about = { part, kind: known.kind, values: known.values };
    return [
      {
        part: part.id,
        designation: part.designation,
        title: known.kind.title,
        positions,
        position: positionOf(about, now),
        built: positionOf(about, built),
      },
    ];
  });
  return rows.sort((a, b) => compareNatural(a.designation, b.designation));
}

/** "driving-by-hand", with a number where that is taken. */
function freeName(project: Project, from: string): string {
  const name = `${from}-by-hand`;
  if (ownState(project, name) === undefined) return name;
  let number = 2;
  while (ownState(project, `${name}-${String(number)}`) !== undefined) number += 1;
  return `${name}-${String(number)}`;
}

/** Sets a control in the state that shows. A built-in state stays as it is: a state of the person's own begins. */
export function setControl(store: EditorStore, state: StateName, row: ControlRow, position: string): void {
  const wanted = position === row.built ? null : position;
  if (ownState(store.project, state) !== undefined) {
    store.perform(changeState, { state, set: { [row.part]: wanted } });
    return;
  }
  if (wanted === null) return;
  const name = freeName(store.project, state);
  const before = store.project;
  store.perform(addState, { name, from: state, set: { [row.part]: wanted } });
  if (store.project !== before) store.set({ stateName: name });
}
