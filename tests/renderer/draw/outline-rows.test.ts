/** The drawing in words. */
import { describe, expect, it } from "vitest";
import { outlineRows } from "../../../renderer/draw/outline/outline-rows.ts";
import type { OutlineRow } from "../../../renderer/draw/outline/outline-rows.ts";
import type { Project } from "../../../core/project/document.ts";
import { drawing } from "../../harness/drawing.ts";

const project: Project = drawing()
  .part("G1", "battery-pack", {})
  .part("F2", "fuse", {})
  .part("F10", "fuse", {})
  .part("Q1", "contactor", {})
  .wire("G1:+", "F2:1")
  .wire("F2:2", null)
  .build();
const NONE: ReadonlySet<string> = new Set();
const words = (rows: readonly OutlineRow[]): readonly string[] => rows.map(({ name, more }) => `${name}: ${more}`);

describe("the outline", () => {
  it("lists parts in natural order, closed, then wires with both ends", () => {
    expect(words(outlineRows(project, "", NONE))).toEqual([
      "Parts: 4",
      "F2: Fuse",
      "F10: Fuse",
      "G1: Battery pack",
      "Q1: Contactor",
      "Wires: 2",
      `${project.wires[0]?.number ?? ""}: G1 + to F2 1`,
      `${project.wires[1]?.number ?? ""}: F2 2 to loose`,
    ]);
  });

  it("opens a part to its terminals and what they are wired to", () => {
    const rows = outlineRows(project, "F2", new Set(["part p2"]));
    const terminals = rows.filter(({ level }) => level === 3);
    expect(terminals.map(({ name, more }) => `${name}: ${more}`)).toEqual([
      expect.stringMatching(/^1: .*wired to G1 \+$/),
      expect.stringMatching(/^2: .*wired to a loose end$/),
    ]);
    expect(terminals.map(({ position, count }) => [position, count])).toEqual([
      [1, 2],
      [2, 2],
    ]);
  });

  it("finds by designation, by kind, by another name of the kind, by what a wire joins", () => {
    const found = (text: string): readonly string[] =>
      outlineRows(project, text, NONE)
        .filter(({ level }) => level === 2)
        .map(({ name }) => name);
    expect(found("f10")).toEqual(["F10"]);
    expect(found("battery")).toEqual(["G1"]);
    expect(found("solenoid")).toEqual(["Q1"]);
    expect(found("G1 + to")).toEqual([project.wires[0]?.number]);
    expect(found("no such thing")).toEqual([]);
  });

  it("lists first what stands on no sheet", () => {
    const parts = project.parts.map((part) =>
      part.designation === "Q1" ? { ...part, views: part.views.filter(({ view }) => view !== "coil") } : part,
    );
    const rows = outlineRows({ ...project, parts }, "", NONE);
    expect(rows[0]?.name).toBe("On no sheet");
    expect(rows[1]?.target).toEqual({ what: "place", part: "p4", view: "coil" });
  });

  it("says on which sheet a part stands where there are several", () => {
    const sheets = [
      ...project.sheets,
      { id: "s2", name: "Doors", paper: "A4" as const, orientation: "portrait" as const },
    ];
    const parts = project.parts.map((part) =>
      part.designation === "F2" ? { ...part, views: part.views.map((view) => ({ ...view, sheet: "s2" })) } : part,
    );
    const row = outlineRows({ ...project, sheets, parts }, "", NONE).find(({ name }) => name === "F2");
    expect(row?.more).toBe("Fuse, sheet Doors");
  });
});
