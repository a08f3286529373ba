import { useStore } from "zustand";
import { useSurroundings } from "../../window/editor-context.ts";
import { drawingOf } from "./drawing-state.ts";
import type { DrawingState, DrawingStore } from "./drawing-state.ts";

export function useDrawingStore(): DrawingStore {
  return drawingOf(useSurroundings().store);
}

/** A slice of what the hand is doing; see useEditor. */
export function useDrawing<Slice>(select: (drawing: DrawingState) => Slice): Slice {
  return useStore(useDrawingStore(), select);
}
