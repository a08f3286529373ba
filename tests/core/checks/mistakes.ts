/** One mistake put into a drawing: two ends swapped, a field that nobody filled in. */
import type { Project, WireEnd } from "../../../core/project/document.ts";

function endOf(project: Project, text: string): WireEnd {
  const [designation, terminal] = text.split(":");
  const part = project.parts.find((candidate) => candidate.designation === designation);
  if (part === undefined || terminal === undefined) throw new Error(`no ${text} in this drawing`);
  return [part.id, terminal];
}

/** Everything that was wired to `a` goes to `b` and the other way round. */
export function swapped(project: Project, a: string, b: string): Project {
  const [x, y] = [endOf(project, a), endOf(project, b)];
  const is = (end: WireEnd | null, other: WireEnd): boolean => end?.[0] === other[0] && end[1] === other[1];
  const moved = (end: WireEnd | null): WireEnd | null => (is(end, x) ? y : is(end, y) ? x : end);
  return {
    ...project,
    wires: project.wires.map((wire) => ({ ...wire, ends: [moved(wire.ends[0]), moved(wire.ends[1])] })),
  };
}

/** The field is absent, as if nobody had ever filled it in. */
export function unstated(project: Project, designation: string, ...parameters: readonly string[]): Project {
  return {
    ...project,
    parts: project.parts.map((part) =>
      part.designation !== designation
        ? part
        : {
            ...part,
            parameters: Object.fromEntries(
              Object.entries(part.parameters).filter(([name]) => !parameters.includes(name)),
            ),
          },
    ),
  };
}
