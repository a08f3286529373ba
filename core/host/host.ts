/**
 * What the window may ask of the machine it runs on: the desktop shell, or a browser as far as a browser allows.
 * Types only. The window never sees a path: a file is a token that the host gave out for something the person chose.
 */

export interface FileRef {
  readonly token: string;
  /** Shown in the title and in the list of recent files. */
  readonly name: string;
  /** The folder as a person would know it, where the host can say it. */
  readonly place?: string;
}

export interface OpenedFile {
  /** null: it was opened from somewhere that cannot be saved to (a dropped file in a browser, a demo). */
  readonly file: FileRef | null;
  readonly name: string;
  readonly bytes: Uint8Array;
}

export type SaveResult =
  | { readonly saved: true; readonly file: FileRef | null }
  | { readonly saved: false; readonly why: "cancelled" }
  /** Someone else changed the file since it was opened; ask before writing over it. */
  | { readonly saved: false; readonly why: "changed-on-disk" }
  /** One sentence with place and remedy. */
  | { readonly saved: false; readonly why: "failed"; readonly text: string };

/** Unsaved work of a window that ended without saving. */
export interface Recovery {
  readonly id: string;
  readonly name: string;
  readonly savedAt: string;
  readonly text: string;
}

export type MenuAction =
  | "new"
  | "open"
  | "open-demo"
  | "save"
  | "save-as"
  | "export-svg"
  | "save-report"
  | "undo"
  | "redo"
  | "delete"
  | "select-all"
  | "command-field"
  | "preferences"
  | "about"
  | "licences"
  | "cautions"
  | "checks"
  | "zoom-in"
  | "zoom-out"
  | "zoom-whole";

export interface HostAbilities {
  /** Saves over the opened file itself; otherwise each save is a download. */
  readonly saveInPlace: boolean;
  readonly nativeMenu: boolean;
  readonly recentFiles: boolean;
  readonly noticesChangesOnDisk: boolean;
  /** What this host cannot do, one plain sentence each, shown in About. */
  readonly cannot: readonly string[];
}

export interface Host {
  readonly kind: "desktop" | "browser";
  readonly abilities: HostAbilities;
  /** Asks the person for a file; null when they changed their mind. */
  openFile(): Promise<OpenedFile | null>;
  openRecent(token: string): Promise<OpenedFile | null>;
  /** A file dropped on the window. */
  openDropped(file: unknown): Promise<OpenedFile | null>;
  /** `file` null or `overwrite` as the person chose; a null file asks where. */
  saveFile(
    file: FileRef | null,
    suggestedName: string,
    bytes: Uint8Array,
    overwriteChanged: boolean,
  ): Promise<SaveResult>;
  saveFileAs(suggestedName: string, bytes: Uint8Array): Promise<SaveResult>;
  /** Sheets and the like: one or several files into a place the person chooses. */
  exportFiles(
    files: readonly { readonly name: string; readonly bytes: Uint8Array; readonly mime: string }[],
  ): Promise<SaveResult>;
  recentFiles(): Promise<readonly FileRef[]>;
  /** The demos that come with the program. */
  demos(): Promise<readonly { readonly id: string; readonly title: string }[]>;
  openDemo(id: string): Promise<OpenedFile | null>;
  /** Guards the window against closing with unsaved work. */
  setDirty(dirty: boolean): void;
  writeRecovery(id: string, name: string, text: string): Promise<void>;
  dropRecovery(id: string): Promise<void>;
  listRecoveries(): Promise<readonly Recovery[]>;
  loadPreferences(): Promise<string | null>;
  savePreferences(text: string): Promise<void>;
  onMenu(listener: (action: MenuAction) => void): () => void;
  /** The system asked for a file (double click, second start). */
  onOpenRequest(listener: (file: OpenedFile) => void): () => void;
  onChangedOnDisk(listener: (token: string) => void): () => void;
}
