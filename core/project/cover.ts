/** Whether a person can touch a terminal: the one place that answers it. */
import type { Part, Project } from "./document.ts";
import { enclosureById, wiresAt } from "./lookup.ts";

export type Cover = "covered" | "bare" | "unstated";

/**
 * - covered: the part's finish says booted there, or every lug on it has a boot, or a fixed cover lies over it, or its
 *   enclosure opens only with a tool. One of these is enough.
 * - bare: the finish says bare, none of the above holds, and none of them is left open: the enclosure, if there is one,
 *   states that it opens without a tool, and no lug's boot is stated to be unknown (null).
 * - unstated: everything else. A missing statement is never taken for bare and never for covered.
 */
export function terminalCover(project: Project, part: Part, terminal: string): Cover {
  const finish = finishOf(part, terminal);
  const boots = bootsOf(project, part, terminal);
  const enclosure = part.enclosure === undefined ? undefined : enclosureById(project, part.enclosure);
  if (isBooted(project, part, terminal) || part.covers?.includes(terminal) === true || enclosure?.toolClosed === true) {
    return "covered";
  }
  const enclosureOpen = part.enclosure === undefined || enclosure?.toolClosed === false;
  const bootOpen = boots.some((boot) => boot === null);
  return finish === "bare" && enclosureOpen && !bootOpen ? "bare" : "unstated";
}

/** A boot of its own covers the terminal: its finish says so, or every lug on it has one. */
export function isBooted(project: Project, part: Part, terminal: string): boolean {
  const boots = bootsOf(project, part, terminal);
  return finishOf(part, terminal) === "booted" || (boots.length > 0 && boots.every((boot) => boot === true));
}

/** What is stated of the boot of each lug on a terminal. */
function bootsOf(project: Project, part: Part, terminal: string): readonly (boolean | null | undefined)[] {
  return wiresAt(project, [part.id, terminal]).flatMap((wire) =>
    wire.ends.flatMap((end, side) =>
      end !== null && end[0] === part.id && end[1] === terminal ? [wire.boots?.[side === 0 ? 0 : 1]] : [],
    ),
  );
}

/** The finish stated for this terminal, else the part's. */
function finishOf(part: Part, terminal: string): string | null | undefined {
  const own = `finish-${terminal}`;
  return Object.hasOwn(part.parameters, own) ? part.parameters[own] : part.parameters["finish"];
}
