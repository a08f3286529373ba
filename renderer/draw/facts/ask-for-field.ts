/** How others lead to a field: a wish that the facts fulfil once they show the thing it belongs to. */
import { createStore } from "zustand/vanilla";
import type { StoreApi } from "zustand/vanilla";
import type { EditorStore } from "../../window/editor-store.ts";

export interface FieldWish {
  /** Name of the field as the facts mark it; null = nothing is wished. */
  readonly field: string | null;
}

const kept = new WeakMap<EditorStore, StoreApi<FieldWish>>();

export function fieldWish(editor: EditorStore): StoreApi<FieldWish> {
  let wish = kept.get(editor);
  if (wish === undefined) kept.set(editor, (wish = createStore<FieldWish>(() => ({ field: null }))));
  return wish;
}

/** Name of a field of a zone or enclosure, of which many stand in one list. */
export const fieldOf = (id: string, field: string): string => `${id} ${field}`;
