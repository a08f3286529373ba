/**
 * Shortcuts. A key that a component has taken already (preventDefault) is left alone, and so are keys that belong to
 * a text being typed; a dialog keeps everything to itself.
 */
import type { Action } from "./actions.ts";
import { meets } from "./shortcut.ts";

/** Keys with Ctrl that a text field needs for itself. */
const OF_TEXT: readonly string[] = ["undo", "redo", "select-all"];

const TYPING = "input, textarea, select, [contenteditable='true'], [role='textbox'], [role='grid'], [role='combobox']";

export function listenToKeys(target: Window, actions: readonly Action[]): void {
  target.addEventListener("keydown", (event) => {
    if (event.defaultPrevented) return;
    const action = actions.find(({ shortcut, alternatives = [] }) =>
      [...(shortcut === undefined ? [] : [shortcut]), ...alternatives].some((each) => meets(each, event)),
    );
    if (action === undefined) return;
    const place = event.target instanceof Element ? event.target : null;
    if (place?.closest("dialog") !== null && place !== null) return;
    const typing = place !== null && place.closest(TYPING) !== null;
    const bare = !event.ctrlKey && !event.metaKey;
    if (typing && (bare || OF_TEXT.includes(action.id))) return;
    event.preventDefault();
    action.run();
  });
}
