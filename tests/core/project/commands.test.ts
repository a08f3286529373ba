import { describe, expect, test } from "vitest";
import { addEnclosure } from "../../../core/project/commands/add-enclosure.ts";
import { addPart } from "../../../core/project/commands/add-part.ts";
import { addZone } from "../../../core/project/commands/add-zone.ts";
import { connect } from "../../../core/project/commands/connect.ts";
import { execute, Refused } from "../../../core/project/commands/define.ts";
import type { Command } from "../../../core/project/commands/define.ts";
import { deleteEntries } from "../../../core/project/commands/delete.ts";
import { moveView } from "../../../core/project/commands/move-view.ts";
import { rename } from "../../../core/project/commands/rename.ts";
import { setEnclosure } from "../../../core/project/commands/set-enclosure.ts";
import { setParameter } from "../../../core/project/commands/set-parameter.ts";
import { setSheet } from "../../../core/project/commands/set-sheet.ts";
import { setWireField } from "../../../core/project/commands/set-wire-field.ts";
import { setZone } from "../../../core/project/commands/set-zone.ts";
import { swapWireEnds } from "../../../core/project/commands/swap-wire-ends.ts";
import { turnView } from "../../../core/project/commands/turn-view.ts";
import { compareNatural, nextDesignation } from "../../../core/project/designation.ts";
import type { Project } from "../../../core/project/document.ts";
import { wiresAt } from "../../../core/project/lookup.ts";
import { newProject } from "../../../core/project/new-project.ts";
import { TEST_KINDS } from "./test-kinds.ts";

const run = <A, R>(project: Project, command: Command<A, R>, given: A): Project =>
  execute(project, command, given, TEST_KINDS).project;
const refusal = <A, R>(project: Project, command: Command<A, R>, given: A): string => {
  try {
    run(project, command, given);
  } catch (thrown) {
    if (thrown instanceof Refused) return thrown.message;
    throw thrown;
  }
  return "";
};

/** G1 - F1 - X1 (a busbar of four) - F2, wires w1 to w3. */
const CHAIN = [
  (at: Project) => run(at, addPart, { kind: "battery-block" }),
  (at: Project) => run(at, addPart, { kind: "fuse", parameters: { rating: "125" } }),
  (at: Project) => run(at, addPart, { kind: "busbar" }),
  (at: Project) => run(at, addPart, { kind: "fuse", parameters: { "finish-2": "booted" } }),
  (at: Project) =>
    run(at, connect, { from: ["p1", "+"], to: ["p2", "1"], fields: { size: "2/0", boots: [true, false] } }),
  (at: Project) => run(at, connect, { from: ["p2", "2"], to: ["p3", "1"] }),
  (at: Project) => run(at, connect, { from: ["p3", "4"], to: ["p4", "1"] }),
].reduce((project, step) => step(project), newProject());

describe("names", () => {
  test("new parts take the next free designation of their letter, new wires the next number", () => {
    expect(CHAIN.parts.map(({ designation }) => designation)).toEqual(["G1", "F1", "X1", "F2"]);
    expect(CHAIN.wires.map(({ number }) => number)).toEqual(["W1", "W2", "W3"]);
    expect(nextDesignation(run(CHAIN, rename, { what: "part", id: "p2", name: "F7" }), "F")).toBe("F1");
  });

  test("natural order: numbers by size, whatever the language of the machine", () => {
    expect(["F10:1", "F2:2", "F2:10", "F2", "f1", "F02:3", "B+", "B-", "F2a"].sort(compareNatural)).toEqual(
      ["B+", "B-", "F2", "F2:2", "F2:10", "F2a", "F02:3", "F10:1", "f1"].sort(compareNatural),
    );
    expect(["W10", "W9", "W1"].sort(compareNatural)).toEqual(["W1", "W9", "W10"]);
    expect(["F2:10", "F2:9", "F1:11"].sort(compareNatural)).toEqual(["F1:11", "F2:9", "F2:10"]);
  });
});

describe("deleting", () => {
  test("a part's wires stay, loose at that end; with the other part gone too they go", () => {
    expect(run(CHAIN, deleteEntries, { parts: ["p2"] }).wires.map(({ ends }) => ends)).toEqual([
      [["p1", "+"], null],
      [null, ["p3", "1"]],
      [
        ["p3", "4"],
        ["p4", "1"],
      ],
    ]);
    expect(run(CHAIN, deleteEntries, { parts: ["p1", "p2"] }).wires.map(({ id }) => id)).toEqual(["w2", "w3"]);
    expect(refusal(CHAIN, deleteEntries, { parts: ["p9"] })).toBe(
      "There is no part with id p9. It may have been deleted.",
    );
  });
});

describe("parameters", () => {
  const set = (part: string, name: string, value: string | null | undefined) => ({ changes: [{ part, name, value }] });

  test("are stored in normal form; undefined goes back to the default", () => {
    const stated = run(CHAIN, setParameter, set("p2", "voltageDc", "0.1kV"));
    expect(stated.parts[1]?.parameters).toEqual({
      rating: "125 A",
      voltageDc: expect.stringMatching(/^(0\.1 kV|100 V)$/),
    });
    expect(run(stated, setParameter, set("p2", "voltageDc", undefined)).parts[1]?.parameters).toEqual({
      rating: "125 A",
    });
    expect(run(CHAIN, setParameter, set("p2", "rating", null)).parts[1]?.parameters).toEqual({ rating: null });
  });

  test("a terminal that goes loosens its wires and takes nothing else along", () => {
    const fewer = run(CHAIN, setParameter, set("p3", "positions", "2"));
    expect(fewer.wires[2]?.ends).toEqual([null, ["p4", "1"]]);
    expect(fewer.wires[1]).toBe(CHAIN.wires[1]);
  });

  test.each([
    ["rating", "much", /^F1, parameter rating: "much" cannot be taken: .+\.$/],
    ["ratng", "1 A", "F1, parameter ratng: fuse has no such parameter. Did you mean rating?"],
    ["constructor", "1 A", /^F1, parameter constructor: fuse has no such parameter\. Choose from: /],
  ])("%s = %s is refused", (name, value, sentence) => {
    expect(refusal(CHAIN, setParameter, set("p2", name, value))).toMatch(sentence);
  });
});

describe("wires", () => {
  test("a column of lengths at once; a cleared field is gone", () => {
    const filled = run(CHAIN, setWireField, {
      changes: ["w1", "w2", "w3"].map((wire) => ({ wire, fields: { length: "1 m", colour: "orange" } })),
    });
    expect(filled.wires.map(({ length, colour }) => [length, colour])).toEqual([
      ["1 m", "OG"],
      ["1 m", "OG"],
      ["1 m", "OG"],
    ]);
    const cleared = run(filled, setWireField, {
      changes: [{ wire: "w1", fields: { length: undefined, colour: null } }],
    });
    expect(cleared.wires[0]).toEqual({ ...CHAIN.wires[0], colour: null });
    expect(refusal(CHAIN, setWireField, { changes: [{ wire: "w1", fields: { length: "1" } }] })).toMatch(
      /^Wire W1, length: "1" cannot be taken: .*unit.*\.$/,
    );
  });

  test("swapped ends change terminals; lugs and boots stay with the wire", () => {
    const swapped = run(CHAIN, swapWireEnds, { a: { wire: "w1", end: 0 }, b: { wire: "w1", end: 1 } });
    expect(swapped.wires[0]).toEqual({
      ...CHAIN.wires[0],
      ends: [
        ["p2", "1"],
        ["p1", "+"],
      ],
    });
    const crossed = run(CHAIN, swapWireEnds, { a: { wire: "w1", end: 1 }, b: { wire: "w3", end: 0 } });
    expect(crossed.wires.map(({ ends }) => ends)).toEqual([
      [
        ["p1", "+"],
        ["p3", "4"],
      ],
      CHAIN.wires[1]?.ends,
      [
        ["p2", "1"],
        ["p4", "1"],
      ],
    ]);
    expect(wiresAt(crossed, ["p3", "4"]).map(({ id }) => id)).toEqual(["w1"]);
  });

  test("a terminal that is not there is refused with those there are", () => {
    expect(refusal(CHAIN, connect, { from: ["p2", "7"], to: null })).toBe(
      "F1 (fuse) has no terminal 7. Did you mean 1?",
    );
  });
});

/** Where a point of the symbol comes to lie: mirrored left to right first, then turned clockwise (y points down). */
function placed(point: readonly [number, number], { turn, mirrored }: { turn: number; mirrored: boolean }) {
  let [x, y] = [mirrored ? -point[0] : point[0], point[1]];
  for (let quarter = 0; quarter < turn / 90; quarter += 1) [x, y] = [-y, x];
  return [x + 0, y + 0];
}

describe("turning and mirroring", () => {
  const at = run(CHAIN, moveView, { moves: [{ part: "p2", view: "main", x: 50, y: 50 }] });
  const placement = (project: Project) => project.parts[1]?.views[0] ?? { turn: 0, mirrored: false };
  const turned = (project: Project, how: "clockwise" | "half" | "anticlockwise" | "mirror"): Project =>
    run(project, turnView, { part: "p2", view: "main", how });

  test.each([0, 1, 2, 3])("after %i quarter turns, each does on the sheet what it says", (quarters) => {
    for (const first of [at, turned(at, "mirror")]) {
      let start = first;
      for (let quarter = 0; quarter < quarters; quarter += 1) start = turned(start, "clockwise");
      const [x = 0, y = 0] = placed([3, 1], placement(start));
      expect(placed([3, 1], placement(turned(start, "clockwise")))).toEqual([-y + 0, x]);
      expect(placed([3, 1], placement(turned(start, "half")))).toEqual([-x, -y]);
      expect(placed([3, 1], placement(turned(start, "anticlockwise")))).toEqual([y, -x]);
      expect(placed([3, 1], placement(turned(start, "mirror")))).toEqual([-x, y]);
    }
  });

  test("off the grid is refused", () => {
    expect(refusal(at, moveView, { moves: [{ part: "p2", view: "main", x: 51, y: 50 }] })).toBe(
      "F1: 51 mm is off the grid. Choose a multiple of 2.5 mm.",
    );
  });
});

describe("paper, zones and enclosures", () => {
  const zoned = run(run(CHAIN, addZone, { kind: "engine", name: "Bay" }), addEnclosure, { name: "Box" });

  test("a sheet changes its paper and keeps its name", () => {
    const sheet = CHAIN.sheets[0]?.id ?? "";
    const after = run(CHAIN, setSheet, { sheet, fields: { paper: "A4" } });
    expect(after.sheets[0]).toEqual({ ...CHAIN.sheets[0], paper: "A4" });
    expect(refusal(CHAIN, setSheet, { sheet: "s99", fields: {} })).toContain("s99");
  });

  test("a zone's temperature is read, can be unknown, can be taken back; nonsense is refused with the zone named", () => {
    const stated = run(zoned, setZone, { zone: "z1", fields: { ambient: "85C" } });
    expect(stated.zones[0]?.ambient).toBe("85 °C");
    expect(run(stated, setZone, { zone: "z1", fields: { ambient: null } }).zones[0]?.ambient).toBeNull();
    expect(run(stated, setZone, { zone: "z1", fields: { kind: "luggage" } }).zones[0]).toMatchObject({
      kind: "luggage",
      ambient: "85 °C",
    });
    expect(run(stated, setZone, { zone: "z1", fields: { ambient: undefined } }).zones[0]).not.toHaveProperty("ambient");
    expect(refusal(zoned, setZone, { zone: "z1", fields: { ambient: "hot" } })).toMatch(/^Zone Bay, ambient: "hot"/);
  });

  test("an enclosure states one thing at a time", () => {
    const shut = run(zoned, setEnclosure, { enclosure: "e1", fields: { toolClosed: true, zone: "z1" } });
    expect(shut.enclosures[0]).toEqual({ id: "e1", name: "Box", toolClosed: true, zone: "z1" });
    expect(run(shut, setEnclosure, { enclosure: "e1", fields: { zone: undefined } }).enclosures[0]).toEqual({
      id: "e1",
      name: "Box",
      toolClosed: true,
    });
    expect(refusal(zoned, setEnclosure, { enclosure: "e1", fields: { zone: "z9" } })).toContain("z9");
  });
});
