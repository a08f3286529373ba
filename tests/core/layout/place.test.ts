import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { containsBox, inflate, overlap } from "../../../core/geometry/boxes.ts";
import type { Box } from "../../../core/geometry/display.ts";
import { labelBox, labelOf } from "../../../core/layout/label.ts";
import { frameOf, titleBlockOf } from "../../../core/layout/paper.ts";
import { placeParts } from "../../../core/layout/place.ts";
import { placedViews, viewsOf, catalogueKinds, type PlacedView } from "../../../core/layout/placed-view.ts";
import { routedSheet } from "../../../core/layout/route.ts";
import { KINDS } from "../../../core/parts/catalogue.ts";
import { readValues } from "../../../core/parts/values.ts";
import type { Project } from "../../../core/project/document.ts";
import { drawing } from "../../harness/drawing.ts";
import { throughParts } from "./measures.ts";
import { farmPickup, yardTug } from "./vehicles.ts";

const vehicles = [
  ["48 V yard tug", yardTug],
  ["96 V pickup with a 12 V side", farmPickup],
] as const;

const onSheets = (project: Project): readonly (readonly PlacedView[])[] =>
  project.sheets.map((sheet) => placedViews(project, sheet.id));

const viewOf = (project: Project, designation: string, view = 0): PlacedView => {
  const found = onSheets(project)
    .flat()
    .filter((placed) => placed.part.designation === designation)[view];
  if (found === undefined) throw new Error(`${designation} is not placed`);
  return found;
};
const right = (box: Box): number => box.x + box.width;

describe.each(vehicles)("%s", (_name, vehicle) => {
  const project = placeParts(vehicle());

  it("has every view of every part on a sheet", () => {
    for (const part of project.parts) {
      const ids = viewsOf(part, catalogueKinds)?.views.map((view) => view.id);
      expect(part.views.map((view) => view.view).sort()).toEqual([...(ids ?? [])].sort());
      for (const place of part.views) {
        expect(project.sheets.some((sheet) => sheet.id === place.sheet)).toBe(true);
        expect([place.x % 2.5, place.y % 2.5]).toEqual([0, 0]);
      }
    }
  });

  it("has no part over another, over another's designation, out of the frame or in the title block", () => {
    project.sheets.forEach((sheet, index) => {
      const views = onSheets(project)[index] ?? [];
      const frame = inflate(frameOf(sheet), -2.5);
      views.forEach((view, place) => {
        expect(overlap(view.box, titleBlockOf(sheet))).toBe(false);
        expect(view.box.x >= frame.x && right(view.box) <= right(frame)).toBe(true);
        expect(view.box.y >= frame.y && view.box.y + view.box.height <= frame.y + frame.height).toBe(true);
        const label = labelBox(labelOf(view));
        for (const other of views.slice(place + 1)) {
          expect(overlap(view.box, other.box), `${view.part.designation} ${other.part.designation}`).toBe(false);
          const theirs = labelBox(labelOf(other));
          if (label !== undefined && theirs !== undefined)
            expect(overlap(label, theirs), `${view.part.designation} ${other.part.designation}`).toBe(false);
        }
      });
    });
  });

  it("reads from the pack at the left through fuse, disconnect and contactor to the motor at the right", () => {
    const chain = ["G1", "F1", "Q0", "Q1", "T1", "M1"].map((designation) => viewOf(project, designation));
    chain.slice(1).forEach((view, index) => {
      const before = chain[index];
      expect(before?.place.sheet).toBe(view.place.sheet);
      expect(right(before?.box ?? view.box), view.part.designation).toBeLessThanOrEqual(view.box.x);
    });
    // One straight plus rail.
    const rail = ["G1:+", "F1:1", "Q0:line", "Q1:line", "T1:B+"].map((terminal) => {
      const [designation = "", id] = terminal.split(":");
      return viewOf(project, designation).pins.find((pin) => pin.terminal === id)?.y;
    });
    expect(new Set(rail).size).toBe(1);
  });

  it("has the pre-charge resistor above its contactor and the minus below the plus", () => {
    expect(viewOf(project, "R1").box.y).toBeLessThan(viewOf(project, "Q1").box.y);
    expect(viewOf(project, "B2").box.y).toBeGreaterThan(viewOf(project, "F1").box.y);
  });

  it("is placed the same way every time", () => {
    expect(placeParts(vehicle())).toEqual(project);
  });
});

describe("a disconnect with a pole in either rail", () => {
  it("is placed once, in the plus rail", () => {
    const drawn = drawing()
      .parts("battery-block", {}, "G1", "G2")
      .part("Q9", "manual-disconnect", { poles: "2" })
      .part("T1", "dc-controller")
      .part("M1", "motor-permanent-magnet")
      .wires({}, "G1:+ - Q9:line", "G1:- - G2:+", "G2:- - Q9:line-2", "Q9:load - T1:B+", "Q9:load-2 - T1:B-")
      .wires({}, "T1:B+ - M1:+", "T1:M- - M1:-")
      .build();
    const project = placeParts({ ...drawn, sheets: [], parts: drawn.parts.map((part) => ({ ...part, views: [] })) });
    expect(project.parts.map((part) => part.views.length)).toEqual(drawn.parts.map((part) => part.views.length));
    const height = (designation: string, terminal: string): number | undefined =>
      viewOf(project, designation).pins.find((pin) => pin.terminal === terminal)?.y;
    expect(height("Q9", "load")).toBe(height("T1", "B+"));
  });
});

describe("the 12 V side", () => {
  it("stands below the traction circuit or on a sheet of its own", () => {
    const project = placeParts(farmPickup());
    const traction = ["G1", "F1", "Q1", "T1", "M1"].map((designation) => viewOf(project, designation));
    const plusRail = traction[1]?.box.y ?? 0;
    for (const designation of ["G20", "F10", "S1", "K1", "P10", "X1", "T3"]) {
      const view = viewOf(project, designation);
      const below = view.place.sheet !== traction[0]?.place.sheet || view.box.y > plusRail + 20;
      expect(below, designation).toBe(true);
    }
  });

  it("is laid out alone where there is no traction circuit, battery first", () => {
    const drawn = drawing()
      .part("G1", "battery-block")
      .part("F1", "fuse")
      .part("S1", "switch")
      .part("P1", "lamp")
      .wires({}, "G1:+ - F1:1", "F1:2 - S1:common", "S1:out - P1:+", "P1:- - G1:-")
      .build();
    const project = placeParts({ ...drawn, sheets: [], parts: drawn.parts.map((part) => ({ ...part, views: [] })) });
    const chain = ["G1", "F1", "S1", "P1"].map((designation) => viewOf(project, designation).box);
    chain.slice(1).forEach((box, index) => expect(right(chain[index] ?? box)).toBeLessThanOrEqual(box.x));
  });
});

describe("a long string of blocks", () => {
  it.each([8, 16, 24, 48])(
    "%d blocks: rows that begin with plus and end with minus, pack left of the controller or on its own sheet",
    (count) => {
      const drawn = drawing();
      for (let index = 1; index <= count; index += 1) drawn.part(`G${index}`, "battery-block");
      for (let index = 1; index < count; index += 1) drawn.wire(`G${index}:-`, `G${index + 1}:+`);
      drawn.part("F1", "fuse").part("Q1", "contactor").part("T1", "dc-controller").part("M1", "motor-permanent-magnet");
      drawn.wires({}, "G1:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B+ - M1:+", "T1:M- - M1:-");
      const built = drawn.wire(`G${count}:-`, "T1:B-").build();
      const project = placeParts({ ...built, sheets: [], parts: built.parts.map((part) => ({ ...part, views: [] })) });
      const blocks = Array.from({ length: count }, (_, index) => viewOf(project, `G${index + 1}`));
      const controller = viewOf(project, "T1");
      expect(new Set(blocks.map((block) => block.place.sheet)).size).toBe(1);
      for (const block of blocks)
        expect(block.place.sheet !== controller.place.sheet || right(block.box) <= controller.box.x).toBe(true);
      // Neighbours in the string are neighbours on the paper: in one row, or one above the other.
      blocks.slice(1).forEach((block, index) => {
        const before = blocks[index] ?? block;
        const level = block.place.y === before.place.y;
        expect(level || block.box.y > before.box.y).toBe(true);
        if (!level) expect(Math.abs(block.box.x - before.box.x)).toBeLessThanOrEqual(15);
      });
      for (const block of [blocks[0], blocks.at(-1)])
        expect(block?.box.x).toBeGreaterThanOrEqual(Math.max(...blocks.map((other) => other.box.x)) - 15);
    },
  );
});

describe("any wire list", () => {
  it("is laid out with every view once, none over another, all inside the frame and clear of the title block", () => {
    const kinds = [...KINDS.values()];
    const lists = fc.record({
      parts: fc.array(fc.nat(kinds.length - 1), { minLength: 1, maxLength: 30 }),
      wires: fc.array(fc.tuple(fc.nat(999), fc.nat(99), fc.nat(999), fc.nat(99)), { maxLength: 45 }),
    });
    fc.assert(
      fc.property(lists, ({ parts, wires }) => {
        const drawn = drawing();
        const used = parts.map((index) => kinds[index]?.kind ?? "fuse");
        used.forEach((kind, index) => drawn.part(`Z${index}`, kind));
        const terminal = (part: number, pin: number): string => {
          const index = part % used.length;
          const kind = KINDS.get(used[index] ?? "");
          const terminals = kind?.terminals(readValues(kind, {})) ?? [];
          return `Z${index}:${terminals[pin % Math.max(1, terminals.length)]?.id ?? "1"}`;
        };
        for (const [a, p, b, q] of wires) drawn.wire(terminal(a, p), terminal(b, q));
        const built = drawn.build();
        const loose = { ...built, sheets: [], parts: built.parts.map((part) => ({ ...part, views: [] })) };
        const project = placeParts(loose);
        project.sheets.forEach((sheet, index) => {
          const views = onSheets(project)[index] ?? [];
          const frame = frameOf(sheet);
          views.forEach((view, place) => {
            const name = `${view.part.kind} ${view.view.id}`;
            expect(containsBox(frame, view.box), name).toBe(true);
            expect(overlap(view.box, titleBlockOf(sheet)), name).toBe(false);
            for (const other of views.slice(place + 1))
              expect(overlap(view.box, other.box), `${name} over ${other.part.kind} ${other.view.id}`).toBe(false);
          });
          const routed = routedSheet(project, sheet.id);
          expect(throughParts(project, sheet.id, routed.paths)).toEqual([]);
        });
        for (const part of project.parts) expect(part.views.length).toBe(viewsOf(part, catalogueKinds)?.views.length);
      }),
      { numRuns: 40, seed: 11 },
    );
  }, 30_000);
});

describe("what is there already", () => {
  it("stays where it is; new parts come on sheets of their own", () => {
    const placed = drawing().part("F1", "fuse").part("F2", "fuse", {}, { unplaced: true }).build();
    const project = placeParts(placed);
    expect(project.parts[0]).toBe(placed.parts[0]);
    expect(project.sheets.map((sheet) => sheet.id)).toEqual(["s1", "s2"]);
    expect(project.lastIds["s"]).toBe(2);
    expect(viewOf(project, "F2").place.sheet).toBe("s2");
  });

  it("is returned untouched where nothing is unplaced", () => {
    const placed = drawing().part("F1", "fuse").build();
    expect(placeParts(placed)).toBe(placed);
  });

  it("leaves a part of unknown kind off the sheets", () => {
    const drawn = drawing().part("F1", "fuse", {}, { unplaced: true }).build();
    const odd = drawn.parts.map((part) => ({ ...part, kind: "flux-bender" }));
    expect(placeParts({ ...drawn, parts: odd }).parts).toEqual(odd);
  });
});
