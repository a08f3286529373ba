/** The shelf knows the trade's other names: a part is found by what people call it. */
import { describe, expect, it } from "vitest";
import { KINDS } from "../../../core/parts/catalogue.ts";
import { findKinds, shelfGroups } from "../../../renderer/draw/shelf/shelf-search.ts";

const kinds = (typed: string): readonly string[] => findKinds(typed).map(({ kind }) => kind.kind);

describe("a part is found", () => {
  it.each([
    ["fuse", "fuse"],
    ["FUSE", "fuse"],
    ["kill switch", "emergency-stop"],
    ["isolator", "manual-disconnect"],
    ["solenoid", "contactor"],
    ["bus bar", "busbar"],
    ["dc controller", "dc-controller"],
    ["dc-dc", "dc-dc-converter"],
    ["bulb", "lamp"],
  ])("%s: %s", (typed, kind) => {
    expect(kinds(typed)).toContain(kind);
  });

  it("by its own title before those that only share a word", () => {
    expect(kinds("relay")[0]).toBe("relay");
    expect(kinds("fuse")[0]).toBe("fuse");
    expect(kinds("battery pack")[0]).toBe("battery-pack");
  });

  it("by every title and every other name that a kind has", () => {
    for (const kind of KINDS.values())
      for (const name of [kind.title, ...kind.words]) expect(kinds(name), name).toContain(kind.kind);
  });

  it("with the name that was met beside it, unless that is its title", () => {
    const contactor = findKinds("solenoid").find(({ kind }) => kind.kind === "contactor");
    expect(contactor?.met?.toLowerCase()).toContain("solenoid");
    expect(findKinds("contactor").find(({ kind }) => kind.kind === "contactor")?.met).toBeUndefined();
  });

  it("and what nobody calls a part finds none", () => {
    expect(kinds("spinning wheel")).toEqual([]);
  });
});

describe("with nothing typed", () => {
  it("every kind stands on the shelf once, by group", () => {
    const shown = shelfGroups("", []).flatMap(({ rows }) => rows.map(({ kind }) => kind.kind));
    expect([...shown].sort()).toEqual([...KINDS.keys()].sort());
  });

  it("what the drawing uses most stands first", () => {
    const part = (id: string, kind: string) => ({ id, kind, designation: id, parameters: {}, views: [] });
    const [first] = shelfGroups(" ", [part("p1", "lamp"), part("p2", "fuse"), part("p3", "fuse")]);
    expect(first?.rows.map(({ kind }) => kind.kind)).toEqual(["fuse", "lamp"]);
  });
});
