/**
 * Where things lie on the paper that shows, and where the paper lies on the screen. The sheet tells the first; what is
 * drawn over it (numbers of notes, cards) asks, without looking for elements one by one.
 */
import type { Point } from "../../core/geometry/display.ts";
import type { EditorStore } from "./editor-store.ts";

/** A place beside which something may stand: mm of paper, and pixels from there whatever the zoom. */
export interface Anchor extends Point {
  readonly aside: Point;
}

/** By key: "p12" a part, "p12:+" a terminal, "w3" a wire; undefined where the sheet shown does not have it. */
export type PaperPlaces = (key: string) => Anchor | undefined;

const kept = new WeakMap<EditorStore, PaperPlaces>();

export const placesOn = (store: EditorStore): PaperPlaces => kept.get(store) ?? (() => undefined);

export function showPlaces(store: EditorStore, places: PaperPlaces | undefined): void {
  if (places === undefined) kept.delete(store);
  else kept.set(store, places);
}

/** How the paper lies in the window: pixels of its corner, and pixels a millimetre. */
export interface PaperLie {
  readonly left: number;
  readonly top: number;
  readonly scale: number;
}

/** undefined while no sheet shows. */
export function paperLie(): PaperLie | undefined {
  const paper = document.querySelector<HTMLElement>(".sheet .react-flow__viewport");
  const parts =
    paper === null ? null : /translate\(([-\d.e]+)px, ([-\d.e]+)px\) scale\(([\d.e-]+)\)/.exec(paper.style.transform);
  const room = paper?.closest(".sheet")?.getBoundingClientRect();
  if (parts === null || room === undefined) return undefined;
  return { left: room.left + Number(parts[1]), top: room.top + Number(parts[2]), scale: 4 * Number(parts[3]) };
}

export const onScreen = ({ x, y, aside }: Anchor, { left, top, scale }: PaperLie): Point => ({
  x: left + x * scale + aside.x,
  y: top + y * scale + aside.y,
});
