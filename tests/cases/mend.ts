/** The few edits that mend a drawn trouble: fields of a part or wire, a wire taken away or led elsewhere, two terminals exchanged. */
import type { Part, Project, Wire, WireEnd } from "../../core/project/document.ts";

export type Edit =
  | { readonly part: string; readonly set: Readonly<Record<string, string>> }
  | { readonly wire: string; readonly set: Partial<Wire> }
  | { readonly wire: string; readonly remove: true }
  /** It goes from here to there. */
  | { readonly wire: string; readonly ends: readonly [string, string] }
  /** What is on one terminal goes to the other. */
  | { readonly exchange: readonly [string, string] };

const partOf = (project: Project, designation: string): Part => {
  const found = project.parts.find((part) => part.designation === designation);
  if (found === undefined) throw new Error(`no part ${designation}`);
  return found;
};

function endOf(project: Project, text: string): WireEnd {
  const [designation = "", terminal = ""] = text.split(":");
  return [partOf(project, designation).id, terminal];
}

const isAt = (end: WireEnd | null, [part, terminal]: WireEnd): boolean => end?.[0] === part && end[1] === terminal;

function mendOne(project: Project, edit: Edit): Project {
  if ("part" in edit) {
    const { id } = partOf(project, edit.part);
    const set = (part: Part): Part => ({ ...part, parameters: { ...part.parameters, ...edit.set } });
    return { ...project, parts: project.parts.map((part) => (part.id === id ? set(part) : part)) };
  }
  if ("exchange" in edit) {
    const [a, b] = [endOf(project, edit.exchange[0]), endOf(project, edit.exchange[1])];
    const swap = (end: WireEnd | null): WireEnd | null => (isAt(end, a) ? b : isAt(end, b) ? a : end);
    return {
      ...project,
      wires: project.wires.map((wire) => ({ ...wire, ends: [swap(wire.ends[0]), swap(wire.ends[1])] })),
    };
  }
  if (!project.wires.some(({ number }) => number === edit.wire)) throw new Error(`no wire ${edit.wire}`);
  return {
    ...project,
    wires: project.wires.flatMap((wire): readonly Wire[] => {
      if (wire.number !== edit.wire) return [wire];
      if ("remove" in edit) return [];
      if ("set" in edit) return [{ ...wire, ...edit.set }];
      return [{ ...wire, ends: [endOf(project, edit.ends[0]), endOf(project, edit.ends[1])] }];
    }),
  };
}

export function mend(project: Project, edits: readonly Edit[]): Project {
  return edits.reduce(mendOne, project);
}
