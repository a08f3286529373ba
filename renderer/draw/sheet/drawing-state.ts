/**
 * What the hand is doing on the paper: what hangs at the pointer, which wire is being drawn, where the keyboard
 * stands. None of it belongs to the document, and nothing of it is undone. One for each editor.
 */
import { createStore } from "zustand/vanilla";
import type { StoreApi } from "zustand/vanilla";
import type { Box, Point } from "../../../core/geometry/display.ts";
import type { ViewPlacement, WireEnd, WireId } from "../../../core/project/document.ts";
import type { EditorStore } from "../../window/editor-store.ts";

/** Where the keyboard stands on the sheet. */
export type Cursor =
  | { readonly on: "part"; readonly part: string; readonly view: string }
  | { readonly on: "terminal"; readonly end: WireEnd };

type Lie = Pick<ViewPlacement, "turn" | "mirrored">;

/** A part from the shelf, or a view that is on no sheet yet, hanging at the pointer. */
export type Placing = Lie &
  (
    | { readonly what: "kind"; readonly kind: string }
    | { readonly what: "view"; readonly part: string; readonly view: string }
  );

export interface Wiring {
  /** The end that stays; null = loose. */
  readonly from: WireEnd | null;
  /** Where the line starts on the paper. */
  readonly start: Point;
  /** The wire whose end is being moved; null = a new wire. */
  readonly moved: { readonly wire: WireId; readonly end: 0 | 1 } | null;
  /** The free end of the line. */
  readonly at: Point;
  /** Terminal at the free end. */
  readonly over: WireEnd | null;
  /** Let go of (drag), pressed again (click), or Enter (keys) ends it. */
  readonly by: "drag" | "click" | "keys";
}

export interface DrawingState {
  readonly cursor: Cursor | null;
  readonly placing: Placing | null;
  /** Where what is being placed hangs, mm. */
  readonly at: Point | null;
  readonly wiring: Wiring | null;
  /** Views that are being moved, by viewKey, and how far they have come, mm. */
  readonly shift: { readonly views: ReadonlySet<string>; readonly by: Point } | null;
  /** The band that is being drawn round things. */
  readonly band: Box | null;
  readonly hoveredWire: WireId | null;
  /** Open because the person asked for it (a key, a click); hovering opens it besides. */
  readonly shelf: { readonly typed: string } | null;
  /** Counts requests to bring the selection into view. */
  readonly shown: number;
}

export type DrawingStore = StoreApi<DrawingState>;

export const viewKey = (part: string, view: string): string => `${part}/${view}`;

const AT_REST: DrawingState = {
  cursor: null,
  placing: null,
  at: null,
  wiring: null,
  shift: null,
  band: null,
  hoveredWire: null,
  shelf: null,
  shown: 0,
};

const kept = new WeakMap<EditorStore, DrawingStore>();

export function drawingOf(editor: EditorStore): DrawingStore {
  let drawing = kept.get(editor);
  if (drawing === undefined) kept.set(editor, (drawing = createStore<DrawingState>(() => AT_REST)));
  return drawing;
}

/** Id of the sheet's own element, to which shelf and outline hand the keyboard. */
export const SHEET_SURFACE = "sheet-surface";

export const focusSheet = (): void => document.getElementById(SHEET_SURFACE)?.focus({ preventScroll: true });
