/** The plain parts of the window: shortcuts, preferences, the command field's search, what each stage lacks. */
import { describe, expect, it } from "vitest";
import { newProject } from "../../../core/project/new-project.ts";
import { search } from "../../../renderer/window/command-search.ts";
import type { Action } from "../../../renderer/window/actions.ts";
import { missingAt } from "../../../renderer/window/missing.ts";
import { DEFAULTS, readPreferences, writePreferences } from "../../../renderer/window/preferences.ts";
import { meets, shortcutText } from "../../../renderer/window/shortcut.ts";
import { drawing } from "../../harness/drawing.ts";

const pressed = (key: string, ctrl = false, shift = false) => ({
  key,
  ctrlKey: ctrl,
  metaKey: false,
  shiftKey: shift,
  altKey: false,
});

describe("shortcuts", () => {
  it("tell apart with and without Shift, whatever the keyboard makes of the letter", () => {
    const save = { key: "s", ctrl: true, shift: false };
    expect(meets(save, pressed("s", true))).toBe(true);
    expect(meets(save, pressed("S", true, true))).toBe(false);
    expect(meets({ ...save, shift: true }, pressed("S", true, true))).toBe(true);
    expect(meets(save, pressed("s"))).toBe(false);
    expect(meets(save, { ...pressed("s", true), altKey: true })).toBe(false);
  });

  it("take a sign as it is typed: on some keyboards the stroke needs Shift", () => {
    const mirror = { key: "/", ctrl: false, shift: false };
    expect(meets(mirror, pressed("/"))).toBe(true);
    expect(meets(mirror, pressed("/", false, true))).toBe(true);
    expect(meets(mirror, pressed("7"))).toBe(false);
  });

  it("take Command for Ctrl", () => {
    expect(meets({ key: "z", ctrl: true, shift: false }, { ...pressed("z"), metaKey: true })).toBe(true);
  });

  it("are shown as a keyboard has them", () => {
    expect(shortcutText({ key: "z", ctrl: true, shift: true })).toBe("Ctrl Shift Z");
    expect(shortcutText({ key: "Delete", ctrl: false, shift: false })).toBe("Delete");
  });
});

describe("preferences", () => {
  it("come back as they were written", () => {
    const mine = { ...DEFAULTS, units: "awg", paper: "Letter", author: "A. Smith", theme: "dark" } as const;
    expect(readPreferences(writePreferences(mine))).toEqual(mine);
  });

  it.each([null, "", "{", "[]", "7", '{"units":"furlong","theme":3,"motion":"yes","author":{}}'])(
    "fall back where nothing sensible is kept: %j",
    (text) => expect(readPreferences(text)).toEqual(DEFAULTS),
  );
});

describe("the command field", () => {
  const action = (id: string, name: string, also = ""): Action => ({ id, name, also, run: () => undefined });
  const searched = {
    actions: [action("save", "Save the drawing", "keep"), action("turn", "Turn what is selected", "rotate")],
    project: drawing().part("F10", "fuse", {}).part("F1", "fuse", {}).part("Q1", "contactor", {}).build(),
    findings: [],
    demos: [{ id: "tug", title: "Yard tug: 48 V" }],
  };
  const names = (typed: string): string[] => search(typed, searched).map(({ label }) => label);

  it("lists all actions while nothing is typed", () => {
    expect(names(" ")).toEqual(["Save the drawing", "Turn what is selected"]);
  });
  it("puts the exact designation before longer ones", () => {
    expect(names("f1")).toEqual(["F1", "F10"]);
  });
  it("finds by kind, by the trade's other words, and by several words in any order", () => {
    expect(names("contactor")).toEqual(["Q1"]);
    expect(names("rotate")).toEqual(["Turn what is selected"]);
    expect(names("drawing save")).toEqual(["Save the drawing"]);
    expect(names("tug")).toEqual(["Yard tug: 48 V"]);
  });
  it("finds nothing for what is not there", () => {
    expect(names("zeppelin")).toEqual([]);
  });
});

describe("what a stage lacks", () => {
  it("is said in a few words, and nothing where nothing is missing", () => {
    expect(missingAt("plan", newProject(), null)).toBe("no part yet");
    expect(missingAt("draw", newProject(), null)).toBe("");
    const one = drawing()
      .part("F1", "fuse", {})
      .part("F2", "fuse", {})
      .wire("F1:1", "F2:1", { size: "2.5 mm2" })
      .build();
    expect(missingAt("build", one, null)).toBe("1 without length");
    const loose = { ...one, wires: one.wires.map((wire) => ({ ...wire, ends: [wire.ends[0], null] as const })) };
    expect(missingAt("draw", loose, null)).toMatch(/^1 loose end/);
  });
});
