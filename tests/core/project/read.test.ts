import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { Project } from "../../../core/project/document.ts";
import { newProject } from "../../../core/project/new-project.ts";
import { readProject } from "../../../core/project/read.ts";
import { writeProject } from "../../../core/project/write.ts";
import { TEST_KINDS } from "./test-kinds.ts";

const FILES = new URL("../../files/v0001/", import.meta.url);
const file = (name: string): string => readFileSync(new URL(name, FILES), "utf8");

function read(text: string): Project {
  const result = readProject(text, TEST_KINDS);
  if (!result.ok) throw new Error(result.problems.join("\n"));
  return result.project;
}

describe("frozen files of version 1", () => {
  test("the whole one is written back byte for byte", () => {
    expect(writeProject(read(file("whole.loomwright")))).toBe(file("whole.loomwright"));
  });

  test("lists that are left out are empty", () => {
    expect(read(file("smallest.loomwright"))).toEqual({
      ...newProject(),
      sheets: [],
      lastIds: { p: 0, w: 0, s: 0, c: 0, z: 0, e: 0 },
    });
  });

  test("there are at least two of them", () => {
    expect(readdirSync(FILES).filter((name) => name.endsWith(".loomwright")).length).toBeGreaterThanOrEqual(2);
  });
});

describe("normal form", () => {
  const part = (parameters: object): string =>
    JSON.stringify({
      ...newProject(),
      parts: [{ id: "p1", designation: "G1", kind: "battery-block", parameters }],
      wires: [
        {
          id: "w1",
          number: "1",
          ends: [null, null],
          size: "35mm²",
          length: "40 cm",
          colour: "red",
          lugs: ["m8", null],
        },
      ],
    });

  test("typed values come out tidied; null stays null; a gauge stays a gauge", () => {
    const project = read(part({ resistance: "4k7", cells: "6", chemistry: null }));
    expect(project.parts[0]?.parameters).toEqual({ resistance: "4.7 kohm", cells: "6", chemistry: null });
    expect(project.wires[0]).toMatchObject({ size: "35 mm2", colour: "RD", lugs: ["M8", null] });
    const gauge = read(part({}).replace("35mm²", "2/0"));
    expect(gauge.wires[0]?.size).toBe("2/0 AWG");
  });

  test("what is normal stays the same on a second reading", () => {
    const once = read(part({ resistance: "4k7" }));
    expect(read(writeProject(once))).toEqual(once);
  });

  test("a byte order mark and Windows line ends do no harm", () => {
    expect(read(`\uFEFF${file("whole.loomwright").replaceAll("\n", "\r\n")}`)).toEqual(read(file("whole.loomwright")));
  });

  test("counters of ids that lag behind are raised, so that no id is given out twice", () => {
    const lagging = file("whole.loomwright").replace('"lastIds":{"p":6,', '"lastIds":{"p":2,');
    expect(read(lagging).lastIds).toEqual({ p: 6, w: 2, s: 2, c: 1, z: 3, e: 1 });
  });
});

describe("an unfinished drawing is a drawing", () => {
  test("loose wires, equal designations, missing data, unplaced views", () => {
    const text = JSON.stringify({
      ...newProject(),
      parts: [
        { id: "p1", designation: "F1", kind: "fuse" },
        { id: "p2", designation: "F1", kind: "fuse", parameters: { rating: null } },
      ],
      wires: [
        { id: "w1", number: "", ends: [null, null] },
        { id: "w2", number: "", ends: [["p1", "1"], null] },
      ],
    });
    expect(read(text).wires).toHaveLength(2);
  });
});
