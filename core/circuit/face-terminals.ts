/** Where a part's terminals lie on its face. */
import type { NetworkPart } from "../network/network.ts";
import type { Face, Values } from "../parts/define.ts";

export interface FaceTerminal {
  readonly id: string;
  readonly x: number;
  readonly y: number;
}

/** By values, which an edit of another part leaves as they are. */
const faces = new WeakMap<Values, Face>();

/** The face of the part's kind: laid out once. */
export function faceOf({ kind, values }: NetworkPart): Face {
  let face = faces.get(values);
  if (face === undefined) faces.set(values, (face = kind.face(values)));
  return face;
}

/** Terminals on the face, those of plugs included: the part's own face wins over its kind's. Millimetres. */
export function faceTerminals(part: NetworkPart): readonly FaceTerminal[] {
  const face = faceOf(part);
  const own = part.part.face ?? {};
  return part.terminals.flatMap((terminal): FaceTerminal[] => {
    const stated = own[terminal.id];
    if (stated !== undefined) return [{ id: terminal.id, x: stated[0], y: stated[1] }];
    const at = face.terminals[terminal.id];
    return at === undefined ? [] : [{ id: terminal.id, x: at.x, y: at.y }];
  });
}
