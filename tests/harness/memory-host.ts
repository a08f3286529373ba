/** A host that keeps everything in memory and remembers what it was asked. The next answers are laid down by the test. */
import type { Host, OpenedFile, Recovery, SaveResult } from "../../core/host/host.ts";

export class MemoryHost {
  opens: (OpenedFile | null)[] = [];
  saves: SaveResult[] = [];
  readonly written: { readonly name: string; readonly text: string; readonly overwrite: boolean }[] = [];
  readonly exported: { readonly name: string; readonly text: string }[] = [];
  readonly recoveries = new Map<string, Recovery>();
  readonly dirty: boolean[] = [];
  preferences: string | null = null;

  readonly host: Host = {
    kind: "browser",
    abilities: { saveInPlace: true, nativeMenu: false, recentFiles: true, noticesChangesOnDisk: true, cannot: [] },
    openFile: () => this.#next(),
    openRecent: () => this.#next(),
    openDropped: () => this.#next(),
    openDemo: () => this.#next(),
    saveFile: (_file, name, bytes, overwrite) => this.#save(name, bytes, overwrite),
    saveFileAs: (name, bytes) => this.#save(name, bytes, false),
    exportFiles: (files) => {
      this.exported.push(...files.map(({ name, bytes }) => ({ name, text: new TextDecoder().decode(bytes) })));
      return Promise.resolve({ saved: true, file: null });
    },
    recentFiles: () => Promise.resolve([]),
    demos: () => Promise.resolve([]),
    setDirty: (dirty) => void this.dirty.push(dirty),
    writeRecovery: (id, name, text) => {
      this.recoveries.set(id, { id, name, text, savedAt: "2026-11-25T08:00:00Z" });
      return Promise.resolve();
    },
    dropRecovery: (id) => {
      this.recoveries.delete(id);
      return Promise.resolve();
    },
    listRecoveries: () => Promise.resolve([...this.recoveries.values()]),
    loadPreferences: () => Promise.resolve(this.preferences),
    savePreferences: (text) => {
      this.preferences = text;
      return Promise.resolve();
    },
    onMenu: () => () => undefined,
    onOpenRequest: () => () => undefined,
    onChangedOnDisk: () => () => undefined,
  };

  #next(): Promise<OpenedFile | null> {
    return Promise.resolve(this.opens.shift() ?? null);
  }

  #save(name: string, bytes: Uint8Array, overwrite: boolean): Promise<SaveResult> {
    const result = this.saves.shift() ?? { saved: true, file: { token: "t1", name } };
    if (result.saved) this.written.push({ name, text: new TextDecoder().decode(bytes), overwrite });
    return Promise.resolve(result);
  }
}
