/** The recovery journal's times: 20 s of edits, loss of focus, and when it is dropped. */
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { addSheet } from "../../../core/project/commands/add-sheet.ts";
import { newProject } from "../../../core/project/new-project.ts";
import { readProject } from "../../../core/project/read.ts";
import { EditorStore } from "../../../renderer/window/editor-store.ts";
import { Journal } from "../../../renderer/window/journal.ts";
import { MemoryHost } from "../../harness/memory-host.ts";

let memory: MemoryHost;
let store: EditorStore;
let page: EventTarget;

beforeEach(() => {
  vi.useFakeTimers();
  page = new EventTarget();
  vi.stubGlobal("addEventListener", page.addEventListener.bind(page));
  vi.stubGlobal("document", Object.assign(new EventTarget(), { visibilityState: "visible" }));
  memory = new MemoryHost();
  store = new EditorStore(newProject(), { opened: () => undefined, edited: () => undefined, mend: () => undefined });
  new Journal(memory.host, store).begin();
});

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

const edit = (): void => {
  store.perform(addSheet, { name: "more", paper: "A3", orientation: "landscape" });
};

describe("the recovery journal", () => {
  it("is written 20 s after the first unsaved edit, with everything drawn until then", async () => {
    edit();
    await vi.advanceTimersByTimeAsync(19_000);
    expect(memory.recoveries.size).toBe(0);
    edit();
    await vi.advanceTimersByTimeAsync(1_000);
    const [kept] = [...memory.recoveries.values()];
    const read = readProject(kept?.text ?? "");
    expect(read.ok && read.project.sheets.length).toBe(3);
  });

  it("goes on under one id, again after 20 s of further edits", async () => {
    edit();
    await vi.advanceTimersByTimeAsync(20_000);
    edit();
    await vi.advanceTimersByTimeAsync(20_000);
    const [kept] = [...memory.recoveries.values()];
    const read = readProject(kept?.text ?? "");
    expect(read.ok && read.project.sheets.length).toBe(3);
    expect(memory.recoveries.size).toBe(1);
  });

  it("is written at once when the window loses the focus, but only with something unsaved", async () => {
    page.dispatchEvent(new Event("blur"));
    await vi.advanceTimersByTimeAsync(0);
    expect(memory.recoveries.size).toBe(0);
    edit();
    page.dispatchEvent(new Event("blur"));
    await vi.advanceTimersByTimeAsync(0);
    expect(memory.recoveries.size).toBe(1);
  });

  it("is dropped by a save and by undoing everything", async () => {
    edit();
    await vi.advanceTimersByTimeAsync(20_000);
    store.markSaved(null, "a.loomwright");
    await vi.advanceTimersByTimeAsync(0);
    expect(memory.recoveries.size).toBe(0);
    edit();
    await vi.advanceTimersByTimeAsync(20_000);
    store.undo();
    await vi.advanceTimersByTimeAsync(0);
    expect(memory.recoveries.size).toBe(0);
    expect(memory.dirty).toEqual([true, false, true, false]);
  });

  it("tells the person when the host cannot keep it, and goes on", async () => {
    memory.host.writeRecovery = () => Promise.reject(new Error("full"));
    edit();
    await vi.advanceTimersByTimeAsync(20_000);
    expect(store.now.notice).toMatch(/Save the drawing yourself/);
  });
});
