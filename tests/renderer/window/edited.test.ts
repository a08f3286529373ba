/** What a remedy brought is what the window selects and shows. */
import { describe, expect, test } from "vitest";
import { editedIn } from "../../../renderer/window/edited.ts";
import { drawing } from "../../harness/drawing.ts";

const before = drawing()
  .part("G1", "battery-block", {})
  .part("F1", "fuse", { rating: "80 A" })
  .wire("G1:+", "F1:1", { size: "16 mm2" })
  .build();
const [block, fuse] = before.parts;
const [wire] = before.wires;
if (block === undefined || fuse === undefined || wire === undefined) throw new Error("an empty sketch");

describe("what an edit brought", () => {
  test("a new part with its wires, and the sheet that it stands on", () => {
    const part = { ...fuse, id: "p9", views: [{ view: "fuse", sheet: "s7", x: 0, y: 0, turn: 0, mirrored: false }] };
    const after = {
      ...before,
      parts: [block, { ...fuse, designation: "F7" }, part],
      wires: [wire, { ...wire, id: "w9" }],
    } as typeof before;
    expect(editedIn(before, after)).toEqual({ selection: { parts: ["p9"], wires: ["w9"] }, sheets: ["s7"] });
  });

  test("without anything new, the parts and wires that changed", () => {
    const after = { ...before, wires: [{ ...wire, size: "25 mm2" }] };
    expect(editedIn(before, after).selection).toEqual({ parts: [], wires: [wire.id] });
    const rated = { ...before, parts: [block, { ...fuse, parameters: { rating: "60 A" } }] };
    expect(editedIn(before, rated).selection).toEqual({ parts: [fuse.id], wires: [] });
  });

  test("nothing, where things were only taken away", () => {
    expect(editedIn(before, { ...before, wires: [] })).toEqual({ selection: { parts: [], wires: [] }, sheets: [] });
  });
});
