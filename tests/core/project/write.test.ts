import fc from "fast-check";
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { Project } from "../../../core/project/document.ts";
import { startHistory } from "../../../core/project/history.ts";
import { newProject } from "../../../core/project/new-project.ts";
import { readProject } from "../../../core/project/read.ts";
import { writeProject } from "../../../core/project/write.ts";
import { edit, performEdit, smallDrawing } from "./edits.ts";
import { TEST_KINDS } from "./test-kinds.ts";

const WHOLE = readFileSync(new URL("../../files/v0001/whole.loomwright", import.meta.url), "utf8");

/** The same value with the names of every object in another order. */
function reordered(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(reordered);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([key, entry]) => [key, reordered(entry)]),
  );
}

test("the order in which fields came to be does not show", () => {
  expect(writeProject(reordered(JSON.parse(WHOLE)) as Project)).toBe(WHOLE);
});

test("a part or wire a line, so that one change is one line", () => {
  const lines = writeProject(smallDrawing()).split("\n");
  expect(lines.filter((line) => line.startsWith('{"id":"p'))).toHaveLength(5);
  expect(lines.filter((line) => line.startsWith('{"id":"w'))).toHaveLength(1);
  expect(lines.at(-1)).toBe("");
});

const free = fc.jsonValue({ maxDepth: 4, stringUnit: "grapheme" }).filter((value) => {
  // -0 is written as 0, as JSON has it.
  return !JSON.stringify(value).match(/__proto__|constructor|prototype|\\u00|\\u007f|\u007f/) && !hasMinusZero(value);
});
function hasMinusZero(value: unknown): boolean {
  if (typeof value === "object" && value !== null) return Object.values(value).some(hasMinusZero);
  return Object.is(value, -0);
}

test("what is written reads back equal, whatever stands under extra", () => {
  fc.assert(
    fc.property(fc.array(edit, { maxLength: 30 }), free, (edits, extra) => {
      const project = { ...edits.reduce(performEdit, startHistory(smallDrawing())).present, extra };
      const text = writeProject(project);
      expect(readProject(text, TEST_KINDS)).toEqual({ ok: true, project, notes: [] });
      expect(writeProject(project)).toBe(text);
    }),
    { numRuns: 150 },
  );
});

test("an empty project is short", () => {
  expect(writeProject(newProject())).toBe(
    [
      "{",
      '"format":"loomwright-project",',
      '"version":1,',
      '"title":{},',
      '"sheets":[',
      '{"id":"s1","name":"1","paper":"A3","orientation":"landscape"}',
      "],",
      '"zones":[],',
      '"enclosures":[],',
      '"cables":[],',
      '"parts":[],',
      '"wires":[],',
      '"netNames":[],',
      '"states":[],',
      '"accepted":[],',
      '"readings":[],',
      '"progress":[],',
      '"revisions":[],',
      '"presets":[],',
      '"lastIds":{"p":0,"w":0,"s":1,"c":0,"z":0,"e":0}',
      "}",
      "",
    ].join("\n"),
  );
});
