import fc from "fast-check";
import { applyPatches as libraryApplyPatches } from "immer";
import { describe, expect, test } from "vitest";
import { addPart } from "../../../core/project/commands/add-part.ts";
import { connect } from "../../../core/project/commands/connect.ts";
import { deleteEntries } from "../../../core/project/commands/delete.ts";
import { moveView } from "../../../core/project/commands/move-view.ts";
import type { Project } from "../../../core/project/document.ts";
import { applyPatches, perform, redo, startHistory, undo } from "../../../core/project/history.ts";
import type { History } from "../../../core/project/history.ts";
import { newProject } from "../../../core/project/new-project.ts";
import { readProject } from "../../../core/project/read.ts";
import { writeProject } from "../../../core/project/write.ts";
import { edit, EDIT_COUNT, performEdit, smallDrawing } from "./edits.ts";
import { TEST_KINDS } from "./test-kinds.ts";

const allIds = (project: Project): readonly string[] =>
  [project.parts, project.wires, project.sheets, project.cables, project.zones, project.enclosures].flatMap((list) =>
    list.map(({ id }) => id),
  );
const withoutCounters = ({ lastIds: _, ...rest }: Project): object => rest;
const sequence = fc.array(edit, { minLength: 1, maxLength: 60 });

function whole(history: History, step: (at: History) => History): History {
  for (let next = step(history); next !== history; next = step(history)) history = next;
  return history;
}

describe("random sequences of edits", () => {
  test("each edit of the list is really carried out", () => {
    const done = new Set<number>();
    fc.assert(
      fc.property(sequence, (edits) => {
        let history = startHistory(smallDrawing());
        for (const one of edits) {
          const next = performEdit(history, one);
          if (next !== history) done.add(one.which % EDIT_COUNT);
          history = next;
        }
      }),
      { numRuns: 300, seed: 7 },
    );
    expect([...Array(EDIT_COUNT).keys()].filter((which) => !done.has(which))).toEqual([]);
  });

  test("undo all gives the start, redo all the end", () => {
    fc.assert(
      fc.property(sequence, (edits) => {
        const start = startHistory(smallDrawing());
        const end = edits.reduce(performEdit, start);
        const back = whole(end, undo);
        expect(withoutCounters(back.present)).toEqual(withoutCounters(start.present));
        expect(back.present.lastIds).toEqual(end.present.lastIds);
        const again = whole(back, redo);
        expect(again.present).toEqual(end.present);
        expect(again.past).toEqual(end.past);
      }),
      { numRuns: 150 },
    );
  });

  test("every document on the way can be written and reads back equal: nothing refers to what is gone", () => {
    fc.assert(
      fc.property(sequence, (edits) => {
        let history = startHistory(smallDrawing());
        for (const one of edits) {
          const next = performEdit(history, one);
          if (next === history) continue;
          history = next;
          const result = readProject(writeProject(history.present), TEST_KINDS);
          expect(result).toEqual({ ok: true, project: history.present, notes: [] });
        }
      }),
      { numRuns: 80 },
    );
  });

  test("an id is never given out twice, not even after an undo", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(edit, fc.boolean()), { maxLength: 60 }), (edits) => {
        let history = startHistory(smallDrawing());
        const given = new Set(allIds(history.present));
        for (const [one, back] of edits) {
          const before = new Set(allIds(history.present));
          history = performEdit(history, one);
          for (const id of allIds(history.present)) {
            if (before.has(id)) continue;
            expect(given.has(id)).toBe(false);
            given.add(id);
          }
          if (back) history = undo(history);
        }
      }),
      { numRuns: 150 },
    );
  });

  test("patches bring a copy up to date, as the library's own function does", () => {
    fc.assert(
      fc.property(sequence, (edits) => {
        const start = startHistory(smallDrawing());
        const end = edits.reduce(performEdit, start);
        const patches = end.past.flatMap((entry) => entry.patches);
        expect(applyPatches(start.present, patches)).toEqual(end.present);
        expect(libraryApplyPatches(start.present, patches)).toEqual(end.present);
      }),
      { numRuns: 100 },
    );
  });
});

describe("identity and gestures", () => {
  const drawn = ["battery-block", "fuse", "contactor"].reduce(
    (history, kind) => perform(history, addPart, { kind }, TEST_KINDS).history,
    startHistory(newProject()),
  );
  const wired = perform(drawn, connect, { from: ["p1", "+"], to: ["p2", "1"] }, TEST_KINDS).history;

  test("what an edit does not touch stays the same object, through undo and redo as well", () => {
    const moved = perform(wired, moveView, { moves: [{ part: "p3", view: "coil", x: 10, y: 10 }] }, TEST_KINDS).history;
    expect(moved.present.wires).toBe(wired.present.wires);
    expect(moved.present.parts[0]).toBe(wired.present.parts[0]);
    expect(moved.present.parts[2]).not.toBe(wired.present.parts[2]);
    const deleted = perform(moved, deleteEntries, { parts: ["p1"] }, TEST_KINDS).history;
    expect(deleted.present.parts[0]).toBe(moved.present.parts[1]);
    const back = undo(deleted);
    expect(back.present.parts.map((part, index) => part === moved.present.parts[index])).toEqual([true, true, true]);
    expect(redo(back).present.parts[1]).toBe(moved.present.parts[2]);
    expect(back.present.title).toBe(wired.present.title);
  });

  test("the commands of a gesture are one entry; a new gesture or a redo begins another", () => {
    const drag = (history: History, x: number, gesture: string): History =>
      perform(history, moveView, { moves: [{ part: "p1", view: "main", x, y: 0 }] }, TEST_KINDS, gesture).history;
    const once = drag(drag(drag(wired, 5, "first"), 10, "first"), 15, "first");
    expect(once.past.length).toBe(wired.past.length + 1);
    expect(once.present.parts[0]?.views[0]?.x).toBe(15);
    expect(undo(once).present).toEqual(wired.present);
    expect(redo(undo(once)).present).toEqual(once.present);
    expect(drag(once, 20, "second").past.length).toBe(wired.past.length + 2);
  });

  test("an edit after an undo drops what could have been redone; one without effect leaves no entry", () => {
    const back = undo(wired);
    expect(perform(back, addPart, { kind: "fuse" }, TEST_KINDS).history.future).toEqual([]);
    expect(perform(wired, deleteEntries, {}, TEST_KINDS).history).toBe(wired);
  });

  test("a document in the history cannot be changed from outside", () => {
    expect(() => Object.assign(wired.present.parts[0] ?? {}, { designation: "X9" })).toThrow(TypeError);
    expect(() => Object.assign(undo(wired).present, { title: {} })).toThrow(TypeError);
  });
});
