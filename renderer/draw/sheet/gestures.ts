/**
 * Pointer events that no element of the sheet can hear by itself: a gesture that began on the paper goes on wherever
 * the pointer is, and the numbers of the notes, which lie over the sheet, give way to a terminal under them.
 */
import { useEffect } from "react";
import { SHEET_SURFACE } from "./drawing-state.ts";
import type { Hand } from "./hand.ts";

/** Lies over the sheet and is not the sheet's own. */
const OVER = ".frame-over";

/** Set while the next press belongs to the drawing; sheet.css then lets it through. */
const CLAIMED = "data-hand-claims";

export function useGestures(hand: Hand): void {
  useEffect(() => {
    const root = document.documentElement;
    const surface = document.getElementById(SHEET_SURFACE);
    const isOver = (target: EventTarget | null): boolean => target instanceof Element && target.closest(OVER) !== null;
    const claim = (): void => {
      root.toggleAttribute(CLAIMED, hand.claims);
    };
    const move = (event: PointerEvent): void => {
      const inside = event.target instanceof Node && surface?.contains(event.target) === true;
      if (inside || isOver(event.target) || hand.pressing) hand.move(event);
      claim();
    };
    const release = (event: PointerEvent): void => {
      hand.release(event);
      claim();
    };
    const wheel = (event: WheelEvent): void => {
      if (!isOver(event.target)) return;
      event.preventDefault();
      surface?.querySelector(".react-flow__pane")?.dispatchEvent(new WheelEvent(event.type, event));
    };
    addEventListener("pointermove", move);
    addEventListener("pointerup", release);
    addEventListener("wheel", wheel, { passive: false });
    return () => {
      removeEventListener("pointermove", move);
      removeEventListener("pointerup", release);
      removeEventListener("wheel", wheel);
      root.removeAttribute(CLAIMED);
    };
  }, [hand]);
}
