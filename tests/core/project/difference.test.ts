import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { carryOut } from "../../../core/project/commands/carry-out.ts";
import { patchesBetween } from "../../../core/project/difference.ts";
import { applyPatches, perform, startHistory, undo } from "../../../core/project/history.ts";
import { edit, performEdit, smallDrawing } from "./edits.ts";
import { TEST_KINDS } from "./test-kinds.ts";

const sequence = fc.array(edit, { minLength: 1, maxLength: 12 });

describe("patches between two documents", () => {
  test("lead from the one to the other, whatever edits lie between, and back again by undo", () => {
    let changed = 0;
    fc.assert(
      fc.property(sequence, sequence, (first, second) => {
        const before = first.reduce(performEdit, startHistory(smallDrawing())).present;
        const after = second.reduce(performEdit, startHistory(before)).present;
        const patches = patchesBetween(before, after);
        if (patches.length > 0) changed += 1;
        expect(applyPatches(before, patches)).toEqual(after);
        const done = perform(startHistory(before), carryOut, { label: "Mend it", patches }, TEST_KINDS);
        expect(done.history.present).toEqual(after);
        expect(undo(done.history).present.wires).toEqual(before.wires);
        expect(undo(done.history).present.parts).toEqual(before.parts);
      }),
      { numRuns: 150 },
    );
    expect(changed).toBeGreaterThan(100);
  });

  test("there are none where nothing differs, and a deletion takes one out instead of writing the list anew", () => {
    const project = smallDrawing();
    expect(patchesBetween(project, structuredClone(project))).toEqual([]);
    const [, ...rest] = project.wires;
    expect(patchesBetween(project, { ...project, wires: rest })).toEqual([{ op: "remove", path: ["wires", 0] }]);
  });
});
