/**
 * The browser's file pickers (File System Access), where it has them; TypeScript's own library does not describe them
 * yet. Their refusal to a person who changed their mind is an AbortError: null here.
 */

export interface Handle {
  readonly name: string;
  readonly getFile: () => Promise<File>;
  readonly createWritable: () => Promise<{
    readonly write: (bytes: Uint8Array) => Promise<void>;
    readonly close: () => Promise<void>;
  }>;
  readonly isSameEntry?: (other: Handle) => Promise<boolean>;
  readonly queryPermission?: (wanted: { readonly mode: "read" | "readwrite" }) => Promise<PermissionState>;
  readonly requestPermission?: (wanted: { readonly mode: "read" | "readwrite" }) => Promise<PermissionState>;
}

export interface FolderHandle {
  readonly getFileHandle: (name: string, options: { readonly create: boolean }) => Promise<Handle>;
}

interface PickerOptions {
  readonly suggestedName?: string;
  readonly mode?: "readwrite";
  readonly types?: readonly {
    readonly description: string;
    readonly accept: Readonly<Record<string, readonly string[]>>;
  }[];
}

interface Pickers {
  readonly showOpenFilePicker?: (options: PickerOptions) => Promise<readonly Handle[]>;
  readonly showSaveFilePicker?: (options: PickerOptions) => Promise<Handle>;
  readonly showDirectoryPicker?: (options: PickerOptions) => Promise<FolderHandle>;
}

const pickers = (): Pickers => window as unknown as Pickers;

/** Files can be opened and written where they are. */
export const hasPickers = (): boolean =>
  pickers().showOpenFilePicker !== undefined && pickers().showSaveFilePicker !== undefined;

const PROJECTS: PickerOptions = {
  types: [{ description: "Loomwright drawing", accept: { "application/json": [".loomwright"] } }],
};

async function chosen<Value>(pick: Promise<Value> | undefined): Promise<Value | null> {
  try {
    return (await pick) ?? null;
  } catch (cause) {
    if (cause instanceof DOMException && cause.name === "AbortError") return null;
    throw cause;
  }
}

export async function pickToOpen(): Promise<Handle | null> {
  const handles = await chosen(pickers().showOpenFilePicker?.(PROJECTS));
  return handles?.[0] ?? null;
}

export const pickToSave = (suggestedName: string): Promise<Handle | null> =>
  chosen(pickers().showSaveFilePicker?.({ ...PROJECTS, suggestedName }));

/** null when the person changed their mind; undefined when the browser has no such picker. */
export async function pickFolder(): Promise<FolderHandle | null | undefined> {
  const pick = pickers().showDirectoryPicker;
  return pick === undefined ? undefined : chosen(pick.call(window, { mode: "readwrite" }));
}

/** Asks again for what the person allowed in an earlier session. */
export async function allowed(handle: Handle, mode: "read" | "readwrite"): Promise<boolean> {
  if (handle.queryPermission === undefined || (await handle.queryPermission({ mode })) === "granted") return true;
  return (await handle.requestPermission?.({ mode })) === "granted";
}

export async function writeTo(handle: Handle, bytes: Uint8Array): Promise<void> {
  const writable = await handle.createWritable();
  await writable.write(bytes);
  await writable.close();
}

/** The way of browsers without pickers: a file comes in by upload. */
export function upload(): Promise<File | null> {
  return new Promise((resolve) => {
    const input = document.createElement("input");
    input.type = "file";
    input.accept = ".loomwright,application/json";
    // Stands in the page meanwhile: a browser may throw away a field that nobody holds, and its choice with it.
    input.hidden = true;
    document.body.append(input);
    const end = (file: File | null): void => {
      input.remove();
      resolve(file);
    };
    input.onchange = () => end(input.files?.[0] ?? null);
    input.oncancel = () => end(null);
    input.click();
  });
}

const KEEP_ADDRESS_MS = 60_000;

/** ... and goes out as a download. */
export function download(name: string, bytes: Uint8Array, mime: string): void {
  const address = URL.createObjectURL(new Blob([new Uint8Array(bytes)], { type: mime }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), KEEP_ADDRESS_MS);
}
