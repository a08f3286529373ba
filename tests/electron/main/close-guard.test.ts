/** Closing over unsaved work, in every order of events. */
import { describe, expect, it } from "vitest";
import { CloseGuard } from "../../../electron/main/close-guard.ts";
import { RequestedFiles, namedDrawing } from "../../../electron/main/requested-files.ts";
import * as path from "node:path";

function guarded(answer: "save" | "discard" | "keep") {
  const done: string[] = [];
  const note = (what: string) => (): void => void done.push(what);
  const guard = new CloseGuard({
    ask: () => {
      done.push("asked");
      return answer;
    },
    save: note("told to save"),
    forget: () => Promise.resolve(done.push("forgot")).then(() => undefined),
    close: note("closed"),
    quit: note("quit"),
  });
  return { guard, done };
}

const soon = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

describe("closing", () => {
  it("asks nothing when nothing is unsaved", () => {
    const { guard, done } = guarded("keep");
    expect(guard.mayClose()).toBe(true);
    guard.dirty(true);
    guard.dirty(false);
    expect([guard.mayClose(), done]).toEqual([true, []]);
  });

  it("keeps the window, and asks again the next time", () => {
    const { guard, done } = guarded("keep");
    guard.dirty(true);
    expect([guard.mayClose(), guard.mayClose(), done]).toEqual([false, false, ["asked", "asked"]]);
  });

  it("drops what was set aside before it closes over work given up", async () => {
    const { guard, done } = guarded("discard");
    guard.dirty(true);
    expect(guard.mayClose()).toBe(false);
    await soon();
    expect(done).toEqual(["asked", "forgot", "closed"]);
    expect(guard.mayClose()).toBe(true);
  });

  it("closes once the page has saved, and quits if that was what was wanted", async () => {
    const { guard, done } = guarded("save");
    guard.dirty(true);
    guard.quitting();
    expect(guard.mayClose()).toBe(false);
    expect(done).toEqual(["asked", "told to save"]);
    guard.dirty(false);
    await soon();
    expect(done).toEqual(["asked", "told to save", "forgot", "quit"]);
  });

  it("stays open when it was not saved, also when that is made good later", async () => {
    const { guard, done } = guarded("save");
    guard.dirty(true);
    guard.mayClose();
    guard.notSaved();
    guard.dirty(false);
    await soon();
    expect(done).toEqual(["asked", "told to save"]);
  });

  it("asks nothing when the system shuts down, and leaves what was set aside", () => {
    const { guard, done } = guarded("keep");
    guard.dirty(true);
    guard.systemEnds();
    expect([guard.mayClose(), done]).toEqual([true, []]);
  });

  it("asks nothing about the work of a page that was loaded anew", () => {
    const { guard, done } = guarded("keep");
    guard.dirty(true);
    guard.begun();
    expect([guard.mayClose(), done]).toEqual([true, []]);
  });
});

describe("drawings that the system asks for", () => {
  it("are found on a command line, from the folder it was given in", () => {
    const folder = path.resolve("elsewhere");
    expect(namedDrawing(["electron", ".", "--flag", "a.Loomwright"], folder)).toBe(path.join(folder, "a.Loomwright"));
    expect(namedDrawing(["electron", ".", "--open=b.loomwright"], folder)).toBeUndefined();
    expect(namedDrawing(["first.loomwright"], folder)).toBeUndefined();
  });

  it("wait for the page, and wait again while it is loaded anew", () => {
    const requested = new RequestedFiles();
    const opened: string[] = [];
    requested.ask("a");
    requested.ask(undefined);
    requested.deliver((file) => opened.push(file));
    requested.ask("b");
    requested.hold();
    requested.ask("c");
    expect(opened).toEqual(["a", "b"]);
    requested.deliver((file) => opened.push(file));
    expect(opened).toEqual(["a", "b", "c"]);
  });
});
