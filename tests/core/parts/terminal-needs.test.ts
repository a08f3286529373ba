import { expect, test } from "vitest";
import { KINDS } from "../../../core/parts/catalogue.ts";
import { readValues } from "../../../core/parts/values.ts";
import { neededBy, oneThrowAtLeast, together } from "../../../core/parts/terminal-needs.ts";
import { terminal } from "../../../core/parts/plain-face.ts";

const row = ["a", "b", "c"].map((id) => terminal(id, "tab", false, id));

test("of a group each needs every other", () => {
  expect(together(row, ["a", "b"]).map(({ neededWith }) => neededWith)).toEqual([["b"], ["a"], undefined]);
});

test("a return is needed by its signals, they are not needed by it", () => {
  expect(neededBy(row, "c", "a", "b").map(({ neededWith }) => neededWith)).toEqual([undefined, undefined, ["a", "b"]]);
});

test("a changeover contact needs one throw, whichever", () => {
  const [common, first, other] = oneThrowAtLeast(row, "a", ["b", "c"]);
  expect(common?.neededWith).toEqual(["b", "c"]);
  expect([first?.neededWith, first?.unless]).toEqual([["a"], ["c"]]);
  expect(other?.neededWith).toBeUndefined();
});

test("what decides whether a terminal is required is a parameter of its kind, and settles it once stated", () => {
  let decided = 0;
  for (const kind of KINDS.values()) {
    for (const { id, undecided } of kind.terminals(readValues(kind, {}))) {
      if (undecided === undefined) continue;
      const spec = kind.parameters[undecided];
      if (spec === undefined || !("choices" in spec)) throw new Error(`${kind.kind}:${id} waits for ${undecided}`);
      for (const choice of spec.choices) {
        const after = kind.terminals(readValues(kind, { [undecided]: choice })).find((each) => each.id === id);
        expect(after?.undecided, `${kind.kind}:${id} with ${undecided} ${choice}`).toBeUndefined();
        decided += 1;
      }
    }
  }
  // A charger's mains (three terminals), the logic return of two controllers, a converter's enable.
  expect(decided).toBeGreaterThanOrEqual(6);
});
