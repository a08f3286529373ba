/**
 * The hand with the pointer: presses, drags and releases on the paper, turned into commands. What a press means is
 * decided by what lies there: a terminal begins a wire, a part is taken along, a wire is selected, the empty paper
 * draws a band.
 */
import { containsBox, containsPoint, inflate } from "../../../core/geometry/boxes.ts";
import type { Box, Point } from "../../../core/geometry/display.ts";
import { snap } from "../../../core/geometry/points.ts";
import { connect } from "../../../core/project/commands/connect.ts";
import { moveView } from "../../../core/project/commands/move-view.ts";
import { reconnect } from "../../../core/project/commands/reconnect.ts";
import type { WireEnd, WireId } from "../../../core/project/document.ts";
import type { Millimetre } from "../../../core/quantity/kinds.ts";
import type { EditorStore } from "../../window/editor-store.ts";
import { NOTHING } from "../../window/selection.ts";
import type { Selection } from "../../window/selection.ts";
import { focusSheet } from "./drawing-state.ts";
import type { DrawingStore, Wiring } from "./drawing-state.ts";
import { hitAt, nearestPin } from "./hit.ts";
import type { Hit } from "./hit.ts";
import { putDown } from "./placing.ts";
import type { Scene, ScenePin, SceneView } from "./scene.ts";
import { sameEnd, wireHandles } from "./wire-handles.ts";

/** What the hand needs of the canvas. */
export interface Canvas {
  /** Where a place of the screen lies on the paper, mm. */
  toPaper(screen: { readonly x: number; readonly y: number }): Point;
  /** Millimetres that so many pixels of the screen stand for. */
  millimetres(pixels: number): Millimetre;
  /** The middle of what shows, mm. */
  middle(): Point;
  /** What shows, mm. */
  visible(): Box;
  /** Moves the paper so that the box shows. */
  reveal(box: Box): void;
}

/** Pixels within which a thing counts as touched, and that a press may wander without being a drag. */
const REACH = 10;
const STILL = 4;

interface Pressed {
  readonly at: Point;
  readonly screen: { readonly x: number; readonly y: number };
  readonly extend: boolean;
  readonly doing: "move" | "band" | "wire";
  readonly views: readonly SceneView[];
  /** Selected before the band began. */
  readonly before: Selection;
  moved: boolean;
}

export class Hand {
  readonly store: EditorStore;
  readonly drawing: DrawingStore;
  readonly canvas: Canvas;
  #scene: Scene | undefined;
  #pressed: Pressed | undefined;
  #onHandle = false;

  constructor(store: EditorStore, drawing: DrawingStore, canvas: Canvas) {
    this.store = store;
    this.drawing = drawing;
    this.canvas = canvas;
  }

  get scene(): Scene | undefined {
    return this.#scene;
  }

  show(scene: Scene | undefined): void {
    this.#scene = scene;
  }

  get pressing(): boolean {
    return this.#pressed !== undefined;
  }

  /** Whether the next press belongs to the drawing, even where a note's number lies over it. */
  get claims(): boolean {
    const { wiring, placing } = this.drawing.getState();
    return this.pressing || wiring !== null || placing !== null || this.store.now.hovered !== null || this.#onHandle;
  }

  hit(at: Point): Hit {
    return this.#scene === undefined ? { on: "paper" } : hitAt(this.#scene, at, this.canvas.millimetres(REACH));
  }

  press(event: PointerEvent): void {
    const scene = this.#scene;
    if (event.button !== 0 || scene === undefined) return;
    focusSheet();
    const at = this.canvas.toPaper(event);
    const { placing, wiring } = this.drawing.getState();
    if (placing !== null) {
      this.drawing.setState({ at });
      this.place(event.shiftKey);
      return;
    }
    if (wiring !== null) {
      const pin = nearestPin(scene, at, this.#terminalReach());
      if (pin === undefined) this.cancel();
      else this.endWire(pin.end);
      return;
    }
    this.drawing.setState({ cursor: null });
    const handle = this.#handleAt(at);
    if (handle !== undefined) {
      this.#grasp(event, at, "wire");
      this.drawing.setState({ wiring: { ...handle, at, over: null, by: "drag" } });
      return;
    }
    const hit = this.hit(at);
    switch (hit.on) {
      case "terminal":
        this.#grasp(event, at, "wire");
        this.beginWire(hit.pin, "drag");
        break;
      case "part":
        this.#pressPart(event, at, hit.view);
        break;
      case "wire":
        this.store.select(
          event.shiftKey ? toggled(this.store.now.selection, "wires", hit.wire) : { wires: [hit.wire] },
        );
        break;
      case "paper":
        this.#grasp(event, at, "band");
    }
  }

  /** With the button up: what lies under the pointer. With it down: the gesture goes on. */
  move(event: PointerEvent): void {
    const at = this.canvas.toPaper(event);
    const { wiring, placing } = this.drawing.getState();
    const pressed = this.#pressed;
    if (pressed !== undefined && !pressed.moved) {
      if (Math.hypot(event.clientX - pressed.screen.x, event.clientY - pressed.screen.y) < STILL) return;
      pressed.moved = true;
    }
    if (placing !== null) this.drawing.setState({ at });
    else if (wiring !== null && wiring.by !== "keys") this.#aim(wiring, at);
    else if (pressed?.doing === "move") this.#carry(pressed, at);
    else if (pressed?.doing === "band") this.#stretch(pressed, at);
    else if (pressed === undefined) this.#look(at);
  }

  release(event: PointerEvent): void {
    const pressed = this.#pressed;
    this.#pressed = undefined;
    if (pressed === undefined) return;
    const { wiring, shift } = this.drawing.getState();
    if (pressed.doing === "wire" && wiring !== null) {
      // A press without a drag: the line now follows the pointer until the next press.
      if (!pressed.moved) this.drawing.setState({ wiring: { ...wiring, by: "click" } });
      else if (wiring.over !== null) this.endWire(wiring.over);
      else this.cancel();
    }
    if (pressed.doing === "move") {
      this.drawing.setState({ shift: null });
      if (shift !== null) this.moveViews(pressed.views, shift.by);
      else if (!pressed.moved && !pressed.extend) this.#selectOnly(pressed.views);
    }
    if (pressed.doing === "band") {
      this.drawing.setState({ band: null });
      if (!pressed.moved && !pressed.extend) this.store.select(NOTHING);
    }
    this.#look(this.canvas.toPaper(event));
  }

  leave(): void {
    if (this.#pressed !== undefined) return;
    if (this.store.now.hovered !== null) this.store.set({ hovered: null });
    if (this.drawing.getState().hoveredWire !== null) this.drawing.setState({ hoveredWire: null });
  }

  /** Gives up what is being done; true if there was something. */
  cancel(): boolean {
    const { wiring, placing, shift, band } = this.drawing.getState();
    const busy = wiring !== null || placing !== null || shift !== null || band !== null;
    this.#pressed = undefined;
    if (busy) this.drawing.setState({ wiring: null, placing: null, shift: null, band: null, at: null });
    return busy;
  }

  /** Puts down what hangs at the pointer; `more` keeps another of it there. */
  place(more: boolean): void {
    const { placing, at } = this.drawing.getState();
    if (placing === null) return;
    const part = putDown(this.store, placing, this.store.now.sheet, at ?? this.canvas.middle());
    const keep = more && placing.what === "kind" && part !== undefined;
    this.drawing.setState({ placing: keep ? placing : null, ...(keep ? {} : { at: null }), cursor: null });
    if (part !== undefined) this.store.select({ parts: [part] });
  }

  beginWire(pin: ScenePin, by: Wiring["by"]): void {
    const at = { x: pin.x, y: pin.y };
    this.drawing.setState({ wiring: { from: pin.end, start: at, moved: null, at, over: null, by } });
  }

  /** The wire being drawn ends here. A terminal cannot be wired to itself: the line is then given up. */
  endWire(to: WireEnd): void {
    const { wiring } = this.drawing.getState();
    this.drawing.setState({ wiring: null });
    if (wiring === null || (wiring.from !== null && sameEnd(wiring.from, to))) return;
    if (wiring.moved !== null) {
      this.store.perform(reconnect, { wire: wiring.moved.wire, end: wiring.moved.end, to });
      return;
    }
    const wire = this.store.perform(connect, { from: wiring.from, to });
    if (wire !== undefined) this.store.select({ wires: [wire] });
  }

  moveViews(views: readonly SceneView[], by: Point, gesture?: string): void {
    if (by.x === 0 && by.y === 0) return;
    const moves = views.map(({ part, place }) => ({
      part: part.id,
      view: place.view,
      x: place.x + by.x,
      y: place.y + by.y,
    }));
    this.store.perform(moveView, { moves }, gesture);
  }

  #terminalReach(): Millimetre {
    return Math.max(2.2, this.canvas.millimetres(REACH));
  }

  #grasp(event: PointerEvent, at: Point, doing: Pressed["doing"], views: readonly SceneView[] = []): void {
    this.#pressed = {
      at,
      screen: { x: event.clientX, y: event.clientY },
      extend: event.shiftKey,
      doing,
      views,
      before: this.store.now.selection,
      moved: false,
    };
  }

  #pressPart(event: PointerEvent, at: Point, view: SceneView): void {
    const { selection } = this.store.now;
    const id = view.part.id;
    this.drawing.setState({ cursor: { on: "part", part: id, view: view.view.id } });
    if (event.shiftKey) {
      this.store.select(toggled(selection, "parts", id));
      return;
    }
    const among = selection.parts.includes(id);
    if (!among) this.store.select({ parts: [id] });
    const several = among && selection.parts.length > 1;
    const views = several ? (this.#scene?.views.filter(({ part }) => selection.parts.includes(part.id)) ?? []) : [view];
    this.#grasp(event, at, "move", views);
    // A click on one of several selects it alone, a drag takes all of them along.
    if (several && this.#pressed !== undefined) this.#pressed = { ...this.#pressed, views };
  }

  #selectOnly(views: readonly SceneView[]): void {
    const { cursor } = this.drawing.getState();
    if (views.length > 1 && cursor?.on === "part") this.store.select({ parts: [cursor.part] });
  }

  #handleAt(at: Point): Pick<Wiring, "from" | "start" | "moved"> | undefined {
    const scene = this.#scene;
    const { wires } = this.store.now.selection;
    if (scene === undefined || wires.length === 0) return undefined;
    const reach = Math.min(2, this.canvas.millimetres(REACH));
    const handle = wireHandles(scene, this.store.project, wires).find(
      ({ x, y }) => Math.hypot(x - at.x, y - at.y) <= reach,
    );
    return handle === undefined
      ? undefined
      : { from: handle.fixed, start: handle.start, moved: { wire: handle.wire, end: handle.end } };
  }

  #aim(wiring: Wiring, at: Point): void {
    const pin = this.#scene === undefined ? undefined : nearestPin(this.#scene, at, this.#terminalReach());
    const over = pin !== undefined && !(wiring.from !== null && sameEnd(wiring.from, pin.end)) ? pin.end : null;
    this.drawing.setState({ wiring: { ...wiring, at: over === null || pin === undefined ? at : pin, over } });
    // The line has words of its own: the card of the terminal would cover them.
    this.#hover(null);
  }

  #carry(pressed: Pressed, at: Point): void {
    const by = snap({ x: at.x - pressed.at.x, y: at.y - pressed.at.y });
    const { shift } = this.drawing.getState();
    if (shift !== null && shift.by.x === by.x && shift.by.y === by.y) return;
    const views = shift?.views ?? new Set(pressed.views.map(({ key }) => key));
    this.drawing.setState({ shift: { views, by } });
  }

  #stretch(pressed: Pressed, at: Point): void {
    const band: Box = {
      x: Math.min(at.x, pressed.at.x),
      y: Math.min(at.y, pressed.at.y),
      width: Math.abs(at.x - pressed.at.x),
      height: Math.abs(at.y - pressed.at.y),
    };
    this.drawing.setState({ band });
    const inside = this.#within(band);
    const { before, extend } = pressed;
    const { selection } = this.store.now;
    const next = extend
      ? {
          parts: [...new Set([...before.parts, ...inside.parts])],
          wires: [...new Set([...before.wires, ...inside.wires])],
        }
      : inside;
    if (next.parts.join() !== selection.parts.join() || next.wires.join() !== selection.wires.join())
      this.store.select(next);
  }

  /** Parts and wires of which some view, or every line, lies wholly in the band. */
  #within(band: Box): Selection {
    if (this.#scene === undefined) return NOTHING;
    const parts = this.#scene.views.filter(({ box }) => containsBox(band, inflate(box, -1))).map(({ part }) => part.id);
    const wires = [...this.#scene.routed.paths].filter(([, lines]) =>
      lines.every((line) => line.every(([x, y]) => containsPoint(band, { x, y }))),
    );
    return { parts: [...new Set(parts)], wires: wires.map(([wire]) => wire) };
  }

  #look(at: Point): void {
    const hit = this.hit(at);
    this.#onHandle = this.#handleAt(at) !== undefined;
    this.#hover(hit.on === "terminal" ? hit.pin.end : null);
    const wire = hit.on === "wire" ? hit.wire : null;
    if (this.drawing.getState().hoveredWire !== wire) this.drawing.setState({ hoveredWire: wire });
  }

  #hover(end: WireEnd | null): void {
    const { hovered } = this.store.now;
    if (end === null ? hovered !== null : hovered === null || !sameEnd(hovered, end)) this.store.set({ hovered: end });
  }
}

function toggled(selection: Selection, list: "parts" | "wires", id: string | WireId): Selection {
  const there = selection[list].includes(id);
  return { ...selection, [list]: there ? selection[list].filter((other) => other !== id) : [...selection[list], id] };
}
