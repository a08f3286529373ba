/**
 * The recovery journal: unsaved work is handed to the host every 20 s of edits and whenever the window loses the
 * focus, under an id of its own for each document opened. Saving, discarding or undoing back to what is saved drops it.
 */
import type { Host } from "../../core/host/host.ts";
import { writeProject } from "../../core/project/write.ts";
import type { EditorStore } from "./editor-store.ts";

const INTERVAL_MS = 20_000;

export class Journal {
  readonly #host: Host;
  readonly #store: EditorStore;
  #id: string = crypto.randomUUID();
  #timer: ReturnType<typeof setTimeout> | undefined;
  #written = false;
  /** Writing and dropping go to the host one after the other, so that a drop is never overtaken by a write. */
  #line: Promise<void> = Promise.resolve();

  constructor(host: Host, store: EditorStore) {
    this.#host = host;
    this.#store = store;
  }

  begin(): void {
    this.#store.api.subscribe((now, before) => {
      if (now.history === before.history && now.saved === before.saved) return;
      this.#host.setDirty(this.#store.dirty);
      if (!this.#store.dirty) this.#drop();
      else if (now.history !== before.history) this.#timer ??= setTimeout(() => void this.write(), INTERVAL_MS);
    });
    addEventListener("blur", () => void this.write());
    addEventListener("pagehide", () => void this.write());
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "hidden") void this.write();
    });
  }

  /** Another document is about to stand in the window; `recovered` names the entry of the journal that it comes from. */
  turnTo(recovered?: string): void {
    this.#drop();
    this.#id = recovered ?? crypto.randomUUID();
    this.#written = recovered !== undefined;
  }

  /** Writes what is unsaved; nothing to do when nothing is. */
  write(): Promise<void> {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    if (!this.#store.dirty) return Promise.resolve();
    const { fileName } = this.#store.now;
    const text = writeProject(this.#store.project);
    const id = this.#id;
    this.#written = true;
    return this.#queue(() => this.#host.writeRecovery(id, fileName, text));
  }

  #drop(): void {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    if (!this.#written) return;
    this.#written = false;
    const id = this.#id;
    void this.#queue(() => this.#host.dropRecovery(id));
  }

  #queue(step: () => Promise<void>): Promise<void> {
    const done = this.#line.then(step).catch(() => {
      this.#store.set({
        notice: "Unsaved work could not be set aside for recovery. Save the drawing yourself, and often.",
      });
    });
    this.#line = done;
    return done;
  }
}
