/**
 * Ends of wires that go on elsewhere: a short line out of the terminal and, at its tip, the sheet and zone where the
 * wire goes on ("2/B4"), or what is known of an end that is drawn nowhere.
 */
import type { Box } from "../geometry/display.ts";
import type { WireId } from "../project/document.ts";
import type { Millimetre } from "../quantity/kinds.ts";
import { overlap } from "../geometry/boxes.ts";
import type { Side } from "../geometry/placements.ts";
import type { PlacedPin } from "./placed-view.ts";
import { lineBox, type TextLine } from "./text-line.ts";

export interface Stub {
  readonly wire: WireId;
  readonly path: readonly (readonly [Millimetre, Millimetre])[];
  readonly text: TextLine;
}

const OUT: Readonly<Record<Side, readonly [number, number]>> = {
  left: [-1, 0],
  right: [1, 0],
  up: [0, -1],
  down: [0, 1],
};
/** How far a stub goes straight out, then aside, then out again, mm: the first way whose text is clear is taken. */
const WAYS: readonly (readonly [out: number, aside: number, more: number])[] = [
  [7.5, 0, 0],
  [12.5, 0, 0],
  [5, 5, 5],
  [5, -5, 5],
  [5, 10, 5],
  [5, -10, 5],
  [7.5, 5, 10],
  [7.5, -5, 10],
  [5, 15, 5],
  [5, -15, 5],
  [20, 0, 0],
];

/** A stub out of the pin. `texts` and `parts` are what its text must not cover. */
export function stubAt(
  wire: WireId,
  pin: PlacedPin,
  words: string,
  room: {
    readonly area: Box;
    readonly parts: readonly Box[];
    readonly texts: readonly Box[];
    readonly taken: (x: number, y: number) => boolean;
  },
): Stub {
  const made = WAYS.map((way) => stubOn(wire, pin, words, way));
  const clear = made.find((stub) => {
    const box = lineBox(stub.text);
    const inside =
      box.x >= room.area.x &&
      box.y >= room.area.y &&
      box.x + box.width <= room.area.x + room.area.width &&
      box.y + box.height <= room.area.y + room.area.height;
    const line = stub.path.slice(1).some(([x, y]) => room.taken(x, y));
    return inside && !line && ![...room.parts, ...room.texts].some((other) => overlap(box, other, 0.4));
  });
  return clear ?? (made[0] as Stub);
}

function stubOn(
  wire: WireId,
  pin: PlacedPin,
  words: string,
  [out, aside, more]: readonly [number, number, number],
): Stub {
  const [dx, dy] = OUT[pin.side];
  const path: [number, number][] = [[pin.x, pin.y]];
  let [x, y] = [pin.x + dx * out, pin.y + dy * out];
  path.push([x, y]);
  if (aside !== 0) {
    x += dy * aside;
    y += dx * aside;
    path.push([x, y]);
    x += dx * more;
    y += dy * more;
    path.push([x, y]);
  }
  const gap = 1;
  const text: TextLine =
    dx !== 0
      ? { text: words, x: x + dx * gap, y: y + 0.9, size: 2.5, anchor: dx > 0 ? "start" : "end" }
      : { text: words, x: x + 0.9, y: y + dy * gap, size: 2.5, anchor: dy > 0 ? "end" : "start", turn: 270 };
  return { wire, path, text };
}
