/** Where a part's terminals lie on its face. */
import type { NetworkPart } from "../network/network.ts";

export interface FaceTerminal {
  readonly id: string;
  readonly x: number;
  readonly y: number;
}

/** Terminals on the face, those of plugs included: the part's own face wins over its kind's. Millimetres. */
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
