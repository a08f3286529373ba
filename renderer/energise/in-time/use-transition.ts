/** Asks the worker for the transition that is open, and for the drawing at the moment that is looked at. */
import { useEffect, useRef, useState } from "react";
import type { StateView, TransitionView } from "../../window/analysis/protocol.ts";
import { useEditor, useSurroundings } from "../../window/editor-context.ts";
import { moment, TRANSITION_WORDS } from "./transition-words.ts";

/** null while it is worked out; undefined where there is none. */
export function useTransition(): TransitionView | null | undefined {
  const { store, ask } = useSurroundings();
  const name = useEditor((editor) => editor.inTime?.name);
  const revision = useEditor((editor) => editor.solved?.revision);
  const [view, setView] = useState<TransitionView | null | undefined>(null);
  useEffect(() => {
    if (name === undefined) return undefined;
    let here = true;
    void ask({ about: "transition", name }).then((answer) => {
      if (!here) return;
      setView(answer);
      store.set({ transition: answer ?? null });
      if (answer === undefined) return;
      const { inTime } = store.now;
      const last = answer.document.times.at(-1) ?? 0;
      if (inTime !== null && inTime.time > last) store.set({ inTime: { ...inTime, time: last } });
    });
    return () => {
      here = false;
      store.set({ transition: null });
    };
  }, [ask, store, name, revision]);
  return view;
}

/** Keeps the drawing at the moment that is looked at: one question at a time, the newest moment next. */
export function useMoment(): void {
  const { store, ask } = useSurroundings();
  const inTime = useEditor((editor) => editor.inTime);
  const revision = useEditor((editor) => editor.solved?.revision);
  const asking = useRef(false);
  const shownHere = useRef<StateView | null>(null);
  const wanted = useRef(inTime);
  wanted.current = inTime;
  useEffect(() => {
    const next = async (): Promise<void> => {
      if (asking.current) return;
      asking.current = true;
      let shown: typeof inTime = null;
      while (wanted.current !== null && wanted.current !== shown) {
        const now: NonNullable<typeof inTime> = wanted.current;
        const answer = await ask({ about: "moment", name: now.name, time: now.time });
        shown = now;
        if (store.now.inTime?.name !== now.name) continue;
        const name = `${TRANSITION_WORDS[now.name].name}, at ${moment(now.time)}`;
        shownHere.current = answer === undefined ? null : { ...answer, name };
        store.set({ beside: shownHere.current });
      }
      asking.current = false;
    };
    if (inTime !== null) void next();
    // A fault that is shown instead closes the transition: that must stay.
    else if (store.now.beside === shownHere.current) store.set({ beside: null });
  }, [ask, store, inTime, revision]);
  useEffect(() => {
    // What is shown instead of a state belongs to the drawing as it was.
    if (store.now.inTime === null) store.set({ beside: null });
  }, [store, revision]);
}
