/** The sheet as the canvas has it: routed again only when what it shows has changed; hit where something lies. */
import { describe, expect, it } from "vitest";
import { drawSheet, wireTexts } from "../../../core/drawing/sheet.ts";
import { overlap } from "../../../core/geometry/boxes.ts";
import { placedViews } from "../../../core/layout/placed-view.ts";
import { routedSheet } from "../../../core/layout/route.ts";
import { KINDS } from "../../../core/parts/catalogue.ts";
import { moveView } from "../../../core/project/commands/move-view.ts";
import { setWireField } from "../../../core/project/commands/set-wire-field.ts";
import { perform, startHistory, undo } from "../../../core/project/history.ts";
import type { Project } from "../../../core/project/document.ts";
import { hitAt, nextIn } from "../../../renderer/draw/sheet/hit.ts";
import { freePlace, placedAt } from "../../../renderer/draw/sheet/placing.ts";
import type { Placing } from "../../../renderer/draw/sheet/drawing-state.ts";
import { SceneKeeper } from "../../../renderer/draw/sheet/scene.ts";
import type { Scene } from "../../../renderer/draw/sheet/scene.ts";
import type { RouteAnswer } from "../../../renderer/draw/sheet/route-protocol.ts";
import { drawing } from "../../harness/drawing.ts";
import { largeVehicle } from "../../harness/large-vehicle.ts";

const pack = (): Project =>
  drawing()
    .part("G1", "battery-pack", {})
    .part("F1", "fuse", {})
    .part("P1", "lamp", {})
    .wire("G1:+", "F1:1")
    .wire("F1:2", "P1:+")
    .wire("P1:-", "G1:-")
    .build();

function sceneOf(keeper: SceneKeeper, project: Project): Scene {
  const scene = keeper.sceneOf(project, project.sheets[0]?.id ?? "");
  if (scene === undefined) throw new Error("the drawing has no sheet");
  return scene;
}

describe("a scene", () => {
  it("shows the parts and wires that the exported sheet shows", () => {
    const project = pack();
    const scene = sceneOf(new SceneKeeper(), project);
    const { marks } = drawSheet(project, scene.sheet.id);
    const drawn = (what: string): readonly string[] =>
      [...new Set(marks.filter((mark) => mark.what === what).map(({ id }) => id))].sort();
    expect(scene.views.map(({ part }) => part.id).sort()).toEqual(drawn("part"));
    expect([...scene.routed.paths.keys()].sort()).toEqual(drawn("wire"));
  });

  it("is not routed again for a field that moves no line", () => {
    const keeper = new SceneKeeper();
    const before = startHistory(pack());
    const first = sceneOf(keeper, before.present);
    const wire = before.present.wires[0]?.id ?? "";
    const { history } = perform(before, setWireField, { changes: [{ wire, fields: { length: "2 m" } }] }, KINDS);
    expect(history.present).not.toBe(before.present);
    expect(sceneOf(keeper, history.present)).toBe(first);
    const coloured = perform(history, setWireField, { changes: [{ wire, fields: { colour: "RD" } }] }, KINDS).history;
    const second = sceneOf(keeper, coloured.present);
    expect(second).not.toBe(first);
    expect(second.routed).toBe(first.routed);
    expect(second.texts.find((text) => text.wire === wire)?.line.text).toContain("RD");
  });

  it("lays only the wires of what moved at once, and then takes over the whole sheet as it is exported", () => {
    const asked: { readonly take: (answer: RouteAnswer) => boolean; readonly after: number | undefined }[] = [];
    const keeper = new SceneKeeper({ route: (_project, _sheet, take, after) => asked.push({ take, after }) });
    const before = startHistory(pack());
    const first = sceneOf(keeper, before.present);
    expect([asked.length, keeper.pending]).toEqual([0, false]);
    const lamp = first.views.find(({ part }) => part.designation === "P1") ?? never();
    const moves = [{ part: lamp.part.id, view: lamp.view.id, x: lamp.place.x, y: lamp.place.y + 40 }];
    const { history } = perform(before, moveView, { moves }, KINDS);
    const at = sceneOf(keeper, history.present);
    expect(keeper.pending).toBe(true);
    const ofLamp = ({ ends }: Project["wires"][number]): boolean => ends.some((end) => end?.[0] === lamp.part.id);
    for (const wire of history.present.wires.filter((each) => !ofLamp(each)))
      expect(at.routed.paths.get(wire.id)).toEqual(first.routed.paths.get(wire.id));
    expect(asked).toHaveLength(1);
    expect(asked[0]?.after).toBeGreaterThan(0);
    const exported = routedSheet(history.present, at.sheet.id);
    const { paths, stubs, nets } = exported;
    expect(asked[0]?.take({ paths, stubs, nets, texts: wireTexts(history.present, at.sheet, exported) })).toBe(true);
    expect(sceneOf(keeper, history.present).routed.paths).toEqual(paths);
    expect(keeper.pending).toBe(false);
    // What is written on a wire follows, though its lines and the other texts came from beside.
    const [wire = never()] = history.present.wires;
    const fields = { colour: "RD" };
    const coloured = perform(history, setWireField, { changes: [{ wire: wire.id, fields }] }, KINDS).history.present;
    expect(sceneOf(keeper, coloured).texts.find((text) => text.wire === wire.id)?.line.text).toContain("RD");
    expect(asked).toHaveLength(1);
  });

  it("is routed again when a part moves, and only the moved view is made anew", () => {
    const keeper = new SceneKeeper();
    const before = startHistory(pack());
    const first = sceneOf(keeper, before.present);
    const lamp = first.views.find(({ part }) => part.designation === "P1");
    if (lamp === undefined) throw new Error("no lamp");
    const { part, place } = lamp;
    const moves = [{ part: part.id, view: place.view, x: place.x, y: place.y + 40 }];
    const { history } = perform(before, moveView, { moves }, KINDS);
    const second = sceneOf(keeper, history.present);
    expect(second.routed).not.toBe(first.routed);
    const kept = second.views.filter((view) => first.views.includes(view)).map((view) => view.part.designation);
    expect(kept.sort()).toEqual(["F1", "G1"]);
    const plus = second.pinByKey.get(`${part.id}:+`);
    const ends = [...second.routed.paths.values()].flat().flatMap((line) => [line[0], line.at(-1)]);
    expect(ends).toContainEqual([plus?.x, plus?.y]);
    expect(sceneOf(keeper, undo(history).present).routed.paths).toEqual(first.routed.paths);
  });
});

describe("a sheet with more wires than the window routes itself", () => {
  it("shows straight lines until its worker answers, and its lines afterwards", () => {
    const vehicle = largeVehicle(20);
    const id = vehicle.sheets[0]?.id ?? "";
    const parts = vehicle.parts.map((part) => ({ ...part, views: part.views.map((view) => ({ ...view, sheet: id })) }));
    const large: Project = { ...vehicle, parts };
    const here = (project: Project) => new Set(placedViews(project, id).map(({ part }) => part.id));
    const requests: { readonly project: Project; readonly take: (answer: RouteAnswer) => boolean }[] = [];
    const keeper = new SceneKeeper({ route: (project, _, take) => requests.push({ project, take }) });
    const scene = sceneOf(keeper, large);
    expect(requests).toHaveLength(1);
    expect(new Set(scene.views.map(({ part }) => part.id))).toEqual(here(large));
    expect(scene.routed.paths.size).toBeGreaterThan(150);
    expect([...scene.routed.paths.values()].every((lines) => lines[0]?.length === 2)).toBe(true);
    // What the worker answers does not matter here, only that it can be told from straight lines.
    const paths = new Map(
      [...scene.routed.paths].map(([wire, lines]) => {
        const [from = never(), to = never()] = lines[0] ?? [];
        return [wire, [[from, [to[0], from[1]], to]]] as const;
      }),
    );
    const answer: RouteAnswer = { paths, stubs: [], nets: scene.routed.nets, texts: [] };
    expect(requests[0]?.take(answer)).toBe(true);
    expect(sceneOf(keeper, large).routed.paths).toEqual(paths);

    const [view = never()] = scene.views;
    const moves = [{ part: view.part.id, view: view.place.view, x: view.place.x, y: view.place.y + 5 }];
    const { history } = perform(startHistory(large), moveView, { moves }, KINDS);
    const provisional = sceneOf(keeper, history.present);
    const touched = large.wires
      .filter(({ ends }) => ends.some((end) => end?.[0] === view.part.id))
      .map(({ id: wire }) => wire);
    for (const [wire, lines] of provisional.routed.paths)
      if (!touched.includes(wire)) expect(lines, wire).toBe(paths.get(wire));
    // An answer to what is no longer shown is not taken.
    expect(requests[0]?.take(answer)).toBe(false);
  });
});

describe("under the pointer", () => {
  const project = pack();
  const scene = sceneOf(new SceneKeeper(), project);

  it("a terminal answers near it, the part at its middle, the wire on its line, the paper elsewhere", () => {
    const pin = scene.pins[0];
    if (pin === undefined) throw new Error("no pin");
    const near = hitAt(scene, { x: pin.x + 0.9, y: pin.y }, 2);
    expect(near.on === "terminal" && near.pin.end).toEqual(pin.end);
    const fuse = scene.views.find(({ part }) => part.designation === "F1");
    const { x = 0, y = 0, width = 0, height = 0 } = fuse?.box ?? {};
    const inside = hitAt(scene, { x: x + width / 2, y: y + height / 2 }, 2);
    expect(inside.on === "part" && inside.view).toBe(fuse);
    const [wire, [line = []] = []] = [...scene.routed.paths][2] ?? [];
    const [a = [0, 0], b = [0, 0]] = [line[1], line[2]];
    const middle = { x: (a[0] + b[0]) / 2, y: (a[1] + b[1]) / 2 };
    expect(hitAt(scene, middle, 1)).toEqual({ on: "wire", wire });
    expect(hitAt(scene, { x: 30, y: 280 }, 2)).toEqual({ on: "paper" });
  });

  it("the next terminal in a direction is the nearest straight ahead", () => {
    const points = [
      { x: 10, y: 0 },
      { x: 4, y: 3 },
      { x: 30, y: 0 },
      { x: -5, y: 0 },
    ];
    expect(nextIn(points, { x: 0, y: 0 }, [1, 0])).toEqual({ x: 10, y: 0 });
    expect(nextIn(points, { x: 0, y: 0 }, [-1, 0])).toEqual({ x: -5, y: 0 });
    expect(nextIn(points, { x: 0, y: 0 }, [0, -1])).toBeUndefined();
  });
});

describe("a part that hangs at the pointer", () => {
  const project = pack();
  const scene = sceneOf(new SceneKeeper(), project);
  const contactor: Placing = { what: "kind", kind: "contactor", turn: 0, mirrored: false };

  it("has all its views side by side on the grid, none over another", () => {
    const views = placedAt(project, contactor, scene.sheet.id, { x: 101.3, y: 99.1 });
    expect(views.map(({ view }) => view.id)).toHaveLength(
      KINDS.get("contactor")?.views(views[0]?.values ?? never()).length ?? 0,
    );
    for (const { place } of views) expect([place.x % 2.5, place.y % 2.5]).toEqual([0, 0]);
    views.forEach((view, index) => {
      for (const other of views.slice(index + 1)) expect(overlap(view.box, other.box)).toBe(false);
    });
  });

  it("looks for a place where it covers nothing", () => {
    const over = scene.views[0]?.place ?? never();
    const at = freePlace(project, contactor, scene, over);
    for (const placed of placedAt(project, contactor, scene.sheet.id, at))
      for (const view of scene.views) expect(overlap(placed.box, view.room)).toBe(false);
  });
});

function never(): never {
  throw new Error("the drawing lacks what the test is about");
}
