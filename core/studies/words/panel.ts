/**
 * Where terminals are in the vehicle: on the face of their part, and on a panel where the part's place on it is stated
 * (its face's top left corner, not turned). Millimetres.
 */
import type { NetworkPart } from "../../network/network.ts";
import type { MissingField } from "../missing-field.ts";
import type { Project } from "../../project/document.ts";
import type { TerminalSpec } from "../../parts/define.ts";
import { terminalCover, type Cover } from "../../project/cover.ts";
import { faceTerminals } from "../../circuit/face-terminals.ts";

export interface Spot {
  readonly part: NetworkPart;
  readonly terminal: TerminalSpec;
  readonly x: number;
  readonly y: number;
  readonly cover: Cover;
}

/** The terminals of a part on its face, at its place on the panel if that is stated. */
export function spotsOf(project: Project, part: NetworkPart): readonly Spot[] {
  const { x, y } = part.part.panel ?? { x: 0, y: 0 };
  return faceTerminals(part).flatMap((at): Spot[] => {
    const terminal = part.terminals.find(({ id }) => id === at.id);
    if (terminal === undefined) return [];
    // Asked of few terminals only, and not cheap.
    return [
      {
        part,
        terminal,
        x: x + at.x,
        y: y + at.y,
        get cover() {
          return terminalCover(project, part.part, at.id);
        },
      },
    ];
  });
}

/** Parts that share a panel: one enclosure (or none) and a stated place each. Alone on it, a part is its own panel. */
export function panels(parts: readonly NetworkPart[]): readonly (readonly NetworkPart[])[] {
  const shared = new Map<string, NetworkPart[]>();
  const alone: NetworkPart[][] = [];
  for (const part of parts) {
    if (part.part.panel === undefined) {
      alone.push([part]);
      continue;
    }
    const key = part.part.enclosure ?? "";
    const list = shared.get(key);
    if (list === undefined) shared.set(key, [part]);
    else list.push(part);
  }
  return [...shared.values(), ...alone];
}

export function distance(a: { readonly x: number; readonly y: number }, b: typeof a): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

/** What someone would have to state so that it is known whether this terminal can be touched. */
export function missingCover(project: Project, part: NetworkPart, terminal: string): MissingField {
  const { parameters, enclosure: id } = part.part;
  const finish = parameters[`finish-${terminal}`] ?? parameters["finish"];
  const enclosure = project.enclosures.find((each) => each.id === id);
  if (finish === "bare" && enclosure !== undefined && typeof enclosure.toolClosed !== "boolean") {
    return { enclosure: enclosure.id, field: "toolClosed" };
  }
  return { part: part.part.id, parameter: "finish" };
}
