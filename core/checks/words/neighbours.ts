/**
 * Neighbouring terminals: consecutive pins of one row of a plug or strip, or terminals of one part at most 35 mm
 * apart on its face and not both booted (common practice, no source).
 */
import type { NetworkPart } from "../../network/network.ts";
import { terminalCover } from "../../project/cover.ts";
import type { Project } from "../../project/document.ts";

export const NEIGHBOUR_DISTANCE = 35;

export interface Neighbours {
  readonly a: string;
  readonly b: string;
  /** mm on the face; undefined for pins of one row. */
  readonly distance: number | undefined;
}

export function neighbours(project: Project, part: NetworkPart): readonly Neighbours[] {
  const found: Neighbours[] = [];
  const rows = new Map<string, string[]>();
  for (const terminal of part.terminals) {
    if (terminal.row !== undefined) rows.set(terminal.row, [...(rows.get(terminal.row) ?? []), terminal.id]);
  }
  for (const ids of rows.values()) {
    for (let i = 1; i < ids.length; i++) found.push({ a: ids[i - 1] ?? "", b: ids[i] ?? "", distance: undefined });
  }
  const face = faceTerminals(part);
  for (let i = 0; i < face.length; i++) {
    for (let j = i + 1; j < face.length; j++) {
      const [a, b] = [face[i], face[j]];
      if (a === undefined || b === undefined) continue;
      const distance = Math.hypot(a.x - b.x, a.y - b.y);
      if (distance > NEIGHBOUR_DISTANCE) continue;
      if (
        terminalCover(project, part.part, a.id) === "covered" &&
        terminalCover(project, part.part, b.id) === "covered"
      )
        continue;
      found.push({ a: a.id, b: b.id, distance });
    }
  }
  return found;
}

export interface FaceTerminal {
  readonly id: string;
  readonly x: number;
  readonly y: number;
}

/** Terminals on the face that are no plug pins: the part's own face wins over its kind's. */
export function faceTerminals(part: NetworkPart): readonly FaceTerminal[] {
  const face = part.kind.face(part.values);
  const own = part.part.face ?? {};
  return part.terminals.flatMap((terminal): FaceTerminal[] => {
    const stated = own[terminal.id];
    if (stated !== undefined) return [{ id: terminal.id, x: stated[0], y: stated[1] }];
    const at = face.terminals[terminal.id];
    return at === undefined ? [] : [{ id: terminal.id, x: at.x, y: at.y }];
  });
}
