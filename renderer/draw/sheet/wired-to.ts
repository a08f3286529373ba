/** Terminals in words: what each is, and what it is wired to. */
import { KINDS } from "../../../core/parts/catalogue.ts";
import type { Project, WireEnd } from "../../../core/project/document.ts";
import { knownPart, partById, wiresAt } from "../../../core/project/lookup.ts";
import { sameEnd } from "./wire-handles.ts";

/** "Q1 coil+, Coil plus" */
export function terminalName(project: Project, [id, terminal]: WireEnd): string {
  const part = partById(project, id);
  if (part === undefined) return terminal;
  const title = knownPart(part, KINDS)?.terminals.find((spec) => spec.id === terminal)?.title ?? "";
  const name = `${part.designation} ${terminal}`;
  return title === "" || title === terminal ? name : `${name}, ${title}`;
}

/** "not wired", or "wired to F1 1 and Q1 2". */
export function wiredTo(project: Project, end: WireEnd): string {
  const others = wiresAt(project, end).map(({ ends: [a, b] }) => {
    const other = a !== null && sameEnd(a, end) ? b : a;
    return other === null ? "a loose end" : `${partById(project, other[0])?.designation ?? other[0]} ${other[1]}`;
  });
  return others.length === 0 ? "not wired" : `wired to ${others.join(" and ")}`;
}
