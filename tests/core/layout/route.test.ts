import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { frameOf, titleBlockOf, zoneAt } from "../../../core/layout/paper.ts";
import { placeParts } from "../../../core/layout/place.ts";
import { pinPlaces, placedViews } from "../../../core/layout/placed-view.ts";
import { rerouteWires, routedSheet, routeSheet } from "../../../core/layout/route.ts";
import type { Part, Project, ViewPlacement } from "../../../core/project/document.ts";
import { drawing } from "../../harness/drawing.ts";
import { averageBends, pieces, sharedTrack, throughParts } from "./measures.ts";
import { farmPickup, yardTug } from "./vehicles.ts";

const moved = (project: Project, designation: string, change: Partial<ViewPlacement>): Project => ({
  ...project,
  parts: project.parts.map(
    (part): Part =>
      part.designation === designation
        ? { ...part, views: part.views.map((view, index) => (index === 0 ? { ...view, ...change } : view)) }
        : part,
  ),
});

const twoFuses = (): Project => drawing().part("F1", "fuse").part("F2", "fuse").wire("F1:2", "F2:1").build();

describe("routes of whole vehicles", () => {
  for (const [name, vehicle] of [
    ["48 V yard tug", yardTug],
    ["96 V pickup with a 12 V side", farmPickup],
  ] as const)
    it(`${name}: orthogonal, on the grid, from pin to pin, around parts, few bends`, () => {
      const project = placeParts(vehicle());
      const pins = pinPlaces(project);
      for (const sheet of project.sheets) {
        const routed = routedSheet(project, sheet.id);
        expect(routed.notes).toEqual([]);
        expect(throughParts(project, sheet.id, routed.paths)).toEqual([]);
        for (const piece of pieces(routed.paths)) {
          expect(piece.x1 === piece.x2 || piece.y1 === piece.y2).toBe(true);
          for (const value of [piece.x1, piece.y1, piece.x2, piece.y2]) expect(value % 2.5).toBe(0);
        }
        for (const wire of project.wires) {
          const [a, b] = wire.ends.map((end) => (end === null ? undefined : pins.get(end.join(":"))));
          if (a?.sheet !== sheet.id || b?.sheet !== sheet.id) continue;
          const [line] = routed.paths.get(wire.id) ?? [];
          expect(line?.[0]).toEqual([a.x, a.y]);
          expect(line?.at(-1)).toEqual([b.x, b.y]);
        }
        // Aims of the routing study: 3 bends a wire, never above 4; shared track of different nets below 3 %.
        expect(averageBends(routed.paths)).toBeLessThanOrEqual(3);
        expect(sharedTrack(routed)).toBeLessThan(0.03);
      }
    });

  for (const [name, vehicle] of [
    ["48 V yard tug", yardTug],
    ["96 V pickup with a 12 V side", farmPickup],
  ] as const)
    it(`${name}: when a part has moved, its wires find their way again and the others stay`, () => {
      const project = placeParts(vehicle());
      let stayed = 0;
      for (const sheet of project.sheets) {
        const before = routedSheet(project, sheet.id);
        for (const { part, place } of placedViews(project, sheet.id).filter((_, index) => index % 4 === 0)) {
          const after = moved(project, part.designation, { x: place.x + 5, y: place.y + 5 });
          const pins = pinPlaces(after);
          const routed = rerouteWires(after, sheet.id, before);
          expect([...routed.paths.keys()].sort()).toEqual([...before.paths.keys()].sort());
          for (const wire of after.wires) {
            const [a, b] = wire.ends.map((end) => (end === null ? undefined : pins.get(end.join(":"))));
            if (a?.sheet !== sheet.id || b?.sheet !== sheet.id) continue;
            const [line = []] = routed.paths.get(wire.id) ?? [];
            expect([line[0], line.at(-1)]).toEqual([
              [a.x, a.y],
              [b.x, b.y],
            ]);
            if (line.join() === before.paths.get(wire.id)?.[0]?.join()) stayed += 1;
          }
          for (const piece of pieces(routed.paths)) expect(piece.x1 === piece.x2 || piece.y1 === piece.y2).toBe(true);
          // Where the part was pushed over another, some line may have no clear way, which is told.
          if (routed.notes.length === 0) expect(throughParts(after, sheet.id, routed.paths)).toEqual([]);
          expect(sharedTrack(routed)).toBeLessThan(0.05);
        }
        expect(rerouteWires(project, sheet.id, before).paths).toEqual(before.paths);
      }
      expect(stayed).toBeGreaterThan(100);
    });

  it("gives the same lines every time", () => {
    const [one, two] = [yardTug, yardTug].map((vehicle) => {
      const project = placeParts(vehicle());
      return [...routeSheet(project, project.sheets[0]?.id ?? "")];
    });
    expect(one).toEqual(two);
  });
});

describe("one wire", () => {
  it("leaves its terminal in the direction of the pin and comes to the other from outside", () => {
    const project = moved(twoFuses(), "F2", { mirrored: true, x: 200, y: 100 });
    const [line = []] = routeSheet(project, "s1").get("w1") ?? [];
    const pins = pinPlaces(project);
    const [a, b] = [pins.get("p1:2"), pins.get("p2:1")];
    expect([a?.side, b?.side]).toEqual(["right", "right"]);
    expect(line[1]?.[0]).toBeGreaterThan(a?.x ?? 0);
    expect(line.at(-2)?.[0]).toBeGreaterThan(b?.x ?? 0);
  });

  it("is straight where the terminals face each other, and has two bends where one is lower", () => {
    const project = twoFuses();
    expect(routeSheet(project, "s1").get("w1")?.[0]).toHaveLength(2);
    const lower = moved(project, "F2", { y: 80 });
    expect(routeSheet(lower, "s1").get("w1")?.[0]).toHaveLength(4);
  });

  it("goes through the points that a person fixed", () => {
    const project = twoFuses();
    const fixed: Project = {
      ...project,
      wires: project.wires.map((wire) => ({
        ...wire,
        routes: [
          {
            sheet: "s1",
            points: [
              [70, 110],
              [100, 110],
            ] as const,
          },
        ],
      })),
    };
    const [line] = routeSheet(fixed, "s1").get("w1") ?? [];
    const passes = (x: number, y: number): boolean =>
      pieces(new Map([["w1", [line ?? []]]])).some(
        (piece) =>
          Math.min(piece.x1, piece.x2) <= x &&
          Math.max(piece.x1, piece.x2) >= x &&
          Math.min(piece.y1, piece.y2) <= y &&
          Math.max(piece.y1, piece.y2) >= y,
      );
    for (const x of [70, 85, 100]) expect(passes(x, 110)).toBe(true);
  });

  it("keeps out of the title block and inside the frame", () => {
    const project = moved(moved(twoFuses(), "F1", { x: 190, y: 240 }), "F2", { x: 360, y: 230 });
    const sheet = project.sheets[0];
    if (sheet === undefined) throw new Error("no sheet");
    const block = titleBlockOf(sheet);
    const frame = frameOf(sheet);
    for (const { x1, y1, x2, y2 } of pieces(routeSheet(project, "s1"))) {
      expect(Math.max(x1, x2) <= block.x || Math.max(y1, y2) <= block.y).toBe(true);
      expect(Math.max(y1, y2)).toBeLessThan(frame.y + frame.height);
    }
  });

  it("is drawn, and said to be in the way, where a terminal is walled in", () => {
    const walled = drawing().part("F1", "fuse").part("T1", "dc-controller").wire("F1:2", "T1:B+").build();
    const project = moved(walled, "F1", { x: 110, y: 60 });
    const inside = moved(project, "T1", { x: 90, y: 20 });
    const routed = routedSheet(inside, "s1");
    expect(routed.paths.get("w1")?.[0]?.length).toBeGreaterThanOrEqual(2);
    for (const { x1, y1, x2, y2 } of pieces(routed.paths)) expect(x1 === x2 || y1 === y2).toBe(true);
    expect(routed.notes.map(({ wire }) => wire)).toEqual(["w1"]);
    expect(routed.notes[0]?.text).toContain("W1");
  });
});

describe("a part far off the paper", () => {
  // The file format allows 100 m in every direction.
  it.each([
    [100_000, 100_000],
    [-100_000, 90],
  ])("at %d, %d mm is still wired, quickly", (x, y) => {
    const project = moved(twoFuses(), "F2", { x, y });
    const started = performance.now();
    const [line = []] = routeSheet(project, "s1").get("w1") ?? [];
    expect(performance.now() - started).toBeLessThan(2000);
    expect(line.at(-1)).toEqual([x, y]);
    for (const piece of pieces(new Map([["w1", [line]]])))
      expect(piece.x1 === piece.x2 || piece.y1 === piece.y2).toBe(true);
  });

  it("does not hold up a sheet on which many lie scattered", () => {
    const drawn = drawing();
    for (let index = 1; index <= 400; index += 1) drawn.part(`F${index}`, "fuse");
    for (let index = 1; index < 400; index += 1) drawn.wire(`F${index}:2`, `F${index + 1}:1`);
    const built = drawn.build();
    const parts = built.parts.map((part, index) => ({
      ...part,
      views: part.views.map((view) => ({
        ...view,
        sheet: "s1",
        x: ((index * 7919) % 40_000) * 2.5,
        y: ((index * 104_729) % 40_000) * 2.5,
      })),
    }));
    const started = performance.now();
    expect(routeSheet({ ...built, parts }, "s1").size).toBe(399);
    expect(performance.now() - started).toBeLessThan(10_000);
  }, 20_000);
});

describe("wires that leave the sheet", () => {
  const apart = (): Project => {
    const project = twoFuses();
    const [first] = project.sheets;
    if (first === undefined) throw new Error("no sheet");
    return moved({ ...project, sheets: [first, { ...first, id: "s2", name: "Second" }] }, "F2", {
      sheet: "s2",
      x: 130,
      y: 100,
    });
  };

  it("have a stub on each sheet that names the zone of the other end", () => {
    const project = apart();
    const pins = pinPlaces(project);
    for (const [index, here, there] of [
      [2, "s1", pins.get("p2:1")],
      [1, "s2", pins.get("p1:2")],
    ] as const) {
      const sheet = project.sheets[index - 1];
      if (sheet === undefined || there === undefined) throw new Error("not placed");
      const routed = routedSheet(project, here);
      expect(routed.stubs.flatMap((stub) => stub.texts.map(({ text }) => text))).toEqual([
        `${index}/${zoneAt(sheet, there.x, there.y)}`,
      ]);
      expect(routed.paths.get("w1")).toHaveLength(1);
    }
  });

  it("are listed with their numbers where several leave one terminal", () => {
    const project = apart();
    const wire = project.wires[0];
    if (wire === undefined) throw new Error("no wire");
    const routed = routedSheet({ ...project, wires: [wire, { ...wire, id: "w2", number: "W2" }] }, "s1");
    expect(routed.stubs).toHaveLength(1);
    expect(routed.stubs[0]?.texts.map(({ text }) => text.split(" ")[0])).toEqual(["W1", "W2"]);
  });

  it("say so where the other end is loose or not drawn", () => {
    const words = (project: Project): readonly string[] =>
      routedSheet(project, "s1").stubs.flatMap((stub) => stub.texts.map(({ text }) => text));
    expect(words(drawing().part("F1", "fuse").wire("F1:1", null).build())).toEqual(["loose"]);
    const absent = drawing().part("F1", "fuse").part("F2", "fuse", {}, { unplaced: true }).wire("F1:1", "F2:2").build();
    expect(words(absent)).toEqual(["F2:2 not drawn"]);
  });
});

describe("zones (ISO 5457: fields of 50 mm from the middle, memory)", () => {
  const a3 = { paper: "A3", orientation: "landscape" } as const;
  it("count columns from the left and letter rows from the top, without I and O", () => {
    expect(zoneAt(a3, 25, 15)).toBe("A1");
    expect(zoneAt(a3, 209, 15)).toBe("A4");
    expect(zoneAt(a3, 211, 15)).toBe("A5");
    expect(zoneAt(a3, 415, 290)).toBe("F8");
    expect(zoneAt({ paper: "A4", orientation: "portrait" }, 200, 290)).toBe("F4");
  });
});

describe("any placing", () => {
  it("gives orthogonal lines on the grid from pin to pin that touch no part", () => {
    const count = 9;
    const wire = fc.tuple(fc.nat(count - 1), fc.nat(1), fc.nat(count - 1), fc.nat(1));
    const lie = fc.record({
      turn: fc.constantFrom(0, 90, 180, 270),
      mirrored: fc.boolean(),
      dx: fc.nat(6),
      dy: fc.nat(4),
    });
    fc.assert(
      fc.property(
        fc.array(lie, { minLength: count, maxLength: count }),
        fc.array(wire, { maxLength: 14 }),
        (lies, wires) => {
          const drawn = drawing();
          for (let index = 0; index < count; index += 1) drawn.part(`F${index + 1}`, "fuse");
          for (const [a, ta, b, tb] of wires) if (a !== b) drawn.wire(`F${a + 1}:${ta + 1}`, `F${b + 1}:${tb + 1}`);
          const built = drawn.build();
          const project: Project = {
            ...built,
            parts: built.parts.map((part, index) => {
              const { turn = 0, mirrored = false, dx = 0, dy = 0 } = lies[index] ?? {};
              const place = { x: 80 + (index % 3) * 60 + dx * 2.5, y: 60 + Math.floor(index / 3) * 55 + dy * 2.5 };
              return {
                ...part,
                views: part.views.map((view) => ({ ...view, ...place, turn: turn as 0 | 90, mirrored })),
              };
            }),
          };
          const routed = routedSheet(project, "s1");
          const pins = new Set(placedViews(project, "s1").flatMap((view) => view.pins.map(({ x, y }) => `${x} ${y}`)));
          expect(routed.notes).toEqual([]);
          expect(throughParts(project, "s1", routed.paths)).toEqual([]);
          expect(sharedTrack(routed)).toBe(0);
          for (const [line] of routed.paths.values())
            for (const end of [line?.[0], line?.at(-1)]) expect(pins.has(`${end?.[0]} ${end?.[1]}`)).toBe(true);
          for (const piece of pieces(routed.paths)) {
            expect(piece.x1 === piece.x2 || piece.y1 === piece.y2).toBe(true);
            expect(piece.x1 % 2.5 === 0 && piece.y1 % 2.5 === 0).toBe(true);
          }
        },
      ),
      { numRuns: 60, seed: 7 },
    );
  });
});
