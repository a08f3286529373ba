/**
 * A file is replaced whole or not at all: written under a temporary name in the same folder, brought to the disk, the
 * old content kept beside it as NAME.bak, then renamed. At every instant the old or the new content stands under the
 * name, whatever ends the program.
 */
import { randomBytes } from "node:crypto";
import * as fs from "node:fs/promises";
import type { FileHandle } from "node:fs/promises";
import * as path from "node:path";
import { codeOf, writingProblem } from "./file-problem.ts";

const OWN_MODE = 0o644;
const PERMISSIONS = 0o777;

interface Facts {
  readonly mode: number;
  readonly uid: number;
  readonly gid: number;
}

/** The file that a name leads to: a link stays a link, what it leads to is replaced. A new file is what it is called. */
async function targetOf(name: string): Promise<string> {
  try {
    return await fs.realpath(name);
  } catch (cause) {
    if (codeOf(cause) === "ENOENT") return path.resolve(name);
    throw cause;
  }
}

/** undefined where nothing has that name yet */
async function factsOf(target: string): Promise<Facts | undefined> {
  try {
    const facts = await fs.stat(target);
    if (facts.isDirectory()) throw Object.assign(new Error("a folder"), { code: "EISDIR" });
    // A rename would replace a file that its owner has protected.
    await fs.access(target, fs.constants.W_OK);
    return facts;
  } catch (cause) {
    if (codeOf(cause) === "ENOENT") return undefined;
    throw cause;
  }
}

/** Owner and permissions as they were, as far as the system lets this person give them. */
async function dressLike(file: FileHandle, facts: Facts | undefined): Promise<void> {
  if (facts === undefined) return;
  await file.chown(facts.uid, facts.gid).catch(() => undefined);
  await file.chmod(facts.mode & PERMISSIONS).catch(() => undefined);
}

const HELD: readonly string[] = ["EPERM", "EACCES", "EBUSY"];
const TRIES = 8;
const FIRST_WAIT_MS = 20;

/** Virus scanners and indexers hold a file for a moment on Windows; it is asked for again, later each time. */
async function renamePatiently(from: string, to: string): Promise<void> {
  for (let tried = 0; ; tried += 1) {
    try {
      return await fs.rename(from, to);
    } catch (cause) {
      if (tried >= TRIES || !HELD.includes(codeOf(cause))) throw cause;
      await new Promise((resolve) => setTimeout(resolve, FIRST_WAIT_MS << tried));
    }
  }
}

/** The old content under NAME.bak: by a second name for it, or a copy where the disk knows no second names. */
async function keepBackup(target: string, fresh: string): Promise<void> {
  const kept = `${fresh}.bak`;
  try {
    await fs.link(target, kept).catch(() => fs.copyFile(target, kept));
    await renamePatiently(kept, `${target}.bak`);
  } catch (cause) {
    await fs.rm(kept, { force: true });
    throw cause;
  }
}

/** Windows opens no folder, and some network shares flush none: the rename itself has happened by then. */
async function flushFolder(folder: string): Promise<void> {
  if (process.platform === "win32") return;
  const opened = await fs.open(folder, "r");
  try {
    await opened.sync().catch(() => undefined);
  } finally {
    await opened.close();
  }
}

async function writeFresh(fresh: string, content: string | Uint8Array, facts: Facts | undefined): Promise<void> {
  const file = await fs.open(fresh, "wx", (facts?.mode ?? OWN_MODE) & PERMISSIONS);
  try {
    await dressLike(file, facts);
    await file.writeFile(content);
    await file.sync();
  } finally {
    await file.close();
  }
}

/**
 * Replaces a file, or makes it.
 * @param options.backup keeps what was there as NAME.bak
 * @throws FileProblem when it cannot be written; what was there is then untouched and no temporary file is left
 */
export async function atomicSave(
  name: string,
  content: string | Uint8Array,
  options: { readonly backup: boolean },
): Promise<void> {
  let fresh: string | undefined;
  try {
    const target = await targetOf(name);
    const facts = await factsOf(target);
    const folder = path.dirname(target);
    const temporary = path.join(
      folder,
      `.${path.basename(target)}.${process.pid}.${randomBytes(4).toString("hex")}.tmp`,
    );
    fresh = temporary;
    await writeFresh(temporary, content, facts);
    if (options.backup && facts !== undefined) await keepBackup(target, temporary);
    await renamePatiently(temporary, target);
    fresh = undefined;
    await flushFolder(folder);
  } catch (cause) {
    if (fresh !== undefined) await fs.rm(fresh, { force: true }).catch(() => undefined);
    throw writingProblem(path.basename(name), cause);
  }
}

const STALE_MS = 60_000;
const TEMPORARY = /\.(\d+)\.[0-9a-f]{8}\.tmp(\.bak)?$/;

function alive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (cause) {
    return codeOf(cause) === "EPERM";
  }
}

/**
 * Removes the temporary files that a save of this file left behind when its program was ended: older than a minute,
 * and their program gone. A folder that cannot be looked through is left as it is.
 * @returns the names removed
 */
export async function sweepTemporaries(name: string, now: number = Date.now()): Promise<readonly string[]> {
  const removed: string[] = [];
  const target = await targetOf(name).catch(() => path.resolve(name));
  const folder = path.dirname(target);
  const begin = `.${path.basename(target)}`;
  for (const entry of await fs.readdir(folder).catch((): string[] => [])) {
    const rest = entry.startsWith(begin) ? TEMPORARY.exec(entry.slice(begin.length)) : null;
    if (rest === null || rest.index !== 0 || alive(Number(rest[1]))) continue;
    const file = path.join(folder, entry);
    const facts = await fs.lstat(file).catch(() => undefined);
    if (facts === undefined || !facts.isFile() || now - facts.mtimeMs < STALE_MS) continue;
    await fs.rm(file, { force: true }).then(
      () => removed.push(entry),
      () => undefined,
    );
  }
  return removed;
}
