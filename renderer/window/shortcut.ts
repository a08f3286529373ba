/** A key with its modifiers: how it is met and how it is shown. */
export interface Shortcut {
  /** As KeyboardEvent.key gives it, letters small. */
  readonly key: string;
  /** Ctrl, or Command on a Mac. */
  readonly ctrl: boolean;
  readonly shift: boolean;
}

interface Pressed {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}

const isLetter = (key: string): boolean => /^[a-z]$/.test(key);

/** Shift counts with letters and named keys; with signs it depends on the keyboard's layout whether it is held. */
export function meets(shortcut: Shortcut, pressed: Pressed): boolean {
  if (pressed.altKey || shortcut.ctrl !== (pressed.ctrlKey || pressed.metaKey)) return false;
  const key = pressed.key.length === 1 ? pressed.key.toLowerCase() : pressed.key;
  if (key !== shortcut.key) return false;
  return isLetter(key) || key.length > 1 ? shortcut.shift === pressed.shiftKey : true;
}

export function shortcutText({ key, ctrl, shift }: Shortcut): string {
  const parts = [...(ctrl ? ["Ctrl"] : []), ...(shift ? ["Shift"] : []), isLetter(key) ? key.toUpperCase() : key];
  // With blanks: "Ctrl++" would be hard to read.
  return parts.join(" ");
}
