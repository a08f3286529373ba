/**
 * The keyboard on the sheet. Arrows go from part to part, or move what is selected; Enter goes to a part's terminals,
 * then begins and ends a wire, the space bar takes the wires at a terminal; Escape goes back one step. A letter opens the
 * shelf.
 */
import { centre } from "../../../core/geometry/boxes.ts";
import type { Point } from "../../../core/geometry/display.ts";
import { GRID } from "../../../core/geometry/points.ts";
import { terminalKey } from "../../../core/layout/placed-view.ts";
import type { WireEnd } from "../../../core/project/document.ts";
import { wiresAt } from "../../../core/project/lookup.ts";
import { NOTHING } from "../../window/selection.ts";
import { viewKey } from "./drawing-state.ts";
import type { Cursor } from "./drawing-state.ts";
import type { Hand } from "./hand.ts";
import { nextIn } from "./hit.ts";
import type { Direction } from "./hit.ts";
import { turned } from "./placing.ts";
import type { Scene, ScenePin, SceneView } from "./scene.ts";

export interface Key {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
}

const ARROWS: Readonly<Record<string, Direction>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
const TURNS = { ",": "anticlockwise", ".": "clockwise", "/": "mirror" } as const;
/** Moved by arrow, mm: one step of the grid; with Shift four. */
const LONG_STEP = 4;

export class SheetKeys {
  readonly #hand: Hand;
  /** Steps with one key held down are undone together. */
  #gesture: { readonly key: string; readonly name: string } | undefined;

  constructor(hand: Hand) {
    this.#hand = hand;
  }

  /** True if the key meant something here. */
  down(pressed: Key): boolean {
    const { drawing } = this.#hand;
    const scene = this.#hand.scene;
    if (scene === undefined || pressed.ctrlKey || pressed.metaKey || pressed.altKey) return false;
    const { key } = pressed;
    const { placing, cursor } = drawing.getState();
    if (key === "Escape") return this.#back();
    const arrow = ARROWS[key];
    if (arrow !== undefined) {
      this.#arrow(scene, arrow, pressed.shiftKey ? LONG_STEP : 1);
      return true;
    }
    if (placing !== null && (key === "," || key === "." || key === "/")) {
      drawing.setState({ placing: turned(placing, TURNS[key]) });
      return true;
    }
    if (key === "Enter") return this.#enter(scene, pressed.shiftKey);
    if (key === " ") {
      if (cursor === null) return false;
      if (cursor.on === "part") this.#hand.store.select({ parts: [cursor.part] });
      else this.#nextWire(cursor.end);
      return true;
    }
    if (/^\p{L}$/u.test(key) && placing === null) {
      this.#hand.cancel();
      drawing.setState({ shelf: { typed: key } });
      return true;
    }
    return false;
  }

  /** Selects the wire at the terminal; pressed again, the next one there. */
  #nextWire(end: WireEnd): void {
    const { store } = this.#hand;
    const wires = wiresAt(store.project, end).map(({ id }) => id);
    const [now] = store.now.selection.wires;
    const next = wires[(wires.indexOf(now ?? "") + 1) % wires.length];
    if (next !== undefined) store.select({ wires: [next] });
  }

  up(): void {
    this.#gesture = undefined;
  }

  #back(): boolean {
    const { drawing, store } = this.#hand;
    if (this.#hand.cancel()) return true;
    const { cursor } = drawing.getState();
    if (cursor?.on === "terminal") {
      const pin = this.#hand.scene?.pinByKey.get(terminalKey(cursor.end));
      this.#stand(pin === undefined ? null : { on: "part", part: pin.view.part.id, view: pin.view.view.id });
      return true;
    }
    const { selection } = store.now;
    if (selection.parts.length + selection.wires.length > 0) {
      store.select(NOTHING);
      return true;
    }
    if (cursor === null) return false;
    this.#stand(null);
    return true;
  }

  #arrow(scene: Scene, direction: Direction, steps: number): void {
    const { drawing, store, canvas } = this.#hand;
    const { placing, at, cursor, wiring } = drawing.getState();
    const by: Point = { x: direction[0] * GRID * steps, y: direction[1] * GRID * steps };
    if (placing !== null) {
      const from = at ?? canvas.middle();
      drawing.setState({ at: { x: from.x + by.x, y: from.y + by.y } });
      return;
    }
    const pin = cursor?.on === "terminal" ? scene.pinByKey.get(terminalKey(cursor.end)) : undefined;
    if (pin !== undefined) {
      const next = nextIn(scene.pins, pin, direction);
      if (next !== undefined) this.#standAt(next);
      return;
    }
    if (wiring !== null) return;
    const { parts } = store.now.selection;
    if (parts.length > 0) this.#moveSelected(scene, parts, cursor, by, direction);
    else this.#walk(scene, cursor, direction);
  }

  #moveSelected(scene: Scene, parts: readonly string[], cursor: Cursor | null, by: Point, direction: Direction): void {
    const chosen = scene.views.filter(({ part }) => parts.includes(part.id));
    const one = parts.length === 1 && cursor?.on === "part" && cursor.part === parts[0];
    const views = one ? chosen.filter(({ view }) => view.id === cursor.view) : chosen;
    const name = `${direction.join(" ")} ${views.map(({ key }) => key).join(" ")}`;
    if (this.#gesture?.key !== name) this.#gesture = { key: name, name: crypto.randomUUID() };
    this.#hand.moveViews(views.length > 0 ? views : chosen, by, this.#gesture.name);
  }

  #walk(scene: Scene, cursor: Cursor | null, direction: Direction): void {
    const places = scene.views.map((view) => ({ ...centre(view.box), view }));
    const here =
      cursor?.on === "part" ? places.find(({ view }) => view.key === viewKey(cursor.part, cursor.view)) : undefined;
    const next = here === undefined ? firstOf(places) : nextIn(places, here, direction);
    if (next !== undefined) this.#standOn(next.view);
  }

  #enter(scene: Scene, more: boolean): boolean {
    const { drawing, store } = this.#hand;
    const { placing, wiring, cursor } = drawing.getState();
    if (placing !== null) {
      this.#hand.place(more);
      return true;
    }
    if (cursor?.on === "terminal") {
      const pin = scene.pinByKey.get(terminalKey(cursor.end));
      if (pin === undefined) return false;
      if (wiring === null) this.#hand.beginWire(pin, "keys");
      else this.#hand.endWire(pin.end);
      return true;
    }
    const selected = store.now.selection.parts[0];
    const view =
      cursor?.on === "part"
        ? scene.views.find(({ key }) => key === viewKey(cursor.part, cursor.view))
        : scene.views.find(({ part }) => part.id === selected);
    const pin = scene.pins.find((candidate) => candidate.view === view);
    if (pin === undefined) return false;
    this.#standAt(pin);
    return true;
  }

  #standOn(view: SceneView): void {
    this.#stand({ on: "part", part: view.part.id, view: view.view.id });
    this.#hand.canvas.reveal(view.room);
  }

  #standAt(pin: ScenePin): void {
    const { drawing, canvas } = this.#hand;
    this.#stand({ on: "terminal", end: pin.end });
    const { wiring } = drawing.getState();
    if (wiring?.by === "keys") drawing.setState({ wiring: { ...wiring, at: { x: pin.x, y: pin.y }, over: pin.end } });
    canvas.reveal({ x: pin.x - GRID, y: pin.y - GRID, width: 2 * GRID, height: 2 * GRID });
  }

  #stand(cursor: Cursor | null): void {
    const { drawing, store } = this.#hand;
    drawing.setState({ cursor });
    // While a wire is drawn the line has words of its own.
    const wiring = drawing.getState().wiring !== null;
    store.set({ hovered: cursor?.on === "terminal" && !wiring ? cursor.end : null });
  }
}

/** In reading order. */
function firstOf<Thing extends Point>(things: readonly Thing[]): Thing | undefined {
  return [...things].sort((a, b) => a.y + a.x / 4 - (b.y + b.x / 4))[0];
}
