/** What commands need to know about terminals: that one exists, and what hangs on those that go. */
import type { Draft } from "immer";
import type { Part, Project, WireEnd } from "../document.ts";
import { knownPart, partById } from "../lookup.ts";
import type { Kinds } from "../lookup.ts";
import { choiceOf } from "../nearest.ts";
import { entryAt, Refused } from "./define.ts";

/** Throws Refused unless the part is there and has this terminal. */
export function requireTerminal(project: Project, [id, terminal]: WireEnd, kinds: Kinds): void {
  const part = partById(project, id);
  if (part === undefined) throw new Refused(`There is no part with id ${id}. Choose a part of the drawing.`);
  const known = knownPart(part, kinds);
  if (known === undefined || !known.terminalIds.has(terminal)) {
    const choice = known === undefined ? "" : ` ${choiceOf(terminal, known.terminalIds)}`;
    throw new Refused(`${part.designation} (${part.kind}) has no terminal ${terminal}.${choice}`);
  }
}

/** Ends on terminals that go become loose; names of nets found by such a terminal go with it. */
export function loosenEnds(draft: Draft<Project>, before: Project, gone: (end: WireEnd) => boolean): void {
  before.wires.forEach((wire, index) => {
    const [a, b] = wire.ends;
    if (a !== null && gone(a)) entryAt(draft.wires, index).ends[0] = null;
    if (b !== null && gone(b)) entryAt(draft.wires, index).ends[1] = null;
  });
  if (before.netNames.some(({ at }) => gone(at))) {
    draft.netNames = draft.netNames.filter(({ at }) => !gone(at));
  }
}

/** After a change of parameters: what referred to terminals, views or positions that the part no longer has goes. */
export function settlePart(draft: Draft<Project>, before: Project, changed: Part, index: number, kinds: Kinds): void {
  const known = knownPart(changed, kinds);
  if (known === undefined) return;
  const gone = (terminal: string): boolean => !known.terminalIds.has(terminal);
  loosenEnds(draft, before, ([id, terminal]) => id === changed.id && gone(terminal));
  const part = entryAt(draft.parts, index);
  if (changed.covers?.some(gone) === true) part.covers = changed.covers.filter((terminal) => !gone(terminal));
  for (const terminal of Object.keys(changed.face ?? {})) if (gone(terminal)) delete part.face?.[terminal];
  for (const name of Object.keys(changed.parameters)) {
    const finish = name.startsWith("finish-") && !Object.hasOwn(known.kind.parameters, name);
    if (finish && gone(name.slice("finish-".length))) delete part.parameters[name];
  }
  const views = new Set(known.views().map((view) => view.id));
  if (changed.views.some(({ view }) => !views.has(view))) {
    part.views = part.views.filter(({ view }) => views.has(view));
  }
  const positions = known.kind.control?.positions(known.values) ?? [];
  before.states.forEach((state, at) => {
    const position = state.set[changed.id];
    if (position !== undefined && !positions.includes(position)) delete entryAt(draft.states, at).set[changed.id];
  });
}
