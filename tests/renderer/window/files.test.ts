/** Files and the questions that belong to them: nothing unsaved is lost without a word, nothing is written unasked. */
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { addSheet } from "../../../core/project/commands/add-sheet.ts";
import { newProject } from "../../../core/project/new-project.ts";
import { readProject } from "../../../core/project/read.ts";
import { writeProject } from "../../../core/project/write.ts";
import { EditorStore } from "../../../renderer/window/editor-store.ts";
import { Files } from "../../../renderer/window/files.ts";
import { Journal } from "../../../renderer/window/journal.ts";
import { Shell } from "../../../renderer/window/shell.ts";
import type { Dialog } from "../../../renderer/window/shell.ts";
import { MemoryHost } from "../../harness/memory-host.ts";

let memory: MemoryHost;
let store: EditorStore;
let shell: Shell;
let files: Files;
let journal: Journal;
let report: string | undefined;

beforeEach(() => {
  memory = new MemoryHost();
  store = new EditorStore(newProject(), { opened: () => undefined, edited: () => undefined, mend: () => undefined });
  shell = new Shell(memory.host);
  journal = new Journal(memory.host, store);
  report = undefined;
  // Only reports are asked for here; each answer is laid down by its test.
  files = new Files(memory.host, store, shell, journal, () => Promise.resolve(report) as Promise<never>);
});

const edit = (): void => {
  store.perform(addSheet, { name: "more", paper: "A3", orientation: "landscape" });
};

/** Answers the dialogs that come, in order, and tells which they were. */
function answering(...answers: readonly string[]): Dialog[] {
  const left = [...answers];
  const seen: Dialog[] = [];
  shell.api.subscribe(({ dialog }, before) => {
    if (dialog === null || dialog === before.dialog) return;
    seen.push(dialog);
    const answer = left.shift();
    if (answer !== undefined) queueMicrotask(() => shell.answer(answer));
  });
  return seen;
}

const drawing = (vehicle: string): Uint8Array =>
  new TextEncoder().encode(writeProject({ ...newProject(), title: { vehicle } }));

const file = (name: string, bytes: Uint8Array) => ({ file: { token: name, name }, name, bytes });

describe("opening", () => {
  it("takes the drawing and its file, unasked when nothing is unsaved", async () => {
    const seen = answering();
    memory.opens = [file("cart.loomwright", drawing("cart"))];
    await files.open();
    expect(store.project.title.vehicle).toBe("cart");
    expect(store.now.file?.token).toBe("cart.loomwright");
    expect(store.dirty).toBe(false);
    expect(seen).toEqual([]);
  });

  it("asks before it drops unsaved work, and keeps it unless told to", async () => {
    edit();
    const seen = answering("keep");
    memory.opens = [file("cart.loomwright", drawing("cart"))];
    await files.open();
    expect(seen).toHaveLength(1);
    expect(store.project.sheets).toHaveLength(2);
    expect(memory.opens).toHaveLength(1);
  });

  it.each(["", "keep"])("keeps working when the question is left (%j)", async (answer) => {
    edit();
    answering(answer);
    await files.startNew();
    expect(store.project.sheets).toHaveLength(2);
  });

  it("saves first when told to, and does not leave when that fails", async () => {
    edit();
    answering("save", "save");
    memory.saves = [{ saved: false, why: "failed", text: "The disk is full. Make room." }];
    await files.startNew();
    expect(store.project.sheets).toHaveLength(2);
    expect(store.now.notice).toBe("The disk is full. Make room.");
    await files.startNew();
    expect(memory.written).toHaveLength(1);
    expect(store.project.sheets).toHaveLength(1);
  });

  it.each([
    ["no drawing", new TextEncoder().encode("Dear Sir"), /not a project file/],
    ["not UTF-8", new Uint8Array([0x7b, 0xff, 0x7d]), /UTF-8/],
    ["empty", new Uint8Array(), /empty/],
    ["beyond the limit", new Uint8Array(20_000_001), /MB/],
  ])("says in its own words why a file cannot be opened: %s", async (_what, bytes, sentence) => {
    const seen = answering("");
    const before = store.project;
    memory.opens = [file("x.loomwright", bytes)];
    await files.open();
    expect(seen).toEqual([{ kind: "unreadable", name: "x.loomwright", problems: [expect.stringMatching(sentence)] }]);
    expect(store.project).toBe(before);
  });

  it("says so when the system does not hand the file over", async () => {
    const seen = answering("");
    memory.host.openFile = () => Promise.reject(new Error("gone"));
    await files.open();
    expect(seen).toEqual([
      { kind: "unreadable", name: "The file", problems: [expect.stringMatching(/\(gone\).*choose another/)] },
    ]);
  });

  it("hands on what the desktop says about a file, which is a sentence already", async () => {
    const seen = answering("");
    const said = "cart.loomwright: it may not be opened by you. Change its permissions, or copy it.";
    memory.host.openFile = () => Promise.reject(new Error(said));
    await files.open();
    expect(seen).toEqual([{ kind: "unreadable", name: "The file", problems: [said] }]);
  });

  it("leaves what a quick person has opened already alone when the first demo arrives", async () => {
    memory.opens = [file("demo.loomwright", drawing("demo")), file("mine.loomwright", drawing("mine"))];
    const first = files.showFirst("demo");
    await Promise.all([first, files.openGiven(file("mine.loomwright", drawing("mine")))]);
    expect(store.project.title.vehicle).toBe("mine");
  });
});

describe("saving", () => {
  it("marks as saved what was written, not what was drawn meanwhile", async () => {
    edit();
    const saving = files.save();
    edit();
    expect(await saving).toBe(true);
    expect(store.dirty).toBe(true);
    store.undo();
    expect(store.dirty).toBe(false);
    const read = readProject(memory.written[0]?.text ?? "");
    expect(read.ok && read.project.sheets.length).toBe(2);
  });

  it("leaves a drawing alone that came into the window while the one before was being written", async () => {
    edit();
    const saving = files.save();
    files.startEmpty();
    expect(await saving).toBe(true);
    expect(store.now.file).toBeNull();
  });

  it("writes over another program's changes only when told to", async () => {
    edit();
    const changed = { saved: false, why: "changed-on-disk" } as const;
    memory.saves = [changed];
    answering("keep", "overwrite");
    expect(await files.save()).toBe(false);
    expect(memory.written).toEqual([]);
    memory.saves = [changed];
    expect(await files.save()).toBe(true);
    expect(memory.written.map(({ overwrite }) => overwrite)).toEqual([true]);
  });

  it("counts as saved when the person saves under another name instead", async () => {
    edit();
    memory.saves = [{ saved: false, why: "changed-on-disk" }];
    answering("as");
    expect(await files.save()).toBe(true);
    expect(memory.written.map(({ overwrite }) => overwrite)).toEqual([false]);
    expect(store.dirty).toBe(false);
  });

  it("says so when the host breaks off", async () => {
    edit();
    memory.host.saveFile = () => Promise.reject(new Error("gone"));
    expect(await files.save()).toBe(false);
    expect(store.dirty).toBe(true);
    expect(store.now.notice).toMatch(/^Nothing was written \(gone\)\./);
  });

  it("stays unsaved when the person changes their mind", async () => {
    edit();
    memory.saves = [{ saved: false, why: "cancelled" }];
    expect(await files.save()).toBe(false);
    expect(store.dirty).toBe(true);
    expect(store.now.notice).toBeNull();
  });
});

describe("a file that another program changed", () => {
  it("is opened again only when the person says so", async () => {
    memory.opens = [file("a.loomwright", drawing("old"))];
    await files.open();
    answering("keep", "reopen");
    memory.opens = [file("a.loomwright", drawing("new"))];
    await files.changedOnDisk("a.loomwright");
    expect(store.project.title.vehicle).toBe("old");
    await files.changedOnDisk("a.loomwright");
    expect(store.project.title.vehicle).toBe("new");
  });

  it("is nobody's concern when it is not the one in the window", async () => {
    const seen = answering();
    await files.changedOnDisk("other");
    expect(seen).toEqual([]);
  });
});

describe("recovered work", () => {
  const recovery = (text: string) => ({ id: "r1", name: "cart.loomwright", savedAt: "2026-11-25T08:00:00Z", text });

  it("is unsaved, belongs to no file, and stays in the journal until it is saved", async () => {
    memory.recoveries.set("r1", recovery(new TextDecoder().decode(drawing("cart"))));
    answering("recover");
    await files.offerRecovery(recovery(new TextDecoder().decode(drawing("cart"))));
    expect(store.project.title.vehicle).toBe("cart");
    expect(store.now.file).toBeNull();
    expect(store.dirty).toBe(true);
    expect([...memory.recoveries.keys()]).toEqual(["r1"]);
    expect(await files.save()).toBe(true);
    expect(store.dirty).toBe(false);
  });

  it("is dropped when discarded, kept when left for later or unread", async () => {
    memory.recoveries.set("r1", recovery("{}"));
    answering("later", "recover", "", "discard");
    await files.offerRecovery(recovery("{}"));
    expect(memory.recoveries.size).toBe(1);
    await files.offerRecovery(recovery("{}"));
    expect(memory.recoveries.size).toBe(1);
    await files.offerRecovery(recovery("{}"));
    expect(memory.recoveries.size).toBe(0);
  });
});

describe("the findings report", () => {
  beforeEach(() => void vi.stubGlobal("fetch", () => Promise.resolve(new Response(new Uint8Array([1, 2, 3])))));
  afterEach(() => void vi.unstubAllGlobals());

  it("says that checks are still running, and then that it is saved", async () => {
    const said: (string | null)[] = [];
    store.api.subscribe(({ notice }, before) => void (notice !== before.notice && said.push(notice)));
    report = "<!DOCTYPE html>";
    await files.saveReport();
    expect(said).toEqual([
      "Checks are still running. The report is made as soon as all have answered.",
      "The findings report is saved. Open it in a browser to read or print it.",
    ]);
    expect(memory.exported).toEqual([{ name: "Untitled-findings.html", text: "<!DOCTYPE html>" }]);
  });

  it("is not written where the drawing changed before all had answered", async () => {
    await files.saveReport();
    expect(store.now.notice).toMatch(/^No report was made: the drawing was changed.* Save the report once more\.$/);
    expect(memory.exported).toEqual([]);
  });
});
