/**
 * The host in a browser, as far as one allows: files through its pickers where it has them, else by upload and
 * download; recent files, unsaved work and preferences in the browser's own storage.
 */
import type { FileRef, Host, OpenedFile, SaveResult } from "../../core/host/host.ts";
import { LIMITS } from "../../core/project/limits.ts";
import { all, drop, get, put } from "./browser/database.ts";
import { DEMOS, demoTitle } from "./browser/demos.ts";
import {
  allowed,
  download,
  hasPickers,
  pickFolder,
  pickToOpen,
  pickToSave,
  upload,
  writeTo,
} from "./browser/pickers.ts";
import type { Handle } from "./browser/pickers.ts";
import { dropRecovery, listRecoveries, writeRecovery } from "./browser/recovery.ts";

const PREFERENCES = "loomwright-preferences";
const MIME = "application/json";
const MOST_RECENT = 8;

interface RecentEntry {
  readonly token: string;
  readonly name: string;
  readonly handle: Handle;
  readonly at: number;
}

/** What the file was when this window last read or wrote it. */
interface Known {
  readonly handle: Handle;
  readonly size: number;
  readonly modified: number;
}

const known = new Map<string, Known>();

const CANNOT: readonly string[] = [
  "It has no menu of its own: everything stands in the command field.",
  "It keeps no backup of the file before it writes over it.",
  "Double-clicking a drawing on your computer does not open it here.",
];

const CANNOT_WITH_PICKERS: readonly string[] = [
  "A change that another program makes to the file is noticed only when you come back to this window, or save.",
];

const CANNOT_WITHOUT_PICKERS: readonly string[] = [
  "This browser cannot write over the file you opened: each save is a download.",
  "This browser cannot come back to a file by itself, so there is no list of recent drawings.",
];

export function browserHost(): Host {
  const picks = hasPickers();
  let dirty = false;
  addEventListener("beforeunload", (event) => {
    if (dirty) event.preventDefault();
  });
  const unheard = (): (() => void) => () => undefined;
  return {
    kind: "browser",
    abilities: {
      saveInPlace: picks,
      nativeMenu: false,
      recentFiles: picks,
      noticesChangesOnDisk: picks,
      cannot: [...CANNOT, ...(picks ? CANNOT_WITH_PICKERS : CANNOT_WITHOUT_PICKERS)],
    },
    openFile: async () => {
      if (!picks) return fromFile(await upload());
      const handle = await pickToOpen();
      return handle === null ? null : opened(handle, await tokenOf(handle));
    },
    openRecent: async (token) => {
      const handle = known.get(token)?.handle ?? ((await get("recent", token)) as RecentEntry | undefined)?.handle;
      if (handle === undefined || !(await allowed(handle, "read"))) return null;
      return opened(handle, token);
    },
    openDropped: (file) => fromFile(file instanceof File ? file : null),
    saveFile: async (file, suggestedName, bytes, overwriteChanged) => {
      const place = file === null ? undefined : known.get(file.token);
      if (file === null || place === undefined) return saveAs(suggestedName, bytes, picks);
      if (!overwriteChanged && (await changed(place))) return { saved: false, why: "changed-on-disk" };
      return write(place.handle, file.token, bytes);
    },
    saveFileAs: (suggestedName, bytes) => saveAs(suggestedName, bytes, picks),
    exportFiles,
    recentFiles: async () => {
      const entries = ((await all("recent")) as readonly RecentEntry[]).slice().sort((a, b) => b.at - a.at);
      for (const { token } of entries.slice(MOST_RECENT)) await drop("recent", token);
      return entries.slice(0, MOST_RECENT).map(({ token, name }) => ({ token, name }));
    },
    demos: () => Promise.all(DEMOS.map(async (demo) => ({ id: demo.id, title: await demoTitle(demo) }))),
    openDemo: async (id) => {
      const demo = DEMOS.find((each) => each.id === id);
      if (demo === undefined) return null;
      return { file: null, name: demo.fileName, bytes: new TextEncoder().encode(await demo.text()) };
    },
    setDirty: (now) => {
      dirty = now;
    },
    writeRecovery,
    dropRecovery,
    listRecoveries,
    // async: a browser that keeps nothing throws here, and that is an answer like any other.
    loadPreferences: async () => localStorage.getItem(PREFERENCES),
    savePreferences: async (text) => localStorage.setItem(PREFERENCES, text),
    onMenu: unheard,
    onOpenRequest: unheard,
    onChangedOnDisk: (listener) => {
      const look = (): void => void tellChanges(listener);
      addEventListener("focus", look);
      return () => removeEventListener("focus", look);
    },
  };
}

/** Which state of a changed file the person has been told of already. */
const told = new Map<string, number>();

async function tellChanges(listener: (token: string) => void): Promise<void> {
  for (const [token, { handle, modified }] of known) {
    // A file that is gone or no longer allowed is told of when it is opened or saved.
    const file = await handle.getFile().catch(() => undefined);
    if (file === undefined || file.lastModified === modified || told.get(token) === file.lastModified) continue;
    told.set(token, file.lastModified);
    listener(token);
  }
}

/** A file beyond the limit is not read at all: the first byte too many tells its reader that it is too long. */
async function bytesOf(file: File): Promise<Uint8Array> {
  return new Uint8Array(await file.slice(0, LIMITS.bytes + 1).arrayBuffer());
}

async function fromFile(file: File | null): Promise<OpenedFile | null> {
  return file === null ? null : { file: null, name: file.name, bytes: await bytesOf(file) };
}

async function opened(handle: Handle, token: string): Promise<OpenedFile> {
  const file = await handle.getFile();
  return { file: await remember(handle, token, file), name: file.name, bytes: await bytesOf(file) };
}

/** The token under which this file is known already, or a new one. */
async function tokenOf(handle: Handle): Promise<string> {
  for (const entry of (await all("recent").catch(() => [])) as readonly RecentEntry[])
    if ((await handle.isSameEntry?.(entry.handle)) === true) return entry.token;
  return crypto.randomUUID();
}

async function remember(handle: Handle, token: string, file: File): Promise<FileRef> {
  known.set(token, { handle, size: file.size, modified: file.lastModified });
  const entry: RecentEntry = { token, name: handle.name, handle, at: Date.now() };
  // A browser that cannot keep the handle only loses the list of recent files, not the file.
  await put("recent", token, entry).catch(() => undefined);
  return { token, name: handle.name };
}

async function changed({ handle, size, modified }: Known): Promise<boolean> {
  const file = await handle.getFile();
  return file.size !== size || file.lastModified !== modified;
}

async function write(handle: Handle, token: string, bytes: Uint8Array): Promise<SaveResult> {
  try {
    if (!(await allowed(handle, "readwrite"))) return { saved: false, why: "cancelled" };
    await writeTo(handle, bytes);
    return { saved: true, file: await remember(handle, token, await handle.getFile()) };
  } catch (cause) {
    return refused(handle.name, cause);
  }
}

const refused = (name: string, cause: unknown): SaveResult => ({
  saved: false,
  why: "failed",
  text: `${name} could not be written (${cause instanceof Error ? cause.message : String(cause)}). Save it under another name or in another place.`,
});

async function saveAs(suggestedName: string, bytes: Uint8Array, picks: boolean): Promise<SaveResult> {
  if (!picks) {
    download(suggestedName, bytes, MIME);
    return { saved: true, file: null };
  }
  const handle = await pickToSave(suggestedName);
  return handle === null ? { saved: false, why: "cancelled" } : write(handle, await tokenOf(handle), bytes);
}

async function exportFiles(files: Parameters<Host["exportFiles"]>[0]): Promise<SaveResult> {
  const folder = files.length > 1 ? await pickFolder() : undefined;
  if (folder === null) return { saved: false, why: "cancelled" };
  for (const { name, bytes, mime } of files) {
    try {
      if (folder === undefined) download(name, bytes, mime);
      else await writeTo(await folder.getFileHandle(name, { create: true }), bytes);
    } catch (cause) {
      return refused(name, cause);
    }
  }
  return { saved: true, file: null };
}
