import fc from "fast-check";
import { expect, test } from "vitest";
import { KINDS } from "../../../core/parts/catalogue.ts";
import type { Project } from "../../../core/project/document.ts";
import { knownPart } from "../../../core/project/lookup.ts";
import { newProject } from "../../../core/project/new-project.ts";
import { readProject } from "../../../core/project/read.ts";
import { writeProject } from "../../../core/project/write.ts";
import { processorTime } from "./processor-time.ts";

test("a part of every kind, with every view placed and every default stated, can be saved and read back", () => {
  const [sheet] = newProject().sheets;
  const project: Project = {
    ...newProject(),
    parts: [...KINDS.values()].map((kind, index) => {
      const defaults = Object.entries(kind.parameters).flatMap(([name, spec]) =>
        spec.default === undefined ? [] : [[name, spec.default] as const],
      );
      const part = {
        id: `p${index + 1}`,
        designation: `${kind.letter}1`,
        kind: kind.kind,
        parameters: Object.fromEntries(defaults),
      };
      const views = knownPart({ ...part, views: [] }, KINDS)?.views() ?? [];
      const place = { sheet: sheet?.id ?? "", x: 50, y: 50, turn: 0 as const, mirrored: false };
      return { ...part, views: views.map(({ id }) => ({ view: id, ...place })) };
    }),
    lastIds: { ...newProject().lastIds, p: KINDS.size },
  };
  const once = readProject(writeProject(project));
  if (!once.ok) throw new Error(once.problems.join("\n"));
  expect(once.project.parts).toHaveLength(KINDS.size);
  expect(readProject(writeProject(once.project))).toEqual(once);
});

test("whatever stands as a value in a part of any kind, there is an answer, quickly", () => {
  const kinds = [...KINDS.values()];
  const odd = fc.constantFrom(
    "0",
    "1",
    "64",
    "999999999",
    "1e9",
    "-1",
    "0.5",
    "1/3",
    "yes",
    "",
    " ",
    "∞",
    "0x10",
    "2:100 s; 5:0.5 s",
    "a+b*c",
    "((((",
    null,
  );
  const everything = fc.property(
    fc.constantFrom(...kinds).chain((kind) => {
      const names = [...Object.keys(kind.parameters), "note", "finish"];
      return fc.tuple(
        fc.constant(kind),
        fc.dictionary(fc.constantFrom(...names), fc.oneof(odd, fc.string()), { maxKeys: 4 }),
      );
    }),
    ([kind, parameters]) => {
      const part = {
        id: "p1",
        designation: "X1",
        kind: kind.kind,
        parameters,
        views: [{ view: "nowhere", sheet: "s1", x: 0, y: 0 }],
      };
      const result = readProject(JSON.stringify({ ...newProject(), parts: [part] }));
      expect(result.ok ? [] : result.problems.filter((sentence) => !/^[^\n]+[.?]$/.test(sentence))).toEqual([]);
      expect(result.ok).toBe(false);
    },
  );
  // 1,500 drawings of one part take well below a second; the bound only has to catch what grows out of hand.
  expect(processorTime(() => fc.assert(everything, { numRuns: 1500 }))).toBeLessThan(10_000);
});
