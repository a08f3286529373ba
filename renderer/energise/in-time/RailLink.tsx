/** The rail between two stations: press it to see the way from one to the other in time, drag along it to go that way. */
import type { PointerEvent } from "react";
import type { TransitionName } from "../../../core/circuit/transition/transition.ts";
import { useEditor, useSurroundings } from "../../window/editor-context.ts";
import { TRANSITION_WORDS } from "./transition-words.ts";

/** Transitions that lead along neighbouring stations, and the stations that they pass. */
const ALONG: readonly { readonly name: TransitionName; readonly stations: readonly string[] }[] = [
  { name: "key-on", stations: ["parked", "key-on", "pre-charging", "ready"] },
  { name: "drive", stations: ["ready", "driving"] },
];

interface RailLinkProps {
  readonly from: string;
  readonly to: string;
}

export function RailLink({ from, to }: RailLinkProps) {
  const { store } = useSurroundings();
  const names = useEditor((editor) => editor.solved?.transitions);
  const open = useEditor((editor) => editor.inTime?.name);
  const way = ALONG.find(
    ({ stations }) => stations.indexOf(to) === stations.indexOf(from) + 1 && stations.includes(from),
  );
  if (way === undefined || names?.includes(way.name) !== true) return null;
  const segment = way.stations.indexOf(from);
  const go = (event: PointerEvent<HTMLButtonElement>): void => {
    const { left, width } = event.currentTarget.getBoundingClientRect();
    const part = (segment + (event.clientX - left) / width) / (way.stations.length - 1);
    const times = store.now.inTime?.name === way.name ? store.now.transition?.document.times : undefined;
    const last = (times?.length ?? 1) - 1;
    const time = times?.[Math.round(Math.min(Math.max(part, 0), 1) * last)] ?? 0;
    store.set({ inTime: { name: way.name, time } });
  };
  return (
    <button
      type="button"
      className="state-link"
      aria-label={`${TRANSITION_WORDS[way.name].name} in time`}
      aria-pressed={open === way.name}
      title={`${TRANSITION_WORDS[way.name].about} Drag to go along.`}
      onPointerDown={(event) => {
        event.stopPropagation();
        event.currentTarget.setPointerCapture(event.pointerId);
        // Before the panel opens: there the keyboard goes back to once it closes.
        event.currentTarget.focus();
        go(event);
      }}
      onPointerMove={(event) => {
        if (event.buttons === 1) go(event);
      }}
      onClick={(event) => {
        event.stopPropagation();
        if (open !== way.name) store.set({ inTime: { name: way.name, time: 0 } });
      }}
      onKeyDown={(event) => event.stopPropagation()}
    />
  );
}
