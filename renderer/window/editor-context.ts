/** How components reach the store: one context, narrow selectors, so that a change wakes only what shows it. */
import { createContext, useContext } from "react";
import { useStore } from "zustand";
import type { Host } from "../../core/host/host.ts";
import type { AnswerTo, Question } from "./analysis/protocol.ts";
import type { Editor, EditorStore } from "./editor-store.ts";

export interface Surroundings {
  readonly store: EditorStore;
  readonly host: Host;
  /** Asks the analysis about the drawing as it stands; undefined if it changes before there is an answer. */
  readonly ask: <Asked extends Question>(question: Asked) => Promise<AnswerTo<Asked> | undefined>;
}

export const EditorContext = createContext<Surroundings | null>(null);

export function useSurroundings(): Surroundings {
  const surroundings = useContext(EditorContext);
  if (surroundings === null) throw new Error("A component stands outside the editor.");
  return surroundings;
}

/** A slice of the editor's state; the component renders again only when the slice changes identity. */
export function useEditor<Slice>(select: (editor: Editor) => Slice): Slice {
  return useStore(useSurroundings().store.api, select);
}
