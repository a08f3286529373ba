/** What the page and the main process say to each other, in one list, so that the two cannot drift apart. */

/** The page asks and waits for an Answer. */
export const ASK = {
  openFile: "file:open",
  openRecent: "file:open-recent",
  openDropped: "file:open-dropped",
  saveFile: "file:save",
  saveFileAs: "file:save-as",
  exportFiles: "file:export",
  recentFiles: "file:recent",
  demos: "demo:list",
  openDemo: "demo:open",
  writeRecovery: "recovery:write",
  dropRecovery: "recovery:drop",
  listRecoveries: "recovery:list",
  loadPreferences: "preferences:load",
  savePreferences: "preferences:save",
} as const;

/** The page says; nobody answers. */
export const SAY = {
  /** The first word of a page that was just loaded. */
  begun: "page:begun",
  dirty: "page:dirty",
  /** Files that the system asks for may come now. */
  takesFiles: "page:takes-files",
} as const;

/** The main process says. */
export const TELL = { menu: "tell:menu", openRequest: "tell:open-request", changedOnDisk: "tell:changed" } as const;

/** A refusal travels as a value: thrown, it would arrive wrapped in words that are not for people. */
export type Answer = { readonly ok: true; readonly value: unknown } | { readonly ok: false; readonly text: string };
