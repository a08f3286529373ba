/** What the drawing shows: a moment of a transition or a state with a fault in it where one is looked at, else the chosen state. */
import type { StateView } from "./analysis/protocol.ts";
import { useEditor } from "./editor-context.ts";
import type { Editor } from "./editor-store.ts";

export function shownState({
  beside,
  solved,
  stateName,
}: Pick<Editor, "beside" | "solved" | "stateName">): StateView | undefined {
  if (beside !== null) return beside;
  return stateName === null ? undefined : solved?.states.find(({ name }) => name === stateName);
}

export function useShownState(): StateView | undefined {
  return useEditor(shownState);
}
