/** Whether the studies of what is selected are folded away: as the person left them, whatever is selected next. */
import { createStore } from "zustand/vanilla";
import type { StoreApi } from "zustand/vanilla";
import type { EditorStore } from "../../window/editor-store.ts";

export interface Fold {
  /** null = nobody has chosen: open where the job is to look at figures. */
  readonly open: boolean | null;
}

const kept = new WeakMap<EditorStore, StoreApi<Fold>>();

export function foldOf(editor: EditorStore): StoreApi<Fold> {
  let fold = kept.get(editor);
  if (fold === undefined) kept.set(editor, (fold = createStore<Fold>(() => ({ open: null }))));
  return fold;
}
