/**
 * What the page may ask of the main process: named functions and nothing else. It runs in a sandbox of its own, beside the
 * page, with no part of Node.
 */
import { contextBridge, ipcRenderer, webUtils } from "electron";
import type { Host, MenuAction, OpenedFile } from "../../core/host/host.ts";
import { ASK, SAY, TELL } from "../main/channels.ts";
import type { Answer } from "../main/channels.ts";

async function ask<Value>(channel: string, ...given: readonly unknown[]): Promise<Value> {
  const answer = (await ipcRenderer.invoke(channel, ...given)) as Answer;
  if (!answer.ok) throw new Error(answer.text);
  return answer.value as Value;
}

/** The listener gets what was said, never the event that brought it. */
function hear<Value>(channel: string, listener: (value: Value) => void): () => void {
  const heard = (_event: unknown, value: Value): void => listener(value);
  ipcRenderer.on(channel, heard);
  return () => void ipcRenderer.removeListener(channel, heard);
}

interface DroppedFile {
  readonly name: string;
  readonly arrayBuffer: () => Promise<ArrayBuffer>;
}

/** A file that the page made itself stands nowhere on the disk: it is taken as it is, and cannot be saved to. */
async function openDropped(file: unknown): Promise<OpenedFile | null> {
  const place = webUtils.getPathForFile(file as Parameters<typeof webUtils.getPathForFile>[0]);
  if (place !== "") return ask(ASK.openDropped, place);
  const { name, arrayBuffer } = file as DroppedFile;
  return { file: null, name, bytes: new Uint8Array(await arrayBuffer.call(file)) };
}

const host: Host = {
  kind: "desktop",
  abilities: { saveInPlace: true, nativeMenu: true, recentFiles: true, noticesChangesOnDisk: true, cannot: [] },
  openFile: () => ask(ASK.openFile),
  openRecent: (token) => ask(ASK.openRecent, token),
  openDropped,
  saveFile: (file, suggestedName, bytes, overwriteChanged) =>
    ask(ASK.saveFile, file === null ? null : file.token, suggestedName, bytes, overwriteChanged),
  saveFileAs: (suggestedName, bytes) => ask(ASK.saveFileAs, suggestedName, bytes),
  exportFiles: (files) =>
    ask(
      ASK.exportFiles,
      files.map(({ name, bytes }) => ({ name, bytes })),
    ),
  recentFiles: () => ask(ASK.recentFiles),
  demos: () => ask(ASK.demos),
  openDemo: (id) => ask(ASK.openDemo, id),
  setDirty: (dirty) => ipcRenderer.send(SAY.dirty, dirty),
  writeRecovery: (id, name, text) => ask(ASK.writeRecovery, id, name, text),
  dropRecovery: (id) => ask(ASK.dropRecovery, id),
  listRecoveries: () => ask(ASK.listRecoveries),
  loadPreferences: () => ask(ASK.loadPreferences),
  savePreferences: (text) => ask(ASK.savePreferences, text),
  onMenu: (listener) => hear<MenuAction>(TELL.menu, listener),
  onOpenRequest: (listener) => {
    const unheard = hear<OpenedFile>(TELL.openRequest, listener);
    ipcRenderer.send(SAY.takesFiles);
    return unheard;
  },
  onChangedOnDisk: (listener) => hear<string>(TELL.changedOnDisk, listener),
};

ipcRenderer.send(SAY.begun);
contextBridge.exposeInMainWorld("loomwright", host);
