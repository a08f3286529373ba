/**
 * Which files the window may reach, and how: by a token that says nothing. A token is given out only for a file that
 * the person chose, dropped or had opened by the system; the path stays here.
 */
import { createHash, randomUUID } from "node:crypto";
import * as fs from "node:fs/promises";
import * as os from "node:os";
import * as path from "node:path";
import type { FileRef } from "../../core/host/host.ts";
import { tooLarge } from "../../core/project/bytes.ts";
import { sweepTemporaries } from "./atomic-save.ts";
import { FileProblem, codeOf, readingProblem } from "./file-problem.ts";

/** What a file was when this program last read or wrote it. */
interface Fingerprint {
  readonly modified: number;
  readonly size: number;
  readonly hash: string;
}

interface Entry {
  readonly path: string;
  known?: Fingerprint;
}

const hashOf = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");

/**
 * A whole file, looked at before it is read: no folder, no device, not longer than a project may be.
 * @throws FileProblem
 */
async function readWhole(file: string): Promise<{ readonly bytes: Uint8Array; readonly known: Fingerprint }> {
  const name = path.basename(file);
  try {
    // Opening a pipe would wait for somebody to write into it.
    const facts = await fs.stat(file);
    if (facts.isDirectory()) throw Object.assign(new Error("a folder"), { code: "EISDIR" });
    if (!facts.isFile()) throw new FileProblem(`${name}: it is a device or a pipe. Choose a file.`);
    const long = tooLarge(facts.size);
    if (long !== undefined) throw new FileProblem(`${name}: ${long}`);
    const bytes = new Uint8Array(await fs.readFile(file));
    return { bytes, known: { modified: facts.mtimeMs, size: bytes.length, hash: hashOf(bytes) } };
  } catch (cause) {
    throw readingProblem(name, cause);
  }
}

/** The folder as a person would know it: their own is "~". */
function placeOf(file: string): string {
  const folder = path.dirname(file);
  const fromHome = path.relative(os.homedir(), folder);
  return fromHome.startsWith("..") || path.isAbsolute(fromHome) ? folder : path.join("~", fromHome);
}

/** Without links, so that one file has one place; a new file stands in its folder's. */
async function realPlace(file: string): Promise<string> {
  const whole = path.resolve(file);
  const folder = await fs.realpath(path.dirname(whole)).catch(() => path.dirname(whole));
  return fs.realpath(whole).catch(() => path.join(folder, path.basename(whole)));
}

export class FileTokens {
  readonly #entries = new Map<string, Entry>();

  /** The token for a file; always the same one for the same path. */
  async grant(file: string): Promise<FileRef> {
    const real = await realPlace(file);
    for (const [token, entry] of this.#entries) if (entry.path === real) return this.refOf(token);
    const token = randomUUID();
    this.#entries.set(token, { path: real });
    return this.refOf(token);
  }

  /** @throws FileProblem for a token that was never given out */
  refOf(token: string): FileRef {
    const { path: file } = this.#entry(token);
    return { token, name: path.basename(file), place: placeOf(file) };
  }

  /** undefined for a token that was never given out */
  pathOf(token: string): string | undefined {
    return this.#entries.get(token)?.path;
  }

  /**
   * Reads the file of a token and remembers what it was. Sweeps up what an ended program left beside it.
   * @throws FileProblem
   */
  async read(token: string): Promise<{ readonly file: FileRef; readonly bytes: Uint8Array }> {
    const entry = this.#entry(token);
    const { bytes, known } = await readWhole(entry.path);
    entry.known = known;
    await sweepTemporaries(entry.path);
    return { file: this.refOf(token), bytes };
  }

  /** Remembers what has just been written, so that it does not count as somebody else's change. */
  async wrote(token: string, bytes: Uint8Array): Promise<void> {
    const entry = this.#entry(token);
    const facts = await fs.stat(entry.path);
    entry.known = { modified: facts.mtimeMs, size: bytes.length, hash: hashOf(bytes) };
  }

  /**
   * Whether somebody else changed the file since it was read or written here. A file that is gone, or was never read
   * here, is nobody's change; one that was only touched holds what it held.
   */
  async changed(token: string): Promise<boolean> {
    const { path: file, known } = this.#entry(token);
    if (known === undefined) return false;
    try {
      const facts = await fs.stat(file);
      if (facts.size !== known.size) return true;
      return hashOf(new Uint8Array(await fs.readFile(file))) !== known.hash;
    } catch (cause) {
      if (codeOf(cause) === "ENOENT") return false;
      throw readingProblem(path.basename(file), cause);
    }
  }

  /** Time and length of the file now, cheap to ask often; undefined when it is gone. Equal to `known`: surely unchanged. */
  async glance(token: string): Promise<{ readonly mark: string; readonly known: boolean } | undefined> {
    const { path: file, known } = this.#entry(token);
    const facts = await fs.stat(file).catch(() => undefined);
    if (facts === undefined) return undefined;
    return {
      mark: `${facts.mtimeMs} ${facts.size}`,
      known: facts.mtimeMs === known?.modified && facts.size === known.size,
    };
  }

  #entry(token: string): Entry {
    const entry = this.#entries.get(token);
    if (entry === undefined) throw new FileProblem("This drawing has no file here yet. Save it under a name first.");
    return entry;
  }
}
