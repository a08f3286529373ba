/** Fields of parts, wires and the drawing: what they state, what they refuse, what they do to several at once. */
import { describe, expect, it } from "vitest";
import { addPart } from "../../../core/project/commands/add-part.ts";
import { addZone } from "../../../core/project/commands/add-zone.ts";
import { connect } from "../../../core/project/commands/connect.ts";
import { newProject } from "../../../core/project/new-project.ts";
import { markOf } from "../../../renderer/controls/Field.tsx";
import type { FieldModel } from "../../../renderer/controls/Field.tsx";
import { askedIn } from "../../../renderer/draw/facts/asked.ts";
import { sheetFields, titleFields, zoneFields } from "../../../renderer/draw/facts/drawing-fields.ts";
import { partGroups } from "../../../renderer/draw/facts/part-fields.ts";
import type { FieldGroup } from "../../../renderer/draw/facts/part-fields.ts";
import { wireGroups } from "../../../renderer/draw/facts/wire-fields.ts";
import { EditorStore } from "../../../renderer/window/editor-store.ts";

const nothingAsked = askedIn(null);

/** A battery, two fuses, wires between them. */
function store(): EditorStore {
  const made = new EditorStore(newProject(), {
    opened: () => undefined,
    edited: () => undefined,
    mend: () => undefined,
  });
  made.perform(addPart, { kind: "battery-block" });
  made.perform(addPart, { kind: "fuse", parameters: { rating: "100" } });
  made.perform(addPart, { kind: "fuse" });
  made.perform(connect, { from: ["p1", "+"], to: ["p2", "1"], fields: { size: "50 mm2" } });
  made.perform(connect, { from: ["p2", "2"], to: ["p3", "1"] });
  made.perform(addZone, { kind: "engine" });
  return made;
}

function field(groups: readonly FieldGroup[], name: string): FieldModel {
  const found = groups.flatMap(({ fields }) => fields).find((each) => each.name === name);
  if (found === undefined) throw new Error(`There is no field ${name}.`);
  return found;
}

const partField = (at: EditorStore, name: string, ...ids: string[]): FieldModel =>
  field(
    partGroups(
      at,
      at.project,
      at.project.parts.filter(({ id }) => ids.includes(id)),
      nothingAsked,
    ),
    name,
  );
const wireField = (at: EditorStore, name: string, ...ids: string[]): FieldModel =>
  field(
    wireGroups(
      at,
      at.project,
      at.project.wires.filter(({ id }) => ids.includes(id)),
      nothingAsked,
      "mm2",
    ),
    name,
  );

describe("a part", () => {
  it("tells stated, usual, not known and empty apart, and takes each of them", () => {
    const at = store();
    expect(markOf(partField(at, "rating", "p2"))).toBe("stated");
    expect(markOf(partField(at, "rating", "p3"))).toBe("empty");
    expect(markOf({ ...partField(at, "rating", "p3"), asked: 2 })).toBe("missing");
    expect(partField(at, "rating", "p3").set("4k")).toBeUndefined();
    expect(partField(at, "rating", "p3").value).toBe("4 kA");
    expect(partField(at, "rating", "p3").set(null)).toBeUndefined();
    expect(markOf(partField(at, "rating", "p3"))).toBe("unknown");
    expect(partField(at, "rating", "p3").set(undefined)).toBeUndefined();
    expect(at.project.parts[2]?.parameters).not.toHaveProperty("rating");
    expect(markOf(partField(at, "cells", "p1"))).toBe("usual");
  });

  it("refuses in one sentence, without the name of a file's field, and changes nothing", () => {
    const at = store();
    const before = at.project;
    expect(partField(at, "rating", "p2").set("much")).toMatch(/^"much" cannot be taken: .*\.$/);
    expect(partField(at, "designation", "p2").set("G 1")).toMatch(/is no designation/);
    expect(at.project).toBe(before);
    // The sentence stands under the field; the notice at the foot stays free for others.
    expect(at.now.notice).toBeNull();
  });

  it("of one kind: several take a value together; of different kinds: only what they share", () => {
    const at = store();
    expect(markOf(partField(at, "rating", "p2", "p3"))).toBe("mixed");
    partField(at, "rating", "p2", "p3").set("63 A");
    expect(at.project.parts.map(({ parameters }) => parameters["rating"])).toEqual([undefined, "63 A", "63 A"]);
    expect(at.now.history.past.at(-1)?.label).toBe("Set 2 parameters");
    expect(() => partField(at, "rating", "p1", "p2")).toThrow();
    partField(at, "zone", "p1", "p2").set("z1");
    expect(at.project.parts.map(({ zone }) => zone)).toEqual(["z1", "z1", undefined]);
  });
});

describe("a wire", () => {
  it("shows its size in the other system and keeps it as typed", () => {
    const at = store();
    wireField(at, "size", "w1").set("2/0");
    const size = wireField(at, "size", "w1");
    expect(size.value).toBe("2/0 AWG");
    // 67.4 mm2: ASTM B258.
    expect(size.also).toBe("67.4 mm2 (2/0 AWG)");
  });

  it("states each end by itself; what was never stated at either end is not in the file", () => {
    const at = store();
    wireField(at, "lugs", "w1").set("m8");
    wireField(at, "boots B", "w1").set("yes");
    expect(at.project.wires[0]).toMatchObject({ lugs: ["M8", null], boots: [null, true] });
    expect(wireField(at, "lugs", "w1").set("large")).toContain("is no lug hole");
    wireField(at, "boots B", "w1").set(undefined);
    expect(at.project.wires[0]).not.toHaveProperty("boots");
  });

  it("states its insulation in parts and its zones one by one", () => {
    const at = store();
    wireField(at, "insulation.volts", "w1", "w2").set("600");
    wireField(at, "insulation.material", "w2").set("silicone");
    expect(at.project.wires.map(({ insulation }) => insulation)).toEqual([
      { volts: "600 V" },
      { volts: "600 V", material: "silicone" },
    ]);
    wireField(at, "insulation.volts", "w1").set(undefined);
    expect(at.project.wires[0]).not.toHaveProperty("insulation");
    wireField(at, "zones z1", "w2").set("yes");
    expect(at.project.wires[1]?.zones).toEqual(["z1"]);
    wireField(at, "zones z1", "w2").set(undefined);
    expect(at.project.wires[1]).not.toHaveProperty("zones");
  });
});

describe("places of one part", () => {
  it("takes its place on the panel, the places of its terminals and its fixed covers, and clears them again", () => {
    const at = store();
    const fuse = () => at.project.parts.find(({ id }) => id === "p2");
    expect(partField(at, "panel", "p2").set("40, 25")).toBeUndefined();
    expect(fuse()?.panel).toEqual({ x: 40, y: 25 });
    expect(partField(at, "panel", "p2").value).toBe("40, 25 mm");
    expect(partField(at, "panel", "p2").set("left of the lid")).toMatch(
      /^"left of the lid" is no place\. Write two lengths/,
    );
    expect(partField(at, "face", "p2").value).toBeUndefined();
    expect(partField(at, "face", "p2").usual).toMatch(/^-?[\d.]+, -?[\d.]+ mm$/);
    expect(partField(at, "face", "p2").set("5.5 mm 12 mm")).toBeUndefined();
    expect(fuse()?.face).toEqual({ "1": [5.5, 12] });
    expect(partField(at, "face", "p2").set(undefined)).toBeUndefined();
    expect(fuse()?.face).toBeUndefined();
    expect(partField(at, "covers 2", "p2").set("yes")).toBeUndefined();
    expect(partField(at, "covers", "p2").set("yes")).toBeUndefined();
    expect(fuse()?.covers).toEqual(["2", "1"]);
    expect(partField(at, "covers 2", "p2").set(undefined)).toBeUndefined();
    expect(partField(at, "covers", "p2").set(undefined)).toBeUndefined();
    expect(fuse()?.covers).toBeUndefined();
    expect(partField(at, "panel", "p2").set(undefined)).toBeUndefined();
    expect(fuse()?.panel).toBeUndefined();
  });

  it("is asked for one part at a time", () => {
    expect(() => partField(store(), "panel", "p2", "p3")).toThrow("no field panel");
  });
});

describe("the drawing", () => {
  it("takes title block, paper and zones", () => {
    const at = store();
    titleFields(at, at.project.title, nothingAsked)
      .find(({ name }) => name === "owner")
      ?.set("Village workshop");
    expect(at.project.title.owner).toBe("Village workshop");
    const [sheet] = at.project.sheets;
    const [zone] = at.project.zones;
    if (sheet === undefined || zone === undefined) throw new Error("A new drawing has a sheet, and a zone was added.");
    sheetFields(at, sheet)
      .find(({ name }) => name === "sheet-paper")
      ?.set("A4");
    expect(at.project.sheets[0]?.paper).toBe("A4");
    const ambient = zoneFields(at, zone, nothingAsked).find(({ name }) => name === "z1 ambient");
    expect(ambient?.set("85C")).toBeUndefined();
    expect(at.project.zones[0]?.ambient).toBe("85 °C");
    expect(ambient?.set("hot")).toMatch(/^"hot" cannot be taken/);
  });
});
