/**
 * Missing data is never a pass: taking any stated field out of a sound drawing moves no check at any place to
 * "passes". Every run takes one field of each sort, chosen by a seed that changes with the sort; with
 * LOOMWRIGHT_LONG=1 it takes them all.
 */
import { describe, expect, it } from "vitest";
import { CHECKS } from "../../core/checks/catalogue.ts";
import { placeId } from "../../core/checks/finding.ts";
import { runCheck } from "../../core/checks/run.ts";
import { analyse } from "../../core/circuit/analyse.ts";
import type { Project } from "../../core/project/document.ts";
import { readProject } from "../../core/project/read.ts";
import { writeProject } from "../../core/project/write.ts";
import { demos, isFaulty } from "./demo-files.ts";
import { statedFields, type StatedField } from "./stated-fields.ts";

const SEED = 20261125;
const all = process.env["LOOMWRIGHT_LONG"] === "1";

/** "check place" of everything that passes. */
function passes(project: Project): ReadonlySet<string> {
  const analysis = analyse(project);
  const found = new Set<string>();
  for (const check of CHECKS) {
    if (check.runLast !== undefined) continue;
    const outcome = runCheck(check, analysis);
    expect(outcome.broke, check.id).toBeNull();
    for (const place of outcome.passed) found.add(`${check.id} ${placeId(place)}`);
  }
  return found;
}

/** FNV-1a: the same choice every time, another one for each sort. */
function hash(text: string): number {
  let value = 0x811c9dc5 ^ SEED;
  for (let i = 0; i < text.length; i++) value = Math.imul(value ^ text.charCodeAt(i), 0x01000193);
  return value >>> 0;
}

function chosen(fields: readonly StatedField[], seen: Set<string>): readonly StatedField[] {
  if (all) return fields;
  const sorts = new Map<string, StatedField[]>();
  for (const field of fields) sorts.set(field.sort, [...(sorts.get(field.sort) ?? []), field]);
  const fresh = [...sorts].filter(([sort]) => !seen.has(sort));
  for (const [sort] of fresh) seen.add(sort);
  return fresh.flatMap(([sort, alike]) => alike[hash(sort) % alike.length] ?? []);
}

describe("a field taken out of a sound drawing", () => {
  const seen = new Set<string>();
  const sound = demos.filter((demo) => !isFaulty(demo));
  it.each(sound.map((demo) => [demo.name, demo] as const))(
    "%s: moves no check to passes",
    (_name, { project }) => {
      const before = passes(project);
      const fields = chosen(statedFields(project), seen);
      expect(fields.length).toBeGreaterThan(20);
      const moved = fields.flatMap((field) => {
        const without = field.without();
        const moved = [...passes(without)].filter((pass) => !before.has(pass));
        // Without its number of poles a switch lacks terminals that wires lead to: no such file can be read.
        if (moved.length > 0 && !readProject(writeProject(without)).ok) return [];
        return moved.map((pass) => `without ${field.name}: ${pass}`);
      });
      expect(moved).toEqual([]);
    },
    all ? 3_600_000 : 300_000,
  );
});
