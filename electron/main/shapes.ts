/** What the arguments of the page's messages must be, lengths included. */
import type { Shape } from "./gate.ts";
import { MOST_PREFERENCES } from "../files/preferences.ts";
import { LIMITS } from "../../core/project/limits.ts";

/** A drawing is saved even if it has grown beyond what may be opened: better too long than lost. */
const MOST_BYTES = LIMITS.bytes * 4;
const MOST_FILES = 500;
const MOST_EXPORTED = 500_000_000;
const LONGEST_PATH = 32_767;

const textUpTo =
  (most: number) =>
  (value: unknown): value is string =>
    typeof value === "string" && value.length <= most;

const isBytes = (value: unknown): value is Uint8Array => value instanceof Uint8Array && value.length <= MOST_BYTES;

/** A name for a file, and no more than that: it leads to no other folder, on no system. */
const isFileName = (value: unknown): value is string =>
  textUpTo(200)(value) && value !== "" && !/[/\\\0<>:"|?*]/.test(value) && !/^\.|[. ]$/.test(value);

export const FLAG: Shape<boolean> = { name: "true or false", fits: (value) => typeof value === "boolean" };
export const TOKEN: Shape<string> = { name: "a token", fits: textUpTo(64) };
export const TOKEN_OR_NULL: Shape<string | null> = {
  name: "a token or null",
  fits: (value): value is string | null => value === null || textUpTo(64)(value),
};
export const NAME: Shape<string> = { name: "a name", fits: textUpTo(255) };
export const BYTES: Shape<Uint8Array> = { name: "bytes", fits: isBytes };
export const DRAWING_TEXT: Shape<string> = { name: "a drawing as text", fits: textUpTo(MOST_BYTES) };
export const PREFERENCES: Shape<string> = { name: "preferences as text", fits: textUpTo(MOST_PREFERENCES) };
/** Made by the preload out of a file that was dropped; the page itself has no way to name one. */
export const DROPPED: Shape<string> = { name: "the place of a dropped file", fits: textUpTo(LONGEST_PATH) };

export interface ExportedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

const EXPORTED = /\.(svg|csv|json|txt|html|pdf|md)$/i;

const isExported = (value: unknown): value is ExportedFile => {
  if (typeof value !== "object" || value === null || !("name" in value) || !("bytes" in value)) return false;
  return isFileName(value.name) && EXPORTED.test(value.name) && isBytes(value.bytes);
};

export const EXPORTS: Shape<readonly ExportedFile[]> = {
  name: "files to export",
  fits: (value): value is readonly ExportedFile[] => {
    if (!Array.isArray(value) || value.length === 0 || value.length > MOST_FILES || !value.every(isExported))
      return false;
    // Two names that differ in capitals only are one file on many disks.
    const names = new Set(value.map(({ name }) => name.toLowerCase()));
    return names.size === value.length && value.reduce((sum, { bytes }) => sum + bytes.length, 0) <= MOST_EXPORTED;
  },
};
