/** A new part stands free on its sheet, or on a further one, and takes over what the wire had at its end. */
import { describe, expect, test } from "vitest";
import { Edit } from "../../../../core/checks/remedies/edit.ts";
import { addBeside, insertPart } from "../../../../core/checks/remedies/insert-part.ts";
import { overlap } from "../../../../core/geometry/boxes.ts";
import { frameOf, titleBlockOf } from "../../../../core/layout/paper.ts";
import { placedViews } from "../../../../core/layout/placed-view.ts";
import { containsBox } from "../../../../core/geometry/boxes.ts";
import type { Project } from "../../../../core/project/document.ts";
import { drawing } from "../../../harness/drawing.ts";

const lamp = (): Project =>
  drawing()
    .zone("engine")
    .part("G1", "battery-block", { chemistry: "agm-lead", duty: "auxiliary" }, { zone: "engine" })
    .part("P1", "lamp", { voltage: "12 V" })
    .wire("G1:+", "P1:+", { number: "7", size: "1.5 mm2", length: "2 m", lugs: ["M8", null], boots: [true, null] })
    .build();

/** Symbols that overlap another one or the title block, or stand outside the frame. */
function misplaced(project: Project): readonly string[] {
  return project.sheets.flatMap((sheet) => {
    const views = placedViews(project, sheet.id);
    return views.flatMap(({ box, part }, index) => {
      const others = [titleBlockOf(sheet), ...views.filter((_, at) => at !== index).map((view) => view.box)];
      const isFree = containsBox(frameOf(sheet), box) && !others.some((other) => overlap(box, other));
      return isFree ? [] : [part.designation];
    });
  });
}

describe("a part put into a wire", () => {
  const before = lamp();
  const [wire] = before.wires;
  if (wire === undefined) throw new Error("no wire");
  const edit = new Edit(before);
  const id = insertPart(
    edit,
    { kind: "fuse", parameters: { rating: "10 A" } },
    { wire, end: 0, lead: "0.15 m", terminals: ["1", "2"] },
  );
  const { parts, wires } = edit.project;

  test("the wire keeps its number and length and begins at the part", () => {
    const [kept, added] = wires;
    expect(kept).toMatchObject({ id: wire.id, number: "7", length: "2 m", ends: [[id, "2"], wire.ends[1]] });
    expect(added).toMatchObject({ length: "0.15 m", size: "1.5 mm2", ends: [wire.ends[0], [id, "1"]] });
    expect(wires).toHaveLength(2);
  });

  test("the new piece has lug and boot of the end that it replaces", () => {
    expect(wires[1]).toMatchObject({ lugs: ["M8", "M8"], boots: [true, true] });
  });

  test("it lies where its neighbour lies, and free on the sheet", () => {
    const fuse = parts.find((part) => part.id === id);
    expect(fuse?.zone).toBe(before.parts[0]?.zone);
    expect(fuse?.views).toHaveLength(1);
    expect(misplaced(edit.project)).toEqual([]);
  });

  test("the document that it was made from is as it was", () => {
    expect(before).toEqual(lamp());
  });
});

describe("room on the sheet", () => {
  test("a full sheet is followed by another one", () => {
    const edit = new Edit(lamp());
    const [battery] = edit.project.parts;
    if (battery === undefined) throw new Error("no battery");
    // More symbols than an A3 sheet has room for, each placed by the same rule.
    for (let count = 0; count < 12; count += 1)
      addBeside(edit, { kind: "dc-controller", parameters: {} }, [battery.id, "+"]);
    expect(misplaced(edit.project)).toEqual([]);
    expect(edit.project.sheets.map(({ name }) => name)).toEqual(["Sheet 1", "Sheet 1, continued"]);
    expect(edit.project.parts.every(({ views }) => views.length > 0)).toBe(true);
  });

  test("beside what is on no sheet nothing is placed", () => {
    const made = drawing().part("G1", "battery-block", {}, { unplaced: true }).build();
    const edit = new Edit(made);
    const id = addBeside(edit, { kind: "fuse", parameters: {} }, ["p1", "+"]);
    expect(edit.project.parts.find((part) => part.id === id)?.views).toEqual([]);
  });
});
