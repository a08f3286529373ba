/**
 * Unsaved work set aside, one file a document, in the program's own folder. Only one program at a time uses that folder
 * (its lock sees to that), so whatever this window has not set aside itself was left by one that has ended: it is
 * offered. The drawing's own file is never touched.
 */
import * as fs from "node:fs/promises";
import * as path from "node:path";
import type { Recovery } from "../../core/host/host.ts";
import { LIMITS } from "../../core/project/limits.ts";
import { atomicSave, sweepTemporaries } from "./atomic-save.ts";
import { FileProblem } from "./file-problem.ts";
import { ownFields, readOwn } from "./own-file.ts";

/** The ids are made by the window; nothing else may become part of a file name. */
const ID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/** A drawing written as JSON text within JSON grows by its quotes and line ends. */
const MOST_BYTES = LIMITS.bytes * 3;

export class RecoveryStore {
  readonly #folder: string;
  readonly #owned = new Set<string>();
  /** Writing and dropping one after the other. */
  #line: Promise<unknown> = Promise.resolve();

  constructor(folder: string) {
    this.#folder = folder;
  }

  /** @throws FileProblem when it cannot be written */
  write(id: string, name: string, text: string, savedAt: Date = new Date()): Promise<void> {
    const file = this.#fileOf(id);
    this.#owned.add(id);
    return this.#next(async () => {
      await fs.mkdir(this.#folder, { recursive: true });
      const recovery: Recovery = { id, name, savedAt: savedAt.toISOString(), text };
      await atomicSave(file, JSON.stringify(recovery), { backup: false });
    });
  }

  drop(id: string): Promise<void> {
    const file = this.#fileOf(id);
    this.#owned.delete(id);
    return this.#next(() => fs.rm(file, { force: true }));
  }

  /** Drops what this window set aside: the person gave it up. */
  async dropOwned(): Promise<void> {
    for (const id of [...this.#owned]) await this.drop(id);
  }

  /** The page was loaded anew: what the one before it set aside has no owner now. */
  disown(): void {
    this.#owned.clear();
  }

  /** What was left by windows that ended, the newest first. What cannot be read is left where it is. */
  list(): Promise<readonly Recovery[]> {
    return this.#next(async () => {
      const found: Recovery[] = [];
      for (const entry of await fs.readdir(this.#folder).catch((): string[] => [])) {
        const id = entry.replace(/\.json$/, "");
        if (!entry.endsWith(".json") || !ID.test(id)) continue;
        const file = path.join(this.#folder, entry);
        await sweepTemporaries(file);
        const recovery = this.#owned.has(id) ? undefined : asRecovery(id, await readOwn(file, MOST_BYTES));
        if (recovery !== undefined) found.push(recovery);
      }
      return found.sort((a, b) => (a.savedAt < b.savedAt ? 1 : -1));
    });
  }

  #fileOf(id: string): string {
    if (!ID.test(id))
      throw new FileProblem("Unsaved work has a name that no file can have. Save the drawing yourself.");
    return path.join(this.#folder, `${id}.json`);
  }

  #next<Result>(step: () => Promise<Result>): Promise<Result> {
    const done = this.#line.then(step);
    this.#line = done.catch(() => undefined);
    return done;
  }
}

function asRecovery(id: string, content: string | undefined): Recovery | undefined {
  const { name, savedAt, text } = ownFields(content) ?? {};
  if (typeof name !== "string" || typeof savedAt !== "string" || typeof text !== "string") return undefined;
  return { id, name, savedAt, text };
}
